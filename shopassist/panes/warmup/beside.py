"""What the warm-up stands beside: the batch in hand, and its cure with and without it."""

from collections.abc import Callable

from shopassist.core.batch import Batch
from shopassist.core.cabinet import Cabinet
from shopassist.core.frozen import frozen
from shopassist.core.milestones import Ahead
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import Kelvin, KelvinDelta, PascalAbsolute
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import Wording
from shopassist.panes.warmup import words
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService, StageView
from shopassist.services.in_hand import InHand, StateKeeper
from shopassist.services.into_cabinet import coming
from shopassist.services.versions import Library
from shopassist.services.warmup import Given, Plan

LAG = KelvinDelta(1.0)
"""What stands in a settled cabinet may be so much under its air; ours."""
LINES = 2


@frozen
class WarmupSources:
    """What the pane asks and tells."""

    cabinets: Library[Cabinet]
    plates: Library[Plate]
    batches: BatchService
    cure: CureService
    hand: InHand
    state: StateKeeper
    ambient: Callable[[], PascalAbsolute]

    @property
    def batch(self) -> Batch | None:
        """The batch in hand."""
        batch_id = self.hand.batch
        return self.batches.get(batch_id) if batch_id else None

    @property
    def sheet(self) -> ResinSheet | None:
        """Its sheet."""
        batch = self.batch
        return self.cure.sheet(batch) if batch is not None else None

    def gelled(self) -> bool:
        """Whether the batch in hand has gelled for sure."""
        standing = self.cure.course(self.hand.batch) if self.hand.batch else None
        return standing is not None and standing.gelled


def too_hot(of: WarmupSources, given: Given) -> Kelvin | None:
    """The highest temperature of the batch's sheet, where the cabinet goes beyond it."""
    sheet = of.sheet
    highest = sheet.temp_highest if sheet is not None else None
    return highest if highest is not None and highest < given.cabinet.set_at else None


def cure_beside(
    of: WarmupSources, given: Given, made: Plan, say: Wording, now: float
) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The batch in hand, in the cabinet and without: a what-if, never mixed with the truth."""
    batch = of.batch
    if batch is None or batch.outcome or of.sheet is None or too_hot(of, given) is not None:
        return "", ()
    if batch.first_contact is None:
        warm, true = _planned(of, batch, given)
        heading = f"If {batch.name} were mixed now"
    else:
        warm, true = _running(of, batch, made)
        heading = f"If {batch.name} went in now, switched on now"
    aims = {stage.aim for stage in true}
    lines = words.cure_lines(say, tuple(s for s in warm if s.aim in aims), true, now)
    return (heading, lines[:LINES]) if lines else ("", ())


Stages = tuple[StageView, ...]


def _planned(of: WarmupSources, batch: Batch, given: Given) -> tuple[Stages, Stages]:
    air = given.cabinet.heater
    kept = Ahead(Kelvin(air.off_at - air.band - LAG), air.off_at)
    return of.cure.planned(batch.id, kept), of.cure.planned(batch.id)


def _running(of: WarmupSources, batch: Batch, made: Plan) -> tuple[Stages, Stages]:
    course = coming(made.courses, made.courses.likely.end)
    view = of.cure.view(batch.id)
    true = view.relevant() if view is not None else ()
    return of.cure.what_if_course(batch.id, course), true
