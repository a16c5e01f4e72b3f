"""What witness cups say about a sheet: ages at which marks were seen, and the times fitted to them.

The log keeps each batch's ages in its line, so that nothing is read again to learn; only where the
newest version of the sheet counts its age otherwise than the one the batch used is that batch
folded.
"""

from collections.abc import Iterable, Mapping

from shopassist.core.batch import Batch
from shopassist.core.cure import trail
from shopassist.core.frozen import frozen
from shopassist.core.learning import LEAST, Fitted, Kind, Offer, fit, offer
from shopassist.core.milestones import Milestone
from shopassist.core.quantities import Ratio, Second
from shopassist.core.sheet_milestones import milestones_of
from shopassist.core.sheets import ResinSheet, StageName
from shopassist.services.batches import BatchService
from shopassist.services.log_line import LogLine
from shopassist.services.versions import Library
from shopassist.services.warmth import readings_of

MARKS: dict[str, StageName] = {"gelled": "gel", "nail-hard": "hard"}
"""Which of the sheet's times a mark of the witness cup bears on."""
MARK_OF = {stage: mark for mark, stage in MARKS.items()}
RECENT = 200
"""Batches with the mark that a time is learnt from, the newest ones; ours."""


SPOILED = "spoiled"
"""The outcome after which a batch counts only toward caution."""


@frozen
class Learnt:
    """One time of a sheet, fitted."""

    stage: StageName
    kind: Kind
    sheet: Second
    fitted: Fitted
    offer: Offer

    @property
    def factor(self) -> Ratio:
        """The offered time over the sheet's."""
        return Ratio(self.offer.time / self.sheet)


class Witnesses:
    """Asks the services; keeps nothing."""

    def __init__(self, batches: BatchService, sheets: Library[ResinSheet]) -> None:
        self._batches, self._sheets = batches, sheets

    def ages(self, batch: Batch) -> dict[str, float]:
        """Age by stage at which its mark was seen, by the version of the sheet it used."""
        if batch.sheet is None or not batch.seen:
            return {}
        found = {
            stage: age_seen(batch, milestone)
            for stage, milestone in self._milestones(batch.sheet).items()
        }
        return {stage: float(age) for stage, age in found.items() if age is not None}

    def _milestones(self, used: tuple[str, int]) -> Mapping[StageName, Milestone]:
        version = self._sheets.version(*used)
        sheet = version.record if version is not None else None
        if sheet is None:
            return {}
        return {each.stage: each for each in milestones_of(sheet) if each.stage in MARK_OF}

    def learnt(self, record: str, newest_first: Iterable[LogLine]) -> tuple[Learnt, ...]:
        """What witness cups say about the newest version of a sheet."""
        version = self._sheets.newest(record)
        sheet = version.record if version is not None else None
        wanted = [m for m in milestones_of(sheet) if m.stage in MARK_OF] if sheet else []
        if not wanted:
            return ()
        lines = [
            line for line in newest_first
            if line.seen and line.sheet is not None and line.sheet[0] == record
            and not line.removed
        ]  # fmt: skip
        found: list[Learnt] = []
        for milestone in wanted:
            ages = self._observed(milestone, lines)
            if len(ages) >= LEAST:
                fitted = fit(ages, milestone.required)
                made = offer(fitted, milestone.required, milestone.kind)
                found.append(
                    Learnt(milestone.stage, milestone.kind, milestone.required, fitted, made)
                )
        return tuple(found)

    def _observed(self, milestone: Milestone, lines: list[LogLine]) -> list[Second]:
        """Ages at the newest version's own temperature at which the mark was seen."""
        stage, ages = milestone.stage, list[Second]()
        own: dict[tuple[str, int], bool] = {}
        marked = [line for line in lines if MARK_OF[stage] in line.seen]
        for line in marked[:RECENT]:
            used = line.sheet or ("", 0)
            if used not in own:
                made = self._milestones(used).get(stage)
                own[used] = made is not None and made.course == milestone.course
            kept = line.ages.get(stage)
            age = (None if kept is None else Second(kept)) if own[used] else age_seen(
                self._batches.get(line.id), milestone
            )  # fmt: skip
            if age is not None and (line.outcome != SPOILED or _cautious(age, milestone)):
                ages.append(age)
        return ages


def _cautious(age: Second, milestone: Milestone) -> bool:
    """Whether an age moves its time toward caution: a hazard earlier, a release later."""
    early = age < milestone.required
    return early if milestone.kind == "hazard" else not early


def age_seen(batch: Batch, milestone: Milestone) -> Second | None:
    """Age on one course at which its mark was seen; None where it was not, or nothing is known."""
    seen = batch.seen.get(MARK_OF[milestone.stage])
    rows = [cup.contact_row for cup in batch.cups if cup.contact_row is not None]
    if seen is None or not rows or not batch.warmth:
        return None
    begun = min(rows, key=lambda row: row.happened)
    upto = Second(seen - begun.happened)
    if upto <= 0:
        return None
    warmth = readings_of(batch, upto, lambda row: row.happened - begun.happened)
    age = trail(milestone.course, warmth, upto)[-1].age
    return age if age > 0 else None
