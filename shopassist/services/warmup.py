"""A warm-up worked out: can it hold, how long until warm, when to switch on, how much air."""

from collections.abc import Mapping
from dataclasses import field, replace
from math import ceil
from typing import Literal

from shopassist.core.cabinet import (
    EXTRA,
    FILM_BAND,
    Cabinet,
    Load,
    outside_path,
    wants,
    warmed,
)
from shopassist.core.enclosure import duty, steady_rise
from shopassist.core.errors import out_of_range
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.gas import pore_growth
from shopassist.core.heatflow import Course
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import (
    ZERO_CELSIUS,
    Kelvin,
    KelvinDelta,
    Kilogram,
    PascalAbsolute,
    Second,
    UtcSecond,
    WattPerKelvin,
)
from shopassist.core.relief import working_limit
from shopassist.core.rows import Body, Json
from shopassist.core.sheets import ResinSheet
from shopassist.core.warming import Warmed, scaled, taken_out, warm_up

Inside = Literal["nothing mixed", "poured moulds", "mixed resin in a cup"]
INSIDE: tuple[Inside, ...] = ("nothing mixed", "poured moulds", "mixed resin in a cup")
LONGEST = Second(2 * 86400.0)
"""A warm-up is followed for two days."""
LOST = KelvinDelta(5.0)
"""A pot out in the cold may lose so much; ours."""
WELL_HELD = 0.9
"""A heater that is on longer than this share has nothing left for a cold night; ours."""
BEYOND = 1.12
"""And this much longer than the slowest takes, so that the end is seen."""
SHORT = Second(4 * 3600.0)
"""It is followed so long at least."""
RANGE = say("Walls and films off by as much as they may be, all to one side.")
OMITS = (
    say("The door opened meanwhile, draughts, warm air lying at the top."),
    say("The warmth that the resin makes itself."),
    say("Air under pressure, which carries more heat: a filled pot warms sooner than this."),
)


@frozen
class Given:
    """What a warm-up is worked out from."""

    cabinet: Cabinet
    load: Load
    shop: Kelvin
    goal: Kelvin
    inside: Inside = "nothing mixed"
    moulds: int = 1
    """How many the resin is shared by."""
    pour_at: UtcSecond | None = None
    origins: Mapping[str, Origin] = field(default_factory=dict)
    """What was typed, by the names of the figures' inputs."""


@frozen
class Courses:
    """Temperatures as they are likely, and with everything off toward slow and toward quick."""

    likely: Course
    slow: Course
    quick: Course


@frozen
class Plan:
    """Everything that the pane tells of one warm-up."""

    loss: Figure
    duty: Figure
    most: Figure
    """Warmest that the heater can keep it at."""
    warm_after: Figure
    switch_on: Figure
    stand_out: Figure
    courses: Courses
    holds: Literal["yes", "barely", "no"]
    wants: tuple[Text, ...]


def refusal(given: Given, sheet: ResinSheet | None) -> tuple[Text, Text] | None:
    """Why this may not be warmed at all: what, and what to do instead."""
    if given.inside == "mixed resin in a cup":
        return (
            say("Mixed resin is not kept warm."),
            say("In a cup or a pail it heats itself, and faster in the warm: it can smoke or burn."
                " Pour it, spread it thin, or let it stand in the open, outside."),
        )  # fmt: skip
    limit = sheet.mass_limit if sheet is not None else None
    share = given.load.resin / max(given.moulds, 1)
    if given.inside == "poured moulds" and limit is not None and share > limit:
        return (
            say(
                "{share} in one mould is more than the sheet's {limit}.",
                share=Amount(share, "Kilogram"), limit=Amount(limit, "Kilogram"),
            ),
            say("So much mixed resin in one piece runs hot, and in the warm sooner still."),
        )  # fmt: skip
    return None


def plan(given: Given) -> Plan:
    """Work a warm-up out; raises where something typed cannot be."""
    if given.shop >= given.goal:
        raise out_of_range("shop", "The shop is as warm as that already.")
    bodies = bodies_of(given)
    courses = courses_of(given, bodies)
    band = given.cabinet.loss_band
    rise = KelvinDelta(given.cabinet.set_at - given.shop)
    share = duty(bodies[0].loss, rise, given.cabinet.power)
    warm = _warm_after(given, courses)
    return Plan(
        loss=_loss(given),
        duty=replace(
            _figure("duty", share, "Ratio", "enclosure.duty", "Heater on", _own(given)),
            low=share * (1 - band), high=share * (1 + band), range_means=RANGE,
        ),
        most=_most(given, bodies),
        warm_after=warm,
        switch_on=_switch_on(given, warm),
        stand_out=_stand_out(given),
        courses=courses,
        holds=_holds(share, band),
        wants=wants(given.cabinet),
    )  # fmt: skip


