"""Words of several weights, scrolled by themselves or whole within what is scrolled."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from shopassist.widgets.look import Look
from shopassist.widgets.paragraphs import Paragraph, Paragraphs

WORDS: tuple[Paragraph, ...] = tuple(
    ("body", "graphite", f"Line {n} of a list that is longer than a narrow column is wide.")
    for n in range(12)
)


def test_whole_words_ask_for_all_their_height_and_have_no_bar(look: Look, qtbot: QtBot) -> None:
    made = Paragraphs(look, "x", "The list", whole=True)
    qtbot.addWidget(made)
    made.draw(WORDS)
    heights = []
    for width in (200, 500):
        made.resize(width, 100)
        made.show()
        QApplication.processEvents()
        assert made.verticalScrollBar().maximum() == 0
        inside = made.widget()
        assert inside is not None
        assert inside.height() <= made.height()
        heights.append(made.minimumHeight())
    assert heights[0] > heights[1] > 100
    assert made.focusPolicy() == Qt.FocusPolicy.NoFocus


def test_by_themselves_they_are_scrolled(look: Look, qtbot: QtBot) -> None:
    made = Paragraphs(look, "x", "The list")
    qtbot.addWidget(made)
    made.draw(WORDS)
    made.resize(200, 100)
    made.show()
    QApplication.processEvents()
    assert made.verticalScrollBar().maximum() > 0
