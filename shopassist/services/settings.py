"""What the user chose once: units, number style, theme, place. Few, with defaults that work."""

import math
from collections.abc import Callable, Mapping
from dataclasses import asdict, fields, replace
from typing import Literal, Protocol, cast

from shopassist.core.errors import EntryError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import Metre, Ratio, Second
from shopassist.core.rows import Json
from shopassist.services.hooks import Hook

Units = Literal["metric", "us", "mixed"]
Decimal = Literal[".", ","]
Theme = Literal["system", "light", "dark"]
DateOrder = Literal["day", "month", "year"]

SEA_LEVEL = Metre(0.0)


@frozen
class Settings:
    """The user's choices, each with a default of our own."""

    version: int = 1
    units: Units = "metric"
    decimal: Decimal = "."
    date_order: DateOrder = "day"
    """What stands first in a date."""
    theme: Theme = "system"
    elevation: Metre = SEA_LEVEL
    """Height of the shop above the sea, for the local pressure."""
    walk: Second = Second(5.0)
    """The least time from the screen to the pot: a faster answer is asked for once more."""
    size: Ratio = Ratio(1.0)
    """Correction of the screen's stated size, from a ruler held to it."""
    sound: bool = True


Problem = tuple[str, Text]


class SettingsKeeper(Protocol):
    """Where settings are kept."""

    problems: tuple[Text, ...]

    def load(self) -> dict[str, Json]:
        """Everything in the file, known or not; empty where there is none."""
        ...

    def save(self, values: Mapping[str, Json]) -> None:
        """Write it all; raises ``StoreError``."""
        ...


class SettingsService:
    """Holds the settings; a value that cannot be used falls back, and that is told."""

    def __init__(self, keeper: SettingsKeeper) -> None:
        self.changed: Hook[Settings] = Hook()
        self._keeper = keeper
        self._all = keeper.load()
        self.now, wrong = settings_of(self._all)
        self.problems: tuple[Text, ...] = (*keeper.problems, *(text for _, text in wrong))
        """What could not be used at the start, in plain words."""
        self._refused = {name for name, _ in wrong}

    def change(self, **values: Json) -> None:
        """Take new values, keep them, tell; raises ``EntryError`` or ``StoreError``."""
        taken, wrong = settings_of({**asdict(self.now), **values})
        if wrong:
            name, text = wrong[0]
            raise EntryError(text, field=f"settings.{name}")
        changed = {
            name: cast("Json", value)
            for name, value in asdict(taken).items()
            if name in values or name not in self._refused
        }
        kept = {**self._all, **changed}
        self._keeper.save(kept)
        self._all, self.now = kept, taken
        self._refused -= set(values)
        self.changed.emit(taken)


def settings_of(raw: Mapping[str, Json]) -> tuple[Settings, tuple[Problem, ...]]:
    """Read settings; unknown names are passed over, unusable values fall back and are listed."""
    usable: dict[str, Json] = {}
    problems: list[Problem] = []
    for known in fields(Settings):
        if known.name not in raw or known.name == "version":
            continue
        value = raw[known.name]
        if CHECKS[known.name](value):
            usable[known.name] = value
        else:
            problems.append((known.name, _cannot_use(known.name, value)))
    return replace(Settings(), **usable), tuple(problems)  # type: ignore[arg-type]


def _cannot_use(name: str, value: Json) -> Text:
    return say("The setting {name} cannot be {value}.", name=name, value=str(value))


def _one_of(*allowed: str) -> Callable[[Json], bool]:
    return lambda value: isinstance(value, str) and value in allowed


def _within(low: float, high: float) -> Callable[[Json], bool]:
    def holds(value: Json) -> bool:
        number = isinstance(value, int | float) and not isinstance(value, bool)
        return (
            number and math.isfinite(cast("float", value)) and low <= cast("float", value) <= high
        )

    return holds


CHECKS: dict[str, Callable[[Json], bool]] = {
    "units": _one_of("metric", "us", "mixed"),
    "decimal": _one_of(".", ","),
    "date_order": _one_of("day", "month", "year"),
    "theme": _one_of("system", "light", "dark"),
    "elevation": _within(-430.0, 6_000.0),
    "walk": _within(0.0, 600.0),
    "size": _within(0.5, 2.0),
    "sound": lambda value: isinstance(value, bool),
}
"""Which values each setting may take; the bounds are our own choice."""
