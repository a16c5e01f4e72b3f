"""The Stabilise pane on screen: the present step at the left, the set at the right."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.entry.asked import Ask
from shopassist.core.wording import Wording
from shopassist.panes.stabilise.asks import (
    AGO,
    DIAL,
    FLOOR,
    GRIDS,
    MASS,
    METER,
    OVEN_READS,
    PANE,
    PROBE,
)
from shopassist.panes.stabilise.presenter import StabilisePresenter
from shopassist.panes.stabilise.screen import PAGES, StabiliseScreen
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.paragraphs import Paragraphs
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_card import ReportedRows
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.tabs import row_of, scrolled, tabs

MOST_ACTS, MOST_FIGURES = 5, 8
NO_FIGURE = FigureShown("", "–", "", "missing", explains=False, lead=False)


class StabiliseView(PaneFrame):
    """One path; what is to be done now stands large."""

    def __init__(self, look: Look, presenter: StabilisePresenter, wording: Wording) -> None:
        super().__init__(look, PANE, "Stabilise")
        self._presenter, self._wording = presenter, wording
        self._names: tuple[str, ...] = ()
        row = QHBoxLayout()
        row.setSpacing(round(4 * look.u))
        row.addLayout(self._build_step(), 5)
        row.addLayout(self._build_side(), 4)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- the present step ----------------------------------------------------------------------

    def _build_step(self) -> QVBoxLayout:
        look, column = self.look, QVBoxLayout()
        column.setSpacing(round(2 * look.u))
        self.what = Heading(look, f"{PANE}.what", "", "title", "ink")
        self.why = Heading(look, f"{PANE}.why", "")
        self.caption = Heading(look, f"{PANE}.wait_caption", "")
        self.wait = Countdown(look, f"{PANE}.wait", "Time", "lead")
        self.mass = self._quantity("mass", "The set weighs", MASS, self._presenter.on_mass)
        self.dial = self._quantity(
            "dial", "Dial reads, below the air", DIAL, self._presenter.on_dial
        )
        self.meter = self._quantity("meter", "Meter shows", METER, self._presenter.on_meter)
        self.floor = self._quantity(
            "meter_floor", "Lowest it can show", FLOOR, self._presenter.on_floor, stays=True
        )
        self.oven = self._quantity(
            "oven_reads", "Oven's thermometer reads", OVEN_READS, self._presenter.on_oven_reads
        )
        self.probe = self._quantity(
            "probe", "Probe in a dummy core", PROBE, self._presenter.on_probe
        )
        self.ago = self._quantity(
            "ago", "If it was earlier: how long ago", AGO, self._presenter.on_ago, stays=True
        )
        for widget in (self.what, self.why, self.caption, self.wait):
            column.addWidget(widget)
        column.addWidget(self._side_by_side(self.mass, self.dial, self.oven, self.probe))
        self._meter_row = self._side_by_side(self.meter, self.floor)
        column.addLayout(self._build_acts())
        self.message = Heading(look, f"{PANE}.message", "", "bold", "error")
        column.addWidget(self.message)
        column.addWidget(scrolled(self._build_rest(), by_keys=False), 1)
        return column

    def _build_rest(self) -> QWidget:
        """What follows from the step: in a low window it is scrolled, never cut."""
        rest = QWidget()
        column = QVBoxLayout(rest)
        column.setContentsMargins(0, 0, round(self.look.u), 0)
        column.setSpacing(round(1.5 * self.look.u))
        self.note = AmberNote(self.look, f"{PANE}.note")
        self.beware = Heading(self.look, f"{PANE}.beware", "")
        # What to beware of stands over the numbers: it must not be what a low window scrolls away.
        column.addWidget(self.note)
        column.addWidget(self.beware)
        column.addLayout(self._build_figures())
        column.addWidget(self._meter_row)
        column.addLayout(self._build_mend())
        column.addStretch(1)
        return rest

    def _build_mend(self) -> QVBoxLayout:
        """What was forgotten or mistaken: how long ago it was, and what was not so."""
        column, row = QVBoxLayout(), QHBoxLayout()
        self.correct = QPushButton("Type the last weight again")
        name_it(self.correct, f"{PANE}.correct_mass", "Type the last weight again")
        self.correct.clicked.connect(self._presenter.on_correct_mass)
        self.back = QPushButton()
        name_it(self.back, f"{PANE}.take_back", "Take the last report back")
        self.back.clicked.connect(self._presenter.on_take_back)
        for button in (self.correct, self.back):
            button.setProperty("kind", "quiet")
            row.addWidget(button)
        row.addStretch(1)
        column.addWidget(self.ago)
        column.addLayout(row)
        return column

    @staticmethod
    def _side_by_side(*widgets: QWidget) -> QWidget:
        row = QWidget()
        layout = QHBoxLayout(row)
        layout.setContentsMargins(0, 0, 0, 0)
        for widget in widgets:
            layout.addWidget(widget, 1)
        return row

    def _quantity(
        self, name: str, label: str, spec: EntrySpec, take: Callable[[Entry | None], None],
        *, stays: bool = False,
    ) -> QuantityEdit:  # fmt: skip
        """An entry that is taken once and then empty for the next one, unless it stays."""
        edit = QuantityEdit(self.look, f"{PANE}.{name}", label, spec, self._wording)

        def taken(entry: Entry | None) -> None:
            take(entry)
            if not stays and entry is not None and not self._presenter.screen.message:
                edit.set_value(None)

        edit.committed.connect(taken)
        return edit

    def _build_acts(self) -> QVBoxLayout:
        column = QVBoxLayout()
        first = QHBoxLayout()
        self.acts: list[QPushButton] = []
        second = QHBoxLayout()
        for number in range(1, MOST_ACTS + 1):
            button = QPushButton()
            name_it(button, f"{PANE}.act.{number}", "Report")
            button.clicked.connect(lambda _=False, n=number - 1: self._act(n))
            self.acts.append(button)
            (first if number == 1 else second).addWidget(button)
        second.addStretch(1)
        column.addLayout(first)
        column.addLayout(second)
        return column

    def _act(self, number: int) -> None:
        acts = self._presenter.screen.acts
        if number < len(acts):
            self.ago.set_value(None)
            self._presenter.on_act(acts[number].event)

    def _build_figures(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(4 * self.look.u))
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        self.figures: list[FigureView] = []
        for number in range(1, MOST_FIGURES + 1):
            view = FigureView(self.look, f"{PANE}.figure.{number}", NO_FIGURE)
            view.explain_asked.connect(lambda n=number - 1: self._explain(n))
            self.figures.append(view)
            grid.addWidget(view, (number - 1) // 2, (number - 1) % 2)
        return grid

    def _explain(self, number: int) -> None:
        screen = self._presenter.screen
        own = len(screen.figures) - len(screen.figure_names)
        if 0 <= number - own < len(screen.figure_names):
            self._presenter.on_explain(screen.figure_names[number - own])

    # -- the set ----------------------------------------------------------------------------

    def _build_side(self) -> QVBoxLayout:
        look, side = self.look, QVBoxLayout()
        side.setSpacing(round(1.5 * look.u))
        self.pages = tabs(f"{PANE}.page", PAGES, self._presenter.on_page)
        side.addLayout(row_of(self.pages))
        self.stack = QStackedWidget()
        self.facts = ReportedRows(look, f"{PANE}.facts", "Reported so far", ())
        self.cautions = Paragraphs(look, f"{PANE}.cautions", "Cautions")
        self.compared = Paragraphs(look, f"{PANE}.compared", "Sets beside each other")
        self.grids = [self._grid(asks) for _, asks in GRIDS]
        *grids, compare = self.grids
        for page in (
            scrolled(self.facts),
            *(scrolled(grid, by_keys=False) for grid in grids),
            self._compare_page(compare),
            self.cautions,
        ):
            self.stack.addWidget(page)
        side.addWidget(self.stack, 1)
        return side

    def _compare_page(self, grid: EntryGrid) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.compared, 1)
        column.addWidget(grid)
        return page

    def _grid(self, asks: tuple[Ask, ...]) -> EntryGrid:
        grid = EntryGrid(self.look, PANE, asks, self._wording)
        grid.edited.connect(self._presenter.on_edited)
        grid.committed.connect(self._presenter.on_committed)
        grid.chosen.connect(self._presenter.on_chosen)
        return grid

    # -- drawing --------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self.set_steps(screen.steps, screen.present)
        self._show_step(screen)
        self._show_acts(screen)
        for number, view in enumerate(self.figures):
            shown = number < len(screen.figures)
            view.setVisible(shown)
            if shown:
                view.draw(screen.figures[number])
        for key, tab in self.pages.items():
            tab.setChecked(key == screen.page)
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        self.facts.draw(screen.facts)
        self.facts.updateGeometry()
        self.compared.draw(screen.compared)
        self.cautions.draw(tuple(("body", "ink", each) for each in screen.cautions))
        self._show_grids(screen)

    def _show_grids(self, screen: StabiliseScreen) -> None:
        for grid in self.grids:
            for name, choices in screen.choices.items():
                if name in grid.choices:
                    grid.offer(name, choices)
            grid.draw(screen.answers)

    def _show_acts(self, screen: StabiliseScreen) -> None:
        for number, button in enumerate(self.acts):
            shown = number < len(screen.acts)
            button.setVisible(shown)
            if shown:
                _dress(button, screen.acts[number].words, primary=screen.acts[number].primary)

    def _show_step(self, screen: StabiliseScreen) -> None:
        for heading, words in ((self.what, screen.what), (self.why, screen.why),
                               (self.message, screen.message),
                               (self.beware, screen.beware)):  # fmt: skip
            heading.draw(words)
            heading.setVisible(bool(words))
        caption = f"{screen.wait}, {screen.until}" if screen.wait else ""
        self.caption.draw(caption)
        self.caption.setVisible(bool(caption))
        self.wait.setVisible(bool(screen.wait))
        if screen.wait:
            self.wait.set_digits(screen.digits)
        self.mass.setVisible(bool(screen.mass_label))
        if screen.mass_label:
            self.mass.label.setText(screen.mass_label)
            self.mass.line.setAccessibleName(screen.mass_label)
        for edit, asked in ((self.dial, screen.asks_dial), (self.oven, screen.asks_oven),
                            (self.probe, screen.asks_probe),
                            (self.ago, bool(screen.acts) and bool(screen.take_back))):  # fmt: skip
            edit.setVisible(asked)
        self.back.setVisible(bool(screen.take_back))
        if screen.take_back and self.back.text() != screen.take_back:
            self.back.setText(screen.take_back)
            self.back.setAccessibleName(screen.take_back)
        self._meter_row.setVisible(screen.asks_meter)
        self.correct.setVisible(screen.can_correct)
        self.note.draw(screen.note, "")
        self.note.setVisible(bool(screen.note))

    def tick(self) -> None:
        """Each second: digits alone."""
        if self.wait.isVisible():
            self.wait.set_digits(self._presenter.digits())

    def take_focus(self) -> None:
        """Bring the keyboard to what is to be typed or pressed now."""
        for widget in (self.mass, self.dial):
            if not widget.isHidden():
                widget.line.setFocus(Qt.FocusReason.OtherFocusReason)
                return
        self.acts[0].setFocus(Qt.FocusReason.OtherFocusReason)


def _dress(button: QPushButton, words: str, *, primary: bool) -> None:
    if button.text() != words:
        button.setText(words)
        button.setAccessibleName(words)
    kind = "primary" if primary else ""
    if button.property("kind") != kind:
        button.setProperty("kind", kind)
        button.style().unpolish(button)
        button.style().polish(button)
