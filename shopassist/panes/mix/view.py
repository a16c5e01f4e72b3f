"""The mix pane on screen: inputs, grams, stops on the scale, and the start of the clock."""

from dataclasses import replace

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QResizeEvent, QShortcut
from PySide6.QtWidgets import (
    QBoxLayout,
    QGridLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.mix.inputs import MixInputsView
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import ButtonShown, MixScreen
from shopassist.panes.mix.weighing import Weighing
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.choice import Choice
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.tabs import scrolled
from shopassist.widgets.wait_block import TwoEnds

SIDE_BY_SIDE = 44
"""Width in body sizes from which inputs and weighing stand beside each other."""
TURNS = (("Ctrl+PgDown", 1), ("Ctrl+PgUp", -1))
"""Keys that turn the pages while the pane is in hand."""
FIGURES = ("part_a_target", "part_b_target", "total_target")
MOMENTS = ("now", "1 min ago", "2 min ago", "5 min ago")
LINES = 3


class MixView(PaneFrame):
    """Draws the presenter's screen."""

    def __init__(self, look: Look, presenter: MixPresenter, wording: Wording) -> None:
        super().__init__(look, "mix", "Mix")
        self._presenter = presenter
        self._page_open, self._note_aside = False, False
        self._wide, self._in_a_row = False, False
        self._ordered: QWidget | None = None
        self.inputs = MixInputsView(look, presenter, wording)
        self.weighing = Weighing(look, presenter, wording)
        self._sides = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._sides.setSpacing(round(3 * look.u))
        self._sides.addWidget(self.inputs, 0, Qt.AlignmentFlag.AlignTop)
        self._sides.addWidget(self._weigh_side(look), 1)
        self.body.addLayout(self._sides, 1)
        self.inputs.edits["amount"].line.entered.connect(self._amount_entered)
        for keys, places in TURNS:
            turn = QShortcut(QKeySequence(keys), self)
            turn.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            turn.activated.connect(lambda places=places: self._turn(places))
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building --------------------------------------------------------------------------

    def _weigh_side(self, look: Look) -> QWidget:
        """Grams and stops, which may be scrolled; what stands against them and the start below."""
        side = QWidget()
        outer = self._outer = QVBoxLayout(side)
        outer.setContentsMargins(0, 0, 0, 0)
        outer.setSpacing(round(2 * look.u))
        self.middle = scrolled(self._middle(look))
        self.middle.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.note = AmberNote(look, "mix.note")
        self.message = Heading(look, "mix.message", "", "bold", "error")
        outer.addWidget(self.middle, 1)
        outer.addWidget(self.note)
        outer.addWidget(self.message)
        outer.addLayout(self._start_row())
        outer.addLayout(self._after_row())
        return side

    def _middle(self, look: Look) -> QWidget:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(2 * look.u))
        column.addLayout(self._figure_row(look))
        self.hair = Hair(look)
        column.addWidget(self.hair)
        column.addWidget(self.weighing)
        self.lines = [TwoEnds(look, f"mix.line.{n}", "", ("", "")) for n in range(1, LINES + 1)]
        tight = QVBoxLayout()
        tight.setSpacing(0)
        for line in self.lines:
            tight.addWidget(line)
        column.addLayout(tight)
        column.addStretch(1)
        return inside

    def _place_note(self, *, aside: bool) -> None:
        """Under the folded entries where they leave room, else over the start."""
        if aside == self._note_aside:
            return
        self._note_aside = aside
        if aside:
            self.inputs.hold(self.note)
        else:
            self._outer.insertWidget(1, self.note)

    def _figure_row(self, look: Look) -> QGridLayout:
        row = QGridLayout()
        row.setHorizontalSpacing(round(2.5 * look.u))
        row.setVerticalSpacing(round(look.u))
        self.figures = []
        for name in FIGURES:
            figure = FigureView(look, f"mix.{name}", FigureShown("", "–"))
            figure.explain_asked.connect(
                lambda name=name: self._presenter.on_explain(f"mix.{name}")
            )
            self.figures.append(figure)
        self.weigh_out = _button("mix.weigh_out", "Weigh out")
        self.weigh_out.clicked.connect(self._weigh_out)
        for column in range(len(FIGURES) + 1):
            row.setColumnStretch(column, 1)  # a number stands where its dash stood
        self._figure_grid = row
        self._place_figures()
        return row

    def _place_figures(self) -> None:
        """Three in a row, or two and the total beneath them where they would be cut."""
        bottom = Qt.AlignmentFlag.AlignBottom
        for number, figure in enumerate(self.figures):
            beneath = not self._in_a_row and number == len(self.figures) - 1
            figure.stand_level(self._in_a_row)
            self._figure_grid.addWidget(figure, int(beneath), 0 if beneath else number, bottom)
        self._figure_grid.addWidget(self.weigh_out, 1, 1, 1, 2, bottom)

    def _fit_figures(self) -> None:
        """Long numbers stand in two rows before one of them is cut."""
        space = self.look.u
        # Both margins of the pane, and the space between its sides, are three of it.
        room = self.width() - self.inputs.maximumWidth() - round(9 * space)
        needed = sum(figure.minimumSizeHint().width() for figure in self.figures)
        in_a_row = self._wide and needed + round(7.5 * space) <= room
        if in_a_row != self._in_a_row:
            self._in_a_row = in_a_row
            self._place_figures()

    def _start_row(self) -> QVBoxLayout:
        column = QVBoxLayout()
        self.reason = QLineEdit()
        name_it(self.reason, "mix.reason", "Why this cup is used although it is off its ratio")
        self.reason.setPlaceholderText("why it is used all the same")
        self.reason_line = Heading(self.look, "mix.start_reason", "")
        row = QHBoxLayout()
        self.hardener = _button("mix.hardener_in", "Hardener in", primary=True)
        self.hardener.clicked.connect(self._start)
        self.when = Choice()
        name_it(self.when, "mix.when", "When it went in")
        self.when.setLineEdit(line := QLineEdit())
        name_it(line, "mix.when.line", "When it went in")
        self.when.addItems(MOMENTS)
        row.addWidget(self.hardener, 1)
        row.addWidget(self.when)
        for widget in (self.reason, self.reason_line):
            column.addWidget(widget)
        column.addLayout(row)
        return column

    def _after_row(self) -> QHBoxLayout:
        row = QHBoxLayout()
        self.poured = _button("mix.poured", "Poured", primary=True)
        self.poured.clicked.connect(lambda: self._presenter.on_poured(self.when.currentText()))
        self.not_poured = _button("mix.not_poured", "Not poured yet")
        self.not_poured.clicked.connect(self._presenter.on_not_poured)
        self.another = _button("mix.another_cup", "Another cup")
        self.another.clicked.connect(self._presenter.on_another_cup)
        self.correct = _button("mix.correct_weight", "Correct a weight")
        self.correct.clicked.connect(lambda: self._presenter.on_correct(self.reason.text()))
        for button in (self.poured, self.not_poured, self.another, self.correct):
            row.addWidget(button, 1)
        return row

    # -- drawing ------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.batch_name)
        self.inputs.draw(screen)
        self._give_room(page_open=screen.page is not None)
        told = screen.hardener.reason if screen.hardener else ""
        for view, shown in zip(self.figures, screen.figures, strict=True):
            # What is missing stands once, over the button that waits for it.
            drawn = replace(shown, note="") if shown.note and shown.note == told else shown
            view.draw(drawn if self._wide else replace(drawn, lead=False, note=""))
            view.setVisible(not screen.quiet)
        self._fit_figures()
        crowded = not self._wide and not screen.quiet
        self.weighing.draw(screen, hidden=crowded)
        self.weigh_out.setVisible(crowded and bool(screen.weighing))
        # An open page says what stands against it at its own head.
        what, why = ("", "") if crowded and screen.page is not None else screen.note
        self._place_note(aside=self._wide and screen.quiet and screen.page is None)
        self.note.draw(what, "" if crowded else why)
        self.hair.setVisible(self._wide and not screen.quiet)
        rest = QSizePolicy.Policy.Ignored if crowded else QSizePolicy.Policy.Expanding
        if self.middle.sizePolicy().verticalPolicy() != rest:
            self.middle.setSizePolicy(QSizePolicy.Policy.Expanding, rest)
        waiting = bool(what) and (not self._wide or screen.deviation is not None)
        self._draw_lines(screen, hidden=crowded or waiting)
        self.message.draw(screen.message)
        self.message.setVisible(bool(screen.message))
        self._order()
        self._draw_buttons(screen, crowded=crowded and bool(screen.weighing))

    def _give_room(self, *, page_open: bool) -> None:
        """An open page takes the height that the entries leave to the weighing."""
        if page_open == self._page_open:
            return
        self._page_open = page_open
        top = Qt.AlignmentFlag(0) if page_open else Qt.AlignmentFlag.AlignTop
        self._sides.setAlignment(self.inputs, top)
        self._sides.setStretch(0, 2 if page_open else 0)

    def tick(self) -> None:
        """Each second: the digits of the steps, where they run."""
        self.inputs.tick()

    def _draw_lines(self, screen: MixScreen, *, hidden: bool) -> None:
        pairs = screen.facts or screen.ahead
        for line, pair in zip(self.lines, (*pairs, *[("", "")] * LINES), strict=False):
            line.draw(pair)
            line.setVisible(bool(pair[0]) and not hidden)

    def _draw_buttons(self, screen: MixScreen, *, crowded: bool) -> None:
        _show(self.hardener, screen.hardener)
        why = screen.hardener.reason if screen.hardener else ""
        self.reason_line.draw(why)
        self.reason_line.setVisible(bool(why) and not screen.needs_reason)
        self.reason.setVisible(screen.needs_reason and not crowded)
        self.reason.setPlaceholderText(why)
        self.when.setVisible(screen.hardener is not None and screen.hardener.enabled)
        _show(self.poured, screen.poured)
        _show(self.not_poured, screen.not_poured)
        _show(self.another, screen.another)
        self.correct.setVisible(screen.begun)

    # -- the person ------------------------------------------------------------------------------

    def _start(self) -> None:
        self._presenter.on_hardener_in(self.when.currentText(), self.reason.text())
        if self._presenter.screen.needs_reason:
            # Where the entries stand in its place the field for the reason is brought out.
            self._presenter.on_weigh_out()
            self.reason.setFocus(Qt.FocusReason.OtherFocusReason)
            return
        self.when.setCurrentIndex(0)
        self.reason.clear()

    def _turn(self, places: int) -> None:
        self._presenter.on_turn(places)
        self.take_focus()

    def _order(self) -> None:
        """The keyboard goes from the grams to the stop, and from there to the start."""
        line = self.weighing.line
        if line is None or line is self._ordered:
            return
        self._ordered = line
        self.setTabOrder(self.figures[-1].mark, line)
        self.setTabOrder(line, self.hardener)

    def _weigh_out(self) -> None:
        self._presenter.on_weigh_out()
        self.take_focus()

    def _amount_entered(self) -> None:
        """Enter in the amount goes on to what the scale shows."""
        if not self.inputs.edits["amount"].is_settled:
            return
        if not self._wide and self.weigh_out.isVisible():
            self._weigh_out()
        elif self.weighing.line is not None and self.weighing.line.isVisible():
            self.weighing.line.setFocus(Qt.FocusReason.TabFocusReason)

    def take_focus(self) -> None:
        """Bring the keyboard to what is typed next."""
        entry = self.weighing.entry() or self.inputs.first()
        pressed = (self.hardener, self.poured, self.another, self.inputs.unfold)
        there = (each for each in pressed if each.isVisibleTo(self) and each.isEnabled())
        target = entry if entry.isVisibleTo(self) else next(there, entry)
        target.setFocus(Qt.FocusReason.OtherFocusReason)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Inputs beside the weighing where there is room, over it where there is not."""
        super().resizeEvent(event)
        wide = self.width() > SIDE_BY_SIDE * self.look.metrics.body_px
        direction = QBoxLayout.Direction.LeftToRight if wide else QBoxLayout.Direction.TopToBottom
        self._sides.setDirection(direction)
        self._sides.setSpacing(round((3 if wide else 1) * self.look.u))
        self.inputs.set_column(wide)
        if wide != self._wide:
            self._wide = wide
            self.show_screen()
        self._fit_figures()


def _button(name: str, words: str, *, primary: bool = False) -> QPushButton:
    button = QPushButton(words)
    name_it(button, name, words)
    button.setAutoDefault(True)
    if primary:
        button.setProperty("kind", "primary")
    return button


def _show(button: QPushButton, shown: ButtonShown | None) -> None:
    button.setVisible(shown is not None)
    if shown is not None:
        button.setText(shown.words.replace("&", "&&"))
        button.setAccessibleName(shown.words)
        button.setEnabled(shown.enabled)
