"""What two looks at the clocks say about the time between them.

Within one run of the machine the time since boot is trusted, so a wall clock that is moved never
touches a wait. Across a restart only the wall clock knows how long the machine was off; where it
may have been moved meanwhile, the answer is a range that holds every reading of the facts:
hazards take its high end, releases its low end.
"""

import itertools
import math
from collections.abc import Iterable, Mapping
from dataclasses import field
from typing import Literal, cast

from shopassist.core.frozen import frozen, replace
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Body, Json, Reading, Row

STREAM = "shop"
SLEW = 2.0
"""A jump of the wall clock up to this is passed over, [s]; our own choice."""
STEERED = 5e-4
"""How fast a wall clock is steered at most without a jump, [s/s]; the limit of common kernels,
from memory."""
NAP = 1.0
"""A shorter sleep is lost between two looks at two clocks, [s]; our own choice."""
TOLD = 30.0
"""A clock change above this is told to the user, [s]; our own choice."""
SUSPENDED = 120.0
"""A longer silence of a running program is a suspend, [s]; our own choice."""
LONGEST_OFF = 14 * 86_400.0
"""A machine that seems to have been off longer puts its clock in doubt, [s]; our own choice."""
EARLIEST = 1_735_689_600.0
"""2025-01-01: no wall clock of ours is before this, [s since 1970 UTC]."""
LATEST = 4_102_444_800.0
"""2100-01-01: nor after this, [s since 1970 UTC]."""

FindingKind = Literal["suspended", "rebooted", "clock_stepped", "zone_changed", "clock_doubted"]
Reason = Literal["", "wall clock went back", "off too long", "year", "since boot went back"]


@frozen
class Finding:
    """Something that happened to the machine or its clocks between two readings."""

    kind: FindingKind
    before: Reading
    now: Reading
    length: Second
    """How long the silence was, or by how much a clock moved, [s]."""
    reason: Reason = ""

    @property
    def told(self) -> bool:
        """Whether it is worth a word to the user."""
        if self.kind == "suspended":
            return self.length > SUSPENDED
        return self.kind != "clock_stepped" or abs(self.length) > TOLD

    @property
    def body(self) -> Body:
        """What its row in the journal says."""
        return {
            "length": float(self.length), "reason": self.reason,
            "before": reading_body(self.before),
        }  # fmt: skip


@frozen
class Elapsed:
    """How much time went by; a range where the clocks leave a doubt. High may be infinite."""

    low: Second
    likely: Second
    high: Second

    @property
    def doubted(self) -> bool:
        """Whether the ends lie so far apart that the user is asked."""
        return self.high - self.low > TOLD

    def plus(self, other: "Elapsed") -> "Elapsed":
        """Add the time that follows."""
        return Elapsed(
            Second(self.low + other.low),
            Second(self.likely + other.likely),
            Second(self.high + other.high),
        )


@frozen
class Boot:
    """One run of the machine, as far as the program saw it."""

    first: Reading
    last: Reading
    walls: tuple[float, ...]
    """Every wall time of the machine's start that the wall clock stood for, in order."""


@frozen
class Timeline:
    """The runs of the machine in order, and what the user said about the gaps before them."""

    boots: tuple[Boot, ...] = ()
    settled: Mapping[str, Second] = field(default_factory=dict)
    """By boot id: how long it really was since the run before."""


def reading_body(reading: Reading) -> dict[str, Json]:
    """Write a reading for a row."""
    return {
        "utc": float(reading.utc),
        "since_boot": float(reading.since_boot),
        "boot_id": reading.boot_id,
        "utc_offset": float(reading.utc_offset),
    }


def reading_of(body: Json) -> Reading | None:
    """Read a reading from a row; None where there is none."""
    if not isinstance(body, dict):
        return None
    utc, since_boot, offset = (
        float(cast("float", body[name])) for name in ("utc", "since_boot", "utc_offset")
    )
    boot_id = str(body["boot_id"])
    return Reading(UtcSecond(utc), Second(since_boot), boot_id, Second(offset))


