"""Further times of one step of a resin sheet, each at another temperature than its first."""

from collections.abc import Mapping
from itertools import pairwise
from math import sqrt
from typing import cast

from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.quantities import Kelvin, KelvinDelta, Ratio, Second
from shopassist.core.records import Field, Problem, Value

WORDS: dict[int, str] = {2: "second", 3: "third"}
"""Places after the first, and what they are called on the form."""
FIGURE_ERROR, RANGE_ERROR = Ratio(0.15), Ratio(0.3)
"""Relative error of a time on a sheet: one figure, and a range; ours."""
SAME = KelvinDelta(0.5)
"""Temperatures nearer than this are one; ours."""
LONGEST = 1e8
"""No step of any sheet takes three years, [s]."""


@frozen
class Pair:
    """A time of a step and the temperature that it is printed for."""

    temp: Kelvin
    time: Second
    time_high: Second | None = None
    """The other end, where the sheet gives a range."""

    @property
    def middle(self) -> Second:
        """The time that a law is found from: of a range the geometric mean of its ends."""
        return Second(sqrt(self.time * (self.time_high or self.time)))

    @property
    def longest(self) -> Second:
        """What a release waits for."""
        return self.time if self.time_high is None else self.time_high

    @property
    def error(self) -> Ratio:
        """How far off the time may be, as a share."""
        return FIGURE_ERROR if self.time_high is None else RANGE_ERROR


def pair_fields(stage: str, label: str) -> tuple[Field, ...]:
    """The entries for further times of one step, in the order of the form."""
    return tuple(field for n, word in WORDS.items() for field in _fields(stage, label, n, word))


def _fields(stage: str, label: str, number: int, word: str) -> tuple[Field, ...]:
    note = "Where the sheet prints this step at one more temperature: how it changes with warmth"
    return (
        Field(
            f"{stage}.time_{number}", f"{label}: {word} time", "quantity", "Second",
            low=1.0, high=LONGEST, note=note,
        ),
        Field(
            f"{stage}.time_{number}_high", f"{label}: {word} time, longest", "quantity", "Second",
            low=1.0, high=LONGEST, note="Where the sheet gives a range",
        ),
        Field(
            f"{stage}.at_{number}", f"{label}: {word} time at", "quantity", "Kelvin",
            low=253.15, high=473.15, note="The temperature of that time",
        ),
    )  # fmt: skip


def pairs_of(values: Mapping[str, Value], stage: str) -> tuple[Pair, ...]:
    """All whole pairs of a step, the first one first; without one, nothing."""
    return tuple(pair for pair in _by_place(values, stage).values() if pair is not None)


def _by_place(values: Mapping[str, Value], stage: str) -> dict[str, Pair | None]:
    return {mark: _pair(values, stage, mark) for mark in ("", *(f"_{n}" for n in WORDS))}


def _pair(values: Mapping[str, Value], stage: str, mark: str) -> Pair | None:
    time, temp = values.get(f"{stage}.time{mark}"), values.get(f"{stage}.at{mark}")
    if time is None or temp is None:
        return None
    longest = cast("Second | None", values.get(f"{stage}.time{mark}_high"))
    return Pair(Kelvin(cast("float", temp)), Second(cast("float", time)), longest)


def pair_problems(values: Mapping[str, Value], stage: str) -> list[Problem]:
    """Further times that are not whole, or cannot be right together."""
    found = [problem for n in WORDS for problem in _halves(values, stage, n)]
    given = [n for n in WORDS if f"{stage}.time_{n}" in values]
    if given and values.get(f"{stage}.time") is not None and f"{stage}.at" not in values:
        found.append(Problem(f"{stage}.at", say("With a second time, say how warm for this one.")))
    return found or _together(values, stage)


def _halves(values: Mapping[str, Value], stage: str, number: int) -> list[Problem]:
    time, high, temp = (
        values.get(f"{stage}.{name}")
        for name in (f"time_{number}", f"time_{number}_high", f"at_{number}")
    )
    if time is None and (high is not None or temp is not None):
        return [Problem(f"{stage}.time_{number}", say("The time itself is missing."))]
    if time is not None and temp is None:
        return [Problem(f"{stage}.at_{number}", say("At which temperature? It is needed."))]
    return reversed_range(values, f"{stage}.time_{number}")


def reversed_range(values: Mapping[str, Value], place: str) -> list[Problem]:
    """A time of a step whose longest is shorter than it."""
    first, last = values.get(place), values.get(f"{place}_high")
    if isinstance(first, float) and isinstance(last, float) and last < first:
        return [Problem(f"{place}_high", say("The longest is under the shortest."))]
    return []


def _together(values: Mapping[str, Value], stage: str) -> list[Problem]:
    """Each further time against those before it, so that what was typed later is pointed at."""
    before: list[Pair] = []
    for mark, pair in _by_place(values, stage).items():
        if pair is None:
            continue
        if any(abs(pair.temp - each.temp) < SAME for each in before):
            same = say("Another time of this step holds at this temperature.")
            return [Problem(f"{stage}.at{mark}", same)]
        before.append(pair)
        if not falls(before):
            slower = say("Warmer must never take longer. Look at the times of this step.")
            return [Problem(f"{stage}.time{mark}", slower)]
    return []


def falls(pairs: list[Pair]) -> bool:
    """Whether no time is longer than one at a colder temperature."""
    ordered = sorted(pairs, key=lambda pair: pair.temp)
    return all(warm.middle <= cold.middle for cold, warm in pairwise(ordered))
