"""Each guard refuses, and is the only thing that does: without it the event is taken."""

import sys
from collections.abc import Callable
from dataclasses import replace

import pytest

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Correction, Event, Note, PlateSet, Press, Typed
from shopassist.core.pot.guards import GUARDS
from shopassist.core.pot.state import Now, Refusal
from shopassist.core.pot.words import CANT_TELL, Act, Item, Run, Sign
from shopassist.core.quantities import PascalGauge
from tests.core.pot.bench import BAR, DAY, HOLES, Sitting, no_hiss, plate

MODULE = sys.modules["shopassist.core.pot.advance"]
Case = tuple[Sitting, Event]


def typed(item: Item, value: float, text: str = "x") -> Typed:
    return Typed(item, value, text, "bar")


def listed() -> Case:
    return Sitting(), Press(Act.LET_DOWN)


def in_turn() -> Case:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    return sitting, Answer(Item.HOSE, "apart")


def confirm_last() -> Case:
    sitting = Sitting().held()
    sitting.let_down()
    return sitting, Press(Act.CONFIRM)


def air_on_last() -> Case:
    sitting = Sitting()
    sitting.ready()
    sitting.answer(Item.CLAMPS_ROUND, "all_round")
    return sitting, Press(Act.AIR_ON)


def ready_in_date() -> Case:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.wait(12 * 3600)
    return sitting, Press(Act.AIR_ON)


def hole_in_turn() -> Case:
    sitting = Sitting()
    sitting.answer(Item.RUN, "casting")
    sitting.typed(Item.HOLD_PRESSURE, 4 * BAR)
    sitting.answer(Item.RING, "snaps_back")
    return sitting, Answer(Item.HOLE, "clear", HOLES.vent)


def proving() -> Sitting:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.wait(600)
    return sitting


def sign_known() -> Case:
    return proving(), Answer(Item.SIGN, Sign.TEST_VALVE)


def sign_named() -> Case:
    sitting = proving()
    sitting.answer(Item.SIGN, Sign.VENT)
    return sitting, Answer(Item.SIGN_SEEN, "none", Sign.RING)


def inlet_as_sign() -> Case:
    sitting = proving()
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    return sitting, Answer(Item.INLET_NOW, "opened_as_sign")


def within_limit() -> Case:
    sitting = Sitting()
    sitting.answer(Item.RUN, "casting")
    return sitting, typed(Item.HOLD_PRESSURE, 4.51 * BAR)


def baseline_small() -> Case:
    sitting = Sitting()
    sitting.ready_until_baseline()
    return sitting, typed(Item.BASELINE, 0.11 * BAR)


def clamps_all() -> Case:
    sitting = Sitting()
    sitting.ready_until_baseline()
    sitting.typed(Item.BASELINE, 0.0)
    return sitting, typed(Item.CLAMPS, 5.0)


def plate_there() -> Case:
    sitting = Sitting()
    sitting.state = replace(sitting.state, plate=None)
    return sitting, Answer(Item.RUN, Run.TEST)


def lift_first() -> Case:
    return Sitting(plate(relief_lifted=DAY - 400)), Answer(Item.RUN, Run.CASTING)


def closing(sitting: Sitting) -> Case:
    sitting.ready()
    return sitting, Answer(Item.CLAMPS_ROUND, "all_round")


def plate_allows() -> Case:
    return closing(Sitting(plate(inlet_shut_off=False)))


def not_locked() -> Case:
    sitting = Sitting()
    sitting.state = replace(sitting.state, locked=True)
    return closing(sitting)


def gauge_works() -> Case:
    sitting = Sitting()
    sitting.state = replace(sitting.state, gauge_failed="stuck")
    return closing(sitting)


def not_slackened() -> Case:
    sitting = Sitting().cleared()
    sitting.answer(Item.SLACKEN, "done")
    sitting.press(Act.AIR_IN)
    sitting.typed(Item.READING, 1 * BAR)
    sitting.press(Act.LET_DOWN)
    return sitting, typed(Item.STAY, 1 * BAR)


def still_there() -> Case:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    return sitting, typed(Item.STAY, 0.0)


def minute_apart() -> Case:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(59)
    return sitting, typed(Item.FALL_SECOND, 2 * BAR)


def word_typed() -> Case:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.typed(Item.ZERO, -1 * BAR)
    return sitting, typed(Item.SILENCE, 0.0, "quiet")


def clamp_there() -> Case:
    return Sitting().cleared(), typed(Item.SLACKEN, 7.0)


def finite() -> Case:
    sitting = Sitting().held()
    return sitting, typed(Item.READING, float("nan"))