def bodies_of(given: Given) -> tuple[Warmed, Warmed, Warmed]:
    """Lumps as likely, slow to warm, quick to warm."""
    band, films = given.cabinet.loss_band, FILM_BAND
    return (
        warmed(given.cabinet, given.load),
        scaled(warmed(given.cabinet, given.load, 1 - films), 1 + band, 1.0),
        scaled(warmed(given.cabinet, given.load, 1 + films), 1 - band, 1.0),
    )


def courses_of(given: Given, bodies: tuple[Warmed, Warmed, Warmed]) -> Courses:
    """Followed until the slowest is warm through, the others as long."""
    heater, shop = given.cabinet.heater, given.shop
    if given.goal >= heater.off_at:
        length = SHORT
    else:
        slow = warm_up(bodies[1], heater, shop, shop, LONGEST, ("contents", given.goal))
        length = Second(max(BEYOND * slow.end, SHORT))
    return Courses(*(warm_up(body, heater, shop, shop, length) for body in bodies))


def _holds(share: float, band: float) -> Literal["yes", "barely", "no"]:
    if share > 1:
        return "no"
    return "yes" if share * (1 + band) <= WELL_HELD else "barely"


def _own(given: Given) -> dict[str, Figure | Origin]:
    """Inputs that most figures share."""
    cabinet = given.cabinet
    return {
        "loss": _loss(given),
        "heater": given.origins.get("heater", Origin(cabinet.power, "Watt", "record")),
        "thermostat": given.origins.get("thermostat", Origin(cabinet.set_at, "Kelvin", "record")),
        "shop": given.origins.get("shop", Origin(given.shop, "Kelvin", "typed")),
    }


def _figure(
    name: str, value: float | None, quantity: str, formula: str, label: str,
    inputs: Mapping[str, Figure | Origin],
) -> Figure:  # fmt: skip
    return Figure(f"warmup.{name}", value, quantity, formula, inputs, omits=OMITS, label=say(label))


def _loss(given: Given) -> Figure:
    cabinet = given.cabinet
    band = cabinet.loss_band
    inputs: dict[str, Figure | Origin] = {
        "wall": Origin(cabinet.transmittance, "WattPerSquareMetreKelvin", "computed"),
        "mean area": Origin(cabinet.area, "SquareMetre", "computed"),
    }
    if cabinet.measured is not None:
        note = say("From a logged warm-up; the walls alone would say less or more.")
        inputs = {"loss": Origin(cabinet.measured, "WattPerKelvin", "measured", note)}
    else:
        ours = cabinet.extra == EXTRA
        inputs["on top, for gaps and corners"] = Origin(
            cabinet.extra, "Ratio", "default" if ours else "record",
            say("Our own default.") if ours else None,
        )  # fmt: skip
    found = _figure("loss", cabinet.loss, "WattPerKelvin", "enclosure.box_loss", "Loss", inputs)
    return replace(
        found, low=cabinet.loss * (1 - band), high=cabinet.loss * (1 + band), range_means=RANGE
    )


def _most(given: Given, bodies: tuple[Warmed, Warmed, Warmed]) -> Figure:
    power = given.cabinet.power
    ends = [given.shop + steady_rise(power, body.loss) for body in bodies]
    inputs = {name: each for name, each in _own(given).items() if name != "thermostat"}
    found = _figure("most", ends[0], "Kelvin", "enclosure.steady_rise", "Could hold", inputs)
    return replace(found, low=ends[1], high=ends[2], range_means=RANGE)


def _warm_after(given: Given, courses: Courses) -> Figure:
    """Time until what is to be warm has come to its goal."""
    likely, slow, quick = (
        each.first("contents", given.goal) for each in (courses.likely, courses.slow, courses.quick)
    )
    inputs = {
        **_own(given),
        "goal": given.origins.get("goal", Origin(given.goal, "Kelvin", "typed")),
        **{k: v for k, v in given.origins.items() if k in ("pot", "moulds", "resin", "wood")},
    }
    missing = None
    if likely is None:
        missing = say("never: the air must be warmer than that, or the heater stronger")
    found = _figure(
        "warm_after", likely, "Second", "warming.time_to_warm", "Warm through after", inputs
    )
    return replace(found, low=quick, high=slow, range_means=RANGE, missing=missing)


def _switch_on(given: Given, warm: Figure) -> Figure:
    """When to switch on: so early that even the slow course is there in time."""
    found = _figure(
        "switch_on", None, "UtcSecond", "warming.time_to_warm", "Switch on at",
        {"warm through after": warm},
    )  # fmt: skip
    if given.pour_at is None:
        return replace(found, missing=say("needs the time of the pour"))
    if warm.value is None:
        return replace(found, missing=say("it never gets that warm"))
    if warm.high is None:
        return replace(found, missing=say("walls and films at their worst, it never gets there"))
    latest = given.pour_at - (warm.low or 0.0)
    inputs = {**found.inputs, "pour": Origin(given.pour_at, "UtcSecond", "typed")}
    return replace(
        found,
        value=given.pour_at - warm.high, low=given.pour_at - warm.high, high=latest,
        inputs=inputs, range_means=RANGE,
        rounding=say("Early: for the slowest that it may be."),
    )  # fmt: skip


