"""Pot answers: key cap, words, consequence. Nineteen by forty millimetres or more, gloves on."""

from collections.abc import Mapping

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QKeySequence, QPainter, QPaintEvent, QPen, QResizeEvent, QShortcut
from PySide6.QtWidgets import QAbstractButton, QGridLayout, QSizePolicy, QWidget

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import describe, name_it
from shopassist.widgets.prose import wrapped
from shopassist.widgets.shown import AnswerShown

HEIGHT_MM, WIDTH_MM, GAP_MM = 19.0, 40.0, 6.0
LEAST_GAP_MM = 2.0
"""Where a window is low: between 1 and 3 mm make no difference to a finger."""
COLUMNS = 2


class AnswerButton(QAbstractButton):
    """One answer; acts on release."""

    def __init__(
        self, look: Look, name: str, shown: AnswerShown, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.look, self.shown = look, shown
        name_it(self, name, shown.words)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.updateGeometry)
        self._take()

    def draw(self, shown: AnswerShown) -> None:
        """Show another answer."""
        if shown != self.shown:
            self.shown = shown
            self._take()
            self.update()

    def _take(self) -> None:
        shown = self.shown
        self.setAccessibleName(shown.words)
        describe(self, ", ".join(word for word in (shown.second, shown.key) if word))
        self.setEnabled(shown.enabled)

    def sizeHint(self) -> QSize:
        """Nineteen by forty millimetres, or the words."""
        look = self.look
        words = max(
            look.font("title").advance(self.shown.words),
            look.font("body").advance(self.shown.second),
        )
        wide = round(words + self._cap_width() + 7 * look.u)
        return QSize(max(look.mm(WIDTH_MM), wide), look.mm(HEIGHT_MM))

    def minimumSizeHint(self) -> QSize:
        """Never smaller than a gloved finger needs."""
        return QSize(self.look.mm(WIDTH_MM), self.look.mm(HEIGHT_MM))

    def _cap_width(self) -> float:
        if not self.shown.key:
            return 0.0
        look = self.look
        wide = look.font("bold").advance(self.shown.key)
        return max(3.6 * look.u, wide + 1.8 * look.u)

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw the box, the cap and the words."""
        painter = QPainter(self)
        look, tokens, shown = self.look, self.look.tokens, self.shown
        filled = shown.filled and self.isEnabled() and not self.isDown()
        inside = tokens.blue if filled else tokens.select if self.isDown() else tokens.raised
        words = tokens.on_blue if filled else tokens.ink
        if not self.isEnabled():
            words = tokens.disabled
        pen = QPen(look.colour(inside if filled else tokens.stroke), 2)
        if not self.isEnabled():
            pen.setStyle(Qt.PenStyle.DotLine)
        strokes.box(painter, QRectF(self.rect()), pen, look.colour(inside))
        x = 2.2 * look.u
        if shown.key:
            x += self._cap(painter, x, words) + 1.8 * look.u
        self._words(painter, x, words)
        painter.end()

    def _cap(self, painter: QPainter, x: float, words: str) -> float:
        look = self.look
        width, height = self._cap_width(), 4.2 * look.u
        rect = QRectF(x, (self.height() - height) / 2, width, height)
        strokes.box(painter, rect, QPen(look.colour(words), 1.5), None, 4)
        face = look.font("bold")
        at = (rect.center().x(), rect.center().y() + face.caps / 2)
        strokes.write(
            painter, at, self.shown.key, look.font("bold"), look.colour(words), strokes.CENTRE
        )
        return width

    def _words(self, painter: QPainter, x: float, words: str) -> None:
        """Words wrap; an answer is never cut short: what follows from it is left out first."""
        look, shown = self.look, self.shown
        room, colour = self.width() - x - look.u, look.colour(words)
        rows = [(look.font("title"), line) for line in wrapped(look, "title", shown.words, room)]
        below = [(look.font("body"), line) for line in wrapped(look, "body", shown.second, room)]
        if sum(1.22 * font.pixelSize() for font, _ in rows + below) > self.height() - 4:
            below = []
        step = [1.22 * font.pixelSize() for font, _ in rows + below]
        y = (self.height() - sum(step)) / 2
        for (font, line), high in zip(rows + below, step, strict=True):
            baseline = y + (high + font.pixelSize() * look.caps) / 2
            strokes.write(painter, (x, baseline), line, font, colour)
            y += high


class AnswerGrid(QWidget):
    """Answers in columns, six millimetres apart; buttons are kept while names stay.

    There are two columns unless the owner asks for more, and fewer where forty millimetres for
    each would not fit.
    """

    answered = Signal(str)

    def __init__(
        self, look: Look, name: str, parent: QWidget | None = None, columns: int = COLUMNS
    ) -> None:
        super().__init__(parent)
        self.look = look
        name_it(self, name, "Answers")
        self._most, self._columns, self._gap = columns, 0, GAP_MM
        self.buttons: dict[str, AnswerButton] = {}
        self._scope: QWidget | None = None
        self._keys: list[QShortcut] = []
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        look.changed.connect(self._space)
        self._space()

    def listen(self, scope: QWidget) -> None:
        """Take the answers' keys while the focus is inside this widget, and only then."""
        self._scope = scope
        self._rekey()

    def _rekey(self) -> None:
        for shortcut in self._keys:
            shortcut.setEnabled(False)
            shortcut.deleteLater()
        self._keys = []
        if self._scope is None:
            return
        for button in self.buttons.values():
            keys = _keys(button.shown)
            if keys:
                shortcut = QShortcut(QKeySequence(keys), self._scope)
                shortcut.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
                shortcut.setAutoRepeat(False)
                shortcut.activated.connect(button.click)
                self._keys.append(shortcut)

    def draw(self, answers: Mapping[str, AnswerShown]) -> None:
        """Show answers under their object names, in this order."""
        if list(answers) != list(self.buttons):
            self._rebuild(answers)
            return
        rekeyed = any(_keys(self.buttons[n].shown) != _keys(s) for n, s in answers.items())
        for name, shown in answers.items():
            self.buttons[name].draw(shown)
        if rekeyed:
            # A digit left over from before would be bound twice, and then do nothing.
            self._rekey()

    def _space(self) -> None:
        self._grid.setSpacing(self.look.mm(self._gap))
        self._lay()

    def set_gap(self, millimetres: float) -> None:
        """Stand closer together where the window is low; the answers keep their size."""
        if millimetres != self._gap:
            self._gap = millimetres
            self._space()

    def set_most(self, columns: int) -> None:
        """Allow so many columns."""
        if columns != self._most:
            self._most = columns
            self._lay()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """As many columns as have room."""
        super().resizeEvent(event)
        if self._fitting() != self._columns:
            self._lay()

    def minimumSizeHint(self) -> QSize:
        """Any width that one answer fits into; the height of the rows there are."""
        return QSize(self.look.mm(WIDTH_MM), super().minimumSizeHint().height())

    def _fitting(self) -> int:
        gap = self.look.mm(self._gap)
        room = (self.width() + gap) // (self.look.mm(WIDTH_MM) + gap)
        return max(1, min(self._most, room))

    def _lay(self) -> None:
        """Give every button its place."""
        before, self._columns = self._columns, self._fitting()
        for index, button in enumerate(self.buttons.values()):
            self._grid.removeWidget(button)
            self._grid.addWidget(button, index // self._columns, index % self._columns)
        for column in range(max(before, self._columns)):
            self._grid.setColumnStretch(column, 1 if column < self._columns else 0)
        self.updateGeometry()

    def _rebuild(self, answers: Mapping[str, AnswerShown]) -> None:
        for button in self.buttons.values():
            self._grid.removeWidget(button)
            button.hide()
            button.setObjectName("")
            button.deleteLater()
        self.buttons = {}
        before: QWidget | None = None
        for name, shown in answers.items():
            button = AnswerButton(self.look, name, shown, self)
            button.clicked.connect(lambda _=False, name=name: self.answered.emit(name))
            self.buttons[name] = button
            if before is not None:
                QWidget.setTabOrder(before, button)
            before = button
        self._lay()
        self._rekey()


UNBOUND = ("Enter", "Space")
"""Caps of keys that belong to the field and to the button itself."""


def _keys(shown: AnswerShown) -> str:
    """The key sequence of an answer; empty for none."""
    return shown.shortcut or ("" if shown.key in UNBOUND else shown.key)
