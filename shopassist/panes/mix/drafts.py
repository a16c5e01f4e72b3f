"""The entries of a mix: what is typed, what the sheet says, what our defaults are."""

from collections.abc import Mapping
from typing import Literal

from shopassist.core.amount import WASTE_DEFAULT
from shopassist.core.batch import Batch
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.figures import Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.sheets import ResinSheet
from shopassist.services.library import Version
from shopassist.services.mix import MixInputs

FieldName = Literal["ratio_a", "ratio_b", "amount", "waste", "scale_step"]
STEP_DEFAULT = Kilogram(0.0001)
"""A step of 0.1 g, where no scale is entered; ours."""

SPECS: dict[FieldName, EntrySpec] = {
    "ratio_a": EntrySpec("Ratio", field="mix.ratio_a", lowest=1e-3, highest=1e4),
    "ratio_b": EntrySpec("Ratio", field="mix.ratio_b", lowest=1e-3, highest=1e4),
    "amount": EntrySpec(
        "Kilogram", field="mix.amount", also=("CubicMetre",), lowest=0.0, highest=200.0
    ),
    "waste": EntrySpec("Ratio", unit="%", field="mix.waste", lowest=0.0, highest=1.0),
    "scale_step": EntrySpec("Kilogram", field="mix.scale_step", lowest=1e-6, highest=0.1),
}
LABELS: dict[FieldName, str] = {
    "ratio_a": "Parts of A, resin",
    "ratio_b": "Parts of B, hardener",
    "amount": "Needed",
    "waste": "Waste",
    "scale_step": "Scale step",
}
DEFAULTS: dict[FieldName, float] = {"waste": WASTE_DEFAULT, "scale_step": STEP_DEFAULT}


@frozen
class Standing:
    """What counts in one field now: text, value, and where it came from."""

    text: str
    value: float | None
    quantity: str
    origin: Literal["typed", "sheet", "default", "job card", ""]


def standing(
    field: FieldName,
    drafts: Mapping[FieldName, Entry | None],
    batch: Batch | None,
    sheet: ResinSheet | None,
) -> Standing:
    """A draft goes before a committed entry, that before the sheet, that before our default."""
    quantity = SPECS[field].quantity
    if field in ("ratio_a", "ratio_b") and sheet is not None:
        value = sheet.part_a if field == "ratio_a" else sheet.part_b
        return Standing(f"{value:g}", value, quantity, "sheet")
    if field in drafts:
        entry = drafts[field]
        if entry is not None:
            return Standing(entry.plain, entry.value, entry.quantity, "typed")
        return _default(field, quantity)
    typed = batch.entries.get(field) if batch is not None else None
    if typed is not None and typed.value is not None:
        return Standing(typed.text, typed.value, typed.quantity or quantity, "typed")
    return _default(field, quantity)


def _default(field: FieldName, quantity: str) -> Standing:
    if field in DEFAULTS:
        return Standing("", DEFAULTS[field], quantity, "default")
    return Standing("", None, quantity, "")


def inputs(
    found: Mapping[FieldName, Standing], version: Version[ResinSheet] | None,
    basis: Literal["weight", "volume"], *, b_first: bool,
) -> MixInputs:  # fmt: skip
    """Everything the plan needs, each value with its origin."""
    sheet = version.record if version is not None else None

    def origin(field: FieldName) -> Origin | None:
        each = found[field]
        if each.value is None:
            return None
        if each.origin == "sheet" and version is not None:
            return _of_sheet(each.value, each.quantity, version)
        if each.origin == "default":
            return Origin(each.value, each.quantity, "default", say("Our own default."))
        return Origin(each.value, each.quantity, "typed")

    def density(value: float | None) -> Origin | None:
        if value is None or version is None:
            return None
        return _of_sheet(value, "KilogramPerCubicMetre", version)

    waste, step = origin("waste"), origin("scale_step")
    assert waste is not None  # noqa: S101 - it has a default
    assert step is not None  # noqa: S101 - it has a default
    return MixInputs(
        origin("ratio_a"), origin("ratio_b"), sheet.basis if sheet is not None else basis,
        origin("amount"), waste, step,
        density(sheet.density_a if sheet else None), density(sheet.density_b if sheet else None),
        density(sheet.density_mixed if sheet else None),
        Ratio(sheet.tolerance) if sheet and sheet.tolerance is not None else None, b_first,
    )  # fmt: skip


def _of_sheet(value: float, quantity: str, version: Version[ResinSheet]) -> Origin:
    note = say("Sheet {name}, version {number}.", name=version.name, number=version.number)
    return Origin(value, quantity, "sheet", note)