def _stand_out(given: Given) -> Figure:
    """How long the warm pot may stand in the shop."""
    inputs = {
        "shop": given.origins.get("shop", Origin(given.shop, "Kelvin", "typed")),
        "may lose": Origin(LOST, "KelvinDelta", "default", say("Our own default.")),
    }
    found = _figure("stand_out", None, "Second", "warming.taken_out", "Out in the shop", inputs)
    if given.goal - LOST <= given.shop:
        return replace(found, missing=say("the shop is warm enough"))
    times = [_until_lost(given, films) for films in (1 + FILM_BAND, 1.0, 1 - FILM_BAND)]
    return replace(found, value=times[0], low=times[0], high=times[2], range_means=RANGE,
                   rounding=say("Short: for the quickest that it may cool."))  # fmt: skip


def _until_lost(given: Given, films: float) -> Second | None:
    body = warmed(given.cabinet, given.load)
    outer = "pot" if body.pot else "contents"
    path = outside_path(given.load, films)
    course = taken_out(body, given.goal, given.shop, path, LONGEST)
    return course.first(outer, Kelvin(given.goal - LOST), "below")


def fresh(given: Given) -> tuple[Text, Text] | None:
    """What the warmth does to poured resin that has not gelled, and to the air in its wood."""
    if given.inside != "poured moulds":
        return None
    what = say("Into the warmth only after the gel.")
    if not given.load.wood:
        return what, say("Fresh resin there heats itself all the more.")
    return what, say(
        "Fresh resin heats itself all the more, and air in the wood grows by {grows} from {shop} to"
        " {goal}: bubbles. Warm the wood before, pour as it cools.",
        grows=Amount(pore_growth(given.shop, given.goal), "Ratio", 1, "%"),
        shop=Amount(given.shop, "Kelvin", 0), goal=Amount(given.goal, "Kelvin", 0),
    )  # fmt: skip


# -- the pot ---------------------------------------------------------------------------------


@frozen
class PotInWarmth:
    """What the cabinet's warmth does to one pot."""

    fill: Figure
    """Fill to this at most while it is cold."""
    warmest: Kelvin
    must_tell: bool
    """Its record says that it never gets so warm."""
    over_rated: bool
    """Warmer than its rated temperature."""


def pot_in_warmth(
    plate: Plate, cabinet: Cabinet, shop: Kelvin, ambient: PascalAbsolute
) -> PotInWarmth:
    """Working limit of a pot that is filled in the shop and then warms to the cabinet's air."""
    warmest = cabinet.heater.off_at
    figure = Figure(
        "warmup.fill", None, "PascalGauge", "relief.working_limit",
        {
            "temperature at filling": Origin(shop, "Kelvin", "typed"),
            "warmest, by the thermostat": Origin(warmest, "Kelvin", "computed"),
        },
        label=say("Fill cold to"), omits=(say("A thermostat that sticks."),),
    )  # fmt: skip
    rated = plate.rated_temperature
    over, told = rated is not None and warmest > rated, plate.warmest
    short = told is None or told < warmest
    if plate.rating is None or plate.relief_set is None:
        figure = replace(figure, missing=say("needs the pot's rating and relief valve"))
    else:
        limit = working_limit(plate.rating, plate.relief_set, shop, warmest, ambient)
        inputs = {
            **figure.inputs,
            "rated pressure": Origin(plate.rating, "PascalGauge", "record"),
            "relief valve set at": Origin(plate.relief_set, "PascalGauge", "record"),
        }
        figure = replace(figure, value=limit.pressure, inputs=inputs)
    return PotInWarmth(figure, warmest, short, over)


def told(plate: Body, warmest: Kelvin) -> dict[str, Json]:
    """The pot's record with the warmest that the pot will be; its working limit follows."""
    rating = plate.get("rating")
    before = dict(rating) if isinstance(rating, dict) else {}
    return {
        **plate,
        "rating": {**before, "warmest": f"{ceil(10 * (warmest - ZERO_CELSIUS)) / 10:.1f} °C"},
    }


# -- what is known of it ---------------------------------------------------------------------


def has_load(load: Load) -> bool:
    """Whether anything is to be warmed."""
    return load.moulds + load.resin + load.wood > Kilogram(0.0)


def worked_out(given: Given) -> WattPerKelvin | None:
    """Loss by the walls alone, beside a measured one; None where nothing was measured."""
    if given.cabinet.measured is None:
        return None
    return replace(given.cabinet, measured=None).loss
