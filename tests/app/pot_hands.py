"""The pot's list answered by mouse or by finger: on the window, where the answer is drawn."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget

from shopassist.core.pot.words import Act
from tests.app.driver import Person
from tests.app.pot_walker import PotWalker

FINGER = QTest.createTouchDevice()


class MouseWalker(PotWalker):
    """Presses and lets go of the left button over what is to be answered."""

    def __init__(self, person: Person) -> None:
        super().__init__(person)
        self.pressed: list[str] = []
        self._at = QPoint()

    def down(self, widget: QWidget) -> None:
        """Press at the middle of a widget."""
        self._at = self.middle(widget)
        self._send(QEvent.Type.MouseButtonPress, Qt.MouseButton.LeftButton)

    def up(self) -> None:
        """Let go where it was pressed, whatever stands there now."""
        self._send(QEvent.Type.MouseButtonRelease, Qt.MouseButton.NoButton)

    def _send(self, kind: QEvent.Type, held: Qt.MouseButton) -> None:
        window, place = self.person.program.window, QPointF(self._at)
        event = QMouseEvent(
            kind, place, window.mapToGlobal(place), Qt.MouseButton.LeftButton, held,
            Qt.KeyboardModifier.NoModifier,
        )  # fmt: skip
        QApplication.sendEvent(window.windowHandle(), event)

    def middle(self, widget: QWidget) -> QPoint:
        """Where it is in its window, whole and uncovered."""
        assert widget.visibleRegion().boundingRect() == widget.rect(), widget.objectName()
        place = widget.mapTo(widget.window(), widget.rect().center())
        found = widget.window().childAt(place)
        assert found is not None
        assert found is widget or widget.isAncestorOf(found), (widget.objectName(), found)
        return place

    def touch(self, name: str) -> None:
        """Press and let go."""
        widget = self.person.find(QWidget, name)
        self.pressed.append(name)
        self.down(widget)
        self.up()
        self.person.look()

    def _choose(self, item: str) -> None:
        wanted = self.answers.get(item) or next(
            each.id for each in self.screen.answers if each.shown.enabled
        )
        offered = {each.id: each.name for each in self.screen.answers}
        self.touch(offered[wanted])

    def _press(self, act: Act) -> None:
        self.touch(f"pot.offer.{act}")

    def let_down(self) -> None:
        """Press *Let down*."""
        self.touch("pot.offer.let_down")

    def _type(self, text: str) -> None:
        self._pass(61)
        self.touch("pot.answer.typed_reading")
        self.person.keys(text)
        self.person.enter()

    def _hold(self) -> None:
        button = self.person.find(QAbstractButton, "pot.hold")
        self.down(button)
        for _ in range(3):
            self._pass(0.6)
        self.up()


class TouchWalker(MouseWalker):
    """The same by finger: no mouse event is made here, Qt makes them of the touch."""

    def down(self, widget: QWidget) -> None:
        """Put the finger on the middle of a widget."""
        self._at = self.middle(widget)
        self._finger().press(0, self._at).commit()

    def up(self) -> None:
        """Take it off."""
        self._finger().release(0, self._at).commit()

    def _finger(self) -> QTest.QTouchEventSequence:
        return QTest.touchEvent(self.person.program.window.windowHandle(), FINGER)