def same_boot(before: Reading, now: Reading) -> bool:
    """Tell whether the machine has not been started anew between two readings."""
    if before.boot_id or now.boot_id:
        return before.boot_id == now.boot_id
    apart = now.since_boot - before.since_boot
    return apart >= 0 and abs(now.utc - before.utc - apart) <= TOLD


def reconcile(before: Reading, now: Reading, *, running: bool) -> tuple[Finding, ...]:
    """Say what happened between two readings; empty where nothing did.

    ``running`` says that the program ran throughout, so that a silence was a suspend.
    """
    found = _within(before, now, running) if same_boot(before, now) else _across(before, now)
    if now.utc_offset != before.utc_offset:
        turned = Second(now.utc_offset - before.utc_offset)
        found.append(Finding("zone_changed", before, now, turned))
    return tuple(found)


def _within(before: Reading, now: Reading, running: bool) -> list[Finding]:  # noqa: FBT001
    apart = now.since_boot - before.since_boot
    moved = now.utc - before.utc - apart
    found = []
    asleep = apart if apart > SUSPENDED else now.asleep - before.asleep
    if running and asleep > NAP:
        found.append(Finding("suspended", before, now, Second(asleep)))
    if _jumped(moved, apart):
        found.append(Finding("clock_stepped", before, now, Second(moved)))
    if apart < 0:
        found.append(Finding("clock_doubted", before, now, Second(apart), "since boot went back"))
    elif not _likely_year(now.utc):
        found.append(Finding("clock_doubted", before, now, Second(moved), "year"))
    return found


def _across(before: Reading, now: Reading) -> list[Finding]:
    gap = Second(now.utc - before.utc)
    found = [Finding("rebooted", before, now, gap)]
    reason: Reason = ""
    if not (_likely_year(before.utc) and _likely_year(now.utc)):
        reason = "year"
    elif gap < _least(before, now) - SLEW:
        reason = "wall clock went back"
    elif gap > LONGEST_OFF:
        reason = "off too long"
    if reason:
        found.append(Finding("clock_doubted", before, now, gap, reason))
    return found


def _jumped(moved: float, apart: float) -> bool:
    """Tell a jump of the wall clock from its being steered over a while."""
    return abs(moved) > SLEW + STEERED * abs(apart)


def _likely_year(utc: float) -> bool:
    return EARLIEST <= utc < LATEST


def _least(before: Reading, now: Reading) -> float:
    """Return the time that must have passed: the machine has been running that long."""
    if before.boot_id or now.boot_id or now.since_boot < before.since_boot:
        return now.since_boot
    return 0.0


# -- the line of boots -------------------------------------------------------------------


def note(line: Timeline, reading: Reading) -> Timeline:
    """Add a reading to the end of the line; one of the boot before says nothing new there."""
    wall = reading.utc - reading.since_boot
    if any(same_boot(boot.last, reading) for boot in line.boots[-2:-1]):
        return line
    if not line.boots or not same_boot(line.boots[-1].last, reading):
        return replace(line, boots=(*line.boots, Boot(reading, reading, (wall,))))
    boot = line.boots[-1]
    moved = wall - (boot.last.utc - boot.last.since_boot)
    apart = reading.since_boot - boot.last.since_boot
    if _jumped(moved, apart) and all(abs(wall - known) > SLEW for known in boot.walls):
        boot = replace(boot, walls=(*boot.walls, wall))
    if apart >= 0:
        boot = replace(boot, last=reading)
    return replace(line, boots=(*line.boots[:-1], boot))


def fold(line: Timeline, row: Row) -> Timeline:
    """Add what one row of the stream ``shop`` says."""
    before = reading_of(row.body.get("before"))
    if before is not None:
        line = note(line, before)
    line = note(line, row.recorded)
    if row.kind == "clock_settled":
        gap = Second(float(cast("float", row.body["gap"])))
        line = replace(line, settled={**line.settled, str(row.body["boot_id"]): gap})
    return line


