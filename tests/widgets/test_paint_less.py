"""Pieces paint anew only what changed, and the screen is then as if all had been painted."""

import pytest
from PySide6.QtCore import QCoreApplication, QRect, Qt
from PySide6.QtGui import QImage, QPainter, QPaintEvent, QRegion
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets import strokes
from shopassist.widgets.countdown import Countdown
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.prose import wrapped
from shopassist.widgets.shown import BracketShown, FigureShown, StopShown
from shopassist.widgets.stops import Stops

FIRST = (
    StopShown("Resin", "100.0", "g", "present", "until 100.0 g"),
    StopShown("Hardener", "130.0", "g", "later", "pour 30.0 g"),
)
MORE = (
    StopShown("Resin", "2 100.0", "g", "present", "until 2 100.0 g"),
    StopShown("Hardener", "2 730.0", "g", "later", "pour 630.0 g"),
)
THEN = (
    StopShown("Resin", "100.0", "g", "done", "stop was 100.0 g"),
    StopShown("Hardener", "130.0", "g", "present", "until 130.0 g"),
)


def painted(piece: QWidget, on: QImage, part: QRegion | None) -> QImage:
    """The screen after this part of a piece was painted over what stood there."""
    room = part if part is not None else QRegion(piece.rect())
    painter = QPainter(on)
    painter.setClipRegion(room)
    painter.fillRect(piece.rect(), Qt.GlobalColor.white)
    piece.paint(painter, room.boundingRect())  # type: ignore[attr-defined]
    painter.end()
    return on


def blank(piece: QWidget) -> QImage:
    return QImage(piece.size(), QImage.Format.Format_RGB32)


@pytest.mark.parametrize("with_entry", [True, False])
def test_other_numbers_at_the_same_stops_leave_the_rule_and_the_entry(
    look: Look, with_entry: bool
) -> None:
    stops = Stops(look, "x")
    stops.resize(500, 200)
    stops.draw(FIRST)
    entry = QLineEdit() if with_entry else None
    stops.place(entry)
    screen = painted(stops, blank(stops), None)
    stops.draw(MORE)
    part = stops.touched(FIRST)
    assert part is not None
    assert not part.intersects(QRect(0, 0, 10, 200))
    assert entry is None or not part.intersects(entry.geometry())
    assert painted(stops, screen, part) == painted(stops, blank(stops), None)
    stops.draw(THEN)
    assert stops.touched(MORE) is None
    stops.draw(())
    assert stops.touched(THEN) is None
    stops.deleteLater()


def test_another_number_leaves_the_words_over_it(look: Look) -> None:
    before = FigureShown("Resin for one", "89.7", "ml")
    after = FigureShown("Resin for one", "1 220", "ml",
                        bracket=BracketShown(1.0, 2.0, 1.5, "1 – 2"))  # fmt: skip
    view = FigureView(look, "x", before)
    view.resize(300, 100)
    screen = painted(view, blank(view), None)
    view.draw(after)
    part = view.touched(before)
    assert part is not None
    assert part.boundingRect().top() > 0
    assert painted(view, screen, part) == painted(view, blank(view), None)
    view.draw(FigureShown("Other", "1", "ml"))
    assert view.touched(after) is None
    view.draw(FigureShown("", "1", "ml"))
    view.draw(FigureShown("", "2", "ml"))
    part = view.touched(FigureShown("", "1", "ml"))
    assert part is not None
    assert part.boundingRect().top() == 0
    view.deleteLater()


def test_measured_and_broken_words_are_kept_a_size_apart(
    look: Look, monkeypatch: pytest.MonkeyPatch
) -> None:
    for most in ("fonts.MOST_WIDTHS", "prose.MOST_BROKEN"):
        monkeypatch.setattr(f"shopassist.widgets.{most}", -1)
    words = "Mix for the high end and keep a spare mould ready"
    wide, narrow = wrapped(look, "body", words, 900.0), wrapped(look, "body", words, 90.0)
    assert len(wide) == 1
    assert len(narrow) > 2
    wide.clear()
    assert wrapped(look, "body", words, 900.0) == [words]
    small, large = (look.font(role).advance(words) for role in ("body", "lead"))
    assert large > 2 * small
    assert strokes.cut(look.font("body"), words, small) == words
    assert strokes.cut(look.font("body"), words, small / 2).endswith("…")


def test_words_laid_out_are_kept_until_there_are_too_many(
    look: Look, monkeypatch: pytest.MonkeyPatch
) -> None:
    face = look.font("body")
    first = face.laid("Hardener")
    assert face.laid("Hardener") is first
    assert first.text() == "Hardener"
    monkeypatch.setattr("shopassist.widgets.fonts.MOST_LAID", 1)
    for words in ("a", "b", "c"):
        assert face.laid(words).text() == words
    assert face.laid("Hardener") is not first


