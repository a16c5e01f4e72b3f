"""The pages of numbers beside the list: vessel, air, readings, in the reader's words."""

from collections.abc import Sequence

from shopassist.core.chamber import CAUTIONS, Chamber, vacuum_force
from shopassist.core.chamber import cautions_of as told_of
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.pot.course import Point
from shopassist.core.pot.notes import NAMES
from shopassist.core.pot.plate import Plate, working_limit
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Belief
from shopassist.core.quantities import PascalAbsolute
from shopassist.core.wording import NONE, Wording
from shopassist.panes.pot.chart import fall_chart, run_chart
from shopassist.panes.pot.screen import Numbers, Page, Row
from shopassist.services.pot import PotService
from shopassist.services.pot_numbers import air_of, course_of, vessel_of
from shopassist.services.pot_vessel import LOOK_UP
from shopassist.services.versions import Version
from shopassist.widgets.chart_shown import ChartShown

SWELL = "pot.air.regrow"
NO_PLATE = "Enter the pot's plate under Records."
NO_CHAMBER = "Enter a vacuum chamber under Records."
NO_RUN = "Nothing was typed under pressure yet."
ASSUMED = "Dotted: what is assumed between two readings. A zero nobody typed is not drawn."


@frozen
class Built:
    """A page and the figures behind it."""

    numbers: Numbers
    figures: dict[str, Figure]


def page_of(pots: PotService, pot_id: str, page: Page, words: Wording, now: float) -> Built:
    """Everything on one page, and the figures that it can explain."""
    if pots.state(pot_id).plate is None:
        return Built(Numbers(notes=(NO_PLATE,)), {})
    if page == "readings":
        return Built(_readings(pots, pot_id, words, now), {})
    figures = vessel_of(pots, pot_id) if page == "vessel" else air_of(pots, pot_id)
    rows = tuple(_row(figure, words, now) for figure in figures)
    notes = tuple(words.say(line) for line in LOOK_UP) if page == "vessel" else ()
    return Built(Numbers(rows, notes), {figure.id: figure for figure in figures})


def vacuum_of(
    chambers: Sequence[Version[Chamber]], ambient: PascalAbsolute, words: Wording
) -> Built:
    """Every vacuum chamber: what presses on its lid, and what to look out for."""
    figures = tuple(
        _lid_under_vacuum(version.id, version.record, ambient)
        for version in chambers
        if version.record is not None
    )
    told = [text for version in chambers if version.record for text in told_of(version.record)]
    notes = tuple(words.say(text) for text in (*told, *CAUTIONS))
    if not figures:
        notes = (NO_CHAMBER, *notes)
    rows = tuple(_row(figure, words, 0.0) for figure in figures)
    return Built(Numbers(rows, notes), {figure.id: figure for figure in figures})


def _lid_under_vacuum(key: str, chamber: Chamber, ambient: PascalAbsolute) -> Figure:
    record = say("The chamber's record.")
    return Figure(
        f"pot.vacuum.{key}", vacuum_force(chamber.diameter, ambient), "Newton",
        "chamber.vacuum_force",
        {"diameter": Origin(chamber.diameter, "Metre", "record", record),
         "ambient": Origin(ambient, "PascalAbsolute", "record", say("By elevation."))},
        rounding=say("At full vacuum: no clamp holds it, the air outside does."),
        label=say("{name}: the air presses on its lid like", name=chamber.name),
    )  # fmt: skip


def _row(figure: Figure, words: Wording, now: float) -> Row:
    label = words.say(figure.label, now) if figure.label is not None else figure.id
    note = figure.missing if figure.value is None else figure.rounding
    told = words.say(note, now) if note is not None else ""
    if figure.value is None:
        return Row(figure.id, label, NONE, "", told, explains=False)
    return Row(figure.id, label, _value(figure, words, now), _span(figure, words, now), told)


def _value(figure: Figure, words: Wording, now: float) -> str:
    value = figure.value
    if figure.quantity == "UtcSecond":
        return words.clock(value, now) if value is not None else NONE
    if figure.quantity != "Ratio":
        return words.amount(value, figure.quantity)
    return f"× {words.number(value, 1)}" if figure.id == SWELL else words.percent(value)


def _span(figure: Figure, words: Wording, now: float) -> str:
    if figure.high is None:
        return ""
    if figure.low is None:
        return f"at most {words.amount(figure.high, figure.quantity)}"
    if figure.quantity == "UtcSecond":
        return f"{words.clock(figure.low, now)} – {words.clock(figure.high, now)}"
    return words.span(figure.low, figure.high, figure.quantity)


# -- readings ----------------------------------------------------------------------------------


def _readings(pots: PotService, pot_id: str, words: Wording, now: float) -> Numbers:
    run, state = course_of(pots, pot_id), pots.state(pot_id)
    if run is None or not run.points or state.plate is None:
        return Numbers(notes=(NO_RUN,))
    until = run.ended if run.ended is not None else now
    charts: tuple[ChartShown, ...] = (run_chart(words, run, _limits(state, state.plate), until),)
    if run.let_down is not None:
        charts += (fall_chart(words, run, until),)
    table = tuple(_line(point, words, now) for point in reversed(run.points))
    return Numbers((), (ASSUMED,), charts, table)


def _limits(state: PotState, plate: Plate) -> tuple[float | None, float | None, float | None]:
    """Rating, hold pressure, working limit."""
    limit = working_limit(plate, state.ambient)
    hold = state.hold if state.belief is not Belief.OPEN else None
    return plate.rating, hold, None if limit is None else limit.pressure


def _line(point: Point, words: Wording, now: float) -> tuple[str, ...]:
    warm = words.amount(point.temperature, "Kelvin") if point.temperature is not None else ""
    return (
        words.clock(point.at, now), words.amount(point.pressure, "PascalGauge"), warm,
        NAMES.get(point.item, "Reading"),
    )  # fmt: skip
