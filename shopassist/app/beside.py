"""Cards beside the panes: limits, this shop, and what stops when the program is closed."""

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

from shopassist.app.foundation import Foundation
from shopassist.app.limits import ABOUT, LIMITS, READ, TITLE
from shopassist.core.wording import Wording
from shopassist.shell.main_window import MainWindow
from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.look import Look

if TYPE_CHECKING:
    from shopassist.shell.shop_entries import Change, ShopEntries

SHOP = "This shop"
FIRST = ("Change it at any time under View. What first?",)
WAYS = (("mix", "Weigh out a mix"), ("pot", "Enter a pot"), ("demo", "Look round an invented shop"))
QUIT = (
    "The alarms stop when the program is closed.",
    "Waits go on by the clock, and are right again when it is opened.",
)


class Beside:
    """Shows one card at a time; the panes stay in reach."""

    def __init__(
        self, look: Look, window: MainWindow, base: Foundation, wording: Wording,
        change: "Change", enter_pot: Callable[[], object],
    ) -> None:  # fmt: skip
        self._look, self._window, self._state, self._base = look, window, base.state, base
        self._wording, self._change, self._enter_pot = wording, change, enter_pot

    def first_run(self) -> None:
        """Show the limits, then ask about the shop."""
        self._limits(TITLE, LIMITS, self._asked_first)

    def limits(self) -> None:
        """Show what the program is not."""
        self._limits(TITLE, LIMITS, self._window.leave_beside)

    def about(self) -> None:
        """Show what the program is, and is not."""
        lines, ways = (*ABOUT, *LIMITS), (("close", "Close"),)
        card = LimitsCard(self._look, "about", "About", lines, ways)
        card.leave = "close"
        self._show(card, lambda _: self._window.leave_beside())

    def shop(self) -> None:
        """Show what was said of this shop."""
        ways = (("done", "Done"),)
        card = LimitsCard(self._look, "shop", SHOP, (), ways, self._entries())
        card.leave = "done"
        self._show(card, lambda _: self._window.leave_beside())

    def leaving(self, lines: tuple[str, ...], leave: Callable[[], object]) -> None:
        """Say what goes on without the program, and let it be closed."""
        ways = (("now", "Close; the alarms stop"), ("stay", "Stay"))
        card = LimitsCard(self._look, "quit", "Still running", (*lines, *QUIT), ways)
        card.leave = "stay"
        self._show(card, lambda key: leave() if key == "now" else self._window.leave_beside())

    def _limits(self, title: str, lines: tuple[str, ...], then: Callable[[], object]) -> None:
        def read(_: str) -> None:
            self._state.put("limits_read", "yes")
            then()

        self._show(LimitsCard(self._look, "limits", title, lines, (("read", READ),)), read)

    def _asked_first(self) -> None:
        if self._state.get("shop_told"):
            self._window.leave_beside()
            return
        card = LimitsCard(self._look, "shop", SHOP, FIRST, WAYS, self._entries(brief=True))
        self._show(card, self._first)

    def _first(self, key: str) -> None:
        self._state.put("shop_told", "yes")
        self._window.leave_beside()
        if key == "demo":
            from PySide6.QtCore import QProcess

            QProcess.startDetached(sys.executable, ["-m", "shopassist", "--demo"])
        elif key == "pot":
            self._enter_pot()

    def _entries(self, *, brief: bool = False) -> "ShopEntries":
        from shopassist.shell.shop_entries import ShopEntries

        now = self._base.settings
        return ShopEntries(self._look, self._wording, lambda: now.now, self._change, brief=brief)

    def _show(self, card: LimitsCard, then: Callable[[str], object]) -> None:
        card.chosen.connect(then)
        self._window.show_beside(card)
        card.take_focus()
