"""The cure pane on screen: digits, the ruled edge, temperature, milestones, other cures."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QGridLayout, QHBoxLayout, QLabel, QPushButton, QVBoxLayout

from shopassist.core.entry import Entry
from shopassist.core.wording import Wording
from shopassist.panes.cure.presenter import TEMPERATURE, CurePresenter, CureScreen, Line
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.wait_block import WaitBlock

MOST_OTHERS = 11


class CureView(PaneFrame):
    """Draws the presenter's screen; only the digits change each second."""

    def __init__(self, look: Look, presenter: CurePresenter, wording: Wording) -> None:
        super().__init__(look, "cure", "Cure")
        self._presenter = presenter
        screen = presenter.screen
        self.wait = WaitBlock(look, "cure.wait", screen.wait)
        self.wait.digits.setObjectName("cure.digits")
        self.wait.mark.setObjectName("cure.explain")
        self.wait.explain_asked.connect(presenter.on_explain)
        self.body.addWidget(self.wait, 1)
        self.body.addWidget(Hair(look))
        self.body.addLayout(self._temperature_row(look, wording))
        self.message = Heading(look, "cure.message", "", "bold", "error")
        self.body.addWidget(self.message)
        self.body.addWidget(Hair(look))
        foot = QHBoxLayout()
        foot.setSpacing(round(4 * look.u))
        foot.addLayout(self._milestones(), 1)
        foot.addLayout(self._seen_box())
        self.body.addLayout(foot)
        self.body.addLayout(self._others_box())
        self.notes = Heading(look, "cure.notes", "")
        self.body.addWidget(self.notes)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ----------------------------------------------------------------------------

    def _temperature_row(self, look: Look, wording: Wording) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2.5 * look.u))
        self.value = _label("typed")
        name_it(self.value, "cure.temperature.latest", "Newest temperature")
        self.age = Heading(look, "cure.temperature.age", "")
        self.edit = QuantityEdit(
            look, "cure.temperature", "Temperature now", TEMPERATURE, wording, compact=True
        )
        self.edit.setMaximumWidth(8 * look.metrics.body_px)
        self.edit.committed.connect(self._typed)
        self.where = QComboBox()
        name_it(self.where, "cure.where", "What the thermometer measures")
        self.where.addItems(self._presenter.screen.places)
        self.where.textActivated.connect(self._presenter.on_place)
        self.add = QPushButton("Add temperature")
        name_it(self.add, "cure.add_temperature", "Add temperature")
        self.add.setProperty("kind", "primary")
        self.add.clicked.connect(self._add)
        row.addWidget(self.value, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.age, 1, Qt.AlignmentFlag.AlignVCenter)
        for widget in (self.edit, self.where, self.add):
            row.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter)
        return row

    def _milestones(self) -> QGridLayout:
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(round(4 * self.look.u))
        self._grid.setVerticalSpacing(0)
        self._grid.setColumnStretch(1, 1)
        self._rows: dict[str, tuple[QLabel, QLabel, QLabel, ExplainMark]] = {}
        return self._grid

    def _others_box(self) -> QVBoxLayout:
        self._others = QVBoxLayout()
        self._other_buttons: dict[str, QPushButton] = {}
        return self._others

    def _seen_box(self) -> QGridLayout:
        """What the witness cup shows: two rows of two."""
        box = QGridLayout()
        box.setSpacing(round(1.5 * self.look.u))
        self.witness = _label("label", "Seen on the witness cup")
        box.addWidget(self.witness, 0, 0, 1, 2)
        self.seen: dict[str, QPushButton] = {}
        for number, (mark, _) in enumerate(self._presenter.screen.seen):
            button = QPushButton(mark)
            name_it(button, f"cure.seen.{number + 1}", f"Seen: {mark}")
            button.clicked.connect(lambda _=False, mark=mark: self._presenter.on_seen(mark))
            box.addWidget(button, 1 + number // 2, number % 2)
            self.seen[mark] = button
        box.setRowStretch(3, 1)
        return box

    # -- drawing --------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self.wait.draw(screen.wait)
        self.wait.digits.setVisible(bool(screen.batch_id))
        self.wait.set_digits(self._presenter.digits())
        number, unit = screen.temperature
        self.value.setText(f"{number} {unit}")
        self.age.draw(screen.temperature_line)
        self.message.draw(screen.error)
        self.message.setVisible(bool(screen.error))
        self._draw_lines(screen)
        self._draw_others(screen)
        words = "\n".join(screen.notes) or screen.empty
        self.notes.draw(words)
        self.notes.setVisible(bool(words))
        for mark, when in screen.seen:
            self.seen[mark].setText(f"{mark} {when}".strip())
            self.seen[mark].setVisible(bool(screen.batch_id))
        self.witness.setVisible(bool(screen.batch_id))

    def _draw_lines(self, screen: CureScreen) -> None:
        if [line.id for line in screen.lines] != list(self._rows):
            self._clear_lines()
            for number, line in enumerate(screen.lines):
                self._add_line(number, line)
        for line in screen.lines:
            label, likely, gate, mark = self._rows[line.id]
            label.setText(line.label)
            likely.setText(line.range)
            gate.setText("reached" if line.passed else line.gate)
            label.setToolTip(line.note)
            mark.setAccessibleName(f"Explain {line.label}")

    def _clear_lines(self) -> None:
        for widgets in self._rows.values():
            for widget in widgets:
                self._grid.removeWidget(widget)
                widget.hide()
                widget.deleteLater()
        self._rows = {}

    def _add_line(self, number: int, line: Line) -> None:
        label, likely, gate = _label("label"), _label("range"), _label("strong")
        name_it(gate, line.id, line.label)
        mark = ExplainMark(self.look, f"{line.id}.explain", f"Explain {line.label}")
        mark.clicked.connect(lambda: self._presenter.on_explain(line.id))
        for column, widget in enumerate((label, likely, gate, mark)):
            self._grid.addWidget(widget, number, column, Qt.AlignmentFlag.AlignVCenter)
        self._rows[line.id] = (label, likely, gate, mark)

    def _draw_others(self, screen: CureScreen) -> None:
        others = screen.others[:MOST_OTHERS]
        if [other.batch_id for other in others] != list(self._other_buttons):
            for button in self._other_buttons.values():
                self._others.removeWidget(button)
                button.hide()
                button.deleteLater()
            self._other_buttons = {}
            for other in others:
                self._other_buttons[other.batch_id] = self._other(other.batch_id)
        self._draw_other_digits(screen)

    def _other(self, batch_id: str) -> QPushButton:
        button = QPushButton()
        name_it(button, f"cure.wait.{batch_id}.remaining", "")
        button.setProperty("kind", "quiet")
        button.clicked.connect(lambda: self._presenter.on_take(batch_id))
        self._others.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft)
        return button

    def _draw_other_digits(self, screen: CureScreen) -> None:
        for other in screen.others[:MOST_OTHERS]:
            digits = self._presenter.digits_of(other.batch_id)
            text = f"{digits}   {other.name} · {other.caption}"
            button = self._other_buttons[other.batch_id]
            if button.text() != text:
                button.setText(text)
                button.setAccessibleName(text)

    def tick(self) -> None:
        """Each second: only the digits."""
        self.wait.set_digits(self._presenter.digits())
        for batch_id, button in self._other_buttons.items():
            _, _, words = button.text().partition("   ")
            button.setText(f"{self._presenter.digits_of(batch_id)}   {words}")

    # -- the person -----------------------------------------------------------------------------

    def _typed(self, entry: Entry | None) -> None:
        self._presenter.on_temperature(entry)
        self.edit.clear()

    def _add(self) -> None:
        if self.edit.text.strip():
            self.edit.commit()
        else:
            self.edit.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def take_focus(self) -> None:
        """Bring the keyboard to the temperature."""
        self.edit.line.setFocus(Qt.FocusReason.OtherFocusReason)


def _label(kind: str, words: str = "") -> QLabel:
    label = QLabel(words)
    label.setProperty("kind", kind)
    return label
