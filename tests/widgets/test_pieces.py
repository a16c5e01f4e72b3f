"""What every piece must do: have a name, speak, draw once and only when something changed."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from PySide6.QtCore import QEvent, QObject, QRect
from PySide6.QtGui import QPaintEvent, QPixmap
from PySide6.QtWidgets import QApplication, QLabel, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets import strokes
from shopassist.widgets.bench_view import BenchView
from shopassist.widgets.card import Card
from shopassist.widgets.countdown import Countdown, shape
from shopassist.widgets.deviation_rule import DeviationRule
from shopassist.widgets.explain_sheet import ExplainSheet
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.lid import Lid
from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.look import Look
from shopassist.widgets.next_line import NextLine
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import Piece
from shopassist.widgets.ruled_edge import RuledEdge
from shopassist.widgets.shown import (
    BracketKind,
    BracketShown,
    CardShown,
    DeviationShown,
    FigureShown,
    LidHole,
    LidShown,
    NextShown,
    RuleShown,
    StopShown,
    Tick,
    WaitShown,
)
from shopassist.widgets.stops import Stops
from shopassist.widgets.tokens import DARK
from shopassist.widgets.wait_block import WaitBlock

RULE = RuleShown(
    0, 10, (Tick(0, "0"), Tick(2.5), Tick(5, "5"), Tick(10, "10")), 2, 2, 5, 6, 7, "likely", 8, "8:00"
)  # fmt: skip
FIGURE = FigureShown(
    "Resin", "206", "ml", "computed", BracketShown(200, 222, 206, "200 – 222"), "n"
)
CARD = CardShown(
    "mix", "Mix", "Knobs 12", "In the cup", "235.4", "g", "typed", FIGURE.bracket, "ok"
)
STOPS = (
    StopShown("Resin", "179.4", "g", "done", "stop was 179.2"),
    StopShown("Hardener", "235.0", "g", "present", "pour to"),
    StopShown("Paste", "240.0", "g", "later"),
)
LID = LidShown(
    (1, 3, 2, 4), frozenset({1}), 2, (LidHole("gauge", 0.1, 0.4), LidHole("inlet", 0.6, 0.4))
)
MAKERS: dict[str, Callable[[Look], QWidget]] = {
    "next": lambda look: NextLine(look, "x", NextShown("Hold until 18:20", "gel likely 16:35")),
    "figure": lambda look: FigureView(look, "x", FIGURE),
    "rule": lambda look: RuledEdge(look, "x", RULE),
    "deviation": lambda look: DeviationRule(look, "x", DeviationShown(-3, 3, -3, 3, 0.7)),
    "lid": lambda look: Lid(look, "x", LID),
    "card": lambda look: Card(look, "x", CARD),
    "stops": lambda look: Stops(look, "x"),
    "wait": lambda look: WaitBlock(look, "x", WaitShown("Until demould", "l", "r", RULE)),
    "pane": lambda look: PaneFrame(look, "x", "Mix"),
    "sheet": lambda look: ExplainSheet(look, "x"),
    "bench": lambda look: BenchView(look, "x"),
    "limits": lambda look: LimitsCard(look, "x", "Limits", ("One.", "Two."), (("read", "Read"),)),
}


class Paints(QObject):
    """Counts what a widget had to repaint."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self.rects: list[QRect] = []
        widget.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QPaintEvent):
            self.rects.append(event.rect())
        return False


@pytest.mark.parametrize("maker", MAKERS.values(), ids=MAKERS)
def test_every_piece_has_a_name_and_draws_in_both_themes(
    look: Look, qtbot: QtBot, maker: Callable[[Look], QWidget]
) -> None:
    piece = maker(look)
    qtbot.addWidget(piece)
    piece.resize(500, 400)
    light = piece.grab().toImage()
    look.set_tokens(DARK)
    dark = piece.grab().toImage()
    assert (light != dark) or isinstance(piece, BenchView)
    look.set_pitch(2 * look.metrics.px_per_mm)
    assert not piece.grab().isNull()
    assert piece.objectName() == "x"
    for child in [piece, *piece.findChildren(QWidget)]:
        if isinstance(child, Piece) and child.objectName():
            assert child.accessibleName() or "rule" in child.objectName()


