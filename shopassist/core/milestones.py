"""Milestones of a cure: by when something must be done, or from when it may be."""

from bisect import bisect_left
from collections.abc import Sequence
from math import exp, log, sqrt
from typing import Literal

from shopassist.core.cure import WIDEN, Ages, Course, Progress, Temps, Warmth, rates, trail
from shopassist.core.cure_age import GATE
from shopassist.core.cure_law import in_table, rate
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kelvin, KelvinDelta, Ratio, Second
from shopassist.core.sheet_law import Basis
from shopassist.core.sheet_pairs import FIGURE_ERROR
from shopassist.core.sheets import StageName

Kind = Literal["hazard", "release"]
Stall = Literal["no", "may", "stalls"]

THERMOMETER = KelvinDelta(1.0)
"""Standard deviation of a shop thermometer against the resin; ours."""
STALL_BELOW = KelvinDelta(15.0)
"""Colder than the glass transition by this, a full cure stalls; rule in use among builders."""
STALL_SHARE = Ratio(0.75)
"""A stalled full cure is never shown beyond this; 70 to 75 % in our runs."""
AT_SHEET = KelvinDelta(0.05)
"""Up to this above the sheet's temperature counts as at it."""
SETTLED = 1e-12
"""Share by which one round still moves a forecast that has settled."""
NEAR = 1e-11
"""Share of an age by which a found instant may miss it."""
ROUNDS = 40
"""A forecast settles to ten figures in a dozen rounds: its spread hardly changes with its time."""
AS_WARM = 1e-9
"""Share by which a likely time may miss the law's own at a temperature and count as that warm."""


@frozen
class Milestone:
    """One time of the sheet, seen as a hazard or as a release."""

    stage: StageName
    kind: Kind
    required: Second
    """Age at the reference at which it is reached."""
    course: Course
    error: Ratio = FIGURE_ERROR
    glass: Kelvin | None = None
    """Glass transition when fully cured, for the full cure."""
    ours: Text | None = None
    """Where it does not stand on the sheet: what it was taken from."""
    printed: tuple[tuple[Kelvin, Second], ...] = ()
    """What the sheet prints for this step at other temperatures."""
    basis: Basis | None = None
    """Where the law of its course came from."""

    @property
    def times(self) -> tuple[tuple[Kelvin, Second], ...]:
        """Everything that the sheet prints for this step."""
        return (self.course.reference, self.required), *self.printed


@frozen
class Ahead:
    """How warm it is taken to be from now on."""

    low: Kelvin
    high: Kelvin

    @property
    def temps(self) -> Temps:
        """Low, middle and high branch."""
        return self.low, Kelvin((self.low + self.high) / 2), self.high


@frozen
class Forecast:
    """When a milestone is reached; times count from hardener-in; None: no time can be given."""

    milestone: Milestone
    early: Second | None
    """Likely less one sigma."""
    likely: Second | None
    late: Second | None
    """Likely plus one sigma."""
    gate: Second | None
    """Hazards: do it before; releases: wait at least. Only 1 in 40 lies beyond."""
    passed: bool
    """The gate lies behind us."""
    done: Ratio
    """Share of the age needed, likely."""
    stall: Stall
    notes: tuple[Text, ...]


# -- forecasting ---------------------------------------------------------------------------


def forecast(
    milestone: Milestone,
    past: Sequence[Progress],
    ahead: Ahead,
    thermometer: KelvinDelta = THERMOMETER,
) -> Forecast:
    """Say when a milestone is reached; ``past`` is the trail of its course up to now."""
    past, guessed = _with_guess(milestone.course, past, ahead)
    view = _view(milestone, past, ahead, thermometer)
    stall = _stall(milestone, ahead)
    gate_edge = -GATE if milestone.kind == "release" else GATE
    times = [view.when(edge) for edge in (1.0, 0.0, -1.0, gate_edge)]
    if stall == "stalls":
        times = [None, None, None, None]
    early, likely, late, gate = times
    now = view.now
    return Forecast(
        milestone, early, likely, late, gate,
        passed=gate is not None and gate <= now.at,
        done=_done(milestone, now, stall),
        stall=stall,
        notes=(*guessed, *_notes(milestone, now, ahead, stall)),
    )  # fmt: skip


def aged(
    milestone: Milestone,
    past: Sequence[Progress],
    ahead: Ahead,
    at: Second,
    thermometer: KelvinDelta = THERMOMETER,
) -> tuple[Second, Second, Second]:
    """Age at a moment behind or ahead: one sigma slow, likely, one sigma fast."""
    view = _view(milestone, _with_guess(milestone.course, past, ahead)[0], ahead, thermometer)
    slow, likely, fast = (view.age_at(at, edge) for edge in (-1.0, 0.0, 1.0))
    return slow, likely, fast


