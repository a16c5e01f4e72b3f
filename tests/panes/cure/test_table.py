"""The charts as a table and for a spreadsheet."""

import csv
import io

from shopassist.core.errors import StoreError
from shopassist.core.quantities import UtcSecond
from shopassist.core.style import NumberStyle
from shopassist.core.wording import Wording
from shopassist.panes.cure.table import TableOf, file_name
from tests.panes.cure.bench import Bench

HOUR = 3600.0


def test_the_table_holds_the_curve_and_every_reading_in_order_of_time(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(HOUR)
    bench.warm(batch, 21.0)
    bench.cure_pane.on_page("table")
    table = bench.screen.table
    assert table.head[1] == "Hours old at 23 °C, slow"
    read = [row for row in table.rows if row[4] != "–"]
    assert [row[4] for row in read] == ["23.0", "21.0"]
    aged = [row for row in table.rows if row[4] == "–"]
    assert len(aged) > 20
    assert aged[0][2] == "0.0"
    bench.cure_pane.on_page("times")
    assert bench.screen.table.rows == ()


def test_a_spreadsheet_reads_the_same_numbers(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    words = Wording(NumberStyle(","), bench.words.units, bench.words.offset)
    text = TableOf(words, bench.cure.course(batch)).csv()
    rows = list(csv.reader(io.StringIO(text), delimiter=";"))
    assert len({len(row) for row in rows}) == 1
    assert any("," in cell for row in rows[1:] for cell in row)
    assert TableOf(words, None).shown().rows == ()


def test_it_is_saved_and_a_refusal_is_said(bench: Bench) -> None:
    bench.cure_pane.on_csv()
    bench.mixed("Knobs 12/a")
    bench.cure_pane.on_csv()
    assert bench.screen.table.saved == ""
    kept: dict[str, str] = {}

    def keep(name: str, text: str) -> str:
        kept[name] = text
        return f"sheets/{name}"

    bench.cure_pane.keep = keep
    bench.cure_pane.on_page("table")
    bench.cure_pane.on_csv()
    (name,) = kept
    assert name.startswith("Knobs-12-a-")
    assert bench.screen.table.saved == f"sheets/{name}"

    def refuse(name: str, text: str) -> str:
        raise StoreError("The disk is full.")

    bench.cure_pane.keep = refuse
    bench.cure_pane.on_csv()
    assert "The disk is full." in bench.screen.error


def test_a_file_name_is_one_that_every_system_takes() -> None:
    assert file_name("", "0001") == "batch-0001-cure.csv"
    assert file_name("Ä b", "2") == "Ä-b-2-cure.csv"


def test_earlier_forecasts_stand_in_columns_of_their_own(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(2 * HOUR)
    bench.warm(batch, 15.0)
    table = TableOf(bench.words, bench.cure.course(batch), bench.cure.earlier(batch))
    shown = table.shown()
    assert shown.head[7].startswith("Likely, as of ")
    assert {len(row) for row in shown.rows} == {8}
    last = shown.rows[-1]
    assert float(last[7]) > float(last[2])
    rows = list(csv.reader(io.StringIO(table.csv()), delimiter=","))
    assert {len(row) for row in rows} == {8}


def test_what_was_measured_and_what_nobody_knows_stand_in_the_table(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(HOUR)
    bench.warm(batch, 21.0, "pot wall", since=bench.now - 600)
    began = bench.now
    bench.clock.advance(5 * HOUR)
    bench.warm(batch, 22.0, "shop")
    bench.batches.unknown_temperature(batch, UtcSecond(began - 3000), UtcSecond(began - 2000))
    rows = TableOf(bench.words, bench.cure.course(batch)).shown().rows
    told = [row[6] for row in rows if row[6] != "–"]
    moment = f"{bench.words.date(began - 600)} {bench.words.clock(began - 600)}"
    assert f"pot wall, since {moment}" in told
    assert "shop" in told and "resin" in told
    until = f"{bench.words.date(bench.now)} {bench.words.clock(bench.now)}"
    assert f"no reading until {until}" in told
    assert any(each.startswith("not known until ") for each in told)
