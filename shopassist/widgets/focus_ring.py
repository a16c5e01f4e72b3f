"""The focus ring: one overlay for a window, the same everywhere, never clipped by a layout."""

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPixmap, QRegion
from PySide6.QtWidgets import QAbstractItemView, QApplication, QMenu, QMenuBar, QWidget
from shiboken6 import isValid

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame

THICK, CLEAR = 3, 2
MARGIN = THICK + CLEAR
CORNER = QPoint(0, 0)
MOVES = frozenset({
    QEvent.Type.Move, QEvent.Type.Resize, QEvent.Type.Show, QEvent.Type.Hide,
    QEvent.Type.ShowToParent, QEvent.Type.HideToParent,
})  # fmt: skip


class FocusRing(QWidget):
    """Three pixels of blue, two clear of the control; a field of its own colour may ask another."""

    def __init__(self, window: QWidget, look: Look) -> None:
        super().__init__(window)
        self.look = look
        self.setObjectName("focus_ring")
        self.setAccessibleName("")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_NoSystemBackground)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._target: QWidget | None = None
        self._lies: tuple[QPoint, QSize, str] | None = None
        """Where the control was, how large, and the ring's colour, when it was laid round it."""
        self._drawn: tuple[tuple[int, int, float, str], QPixmap] | None = None
        self._chain: tuple[QWidget, ...] = ()
        """The control and what it stands in, up to the window."""
        self.hide()
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._moved)
        look.changed.connect(self.follow)

    @property
    def target(self) -> QWidget | None:
        """The control the ring lies round."""
        return self._target

    def _moved(self, _: QWidget | None, now: QWidget | None) -> None:
        ours = now is not None and now.window() is self.window() and ringed(now)
        self._target = now if ours else None
        self._watch()
        self.follow()

    def _watch(self) -> None:
        """Hear what moves the control: it, and everything that it stands in."""
        for each in self._chain:
            if isValid(each):
                each.removeEventFilter(self)
        chain: list[QWidget] = []
        held, window = self._target, self.parentWidget()
        while held is not None and held is not window:
            chain.append(held)
            held.installEventFilter(self)
            held = held.parentWidget()
        self._chain = tuple(chain)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Lie round the control where it has gone, and in the colour that it asks for now."""
        kind = event.type()
        if kind in MOVES:
            self.follow()
        elif kind == QEvent.Type.ParentChange:
            self._watch()
            self.follow()
        elif kind == QEvent.Type.Paint and watched is self._target and self._asks():
            self.follow()
        return False

    def _asks(self) -> bool:
        return getattr(self._target, "ring_colour", None) is not None

    def follow(self) -> None:
        """Lie round the control where it is now."""
        target, window = self._target, self.parentWidget()
        if target is not None and not isValid(target):
            target = self._target = None
        if target is None or window is None or not target.isVisibleTo(window):
            self._lies = None
            self.hide()
            return
        lies = target.mapTo(window, CORNER), target.size(), self._colour()
        if self._lies == lies and not self.isHidden():
            return  # the window is painted anew, and the control stays where it was
        self._lies = lies
        self.raise_()
        inset = self._asks() and _fills(target, window)
        out = -CLEAR if inset else MARGIN
        self.setGeometry(QRect(lies[0], lies[1]).adjusted(-out, -out, out, out))
        inner = QRegion(self.rect().adjusted(THICK + 1, THICK + 1, -THICK - 1, -THICK - 1))
        self.setMask(QRegion(self.rect()).subtracted(inner))
        self.show()
        self.update()

    def _colour(self) -> str:
        ask = getattr(self._target, "ring_colour", None)
        return str(ask()) if callable(ask) else self.look.tokens.blue

    def paintEvent(self, event: QPaintEvent) -> None:
        """Draw the ring from its picture; what lies under it changes more often than it does."""
        ratio, part = self.devicePixelRatioF(), QRectF(event.rect())
        source = QRectF(part.topLeft() * ratio, part.size() * ratio)
        painter = QPainter(self)
        painter.drawPixmap(part, self._picture(ratio), source)
        painter.end()

    def _picture(self, ratio: float) -> QPixmap:
        key = (self.width(), self.height(), ratio, self._colour())
        if self._drawn is None or self._drawn[0] != key:
            picture = QPixmap(round(key[0] * ratio), round(key[1] * ratio))
            picture.setDevicePixelRatio(ratio)
            picture.fill(Qt.GlobalColor.transparent)
            painter = QPainter(picture)
            pen = QPen(self.look.colour(key[3]), THICK)
            strokes.box(painter, QRectF(self.rect()), pen, None, 6)
            painter.end()
            self._drawn = key, picture
        return self._drawn[1]


def ringed(widget: QWidget) -> bool:
    """Whether a widget shows its focus by the ring.

    Lists and menus show it by their row, a pane by the line on its top edge.
    """
    return not isinstance(widget, QMenu | QMenuBar | QAbstractItemView | PaneFrame)


def _fills(target: QWidget, window: QWidget) -> bool:
    """Whether a control runs from edge to edge, so that the ring must lie inside it."""
    return target.width() >= window.width() - 2 * MARGIN
