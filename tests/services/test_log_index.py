"""Every batch on one short line; ten years are searched at once."""

import pytest

from shopassist.core.batch import Typed
from shopassist.services.batches import BatchService
from shopassist.services.log_index import SLICE, LogIndex, Question, line_of
from tests.fakes import HandClock, MemoryJournal


class Shop:
    def __init__(self) -> None:
        self.clock = HandClock()
        self.journal = MemoryJournal(self.clock)
        self.batches = BatchService(self.journal, self.clock)

    def index(self) -> LogIndex:
        return LogIndex(self.journal, self.batches, lambda sheet: f"Sheet {sheet[0]}")


@pytest.fixture
def shop() -> Shop:
    return Shop()


def batch(shop: Shop, name: str, outcome: str = "", note: str = "") -> str:
    found = shop.batches.open(name)
    if outcome:
        shop.batches.close(found, outcome)
    if note:
        shop.batches.note(found, note)
    return found


def test_the_newest_stands_first(shop: Shop) -> None:
    one, two = batch(shop, "One"), batch(shop, "Two")
    index = shop.index()
    index.read_all()
    assert index.find(Question()) == (two, one)


def test_it_reads_in_slices_and_tells_when_it_is_whole(shop: Shop) -> None:
    for number in range(SLICE + 1):
        shop.batches.open(f"Batch {number}")
    index = shop.index()
    told: list[None] = []
    index.changed.connect(told.append)
    more = [(index.step(), index.whole) for _ in range(3)]
    assert more == [(True, False), (False, True), (False, True)]
    assert told == [None]
    assert len(index.find(Question())) == SLICE + 1


def test_every_word_must_be_there_in_any_case(shop: Shop) -> None:
    one = batch(shop, "Oak knobs", note="Froth after rain")
    batch(shop, "Oak bowls")
    shop.batches.use_sheet(one, "slow", 1)
    shop.batches.enter(one, "amount", Typed("214 ml", 2.14e-4, "CubicMetre"))
    shop.batches.next_time(one, "Warm the wood")
    shop.batches.name(one, "Ash knobs")
    index = shop.index()
    index.read_all()
    assert index.find(Question("rain ASH sheet 214 warm")) == (one,)
    assert index.find(Question("oak froth")) == ()


def test_outcomes_are_filtered_and_open_means_none_yet(shop: Shop) -> None:
    good, spoiled, opened = batch(shop, "a", "good"), batch(shop, "b", "spoiled"), batch(shop, "c")
    index = shop.index()
    index.read_all()
    assert index.find(Question(outcomes=frozenset({"spoiled"}))) == (spoiled,)
    assert index.find(Question(outcomes=frozenset({"open", "good"}))) == (opened, good)


def test_removed_ones_are_seen_when_asked_for(shop: Shop) -> None:
    one = batch(shop, "One")
    shop.batches.remove(one)
    index = shop.index()
    index.read_all()
    assert index.find(Question()) == ()
    assert index.find(Question(removed=True)) == (one,)
    shop.batches.remove(one, removed=False)
    assert index.find(Question()) == (one,)


def test_it_follows_what_happens_now(shop: Shop) -> None:
    index = shop.index()
    index.read_all()
    one = batch(shop, "One", "good", "a note")
    assert index.find(Question("note good")) == (one,)
    assert index.line(one) == line_of(shop.batches.get(one))


def test_a_batch_opened_while_it_reads_is_found_by_reading_on(shop: Shop) -> None:
    index = shop.index()
    one = batch(shop, "One")
    assert index.find(Question()) == ()
    index.read_all()
    assert index.find(Question()) == (one,)


def test_a_sheet_taken_away_is_not_found_any_more(shop: Shop) -> None:
    one = batch(shop, "One")
    shop.batches.use_sheet(one, "slow", 1)
    shop.batches.use_sheet(one, "", 0)
    index = shop.index()
    index.read_all()
    assert index.find(Question("slow")) == ()
    assert index.line(one).sheet is None
