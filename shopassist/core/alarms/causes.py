"""Causes of alarms: what is so from one instant to another, each with the person it calls.

Hazards are handed in with their early gate, releases with their late one. A doubted clock has
already moved the former earlier and the latter later; nothing here moves them back.
"""

from shopassist.core.alarms.table import Kind
from shopassist.core.cabinet_watch import Astray
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text
from shopassist.core.quantities import Kelvin, Kilogram, Second, UtcSecond

SOON = Second(600.0)
NOW = Second(180.0)
"""How long before the gate the person is called; ours."""
SHARE_SOON, SHARE_NOW = 0.75, 0.9
"""Shares of the working time at which the pour is called for; ours."""
CLOSING = Second(300.0)
"""A window is called for again so long before it closes; ours."""
OLD = Second(3 * 3600.0)
"""A temperature older than this leaves the forecast vague; ours, as in the cure's own gap."""
DEAD_TIME = Second(60.0)
"""An alarm that stands stays until its cause is this far away: no chatter."""
DEAD_KELVIN = 0.5
"""The same for temperatures, [K]."""
KEPT = Second(7 * 86_400.0)
"""So long after its time something is still told, to who was away for some days; ours."""


@frozen
class Cause:
    """Something that is so from one instant to another and asks for a person."""

    kind: Kind
    owner: str
    """Id of the batch, pot or set; empty for the machine."""
    subject: str
    """Its name."""
    pane: str
    begins: UtcSecond
    ends: UtcSecond | None = None
    gate: UtcSecond | None = None
    """The instant its words name."""
    detail: Text | None = None
    slack: Second = DEAD_TIME
    """How long outside of its time one that stands is kept; 0: none."""

    @property
    def key(self) -> str:
        """One alarm stands for all causes of one kind and owner."""
        return f"{self.kind}/{self.owner}"

    def holds(self, now: float, *, stands: bool) -> bool:
        """Whether it is so now; one that stands is kept when its time moves a little off.

        What has no slack is no matter of time: it is so while somebody gives it as a cause.
        """
        if self.slack <= 0:
            return True
        slack = self.slack if stands else 0.0
        return now >= self.begins - slack and (self.ends is None or now < self.ends)

    def turns(self, now: float) -> float:
        """The next instant at which its answer may change."""
        if self.slack <= 0:
            return float("inf")
        marks = (self.begins, self.begins - self.slack, self.ends or self.begins)
        return min((mark for mark in marks if mark > now), default=float("inf"))


@frozen
class Whose:
    """Whom a cause is about."""

    owner: str
    subject: str
    pane: str


def pressurise(whose: Whose, gate: UtcSecond) -> tuple[Cause, ...]:
    """Called ten and three minutes before the hazard's gate; past it only told."""
    steps: tuple[tuple[Kind, float, float | None], ...] = (
        ("pressurise_soon", gate - SOON, gate - NOW),
        ("pressurise_now", gate - NOW, gate),
        ("pressurise_missed", gate, gate + KEPT),
    )
    return tuple(_of(whose, kind, begins, ends, gate) for kind, begins, ends in steps)


def working(
    whose: Whose, contact: UtcSecond, gate: UtcSecond, mass: Kilogram, limit: Kilogram | None
) -> tuple[Cause, ...]:
    """Called at three quarters, nine tenths and the end of the working time."""
    span = max(0.0, gate - contact)
    soon, now = contact + SHARE_SOON * span, contact + SHARE_NOW * span
    over: Kind = "working_hot" if limit is not None and mass > limit else "working_over"
    steps: tuple[tuple[Kind, float, float | None], ...] = (
        ("working_soon", soon, now), ("working_now", now, gate), (over, gate, gate + KEPT),
    )  # fmt: skip
    return tuple(_of(whose, kind, begins, ends, gate) for kind, begins, ends in steps)


def window(whose: Whose, opens: UtcSecond, closes: UtcSecond) -> tuple[Cause, ...]:
    """Something that may be done only for a while: opens, is about to close, is missed."""
    near = max(opens, closes - CLOSING)
    steps: tuple[tuple[Kind, float, float], ...] = (
        ("window_open", opens, near),
        ("window_closing", near, closes),
        ("window_missed", closes, closes + KEPT),
    )
    return tuple(_of(whose, kind, begins, ends, closes) for kind, begins, ends in steps)


def release(whose: Whose, kind: Kind, gate: UtcSecond, detail: Text | None = None) -> Cause:
    """Told once its late gate is behind."""
    return _of(whose, kind, gate, gate + KEPT, gate, detail)


def reading_old(whose: Whose, read: UtcSecond) -> Cause:
    """Nothing was read for hours while something still depends on it."""
    return _of(whose, "reading_old", read + OLD, None, read)


def out_of_limits(
    whose: Whose,
    temps: tuple[Kelvin, Kelvin],
    read: UtcSecond,
    limits: tuple[Kelvin | None, Kelvin | None],
    shown: Text,
    *,
    standing: frozenset[str] = frozenset(),
) -> tuple[Cause, ...]:
    """The newest reading against the sheet; one that stands is kept half a kelvin longer."""
    lowest, highest = limits
    found: list[Cause] = []
    for kind, over in (
        ("too_cold", None if lowest is None else lowest - temps[0]),
        ("too_warm", None if highest is None else temps[1] - highest),
    ):
        slack = -DEAD_KELVIN if f"{kind}/{whose.owner}" in standing else 0.0
        if over is not None and over > slack:
            found.append(_of(whose, kind, read, None, read, shown))  # type: ignore[arg-type]
    return tuple(found)


def cabinet_astray(whose: Whose, wrong: Astray, shown: Text) -> Cause:
    """A probe inside has disagreed with the setting for long enough."""
    kind: Kind = "cabinet_hot" if wrong.side == "hot" else "cabinet_cold"
    return _of(whose, kind, wrong.begins, wrong.ends, wrong.last.at, shown)


def so(whose: Whose, kind: Kind, since: UtcSecond, detail: Text | None = None) -> Cause:
    """Something that simply is so, since an instant, until it is not."""
    return Cause(
        kind, whose.owner, whose.subject, whose.pane, since, None, since, detail, Second(0.0)
    )


def _of(
    whose: Whose,
    kind: Kind,
    begins: float,
    ends: float | None,
    gate: float,
    detail: Text | None = None,
) -> Cause:
    return Cause(
        kind, whose.owner, whose.subject, whose.pane, UtcSecond(begins),
        None if ends is None else UtcSecond(ends), UtcSecond(gate), detail,
    )  # fmt: skip
