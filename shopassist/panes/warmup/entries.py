"""The entries of a warm-up as a form: label left, box right, one line each."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.warmup.drafts import BOX, LABELS, SPECS, FieldName
from shopassist.panes.warmup.presenter import WarmupPresenter
from shopassist.panes.warmup.screen import WarmupScreen
from shopassist.services.warmup import INSIDE
from shopassist.widgets.choice import Choice
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.onward import go_on
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.wait_block import TwoEnds

COLUMN_EM = 22
TYPED_HERE = "Type it in"
WARMTH: tuple[FieldName, ...] = ("thermostat", "shop", "goal")
LOAD: tuple[FieldName, ...] = ("pot", "moulds", "resin", "count", "wood")
INSIDE_WORDS = {
    "nothing mixed": "Moulds, empty",
    "poured moulds": "Moulds, poured",
    "mixed resin in a cup": "Mixed resin in a cup",
}


class WarmupEntries(QWidget):
    """Choices and quantities of one warm-up."""

    def __init__(self, look: Look, presenter: WarmupPresenter, wording: Wording) -> None:
        super().__init__()
        name_it(self, "warmup.entries", "What is to be warmed")
        self.look, self._presenter = look, presenter
        self._cabinets: tuple[tuple[str, str], ...] | None = None
        self._labels: dict[FieldName, QLabel] = {}
        self.edits = {name: self._edit(name, wording) for name in SPECS}
        self.cabinet = self._combo("warmup.cabinet", "Cabinet")
        self.cabinet.activated.connect(
            lambda index: presenter.on_cabinet(str(self.cabinet.itemData(index) or ""))
        )
        self.inside = self._combo("warmup.inside", "What is in it")
        for each in INSIDE:
            self.inside.addItem(INSIDE_WORDS[each], each)
        self.inside.activated.connect(
            lambda index: presenter.on_inside(str(self.inside.itemData(index)))
        )
        self._build()

    @staticmethod
    def _combo(name: str, label: str) -> QComboBox:
        combo = Choice()
        name_it(combo, name, label)
        combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        return combo

    def _edit(self, name: FieldName, wording: Wording) -> QuantityEdit:
        edit = QuantityEdit(
            self.look, f"warmup.{name}", LABELS[name], SPECS[name], wording, compact=True
        )
        edit.committed.connect(lambda entry: self._presenter.on_committed(name, entry))
        return edit

    def _build(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(0.4 * self.look.u))
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(round(2 * self.look.u))
        self._grid.setVerticalSpacing(round(0.4 * self.look.u))
        self._grid.setColumnStretch(0, 5)
        self._grid.setColumnStretch(1, 6)
        self._row = 0
        self._line("Cabinet", self.cabinet)
        self.summary = TwoEnds(self.look, "warmup.summary", "The cabinet", ("", ""))
        self._wide(self.summary)
        self._group(BOX)
        self._group(WARMTH)
        self._wide(Hair(self.look))
        self._line("In it", self.inside)
        self.refused = Heading(self.look, "warmup.inside.error", "", "body", "error")
        self._wide(self.refused)
        self._group(LOAD)
        self._wide(Hair(self.look))
        self._pour()
        column.addLayout(self._grid)
        self.learn = QPushButton("Learn the cabinet from a log")
        name_it(self.learn, "warmup.learn_open", "Learn the cabinet from a logged warm-up")
        self.learn.setProperty("kind", "quiet")
        self.learn.clicked.connect(self._presenter.on_learn)
        column.addWidget(self.learn, 0, Qt.AlignmentFlag.AlignLeft)
        self.cautions = Heading(self.look, "warmup.cautions", "")
        column.addWidget(self.cautions)
        column.addStretch(1)

    def _group(self, names: tuple[FieldName, ...]) -> None:
        for name in names:
            self._labels[name] = self._line(LABELS[name], self.edits[name])

    def _line(self, words: str, field: QWidget) -> QLabel:
        label = QLabel(words)
        label.setProperty("kind", "label")
        label.setBuddy(field)
        self._grid.addWidget(label, self._row, 0)
        self._grid.addWidget(field, self._row, 1)
        self._row += 1
        return label

    def _wide(self, widget: QWidget) -> None:
        self._grid.addWidget(widget, self._row, 0, 1, 2)
        self._row += 1

    def _pour(self) -> None:
        self.pour = QLineEdit()
        name_it(self.pour, "warmup.pour_at", "Pour at, clock time")
        self.pour.editingFinished.connect(self._on_pour)
        self._line("Pour at", self.pour)
        self.pour_error = Heading(self.look, "warmup.pour_at.error", "", "body", "error")
        self._wide(self.pour_error)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next entry in sight."""
        air, load = ([self.edits[name] for name in names] for names in ((*BOX, *WARMTH), LOAD))
        go_on(event, [self.cabinet, *air, self.inside, *load, self.pour])

    def _on_pour(self) -> None:
        if self.pour.isModified():
            self.pour.setModified(False)
            self._presenter.on_pour_at(self.pour.text())

    # -- drawing ---------------------------------------------------------------------------------

    def draw(self, screen: WarmupScreen) -> None:
        """Show what stands; what is being typed is never overwritten."""
        if screen.cabinets != self._cabinets:
            self._cabinets = screen.cabinets
            self.cabinet.clear()
            for record_id, name in screen.cabinets:
                self.cabinet.addItem(name, record_id)
            self.cabinet.addItem(TYPED_HERE, "")
        self.cabinet.setCurrentIndex(max(0, self.cabinet.findData(screen.cabinet)))
        self.summary.draw(screen.summary)
        self.summary.setVisible(not screen.is_typed)
        self.refused.draw(screen.refused)
        self.refused.setVisible(bool(screen.refused))
        self.inside.setCurrentIndex(self.inside.findData(screen.inside))
        for name, standing in screen.fields:
            edit = self.edits[name]
            if standing.origin == "typed":
                edit.set_text(standing.text)
            else:
                edit.set_value(standing.value, standing.origin or "default",
                               0 if name == "count" else None)  # fmt: skip
            is_shown = screen.is_typed if name in BOX else screen.shares or name != "count"
            edit.setVisible(is_shown)
            self._labels[name].setVisible(is_shown)
        self._draw_pour(screen)
        self.learn.setVisible(not screen.is_typed)
        self.cautions.draw(screen.cautions)

    def _draw_pour(self, screen: WarmupScreen) -> None:
        if not self.pour.isModified():
            self.pour.setText(screen.pour_text)
        dress(self.pour, "typed", screen.pour_is_typed)
        state = "" if screen.pour_is_typed else "default"
        dress(self.pour, "state", "error" if screen.pour_error else state)
        self.pour_error.draw(screen.pour_error)
        self.pour_error.setVisible(bool(screen.pour_error))


def dress(widget: QWidget, name: str, value: object) -> None:
    """Set a property that the theme looks at, and have it looked at."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
