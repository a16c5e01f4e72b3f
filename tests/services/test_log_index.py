"""Every batch on one short line; ten years are searched and compared at once."""

import pytest

from shopassist.core.batch import Batch, Typed
from shopassist.core.compare import compare
from shopassist.core.places import set_of
from shopassist.core.quantities import Kilogram
from shopassist.services.batches import BatchService
from shopassist.services.log_index import BLOCK, ROWS, SLICE, Found, LogIndex, Question
from shopassist.services.log_line import json_of, line_from, line_of
from tests.fakes import HandClock, MemoryJournal


def traits(batch: Batch) -> dict[str, str]:
    return {name: typed.text for name, typed in batch.entries.items()}


class Shop:
    def __init__(self) -> None:
        self.clock = HandClock()
        self.journal = MemoryJournal(self.clock)
        self.batches = BatchService(self.journal, self.clock)

    def index(self, *, read: bool = True) -> LogIndex:
        made = LogIndex(self.journal, self.batches, lambda sheet: f"Sheet {sheet[0]}", traits,
                        lambda _: {})  # fmt: skip
        if read:
            made.read_all()
        return made

    def batch(self, name: str, outcome: str = "", note: str = "", **entries: str) -> str:
        found = self.batches.open(name)
        for field, text in entries.items():
            self.batches.enter(found, field, Typed(text, None))
        if outcome:
            self.batches.close(found, outcome)
        if note:
            self.batches.note(found, note)
        return found


@pytest.fixture
def shop() -> Shop:
    return Shop()


def found(index: LogIndex, words: str = "", *outcomes: str, removed: bool = False) -> list[str]:
    return list(index.find(Question(words, frozenset(outcomes), removed)))


def test_the_newest_stands_first(shop: Shop) -> None:
    one, two = shop.batch("One"), shop.batch("Two")
    index = shop.index()
    assert found(index) == [two, one]
    listed = index.find(Question())
    assert (listed[0], list(listed[:9]), len(listed)) == (two, [two, one], 2)
    assert [listed.row(index.place(each)) for each in (one, two)] == [1, 0]
    assert index.find(Question("one")).row(index.place(two)) == -1
    assert index.find(Question("two")).row(index.place(one)) == -1


def test_it_reads_in_slices_and_tells_when_it_is_whole(shop: Shop) -> None:
    for number in range(ROWS + 1):
        shop.batches.open(f"Batch {number}")
    index = shop.index(read=False)
    told: list[None] = []
    index.changed.connect(told.append)
    more = [(index.step(), index.whole) for _ in range(4)]
    assert SLICE * 2 == ROWS
    assert more == [(True, False), (True, False), (False, True), (False, True)]
    assert told == [None]
    assert len(found(index)) == ROWS + 1


def test_a_step_reads_no_more_than_a_few_milliseconds_of_rows(shop: Shop) -> None:
    for number in range(3):
        one = shop.batch(f"Batch {number}")
        for turn in range(ROWS):
            shop.batches.note(one, f"note {turn}")
    index = shop.index(read=False)
    assert index.step()
    assert index.read == ROWS + 1
    assert index.line(shop.batches.ids()[0]) is None
    assert list(index.all()) == list(reversed(shop.batches.ids()))


def test_what_was_kept_is_not_read_again(shop: Shop) -> None:
    for number in range(SLICE):
        shop.batch(f"Batch {number}", "good", amount=f"{number} g")
    first = shop.index()
    assert first.read == 3 * SLICE
    again = shop.index()
    assert again.read == 0
    assert list(again.lines()) == list(first.lines())
    shop.batches.note(shop.batches.ids()[7], "changed since")
    assert shop.index().read == 4
    assert shop.index().read == 0


def test_a_line_is_kept_whole(shop: Shop) -> None:
    one = shop.batch("One", "usable", "note", amount="214 ml")
    shop.batches.use_sheet(one, "slow", 2)
    shop.batches.weigh(one, 1, "a", Kilogram(0.1))
    shop.batches.weigh(one, 2, "a", Kilogram(0.2))
    shop.batches.next_time(one, "warmer")
    line = line_of(shop.batches.get(one), {"Cups": "2"})
    assert line.resin == pytest.approx(0.3)
    assert line.hardener is None
    kept = json_of(line)
    assert isinstance(kept, dict)
    assert line_from(one, kept) == line
    bare = line_of(shop.batches.get(shop.batch("Two")), {})
    kept = json_of(bare)
    assert isinstance(kept, dict)
    assert line_from(bare.id, kept) == bare


def test_every_word_must_be_there_in_any_case(shop: Shop) -> None:
    one = shop.batch("Oak knobs", note="Froth after rain")
    shop.batch("Oak bowls")
    shop.batches.use_sheet(one, "slow", 1)
    shop.batches.enter(one, "amount", Typed("214 ml", 2.14e-4, "CubicMetre"))
    shop.batches.next_time(one, "Warm the wood")
    shop.batches.name(one, "Ash knobs")
    index = shop.index()
    assert found(index, "rain ASH sheet 214 warm") == [one]
    assert found(index, "oak froth") == []


def test_outcomes_are_filtered_and_open_means_none_yet(shop: Shop) -> None:
    good, spoiled, opened = (
        shop.batch("a", "good"), shop.batch("b", "spoiled"), shop.batch("c")
    )  # fmt: skip
    index = shop.index()
    assert found(index, "", "spoiled") == [spoiled]
    assert found(index, "", "open", "good") == [opened, good]
    shop.batches.close(opened, "spoiled")
    assert found(index, "", "open") == []
    assert found(index, "", "spoiled") == [opened, spoiled]


