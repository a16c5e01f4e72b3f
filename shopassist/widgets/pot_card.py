"""Parts of a pot card: the quiet column of what was reported, and Stop alone at its foot."""

from PySide6.QtCore import QEvent, QObject, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QHBoxLayout,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.widgets import icons, strokes
from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn, describe, name_it
from shopassist.widgets.prose import Heading, wrapped
from shopassist.widgets.shown import Reported

STOP_MM, APART_MM = 25.0, 13.0
COLUMN_BODIES = 16.0


class StopButton(QAbstractButton):
    """Always offered; one press, no question. Not red: red is pressure."""

    def __init__(
        self, look: Look, name: str, words: str, second: str, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.look, self.second = look, second
        self.setText(words)
        name_it(self, name, words)
        describe(self, second)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.updateGeometry)

    def sizeHint(self) -> QSize:
        """Twenty-five millimetres high."""
        height = max(self.look.mm(STOP_MM), round(5.6 * self.look.metrics.body_px))
        return QSize(round(COLUMN_BODIES * self.look.metrics.body_px), height)

    def minimumSizeHint(self) -> QSize:
        """Never smaller than forty by twenty-five."""
        return QSize(self.look.mm(40), self.sizeHint().height())

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the heavy edge, the octagon and the words."""
        painter = QPainter(self)
        look, tokens = self.look, self.look.tokens
        ink = look.colour(tokens.ink)
        inside = look.colour(tokens.select if self.isDown() else tokens.raised)
        strokes.box(painter, QRectF(self.rect()), QPen(ink, 3), inside, 5)
        em = look.metrics.body_px
        side = 1.9 * em
        x = 1.4 * em
        icons.draw(painter, "stop", QRectF(x, (self.height() - side) / 2, side, side), ink)
        x += side + 0.9 * em
        wide, high = self.width() - x - em / 2, 1.2 * em
        lines = wrapped(look, "body", self.second, wide)
        title = look.font_px(1.6 * em, bold=True)
        caps = 1.6 * em * look.caps
        if caps + len(lines) * high + 0.45 * em > self.height() - 6:
            lines = []  # its first word alone says it
        total = caps + (len(lines) * high if lines else 0) + (0.45 * em if lines else 0)
        y = (self.height() - total) / 2 + caps
        strokes.write(painter, (x, y), self.text(), title, ink)
        y += 0.55 * em
        for line in lines:
            y += high
            strokes.write(painter, (x, y - 0.1 * em), line, look.font("body"), ink)
        painter.end()


class ReportedRows(Drawn[tuple[Reported, ...]]):
    """Labels in graphite, answers in blue: what was reported so far."""

    def spoken(self) -> str:
        """All rows."""
        return "; ".join(f"{row.label}: {row.answer}" for row in self.shown)

    def _step(self) -> float:
        return 2.05 * self.look.metrics.body_px

    def _line(self) -> float:
        return 1.34 * self.look.metrics.body_px

    def _column(self) -> float:
        """The answers start at one place."""
        body = self.look.font("body")
        widest = max((body.advance(row.label) for row in self.shown), default=0.0)
        return min(widest + 3 * self.look.u, 0.55 * self._wide())

    def _wide(self) -> float:
        return self.width() if self.isVisible() else COLUMN_BODIES * self.look.metrics.body_px

    def _lines(self, row: Reported) -> list[str]:
        """An answer that is too long for its line goes on in the next."""
        return wrapped(self.look, "body", row.answer, self._wide() - self._column()) or [""]

    def _high(self, lines: list[str]) -> float:
        return self._step() + (len(lines) - 1) * self._line()

    def sizeHint(self) -> QSize:
        """Two columns; a row has a line more for each that its answer takes."""
        high = sum(self._high(self._lines(row)) for row in self.shown)
        return QSize(round(COLUMN_BODIES * self.look.metrics.body_px), round(high) + 2)

    def minimumSizeHint(self) -> QSize:
        """All rows."""
        return QSize(0, self.sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Answers break elsewhere."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self.updateGeometry()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write the rows that are in sight from their first line to their last."""
        del dirty
        seen, top = self.visibleRegion().boundingRect(), 0.0
        for row in self.shown:
            lines = self._lines(row)
            high = self._high(lines)
            whole = seen.top() - 1 <= top and top + high <= seen.bottom() + 3
            if whole or high > seen.height():
                self._row(painter, row.label, lines, top)
            top += high

    def _row(self, painter: QPainter, name: str, lines: list[str], top: float) -> None:
        body, column = self.look.font("body"), self._column()
        baseline = top + (self._step() + body.caps) / 2
        label = strokes.cut(body, name, column - self.look.u)
        strokes.write(painter, (0, baseline), label, body, self.colour("graphite"))
        for number, line in enumerate(lines):
            at = (column, baseline + number * self._line())
            strokes.write(painter, at, line, body, self.colour("blue"))


