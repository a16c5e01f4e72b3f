"""What was typed in each run, by its rows; and a vent that is quicker than it ever was."""

from dataclasses import replace

import pytest

from shopassist.core.pot.blowing import fell_in, learnt_area, too_quick
from shopassist.core.pot.course import Course, Point, courses
from shopassist.core.pot.events import Answer, Correction, Event, Press, Tell, Typed, row_of
from shopassist.core.pot.words import Act, Item, Told
from shopassist.core.quantities import CubicMetre, Kelvin, PascalAbsolute, PascalGauge, SquareMetre
from shopassist.core.rows import Reading, Row
from shopassist.core.venting import vent_time_quick, vent_time_slow
from tests.core.pot.bench import BAR, plate

SEA = PascalAbsolute(101325.0)


def rows(*events: tuple[float, Event]) -> list[Row]:
    made = []
    for seq, (at, event) in enumerate(events, start=1):
        kind, body = row_of(event)
        clocks = Reading(at, at, "boot", 0.0)  # type: ignore[arg-type]
        made.append(Row(seq, "pot/big", seq, kind, 1, clocks, at, body, ""))  # type: ignore[arg-type]
    return made


def typed(item: Item, bar: float, temperature: float | None = None) -> Typed:
    return Typed(item, bar * BAR, f"{bar:g}", "bar", temperature)


def run(start: float, fall: float = 60.0, first: float = 1.4) -> list[tuple[float, Event]]:
    """A whole run whose vent took so long to the first reading of the fall."""
    vent = start + 1000
    return [
        (start, Press(Act.AIR_ON)),
        (start + 5, typed(Item.FIRST_AIR, 0.7)),
        (start + 60, typed(Item.AT_PRESSURE, 2.8)),
        (start + 700, typed(Item.LEAK_START, 2.8, 293.0)),
        (start + 800, Typed(Item.TEMPERATURE, 292.0, "19", "°C")),
        (start + 900, Press(Act.LET_DOWN)),
        (start + 950, Answer(Item.INLET, "shut")),
        (vent, Answer(Item.VENT, "opened_hiss")),
        (vent + fall, typed(Item.FALL_FIRST, first)),
        (vent + fall + 60, typed(Item.FALL_SECOND, first)),
        (vent + 300, typed(Item.ZERO, 0.0)),
        (vent + 600, typed(Item.ZERO_AGAIN, 0.0)),
        (vent + 900, Answer(Item.LID_OFF, "inside_seen")),
    ]


def test_every_run_with_air_is_a_course_of_its_own() -> None:
    before: list[tuple[float, Event]] = [
        (1.0, Answer(Item.LID_OFF_NOW, "inside_seen")),
        (2.0, typed(Item.HOLD_PRESSURE, 2.8)),
    ]
    found = courses(rows(*before, *run(100.0), *run(10_000.0)[:4]))
    assert [each.began for each in found] == [100.0, 10_000.0]
    first, second = found
    assert first.ended == 2000.0
    assert second.ended is None
    assert [point.item for point in second.points] == [
        Item.FIRST_AIR, Item.AT_PRESSURE, Item.LEAK_START
    ]  # fmt: skip
    assert first.warmth == ((800.0, 293.0), (900.0, 292.0))
    assert first.dwell == (1400.0, 1700.0)
    assert second.dwell is None
    assert first.before_vent is not None
    assert first.before_vent.pressure == pytest.approx(2.8 * BAR)
    assert second.before_vent is None
    assert second.fall is None


def test_air_that_goes_in_again_starts_the_comparison_anew() -> None:
    events = run(100.0)[:4]
    assert courses(rows(*events))[0].filled == 160.0
    fed = (*events, (900.0, Answer(Item.SUPPLY, "isolated")))
    assert courses(rows(*fed))[0].filled == 160.0
    fed = (*fed, (950.0, Answer(Item.SUPPLY, "topped_up")))
    assert courses(rows(*fed))[0].filled == 950.0


@pytest.mark.parametrize(
    ("supply", "feeds"),
    [("connected", True), ("back", True), ("topped_up", True), ("lost", False),
     ("isolated", False)],
)  # fmt: skip
def test_a_supply_that_can_push_air_in_starts_the_comparison_anew(supply: str, feeds: bool) -> None:
    fed = rows(*run(100.0)[:4], (900.0, Answer(Item.SUPPLY, supply)))
    assert courses(fed)[0].filled == (900.0 if feeds else 160.0)


