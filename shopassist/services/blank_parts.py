"""Mould and core of a blank from what was said about them."""

from collections.abc import Callable

from shopassist.core.cavity import (
    Cavity,
    box_cavity,
    measured_cavity,
    round_cavity,
    stepped_cavity,
    tapered_cavity,
    turned_cavity,
    weighed_cavity,
)
from shopassist.core.messages import Text, say
from shopassist.core.outline_text import ReadLength, read_grooves, read_profile, read_steps
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, KilogramPerCubicMetre, Metre
from shopassist.core.span import between, exact
from shopassist.core.workpiece import Core, Groove, displaced_core, turned_core, weighed_core
from shopassist.services.said import Said

WATER_AT = Kelvin(293.15)
"""The measuring water is taken to be at 20 °C where nobody says; ours."""


def metre(said: Said, name: str) -> Metre | None:
    """One length; None where it was not said."""
    value = said.get(name)
    return None if value is None else Metre(value)


def cavity_of(said: Said, read: ReadLength) -> Cavity | None:
    """Build the mould; None while something is missing."""
    return MOULDS.get(said.word("mould") or "round", _round)(said, read)


def _round(said: Said, _read: ReadLength) -> Cavity | None:
    across, depth = metre(said, "mould_diameter"), metre(said, "mould_depth")
    return None if across is None or depth is None else round_cavity(across, depth)


def _tapered(said: Said, _read: ReadLength) -> Cavity | None:
    floor, rim = metre(said, "mould_diameter"), metre(said, "mould_rim")
    depth = metre(said, "mould_depth")
    if floor is None or rim is None or depth is None:
        return None
    return tapered_cavity(floor, rim, depth)


def _box(said: Said, _read: ReadLength) -> Cavity | None:
    length, width = metre(said, "mould_length"), metre(said, "mould_width")
    depth = metre(said, "mould_depth")
    if length is None or width is None or depth is None:
        return None
    return box_cavity(length, width, depth)


def _stepped(said: Said, read: ReadLength) -> Cavity | None:
    text = said.word("mould_steps")
    return stepped_cavity(read_steps(text, "mould_steps", read)) if text else None


def _turned(said: Said, read: ReadLength) -> Cavity | None:
    text = said.word("mould_steps")
    return turned_cavity(read_profile(text, "mould_steps", read)) if text else None


def _weighed(said: Said, _read: ReadLength) -> Cavity | None:
    water = said.get("water_mass")
    temp = Kelvin(said.get("water_temp") or WATER_AT)
    depth = metre(said, "mould_depth")
    return weighed_cavity(exact(Kilogram(water)), temp, depth) if water else None


def _measured(said: Said, _read: ReadLength) -> Cavity | None:
    volume, depth = said.get("mould_volume"), metre(said, "mould_depth")
    return measured_cavity(exact(CubicMetre(volume)), depth) if volume else None


MOULDS: dict[str, Callable[[Said, ReadLength], Cavity | None]] = {
    "round": _round,
    "tapered": _tapered,
    "stepped": _stepped,
    "turned": _turned,
    "box": _box,
    "water, weighed": _weighed,
    "water, measured": _measured,
}


CORE_SAID = (
    "core", "stations", "grooves", "core_mass", "density_low", "density_high", "core_volume",
)  # fmt: skip
"""Entries that a core is built from."""


def core_of(said: Said, read: ReadLength) -> Core | None:
    """Build the core; None while something is missing, or where there is none."""
    kind = said.word("core") or "turned"
    typed = said.get("core_mass")
    mass = Kilogram(typed) if typed is not None else None
    if kind == "turned":
        text = said.word("stations")
        if not text:
            return None
        return turned_core(read_profile(text, "stations", read), _grooves(said, read), mass)
    if kind == "weighed":
        low, high = said.get("density_low"), said.get("density_high")
        if mass is None or low is None:
            return None
        first = KilogramPerCubicMetre(low)
        density = exact(first) if high is None else between(
            first, KilogramPerCubicMetre(high), "density_high"
        )  # fmt: skip
        return weighed_core(mass, density)
    if kind == "displaced":
        volume = said.get("core_volume")
        return displaced_core(exact(CubicMetre(volume)), mass) if volume is not None else None
    return None


def _grooves(said: Said, read: ReadLength) -> tuple[Groove, ...]:
    text = said.word("grooves")
    return read_grooves(text, "grooves", read) if text else ()


NOT_COUNTED = {
    "weighed": say("The core is not counted: its weight or its density is missing."),
    "displaced": say("The core is not counted: what it displaces is missing."),
}
SINKS = say("It is heavier than the resin: it goes to the floor unless something holds it up.")
DRY = say("Dry the mould to the last drop: water clouds resin, and polyurethane froths with it.")


def remarks(said: Said, core: Core | None, liquid: KilogramPerCubicMetre) -> list[Text]:
    """What is left out of the numbers, what sinks, and what the measuring leaves behind."""
    told: list[Text] = []
    if core is None and said.word("core") in NOT_COUNTED:
        told.append(NOT_COUNTED[said.word("core")])
    if core is not None and core.mass is not None and core.mass > liquid * core.volume.high:
        told.append(SINKS)
    if said.word("mould").startswith("water"):
        told.append(DRY)
    return told
