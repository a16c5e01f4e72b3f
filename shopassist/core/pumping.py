"""Vacuum over the bath: what the dial means here, what the pump can reach, what boils."""

from math import log

from shopassist.core.atmosphere import SEA_LEVEL, absolute_of_vacuum
from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.humidity import saturation_pressure
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import (
    CubicMetre,
    CubicMetrePerSecond,
    Kelvin,
    PascalAbsolute,
    PascalVacuum,
    Ratio,
    Second,
)

SLOW = 3.0
"""Times the expected pump-down from which something else is at work; ours."""
NEAR = 1.15
"""Within this factor of a boiling pressure the reading may be that vapour; ours."""
STEPS = tuple(PascalVacuum(3386.389 * inches) for inches in (10.0, 15.0, 20.0, 25.0))
"""Stepped start, dial readings below the air of the sea, common practice of guides."""
QUIET = Second(600.0)
"""No bubbles for this long ends the vacuum; common practice, reported by the user."""
SOAK_TIMES = Ratio(2.0)
"""Soak at least this many times the vacuum, or the sheet's minimum; common practice."""


def pauses(ambient: PascalAbsolute | None) -> tuple[PascalVacuum, ...]:
    """Where to pause on the way down: the same swelling of the foam under any air."""
    share = 1.0 if ambient is None else min(ambient / SEA_LEVEL, 1.0)
    return tuple(PascalVacuum(each * share) for each in STEPS)


def pump_down_time(
    volume: CubicMetre,
    speed: CubicMetrePerSecond,
    start: PascalAbsolute,
    goal: PascalAbsolute,
    ultimate: PascalAbsolute,
) -> Second:
    r"""Time a pump needs to bring a chamber from one pressure to another.

    .. math:: t = \frac{V}{S} \ln\frac{p_0 - p_u}{p - p_u}

    Plain: free volume ÷ pumping speed × ln((start - best reachable) ÷ (goal - best reachable))

    Parameters
    ----------
    volume
        Free gas volume of chamber and hoses, [m3].
    speed
        Pumping speed, [m3/s].
    start
        Absolute pressure at the start, [Pa absolute].
    goal
        Absolute pressure asked for, [Pa absolute].
    ultimate
        Best absolute pressure the pump can reach, [Pa absolute].

    Returns
    -------
    Second
        Pumping time, [s].

    Raises
    ------
    OutOfRangeError
        If the goal cannot be reached or a value is not positive.

    Notes
    -----
    Constant speed, tight chamber, nothing that gives off vapour. Much longer means a leak,
    vapour, or wet wood.

    Sources
    -------
    PUMP-DOWN

    Examples
    --------
    >>> air, goal, none = PascalAbsolute(101325.0), PascalAbsolute(1e4), PascalAbsolute(0.0)
    >>> speed = CubicMetrePerSecond(70.8e-3 / 60)
    >>> round(pump_down_time(CubicMetre(0.01), speed, air, goal, none), 1)
    19.6
    """
    need_positive(volume=volume, speed=speed, start=start, goal=goal)
    need_not_negative(ultimate=ultimate)
    if goal <= ultimate:
        raise out_of_range("goal", "This pump cannot reach that: its best is at or above it.")
    if goal > start:
        raise out_of_range("goal", "That is no deeper than where it starts.")
    return Second(volume / speed * log((start - ultimate) / (goal - ultimate)))


def share_of_reachable(vacuum: PascalVacuum, ambient: PascalAbsolute) -> Ratio:
    r"""Dial reading as a share of the deepest one that this place allows.

    .. math:: s = \frac{p_{vac}}{p_{amb}}

    Plain: dial reading ÷ air pressure here

    Parameters
    ----------
    vacuum
        Dial reading below the air, [Pa below ambient].
    ambient
        Air pressure here, [Pa absolute].

    Returns
    -------
    Ratio
        Share of a perfect vacuum, [1].

    Raises
    ------
    OutOfRangeError
        If the dial reads deeper than the air pressure.

    Notes
    -----
    High up a smaller dial reading can be as deep: compare shares, never dials.

    Sources
    -------
    PRESSURE-TERMS

    Examples
    --------
    >>> round(share_of_reachable(PascalVacuum(74500.6), PascalAbsolute(84288.0)), 3)
    0.884
    """
    absolute = absolute_of_vacuum(vacuum, ambient)
    return Ratio(1 - absolute / ambient)


