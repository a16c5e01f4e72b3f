"""What leaves the program, and what comes back."""

import csv

import pytest

from shopassist.core.batch import Typed
from shopassist.core.style import US, NumberStyle
from shopassist.services.coming import Event
from shopassist.widgets.batch_sheet_shown import SheetShown
from tests.panes.out.conftest import OutBench


def test_without_a_batch_only_the_table_is_written(bench: OutBench) -> None:
    assert not bench.pane.screen.has_batch
    for name in ("sheet", "calendar", "batch"):
        bench.pane.on_file(name)
        assert bench.pane.screen.message == "Take a batch in hand first."
    bench.pane.on_file("table")
    assert bench.pane.screen.written == "/here/batches.csv"
    assert bench.pane.screen.message == ""


def rows(sheet: SheetShown) -> dict[str, dict[str, str]]:
    return {b.heading: {r.label: r.value for r in b.rows} for b in sheet.blocks}


def test_the_sheet_says_what_the_screens_say(bench: OutBench) -> None:
    bench.shop.plate()
    bench.has_pot = True
    batch = bench.shop.mixed("Knobs & pulls")
    bench.pane.on_file("sheet")
    (path,) = bench.shelf.files
    assert path == f"/here/Knobs---pulls-{batch}-sheet.pdf"
    sheet = bench.shelf.files[path]
    assert isinstance(sheet, SheetShown)
    found = rows(sheet)
    assert found["Mix"]["Resin, A"] == "153.8 g"
    assert found["Mix"]["Hardener in at"] == ""
    view = bench.shop.cure.view(batch)
    assert view is not None
    gel = view.stage("gel")
    assert gel is not None and gel.gate is not None
    assert found["Cure, estimated"]["May gel from"].startswith(bench.shop.words.clock(gel.gate))
    down = found["Pot: let down in this order"]
    assert any("Open the vent slowly" in label for label in down)
    assert "Turn the profile" in found["Plan, as it stands now"]
    assert sheet.right.startswith("slow-clear, version 1; printed 28 Sep 2026 09:00, log row ")
    assert sheet.foot == ("No safety device.",)
    assert not sheet.letter


def test_before_hardener_the_times_are_as_if_it_went_in_now(bench: OutBench) -> None:
    batch = bench.shop.batches.open("")
    bench.shop.hand.take_batch(batch)
    bench.shop.batches.use_sheet(batch, bench.shop.sheet(), 1)
    found = rows(bench.pane.sheet())
    assert "Cure, estimated, if hardener went in now" in found
    assert "Pot: let down in this order" not in found


def test_a_batch_without_a_sheet_has_no_times_and_one_closed_no_plan(bench: OutBench) -> None:
    batch = bench.shop.batches.open("Bare")
    bench.shop.hand.take_batch(batch)
    bench.shop.batches.close(batch, "good")
    sheet = bench.pane.sheet()
    assert [each.heading for each in sheet.blocks] == ["Mix"]
    assert sheet.right.startswith("printed")


@pytest.mark.parametrize("how", ["units", "order"])
def test_where_letter_is_used_the_sheet_is_letter(bench: OutBench, how: str) -> None:
    bench.shop.mixed()
    if how == "units":
        bench.shop.words.units = US
    else:
        bench.shop.words.style = NumberStyle(order="mdy")
    assert bench.pane.sheet().letter


def test_the_calendar_has_gates_and_stages_to_come(bench: OutBench) -> None:
    bench.shop.mixed("Knobs")
    other = bench.shop.batches.open("Rods")
    bench.plan.start(other, "dry")
    bench.pane.on_file("calendar")
    (events,) = bench.shelf.files.values()
    assert isinstance(events, tuple)
    titles = [each.title for each in events if isinstance(each, Event)]
    assert "May gel from (Knobs)" in titles or "Pressurise by (Knobs)" in titles
    assert "Dry in the oven: look (Rods)" in titles
    assert "Turn the profile (Knobs)" in titles
    leads = {each.title: each.lead for each in events}
    assert leads["May demould (Knobs)"] < leads["Pour by (Knobs)"]
    assert all(each.at > bench.shop.now for each in events)
    keys = {each.key for each in bench.pane.events()}
    assert len(keys) == len(bench.pane.events())
    bench.shop.clock.advance(1800.0)
    bench.shop.warm(bench.shop.hand.batch, 21.0)
    assert {each.key for each in bench.pane.events()} <= keys, "what moves keeps its key"
    bench.shop.clock.suspend(90 * 86400.0)
    assert not [each for each in bench.pane.events() if each.key.startswith("cure-")]


