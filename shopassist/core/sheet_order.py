"""Whether the times of a resin sheet follow one another as the steps of a cure do."""

from collections.abc import Iterator

from shopassist.core.cure_law import rate
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kelvin, Second
from shopassist.core.sheet_law import basis_of
from shopassist.core.sheets import STAGE_LABELS, ResinSheet, StageName

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


Given = tuple[StageName, Second, Kelvin]
"""A step, its shortest time and the temperature of it."""


def _looked_at(sheet: ResinSheet, stage: StageName) -> tuple[Given, ...]:
    given = tuple(
        (each, time.time, time.temp)
        for each in BEFORE[stage]
        if (time := sheet.stage(each)) is not None and time.temp is not None
    )
    return given if stage == "gel" else given[:1]


def _doubts(sheet: ResinSheet, stage: StageName, earlier: tuple[Given, ...]) -> Iterator[Text]:
    late = sheet.stage(stage)
    if late is None or late.temp is None:
        return
    for name, time, temp in earlier:
        takes = time * rate(basis_of(sheet, name).law, temp, late.temp)
        longest = late.time_high or late.time
        if takes > longest * (1 + 1e-9):
            yield say(
                "{late} within {time} and {early} after {takes}, both at {temp}: one is a slip.",
                late=STAGE_LABELS[stage], time=Amount(longest, "Second"),
                early=STAGE_LABELS[name].lower(), takes=Amount(takes, "Second"),
                temp=Amount(late.temp, "Kelvin", 0),
            )  # fmt: skip