class QuietColumn(QWidget):
    """The left side of a pot card. Stop stands alone at the foot, 13 mm from anything."""

    def __init__(self, look: Look, name: str, heading: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, heading)
        self.rows = ReportedRows(look, f"{name}.rows", heading, ())
        self._scroll = QScrollArea(self)
        self._scroll.setWidget(self.rows)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.verticalScrollBar().rangeChanged.connect(self._show_latest)
        self._scroll.verticalScrollBar().valueChanged.connect(lambda _: self.rows.update())
        self._scroll.viewport().setAutoFillBackground(False)
        self.rows.setAutoFillBackground(False)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self.heading = Heading(look, f"{name}.heading", heading)
        self._column.addWidget(self.heading)
        self._column.addWidget(self._scroll, 1)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Expanding)

    def draw(self, rows: tuple[Reported, ...]) -> None:
        """Show what was reported; the latest row stays in sight. A heading alone says nothing."""
        self.rows.draw(rows)
        self.heading.setVisible(bool(rows))

    def _show_latest(self, _: int, bottom: int) -> None:
        self._scroll.verticalScrollBar().setValue(bottom)

    def set_picture(self, picture: QWidget) -> None:
        """Put a drawing under the rows."""
        self._column.addWidget(picture)

    def set_stop(self, stop: StopButton) -> None:
        """Put Stop at the foot."""
        self._column.addSpacing(self.look.mm(APART_MM))
        self._column.addWidget(stop)

    def sizeHint(self) -> QSize:
        """A quarter of a narrow pane."""
        return QSize(round(COLUMN_BODIES * self.look.metrics.body_px) + 2, 100)


class _Yielding(QWidget):
    """Room that gives way: its layout may ask, but demands no height."""

    def hasHeightForWidth(self) -> bool:
        """Never, or the words inside would demand it."""
        return False

    def sizeHint(self) -> QSize:
        """What the layout would like."""
        return QSize(0, self.layout().totalSizeHint().height())  # type: ignore[union-attr]

    def minimumSizeHint(self) -> QSize:
        """Nothing."""
        return QSize(0, 0)


class PotCardFrame(QWidget):
    """The two columns of a card: quiet at the left, the question at the right.

    ``top`` takes the question and its field, ``foot`` the answers: these never shrink and never
    scroll. ``right``, between them, takes the rest and gives way where the window is short; what
    was given to ``fold`` goes whole, the last one first.
    """

    def __init__(self, look: Look, name: str, column: QuietColumn) -> None:
        super().__init__()
        self.look = look
        name_it(self, name, "Card")
        self._folding: list[tuple[QWidget, bool]] = []
        self.top, self.foot = QVBoxLayout(), QVBoxLayout()
        self._between = _Yielding()
        self.right = QVBoxLayout(self._between)
        self.right.setContentsMargins(0, 0, 0, 0)
        self.right.setSizeConstraint(QVBoxLayout.SizeConstraint.SetNoConstraint)
        side = QVBoxLayout()
        side.setSpacing(round(2 * look.u))
        side.addLayout(self.top)
        side.addWidget(self._between, 1)
        side.addLayout(self.foot)
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(0, 0, 0, 0)
        self.row.setSpacing(round(5 * look.u))
        self.row.addWidget(column)
        self.between = Hair(look, down=True)
        self.row.addWidget(self.between)
        self.row.addLayout(side, 1)
        self._between.installEventFilter(self)

    def fold(self, widget: QWidget) -> None:
        """Let a widget between question and answers go when there is no room."""
        self._folding.append((widget, True))
        self._settle()

    def wants(self, widget: QWidget, shown: bool) -> None:  # noqa: FBT001 - reads as setVisible
        """Show or hide a folding widget for reasons of its own."""
        self._folding = [(w, shown if w is widget else s) for w, s in self._folding]
        self._settle()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Fold or unfold when the room between changes."""
        if watched is self._between and event.type() == QEvent.Type.Resize:
            self._settle()
        return False

    def _settle(self) -> None:
        staying = [widget for widget, wanted in self._folding if wanted]
        for widget, wanted in self._folding:
            widget.setVisible(wanted)
        while staying and self._needed() > self._between.height():
            staying.pop().hide()

    def _needed(self) -> int:
        self.right.invalidate()
        if self.right.hasHeightForWidth():
            return self.right.minimumHeightForWidth(self._between.width())
        return self.right.minimumSize().height()
