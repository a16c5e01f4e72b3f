"""Numbers of the air in a pot as figures that explain themselves: filling, falling, bubbles."""

from math import inf
from typing import Any

from shopassist.core.figures import Figure, Origin
from shopassist.core.filling import fast_fill_temperature, fill_time, shared_gauge
from shopassist.core.frozen import frozen
from shopassist.core.gas import bubble_diameter_ratio, bubble_volume_ratio, sealed_gauge
from shopassist.core.leak import explained_fall, time_to_fall, unexplained_fall
from shopassist.core.messages import Amount, Moment, Text, say
from shopassist.core.pot.course import Course, Point
from shopassist.core.pot.leak import has_risen
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    PascalAbsolute,
    PascalDelta,
    PascalGauge,
    Ratio,
    Second,
    SquareMetre,
)
from shopassist.core.venting import rebound, vent_time_quick, vent_time_slow

NEAR = 900.0
"""A temperature typed within a quarter of an hour belongs to a reading (own choice), [s]."""
CHILLED = Kelvin(263.15)
"""Air in a pot whose vent was shut at once: ten below freezing, a guess of ours."""
ROOM = Kelvin(293.15)
PAIR = 2
FILL = ("fill", "The compressor fills it in")
EXPLAINED = ("explained", "Fall that the cold explains")
UNEXPLAINED = ("unexplained", "Fall that it does not")
WEATHER = PascalDelta(2e3)
"""What the weather of a day or two does to a gauge, either way: 0.3 psi."""
VENT_END = PascalGauge(5e3)
"""The vent's time is counted down to here: the tail has no end, [Pa gauge]."""


@frozen
class Air:
    """What is known about the air of one pot."""

    plate: Plate
    ambient: PascalAbsolute
    hold: PascalGauge | None
    run: Course | None
    gel: float | None = None
    """Hold at least until then: gel, late estimate, [s since 1970 UTC]."""
    hard: float | None = None
    area: SquareMetre | None = None
    """Of the vent, learnt from earlier runs."""


def air_figures(air: Air) -> tuple[Figure, ...]:
    """All numbers of the air: what it does now, then filling, then bubbles and vent."""
    return (*_falling(air), *_filling(air), *_bubbles(air), *_venting(air), _place(air))


def _figure(
    name: str, label: str, value: float | None, quantity: str, formula: str, **more: Any
) -> Figure:
    """A figure of this page; ``more`` are fields of a figure."""
    return Figure(f"pot.air.{name}", value, quantity, formula, label=say(label), **more)


def _plate(value: float, quantity: str) -> Origin:
    return Origin(value, quantity, "record", say("The pot's plate."))


def _air(air: Air) -> Origin:
    return Origin(air.ambient, "PascalAbsolute", "record", say("By the elevation you gave."))


def _hold(air: Air) -> Origin:
    value = 0.0 if air.hold is None else air.hold
    return Origin(value, "PascalGauge", "typed", say("Hold pressure of this run."))


# -- falling -----------------------------------------------------------------------------------


def with_warmth(run: Course | None) -> tuple[tuple[Point, Kelvin], ...]:
    """Readings between the last fill and the vent that have a temperature of their own time."""
    if run is None:
        return ()
    since = -inf if run.filled is None else run.filled
    until = inf if run.vented is None else run.vented
    return tuple(
        (point, Kelvin(min(near, key=lambda each: abs(each[0] - point.at))[1]))
        for point in run.points
        if since <= point.at <= until
        and (near := [each for each in run.warmth if abs(each[0] - point.at) <= NEAR])
    )


def _falling(air: Air) -> tuple[Figure, ...]:
    pairs = with_warmth(air.run)
    if len(pairs) < PAIR:
        missing = say("needs two readings, each with a temperature")
        return (
            _figure(*EXPLAINED, None, "PascalDelta", "leak.explained_fall", missing=missing),
            _figure(*UNEXPLAINED, None, "PascalDelta", "leak.unexplained_fall", missing=missing),
        )
    # Right after filling the air is hot: the fall counts from the first pair, whenever it was.
    fall = Fall(*pairs[0], *pairs[-1], air.ambient)
    return (*_parts(air, fall), *_forecast(air, fall))


@frozen
class Fall:
    """Two readings with their temperatures."""

    first: Point
    before: Kelvin
    last: Point
    after: Kelvin
    ambient: PascalAbsolute

    @property
    def cold(self) -> float:
        """What the cold explains, [Pa difference]."""
        start = PascalGauge(self.first.pressure)
        return explained_fall(start, self.before, self.after, self.ambient)

    @property
    def leak(self) -> float:
        """What it does not, [Pa difference]."""
        start, end = PascalGauge(self.first.pressure), PascalGauge(self.last.pressure)
        return unexplained_fall(start, self.before, end, self.after, self.ambient)

    @property
    def expected(self) -> PascalGauge:
        """What the gauge should read, if no air was lost."""
        start = PascalGauge(self.first.pressure)
        return sealed_gauge(start, self.before, self.after, self.ambient)


