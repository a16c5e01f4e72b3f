"""The Mix pane on screen, by keyboard, wide and narrow."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit, QPushButton, QWidget

from shopassist.core.quantities import CubicMetre
from shopassist.core.style import CHOICES
from shopassist.panes.mix.asks import PAGES
from shopassist.panes.mix.view import MixView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.quantity_line import QuantityLine
from shopassist.widgets.theme import Theme
from tests.panes.mix.conftest import MixBench

BESIDE, COLUMN = (930, 575), (410, 720)


@pytest.fixture
def view(qapp: QApplication, bench: MixBench) -> Iterator[MixView]:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(1 / 0.253)
    Theme(qapp, look)
    made = MixView(look, bench.pane, bench.shop.words)
    made.resize(*BESIDE)
    made.show()
    settle()
    yield made
    made.close()
    made.deleteLater()
    settle()


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def line(view: QWidget, name: str) -> QLineEdit:
    found = view.findChild(QLineEdit, f"mix.{name}")
    assert found is not None, name
    return found


def type_into(view: QWidget, name: str, text: str, *, enter: bool = True) -> None:
    found = line(view, name)
    found.setFocus()
    found.selectAll()
    QTest.keyClicks(found, text)
    if enter:
        QTest.keyClick(found, Qt.Key.Key_Return)
    settle()


def button(view: QWidget, name: str) -> QPushButton:
    found = view.findChild(QPushButton, f"mix.{name}")
    assert found is not None, name
    return found


def press(view: QWidget, name: str) -> None:
    found = button(view, name)
    assert found.isVisible(), name
    found.setFocus()
    QTest.keyClick(found, Qt.Key.Key_Space)
    settle()


def grams(view: MixView) -> list[str]:
    return [figure.shown.value for figure in view.figures]


def test_ratio_and_amount_typed_are_grams_and_nothing_else_is_asked(view: MixView) -> None:
    view.take_focus()
    type_into(view, "ratio_a", "100")
    type_into(view, "ratio_b", "30")
    type_into(view, "amount", "214", enter=False)
    assert grams(view) == ["177.8", "53.3", "231.1"]
    assert view.weighing.stops.isVisible()
    assert button(view, "hardener_in").isEnabled()


@pytest.mark.parametrize("wide", [930, 720])
def test_no_number_and_no_mark_is_cut_whatever_grows_beside_it(view: MixView, wide: int) -> None:
    view.resize(wide, 575)
    settle()
    for name, text in (("ratio_a", "100"), ("ratio_b", "44"), ("amount", "1214.5")):
        type_into(view, name, text)
    assert grams(view) == ["910.9", "400.8", "1\u2009311.7"]
    room = view.middle.viewport().rect()
    for figure in view.figures:
        assert figure.width() >= figure.minimumSizeHint().width()
        corner = figure.mapTo(view.middle.viewport(), figure.rect().bottomRight())
        assert room.contains(corner), figure.objectName()
    beneath = view.figures[-1].y() > view.figures[0].y() + view.figures[0].height() / 2
    assert beneath == (wide == 720)


def weighed(view: MixView) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "214")):
        type_into(view, name, text)
    type_into(view, "cup.1.actual_a", "177.8")
    type_into(view, "cup.1.actual_b", "231.2")


def test_what_is_missing_stands_once_over_the_button_that_waits(view: MixView) -> None:
    type_into(view, "ratio_a", "100")
    type_into(view, "ratio_b", "30")
    assert view.reason_line.words == "needs the amount"
    assert [figure.shown.note for figure in view.figures] == ["", "", ""]


def test_a_cup_is_weighed_and_started_by_keyboard(view: MixView, bench: MixBench) -> None:
    weighed(view)
    assert view.weighing.deviation.isVisible()
    assert not view.figures[0].isVisible()
    press(view, "hardener_in")
    assert bench.shop.batches.get(bench.batch).first_contact is not None
    assert not button(view, "hardener_in").isVisible()
    press(view, "another_cup")
    assert view.weighing.heading.shown[0] == "Cup 2"
    press(view, "poured")
    assert bench.shop.batches.get(bench.batch).poured is not None


def test_a_pour_told_too_early_is_taken_back(view: MixView, bench: MixBench) -> None:
    weighed(view)
    assert not button(view, "not_poured").isVisible()
    press(view, "hardener_in")
    press(view, "poured")
    assert not button(view, "poured").isVisible()
    press(view, "not_poured")
    assert bench.shop.batches.get(bench.batch).poured is None
    assert not button(view, "not_poured").isVisible()
    assert button(view, "poured").isVisible()


def test_a_weight_is_typed_again(view: MixView, bench: MixBench) -> None:
    weighed(view)
    press(view, "correct_weight")
    assert "b" not in bench.shop.batches.get(bench.batch).cup(1).weighed
    view.take_focus()
    assert line(view, "cup.1.actual_b").hasFocus()


def test_every_page_opens_beside_the_grams_and_closes_again(view: MixView) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "214")):
        type_into(view, name, text)
    for number, (key, _, asks) in enumerate(PAGES[1:], 2):
        press(view, f"page.{number}")
        assert view.inputs.pages[key].isVisible()
        assert view.figures[0].isVisible()
        assert not line(view, "amount").isVisible()
        view.take_focus()
        for ask in asks:
            assert view.inputs.pages[key].grid is not None, ask.name
    press(view, "page.1")
    assert line(view, "amount").isVisible()
    assert [page.isVisible() for page in view.inputs.pages.values()] == [False] * 5


def test_a_page_is_typed_and_answers(view: MixView, bench: MixBench) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "214")):
        type_into(view, name, text)
    bench.shop.keep(bench.shop.scales, name="Kitchen", step="1 g", error="1 g")
    press(view, "page.2")
    box = view.findChild(QComboBox, "mix.scale")
    assert box is not None
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Down)
    settle()
    assert grams(view) == ["178", "53", "231"]
    page = view.inputs.pages["measure"]
    assert page.caution.isVisible()
    told: list[str] = []
    bench.pane.explained.connect(lambda figure: told.append(figure.id))
    page.figures[1].explain_asked.emit()
    assert told == ["mix.least_batch"]
    bench.shop.keep(bench.shop.scales, name="Pocket", step="0.1 g")
    press(view, "page.1")
    press(view, "page.2")
    assert box.count() == 3
    assert grams(view) == ["178", "53", "231"]


def test_more_cups_are_one_press(view: MixView, bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(limit={"mass": "100 g", "at": "25 °C"}))
    type_into(view, "amount", "150")
    press(view, "page.3")
    type_into(view, "resin_temp", "25")
    press(view, "cup.act")
    assert grams(view) == ["62.4", "18.7", "81.1"]
    assert not button(view, "cup.act").isVisible()


def test_too_much_for_a_cup_asks_for_its_reason(view: MixView, bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(limit={"mass": "100 g", "at": "25 °C"}))
    type_into(view, "amount", "150")
    assert line(view, "reason").isVisible()
    press(view, "hardener_in")
    assert bench.shop.batches.get(bench.batch).first_contact is None
    assert line(view, "reason").hasFocus()
    QTest.keyClicks(line(view, "reason"), "into a tray")
    press(view, "hardener_in")
    assert bench.shop.batches.get(bench.batch).reasons == ("into a tray",)


def test_steps_tick_while_they_run(view: MixView, bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(
        family="polyurethane", pressurise={"time": "7 min", "at": "22 °C"},
        gel={"time": "15 min", "at": "22 °C"},
    ))  # fmt: skip
    type_into(view, "amount", "100")
    view.tick()
    press(view, "page.6")
    view.tick()
    press(view, "hardener_in")
    digits = view.inputs.pages["steps"].digits
    before = digits.text
    bench.shop.clock.advance(10.0)
    view.tick()
    assert digits.text != before
    view.take_focus()
    press(view, "steps.act")
    assert len(bench.shop.batches.get(bench.batch).steps) == 1


def test_in_a_column_enter_goes_from_the_amount_to_the_scale(view: MixView) -> None:
    view.resize(*COLUMN)
    settle()
    for name, text in (("ratio_a", "100"), ("ratio_b", "30")):
        type_into(view, name, text)
    type_into(view, "amount", "214", enter=False)
    assert not view.weighing.stops.isVisible()
    assert grams(view) == ["177.8", "53.3", "231.1"]
    QTest.keyClick(line(view, "amount"), Qt.Key.Key_Return)
    settle()
    assert view.weighing.stops.isVisible()
    assert line(view, "cup.1.actual_a").hasFocus()
    press(view, "unfold")
    assert line(view, "amount").isVisible()
    press(view, "weigh_out")
    assert view.weighing.stops.isVisible()


@pytest.mark.parametrize("size", [BESIDE, COLUMN])
def test_nothing_is_squeezed_under_its_least_size(view: MixView, size: tuple[int, int]) -> None:
    view.resize(*size)
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "1378.5")):
        type_into(view, name, text, enter=False)
    assert view.minimumSizeHint().height() <= size[1]
    for figure in view.figures:
        assert figure.width() >= figure.minimumSizeHint().width()
    for number in range(2, 7):
        press(view, f"page.{number}")
        assert view.minimumSizeHint().height() <= size[1], number


def test_blanks_amount_is_taken_again(view: MixView, bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.sheet())
    low = CubicMetre(200e-6)
    bench.shop.batches.set_need(bench.batch, low, low, CubicMetre(210e-6), "g")
    assert line(view, "amount").text() == "210 ml"
    type_into(view, "amount", "100")
    press(view, "use_blank")
    assert line(view, "amount").text() == "210 ml"


def test_the_keyboard_goes_from_the_amount_to_the_stop_to_the_start(view: MixView) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "214")):
        type_into(view, name, text)
    line(view, "amount").setFocus()
    met = []
    for _ in range(8):
        found = QApplication.focusWidget()
        assert found is not None
        met.append(found.objectName())
        QTest.keyClick(found, Qt.Key.Key_Tab)
    assert met.index("mix.amount") < met.index("mix.cup.1.actual_a") < len(met) - 1
    assert met[met.index("mix.cup.1.actual_a") + 1] == "mix.hardener_in"


def test_pages_are_turned_by_two_keys(view: MixView) -> None:
    view.take_focus()
    control = Qt.KeyboardModifier.ControlModifier
    QTest.keyClick(line(view, "ratio_a"), Qt.Key.Key_PageDown, control)
    settle()
    assert view.inputs.shown_page == "measure"
    for page in ("", "steps"):
        found = QApplication.focusWidget()
        assert found is not None
        QTest.keyClick(found, Qt.Key.Key_PageUp, control)
        settle()
        assert view.inputs.shown_page == page


def test_other_units_reach_the_entry_at_the_stop(view: MixView, bench: MixBench) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "214")):
        type_into(view, name, text)
    bench.shop.words.units = CHOICES["US"]
    bench.pane.changed.emit(None)
    settle()
    for name in ("cup.1.actual_a", "amount", "scale_step"):
        found = line(view, name)
        assert isinstance(found, QuantityLine)
        assert found.unit.text() == "oz", name
    assert grams(view)[0] == "6.272"


def test_the_keyboard_never_goes_to_entries_that_are_folded(view: MixView, bench: MixBench) -> None:
    for name, text in (("ratio_a", "100"), ("ratio_b", "30"), ("amount", "130")):
        type_into(view, name, text)
    type_into(view, "cup.1.actual_a", "100.0")
    type_into(view, "cup.1.actual_b", "130.0")
    press(view, "hardener_in")
    assert not line(view, "ratio_a").isVisible()
    view.take_focus()
    focused = QApplication.focusWidget()
    assert focused is not None
    assert focused.isVisible()
    assert focused.objectName() == "mix.poured"


def test_the_keyboard_goes_from_the_ratio_to_the_amount_to_the_scale_to_the_start(
    view: MixView,
) -> None:
    view.activateWindow()
    view.take_focus()
    wanted = "ratio_b", "amount", "cup.1.actual_a", "cup.1.actual_b", "hardener_in"
    for words, then in zip(("100", "30", "214 g", "178.0", "231.5"), wanted, strict=True):
        target = QApplication.focusWidget()
        assert target is not None
        QTest.keyClicks(target, words)
        QTest.keyClick(target, Qt.Key.Key_Return)
        settle()
        held = QApplication.focusWidget()
        assert held is not None
        assert held.objectName() == f"mix.{then}"


def test_an_amount_that_is_refused_keeps_the_keyboard(view: MixView) -> None:
    view.activateWindow()
    type_into(view, "ratio_a", "100")
    type_into(view, "ratio_b", "30")
    type_into(view, "amount", "214 mm")
    assert line(view, "amount").hasFocus()
