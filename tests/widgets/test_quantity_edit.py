from collections.abc import Callable

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from shopassist.core.entry import EntrySpec
from shopassist.core.errors import EntryError
from shopassist.core.messages import say
from shopassist.core.wording import US, NumberStyle, Wording
from shopassist.widgets.look import Look
from tests.widgets.quantity_bench import Bench

MASS = EntrySpec("Kilogram", field="mix.amount")
EITHER = EntrySpec("Kilogram", field="mix.amount", also=("CubicMetre",))
ENTER = Qt.Key.Key_Return

Make = Callable[..., Bench]


@pytest.fixture
def bench(qtbot: QtBot, look: Look) -> Make:
    def make(
        spec: EntrySpec = MASS,
        wording: Wording | None = None,
        *,
        strict: bool = False,
        compact: bool = False,
    ) -> Bench:
        return Bench(qtbot, look, spec, wording or Wording(), strict=strict, compact=compact)

    return make


def test_the_line_carries_the_name_and_speaks_the_echo(bench: Make) -> None:
    made = bench()
    assert made.window.findChild(QLineEdit, "mix.amount") is made.edit.line
    assert made.edit.line.accessibleName() == "Needed"
    assert made.edit.objectName() == "mix.amount.box"
    made.type("12,5")
    assert made.edit.line.accessibleDescription() == "12.5 g = 0.441 oz (weight)"
    assert made.edit.echo.text() == "12.5 g = 0.441 oz (weight)"


def test_every_key_is_told_and_nothing_is_red_while_typing(bench: Make) -> None:
    made = bench(EITHER)
    made.type("8 oz")
    assert made.state() == ""
    assert [e.value if e else None for e in made.edited] == [0.008, 0.008, None, None]
    assert made.edit.echo.text() == ""
    assert not made.refused
    assert not made.committed


@pytest.mark.parametrize("how", ["enter", "leave"])
def test_enter_or_leaving_takes_what_can_be_read_once(bench: Make, how: str) -> None:
    made = bench()
    made.type("2 lb 8 oz")
    assert made.edit.is_dirty
    if how == "enter":
        made.press(ENTER)
        made.press(ENTER)
    made.leave()
    assert len(made.committed) == 1
    entry = made.committed[0]
    assert entry is not None
    assert entry.value == pytest.approx(1.133980925)
    assert not made.edit.is_dirty


def test_an_unclear_entry_is_refused_beside_the_field_with_choices(bench: Make) -> None:
    made = bench(EITHER)
    made.type("8 oz")
    made.leave()
    assert made.state() == "error"
    assert made.edit.echo.property("kind") == "error"
    assert made.edit.echo.text().startswith("Which ounce?")
    assert made.choices == ["8 oz (weight)", "8 US fl oz", "8 UK fl oz"]
    assert [error.field for error in made.refused] == ["mix.amount"]
    assert made.other.hasFocus()  # nobody is held in the field


def test_a_refusal_is_told_once_for_the_same_text(bench: Make) -> None:
    made = bench()
    made.type("5 foo")
    made.press(ENTER)
    made.leave()
    assert len(made.refused) == 1
    assert made.choices == []


def test_a_choice_is_made_by_a_press_or_by_a_key(bench: Make) -> None:
    made = bench(EITHER)
    made.type("8 oz")
    made.press(ENTER)
    made.press(Qt.Key.Key_2, Qt.KeyboardModifier.AltModifier)
    assert made.edit.text == "8 US fl oz"
    entry = made.committed[-1]
    assert entry is not None
    assert (entry.quantity, entry.unit) == ("CubicMetre", "US fl oz")
    assert made.choices == []
    assert made.state() == ""
    made.edit.line.selectAll()
    made.type("8 oz")
    made.press(ENTER)
    button = made.window.findChild(QPushButton, "mix.amount.choice.1")
    assert button is not None
    button.click()
    entry = made.committed[-1]
    assert entry is not None
    assert entry.quantity == "Kilogram"


def test_a_choice_that_is_not_offered_does_nothing(bench: Make) -> None:
    made = bench()
    made.type("5")
    made.edit.choose(1)
    assert made.edit.text == "5"
    assert not made.committed


def test_typing_on_takes_the_error_away(bench: Make) -> None:
    made = bench()
    made.type("5 foo")
    made.press(ENTER)
    assert made.state() == "error"
    made.press(Qt.Key.Key_Backspace)
    assert made.state() == ""
    assert made.edit.echo.text() == ""


def test_an_unlikely_value_is_asked_about_and_kept_only_by_an_answer(bench: Make) -> None:
    made = bench(EntrySpec("Kilogram", unlikely_above=10.0))
    made.type("25 kg")
    made.press(ENTER)
    made.press(ENTER)
    made.leave()
    assert not made.committed
    assert made.edit.echo.text() == "25 kg is more than is usual here. Is it right?"
    assert made.choices == ["Keep 25 kg"]
    made.edit.choose(1)
    assert [e.value for e in made.committed if e] == [25.0]
    assert made.choices == []


