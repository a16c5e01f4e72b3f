"""Water before a pour: what a resin stands of it in air and wood, and whose limit that is."""

from collections.abc import Mapping

from shopassist.core.batch import Batch, Typed
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Ratio
from shopassist.core.sheets import ResinSheet
from shopassist.core.wood_set import WoodSet
from shopassist.services.beside import Caution

FOAMS = "polyurethane"
"""The family that froths with water."""
FOAMING = Ratio(0.50)
"""Relative humidity above which it froths; suppliers' guidance, common practice."""
CORES = ("blank.stations", "blank.core_mass", "blank.core_volume")
"""Entries that say that there is wood in the mould."""
BY_SHEET = say("The limit is your sheet's.")
BY_ADVICE = say("Suppliers' guidance for polyurethane: common practice; a limit on the sheet comes"
                " first.")  # fmt: skip
DRY_WOOD = say("By suppliers' guidance, common practice: dry it to constant weight first; by a"
               " meter is not enough.")  # fmt: skip
ASK_AIR = say("Damp air spoils this resin: type the air's humidity.")


def most_humid(sheet: ResinSheet) -> tuple[Ratio, Text] | None:
    """Relative humidity that a resin stands, and whose limit it is; None where nobody gives one."""
    own = (sheet.values or {}).get("limit.humidity")
    if isinstance(own, float):
        return Ratio(own), BY_SHEET
    return (FOAMING, BY_ADVICE) if sheet.family == FOAMS else None


def damp_air(sheet: ResinSheet, humidity: float | None) -> Caution | None:
    """Why this air is not for an open cup of this resin."""
    limit = most_humid(sheet)
    if limit is None or humidity is None or humidity <= limit[0]:
        return None
    return (
        say("The air is too damp: {now}, this resin stands {most}.",
            now=Amount(humidity, "Ratio", 0, "%"), most=Amount(limit[0], "Ratio", 0, "%")),
        say("Wait for drier air, cans shut, no wooden sticks, no paper cups. {whose}",
            whose=limit[1]),
    )  # fmt: skip


def damp_wood(sheet: ResinSheet, entries: Mapping[str, Typed], wood: WoodSet) -> Caution | None:
    """Why this wood is not for polyurethane; None where it is dry, or there is none."""
    if sheet.family != FOAMS or not has_core(entries, wood) or oven_dry(wood):
        return None
    if wood.weighed:
        return say("The weighings of this wood do not show it oven-dry."), DRY_WOOD
    return say("Nothing on record shows this wood oven-dry by weight."), DRY_WOOD


def has_core(entries: Mapping[str, Typed], wood: WoodSet) -> bool:
    """Whether wood is poured round."""
    core = entries.get("blank.core")
    drawn = any(name in entries for name in CORES)
    return bool(wood.weighed) or (drawn and (core is None or core.text != "none"))


def oven_dry(wood: WoodSet) -> bool | None:
    """Whether the wood's weighings showed it dry; None where it was never weighed."""
    return wood.at("oven_off") is not None if wood.weighed else None


def humidity_at_pour(batch: Batch) -> float | None:
    """The humidity that was typed for the pour, else the one on the cards of the lathe."""
    for name in ("mix.humidity", "turn.humidity"):
        typed = batch.entries.get(name)
        if typed is not None and typed.value is not None:
            return typed.value
    return None
