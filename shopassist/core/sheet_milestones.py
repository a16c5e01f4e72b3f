"""The milestones that a resin sheet gives, each with the law of its own step."""

from shopassist.core.cure import Course
from shopassist.core.messages import Text, say
from shopassist.core.milestones import Milestone
from shopassist.core.quantities import Kelvin, Ratio, Second
from shopassist.core.sheet_law import Basis, basis_of, sheet_doubts
from shopassist.core.sheet_order import order_doubts
from shopassist.core.sheets import STAGE_LABELS, ResinSheet, StageName

PRESSURISE_SHARE = Ratio(0.5)
"""Share of the working time within which resin should be under pressure; ours."""
HAZARDS: tuple[StageName, ...] = ("working", "pressurise", "gel")
RELEASES: tuple[StageName, ...] = ("gel", "demould", "hard", "full")


def milestones_of(sheet: ResinSheet) -> tuple[Milestone, ...]:
    """All milestones that a sheet gives with a temperature, hazards first."""
    found = [_hazard(sheet, stage) for stage in HAZARDS]
    found += [_release(sheet, stage) for stage in RELEASES]
    return tuple(milestone for milestone in found if milestone is not None)


def sheet_notes(sheet: ResinSheet) -> tuple[Text, ...]:
    """What is to be known of a sheet's times: without a temperature, in doubt, out of order."""
    out_of_order = (text for _, text in order_doubts(sheet))
    return (*without_temperature(sheet), *sheet_doubts(sheet), *out_of_order)


def without_temperature(sheet: ResinSheet) -> tuple[Text, ...]:
    """Times of a sheet that cannot be used, because it does not say how warm they hold."""
    return tuple(
        say("{stage}: the sheet gives no temperature, so no time is shown.", stage=label)
        for stage, label in STAGE_LABELS.items()
        if (time := sheet.stage(stage)) is not None and time.temp is None
    )


def _course(sheet: ResinSheet, basis: Basis, reference: Kelvin) -> Course:
    return Course(basis.law, reference, sheet.temp_lowest, sheet.temp_highest)


def _hazard(sheet: ResinSheet, stage: StageName) -> Milestone | None:
    time, share, given = sheet.stage(stage), Ratio(1.0), stage
    ours: Text | None = None
    if time is None and stage == "pressurise":
        time, share, given = sheet.stage("working"), PRESSURISE_SHARE, "working"
        ours = say("Half of the working time; ours, the sheet gives none.")
    if time is None or time.temp is None:
        return None
    basis = basis_of(sheet, given)
    return Milestone(
        stage, "hazard", Second(time.time * share), _course(sheet, basis, time.temp), ours=ours,
        printed=tuple((each.temp, Second(each.time * share)) for each in time.more), basis=basis,
    )  # fmt: skip


def _release(sheet: ResinSheet, stage: StageName) -> Milestone | None:
    time = sheet.stage(stage)
    if time is None or time.temp is None:
        return None
    first, *more = time.pairs
    basis = basis_of(sheet, stage)
    return Milestone(
        stage, "release", first.longest, _course(sheet, basis, first.temp),
        glass=sheet.glass if stage == "full" else None,
        printed=tuple((each.temp, each.longest) for each in more), basis=basis,
    )  # fmt: skip
