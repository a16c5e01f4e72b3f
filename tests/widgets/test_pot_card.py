import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets.hair import Hair
from shopassist.widgets.look import Look
from shopassist.widgets.pot_card import PotCardFrame, QuietColumn, ReportedRows, StopButton
from shopassist.widgets.prose import Heading, Question, wrapped
from shopassist.widgets.shown import Reported

ROWS = (Reported("Inlet", "shut"), Reported("Hose", "bled, apart"))


def card(look: Look, qtbot: QtBot) -> tuple[PotCardFrame, QuietColumn, StopButton, Question]:
    column = QuietColumn(look, "pot.quiet", "You reported")
    column.draw(ROWS)
    stop = StopButton(look, "pot.stop", "Stop", "leave the vent open, walk away")
    column.set_stop(stop)
    frame = PotCardFrame(look, "pot.card", column)
    question = Question(look, "pot.question", "Leave the vent open.\nWhat does the gauge read?")
    frame.right.addWidget(question)
    frame.right.addStretch(1)
    qtbot.addWidget(frame)
    frame.resize(900, 500)
    frame.show()
    return frame, column, stop, question


def test_each_sentence_of_a_question_has_a_line_of_its_own(look: Look, qtbot: QtBot) -> None:
    frame, _, _, question = card(look, qtbot)
    assert frame.isVisible()
    assert question.height() >= 2 * look.font("question").caps
    assert wrapped(look, "question", question.words, 2000) == [
        "Leave the vent open.",
        "What does the gauge read?",
    ]
    assert question.accessibleName() == question.words


def test_a_narrow_question_takes_more_lines(look: Look, qtbot: QtBot) -> None:
    question = Question(look, "pot.question", "What does the gauge read?")
    qtbot.addWidget(question)
    assert question.heightForWidth(200) > question.heightForWidth(2000)
    question.draw("One.\nTwo.\nThree.")
    assert question.sizeHint().height() >= question.heightForWidth(2000)
    assert question.accessibleName() == "One.\nTwo.\nThree."


def test_no_words_take_no_lines(look: Look) -> None:
    assert wrapped(look, "body", "", 100) == []


def test_what_was_reported_can_be_heard(look: Look, qtbot: QtBot) -> None:
    rows = ReportedRows(look, "x", "You reported", ROWS)
    qtbot.addWidget(rows)
    assert rows.accessibleDescription() == "Inlet: shut; Hose: bled, apart"
    assert not rows.grab().isNull()


def test_a_long_answer_goes_on_in_the_next_line(look: Look, qtbot: QtBot) -> None:
    """Nothing of what was reported is cut."""
    long = (Reported("Relief ring", "Lifts and snaps back, no crust to be seen"), *ROWS)
    rows = ReportedRows(look, "x", "You reported", long)
    qtbot.addWidget(rows)
    rows.resize(200, 300)
    rows.show()
    narrow = rows.sizeHint().height()
    assert rows.minimumSizeHint().height() == narrow
    rows.resize(600, 300)
    assert rows.sizeHint().height() < narrow
    wide = rows.grab().toImage()
    rows.draw((Reported("Relief ring", "Lifts"), *ROWS))
    assert rows.grab().toImage() != wide


def test_stop_is_one_press_and_stands_at_the_foot(look: Look, qtbot: QtBot) -> None:
    frame, column, stop, _ = card(look, qtbot)
    with qtbot.waitSignal(stop.clicked):
        qtbot.mouseClick(stop, Qt.MouseButton.LeftButton)
    with qtbot.waitSignal(stop.clicked):
        qtbot.keyClick(stop, Qt.Key.Key_Space)
    assert abs(stop.geometry().bottom() - column.rect().bottom()) <= 1
    assert stop.accessibleDescription() == "leave the vent open, walk away"
    assert not frame.grab().isNull()


def test_stop_is_drawn_without_red(look: Look, qtbot: QtBot) -> None:
    stop = StopButton(look, "pot.stop", "Stop", "")
    qtbot.addWidget(stop)
    stop.resize(240, 110)
    image = stop.grab().toImage()
    for x in range(0, 240, 3):
        for y in range(0, 110, 3):
            colour = image.pixelColor(x, y)
            assert colour.red() < colour.blue() + 60


def test_the_latest_report_stays_in_sight(look: Look, qtbot: QtBot) -> None:
    frame, column, _, _ = card(look, qtbot)
    column.draw(tuple(Reported(f"Row {n}", "seen") for n in range(40)))
    bar = column._scroll.verticalScrollBar()
    qtbot.waitUntil(lambda: bar.maximum() > 0 and bar.value() == bar.maximum(), timeout=30_000)
    assert frame.isVisible()


def test_headings_and_hairlines_draw_in_their_colours(look: Look, qtbot: QtBot) -> None:
    heading = Heading(look, "x", "Timed step ahead", "bold", "ink")
    across, down = Hair(look), Hair(look, down=True)
    for piece in (heading, across, down):
        qtbot.addWidget(piece)
        assert isinstance(piece, QWidget)
        piece.resize(200, 40)
        assert not piece.grab().isNull()
    image = across.grab().toImage()
    hairs = {image.pixelColor(100, y).name() for y in range(40)}
    assert look.tokens.hair.lower() in hairs


def test_what_was_reported_is_scrolled_by_whole_rows(
    look: Look, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: list[str] = []
    real = ReportedRows._row

    def row(self: ReportedRows, painter: QPainter, name: str, lines: list[str], top: float) -> None:
        written.append(name)
        real(self, painter, name, lines, top)

    monkeypatch.setattr(ReportedRows, "_row", row)
    frame, column, _, _ = card(look, qtbot)
    column.draw(tuple(Reported(f"Item {n}", f"answer {n}") for n in range(40)))
    qtbot.waitUntil(lambda: "Item 39" in written)
    scroll = column._scroll
    step = ReportedRows._step(column.rows)
    assert column.rows.height() > scroll.viewport().height()
    written.clear()
    scroll.verticalScrollBar().setValue(round(2.5 * step))
    qtbot.waitUntil(lambda: "Item 3" in written)
    assert "Item 2" not in written
    assert frame.isVisible()
    assert len(written) < 40
