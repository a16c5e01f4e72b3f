from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from shopassist.app.arguments import arguments
from shopassist.app.foundation import folders, refuse_used_folder
from shopassist.core.errors import StoreError
from shopassist.widgets.figure_view import FigureView
from tests.app.driver import Person

CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def person(tmp_path: Path, qapp: QApplication) -> Iterator[Person]:
    made = Person(tmp_path)
    yield made
    made.close()


def grams(person: Person) -> tuple[str, ...]:
    names = ("mix.part_a_target", "mix.part_b_target", "mix.total_target")
    return tuple(person.find(FigureView, name).shown.value for name in names)


def test_the_first_run_shows_the_limits_beside_the_window(person: Person) -> None:
    assert person.visible("limits")
    assert person.visible("pot_line")
    person.press("limits.read")
    assert not person.visible("limits")


def test_ratio_basis_and_amount_give_grams_and_need_nothing_else(person: Person) -> None:
    person.press("limits.read")
    person.tab_to("mix.ratio_a")
    person.keys("100\t44\t")
    person.tab_to("mix.amount")
    person.keys("200 g")
    assert grams(person) == ("150.0", "66.0", "216.0")
    person.enter()
    batches = person.program.services.batches
    assert batches.get(batches.ids()[0]).entries["amount"].text == "200 g"


def test_without_a_pot_its_pane_leads_to_the_plate(person: Person) -> None:
    person.press("limits.read")
    person.program.window.show_pane("pot")
    person.press("pot.offer.enter_pot")
    assert person.program.window.board.focus == "records"
    assert person.program.presenters.records.screen.kind == 1


def test_a_repeat_batch_has_its_grams_in_six_keys(person: Person) -> None:
    person.press("limits.read")
    person.tab_to("mix.ratio_a")
    person.keys("100\t44\t")
    person.tab_to("mix.amount")
    person.keys("200 g")
    person.enter()
    person.key(Qt.Key.Key_N, CTRL)
    assert grams(person)[0] == "–"
    person.key(Qt.Key.Key_R, CTRL)
    menu = QApplication.activePopupWidget()
    assert menu is not None
    from PySide6.QtTest import QTest

    QTest.keyClick(menu, Qt.Key.Key_1)
    person.look()
    assert grams(person) == ("150.0", "66.0", "216.0")


def test_a_full_disk_is_told_in_the_band_and_nothing_is_lost_on_screen(
    person: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    person.press("limits.read")

    def full(*_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(person.program.services.batches._journal, "append", full)
    person.tab_to("mix.amount")
    person.keys("200 g")
    person.enter()
    assert person.visible("mix.message")
    person.key(Qt.Key.Key_N, CTRL)
    assert person.visible("alarm")
    person.click("alarm.acknowledge")
    assert not person.visible("alarm")
    monkeypatch.undo()


def test_theme_units_and_decimal_sign_change_while_it_runs(person: Person) -> None:
    person.press("limits.read")
    settle = person.program._settle
    settle(theme="dark")
    assert person.program.look.tokens.name == "dark"
    settle(decimal=",", units="us")
    assert person.program.services.wording.style.decimal == ","
    person.tab_to("mix.ratio_a")
    person.keys("100\t44\t")
    person.tab_to("mix.amount")
    person.keys("200,5 g")
    assert "," in grams(person)[0] or grams(person)[0].isdigit()
    assert person.program.base.settings.now.units == "us"


def test_the_view_across_the_bench_comes_and_goes_by_key(person: Person) -> None:
    person.press("limits.read")
    person.key(Qt.Key.Key_F11)
    assert person.visible("bench")
    assert person.visible("pot_line")
    person.key(Qt.Key.Key_Escape)
    assert not person.visible("bench")


def test_pint_arrives_after_the_first_paint_and_the_check_finds_nothing_wrong(
    person: Person,
) -> None:
    checker = person.program.late.checker
    assert checker is not None
    checker.join()
    person.look()
    assert not person.visible("alarm")


def test_the_demo_goes_into_an_empty_folder_only(tmp_path: Path) -> None:
    asked = arguments(["--demo", "--data-dir", str(tmp_path)])
    paths = folders(asked)
    assert paths.data == tmp_path
    refuse_used_folder(paths.journal)
    paths.journal.write_text("somebody's")
    with pytest.raises(StoreError, match="in use"):
        refuse_used_folder(paths.journal)
    assert folders(arguments(["--demo"])).data.name == "demo"
