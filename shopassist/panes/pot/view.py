"""The pot pane on screen: draws what the presenter says, decides nothing."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QWidget,
)

from shopassist.panes.pot.card_view import OFFER_COLUMNS, CardView
from shopassist.panes.pot.presenter import PotPresenter, PotScreen
from shopassist.panes.pot.screen import OFFER, PAGES, Page
from shopassist.services.people import LONGEST
from shopassist.widgets.answer_button import AnswerGrid
from shopassist.widgets.choice import Choice
from shopassist.widgets.hold_button import Ticks
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.tabs import tabs

if TYPE_CHECKING:
    from shopassist.panes.pot.page_view import NumbersView, ReadingsView


WHO_FROM = 50
"""Width in body sizes from which the head has room for a name."""


class PotView(PaneFrame):
    """The list in front; pages of numbers beside it, except in the walk to the open lid."""

    def __init__(
        self, look: Look, presenter: PotPresenter, ticker: Ticks, now: Callable[[], float]
    ) -> None:
        super().__init__(look, "pot", "Pot")
        self._presenter = presenter
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.body.addWidget(self._build_head(look, presenter))
        self.pages = QStackedWidget()
        self.card = CardView(look, presenter, ticker, now)
        self.card.rest = self
        self.pages.addWidget(self.card)
        self._beside: dict[Page, NumbersView | ReadingsView] = {}
        self.body.addWidget(self.pages, 1)
        # On a page of numbers air is let out from here; the card then has no buttons at all.
        self.out = AnswerGrid(look, "pot.out", columns=OFFER_COLUMNS)
        self.out.answered.connect(lambda name: presenter.on_offer(name.removeprefix(OFFER)))
        self.body.addWidget(self.out)
        # Keys answer only while the focus is in this pane: never from another one.
        for grid in (self.card.answers, self.card.offers, self.out):
            grid.listen(self)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_head(self, look: Look, presenter: PotPresenter) -> QWidget:
        """Which page, and which pot where there are several; the worst leads till one is chosen."""
        self.head = QWidget()
        row = QHBoxLayout(self.head)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(round(2 * look.u))
        self.tabs = tabs("pot.page", PAGES, self._presenter.on_page)
        for button in self.tabs.values():
            row.addWidget(button)
        self.said = Heading(look, "pot.said", "")
        row.addWidget(self.said, 1)
        for widget in self._build_beside(look, presenter):
            row.addWidget(widget)
        return self.head

    def _build_beside(self, look: Look, presenter: PotPresenter) -> tuple[QWidget, ...]:
        """Who is here, the list on paper, which pot."""
        self.who = QLineEdit()
        name_it(self.who, "pot.who", "Who is here")
        self.who.setPlaceholderText("who is here")
        self.who.setMaxLength(LONGEST)
        self.who.setMaximumWidth(11 * look.metrics.body_px)
        self.who.editingFinished.connect(lambda: presenter.on_who(self.who.text()))
        self.who.returnPressed.connect(self.take_focus)
        self.paper = QPushButton("Paper")
        name_it(self.paper, "pot.paper", "Whole list on one sheet of paper")
        self.paper.setProperty("kind", "tab")
        self.paper.clicked.connect(presenter.on_paper)
        self.choice = Choice()
        name_it(self.choice, "pot.choose", "Which pot")
        self.choice.activated.connect(
            lambda place: presenter.on_choose_pot(str(self.choice.itemData(place)))
        )
        return self.who, self.paper, self.choice

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen, kept = self._presenter.screen, self._on_a_page()
        self._drawn = _standing(screen)
        self.set_right(screen.right)
        self._draw_walk(screen)
        self._draw_head(screen)
        if screen.numbers is None:
            self.out.draw({})
            self.card.draw(screen)
        else:
            self.card.let_go()
            self.out.draw({answer.name: answer.shown for answer in screen.offers})
        self.out.setVisible(bool(self.out.buttons))
        self.pages.setCurrentWidget(self._page(screen))
        if kept and screen.numbers is None:
            self.take_focus()  # Qt would go on to the next control, which may be an answer

    def _on_a_page(self) -> bool:
        """Whether the keyboard is on a page beside the card, or on what is offered under one."""
        held, page = QApplication.focusWidget(), self.pages.currentWidget()
        places = [self.out] if page is self.card or page is None else [self.out, page]
        return held is not None and any(each.isAncestorOf(held) for each in places)

    def _page(self, screen: PotScreen) -> QWidget:
        """The card, or a page of numbers; built when it is first looked at."""
        if screen.numbers is None:
            return self.card
        page = self._beside.get(screen.page)
        if page is None:
            page = self._built(screen.page)
            self._beside[screen.page] = page
            self.pages.addWidget(page)
        page.draw(screen.numbers)
        return page

    def _built(self, page: Page) -> "NumbersView | ReadingsView":
        from shopassist.panes.pot.page_view import NumbersView, ReadingsView

        if page == "readings":
            return ReadingsView(self.look, self._presenter.on_csv)
        return NumbersView(self.look, f"pot.{page}", self._presenter.on_explain)

    def _draw_walk(self, screen: PotScreen) -> None:
        present = next((n for n, (_, state) in enumerate(screen.walk) if state == "present"), None)
        self.set_steps(tuple(words for words, _ in screen.walk), present)

    def _draw_head(self, screen: PotScreen) -> None:
        several = len(screen.pots) > 1
        self.head.setVisible(bool(screen.pages) or several)
        for page, tab in self.tabs.items():
            tab.setVisible(any(page == each for each, _ in screen.pages))
            tab.setChecked(page == screen.page)
        self.paper.setVisible(bool(screen.pages))
        self._fit_head(screen)
        if not self.who.hasFocus() and self.who.text() != screen.who:
            self.who.setText(screen.who)
        self.said.draw(screen.said)
        self.choice.setVisible(several)
        shown = [
            (self.choice.itemData(n), self.choice.itemText(n)) for n in range(self.choice.count())
        ]
        if shown != list(screen.pots):
            self.choice.clear()
            for pot_id, name in screen.pots:
                self.choice.addItem(name, pot_id)
        self.choice.setCurrentIndex(max(0, self.choice.findData(screen.pot_id)))

    def _fit_head(self, screen: PotScreen) -> None:
        """Who is here needs the room of a wide pane."""
        wide = self.width() > WHO_FROM * self.look.metrics.body_px
        self.who.setVisible(bool(screen.pages) and wide)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show what has room."""
        super().resizeEvent(event)
        self._fit_head(self._presenter.screen)

    def tick(self) -> None:
        """Redraw what depends on the time alone."""
        screen = self._presenter.screen
        if self._drawn != _standing(screen):
            self.show_screen()  # time alone ends a word, a wait and what was seen
        elif screen.numbers is not None:
            self._page(screen)
        else:
            self.card.tick(screen)

    def take_focus(self) -> None:
        """Bring the keyboard to the question."""
        self.card.take_focus()


def _standing(screen: PotScreen) -> tuple[object, ...]:
    """What of a screen is more than digits that run."""
    return (
        screen.page, screen.belief, screen.field, screen.kind, screen.odd, screen.answers,
        screen.offers, screen.branch_key, screen.stop, screen.wait_digits != "",
    )  # fmt: skip
