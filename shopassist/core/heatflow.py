"""Linear thermal networks, solved exactly between the switchings of a thermostat.

Lumps of one temperature each, joined by conductances, some of them to surroundings of
a given temperature. Between switchings every temperature is a sum of exponentials, so
nothing is stepped: a switching is the root of such a sum.
"""

from bisect import bisect_right
from collections.abc import Mapping
from functools import lru_cache
from math import exp, inf, sqrt
from operator import mul
from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.decays import Decays
from shopassist.core.eigen import eigen
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    KelvinDelta,
    Ratio,
    Second,
    Watt,
    WattPerKelvin,
)

MOST_LUMPS = 12
ABSOLUTE_ZERO = Kelvin(0.0)
STILL = 1e-12
"""A rate below this share of the fastest is none: that lump is cut off from all around."""
FINEST_BAND = KelvinDelta(0.02)
"""Thermostats that switch within less would switch without end."""
MOST_SWITCHINGS = 100_000


@frozen
class Lump:
    """A body of one temperature."""

    name: str
    capacity: JoulePerKelvin


@frozen
class Link:
    """A path for heat between two lumps, or between a lump and surroundings of given warmth."""

    one: str
    other: str
    conductance: WattPerKelvin


@frozen
class Network:
    """Lumps and links; a name in a link that is no lump is a surrounding."""

    lumps: tuple[Lump, ...]
    links: tuple[Link, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The lumps in order."""
        return tuple(lump.name for lump in self.lumps)


@frozen
class Thermostat:
    """A heater in one lump, switched by the temperature of another."""

    heated: str
    power: Watt
    watched: str
    set_at: Kelvin
    band: KelvinDelta
    """From switching on, half of it below the set temperature, to switching off above it."""

    @property
    def off_at(self) -> Kelvin:
        """It switches off at this temperature."""
        return Kelvin(self.set_at + self.band / 2)

    @property
    def on_at(self) -> Kelvin:
        """It switches on at this temperature."""
        return Kelvin(self.set_at - self.band / 2)


@frozen
class Modes:
    """A network taken apart into shapes that each decay at a rate of their own."""

    rates: tuple[float, ...]
    """[1/s], rising."""
    spread: tuple[tuple[float, ...], ...]
    """From the modes to the temperatures: one row a lump."""
    weights: tuple[tuple[float, ...], ...]
    """From the temperatures to the modes: one row a mode."""
    capacities: tuple[float, ...]


@frozen
class Stretch:
    """Temperatures of all lumps over a time in which nothing is switched."""

    start: Second
    end: Second
    heating: bool
    modes: Modes
    rest: tuple[float, ...]
    """What each mode tends to."""
    fading: tuple[float, ...]
    """What each mode was away from it at the start."""

    def over(self, lump: int, level: Kelvin) -> Decays:
        """Temperature of a lump over a level, by the time since the start."""
        row = self.modes.spread[lump]
        steady = sum(map(mul, row, self.rest)) - level
        return Decays((0.0, *self.modes.rates), (steady, *map(mul, row, self.fading)))

    def temperature(self, lump: int, time: Second) -> Kelvin:
        """Temperature of a lump at a time within the stretch."""
        return Kelvin(self.over(lump, ABSOLUTE_ZERO).at(time - self.start))

    def passes(self, lump: int, level: Kelvin) -> tuple[Second, ...]:
        """Times in the stretch at which a lump passes a level."""
        zeros = self.over(lump, level).zeros(self.end - self.start)
        return tuple(Second(self.start + t) for t in zeros)

    def held(self) -> list[float]:
        """Where each mode stands at the end."""
        since = self.end - self.start
        triples = zip(self.rest, self.fading, self.modes.rates, strict=True)
        return [level + away * exp(-rate * since) for level, away, rate in triples]


@frozen
class Course:
    """The temperatures of a network over time."""

    names: tuple[str, ...]
    stretches: tuple[Stretch, ...]

    @property
    def end(self) -> Second:
        """Where it ends."""
        return self.stretches[-1].end

    @property
    def switchings(self) -> tuple[Second, ...]:
        """When the heater was switched, on or off."""
        pairs = zip(self.stretches, self.stretches[1:], strict=False)
        return tuple(b.start for a, b in pairs if a.heating != b.heating)

    def temperature(self, name: str, time: Second) -> Kelvin:
        """Temperature of a lump at a time; before the start and after the end, what was there."""
        time = min(max(time, self.stretches[0].start), self.end)
        place = bisect_right(self.stretches, time, key=lambda each: each.start) - 1
        return self.stretches[place].temperature(self.names.index(name), time)

    def state(self, time: Second) -> dict[str, Kelvin]:
        """Temperature of every lump at a time."""
        return {name: self.temperature(name, time) for name in self.names}

    def first(
        self, name: str, level: Kelvin, to: Literal["above", "below"] = "above"
    ) -> Second | None:
        """First time at which a lump is at a level or beyond it; None if it never is."""
        lump, sign = self.names.index(name), 1 if to == "above" else -1
        for each in self.stretches:
            if sign * (each.temperature(lump, each.start) - level) >= 0:
                return each.start
            if passes := each.passes(lump, level):
                return passes[0]
        return None

    def settled(self, name: str, level: Kelvin) -> Second | None:
        """Time from which a lump is never again below a level; None if it ends below it."""
        lump = self.names.index(name)
        if self.stretches[-1].temperature(lump, self.end) < level:
            return None
        for each in reversed(self.stretches):
            if passes := each.passes(lump, level):
                return passes[-1]
            if each.temperature(lump, each.start) < level:
                return each.end
        return self.stretches[0].start

    def duty(self, start: Second, end: Second) -> Ratio:
        """Share of a time in which the heater was on."""
        heating = (
            max(0.0, min(each.end, end) - max(each.start, start))
            for each in self.stretches
            if each.heating
        )
        return Ratio(sum(heating) / (end - start))


@lru_cache(maxsize=64)
def modes_of(network: Network) -> Modes:
    """Take a network apart; refuse names used twice and bodies without capacity."""
    names = network.names
    if len(set(names)) != len(names) or not 0 < len(names) <= MOST_LUMPS:
        raise out_of_range("lumps", "Give each body of the network its own name, twelve at most.")
    for lump in network.lumps:
        need_positive(**{lump.name: lump.capacity})
    roots = [sqrt(lump.capacity) for lump in network.lumps]
    matrix = [[0.0] * len(names) for _ in names]
    for link in network.links:
        _enter(matrix, names, link)
    scaled = [[x / (a * b) for x, b in zip(row, roots, strict=True)]
              for row, a in zip(matrix, roots, strict=True)]  # fmt: skip
    rates, vectors = eigen(scaled)
    spread = tuple(tuple(v[i] / roots[i] for v in vectors) for i in range(len(names)))
    weights = tuple(tuple(x * root for x, root in zip(v, roots, strict=True)) for v in vectors)
    if rates[0] <= STILL * rates[-1]:
        raise out_of_range("links", "A body without any way out for its heat never settles.")
    return Modes(rates, spread, weights, tuple(lump.capacity for lump in network.lumps))


def _enter(matrix: list[list[float]], names: tuple[str, ...], link: Link) -> None:
    ends = [names.index(name) for name in (link.one, link.other) if name in names]
    if not ends or link.conductance < 0 or link.conductance == inf or link.one == link.other:
        raise out_of_range("links", "A path for heat joins two bodies and lets some heat through.")
    for end in ends:
        matrix[end][end] += link.conductance
    if len(ends) == 2:  # noqa: PLR2004 - two lumps, not a lump and a surrounding
        matrix[ends[0]][ends[1]] -= link.conductance
        matrix[ends[1]][ends[0]] -= link.conductance


def rest(
    network: Network, around: Mapping[str, Kelvin], heats: Mapping[str, Watt]
) -> dict[str, Kelvin]:
    """Temperatures in the long run under steady heat."""
    modes = modes_of(network)
    drive = _drive(network, modes, around, heats)
    sizes = [flow / rate for flow, rate in zip(drive, modes.rates, strict=True)]
    rows = zip(network.names, modes.spread, strict=True)
    return {name: Kelvin(sum(map(mul, row, sizes))) for name, row in rows}


def _drive(
    network: Network, modes: Modes, around: Mapping[str, Kelvin], heats: Mapping[str, Watt]
) -> list[float]:
    """What heat and surroundings give to each mode."""
    flows = [heats.get(name, 0.0) for name in network.names]
    for link in network.links:
        for lump, outside in ((link.one, link.other), (link.other, link.one)):
            if lump in network.names and outside not in network.names:
                flows[network.names.index(lump)] += link.conductance * around[outside]
    gains = [flow / capacity for flow, capacity in zip(flows, modes.capacities, strict=True)]
    return [sum(map(mul, row, gains)) for row in modes.weights]


def course(  # noqa: PLR0913 - a body, its surroundings, and what drives it
    network: Network,
    start: Mapping[str, Kelvin],
    around: Mapping[str, Kelvin],
    length: Second,
    *,
    heats: Mapping[str, Watt] | None = None,
    thermostat: Thermostat | None = None,
    until: tuple[str, Kelvin] | None = None,
) -> Course:
    """Temperatures from a start on; a thermostat begins with its heater on unless it is warm.

    With ``until`` it ends at the first switching at which that lump is at least so warm.
    """
    need_positive(length=length)
    if thermostat is not None and thermostat.band < FINEST_BAND:
        raise out_of_range("band", "A thermostat needs some degrees between off and on.")
    modes, heats = modes_of(network), heats or {}
    drives = {
        on: _drive(network, modes, around, _with_heater(heats, thermostat, on=on))
        for on in (False, True)
    }
    levels, watched = None, 0
    if thermostat is not None:
        levels = {True: thermostat.off_at, False: thermostat.on_at}
        watched = network.names.index(thermostat.watched)
    plan = _Plan(network, modes, drives, levels, watched)
    first = [start[name] for name in network.names]
    held = [sum(map(mul, row, first)) for row in modes.weights]
    heating = thermostat is not None and start[thermostat.watched] < thermostat.off_at
    stretches: list[Stretch] = []
    time = 0.0
    while time < length and not (stretches and _is_warm(plan, held, until)):
        if len(stretches) >= MOST_SWITCHINGS:
            raise out_of_range("band", "This thermostat switches too often to be followed.")
        stretch = plan.stretch(held, Second(time), length, heating=heating)
        stretches.append(stretch)
        time, held = stretch.end, stretch.held()
        heating = thermostat is not None and not heating
    return Course(network.names, tuple(stretches))


def _is_warm(plan: "_Plan", held: list[float], until: tuple[str, Kelvin] | None) -> bool:
    if until is None:
        return False
    row = plan.modes.spread[plan.network.names.index(until[0])]
    return bool(sum(map(mul, row, held)) >= until[1])


def _with_heater(
    heats: Mapping[str, Watt], thermostat: Thermostat | None, *, on: bool
) -> Mapping[str, Watt]:
    if thermostat is None or not on:
        return heats
    heated = thermostat.heated
    return {**heats, heated: Watt(heats.get(heated, 0.0) + thermostat.power)}


def joined(*courses: Course) -> Course:
    """Courses of the same lumps, one after the other: taken out, put back, another shop."""
    stretches: list[Stretch] = []
    for each in courses:
        shift = stretches[-1].end if stretches else 0.0
        stretches += [
            replace(s, start=Second(s.start + shift), end=Second(s.end + shift))
            for s in each.stretches
        ]
    return Course(courses[0].names, tuple(stretches))


@frozen
class _Plan:
    """Everything that stays the same while a course is followed."""

    network: Network
    modes: Modes
    drives: dict[bool, list[float]]
    """By whether the heater is on."""
    levels: dict[bool, Kelvin] | None
    """Where the thermostat switches, by whether the heater is on."""
    watched: int

    def stretch(self, held: list[float], start: Second, end: Second, *, heating: bool) -> Stretch:
        """Follow the network until the thermostat switches, or until the end."""
        drive, rates = self.drives[heating], self.modes.rates
        rest = tuple([flow / rate for flow, rate in zip(drive, rates, strict=True)])
        fading = tuple([now - last for now, last in zip(held, rest, strict=True)])
        stretch = Stretch(start, end, heating, self.modes, rest, fading)
        if self.levels is not None:
            passes = stretch.passes(self.watched, self.levels[heating])
            if passes:
                return Stretch(start, passes[0], heating, self.modes, rest, fading)
        return stretch
