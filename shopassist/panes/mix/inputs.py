"""The inputs of a mix: ratio and amount, or a page in their place; folded once weighing."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import NumberStyle, UnitChoice, Wording
from shopassist.panes.mix.asks import PAGES
from shopassist.panes.mix.drafts import LABELS, SPECS, FieldName, Standing
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import MixScreen
from shopassist.services.mix import Basis
from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.onward import go_on
from shopassist.widgets.piece import name_it
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.tabs import grounded, row_of, tabs
from shopassist.widgets.wait_block import TwoEnds

if TYPE_CHECKING:
    from shopassist.panes.mix.page_view import PageView

BASES: dict[Basis, str] = {"weight": "by weight", "volume": "by volume", "strokes": "strokes"}
JUST_A_RATIO = "Just a ratio"
COLUMN_BODIES = 21
RATIO: tuple[FieldName, ...] = ("ratio_a", "ratio_b")
ASKED: tuple[FieldName, ...] = (*RATIO, "amount")
"""What a mix cannot do without; the rest has its defaults."""


class MixInputsView(QWidget):
    """Five entries and two choices; the same two lines as a summary."""

    def __init__(self, look: Look, presenter: MixPresenter, wording: Wording) -> None:
        super().__init__()
        name_it(self, "mix.inputs", "What to mix")
        self.look = look
        self._presenter, self._wording = presenter, wording
        self._open = QWidget()
        self._sheets: tuple[tuple[str, str], ...] | None = None
        self._stood: dict[FieldName, tuple[Standing, UnitChoice, NumberStyle]] = {}
        self.edits: dict[FieldName, QuantityEdit] = {
            name: self._edit(name, wording) for name in SPECS
        }
        self._lay_open()
        self._folded = QWidget()
        self._lay_folded()
        self.pages: dict[str, PageView] = {}
        self.shown_page = ""
        self.in_column = True
        grounded(self._open)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(round(1.2 * look.u))
        self._column.addLayout(self._tab_row())
        self._column.addWidget(self._open)
        self._column.addWidget(self._folded)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    def _tab_row(self) -> QHBoxLayout:
        pages = [(key, title) for key, title, _ in PAGES]
        self.tabs = tabs("mix.page", pages, self._presenter.on_page)
        return row_of(self.tabs, 0)

    def _edit(self, name: FieldName, wording: Wording) -> QuantityEdit:
        edit = QuantityEdit(
            self.look, f"mix.{name}", LABELS[name], SPECS[name], wording, compact=name in RATIO
        )
        edit.edited.connect(lambda entry: self._presenter.on_edited(name, entry))
        edit.committed.connect(lambda entry: self._presenter.on_committed(name, entry))
        return edit

    def _lay_open(self) -> None:
        column = QVBoxLayout(self._open)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(1.2 * self.look.u))
        self.sheet = Choice()
        name_it(self.sheet, "mix.sheet", "Resin sheet, or just a ratio")
        self.sheet.activated.connect(
            lambda index: self._presenter.on_sheet(str(self.sheet.itemData(index) or ""))
        )
        column.addWidget(self.sheet)
        column.addLayout(self._ratio_row())
        column.addLayout(self._basis_row())
        column.addWidget(self.edits["amount"])
        self.use_blank = QPushButton()
        name_it(self.use_blank, "mix.use_blank", "Use Blank’s amount")
        self.use_blank.setProperty("kind", "quiet")
        self.use_blank.clicked.connect(self._presenter.on_use_blank)
        column.addWidget(self.use_blank, 0, Qt.AlignmentFlag.AlignLeft)
        column.addLayout(self._pair("waste", "scale_step"))

    def _ratio_row(self) -> QGridLayout:
        """Two numbers that need no echo; what is wrong with one stands under it all the same."""
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(2 * self.look.u))
        grid.setVerticalSpacing(round(self.look.u / 2))
        for place, name in enumerate(RATIO):
            label = QLabel(LABELS[name])
            label.setProperty("kind", "label")
            label.setBuddy(self.edits[name].line)
            grid.addWidget(label, 0, place)
            grid.addWidget(self.edits[name], 1, place, Qt.AlignmentFlag.AlignTop)
            grid.setColumnStretch(place, 1)
        return grid

    def _pair(self, first: FieldName, second: FieldName) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2 * self.look.u))
        row.addWidget(self.edits[first], 1)
        row.addWidget(self.edits[second], 1)
        return row

    def _basis_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self._group = QButtonGroup(self)
        self.basis: dict[str, QPushButton] = {}
        for basis, word in BASES.items():
            button = QPushButton(word)
            name_it(button, f"mix.basis.{basis}", f"Ratio {word}")
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
        """Show what stands; what is being typed is never overwritten.

        First the words, then what is in sight, so that a piece is dressed once.
        """
        self.use_blank.setText(screen.use_blank)
        if screen.folded:
            self._first.draw(screen.summary[:2])
            self._second.draw(screen.summary[2:])
        self._draw_sheets(screen)
        for name, standing in screen.fields:
            self._draw_entry(self.edits[name], name, standing)
        for basis, button in self.basis.items():
            button.setChecked(basis == screen.basis)
            button.setEnabled(basis in screen.bases)
        for name in RATIO:
            self.edits[name].line.setReadOnly(screen.ratio_locked)
        self._open.setVisible(not screen.folded)
        self._folded.setVisible(screen.folded)
        self.unfold.setVisible(screen.page is None)
        self.use_blank.setVisible(bool(screen.use_blank))
        self._draw_page(screen)

    def _draw_page(self, screen: MixScreen) -> None:
        """The page in place of the entries; built when it is first opened."""
        key = screen.page.key if screen.page is not None else ""
        for name, tab in self.tabs.items():
            tab.setChecked(name == (key or "ratio"))
        if key != self.shown_page:
            if self.shown_page:
                self.pages[self.shown_page].hide()
            self.shown_page = key
            policy = QSizePolicy.Policy.Expanding if key else QSizePolicy.Policy.Maximum
            self.setSizePolicy(QSizePolicy.Policy.Preferred, policy)
        if screen.page is None:
            return
        if key not in self.pages:
            from shopassist.panes.mix.page_view import PageView

            asks = next(asks for name, _, asks in PAGES if name == key)
            self.pages[key] = PageView(self.look, self._presenter, self._wording, key, asks)
            self._column.addWidget(self.pages[key], 1)
        # What stands beside the grams already is not said twice.
        told = not self.in_column and screen.page.caution[0] == screen.note[0]
        self.pages[key].draw(replace(screen.page, caution=("", "")) if told else screen.page)
        self.pages[key].show()

    def _draw_sheets(self, screen: MixScreen) -> None:
        if screen.sheets != self._sheets:
            self._sheets = screen.sheets
            self.sheet.clear()
            self.sheet.addItem(JUST_A_RATIO, "")
            for record_id, name in screen.sheets:
                self.sheet.addItem(name, record_id)
        if self.sheet.currentData() != screen.sheet:
            self.sheet.setCurrentIndex(max(0, self.sheet.findData(screen.sheet)))

    def _draw_entry(self, edit: QuantityEdit, name: FieldName, standing: Standing) -> None:
        stands = (standing, self._wording.units, self._wording.style)
        if self._stood.get(name) == stands and not edit.is_dirty:
            return
        self._stood.pop(name, None)
        if not edit.is_dirty:
            self._stood[name] = stands
        if standing.origin == "from Blank" and name == "amount":
            # A volume in a field of grams: it says its unit.
            edit.set_text(self._wording.amount(standing.value, standing.quantity), "from Blank")
        elif standing.origin == "typed":
            edit.set_text(standing.text)
        elif standing.value is not None:
            places = 0 if name in ("waste", "ratio_a", "ratio_b") else None
            edit.set_value(standing.value, standing.origin or "default", places)
        else:
            edit.set_value(None)

    def set_column(self, wide: bool) -> None:  # noqa: FBT001 - a layout's choice
        """Keep to a column where the weighing stands beside it."""
        self.in_column = not wide
        width = COLUMN_BODIES * self.look.metrics.body_px
        self.setMaximumWidth(width if wide else 16777215)

    def hold(self, widget: QWidget) -> None:
        """Take something in below the folded entries."""
        self._column.addWidget(widget)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes from the parts of the ratio to the amount."""
        go_on(event, [self.edits[name] for name in ASKED])

    def tick(self) -> None:
        """Each second: the digits of the open page."""
        if self.shown_page:
            self.pages[self.shown_page].tick()

    def first(self) -> QWidget:
        """The entry that the keyboard goes to."""
        if self.shown_page:
            return self.pages[self.shown_page].first()
        locked = self.edits["ratio_a"].line.isReadOnly()
        return self.edits["amount" if locked else "ratio_a"].line
