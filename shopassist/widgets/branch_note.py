"""Something odd at a pot: every kind has a mark of its own, and a block by how much it hurries."""

from typing import Literal

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, Qt
from PySide6.QtWidgets import QWidget

from shopassist.widgets.amber_note import AmberNote
from shopassist.widgets.icons import GRID, lines
from shopassist.widgets.look import Look
from shopassist.widgets.piece import describe

Rank = Literal["high", "medium", "low"]
BLOCKS: dict[Rank, tuple[str, str]] = {
    "high": ("error", "sheet"), "medium": ("amber", "on_amber"), "low": ("select", "ink"),
}  # fmt: skip
STROKE = 2.0


POT = "6,11 6,21 18,21 18,11 | "
MARKS: dict[str, tuple[Rank, bool, str]] = {
    # a needle past its mark
    "over_rating": ("high", True, "12,12 18,8 | 15.5,4.5 13.5,8.2"),
    # an arrow over a line
    "over_limit": ("medium", False, "3,12 21,12 | 12,21 12,4 | 8,8 12,4 16,8"),
    # smoke over the pot
    "too_hot": ("high", False, POT + "8,8 10,5 8,2 | 12,8 14,5 12,2 | 16,8 18,5 16,2"),
    # a valve that blows
    "relief_lifted": ("high", False, "8,21 8,14 16,14 16,21 | 12,11 12,3 | 7,8 4,5 | 17,8 20,5"),
    # a vent with a bar across it
    "no_hiss": ("medium", False, "9,21 9,10 15,10 15,21 | 4,6 20,6 | 12,10 12,8"),
    # a gauge struck through
    "stuck_gauge": ("medium", True, "12,12 12,6 | 4,20 20,4"),
    # two arrows against one another
    "disagree": (
        "medium", False, "2,12 10,12 | 7,8 10.5,12 7,16 | 22,12 14,12 | 17,8 13.5,12 17,16"
    ),
    # a needle that stays where it was
    "fall_not_seen": ("medium", True, "12,12 7,8 | 8,17 16,17"),
    # a lid apart from its pot
    "reseat": (
        "medium", False, "3,8 21,8 | 5,8 7,4 17,4 19,8 | 4,14 20,14 | 6,14 6,21 18,21 18,14"
    ),
    # a plug pulled
    "supply_lost": (
        "low", False, "2,12 8,12 | 8,8 8,16 | 22,12 15,12 | 15,8 15,16 12,16 12,8 15,8"
    ),
    # a lid with clamps that does not come up
    "stuck_lid": (
        "medium", False, POT + "4,10 20,10 | 12,2 12,7 | 8,5 12,2 16,5 | 4,7 4,13 | 20,7 20,13"
    ),
    # a way that parts
    "lost_track": (
        "medium", False, "12,21 12,13 | 12,13 5,5 | 12,13 19,5 | 5,9 5,5 9,5 | 15,5 19,5 19,9"
    ),
    # a lid beside its pot
    "opened_without_list": ("low", False, POT + "2,8 14,3"),
    # a question
    "cant_tell": ("low", False, "8,9 8,6 11,4 15,5 16,8 12,12 12,15 | 12,19 12,20"),
    # an arrow that climbs
    "rising": ("medium", True, "12,18 12,6 | 7,11 12,6 17,11"),
    # a glass run out
    "expired": ("medium", False, "6,3 18,3 12,12 18,21 6,21 12,12 6,3"),
    # stop
    "suspect": ("high", False, "12,3 22,20 2,20 12,3 | 12,9 12,14 | 12,17 12,18"),
}  # fmt: skip
"""By its key: how much it hurries, whether it is drawn in a dial, and its strokes."""


def _mark(key: str) -> QPainterPath:
    _, dial, runs = MARKS[key]
    path = lines(*(run.strip() for run in runs.split("|")))
    if dial:
        path.addEllipse(QRectF(3, 3, 18, 18))
    return path


class BranchNote(AmberNote):
    """First line what, second line what to do; its mark and its block tell which it is."""

    def __init__(self, look: Look, name: str, parent: QWidget | None = None) -> None:
        super().__init__(look, name, parent)
        self.key = ""

    def show_branch(self, key: str, what: str, why: str) -> None:
        """Show one of the odd things; no words hide it."""
        if key != self.key:
            self.key = key
            self.update()
        self.draw(what, why)
        describe(self, f"{why} ({self.rank})" if what else "")

    @property
    def rank(self) -> Rank:
        """How much it hurries."""
        return MARKS[self.key][0] if self.key in MARKS else "medium"

    def block_colours(self) -> tuple[str, str]:
        """By how much it hurries."""
        return BLOCKS[self.rank]

    def draw_mark(self, painter: QPainter, place: QRectF, colour: QColor) -> None:
        """Draw the mark of this one."""
        if self.key not in MARKS:
            super().draw_mark(painter, place, colour)
            return
        painter.save()
        painter.translate(place.topLeft())
        painter.scale(place.width() / GRID, place.height() / GRID)
        pen = QPen(colour, STROKE, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(pen)
        painter.drawPath(_mark(self.key))
        painter.restore()
