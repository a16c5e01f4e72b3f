"""Hold to confirm: a ring runs round the edge for 1.5 s; letting go cancels."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QHideEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QWidget

from shopassist.widgets.answer_button import AnswerButton
from shopassist.widgets.look import Look
from shopassist.widgets.shown import AnswerShown

HOLD_S = 1.5
CONFIRM_AFTER_S = 1.0
FRAME_S = 1 / 30
HEIGHT_MM = 25.0
RING_PX = 4.0


class Ticks(Protocol):
    """The part of the ticker that is needed here."""

    def every(self, seconds: float, callback: Callable[[], None]) -> Callable[[], None]:
        """Call back at a rate until the returned function is called."""
        ...


class HoldButton(AnswerButton):
    """Held with the mouse or with Space for 1.5 s; never the default, never Enter.

    For people who cannot hold: two presses, the second at least one second after the first.
    """

    held = Signal()

    def __init__(
        self,
        look: Look,
        name: str,
        shown: AnswerShown,
        ticker: Ticks,
        now: Callable[[], float],
        parent: QWidget | None = None,
    ) -> None:
        self._ticker, self._now = ticker, now
        self._since: float | None = None
        self._armed: float | None = None
        self._two_presses = False
        self._stop: Callable[[], None] | None = None
        super().__init__(look, name, shown, parent)

    def set_two_presses(self, on: bool) -> None:  # noqa: FBT001 - a preference
        """Take two presses instead of a hold."""
        self._two_presses = on
        self._release()

    @property
    def share(self) -> float:
        """How much of the hold has run, 0 … 1."""
        if self._since is None:
            return 1.0 if self._armed is not None else 0.0
        return min(max((self._now() - self._since) / HOLD_S, 0.0), 1.0)

    def sizeHint(self) -> QSize:
        """Twenty-five millimetres high."""
        return QSize(super().sizeHint().width(), self.look.mm(HEIGHT_MM))

    def minimumSizeHint(self) -> QSize:
        """Never lower."""
        return QSize(super().minimumSizeHint().width(), self.look.mm(HEIGHT_MM))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Start the ring."""
        if event.button() == Qt.MouseButton.LeftButton and self.isEnabled():
            self._press()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Sliding off cancels."""
        if not self.rect().contains(event.position().toPoint()):
            self._release()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Letting go cancels, or counts as a press where two are asked."""
        inside = self.rect().contains(event.position().toPoint())
        self._let_go(counts=inside)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Space starts the ring; Enter does nothing here."""
        if event.key() == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._press()
            return
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return
        super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Letting go of Space cancels."""
        if event.key() == Qt.Key.Key_Space:
            if not event.isAutoRepeat():
                self._let_go(counts=True)
            return
        super().keyReleaseEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """Losing the focus cancels."""
        self._armed = None
        self._release()
        super().focusOutEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:
        """A hidden button holds nothing."""
        self._armed = None
        self._release()
        super().hideEvent(event)

    def _press(self) -> None:
        self.setDown(True)
        if self._two_presses or self._since is not None:
            return
        self._since = self._now()
        self._stop = self._ticker.every(FRAME_S, self._frame)
        self.update()

    def _frame(self) -> None:
        if self._since is not None and self._now() - self._since >= HOLD_S:
            self._release()
            self.held.emit()
            return
        self.update()

    def _let_go(self, *, counts: bool) -> None:
        was_down = self.isDown()
        self._release()
        if not (self._two_presses and counts and was_down and self.isEnabled()):
            return
        if self._armed is None:
            self._armed = self._now()
            self.update()
        elif self._now() - self._armed >= CONFIRM_AFTER_S:
            self._armed = None
            self.update()
            self.held.emit()

    def _release(self) -> None:
        self._since = None
        self.setDown(False)
        if self._stop is not None:
            self._stop()
            self._stop = None
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the button and as much of the ring as has run."""
        super().paintEvent(event)
        share = self.share
        if share <= 0:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        pen = QPen(self.look.colour(self.look.tokens.blue), RING_PX)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        path = clockwise(QRectF(self.rect()).adjusted(2, 2, -2, -2))
        if share < 1:
            length = path.length() / RING_PX
            pen.setDashPattern([length * share, length * 2])
        painter.setPen(pen)
        painter.drawPath(path)
        painter.end()


def clockwise(rect: QRectF) -> QPainterPath:
    """Build the way round a rectangle, from the middle of its top."""
    path = QPainterPath(rect.topLeft() + (rect.topRight() - rect.topLeft()) / 2)
    for corner in (rect.topRight(), rect.bottomRight(), rect.bottomLeft(), rect.topLeft()):
        path.lineTo(corner)
    path.closeSubpath()
    return path
