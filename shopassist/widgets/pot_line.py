"""The pot line: state, last report and its age, one button. Always in sight."""

from PySide6.QtCore import QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from shopassist.widgets import pot_glyph, strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn, describe, name_it
from shopassist.widgets.shown import PotLineShown
from shopassist.widgets.tokens import PotFace

HEIGHT_MM = 21.0
BUTTON_MM = 13.5
GLYPH = 0.58
"""Share of the height that the glyph takes."""
LIFE_MM = 1.6


class PotLineButton(QAbstractButton):
    """The one button of the pot line, drawn in the colours of the state."""

    def __init__(self, line: "PotLine", name: str) -> None:
        super().__init__(line)
        self._line = line
        name_it(self, name, "")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)

    def ring_colour(self) -> str:
        """Colour of the focus ring on this field."""
        return self._line.texts()[1]

    def sizeHint(self) -> QSize:
        """Words of the report's size, high enough for a glove."""
        look = self._line.look
        width = look.font("line_button").advance(self.text())
        return QSize(round(width) + 2 * look.mm(3.5), look.mm(BUTTON_MM))

    def paintEvent(self, _: object) -> None:
        """Draw the outline and the words."""
        look = self._line.look
        field, text = (look.colour(value) for value in self._line.texts())
        if self.isDown():
            field, text = text, field
        painter = QPainter(self)
        strokes.box(painter, QRectF(self.rect()), QPen(text, 3), field, 6)
        face = look.font("line_button")
        baseline = (self.height() + face.caps) / 2
        middle = (self.width() / 2, baseline)
        font = look.font("line_button")
        strokes.write(painter, middle, self.text(), font, text, strokes.CENTRE)
        painter.end()


