"""Words under an entry: only the lines that changed are painted anew."""

import pytest
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage, QRegion
from pytestqt.qtbot import QtBot

from shopassist.widgets.echo import Echo
from shopassist.widgets.look import Look

NOTES = "Lift on the core 0.41 N.\nOne layer of 60 mm.\nSide load 3.2 N; it bows 0.02 mm."


@pytest.fixture
def echo(qtbot: QtBot, look: Look) -> Echo:
    made = Echo(look, "notes")
    qtbot.addWidget(made)
    made.resize(400, 120)
    made.say(NOTES, "label")
    return made


def picture(echo: Echo, region: QRegion | None = None, onto: QImage | None = None) -> QImage:
    image = QImage(echo.size(), QImage.Format.Format_ARGB32)
    image.fill(0xFFFFFFFF)
    if onto is not None:
        image = onto.copy()
    part = region or QRegion(echo.rect())
    echo.render(image, part.boundingRect().topLeft(), part, echo.RenderFlag.DrawWindowBackground)
    return image


def asked(echo: Echo, monkeypatch: pytest.MonkeyPatch) -> list[QRect]:
    """What is asked to be painted from now on."""
    found: list[QRect] = []
    monkeypatch.setattr(
        echo, "update", lambda *part: found.append(part[0] if part else echo.rect())
    )
    return found


def test_one_changed_line_is_painted_and_the_picture_is_that_of_all(
    echo: Echo, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, parts = picture(echo), asked(echo, monkeypatch)
    echo.say(NOTES.replace("60 mm", "61 mm"), "label")
    assert len(parts) == 1
    assert parts[0].height() < echo.height() / 2
    whole = picture(echo)
    assert whole != before
    assert picture(echo, QRegion(parts[0]), before) == whole


def test_more_lines_ask_for_another_height_and_all_is_painted(
    echo: Echo, monkeypatch: pytest.MonkeyPatch
) -> None:
    parts = asked(echo, monkeypatch)
    echo.say(f"{NOTES}\nNo cut-out.", "label")
    assert parts == [echo.rect()]


def test_the_same_words_as_a_fault_are_painted_in_its_ink(
    echo: Echo, monkeypatch: pytest.MonkeyPatch
) -> None:
    parts = asked(echo, monkeypatch)
    echo.say(NOTES, "error")
    assert parts == [echo.rect()]
    echo.say(NOTES, "error")
    assert parts == [echo.rect()]
