"""What really happened with the stages of a batch, whichever pane it was reported in."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import field

from shopassist.core.batch import Batch
from shopassist.core.frozen import frozen, replace
from shopassist.core.plan import Done
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Row
from shopassist.core.stages import Stage, need_order
from shopassist.core.wood_set import Event, WoodSet

STARTED, ENDED, TAKEN_BACK = "stage_started", "stage_ended", "stage_taken_back"
KINDS = frozenset({STARTED, ENDED, TAKEN_BACK})
WOOD_STARTS: dict[Event, str] = {
    "oven_on": "dry", "oven_off": "cool_dry", "pump_on": "vacuum", "air_in": "soak",
    "out_of_bath": "wrap", "bake_on": "heat_up", "core_hot": "bake", "bake_off": "cool_bake",
}  # fmt: skip
"""What an event of the Stabilise pane begins."""
WOOD_ENDS: dict[Event, str] = {
    "oven_off": "dry", "cool": "cool_dry", "air_in": "vacuum", "out_of_bath": "soak",
    "wrapped": "wrap", "core_hot": "heat_up", "bake_off": "bake",
}  # fmt: skip
WOOD_STAGES = frozenset({*WOOD_STARTS.values(), *WOOD_ENDS.values()})
ELSEWHERE: dict[str, str] = {"pour": "mix", "pressure": "pot"}
"""Stages that only their own pane reports: nobody ticks off a weigh-out or a pot here."""


@frozen
class Marks:
    """Starts and ends by stage; one may be known without the other."""

    started: Mapping[str, UtcSecond] = field(default_factory=dict)
    ended: Mapping[str, UtcSecond] = field(default_factory=dict)

    def over(self, other: "Marks") -> "Marks":
        """These marks, and those of another pane where these say nothing."""
        return Marks({**other.started, **self.started}, {**other.ended, **self.ended})


def fold_marks(marks: Marks, row: Row) -> Marks:
    """Take one more row into account; rows of other kinds change nothing."""
    key = row.body.get("stage")
    if row.kind not in KINDS or not isinstance(key, str):
        return marks
    started = {name: at for name, at in marks.started.items() if name != key}
    ended = {name: at for name, at in marks.ended.items() if name != key}
    if row.kind == STARTED:
        started[key] = row.happened
    elif row.kind == ENDED:
        ended[key] = row.happened
        if key in marks.started:
            started[key] = marks.started[key]
    return replace(marks, started=started, ended=ended)


def fold_all_marks(rows: Iterable[Row]) -> Marks:
    """Fold a whole stream."""
    marks = Marks()
    for row in rows:
        marks = fold_marks(marks, row)
    return marks


def marks_of_wood(state: WoodSet) -> Marks:
    """What the Stabilise pane knows of the stages."""
    started = {WOOD_STARTS[each]: at for each, at in state.events.items() if each in WOOD_STARTS}
    ended = {WOOD_ENDS[each]: at for each, at in state.events.items() if each in WOOD_ENDS}
    return Marks(started, ended)


def marks_of_batch(batch: Batch) -> Marks:
    """What Mix and Pot know of the stages."""
    started, ended = {}, {}
    if batch.first_contact is not None:
        started["pour"] = batch.first_contact
    closed = batch.at_pressure if batch.at_pressure is not None else batch.poured
    if closed is not None:
        ended["pour"] = closed
    if batch.at_pressure is not None:
        started["pressure"] = batch.at_pressure
    if batch.left_pot is not None:
        ended["pressure"] = batch.left_pot
    return Marks(started, ended)


def actuals(stages: Sequence[Stage], marks: Marks) -> dict[str, Done]:
    """Start and end of every stage that has begun.

    A stage that nobody ended is over once another one that waits for it has begun; one that
    nobody reported at all took no time then.
    """
    found: dict[str, Done] = {}
    for stage in reversed(need_order(stages)):
        begun = [found[other.key].start for other in stages
                 if stage.key in other.after and other.key in found]  # fmt: skip
        followed = min(begun, default=None)
        done = _done(marks.started.get(stage.key), marks.ended.get(stage.key), followed)
        if done is not None:
            found[stage.key] = done
    return found


def _done(
    start: UtcSecond | None, end: UtcSecond | None, followed: UtcSecond | None
) -> Done | None:
    if end is None:
        end = followed
    if start is None:
        return None if end is None else Done(end, end)
    return Done(start, None if end is None else UtcSecond(max(start, end)))