def test_drawing_the_same_again_repaints_nothing(look: Look, qtbot: QtBot) -> None:
    view = FigureView(look, "x", FIGURE)
    qtbot.addWidget(view)
    with qtbot.waitExposed(view):
        view.show()
    view.repaint()
    paints = Paints(view)
    view.draw(replace(FIGURE, value="206"))
    QApplication.processEvents()
    assert paints.rects == []
    view.draw(replace(FIGURE, value="207"))
    QApplication.processEvents()
    assert len(paints.rects) == 1


def test_a_tick_repaints_only_the_figures_that_changed(look: Look, qtbot: QtBot) -> None:
    clock = Countdown(look, "x", "Until demould")
    qtbot.addWidget(clock)
    clock.resize(900, 200)
    clock.set_digits("3:07:42")
    with qtbot.waitExposed(clock):
        clock.show()
    clock.repaint()
    paints = Paints(clock)
    clock.set_digits("3:07:41")
    qtbot.waitUntil(lambda: bool(paints.rects))
    assert paints.rects == [clock._cells[-1].intersected(clock.rect())]
    assert paints.rects[0].width() < clock.width() / 5
    clock.set_digits("3:07:41")
    assert len(paints.rects) == 1


def test_digits_do_not_move_from_second_to_second(look: Look, qtbot: QtBot) -> None:
    clock = Countdown(look, "x", "Until demould")
    qtbot.addWidget(clock)
    clock.resize(900, 200)
    clock.set_digits("1:11:11")
    cells, size = list(clock._cells), clock._font.pixelSize()
    clock.set_digits("8:08:48")
    assert clock._cells == cells
    assert clock._font.pixelSize() == size
    assert clock.text == "8:08:48"


def test_digits_fill_their_room_and_keep_their_least_size(look: Look, qtbot: QtBot) -> None:
    clock = Countdown(look, "x", "Until demould")
    qtbot.addWidget(clock)
    clock.set_digits("0:00:00")
    clock.resize(2000, 1000)
    clock.grab()
    assert clock._cells[-1].right() <= 2000
    assert clock._cells[-1].right() > 1800
    clock.resize(10, 10)
    clock.grab()
    assert clock._font.pixelSize() >= 23.3 * look.metrics.px_per_mm / look.caps - 1


def test_what_decides_about_width_is_the_number_of_signs() -> None:
    assert shape("3:07:42") == shape("1:59:00") == "0:00:00"


def test_the_words_of_a_countdown_are_changed_by_its_owner_alone(look: Look, qtbot: QtBot) -> None:
    clock = Countdown(look, "x", "Until demould")
    qtbot.addWidget(clock)
    clock.set_digits("0:30:00")
    assert clock.accessibleDescription() == ""
    clock.say("30 minutes")
    assert clock.accessibleDescription() == "30 minutes"


@pytest.mark.parametrize("ratio", [1.0, 1.25, 1.5, 2.0])
@pytest.mark.parametrize("y", [7.0, 7.3, 7.5, 8.25])
def test_lines_are_crisp_at_every_scale(look: Look, ratio: float, y: float) -> None:
    from PySide6.QtGui import QColor, QPainter

    page = QPixmap(round(40 * ratio), round(40 * ratio))
    page.setDevicePixelRatio(ratio)
    page.fill(QColor(look.tokens.sheet))
    painter = QPainter(page)
    painter.translate(3, 5)  # a child that does not start on a whole device pixel
    strokes.across(painter, 0, 20, y, QColor(look.tokens.ink), 1)
    strokes.down(painter, y + 15, 0, 20, QColor(look.tokens.ink), 2)
    painter.end()
    image = page.toImage()
    colours = {
        image.pixelColor(x, y).name() for x in range(image.width()) for y in range(image.height())
    }
    assert colours == {look.tokens.sheet.lower(), look.tokens.ink.lower()}
    column = [image.pixelColor(round(6 * ratio), row).name() for row in range(image.height())]
    assert column.count(look.tokens.ink.lower()) == max(1, round(ratio))
    row = [image.pixelColor(x, round(7 * ratio)).name() for x in range(image.width())]
    assert row.count(look.tokens.ink.lower()) == round(2 * ratio)


def test_the_middle_tick_stands_at_the_values_true_place() -> None:
    from shopassist.widgets.bracket import share

    assert share(BracketShown(200, 222, 206, "")) == pytest.approx(6 / 22)
    assert share(BracketShown(200, 222, 190, "")) == 0
    assert share(BracketShown(200, 222, None, "")) is None
    assert share(BracketShown(200, 200, 200, "")) is None


KINDS: tuple[BracketKind, ...] = ("estimated", "allowed", "target")


