"""The warm-up pane on screen: entries, figures, and the coming hours as a picture."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.warmup.beside import LINES
from shopassist.panes.warmup.entries import COLUMN_EM, WarmupEntries
from shopassist.panes.warmup.learn_view import LearnSheet
from shopassist.panes.warmup.picture import Picture
from shopassist.panes.warmup.presenter import FIGURES, WarmupPresenter
from shopassist.panes.warmup.screen import PictureShown, WarmupScreen
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.wait_block import TwoEnds

SIDE_BY_SIDE, THREE_ACROSS = 46, 58
"""Widths in body sizes from which the entries stand beside the figures, and these in threes."""
NOTES = 2


class CureLine(QWidget):
    """One milestone in the cabinet and without, and the mark that explains it."""

    def __init__(self, look: Look, number: int, presenter: WarmupPresenter) -> None:
        super().__init__()
        name = f"warmup.cure.{number}"
        self.words = TwoEnds(look, name, "", ("", ""))
        self.mark = ExplainMark(look, f"{name}.explain", "Explain this time")
        self.mark.flush = True
        self.mark.clicked.connect(lambda: presenter.on_explain(name))
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.words, 1)
        row.addWidget(self.mark)
        self.hide()

    def draw(self, pair: tuple[str, str]) -> None:
        """Show a line; without words there is none."""
        self.words.draw(pair)
        self.mark.setAccessibleName(f"Explain {pair[0]}")
        self.setVisible(bool(pair[0]))


class WarmupView(PaneFrame):
    """Draws the presenter's screen."""

    def __init__(self, look: Look, presenter: WarmupPresenter, wording: Wording) -> None:
        super().__init__(look, "warmup", "Warm-up")
        self._presenter = presenter
        self.entries = WarmupEntries(look, presenter, wording)
        self.sheet = LearnSheet(look, presenter)
        self.sheet.setParent(self)
        self.sheet.hide()
        self._build()
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build(self) -> None:
        self._area = QScrollArea()
        self._area.setObjectName("warmup.area")
        self._area.setWidgetResizable(True)
        self._area.setFrameShape(QScrollArea.Shape.NoFrame)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        inside = QWidget()
        self._sides = QBoxLayout(QBoxLayout.Direction.LeftToRight, inside)
        self._sides.setContentsMargins(0, 3, 0, 3)
        self._sides.setSpacing(round(4 * self.look.u))
        self._sides.addWidget(self.entries)
        self._sides.addWidget(self._results(), 1)
        self._area.setWidget(inside)
        self.body.addWidget(self._area, 1)

    def _results(self) -> QWidget:
        look, side = self.look, QWidget()
        column = QVBoxLayout(side)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(look.u))
        column.addLayout(self._figure_grid())
        self.picture = Picture(look, "warmup.picture", "Temperatures", PictureShown("Temperature"))
        expanding = QSizePolicy.Policy.Expanding
        self.picture.setSizePolicy(expanding, expanding)
        column.addWidget(self.picture, 1)
        self.notes = [AmberNote(look, f"warmup.note.{n}") for n in range(1, NOTES + 1)]
        self.tell_pot = QPushButton()
        name_it(self.tell_pot, "warmup.tell_pot", "Tell the pot's record")
        self.tell_pot.clicked.connect(self._presenter.on_tell_pot)
        self._first_note = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._first_note.setSpacing(round(2 * look.u))
        self._first_note.addWidget(self.notes[0], 1)
        self._first_note.addWidget(self.tell_pot)
        column.addLayout(self._first_note)
        column.addWidget(self.notes[1])
        self.what_if = Heading(look, "warmup.what_if", "", "bold", "ink")
        column.addWidget(self.what_if)
        self.lines = [CureLine(look, n, self._presenter) for n in range(1, LINES + 1)]
        told = QVBoxLayout()
        told.setSpacing(0)
        for line in self.lines:
            told.addWidget(line)
        column.addLayout(told)
        return side

    def _figure_grid(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(2 * self.look.u))
        grid.setVerticalSpacing(round(0.6 * self.look.u))
        self._across = 0
        self.lead = self._figure("switch_on")
        self.figures = [self._figure(name) for name in FIGURES]
        self._grid = grid
        return grid

    def _lay_figures(self, across: int) -> None:
        """Figures in twos or threes."""
        if across == self._across:
            return
        self._across = across
        for number, view in enumerate((self.lead, *self.figures)):
            row, place = divmod(number, across)
            side = Qt.AlignmentFlag.AlignTop if row else Qt.AlignmentFlag.AlignBottom
            self._grid.addWidget(view, row, place, side)
        for place in range(3):
            self._grid.setColumnStretch(place, int(place < across))

    def _figure(self, name: str) -> FigureView:
        view = FigureView(self.look, f"warmup.{name}", FigureShown("", "–"))
        view.explain_asked.connect(lambda: self._presenter.on_explain(f"warmup.{name}"))
        return view

    # -- drawing ---------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self.entries.draw(screen)
        self.lead.draw(screen.lead)
        for view, shown in zip(self.figures, screen.figures, strict=True):
            view.draw(shown)
        self.what_if.draw(screen.what_if)
        self.what_if.setVisible(bool(screen.what_if))
        self.picture.draw(screen.picture)
        self._draw_rest(screen)

    def _draw_rest(self, screen: WarmupScreen) -> None:
        for note, words in zip(self.notes, (*screen.notes, *[("", "")] * NOTES), strict=False):
            note.draw(*words)
        self.tell_pot.setText(screen.tell_pot.replace("&", "&&"))
        self.tell_pot.setAccessibleName(screen.tell_pot)
        self.tell_pot.setVisible(bool(screen.tell_pot))
        pairs = (*screen.cure_lines, *[("", "")] * LINES)
        for line, pair in zip(self.lines, pairs, strict=False):
            line.draw(pair)
        self.sheet.draw(screen.learn)
        if screen.learn.is_open != self.sheet.isVisibleTo(self):
            self.show_sheet(self.sheet if screen.learn.is_open else None)
            if not screen.learn.is_open:
                self.entries.learn.setFocus(Qt.FocusReason.OtherFocusReason)

    def tick(self) -> None:
        """Once a second while visible: the plan moves only with the minute."""
        if self._presenter.is_stale():
            self.show_screen()

    def take_focus(self) -> None:
        """Bring the keyboard to the first entry that is still blank, or to the shop's warmth."""
        edits = self.entries.edits
        blank = (edit for edit in edits.values() if edit.isVisibleTo(self) and not edit.text)
        target = next(blank, edits["shop"])
        target.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Entries beside the figures where there is room, over them where there is not."""
        super().resizeEvent(event)
        em = self.look.metrics.body_px
        wide, full = (self.width() > bodies * em for bodies in (SIDE_BY_SIDE, THREE_ACROSS))
        self._sides.setDirection(_direction(wide))
        self._first_note.setDirection(_direction(full or not wide))
        self._lay_figures(3 if full or not wide else 2)
        self.entries.setMaximumWidth(COLUMN_EM * em if wide else 16777215)
        self.entries.setMinimumWidth(COLUMN_EM * em if wide else 0)


def _direction(across: bool) -> QBoxLayout.Direction:  # noqa: FBT001 - a layout's choice
    return QBoxLayout.Direction.LeftToRight if across else QBoxLayout.Direction.TopToBottom
