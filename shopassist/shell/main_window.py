"""The window around the panes: menu, pot line, rail, panes, next line, across the bench."""

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QChildEvent, Qt, Signal
from PySide6.QtGui import (
    QAction,
    QActionGroup,
    QCloseEvent,
    QKeySequence,
    QPaintEvent,
    QShortcut,
    QShowEvent,
)
from PySide6.QtWidgets import QLabel, QMainWindow, QMenu, QMenuBar, QWidget

from shopassist.core.frozen import frozen
from shopassist.shell.keyboard import give_back, take_focus
from shopassist.shell.window_layout import PRIMARY, Parts, WindowLayout
from shopassist.widgets.alarm_band import AlarmBand
from shopassist.widgets.card import Card
from shopassist.widgets.focus_ring import FocusRing
from shopassist.widgets.hold_button import Ticks
from shopassist.widgets.look import Look
from shopassist.widgets.next_line import NextLine
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_line import PotLine
from shopassist.widgets.rail import Rail
from shopassist.widgets.shown import CardShown, IconName, NextShown, PotLineShown, RailShown

if TYPE_CHECKING:
    from shopassist.widgets.bench_view import BenchView

RAIL: tuple[tuple[IconName, str], ...] = (
    ("mix", "Mix"),
    ("cure", "Cure"),
    ("pot", "Pot"),
    ("stabilise", "Stabilise"),
    ("blank", "Blank"),
    ("warm-up", "Warm-up"),
    ("turn", "Turn"),
    ("plan", "Plan"),
    ("log", "Log"),
    ("out", "Out"),
)
"""Panes of the rail; only those that exist are shown."""
MENU_AIR = 3
"""Over and under the words of the menu, as the theme's sheet has it."""


@frozen
class Choices:
    """What the menus call; built by ``app``."""

    new_batch: Callable[[], None]
    again: Callable[[int], None]
    cards: Callable[[], tuple[str, ...]]
    undo: Callable[[], None]
    acknowledge: Callable[[], None]
    silence: Callable[[], None]
    alarms: Callable[[], None]
    records: Callable[[int], None]
    kinds: tuple[str, ...]
    """Titles of the kinds of records, in their order."""
    theme: Callable[[str], None]
    units: Callable[[str], None]
    decimal: Callable[[str], None]
    limits: Callable[[], None]
    about: Callable[[], None]
    shop: Callable[[], None]
    pot_action: Callable[[], None]
    quit_asked: Callable[[], bool]
    settings_now: Callable[[], Mapping[str, str]]
    """Theme, units and decimal sign in force, to mark them in the menus."""