def fold_all(rows: Iterable[Row]) -> Timeline:
    """Build the line from the rows of the stream ``shop``."""
    line = Timeline()
    for row in rows:
        line = fold(line, row)
    return line


# -- elapsed time ------------------------------------------------------------------------


def elapsed(since: Reading, now: Reading, line: Timeline) -> Elapsed:
    """Return the time from one reading to a later one; never negative."""
    if same_boot(since, now):
        return _exactly(now.since_boot - since.since_boot)
    boots = _between(since, now, line)
    total = _exactly(boots[0].last.since_boot - since.since_boot)
    for earlier, later in itertools.pairwise(boots):
        total = total.plus(_gap(earlier, later, line.settled.get(later.first.boot_id)))
        upto = now if later is boots[-1] else later.last
        total = total.plus(_exactly(upto.since_boot - later.first.since_boot))
    return total


def _exactly(seconds: float) -> Elapsed:
    value = Second(max(0.0, seconds))
    return Elapsed(value, value, value)


def _between(since: Reading, now: Reading, line: Timeline) -> tuple[Boot, ...]:
    """Return the runs of the machine from the one of ``since`` to the one of ``now``."""
    boots = line.boots
    begin = next((n for n, boot in enumerate(boots) if same_boot(boot.last, since)), None)
    end = next((n for n, boot in enumerate(boots) if same_boot(boot.last, now)), len(boots))
    if begin is None or end < begin:
        return (_alone(since), _alone(now))
    first = boots[begin]
    if begin == end:  # without boot ids: the wall clock was moved by a little more than once
        return (replace(first, last=now),)
    if since.since_boot > first.last.since_boot:
        first = replace(first, last=since)
    last = boots[end] if end < len(boots) else _alone(now)
    return (first, *boots[begin + 1 : end], last)


def _alone(reading: Reading) -> Boot:
    return Boot(reading, reading, (reading.utc - reading.since_boot,))


def _gap(earlier: Boot, later: Boot, settled: Second | None) -> Elapsed:
    """Return the time between two runs of the machine, from every wall time that either had."""
    least = _least(earlier.last, later.first)
    if settled is not None:
        return _exactly(max(least, settled))
    pairs = _wall_gaps(earlier, later)
    gaps = [gap for gap, _ in pairs]
    possible = [gap for gap, years in pairs if years and _fits(gap, least)]
    if possible:
        # As the clocks stood at the restart they may be right even where their year is not: one
        # that is moved into a believed year afterwards, by another error, is no better witness.
        stood = [gaps[0]] if not pairs[0][1] and _fits(gaps[0], least) else []
        kept = [max(least, gap) for gap in (*stood, *possible)]
        return Elapsed(Second(min(kept)), Second(kept[0]), Second(max(kept)))
    longest = max(gaps)
    high = longest if longest > LONGEST_OFF and longest < LATEST - EARLIEST else math.inf
    return Elapsed(Second(least), Second(least), Second(high))


def _fits(gap: float, least: float) -> bool:
    """Tell whether a machine may have been off that long."""
    return least - SLEW <= gap <= LONGEST_OFF


def _wall_gaps(earlier: Boot, later: Boot) -> list[tuple[float, bool]]:
    """Pair the wall times of both runs, as they stood at the restart first."""
    at_last = earlier.last.utc - earlier.last.since_boot
    ends = [at_last, *(w for w in reversed(earlier.walls) if abs(w - at_last) > SLEW)]
    found = []
    for start in later.walls:
        begun = start + later.first.since_boot
        for wall in ends:
            ended = wall + earlier.last.since_boot
            found.append((begun - ended, _likely_year(begun) and _likely_year(ended)))
    return found