def level(milestone: Milestone, course: Course) -> Second | None:
    """Age on another course at which a milestone is reached; None where its law is another."""
    own = milestone.course
    if own.law != course.law:
        return None
    return Second(milestone.required * rate(own.law, own.reference, course.reference))


def _with_guess(
    course: Course, past: Sequence[Progress], ahead: Ahead
) -> tuple[Sequence[Progress], tuple[Text, ...]]:
    """Where nothing was read at all, take the outlook for the past too, widened, and say so."""
    last = past[-1]
    if last.last is not None or last.at <= 0:
        return past, ()
    now = last.at
    low, high = Kelvin(ahead.low - WIDEN), Kelvin(ahead.high + WIDEN)
    said = say("No temperature was read yet: {temp} is a guess.", temp=_kelvin(ahead.temps[1]))
    return trail(course, [Warmth(now, low, high, Second(0.0))], now), (said,)


def _kelvin(temp: float) -> Amount:
    return Amount(temp, "Kelvin")


def _done(milestone: Milestone, now: Progress, stall: Stall) -> Ratio:
    ages = now.release if milestone.kind == "release" else now.hazard
    most = STALL_SHARE if stall == "stalls" else 1.0
    return Ratio(min(ages[1][1] / milestone.required, most))


def _stall(milestone: Milestone, ahead: Ahead) -> Stall:
    if milestone.stage != "full":
        return "no"
    if milestone.glass is None:
        return "may"
    return "stalls" if ahead.temps[1] < milestone.glass - STALL_BELOW else "no"


def _notes(milestone: Milestone, now: Progress, ahead: Ahead, stall: Stall) -> tuple[Text, ...]:
    course, notes = milestone.course, []
    middle = ahead.temps[1]
    if milestone.ours is not None:
        notes.append(milestone.ours)
    if not in_table(course.law, middle):
        notes.append(say("Outside the temperatures of the sheet's table: carried on straight."))
    if milestone.kind == "release":
        notes += _release_notes(course, now, ahead)
    elif course.frozen(middle):
        notes.append(say("Under its lowest temperature; it still sets, only nobody knows when."))
    if stall == "may":
        notes.append(say("May stall when cool; a warm cure afterwards is advised."))
    if stall == "stalls":
        notes.append(
            say(
                "Too cool to cure fully: it stalls until warmed to {temp}.",
                temp=_kelvin(float(milestone.glass or 0.0) - STALL_BELOW),
            )
        )
    if now.unknown > 0:
        unknown = Amount(now.unknown, "Second")
        notes.append(say("{time} without a known temperature.", time=unknown))
    return tuple(notes)


def _release_notes(course: Course, now: Progress, ahead: Ahead) -> list[Text]:
    notes = []
    if course.frozen(ahead.temps[1]):
        notes.append(say("Stalled: no finish time. It goes on when it is warm enough again."))
    elif course.frozen(ahead.low):
        notes.append(say("If it gets as cold as its low, it stalls: no latest time."))
    if course.too_hot(ahead.temps[1]):
        notes.append(say("Too warm for this resin: the time does not count."))
    if now.frozen > 0:
        frozen = Amount(now.frozen, "Second")
        notes.append(say("{time} was too cold to count.", time=frozen))
    if now.hot > 0:
        notes.append(say("{time} was too warm to count.", time=Amount(now.hot, "Second")))
    return notes


