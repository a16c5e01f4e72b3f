"""One page beside the grams on screen: entries, figures, lines, notes and cards to read in need."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from shopassist.core.entry.asked import Ask
from shopassist.core.wording import Wording
from shopassist.panes.mix.asks import PAGES, PANE
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import PageShown
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.tabs import scrolled
from shopassist.widgets.wait_block import TwoEnds

MOST_FIGURES, MOST_ROWS, MOST_CARDS = 5, 8, 2
TITLES = {key: title for key, title, _ in PAGES}
NO_FIGURE = FigureShown("", "–", "", "missing", explains=False, lead=False)


class PageView(QScrollArea):
    """Built when its page is first opened; draws ``PageShown``."""

    def __init__(
        self, look: Look, presenter: MixPresenter, wording: Wording, key: str, asks: tuple[Ask, ...]
    ) -> None:
        super().__init__()
        name_it(self, f"{PANE}.{key}", TITLES[key])
        self._look, self._presenter, self._key = look, presenter, key
        self._ids: tuple[str, ...] = ()
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, round(look.u), 0)
        column.setSpacing(round(1.5 * look.u))
        self.caution = AmberNote(look, f"{PANE}.{key}.caution")
        column.addWidget(self.caution)
        self._build_wait(column)
        self.grid = EntryGrid(look, PANE, asks, wording) if asks else None
        if self.grid is not None:
            self.grid.edited.connect(presenter.on_entry_edited)
            self.grid.committed.connect(presenter.on_entry_committed)
            self.grid.chosen.connect(presenter.on_chosen)
            column.addWidget(self.grid)
        self._build_words(column)
        column.addStretch(1)
        scrolled(inside, self)

    def _build_wait(self, column: QVBoxLayout) -> None:
        look, key = self._look, self._key
        self.caption = Heading(look, f"{PANE}.{key}.caption", "")
        self.digits = Countdown(look, f"{PANE}.{key}.digits", "Time left", "lead")
        self.act = QPushButton()
        name_it(self.act, f"{PANE}.{key}.act", "Do it")
        self.act.clicked.connect(self._presenter.on_act)
        for widget in (self.caption, self.digits, self.act):
            column.addWidget(widget)

    def _build_words(self, column: QVBoxLayout) -> None:
        look, key = self._look, self._key
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(2 * look.u))
        self.figures: list[FigureView] = []
        for number in range(MOST_FIGURES):
            view = FigureView(look, f"{PANE}.{key}.figure.{number + 1}", NO_FIGURE)
            view.explain_asked.connect(lambda n=number: self._explain(n))
            self.figures.append(view)
            grid.addWidget(view, number // 2, number % 2, Qt.AlignmentFlag.AlignTop)
            grid.setColumnStretch(number % 2, 1)
        column.addLayout(grid)
        self.rows = [
            TwoEnds(look, f"{PANE}.{key}.row.{n}", "", ("", "")) for n in range(1, MOST_ROWS + 1)
        ]
        tight = QVBoxLayout()
        tight.setSpacing(0)
        for row in self.rows:
            tight.addWidget(row)
        column.addLayout(tight)
        self.notes = Heading(look, f"{PANE}.{key}.notes", "")
        column.addWidget(self.notes)
        self.cards = [
            (Heading(look, f"{PANE}.{key}.card.{n}", "", "bold", "ink"),
             Heading(look, f"{PANE}.{key}.card.{n}.lines", ""))
            for n in range(1, MOST_CARDS + 1)
        ]  # fmt: skip
        for title, lines in self.cards:
            column.addSpacing(round(look.u))
            column.addWidget(title)
            column.addWidget(lines)

    # -- drawing -----------------------------------------------------------------------------

    def draw(self, page: PageShown) -> None:
        """Show what the page says now."""
        self.caution.draw(*page.caution)
        self._draw_entries(page)
        self._ids = page.figure_ids
        shown = (*page.figures, *[NO_FIGURE] * MOST_FIGURES)
        for number, (view, figure) in enumerate(zip(self.figures, shown, strict=False)):
            view.draw(figure)
            view.setVisible(number < len(page.figures))
        for row, pair in zip(self.rows, (*page.rows, *[("", "")] * MOST_ROWS), strict=False):
            row.draw(pair)
            row.setVisible(bool(pair[0]))
        _draw(self.notes, "\n".join(page.notes))
        for (title, lines), card in zip(
            self.cards, (*page.cards, ("", ()), ("", ())), strict=False
        ):
            _draw(title, card[0])
            _draw(lines, "\n".join(card[1]))
        _draw(self.caption, page.digits[0])
        self.digits.setVisible(bool(page.digits[1]))
        if page.digits[1]:
            self.digits.set_digits(page.digits[1])
        self.act.setVisible(page.act is not None)
        if page.act is not None:
            self.act.setText(page.act.words)
            self.act.setAccessibleName(page.act.words)

    def _draw_entries(self, page: PageShown) -> None:
        if self.grid is None:
            return
        for name, choices in page.offers.items():
            self.grid.offer(name, choices)
        self.grid.show_only(page.shown)
        self.grid.setVisible(bool(page.shown))
        self.grid.draw(page.answers)

    def tick(self) -> None:
        """Each second: the digits alone."""
        left = self._presenter.digits() if self.digits.isVisible() else ""
        if left:
            self.digits.set_digits(left)

    def first(self) -> QWidget:
        """Where the keyboard goes to."""
        if self.act.isVisible():
            return self.act
        return self.grid.first() if self.grid is not None else self

    def _explain(self, number: int) -> None:
        if number < len(self._ids):
            self._presenter.on_explain(self._ids[number])


def _draw(heading: Heading, words: str) -> None:
    heading.draw(words)
    heading.setVisible(bool(words))
