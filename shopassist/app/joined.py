"""The running program: window, services and what each announces to the other."""

from collections.abc import Callable
from dataclasses import asdict
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QApplication

from shopassist.app.foundation import Foundation
from shopassist.app.late import Late
from shopassist.app.panes import build_panes
from shopassist.app.presenters import Presenters
from shopassist.app.services import KINDS, Services, style_of
from shopassist.app.viewer import show_file
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.pot.events import Press
from shopassist.core.pot.words import Act
from shopassist.core.rows import Json
from shopassist.services.hooks import Hook
from shopassist.services.next import NextService
from shopassist.services.session import BEAT_EVERY
from shopassist.shell.cards import cure_card, mix_card, pot_card
from shopassist.shell.lines import ACTIONS, going_on, next_shown, pot_shown
from shopassist.shell.main_window import Choices, MainWindow
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from shopassist.widgets.theme import Theme
from shopassist.widgets.ticker import Ticker

if TYPE_CHECKING:
    from shopassist.app.beside import Beside
    from shopassist.widgets.batch_sheet_shown import SheetShown
    from shopassist.widgets.paper_shown import PaperShown

FORECAST_EVERY = 60.0
"""How often ranges and ages are written anew while nothing happens, [s]."""


class Joined:
    """Window, clock and journal, as tests and scripts hold on to them."""

    def __init__(self, qt: QApplication, base: Foundation, made: Services) -> None:
        self.base, self.services = base, made
        self.clock, self.journal = base.clock, base.journal
        self._qt = qt
        self._closed = False
        family = fonts.load(sorted(resource("fonts").glob("*.otf"), reverse=True))
        self.look = Look(family)
        self.look.calibration = float(base.settings.now.size)
        screen = qt.primaryScreen()
        if screen is not None:
            self.look.fit_screen(screen)
        self.theme = Theme(qt, self.look, base.settings.now.theme)
        self.ticker = Ticker(lambda: float(base.clock.read().utc))
        self.late = Late(base, made, self.look, self.ticker)
        self.presenters = Presenters(base, made, self._met)
        self.panes = build_panes(self.look, self.presenters, made, self.ticker, base)
        self.window = MainWindow(self.look, self.panes, self._choices(), self.ticker)
        self.window.place(base.state.get("window"))
        self.next = NextService(self.presenters.cure.dues, made.waits.dues, self.late.dues)
        self._join()
        self.refresh()
        self._first_run()

    # -- joining ------------------------------------------------------------------------------

    def _join(self) -> None:
        made, parts, window = self.services, self.presenters, self.window
        for hook in (parts.cure.changed, made.pots.changed, made.hand.changed, made.people.changed):
            hook.connect(lambda _: self.refresh())
        made.batches.changed.connect(lambda _: self.refresh())
        window.next_line.chosen.connect(self._open_next)
        window.bench_opened.connect(self._draw_bench)
        self.late.wait_for(window)
        window.first_painted.connect(self._draw_cards)  # before it none of them is in sight
        window.pane_shown.connect(self._make_room)
        window.pane_shown.connect(self._draw_cards)
        self._stops = [
            self.ticker.every(1.0, self.tick),
            self.ticker.every(float(BEAT_EVERY), self.base.session.beat),
            self.ticker.every(FORECAST_EVERY, self.minute),
        ]

    def _met(self, name: str, presenter: object) -> None:
        """A pane's presenter has been built: hear what it announces."""
        for hook, heed in (
            ("explained", lambda figure: self.explain(name, figure)),
            ("went_on", lambda pane: self.window.show_pane(pane)),  # noqa: PLW0108 - not yet there
            ("again_asked", lambda _: self.window.show_pane("mix")),
            ("paper_asked", self._write_paper),
            ("entry_asked", lambda _: self._open_records(1)),
            ("open_asked", show_file),
            ("print_asked", self._print_sheet),
        ):
            found = getattr(presenter, hook, None)
            if isinstance(found, Hook):
                found.connect(heed)
        if name in ("stabilise", "plan"):
            getattr(self.services, name).changed.connect(lambda _: self.refresh())

    def _write_paper(self, sheet: "PaperShown") -> None:
        """Write a pot's list as a PDF beside the journal, and show it as it will be printed."""
        from shopassist.desktop.paper import SIDES, html, write_sheet
        from shopassist.desktop.printing import Page, preview

        path = self.base.paths.sheets / f"{self.presenters.pot.pot_id}-list.pdf"

        def write() -> None:
            write_sheet(path, sheet, self.look.family)
            self.presenters.pot.told(f"Written: {path}")
            page = Page(sheet.title, html(sheet), sheet.letter, SIDES)
            preview(page, self.look.family, self.window, self._line_ends())

        self._try(write)

    def _print_sheet(self, sheet: "SheetShown") -> None:
        """Show a batch's sheet as it will be printed."""
        from shopassist.desktop.batch_sheet import html
        from shopassist.desktop.printing import Page, preview

        page = Page(sheet.title, html(sheet), sheet.letter)
        preview(page, self.look.family, self.window, self._line_ends())

    def _line_ends(self) -> int:
        """Where the pot line ends: nothing is laid over it, [px] from the top of the window."""
        line = self.window.pot_line
        return line.mapTo(self.window, line.rect().bottomLeft()).y()

    def _choices(self) -> Choices:
        parts = self.presenters
        return Choices(
            new_batch=self._new_batch,
            again=self._again,
            cards=self._cards,
            undo=parts.mix.on_undo,
            acknowledge=lambda: self.late.tell(lambda desk: desk.acknowledge()),
            silence=lambda: self.late.tell(lambda desk: desk.service.silence()),
            alarms=lambda: self.late.tell(lambda desk: desk.show_list()),
            records=self._open_records,
            kinds=tuple(title for _, title in KINDS),
            theme=lambda value: self._settle(theme=value),
            units=lambda value: self._settle(units=value),
            decimal=lambda value: self._settle(decimal=value),
            limits=lambda: self._beside.limits(),  # noqa: PLW0108 - built when asked for
            about=lambda: self._beside.about(),  # noqa: PLW0108
            shop=lambda: self._beside.shop(),  # noqa: PLW0108
            pot_action=self._pot_action,
            quit_asked=self.may_close,
            settings_now=lambda: {k: str(v) for k, v in asdict(self.base.settings.now).items()},
        )  # fmt: skip

    # -- drawing the lines --------------------------------------------------------------------

    def refresh(self) -> None:
        """Draw the lines and the cards that stand in sight."""
        window, made = self.window, self.services
        now = float(self.clock.read().utc)
        window.pot_line.draw(pot_shown(made.pots, made.wording, made.people))
        batch = made.hand.batch
        subject = made.batches.get(batch).name if batch else ""
        window.next_line.draw(next_shown(self.next.due(now), made.wording, subject, now))
        self._make_room()
        self._draw_cards()
        if window.benched:
            self._draw_bench()
        window.tell_time(made.wording.corner(now))

    def _make_room(self) -> None:
        """A walk to the pot needs the room of two panes for a while."""
        (walks, asks), board = self.presenters.pot.room, self.window.board
        board.set_broad("pot" if walks or (asks and board.focus == "pot") else "")

    def _draw_bench(self) -> None:
        self.window.bench.draw(self.presenters.cure.bench())
        self.window.bench.set_digits(self.presenters.cure.digits())

    def _draw_cards(self) -> None:
        parts, cards = self.presenters, self.window.cards
        if cards["mix"].isVisible():
            cards["mix"].draw(mix_card(parts.mix))
        if cards["cure"].isVisible():
            cards["cure"].draw(cure_card(parts.cure))
        if cards["pot"].isVisible():
            in_hand = parts.pot.pot_id
            line = self.services.pots.line(in_hand) if in_hand else None
            cards["pot"].draw(pot_card(parts.pot, line, self.services.wording))

    def tick(self) -> None:
        """Each second: digits, the pot line's life, nothing that did not change."""
        window, made = self.window, self.services
        self.late.tell(lambda desk: desk.tick())
        window.pot_line.draw(pot_shown(made.pots, made.wording, made.people))
        for pane in self.panes.values():
            pane.tick()
        cure = window.cards["cure"]
        if cure.isVisible() and cure.shown.right:
            # Digits alone: the rest of the card is written anew each minute, and by events.
            cure.set_value(self.presenters.cure.digits())
        if window.benched:
            window.bench.set_digits(self.presenters.cure.digits())

    def minute(self) -> None:
        """Each minute: forecasts, ages, what is written with them."""
        self.presenters.cure.changed.emit(None)  # lines and cards follow it
        self.late.tell(lambda desk: desk.minute())

    # -- explaining -----------------------------------------------------------------------------

    def explain(self, pane: str, figure: Figure) -> None:
        """Lay the explanation of a number over its pane."""
        from shopassist.shell.explaining import explained

        explained(self.look, self.panes[pane].built(), figure, self.services.wording)

    # -- menus ----------------------------------------------------------------------------------

    def _new_batch(self) -> None:
        self._try(lambda: self.services.hand.take_batch(self.services.batches.open()))
        self.window.show_pane("mix")

    def _cards(self) -> tuple[str, ...]:
        say = self.services.wording
        return tuple(
            f"{card.name}, {card.amount}, {say.date(card.opened)}"
            + (f" – {card.next_time}" if card.next_time else "")
            for card in self.services.batches.cards()
        )

    def _again(self, number: int) -> None:
        cards = self.services.batches.cards()
        if number < len(cards):
            earlier = cards[number].batch_id
            self._try(
                lambda: self.services.hand.take_batch(self.services.batches.open(again_of=earlier))
            )
            self.window.show_pane("mix")

    def _open_records(self, kind: int) -> None:
        self.presenters.records.on_kind(kind)
        self.window.show_pane("records")

    def _settle(self, **values: Json) -> None:
        self._try(lambda: self.base.settings.change(**values))
        now = self.base.settings.now
        self.theme.choose(now.theme)
        self.look.calibration = float(now.size)
        self.look.fit_screen(self.window.screen())
        self.services.wording.style, self.services.wording.units = style_of(now)
        for presenter in self.presenters.there.values():
            hook = getattr(presenter, "changed", None)
            if isinstance(hook, Hook):
                hook.emit(None)
        self.refresh()

    def _pot_action(self) -> None:
        """One press from anywhere: let down, or vent now, as the line says."""
        pots = self.services.pots
        order = pots.worst()
        if not order:
            return
        state = pots.state(order[0]).belief
        act = Act.VENT_NOW if ACTIONS.get(state) == "Vent now" else Act.LET_DOWN
        self._try(lambda: pots.act(order[0], Press(act)))
        self.services.hand.take_pot(order[0])
        self.window.show_pane("pot")

    def _open_next(self) -> None:
        due = self.next.due(float(self.clock.read().utc))
        if due is not None:
            if due.owner:
                self.services.hand.take_batch(due.owner)
            self.window.show_pane(due.pane)

    # -- cards beside the window ------------------------------------------------------------------

    @cached_property
    def _beside(self) -> "Beside":
        from shopassist.app.beside import Beside

        return Beside(
            self.look, self.window, self.base, self.services.wording,
            lambda name, value: self._settle(**{name: value}), lambda: self._open_records(1),
        )  # fmt: skip

    def _first_run(self) -> None:
        if not self.base.state.get("limits_read"):
            self._beside.first_run()

    # -- trouble ---------------------------------------------------

    def _try(self, act: Callable[[], object]) -> None:
        try:
            act()
        except ShopError as error:
            say = self.services.wording
            title, detail = say.say(error.title), say.say(error.detail)
            self.late.tell(lambda desk: desk.tell(title, detail))

    def may_close(self) -> bool:
        """Whether the window may close: what still runs is said first, once."""
        if self._closed or not (lines := self._going_on()):
            return self.close()
        self._beside.leaving(lines, self._leave)
        return False

    def _going_on(self) -> tuple[str, ...]:
        made, now = self.services, float(self.clock.read().utc)
        return going_on(made.pots, self.next.due(now), made.wording, now)

    def _leave(self) -> None:
        self.close()
        self.window.close()

    def close(self) -> bool:
        """End in order; True lets the window close."""
        if self._closed:
            return True
        self._closed = True
        for stop in self._stops:
            stop()
        self.late.close()
        self.base.state.put("window", self.window.geometry_text())
        self.base.close()
        return True
