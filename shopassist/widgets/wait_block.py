"""A wait: what the digits count to, the digits, one line of context, and the rule."""

from PySide6.QtCore import QRect, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Drawn
from shopassist.widgets.ruled_edge import RuledEdge
from shopassist.widgets.shown import RuleShown, WaitShown

NO_RULE = RuleShown(0.0, 1.0)


class TwoEnds(Drawn[tuple[str, str]]):
    """One line of words: some at the left, some at the right, in graphite."""

    def spoken(self) -> str:
        """Both ends."""
        return ", ".join(word for word in self.shown if word)

    def sizeHint(self) -> QSize:
        """One line."""
        font = self.look.font("body")
        width = sum(font.advance(word) for word in self.shown)
        return QSize(round(width) + self.look.metrics.body_px, round(1.5 * font.high / 1.2))

    def minimumSizeHint(self) -> QSize:
        """Words may be cut."""
        return QSize(0, self.sizeHint().height())

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write both ends; the left has the right of way."""
        del dirty
        font = self.look.font("body")
        baseline = (self.height() + font.caps) / 2
        grey = self.colour("graphite")
        left = strokes.cut(font, self.shown[0], self.width())
        taken = strokes.write(painter, (0, baseline), left, font, grey)
        room = self.width() - taken - self.look.u * 3
        right = strokes.cut(font, self.shown[1], room) if room > 0 else ""
        at = (float(self.width()), baseline)
        strokes.write(painter, at, right, font, grey, strokes.RIGHT)


class Caption(Drawn[str]):
    """One line of bold words."""

    def spoken(self) -> str:
        """Return the words."""
        return self.shown

    def sizeHint(self) -> QSize:
        """As wide as the words."""
        face = self.look.font("title")
        return QSize(round(face.advance(self.shown)) + 1, round(face.high))

    def minimumSizeHint(self) -> QSize:
        """Words may be cut."""
        return QSize(0, self.sizeHint().height())

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """Write the words."""
        del dirty
        font = self.look.font("title")
        baseline = (self.height() + font.caps) / 2
        words = strokes.cut(font, self.shown, self.width())
        strokes.write(painter, (0, baseline), words, font, self.colour("ink"))


class WaitBlock(QWidget):
    """Only ``set_digits`` runs each second; the rest is drawn when its facts change."""

    explain_asked = Signal()

    def __init__(
        self, look: Look, name: str, shown: WaitShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.look, self.shown = look, shown
        self.setObjectName(name)
        self.setAccessibleName(shown.caption)
        self._gives_way = False
        self.caption = Caption(look, f"{name}.caption", "Counts to", shown.caption)
        self.mark = ExplainMark(look, f"{name}.explain", "Explain this time")
        self.mark.flush = True
        self.mark.clicked.connect(self.explain_asked)
        self.digits = Countdown(look, f"{name}.digits", shown.caption)
        self.context = TwoEnds(look, f"{name}.context", "Context", (shown.left, shown.right))
        self.rule = RuledEdge(look, f"{name}.rule", shown.rule or NO_RULE)
        self._lay()
        self._show_parts()

    def draw(self, shown: WaitShown) -> None:
        """Show other facts round the digits."""
        if shown == self.shown:
            return
        self.shown = shown
        self.setAccessibleName(shown.caption)
        self.digits.setAccessibleName(shown.caption)
        self.caption.draw(shown.caption)
        self.context.draw((shown.left, shown.right))
        self.rule.draw(shown.rule or NO_RULE)
        self._show_parts()

    def set_digits(self, text: str) -> None:
        """Show other digits."""
        self.digits.set_digits(text)

    def _show_parts(self) -> None:
        """In a low room the words under the digits go first, then the rule; digits are whole."""
        self.mark.setVisible(self.shown.explains)
        room = self.height() if self.isVisible() else self.sizeHint().height()
        room -= self._least().height()
        for part, wanted in self._parts():
            high = part.sizeHint().height() + self._gap()
            fits = wanted and high <= room
            part.setVisible(fits)
            room -= high if fits else 0

    def give_way(self, on: bool) -> None:  # noqa: FBT001 - a layout's choice
        """In a room that is too low for everything ask for caption and digits alone."""
        if on != self._gives_way:
            self._gives_way = on
            self.updateGeometry()

    def _gap(self) -> int:
        return round(self.look.u)

    def _parts(self) -> tuple[tuple[QWidget, bool], ...]:
        """What stands under the digits, and whether there is anything to show in it."""
        told = bool(self.shown.left or self.shown.right)
        return (self.rule, self.shown.rule is not None), (self.context, told)

    def sizeHint(self) -> QSize:
        """Everything under one another, whether there is room for it just now or not."""
        least = self._least()
        parts = [part.sizeHint().height() for part, wanted in self._parts() if wanted]
        high = least.height() + sum(parts) + self._gap() * len(parts)
        return QSize(max(least.width(), self.rule.sizeHint().width()), high)

    def minimumSizeHint(self) -> QSize:
        """Everything; caption and digits where it gives way."""
        least = self._least()
        return least if self._gives_way else QSize(least.width(), self.sizeHint().height())

    def _least(self) -> QSize:
        digits, caption = self.digits.minimumSizeHint(), self.caption.sizeHint()
        top = max(caption.height(), self.mark.sizeHint().height() if self.shown.explains else 0)
        return QSize(digits.width(), top + self._gap() + digits.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show what there is room for."""
        super().resizeEvent(event)
        self._show_parts()

    def _lay(self) -> None:
        top = QHBoxLayout()
        top.setContentsMargins(0, 0, 0, 0)
        top.addWidget(self.caption, 1)
        top.addWidget(self.mark, 0, Qt.AlignmentFlag.AlignVCenter)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(self._gap())
        column.addLayout(top)
        column.addWidget(self.digits, 1)
        column.addWidget(self.context)
        column.addWidget(self.rule)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
