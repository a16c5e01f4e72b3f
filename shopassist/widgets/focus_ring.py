"""The focus ring: one overlay for a window, the same everywhere, never clipped by a layout."""

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import QAbstractItemView, QApplication, QMenu, QMenuBar, QWidget
from shiboken6 import isValid

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame

THICK, CLEAR = 3, 2
MARGIN = THICK + CLEAR
_WATCHED = frozenset(
    {
        QEvent.Type.Move,
        QEvent.Type.Resize,
        QEvent.Type.Show,
        QEvent.Type.Hide,
        QEvent.Type.ParentChange,
        QEvent.Type.LayoutRequest,
    }
)


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
        self._chain: list[QWidget] = []
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
        self._watch(now if ours else None)
        self.follow()

    def _watch(self, target: QWidget | None) -> None:
        for widget in self._chain:
            if isValid(widget):
                widget.removeEventFilter(self)
        self._chain, self._target = [], target
        walker = target
        while walker is not None and walker is not self.parentWidget():
            walker.installEventFilter(self)
            walker.destroyed.connect(self._forget)
            self._chain.append(walker)
            walker = walker.parentWidget()

    def _forget(self, _: QObject | None = None) -> None:
        self._chain, self._target = [], None
        self.hide()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Follow the control when it moves."""
        del watched
        if event.type() in _WATCHED:
            self.follow()
        return False

    def follow(self) -> None:
        """Lie round the control where it is now."""
        target, window = self._target, self.parentWidget()
        if target is None or window is None or not target.isVisibleTo(window):
            self.hide()
            return
        inset = getattr(target, "ring_colour", None) is not None and _fills(target, window)
        rect = QRect(target.mapTo(window, QPoint(0, 0)), target.size())
        rect = (
            rect.adjusted(CLEAR, CLEAR, -CLEAR, -CLEAR)
            if inset
            else rect.adjusted(-MARGIN, -MARGIN, MARGIN, MARGIN)
        )
        self.setGeometry(rect)
        inner = QRegion(self.rect().adjusted(THICK + 1, THICK + 1, -THICK - 1, -THICK - 1))
        self.setMask(QRegion(self.rect()).subtracted(inner))
        self.show()
        self.raise_()
        self.update()

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the ring."""
        ask = getattr(self._target, "ring_colour", None)
        colour = ask() if callable(ask) else self.look.tokens.blue
        painter = QPainter(self)
        strokes.box(painter, QRectF(self.rect()), QPen(self.look.colour(colour), THICK), None, 6)
        painter.end()


def ringed(widget: QWidget) -> bool:
    """Whether a widget shows its focus by the ring.

    Lists and menus show it by their row, a pane by the line on its top edge.
    """
    return not isinstance(widget, QMenu | QMenuBar | QAbstractItemView | PaneFrame)


def _fills(target: QWidget, window: QWidget) -> bool:
    """Whether a control runs from edge to edge, so that the ring must lie inside it."""
    return target.width() >= window.width() - 2 * MARGIN
