"""The nine states of a pot can be told apart without their words, by every kind of eye."""

import itertools
from typing import get_args

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.widgets.look import Look
from shopassist.widgets.pot_line import PotLine
from shopassist.widgets.shown import PotLineShown
from shopassist.widgets.tokens import DARK, POT_FIELDS, PotFace
from tests.widgets.pictures import VISIONS, Pixels, plainly

FACES: tuple[PotFace, ...] = get_args(PotFace)
LEAST = 0.01


def pictures(look: Look, vision: str) -> dict[str, Pixels]:
    """The left end of the line: edge, hatching and glyph, with no words at all."""
    line = PotLine(look, "pot_line", PotLineShown("open", ""))
    line.resize(900, line.sizeHint().height())
    line.show()
    found = {}
    for face in FACES:
        life = 0.6 if face.startswith("clear") else None
        line.draw(PotLineShown(face, "", life=life))
        QApplication.processEvents()
        wide = round(1.6 * line.height())
        found[str(face)] = plainly(
            line.grab(line.rect().adjusted(0, 0, wide - 900, 0)).toImage(), vision
        )
    line.close()
    line.deleteLater()
    return found


@pytest.mark.parametrize("vision", VISIONS)
@pytest.mark.parametrize("dark", [False, True])
def test_no_two_states_look_alike(look: Look, vision: str, dark: bool) -> None:
    if dark:
        look.set_tokens(DARK)
    seen = pictures(look, vision)
    assert len(seen) == 9
    for one, two in itertools.combinations(seen, 2):
        assert glyph_apart(seen[one], seen[two]) > LEAST, (one, two, vision)


def glyph_apart(one: Pixels, two: Pixels) -> float:
    """Difference of shape alone: each picture against its own field first."""
    return sum(abs(a - b) for a, b in zip(_shape(one), _shape(two), strict=True)) / len(one)


def _shape(pixels: Pixels) -> list[float]:
    light = [0.2126 * red + 0.7152 * green + 0.0722 * blue for red, green, blue in pixels]
    field = sorted(light)[len(light) // 2]
    return [abs(each - field) for each in light]


def test_the_same_state_is_the_same(look: Look) -> None:
    assert glyph_apart(*[pictures(look, "grey")["open"] for _ in range(2)]) == 0


def test_no_field_of_a_pot_is_green() -> None:
    for face, pair in POT_FIELDS.items():
        for value in (pair.field, pair.text):
            red, green, blue = (int(value[n : n + 2], 16) for n in (1, 3, 5))
            assert not (green > red + 8 and green > blue + 8), (face, value)
