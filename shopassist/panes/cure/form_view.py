"""The form for temperatures: which act, its fields, and what it does."""

from typing import get_args

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.cure.form import MODES, NUMBERS, TEMPERATURE
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.cure.screen import Field, FormShown
from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit

LABELS: dict[Field, str] = {
    "temp": "Temperature", "low": "Lowest", "high": "Highest", "since": "Since", "when": "When",
    "reading": "Reading", "reason": "Reason", "what": "What for", "after": "From, after",
    "before": "Until, after", "off": "Off for",
}  # fmt: skip
BY_TURNS: dict[Field, str] = {
    "temp": "By day", "low": "By night", "since": "Night from", "when": "To",
}  # fmt: skip
"""What the same fields are called where day and night take turns."""
WIDTHS: dict[Field, int] = {"reading": 13, "reason": 12, "since": 9, "when": 9, "what": 12}


class TextField(QWidget):
    """A line of words under its label, with room to say how it is understood."""

    def __init__(self, name: str, label: str) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        self.label = QLabel(label)
        self.label.setProperty("kind", "label")
        self.line = QLineEdit()
        name_it(self.line, name, label)
        self.line.setProperty("typed", "true")
        self.label.setBuddy(self.line)
        self.echo = QLabel()
        self.echo.setProperty("kind", "label")
        self.echo.setObjectName(f"{name}.echo")
        for widget in (self.label, self.line, self.echo):
            column.addWidget(widget)
        column.addStretch(1)


class FormView(QWidget):
    """Draws ``FormShown``; every field tells the presenter what stands in it."""

    def __init__(self, look: Look, presenter: CurePresenter, wording: Wording) -> None:
        super().__init__()
        self._presenter, self._look = presenter, look
        self._serial = -1
        self._boxes: dict[Field, QWidget] = {}
        self.numbers: dict[Field, QuantityEdit] = {}
        self.texts: dict[Field, TextField] = {}
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(look.u))
        column.addLayout(self._mode_row(look))
        column.addLayout(self._field_row(look, wording))
        column.addStretch(1)

    # -- building --------------------------------------------------------------------------------

    def _mode_row(self, look: Look) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * look.u))
        self.mode = Choice()
        name_it(self.mode, "cure.form.mode", "What to type")
        for mode, word in MODES:
            self.mode.addItem(word, mode)
        self.mode.activated.connect(
            lambda number: self._presenter.on_mode(self.mode.itemData(number))
        )
        self.hint = Heading(look, "cure.form.hint", "")
        row.addWidget(self.mode)
        row.addWidget(self.hint, 1, Qt.AlignmentFlag.AlignVCenter)
        return row

    def _field_row(self, look: Look, wording: Wording) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * look.u))
        self.reading = Choice()
        name_it(self.reading, "cure.form.reading", "Which reading")
        self.reading.activated.connect(self._picked)
        for name in get_args(Field):
            box = self._field(name, look, wording)
            box.setMaximumWidth(WIDTHS.get(name, 7) * look.metrics.body_px)
            row.addWidget(box, 1, Qt.AlignmentFlag.AlignTop)
            self._boxes[name] = box
        self.do = QPushButton()
        name_it(self.do, "cure.form.do", "Do it")
        self.do.clicked.connect(self._do)
        self.clear = QPushButton("Take away")
        name_it(self.clear, "cure.form.clear", "Take the what-if away")
        self.clear.clicked.connect(self._presenter.on_clear_what_if)
        for button in (self.do, self.clear):
            column = QVBoxLayout()
            column.addSpacing(round(1.6 * look.metrics.body_px))
            column.addWidget(button)
            column.addStretch(1)
            row.addLayout(column)
        row.addStretch(1)
        return row

    def _field(self, name: Field, look: Look, wording: Wording) -> QWidget:
        label, path = LABELS[name], f"cure.form.{name}"
        if name in NUMBERS:
            edit = QuantityEdit(look, path, label, TEMPERATURE, wording)
            edit.committed.connect(lambda entry, n=name: self._presenter.on_number(n, entry))
            self.numbers[name] = edit
            return edit
        if name == "reading":
            box = QWidget()
            column = QVBoxLayout(box)
            column.setContentsMargins(0, 0, 0, 0)
            column.setSpacing(2)
            words = QLabel(label)
            words.setProperty("kind", "label")
            words.setBuddy(self.reading)
            column.addWidget(words)
            column.addWidget(self.reading)
            return box
        field = TextField(path, label)
        field.line.textEdited.connect(lambda text, n=name: self._presenter.on_text(n, text))
        field.line.returnPressed.connect(self._do)
        self.texts[name] = field
        return field

    # -- drawing ---------------------------------------------------------------------------------

    def draw(self, shown: FormShown) -> None:
        """Show the fields of the act that was chosen."""
        self.mode.setCurrentIndex(self.mode.findData(shown.mode))
        for name, box in self._boxes.items():
            box.setVisible(name in shown.fields)
        self._call(BY_TURNS if shown.mode == "nights" else LABELS)
        if shown.serial != self._serial:
            self._serial = shown.serial
            self._empty()
        words = [text for _, text in shown.readings]
        if words != [self.reading.itemText(n) for n in range(self.reading.count())]:
            self.reading.clear()
            for seq, text in shown.readings:
                self.reading.addItem(text, seq)
        for name, echo in shown.echoes:
            self.texts[name].echo.setText(echo)
        self.hint.draw(shown.hint)
        self.do.setText(shown.act)
        self.do.setAccessibleName(shown.act)
        self.clear.setVisible(shown.can_clear)

    def _call(self, words: dict[Field, str]) -> None:
        for name in BY_TURNS:
            field = self.numbers.get(name) or self.texts[name]
            if field.label.text() != words[name]:
                field.label.setText(words[name])
                field.line.setAccessibleName(words[name])

    def _empty(self) -> None:
        for edit in self.numbers.values():
            edit.clear()
        for field in self.texts.values():
            field.line.clear()

    # -- the person ------------------------------------------------------------------------------

    def _picked(self, index: int) -> None:
        self._presenter.on_pick(int(self.reading.itemData(index)))

    def _do(self) -> None:
        for name, edit in self.numbers.items():
            if self._boxes[name].isVisibleTo(self):
                edit.commit()
        self._presenter.on_do()

    def take_focus(self) -> None:
        """Bring the keyboard to the first field in sight."""
        for name, box in self._boxes.items():
            if box.isVisibleTo(self):
                target = self.reading if name == "reading" else box
                field = self.texts.get(name)
                (field.line if field is not None else target).setFocus(
                    Qt.FocusReason.OtherFocusReason
                )
                return
