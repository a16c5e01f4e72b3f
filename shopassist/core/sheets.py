"""Resin sheets: what the maker's page says, as a record with every value's own temperature."""

from collections.abc import Mapping
from typing import Literal, cast

from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.quantities import (
    CubicMetre,
    JoulePerMole,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    Second,
)
from shopassist.core.records import Field, Problem, ReadQuantity, ReadRecord, Value, read_record
from shopassist.core.sheet_pairs import Pair, pair_fields, pair_problems, pairs_of, reversed_range

Family = Literal["amine epoxy", "polyurethane", "heat-cured methacrylate", "other"]
Basis = Literal["weight", "volume"]
StageName = Literal["working", "pressurise", "gel", "demould", "hard", "full"]

FAMILIES: tuple[Family, ...] = ("amine epoxy", "polyurethane", "heat-cured methacrylate", "other")
STAGES: tuple[StageName, ...] = ("working", "pressurise", "gel", "demould", "hard", "full")
FACTOR, TABLE = "factor per 10 degrees", "table of times"
"""Laws that a sheet may ask for besides an activation energy."""
STAGE_LABELS: dict[StageName, str] = {
    "working": "Working time",
    "pressurise": "Under pressure within",
    "gel": "Gel",
    "demould": "Demould",
    "hard": "Hard enough to turn",
    "full": "Full cure",
}


def _stage_fields(stage: StageName) -> tuple[Field, ...]:
    label = STAGE_LABELS[stage]
    return (
        Field(f"{stage}.time", label, "quantity", "Second", low=1.0, high=1e8),
        Field(
            f"{stage}.time_high", f"{label}, longest", "quantity", "Second", low=1.0, high=1e8,
            note="Where the sheet gives a range",
        ),
        Field(
            f"{stage}.at", f"{label}: at", "quantity", "Kelvin", low=253.15, high=473.15,
            note="Asked, never assumed: without it no time is worked out",
        ),
        *pair_fields(stage, label),
        Field(f"{stage}.mass", f"{label}: for a mass of", "quantity", "Kilogram", low=1e-4),
        Field(f"{stage}.method", f"{label}: how it was found", "text"),
    )  # fmt: skip


SHEET_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True, note="Your own name for it"),
    Field("family", "Family", "choice", choices=FAMILIES),
    Field("ratio.basis", "Ratio by", "choice", required=True, choices=("weight", "volume")),
    Field("ratio.a", "Parts of A, resin", "number", required=True, low=1e-3, high=1e4),
    Field("ratio.b", "Parts of B, hardener", "number", required=True, low=1e-3, high=1e4),
    Field(
        "other.a", "Parts of A, the other ratio", "number", low=1e-3, high=1e4,
        note="Where the label gives two: by volume beside by weight, or the other way",
    ),
    Field("other.b", "Parts of B, the other ratio", "number", low=1e-3, high=1e4),
    Field("stroke.a", "Pump of A gives a stroke", "quantity", "CubicMetre", low=1e-8, high=1e-3),
    Field("stroke.b", "Pump of B gives a stroke", "quantity", "CubicMetre", low=1e-8, high=1e-3),
    Field("ratio.tolerance", "Ratio may be off by", "quantity", "Ratio", low=0.0, high=0.5),
    Field("density.a", "Density of A", "quantity", "KilogramPerCubicMetre", low=500, high=3000),
    Field("density.b", "Density of B", "quantity", "KilogramPerCubicMetre", low=500, high=3000),
    Field(
        "density.mixed", "Density, mixed", "quantity", "KilogramPerCubicMetre", low=500, high=3000
    ),
    Field("temperature.lowest", "Use from", "quantity", "Kelvin", low=253.15, high=473.15),
    Field("temperature.highest", "Use up to", "quantity", "Kelvin", low=253.15, high=473.15),
    Field("limit.layer", "Deepest layer", "quantity", "Metre", low=1e-4, high=2.0),
    Field("limit.mass", "Most in one cup", "quantity", "Kilogram", low=1e-3, high=100.0),
    Field("limit.at", "Limits hold at", "quantity", "Kelvin", low=253.15, high=473.15),
    Field(
        "limit.humidity", "Air's humidity at most", "quantity", "Ratio", low=0.05, high=1.0,
        note="Blank: 50 % for a polyurethane, none for others",
    ),
    *(field for stage in STAGES for field in _stage_fields(stage)),
    Field(
        "law.kind", "Times change with warmth by", "choice",
        choices=("activation energy", FACTOR, TABLE),
        note="Blank: by the sheet's own second times, else the activation energy of the family",
    ),
    Field("law.energy", "Activation energy", "quantity", "JoulePerMole", low=2e4, high=2e5),
    Field("law.energy_sigma", "Its uncertainty, 1 sigma", "quantity", "JoulePerMole", low=0.0),
    Field("law.factor", "Factor per 10 degrees", "number", low=1.0, high=5.0),
    Field("pressure.lowest", "Lowest pressure", "quantity", "PascalGauge", low=0.0),
    Field("glass", "Glass transition when fully cured", "quantity", "Kelvin"),
    Field("shrink", "Shrinks by, of volume", "quantity", "Ratio", low=0.0, high=0.3),
    Field("source", "From", "text", note="Which page, which edition"),
    Field("lot", "Lot", "text"),
    Field("opened", "Opened on", "date"),
    Field("expires", "Use by", "date"),
    Field("notes", "Notes", "text"),
)  # fmt: skip
"""Every entry of a resin sheet, in the order of the form."""
NEEDS_TIME = ("time_high", "at", "time_2", "time_3")
"""Entries of a step that mean nothing without its first time."""


