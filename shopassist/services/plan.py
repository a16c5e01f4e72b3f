"""The plan: stages of the batches under way, their hours, and what is to be done today."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from shopassist.clock import Clock
from shopassist.core.batch import Batch, Typed
from shopassist.core.errors import RefusedError, ShopError, out_of_range
from shopassist.core.messages import Amount, say
from shopassist.core.plan import Done
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Draft, Json
from shopassist.core.shop_week import (
    ATTENDED_SET,
    HOURS_SET,
    STREAM,
    ShopWeek,
    Week,
    body_of,
    fold_all_weeks,
    fold_week,
)
from shopassist.core.stage_log import (
    ELSEWHERE,
    ENDED,
    KINDS,
    STARTED,
    TAKEN_BACK,
    WOOD_STAGES,
    Marks,
    actuals,
    fold_all_marks,
    fold_marks,
    marks_of_batch,
    marks_of_wood,
)
from shopassist.core.stages import STAGES, Stage, need_order, read_after, read_place, without
from shopassist.core.wood_set import WoodSet
from shopassist.core.work_hours import OffsetAt
from shopassist.services.batches import PREFIX, BatchService
from shopassist.services.cure import CureView
from shopassist.services.hooks import Hook
from shopassist.services.next import Due, Rank
from shopassist.services.plan_cure import Lasts, by_cure
from shopassist.services.plan_outlook import Outlook, Shop, look_ahead
from shopassist.services.ports import CountedJournal

PANE = "plan"
RECENT = 12
"""Newest batches that are looked through for work under way; ours."""
DURATIONS = ("low", "likely", "high", "hands")
LEFT_OUT = "out"
AFTER, PLACE = "after", "place"
"""Entries for the order of the stages and for what one occupies."""
DEFAULTS = {each.key: each for each in STAGES}


def field_of(key: str, name: str) -> str:
    """Name of the entry that holds one duration of one stage."""
    return f"{PANE}.stage.{key}.{name}"


DUE = f"{PANE}.due"


class PlanService:
    """Commands carry the id of their batch; a stage's rows lie in the batch's own stream."""

    def __init__(
        self, journal: CountedJournal, batches: BatchService, clock: Clock,
        wood: Callable[[str], WoodSet], cure: Callable[[str], CureView | None],
    ) -> None:  # fmt: skip
        self.changed: Hook[str] = Hook()
        self._journal = journal
        self._batches = batches
        self._clock = clock
        self._wood = wood
        self._cure = cure
        self._own: dict[str, Marks] = {}
        self._kept: tuple[tuple[str, int, int], Outlook] | None = None
        self.shop: ShopWeek = fold_all_weeks(journal.read(STREAM))

    # -- looking ---------------------------------------------------------------------------

    def stages(self, batch: Batch) -> tuple[Stage, ...]:
        """Every stage with the durations of this batch, those left out too.

        Its own cure goes before our judgement, what was typed before both.
        """
        cure = self.by_cure(batch)
        return tuple(_edited(_lasting(each, cure), batch.entries) for each in STAGES)

    def by_cure(self, batch: Batch) -> Mapping[str, Lasts]:
        """Durations that the cure's forecast gives; a closed batch needs none."""
        if batch.outcome or batch.at_pressure is None:
            return {}
        return by_cure(self._cure(batch.id))

    @staticmethod
    def default(key: str) -> Stage:
        """One stage as it is where nobody typed anything."""
        return DEFAULTS[key]

    def left_out(self, batch: Batch) -> frozenset[str]:
        """Stages that this batch does without."""
        return frozenset(key for key in DEFAULTS if field_of(key, LEFT_OUT) in batch.entries)

    def job_stages(self, batch: Batch) -> tuple[Stage, ...]:
        """The stages that this batch goes through; of a closed one what really happened."""
        stages = without(self.stages(batch), self.left_out(batch))
        if not batch.outcome:
            return stages
        begun = actuals(stages, self._marks(batch))
        return without(stages, frozenset(each.key for each in stages if each.key not in begun))

    def done(self, batch: Batch) -> Mapping[str, Done]:
        """What has begun, wherever it was reported; a closed batch has nothing running."""
        found = actuals(self.job_stages(batch), self._marks(batch))
        if not batch.outcome or batch.closed is None:
            return found
        closed = batch.closed
        return {
            key: each if each.end is not None else Done(each.start, max(each.start, closed))
            for key, each in found.items()
        }

    def own(self, batch_id: str) -> Marks:
        """What was reported in the plan itself."""
        if batch_id not in self._own:
            stream = PREFIX + batch_id
            some = KINDS & self._journal.kinds(stream)
            self._own[batch_id] = fold_all_marks(self._journal.read(stream)) if some else Marks()
        return self._own[batch_id]

    def _marks(self, batch: Batch) -> Marks:
        theirs = marks_of_batch(batch).over(marks_of_wood(self._wood(batch.id)))
        return self.own(batch.id).over(theirs)

    def reported_in(self, batch: Batch, key: str) -> str:
        """Pane that alone reports a stage of this batch; empty where the plan does."""
        if key in WOOD_STAGES and self._wood(batch.id).events:
            return "stabilise"
        return ELSEWHERE.get(key, "")

    def waits_for(self, batch: Batch, key: str) -> str:
        """A stage before this one that still runs and that only its own pane can end."""
        done = self.done(batch)
        for before in next(each for each in self.job_stages(batch) if each.key == key).after:
            standing = done.get(before)
            if standing is not None and standing.end is None and self.reported_in(batch, before):
                return before
        return ""

    def under_way(self, in_hand: str) -> tuple[Batch, ...]:
        """Batches in the plan, the oldest first: begun and not closed, and the one in hand."""
        found = [
            each for each in reversed(self._batches.recent(RECENT))
            if each.id != in_hand and not each.outcome and self.done(each)
        ]  # fmt: skip
        if in_hand:
            found.append(self._batches.get(in_hand))
        return tuple(sorted(found, key=lambda each: each.id))

    def outlook(self, in_hand: str, offset_at: OffsetAt) -> Outlook:
        """Everything that follows for the batch in hand, the others threaded round it.

        Asked for anew it is the same one within a second, unless a row was written.
        """
        key = (in_hand, self._journal.newest(), int(self._clock.read().utc))
        if self._kept is None or self._kept[0] != key:
            self._kept = key, self._outlook(in_hand, offset_at)
        return self._kept[1]

    def _outlook(self, in_hand: str, offset_at: OffsetAt) -> Outlook:
        batches = self.under_way(in_hand)
        jobs = {each.id: (self.job_stages(each), self.done(each)) for each in batches}
        due = self._batches.get(in_hand).entries.get(DUE) if in_hand else None
        return look_ahead(
            jobs, in_hand, Shop(self.shop, self._clock.read().utc, offset_at),
            None if due is None or due.value is None else UtcSecond(due.value),
        )  # fmt: skip

    def dues(self) -> Iterable[Due]:
        """Waits that were started in the plan and still run."""
        for batch in self._batches.recent(RECENT):
            if batch.outcome or not self.own(batch.id).started:
                continue
            stages = {each.key: each for each in self.job_stages(batch)}
            for key, done in self.done(batch).items():
                stage = stages[key]
                if done.end is None and key in self.own(batch.id).started and _waits(stage):
                    yield _due(batch, stage, done.start)

    # -- acts: stages ----------------------------------------------------------------------

    def start(self, batch_id: str, key: str, happened: UtcSecond | None = None) -> None:
        """Begin a stage: its wait runs from now on."""
        batch = self._batches.get(batch_id)
        done = self.done(batch)
        self._need_own(batch, key)
        if batch.outcome:
            raise RefusedError("This batch is closed.", "Take another one in hand.", "plan.start")
        if key in done:
            raise RefusedError("This stage has begun already.", field="plan.start")
        before = self.waits_for(batch, key)
        if before:
            raise RefusedError(
                say("{stage} is not over yet.", stage=DEFAULTS[before].name),
                "Report it in its own pane first.", "plan.start",
            )  # fmt: skip
        self._commit(batch_id, STARTED, key, happened)

    def end(self, batch_id: str, key: str, happened: UtcSecond | None = None) -> None:
        """End a stage that runs."""
        batch = self._batches.get(batch_id)
        self._need_own(batch, key)
        done = self.done(batch).get(key)
        if done is None or done.end is not None:
            raise RefusedError("This stage does not run.", field="plan.end")
        if happened is not None and happened < done.start:
            raise RefusedError("That lies before its start.", "Look at the time.", "plan.when")
        self._commit(batch_id, ENDED, key, happened)

    def take_back(self, batch_id: str, key: str) -> None:
        """Say that a stage was reported by mistake; every row stays."""
        own = self.own(batch_id)
        if key not in own.started and key not in own.ended:
            raise RefusedError("Nothing was reported here.", field="plan.take_back")
        self._commit(batch_id, TAKEN_BACK, key, None)

    def _need_own(self, batch: Batch, key: str) -> None:
        if key not in DEFAULTS or key in self.left_out(batch):
            raise RefusedError("This batch does without that stage.", field="plan.start")
        if self.reported_in(batch, key):
            raise RefusedError("This is reported in its own pane.", field="plan.start")

    def _commit(self, batch_id: str, kind: str, key: str, happened: UtcSecond | None) -> None:
        marks = self.own(batch_id)
        for row in self._journal.append([Draft(PREFIX + batch_id, kind, {"stage": key}, happened)]):
            marks = fold_marks(marks, row)
        self._own[batch_id] = marks
        self.changed.emit(batch_id)

    # -- acts: what the user knows better ---------------------------------------------------

    def set_duration(self, batch_id: str, key: str, name: str, typed: Typed | None) -> None:
        """Take one duration of one stage; refused where low, likely and high cross."""
        entries = dict(self._batches.get(batch_id).entries)
        entries.pop(field_of(key, name), None)
        if typed is not None:
            entries[field_of(key, name)] = typed
        batch = self._batches.get(batch_id)
        stage = _edited(_lasting(DEFAULTS[key], self.by_cure(batch)), entries)
        if not stage.low <= stage.likely <= stage.high:
            raise out_of_range(
                f"{PANE}.{name}",
                "Shortest, likely and longest must follow one another: {low}, {likely}, {high}.",
                low=_amount(stage.low), likely=_amount(stage.likely),
                high=_amount(stage.high),
            )  # fmt: skip
        self._batches.enter(batch_id, field_of(key, name), typed)

    def set_after(self, batch_id: str, key: str, text: str) -> None:
        """Say which stages have to be over before this one; empty: as it is by default.

        What neither waits for the other, nor occupies the same place, may overlap.
        """
        stages = self.stages(self._batches.get(batch_id))
        if text.strip():
            keys = read_after(text, [each for each in stages if each.key != key], f"{PANE}.after")
            _need_no_ring(replace(e, after=keys) if e.key == key else e for e in stages)
        self._batches.enter(batch_id, field_of(key, AFTER), _words(text))

    def set_place(self, batch_id: str, key: str, text: str) -> None:
        """Say what a stage occupies; empty: as it is by default."""
        if text.strip():
            read_place(text, f"{PANE}.place")
        self._batches.enter(batch_id, field_of(key, PLACE), _words(text))

    def leave_out(self, batch_id: str, key: str, *, out: bool) -> None:
        """Do without a stage, or bring it back."""
        if out and key in self.done(self._batches.get(batch_id)):
            raise RefusedError("This stage has begun already.", field="plan.leave_out")
        self._batches.enter(batch_id, field_of(key, LEFT_OUT), Typed("yes", None) if out else None)

    def set_due(self, batch_id: str, text: str, due: UtcSecond | None) -> None:
        """Say when it has to be done; None: as soon as it goes."""
        typed = None if due is None else Typed(text, float(due), "UtcSecond")
        self._batches.enter(batch_id, DUE, typed)

    def set_hours(self, week: Week) -> None:
        """Take the shop's hours, for all batches."""
        self._set(HOURS_SET, body_of(week))

    def set_attended(self, *, attended: bool) -> None:
        """Say whether ovens, pumps and heaters never run with nobody there."""
        self._set(ATTENDED_SET, {"attended": attended})

    def _set(self, kind: str, body: dict[str, Json]) -> None:
        for row in self._journal.append([Draft(STREAM, kind, body)]):
            self.shop = fold_week(self.shop, row)
        self.changed.emit("")