def test_a_number_that_grows_past_its_room_asks_for_more(look: Look) -> None:
    """Room is kept for a usual number; a longer one must not be cut where room is short."""
    host = QWidget()
    row = QHBoxLayout(host)
    row.setContentsMargins(0, 0, 0, 0)
    views = [FigureView(look, f"x{n}", FigureShown("A", "1", "g")) for n in range(2)]
    for view in views:
        row.addWidget(view)
    least = views[0].minimumSizeHint().width()
    host.resize(round(4.2 * least), 80)
    host.show()
    QCoreApplication.processEvents()
    views[0].draw(FigureShown("A", "3 392.9", "g"))
    QCoreApplication.processEvents()
    assert views[0].width() >= views[0].minimumSizeHint().width()
    host.close()
    host.deleteLater()


@pytest.mark.parametrize(("most", "kept"), [(120, len("023479:")), (2, 2)])
def test_large_figures_are_drawn_once_and_look_as_if_drawn_each_time(
    look: Look, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, most: int, kept: int
) -> None:
    monkeypatch.setattr("shopassist.widgets.countdown.MOST_PICTURES", most)
    clock = Countdown(look, "x", "Until demould")
    qtbot.addWidget(clock)
    clock.resize(900, 200)
    clock.set_digits("3:07:42")
    with qtbot.waitExposed(clock):
        clock.show()
    shown = clock.grab().toImage()
    for digits in ("3:07:39", "3:07:42"):
        clock.set_digits(digits)
        shown = clock.grab().toImage()
        with monkeypatch.context() as patch:
            patch.setattr("shopassist.widgets.countdown.OUTLINE_PX", 10_000)
            outlined = clock.grab().toImage()
        assert unlike(shown, outlined) <= 2  # of 255: two roundings in place of one
    assert len(clock._pictures) == kept  # a figure looks the same wherever it stands
    clock.words = "amber"
    assert unlike(clock.grab().toImage(), shown) > 50
    clock.resize(700, 160)
    assert not clock._pictures


def unlike(one: QImage, other: QImage) -> int:
    """Most that any channel of any pixel differs, 0 … 255."""
    assert one.size() == other.size()
    pairs = zip(bytes(one.constBits()), bytes(other.constBits()), strict=True)
    return max(abs(a - b) for a, b in pairs)


class Ground(QWidget):
    """A sheet that counts how often it is painted."""

    def __init__(self) -> None:
        super().__init__()
        self.times = 0

    def paintEvent(self, event: QPaintEvent) -> None:
        self.times += 1
        painter = QPainter(self)
        painter.fillRect(event.rect(), self.palette().alternateBase())
        painter.end()


def test_another_number_paints_nothing_that_lies_behind_it(look: Look) -> None:
    ground = Ground()
    ground.resize(400, 200)
    view = FigureView(look, "x", FigureShown("Resin", "89.7", "g"), ground)
    view.resize(view.sizeHint())
    ground.show()
    QCoreApplication.processEvents()
    before = ground.grab().toImage()
    times = ground.times
    view.draw(FigureShown("Resin", "91.2", "g"))
    QCoreApplication.processEvents()
    assert ground.times == times
    after = ground.grab().toImage()
    assert after != before
    corner = after.pixelColor(view.geometry().bottomRight())
    assert corner == after.pixelColor(ground.rect().bottomRight())
    ground.close()
    ground.deleteLater()


def test_a_number_explains_itself_wherever_it_is_pressed(look: Look, qtbot: QtBot) -> None:
    view = FigureView(look, "x", FigureShown("Resin", "8.7", "g"))
    qtbot.addWidget(view)
    view.resize(view.sizeHint())
    view.show()
    asked: list[bool] = []
    view.explain_asked.connect(lambda: asked.append(True))
    calm = view.grab().toImage()
    assert view.childAt(5, view.mark.geometry().center().y()) is view.mark
    qtbot.mousePress(view.mark, Qt.MouseButton.LeftButton)
    assert view.grab().toImage() != calm  # the mark shows that it is held down
    qtbot.mouseRelease(view.mark, Qt.MouseButton.LeftButton)
    assert asked == [True]
    assert view.grab().toImage() == calm
    place = view.mark.geometry()
    view.draw(FigureShown("Resin", "1 178.7", "g"))
    assert view.mark.geometry() == place  # another number of usual length moves nothing
    view.draw(FigureShown("Resin", "1 178 000.75", "g"))
    view.resize(view.sizeHint())
    assert view.mark.width() > place.width()


def test_a_small_number_in_a_row_of_large_ones_keeps_to_their_lines(look: Look) -> None:
    large = FigureView(look, "x", FigureShown("Resin", "177.8", "g"))
    small = FigureView(look, "y", FigureShown("Together", "231.1", "g", lead=False))
    assert small.sizeHint().height() < large.sizeHint().height()
    for _ in (0, 1):
        small.stand_level(True)
    assert small.sizeHint().height() == large.sizeHint().height()
    assert small.mark.geometry().center().y() == large.mark.geometry().center().y()
    small.stand_level(False)
    assert small.sizeHint().height() < large.sizeHint().height()
    for each in (large, small):
        each.deleteLater()