@frozen
class StageTime:
    """A time of the sheet with the circumstances it was given for."""

    time: Second
    time_high: Second | None = None
    temp: Kelvin | None = None
    mass: Kilogram | None = None
    method: str = ""
    more: tuple[Pair, ...] = ()
    """The same step at other temperatures."""

    @property
    def pairs(self) -> tuple[Pair, ...]:
        """Every time of this step that has a temperature, the first one first."""
        own = () if self.temp is None else (Pair(self.temp, self.time, self.time_high),)
        return (*own, *self.more)


@frozen
class CureLawEntry:
    """How the sheet's times change with temperature; blank entries fall back to the family."""

    kind: str = ""
    energy: JoulePerMole | None = None
    energy_sigma: JoulePerMole | None = None
    factor: Ratio | None = None


@frozen
class ResinSheet:
    """A two-part resin as its sheet describes it; None means that the sheet does not say."""

    name: str
    basis: Basis
    part_a: float
    part_b: float
    family: Family = "other"
    tolerance: Ratio | None = None
    density_a: KilogramPerCubicMetre | None = None
    density_b: KilogramPerCubicMetre | None = None
    density_mixed: KilogramPerCubicMetre | None = None
    temp_lowest: Kelvin | None = None
    temp_highest: Kelvin | None = None
    layer_limit: Metre | None = None
    mass_limit: Kilogram | None = None
    limits_at: Kelvin | None = None
    stages: Mapping[StageName, StageTime] | None = None
    law: CureLawEntry = CureLawEntry()
    shrink: Ratio | None = None
    glass: Kelvin | None = None
    other: Ratio | None = None
    """B per A by the other basis, where the label gives both."""
    stroke_a: CubicMetre | None = None
    stroke_b: CubicMetre | None = None
    """What one stroke of each pump gives."""
    values: Mapping[str, Value] | None = None
    """Every entry by place, for what has no field of its own."""

    @property
    def ratio(self) -> Ratio:
        """B per A by the sheet's own basis."""
        return Ratio(self.part_b / self.part_a)

    def stage(self, name: StageName) -> StageTime | None:
        """The sheet's time for one stage, if it gives one."""
        return (self.stages or {}).get(name)


@frozen
class SheetReading:
    """A sheet, or everything that keeps a mapping from being one."""

    sheet: ResinSheet | None
    problems: tuple[Problem, ...] = ()


