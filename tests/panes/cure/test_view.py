from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QLineEdit, QPushButton, QWidget

from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.cure.view import CureView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from shopassist.widgets.tokens import DARK
from tests.panes.cure.bench import Bench

HOUR = 3600.0
DYNAMIC = {"cure.milestone", "cure.wait", "cure.more"}


@pytest.fixture
def look(qapp: QApplication) -> Look:
    made = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    made.set_pitch(1 / 0.253)
    Theme(qapp, made)
    return made


@pytest.fixture
def view(look: Look, bench: Bench) -> Iterator[CureView]:
    made = CureView(look, bench.cure_pane, bench.words)
    made.resize(930, 575)
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


def button(view: CureView, name: str) -> QPushButton:
    found = view.findChild(QPushButton, name)
    assert found is not None, name
    return found


def press(view: CureView, name: str) -> None:
    target = button(view, name)
    assert target.isVisible(), name
    target.setFocus()
    QTest.keyClick(target, Qt.Key.Key_Space)
    settle()


def label(view: CureView, name: str) -> str:
    found = view.findChild(QLabel, name)
    assert found is not None, name
    return found.text()


def test_with_nothing_curing_it_says_how_to_begin(view: CureView) -> None:
    assert view.times.empty.isVisible()
    assert not view.wait.digits.isVisible()


