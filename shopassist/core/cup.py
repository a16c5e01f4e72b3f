"""What may stand in one cup today, and what is unwise to put together."""

from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.day_limits import depth_limit, mass_limit
from shopassist.core.exotherm import (
    CRITICAL_SEMENOV,
    adiabatic_rise,
    cooling_time,
    cup_area,
    peak_rate,
    semenov_number,
)
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import (
    JoulePerKilogram,
    JoulePerKilogramKelvin,
    JoulePerMole,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
    WattPerMetreKelvin,
    WattPerSquareMetreKelvin,
)
from shopassist.core.thickness import CRITICAL_SLAB, diffusivity, layer_number

Heat = Literal["low", "watch", "run-away"]
HEATS: tuple[Heat, ...] = ("low", "watch", "run-away")

RUN_AWAY_SEMENOV = Ratio(0.5)
"""From here on our lumped runs passed 60 °C (0.514); ours."""
RUN_AWAY_OVER_CRITICAL = Ratio(RUN_AWAY_SEMENOV / CRITICAL_SEMENOV)
"""The same reserve taken over to a layer's index; ours."""
NEAR_LIMIT = Ratio(0.8)
"""Share of the day's limit from which a cup counts as near it; ours."""
FUZZ = 1e-9
"""Share of a mass that is rounding of the machine, not resin."""
WARM_BY = 3.0
"""Kelvin over the sheet's temperature from which parts count as warm; ours."""


@frozen
class DayLimits:
    """The sheet's limits and what is left of them today; None: not on the sheet."""

    mass: Kilogram | None
    depth: Metre | None
    mass_on_sheet: Kilogram | None
    depth_on_sheet: Metre | None
    missing: Text | None = None
    """What keeps the limits from being scaled."""

    @property
    def scaled(self) -> bool:
        """True where today's warmth has taken something off."""
        return (self.mass, self.depth) != (self.mass_on_sheet, self.depth_on_sheet)


def day_limits(
    mass: Kilogram | None,
    depth: Metre | None,
    limits_at: Kelvin | None,
    temp: Kelvin | None,
    rate: Ratio | None,
) -> DayLimits:
    """Scale the sheet's limits to the resin's temperature, or say what is missing for it."""
    if mass is None and depth is None:
        return DayLimits(None, None, None, None, say("No limit of mass or depth on the sheet."))
    if limits_at is None:
        lacking = say("The sheet gives no temperature for its limits: they are not scaled.")
        return DayLimits(mass, depth, mass, depth, lacking)
    if temp is None or rate is None:
        return DayLimits(mass, depth, mass, depth, say("Type how warm the resin is today."))
    return DayLimits(
        mass_limit(mass, limits_at, temp, rate) if mass is not None else None,
        depth_limit(depth, limits_at, temp, rate) if depth is not None else None,
        mass,
        depth,
    )


@frozen
class CupCheck:
    """What stands against mixing this much in one cup."""

    share: Ratio | None
    """Mass over the day's limit."""
    over: bool
    stacked: bool
    """Near the limit and warm at once."""
    factors: tuple[Text, ...]


def check_cup(
    mass: Kilogram, limit: Kilogram | None, temp: Kelvin | None, limits_at: Kelvin | None
) -> CupCheck:
    """List what adds up: a cup near or over the limit, parts warmer than the sheet's figure."""
    need_positive(mass=mass)
    share = Ratio(mass / limit) if limit is not None else None
    over = share is not None and share > 1 + FUZZ
    near = share is not None and share >= NEAR_LIMIT
    warm = temp is not None and limits_at is not None and temp >= limits_at + WARM_BY
    said: list[Text] = []
    if over:
        said.append(say("Too much for one cup today: split it."))
    elif near:
        said.append(say("Near the most for one cup today."))
    if warm:
        said.append(say("The parts are warmer than the sheet's figure: it goes faster."))
    if near and warm:
        said.append(say("Both at once: take a smaller cup, or pour it out flat within 2 minutes."))
    return CupCheck(share, over, near and warm, tuple(said))


def working_time_note(stated_mass: Kilogram | None, mass: Kilogram) -> Text | None:
    """Why the working time does not hold for this cup; it is never scaled by mass."""
    if stated_mass is None:
        return say("The sheet does not say for what mass its working time holds.")
    if mass > stated_mass * (1 + FUZZ):
        return say(
            "Working time for this cup: unknown, shorter than for {mass}.",
            mass=Amount(stated_mass, "Kilogram"),
        )
    return None


@frozen
class Stuff:
    """Heat figures of a resin; the defaults are usual for epoxies and marked as ours."""

    heat: JoulePerKilogram
    capacity: JoulePerKilogramKelvin
    density: KilogramPerCubicMetre
    conductivity: WattPerMetreKelvin
    surface: WattPerSquareMetreKelvin
    """Heat given off to still air."""


USUAL_EPOXY = Stuff(
    JoulePerKilogram(400e3),
    JoulePerKilogramKelvin(1800.0),
    KilogramPerCubicMetre(1100.0),
    WattPerMetreKelvin(0.2),
    WattPerSquareMetreKelvin(10.0),
)
"""Middle of what is published for amine epoxies; ours. Surface: still air, 5 to 15, from memory."""


@frozen
class Regime:
    """Which way a mass goes; indicative, the sheet's limits come first."""

    heat: Heat
    semenov: Ratio
    layer: Ratio | None
    """Index of the layer over its critical value."""


def regime(
    mass: Kilogram,
    depth: Metre | None,
    gel_time: Second,
    energy: JoulePerMole,
    temp: Kelvin,
    stuff: Stuff = USUAL_EPOXY,
) -> Regime:
    """Judge self-heating in a cup and, where given, in a layer poured on an insulating floor."""
    rise, rate = adiabatic_rise(stuff.heat, stuff.capacity), peak_rate(gel_time)
    area = cup_area(mass, stuff.density)
    cooling = cooling_time(mass, stuff.capacity, stuff.surface, area)
    psi = semenov_number(rise, rate, cooling, energy, temp)
    heats = [_word(psi, CRITICAL_SEMENOV, RUN_AWAY_SEMENOV)]
    layer: Ratio | None = None
    if depth is not None:
        spreading = diffusivity(stuff.conductivity, stuff.density, stuff.capacity)
        delta = layer_number(rise, rate, depth, spreading, energy, temp)
        layer = Ratio(delta / CRITICAL_SLAB)
        heats.append(_word(layer, Ratio(1.0), RUN_AWAY_OVER_CRITICAL))
    return Regime(max(heats, key=HEATS.index), psi, layer)


def _word(index: Ratio, watch: Ratio, run_away: Ratio) -> Heat:
    if index < watch:
        return "low"
    return "watch" if index <= run_away else "run-away"
