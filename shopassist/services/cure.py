"""Cures: readings folded to ages, milestones turned into instants. Nothing counts down here."""

from collections.abc import Sequence

from shopassist.clock import Clock
from shopassist.core.batch import Batch, Cup, WarmthReading
from shopassist.core.cure import Course, Progress, Warmth
from shopassist.core.frozen import frozen, replace
from shopassist.core.messages import Text
from shopassist.core.milestones import Ahead, Milestone
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.sheet_milestones import milestones_of, sheet_notes
from shopassist.core.sheets import ResinSheet
from shopassist.core.timeline import Elapsed
from shopassist.services.batches import BatchService
from shopassist.services.cure_earlier import Earlier
from shopassist.services.cure_run import Run
from shopassist.services.kept import Newest, still_holds
from shopassist.services.nights import later
from shopassist.services.pours import contacts
from shopassist.services.session import Session
from shopassist.services.standing import (
    AIMS,
    NO_SHEET,
    Aim,
    StageView,
    Standing,
    Whose,
    stage_at,
    whose,
)
from shopassist.services.versions import Library
from shopassist.services.warmth import AS_MIXED, Readings, Since, outlook, within_reason

__all__ = ["RECENT", "Aim", "CureService", "CureView", "StageView", "Standing"]

Told = tuple[tuple[Milestone, ...], tuple[Text, ...]]
"""The milestones of a sheet, and what is to be known of its times."""
FRESH = Second(12 * 3600.0)
"""So long a reading of an earlier batch says something about the shop; ours."""
DAY = Second(86_400.0)
"""Where a sheet gives neither gel nor demould, a cup so old has gelled; ours."""
REFRESH = 60.0
"""Forecasts are worked out anew at least so often, [s]."""


@frozen
class CureView:
    """One running cure."""

    batch: Batch
    elapsed: Elapsed
    contact: UtcSecond
    stages: tuple[StageView, ...]
    latest: WarmthReading | None
    ahead: Ahead
    notes: tuple[Text, ...]
    worked_out: float
    """When this was worked out, [s since 1970 UTC]."""

    def stage(self, aim: Aim) -> StageView | None:
        """One milestone, if the sheet gives it."""
        return next((each for each in self.stages if each.aim == aim), None)

    def relevant(self) -> tuple[StageView, ...]:
        """Milestones that still matter: poured ends the working time, pressure its deadline."""
        batch = self.batch
        gone: set[Aim] = set()
        if batch.is_poured:
            gone.add("working")
        if batch.is_pressed:
            gone |= {"working", "pressurise", "gel"}
        elif self.stage("pressurise") is not None:
            gone.add("gel")
        return tuple(stage for stage in self.stages if stage.aim not in gone)

    def lead(self, now: float) -> StageView | None:
        """What the digits count to: the next thing that the person does or may do."""
        batch = self.batch
        if not batch.is_pressed and not batch.is_poured:
            order: tuple[Aim, ...] = ("pressurise", "working", "gel", "demould", "hard", "full")
        elif not batch.is_pressed:
            order = ("pressurise", "gel", "demould", "hard", "full")
        else:
            order = ("hold", "demould", "hard", "full")
        found = [stage for aim in order if (stage := self.stage(aim)) is not None]
        coming = [stage for stage in found if not stage.passed(now)]
        return next(iter(coming), found[-1] if found else None)


