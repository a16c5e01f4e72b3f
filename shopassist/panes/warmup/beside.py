"""What the warm-up stands beside: the batch in hand, and its cure with and without it."""

from collections.abc import Callable

from shopassist.core.batch import Batch
from shopassist.core.cabinet import Cabinet
from shopassist.core.figures import Figure
from shopassist.core.frozen import frozen
from shopassist.core.milestones import Ahead
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import Kelvin, KelvinDelta, PascalAbsolute
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import Wording
from shopassist.panes.warmup import words
from shopassist.services.batches import BatchService
from shopassist.services.cabinet_cure import figure_in_cabinet, in_cabinet
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


@frozen
class CureBeside:
    """The cure of the batch in hand in the cabinet, each line with what explains it."""

    heading: str = ""
    lines: tuple[tuple[str, str], ...] = ()
    figures: tuple[Figure, ...] = ()


def cure_beside(
    of: WarmupSources, given: Given, made: Plan, say: Wording, now: float
) -> CureBeside:
    """The batch in hand, in the cabinet and without: a what-if, never mixed with the truth."""
    batch = of.batch
    if batch is None or batch.outcome or of.sheet is None or too_hot(of, given) is not None:
        return CureBeside()
    air = given.cabinet.heater
    kept = Ahead(Kelvin(air.off_at - air.band - LAG), air.off_at)
    view = of.cure.view(batch.id)
    if view is None:
        warm, true = of.cure.planned(batch.id, kept), of.cure.planned(batch.id)
        heading = f"If {batch.name} were mixed now"
    else:
        warm, true = _running(of, batch, made), view.relevant()
        heading = f"If {batch.name} went in now, switched on now"
    aims = {stage.aim for stage in true}
    found = in_cabinet([each for each in warm if each.aim in aims], true, now)[:LINES]
    if not found:
        return CureBeside()
    return CureBeside(
        heading,
        tuple(words.cure_line(say, each, now) for each in found),
        tuple(
            figure_in_cabinet(f"warmup.cure.{n}", each, given, made, view, kept)
            for n, each in enumerate(found, 1)
        ),
    )


def _running(of: WarmupSources, batch: Batch, made: Plan) -> tuple[StageView, ...]:
    course = coming(made.courses, made.courses.likely.end)
    return of.cure.what_if_course(batch.id, course)
