"""The warm-up's figures, verdict, notes and picture, written for the reader."""

from math import ceil, floor

from shopassist.core.cabinet import Cabinet
from shopassist.core.figures import Figure
from shopassist.core.quantities import Kelvin, UtcSecond
from shopassist.core.wording import DASH, NONE, Wording, spoken
from shopassist.panes.warmup.screen import Mark, PictureShown, Series, SeriesKind
from shopassist.services.cabinet_cure import InCabinet
from shopassist.services.cure import Aim
from shopassist.services.warmup import Given, Plan, PotInWarmth, fresh
from shopassist.widgets.shown import BracketShown, FigureShown, Tick

MINUTE, HOUR = 60.0, 3600.0
POINTS = 96
STEPS = (HOUR / 2, HOUR, 2 * HOUR, 3 * HOUR, 4 * HOUR, 6 * HOUR, 12 * HOUR, 24 * HOUR)
DEGREES = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
MOST_ACROSS, MOST_UP = 5, 5
SERIES: tuple[tuple[SeriesKind, str], ...] = (
    ("air", "air"), ("pot", "pot"), ("contents", "inside it"),
)  # fmt: skip
AIMS: dict[Aim, str] = {
    "working": "Pour by", "pressurise": "Pressurise by", "gel": "May gel from",
    "hold": "Hold until", "demould": "May demould", "hard": "May turn", "full": "Full cure",
}  # fmt: skip
LABELS = (
    "Warm through after", "Heater on", "Out in the shop", "Could hold", "Fill cold to",
)  # fmt: skip
CAUTIONS = "Warm the air, never the vessel itself.\nVent, relief valve and gauge: outside."


def figure(
    say: Wording, found: Figure, now: float, *, lead: bool = False, places: int | None = None
) -> FigureShown:
    """A figure with its range, or a dash and what is missing."""
    label = say.say(found.label) if found.label is not None else ""
    if found.value is None:
        missing = say.say(found.missing) if found.missing is not None else ""
        return empty(label, missing, lead=lead)
    number, unit = _split(say, found, places)
    if found.quantity == "UtcSecond":
        day = say.clock(found.value, now).removesuffix(say.clock(found.value)).strip()
        label = f"{label}, {day}" if day else label
    low, high = found.low, found.high
    bracket = None
    if low is not None and high is not None and high > low:
        words = _range(say, found, (low, high), places)
        bracket = BracketShown(low, high, found.value, words)
    return FigureShown(label, number, unit, bracket=bracket, lead=lead)


def _split(say: Wording, found: Figure, places: int | None) -> tuple[str, str]:
    value = _coarse(found, found.value or 0.0)
    if found.quantity == "UtcSecond":
        return say.clock(value), ""
    if found.quantity == "Ratio":
        return say.number(value * 100, 0), "%"
    return say.split(value, found.quantity, places)


def _coarse(found: Figure, value: float) -> float:
    """Whole minutes, tens of them in a long time; what shows as a clock time goes early."""
    if found.quantity == "UtcSecond":
        return floor(value / (5 * MINUTE)) * 5 * MINUTE
    if found.quantity == "Second" and value >= HOUR:
        return round(value / (10 * MINUTE)) * 10 * MINUTE
    if found.quantity == "Second":
        return max(MINUTE, floor(value / MINUTE) * MINUTE)
    return value


def _range(say: Wording, found: Figure, ends: tuple[float, float], places: int | None) -> str:
    low, high = ends
    if found.quantity == "Ratio":
        return f"{say.number(low * 100, 0)}{DASH}{say.percent(high)}"
    if found.quantity == "UtcSecond":
        return f"to {say.clock(_coarse(found, high))}"
    if found.quantity == "Second" and high < HOUR:
        whole = (say.number(_coarse(found, each) / MINUTE, 0) for each in ends)
        return f"{DASH.join(whole)} min"
    if found.quantity == "Second":
        return f"{DASH.join(_hours(_coarse(found, each)) for each in ends)} h"
    return say.span(low, high, found.quantity, places)


def _hours(seconds: float) -> str:
    hours, rest = divmod(round(seconds / MINUTE), 60)
    return f"{hours}:{rest:02}"


