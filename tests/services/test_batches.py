import pytest

from shopassist.core.batch import Typed
from shopassist.core.errors import RefusedError, StoreError
from shopassist.core.quantities import Kelvin, Kilogram, UtcSecond
from shopassist.services.batches import BatchService
from shopassist.services.in_hand import InHand
from tests.fakes import HandClock, MemoryJournal, MemoryState


@pytest.fixture
def clock() -> HandClock:
    return HandClock()


@pytest.fixture
def journal(clock: HandClock) -> MemoryJournal:
    return MemoryJournal(clock)


@pytest.fixture
def batches(journal: MemoryJournal, clock: HandClock) -> BatchService:
    return BatchService(journal, clock)


def test_a_batch_is_the_same_after_a_restart(
    batches: BatchService, journal: MemoryJournal, clock: HandClock
) -> None:
    batch_id = batches.open("Knobs")
    batches.enter(batch_id, "amount", Typed("214 ml", 2.14e-4))
    batches.weigh(batch_id, 1, "a", Kilogram(0.1794))
    batches.hardener_in(batch_id, 1, UtcSecond(clock.utc - 60))
    batches.poured(batch_id)
    batches.add_temperature(
        batch_id, Kelvin(294.0), Kelvin(295.0), "resin", since=UtcSecond(clock.utc - 600)
    )
    batches.see(batch_id, "strings")
    batches.close(batch_id, "good")
    batches.note(batch_id, "cold")
    batches.next_time(batch_id, "warmer")
    batches.name(batch_id, "Knobs 1")
    again = BatchService(journal, clock)
    assert again.get(batch_id) == batches.get(batch_id)
    assert again.ids() == (batch_id,)


def test_a_repeat_takes_over_the_job_card(batches: BatchService) -> None:
    first = batches.open("Knobs")
    batches.use_sheet(first, "slow", 1)
    batches.enter(first, "amount", Typed("214 ml", 2.14e-4))
    batches.enter(first, "note_to_self", Typed("not on the card", None))
    second = batches.open("", again_of=first)
    assert batches.get(second).name == "Batch 2"
    assert batches.get(second).entries["amount"].text == "214 ml"
    assert batches.get(second).sheet == ("slow", 1)
    assert "note_to_self" not in batches.get(second).entries
    assert [card.batch_id for card in batches.cards()] == [second, first]


def test_an_entry_that_changes_nothing_writes_nothing(
    batches: BatchService, journal: MemoryJournal
) -> None:
    batch_id = batches.open()
    batches.enter(batch_id, "waste", Typed("8 %", 0.08))
    before = len(journal.rows)
    batches.enter(batch_id, "waste", Typed("8 %", 0.08))
    batches.enter(batch_id, "colour", None)
    assert len(journal.rows) == before


def test_undo_steps_back_until_the_first_entry(batches: BatchService) -> None:
    batch_id = batches.open()
    batches.enter(batch_id, "waste", Typed("8 %", 0.08))
    batches.enter(batch_id, "waste", Typed("9 %", 0.09))
    assert batches.undo(batch_id) == "waste"
    assert batches.get(batch_id).entries["waste"].text == "8 %"
    assert batches.undo(batch_id) == "waste"
    assert batches.get(batch_id).entries == {}
    assert batches.undo(batch_id) is None


def test_a_weight_is_corrected_only_with_a_reason_once_it_reacts(
    batches: BatchService, journal: MemoryJournal
) -> None:
    batch_id = batches.open()
    batches.weigh(batch_id, 1, "a", Kilogram(0.1))
    batches.weigh(batch_id, 1, "a", Kilogram(0.11))
    batches.hardener_in(batch_id, 1)
    with pytest.raises(RefusedError):
        batches.weigh(batch_id, 1, "a", Kilogram(0.12))
    batches.weigh(batch_id, 1, "a", Kilogram(0.12), "read the wrong line")
    assert batches.get(batch_id).cup(1).weighed["a"].mass == 0.12
    assert journal.rows[-1].body["corrects"] == journal.rows[2].seq


