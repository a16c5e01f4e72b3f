"""Larger painted pieces: lid, cards, notes, sheets, rail, bench view, waits."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QPainter, QRegion
from PySide6.QtWidgets import QPushButton, QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets import icons, strokes
from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.bench_view import BenchView
from shopassist.widgets.card import Card
from shopassist.widgets.deviation_rule import DeviationRule
from shopassist.widgets.explain_sheet import ExplainSheet
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.lid import Lid
from shopassist.widgets.limits_card import LimitsCard
from shopassist.widgets.look import Look
from shopassist.widgets.next_line import NextLine
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.rail import Rail
from shopassist.widgets.ruled_edge import RuledEdge
from shopassist.widgets.shown import (
    BenchShown,
    BracketShown,
    CardShown,
    DeviationShown,
    ExplainShown,
    FigureShown,
    LidHole,
    LidShown,
    NextShown,
    RailShown,
    RuleShown,
    SheetSection,
    StopShown,
    Tick,
    WaitShown,
)
from shopassist.widgets.stops import Stops
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


def test_the_lid_says_how_many_clamps_are_slack(look: Look, qtbot: QtBot) -> None:
    lid = Lid(look, "x", LID)
    qtbot.addWidget(lid)
    assert lid.accessibleDescription() == "4 clamps, 3 slack"
    before = lid.grab().toImage()
    lid.draw(LidShown((1, 3, 2, 4), frozenset({1, 2}), None, (), "said"))
    assert lid.accessibleDescription() == "said"
    assert lid.grab().toImage() != before


def test_a_card_folds_to_a_row_and_is_pressed_by_keys(look: Look, qtbot: QtBot) -> None:
    card = Card(look, "x", CARD)
    qtbot.addWidget(card)
    tall = card.sizeHint().height()
    card.set_row(True)
    assert card.sizeHint().height() < tall / 3
    assert not card.grab().isNull()
    card.show()
    card.setFocus()
    with qtbot.waitSignal(card.clicked):
        qtbot.keyClick(card, Qt.Key.Key_Space)
    card.draw(CardShown("pot", "Pot"))
    assert card.accessibleName() == "Pot"


@pytest.mark.parametrize(("width", "row"), [(300, False), (160, False), (400, True)])
def test_digits_painted_alone_leave_the_words_round_them_whole(
    look: Look, qtbot: QtBot, *, width: int, row: bool
) -> None:
    words = CardShown("cure", "Cure", caption="Hold, gjpqy", value="5:12:21", line="21.5, typed")
    card = Card(look, "x", words)
    qtbot.addWidget(card)
    card.set_row(row)
    card.resize(width, card.sizeHint().height() if row else 240)
    kept = card.grab()
    assert card._digits.right() < width
    card.set_value("5:12:20")
    only = QRegion(card._digits)
    card.render(kept, only.boundingRect().topLeft(), only)
    assert kept.toImage() == card.grab().toImage()


def test_a_note_without_words_is_hidden(look: Look, qtbot: QtBot) -> None:
    note = AmberNote(look, "x")
    qtbot.addWidget(note)
    note.resize(400, 60)
    note.draw("May be under 3.0", "drill wander is a guess")
    assert note.isVisible()
    assert note.accessibleName() == "May be under 3.0"
    narrow, wide = note.heightForWidth(140), note.heightForWidth(800)
    assert narrow > wide
    assert not note.grab().isNull()
    note.draw("")
    assert not note.isVisible()


def test_an_explanation_is_a_sheet_in_its_pane_that_escape_puts_away(
    look: Look, qtbot: QtBot
) -> None:
    pane = PaneFrame(look, "x", "Blank")
    qtbot.addWidget(pane)
    pane.resize(500, 300)
    sheet = ExplainSheet(look, "x.explanation")
    sheet.draw(
        ExplainShown(
            "Resin", "16.5 ml", "a − b", (SheetSection("From", (("Core", "57 ml"), ("", "x"))),) * 6
        )
    )
    pane.show()
    pane.show_sheet(sheet)
    assert sheet.isVisible()
    assert not sheet.isModal()
    assert pane.rect().contains(sheet.geometry())
    pane.grab()
    at = sheet._scroll.verticalScrollBar().value()
    qtbot.keyClick(sheet, Qt.Key.Key_PageDown)
    assert sheet._scroll.verticalScrollBar().value() > at
    with qtbot.waitSignal(sheet.closed):
        qtbot.keyClick(sheet, Qt.Key.Key_Escape)
    with qtbot.waitSignal(sheet.closed):
        sheet.close_button.click()
    pane.show_sheet(None)
    assert not sheet.isVisible()
    sheet.deleteLater()


def test_the_header_of_a_pane_tells_the_card_of_the_walk(look: Look, qtbot: QtBot) -> None:
    pane = PaneFrame(look, "x", "Pot")
    qtbot.addWidget(pane)
    pane.set_right("Big pot")
    pane.set_steps(("Isolate and vent", "Zero"), 1)
    assert pane.accessibleDescription() == "Big pot, 2 of 2, Zero"
    pane.resize(1000, 200)
    wide = pane.grab().toImage()
    pane.resize(150, 200)
    assert wide != pane.grab().toImage()
    plain = pane.grab().toImage()
    pane.set_focused(True)
    assert pane.focused
    assert pane.grab().toImage() != plain


def test_the_rail_keeps_words_under_icons_and_tells_its_choice(look: Look, qtbot: QtBot) -> None:
    rail = Rail(look, "rail")
    qtbot.addWidget(rail)
    entries = [
        RailShown("mix", "Mix", shown=True, focused=True),
        RailShown("cure", "Cure", badge="high"),
        RailShown("pot", "Pot", badge="medium"),
        RailShown("blank", "Blank", badge="low"),
        RailShown("log", "Log"),
    ]
    rail.draw(entries)
    rail.draw(entries)
    rail.resize(100, 500)
    assert not rail.grab().isNull()
    assert rail.buttons["mix"].accessibleDescription() == "shown"
    assert rail.buttons["cure"].accessibleDescription() == "high alarm"
    with qtbot.waitSignal(rail.chosen) as given:
        rail.buttons["pot"].click()
    assert given.args == ["pot"]


def test_icons_differ_from_one_another(look: Look, qapp: object) -> None:
    images = {n: icons.pixmap(n, 48, look.colour(look.tokens.ink)).toImage() for n in icons.NAMES}
    for name, image in images.items():
        assert all(image != other for n, other in images.items() if n != name)
    assert icons.pixmap("pot", 24, look.colour(look.tokens.ink), 2.0).devicePixelRatio() == 2.0


def test_the_bench_view_shows_digits_of_thirty_five_millimetres_and_is_left_by_escape(
    look: Look, qtbot: QtBot
) -> None:
    view = BenchView(look, "bench")
    qtbot.addWidget(view)
    view.draw(BenchShown("Hold past a late gel", "Knobs 12", RULE))
    view.set_digits("3:07:42")
    view.resize(1366, 600)
    view.grab()
    caps = view.digits._font.pixelSize() * look.caps
    assert caps >= 34.9 * look.metrics.px_per_mm - 1
    with qtbot.waitSignal(view.left):
        qtbot.keyClick(view, Qt.Key.Key_Escape)
    with qtbot.waitSignal(view.left):
        qtbot.mouseClick(view, Qt.MouseButton.LeftButton)
    view.draw(BenchShown("May demould"))
    assert view.rule.isHidden()


def test_the_limits_are_acknowledged_by_their_button(look: Look, qtbot: QtBot) -> None:
    ways = (("read", "I have read this"), ("later", "Later"))
    card = LimitsCard(look, "limits", "Limits", ("It cannot see the pot.",), ways)
    qtbot.addWidget(card)
    buttons = {each.objectName(): each for each in card.findChildren(QPushButton)}
    with qtbot.waitSignal(card.read):
        buttons["limits.read"].click()
    with qtbot.assertNotEmitted(card.read), qtbot.waitSignal(card.chosen) as chosen:
        buttons["limits.later"].click()
    assert chosen.args == ["later"]


def test_the_next_line_tells_when_it_is_chosen(look: Look, qtbot: QtBot) -> None:
    line = NextLine(look, "next", NextShown("Hold until 18:20", "gel likely"))
    qtbot.addWidget(line)
    assert line.minimumSizeHint().height() >= 15 * look.metrics.px_per_mm
    with qtbot.waitSignal(line.chosen):
        qtbot.keyClick(line, Qt.Key.Key_Return)
    with qtbot.waitSignal(line.chosen):
        qtbot.mouseClick(line, Qt.MouseButton.LeftButton)
    with qtbot.assertNotEmitted(line.chosen):
        qtbot.keyClick(line, Qt.Key.Key_B)


def test_a_wait_without_rule_or_context_hides_them(look: Look, qtbot: QtBot) -> None:
    wait = WaitBlock(look, "x", WaitShown("Until demould", "l", "r", RULE))
    qtbot.addWidget(wait)
    wait.set_digits("0:10:00")
    wait.draw(WaitShown("Until nail-hard", explains=False))
    assert wait.rule.isHidden()
    assert wait.context.isHidden()
    assert wait.mark.isHidden()
    assert wait.digits.text == "0:10:00"
    assert wait.accessibleName() == "Until nail-hard"


def test_a_range_in_a_short_room_is_written_smaller_before_it_is_cut(
    look: Look, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: list[tuple[str, int]] = []
    real = strokes.write

    def write(painter: QPainter, at: object, words: str, font: QFont, *more: object) -> float:
        written.append((words, font.pixelSize()))
        return real(painter, at, words, font, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(strokes, "write", write)
    told = "gel likely 07:20 – 08:45"
    line = NextLine(look, "next", NextShown("Hold until 09:40", told))
    qtbot.addWidget(line)
    sizes = []
    for width in (1366, 900, 640):
        written.clear()
        line.resize(width, line.sizeHint().height())
        line.grab()
        words, size = written[-1]
        assert (words == told) == (width > 640)
        sizes.append(size)
    assert sizes[0] > sizes[1] == sizes[2]