def test_a_temperature_is_typed_and_taken_with_enter(view: CureView, bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    view.take_focus()
    QTest.keyClicks(view.edit.line, "19,5".replace(",", "."))
    QTest.keyClick(view.edit.line, Qt.Key.Key_Return)
    assert len(bench.batches.get(batch).warmth) == 1
    assert view.edit.text == ""
    assert label(view, "cure.temperature.latest") == "19.5 °C"


def test_the_button_takes_what_stands_there_or_leads_to_the_field(
    view: CureView, bench: Bench
) -> None:
    batch = bench.mixed(celsius=None)
    press(view, "cure.add_temperature")
    assert view.edit.line.hasFocus()
    QTest.keyClicks(view.edit.line, "21")
    press(view, "cure.add_temperature")
    assert bench.batches.get(batch).warmth[-1].low == pytest.approx(294.15)


def test_the_place_of_the_thermometer_is_chosen(view: CureView, bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    view.where.setFocus()
    QTest.keyClick(view.where, Qt.Key.Key_End)
    view.where.textActivated.emit(view.where.currentText())
    QTest.keyClicks(view.edit.line, "21")
    QTest.keyClick(view.edit.line, Qt.Key.Key_Return)
    assert bench.batches.get(batch).warmth[-1].where == "shop"
    assert view.where.currentText() == "shop"


def test_each_second_only_the_digits_change(view: CureView, bench: Bench) -> None:
    bench.mixed()
    before = view.wait.digits.text
    bench.clock.advance(1)
    view.tick()
    assert view.wait.digits.text != before


def test_pages_are_opened_by_their_buttons(view: CureView, bench: Bench) -> None:
    bench.mixed()
    for number, page in enumerate((view.times, view.curve, view.form, view.witness), start=1):
        press(view, f"cure.page.{number}")
        assert view.pages.currentWidget() is page
        assert button(view, f"cure.page.{number}").isChecked()


def test_milestones_stand_with_their_gate_and_explain_themselves(
    view: CureView, bench: Bench
) -> None:
    told: list[str] = []
    bench.cure_pane.explained.connect(lambda figure: told.append(figure.id))
    bench.mixed()
    assert label(view, "cure.milestone.demould").startswith("from ")
    view.times._rows["cure.milestone.demould"][3].clicked.emit()
    view.wait.explain_asked.emit()
    assert told == ["cure.milestone.demould", "cure.milestone.pressurise"]


def test_lines_follow_what_the_person_did(view: CureView, bench: Bench) -> None:
    batch = bench.mixed()
    assert "cure.milestone.working" in view.times._rows
    bench.batches.load(batch, "big")
    assert next(iter(view.times._rows)) == "cure.milestone.hold"


def test_six_times_stand_in_two_columns_where_it_is_wide(view: CureView, bench: Bench) -> None:
    bench.mixed()
    bench.mixed("again", sheet="slow-clear")
    view.resize(1000, 575)
    settle()
    assert view.times._columns == 2
    bench.cure_pane.on_mode("what_if")
    bench.cure_pane.on_number("temp", bench.entry("16"))
    bench.cure_pane.on_do()
    settle()
    assert view.times._columns == 1
    assert label(view, "cure.milestone.demould.what_if").startswith("at 16.0 °C from")
    view.resize(620, 575)
    settle()
    assert view.times._columns == 1


def test_a_what_if_is_typed_shown_and_taken_away(view: CureView, bench: Bench) -> None:
    bench.mixed()
    press(view, "cure.page.3")
    mode = view.findChild(QComboBox, "cure.form.mode")
    assert mode is not None
    mode.setCurrentIndex(4)
    mode.activated.emit(4)
    QTest.keyClicks(view.form.numbers["temp"].line, "16")
    press(view, "cure.form.do")
    assert view.pages.currentWidget() is view.times
    assert not view.times._rows["cure.milestone.demould"][1].isVisible()
    press(view, "cure.page.3")
    press(view, "cure.form.clear")
    assert view.times._rows["cure.milestone.demould"][4].text() == ""


def test_an_interval_is_typed_by_keyboard(view: CureView, bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.clock.advance(3 * HOUR)
    bench.cure_pane.on_page("readings")
    bench.cure_pane.on_mode("extremes")
    settle()
    view.form.take_focus()
    for text in ("15", "21", "2 h ago"):
        focused = QApplication.focusWidget()
        assert isinstance(focused, QLineEdit)
        QTest.keyClicks(focused, text)
        if text != "2 h ago":
            QTest.keyClick(focused, Qt.Key.Key_Tab)
    focused = QApplication.focusWidget()
    assert focused is not None
    QTest.keyClick(focused, Qt.Key.Key_Return)
    reading = bench.batches.get(batch).warmth[-1]
    assert reading.since == pytest.approx(bench.now - 2 * HOUR)
    assert view.form.numbers["low"].text == ""
    assert view.form.texts["since"].line.text() == ""


def test_cold_nights_are_typed_under_their_own_names(view: CureView, bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_page("readings")
    settle()

    def labels() -> list[str]:
        numbers, texts = view.form.numbers, view.form.texts
        shown = [numbers["temp"].label, numbers["low"].label]
        shown += [texts["since"].label, texts["when"].label]
        return [label.text() for label in shown if label.isVisible()]

    bench.cure_pane.on_mode("nights")
    settle()
    assert labels() == ["By day", "By night", "Night from", "To"]
    bench.cure_pane.on_mode("unknown")
    settle()
    assert labels() == ["Since", "When"]


def test_the_reading_to_correct_is_chosen_from_the_list(view: CureView, bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    bench.clock.advance(60)
    bench.warm(batch, 25.0)
    bench.cure_pane.on_page("readings")
    bench.cure_pane.on_mode("correct")
    settle()
    view.form.take_focus()
    view.form.reading.setCurrentIndex(1)
    view.form.reading.activated.emit(1)
    QTest.keyClicks(view.form.numbers["temp"].line, "21")
    QTest.keyClicks(view.form.texts["reason"].line, "misread")
    press(view, "cure.form.do")
    assert [round(w.low - 273.15) for w in bench.batches.get(batch).warmth] == [21, 25]


def test_a_refusal_stands_in_the_pane(view: CureView, bench: Bench) -> None:
    bench.mixed()
    press(view, "cure.page.3")
    press(view, "cure.form.do")
    assert view.message.isVisible()
    assert view.message.words == "Type the temperature first."


def test_marks_of_the_witness_cup_are_pressed(view: CureView, bench: Bench) -> None:
    batch = bench.mixed()
    press(view, "cure.page.4")
    press(view, "cure.seen.2")
    assert "gelled" in bench.batches.get(batch).seen
    assert button(view, "cure.seen.2").text().startswith("gelled ")


def test_the_other_cures_open_from_their_line_and_are_taken(view: CureView, bench: Bench) -> None:
    first = bench.mixed("a")
    for number in range(11):
        bench.mixed(f"b{number}", sheet="slow-clear")
    assert button(view, "cure.beside").text().endswith("10 more")
    bench.clock.advance(1)
    before, words = view.first.text, button(view, "cure.beside").text()
    view.tick()
    assert view.first.text != before
    assert button(view, "cure.beside").text() == words
    press(view, "cure.beside")
    assert view.pages.currentWidget() is view.waits
    assert len(view.waits._rows) == 11
    before = label(view, f"cure.wait.{first}.remaining")
    bench.clock.advance(1)
    view.tick()
    assert label(view, f"cure.wait.{first}.remaining") != before
    press(view, f"cure.wait.{first}.take")
    assert bench.screen.batch_id == first
    assert first not in view.waits._rows


@pytest.mark.parametrize("size", [(930, 575), (620, 760), (930, 300)])
def test_the_digits_are_never_cut(view: CureView, bench: Bench, size: tuple[int, int]) -> None:
    bench.mixed()
    bench.mixed("b", sheet="slow-clear")
    batch = bench.hand.batch
    bench.warm(batch, 21.0, "shop")
    view.resize(*size)
    settle()
    assert view.wait.digits.height() >= view.wait.digits.minimumSizeHint().height()
    for widget in (view.edit, view.add, view.where):
        assert widget.geometry().bottom() <= view.height()


@pytest.mark.parametrize("page", ["times", "curve", "table", "readings", "witness", "waits"])
def test_no_page_squeezes_the_digits(view: CureView, bench: Bench, page: str) -> None:
    bench.mixed()
    bench.mixed("again", sheet="slow-clear")
    high = view._needs()
    view.resize(930, high + 1)
    bench.cure_pane.on_page(page)
    settle()
    assert view.wait.isVisible() and view.below.isVisible()
    assert view.wait.height() >= view.wait.minimumSizeHint().height()


def test_numbers_of_the_table_stand_right_and_words_left(view: CureView, bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_page("table")
    settle()
    right = Qt.AlignmentFlag.AlignRight
    for cell in (view.table.table.horizontalHeaderItem, lambda x: view.table.table.item(0, x)):
        items = [cell(x) for x in range(view.table.table.columnCount())]
        sides = [item is not None and bool(item.textAlignment() & right) for item in items]
        assert sides == [False, True, True, True, True, True, False]


def test_where_it_is_low_the_rest_takes_turns_with_the_digits(view: CureView, bench: Bench) -> None:
    bench.mixed()
    view.resize(930, 300)
    settle()
    assert not view.below.isVisible()
    press(view, "cure.more")
    assert view.below.isVisible()
    assert not view.wait.isVisible()
    press(view, "cure.more")
    assert view.wait.isVisible()
    view.resize(930, 600)
    settle()
    assert view.below.isVisible()
    assert view.wait.isVisible()
    assert not button(view, "cure.more").isVisible()


def test_notes_stand_under_the_times_where_they_have_no_line_of_their_own(
    view: CureView, bench: Bench
) -> None:
    batch = bench.mixed()
    bench.warm(batch, 21.0, "shop")
    view.resize(930, view._needs() + 5)
    settle()
    assert view.times.notes.isVisible()
    assert not view.notes.isVisible()
    view.resize(930, view._needs() + 80)
    settle()
    assert view.notes.isVisible()
    assert not view.times.notes.isVisible()


def test_one_chart_or_two(view: CureView, bench: Bench) -> None:
    bench.mixed()
    press(view, "cure.page.2")
    assert view.curve.age.isVisible()
    assert view.curve.warmth.isVisible()
    view.resize(640, 575)
    settle()
    assert not view.curve.warmth.isVisible()
    assert "demould" in view.curve.age.accessibleDescription()


def test_a_tall_pane_opens_the_curve(view: CureView, bench: Bench) -> None:
    bench.mixed()
    view.resize(700, 900)
    settle()
    assert view.pages.currentWidget() is view.curve


def test_every_name_that_the_presenter_answers_for_is_there(view: CureView, bench: Bench) -> None:
    bench.mixed("a")
    bench.mixed("b", sheet="slow-clear")
    names = {child.objectName() for child in view.findChildren(QWidget)}
    for wanted in CurePresenter.IDS:
        start = wanted.partition(".<n>")[0]
        end = wanted.rpartition("<n>")[2]
        assert any(name.startswith(start) and name.endswith(end) for name in names), wanted


def test_the_tab_key_reads_the_pane_from_the_top_down(view: CureView, bench: Bench) -> None:
    bench.mixed()
    view.edit.line.setFocus()
    seen = []
    for _ in range(12):
        focused = QApplication.focusWidget()
        assert focused is not None
        seen.append(focused.objectName())
        QTest.keyClick(focused, Qt.Key.Key_Tab)
    wanted = [
        "cure.temperature",
        "cure.where",
        "cure.add_temperature",
        "cure.page.1",
        "cure.page.2",
    ]
    places = [seen.index(name) for name in wanted]
    assert places == sorted(places)


def test_another_theme_is_taken_at_once(view: CureView, bench: Bench, look: Look) -> None:
    bench.mixed()
    press(view, "cure.page.2")
    look.set_tokens(DARK)
    settle()
    assert view.curve.age.plot.backgroundBrush().color().name().upper() == DARK.sheet
