"""What the other services have that calls for somebody: cures, pots, waits."""

from collections.abc import Callable, Iterable, Iterator
from typing import TYPE_CHECKING

from shopassist.core.alarms import causes
from shopassist.core.alarms.causes import Cause, Whose
from shopassist.core.alarms.table import Kind
from shopassist.core.messages import Amount, say
from shopassist.core.pot.leak import Verdict, judge
from shopassist.core.pot.moves import UNDER_PRESSURE
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Belief, Branch
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.services.alarms import Source
from shopassist.services.cure import CureService, CureView
from shopassist.services.next import Due
from shopassist.services.pot import PotService
from shopassist.services.pours import fullest
from shopassist.services.warmth import AS_MIXED

if TYPE_CHECKING:
    from shopassist.services.stabilise import Hot
    from shopassist.services.thermometers import ThermometerService

LONG = Second(12 * 3600.0)
"""A pot under pressure so long after its hold is told; ours."""
STALE = Second(14 * 86_400.0)
"""A batch whose outcome nobody told for so long asks for no temperature any more; ours."""
BRANCHES: dict[Branch, Kind] = {
    Branch.OVER_RATING: "over_rating",
    Branch.TOO_HOT: "pot_hot",
    Branch.RELIEF_LIFTED: "relief_lifted",
}


def cures(cure: CureService, pots: PotService) -> Source:
    """Hazards and releases of every running cure, and its temperatures."""

    def found(standing: frozenset[str]) -> Iterator[Cause]:
        has_pot, doubted = bool(pots.ids()), False
        for batch_id in cure.running():
            view = cure.view(batch_id)
            if view is not None:
                yield from _of_cure(view, cure.sheet(view.batch), has_pot, standing)
                if view.elapsed.doubted and not doubted:
                    # One clock, one alarm, whatever runs by it.
                    doubted = True
                    whose = Whose("", view.batch.name or "Batch", "cure")
                    yield causes.so(whose, "clock_doubted", UtcSecond(view.worked_out))

    return found


def _of_cure(
    view: CureView,
    sheet: ResinSheet | None,
    has_pot: bool,  # noqa: FBT001
    standing: frozenset[str],
) -> Iterator[Cause]:
    batch = view.batch
    whose = Whose(batch.id, batch.name or "Batch", "cure")
    yield from _hazards(view, whose, sheet, has_pot)
    yield from _releases(view, whose)
    yield from _readings(view, whose, sheet, standing)


def _hazards(
    view: CureView,
    whose: Whose,
    sheet: ResinSheet | None,
    has_pot: bool,  # noqa: FBT001
) -> Iterator[Cause]:
    batch = view.batch
    by = view.stage("pressurise")
    if has_pot and not batch.is_pressed and by is not None and by.gate is not None:
        yield from causes.pressurise(whose, by.gate)
    ends = view.stage("working")
    if not batch.is_poured and not batch.is_pressed and ends and ends.gate is not None:
        limit = sheet.mass_limit if sheet is not None else None
        yield from causes.working(whose, view.contact, ends.gate, fullest(batch), limit)


def _releases(view: CureView, whose: Whose) -> Iterator[Cause]:
    hold, demould = view.stage("hold"), view.stage("demould")
    if view.batch.pot and hold is not None and hold.gate is not None:
        yield causes.release(whose, "hold_over", hold.gate)
    if demould is not None and demould.gate is not None:
        yield causes.release(whose, "demould", demould.gate)


def _readings(
    view: CureView, whose: Whose, sheet: ResinSheet | None, standing: frozenset[str]
) -> Iterator[Cause]:
    waits = [stage for aim in ("demould", "hard") if (stage := view.stage(aim)) is not None]
    ahead = any(not stage.passed(view.worked_out) for stage in waits)
    if not ahead or view.elapsed.low > STALE:
        return
    own = view.batch.warmth[-1] if view.batch.warmth else None
    read = view.contact if own is None else UtcSecond(max(own.at, view.contact))
    yield causes.reading_old(whose, read)
    if own is not None and own.where != AS_MIXED and sheet is not None:
        shown = say("{temp} read", temp=Amount(own.middle, "Kelvin"))
        limits = (sheet.temp_lowest, sheet.temp_highest)
        yield from causes.out_of_limits(
            whose, (own.low, own.high), own.at, limits, shown, standing=standing
        )


def of_pots(pots: PotService) -> Source:
    """Odd states of the pots, a leak, and one that nobody let down."""

    def found(_: frozenset[str]) -> Iterator[Cause]:
        for pot_id in pots.ids():
            whose = Whose(pot_id, pots.name(pot_id), "pot")
            yield from _of_pot(whose, pots.state(pot_id))
            until = pots.load(pot_id).hold_until
            if until is not None and pots.state(pot_id).belief in UNDER_PRESSURE:
                yield causes.release(whose, "pot_long", UtcSecond(until + LONG))

    return found


def _of_pot(whose: Whose, state: PotState) -> Iterator[Cause]:
    last = state.last or state.reported
    since = UtcSecond(0.0 if last is None else last.utc)
    branch = BRANCHES.get(state.branch)
    if branch is not None and state.belief is not Belief.OPEN:
        yield causes.so(whose, branch, since)
    if state.belief is Belief.SUSPECT:
        yield causes.so(whose, "suspect", since)
    leak = judge(state) if state.belief in UNDER_PRESSURE else None
    if leak is not None and leak.verdict is Verdict.OVER:
        yield causes.so(whose, "pressure_fall", since)


def thermometers(service: "ThermometerService") -> Source:
    """Thermometers that are followed and cannot be heard."""
    since: dict[str, UtcSecond] = {}

    def found(_: frozenset[str]) -> Iterator[Cause]:
        for each in service.all():
            name = each.thermometer.name
            if each.trouble is None:
                since.pop(name, None)
            else:
                begun = since.setdefault(name, UtcSecond(each.heard))
                yield causes.so(Whose(name, name, "cure"), "thermometer_lost", begun, each.trouble)

    return found


def waits(dues: Callable[[], Iterable[Due]]) -> Source:
    """Waits that are over, of sets of cores and whatever else tells its dues.

    A stage of the plan is shown and not sounded: a batch has a dozen of them, and none does harm.
    """

    def found(_: frozenset[str]) -> Iterator[Cause]:
        for due in dues():
            if due.gate is not None:
                whose = Whose(due.owner, due.subject, due.pane)
                kind: Kind = "stage_over" if due.pane == "plan" else due.alarm
                yield causes.release(whose, kind, due.gate, due.event)

    return found


def ovens(too_hot: Callable[[], Iterable["Hot"]]) -> Source:
    """Ovens with wood in them above what they must not pass."""

    def found(standing: frozenset[str]) -> Iterator[Cause]:
        for hot in too_hot():
            whose = Whose(hot.batch.id, hot.batch.name or "Set", "stabilise")
            shown = say("oven at {temp}", temp=Amount(hot.temp, "Kelvin"))
            yield from causes.out_of_limits(
                whose, (hot.temp, hot.temp), hot.at, (None, hot.limit), shown, standing=standing
            )

    return found
