"""Numbers of a pot's vessel as figures that explain themselves."""

from math import pi

from shopassist.core.blowdown import hole_flow
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.gas import sealed_gauge
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.plate import (
    WORST_CLASS,
    Gauge,
    Plate,
    hidden_force,
    hidden_pressure,
    working_limit,
)
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Metre,
    Newton,
    PascalAbsolute,
    PascalGauge,
    SquareMetre,
)
from shopassist.core.relief import RELIEF_SHARE, allowed_rise, relief_band
from shopassist.core.vessel import (
    clamp_share,
    lid_force,
    pressure_volume,
    stored_energy,
    stored_energy_bound,
)

LITTLE = PascalGauge(20e3)
"""A little pressure that looks like nothing on a dial: 0.2 bar."""
ROOM = Kelvin(293.15)
SUPPLY_SHARE, RELIEF_FLOW = 1.0, 0.6
"""Discharge coefficients: the supply counted high, the relief valve low (own choice)."""
GOVERNS = {
    "rating": say("The rating governs."),
    "relief": say("The relief valve governs: nine tenths of its set pressure."),
    "warming": say("Warming up governs: a shut pot rises as it warms."),
}
LOOK_UP = (
    say("Look this up: a pot above 0.5 bar may fall under rules for pressure equipment."),
    say("Look this up: some count pressure × volume (50, 200 or 250 bar litre are such lines)."),
    say("Look this up: who may examine it, how often, and whether the compressor's tank counts."),
)
"""Jurisdiction is never ruled on here."""


@frozen
class Vessel:
    """What is known about one vessel at one pressure."""

    plate: Plate
    ambient: PascalAbsolute
    pressure: PascalGauge | None
    """The pressure that the numbers are for."""
    said: Origin | None
    """Where that pressure comes from."""


def vessel_figures(vessel: Vessel) -> tuple[Figure, ...]:
    """All numbers of the vessel, those that hurt first."""
    return (
        *_forces(vessel), *_energy(vessel), *_limits(vessel), *_flows(vessel), _product(vessel)
    )  # fmt: skip


def _plate(value: float | None, quantity: str) -> Origin:
    return Origin(0.0 if value is None else value, quantity, "record", say("The pot's plate."))


def _air(vessel: Vessel) -> Origin:
    return Origin(vessel.ambient, "PascalAbsolute", "record", say("By the elevation you gave."))


def _absent(name: str, label: str, quantity: str, formula: str, missing: str) -> Figure:
    return Figure(
        f"pot.vessel.{name}", None, quantity, formula, missing=say(missing), label=say(label)
    )


# -- force -------------------------------------------------------------------------------------


def _forces(vessel: Vessel) -> tuple[Figure, ...]:
    plate, pressure = vessel.plate, vessel.pressure
    seal = plate.seal_diameter
    if seal is None or pressure is None or vessel.said is None:
        missing = "needs the seal line" if seal is None else "needs a pressure"
        return (_absent("force", "Force on the lid", "Newton", "vessel.lid_force", missing),)
    inputs = {"gauge": vessel.said, "seal_diameter": _plate(seal, "Metre")}
    force = Figure(
        "pot.vessel.force", lid_force(pressure, seal), "Newton", "vessel.lid_force", inputs,
        label=say("{at} pushes on the lid like", at=Amount(pressure, "PascalGauge")),
    )  # fmt: skip
    return (force, *_shares(vessel, force), _little(seal), _hidden(plate, seal))


def _shares(vessel: Vessel, force: Figure) -> tuple[Figure, ...]:
    clamps = vessel.plate.clamps
    if clamps < 1 or force.value is None:
        return ()
    share = clamp_share(Newton(force.value), clamps)
    return (Figure(
        "pot.vessel.clamp", share, "Newton", "vessel.clamp_share",
        {"force": force, "clamps": _plate(clamps, "")},
        omits=(say("A slack clamp loads its neighbours far above this."),),
        label=say("On each of {count} clamps", count=clamps),
    ),)  # fmt: skip


def _class(gauge: Gauge) -> Origin:
    note = say("Share of the span; blank: the worst.")
    if gauge.accuracy is None:
        return Origin(WORST_CLASS / 100, "Ratio", "default", note)
    return Origin(gauge.accuracy / 100, "Ratio", "record", note)


def _little(seal: Metre) -> Figure:
    return Figure(
        "pot.vessel.little", lid_force(LITTLE, seal), "Newton", "vessel.lid_force",
        {"gauge": Origin(LITTLE, "PascalGauge", "default", say("Looks like nothing on a dial.")),
         "seal_diameter": _plate(seal, "Metre")},
        label=say("{at} on your lid pushes like", at=Amount(LITTLE, "PascalGauge")),
    )  # fmt: skip


