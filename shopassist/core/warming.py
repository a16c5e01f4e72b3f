"""A heated cabinet with a pot in it: air, pot, what is in the pot, and the wall, as four lumps."""

from typing import Literal

from shopassist.core import heatflow
from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen, replace
from shopassist.core.heatflow import Course, Link, Lump, Network, Thermostat
from shopassist.core.quantities import (
    JoulePerKelvin,
    Kelvin,
    KelvinDelta,
    Ratio,
    Second,
    Watt,
    WattPerKelvin,
)

LumpName = Literal["air", "pot", "contents", "wall"]
LUMPS: tuple[LumpName, ...] = ("air", "pot", "contents", "wall")
SHOP = "shop"
DAY = 86400.0
NO_GAPS = WattPerKelvin(0.0)
BAND = KelvinDelta(1.0)
"""Degrees between off and on where nobody measured them; ours."""


@frozen
class Warmed:
    """Heat capacities and paths for heat of a cabinet and what stands in it."""

    air: JoulePerKelvin
    """Air, heater and liner."""
    pot: JoulePerKelvin
    """Nothing where moulds stand in the cabinet without a pot."""
    contents: JoulePerKelvin
    """Moulds, resin and wood in the pot."""
    wall: JoulePerKelvin
    air_pot: WattPerKelvin
    pot_contents: WattPerKelvin
    air_wall: WattPerKelvin
    wall_shop: WattPerKelvin
    air_shop: WattPerKelvin = NO_GAPS
    """Through gaps, past the wall's own mass."""

    @property
    def loss(self) -> WattPerKelvin:
        """All heat lost for each degree over the shop, once nothing changes any more."""
        through = 1 / (1 / self.air_wall + 1 / self.wall_shop)
        return WattPerKelvin(through + self.air_shop)


@frozen
class Heater:
    """The heater and the thermostat that watches the air."""

    power: Watt
    set_at: Kelvin
    band: KelvinDelta = BAND

    @property
    def off_at(self) -> Kelvin:
        """It switches off at this temperature of the air."""
        return Kelvin(self.set_at + self.band / 2)


def network(body: Warmed) -> Network:
    """Lumps and links of a cabinet in a shop."""
    lumps = [Lump("air", body.air), Lump("contents", body.contents), Lump("wall", body.wall)]
    links = [
        Link("air", "wall", body.air_wall),
        Link("wall", SHOP, body.wall_shop),
        Link("air", SHOP, body.air_shop),
    ]
    if body.pot:
        lumps.append(Lump("pot", body.pot))
        links.append(Link("air", "pot", body.air_pot))
    links.append(Link("pot" if body.pot else "air", "contents", body.pot_contents))
    return Network(tuple(lumps), tuple(links))


def warm_up(
    body: Warmed, heater: Heater, start: Kelvin, shop: Kelvin, length: Second,
    until: tuple[LumpName, Kelvin] | None = None,
) -> Course:  # fmt: skip
    """Temperatures from switching on, everything as warm as each other before."""
    state: dict[str, Kelvin] = dict.fromkeys(LUMPS, start)
    watch = Thermostat("air", heater.power, "air", heater.set_at, heater.band)
    return heatflow.course(
        network(body), state, {SHOP: shop}, length, thermostat=watch, until=until
    )


def time_constants(body: Warmed) -> tuple[Second, ...]:
    r"""Times in which the four ways a cabinet evens out fade to 37 %, shortest first.

    .. math:: \det(K - \lambda C) = 0, \quad \tau = 1/\lambda

    Plain: each is 1 ÷ an eigenvalue of the balance of heat over the four lumps

    Parameters
    ----------
    body
        Heat capacities and paths for heat.

    Returns
    -------
    tuple
        Time constants, shortest first, [s].

    Raises
    ------
    OutOfRangeError
        If a heat capacity is not positive, or no heat can leave.

    Notes
    -----
    Each lump has one temperature; nothing in them makes heat.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> body = Warmed(
    ...     air=JoulePerKelvin(1636.0), pot=JoulePerKelvin(5880.0), contents=JoulePerKelvin(3190.0),
    ...     wall=JoulePerKelvin(25100.0), air_pot=WattPerKelvin(3.237),
    ...     pot_contents=WattPerKelvin(0.6), air_wall=WattPerKelvin(1.9503),
    ...     wall_shop=WattPerKelvin(8.7489))
    >>> [round(each / 60, 1) for each in time_constants(body)]
    [4.7, 34.9, 54.9, 200.5]
    """
    rates = heatflow.modes_of(network(body)).rates
    return tuple(Second(1 / rate) for rate in reversed(rates))