def test_removed_ones_are_seen_when_asked_for(shop: Shop) -> None:
    one = shop.batch("One")
    shop.batches.remove(one)
    index = shop.index()
    assert found(index) == []
    assert found(index, removed=True) == [one]
    shop.batches.remove(one, removed=False)
    assert found(index) == [one]


def test_it_follows_what_happens_now(shop: Shop) -> None:
    index = shop.index()
    one = shop.batch("One", "good", "a note", amount="5 g")
    assert found(index, "note good") == [one]
    assert index.line(one) == line_of(shop.batches.get(one), {"amount": "5 g"})


def test_a_batch_opened_while_it_reads_is_there_at_once(shop: Shop) -> None:
    two = shop.batch("Two")
    index = shop.index(read=False)
    one = shop.batch("One")
    assert list(index.all()) == [one, two]
    index.read_all()
    assert found(index) == [one, two]


def test_a_sheet_taken_away_is_not_found_any_more(shop: Shop) -> None:
    one = shop.batch("One")
    shop.batches.use_sheet(one, "slow", 1)
    shop.batches.use_sheet(one, "", 0)
    index = shop.index()
    assert found(index, "slow") == []
    line = index.line(one)
    assert line is not None
    assert line.sheet is None


def test_the_spoiled_are_compared_with_what_came_out_well_unless_some_are_marked(
    shop: Shop,
) -> None:
    for number in range(4):
        shop.batch(f"bad {number}", "spoiled", wood="oak", cup=str(number))
        shop.batch(f"good {number}", "good", wood="ash" if number else "oak", cup="1")
    shop.batch("open", wood="oak")
    index = shop.index()
    whole = index.compare(index.all(), ())
    assert (whole.ones, whole.others) == (4, 4)
    (wood,) = whole.result.shared
    assert (wood.name, wood.value, wood.others_with, wood.others_known) == ("wood", "oak", 1, 4)
    some = index.compare(index.find(Question("bad")), {shop.batches.ids()[0], "0003"})
    assert (some.ones, some.others) == (2, 2)
    assert index.compare(index.find(Question("good")), ()).ones == 0


def test_counted_by_places_or_one_by_one_a_comparison_is_the_same(shop: Shop) -> None:
    for number in range(40):
        entries = {"cup": str(number % 3)} if number % 5 else {}
        shop.batch(
            f"b {number}", ("spoiled", "good", "usable")[number % 3], wood=f"w{number % 2}",
            **entries,
        )  # fmt: skip
    index = shop.index()
    for each in shop.batches.ids()[::3]:
        shop.batches.enter(each, "wood", Typed("pine", None))
    shop.batches.enter(shop.batches.ids()[0], "cup", None)
    sides: dict[bool, list[dict[str, str]]] = {True: [], False: []}
    for each in shop.batches.ids():
        batch = shop.batches.get(each)
        sides[batch.outcome == "spoiled"].append(traits(batch))
    assert index.compare(index.all(), ()).result == compare(sides[True], sides[False])


@pytest.mark.parametrize("every", [1, 3, 1024, 2500])
def test_what_is_found_counts_from_the_newest_over_all_blocks(every: int) -> None:
    order = [str(number) for number in range(3 * BLOCK + 5)]
    listed = Found(order, set_of(range(1, len(order), every)))
    plain = order[1::every][::-1]
    assert (list(listed), len(listed)) == (plain, len(plain))
    assert [listed[number] for number in (0, -1, len(plain) // 2)] == [
        plain[number] for number in (0, -1, len(plain) // 2)
    ]
    assert list(listed[1:9]) == plain[1:9]
    assert [listed.row(int(each)) for each in plain] == list(range(len(plain)))
    assert listed.row(0) == -1
    for wrong in (len(plain), -len(plain) - 1):
        with pytest.raises(IndexError):
            _ = listed[wrong]


def test_of_what_is_found_only_what_is_in_sight_is_written_out() -> None:
    order = [str(number) for number in range(20 * BLOCK)]
    listed = Found(order, (1 << len(order)) - 1)
    assert listed[BLOCK + 3] == str(19 * BLOCK - 4)
    assert [len(each) for each in listed._blocks.values()] == [BLOCK]
    assert not Found(order, 0)
    with pytest.raises(IndexError):
        _ = Found(order, 0)[0]


def test_a_search_looks_at_the_words_and_at_no_batch(shop: Shop) -> None:
    for number in range(SLICE):
        shop.batch(f"Oak bowl {number}")
    index = shop.index()
    looked = [part for part in index._words._who if "ow" in part]
    assert looked == ["bowl"]
    assert len(index.find(Question("OW 1"))) == sum("1" in str(n) for n in range(SLICE))


@pytest.mark.parametrize("asked", ["café", "CAFÉ", "cafe\u0301", "CAFE\u0301", "cafe"])
@pytest.mark.parametrize("named", ["Café stool", "Cafe\u0301 stool", "Cafe stool"])
def test_however_an_accent_is_written_it_is_found(shop: Shop, named: str, asked: str) -> None:
    shop.batch(named)
    assert len(shop.index().find(Question(asked))) == 1
