"""The one family in two weights, sized by the height of its capitals."""

import math
from collections.abc import Iterable
from pathlib import Path
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontDatabase, QFontMetricsF, QStaticText

from shopassist.widgets.metrics import Metrics

Role = Literal[
    "state",
    "report",
    "age",
    "line_button",
    "next",
    "next_range",
    "digits",
    "across_digits",
    "across_caption",
    "across_side",
    "question",
    "lead",
    "lead_small",
    "title",
    "body",
    "bold",
    "axis",
]

CAPS_MM: dict[str, float] = {
    "state": 11.6,
    "report": 6.5,
    "age": 3.8,
    "line_button": 5.2,
    "next": 9.3,
    "next_range": 9.3,
    "digits": 23.3,
    "across_digits": 34.9,
    "across_caption": 9.3,
    "across_side": 7.4,
    "question": 5.6,
}
"""Sizes that must be read at a distance: millimetres of capital height."""
OF_BODY: dict[str, float] = {
    "lead": 2.6,
    "lead_small": 1.7,
    "title": 1.2,
    "body": 1.0,
    "bold": 1.0,
    "axis": 0.9,
}
"""Sizes that grow with the scale factor: multiples of the body size."""
REGULAR = frozenset({"age", "next_range", "across_side", "body", "axis"})
_PROBE_PX = 1000
MOST_WIDTHS = 2000
"""Words whose width a face remembers."""
MOST_LAID = 300
"""Words that a face keeps laid out; captions and units are painted anew with every number."""


def load(files: Iterable[Path]) -> str:
    """Load font files and return their family, or the system's own where none can be read."""
    numbers = [QFontDatabase.addApplicationFont(str(file)) for file in files]
    found = [QFontDatabase.applicationFontFamilies(number) for number in numbers if number >= 0]
    families = [family for each in found for family in each]
    if not families:
        return QFontDatabase.systemFont(QFontDatabase.SystemFont.GeneralFont).family()
    return families[0]


def caps_ratio(family: str) -> float:
    """Height of this family's capitals in font sizes."""
    probe = QFont(family)
    probe.setPixelSize(_PROBE_PX)
    return max(QFontMetricsF(probe).capHeight() / _PROBE_PX, 0.5)


class Face(QFont):
    """A font in one size that remembers how wide words are in it, and how they are laid out."""

    def __init__(self, family: str) -> None:
        super().__init__(family)
        self._widths: dict[str, float] = {}
        self._laid: dict[str, QStaticText] = {}
        self._caps = self._ascent = self._high = 0.0
        self.broken: dict[tuple[str, float], list[str]] = {}
        """Words that were broken into lines of a width already; whoever breaks them keeps it."""

    @property
    def caps(self) -> float:
        """Height of its capitals, [px]; right once its size is set."""
        if not self._caps:
            self._caps = QFontMetricsF(self).capHeight()
        return self._caps

    @property
    def ascent(self) -> float:
        """From the top of its lines to the baseline, [px]; right once its size is set."""
        if not self._ascent:
            self._ascent = QFontMetricsF(self).ascent()
        return self._ascent

    @property
    def high(self) -> float:
        """Height of its lines, [px]; right once its size is set."""
        if not self._high:
            self._high = QFontMetricsF(self).height()
        return self._high

    def laid(self, words: str) -> QStaticText:
        """Words as they are drawn in it: shaped once, however often they are painted."""
        found = self._laid.get(words)
        if found is None:
            if len(self._laid) > MOST_LAID:
                self._laid.clear()
            found = self._laid[words] = QStaticText(words)
            found.setTextFormat(Qt.TextFormat.PlainText)
        return found

    def advance(self, words: str) -> float:
        """Width of words, [px]; measured once, since layout and painting ask for the same."""
        found = self._widths.get(words)
        if found is None:
            if len(self._widths) > MOST_WIDTHS:
                self._widths.clear()
            found = self._widths[words] = QFontMetricsF(self).horizontalAdvance(words)
        return found


def font(family: str, px: float, *, bold: bool) -> Face:
    """Make a font of one size; figures keep their columns."""
    made = Face(family)
    made.setPixelSize(max(1, round(px)))
    made.setBold(bold)
    made.setFeature(QFont.Tag("tnum"), 1)
    made.setStyleStrategy(QFont.StyleStrategy.PreferAntialias)
    made.setHintingPreference(QFont.HintingPreference.PreferVerticalHinting)
    return made


def role_px(role: Role, metrics: Metrics, caps: float) -> int:
    """Font size of a role in logical pixels."""
    if role in CAPS_MM:
        return math.ceil(CAPS_MM[role] * metrics.px_per_mm / caps - 1e-6)
    return round(OF_BODY[role] * metrics.body_px)