def _parts(air: Air, fall: Fall) -> tuple[Figure, ...]:
    inputs: dict[str, Figure | Origin] = {
        "gauge": _typed(fall.first),
        "temp_before": Origin(fall.before, "Kelvin", "typed", when=fall.first.at),
        "temp_after": Origin(fall.after, "Kelvin", "typed", when=fall.last.at),
        "ambient": _air(air),
    }
    both = {**inputs, "gauge_before": inputs["gauge"], "gauge_after": _typed(fall.last)}
    return (
        _figure("should", "Without a leak it should read", fall.expected, "PascalGauge",
                "gas.sealed_gauge", inputs=inputs, rounding=say("At the last temperature.")),
        _figure(*EXPLAINED, fall.cold, "PascalDelta", "leak.explained_fall", inputs=inputs),
        _figure(*UNEXPLAINED, fall.leak, "PascalDelta", "leak.unexplained_fall", inputs=both,
                rounding=_leak_words(air, fall),
                omits=(say("Thermometers that do not stand in the pot's air."),)),
    )  # fmt: skip


def _leak_words(air: Air, fall: Fall) -> Text:
    if has_risen(air.plate.gauge, fall.leak):
        return say("It rose more than warmth explains: air comes in past inlet or regulator.")
    return say("Only this part is a leak; weather makes {little} of it.",
               little=Amount(WEATHER, "PascalDelta"))  # fmt: skip


def _typed(point: Point) -> Origin:
    return Origin(point.pressure, "PascalGauge", "typed", when=point.at)


def _forecast(air: Air, fall: Fall) -> tuple[Figure, ...]:
    """When it falls below the hold pressure, held against gel and hard."""
    label, last = "Below the hold pressure from", fall.last
    between = Second(last.at - fall.first.at)
    if air.hold is None or between <= 0 or last.pressure <= 0:
        return ()
    start = PascalGauge(last.pressure + max(fall.leak, 0.0))
    crossing = time_to_fall(start, PascalGauge(last.pressure), between, air.hold)
    if crossing is None:
        return (_figure("below", label, None, "UtcSecond", "leak.leak_time",
                        missing=say("no air is lost, as far as this shows")),)  # fmt: skip
    first, latest = last.at + crossing.earliest, last.at + crossing.latest
    told = _in_time(air, first)
    if last.pressure < air.hold:
        told = say("It was below already. {then}", then=told)
    return (_figure(
        "below", label, first, "UtcSecond", "leak.leak_time",
        inputs={
            "gauge_before": Origin(start, "PascalGauge", "computed", say("Without the leak.")),
            "gauge_after": _typed(last), "time": Origin(between, "Second", "measured"),
            "limit": _hold(air),
        },
        low=first, high=latest, rounding=told,
        range_means=say("Earlier if it falls on as fast, later if it eases as it empties."),
    ),)  # fmt: skip


def _in_time(air: Air, at: float) -> Text:
    """Against gel and hard: the early end counts."""
    if air.gel is None:
        return say("Start a cure to hold it against gel.")
    if at < air.gel:
        return say("Before gel at {gel}: top up, or stay by it.", gel=Moment(air.gel))
    if air.hard is not None and at < air.hard:
        return say("After gel, before hard at {hard}.", hard=Moment(air.hard))
    return say("After gel at {gel}.", gel=Moment(air.gel))


# -- filling -----------------------------------------------------------------------------------


def _filling(air: Air) -> tuple[Figure, ...]:
    volume, hold = air.plate.volume, air.hold
    if not volume or hold is None:
        missing = say("needs the inside volume" if not volume else "needs a hold pressure")
        return (_figure(*FILL, None, "Second", "filling.fill_time", missing=missing),)
    space = CubicMetre(volume)
    return (_compressor(air, space, hold), *_tank(air, space, hold), *_hot(air, hold))


def _compressor(air: Air, volume: CubicMetre, hold: PascalGauge) -> Figure:
    free = air.plate.supply.free_air
    if free is None:
        return _figure(*FILL, None, "Second", "filling.fill_time",
                       missing=say("needs the compressor's free air"))  # fmt: skip
    most = air.plate.supply.pressure
    if most is not None and most < hold:
        return _figure(*FILL, None, "Second", "filling.fill_time",
                       missing=say("the supply ends at {most}, below the hold pressure",
                                   most=Amount(most, "PascalGauge")))  # fmt: skip
    return _figure(
        *FILL, fill_time(volume, hold, free, air.ambient), "Second", "filling.fill_time",
        inputs={
            "volume": _plate(volume, "CubicMetre"), "gauge": _hold(air), "ambient": _air(air),
            "free_air": _plate(free, "CubicMetrePerSecond"),
        },
        rounding=say("Fill in steps: a blast of air throws resin out."),
    )  # fmt: skip


