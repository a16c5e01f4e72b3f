"""Cards about resin that is left over, hot or crystallised, and resin nobody accounted for."""

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kelvin, Kilogram, Ratio

ASK_FROM = Kilogram(0.020)
"""From this much left in the cup it gets a wait of its own; ours."""
HEAT_CARD_FROM = Ratio(0.25)
"""Off-ratio by this much the hot-cup card is shown; ours."""
WARM = Kelvin(273.15 + 50.0), Kelvin(273.15 + 60.0)
"""Warm enough to melt crystals of a resin; common practice of suppliers."""

LEFTOVER_CARD: tuple[Text, ...] = (
    say("Spread it thin on a tray or foil."),
    say("Keep it in sight, on something that does not burn."),
    say("Nothing into the bin before it is cold and hard."),
    say("No sawdust or rags with hardener in a heap: they heat by themselves."),
    say("Never keep mixed resin warm so that it stays thin."),
)
HOT_CUP_CARD: tuple[Text, ...] = (
    say("Outdoors with it if you can carry it, onto stone, soil or metal."),
    say("Stand back; do not breathe the smoke."),
    say("No lid, no bin; put nothing on top."),
    say("If you cannot carry it: leave, air the room, call the fire service when it smokes on."),
    say("Do not pour it into the mould."),
)

CRYSTAL_CARD: tuple[Text, ...] = (
    say("Cloudy, gritty or solid part A: crystals, from cold storage. It is not spoiled."),
    say("Warm the closed container to {low} to {high} until it is clear, and stir.",
        low=Amount(WARM[0], "Kelvin", 0), high=Amount(WARM[1], "Kelvin", 0)),
    say("Let it cool to working temperature before you mix: warm it sets far too soon."),
    say("Wipe crystals off pump and cup: they spoil the ratio."),
)  # fmt: skip
"""Common practice of suppliers."""


def needs_watch(leftover: Kilogram) -> bool:
    """True when the rest in the cup is enough to get hot: it gets a wait and a tick."""
    need_not_negative(leftover=leftover)
    return leftover > ASK_FROM


def unaccounted(mixed: Kilogram, poured: Kilogram, leftover: Kilogram) -> Kilogram:
    """Mixed resin that is neither in a mould nor named as left over."""
    need_not_negative(mixed=mixed, poured=poured, leftover=leftover)
    return Kilogram(max(mixed - poured - leftover, 0.0))


def times_over(mass: Kilogram, limit: Kilogram) -> Ratio:
    """How many times the cup's limit a mass of uncured resin is."""
    need_positive(limit=limit)
    need_not_negative(mass=mass)
    return Ratio(mass / limit)


def needs_heat_card(deviation: Ratio) -> bool:
    """True when a mix is so far off its ratio that heat or fire is possible."""
    return abs(deviation) > HEAT_CARD_FROM