def _hidden(plate: Plate, seal: Metre) -> Figure:
    label = "A zero on this gauge can hide"
    gauge = plate.gauge
    if gauge is None:
        return _absent("hidden", label, "Newton", "vessel.lid_force", "needs the gauge")
    counted = {} if gauge.accuracy is None else {"class": _class(gauge)}
    return Figure(
        "pot.vessel.hidden", hidden_force(plate), "Newton", "vessel.lid_force",
        {"gauge": Origin(hidden_pressure(gauge), "PascalGauge", "computed",
                         say("Half a division, plus the error of its class.")),
         "seal_diameter": _plate(seal, "Metre"),
         "division": _plate(gauge.division, "PascalGauge"), **counted},
        omits=(say("Take-up of a poor dial, and a plugged port."),), label=say(label),
    )  # fmt: skip


# -- energy ------------------------------------------------------------------------------------


def _energy(vessel: Vessel) -> tuple[Figure, ...]:
    label, volume, pressure = "Stored in the air", vessel.plate.volume, vessel.pressure
    if not volume or pressure is None or vessel.said is None:
        missing = "needs the inside volume" if not volume else "needs a pressure"
        return (_absent("energy", label, "Joule", "vessel.stored_energy", missing),)
    space = CubicMetre(volume)
    return (Figure(
        "pot.vessel.energy", stored_energy(pressure, space, vessel.ambient), "Joule",
        "vessel.stored_energy",
        {"gauge": vessel.said, "volume": _plate(volume, "CubicMetre"), "ambient": _air(vessel)},
        high=stored_energy_bound(pressure, space),
        range_means=say("The highest is an upper bound: all that the air could give."),
        omits=(say("Moulds inside take up room: less air, less energy."),), label=say(label),
    ),)  # fmt: skip


# -- limits ------------------------------------------------------------------------------------


def _limits(vessel: Vessel) -> tuple[Figure, ...]:
    return (_working(vessel), *_warm(vessel), *_relief(vessel.plate), *_dial(vessel.plate))


def _working(vessel: Vessel) -> Figure:
    plate, label = vessel.plate, "Fill it to at most"
    limit = working_limit(plate, vessel.ambient)
    if limit is None:
        return _absent("limit", label, "PascalGauge", "relief.working_limit",
                       "needs rating and relief valve")  # fmt: skip
    warmest = plate.coldest_fill if plate.warmest is None else plate.warmest
    return Figure(
        "pot.vessel.limit", limit.pressure, "PascalGauge", "relief.working_limit",
        {"rating": _plate(plate.rating, "PascalGauge"),
         "relief_set": _plate(plate.relief_set, "PascalGauge"),
         "temp_fill": _plate(plate.coldest_fill, "Kelvin"),
         "temp_warmest": _plate(warmest, "Kelvin"), "ambient": _air(vessel)},
        rounding=GOVERNS[limit.governs], label=say(label),
    )  # fmt: skip


def _warm(vessel: Vessel) -> tuple[Figure, ...]:
    plate, pressure = vessel.plate, vessel.pressure
    if plate.warmest is None or pressure is None or vessel.said is None:
        return ()
    warm = sealed_gauge(pressure, plate.coldest_fill, plate.warmest, vessel.ambient)
    return (Figure(
        "pot.vessel.warm", warm, "PascalGauge", "gas.sealed_gauge",
        {"gauge": vessel.said, "temp_before": _plate(plate.coldest_fill, "Kelvin"),
         "temp_after": _plate(plate.warmest, "Kelvin"), "ambient": _air(vessel)},
        rounding=_against(plate, warm), omits=(say("A pot left on a relieving regulator."),),
        label=say("Shut, and warm, it reads"),
    ),)  # fmt: skip


def _against(plate: Plate, warm: float) -> Text:
    if plate.rating is not None and warm > plate.rating:
        return say("Above the rating: fill lower.")
    if plate.relief_set is not None and warm > RELIEF_SHARE * plate.relief_set:
        return say("So near its set pressure the relief valve may weep: fill lower.")
    return say("Never put the pot in an oven.")


def _relief(plate: Plate) -> tuple[Figure, ...]:
    label, set_at = "The relief valve may open from", plate.relief_set
    if set_at is None:
        return (_absent("relief", label, "PascalGauge", "relief.relief_band",
                        "needs the relief valve"),)  # fmt: skip
    band = relief_band(set_at)
    return (Figure(
        "pot.vessel.relief", band.low, "PascalGauge", "relief.relief_band",
        {"relief_set": _plate(set_at, "PascalGauge")}, low=band.low, high=band.high,
        range_means=say("Tolerance of a new valve; an old one may be worse."),
        rounding=_relief_words(plate, band.high), label=say(label),
    ),)  # fmt: skip