def empty(label: str, missing: str, *, lead: bool = False) -> FigureShown:
    """A dash, and what is missing."""
    return FigureShown(label, NONE, "", "missing", note=missing, explains=False, lead=lead)


def summary(say: Wording, cabinet: Cabinet | None) -> tuple[str, str]:
    """The cabinet of a record in one line and a second end."""
    if cabinet is None:
        return "", ""
    sides = (cabinet.width, cabinet.depth, cabinet.height)
    places = 0 if say.unit("Metre") == "mm" else 1
    numbers = " × ".join(say.split(each, "Metre", places)[0] for each in sides)
    return f"{numbers} {say.unit('Metre')}", say.amount(cabinet.power, "Watt", 0)


def _trouble(say: Wording, given: Given, made: Plan, now: float) -> tuple[str, str] | None:
    """What stands against the plan itself: too weak a heater, too late an hour."""
    set_at = say.amount(given.cabinet.set_at, "Kelvin", 0)
    shop = say.amount(given.shop, "Kelvin", 0)
    if made.holds == "no":
        most = say.amount(made.most.value, "Kelvin", 0)
        return (
            f"It cannot hold {set_at} in a shop of {shop}: {most} at most.",
            "Insulate better, heat more, or set it lower.",
        )
    on = made.switch_on.value
    if on is not None and on < now and made.warm_after.value is not None:
        likely = say.clock(now + made.warm_after.value, now)
        late = say.clock(now + (made.warm_after.high or made.warm_after.value), now, late=True)
        return (
            "Too late to be sure of that hour.",
            f"Switched on now, it is warm through at {likely}, or at {late} at the latest.",
        )
    if made.holds == "barely":
        return (
            f"It holds {set_at} in a shop of {shop} with little to spare.",
            "A colder night, or a draught, and it does not.",
        )
    return None


def notes(
    say: Wording, given: Given, made: Plan, pot: tuple[PotInWarmth | None, str], now: float,
    resin: tuple[Kelvin | None, bool] = (None, False),
) -> tuple[tuple[str, str], ...]:  # fmt: skip
    """What needs heed, the gravest first; of the resin the highest it bears, and if it gelled."""
    too_hot, gelled = resin
    found: list[tuple[str, str]] = []
    warmed, pot_name = pot
    if warmed is not None and warmed.over_rated:
        found.append((
            f"{pot_name} is not rated for {say.amount(warmed.warmest, 'Kelvin', 0)}.",
            "Its rated pressure holds to its rated temperature only: set the thermostat lower.",
        ))  # fmt: skip
    elif warmed is not None and warmed.must_tell:
        found.append((
            f"{pot_name}: its record says that it never gets so warm.",
            "Closed and warmed, its pressure rises: the working limit must know.",
        ))  # fmt: skip
    if (trouble := _trouble(say, given, made, now)) is not None:
        found.append(trouble)
    if too_hot is not None:
        found.append((
            f"The batch's sheet goes up to {say.amount(too_hot, 'Kelvin', 0)} only.",
            "Hotter than that no time can be told, and mixed resin may run hot.",
        ))  # fmt: skip
    if not gelled and (told := fresh(given)) is not None:
        found.append((say.say(told[0]), say.say(told[1])))
    if made.wants:
        found.append((
            "Nothing here notices a thermostat that sticks.",
            " ".join(say.say(each) for each in made.wants),
        ))  # fmt: skip
    return tuple(found)


# -- the picture -------------------------------------------------------------------------------


def picture(say: Wording, given: Given, made: Plan, now: float) -> PictureShown:
    """Temperatures from switching on: as planned, or from now where it is too late for that."""
    planned = made.switch_on.value
    begin = now if planned is None else max(planned, now)
    begin = floor(begin / (5 * MINUTE)) * 5 * MINUTE
    length = made.courses.likely.end
    end = begin + length
    start = begin - 0.04 * length
    temps = _series(say, given, made, begin, end)
    low = _shown(say, min(given.shop, given.goal)) - 2
    high = max(y for each in temps for _, y in each.points) + 3
    marks = [Mark(begin, f"on {say.clock(begin)}")]
    if given.pour_at is not None and begin < given.pour_at < end:
        marks.append(Mark(given.pour_at, f"pour {say.clock(given.pour_at)}"))
    goal = say.amount(given.goal, "Kelvin", 0)
    return PictureShown(
        _caption(say, given, made), start, end, low, high,
        _across(say, start, end), _up(say, low, high), temps, _band(say, made, begin, end),
        _shown(say, given.goal), f"warm, {goal}", tuple(marks),
        now if start <= now <= end else None,
        spoken=_spoken(say, given, made, begin, now),
    )  # fmt: skip