def test_hardener_goes_in_once_and_its_time_is_corrected_with_a_reason(
    batches: BatchService, clock: HandClock
) -> None:
    batch_id = batches.open()
    batches.hardener_in(batch_id, 1)
    with pytest.raises(RefusedError):
        batches.hardener_in(batch_id, 1)
    batches.hardener_in(batch_id, 1, UtcSecond(clock.utc - 300), "sticky hands")
    assert batches.get(batch_id).first_contact == clock.utc - 300


def test_nothing_is_poured_before_it_is_mixed(batches: BatchService) -> None:
    with pytest.raises(RefusedError):
        batches.poured(batches.open())


def test_a_pour_told_too_early_is_taken_back_and_the_one_before_stands(
    batches: BatchService, clock: HandClock
) -> None:
    batch_id = batches.open()
    batches.hardener_in(batch_id, 1)
    batches.poured(batch_id)
    first = batches.get(batch_id)
    clock.advance(600)
    batches.hardener_in(batch_id, 2)
    batches.poured(batch_id)
    batches.not_poured(batch_id)
    batch = batches.get(batch_id)
    assert (batch.poured, batch.poured_by) == (first.poured, first.poured_by)
    assert not batch.is_poured
    with pytest.raises(RefusedError):
        batches.not_poured(batch_id)


def test_a_pour_is_not_taken_back_from_under_pressure_nor_from_what_is_finished(
    batches: BatchService,
) -> None:
    pressed, finished = batches.open(), batches.open()
    for batch_id in (pressed, finished):
        batches.hardener_in(batch_id, 1)
        batches.poured(batch_id)
    batches.load(pressed, "pot")
    batches.close(finished, "good")
    for batch_id in (pressed, finished):
        with pytest.raises(RefusedError):
            batches.not_poured(batch_id)
        assert batches.get(batch_id).is_poured


@pytest.mark.parametrize("act", ["see", "close"])
def test_words_that_mean_nothing_are_refused(batches: BatchService, act: str) -> None:
    with pytest.raises(RefusedError):
        getattr(batches, act)(batches.open(), "splendid")


def test_if_the_row_cannot_be_written_nothing_moves(
    batches: BatchService, journal: MemoryJournal
) -> None:
    batch_id = batches.open()
    heard: list[str] = []
    batches.changed.connect(heard.append)
    journal.full = True
    with pytest.raises(StoreError):
        batches.enter(batch_id, "amount", Typed("1 g", 0.001))
    with pytest.raises(StoreError):
        batches.open()
    assert batches.get(batch_id).entries == {}
    assert batches.ids() == (batch_id,)
    assert heard == []


def test_a_removed_batch_is_out_of_sight_and_comes_back(batches: BatchService) -> None:
    first, second = batches.open(), batches.open()
    batches.remove(second)
    assert [batch.id for batch in batches.recent(5)] == [first]
    assert [batch.id for batch in batches.recent(5, removed=True)] == [second, first]
    assert len(batches.recent(1)) == 1
    batches.remove(second, removed=False)
    assert len(batches.recent(5)) == 2


def test_the_batch_in_hand_is_kept_with_the_window(batches: BatchService) -> None:
    state = MemoryState()
    hand = InHand(batches, state)
    told: list[None] = []
    hand.changed.connect(told.append)
    first = hand.batch_for_entry()
    assert hand.batch_for_entry() == first
    hand.take_pot("big")
    assert (InHand(batches, state).batch, InHand(batches, state).pot) == (first, "big")
    batches.remove(first)
    assert hand.batch_for_entry() != first
    assert len(told) == 3


def test_a_kept_batch_that_is_not_there_any_more_gives_way_to_the_newest(
    batches: BatchService,
) -> None:
    state = MemoryState()
    state.put("batch", "9999")
    newest = batches.open()
    assert InHand(batches, state).batch == newest