def _relief_words(plate: Plate, highest: float) -> Text:
    if plate.rating is None:
        return say("No rating to hold it against.")
    allowed = Amount(allowed_rise(plate.rating), "PascalGauge")
    if highest > plate.rating:
        return say("It may open above the rating; it must hold a rise to {allowed}.",
                   allowed=allowed)  # fmt: skip
    return say("Below the rating; it must hold a rise to {allowed}.", allowed=allowed)


def _dial(plate: Plate) -> tuple[Figure, ...]:
    gauge, label = plate.gauge, "The gauge may be wrong by"
    if gauge is None:
        return ()
    share = WORST_CLASS if gauge.accuracy is None else gauge.accuracy
    return (Figure(
        "pot.vessel.dial", share / 100 * gauge.span, "PascalDelta", "pot.plate.hidden_pressure",
        {"span": _plate(gauge.span, "PascalGauge"), "class": _class(gauge)},
        rounding=say("Class {share} % of the span.", share=Amount(share, "Ratio", 1))
        if gauge.accuracy is not None else say("Class not known: counted as the worst."),
        label=say(label),
    ),)  # fmt: skip


# -- supply ------------------------------------------------------------------------------------


def _flows(vessel: Vessel) -> tuple[Figure, ...]:
    plate, label = vessel.plate, "If the regulator fails, in flows"
    supply, bore = plate.supply, plate.supply.bore
    if supply.pressure is None or bore is None:
        return (_absent("supply", label, "KilogramPerSecond", "blowdown.hole_flow",
                        "needs pressure and bore of the supply"),)  # fmt: skip
    flow = hole_flow(_area(bore, SUPPLY_SHARE), supply.pressure, ROOM, vessel.ambient)
    into = Figure(
        "pot.vessel.supply", flow, "KilogramPerSecond", "blowdown.hole_flow",
        {"bore": _plate(bore, "Metre"), "gauge": _plate(supply.pressure, "PascalGauge"),
         "share of the bore": _ours(SUPPLY_SHARE), "temp": _room(), "ambient": _air(vessel)},
        omits=(say("The hose's friction: in truth less."),), label=say(label),
    )  # fmt: skip
    return (into, _relieved(vessel, flow))


def _relieved(vessel: Vessel, flow: float) -> Figure:
    plate, label = vessel.plate, "The relief valve can let out"
    bore, rating = plate.relief_bore, plate.rating
    if bore is None or rating is None:
        return _absent("relieved", label, "KilogramPerSecond", "blowdown.hole_flow",
                       "needs bore of the relief valve and rating")  # fmt: skip
    most = allowed_rise(rating)
    out = hole_flow(_area(bore, RELIEF_FLOW), most, ROOM, vessel.ambient)
    words = (
        say("Less than flows in: fit a restrictor in the supply.") if out < flow
        else say("More than flows in.")
    )  # fmt: skip
    return Figure(
        "pot.vessel.relieved", out, "KilogramPerSecond", "blowdown.hole_flow",
        {"bore": _plate(bore, "Metre"), "gauge": Origin(most, "PascalGauge", "computed",
                                                        say("The rise that is allowed.")),
         "share of the bore": _ours(RELIEF_FLOW), "temp": _room(), "ambient": _air(vessel)},
        rounding=words, label=say(label),
    )  # fmt: skip


def _area(bore: Metre, share: float) -> SquareMetre:
    return SquareMetre(share * pi * bore**2 / 4)


def _ours(share: float) -> Origin:
    return Origin(share, "Ratio", "default", say("Ours: the supply high, the valve low."))


def _room() -> Origin:
    return Origin(ROOM, "Kelvin", "default", say("A room."))


def _product(vessel: Vessel) -> Figure:
    label, volume, rating = "Rating × volume", vessel.plate.volume, vessel.plate.rating
    if not volume or rating is None:
        return _absent("product", label, "Joule", "vessel.pressure_volume",
                       "needs rating and volume")  # fmt: skip
    product = pressure_volume(rating, CubicMetre(volume))
    return Figure(
        "pot.vessel.product", product, "Joule", "vessel.pressure_volume",
        {"rating": _plate(rating, "PascalGauge"), "volume": _plate(volume, "CubicMetre")},
        rounding=say("{count} bar litre: look up what your rules make of it.",
                     count=Amount(product / 100, "Ratio", 0)),
        label=say(label),
    )  # fmt: skip
