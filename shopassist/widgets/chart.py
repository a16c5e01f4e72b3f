"""A chart on paper: no frame, few hairlines, labels at the right end. Drawn by pyqtgraph.

The library is fetched when the first chart has come into sight, after that paint is done; a chart
out of sight does no work.
"""

from typing import Any

from PySide6.QtCore import QCoreApplication, QEvent, QRect, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.chart_shown import ChartShown, Level
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn

WANTED = QEvent.Type(QEvent.registerEventType())
"""Posted by the first paint: now there is time to fetch the library."""
CAPTION_EM = 1.5
DASHES = [5.0, 4.0]


class Chart(Drawn[ChartShown]):
    """Draws one ``ChartShown``; ``plot`` stays None until the library is there."""

    def __init__(
        self, look: Look, name: str, shown: ChartShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(look, name, shown.caption, shown, parent)
        self.plot: Any = None
        self.box: Any = None
        self._pg: Any = None
        self._drawn: object = None
        self._asked = False
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def spoken(self) -> str:
        """Return what the owner wrote for it."""
        return self.shown.spoken

    def sizeHint(self) -> QSize:
        """Room for a caption, an axis and a curve."""
        em = self.look.metrics.body_px
        return QSize(24 * em, 9 * em)

    def minimumSizeHint(self) -> QSize:
        """Any size that still shows a curve."""
        em = self.look.metrics.body_px
        return QSize(12 * em, 6 * em)

    # -- when to work ----------------------------------------------------------------------------

    def draw(self, shown: ChartShown) -> None:
        """Show other values, at once when in sight."""
        super().draw(shown)
        self._fill()

    def relook(self) -> None:
        """Take the changed look."""
        super().relook()
        self._place()
        self._fill()

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with what happened out of sight."""
        super().showEvent(event)
        self._fill()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the plot under its caption."""
        self._place()

    def event(self, event: QEvent) -> bool:
        """Fetch the library once the first paint is done."""
        if event.type() == WANTED:
            self._build()
            return True
        return super().event(event)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write the caption; the first time, ask for the plot."""
        del dirty
        look = self.look
        baseline = (self._top() + look.font("body").caps) / 2
        words = strokes.cut(look.font("body"), self.shown.caption, self.width())
        strokes.write(painter, (0, baseline), words, look.font("body"), self.colour("graphite"))
        if not self._asked:
            self._asked = True
            QCoreApplication.postEvent(self, QEvent(WANTED))

    def _top(self) -> int:
        return round(CAPTION_EM * self.look.metrics.body_px)

    # -- the plot ----------------------------------------------------------------------------------

    def _build(self) -> None:
        import pyqtgraph

        self._pg = pyqtgraph
        pyqtgraph.setConfigOptions(antialias=True)
        # The library's ready-made plot brings menus and controls along; we need paper and axes.
        self.plot = pyqtgraph.GraphicsView(self)
        self.plot.setObjectName(f"{self.objectName()}.plot")
        self.plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.plot.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        layout = pyqtgraph.GraphicsLayout()
        layout.setContentsMargins(0, 0, 2, 0)
        layout.setSpacing(0)
        self.plot.setCentralItem(layout)
        self.box = pyqtgraph.ViewBox(enableMenu=False, enableMouse=False)
        self.box.disableAutoRange()
        layout.addItem(self.box, 0, 1)
        self._sides = {"left": pyqtgraph.AxisItem("left"), "bottom": pyqtgraph.AxisItem("bottom")}
        for side, place in (("left", (0, 0)), ("bottom", (1, 1))):
            layout.addItem(self._sides[side], *place)
            self._sides[side].linkToView(self.box)
        self._place()
        self.plot.show()
        self._fill()

    def _place(self) -> None:
        if self.plot is not None:
            self.plot.setGeometry(0, self._top(), self.width(), self.height() - self._top())

    def _fill(self) -> None:
        """Draw what changed, in sight only."""
        if self.plot is None or not self.isVisible():
            return
        state = (self.shown, self.look.tokens, self.look.metrics)
        if state == self._drawn:
            return
        self._drawn = state
        self.plot.setBackground(self.colour("sheet"))
        self.box.clear()
        self._axes()
        self._gaps()
        self._target()
        self._band()
        self._levels()
        self._ghosts()
        self._line()
        self._typed()
        self._now()
        # The ticks stand on the edge, so the range must not be widened.
        self.box.setRange(
            xRange=(self.shown.start, self.shown.end), yRange=(self.shown.low, self.shown.high),
            padding=0,
        )  # fmt: skip

    def _pen(
        self, token: str, width: float, style: Qt.PenStyle = Qt.PenStyle.SolidLine
    ) -> QPen:  # fmt: skip
        pen = QPen(self.colour(token))
        pen.setWidthF(width)
        pen.setStyle(style)
        pen.setCosmetic(True)
        if style is Qt.PenStyle.CustomDashLine:
            pen.setDashPattern(DASHES)
        return pen

    def _axes(self) -> None:
        for side, ticks in (("bottom", self.shown.across), ("left", self.shown.up)):
            axis = self._sides[side]
            axis.setPen(self._pen("ink", 1.5))
            axis.setTextPen(self.colour("graphite"))
            font = self.look.font("axis")
            axis.setStyle(
                tickFont=font, tickLength=-6 if side == "bottom" else 0, autoExpandTextSpace=True,
                autoReduceTextSpace=False,
            )  # fmt: skip
            axis.setTicks([[(tick.at, tick.label) for tick in ticks if tick.label],
                           [(tick.at, "") for tick in ticks if not tick.label]])  # fmt: skip
        for tick in self.shown.up:
            self._across(tick.at, self._pen("hair", 1))

    def _across(self, at: float, pen: QPen) -> None:
        self.box.addItem(self._pg.InfiniteLine(at, angle=0, pen=pen), ignoreBounds=True)

    def _curve(self, points: list[tuple[float, float]], pen: QPen) -> Any:
        x, y = [point[0] for point in points], [point[1] for point in points]
        curve = self._pg.PlotCurveItem(x, y, pen=pen)
        self.box.addItem(curve, ignoreBounds=True)
        return curve

    def _band(self) -> None:
        if not self.shown.band:
            return
        edge = self._pen("band_edge", 1)
        low = self._curve([(x, bottom) for x, bottom, _ in self.shown.band], edge)
        high = self._curve([(x, top) for x, _, top in self.shown.band], edge)
        fill = self._pg.FillBetweenItem(low, high, brush=self.colour("band"))
        fill.setZValue(-10)
        self.box.addItem(fill, ignoreBounds=True)

    def _target(self) -> None:
        aim = self.shown.target
        if aim is None:
            return
        region = self._pg.LinearRegionItem(
            (aim.low, aim.high), orientation="horizontal", movable=False,
            brush=QColor(self.colour("select")), pen=self._pen("blue", 1),
        )  # fmt: skip
        region.setZValue(-30)
        self.box.addItem(region, ignoreBounds=True)
        self._words(self.shown.end, aim.low, aim.label, "blue", (1, 1))

    def _gaps(self) -> None:
        gaps = [(*gap, self.shown.gap_word) for gap in self.shown.gaps]
        gaps += [(*gap, self.shown.unread_word) for gap in self.shown.unread]
        for start, end, word in gaps:
            brush = QColor(self.colour("hair"))
            region = self._pg.LinearRegionItem(
                (start, end), movable=False, brush=brush, pen=self._pen("graphite", 1)
            )
            region.setZValue(-20)
            self.box.addItem(region, ignoreBounds=True)
            self._words((start + end) / 2, self.shown.high, word, "ink", (0.5, 0))

    def _ghosts(self) -> None:
        """Thin and grey, each with its word beside it, on the side away from the line."""
        for number, (word, points) in enumerate(self.shown.ghosts):
            inside = [point for point in points if point[1] <= self.shown.high]
            if len(inside) > 1:
                self._curve(inside, self._pen("graphite", 1.5, Qt.PenStyle.DotLine))
                place = inside[round((len(inside) - 1) * GHOST_WORDS[number % len(GHOST_WORDS)])]
                now = next((y for x, y in self.shown.line if x >= place[0]), place[1])
                room = (place[0] - self.shown.start) / (self.shown.end - self.shown.start)
                left = place[1] > now and room > ROOM_LEFT
                self._words(*place, word, "ink", (1.0 if left else 0.0, 0.5), bare=True)

    def _line(self) -> None:
        split = self.shown.now if self.shown.now is not None else self.shown.end
        past = [point for point in self.shown.line if point[0] <= split]
        ahead = [point for point in self.shown.line if point[0] > split]
        if past:
            self._curve(past, self._pen("ink", 3))
        if ahead:
            self._curve([*past[-1:], *ahead], self._pen("ink", 2, Qt.PenStyle.CustomDashLine))

    def _typed(self) -> None:
        for start, end, low, high in self.shown.bars:
            box = [(start, low), (end, low), (end, high), (start, high), (start, low)]
            self._curve(box, self._pen("blue", 2))
        if len(self.shown.dots) > 1:
            self._curve(list(self.shown.dots), self._pen("blue", 1.5, Qt.PenStyle.DotLine))
        if self.shown.dots:
            em = self.look.metrics.body_px
            self.box.addItem(self._pg.ScatterPlotItem(
                [dot[0] for dot in self.shown.dots], [dot[1] for dot in self.shown.dots],
                size=0.7 * em, brush=self.colour("blue"), pen=self._pen("sheet", 2),
            ), ignoreBounds=True)  # fmt: skip

    def _levels(self) -> None:
        for level in self.shown.levels:
            token = "line" if level.kind == "named" else "error"
            style = Qt.PenStyle.SolidLine if level.kind == "rated" else Qt.PenStyle.DotLine
            self._across(level.at, self._pen(token, 1.5, style))
            self._label(level, token)

    def _label(self, level: Level, token: str) -> None:
        # Near the top the words go under their line, so that they stay inside.
        share = (level.at - self.shown.low) / max(self.shown.high - self.shown.low, 1e-9)
        self._words(self.shown.end, level.at, level.label, token, (1, 0 if share > TOP else 1))

    def _words(
        self, x: float, y: float, words: str, token: str, anchor: tuple[float, float],
        *, bare: bool = False,
    ) -> None:  # fmt: skip
        fill = None if bare else self.colour("sheet")
        item = self._pg.TextItem(words, color=self.colour(token), anchor=anchor, fill=fill)
        item.setFont(self.look.font("axis"))
        item.setZValue(20)
        self.box.addItem(item, ignoreBounds=True)
        item.setPos(x, y)

    def _now(self) -> None:
        if self.shown.now is None:
            return
        line = self._pg.InfiniteLine(self.shown.now, angle=90, pen=self._pen("ink", 2))
        self.box.addItem(line, ignoreBounds=True)
        em = self.look.metrics.body_px
        mark = self._pg.ScatterPlotItem(
            [self.shown.now], [self.shown.high], symbol="t", size=0.9 * em,
            brush=self.colour("ink"), pen=self._pen("ink", 1),
        )  # fmt: skip
        self.box.addItem(mark, ignoreBounds=True)


GHOST_WORDS = (0.68, 0.5, 0.35)
"""How far along it the word of each ghost stands: clear of the names of levels at the right end."""
ROOM_LEFT = 0.3
"""Nearer to the axis than this share of the width a word has no room at the left."""
TOP = 0.82
"""A level above this share of the height is labelled under its line."""
