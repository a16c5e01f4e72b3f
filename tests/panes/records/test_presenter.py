"""Words of the records pane."""

import pytest

from shopassist.core.errors import StoreError
from shopassist.core.records import Field
from shopassist.panes.records.form import heading_of, short_label
from tests.panes.records.conftest import RecordsBench

LEAST = {"name": "Clear", "ratio.basis": "weight", "ratio.a": "100", "ratio.b": "30"}


def typed(bench: RecordsBench, **changes: str) -> None:
    for place, text in (LEAST | {k.replace("__", "."): v for k, v in changes.items()}).items():
        bench.pane.on_edit(place, text)


def test_name_ratio_and_basis_make_a_sheet(bench: RecordsBench) -> None:
    empty = bench.pane.screen
    typed(bench)
    assert (empty.title, empty.can_save, bench.pane.screen.can_save) == (
        "New resin sheet", False, True
    )  # fmt: skip
    bench.pane.on_save()
    screen = bench.pane.screen
    assert screen.status == "Saved as version 1."
    assert [line.name for line in screen.lines] == ["Clear"]
    assert screen.selected == 0
    assert not screen.can_save


def test_what_is_missing_is_said_beside_its_field_and_nothing_is_stored(
    bench: RecordsBench,
) -> None:
    bench.pane.on_edit("name", "Clear")
    bench.pane.on_save()
    assert bench.problem("ratio.a") == "This is needed."
    assert "to put right" in bench.pane.screen.status
    assert bench.shop.sheets.all() == ()
    assert bench.cell("name") == "Clear"


def test_a_field_is_judged_when_it_is_left_not_while_typing(bench: RecordsBench) -> None:
    typed(bench, density__a="heavy")
    assert bench.problem("density.a") == ""
    bench.pane.on_leave("density.a")
    assert bench.problem("density.a") != ""
    bench.pane.on_edit("density.a", "1.1 g/ml")
    bench.pane.on_leave("density.a")
    assert bench.problem("density.a") == ""


def test_an_emptied_field_leaves_the_draft(bench: RecordsBench) -> None:
    typed(bench)
    bench.pane.on_edit("name", " ")
    assert bench.cell("name") == ""


def test_a_change_is_a_new_version_with_its_history(bench: RecordsBench) -> None:
    typed(bench)
    bench.pane.on_save()
    bench.pane.on_edit("ratio.b", "32")
    bench.pane.on_save("new label")
    screen = bench.pane.screen
    assert screen.status == "Saved as version 2."
    assert screen.history == ("ratio.b: 30 → 32",)
    version = bench.shop.sheets.version(bench.shop.sheets.all()[0].id, 2)
    assert version is not None
    assert version.reason == "new label"


def test_a_copy_starts_a_new_record(bench: RecordsBench) -> None:
    typed(bench)
    bench.pane.on_save()
    bench.pane.on_copy()
    assert bench.cell("name") == "Clear copy"
    assert bench.pane.screen.selected == -1
    bench.pane.on_save()
    assert len(bench.pane.screen.lines) == 2


def test_kinds_and_records_are_turned_to(bench: RecordsBench) -> None:
    sheet = bench.shop.sheet()
    bench.shop.sheet("quick-opaque")
    bench.shop.plate()
    bench.pane.on_kind(1)
    bench.pane.on_kind(1)
    bench.pane.on_kind(7)
    assert bench.pane.screen.kind == 1
    assert bench.pane.screen.title == "Big pot"
    assert "plate" in bench.pane.screen.caution
    bench.pane.on_kind(0)
    bench.pane.on_select(1)
    bench.pane.on_select(1)
    bench.pane.on_select(9)
    assert bench.pane.screen.title == "Slow clear"
    bench.pane.on_new()
    assert bench.pane.screen.title == "New resin sheet"
    assert bench.shop.sheets.newest(sheet) is not None


def test_a_removed_record_leaves_the_list(bench: RecordsBench) -> None:
    bench.pane.on_remove()
    typed(bench)
    bench.pane.on_save()
    bench.pane.on_remove()
    assert bench.pane.screen.lines == ()
    assert "Batches keep the version" in bench.pane.screen.status


def test_a_file_is_read_into_the_form_and_not_stored(bench: RecordsBench) -> None:
    path = bench.file('name = "From file"\n[ratio]\nbasis = "weight"\na = 100\nb = 44\n')
    bench.pane.on_import(path)
    assert bench.pane.screen.status == "Read. Save to keep it."
    assert bench.cell("ratio.b") == "44"
    assert bench.shop.sheets.all() == ()


def test_everything_wrong_with_a_file_is_listed(bench: RecordsBench) -> None:
    path = bench.file(
        'name = "Bad"\ncolour = "green"\nopened = 2026-05-31\n[ratio]\nbasis = "guess"\n'
        "a = 100\n[inlet]\nopens = true\n"
    )
    bench.pane.on_import(path)
    screen = bench.pane.screen
    assert "to put right" in screen.status
    assert bench.problem("ratio.basis") != ""
    assert bench.problem("ratio.b") != ""
    assert any(text.startswith("colour: ") for text in screen.other_problems)


def test_a_file_that_is_not_there_is_said(bench: RecordsBench) -> None:
    bench.pane.on_import(str(bench.folder / "nowhere.toml"))
    assert bench.pane.screen.status != ""
    assert bench.shop.sheets.all() == ()


def test_flags_and_lists_are_written_as_words(bench: RecordsBench) -> None:
    bench.pane.on_kind(1)
    path = bench.file('name = "Pot"\nnotes = ["a", "b"]\n[inlet]\nopens = true\nshut_off = false\n')
    bench.pane.on_import(path)
    assert bench.cell("inlet.opens") == "yes"
    assert bench.cell("inlet.shut_off") == "no"


def test_a_full_disk_keeps_the_draft(bench: RecordsBench, monkeypatch: pytest.MonkeyPatch) -> None:
    typed(bench)

    def full(*_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_save()
    assert bench.pane.screen.status == "The disk is full."
    assert bench.cell("name") == "Clear"


def test_a_broken_record_is_marked_in_the_list(bench: RecordsBench) -> None:
    from shopassist.core.rows import Body, Draft
    from tests.panes.records.conftest import RecordsBench as Bench

    body: Body = {"record": {"name": "Broken"}}
    bench.shop.journal.append([Draft("record/resin/broken", "saved", body)])
    bench.shop.session.end()
    bench.shop.journal.close()
    again = Bench(bench.folder)
    assert again.pane.screen.lines[0].is_broken
    assert "cannot be read" in again.pane.screen.lines[0].detail
    assert again.problem("ratio.a") == "This is needed."


def test_a_heading_is_not_said_twice() -> None:
    assert short_label("Gel: at", "Gel") == "At"
    assert short_label("Gel", "Gel") == "Time"
    assert short_label("Density of A", "Density") == "Density of A"
    assert heading_of(Field("new_group.x", "X", "text")) == "New group"