@pytest.mark.parametrize(
    ("vent", "seen"),
    [("opened_hiss", True), ("opened_none", True), ("was_open_air", False), ("pressed", False)],
)
def test_the_vent_was_opened_when_somebody_saw_it(vent: str, seen: bool) -> None:
    found = courses(rows((1.0, Press(Act.AIR_ON)), (2.0, Answer(Item.VENT, vent))))
    assert found[0].vented == (2.0 if seen else None)


def test_a_reading_that_was_taken_back_is_left_out_with_the_warmth_beside_it() -> None:
    events = run(100.0)[:5]
    wrong = (*events, (1050.0, typed(Item.READING, 28.0, 320.0)))
    assert courses(rows(*wrong))[0].points[-1].pressure == pytest.approx(28 * BAR)
    back = (*wrong, (1060.0, Correction(Item.READING, "slip")))
    assert courses(rows(*back)) == courses(rows(*events))
    again = courses(rows(*back, (1070.0, typed(Item.READING, 2.8))))[0]
    assert [point.at for point in again.points] == [105.0, 160.0, 800.0, 1070.0]
    # Only the last one said was wrong.
    twice = ((1040.0, typed(Item.READING, 2.7)), *back[5:])
    assert courses(rows(*events, *twice))[0].points[-1].at == 1040.0
    assert courses(rows(*events, (1050.0, Correction(Item.READING, "none")))) == courses(
        rows(*events)
    )


def test_a_temperature_that_was_taken_back_is_left_out() -> None:
    events = run(100.0)[:5]
    assert courses(rows(*events))[0].warmth[-1] == (900.0, 292.0)
    back = courses(rows(*events, (910.0, Correction(Item.TEMPERATURE, "slip"))))[0]
    assert back.warmth == ((800.0, 293.0),)
    assert len(back.points) == 3
    more = [(905.0 + each, Typed(Item.TEMPERATURE, 291.0 + each, "18", "°C")) for each in range(2)]
    third = courses(rows(*events, *more, (910.0, Correction(Item.TEMPERATURE, "slip"))))[0]
    assert third.warmth == ((800.0, 293.0), (900.0, 292.0), (905.0, 291.0))


def test_an_opening_of_the_vent_that_was_taken_back_did_not_happen() -> None:
    events = run(100.0)[:8]
    back = (1110.0, Correction(Item.VENT, "slip"))
    assert courses(rows(*events))[0].vented == 1100.0
    assert courses(rows(*events, back))[0].vented is None
    later = (1105.0, Answer(Item.VENT, "was_open_air"))
    assert courses(rows(*events, later, back))[0].vented == 1100.0
    anew = (1120.0, Answer(Item.VENT, "opened_hiss"))
    assert courses(rows(*events, back, anew))[0].vented == 1120.0


@pytest.mark.parametrize("item", [Item.LID_OFF, Item.LID_OFF_NOW])
def test_a_run_ends_with_the_lid_off_however_that_came_about(item: Item) -> None:
    begun = (1.0, Press(Act.AIR_ON))
    other = Answer(item, "still_on" if item is Item.LID_OFF else "lid_is_on")
    assert courses(rows(begun, (2.0, other)))[0].ended is None
    assert courses(rows(begun, (2.0, Answer(item, "inside_seen"))))[0].ended == 2.0


def test_what_is_no_gauge_reading_is_no_point() -> None:
    found = courses(rows((1.0, Press(Act.AIR_IN)), (2.0, Typed(Item.CLAMP_COUNT, 6.0, "6"))))
    assert found[0].points == ()


def test_a_restart_is_a_gap_and_a_doubted_clock_is_not() -> None:
    found = courses(
        rows(
            (1.0, Press(Act.AIR_ON)),
            (2.0, Tell(Told.RESTARTED)),
            (3.0, Tell(Told.CLOCK_DOUBTED)),
            (4.0, Press(Act.STOP)),
        )
    )
    assert found[0].gaps == (2.0,)


def test_the_first_press_and_the_first_vent_count_until_air_goes_in_again() -> None:
    events = run(100.0)[:-1]
    again = (*events, (1900.0, Press(Act.LET_DOWN)), (1901.0, Answer(Item.VENT, "opened_none")))
    assert courses(rows(*again))[0].let_down == 1000.0
    assert courses(rows(*again))[0].vented == 1100.0
    refilled = courses(rows(*again, (1950.0, Press(Act.AIR_IN))))[0]
    assert (refilled.let_down, refilled.vented) == (None, None)


