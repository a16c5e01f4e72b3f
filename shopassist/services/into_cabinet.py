"""What resin goes through that is put into the cabinet: for a what-if of its cure."""

from shopassist.core.cure import Warmth
from shopassist.core.errors import RefusedError
from shopassist.core.messages import Amount, say
from shopassist.core.quantities import Kelvin, Second
from shopassist.core.sheets import ResinSheet
from shopassist.core.warming import warm_up
from shopassist.services.warmup import Courses, Given, bodies_of, courses_of, refusal

STEP = Second(900.0)
"""Points of a forecast are so far apart."""


def coming(courses: Courses, length: Second) -> tuple[Warmth, ...]:
    """Temperatures of the resin from putting it in and switching on, for a what-if of the cure."""
    found = []
    time = 0.0
    while time <= length:
        temps = [each.temperature("contents", Second(time)) for each in
                 (courses.likely, courses.slow, courses.quick)]  # fmt: skip
        found.append(Warmth(Second(time), min(temps), max(temps)))
        time += STEP
    return tuple(found)


def into_cabinet(
    given: Given, sheet: ResinSheet | None, resin: tuple[Kelvin, Kelvin]
) -> tuple[Warmth, ...]:
    """Temperatures of resin as cold and as warm as this that goes in now, switched on now.

    The slow course begins at the colder of shop and resin, the quick one at the warmer: nobody
    knows how warm the cabinet itself is. Raises where it may not be warmed so.
    """
    refused, highest = refusal(given, sheet), sheet.temp_highest if sheet is not None else None
    if refused is not None:
        raise RefusedError(*refused)
    if highest is not None and highest < given.cabinet.set_at:
        raise RefusedError(
            say("The sheet goes up to {most} only, the cabinet is set to {set}.",
                most=Amount(highest, "Kelvin", 0), set=Amount(given.cabinet.set_at, "Kelvin", 0)),
        )  # fmt: skip
    bodies, heater, shop = bodies_of(given), given.cabinet.heater, given.shop
    length = courses_of(given, bodies).likely.end
    middle = Kelvin((resin[0] + resin[1]) / 2)
    starts = (middle, min(shop, resin[0]), max(shop, resin[1]))
    made = Courses(*(
        warm_up(body, heater, start, shop, length)
        for body, start in zip(bodies, starts, strict=True)
    ))  # fmt: skip
    return coming(made, length)