def sheet_from_mapping(mapping: Mapping[str, object], read: ReadQuantity) -> SheetReading:
    """Read a resin sheet; a broken one comes back with all its problems and no sheet."""
    record = read_record(mapping, SHEET_FIELDS, read)
    problems = (*record.problems, *_contradictions(record))
    if problems:
        return SheetReading(None, problems)
    return SheetReading(sheet_of(record.values))


def _contradictions(record: ReadRecord) -> list[Problem]:
    """Entries that are each right and cannot be right together."""
    values, found = record.values, []
    low, high = values.get("temperature.lowest"), values.get("temperature.highest")
    if isinstance(low, float) and isinstance(high, float) and low >= high:
        found.append(Problem("temperature.highest", say("This must lie above the lowest.")))
    if (values.get("other.a") is None) != (values.get("other.b") is None):
        found.append(Problem("other.b", say("The other ratio needs both of its parts.")))
    for stage in STAGES:
        found += _step_problems(values, stage)
    if values.get("law.kind") == TABLE and not any(
        len(pairs_of(values, stage)) > 1 for stage in STAGES
    ):
        found.append(
            Problem("law.kind", say("A table needs a step with times at two temperatures."))
        )
    return found


def _step_problems(values: Mapping[str, Value], stage: StageName) -> list[Problem]:
    found = reversed_range(values, f"{stage}.time")
    if values.get(f"{stage}.time") is None and any(
        values.get(f"{stage}.{k}") is not None for k in NEEDS_TIME
    ):
        found.append(Problem(f"{stage}.time", say("The time itself is missing.")))
    return found + pair_problems(values, stage)


def sheet_of(values: Mapping[str, Value]) -> ResinSheet:
    """The sheet of entries that were read without a problem."""

    def get(place: str) -> float | None:
        return cast("float | None", values.get(place))

    stages = {stage: found for stage in STAGES if (found := _stage(values, stage)) is not None}
    return ResinSheet(
        name=str(values["name"]),
        basis=cast("Basis", values["ratio.basis"]),
        part_a=float(cast("float", values["ratio.a"])),
        part_b=float(cast("float", values["ratio.b"])),
        family=cast("Family", values.get("family", "other")),
        tolerance=cast("Ratio | None", get("ratio.tolerance")),
        density_a=cast("KilogramPerCubicMetre | None", get("density.a")),
        density_b=cast("KilogramPerCubicMetre | None", get("density.b")),
        density_mixed=cast("KilogramPerCubicMetre | None", get("density.mixed")),
        temp_lowest=cast("Kelvin | None", get("temperature.lowest")),
        temp_highest=cast("Kelvin | None", get("temperature.highest")),
        layer_limit=cast("Metre | None", get("limit.layer")),
        mass_limit=cast("Kilogram | None", get("limit.mass")),
        limits_at=cast("Kelvin | None", get("limit.at")),
        stages=stages,
        law=CureLawEntry(
            str(values.get("law.kind", "")),
            cast("JoulePerMole | None", get("law.energy")),
            cast("JoulePerMole | None", get("law.energy_sigma")),
            cast("Ratio | None", get("law.factor")),
        ),
        shrink=cast("Ratio | None", get("shrink")),
        glass=cast("Kelvin | None", get("glass")),
        other=_other(values),
        stroke_a=cast("CubicMetre | None", get("stroke.a")),
        stroke_b=cast("CubicMetre | None", get("stroke.b")),
        values=values,
    )


def _other(values: Mapping[str, Value]) -> Ratio | None:
    parts = [values.get(f"other.{part}") for part in ("a", "b")]
    if None in parts:
        return None
    part_a, part_b = (float(cast("float", part)) for part in parts)
    return Ratio(part_b / part_a)


def _stage(values: Mapping[str, Value], stage: StageName) -> StageTime | None:
    time = values.get(f"{stage}.time")
    if not isinstance(time, float):
        return None
    return StageTime(
        Second(time),
        cast("Second | None", values.get(f"{stage}.time_high")),
        cast("Kelvin | None", values.get(f"{stage}.at")),
        cast("Kilogram | None", values.get(f"{stage}.mass")),
        str(values.get(f"{stage}.method", "")),
        pairs_of(values, stage)[1:],
    )