def test_a_batch_goes_out_and_comes_in_again(bench: OutBench) -> None:
    batch = bench.shop.mixed("Knobs")
    bench.pane.on_file("batch")
    path = bench.pane.screen.written
    bench.pane.on_import(f" {path} ")
    assert bench.shop.hand.batch != batch
    assert bench.pane.screen.written == f"Knobs, as batch {bench.shop.hand.batch}"
    bench.pane.on_import("/nowhere")
    assert bench.pane.screen.message == "It cannot be read."
    bench.pane.on_import("   ")
    assert bench.pane.screen.message == "It cannot be read."


def test_the_table_holds_what_was_weighed_and_runs_nothing(bench: OutBench) -> None:
    batch = bench.shop.mixed("=cmd()")
    bench.shop.batches.note(batch, "soft")
    bench.shop.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
    bench.shop.batches.open("Empty")
    bench.shop.words.style = NumberStyle(decimal=",")
    bench.pane.on_file("table")
    (text,) = bench.shelf.files.values()
    assert isinstance(text, str)
    read = list(csv.DictReader(text.splitlines(), delimiter=";"))
    assert read[0]["Name"] == "'=cmd()"
    assert (read[0]["Resin, g"], read[0]["Hardener, g"]) == ("153,8", "46,1")
    assert (read[0]["Amount"], read[0]["Notes"]) == ("200 g", "soft")
    assert (read[1]["Name"], read[1]["Resin, g"]) == ("Empty", "")


def test_files_go_into_the_folder_that_is_named(bench: OutBench) -> None:
    assert bench.pane.screen.folder == "/here"
    bench.pane.on_folder("/there")
    bench.pane.on_folder("/there")
    bench.pane.on_file("table")
    assert list(bench.shelf.files) == ["/there/batches.csv"]
    bench.pane.on_folder("")
    assert bench.pane.screen.folder == "/here"


def test_a_full_disk_is_told(bench: OutBench) -> None:
    bench.pane.on_file("table")
    bench.shelf.full = True
    bench.pane.on_file("table")
    assert (bench.pane.screen.message, bench.pane.screen.written) == (
        "The disk is full. Make room.", "",
    )  # fmt: skip


def test_backups_are_made_and_listed(bench: OutBench) -> None:
    bench.pane.on_page("backups")
    assert bench.pane.screen.restore_note == "There is no backup yet."
    bench.pane.on_copy_now()
    bench.pane.on_copy_now()
    screen = bench.pane.screen
    assert screen.written == "journal-000000002.backup"
    assert screen.copies[0].words == "28 Sep 2026, 09:00   3\u2009000 rows, 2.4 MB"
    assert "NOT KNOWN" in screen.restore_note
    assert screen.restore == ""
    bench.pane.on_page("attic")
    assert bench.pane.screen.page == "backups"


def test_a_backup_comes_back_at_the_next_start_unless_that_is_taken_back(bench: OutBench) -> None:
    bench.copies.make()
    bench.pane.on_page("backups")
    bench.pane.on_restore()
    assert bench.copies.wanted == ""
    bench.pane.on_choose(0)
    bench.pane.on_choose(0)
    assert bench.pane.screen.restore == "Put it back at the next start"
    bench.pane.on_restore()
    screen = bench.pane.screen
    assert bench.copies.wanted == "journal-000000001.backup"
    assert screen.copies[0].words.endswith("comes back at the next start")
    assert screen.restore == "Leave the log as it is"
    bench.pane.on_restore()
    assert bench.copies.wanted == ""


def test_backups_that_cannot_be_listed_are_none(bench: OutBench) -> None:
    bench.copies.broken = True
    bench.pane.on_page("backups")
    assert bench.pane.screen.copies == ()


def test_the_sheet_can_be_printed_as_it_stands(bench: OutBench) -> None:
    asked: list[SheetShown] = []
    bench.pane.print_asked.connect(asked.append)
    bench.pane.on_print()
    assert bench.pane.screen.message == "Take a batch in hand first."
    bench.shop.mixed("Knobs")
    bench.pane.on_print()
    assert asked == [bench.pane.sheet()]
    assert bench.pane.screen.message == ""


def test_what_was_written_can_be_looked_at(bench: OutBench) -> None:
    asked: list[str] = []
    bench.pane.open_asked.connect(asked.append)
    bench.pane.on_open()
    bench.pane.on_file("table")
    can_open = [bench.pane.screen.can_open]
    bench.pane.on_open()
    bench.pane.on_copy_now()
    can_open.append(bench.pane.screen.can_open)
    bench.pane.on_open()
    assert can_open == [True, False]
    assert asked == ["/here/batches.csv"]
