"""The alarm band under the pot line. Words first; only its edge flashes."""

from collections.abc import Callable

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from shopassist.widgets import icons, strokes
from shopassist.widgets.hold_button import Ticks
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, describe, name_it
from shopassist.widgets.shown import AlarmShown

HALF_PERIOD_S = {"high": 0.25, "medium": 0.75}
"""Two flashes a second, and one in one and a half: never above three a second."""
EDGE_PX = 4.0
BUTTON_MM = 9.0


class BandButton(QAbstractButton):
    """A button in the colours of the band."""

    def __init__(self, band: "AlarmBand", name: str) -> None:
        super().__init__(band)
        self._band = band
        name_it(self, name, "")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def ring_colour(self) -> str:
        """Colour of the focus ring on this field."""
        return self._band.colours()[1]

    def sizeHint(self) -> QSize:
        """At least nine millimetres high."""
        look = self._band.look
        width = look.font("bold").advance(self.text())
        return QSize(round(width + 5 * look.u), look.mm(BUTTON_MM))

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the outline and the words."""
        look = self._band.look
        field, text = (look.colour(value) for value in self._band.colours())
        if self.isDown():
            field, text = text, field
        painter = QPainter(self)
        strokes.box(painter, QRectF(self.rect()), QPen(text, 2), field)
        baseline = (self.height() + look.font("bold").caps) / 2
        at = (self.width() / 2, baseline)
        strokes.write(painter, at, self.text(), look.font("bold"), text, strokes.CENTRE)
        painter.end()


class AlarmBand(Piece):
    """The highest alarm there is; hidden without one."""

    acknowledged = Signal()
    silenced = Signal()

    def __init__(self, look: Look, name: str, ticker: Ticks, parent: QWidget | None = None) -> None:
        super().__init__(look, name, "Alarm", parent)
        self.shown: AlarmShown | None = None
        self._ticker, self._lit = ticker, True
        self._stop: Callable[[], None] | None = None
        self._rate: float | None = None
        self.acknowledge = BandButton(self, f"{name}.acknowledge")
        self.silence = BandButton(self, f"{name}.silence")
        self.acknowledge.clicked.connect(self.acknowledged)
        self.silence.clicked.connect(self.silenced)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.hide()

    def draw(self, shown: AlarmShown | None) -> None:
        """Show an alarm, or none."""
        if shown != self.shown:
            self.shown = shown
            if shown is not None:
                self.setAccessibleName(f"{shown.priority} alarm")
                describe(self, f"{shown.words}, {shown.detail}".strip(", "))
            self._place()
            self.update()
        self.setVisible(shown is not None)
        self._flash()

    def colours(self) -> tuple[str, str]:
        """Field and text of this priority."""
        tokens = self.look.tokens
        return {
            "high": (tokens.alarm, tokens.on_alarm),
            "medium": (tokens.amber, tokens.on_amber),
            "low": (tokens.select, tokens.ink),
        }[self.shown.priority if self.shown else "low"]

    def sizeHint(self) -> QSize:
        """Words of 3.8 mm in one line, room for its buttons."""
        return QSize(600, self.look.mm(BUTTON_MM + 4.5))

    def minimumSizeHint(self) -> QSize:
        """Never lower."""
        return QSize(0, self.sizeHint().height())

    def relook(self) -> None:
        """Take the changed look."""
        super().relook()
        self._place()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the buttons at the right."""
        self._place()

    def _flash(self) -> None:
        calls = self.shown is not None and not self.shown.steady
        rate = HALF_PERIOD_S.get(self.shown.priority) if self.shown and calls else None
        if rate == self._rate:
            return
        if self._stop is not None:
            self._stop()
            self._stop = None
        self._rate, self._lit = rate, True
        if rate is not None:
            self._stop = self._ticker.every(rate, self._turn)

    def _turn(self) -> None:
        self._lit = not self._lit
        edge, thick = self.rect(), round(EDGE_PX) + 1
        self.update(QRect(0, 0, edge.width(), thick))
        self.update(QRect(0, edge.height() - thick, edge.width(), thick))

    def _place(self) -> None:
        x = self.width() - self.look.mm(4)
        shown = self.shown
        for button, words in (
            (self.acknowledge, shown.acknowledge if shown else ""),
            (self.silence, shown.silence if shown else ""),
        ):
            button.setText(words)
            button.setAccessibleName(words)
            button.setVisible(bool(words))
            size = button.sizeHint()
            if words:
                x -= size.width()
                button.setGeometry(QRect(x, (self.height() - size.height()) // 2, *size.toTuple()))
                x -= self.look.mm(3)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the field, the edge, the shape and the words."""
        if self.shown is None:
            return
        look = self.look
        field, text = (look.colour(value) for value in self.colours())
        painter.fillRect(dirty, field)
        edge = text if self._lit else field
        strokes.fill(painter, QRectF(0, 0, self.width(), EDGE_PX), edge)
        strokes.fill(painter, QRectF(0, self.height() - EDGE_PX, self.width(), EDGE_PX), edge)
        side = float(look.mm(7.5))
        shape = QRectF(look.mm(6), (self.height() - side) / 2, side, side)
        icons.draw(painter, "square" if self.shown.priority == "low" else "triangle", shape, text)
        face = look.font("age")
        x, baseline = shape.right() + look.mm(4), (self.height() + face.caps) / 2
        bold = look.font_px(look.font("age").pixelSize(), bold=True)
        buttons = [b.x() for b in (self.acknowledge, self.silence) if b.isVisibleTo(self)]
        right = min(buttons, default=self.width()) - look.mm(3)
        words = strokes.cut(bold, self.shown.words, right - x)
        x += strokes.write(painter, (x, baseline), words, bold, text) + look.mm(4)
        detail = strokes.cut(look.font("age"), self.shown.detail, right - x) if right > x else ""
        strokes.write(painter, (x, baseline), detail, look.font("age"), text)