def _lasting(stage: Stage, cure: Mapping[str, Lasts]) -> Stage:
    """A stage as long as the cure says."""
    lasts = cure.get(stage.key)
    if lasts is None:
        return stage
    return replace(stage, low=lasts.low, likely=lasts.likely, high=lasts.high)


def _edited(stage: Stage, entries: Mapping[str, Typed]) -> Stage:
    """A stage with what was typed; what was not typed makes room for it."""
    stage = _ordered(stage, entries)
    typed = {
        name: each.value for name in DURATIONS
        if (each := entries.get(field_of(stage.key, name))) is not None and each.value is not None
    }  # fmt: skip
    if not typed:
        return stage
    likely = typed.get("likely")
    if likely is None:
        likely = min(max(stage.likely, typed.get("low", 0.0)), typed.get("high", stage.high))
    low = typed.get("low", min(stage.low, likely))
    high = typed.get("high", max(stage.high, likely))
    hands = min(typed.get("hands", stage.hands), likely)
    return Stage(
        stage.key, stage.name, Second(low), Second(likely), Second(high), Second(hands),
        stage.after, stage.clock, stage.place, stage.attended,
    )  # fmt: skip


def _ordered(stage: Stage, entries: Mapping[str, Typed]) -> Stage:
    """A stage with the order and the place that were typed; what cannot be read changes nothing."""
    after, place = (entries.get(field_of(stage.key, name)) for name in (AFTER, PLACE))
    try:
        if after is not None:
            stage = replace(stage, after=read_after(after.text, STAGES, f"{PANE}.after"))
        if place is not None:
            stage = replace(stage, place=read_place(place.text, f"{PANE}.place"))
    except ShopError:
        return stage
    return stage


def _need_no_ring(stages: Iterable[Stage]) -> None:
    try:
        need_order(tuple(stages))
    except ShopError as error:
        raise RefusedError(error.title, error.detail, f"{PANE}.after") from error


def _words(text: str) -> Typed | None:
    return Typed(text.strip(), None) if text.strip() else None


def _waits(stage: Stage) -> bool:
    return stage.hands < stage.likely


def _amount(value: float) -> Amount:
    return Amount(value, "Second", unit="h", decimals=1)


def _due(batch: Batch, stage: Stage, start: UtcSecond) -> Due:
    gate = UtcSecond(start + stage.likely)
    span = say("{low} to {high}", low=_amount(stage.low), high=_amount(stage.high))
    return Due(say("{stage}: look", stage=stage.name), gate, span, Rank.LATER, "plan",
               batch.name, batch.id)  # fmt: skip
