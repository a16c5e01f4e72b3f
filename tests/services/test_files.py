"""Files for others: a batch that loses nothing, a table that runs nothing, dated events."""

import csv
import json
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.errors import ShopError
from shopassist.core.messages import say
from shopassist.core.plan import Planned
from shopassist.core.quantities import Kelvin, UtcSecond
from shopassist.core.stages import STAGES
from shopassist.services.batch_file import BatchFiles
from shopassist.services.coming import events_of_dues, events_of_plan
from shopassist.services.next import Due, Rank
from shopassist.services.table import guarded, table
from tests.shops import Shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path / "one")
    yield made
    made.close()


def files(shop: Shop) -> BatchFiles:
    return BatchFiles(shop.journal, shop.batches, shop.sheets, shop.journal.newest)


def worked(shop: Shop) -> str:
    """A batch with a corrected reading, in a pot."""
    batch = shop.mixed("Knobs")
    shop.clock.advance(600)
    shop.warm(batch, 40.0)
    wrong = shop.batches.get(batch).warmth[-1].row.seq
    shop.batches.correct_temperature(batch, wrong, Kelvin(296.15), Kelvin(296.15), "a slip")
    shop.batches.poured(batch)
    shop.batches.load(batch, "big-pot")
    shop.batches.add_photo(batch, "/pictures/knob.jpg")
    shop.batches.note(batch, "=SUM(A1) and ünïcode")
    return batch


def facts(shop: Shop, batch_id: str) -> object:
    batch = shop.batches.get(batch_id)
    return (
        batch.name, batch.entries, batch.first_contact, batch.poured, batch.notes, batch.seen,
        [(each.at, each.low, each.high, each.where) for each in batch.warmth], batch.at_pressure,
        batch.photos, {n: w.mass for cup in batch.cups for n, w in cup.weighed.items()},
    )  # fmt: skip


def test_second_times_of_its_sheet_come_back_too(shop: Shop, tmp_path: Path) -> None:
    demould = {"time": "24 h", "at": "23 °C", "time_2": "8 h", "at_2": "40 °C"}
    batch = shop.mixed(sheet=shop.bare(family="amine epoxy", demould=demould))
    other = Shop(tmp_path / "two", shop.clock)
    again = other.batches.get(files(other).bring_in(files(shop).text(batch)))
    here, there = shop.cure.sheet(shop.batches.get(batch)), other.cure.sheet(again)
    assert here is not None and there is not None
    assert here.stages == there.stages
    step = there.stage("demould")
    assert step is not None and len(step.pairs) == 2
    other.close()


def test_a_batch_comes_back_with_everything(shop: Shop, tmp_path: Path) -> None:
    batch = worked(shop)
    text = files(shop).text(batch)
    other = Shop(tmp_path / "two", shop.clock)
    for name in ("A", "B"):
        other.batches.open(name)
    new = files(other).bring_in(text)
    assert facts(other, new) == facts(shop, batch)
    assert other.batches.get(new).pot == "", "its pot is another one's"
    sheet = other.batches.get(new).sheet
    assert sheet is not None
    version = other.sheets.version(*sheet)
    assert version is not None
    assert version.name == "Slow clear"
    first, again = json.loads(text), json.loads(files(other).text(new))
    count = len(first["rows"])
    for before, after in zip(first["rows"], again["rows"], strict=False):
        assert [before[k] for k in ("kind", "version", "happened")] == [
            after[k] for k in ("kind", "version", "happened")
        ]
        if before["kind"] != "sheet":
            assert before["body"] == after["body"]
    kept = again["rows"][count]
    assert kept["kind"] == "batch_imported"
    assert kept["body"]["recorded"] == [each["recorded"] for each in first["rows"]]
    assert again["sheets"][0]["mapping"] == first["sheets"][0]["mapping"]
    other.close()