def test_typing_on_withdraws_the_question(bench: Make) -> None:
    made = bench(EntrySpec("Kilogram", unlikely_above=10.0))
    made.type("25 kg")
    made.press(ENTER)
    made.edit.line.selectAll()
    made.type("2.5 kg")
    made.press(ENTER)
    assert [e.value for e in made.committed if e] == [2.5]


def test_emptying_a_field_is_told_as_none(bench: Make) -> None:
    made = bench()
    made.edit.set_text("12.5 g")
    made.edit.line.selectAll()
    made.press(Qt.Key.Key_Delete)
    made.press(ENTER)
    assert made.committed == [None]


def test_a_default_stands_in_graphite_and_says_so(bench: Make) -> None:
    made = bench(EntrySpec("Ratio", unit="%"))
    made.edit.set_value(0.08, "default", 0)
    assert made.edit.text == "8"
    assert made.state() == "default"
    assert made.edit.line.property("typed") == "false"
    assert made.edit.echo.text() == "8 % · default"
    made.press(ENTER)
    made.leave()
    assert not made.committed
    made.edit.line.setFocus()
    made.edit.line.selectAll()
    made.type("9")
    assert made.state() == ""
    assert made.edit.line.property("typed") == "true"
    assert made.edit.echo.text() == "9 %"


def test_what_is_being_typed_is_not_overwritten(bench: Make) -> None:
    made = bench()
    made.type("12")
    made.edit.set_value(0.5)
    made.edit.set_text("7 g")
    assert made.edit.text == "12"
    made.press(ENTER)
    made.edit.set_value(0.5, decimals=0)
    assert made.edit.text == "500"
    made.edit.set_value(0.5, decimals=0)
    made.edit.set_value(None)
    assert made.edit.text == ""


def test_clearing_empties_even_what_is_being_typed(bench: Make) -> None:
    made = bench()
    made.type("5 foo")
    made.press(ENTER)
    made.edit.clear()
    assert (made.edit.text, made.state(), made.edit.echo.text()) == ("", "", "")
    assert not made.edit.is_dirty


def test_a_stored_text_is_shown_as_this_shop_writes(bench: Make) -> None:
    made = bench(MASS, Wording(NumberStyle(",")))
    made.edit.set_text("12.50 g")
    assert made.edit.text == "12,50"
    made.edit.set_text("1.234 kg")
    assert made.edit.text == "1,234 kg"
    assert made.edit.echo.text() == "1,234 kg = 1\u2009234 g"
    made.edit.set_text("")
    assert made.edit.text == ""


def test_the_unit_stands_at_the_right_until_another_is_typed(bench: Make) -> None:
    wording = Wording()
    made = bench(MASS, wording)
    assert made.edit.line.unit.text() == "g"
    made.type("1½")
    assert made.edit.line.unit.isVisible()
    made.type(" lb")
    assert not made.edit.line.unit.isVisible()
    wording.units = US
    made.edit.refresh_unit()
    made.edit.refresh_unit()
    assert made.edit.line.unit.text() == "oz"
    plain = bench(EntrySpec("Ratio"))
    assert plain.edit.line.textMargins().right() == 0


def test_a_time_is_shown_in_the_unit_of_its_field(bench: Make) -> None:
    made = bench(EntrySpec("Second", unit="min"))
    made.edit.set_value(4500.0, "sheet")
    assert made.edit.text == "75.0"
    assert made.edit.echo.text() == "1 h 15 min · sheet"


def test_a_refusal_from_elsewhere_is_shown_in_the_same_place(bench: Make) -> None:
    made = bench()
    made.edit.show_error(EntryError(say("More than the bottle holds."), field="mix.amount"))
    assert made.state() == "error"
    assert made.edit.echo.text() == "More than the bottle holds."


def test_a_compact_field_speaks_up_only_when_something_is_wrong(bench: Make) -> None:
    made = bench(compact=True)
    made.type("5")
    assert not made.edit.label.isVisible()
    assert not made.edit.echo.isVisible()
    made.type(" foo")
    made.press(ENTER)
    assert made.edit.echo.isVisible()


def test_arriving_by_key_selects_everything(bench: Make) -> None:
    made = bench()
    made.type("12")
    made.press(ENTER)
    made.leave()
    made.edit.line.setFocus(Qt.FocusReason.TabFocusReason)
    assert made.edit.line.selectedText() == "12"


def test_after_enter_the_next_key_begins_anew_and_appends_nothing(bench: Make) -> None:
    made = bench()
    made.type("100")
    made.press(ENTER)
    made.type("30")
    made.press(ENTER)
    assert [None if each is None else each.plain for each in made.committed] == ["100 g", "30 g"]
    made.type("x")
    made.press(ENTER)
    assert made.edit.line.selectedText() == "", "what is refused is there to be mended"


def test_another_window_in_front_is_no_leaving(bench: Make) -> None:
    made = bench()
    made.type("12")
    line = made.edit.line
    line.focusOutEvent(QFocusEvent(QEvent.Type.FocusOut, Qt.FocusReason.ActiveWindowFocusReason))
    assert not made.committed


def test_too_much_is_told_and_not_cut_off(bench: Make) -> None:
    made = bench()
    made.edit.line.setText("1" * 60)
    made.press(ENTER)
    assert made.edit.echo.text().startswith("That is too long.")