class CureService:
    """Works out cures when it is asked, and keeps the answer while nothing new is known."""

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], session: Session, clock: Clock
    ) -> None:
        self._batches = batches
        self._sheets = sheets
        self._session = session
        self._clock = clock
        self._kept: dict[str, tuple[CureView, Reading]] = {}
        self._runs: Newest[tuple[str, Course, int, bool], Run] = Newest(KEPT)
        self._readings: Newest[tuple[str, int, bool], Readings] = Newest(KEPT)
        self._told: Newest[tuple[str, int] | None, Told] = Newest(RECENT)
        """What each sheet says in its version, which never changes."""
        self._latest: Newest[str, tuple[tuple[WarmthReading, ...], WarmthReading | None]]
        self._latest = Newest(KEPT)
        self._earlier: Earlier[Standing] = Earlier(batches.as_of, self._stood)
        self._were_gelled: Newest[tuple[object, ...], bool] = Newest(KEPT)
        batches.changed.connect(self._forget)
        sheets.changed.connect(lambda _: self._resheeted())
        session.findings.connect(lambda _: self.forget())

    def _forget(self, batch_id: str) -> None:
        self._kept.pop(batch_id, None)

    def _resheeted(self) -> None:
        self._kept.clear()
        self._told.clear()

    def forget(self) -> None:
        """Work everything out anew: something was settled about the clocks."""
        self._kept.clear()
        self._earlier.forget()
        self._readings.clear()
        self._latest.clear()
        self._were_gelled.clear()

    # -- looking ----------------------------------------------------------------------------

    def running(self) -> tuple[str, ...]:
        """Batches whose hardener is in and whose outcome is not told yet, newest first."""
        return tuple(batch.id for batch in self._batches.reacting(RECENT))

    def view(self, batch_id: str) -> CureView | None:
        """One cure as it stands; None before hardener is in."""
        batch = self._batches.get(batch_id)
        if batch.first_contact is None:
            return None
        now = self._clock.read()
        kept = self._kept.get(batch_id)
        if kept is not None and still_holds(kept[1], now, REFRESH):
            return kept[0]
        made = self._view(batch, now)
        self._kept[batch_id] = made, now
        return made

    def sheet(self, batch: Batch) -> ResinSheet | None:
        """The sheet in the version that the batch uses."""
        version = self._sheets.version(*batch.sheet) if batch.sheet else None
        return version.record if version is not None else None

    def what_if(self, batch_id: str, temp: Kelvin) -> tuple[StageView, ...]:
        """Milestones if it stayed at one temperature from now on; what was, stays as it was."""
        batch = self._batches.get(batch_id)
        if batch.first_contact is None:
            return ()
        return self._standing(batch, self._clock.read()).stages(Ahead(temp, temp))

    def what_if_course(self, batch_id: str, coming: Sequence[Warmth]) -> tuple[StageView, ...]:
        """Milestones if the resin went through these, in seconds from now, and stayed at the last.

        For a forecast beside the truth: a cabinet's warm-up that was worked out, never read.
        """
        batch = self._batches.get(batch_id)
        if batch.first_contact is None or not coming:
            return ()
        standing = self._standing(batch, self._clock.read(), coming)
        return standing.stages(Ahead(coming[-1].low, coming[-1].high))

    def course(self, batch_id: str) -> "Standing | None":
        """The running course of one cure, for charts; None before hardener is in."""
        batch = self._batches.get(batch_id)
        if batch.first_contact is None:
            return None
        return self._standing(batch, self._clock.read())

    def earlier(self, batch_id: str) -> "tuple[Standing, ...]":
        """The cure as it stood at earlier readings, by what was known then."""
        return self._earlier.of(self._batches.get(batch_id))

    def _stood(self, batch: Batch, then: Reading) -> Standing:
        """How a batch stood at a moment that is past; no fold of it is kept."""
        return self._standing(batch, then, afresh=True)

    def planned(self, batch_id: str, kept_at: Ahead | None = None) -> tuple[StageView, ...]:
        """What would follow if hardener went in now, as warm as it was last or kept at this."""
        batch, now = self._batches.get(batch_id), self._clock.read()
        sheet = self.sheet(batch)
        if sheet is None:
            return ()
        latest = self.latest_warmth(batch, now.utc)
        ahead = kept_at or outlook(latest, self._age(latest, now), borrowed=not batch.warmth)
        start = Elapsed(Second(0.0), Second(0.0), Second(0.0))
        return tuple(
            stage_at(each, (Progress(),), ahead, start, now.utc)
            for each in self._told_by(batch, sheet)[0]
        )

    def _told_by(self, batch: Batch, sheet: ResinSheet) -> Told:
        return self._told.of(batch.sheet, lambda: (milestones_of(sheet), sheet_notes(sheet)))

    def latest_warmth(self, batch: Batch, now: float) -> WarmthReading | None:
        """The newest reading of this batch, or a fresh one of another: the shop is the same."""
        if batch.warmth:
            return self._newest(batch)
        others = [each.warmth[-1] for each in self._batches.recent(6) if each.warmth]
        others = [each for each in others if each.where != AS_MIXED]
        newest = max(others, key=lambda each: each.at, default=None)
        return newest if newest is not None and now - newest.at < FRESH else None

    def _newest(self, batch: Batch) -> WarmthReading:
        """By the time between them; what was compared already is not compared again."""
        seen, best = self._latest.take(batch.id) or ((), None)
        if batch.warmth[: len(seen)] != seen:
            seen, best = (), None
        for each in batch.warmth[len(seen) :]:
            later = 0.0 if best is None else self._session.apart(best.clocked, each.clocked).likely
            if best is None or (round(later, 3), each.row.seq) > (0.0, best.row.seq):
                best = each
        self._latest.put(batch.id, (batch.warmth, best))
        return best or batch.warmth[-1]

    # -- working out --------------------------------------------------------------------------

    def _standing(
        self, batch: Batch, now: Reading, coming: Sequence[Warmth] = (), *, afresh: bool = False
    ) -> Standing:
        """Fold every course of this batch up to now, and on through what is only supposed."""
        rows = contacts(batch, lambda one, other: self._gelled(batch, one, other))
        spans = {each: self._session.elapsed(row, now) for each, row in rows.items()}
        sheet = self.sheet(batch)
        milestones, told = self._told_by(batch, sheet) if sheet is not None else ((), (NO_SHEET,))
        trails: dict[tuple[Course, Whose], Sequence[Progress]] = {}
        courses = {(whose(each), each.course) for each in milestones}
        for kind in {each for each, _ in courses}:
            begun, span, hazard = rows[kind], spans[kind], kind != "release"
            # Where no clock is in doubt and one cup began it all, hazards and releases run as one.
            apart = hazard and (begun is not rows["release"] or span.high != span.low)
            upto = within_reason(span) if hazard else span.low
            timed = Readings() if afresh else self._timed(batch.id, begun, hazard=apart)
            warmth = timed.of(batch, upto, self._since(begun, hazard=hazard), self._doubted)
            supposed = [later(each, upto) for each in coming]
            end = supposed[-1].at if supposed else upto
            for course in {course for each, course in courses if each == kind}:
                run = Run(course) if afresh else self._run(batch.id, course, begun, apart=apart)
                trails[course, kind] = run.upto(warmth, end, supposed)
        latest = self.latest_warmth(batch, now.utc)
        return Standing(
            batch, now.utc, rows["hazard"].happened, spans, sheet, milestones, told, trails,
            latest, self._age(latest, now),
        )  # fmt: skip

    def _gelled(self, batch: Batch, one: Cup, other: Cup) -> bool:
        """Whether the earlier cup had gelled for sure when the later one was mixed."""
        row = other.contact_row
        assert row is not None  # noqa: S101 - it is mixed
        seen = batch.seen.get("gelled")
        if seen is not None and seen <= row.happened:
            return True
        known = tuple(each for each in batch.warmth if each.at <= row.happened)
        key = one.told, row.seq, batch.sheet, len(batch.unknowns), tuple(w.row.seq for w in known)
        return self._were_gelled.of(key, lambda: self._gelled_by(batch, one, known, row.recorded))

    def _gelled_by(
        self, batch: Batch, cup: Cup, known: tuple[WarmthReading, ...], then: Reading
    ) -> bool:
        alone = replace(batch, cups=(cup,), warmth=known)
        stages = self._stood(alone, then)
        found = {each.aim: each for each in stages.stages(stages.ahead)}
        stage = found.get("hold") or found.get("demould")
        if stage is None:
            return stages.spans["release"].low > DAY
        return stage.passed(then.utc)

    def _timed(self, batch_id: str, begun: Row, *, hazard: bool) -> Readings:
        """The readings of one batch as they were timed so far; only the newest few are kept."""
        return self._readings.of((batch_id, begun.seq, hazard), Readings)

    def _run(self, batch_id: str, course: Course, begun: Row, *, apart: bool) -> Run:
        """What was folded of one course so far; only the newest few are kept."""
        return self._runs.of((batch_id, course, begun.seq, apart), lambda: Run(course))

    def _age(self, reading: WarmthReading | None, now: Reading) -> Second:
        """The longest that may have gone by since a reading."""
        if reading is None:
            return Second(0.0)
        return within_reason(self._session.elapsed(reading.clocked, now))

    def _since(self, begun: Row, *, hazard: bool) -> Since:
        """Hazards take the longest that may have gone by, releases the shortest."""

        def since(row: Row) -> float:
            span = self._session.apart(begun, row)
            return float(within_reason(span) if hazard else span.low)

        return since

    def _doubted(self, one: Row, other: Row) -> bool:
        return self._session.apart(one, other).doubted

    def _view(self, batch: Batch, now: Reading) -> CureView:
        standing = self._standing(batch, now)
        ahead = standing.ahead
        return CureView(
            batch, standing.spans["hazard"], standing.contact, standing.stages(ahead),
            standing.latest, ahead, standing.notes(), now.utc,
        )  # fmt: skip


RECENT = 30
"""Newest batches that are looked through for running cures."""
KEPT = len(AIMS) * RECENT
"""Folds that are kept, for each step may have a law of its own; more are folded anew when asked."""