def time_to_warm(
    body: Warmed, heater: Heater, shop: Kelvin, goal: Kelvin, lump: LumpName
) -> Second:
    r"""Time from switching on in a cold shop until one part of the cabinet is warm.

    .. math:: T_{lump}(t) = T_{goal}

    Plain: the time at which that lump's temperature comes to the goal

    Parameters
    ----------
    body
        Heat capacities and paths for heat.
    heater
        Heater and thermostat.
    shop
        Temperature of the shop, and of everything at first, [K].
    goal
        Temperature asked for, [K].
    lump
        Air, pot, contents or wall.

    Returns
    -------
    Second
        Time, [s].

    Raises
    ------
    OutOfRangeError
        If it does not come to the goal within three days.

    Notes
    -----
    Each lump has one temperature; heat of setting and the door opened are left out.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> body = Warmed(
    ...     air=JoulePerKelvin(1636.0), pot=JoulePerKelvin(5880.0), contents=JoulePerKelvin(3190.0),
    ...     wall=JoulePerKelvin(25100.0), air_pot=WattPerKelvin(3.237),
    ...     pot_contents=WattPerKelvin(0.6), air_wall=WattPerKelvin(1.9503),
    ...     wall_shop=WattPerKelvin(8.7489))
    >>> heater = Heater(Watt(100.0), Kelvin(314.15))
    >>> warm = time_to_warm(body, heater, Kelvin(293.15), Kelvin(313.15), "contents")
    >>> round(warm / 3600, 1)
    6.2
    """
    need_positive(shop=shop, goal=goal)
    course = warm_up(body, heater, shop, shop, Second(3 * DAY), (lump, goal))
    found = course.first(lump, goal)
    if found is None:
        raise out_of_range("goal", "It does not come to that within three days.")
    return found


def steady_duty(body: Warmed, heater: Heater, shop: Kelvin) -> Ratio:
    r"""Share of the time that the heater is on once everything is warm, followed switch by switch.

    .. math:: D = \frac{t_{on}}{t_{on} + t_{off}}

    Plain: duty = time on ÷ (time on + time off), over the third day

    Parameters
    ----------
    body
        Heat capacities and paths for heat.
    heater
        Heater and thermostat.
    shop
        Temperature of the shop, [K].

    Returns
    -------
    Ratio
        Share of the time, [1].

    Raises
    ------
    OutOfRangeError
        If a value is not positive.

    Notes
    -----
    The wall's heat is followed; the door stays shut.

    Sources
    -------
    HEAT-LUMPS

    Examples
    --------
    >>> body = Warmed(
    ...     air=JoulePerKelvin(1636.0), pot=JoulePerKelvin(5880.0), contents=JoulePerKelvin(3190.0),
    ...     wall=JoulePerKelvin(25100.0), air_pot=WattPerKelvin(3.237),
    ...     pot_contents=WattPerKelvin(0.6), air_wall=WattPerKelvin(1.9503),
    ...     wall_shop=WattPerKelvin(8.7489))
    >>> round(steady_duty(body, Heater(Watt(100.0), Kelvin(314.15)), Kelvin(293.15)), 2)
    0.33
    """
    need_positive(power=heater.power)
    course = warm_up(body, heater, shop, shop, Second(3 * DAY))
    return course.duty(Second(2 * DAY), Second(3 * DAY))


def taken_out(
    body: Warmed, warm: Kelvin, shop: Kelvin, outside: WattPerKelvin, length: Second
) -> Course:
    """Temperatures of a warm pot and what is in it, or of bare moulds, standing in the shop."""
    lumps, links = [Lump("contents", body.contents)], [Link("contents", SHOP, outside)]
    if body.pot:
        lumps.append(Lump("pot", body.pot))
        links = [Link("pot", SHOP, outside), Link("pot", "contents", body.pot_contents)]
    state = {lump.name: warm for lump in lumps}
    net = Network(tuple(lumps), tuple(links))
    return heatflow.course(net, state, {SHOP: shop}, length)


def scaled(body: Warmed, loss: float, heat: float) -> Warmed:
    """Give the same cabinet with its losses, and the heat of its air and wall, times factors."""
    return replace(
        body,
        air=JoulePerKelvin(body.air * heat),
        wall=JoulePerKelvin(body.wall * heat),
        air_wall=WattPerKelvin(body.air_wall * loss),
        wall_shop=WattPerKelvin(body.wall_shop * loss),
        air_shop=WattPerKelvin(body.air_shop * loss),
    )
