"""The cure pane on screen: digits, the ruled edge, temperature, and one page below."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.entry import Entry
from shopassist.core.wording import NONE, Wording
from shopassist.panes.cure.form import TEMPERATURE
from shopassist.panes.cure.form_view import FormView
from shopassist.panes.cure.pages import (
    CurvePage,
    TablePage,
    TimesPage,
    WaitsPage,
    WitnessPage,
    label,
)
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.cure.screen import PAGES, CureScreen
from shopassist.widgets.choice import Choice
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.wait_block import WaitBlock

ROOMY_EM = 40
"""From this height on the curve is shown without being asked for."""
PARTS = 5
"""Gaps between the parts of the pane."""


class Below(QWidget):
    """What stands under the digits: their height comes first, however its own words break."""

    def hasHeightForWidth(self) -> bool:
        """As high as it is given: a page with long words never squeezes the digits."""
        return False


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
        self.hair = Hair(look)
        self.body.addWidget(self.hair)
        self.body.addLayout(self._temperature_row(look, wording))
        self.message = Heading(look, "cure.message", "", "bold", "error")
        self.body.addWidget(self.message)
        self.body.addWidget(Hair(look))
        self.below = Below()
        self.below.setLayout(self._lower(look, wording))
        self.body.addWidget(self.below)
        self.notes = Heading(look, "cure.notes", "")
        self.body.addWidget(self.notes)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ----------------------------------------------------------------------------

    def _temperature_row(self, look: Look, wording: Wording) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(round(2.5 * look.u))
        self.value = label("typed")
        name_it(self.value, "cure.temperature.latest", "Newest temperature")
        self.age = Heading(look, "cure.temperature.age", "")
        self.edit = QuantityEdit(
            look, "cure.temperature", "Temperature now", TEMPERATURE, wording, compact=True
        )
        self.edit.setMaximumWidth(8 * look.metrics.body_px)
        self.edit.committed.connect(self._typed)
        self.where = Choice()
        name_it(self.where, "cure.where", "What the thermometer measures")
        self.where.addItems(self._presenter.screen.places)
        self.where.textActivated.connect(self._presenter.on_place)
        self.add = QPushButton("Add temperature")
        name_it(self.add, "cure.add_temperature", "Add temperature")
        self.add.setProperty("kind", "primary")
        self.add.clicked.connect(self._add)
        self.more = QPushButton("More")
        name_it(self.more, "cure.more", "More of this cure")
        self.more.setCheckable(True)
        self.more.setProperty("kind", "choice")
        self.more.clicked.connect(self._fold)
        row.addWidget(self.value, 0, Qt.AlignmentFlag.AlignVCenter)
        row.addWidget(self.age, 1, Qt.AlignmentFlag.AlignVCenter)
        for widget in (self.edit, self.where, self.add, self.more):
            row.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter)
        return row

    def _lower(self, look: Look, wording: Wording) -> QHBoxLayout:
        """Buttons of the pages at the left, the page beside them."""
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(round(3 * look.u))
        column = QVBoxLayout()
        column.setSpacing(round(look.u))
        self.tabs: dict[str, QPushButton] = {}
        for number, (page, word) in enumerate(PAGES, start=1):
            button = QPushButton(word)
            name_it(button, f"cure.page.{number}", word)
            button.setProperty("kind", "choice")
            button.setCheckable(True)
            button.clicked.connect(lambda _=False, page=page: self._presenter.on_page(page))
            column.addWidget(button)
            self.tabs[page] = button
        column.addStretch(1)
        row.addLayout(column)
        row.addLayout(self._page_column(look, wording), 1)
        return row

    def _page_column(self, look: Look, wording: Wording) -> QVBoxLayout:
        self.times = TimesPage(look, self._presenter)
        self.curve = CurvePage(look, self._presenter)
        self.table = TablePage(look, self._presenter)
        self.form = FormView(look, self._presenter, wording)
        self.witness = WitnessPage(look, self._presenter)
        self.waits = WaitsPage(look, self._presenter)
        self.pages = QStackedWidget()
        for each in (self.times, self.curve, self.table, self.form, self.witness, self.waits):
            self.pages.addWidget(each)
        right = QVBoxLayout()
        right.setSpacing(0)
        right.addWidget(self.pages, 1)
        right.addWidget(self._beside_line(look))
        return right

    def _beside_line(self, look: Look) -> QWidget:
        """The most urgent of the other cures: digits that tick, and words that stay."""
        self.first = Countdown(look, "cure.beside.remaining", "Remaining", "body")
        self.first.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.beside = QPushButton()
        name_it(self.beside, "cure.beside", "")
        self.beside.setProperty("kind", "quiet")
        self.beside.clicked.connect(lambda: self._presenter.on_page("waits"))
        self.line = QWidget()
        row = QHBoxLayout(self.line)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(round(1.5 * look.u))
        row.addWidget(self.first)
        row.addWidget(self.beside)
        row.addStretch(1)
        return self.line

    # -- drawing --------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self.wait.draw(screen.wait)
        self.wait.digits.setVisible(bool(screen.batch_id or screen.others))
        self.wait.set_digits(self._presenter.digits())
        number, unit = screen.temperature
        self.value.setText(f"{number} {unit}")
        self.value.setVisible(number != NONE)
        self.age.draw(screen.temperature_line)
        self.where.setCurrentText(screen.place)
        self.message.draw(screen.error)
        self.message.setVisible(bool(screen.error))
        self._draw_pages(screen)
        self._draw_beside(screen)
        words = "\n".join(screen.notes)
        self.notes.draw(words)
        self._fold()

    def _draw_pages(self, screen: CureScreen) -> None:
        self.times.draw(screen)
        self.curve.draw(screen.charts)
        if screen.page == "table":
            self.table.draw(screen.table)
        self.form.draw(screen.form)
        self.witness.draw(screen)
        if screen.page == "waits" or self.waits.lacks(screen):
            self.waits.draw(screen)
        pages = {
            "times": self.times, "curve": self.curve, "table": self.table, "readings": self.form,
            "witness": self.witness, "waits": self.waits,
        }  # fmt: skip
        self.pages.setCurrentWidget(pages[screen.page])
        for page, button in self.tabs.items():
            button.setChecked(page == screen.page)

    _first = ""

    def _draw_beside(self, screen: CureScreen) -> None:
        self.line.setVisible(bool(screen.beside) and screen.page != "waits")
        if screen.beside:
            self._first = screen.others[0].batch_id
            self.first.set_digits(self._presenter.digits_of(self._first))
            if self.beside.text() != screen.beside:
                self.beside.setText(screen.beside)
                self.beside.setAccessibleName(f"Other cures: {screen.beside}")

    def resizeEvent(self, event: QResizeEvent) -> None:
        """With room enough the curve stands open."""
        super().resizeEvent(event)
        roomy = self.height() >= ROOMY_EM * self.look.metrics.body_px
        self.body.setStretch(self.body.indexOf(self.below), 1 if roomy else 0)
        self._fold()
        self._presenter.on_room(roomy=roomy)

    def _fold(self) -> None:
        """Where it is too low for everything, show the digits or the rest, as *More* says."""
        short = self.height() < self._needs()
        asked = self.more.isChecked()
        self.wait.give_way(self.height() - self._beside_wait() < self.wait.sizeHint().height())
        self.more.setVisible(short)
        self.wait.setVisible(not short or not asked)
        self.hair.setVisible(not short or not asked)  # else it doubles the one of the header
        self.below.setVisible(not short or asked)
        # Where the notes have no line of their own they stand under the times.
        room = self.height() - self._needs() - self.body.spacing()
        apart = room >= self.notes.heightForWidth(self.width()) or (short and asked)
        told = bool(self.notes.words)
        self.notes.setVisible(told and apart and self.below.isVisibleTo(self))
        self.times.notes.draw(self.notes.words)
        self.times.notes.setVisible(told and not apart)

    def _needs(self) -> int:
        """Height of all parts under one another."""
        parts = self.wait.sizeHint(), self.below.minimumSizeHint()
        return sum(size.height() for size in parts) + self._beside_wait()

    def _beside_wait(self) -> int:
        """Height of what is never folded: the row of the temperature, gaps and margins."""
        margins = self.body.contentsMargins()
        gaps = PARTS * self.body.spacing() + margins.top() + margins.bottom()
        return self.add.sizeHint().height() + gaps

    def tick(self) -> None:
        """Each second: only the digits."""
        self.wait.set_digits(self._presenter.digits())
        if self.waits.isVisible():
            self.waits.tick()
        if self.line.isVisible():
            self.first.set_digits(self._presenter.digits_of(self._first))

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
