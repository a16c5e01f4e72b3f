"""Coats: film, coverage, thinning, and when the air lets a film be put on."""

from math import pi

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.humidity import dew_point, gives_frost
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    KelvinDelta,
    Metre,
    Ratio,
    Second,
    SquareMetre,
    SquareMetrePerCubicMetre,
)

DEW_MARGIN = KelvinDelta(3.0)
"""The surface stays this much above the dew point; coating guides after ISO 8502-4."""
MOST_HUMID = Ratio(0.85)
COLDEST, HOTTEST = Kelvin(273.15 + 10.0), Kelvin(273.15 + 35.0)
"""Air in which film finishes are put on; coating guides."""
SOFTENING_MARGIN = KelvinDelta(10.0)
"""Friction must stay this far under the softening temperature; ours."""
TEN_KELVIN = 10.0
SLOWER: tuple[Ratio, Ratio, Ratio] = (Ratio(1.6), Ratio(2.0), Ratio(2.5))
"""Ten kelvin colder it goes so many times slower: lowest, likely, highest; a rule of thumb, the
range is ours."""
TOUCH = Kelvin(273.15 + 40.0)
"""Comfortable to hold: the limit where no softening temperature is known; common practice."""


def wet_film(dry: Metre, solids: Ratio) -> Metre:
    r"""Wet film that dries to a wanted thickness.

    .. math:: w = \frac{d}{s}

    Plain: dry film ÷ solids by volume

    Parameters
    ----------
    dry
        Dry film thickness, [m].
    solids
        Solids by volume, [1].

    Returns
    -------
    Metre
        Wet film thickness, [m].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative, or there are more solids than paint.

    Notes
    -----
    Thinning lowers the solids: half and half halves them.

    Sources
    -------
    LACQUER-SHEET

    Examples
    --------
    >>> round(wet_film(Metre(50e-6), Ratio(0.30)) * 1e6)
    167
    """
    need_positive(dry=dry, solids=solids)
    if solids > 1:
        raise out_of_range("solids", "Solids are at most 100 % of the volume.")
    return Metre(dry / solids)


def coverage(dry: Metre, solids: Ratio) -> SquareMetrePerCubicMetre:
    r"""Area that a volume of finish covers.

    .. math:: c = \frac{s}{d}

    Plain: solids by volume ÷ dry film

    Parameters
    ----------
    dry
        Dry film thickness, [m].
    solids
        Solids by volume, [1].

    Returns
    -------
    SquareMetrePerCubicMetre
        Coverage, [m2/m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative, or there are more solids than paint.

    Notes
    -----
    Nothing for what stays in brush and cup.

    Sources
    -------
    LACQUER-SHEET

    Examples
    --------
    >>> round(coverage(Metre(50e-6), Ratio(0.30)) / 1000, 1)
    6.0
    """
    return SquareMetrePerCubicMetre(1 / wet_film(dry, solids))


def thinned_solids(solids: Ratio, thinner: Ratio) -> Ratio:
    r"""Solids of a finish after thinning.

    .. math:: s' = \frac{s}{1 + t}

    Plain: solids ÷ (1 + thinner per finish, by volume)

    Parameters
    ----------
    solids
        Solids by volume before, [1].
    thinner
        Volumes of thinner for one volume of finish, [1].

    Returns
    -------
    Ratio
        Solids by volume after, [1].

    Raises
    ------
    OutOfRangeError
        If the solids are no share or the thinner negative.

    Notes
    -----
    Volumes taken as adding up. Only as far as the maker's sheet allows.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> thinned_solids(Ratio(0.22), Ratio(1.0))
    0.11
    """
    need_not_negative(thinner=thinner)
    if not 0 < solids <= 1:
        raise out_of_range("solids", "Solids lie between 0 % and 100 % of the volume.")
    return Ratio(solids / (1 + thinner))


def turned_area(diameter: Metre, length: Metre, bore: Metre) -> SquareMetre:
    r"""Surface of a cylinder to be coated, ends included, the bore left bare.

    .. math:: A = \pi D L + 2 \tfrac{\pi}{4} (D^2 - b^2)

    Plain: pi × diameter × length + both end rings

    Parameters
    ----------
    diameter
        Diameter, [m].
    length
        Length, [m].
    bore
        Diameter of the bore; 0 for none, [m].

    Returns
    -------
    SquareMetre
        Area, [m2].

    Raises
    ------
    OutOfRangeError
        If a size is not positive or the bore does not fit.

    Notes
    -----
    A profile with beads has some percent more.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(turned_area(Metre(0.060), Metre(0.150), Metre(0.0)), 5)
    0.03393
    """
    need_positive(diameter=diameter, length=length)
    need_not_negative(bore=bore)
    if bore >= diameter:
        raise out_of_range("bore", "The bore is as wide as the piece.")
    return SquareMetre(pi * diameter * length + pi / 2 * (diameter**2 - bore**2))


