"""What a shop says of itself once: units, number style, elevation, walk, a ruler at the screen."""

from collections.abc import Callable

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.rows import Json
from shopassist.core.wording import Wording
from shopassist.services.settings import Settings
from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.piece import Piece, name_it
from shopassist.widgets.quantity_edit import QuantityEdit

CHOICES: tuple[tuple[str, str, tuple[tuple[str, str], ...]], ...] = (
    ("units", "Units", (("metric", "metric"), ("us", "US"), ("mixed", "mixed"))),
    ("decimal", "Decimal sign", ((".", "1.5"), (",", "1,5"))),
    ("date_order", "Dates begin with", (("day", "day"), ("month", "month"), ("year", "year"))),
)
ELEVATION = EntrySpec("Metre", "m", "shop.elevation", lowest=-430.0, highest=6000.0)
WALK = EntrySpec("Second", "s", "shop.walk", lowest=0.0, highest=600.0)
BRIEF = ("units", "decimal")
RULER_MM = 60.0
RULER = EntrySpec("Metre", "mm", "shop.ruler", lowest=0.03, highest=0.12)

Change = Callable[[str, Json], object]


class Ruler(Piece):
    """A line that should measure sixty millimetres."""

    def sizeHint(self) -> QSize:
        """As long as the line, a little air."""
        return QSize(self.look.mm(RULER_MM) + 4, self.look.mm(3))

    def minimumSizeHint(self) -> QSize:
        """Never cut."""
        return self.sizeHint()

    def paint(self, painter: QPainter, dirty: QRect) -> None:
        """A line with a stroke at each end."""
        del dirty
        ink, length, middle = self.colour("ink"), self.look.mm(RULER_MM), self.height() // 2
        strokes.across(painter, 0, length, middle, ink, 2)
        for x in (0, length):
            strokes.down(painter, x, 0, self.height(), ink, 2)


class ShopEntries(QWidget):
    """Everything the settings hold that a person can tell; each choice counts at once."""

    def __init__(
        self, look: Look, wording: Wording, now: Callable[[], Settings], change: Change,
        *, brief: bool = False,
    ) -> None:  # fmt: skip
        super().__init__()
        self._look, self._wording, self._now, self._change = look, wording, now, change
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round((2 if brief else 0.8) * look.u))
        for name, label, ways in CHOICES:
            if not brief or name in BRIEF:
                column.addLayout(self._row(name, label, ways))
        self._number(column, "elevation", "Shop above the sea", ELEVATION)
        if not brief:
            self._number(column, "walk", "Least time from here to the pot", WALK)
            self._measure(column)

    def _row(self, name: str, label: str, ways: tuple[tuple[str, str], ...]) -> QVBoxLayout:
        block, row = QVBoxLayout(), QHBoxLayout()
        block.setSpacing(round(self._look.u / 2))
        row.setSpacing(round(1.5 * self._look.u))
        title = QLabel(label)
        title.setProperty("kind", "label")
        block.addWidget(title)
        group = QButtonGroup(self)
        for key, words in ways:
            button = QPushButton(words)
            name_it(button, f"shop.{name}.{key}", f"{label}: {words}")
            button.setCheckable(True)
            button.setProperty("kind", "choice")
            button.setChecked(getattr(self._now(), name) == key)
            button.clicked.connect(lambda _=False, key=key: self._change(name, key))
            group.addButton(button)
            row.addWidget(button, 1)
        block.addLayout(row)
        return block

    def _number(self, column: QVBoxLayout, name: str, label: str, spec: EntrySpec) -> None:
        edit = QuantityEdit(self._look, spec.field, label, spec, self._wording)
        value = float(getattr(self._now(), name))
        own = value != float(getattr(Settings(), name))
        edit.set_value(value, "typed" if own else "default", 0)
        edit.committed.connect(lambda entry: self._take(name, entry))
        column.addWidget(edit)

    def _measure(self, column: QVBoxLayout) -> None:
        edit = QuantityEdit(
            self._look, "shop.ruler", "By a ruler, the line below is", RULER, self._wording
        )
        edit.committed.connect(self._measured)
        column.addWidget(edit)
        column.addWidget(Ruler(self._look, "shop.ruler.line", "Line to be measured"))

    def _take(self, name: str, entry: Entry | None) -> None:
        self._change(name, 0.0 if entry is None else entry.value)

    def _measured(self, entry: Entry | None) -> None:
        """The screen says 60 mm, the ruler says what is typed: correct all sizes by it."""
        if entry is not None:
            size = float(self._now().size) * RULER_MM / 1000 / entry.value
            self._change("size", min(max(size, 0.5), 2.0))
