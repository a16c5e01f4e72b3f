import itertools

import pytest
from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QImage, QPainter
from pytestqt.qtbot import QtBot

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.pot_line import PotLine
from shopassist.widgets.shown import PotLineShown
from shopassist.widgets.tokens import DARK, POT_FIELDS, PotFace

FACES = list(POT_FIELDS)


def line(look: Look, qtbot: QtBot, face: PotFace = "pressurised", **more: object) -> PotLine:
    made = PotLine(look, "pot_line", PotLineShown(face, "WORD", **more))  # type: ignore[arg-type]
    qtbot.addWidget(made)
    made.resize(1366, made.sizeHint().height())
    made.grab()  # delivers the resize
    return made


def left_part(look: Look, qtbot: QtBot, face: PotFace) -> QImage:
    made = PotLine(look, "pot_line", PotLineShown(face, ""))
    qtbot.addWidget(made)
    made.resize(made.sizeHint().height() * 2, made.sizeHint().height())
    return made.grab().toImage().convertToFormat(QImage.Format.Format_Grayscale8)


def difference(one: QImage, other: QImage) -> float:
    """Share of pixels whose grey differs clearly."""
    a, b = bytes(one.constBits()), bytes(other.constBits())
    return sum(abs(x - y) > 60 for x, y in zip(a, b, strict=True)) / len(a)


def shape(image: QImage) -> QImage:
    """Black and white against its own field, so that only the drawing is left."""
    field = image.pixelColor(image.width() - 2, image.height() // 2).value()
    made = image.copy()
    for y in range(image.height()):
        for x in range(image.width()):
            drawn = abs(image.pixelColor(x, y).value() - field) > 60
            made.setPixelColor(x, y, Qt.GlobalColor.white if drawn else Qt.GlobalColor.black)
    return made


@pytest.mark.parametrize("dark", [False, True])
def test_every_two_states_differ_in_grey_without_their_words(
    look: Look, qtbot: QtBot, dark: bool
) -> None:
    if dark:
        look.set_tokens(DARK)
    drawn = {face: shape(left_part(look, qtbot, face)) for face in FACES}
    for one, other in itertools.combinations(FACES, 2):
        assert difference(drawn[one], drawn[other]) > 0.02, (one, other)


def test_the_line_is_twenty_one_millimetres_high(look: Look, qtbot: QtBot) -> None:
    for pitch in (1 / 0.18, 1 / 0.253, 1 / 0.27):
        look.set_pitch(pitch)
        assert line(look, qtbot).sizeHint().height() >= 21 * pitch


def test_a_screen_reader_hears_all_words(look: Look, qtbot: QtBot) -> None:
    made = line(look, qtbot, report="You reported 2.76 bar", detail="38 min ago", remaining="9:32")
    assert made.accessibleDescription() == "WORD, 9:32, You reported 2.76 bar, 38 min ago"
    made.draw(PotLineShown("open", "OPEN"))
    assert made.accessibleDescription() == "OPEN"


def test_the_button_stands_at_the_right_and_acts_on_release(look: Look, qtbot: QtBot) -> None:
    made = line(look, qtbot, action="Let down")
    made.show()
    assert made.button.geometry().right() < made.width()
    assert made.button.height() >= 9 * look.metrics.px_per_mm
    with qtbot.waitSignal(made.action):
        qtbot.mouseClick(made.button, Qt.MouseButton.LeftButton)
    made.draw(PotLineShown("open", "OPEN"))
    assert not made.button.isVisible()


def test_the_words_end_where_the_button_begins(look: Look, qtbot: QtBot) -> None:
    made = line(look, qtbot, report="long " * 60, action="Let down")
    plain = line(look, qtbot, report="", action="Let down")
    strip = QRect(made.button.x() - 8, 0, 8, made.height())
    assert made.grab(strip).toImage() == plain.grab(strip).toImage()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_keys_choose_the_pots_pane(look: Look, qtbot: QtBot, key: Qt.Key) -> None:
    made = line(look, qtbot)
    with qtbot.waitSignal(made.chosen):
        qtbot.keyClick(made, key)
    with qtbot.assertNotEmitted(made.chosen):
        qtbot.keyClick(made, Qt.Key.Key_A)


def test_a_press_that_slides_off_chooses_nothing(look: Look, qtbot: QtBot) -> None:
    from PySide6.QtCore import QPoint

    made = line(look, qtbot)
    with qtbot.assertNotEmitted(made.chosen):
        qtbot.mousePress(made, Qt.MouseButton.LeftButton, pos=QPoint(300, 10))
        qtbot.mouseRelease(made, Qt.MouseButton.LeftButton, pos=QPoint(300, 900))
    with qtbot.waitSignal(made.chosen):
        qtbot.mouseClick(made, Qt.MouseButton.LeftButton, pos=QPoint(300, 10))


def test_only_the_edge_of_suspect_pulses(look: Look, qtbot: QtBot) -> None:
    for face, pulses in (("suspect", True), ("pressurised", False)):
        made = line(look, qtbot, face)  # type: ignore[arg-type]
        lit = made.grab().toImage()
        made.pulse(on=False)
        dim = made.grab().toImage()
        assert (lit != dim) is pulses
        inner = QRect(8, 8, made.width() - 16, made.height() - 16)
        assert lit.copy(inner) == dim.copy(inner)


def test_the_bar_of_a_permit_shrinks_with_its_life(look: Look, qtbot: QtBot) -> None:
    def bar(life: float) -> int:
        image = line(look, qtbot, "clear_to_open", life=life).grab().toImage()
        y = image.height() - 5
        white = look.colour(POT_FIELDS["clear_to_open"].text)
        return sum(image.pixelColor(x, y) == white for x in range(image.width()))

    assert bar(1.0) == 1366
    assert bar(0.5) == pytest.approx(683, abs=2)
    assert bar(0.0) == 0
    assert bar(-1.0) == 0


def test_the_ring_takes_the_text_colour_of_the_field(look: Look, qtbot: QtBot) -> None:
    made = line(look, qtbot, "letting_down", action="Vent now")
    assert made.ring_colour() == POT_FIELDS["letting_down"].text
    assert made.button.ring_colour() == POT_FIELDS["letting_down"].text


def test_in_a_short_room_what_was_reported_comes_before_that_it_was(
    look: Look, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    written: list[str] = []
    real = strokes.write

    def write(painter: QPainter, at: tuple[float, float], words: str, *more: object) -> float:
        written.append(words)
        return real(painter, at, words, *more)  # type: ignore[arg-type]

    monkeypatch.setattr(strokes, "write", write)
    report, detail = "You reported 2.76 bar", "45 min ago · Big pot"
    brief = ("2.76 bar", f"you reported, {detail}")
    made = line(look, qtbot, report=report, detail=detail, brief=brief)
    for width, told in ((1300, report), (620, brief[0])):
        written.clear()
        made.resize(width, made.sizeHint().height())
        made.grab()
        assert told in written, (width, written)