class PotLine(Drawn[PotLineShown]):
    """State word in capitals of 11.6 mm; grows with millimetres, not with the scale factor."""

    action = Signal()
    chosen = Signal()

    def __init__(
        self, look: Look, name: str, shown: PotLineShown, parent: QWidget | None = None
    ) -> None:
        self._pulse_on = True
        super().__init__(look, name, "Pot line", shown, parent)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.button = PotLineButton(self, f"{name}.action")
        self.button.clicked.connect(self.action)
        self._place()

    def draw(self, shown: PotLineShown) -> None:
        """Show another state; each second it is mostly the same."""
        if shown != self.shown:
            super().draw(shown)
            self._place()

    def pulse(self, *, on: bool) -> None:
        """Set the phase of the edge that alone may pulse, in the suspect state."""
        if on != self._pulse_on and self.shown.face in pot_glyph.EDGED:
            self.update()
        self._pulse_on = on

    def texts(self) -> tuple[str, str]:
        """Field and text colour of the present state."""
        pair = self.look.tokens.pot(self.shown.face)
        return pair.field, pair.text

    def ring_colour(self) -> str:
        """Colour of the focus ring on this field."""
        return self.texts()[1]

    def spoken(self) -> str:
        """All words of the line."""
        shown = self.shown
        words = (shown.word, shown.remaining, shown.report, shown.detail)
        return ", ".join(word for word in words if word)

    def sizeHint(self) -> QSize:
        """Edge to edge, 21 mm."""
        return QSize(600, self.look.mm(HEIGHT_MM))

    def minimumSizeHint(self) -> QSize:
        """Never lower than its height."""
        return QSize(0, self.look.mm(HEIGHT_MM))

    def relook(self) -> None:
        """Take the changed look."""
        super().relook()
        self._place()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the button at the right."""
        self._place()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Open the pot's pane on release."""
        if self.rect().contains(event.position().toPoint()):
            self.chosen.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Open the pot's pane by Enter or Space."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            self.chosen.emit()
        else:
            super().keyPressEvent(event)

    def _place(self) -> None:
        button = self.button
        button.setText(self.shown.action)
        button.setAccessibleName(self.shown.action)
        button.setVisible(bool(self.shown.action))
        describe(button, self.shown.word)
        size = button.sizeHint()
        top = (self.height() - size.height()) // 2
        button.setGeometry(
            QRect(self.width() - size.width() - self.look.mm(4), top, size.width(), size.height())
        )
        button.update()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw field, edges, glyph and words."""
        del dirty
        face = self.shown.face
        field, text = (self.look.colour(value) for value in self.texts())
        height, width = float(self.height()), float(self.width())
        painter.fillRect(self.rect(), field)
        left = self._left_mark(painter, face, height)
        glyph = GLYPH * height
        pot_glyph.draw(painter, face, QRectF(left, (height - glyph) / 2, glyph, glyph), text, field)
        self._words(painter, left + glyph + self.look.mm(4))
        self._edges(painter, face, width, height)

    def _left_mark(self, painter: QPainter, face: PotFace, height: float) -> float:
        """Draw hatching or stripes at the left edge; returns where the glyph starts."""
        text = self.look.colour(self.texts()[1])
        if face in pot_glyph.HATCHED | pot_glyph.STRIPED:
            pitch = self.look.mm(2.0 if face in pot_glyph.HATCHED else 4.2)
            pot_glyph.slanted(painter, QRectF(0, 0, self.look.mm(3.2), height), text, pitch)
        return float(self.look.mm(6))

    def _words_height(self) -> float:
        """Height that words are centred in: they leave the bar of the permit alone."""
        bar = 1.5 * self.look.mm(LIFE_MM) if self.shown.face in pot_glyph.LIVED else 0
        return self.height() - bar

    def _words(self, painter: QPainter, x: float) -> None:
        look, shown = self.look, self.shown
        text = look.colour(self.texts()[1])
        height = self._words_height()
        state = look.font("state")
        baseline = (height + state.caps) / 2
        x += strokes.write(painter, (x, baseline), shown.word, look.font("state"), text)
        if shown.remaining:
            x += look.mm(3.5)
            x += strokes.write(painter, (x, baseline), shown.remaining, look.font("state"), text)
        if not shown.report and not shown.detail:
            return
        x += look.mm(5)
        strokes.down(painter, x, 0.22 * height, 0.78 * height, text, 2)
        x += look.mm(4)
        right = self.button.x() if shown.action else self.width()
        self._reports(painter, x, right - look.mm(3))

    def _reports(self, painter: QPainter, x: float, right: float) -> None:
        look, shown = self.look, self.shown
        text = look.colour(self.texts()[1])
        report, age = look.font("report"), look.font("age")
        gap = look.mm(2.6)
        top = (self._words_height() - report.caps - gap - age.caps) / 2
        first = top + report.caps
        font, small = look.font("report"), look.font("age")
        told, detail = shown.report, shown.detail
        if shown.brief[0] and font.advance(told) > right - x:
            told, detail = shown.brief
        strokes.write(painter, (x, first), strokes.cut(font, told, right - x), font, text)
        second = first + gap + age.caps
        strokes.write(painter, (x, second), strokes.cut(small, detail, right - x), small, text)

    def _edges(self, painter: QPainter, face: PotFace, width: float, height: float) -> None:
        look = self.look
        edge = look.colour(look.tokens.pot_edge(face))
        if face in pot_glyph.EDGED:
            self._warning_edge(painter, width, height)
            return
        strokes.fill(painter, QRectF(0, 0, width, 2), edge)
        strokes.fill(painter, QRectF(0, height - 2, width, 2), edge)
        if face in pot_glyph.LIVED and self.shown.life is not None:
            share = min(max(self.shown.life, 0.0), 1.0)
            bar = float(look.mm(LIFE_MM))
            text = look.colour(self.texts()[1])
            strokes.fill(painter, QRectF(0, height - 2 - bar, width * share, bar), text)

    def _warning_edge(self, painter: QPainter, width: float, height: float) -> None:
        look, thick = self.look, 6.0
        black = look.colour(look.tokens.on_amber)
        amber = look.colour(look.tokens.amber) if self._pulse_on else black
        for rect in (
            QRectF(0, 0, width, thick),
            QRectF(0, height - thick, width, thick),
            QRectF(0, 0, thick, height),
            QRectF(width - thick, 0, thick, height),
        ):
            strokes.fill(painter, rect, black)
            long_way = rect.width() > rect.height()
            length = rect.width() if long_way else rect.height()
            at = 0.0
            while at < length:
                dash = (
                    QRectF(rect.x() + at, rect.y(), 14, thick)
                    if long_way
                    else QRectF(rect.x(), rect.y() + at, thick, 14)
                )
                strokes.fill(painter, dash, amber)
                at += 28
