"""Where everything stands in the window: by its width, never by taste of the moment."""

from collections.abc import Mapping
from dataclasses import field

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from shopassist.core.frozen import frozen
from shopassist.widgets.look import Look

PRIMARY = ("mix", "cure", "pot")
WIDE_PX, ROW_PX = 1600, 1000
WIDE_GAP, NARROW_GAP = 14, 12
WIDE_SHARES = {"mix": 424, "cure": 816, "pot": 516}
SECOND_SHARE = 0.5
SECOND_BODIES = 56
"""Entries and numbers of a secondary pane side by side, in body sizes; ours."""
CARD_SHARE = 0.235
BROAD_MM = 200.0
"""A pot card with its quiet column, two answers side by side and gaps; ours."""
LOW_MM = 200.0
"""Under this height a pot's answers, an alarm and the next line do not fit together; ours."""
LOW_BODIES = 26
"""In a room lower than this Pot stands alone: its answers are not cut for two cards; ours."""


@frozen
class Places:
    """Rectangles of the panes and cards that are in sight."""

    panes: dict[str, QRect] = field(default_factory=dict)
    cards: dict[str, QRect] = field(default_factory=dict)
    row: bool = False
    """Whether the cards are folded to one line."""


def others(focus: str) -> tuple[str, str]:
    """Return the two panes that stand as cards beside the one in hand."""
    left = [key for key in ("cure", "pot", "mix") if key != focus]
    return left[0], left[1]


def arrange(
    room: QRect, focus: str, row_height: int, broad: str = "", needs: int = 0, body_px: int = 0
) -> Places:
    """Place panes and cards in the room between pot line and next line.

    ``broad`` is a primary pane that needs the room of two for a while, as Pot does on a walk. Where
    half a window is less than it ``needs``, it stands as it does in a narrow one, and so does a
    secondary pane whose words and entries want more.
    """
    if room.width() >= WIDE_PX:
        half = room.width() * SECOND_SHARE
        cramped = bool(broad) and half < needs
        if cramped and focus in (broad, "cure"):
            return _side(room, focus)
        if focus not in PRIMARY and half < SECOND_BODIES * body_px:
            return _side(room, focus)
        if focus in PRIMARY and not broad:
            return Places(_columns(room))
        return _wide_second(room, broad if focus == "cure" else focus, row_height)
    if room.width() < ROW_PX:
        alone = focus == "pot" and room.height() < LOW_BODIES * body_px
        return Places({focus: room}) if alone else _row(room, focus, row_height)
    return _side(room, focus)


def _columns(room: QRect) -> dict[str, QRect]:
    """Three columns in fixed shares."""
    inner = room.width() - 2 * WIDE_GAP
    total = sum(WIDE_SHARES.values())
    found, x = {}, room.x()
    for key, share in WIDE_SHARES.items():
        width = round(inner * share / total)
        if key == PRIMARY[-1]:
            width = room.right() + 1 - x
        found[key] = QRect(x, room.y(), width, room.height())
        x += width + WIDE_GAP
    return found


def _wide_second(room: QRect, focus: str, row_height: int) -> Places:
    """A secondary pane beside Cure, whose digits must still be read from two metres."""
    width = round((room.width() - WIDE_GAP) * SECOND_SHARE)
    x = room.x() + width + WIDE_GAP
    rest = room.right() + 1 - x
    height = room.height() - row_height - WIDE_GAP
    y = room.y() + height + WIDE_GAP
    left = [key for key in ("pot", "mix") if key != focus]
    each = (rest - WIDE_GAP * (len(left) - 1)) // len(left)
    cards = {
        key: QRect(x + index * (each + WIDE_GAP), y, each, row_height)
        for index, key in enumerate(left)
    }
    return Places(
        {
            focus: QRect(room.x(), room.y(), width, room.height()),
            "cure": QRect(x, room.y(), rest, height),
        },
        cards,
        row=True,
    )


def _side(room: QRect, focus: str) -> Places:
    """One pane and two cards at its right."""
    card = round(room.width() * CARD_SHARE)
    width = room.width() - card - NARROW_GAP
    x = room.x() + width + NARROW_GAP
    half = (room.height() - NARROW_GAP) // 2
    first, second = others(focus)
    return Places(
        {focus: QRect(room.x(), room.y(), width, room.height())},
        {
            first: QRect(x, room.y(), card, half),
            second: QRect(x, room.y() + half + NARROW_GAP, card, room.height() - half - NARROW_GAP),
        },
    )


def _row(room: QRect, focus: str, row_height: int) -> Places:
    """One pane, and the two cards in one row under it."""
    height = room.height() - row_height - NARROW_GAP // 2
    y = room.y() + height + NARROW_GAP // 2
    half = (room.width() - NARROW_GAP) // 2
    first, second = others(focus)
    return Places(
        {focus: QRect(room.x(), room.y(), room.width(), height)},
        {
            first: QRect(room.x(), y, half, row_height),
            second: QRect(
                room.x() + half + NARROW_GAP, y, room.width() - half - NARROW_GAP, row_height
            ),
        },
        row=True,
    )


@frozen
class Parts:
    """The built pieces that the layout sets in place."""

    pot_line: QWidget
    alarm_band: QWidget
    rail: QWidget
    next_line: QWidget
    panes: Mapping[str, QWidget]
    cards: Mapping[str, QWidget]
    """Cards of the primary panes; each has ``set_row``."""


