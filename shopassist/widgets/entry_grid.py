"""A grid of entries: quantities, choices and lines, each with its message beneath."""

from collections.abc import Mapping

from PySide6.QtCore import Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.entry.asked import Answer, Ask
from shopassist.core.wording import Wording
from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.onward import go_on
from shopassist.widgets.piece import name_it
from shopassist.widgets.quantity_edit import QuantityEdit


class EntryGrid(QWidget):
    """``edited`` and ``committed`` carry name and entry; ``chosen`` name and key or words."""

    edited = Signal(str, object)
    committed = Signal(str, object)
    chosen = Signal(str, str)
    line_edited = Signal(str, str)
    """A line of words with every key; ``chosen`` follows when it is done."""

    def __init__(
        self, look: Look, pane: str, asks: tuple[Ask, ...], wording: Wording, columns: int = 2
    ) -> None:
        super().__init__()
        self._pane, self._look, self._wording = pane, look, wording
        self._asks = {each.name: each for each in asks}
        self.quantities: dict[str, QuantityEdit] = {}
        self.choices: dict[str, QComboBox] = {}
        self.lines: dict[str, QLineEdit] = {}
        self.boxes: dict[str, QWidget] = {}
        self._problems: dict[str, QLabel] = {}
        self._drawn: dict[str, Answer] = {}
        self._written_as: tuple[object, object] | None = None
        self._only: frozenset[str] | None = None
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(round(2 * look.u))
        grid.setVerticalSpacing(round(look.u))
        for number, ask in enumerate(asks):
            made = self._build(ask)
            self.boxes[ask.name] = made
            grid.addWidget(made, number // columns, number % columns)
        for column in range(columns):
            grid.setColumnStretch(column, 1)
        grid.setRowStretch(len(asks), 1)

    def _build(self, ask: Ask) -> QWidget:
        box = QWidget()
        box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        column = QVBoxLayout(box)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(self._look.u / 2))
        name = f"{self._pane}.{ask.name}"
        if ask.spec is not None:
            edit = QuantityEdit(self._look, name, ask.label, ask.spec, self._wording)
            edit.edited.connect(lambda entry: self.edited.emit(ask.name, entry))
            edit.committed.connect(lambda entry: self.committed.emit(ask.name, entry))
            edit.line.setToolTip(ask.note)
            self.quantities[ask.name] = edit
            column.addWidget(edit)
        else:
            label = QLabel(ask.label)
            label.setProperty("kind", "label")
            field = self._choice(ask) if ask.choices else self._line(ask)
            name_it(field, name, ask.label)
            field.setToolTip(ask.note)
            label.setBuddy(field)
            column.addWidget(label)
            column.addWidget(field)
        problem = QLabel()
        problem.setProperty("kind", "error")
        problem.setWordWrap(True)
        problem.hide()
        column.addWidget(problem)
        column.addStretch(1)
        self._problems[ask.name] = problem
        return box

    def _choice(self, ask: Ask) -> QComboBox:
        box = Choice()
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.setMinimumContentsLength(6)
        for key, words in ask.choices:
            box.addItem(words, key)
        box.activated.connect(lambda place: self.chosen.emit(ask.name, str(box.itemData(place))))
        self.choices[ask.name] = box
        return box

    def _line(self, ask: Ask) -> QLineEdit:
        line = QLineEdit()
        line.setProperty("typed", "true")
        line.textEdited.connect(lambda text: self.line_edited.emit(ask.name, text.strip()))
        line.editingFinished.connect(lambda: self.chosen.emit(ask.name, line.text().strip()))
        self.lines[ask.name] = line
        return line

    def offer(self, name: str, choices: tuple[tuple[str, str], ...]) -> None:
        """Take other choices, for instance the records that there are now."""
        box = self.choices[name]
        old = tuple((str(box.itemData(n)), box.itemText(n)) for n in range(box.count()))
        if old != choices:
            kept = box.currentData()
            box.clear()
            for key, words in choices:
                box.addItem(words, key)
            box.setCurrentIndex(max(0, box.findData(kept)))

    def draw(self, answers: Mapping[str, Answer]) -> None:
        """Show what stands; what is being typed is never overwritten."""
        written_as = (self._wording.units, self._wording.style)
        if written_as != self._written_as:
            self._written_as = written_as
            self._drawn.clear()
        for name, answer in answers.items():
            if name in self._asks:
                self._draw(name, answer)

    def _draw(self, name: str, answer: Answer) -> None:
        if name in self.quantities:
            if self._drawn.get(name) is answer:
                return  # whatever was typed since is a draft, and a draft is another answer
            edit = self.quantities[name]
            self._drawn.pop(name, None)
            if not edit.is_dirty:
                self._drawn[name] = answer
            self._draw_quantity(edit, self._asks[name], answer)
        elif name in self.choices:
            box = self.choices[name]
            if box.currentData() != answer.text:
                box.setCurrentIndex(max(0, box.findData(answer.text)))
        else:
            self._draw_line(self.lines[name], answer.text)
        problem = self._problems[name]
        if problem.text() != answer.problem:
            problem.setText(answer.problem)
            problem.setVisible(bool(answer.problem))

    @staticmethod
    def _draw_line(line: QLineEdit, words: str) -> None:
        """The keyboard alone keeps no words out, what is typed there does."""
        if line.text() == words:
            line.setModified(False)
        elif not (line.hasFocus() and line.isModified()):
            line.setText(words)
            line.setCursorPosition(0)

    @staticmethod
    def _draw_quantity(edit: QuantityEdit, ask: Ask, answer: Answer) -> None:
        if answer.origin in ("typed", "job card") and answer.text:
            edit.set_text(answer.text)
        elif answer.value is not None:
            edit.set_value(answer.value, answer.origin or "default", ask.places)
        else:
            edit.set_value(None)

    def show_only(self, names: frozenset[str]) -> None:
        """Hide the entries that do not matter now."""
        if names == self._only:
            return
        self._only = names
        for name, box in self.boxes.items():
            if box.isHidden() == (name in names):
                box.setVisible(name in names)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next entry in sight."""
        go_on(event, [self.quantities.get(name) or self._field(name) for name in self.boxes])

    def first(self) -> QWidget:
        """The entry that the keyboard goes to first."""
        for name, box in self.boxes.items():
            if not box.isHidden():
                found = self.quantities.get(name)
                return found.line if found is not None else self._field(name)
        return self

    def _field(self, name: str) -> QWidget:
        return self.choices[name] if name in self.choices else self.lines[name]