@frozen
class VacuumVerdict:
    """What a dial reading is worth at this place."""

    absolute: PascalAbsolute
    share: Ratio
    deep_enough: bool
    text: Text


def judge_vacuum(
    vacuum: PascalVacuum, ambient: PascalAbsolute, ultimate: PascalAbsolute
) -> VacuumVerdict:
    """Compare a dial reading with what this pump can reach at this place."""
    absolute = absolute_of_vacuum(vacuum, ambient)
    deep = absolute <= ultimate * NEAR
    shown = Amount(absolute, "PascalAbsolute")
    best = Amount(ultimate, "PascalAbsolute")
    text = (
        say("{found}: the best of this pump, or near it.", found=shown)
        if deep
        else say("{found}; this pump can reach {best}.", found=shown, best=best)
    )
    return VacuumVerdict(absolute, share_of_reachable(vacuum, ambient), deep, text)


def stall_causes(
    absolute: PascalAbsolute, ultimate: PascalAbsolute, bath: Kelvin, monomer: PascalAbsolute | None
) -> tuple[Text, ...]:
    """Possible reasons why the dial stands still, the likeliest first; never a certainty."""
    water = saturation_pressure(bath)
    causes: list[Text] = []
    if absolute <= ultimate * NEAR:
        causes.append(say("This is as deep as the pump goes."))
    if water / NEAR <= absolute <= water * NEAR:
        causes.append(
            say(
                "Water boils at {p} in a bath this warm: the wood is wet.",
                p=Amount(water, "PascalAbsolute"),
            )
        )
    if monomer is not None and monomer / NEAR <= absolute <= monomer * NEAR:
        causes.append(
            say(
                "The resin itself boils at {p}: no deeper, it loses its monomer.",
                p=Amount(monomer, "PascalAbsolute"),
            )
        )
    if not causes or absolute > ultimate * NEAR:
        causes.append(say("A leak: close the valve to the pump and watch the dial."))
    return tuple(causes)


def is_slow(taken: Second, expected: Second) -> bool:
    """True where a pump-down takes so long that leak, vapour or wet wood must be asked for."""
    need_not_negative(taken=taken, expected=expected)
    return taken > SLOW * expected


def soak_minimum(under_vacuum: Second, sheet: Second | None) -> Second:
    r"""Least soak after the air has been let in.

    .. math:: t = \max(2\,t_{vac},\; t_{sheet})

    Plain: twice the time under vacuum, or the sheet's minimum where that is longer

    Parameters
    ----------
    under_vacuum
        Time under vacuum, [s].
    sheet
        Minimum on the resin's sheet, [s].

    Returns
    -------
    Second
        Least soak, [s].

    Raises
    ------
    OutOfRangeError
        If a time is negative.

    Notes
    -----
    Thick pieces want longer; weighing at the end tells.

    Sources
    -------
    PRACTICE

    Examples
    --------
    >>> soak_minimum(Second(9000.0), None)
    18000.0
    """
    need_not_negative(under_vacuum=under_vacuum, sheet=sheet or 0.0)
    return Second(max(SOAK_TIMES * under_vacuum, sheet or 0.0))


SHUT_DOWN: tuple[Text, ...] = (
    say("Close the valve between chamber and pump."),
    say("Open the pump's inlet to the air."),
    say("Let it run on a moment, so that it clears its oil."),
    say("Switch the pump off."),
    say("Let air into the chamber slowly."),
)
"""In this order no oil is drawn back; pump makers' advice, common practice."""

AFTER_A_POWER_CUT: tuple[Text, ...] = (
    say("The state of the chamber is not known: read the gauge."),
    say("Look at the oil: level, and whether some went towards the chamber."),
    say("Start again by the stepped start; the time under vacuum begins anew."),
)