class WindowLayout(QWidget):
    """The window under its menu. Panes swap at once; nothing slides."""

    def __init__(self, look: Look, parts: Parts, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("window.board")
        self.look, self.parts = look, parts
        self._focus, self._broad = PRIMARY[0], ""
        self._over: QWidget | None = None
        self._beside: QWidget | None = None
        for piece in self._pieces():
            piece.setParent(self)
        look.changed.connect(self.arrange)

    @property
    def focus(self) -> str:
        """Key of the pane in hand."""
        return self._focus

    def set_focus(self, key: str) -> None:
        """Bring a pane into hand."""
        if key in self.parts.panes and key != self._focus:
            self._focus = key
            self.arrange()

    def set_broad(self, key: str) -> None:
        """Give a primary pane the room of two in a wide window; empty takes it back."""
        if key != self._broad:
            self._broad = key
            self.arrange()

    def shown(self) -> frozenset[str]:
        """Keys of the panes in sight, for the rail."""
        return frozenset(self._places().panes)

    def _places(self) -> Places:
        body = self.look.metrics.body_px
        row, needs = self._row_height(), self._needs()
        return arrange(self._room(), self._focus, row, self._broad, needs, body)

    def set_over(self, view: QWidget | None) -> None:
        """Put a view in the place of rail and panes: across the bench."""
        if self._over is not None and self._over is not view:
            self._over.hide()
        self._over = view
        if view is not None:
            view.setParent(self)
        self.arrange()

    @property
    def beside(self) -> QWidget | None:
        """The card beside the panes."""
        return self._beside

    def set_beside(self, card: QWidget | None) -> None:
        """Put a card beside the panes; it lives as long as it stands there."""
        if self._beside is not None and self._beside is not card:
            self._beside.hide()
            self._beside.setParent(None)
            self._beside.deleteLater()
        self._beside = card
        if card is not None:
            card.setParent(self)
        self.arrange()

    def arrange(self) -> None:
        """Set every piece in its place."""
        parts, width = self.parts, self.width()
        top = self._lines()
        for pane in {*parts.panes.values(), *parts.cards.values(), parts.rail}:
            if self._over is not None:
                pane.hide()
        if self._over is not None:
            self._over.setGeometry(0, top, width, parts.next_line.y() - top)
            self._over.show()
            self._over.raise_()
            return
        gap = self._gap()
        rail = parts.rail.sizeHint().width()
        parts.rail.setGeometry(0, top + gap, rail, parts.next_line.y() - top - 2 * gap)
        parts.rail.show()
        self._place_panes()

    def _place_panes(self) -> None:
        places = self._places()
        if self._beside is not None:
            self._beside.setGeometry(self._beside_rect())
            self._beside.show()
        for key, pane in self.parts.panes.items():
            _put(pane, places.panes.get(key))
            focused = getattr(pane, "set_focused", None)
            if focused is not None:
                focused(key == self._focus)
        for key, card in self.parts.cards.items():
            fold = getattr(card, "set_row", None)
            if fold is not None:
                fold(places.row)
            _put(card, places.cards.get(key))

    def _lines(self) -> int:
        """Pot line, alarm band and next line from edge to edge; returns where the rest starts."""
        parts, width = self.parts, self.width()
        y = 0
        for line in (parts.pot_line, parts.alarm_band):
            if line.isHidden():
                continue
            height = line.sizeHint().height()
            line.setGeometry(0, y, width, height)
            y += height
        foot = self._foot()
        parts.next_line.setVisible(foot > 0)
        parts.next_line.setGeometry(0, self.height() - foot, width, foot)
        return y

    def _foot(self) -> int:
        """Height of the next line; in a low window it yields to an alarm over a pot's list."""
        parts = self.parts
        called = not parts.alarm_band.isHidden() and bool(self._broad)
        low = self.height() < self.look.mm(LOW_MM)
        return 0 if called and low else parts.next_line.sizeHint().height()

    def _gap(self) -> int:
        return WIDE_GAP if self.width() >= WIDE_PX else NARROW_GAP

    def _needs(self) -> int:
        """Room for a pot card, whose answers are made for gloves."""
        return self.look.mm(BROAD_MM)

    def _row_height(self) -> int:
        return max(self.look.mm(11), round(3.4 * self.look.metrics.body_px))

    def _whole_room(self) -> QRect:
        parts, gap = self.parts, self._gap()
        left = parts.rail.sizeHint().width() + gap
        line = parts.alarm_band if not parts.alarm_band.isHidden() else parts.pot_line
        top = line.y() + line.sizeHint().height() + gap
        bottom = self.height() - self._foot() - gap
        return QRect(left, top, self.width() - left - gap, bottom - top)

    def _beside_rect(self) -> QRect:
        room = self._whole_room()
        width = min(round(24 * self.look.metrics.body_px), room.width() // 2)
        return QRect(room.right() + 1 - width, room.y(), width, room.height())

    def _room(self) -> QRect:
        room = self._whole_room()
        if self._beside is not None:
            room.setRight(self._beside_rect().x() - self._gap() - 1)
        return room

    def _pieces(self) -> tuple[QWidget, ...]:
        parts = self.parts
        return (
            parts.pot_line,
            parts.alarm_band,
            parts.rail,
            *parts.panes.values(),
            *parts.cards.values(),
            parts.next_line,
        )

    def sizeHint(self) -> QSize:
        """A common laptop screen."""
        return QSize(1366, 740)

    def minimumSizeHint(self) -> QSize:
        """Enough for one pane and the lines, on a screen of 768 pixels at 150 % too."""
        return QSize(640, 460)

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Arrange again."""
        self.arrange()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Fill the bench behind the panes."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), self.look.colour(self.look.tokens.bench))
        painter.end()


def _put(widget: QWidget, rect: QRect | None) -> None:
    """Show a widget at its place, or hide it."""
    if rect is None:
        widget.hide()
        return
    widget.setGeometry(rect)
    widget.show()
