"""Pages of numbers, batches in the pot, and the list on paper."""

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from shopassist.core.chamber import Chamber, chamber_from_mapping
from shopassist.core.errors import StoreError
from shopassist.core.figures import Figure
from shopassist.core.style import NumberStyle
from shopassist.core.wording import DASH, Wording
from shopassist.panes.pot.chart import fall_chart, run_chart
from shopassist.panes.pot.presenter import PotPresenter
from shopassist.panes.pot.screen import PAGES
from shopassist.panes.pot.table import file_name, readings_table
from shopassist.services.people import People
from shopassist.services.table import RUNS
from shopassist.services.versions import Library
from tests.panes.pot.conftest import PotBench


def test_the_vessel_page_explains_its_numbers(bench: PotBench) -> None:
    bench.held()
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    bench.pane.on_explain("pot.vessel.force")
    assert asked == []
    bench.pane.on_page("vessel")
    numbers = bench.screen.numbers
    assert numbers is not None
    assert numbers is bench.screen.numbers, "built once while nothing changes"
    rows = {row.id.removeprefix("pot.vessel."): row for row in numbers.rows}
    assert rows["force"].label == "2.76 bar pushes on the lid like"
    assert rows["little"].value == "105 kgf"
    assert rows["energy"].range.startswith("at most")
    assert rows["relief"].range == "3.96 – 4.24".replace(" – ", DASH)
    assert all(row.explains for row in numbers.rows)
    assert all(note.startswith("Look this up") for note in numbers.notes)
    bench.pane.on_explain("pot.vessel.force")
    bench.pane.on_explain("nowhere")
    assert [figure.id for figure in asked] == ["pot.vessel.force"]


