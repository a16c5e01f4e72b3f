"""The inputs of a mix: sheet or ratio, amount, waste, scale; folded to two lines once weighing."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.mix.drafts import LABELS, SPECS, FieldName, Standing
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import MixScreen
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.wait_block import TwoEnds

JUST_A_RATIO = "Just a ratio"
COLUMN_BODIES = 21


class MixInputsView(QWidget):
    """Five entries and two choices; the same two lines as a summary."""

    def __init__(self, look: Look, presenter: MixPresenter, wording: Wording) -> None:
        super().__init__()
        name_it(self, "mix.inputs", "What to mix")
        self.look = look
        self._presenter = presenter
        self._open = QWidget()
        self._sheets: tuple[tuple[str, str], ...] | None = None
        self.edits: dict[FieldName, QuantityEdit] = {
            name: self._edit(name, wording) for name in SPECS
        }
        self._lay_open()
        self._folded = QWidget()
        self._lay_folded()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._open)
        column.addWidget(self._folded)
        column.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    def _edit(self, name: FieldName, wording: Wording) -> QuantityEdit:
        edit = QuantityEdit(self.look, f"mix.{name}", LABELS[name], SPECS[name], wording)
        edit.edited.connect(lambda entry: self._presenter.on_edited(name, entry))
        edit.committed.connect(lambda entry: self._presenter.on_committed(name, entry))
        return edit

    def _lay_open(self) -> None:
        column = QVBoxLayout(self._open)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(1.2 * self.look.u))
        self.sheet = QComboBox()
        name_it(self.sheet, "mix.sheet", "Resin sheet, or just a ratio")
        self.sheet.activated.connect(
            lambda index: self._presenter.on_sheet(str(self.sheet.itemData(index) or ""))
        )
        column.addWidget(Heading(self.look, "mix.sheet_label", "Resin"))
        column.addWidget(self.sheet)
        column.addLayout(self._pair("ratio_a", "ratio_b"))
        column.addLayout(self._basis_row())
        column.addWidget(self.edits["amount"])
        column.addLayout(self._pair("waste", "scale_step"))

    def _pair(self, first: FieldName, second: FieldName) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * self.look.u))
        row.addWidget(self.edits[first], 1, Qt.AlignmentFlag.AlignTop)
        row.addWidget(self.edits[second], 1, Qt.AlignmentFlag.AlignTop)
        return row

    def _basis_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self._group = QButtonGroup(self)
        self.basis: dict[str, QPushButton] = {}
        for basis in ("weight", "volume"):
            button = QPushButton(f"by {basis}")
            name_it(button, f"mix.basis.{basis}", f"Ratio by {basis}")
            button.setCheckable(True)
            button.setProperty("kind", "choice")
            button.clicked.connect(lambda _=False, basis=basis: self._presenter.on_basis(basis))
            self._group.addButton(button)
            row.addWidget(button, 1)
            self.basis[basis] = button
        return row

    def _lay_folded(self) -> None:
        row = QVBoxLayout(self._folded)
        row.setContentsMargins(0, 0, 0, 0)
        self._first = TwoEnds(self.look, "mix.summary", "Resin and ratio", ("", ""))
        self._second = TwoEnds(self.look, "mix.summary_amount", "Amount and waste", ("", ""))
        self.unfold = QPushButton("Show the entries")
        name_it(self.unfold, "mix.unfold", "Show the entries")
        self.unfold.setProperty("kind", "quiet")
        self.unfold.clicked.connect(self._presenter.on_unfold)
        for widget in (self._first, self._second):
            row.addWidget(widget)
        row.addWidget(self.unfold, 0, Qt.AlignmentFlag.AlignLeft)

    # -- drawing -----------------------------------------------------------------------------

    def draw(self, screen: MixScreen) -> None:
        """Show what stands; what is being typed is never overwritten."""
        self._open.setVisible(not screen.folded)
        self._folded.setVisible(screen.folded)
        self._first.draw(screen.summary[:2])
        self._second.draw(screen.summary[2:])
        self._draw_sheets(screen)
        for name, standing in screen.fields:
            self._draw_entry(self.edits[name], name, standing)
        for basis, button in self.basis.items():
            button.setChecked(basis == screen.basis)
            button.setEnabled(not screen.ratio_locked or basis == screen.basis)
        for name in ("ratio_a", "ratio_b"):
            self.edits[name].line.setReadOnly(screen.ratio_locked)

    def _draw_sheets(self, screen: MixScreen) -> None:
        if screen.sheets != self._sheets:
            self._sheets = screen.sheets
            self.sheet.clear()
            self.sheet.addItem(JUST_A_RATIO, "")
            for record_id, name in screen.sheets:
                self.sheet.addItem(name, record_id)
        self.sheet.setCurrentIndex(max(0, self.sheet.findData(screen.sheet)))

    @staticmethod
    def _draw_entry(edit: QuantityEdit, name: FieldName, standing: Standing) -> None:
        if standing.origin == "typed":
            edit.set_text(standing.text)
        elif standing.value is not None:
            places = 0 if name in ("waste", "ratio_a", "ratio_b") else None
            edit.set_value(standing.value, standing.origin or "default", places)
        else:
            edit.set_value(None)

    def set_column(self, wide: bool) -> None:  # noqa: FBT001 - a layout's choice
        """Keep to a column where the weighing stands beside it."""
        width = COLUMN_BODIES * self.look.metrics.body_px
        self.setMaximumWidth(width if wide else 16777215)

    def first(self) -> QWidget:
        """The entry that the keyboard goes to."""
        locked = self.edits["ratio_a"].line.isReadOnly()
        return self.edits["amount" if locked else "ratio_a"].line