@pytest.mark.parametrize("kind", KINDS)
def test_kinds_of_brackets_look_different(look: Look, qtbot: QtBot, kind: str) -> None:
    images = []
    for other in KINDS:
        shown = FigureShown("a", "1", bracket=BracketShown(0, 2, 1, "0 – 2", other))
        view = FigureView(look, "x", shown)
        qtbot.addWidget(view)
        view.resize(300, 150)
        images.append((other, view.grab().toImage()))
    mine = next(image for other, image in images if other == kind)
    assert all(image != mine for other, image in images if other != kind)


def test_a_rule_places_its_marks_by_value(look: Look, qtbot: QtBot) -> None:
    edge = RuledEdge(look, "x", RULE)
    qtbot.addWidget(edge)
    edge.resize(1002, edge.sizeHint().height())
    assert edge._x(0) == 1
    assert edge._x(10) == 1001
    assert edge._x(5) == 501
    assert edge._x(99) == 1001
    image = edge.grab().toImage()
    line = round(edge._line_y()) - 12
    assert image.pixelColor(round(edge._x(6.5)), line).name() == look.tokens.band.lower()
    assert image.pixelColor(round(edge._x(8)), line).name() == look.tokens.ink.lower()
    assert (
        image.pixelColor(round(edge._x(1)), round(edge._line_y()) - 4).name()
        == look.tokens.graphite.lower()
    )


def test_a_gate_stands_before_its_range_for_hazards_and_after_it_for_releases(
    look: Look, qtbot: QtBot
) -> None:
    late, early = (
        RuledEdge(look, "x", RULE),
        RuledEdge(look, "y", RuleShown(0, 10, (), 1, 1, 5, 6, 7, "a long range text", 3, "3:00")),
    )
    empty = RuledEdge(look, "z", RuleShown(0, 0, low=0, high=0, gate=0))
    for edge, dots in ((late, 7.5), (early, 4.0)):
        qtbot.addWidget(edge)
        edge.resize(1002, edge.sizeHint().height())
        image = edge.grab().toImage()
        y = round(edge._line_y() - 0.55 * edge._em())
        span = range(round(edge._x(dots - 0.3)), round(edge._x(dots + 0.3)))
        found = {image.pixelColor(x, row).name() for x in span for row in (y - 1, y)}
        assert look.tokens.band_edge.lower() in found
    qtbot.addWidget(empty)
    assert not empty.grab().isNull()


def test_the_figure_speaks_number_range_and_note(look: Look, qtbot: QtBot) -> None:
    view = FigureView(look, "x", FIGURE)
    qtbot.addWidget(view)
    assert view.accessibleName() == "Resin"
    assert view.accessibleDescription() == "206 ml, 200 – 222, n"
    view.draw(
        FigureShown("Hardener", "–", source="missing", note="needs the ratio", explains=False)
    )
    assert view.accessibleName() == "Hardener"
    assert view.mark.isHidden()
    assert view.mark.accessibleName() == "Explain Hardener"


def test_the_explain_mark_asks(look: Look, qtbot: QtBot) -> None:
    view = FigureView(look, "x", FIGURE)
    qtbot.addWidget(view)
    with qtbot.waitSignal(view.explain_asked):
        view.mark.click()
    assert view.mark.objectName() == "x.explain"


def test_stops_never_move_when_a_row_is_done(look: Look, qtbot: QtBot) -> None:
    stops = Stops(look, "x")
    qtbot.addWidget(stops)
    stops.draw(STOPS)
    stops.resize(400, stops.sizeHint().height())
    before = [stops.row(i) for i in range(3)]
    done = tuple(StopShown(s.name, s.number, s.unit, "done", "stop was 1") for s in STOPS)
    stops.draw(done)
    assert [stops.row(i) for i in range(3)] == before
    assert "Hardener, 235.0 g" in stops.accessibleDescription()


def test_an_entry_stands_at_the_present_stop(look: Look, qtbot: QtBot) -> None:
    stops = Stops(look, "x")
    qtbot.addWidget(stops)
    stops.draw(STOPS)
    stops.resize(500, stops.sizeHint().height())
    entry = QLabel("0.0")
    stops.place(entry)
    stops.grab()
    assert stops.row(1).contains(entry.geometry())
    stops.draw(tuple(StopShown(s.name, s.number, s.unit, "later") for s in STOPS))
    assert entry.isHidden()
    stops.place(None)
