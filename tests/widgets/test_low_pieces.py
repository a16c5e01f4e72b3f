"""In a low window pieces of the pot leave out what explains, before a word of theirs is cut."""

import pytest
from PySide6.QtGui import QFont, QPainter
from PySide6.QtWidgets import QWidget

from shopassist.widgets import strokes
from shopassist.widgets.answer_button import AnswerButton
from shopassist.widgets.lid import Lid
from shopassist.widgets.look import Look
from shopassist.widgets.pot_card import StopButton
from shopassist.widgets.shown import AnswerShown, LidHole, LidShown

WIDE = 240


@pytest.fixture
def written(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Every word that is written."""
    words: list[str] = []
    real = strokes.write

    def write(painter: QPainter, at: object, text: str, font: QFont, *more: object) -> float:
        words.append(text)
        return real(painter, at, text, font, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(strokes, "write", write)
    return words


def told(piece: QWidget, bodies: float, look: Look, written: list[str]) -> str:
    """What a piece writes at a height in body sizes."""
    written.clear()
    piece.resize(WIDE, round(bodies * look.metrics.body_px))
    piece.grab()
    return " ".join(written)


def test_an_answer_keeps_its_own_words(look: Look, written: list[str]) -> None:
    piece = AnswerButton(look, "a", AnswerShown("F9", "Vent now", "Records the vent open at once"))
    assert told(piece, 6, look, written) == "F9 Vent now Records the vent open at once"
    assert told(piece, 3, look, written) == "F9 Vent now"
    piece.deleteLater()


def test_stop_keeps_its_own_word(look: Look, written: list[str]) -> None:
    piece = StopButton(look, "pot.stop", "Stop", "leave the vent open, walk away")
    assert told(piece, 6, look, written) == "Stop leave the vent open, walk away"
    assert told(piece, 3, look, written) == "Stop"
    piece.deleteLater()


def test_a_lid_too_small_to_be_read_is_not_drawn_but_told(look: Look, written: list[str]) -> None:
    shown = LidShown((1, 2, 3), holes=(LidHole("vent", 0.5, 0.5, "vent"),), beside="On the wall.")
    piece = Lid(look, "lid", shown)
    assert told(piece, 12, look, written) == "vent 1 2 3 On the wall."
    assert told(piece, 6.5, look, written) == "1 2 3 On the wall."
    assert told(piece, 4, look, written) == "On the wall."
    piece.deleteLater()
