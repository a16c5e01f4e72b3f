"""A vacuum chamber's plate: what the air outside does to its lid, and what it must never be."""

from collections.abc import Mapping

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import CubicMetre, Metre, Newton, PascalAbsolute, PascalGauge
from shopassist.core.records import Field, Problem, ReadQuantity, read_record
from shopassist.core.vessel import lid_force

LIDS = ("acrylic", "polycarbonate", "glass", "metal")

CHAMBER_FIELDS: tuple[Field, ...] = (
    Field("name", "Name", "text", required=True),
    Field("lid.diameter", "Diameter of the seal line", "quantity", "Metre", required=True,
          low=0.01, high=2.0),
    Field("lid.kind", "Lid of", "choice", choices=LIDS),
    Field("inside.volume", "Inside volume", "quantity", "CubicMetre", low=1e-5),
    Field("made.vacuum", "Made for vacuum, as its maker says", "flag",
          note="Kitchen ware without such a word is not used."),
    Field("made.pressure", "Used as a pressure pot too", "flag",
          note="Never: a chamber is no pressure vessel."),
    Field("lid.looked", "Lid last looked over", "date", note="Crazed, cracked, yellowed: scrap."),
)  # fmt: skip


@frozen
class Chamber:
    """A vacuum chamber as its owner describes it."""

    name: str
    diameter: Metre
    lid: str = ""
    volume: CubicMetre | None = None
    made_for_vacuum: bool = False
    looked: str = ""


def chamber_from_mapping(
    mapping: Mapping[str, object], read: ReadQuantity
) -> tuple[Chamber | None, tuple[Problem, ...]]:
    """Read a chamber from nested tables; None where something in it is wrong."""
    record = read_record(mapping, CHAMBER_FIELDS, read)
    values, problems = record.values, list(record.problems)
    if values.get("made.pressure") is True:
        problems.append(Problem(
            "made.pressure",
            say("A vacuum chamber is no pressure vessel: its lid is held on by the air outside."),
        ))  # fmt: skip
    if problems:
        return None, tuple(problems)
    volume = values.get("inside.volume")
    return Chamber(
        str(values["name"]), Metre(float(values["lid.diameter"])),  # type: ignore[arg-type]
        str(values.get("lid.kind", "")),
        CubicMetre(volume) if isinstance(volume, float) else None,
        values.get("made.vacuum") is True, str(values.get("lid.looked", "")),
    ), ()  # fmt: skip


def vacuum_force(diameter: Metre, ambient: PascalAbsolute) -> Newton:
    r"""Force with which the air outside presses a lid on at full vacuum.

    .. math:: F = p_a\,\frac{\pi D^2}{4}

    Plain: force = air pressure × area inside the seal line

    Parameters
    ----------
    diameter
        Diameter of the seal line, [m].
    ambient
        Air pressure of the place, [Pa absolute].

    Returns
    -------
    Newton
        Force on the whole lid, [N].

    Raises
    ------
    OutOfRangeError
        If the diameter is zero or negative, or the air pressure is negative.

    Notes
    -----
    The most that can ever press on it: no pump reaches a full vacuum.

    Sources
    -------
    FORCE-AREA

    Examples
    --------
    >>> round(vacuum_force(Metre(0.254), PascalAbsolute(101325.0)))
    5134
    """
    return lid_force(PascalGauge(ambient), diameter)


CAUTIONS = (
    say("It can implode: shield it, wear a face shield, never move or knock it under vacuum."),
    say("Never put air pressure into it, and never pry a lid that the vacuum holds: let air in."),
    say("Solvents, monomer and alcohol craze plastic lids: crazed, cracked or warm means scrap."),
    say("Let air in slowly. Isolate before the pump stops, or oil is drawn back."),
)  # fmt: skip


def cautions_of(chamber: Chamber) -> tuple[Text, ...]:
    """What to know about this one before the pump runs."""
    found = []
    if not chamber.made_for_vacuum:
        found.append(say("{name}: not known to be made for vacuum. Do not use it.",
                         name=chamber.name))  # fmt: skip
    if chamber.lid == "glass":
        found.append(say("{name}: wrap or shield the glass.", name=chamber.name))
    if not chamber.looked:
        found.append(say("{name}: look its lid over before use.", name=chamber.name))
    return tuple(found)
