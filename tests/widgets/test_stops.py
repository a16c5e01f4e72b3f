"""The present stop, beside the entry that takes what the scale shows."""

import pytest
from PySide6.QtCore import QRect, QSize
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from shopassist.widgets.look import Look
from shopassist.widgets.shown import StopShown
from shopassist.widgets.stops import TEXT_X, Stops

STOPS = (
    StopShown("Resin", "178.0", "g", "done", "stop was 178.0 g"),
    StopShown("Hardener", "231.4", "g", "present", "until 231.4 g"),
)


class Entry(QWidget):
    """As wide as an entry of grams, whatever the theme."""

    def sizeHint(self) -> QSize:
        return QSize(120, 30)


def height_of_ink(look: Look, stops: Stops, row: QRect, before: int) -> int:
    """How high the blackest words stand in a row, right of its name and left of an entry."""
    picture, ink = stops.grab().toImage(), look.colour(look.tokens.ink)
    left = round(TEXT_X * look.u) + round(look.font("bold").advance("Hardener")) + 4
    rows = [
        y
        for y in range(row.top(), row.bottom() - 2)
        if any(picture.pixelColor(x, y) == ink for x in range(left, before))
    ]
    return max(rows) - min(rows) + 1 if rows else 0


@pytest.mark.parametrize(("width", "role"), [(600, "lead"), (340, "lead_small"), (240, "")])
def test_beside_its_entry_the_present_stop_is_as_large_as_there_is_room(
    look: Look, qtbot: QtBot, width: int, role: str
) -> None:
    """It is what the eye goes to from the scale."""
    stops = Stops(look, "x")
    qtbot.addWidget(stops)
    stops.draw(STOPS)
    stops.resize(width, stops.sizeHint().height())
    entry = Entry()
    stops.place(entry)
    high = height_of_ink(look, stops, stops.row(1), entry.x())
    wanted = round(look.font(role).caps) if role else 0  # type: ignore[arg-type]
    assert abs(high - wanted) <= 3, (high, wanted)