def _caption(say: Wording, given: Given, made: Plan) -> str:
    words = f"Temperature, {say.unit('Kelvin')}"
    if made.holds == "no":
        return words
    set_at, shop = (say.amount(each, "Kelvin", 0) for each in (given.cabinet.set_at, given.shop))
    return f"{words}: it holds {set_at} in a shop of {shop}"


def _instants(begin: float, end: float) -> list[float]:
    return [begin + (end - begin) * n / POINTS for n in range(POINTS + 1)]


def _series(say: Wording, given: Given, made: Plan, begin: float, end: float) -> tuple[Series, ...]:
    """Air is drawn at its setting while the thermostat works: its small saw would only blur."""
    course = made.courses.likely
    first_off = next(iter(course.switchings), course.end)
    found = []
    for kind, label in SERIES:
        if kind not in course.names:
            continue
        points = []
        for at in _instants(begin, end):
            since = at - begin
            temp: float = course.temperature(kind, since)  # type: ignore[arg-type]
            if kind == "air" and since >= first_off:
                temp = given.cabinet.set_at
            points.append((at, _shown(say, temp)))
        word = "moulds" if kind == "contents" and "pot" not in course.names else label
        found.append(Series(kind, word, tuple(points)))
    return tuple(found)


def _band(
    say: Wording, made: Plan, begin: float, end: float
) -> tuple[tuple[float, float, float], ...]:
    courses = made.courses
    band = []
    for at in _instants(begin, end):
        temps = [
            each.temperature("contents", at - begin)  # type: ignore[arg-type]
            for each in (courses.slow, courses.likely, courses.quick)
        ]
        band.append((at, _shown(say, min(temps)), _shown(say, max(temps))))
    return tuple(band)


def _shown(say: Wording, kelvin: float) -> float:
    """A temperature in the shown unit, as a plain number."""
    unit = say.table.get(say.units.unit("Kelvin"), "Kelvin")
    return (kelvin - unit.offset) / unit.factor


def _across(say: Wording, start: float, end: float) -> tuple[Tick, ...]:
    step = next((each for each in STEPS if (end - start) / each <= MOST_ACROSS), STEPS[-1])
    shift = say.offset(start)
    first, last = ceil((start + shift) / (step / 4)), floor((end + shift) / (step / 4))
    return tuple(
        Tick(n * step / 4 - shift, say.clock(n * step / 4 - shift, n * step / 4 - shift)
             if n % 4 == 0 else "")
        for n in range(first, last + 1)
    )  # fmt: skip


def _up(say: Wording, low: float, high: float) -> tuple[Tick, ...]:
    step = next((each for each in DEGREES if (high - low) / each <= MOST_UP), DEGREES[-1])
    return tuple(
        Tick(n * step, say.number(n * step, 0))
        for n in range(ceil(low / step), floor(high / step) + 1)
    )


def _spoken(say: Wording, given: Given, made: Plan, begin: float, now: float) -> str:
    told = [f"Switched on {say.clock(begin, now)}"]
    for share in (0.25, 0.5, 0.75, 1.0):
        at = made.courses.likely.end * share
        temp = made.courses.likely.temperature("contents", at)  # type: ignore[arg-type]
        told.append(f"{say.clock(begin + at, now)} {say.amount(temp, 'Kelvin', 0)}")
    told.append(f"warm means {say.amount(given.goal, 'Kelvin', 0)}")
    return spoken(", ".join(told))


# -- the cure ----------------------------------------------------------------------------------


def cure_line(say: Wording, each: InCabinet, now: float) -> tuple[str, str]:
    """One milestone in the cabinet, and as it stands without."""
    late = each.stage.kind == "release"

    def told(gate: UtcSecond | None) -> str:
        return say.clock(gate, now, late=late) if gate is not None else "no time"

    return AIMS[each.stage.aim], f"{told(each.gate)}, else {told(each.without)}"
