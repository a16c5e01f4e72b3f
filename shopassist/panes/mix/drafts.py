"""The entries of a mix: what is typed, what the sheet or Blank says, what our defaults are."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Literal

from shopassist.core.amount import WASTE_DEFAULT
from shopassist.core.batch import Batch
from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.figures import Origin, OriginKind
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import Kilogram
from shopassist.core.sheets import ResinSheet
from shopassist.panes.mix.asks import ALL, PANE
from shopassist.services.mix import Basis, MixInputs
from shopassist.services.versions import Version

if TYPE_CHECKING:
    from shopassist.panes.mix.desk import Extra

FieldName = Literal["ratio_a", "ratio_b", "amount", "waste", "scale_step"]
StandingOrigin = Literal["typed", "sheet", "default", "job card", "on record", "from Blank", ""]
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
FIELDS: tuple[FieldName, ...] = ("ratio_a", "ratio_b", "amount", "waste", "scale_step")
LABELS: dict[FieldName, str] = {
    "ratio_a": "Parts of A, resin",
    "ratio_b": "Parts of B, hardener",
    "amount": "Needed",
    "waste": "Waste",
    "scale_step": "Scale step",
}
DEFAULTS: dict[FieldName, float] = {"waste": WASTE_DEFAULT, "scale_step": STEP_DEFAULT}
NOTES: dict[StandingOrigin, Text] = {
    "default": say("Our own default."),
    "from Blank": say("Worked out by Blank, its waste counted; the high end of its range."),
    "job card": say("From the job card."),
}


@frozen
class Standing:
    """What counts in one field now: text, value, and where it came from."""

    text: str
    value: float | None
    quantity: str
    origin: StandingOrigin


def standing(
    field: FieldName,
    drafts: Mapping[FieldName, Entry | None],
    batch: Batch | None,
    sheet: ResinSheet | None,
) -> Standing:
    """A draft goes before a committed entry, that before the sheet or Blank, last our default."""
    quantity = SPECS[field].quantity
    if field in ("ratio_a", "ratio_b") and sheet is not None:
        value = sheet.part_a if field == "ratio_a" else sheet.part_b
        return Standing(f"{value:g}", value, quantity, "sheet")
    if field in drafts:
        entry = drafts[field]
        if entry is not None:
            return Standing(entry.plain, entry.value, entry.quantity, "typed")
        return _fallback(field, quantity, None)
    typed = batch.entries.get(field) if batch is not None else None
    if typed is not None and typed.value is not None:
        return Standing(typed.text, typed.value, typed.quantity or quantity, "typed")
    return _fallback(field, quantity, batch, drafts)


def _fallback(
    field: FieldName, quantity: str, batch: Batch | None,
    drafts: Mapping[FieldName, Entry | None] | None = None,
) -> Standing:  # fmt: skip
    """Blank's amount, or our default."""
    if batch is not None and batch.need is not None and "amount" not in (drafts or {}):
        if field == "amount":
            return Standing("", batch.need.high, "CubicMetre", "from Blank")
        if field == "waste" and "amount" not in batch.entries:
            return Standing("", 0.0, quantity, "from Blank")
    if field in DEFAULTS:
        return Standing("", DEFAULTS[field], quantity, "default")
    return Standing("", None, quantity, "")


def inputs(
    found: Mapping[FieldName, Standing], version: Version[ResinSheet] | None, basis: Basis,
    *, b_first: bool, extra: "Extra",
) -> MixInputs:  # fmt: skip
    """Everything the plan needs, each value with its origin."""
    sheet = version.record if version is not None else None
    waste, step = _origin(found["waste"], version, "%"), _origin(found["scale_step"], version)
    if extra.step is not None and found["scale_step"].origin == "on record":
        step = extra.step
    assert waste is not None  # noqa: S101 - it has a default
    assert step is not None  # noqa: S101 - it has a default
    part_a, part_b, other = _ratio(found, version, basis)

    def density(value: float | None) -> Origin | None:
        if value is None or version is None:
            return None
        return _of_sheet(value, "KilogramPerCubicMetre", version)

    return MixInputs(
        part_a, part_b, basis, _origin(found["amount"], version), waste, step,
        density(sheet.density_a if sheet else None), density(sheet.density_b if sheet else None),
        density(sheet.density_mixed if sheet else None),
        tolerance=sheet.tolerance if sheet is not None else None, b_first=b_first,
        colour=extra.colour, other=other, stroke_a=extra.strokes[0], stroke_b=extra.strokes[1],
        cups=extra.cups,
    )  # fmt: skip


def _ratio(
    found: Mapping[FieldName, Standing], version: Version[ResinSheet] | None, basis: Basis
) -> tuple[Origin | None, Origin | None, Origin | None]:
    """Both parts by the basis in use, and B per A by the other one where the label has two."""
    part_a, part_b = (_origin(found[name], version) for name in ("ratio_a", "ratio_b"))
    sheet = version.record if version is not None else None
    if version is None or sheet is None or sheet.other is None:
        return part_a, part_b, None
    other = _of_sheet(sheet.other, "Ratio", version)
    if basis == sheet.basis:
        return part_a, part_b, other
    return _of_sheet(1.0, "Ratio", version), other, _of_sheet(sheet.ratio, "Ratio", version)


def _origin(each: Standing, version: Version[ResinSheet] | None, unit: str = "") -> Origin | None:
    if each.value is None:
        return None
    if each.origin == "sheet" and version is not None:
        return _of_sheet(each.value, each.quantity, version)
    kinds: Mapping[str, OriginKind] = {"default": "default", "from Blank": "computed"}
    return Origin(
        each.value, each.quantity, kinds.get(each.origin, "typed"), NOTES.get(each.origin),
        unit=unit,
    )  # fmt: skip


def _of_sheet(value: float, quantity: str, version: Version[ResinSheet]) -> Origin:
    note = say("Sheet {name}, version {number}.", name=version.name, number=version.number)
    return Origin(value, quantity, "sheet", note)


def label_of(name: str) -> str:
    """What a person calls an entry, of this pane or of another."""
    own: dict[str, str] = {f"{PANE}.{ask.name}": ask.label for ask in ALL}
    own.update((str(field), label) for field, label in LABELS.items())
    return own.get(name, name.rpartition(".")[2].replace("_", " "))
