"""Records that a set of cores may use: chambers, pumps, baths; and what earlier sets left there."""

from collections.abc import Callable, Iterable, Mapping
from typing import TypeVar

from shopassist.core.chamber import Chamber
from shopassist.core.civil import seconds_of
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kilogram, Second
from shopassist.core.wood_set import WoodSet
from shopassist.core.wood_shelf import BathRecord, VacuumPump
from shopassist.services.said import Said
from shopassist.services.stabilise_bath import used_of
from shopassist.services.stabilise_facts import over_dial, resin_of
from shopassist.services.versions import Library, Version

R = TypeVar("R")
NOT_SAID = ("", "not said")
DAY_PARTS = 3


@frozen
class Earlier:
    """A set of another batch."""

    batch_id: str
    name: str
    said: Said
    state: WoodSet


@frozen
class WoodShelf:
    """Each library is fetched when it is asked for."""

    chambers: Callable[[], Library[Chamber]]
    pumps: Callable[[], Library[VacuumPump]]
    baths: Callable[[], Library[BathRecord]]

    def choices(self) -> Mapping[str, tuple[tuple[str, str], ...]]:
        """Id and name of every chamber and pump that can be used."""
        return {"chamber_record": _offered(self.chambers()), "pump_record": _offered(self.pumps())}

    def chamber(self, said: Said) -> Chamber | None:
        """The chosen chamber."""
        return _record(self.chambers(), said.word("chamber_record"))

    def pump(self, said: Said) -> VacuumPump | None:
        """The chosen pump."""
        return _record(self.pumps(), said.word("pump_record"))

    def bath(self, said: Said) -> Version[BathRecord] | None:
        """The record that bears the name of the bath."""
        name = said.word("bath").strip().casefold()
        found = (each for each in self.baths().all() if each.name.casefold() == name)
        return next(found, None) if name else None


def _offered(library: Library[R]) -> tuple[tuple[str, str], ...]:
    usable = ((each.id, each.name) for each in library.all() if not each.is_broken)
    return (NOT_SAID, *usable)


def _record(library: Library[R], record_id: str) -> R | None:
    version = library.newest(record_id) if record_id else None
    return None if version is None or version.removed else version.record


def pump_hours(pump_id: str, changed: str, earlier: Iterable[Earlier]) -> Second:
    """How long a pump has run for sets since its oil was changed."""
    since = _midnight(changed)
    runs = (
        (end - start)
        for each in earlier
        if each.said.word("pump_record") == pump_id
        for start, end in each.state.pumped
        if start >= since
    )
    return Second(sum(runs))


def _midnight(date: str) -> float:
    parts = date.split("-")
    if len(parts) != DAY_PARTS:
        return 0.0
    year, month, day = (int(part) for part in parts)
    return float(seconds_of(year, month, day))


def bath_left(version: Version[BathRecord], earlier: Iterable[Earlier]) -> Kilogram | None:
    """What its record says, less what sets have taken since the record was saved."""
    record = version.record
    if record is None or record.left is None:
        return None
    taken = sum(
        _taken(each) for each in earlier
        if each.said.word("bath").strip().casefold() == record.name.casefold()
        and (into := each.state.last("bath")) is not None and into.seq > version.seq
    )  # fmt: skip
    return Kilogram(max(0.0, record.left - taken))


def _taken(each: Earlier) -> float:
    """Resin that one set took out of its bath, [kg]: by volumes, else by its own weight."""
    used = used_of(each.said.get)
    if used is not None:
        return max(0.0, used * resin_of(each.said))
    dry, soaked = each.state.last("bath"), each.state.last("soaked")
    return 0.0 if dry is None or soaked is None else max(0.0, soaked.mass - dry.mass)


def oven_offset(said: Said, earlier: Iterable[Earlier]) -> float | None:
    """How far the same oven ran above its dial the last time that both were told, [K]."""
    name = said.word("oven_name").strip().casefold()
    for each in earlier:
        off = over_dial(each.said, each.state)
        same = each.said.word("oven_name").strip().casefold() == name
        if name and same and off is not None:
            return off
    return None