def _tank(air: Air, volume: CubicMetre, hold: PascalGauge) -> tuple[Figure, ...]:
    tank, full = air.plate.supply.receiver, air.plate.supply.pressure
    if tank is None or full is None:
        return ()
    both = shared_gauge(tank, full, volume, PascalGauge(0.0))
    words = "More than the hold pressure." if both >= hold else "The pump has to run."
    if air.plate.rating is not None and both > air.plate.rating:
        words = "More than the rating: only regulator and relief valve stand between."
    return (_figure(
        "shared", "Its tank alone reaches", both, "PascalGauge", "filling.shared_gauge",
        inputs={
            "volume_one": _plate(tank, "CubicMetre"), "gauge_one": _plate(full, "PascalGauge"),
            "volume_two": _plate(volume, "CubicMetre"),
            "gauge_two": Origin(0.0, "PascalGauge", "default", say("An empty pot.")),
        },
        rounding=say(words),
    ),)  # fmt: skip


def _hot(air: Air, hold: PascalGauge) -> tuple[Figure, ...]:
    cool = air.plate.coldest_fill
    hot = fast_fill_temperature(cool, hold, air.ambient)
    warm = _figure(
        "hot", "Air after a fast fill", hot, "Kelvin", "filling.fast_fill_temperature",
        inputs={"temp": _plate(cool, "Kelvin"), "gauge": _hold(air), "ambient": _air(air)},
        omits=(say("Walls and moulds cool it at once: this is a bound."),),
    )  # fmt: skip
    return (_figure(
        "settled", "A fast fill settles, at worst, to", sealed_gauge(hold, hot, cool, air.ambient),
        "PascalGauge", "gas.sealed_gauge",
        inputs={"gauge": _hold(air), "temp_before": warm,
                "temp_after": _plate(cool, "Kelvin"), "ambient": _air(air)},
        rounding=say("No leak yet: wait ten minutes before judging one."),
    ),)  # fmt: skip


# -- bubbles and vent --------------------------------------------------------------------------


def _bubbles(air: Air) -> tuple[Figure, ...]:
    if air.hold is None:
        return ()
    inputs: dict[str, Figure | Origin] = {"gauge": _hold(air), "ambient": _air(air)}
    across = bubble_diameter_ratio(air.hold, air.ambient)
    volume = bubble_volume_ratio(air.hold, air.ambient)
    return (
        _figure("bubble", "Bubbles shrink, across, to", across, "Ratio",
                "gas.bubble_diameter_ratio", inputs=inputs,
                rounding=say("Squeezed, not gone: what dissolves is not counted.")),
        _figure("regrow", "Let down before gel they swell", Ratio(1 / volume), "Ratio",
                "gas.bubble_volume_ratio", inputs=inputs,
                rounding=say("Times their volume under pressure.")),
    )  # fmt: skip


def _venting(air: Air) -> tuple[Figure, ...]:
    return (_usual_vent(air), _rebound(air))


def _usual_vent(air: Air) -> Figure:
    label, formula = "The vent usually takes", "venting.vent_time_slow"
    volume, hold = air.plate.volume, air.hold
    if air.area is None or not volume or hold is None or hold <= VENT_END:
        missing = say("learnt from the falls of earlier runs")
        return _figure("vent", label, None, "Second", formula, missing=missing)
    given = (CubicMetre(volume), hold, VENT_END, air.area, ROOM, air.ambient)
    quick, slow = vent_time_quick(*given), vent_time_slow(*given)
    return _figure(
        "vent", label, slow, "Second", formula,
        inputs={
            "volume": _plate(volume, "CubicMetre"), "start": _hold(air), "ambient": _air(air),
            "end": Origin(VENT_END, "PascalGauge", "default", say("Ours: the tail has no end.")),
            "area": Origin(air.area, "SquareMetre", "measured", say("Middle of earlier runs.")),
            "temp": Origin(ROOM, "Kelvin", "default", say("A room.")),
        },
        low=quick, high=slow,
        range_means=say("From air that chills to air that the walls keep warm."),
        rounding=say("Much quicker is a reason to doubt; its end is no sign."),
    )  # fmt: skip


def _rebound(air: Air) -> Figure:
    return _figure(
        "rebound", "Vent shut on cold air: comes back", rebound(CHILLED, ROOM, air.ambient),
        "PascalGauge", "venting.rebound",
        inputs={
            "temp_cold": Origin(CHILLED, "Kelvin", "default", say("A guess of ours.")),
            "temp_warm": Origin(ROOM, "Kelvin", "default", say("A room.")), "ambient": _air(air),
        },
        rounding=say("Why the vent stays open until the lid is off."),
    )  # fmt: skip


def _place(air: Air) -> Figure:
    return _figure(
        "ambient", "Air pressure of the place", air.ambient, "PascalAbsolute",
        "atmosphere.air_pressure",
        inputs={"air": Origin(air.ambient, "PascalAbsolute", "record", say("By elevation."))},
        rounding=say("By the elevation in the settings; weather moves it by 3 %."),
    )  # fmt: skip
