"""The charts of a cure as a table: for people who cannot see them, and for a spreadsheet."""

from collections.abc import Callable, Sequence

from shopassist.core.wording import NONE, Wording
from shopassist.panes.cure.screen import TableShown
from shopassist.services.cure import Standing
from shopassist.services.curve import AgeCurve, WarmthCurve, age_curve, warmth_curve
from shopassist.services.table import table

HOUR = 3600.0
WORDS = (0, 6)
"""Columns of words: when, and what was measured."""
EVERY = 4
"""Each fourth point of the curve is a row."""
Cell = str | float | None
Row = tuple[float, tuple[Cell, ...]]
Keep = Callable[[str, str], str]
"""Writes a text under a name; returns where it lies."""


class TableOf:
    """Rows of one cure: its age as it was and will be, and every temperature that was read."""

    def __init__(
        self, words: Wording, standing: Standing | None, earlier: Sequence[Standing] = ()
    ) -> None:
        self._words = words
        age = None if standing is None else age_curve(standing, earlier)
        ghosts = () if age is None else age.earlier
        self._blank: tuple[Cell, ...] = (None,) * len(ghosts)
        warmth = None if standing is None else warmth_curve(standing)
        rows = [*self._ages(age), *self._read(warmth), *self._gaps(warmth)]
        self._rows = [cells for _, cells in sorted(rows, key=lambda row: row[0])]
        at = "" if age is None else f" at {words.amount(age.reference, 'Kelvin', 0)}"
        unit = words.unit("Kelvin")
        self.head = (
            "When", f"Hours old{at}, slow", "likely", "fast", f"Coldest {unit}", f"Warmest {unit}",
            "Measured", *(f"Likely, as of {self._moment(each.at)}" for each in ghosts),
        )  # fmt: skip

    def _ages(self, curve: AgeCurve | None) -> list[Row]:
        found: list[Row] = []
        if curve is None:
            return found
        for place, point in list(enumerate(curve.points))[::EVERY]:
            ages = (point.slow / HOUR, point.likely / HOUR, point.fast / HOUR)
            before = (_hours(ghost.likely[place]) for ghost in curve.earlier)
            cells = (self._moment(point.at), *ages, None, None, None, *before)
            found.append((float(point.at), cells))
        return found

    def _read(self, curve: WarmthCurve | None) -> list[Row]:
        found: list[Row] = []
        for each in () if curve is None else curve.read:
            ends = (self._shown(each.low), self._shown(each.high))
            told = each.where
            if each.since < each.at:
                told = f"{told}, since {self._moment(each.since)}"
            cells = (self._moment(each.at), None, None, None, *ends, told, *self._blank)
            found.append((float(each.at), cells))
        return found

    def _gaps(self, curve: WarmthCurve | None) -> list[Row]:
        """Stretches that nobody knows, and such without a reading."""
        if curve is None:
            return []
        stretches = [(each, "not known") for each in curve.unknown]
        stretches += [(each, "no reading") for each in curve.unread]
        nothing: tuple[Cell, ...] = (None,) * 5
        return [
            (float(start), (self._moment(start), *nothing, f"{what} until {self._moment(end)}",
                            *self._blank))
            for (start, end), what in stretches
        ]  # fmt: skip

    def _moment(self, utc: float) -> str:
        return f"{self._words.date(utc)} {self._words.clock(utc)}"

    def _shown(self, kelvin: float) -> float:
        unit = self._words.table.get(self._words.units.unit("Kelvin"), "Kelvin")
        return float((kelvin - unit.offset) / unit.factor)

    def shown(self) -> TableShown:
        """In words, for the page."""
        return TableShown(
            self.head,
            tuple(tuple(self._cell(cell) for cell in row) for row in self._rows),
            WORDS,
        )

    def _cell(self, cell: Cell) -> str:
        if cell is None:
            return NONE
        return cell if isinstance(cell, str) else self._words.number(cell, 1)

    def csv(self) -> str:
        """For a spreadsheet, which runs none of it."""
        return table(self.head, self._rows, self._words.style.decimal)


def _hours(age: float | None) -> float | None:
    return None if age is None else age / HOUR


def file_name(batch: str, batch_id: str) -> str:
    """A name that every file system takes."""
    word = "".join(c if c.isalnum() else "-" for c in batch).strip("-") or "batch"
    return f"{word}-{batch_id}-cure.csv"