def test_in_the_same_shop_it_stands_beside_the_first_with_the_same_sheet(shop: Shop) -> None:
    batch = shop.mixed("Knobs")
    new = files(shop).bring_in(files(shop).text(batch))
    assert new != batch
    assert shop.batches.get(new).sheet == shop.batches.get(batch).sheet
    assert [row.kind for row in shop.journal.read(f"batch/{new}")][-1] == "batch_imported"
    assert len(shop.sheets.all()) == 1


@pytest.mark.parametrize(
    "text",
    [
        "",
        "no json",
        "[]",
        "{}",
        '{"form": "shopassist batch", "version": 2}',
        '{"form": "shopassist batch", "version": 1}',
        '{"form": "shopassist batch", "version": 1, "rows": [{"kind": "note"}]}',
        '{"form": "shopassist batch", "version": 1, "rows": [{"kind": "opened", "body": 3}]}',
        '{"form": "shopassist batch", "version": 1, "rows": [3], "sheets": 4}',
        "x" * 32_000_001,
    ],
)
def test_what_is_no_batch_is_refused_and_nothing_is_written(shop: Shop, text: str) -> None:
    before = shop.journal.newest()
    with pytest.raises(ShopError) as refused:
        files(shop).bring_in(text)
    assert refused.value.field == "out.import_path"
    assert shop.journal.newest() == before


def test_a_sheet_that_is_broken_is_left_behind(shop: Shop) -> None:
    batch = shop.mixed("Knobs")
    whole = json.loads(files(shop).text(batch))
    whole["sheets"] = [3, {"record": "x", "version": 1, "mapping": {"name": "broken"}}]
    new = files(shop).bring_in(json.dumps(whole))
    assert shop.batches.get(new).sheet == shop.batches.get(batch).sheet


# -- table -----------------------------------------------------------------------------------------


@given(st.text(max_size=40))
def test_no_cell_of_words_begins_like_a_formula(words: str) -> None:
    assert not guarded(words).lstrip(" \u00a0\u2009").startswith(("=", "+", "-", "@", "\t", "\r"))


def test_a_table_is_read_back(shop: Shop) -> None:
    text = table(("Name", "g"), [("=1+1", 1.5), ('Über; "x", y', None)], ",")
    read = list(csv.reader(text.splitlines(), delimiter=";"))
    assert read == [["Name", "g"], ["'=1+1", "1,5"], ['Über; "x", y', ""]]
    assert table(("a",), [(0.25,)], ".").splitlines() == ["a", "0.25"]


# -- events ----------------------------------------------------------------------------------------


def test_a_hazard_is_told_twice_as_early(shop: Shop) -> None:
    def due(gate: float | None, rank: Rank) -> Due:
        at = None if gate is None else UtcSecond(gate)
        return Due(say("Look"), at, say("soon") if gate else None, rank, "plan", "Knobs", "1")

    dues = [due(None, Rank.HAZARD), due(5.0, Rank.HAZARD), due(500.0, Rank.HAZARD),
            due(600.0, Rank.LATER)]  # fmt: skip
    found = events_of_dues(dues, shop.words, 10.0)
    assert [each.lead for each in found] == [1200.0, 600.0]
    assert found[0].title == "Look (Knobs)"
    assert found[0].words == "soon"


def test_hands_on_stages_still_to_come_are_dated() -> None:
    def place(key: str, start: float, kind: str = "planned") -> Planned:
        at = UtcSecond(start)
        return Planned(key, at, at, at, kind)

    by_key = {each.key: each for each in STAGES}
    placed = [("1", "Knobs", place(key, start, kind), by_key[key]) for key, start, kind in (
        ("turn", 100.0, "planned"), ("turn", 5.0, "planned"), ("drill", 100.0, "done"),
        ("putty_set", 100.0, "planned"),
    )]  # fmt: skip
    found = events_of_plan(placed, 10.0, lambda stage: stage.key)
    assert [(each.key, each.title, each.words) for each in found] == [
        ("plan-1-turn", "Turn the profile (Knobs)", "turn")
    ]
