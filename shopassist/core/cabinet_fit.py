"""A cabinet learnt from a logged warm-up: its loss, and the heat that air and wall take up."""

from collections.abc import Sequence
from itertools import takewhile
from math import exp, sqrt

from shopassist.core import heatflow
from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kelvin, KelvinDelta, Ratio, Second, WattPerKelvin
from shopassist.core.warming import LUMPS, SHOP, Heater, Warmed, network, scaled

LEAST = 4
"""Readings that a cabinet is learnt from."""
THERMOMETER = KelvinDelta(0.7)
"""How far a reading of the air may be from what the lump has, 1 sigma; ours."""
BEFORE = (0.3, 0.4)
"""How far loss and heat may be from what was worked out, 1 sigma of the logarithm; ours."""
ROUNDS, SMALL, FARTHEST = 20, 1e-4, 0.7
COVER = 1.96
MISSES = KelvinDelta(3.0)
"""Readings that miss by more than this, 1 sigma, are not from this cabinet; ours."""

Pair = tuple[float, float]


@frozen
class AirReading:
    """Air inside, so long after switching on."""

    at: Second
    temp: Kelvin


@frozen
class Fit:
    """What a warm-up tells of a cabinet."""

    loss: WattPerKelvin
    loss_band: Ratio
    """Either way, 95 %."""
    heat: Ratio
    """Heat of air and wall over what was worked out."""
    heat_band: Ratio
    misses: KelvinDelta
    """Root mean square of what is left over."""


def learn(body: Warmed, heater: Heater, shop: Kelvin, readings: Sequence[AirReading]) -> Fit:
    """Least squares over readings from switching on; what was worked out before counts a little.

    Only those before the thermostat first switches off: from then on they show its setting.
    """
    need_positive(shop=shop, power=heater.power)
    if any(each.at < 0 for each in readings):
        raise out_of_range("log", "Count the minutes from switching on.")
    in_order = sorted(readings, key=lambda each: each.at)
    low = heater.off_at - heater.band
    ordered = list(takewhile(lambda each: each.temp < low, in_order))
    if len(ordered) < LEAST:
        raise out_of_range(
            "log", "Give four readings or more from before the thermostat first switches off."
        )
    point: Pair = (0.0, 0.0)
    for _ in range(ROUNDS):
        left = _left_over(body, heater, shop, ordered, point)
        slopes = [_slope(body, heater, shop, ordered, (point, left), axis) for axis in (0, 1)]
        step = _step(left, slopes, point)
        point = (point[0] + step[0], point[1] + step[1])
        if max(map(abs, step)) < SMALL:
            break
    left = _left_over(body, heater, shop, ordered, point)
    misses = sqrt(sum(each * each for each in left) / len(left))
    if misses > MISSES:
        raise out_of_range(
            "log", "These readings do not fit this cabinet: look at walls and watts."
        )
    slopes = [_slope(body, heater, shop, ordered, (point, left), axis) for axis in (0, 1)]
    normal = _normal(slopes)
    loose = max(1.0, misses / THERMOMETER)
    spread = [COVER * loose * sqrt(each) for each in _diagonal_of_inverse(normal)]
    return Fit(
        WattPerKelvin(body.loss * exp(point[0])), Ratio(spread[0]),
        Ratio(exp(point[1])), Ratio(spread[1]), KelvinDelta(misses),
    )  # fmt: skip


def _left_over(
    body: Warmed, heater: Heater, shop: Kelvin, readings: Sequence[AirReading], point: Pair
) -> list[float]:
    """Readings less what the cabinet with these factors would have shown."""
    net = network(scaled(body, exp(point[0]), exp(point[1])))
    cold = shop if readings[0].at > 0 else readings[0].temp
    state: dict[str, Kelvin] = dict.fromkeys(LUMPS, cold)
    length = Second(max(readings[-1].at, 1.0))
    found = heatflow.course(net, state, {SHOP: shop}, length, heats={"air": heater.power})
    return [each.temp - found.temperature("air", each.at) for each in readings]


def _slope(
    body: Warmed, heater: Heater, shop: Kelvin, readings: Sequence[AirReading],
    here: tuple[Pair, list[float]], axis: int,
) -> list[float]:  # fmt: skip
    """Change of what is left over with one factor."""
    (loss, heat), left = here
    moved = (loss + SMALL, heat) if axis == 0 else (loss, heat + SMALL)
    other = _left_over(body, heater, shop, readings, moved)
    return [(b - a) / SMALL for a, b in zip(left, other, strict=True)]


def _normal(slopes: list[list[float]]) -> tuple[float, float, float]:
    """Upper half of the normal matrix, what was known before included."""
    weight = 1 / THERMOMETER**2

    def product(a: list[float], b: list[float]) -> float:
        return weight * sum(x * y for x, y in zip(a, b, strict=True))

    first, second = slopes
    return (
        product(first, first) + 1 / BEFORE[0] ** 2,
        product(first, second),
        product(second, second) + 1 / BEFORE[1] ** 2,
    )


def _step(left: list[float], slopes: list[list[float]], point: Pair) -> Pair:
    """One step of Gauss and Newton, no farther than the model can be trusted."""
    weight = 1 / THERMOMETER**2
    down = [
        -weight * sum(x * y for x, y in zip(slope, left, strict=True)) - at / known**2
        for slope, at, known in zip(slopes, point, BEFORE, strict=True)
    ]
    a, b, c = _normal(slopes)
    whole = a * c - b * b
    step = ((c * down[0] - b * down[1]) / whole, (a * down[1] - b * down[0]) / whole)
    far = max(1.0, *(abs(each) / FARTHEST for each in step))
    return step[0] / far, step[1] / far


def _diagonal_of_inverse(normal: tuple[float, float, float]) -> Pair:
    a, b, c = normal
    whole = a * c - b * b
    return c / whole, a / whole
