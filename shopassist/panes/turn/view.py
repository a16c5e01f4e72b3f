"""The Turn pane on screen: entries at the left; numbers, a drawn rule and cautions at the right."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.entry.asked import Ask
from shopassist.core.wording import Wording
from shopassist.panes.turn.asks import CARDS, PAGES, PANE
from shopassist.panes.turn.ladder import Ladder
from shopassist.panes.turn.presenter import MOST_FIGURES, TurnPresenter
from shopassist.panes.turn.screen import LadderShown, TurnScreen
from shopassist.panes.turn.words import FAULT_WORDS
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.choice_rows import ChoiceRows
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.deviation_rule import DeviationRule
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.paragraphs import Paragraphs
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.ruled_edge import RuledEdge
from shopassist.widgets.shown import DeviationShown, FigureShown, RuleShown
from shopassist.widgets.tabs import row_of, scrolled, tabs

NO_FIGURE = FigureShown("", "–", "", "missing", explains=False, lead=False)
ACROSS = 3


class TurnView(PaneFrame):
    """One card at a time."""

    def __init__(self, look: Look, presenter: TurnPresenter, wording: Wording) -> None:
        super().__init__(look, PANE, "Turn")
        self._presenter, self._wording = presenter, wording
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        row.addLayout(self._build_entries(), 4)
        row.addWidget(Hair(look, down=True))
        row.addWidget(scrolled(self._build_results(), by_keys=False), 7)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ------------------------------------------------------------------------------

    def _build_entries(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(1.5 * self.look.u))
        self.pages = tabs(f"{PANE}.page", PAGES, self._presenter.on_page)
        column.addLayout(row_of(self.pages, 0))
        self.stack = QStackedWidget()
        self.grids = {key: self._grid(CARDS[key]) for key, _ in PAGES}
        for grid in self.grids.values():
            self.stack.addWidget(scrolled(grid, by_keys=False))
        column.addWidget(self.stack, 1)
        return column

    def _grid(self, asks: tuple[Ask, ...]) -> EntryGrid:
        grid = EntryGrid(self.look, PANE, asks, self._wording, columns=1)
        grid.edited.connect(self._presenter.on_edited)
        grid.committed.connect(self._presenter.on_committed)
        grid.chosen.connect(self._presenter.on_chosen)
        return grid

    def _build_results(self) -> QWidget:
        look, side = self.look, QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 3, 0, 3)
        column.setSpacing(round(1.5 * look.u))
        self.missing = Heading(look, f"{PANE}.missing", "", "bold", "ink")
        column.addWidget(self.missing)
        column.addLayout(self._build_figures())
        self.speed = DeviationRule(look, f"{PANE}.speed", DeviationShown(0, 1, 0, 1, None))
        self.pecks = RuledEdge(look, f"{PANE}.pecks", RuleShown(0.0, 1.0))
        self.ladder = Ladder(look, f"{PANE}.ladder", LadderShown())
        column.addWidget(self._build_faults())
        for widget in (self.speed, self.pecks, self.ladder):
            column.addWidget(widget)
        column.addLayout(self._build_wait())
        self.note = AmberNote(look, f"{PANE}.note")
        self.message = Heading(look, f"{PANE}.message", "", "bold", "error")
        self.lines = Paragraphs(look, f"{PANE}.lines", "What to know")
        self.cautions = Heading(look, f"{PANE}.cautions", "", "body", "ink")
        for piece in (self.note, self.message):
            column.addWidget(piece)
        column.addWidget(self.lines, 1)
        column.addWidget(Hair(look))
        column.addWidget(self.cautions)
        return side

    def _build_figures(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(3 * self.look.u))
        grid.setVerticalSpacing(round(self.look.u))
        self.figures: list[FigureView] = []
        for number in range(MOST_FIGURES):
            view = FigureView(self.look, f"{PANE}.figure.{number + 1}", NO_FIGURE)
            view.explain_asked.connect(lambda n=number: self._explain(n))
            self.figures.append(view)
            grid.addWidget(view, number // ACROSS, number % ACROSS, Qt.AlignmentFlag.AlignTop)
        for place in range(ACROSS):
            grid.setColumnStretch(place, 1)
        return grid

    def _explain(self, number: int) -> None:
        names = self._presenter.screen.figure_names
        if number < len(names):
            self._presenter.on_explain(names[number])

    def _build_faults(self) -> QWidget:
        self.faults: list[QPushButton] = []
        for number, (_, title) in enumerate(FAULT_WORDS.items()):
            button = QPushButton(title)
            name_it(button, f"{PANE}.fault.{number + 1}", f"The piece has: {title}")
            button.setProperty("kind", "choice")
            button.setCheckable(True)
            button.clicked.connect(lambda _=False, n=number: self._presenter.on_fault(n))
            self.faults.append(button)
        self.fault_rows = ChoiceRows(self.faults, round(self.look.u))
        return self.fault_rows

    def _build_wait(self) -> QVBoxLayout:
        column = QVBoxLayout()
        self.caption = Heading(self.look, f"{PANE}.wait_caption", "", "bold", "ink")
        self.wait = Countdown(self.look, f"{PANE}.wait", "Putty", "lead")
        self.act = QPushButton()
        name_it(self.act, f"{PANE}.act.1", "Report")
        self.act.setProperty("kind", "primary")
        self.act.clicked.connect(lambda: self._presenter.on_act(0))
        row = QHBoxLayout()
        row.addWidget(self.act)
        row.addStretch(1)
        for widget in (self.caption, self.wait):
            column.addWidget(widget)
        column.addLayout(row)
        return column

    # -- drawing -------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        for key, tab in self.pages.items():
            tab.setChecked(key == screen.page)
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        self.grids[screen.page].draw(screen.answers)
        for number, view in enumerate(self.figures):
            shown = number < len(screen.figures)
            view.setVisible(shown)
            if shown:
                view.draw(screen.figures[number])
        for heading, words in ((self.missing, screen.missing), (self.message, screen.message)):
            heading.draw(words)
            heading.setVisible(bool(words))
        self.note.draw(*screen.note)
        self.lines.draw(screen.lines)
        self.cautions.draw(screen.cautions)
        self._show_drawn(screen)
        self._show_wait(screen)

    def _show_drawn(self, screen: TurnScreen) -> None:
        self.fault_rows.setVisible(screen.page == "lathe")
        for (_, _, on), button in zip(screen.faults, self.faults, strict=True):
            button.setChecked(on)
        if screen.speed is not None:
            self.speed.draw(screen.speed)
        if screen.pecks is not None:
            self.pecks.draw(screen.pecks)
        if screen.ladder is not None:
            self.ladder.draw(screen.ladder)
        self.speed.setVisible(screen.speed is not None)
        self.pecks.setVisible(screen.pecks is not None)
        self.ladder.setVisible(screen.ladder is not None)

    def _show_wait(self, screen: TurnScreen) -> None:
        wait = screen.wait
        caption = wait.caption if wait is not None else ""
        acts = wait.acts if wait is not None else ()
        self.caption.draw(caption)
        self.caption.setVisible(bool(caption))
        self.act.setVisible(bool(acts))
        if acts and self.act.text() != acts[0]:
            self.act.setText(acts[0])
            self.act.setAccessibleName(acts[0])
        self._show_digits()

    def _show_digits(self) -> None:
        digits = self._presenter.digits()
        self.wait.setVisible(bool(digits))
        if digits:
            self.wait.set_digits(digits)

    def tick(self) -> None:
        """Each second: digits; the rest when a wait turns or a minute begins."""
        if self._presenter.is_stale():
            self.show_screen()
        elif self.wait.isVisible():
            self._show_digits()

    def take_focus(self) -> None:
        """Bring the keyboard to the card's first entry."""
        self.grids[self._presenter.screen.page].first().setFocus(Qt.FocusReason.OtherFocusReason)
