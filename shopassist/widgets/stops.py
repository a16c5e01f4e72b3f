"""Running-total stops on the scale. The list never moves when a row is done."""

import math

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QRegion, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.fonts import Role
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn, on_sheet
from shopassist.widgets.shown import StopShown

ROW_BODIES = 4.2
RULE_X, TEXT_X = 1.5, 6.2
"""Place of the rule and of the words, in units of space."""


class Stops(Drawn[tuple[StopShown, ...]]):
    """An upright rule; each stop is a cross-line with its number."""

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        self._entry: QWidget | None = None
        super().__init__(look, name, "Stops on the scale", (), parent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        on_sheet(self)

    def draw(self, shown: tuple[StopShown, ...]) -> None:
        """Show other stops."""
        moved = [stop.state for stop in shown] != [stop.state for stop in self.shown]
        super().draw(shown)
        if moved:
            self._place()

    def place(self, entry: QWidget | None) -> None:
        """Put an entry field at the present stop, in the place of its number."""
        if self._entry is not None and self._entry is not entry:
            self._entry.hide()
        self._entry = entry
        if entry is not None:
            entry.setParent(self)
            self._place()

    def row(self, index: int) -> QRect:
        """Room of one stop."""
        height = round(ROW_BODIES * self._em())
        return QRect(0, index * height, self.width(), height)

    def spoken(self) -> str:
        """All stops in words."""
        return "; ".join(
            ", ".join(filter(None, (s.name, f"{s.number} {s.unit}".strip(), s.was, s.state)))
            for s in self.shown
        )

    def sizeHint(self) -> QSize:
        """Equal rows."""
        rows = max(1, len(self.shown))
        return QSize(round(20 * self._em()), rows * round(ROW_BODIES * self._em()) + 3)

    def minimumSizeHint(self) -> QSize:
        """Of any width, never fewer rows."""
        return QSize(round(14 * self._em()), self.sizeHint().height())

    def relook(self) -> None:
        """Take the changed look."""
        super().relook()
        self._place()

    def resizeEvent(self, _: QResizeEvent) -> None:
        """Keep the entry at its stop."""
        self._place()

    def _em(self) -> float:
        return float(self.look.metrics.body_px)

    def _place(self) -> None:
        entry = self._entry
        if entry is None:
            return
        present = next((i for i, s in enumerate(self.shown) if s.state == "present"), None)
        entry.setVisible(present is not None)
        if present is not None:
            row = self.row(present)
            width = min(entry.sizeHint().width(), row.width() // 2)
            height = min(entry.sizeHint().height(), row.height() - 4)
            entry.setGeometry(row.right() - width, row.bottom() - height - 3, width, height)

    def touched(self, before: tuple[StopShown, ...]) -> QRegion | None:
        """At the same stops the rule stays, and so does an entry that stands among them."""
        if [_place_of(stop) for stop in before] != [_place_of(stop) for stop in self.shown]:
            return None
        part = QRegion()
        for index, (old, new) in enumerate(zip(before, self.shown, strict=True)):
            if old != new:
                part += self._beside_rule(index, new)
        return part

    def _beside_rule(self, index: int, shown: StopShown) -> QRect:
        room = self.row(index)
        room.setLeft(math.ceil(TEXT_X * self.look.u))
        if self._entry is not None and self._beside_entry(shown):
            room.setRight(self._entry.x() - 1)
        return room

    def _beside_entry(self, shown: StopShown) -> bool:
        """At the present stop an entry stands at the right edge."""
        return shown.state == "present" and self._entry is not None

    def _right(self, shown: StopShown) -> float:
        """Where a number with its unit ends."""
        if self._entry is None or not self._beside_entry(shown):
            return float(self.width())
        return self._entry.x() - 2.0 * self.look.u

    def _told(self, shown: StopShown, role: Role | None) -> str:
        """The words of the second line; what stands large beside them is not said twice."""
        if role is None or not self._beside_entry(shown):
            return shown.was
        return shown.was.partition(shown.number)[0].rstrip()

    def _role(self, shown: StopShown) -> Role | None:
        """How large the number stands; beside an entry as large as there is room for."""
        if not self._beside_entry(shown):
            return "lead" if shown.state == "present" else "lead_small"
        look, body = self.look, self.look.font("body")
        words = body.advance(shown.was.partition(shown.number)[0])
        taken = TEXT_X * look.u + words + 3.6 * look.u + body.advance("kg")
        roles: tuple[Role, ...] = "lead", "lead_small"
        room = self._right(shown) - taken
        return next((role for role in roles if look.font(role).advance(shown.number) <= room), None)

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Draw the rule with its graduations, then the stops that need it."""
        if dirty.left() < TEXT_X * self.look.u:
            self._rule(painter)
        for index, shown in enumerate(self.shown):
            if self.row(index).intersects(dirty):
                self._stop(painter, self.row(index), shown, dirty.left())

    def _rule(self, painter: QPainter) -> None:
        x = RULE_X * self.look.u
        bottom = self.row(max(0, len(self.shown) - 1)).bottom()
        strokes.down(painter, x, 0, bottom, self.colour("ink"), 2)
        step = self._em() * 0.42
        count = int(bottom / step)
        for index in range(1, count):
            length = 6 if index % 5 == 0 else 3
            strokes.across(painter, x, x + length, index * step, self.colour("stroke"))

    def _stop(self, painter: QPainter, row: QRect, shown: StopShown, left: int) -> None:
        look, x, y = self.look, TEXT_X * self.look.u, float(row.bottom())
        strokes.across(painter, x, self.width(), y, self.colour("hair"))
        second = y - 1.5 * look.u
        is_present = shown.state == "present"
        grey, body = self.colour("graphite"), look.font("body")
        name = look.font("bold") if is_present else body
        ink = self.colour("ink") if is_present else grey
        strokes.write(painter, (x, second - 1.5 * self._em()), shown.name, name, ink)
        role = self._role(shown)
        strokes.write(painter, (x, second), self._told(shown, role), body, grey)
        if left < x:
            self._mark(painter, shown, QPointF(RULE_X * look.u, y))
        if role is not None:
            self._number(painter, shown, second, role)

    def _mark(self, painter: QPainter, shown: StopShown, at: QPointF) -> None:
        u, ink = self.look.u, self.colour("ink")
        strokes.across(painter, at.x() - 1.2 * u, at.x() + 2.2 * u, at.y(), ink, 2)
        if shown.state == "done":
            self._dot(painter, at)
        elif shown.state == "present":
            strokes.plumb(painter, at.x(), at.y() - 0.8 * self._em(), 0.9 * self._em(), ink)

    def _number(self, painter: QPainter, shown: StopShown, baseline: float, role: Role) -> None:
        look = self.look
        token = {"done": "blue", "present": "ink", "later": "graphite"}[shown.state]
        body = look.font("body")
        unit_left = self._right(shown) - body.advance("kg")
        strokes.write(painter, (unit_left, baseline), shown.unit, body, self.colour("graphite"))
        at = (unit_left - 1.6 * look.u, baseline)
        font = look.font(role)
        strokes.write(painter, at, shown.number, font, self.colour(token), strokes.RIGHT)

    def _dot(self, painter: QPainter, at: QPointF) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, on=True)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.colour("blue"))
        side = 0.52 * self._em()
        painter.drawEllipse(QRectF(at.x() - side / 2, at.y() - side / 2, side, side))


def _place_of(stop: StopShown) -> tuple[str, str]:
    return stop.name, stop.state