def test_a_reading_at_the_instant_of_the_vent_still_lies_before_it() -> None:
    vented = Course(0.0, (Point(5.0, 3 * BAR, Item.READING),), vented=5.0)
    assert vented.before_vent == vented.points[0]


def test_every_restart_of_a_run_is_a_gap() -> None:
    told = (Told.RESTARTED, Told.SUSPENDED, Told.RESTORED, Told.BROKEN)
    events = [(2.0 + n, Tell(what)) for n, what in enumerate(told)]
    assert courses(rows((1.0, Press(Act.AIR_ON)), *events))[0].gaps == (2.0, 3.0, 4.0, 5.0)


def test_the_dwell_reaches_to_the_last_zero() -> None:
    events = [(10.0, typed(Item.ZERO, 0.0)), (20.0, typed(Item.ZERO, 0.0)),
              (700.0, typed(Item.ZERO_AGAIN, 0.0))]  # fmt: skip
    assert courses(rows((1.0, Press(Act.AIR_ON)), *events))[0].dwell == (10.0, 700.0)


def test_a_row_that_cannot_be_read_is_passed_over() -> None:
    broken = replace(rows((2.0, Press(Act.STOP)))[0], kind="foreign")
    assert courses([*rows((1.0, Press(Act.AIR_ON))), broken])[0].began == 1.0


def test_a_vent_already_open_tells_no_time() -> None:
    events = [
        (at, Answer(Item.VENT, "was_open_air") if event == Answer(Item.VENT, "opened_hiss") else event)
        for at, event in run(100.0)
    ]  # fmt: skip
    assert fell_in(courses(rows(*events))[0]) is None


@pytest.mark.parametrize("first", [2.8, 0.0])
def test_no_fall_is_no_fall(first: float) -> None:
    assert fell_in(courses(rows(*run(100.0, first=first)))[0]) is None


def test_a_fall_read_at_once_has_no_time() -> None:
    assert fell_in(courses(rows(*run(100.0, fall=0.0)))[0]) is None


def test_the_area_is_the_middle_one_of_finished_runs() -> None:
    made = courses(rows(*run(0.0, 50.0), *run(5e3, 60.0), *run(1e4, 90.0), *run(2e4, 3.0)[:-1]))
    alone = [learnt_area([each], plate(), SEA) for each in made]
    assert alone[3] is None
    assert learnt_area(made, plate(), SEA) == alone[1]
    assert learnt_area([], plate(), SEA) is None
    assert learnt_area(made, plate(volume=None), SEA) is None
    assert learnt_area(made, None, SEA) is None


def test_the_area_of_a_vent_is_learnt_from_how_long_it_took() -> None:
    area = SquareMetre(2e-6)
    start, end = PascalGauge(2.8 * BAR), PascalGauge(1.4 * BAR)
    time = vent_time_slow(CubicMetre(0.02), start, end, area, Kelvin(293.15), SEA)
    assert learnt_area(courses(rows(*run(0.0, time))), plate(), SEA) == pytest.approx(area)


def test_of_five_runs_the_middle_one_counts() -> None:
    made = courses(rows(*(e for n, s in enumerate((90, 50, 60, 70, 80)) for e in run(n * 5e3, s))))
    assert learnt_area(made, plate(), SEA) == learnt_area([made[3]], plate(), SEA)


def test_only_a_fall_far_quicker_than_the_vent_is_not_believed() -> None:
    area = learnt_area(courses(rows(*run(0.0, 60.0))), plate(), SEA)
    assert area is not None
    start, end = PascalGauge(2.8 * BAR), PascalGauge(1.4 * BAR)
    quickest = vent_time_quick(CubicMetre(0.02), start, end, area, Kelvin(293.15), SEA)

    def judged(seconds: float) -> bool:
        now = courses(rows(*run(9e4, seconds)[:-1]))[-1]
        return too_quick(now, plate(), area, SEA)

    assert judged(0.29 * quickest)
    assert not judged(0.31 * quickest)
    assert not judged(60.0)


def test_without_anything_to_compare_with_nothing_is_said() -> None:
    now = courses(rows(*run(0.0, 1.0)[:-1]))[-1]
    area = SquareMetre(1e-6)
    assert not too_quick(None, plate(), area, SEA)
    assert not too_quick(now, plate(), None, SEA)
    assert not too_quick(now, None, area, SEA)
    assert not too_quick(now, plate(volume=None), area, SEA)
    assert not too_quick(Course(0.0), plate(), area, SEA)
