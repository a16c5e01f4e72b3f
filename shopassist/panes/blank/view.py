"""The Blank pane on screen: entries at the left, the drawing in the middle, results beside it."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
)

from shopassist.core.entry.asked import Ask
from shopassist.core.wording import Wording
from shopassist.panes.blank.asks import BORE, CORE, MORE, MOULD, PANE
from shopassist.panes.blank.presenter import FIGURES, BlankPresenter
from shopassist.panes.blank.screen import PAGES
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.echo import Echo
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hair import Hair
from shopassist.widgets.half_section import HalfSection
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.section_shown import SectionShown
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.tabs import row_of, scrolled, tabs

COLUMN_BODIES = 17
NO_FIGURE = FigureShown("", "–", "", "missing", explains=False)


class BlankView(PaneFrame):
    """Type; the drawing follows."""

    def __init__(self, look: Look, presenter: BlankPresenter, wording: Wording) -> None:
        super().__init__(look, PANE, "Blank")
        self._presenter, self._wording = presenter, wording
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        row.addLayout(self._build_entries(), 2)
        row.addWidget(Hair(look, down=True))
        row.addLayout(self._build_results(), 5)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_entries(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(1.5 * self.look.u))
        self.pages = tabs(f"{PANE}.page", PAGES, self._presenter.on_page)
        column.addLayout(row_of(self.pages, 0))
        self.stack = QStackedWidget()
        self.grids = [self._grid(asks) for asks in (MOULD, CORE, BORE, MORE)]
        for grid in self.grids:
            self.stack.addWidget(scrolled(grid, by_keys=False))
        column.addWidget(self.stack, 1)
        return column

    def _grid(self, asks: tuple[Ask, ...]) -> EntryGrid:
        grid = EntryGrid(self.look, PANE, asks, self._wording, columns=1)
        grid.edited.connect(self._presenter.on_edited)
        grid.committed.connect(self._presenter.on_committed)
        grid.chosen.connect(self._presenter.on_chosen)
        grid.line_edited.connect(self._presenter.on_line_edited)
        return grid

    def _build_results(self) -> QVBoxLayout:
        look, column = self.look, QVBoxLayout()
        column.setSpacing(round(1.5 * look.u))
        top = QHBoxLayout()
        top.setSpacing(0)
        self.drawing = HalfSection(look, f"{PANE}.drawing", SectionShown())
        top.addWidget(self.drawing, 3)
        side = QVBoxLayout()
        side.setSpacing(round(1.5 * look.u))
        self.wall = FigureView(look, f"{PANE}.wall_left", NO_FIGURE)
        self.wall.explain_asked.connect(lambda: self._presenter.on_explain("wall"))
        self.note = AmberNote(look, f"{PANE}.note")
        self.notes = Echo(look, f"{PANE}.notes")
        for widget in (self.wall, self.note, self.notes):
            side.addWidget(widget)
        side.addStretch(1)
        top.addLayout(side, 2)
        column.addLayout(top, 1)
        column.addWidget(Hair(look))
        column.addLayout(self._build_foot())
        return column

    def _build_foot(self) -> QHBoxLayout:
        look, foot = self.look, QHBoxLayout()
        foot.setSpacing(round(4 * look.u))
        self.figures: dict[str, FigureView] = {}
        for name in FIGURES:
            view = FigureView(look, f"{PANE}.{name}", NO_FIGURE)
            view.explain_asked.connect(lambda name=name: self._presenter.on_explain(name))
            foot.addWidget(view, 2)
            self.figures[name] = view
        last = QVBoxLayout()
        self.use = QPushButton("Use in Mix")
        name_it(self.use, f"{PANE}.use", "Use in Mix")
        self.use.setProperty("kind", "primary")
        self.use.clicked.connect(self._presenter.on_use)
        self.in_mix = Echo(look, f"{PANE}.in_mix")
        self.message = Heading(look, f"{PANE}.message", "", "bold", "error")
        for widget in (self.use, self.in_mix, self.message):
            last.addWidget(widget)
        last.addStretch(1)
        foot.addLayout(last, 3)
        return foot

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        for key, tab in self.pages.items():
            tab.setChecked(key == screen.page)
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        for grid in self.grids:
            grid.show_only(screen.shown)
            grid.draw(screen.answers)
        self.drawing.draw(screen.section)
        self.wall.draw(screen.wall)
        first = screen.notes[:1] if screen.warns else ()
        self.note.draw(first[0] if first else "")
        rest = screen.notes[1:] if screen.warns else screen.notes
        self.notes.say("\n".join(rest), "label")
        self.notes.setVisible(bool(rest))
        for figure, name in zip(screen.figures, FIGURES, strict=True):
            self.figures[name].draw(figure)
        self.use.setEnabled(screen.usable)
        self.in_mix.say(screen.in_mix, "label")
        self.in_mix.setVisible(bool(screen.in_mix))
        self.message.draw(screen.message)
        self.message.setVisible(bool(screen.message))

    def take_focus(self) -> None:
        """Bring the keyboard to the first entry."""
        grid = self.grids[self.stack.currentIndex()]
        grid.first().setFocus(Qt.FocusReason.OtherFocusReason)