class MainWindow(QMainWindow):
    """One window; no dialog ever covers the pot line."""

    first_painted = Signal()
    pane_shown = Signal()
    """Another pane is in hand, and with it other cards are in sight."""
    bench_opened = Signal()
    """The view across the bench has been laid over the panes."""

    def __init__(
        self, look: Look, panes: Mapping[str, QWidget], choices: Choices, ticker: Ticks
    ) -> None:
        super().__init__()
        name_it(self, "window", "Shopassist")
        self.setWindowTitle("Shopassist")
        self.look = look
        self._choices = choices
        self._painted = False
        self._before_bench: QWidget | None = None
        self._bench: BenchView | None = None
        self.over: QWidget | None = None
        """What an alarm has put in the place of the panes."""
        self.pot_line = PotLine(look, "pot_line", PotLineShown("unknown", "NOT KNOWN"))
        self.next_line = NextLine(look, "next_line", NextShown("Nothing is due"))
        self.alarm_band = AlarmBand(look, "alarm", ticker)
        self.alarm_band.hide()
        self.rail = Rail(look, "rail")
        self.cards = {key: Card(look, f"card.{key}", _card(key)) for key in PRIMARY}
        self.board = WindowLayout(
            look,
            Parts(self.pot_line, self.alarm_band, self.rail, self.next_line, panes, self.cards),
        )
        self.setCentralWidget(self.board)
        self._keys = [key for key, _ in RAIL if key in panes]
        self._connect()
        self._menus()
        self.ring = FocusRing(self, look)
        self.show_pane("mix")

    # -- building ------------------------------------------------------------------------

    def _connect(self) -> None:
        self.rail.chosen.connect(self.show_pane)
        self.pot_line.chosen.connect(lambda: self.show_pane("pot"))
        self.pot_line.action.connect(self._choices.pot_action)
        for key, card in self.cards.items():
            card.clicked.connect(lambda _=False, key=key: self.show_pane(key))

    def _menus(self) -> None:
        bar = self.menuBar()
        name_it(bar, "menu", "Menu")
        self._batch_menu(bar)
        self._records_menu(bar)
        self._view_menu(bar)
        self._alarm_menu(bar)
        self._help_menu(bar)
        self.clock = QLabel()
        name_it(self.clock, "menu.clock", "Date and time")
        # As high as the words of the menu, on one line with them.
        self.clock.setContentsMargins(0, MENU_AIR, round(2.5 * self.look.u), MENU_AIR)
        bar.setCornerWidget(self.clock, Qt.Corner.TopRightCorner)

    def tell_time(self, words: str) -> None:
        """Write date and time; the bar gives them room once, a longer day asks for it anew."""
        self.clock.setText(words)
        if self.clock.width() < self.clock.sizeHint().width():
            self.menuBar().setCornerWidget(self.clock, Qt.Corner.TopRightCorner)

    def _batch_menu(self, bar: QMenuBar) -> None:
        menu = bar.addMenu("&Batch")
        self._act(menu, "batch.new", "&New batch", self._choices.new_batch, "Ctrl+N")
        self._again = menu.addMenu("&Again\tCtrl+R")
        self._again.setObjectName("batch.again")
        self._again.aboutToShow.connect(self._fill_again)
        again = QShortcut(QKeySequence("Ctrl+R"), self)
        again.setObjectName("batch.again.open")
        again.activated.connect(self.open_again)
        self._act(menu, "batch.undo", "&Undo entry", self._choices.undo, "Ctrl+Z")
        self._act(menu, "batch.out", "&Files and backups", partial(self.show_pane, "out"), "Ctrl+E")
        menu.addSeparator()
        self._act(menu, "batch.quit", "&Quit", self.close, "Ctrl+Q", QAction.MenuRole.QuitRole)

    def _fill_again(self) -> None:
        self._again.clear()
        words = self._choices.cards()
        for number, card in enumerate(words, start=1):
            name = f"batch.again.{number}"
            self._act(
                self._again, name, f"&{number}  {card}", partial(self._choices.again, number - 1)
            )
        if not words:
            self._again.addAction("No batch with an amount yet").setEnabled(False)

    def open_again(self) -> None:
        """Drop the list of job cards down; a digit takes one."""
        corner = self.board.mapToGlobal(self.board.rect().topLeft())
        self._again.popup(corner)

    def _records_menu(self, bar: QMenuBar) -> None:
        menu = bar.addMenu("&Records")
        for number, words in enumerate(self._choices.kinds):
            name = f"records.open.{number}"
            self._act(menu, name, words, partial(self._choices.records, number))

    def _view_menu(self, bar: QMenuBar) -> None:
        menu = bar.addMenu("&View")
        titles = dict(RAIL)
        for number, key in enumerate(self._keys, start=1):
            # The tenth has its own keys, in the menu of the batch.
            keys = f"Ctrl+{number}" if number < 10 else ""  # noqa: PLR2004
            self._act(
                menu, f"view.{key}", f"&{titles[key]}", partial(self.show_pane, key), keys
            )  # fmt: skip
        menu.addSeparator()
        self._act(menu, "view.bench", "Across the &bench", self.toggle_bench, "F11")
        menu.addSeparator()
        self._group(
            menu, "theme", (("light", "Light"), ("dark", "Dark"), ("system", "As the system"))
        )
        self._group(
            menu,
            "units",
            (("metric", "Metric units"), ("us", "US units"), ("mixed", "Mixed units")),
        )
        self._group(menu, "decimal", ((".", "Decimal point"), (",", "Decimal comma")))
        self._act(menu, "view.shop", "This &shop …", self._choices.shop)

    def _group(self, menu: QMenu, name: str, entries: tuple[tuple[str, str], ...]) -> None:
        group = QActionGroup(self)
        call = {
            "theme": self._choices.theme,
            "units": self._choices.units,
            "decimal": self._choices.decimal,
        }[name]
        for value, words in entries:
            act = self._act(menu, f"view.{name}.{value}", words, partial(call, value))
            act.setCheckable(True)
            act.setChecked(self._choices.settings_now()[name] == value)
            group.addAction(act)
        menu.addSeparator()

    def _alarm_menu(self, bar: QMenuBar) -> None:
        menu, calls = bar.addMenu("&Alarms"), self._choices
        self._act(menu, "alarms.list", "&List and sound test", calls.alarms, "F4")
        self._act(menu, "alarms.acknowledge", "&Acknowledge", calls.acknowledge, "F2")
        self._act(menu, "alarms.silence", "&Silence 2 min", calls.silence, "F3")

    def _help_menu(self, bar: QMenuBar) -> None:
        menu = bar.addMenu("&Help")
        self._act(menu, "help.limits", "&Limits of this program", self._choices.limits, "F1")
        self._act(
            menu, "help.about", "&About", self._choices.about, role=QAction.MenuRole.AboutRole
        )

    def _act(
        self, menu: QMenu, name: str, words: str, call: Callable[[], object], keys: str = "",
        role: QAction.MenuRole = QAction.MenuRole.NoRole,
    ) -> QAction:  # fmt: skip
        act = QAction(self)
        act.setText(words)
        act.setObjectName(name)
        act.setMenuRole(role)
        if keys:
            act.setShortcut(QKeySequence(keys))
            self.addAction(act)  # its keys work while the menu is out of sight
        act.triggered.connect(lambda _=False: call())
        menu.addAction(act)
        return act

    # -- panes ------------------------------------------------------------------------------

    def show_pane(self, key: str) -> None:
        """Bring a pane into hand and the keyboard into it."""
        self.leave_over()
        self.leave_bench()
        self.board.set_focus(key)
        self.pane_shown.emit()
        self._draw_rail()
        take_focus(self.board.parts.panes[key])

    def _draw_rail(self) -> None:
        shown = self.board.shown()
        titles = dict(RAIL)
        self.rail.draw(
            tuple(
                RailShown(key, titles[key], key in shown, key == self.board.focus)
                for key in self._keys
            )
        )

    def show_beside(self, card: QWidget) -> None:
        """Put a card beside the panes, in place of one that stands there."""
        self.board.set_beside(card)
        self.pane_shown.emit()

    def leave_beside(self) -> None:
        """Take the card away; the keyboard goes back to the pane in hand."""
        self.board.set_beside(None)
        self.show_pane(self.board.focus)

    @property
    def bench(self) -> "BenchView":
        """The view across the bench, built when it is first wanted."""
        if self._bench is None:
            from shopassist.widgets.bench_view import BenchView

            self._bench = BenchView(self.look, "bench", self.board)
            self._bench.left.connect(self.leave_bench)
            self._bench.hide()
        return self._bench

    @property
    def benched(self) -> bool:
        """Whether the view across the bench is in sight."""
        return self._bench is not None and self._bench.isVisible()

    def toggle_bench(self) -> None:
        """Fill the window with what is read from across the bench, or go back."""
        if self.benched:
            self.leave_bench()
            return
        self.leave_over()
        self._before_bench = self.focusWidget()
        self.board.set_over(self.bench)
        self.menuBar().hide()
        self.next_line.wear(self.bench.look)
        self.bench.setFocus(Qt.FocusReason.OtherFocusReason)
        self.bench_opened.emit()

    def leave_bench(self) -> None:
        """Go back to the panes, to where the keyboard was."""
        if not self.benched:
            return
        self.board.set_over(None)
        self.next_line.wear(self.look)
        self.menuBar().show()
        self._give_back()

    def take_over(self, view: QWidget) -> None:
        """Fill the window under the pot line with an alarm that nobody answered."""
        self.leave_bench()
        self._before_bench = self.focusWidget()
        self.over = view
        self.board.set_over(view)
        view.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave_over(self) -> None:
        """Go back to the panes; the band stays."""
        if self.over is None:
            return
        self.over = None
        self.board.set_over(None)
        self._give_back()

    def _give_back(self) -> None:
        """The keyboard goes to where it was, or into the pane in hand."""
        before, self._before_bench = self._before_bench, None
        give_back(before, self.board.parts.panes[self.board.focus])

    # -- the window --------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """Take the pitch of the screen the window is on."""
        super().showEvent(event)
        self.look.fit_screen(self.screen())
        handle = self.windowHandle()
        if handle is not None:
            handle.screenChanged.connect(self.look.fit_screen)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Nothing of its own, the board covers it; say once that heavy imports may begin."""
        event.accept()
        if not self._painted:
            self._painted = True
            self.first_painted.emit()

    def childEvent(self, event: QChildEvent) -> None:
        """Whatever comes into the window stands below the focus ring."""
        super().childEvent(event)
        ring = getattr(self, "ring", None)
        if ring is not None and event.added():
            ring.raise_()

    def resizeEvent(self, event: object) -> None:
        """Keep the rail's marks true to what is in sight."""
        super().resizeEvent(event)  # type: ignore[arg-type]
        self._draw_rail()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask nothing twice: the app says what stops when the window closes."""
        if self._choices.quit_asked():
            event.accept()
        else:
            event.ignore()

    def geometry_text(self) -> str:
        """The window's place, to be kept."""
        return bytes(self.saveGeometry().toBase64().data()).decode()

    def place(self, kept: str) -> None:
        """Take a kept place; Qt brings the window back onto a screen that is there."""
        if kept:
            self.restoreGeometry(QByteArray.fromBase64(kept.encode()))


def _card(key: str) -> CardShown:
    return CardShown(icon=key, title=dict(RAIL)[key])  # type: ignore[arg-type,index]
