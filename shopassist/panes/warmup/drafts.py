"""The entries of a warm-up: typed, of the cabinet's record, or a default of ours."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal, cast

from shopassist.core.cabinet import MATERIALS, Cabinet, Load
from shopassist.core.enclosure import Layer
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.figures import Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.quantities import Kelvin, KelvinDelta, Kilogram, Metre, Watt

FieldName = Literal[
    "width", "depth", "height", "insulation", "skin", "heater",
    "thermostat", "shop", "goal", "pot", "moulds", "resin", "count", "wood",
]  # fmt: skip
BOX: tuple[FieldName, ...] = ("width", "depth", "height", "insulation", "skin", "heater")
"""Entries that a record answers."""
REST: tuple[FieldName, ...] = (
    "thermostat", "shop", "goal", "pot", "moulds", "resin", "count", "wood",
)  # fmt: skip
UNDER_SET = KelvinDelta(1.0)
"""The goal where none is typed lies so far under the thermostat's setting; ours."""
INSULATION, SKIN = "expanded polystyrene", "plywood"


def _side(field: str) -> EntrySpec:
    return EntrySpec("Metre", field=f"warmup.{field}", lowest=0.05, highest=5.0)


def _warmth(field: str, low: float, high: float) -> EntrySpec:
    return EntrySpec("Kelvin", field=f"warmup.{field}", lowest=low + 273.15, highest=high + 273.15)


def _mass(field: str) -> EntrySpec:
    return EntrySpec("Kilogram", unit="kg", field=f"warmup.{field}", lowest=0.0, highest=200.0)


SPECS: dict[FieldName, EntrySpec] = {
    "width": _side("width"),
    "depth": _side("depth"),
    "height": _side("height"),
    "insulation": EntrySpec("Metre", field="warmup.insulation", lowest=0.001, highest=0.5),
    "skin": EntrySpec("Metre", field="warmup.skin", lowest=0.0005, highest=0.1),
    "heater": EntrySpec("Watt", field="warmup.heater", lowest=1.0, highest=5000.0),
    "thermostat": _warmth("thermostat", 10, 80),
    "shop": _warmth("shop", -20, 45),
    "goal": _warmth("goal", 5, 80),
    "pot": _mass("pot"),
    "moulds": _mass("moulds"),
    "resin": _mass("resin"),
    "count": EntrySpec("Ratio", field="warmup.count", lowest=1.0, highest=500.0),
    "wood": _mass("wood"),
}
LABELS: dict[FieldName, str] = {
    "width": "Width inside",
    "depth": "Depth inside",
    "height": "Height inside",
    "insulation": "Foam inside",
    "skin": "Plywood outside",
    "heater": "Heater, with fan",
    "thermostat": "Thermostat set to",
    "shop": "Shop",
    "goal": "Warm means",
    "pot": "Steel pot, empty",
    "moulds": "Moulds, empty",
    "resin": "Resin in all of them",
    "count": "Number of moulds",
    "wood": "Wood",
}


@frozen
class Standing:
    """What counts in one field now."""

    text: str
    value: float | None
    origin: Literal["typed", "default", ""]
    """What came from a record or was read elsewhere is not typed here."""


@frozen
class Known:
    """What other places already know."""

    cabinet: Cabinet | None
    shop: Kelvin | None
    """The shop's temperature, where somebody read it lately."""


def standings(typed: Mapping[FieldName, Entry | None], known: Known) -> dict[FieldName, Standing]:
    """All entries; what is typed here goes before what is known."""
    found = {name: _standing(name, typed, known) for name in SPECS}
    return {**found, "goal": _goal(typed, found["thermostat"])}


def _standing(name: FieldName, typed: Mapping[FieldName, Entry | None], known: Known) -> Standing:
    entry = typed.get(name)
    if entry is not None:
        return Standing(entry.plain, entry.value, "typed")
    cabinet = known.cabinet
    value: float | None = None
    if name == "thermostat" and cabinet is not None:
        value = cabinet.set_at
    if name == "shop":
        value = known.shop
    if name == "count":
        value = 1.0
    return Standing("", value, "default" if value is not None else "")


def _goal(typed: Mapping[FieldName, Entry | None], thermostat: Standing) -> Standing:
    entry = typed.get("goal")
    if entry is not None:
        return Standing(entry.plain, entry.value, "typed")
    if thermostat.value is None:
        return Standing("", None, "")
    return Standing("", thermostat.value - UNDER_SET, "default")


def cabinet_of(found: Mapping[FieldName, Standing], known: Known) -> Cabinet | None:
    """The record with what is typed over it, or a cabinet typed whole; None while it is short."""
    value = {name: each.value for name, each in found.items()}
    if value["thermostat"] is None:
        return None
    set_at = Kelvin(value["thermostat"])
    if known.cabinet is not None:
        return replace(known.cabinet, set_at=set_at)
    if any(value[name] is None for name in BOX if name != "skin"):
        return None
    layers = [_layer(INSULATION, value["insulation"])]
    if value["skin"] is not None:
        layers.append(_layer(SKIN, value["skin"]))
    return Cabinet(
        "", cast("Metre", value["width"]), cast("Metre", value["depth"]),
        cast("Metre", value["height"]), tuple(layers), cast("Watt", value["heater"]), set_at,
    )  # fmt: skip


def _layer(name: str, thickness: float | None) -> tuple[str, Layer]:
    return name, Layer(cast("Metre", thickness), MATERIALS[name].conductivity)


def load_of(found: Mapping[FieldName, Standing]) -> Load:
    """What stands in the cabinet; a blank is nothing."""
    pot, moulds, resin, wood = (
        Kilogram(found[name].value or 0.0) for name in ("pot", "moulds", "resin", "wood")
    )
    return Load(pot, moulds, resin, wood)


def origins(found: Mapping[FieldName, Standing], known: Known) -> dict[str, Origin]:
    """Where each value came from, for the explanations."""
    kept: dict[str, Origin] = {}
    for name, each in found.items():
        if each.value is None or (name in BOX and known.cabinet is not None):
            continue
        if each.origin == "typed":
            kept[name] = Origin(each.value, SPECS[name].quantity, "typed")
        elif name == "goal":
            note = say("Our own default: one kelvin under the thermostat.")
            kept[name] = Origin(each.value, "Kelvin", "default", note)
        elif name == "shop":
            kept[name] = Origin(each.value, "Kelvin", "measured", say("Read last in the shop."))
        elif name == "thermostat":
            kept[name] = Origin(each.value, "Kelvin", "record")
    return kept


def missing(found: Mapping[FieldName, Standing], *, is_typed: bool) -> str:
    """The first entry that is still needed."""
    needed: list[FieldName] = ["thermostat", "shop"]
    if is_typed:
        needed = [*(name for name in BOX if name != "skin"), *needed]
    for name in needed:
        if found[name].value is None:
            return f"needs: {LABELS[name][0].lower()}{LABELS[name][1:]}"
    return "needs the mass of moulds, resin or wood"