def test_the_air_page_tells_cold_from_leak(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_page("air")
    before = bench.screen.numbers
    assert before is not None
    assert before.rows[0].value == "–"
    for reading, warmth in (("2.76", "25 °C"), ("2.40", "10 °C")):
        bench.pane.on_offer("free.leak_start")
        bench.pane.on_typed(reading, warmth)
        assert not bench.screen.refusal
        bench.wait(3600)
    bench.pane.on_page("air")
    numbers = bench.screen.numbers
    assert numbers is not None
    rows = {row.id.removeprefix("pot.air."): row for row in numbers.rows}
    assert rows["explained"].value == "0.19 bar"
    assert rows["unexplained"].value == "0.17 bar"
    assert rows["bubble"].value == "65 %"
    assert rows["regrow"].value == "× 3.7"
    assert ":" in rows["below"].value
    assert ":" in rows["below"].range


def test_the_readings_are_drawn_as_typed_and_never_to_a_zero_nobody_typed(bench: PotBench) -> None:
    bench.pane.on_page("readings")
    empty = bench.screen.numbers
    assert empty is not None
    assert (empty.charts, empty.table) == ((), ())
    bench.pane.on_page("list")
    bench.held()
    bench.pane.on_page("readings")
    numbers = bench.screen.numbers
    assert numbers is not None
    (run,) = numbers.charts
    assert [round(y, 2) for _, y in run.dots] == [0.7, 2.76]
    assert [level.kind for level in run.levels] == ["rated"]
    assert run.target is not None
    assert run.target.label == "hold"
    assert "typed" in run.spoken
    assert [row[1] for row in numbers.table] == ["2.76 bar", "0.70 bar"]
    bench.wait(60)
    bench.pane.on_offer("let_down")
    bench.until("dwell")
    bench.until_belief("open")
    bench.pane.on_page("readings")
    numbers = bench.screen.numbers
    assert numbers is not None
    run, fall = numbers.charts
    assert fall.gap_word == "dwell"
    assert fall.gaps[0][0] < fall.gaps[0][1]
    assert [round(y, 2) for _, y in fall.dots] == [1.3, 1.29, 0.0, 0.0]
    assert min(y for _, y in run.dots[:-2]) > 0


def test_a_let_down_of_which_nothing_was_typed_draws_nothing(bench: PotBench) -> None:
    bench.held()
    bench.wait(600)
    bench.pane.on_offer("let_down")
    bench.pane.on_offer("air_in_already")
    bench.pane.on_offer("let_down")
    run = bench.shop.pots.courses(bench.pot)[-1]
    chart = fall_chart(bench.shop.words, run, bench.shop.now)
    assert (chart.dots, chart.gaps) == ((), ())
    assert "Nothing" in chart.spoken
    assert fall_chart(bench.shop.words, replace(run, let_down=None), bench.shop.now).dots


def test_charts_without_plate_values_still_draw(bench: PotBench) -> None:
    bench.held()
    run = bench.shop.pots.courses(bench.pot)[-1]
    chart = run_chart(bench.shop.words, run, (None, None, None), bench.shop.now)
    assert (chart.levels, chart.target) == ((), None)
    alone = run_chart(bench.shop.words, run, (None, 3e5, None), bench.shop.now)
    assert alone.target is not None
    assert alone.target.low == alone.target.high == 3.0


def test_without_a_plate_a_page_says_what_is_missing(bench: PotBench) -> None:
    bench.shop.pots._records[bench.pot] = replace(
        bench.shop.pots._records[bench.pot],
        state=replace(bench.shop.pots.state(bench.pot), plate=None),
    )
    bench.pane.on_page("vessel")
    numbers = bench.screen.numbers
    assert numbers is not None
    assert "Records" in numbers.notes[0]


def test_another_batch_in_the_same_pot_is_one_press(bench: PotBench) -> None:
    second = bench.shop.mixed("Knobs 13")
    bench.shop.mixed("Knobs 12", sheet="slow-clear")
    bench.held()
    assert "Knobs 12" in bench.screen.right
    bench.pane.on_more()
    also = next(each for each in bench.screen.answers if each.id == f"load.{second}")
    assert also.shown.words == "Knobs 13 is in it too"
    bench.pane.on_offer(also.id)
    assert "Knobs 13" in bench.screen.right
    assert not bench.screen.odd


def test_a_load_that_cannot_be_written_is_told(
    bench: PotBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    second = bench.shop.mixed("Knobs 13")
    bench.shop.mixed("Knobs 12", sheet="slow-clear")
    bench.held()

    def full(*_: object) -> None:
        raise StoreError("The disk is full.", "Make room.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_offer(f"load.{second}")
    assert bench.screen.refusal.startswith("The disk is full")


def test_a_pane_of_its_own_knows_of_no_batches(bench: PotBench) -> None:
    bench.pane = PotPresenter(bench.shop.pots, bench.shop.hand, bench.shop.words)
    bench.held()
    bench.pane.on_offer("load.any")
    bench.pane.on_more()
    assert not [each for each in bench.screen.answers if each.id.startswith("load.")]


def test_a_fall_far_quicker_than_this_pots_vent_is_not_taken_as_slow(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until_belief("open")
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("fall_first")
    bench.wait(1)
    bench.pane.on_typed("1.30")
    bench.until("fall_speed")
    bench.pane.on_choice("slowly")
    assert bench.screen.refusal.startswith("Quicker than this pot's vent")
    assert bench.item == "fall_speed"
    bench.pane.on_choice("at_once")
    assert not bench.screen.refusal
    bench.until("dwell")
    assert bench.screen.wait_digits == "30:00"


def test_the_list_on_paper_is_asked_for_and_answered(bench: PotBench, tmp_path: Path) -> None:
    sheets: list[object] = []
    bench.pane.paper_asked.connect(sheets.append)
    bench.pane.on_paper()
    assert len(sheets) == 1
    bench.pane.told("Written: list.pdf")
    assert bench.screen.said == "Written: list.pdf"
    bench.pane.on_page("vessel")
    assert bench.screen.said == ""
    empty = PotBench(tmp_path / "other", plate=False)
    empty.pane.paper_asked.connect(sheets.append)
    empty.pane.on_paper()
    assert len(sheets) == 1


def test_the_readings_are_saved_for_a_spreadsheet_that_runs_none_of_them(bench: PotBench) -> None:
    kept: dict[str, str] = {}

    def keep(name: str, text: str) -> str:
        kept[name] = text
        return f"sheets/{name}"

    bench.pane.on_csv()
    assert bench.screen.said == ""
    bench.pane.keep = keep
    bench.pane.on_csv()
    assert "Nothing was typed" in bench.screen.said
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("dwell")
    bench.pane.on_page("readings")
    bench.pane.on_csv()
    (name,) = kept
    assert bench.screen.said == f"Written: sheets/{name}"
    assert name.startswith("Big-pot-")
    head, *rows = csv.reader(io.StringIO(kept[name]))
    assert head[2:4] == ["Reading, bar", "Temperature, °C"]
    assert [float(row[2]) for row in rows] == [0.7, 2.76, 1.3, 1.29, 0.0]
    assert not any(cell.startswith(RUNS) for row in rows for cell in row)

    def refuse(name: str, text: str) -> str:
        raise StoreError("The disk is full.")

    bench.pane.keep = refuse
    bench.pane.on_csv()
    assert bench.screen.said == "The disk is full."


def test_a_reading_has_the_readers_own_decimal_sign(bench: PotBench) -> None:
    words = Wording(NumberStyle(","), bench.shop.words.units)
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("zero")
    rows = list(
        csv.reader(io.StringIO(readings_table(bench.shop.pots, bench.pot, words)), delimiter=";")
    )
    assert rows[-1][2] == "1,29"
    assert file_name("=Pot/1", "2") == "Pot-1-2-readings.csv"


def test_a_vacuum_chamber_shows_what_the_air_does_to_its_lid(bench: PotBench) -> None:
    chambers: Library[Chamber] = Library(
        bench.shop.journal, "chamber",
        lambda mapping: chamber_from_mapping(mapping, bench.shop.words.read_si),
    )  # fmt: skip
    bench.pane.on_page("vacuum")
    bare = bench.screen.numbers
    assert bare is not None
    assert bare.notes[0].startswith("Enter a vacuum chamber")
    version, problems = chambers.save({"name": "Bell", "lid": {"diameter": "260 mm"}})
    assert version is not None, problems
    bench.pane = PotPresenter(
        bench.shop.pots, bench.shop.hand, bench.shop.words, chambers=lambda: chambers
    )
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    bench.pane.on_page("vacuum")
    numbers = bench.screen.numbers
    assert numbers is not None
    (row,) = numbers.rows
    assert (row.label, row.value) == ("Bell: the air presses on its lid like", "549 kgf")
    assert "Do not use it" in numbers.notes[0]
    assert any("implode" in note for note in numbers.notes)
    assert any("Never put air pressure into it" in note for note in numbers.notes)
    bench.pane.on_explain(row.id)
    assert asked[0].formula == "chamber.vacuum_force"


def test_who_is_here_is_taken_down(bench: PotBench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.pane.on_who("nobody listens")
    assert bench.screen.who == ""
    bench.pane.people = People(bench.shop.journal, bench.shop.clock)
    bench.pane.on_who("the turner")
    assert bench.screen.who == "the turner"
    for page, _ in reversed(PAGES):
        bench.pane.on_page(page)
        assert bench.screen.who == "the turner", page

    def full(*_: object) -> None:
        raise StoreError("The disk is full.", "Make room.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_who("the other")
    assert bench.screen.refusal.startswith("The disk is full")