@frozen
class _View:
    """One milestone against one trail and one outlook."""

    milestone: Milestone
    past: Sequence[Progress]
    now: Progress
    """The last of the past."""
    ahead: Ahead
    speeds: tuple[Ages, Ages, Ages]
    """How fast the ages grow from now on, at the low, likely and high temperature."""
    thermometer: KelvinDelta

    def when(self, edge: float) -> Second | None:
        """Time at which the age, moved by so many sigma to the fast side, is enough."""
        found = self._by_law(edge)
        if found is None:
            return None
        if self.milestone.kind == "release":
            return self._no_earlier_than_sheet(found, edge)
        return self._no_later_than_sheet(found, edge)

    def _by_law(self, edge: float) -> Second | None:
        ages = self._at(self.now, edge)
        enough = self._moved(ages, edge) >= self.milestone.required
        return self._behind(edge) if enough else self._beyond(ages, edge)

    def age_at(self, at: Second, edge: float) -> Second:
        """Age at a moment, moved by so many sigma to the fast side."""
        now = self.now
        if at >= now.at:
            speed = _blend(self.speeds, edge)
            ages = _grown(self._at(now, edge), speed, at - now.at)
            return Second(self._moved(ages, edge))
        place = max(bisect_left(self.past, at, key=lambda each: each.at), 1)
        before, after = self.past[place - 1], self.past[place]
        share = (at - before.at) / (after.at - before.at) if after.at > before.at else 1.0
        ages = _part(self._at(before, edge), self._at(after, edge), share)
        return Second(self._moved(ages, edge))

    def _no_earlier_than_sheet(self, found: Second, edge: float) -> Second:
        """Releases: at or under a temperature of the sheet its time is never shortened."""
        warmest = max(float(self.now.warmest or 0.0), float(self.ahead.temps[1]))
        wider = exp(max(-edge, 0.0) * self.milestone.error)
        least = (t * wider for temp, t in self.milestone.times if warmest <= temp + AT_SHEET)
        return Second(max([found, *least]))

    def _no_later_than_sheet(self, found: Second, edge: float) -> Second:
        """Hazards: on the whole as warm as a further time of the sheet, never later than that."""
        milestone, course = self.milestone, self.milestone.course
        likely = self._by_law(0.0) if milestone.printed else None
        if likely is None:
            return found
        most = (
            time * exp(-edge * milestone.error)
            for temp, time in milestone.printed
            if likely * rate(course.law, temp, course.reference)
            <= milestone.required * (1 + AS_WARM)
        )
        return Second(min([found, *most]))

    def _at(self, progress: Progress, edge: float) -> Ages:
        return _blend(
            progress.release if self.milestone.kind == "release" else progress.hazard, edge
        )

    def _moved(self, ages: Ages, edge: float) -> float:
        if ages[1] <= 0.0:
            return 0.0
        return ages[1] * exp(edge * self._sigma(ages)) if edge else ages[1]

    def _sigma(self, ages: Ages) -> float:
        by_law = log(ages[2] / ages[0]) / 2 if ages[0] > 0 else 0.0
        by_warmth = ages[3] / ages[1] * self.thermometer
        return sqrt(self.milestone.error**2 + by_law**2 + by_warmth**2)

    def _behind(self, edge: float) -> Second:
        """Within the trail: the first checkpoint that is enough, then straight between."""
        needed, past = float(self.milestone.required), self.past
        place = bisect_left(past, needed, key=lambda each: self._moved(self._at(each, edge), edge))
        if place == 0:
            return past[0].at
        ends = self._at(past[place - 1], edge), self._at(past[place], edge)
        start, end = past[place - 1].at, past[place].at
        return Second(start + self._share(ends, edge) * (end - start))

    def _share(self, ends: tuple[Ages, Ages], edge: float) -> float:
        """Share of a piece after which the moved age is enough; its ages grow evenly."""
        needed = float(self.milestone.required)
        first, last = (self._moved(each, edge) for each in ends)
        before, was, left = 1.0, last - needed, ROUNDS
        share = (needed - first) / (last - first)
        off = self._moved(_part(*ends, share), edge) - needed
        while left and abs(off) > NEAR * needed:
            # It is all but straight: the secant meets it in two or three steps.
            share, before = share - off * (share - before) / (off - was), share
            off, was = self._moved(_part(*ends, share), edge) - needed, off
            left -= 1
        return share

    def _beyond(self, ages: Ages, edge: float) -> Second | None:
        """Ahead of now: how long at the forecast rates until the moved age is enough."""
        speed = _blend(self.speeds, edge)
        if speed[1] <= 0.0:
            return None
        time, before, left = 1.0, 0.0, ROUNDS
        while left and abs(time - before) > SETTLED * time:
            sigma = self._sigma(_grown(ages, speed, time))
            needed = self.milestone.required * exp(-edge * sigma)
            time, before, left = max((needed - ages[1]) / speed[1], 1e-9), time, left - 1
        return Second(self.now.at + time)


def _view(
    milestone: Milestone, past: Sequence[Progress], ahead: Ahead, thermometer: KelvinDelta
) -> _View:
    return _View(milestone, past, past[-1], ahead, _speeds(milestone, ahead), thermometer)


def _speeds(milestone: Milestone, ahead: Ahead) -> tuple[Ages, Ages, Ages]:
    course, still = milestone.course, (0.0, 0.0, 0.0, 0.0)
    low, middle, high = (
        rates(course, temp) if milestone.kind == "hazard" or course.credits(temp) else still
        for temp in ahead.temps
    )
    return low, middle, high


def _grown(ages: Ages, speed: Ages, time: float) -> Ages:
    (a, b, c, d), (e, f, g, h) = ages, speed
    return a + e * time, b + f * time, c + g * time, d + h * time


def _part(first: Ages, last: Ages, share: float) -> Ages:
    """Ages part of the way from one to another."""
    (a, b, c, d), (e, f, g, h) = first, last
    return a + (e - a) * share, b + (f - b) * share, c + (g - c) * share, d + (h - d) * share


def _blend(branches: tuple[Ages, Ages, Ages], edge: float) -> Ages:
    """Between the branches: the gates stand on the outer ones, one sigma half-way to them."""
    if not edge:
        return branches[1]
    share = min(abs(edge) / GATE, 1.0)
    outer = branches[2] if edge > 0 else branches[0]
    return _part(branches[1], outer, share)
