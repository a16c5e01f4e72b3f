"""The stabilising bath: how much resin, how high it stands, what holds the wood down."""

from shopassist.core.bounds import need_not_negative, need_positive, need_share
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import (
    CubicMetre,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    SquareMetre,
)
from shopassist.core.resin_load import BALLAST, ballast, lift
from shopassist.core.wood import voids

COVER_AT_END = Metre(0.010)
"""Resin still over the wood when it has drunk its fill; ours, from a shop's report."""
HEADSPACE = Metre(0.075)
"""Room for foam under the lid; makers' guides say 50 to 75 mm, the longer is taken."""
HOLD_DOWN = Ratio(1.25)
"""Ballast over the bare lift; ours."""


@frozen
class Bath:
    """A vessel with wood in it, as it is planned."""

    area: SquareMetre
    """Inside area of the vessel, seen from above."""
    height: Metre
    """Inside height."""
    wood: CubicMetre
    """Bulk volume of all pieces."""
    wood_mass: Kilogram
    """Oven-dry mass of all pieces."""
    stack: Metre
    """Height of the wood when it is held down, from the vessel's floor."""
    fill: Ratio
    """Share of the voids expected to fill."""
    resin: KilogramPerCubicMetre
    cover: Metre = COVER_AT_END
    """Asked over the wood at the end."""
    weight: str = "steel"
    """Material of the ballast; empty: it presses from above the liquid."""
    times: Ratio = HOLD_DOWN


@frozen
class BathPlan:
    """What to pour and what to expect."""

    absorbed: CubicMetre
    start: CubicMetre
    """Resin to pour."""
    end: CubicMetre
    """Left in the vessel afterwards, drips not counted."""
    start_level: Metre
    end_level: Metre
    drop: Metre
    start_cover: Metre
    ballast: Kilogram
    ballast_volume: CubicMetre
    headspace: Metre
    """Left under the rim at the start."""

    @property
    def foams_over(self) -> bool:
        """True where there is too little room for foam."""
        return self.headspace < HEADSPACE


def absorbed_volume(wood: CubicMetre, voids: Ratio, fill: Ratio) -> CubicMetre:
    r"""Resin that the wood takes out of the bath.

    .. math:: a = V \varphi f

    Plain: wood × voids × filled share of the voids

    Parameters
    ----------
    wood
        Bulk volume of the pieces, [m3].
    voids
        Share of voids, [1].
    fill
        Share of the voids that fills, [1].

    Returns
    -------
    CubicMetre
        Resin gone from the bath, [m3].

    Raises
    ------
    OutOfRangeError
        If the volume is not positive or a share is impossible.

    Notes
    -----
    What drips or sticks outside is not in it.

    Sources
    -------
    BATH-GEOMETRY

    Examples
    --------
    >>> round(absorbed_volume(CubicMetre(1.6965e-3), Ratio(0.5867), Ratio(0.7)) * 1e6, 1)
    696.7
    """
    need_positive(wood=wood)
    need_share(voids=voids)
    if not 0.0 <= fill <= 1.0:
        raise out_of_range("fill", "The voids fill from 0 % to 100 %.")
    return CubicMetre(wood * voids * fill)


def level_drop(absorbed: CubicMetre, area: SquareMetre) -> Metre:
    r"""How far the level falls while the wood drinks.

    .. math:: \Delta h = \frac{a}{A}

    Plain: absorbed volume ÷ area of the bath

    Parameters
    ----------
    absorbed
        Resin taken up, [m3].
    area
        Area of the vessel, [m2].

    Returns
    -------
    Metre
        Fall of the level, [m].

    Raises
    ------
    OutOfRangeError
        If the area is not positive or the volume negative.

    Notes
    -----
    The wood stays covered, so the whole area counts.

    Sources
    -------
    BATH-GEOMETRY

    Examples
    --------
    >>> round(level_drop(CubicMetre(600e-6), SquareMetre(0.05067)) * 1e3, 1)
    11.8
    """
    need_positive(area=area)
    need_not_negative(absorbed=absorbed)
    return Metre(absorbed / area)


def plan_bath(bath: Bath) -> BathPlan:
    """Work out what to pour so that the wood stays covered to the end."""
    need_positive(area=bath.area, height=bath.height, wood=bath.wood, stack=bath.stack,
                  wood_mass=bath.wood_mass, resin=bath.resin, times=bath.times)  # fmt: skip
    need_not_negative(cover=bath.cover)
    if bath.wood > bath.area * bath.stack:
        raise out_of_range("wood", "So much wood does not go into so small a part of the vessel.")
    dry = KilogramPerCubicMetre(bath.wood_mass / bath.wood)
    absorbed = absorbed_volume(bath.wood, voids(dry), bath.fill)
    up = lift(bath.wood, bath.wood_mass, bath.resin)
    weight, sunk = _weight(bath, up)
    level = Metre(bath.stack + bath.cover)
    end = CubicMetre(bath.area * level - bath.wood - sunk)
    drop = level_drop(absorbed, bath.area)
    start_level = Metre(level + drop)
    if end <= 0:
        raise out_of_range("area", "Wood and ballast alone fill this vessel: take a wider one.")
    if start_level > bath.height:
        raise out_of_range(
            "height",
            "The wood and its cover do not fit under the rim: fewer pieces, or a taller vessel.",
        )
    return BathPlan(
        absorbed, CubicMetre(end + absorbed), end, start_level, level, drop,
        Metre(bath.cover + drop), weight, sunk, Metre(bath.height - start_level),
    )  # fmt: skip


def _weight(bath: Bath, up: Kilogram) -> tuple[Kilogram, CubicMetre]:
    """Ballast and the room it takes in the bath."""
    need = Kilogram(max(up, 0.0) * bath.times)
    if not bath.weight:
        return need, CubicMetre(0.0)
    density = BALLAST.get(bath.weight)
    if density is None:
        raise out_of_range("weight", "Choose steel, stone or glass, or lead.")
    mass = ballast(need, bath.resin, density) if need > 0 else Kilogram(0.0)
    return mass, CubicMetre(mass / density)


def loss_unaccounted(poured: CubicMetre, back: CubicMetre, absorbed: CubicMetre) -> CubicMetre:
    r"""Resin that is neither in the wood nor back in the bottle.

    .. math:: V = V_{poured} - V_{back} - V_{absorbed}

    Plain: poured - poured back - taken up by the wood

    Parameters
    ----------
    poured
        Resin poured into the bath, [m3].
    back
        Resin poured back, [m3].
    absorbed
        Resin in the wood by its weight gain, [m3].

    Returns
    -------
    CubicMetre
        Skin, drips and spill; negative: a measurement is wrong, [m3].

    Raises
    ------
    OutOfRangeError
        If a volume is negative.

    Notes
    -----
    By the liquid's density; a cured skin that was wiped off is a loss too.

    Sources
    -------
    BATH-GEOMETRY

    Examples
    --------
    >>> left = loss_unaccounted(CubicMetre(3.43e-3), CubicMetre(2.70e-3), CubicMetre(0.70e-3))
    >>> round(left * 1e6)
    30
    """
    need_not_negative(poured=poured, back=back, absorbed=absorbed)
    return CubicMetre(poured - back - absorbed)
