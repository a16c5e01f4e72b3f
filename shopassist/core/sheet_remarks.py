"""What a person should see beside the entries of a resin sheet while it is written."""

from collections.abc import Iterator, Mapping

from shopassist.core.cure_law import EnergyLaw
from shopassist.core.messages import Text, say
from shopassist.core.quantities import Kelvin
from shopassist.core.records import ReadQuantity, Remark, Value, read_record
from shopassist.core.sheet_law import (
    Basis,
    basis_of,
    basis_text,
    doubts,
    energy_text,
    finding,
    outside_use,
)
from shopassist.core.sheet_order import order_doubts
from shopassist.core.sheet_pairs import WORDS, pair_problems
from shopassist.core.sheets import (
    SHEET_FIELDS,
    STAGE_LABELS,
    STAGES,
    ResinSheet,
    StageName,
    sheet_of,
)

BLANK: dict[str, Value] = {"name": "", "ratio.basis": "weight", "ratio.a": 1.0, "ratio.b": 1.0}
"""Entries that say nothing about times, for a sheet that is not whole yet."""


def sheet_remarks(mapping: Mapping[str, object], read: ReadQuantity) -> tuple[Remark, ...]:
    """Remarks by place, or by the group of a step; nothing of them hinders anybody."""
    values = read_record(mapping, SHEET_FIELDS, read).values
    if any(pair_problems(values, stage) for stage in STAGES):
        return ()
    sheet = sheet_of({**BLANK, **values})
    return (
        *(remark for stage in STAGES for remark in _of_step(sheet, values, stage)),
        *(Remark(stage, text, asks=True) for stage, text in order_doubts(sheet)),
        *(Remark("law", text) for text in _laws(sheet)),
    )


def _of_step(sheet: ResinSheet, values: Mapping[str, Value], stage: StageName) -> Iterator[Remark]:
    for number in WORDS:
        temp = values.get(f"{stage}.at_{number}")
        outside = outside_use(sheet, Kelvin(temp)) if isinstance(temp, float) else None
        if outside is not None:
            yield Remark(f"{stage}.at_{number}", outside)
    found = finding(sheet, stage)
    if found is None:
        return
    basis = basis_of(sheet, stage)
    if found not in basis.findings:
        unused = say("These times alone: {energy}. Not used: {basis}",
                     energy=energy_text(found.law), basis=basis_text(basis))  # fmt: skip
        yield Remark(stage, unused)
        return
    if found.believed:
        yield Remark(stage, basis_text(basis))
    for doubt in doubts(sheet, found):
        yield Remark(stage, doubt, asks=True)


def _laws(sheet: ResinSheet) -> Iterator[Text]:
    """Each law that is used now, with the steps that follow it."""
    used: dict[Text, list[StageName]] = {}
    for stage in STAGES:
        time = sheet.stage(stage)
        if time is not None and time.temp is not None:
            used.setdefault(_short(basis_of(sheet, stage)), []).append(stage)
    for text, stages in used.items():
        steps = ", ".join(STAGE_LABELS[each].lower() for each in stages)
        yield say("{steps}: {law}", steps=steps.capitalize(), law=text)


def _short(basis: Basis) -> Text:
    if basis.origin == "own times" and isinstance(basis.law, EnergyLaw):
        return say("by its own times, {energy}.", energy=energy_text(basis.law))
    return basis_text(basis)
