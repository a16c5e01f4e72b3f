"""Colour in resin: how much, in which family; and resins that this program does not mix."""

from typing import Literal

from shopassist.core.bounds import need_not_negative, need_positive, need_share
from shopassist.core.errors import RefusedError, out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.sheets import Family

ColourKind = Literal["powder", "paste", "dye", "ink", "paint"]
COLOUR_KINDS: tuple[ColourKind, ...] = ("powder", "paste", "dye", "ink", "paint")
FUZZ = 1e-9
"""Share of a mass that is rounding of the machine, not colour."""
CAP_DEFAULT = Ratio(0.05)
"""Most colour by weight of the mix where nothing is stated; upper end of casting guides."""

DROPS_WORDS = (
    "polyester", "vinyl ester", "vinylester", "vinyl-ester", "catalyst", "drops", "mekp",
    "peroxide",
)  # fmt: skip
"""Words in a resin's name or notes that tell a resin hardened by a few drops of catalyst."""


@frozen
class Colourant:
    """A colour as its maker describes it."""

    name: str
    kind: ColourKind = "powder"
    made_for: frozenset[str] = frozenset()
    """Families it is made for; empty: not stated."""
    water_based: bool = False
    cap: Ratio = CAP_DEFAULT


@frozen
class ColourRoom:
    """How much colour a mix still takes."""

    most: Kilogram
    used: Kilogram
    left: Kilogram
    """None left reads nothing, never less."""

    @property
    def over(self) -> bool:
        """True where more colour is in it than the cap allows."""
        return self.used > self.most * (1 + FUZZ)


def colour_room(mix: Kilogram, cap: Ratio, added: tuple[Kilogram, ...] = ()) -> ColourRoom:
    """Most colour for A and B together, less what layers of colour have taken already."""
    need_positive(mix=mix)
    need_share(cap=cap)
    for number, mass in enumerate(added, 1):
        if mass < 0:
            raise out_of_range(f"added.{number}", "Colour cannot weigh less than nothing.")
    most, used = mix * cap, sum(added)
    return ColourRoom(Kilogram(most), Kilogram(used), Kilogram(max(most - used, 0.0)))


def clash(colourant: Colourant, family: Family, *, tried: bool) -> Text | None:
    """Why a colour must not go into a resin, or should be tried first; None: nothing known."""
    if colourant.water_based and family == "polyurethane":
        return say("{name} is water-based: polyurethane foams with it.", name=colourant.name)
    if colourant.water_based:
        return say("{name} is water-based: keep it out of resin.", name=colourant.name)
    if colourant.made_for and family not in colourant.made_for:
        return say("{name} is made for another family of resin.", name=colourant.name)
    if not colourant.made_for and not tried:
        return say("{name} is untried in this resin: mix a test cup first.", name=colourant.name)
    return None


def must_not_mix(colourant: Colourant, family: Family) -> bool:
    """True where the clash is a refusal rather than a hint."""
    stated = bool(colourant.made_for) and family not in colourant.made_for
    return colourant.water_based or stated


def need_two_parts(*described: str) -> None:
    """Refuse a resin that is hardened by drops of catalyst, naming its family."""
    text = " ".join(described).lower()
    found = next((word for word in DROPS_WORDS if word in text), None)
    if found is None:
        return
    raise RefusedError(
        say("A resin hardened by drops of catalyst is not mixed here ({word}).", word=found),
        say(
            "Polyester and vinyl ester take drops by thickness and warmth, not a part B by ratio."
            " Take its maker's table for the dose, or choose a two-part resin here."
        ),
        field="family",
    )


def drops_per_mass(drops: int, mass: Kilogram) -> float:
    """Drops for each kilogram, to compare a past dose with a maker's table; no advice."""
    need_positive(mass=mass)
    need_not_negative(drops=float(drops))
    return drops / mass
