"""A cure folded up to one moment, and its milestones as instants."""

from collections.abc import Sequence
from typing import Literal

from shopassist.core.batch import Batch, WarmthReading
from shopassist.core.cure import Course, Progress
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.milestones import Ahead, Forecast, Milestone, forecast
from shopassist.core.quantities import KelvinDelta, Second, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.core.timeline import Elapsed
from shopassist.services.warmth import (
    StandsStill,
    breathing,
    lags,
    outlook,
    stands_still,
    widening,
    within_reason,
)

Aim = Literal["working", "pressurise", "gel", "hold", "demould", "hard", "full"]
AIMS: tuple[Aim, ...] = ("working", "pressurise", "gel", "hold", "demould", "hard", "full")
Whose = Literal["working", "hazard", "release"]
"""Which cup a milestone counts from: the earliest to be poured, the earliest that still may gel
without pressure, the latest."""


def whose(milestone: Milestone) -> Whose:
    """Which cup a milestone counts from."""
    if milestone.kind == "release":
        return "release"
    return "working" if milestone.stage == "working" else "hazard"


@frozen
class StageView:
    """One milestone as instants; None where no time can be given."""

    aim: Aim
    kind: Literal["hazard", "release"]
    forecast: Forecast
    early: UtcSecond | None
    likely: UtcSecond | None
    late: UtcSecond | None
    gate: UtcSecond | None
    stopped: StandsStill = ""

    def passed(self, now: float) -> bool:
        """Whether its gate lies behind."""
        return self.gate is not None and self.gate <= now


@frozen
class Standing:
    """A cure folded up to one moment: what forecasts, what-ifs and charts are made from."""

    batch: Batch
    now: UtcSecond
    contact: UtcSecond
    spans: dict[Whose, Elapsed]
    """Since the contact of the cup that each kind of milestone counts from."""
    sheet: ResinSheet | None
    milestones: tuple[Milestone, ...]
    told: tuple[Text, ...]
    """What is to be known of the sheet's times, or that there is no sheet."""
    trails: dict[tuple[Course, Whose], Sequence[Progress]]
    latest: WarmthReading | None
    age: Second
    """The longest that may have gone by since it was read."""

    @property
    def ahead(self) -> Ahead:
        """How warm it is taken to stay; where air was read, also as the resin still may be."""
        ahead = outlook(self.latest, self.age, borrowed=not self.batch.warmth)
        if self.latest is None or not self.batch.warmth or not lags(self.latest.where):
            return ahead
        last = [trail[-1].last for trail in self.trails.values()]
        known = [each for each in last if each is not None]
        return Ahead(
            min([ahead.low, *(each[0] for each in known)]),
            max([ahead.high, *(each[2] for each in known)]),
        )

    def trail(self, milestone: Milestone) -> Sequence[Progress]:
        """What one milestone follows."""
        return self.trails[milestone.course, whose(milestone)]

    def stages(self, ahead: Ahead) -> tuple[StageView, ...]:
        """All milestones under one outlook."""
        return tuple(
            stage_at(each, self.trail(each), ahead, self.spans[whose(each)], self.now)
            for each in self.milestones
        )

    @property
    def gelled(self) -> bool:
        """Seen on the witness cup, or past the latest that it may take."""
        hard = (each for each in self.stages(self.ahead) if each.kind == "release")
        return "gelled" in self.batch.seen or any(each.passed(self.now) for each in hard)

    def notes(self) -> tuple[Text, ...]:
        """What the person should know about these times."""
        if self.sheet is None:
            return self.told
        told = list(self.told)
        note = breathing(self.batch, self.contact)
        if note is not None and not self.gelled:
            told.append(note)
        where = self.latest.where if self.latest is not None else ""
        if wide := widening(where):
            shown = Amount(KelvinDelta(wide), "KelvinDelta", 0 if wide % 1 == 0 else 1)
            told.append(say(AIR_NOTE if lags(where) else BESIDE_NOTE[where], wide=shown))
        return tuple(told)


AIR_NOTE = "Read in air, not in resin: {wide} each way is added, and that it comes late; ours."
BESIDE_NOTE = {
    "mould": "Read on the mould, not in resin: {wide} each way is added; ours.",
    "pot wall": "Read on the pot, not in resin: {wide} each way is added; ours.",
}
NO_SHEET = say("No sheet: the time since hardener is all that is known.")


def stage_at(
    milestone: Milestone, past: Sequence[Progress], ahead: Ahead, gone: Elapsed, now: float
) -> StageView:
    """Turn seconds since hardener into instants; a doubted clock counts toward caution."""
    found, hazard = forecast(milestone, past, ahead), milestone.kind == "hazard"
    since = within_reason(gone) if hazard else gone.low

    def instant(seconds: Second | None) -> UtcSecond | None:
        return None if seconds is None else UtcSecond(now + seconds - since)

    aim: Aim = "hold" if milestone.stage == "gel" and not hazard else milestone.stage
    return StageView(
        aim, milestone.kind, found, instant(found.early), instant(found.likely),
        instant(found.late), instant(found.gate),
        "" if hazard else stands_still(milestone.course, ahead),
    )  # fmt: skip