def finish_volume(area: SquareMetre, covers: SquareMetrePerCubicMetre, coats: Ratio) -> CubicMetre:
    r"""Finish needed for a number of coats.

    .. math:: V = \frac{n A}{c}

    Plain: coats × area ÷ coverage

    Parameters
    ----------
    area
        Area of one coat, [m2].
    covers
        Coverage, [m2/m3].
    coats
        Number of coats, [1].

    Returns
    -------
    CubicMetre
        Finish, [m3].

    Raises
    ------
    OutOfRangeError
        If a value is zero or negative.

    Notes
    -----
    What stays in brush, gun and cup comes on top.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> area, covers = SquareMetre(0.03393), SquareMetrePerCubicMetre(10e3)
    >>> round(finish_volume(area, covers, Ratio(1.0)) * 1e6, 2)
    3.39
    """
    need_positive(area=area, covers=covers, coats=coats)
    return CubicMetre(coats * area / covers)


def recoat_time(time: Second, reference: Kelvin, air: Kelvin, factor: Ratio) -> Second:
    r"""Time of a film, or of a seal coat, at another temperature than its sheet's.

    .. math:: t = t_0 \, f^{(T_0 - T) / 10}

    Plain: time on the sheet × factor to the power of (sheet's temperature - air) ÷ 10

    Parameters
    ----------
    time
        Time on the sheet, [s].
    reference
        Temperature that it holds for, [K].
    air
        Temperature of air and piece, [K].
    factor
        How many times slower it goes ten kelvin colder, [1].

    Returns
    -------
    Second
        Time at that temperature, [s].

    Raises
    ------
    OutOfRangeError
        If time or factor is zero or negative.

    Notes
    -----
    A rule of thumb. Humidity is not in it: films that dry by water take longer in humid air.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> six, cool = Second(6 * 3600.0), Kelvin(291.15)
    >>> round(recoat_time(six, Kelvin(298.15), cool, Ratio(2.0)) / 3600, 2)
    9.75
    """
    need_positive(time=time, factor=factor)
    return Second(time * factor ** ((reference - air) / TEN_KELVIN))


@frozen
class Window:
    """When the next coat may go on, counted from the one before."""

    opens: Second
    """At the likely factor; never before the sheet's own time."""
    opens_late: Second
    """At the factor that makes it latest: wait until then."""
    shuts: Second | None
    """At the likely factor; then sand first. None where the sheet gives no end."""
    shuts_early: Second | None
    """At the factor that makes it earliest: do not count on more."""


def recoat_window(opens: Second, stays: Second | None, reference: Kelvin, air: Kelvin) -> Window:
    """First and last moment for the next coat, with the range of the rule of thumb.

    ``stays`` is how long it stays open on the sheet, after it has opened.
    """

    def times(time: Second) -> list[Second]:
        return [recoat_time(time, reference, air, each) for each in SLOWER]

    first = [Second(max(each, opens)) for each in times(opens)]
    if stays is None:
        return Window(first[1], Second(max(first)), None, None)
    lasts = times(stays)
    shuts = [Second(a + b) for a, b in zip(times(opens), lasts, strict=True)]
    return Window(first[1], Second(max(first)), shuts[1], Second(min(shuts)))


def warmth_reason(air: Kelvin) -> Text | None:
    """Why the air is too cold or too warm for a film; None where it is neither."""
    if COLDEST <= air <= HOTTEST:
        return None
    low, high = Amount(COLDEST, "Kelvin"), Amount(HOTTEST, "Kelvin")
    return say("The air should be {low} to {high}.", low=low, high=high)


def air_reasons(air: Kelvin, humidity: Ratio) -> tuple[Text, ...]:
    """What of the air alone speaks against a film, wherever the dew settles."""
    humid = say("The air is too humid: film finishes want under {h}.",
                h=Amount(MOST_HUMID, "Ratio", 0, "%"))  # fmt: skip
    found = (humid if humidity > MOST_HUMID else None, warmth_reason(air))
    return tuple(each for each in found if each is not None)


@frozen
class DewGate:
    """Whether a film may be put on now."""

    open: bool
    dew: Kelvin | None
    """Where dew settles; None where it would be frost."""
    reasons: tuple[Text, ...] = ()


def dew_gate(air: Kelvin, humidity: Ratio, surface: Kelvin) -> DewGate:
    """Judge air and surface before spraying or brushing a film; every reason is given."""
    dew = None if gives_frost(air, humidity) else dew_point(air, humidity)
    reasons: list[Text] = []
    if dew is not None and surface < dew + DEW_MARGIN:
        reasons.append(
            say(
                "The piece is {s}; dew settles at {d}: bring it to {g} or more.",
                s=Amount(surface, "Kelvin"),
                d=Amount(dew, "Kelvin"),
                g=Amount(dew + DEW_MARGIN, "Kelvin"),
            )
        )
    reasons.extend(air_reasons(air, humidity))
    return DewGate(not reasons, dew, tuple(reasons))


def friction_limit(softening: Kelvin | None) -> Kelvin:
    """Greatest temperature of the surface while it is sanded, polished or rubbed."""
    return TOUCH if softening is None else Kelvin(min(softening - SOFTENING_MARGIN, TOUCH))


CAUTIONS: tuple[Text, ...] = (
    say("Oily rags heat by themselves: spread them out to dry outdoors, or under water."),
    say("Spray and solvents: fresh air, no flame or spark, the mask the sheet names."),
    say("No rag round spinning work; paper towel tears."),
)
"""Usual cautions of the trade; local rules and the maker's sheet come first."""