def plate_frozen() -> Case:
    return Sitting().held(), PlateSet(2, plate(rating=PascalGauge(9 * BAR)))


def signed() -> Case:
    return Sitting(), Note("somebody", "  ")


CASES: dict[str, Callable[[], Case]] = {
    "listed": listed,
    "in turn": in_turn,
    "confirm last": confirm_last,
    "air on last": air_on_last,
    "ready in date": ready_in_date,
    "hole in turn": hole_in_turn,
    "sign known": sign_known,
    "sign named": sign_named,
    "inlet as sign": inlet_as_sign,
    "within limit": within_limit,
    "baseline small": baseline_small,
    "clamps all": clamps_all,
    "plate there": plate_there,
    "lift first": lift_first,
    "plate allows": plate_allows,
    "not locked": not_locked,
    "gauge works": gauge_works,
    "not slackened": not_slackened,
    "still there": still_there,
    "minute apart": minute_apart,
    "word typed": word_typed,
    "clamp there": clamp_there,
    "finite": finite,
    "plate frozen": plate_frozen,
    "signed": signed,
}


def test_every_guard_has_its_case() -> None:
    assert [guard.name for guard in GUARDS] == list(CASES)


@pytest.mark.parametrize("name", CASES)
def test_a_guard_refuses_with_its_reason(name: str) -> None:
    sitting, event = CASES[name]()
    refusal = sitting.refused(event)
    assert refusal.guard == name
    assert refusal.reason.template.endswith(".")


@pytest.mark.parametrize("name", CASES)
def test_without_the_guard_the_event_is_taken(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    sitting, event = CASES[name]()
    rest = tuple(guard for guard in GUARDS if guard.name != name)
    monkeypatch.setattr(MODULE, "GUARDS", rest)
    assert not isinstance(advance(sitting.state, event, sitting.now), Refusal)


def test_an_answer_that_is_not_in_the_vocabulary_is_refused() -> None:
    sitting = Sitting()
    assert sitting.refused(Answer(Item.RUN, "party")).guard == "known"
    assert sitting.refused(typed(Item.RUN, 1.0)).guard == "known"


def test_a_correction_needs_a_reason() -> None:
    assert Sitting().refused(Correction(Item.RUN, "")).guard == "signed"


def test_a_plate_without_limit_takes_no_hold_pressure() -> None:
    sitting = Sitting(plate(relief_set=None))
    sitting.answer(Item.RUN, "casting")
    assert sitting.refused(typed(Item.HOLD_PRESSURE, 1.0)).guard == "within limit"


def test_a_tried_opening_is_not_tried_again() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 4 * BAR)
    sitting.answer(Item.OPENING, Sign.INLET)
    sitting.answer(Item.OPENING_HEARD, "none", Sign.INLET)
    assert sitting.refused(Answer(Item.OPENING, Sign.INLET)).guard == "sign known"


def test_time_that_runs_back_counts_as_a_doubted_clock() -> None:
    sitting = Sitting().cleared()
    sitting.now = Now(sitting.now.age - 5, sitting.now.utc)
    sitting.press(Act.STOP)
    assert sitting.state.doubted
    assert sitting.state.belief.value == "pressurised"


def sign_asked() -> Sitting:
    sitting = proving()
    assert sitting.asks(Item.SIGN)
    return sitting


def sign_chosen() -> Sitting:
    sitting = proving()
    sitting.answer(Item.SIGN, Sign.VENT)
    return sitting


def opening_chosen() -> Sitting:
    sitting = no_hiss()
    sitting.answer(Item.OPENING, Sign.RING)
    return sitting


@pytest.mark.parametrize(
    ("made", "item", "next_asked"),
    [
        (sign_asked, Item.SIGN, Item.SIGN),
        (sign_chosen, Item.SIGN_SEEN, Item.SIGN),
        (no_hiss, Item.OPENING, Item.OPENING),
        (opening_chosen, Item.OPENING_HEARD, Item.OPENING),
    ],
)
def test_cant_tell_is_taken_whatever_it_is_about_and_the_sign_is_chosen_again(
    made: Callable[[], Sitting], item: Item, next_asked: Item
) -> None:
    sitting = made()
    before = sitting.state.evidence
    sitting.answer(item, CANT_TELL)
    assert sitting.asks(next_asked)
    assert sitting.state.evidence == before


def test_the_gauge_may_be_read_while_the_minute_runs() -> None:
    sitting, second = minute_apart()
    sitting.do(typed(Item.READING, 2 * BAR))
    assert sitting.refused(second).guard == "minute apart"
