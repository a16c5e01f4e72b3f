"""Whether the times of a resin sheet follow one another as the steps of a cure do."""

from collections.abc import Iterator

from shopassist.core.cure_law import rate
from shopassist.core.messages import Amount, Text, say
from shopassist.core.sheet_law import basis_of
from shopassist.core.sheets import STAGE_LABELS, ResinSheet, StageName, StageTime

BEFORE: dict[StageName, tuple[StageName, ...]] = {
    "gel": ("working", "pressurise"),
    "demould": ("gel", "working"),
    "hard": ("demould", "gel"),
    "full": ("hard", "demould", "gel"),
}
"""Steps that come before each; of the last three the nearest that the sheet gives is looked at."""


def order_doubts(sheet: ResinSheet) -> tuple[tuple[StageName, Text], ...]:
    """Steps whose longest time is under the shortest of a step before them, as warm as they are."""
    return tuple(
        (stage, text)
        for stage in BEFORE
        for text in _doubts(sheet, stage, _looked_at(sheet, stage))
    )


def _looked_at(sheet: ResinSheet, stage: StageName) -> tuple[StageName, ...]:
    given = tuple(each for each in BEFORE[stage] if _usable(sheet.stage(each)))
    return given if stage == "gel" else given[:1]


def _usable(time: StageTime | None) -> bool:
    return time is not None and time.temp is not None


def _doubts(sheet: ResinSheet, stage: StageName, earlier: tuple[StageName, ...]) -> Iterator[Text]:
    late = sheet.stage(stage)
    if late is None or late.temp is None:
        return
    for name in earlier:
        early = sheet.stage(name)
        if early is None or early.temp is None:
            continue
        takes = early.time * rate(basis_of(sheet, name).law, early.temp, late.temp)
        longest = late.time_high or late.time
        if takes > longest * (1 + 1e-9):
            yield say(
                "{late} within {time} and {early} after {takes}, both at {temp}: one is a slip.",
                late=STAGE_LABELS[stage], time=Amount(longest, "Second"),
                early=STAGE_LABELS[name].lower(), takes=Amount(takes, "Second"),
                temp=Amount(late.temp, "Kelvin", 0),
            )  # fmt: skip
