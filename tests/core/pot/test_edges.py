"""The exact edges of the procedure: each of these was moved by a mutant that no other test saw."""

from dataclasses import replace
from typing import Any

import pytest

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Press, Typed
from shopassist.core.pot.evidence import (
    fall_wait_left,
    fresh,
    hissed_holes,
    hopeless,
    lift_wanted,
    openings_left,
    ready_in_date,
    seen_live,
    signs_left,
    signs_owed,
    usable_signs,
    vent_time,
)
from shopassist.core.pot.guards import GUARDS
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.words import Act, Belief, Item, Sign
from tests.core.pot.bench import BAR, DAY, HOUR, Sitting, piece, plate, proving, record

EDGE = 0.01


def guarded(name: str, state: PotState, event: Any, now: Now | None = None) -> bool:
    guard = next(each for each in GUARDS if each.name == name)
    looks = isinstance(event, guard.on)
    return looks and guard.refuse(state, event, now or Now(1000.0, DAY * 86400.0)) is not None


# -- life of evidence ----------------------------------------------------------------------------


def test_ready_lives_twelve_hours_to_the_second() -> None:
    run = record(piece(Item.RUN, "casting", age=5 * HOUR))
    assert ready_in_date(run, Now(17 * HOUR - 1))
    assert not ready_in_date(run, Now(17 * HOUR))
    assert not ready_in_date(record(), Now(0.0))


def test_evidence_carries_a_grant_for_seven_minutes_and_no_longer() -> None:
    sign = piece(Item.SIGN_SEEN, "none")
    assert fresh(sign, Now(1000.0 + 420.0))
    assert not fresh(sign, Now(1000.0 + 420.5))


def test_a_grant_lasts_ten_minutes_and_never_past_its_oldest_evidence() -> None:
    sitting = Sitting().cleared()
    grant = sitting.state.grant
    assert grant is not None
    oldest = min(
        p.age for p in sitting.state.evidence if p.item in (Item.SIGN_SEEN, Item.ZERO_AGAIN)
    )
    assert grant.expires == min(grant.at + 600.0, oldest + 600.0)


@pytest.mark.parametrize("item", [Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN])
def test_a_sighting_that_is_the_oldest_ends_the_grant(item: Item) -> None:
    sitting = proving()
    sitting.prove()
    old = tuple(
        replace(p, age=p.age - 300.0) if p.item is item else p for p in sitting.state.evidence
    )
    seen = next(p for p in old if p.item is item)
    result = advance(replace(sitting.state, evidence=old), Press(Act.CONFIRM), sitting.now)
    assert not isinstance(result, Refusal)
    assert result.grant is not None
    assert result.grant.expires == seen.age + 600.0


def test_the_minute_between_two_readings_starts_with_the_first() -> None:
    assert fall_wait_left(record(), Now(5.0)) == 0.0
    first = record(piece(Item.FALL_FIRST, "2", number=2 * BAR))
    assert fall_wait_left(first, Now(1000.0)) == 60.0
    assert fall_wait_left(first, Now(1060.0)) == 0.0
    assert fall_wait_left(first, Now(2000.0)) == 0.0


def test_the_vent_time_runs_from_its_first_opening_that_was_seen() -> None:
    zero = piece(Item.ZERO, "0", age=1300.0, number=0.0)
    twice = (piece(Item.VENT, "pressed", 1000.0), piece(Item.VENT, "opened_hiss", 1100.0))
    assert vent_time(record(*twice, zero)) == 300.0
    assert vent_time(record(piece(Item.VENT, "pressed"), zero)) == 300.0
    assert vent_time(record(twice[0], piece(Item.VENT, "was_open_air", 1100.0), zero)) is None
    assert vent_time(record(piece(Item.VENT, "cant_tell"), zero)) is None


# -- gauge and signs --------------------------------------------------------------------------------


def test_a_gauge_is_live_from_a_fifth_of_the_hold_or_three_divisions() -> None:
    assert seen_live(record(hold=4 * BAR, highest=0.8 * BAR))
    assert not seen_live(record(hold=4 * BAR, highest=0.8 * BAR - 1))
    three = 3 * plate().gauge.division  # type: ignore[union-attr]
    assert seen_live(record(hold=0.5 * BAR, highest=three))
    assert not seen_live(record(hold=0.5 * BAR, highest=three - 1))
    assert not seen_live(record(hold=4 * BAR, highest=4 * BAR, plate=None))
    assert not seen_live(record(hold=4 * BAR, highest=None))


def test_holes_at_which_air_was_heard_are_known_and_silent_ones_are_not() -> None:
    heard = piece(Item.OPENING_HEARD, "hiss_silent", hole="south", about="ring")
    silent = piece(Item.OPENING_HEARD, "none", hole="west", about="inlet")
    assert hissed_holes(record(heard, silent)) == {"south"}
    assert hissed_holes(record(heard, silent, vent_hissed=True)) == {"south", "east"}


def test_with_a_stuck_gauge_only_openings_that_hissed_can_give_a_sign() -> None:
    heard = piece(Item.OPENING_HEARD, "hiss_silent", hole="south", about="ring")
    stuck = record(heard, gauge_failed="stuck", vent_hissed=True)
    assert usable_signs(stuck) == (Sign.VENT, Sign.RING)
    assert signs_owed(stuck) == 2
    whole = record(highest=4 * BAR, hold=4 * BAR, fall_recorded=True)
    assert signs_owed(whole) == 1
    for failed in ("below", "stuck"):
        assert signs_owed(replace(whole, gauge_failed=failed)) == 2


def test_no_air_yet_owes_no_sign_and_is_never_hopeless() -> None:
    closed = record(air=False, plate=plate(holes=Holes("n", "n", "n", "n")))
    assert signs_owed(closed) == 0
    assert hopeless(closed) is None
    assert hopeless(replace(closed, plate=None)) is not None


def test_one_opening_only_says_so() -> None:
    lonely = record(plate=plate(holes=Holes("n", "n", "n", "n")))
    why = hopeless(lonely)
    assert why is not None
    assert why.template.startswith("One opening only")
    assert hopeless(replace(lonely, plate=None)) != why


def test_a_failed_gauge_wants_two_openings_of_which_enough_were_heard() -> None:
    ring = piece(Item.OPENING_HEARD, "hiss_silent", hole="south", about="ring")
    for failed, heard, vent, hopes in (
        ("stuck", (ring,), False, False), ("stuck", (ring,), True, True),
        ("below", (ring,), False, True), ("below", (), False, False), ("below", (), True, True),
    ):  # fmt: skip
        state = record(*heard, gauge_failed=failed, vent_hissed=vent)
        assert (hopeless(state) is None) is hopes, (failed, heard, vent)


def test_a_sign_that_counted_is_not_left() -> None:
    seen = piece(Item.SIGN_SEEN, "none", hole="south", about="ring")
    assert signs_left(record(seen, vent_hissed=True), Now(1001.0)) == (Sign.VENT, Sign.INLET)
    assert Sign.RING in signs_left(record(seen, vent_hissed=True), Now(1001.0 + 421.0))


def test_a_test_valve_is_an_opening_too() -> None:
    made = plate(holes=Holes("n", "e", "s", "w", "t"))
    assert openings_left(record(plate=made)) == (Sign.TEST_VALVE, Sign.INLET, Sign.RING)


def test_a_lift_of_a_test_run_counts_through_its_last_day() -> None:
    made = plate(relief_lifted=0)
    state = record(plate=made, lifted_day=DAY)
    last = DAY + made.relief_interval
    assert not lift_wanted(state, Now(0.0, last * 86400.0))
    assert not lift_wanted(state, Now(0.0, (last + 1) * 86400.0 - 1))
    assert lift_wanted(state, Now(0.0, (last + 1) * 86400.0))


# -- guards ------------------------------------------------------------------------------------------


def test_hold_pressures_above_nothing_and_up_to_the_limit_are_taken() -> None:
    limit = 4.5 * BAR
    ready = record(plate=plate(coldest_fill=plate().warmest))
    for value, refused in ((0.0, True), (0.5, False), (-0.5, True), (limit, False),
                           (limit + EDGE / 2, False), (limit + 1, True)):  # fmt: skip
        event = Typed(Item.HOLD_PRESSURE, value, "x", "bar")
        assert guarded("within limit", ready, event) is refused, value


def test_a_baseline_of_one_division_is_the_last_that_is_taken() -> None:
    division = plate().gauge.division  # type: ignore[union-attr]
    for value, refused in ((division, False), (-division, False), (division + EDGE / 2, False),
                           (division + 1, True), (-division - 1, True)):  # fmt: skip
        names = [each.name for each in GUARDS if "baseline" in each.name]
        event = Typed(Item.BASELINE, value, "x", "bar")
        assert guarded(names[0], record(), event) is refused, value


def test_the_first_and_the_last_clamp_are_clamps() -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_clamp_there")
    for value, refused in ((0, True), (1, False), (6, False), (7, True)):
        assert guarded(name, record(), Typed(Item.SLACKEN, value, str(value))) is refused
    assert guarded(name, record(plate=None), Typed(Item.SLACKEN, 1, "1"))
    assert guarded(name, record(plate=None), Typed(Item.SLACKEN, 0, "0"))


def test_endless_values_are_no_numbers() -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_finite")
    for value in (float("inf"), -float("inf"), float("nan")):
        assert guarded(name, record(), Typed(Item.ZERO, value, "x", "bar"))
    assert not guarded(name, record(), Typed(Item.ZERO, 1e300, "x", "bar"))


@pytest.mark.parametrize("item", [Item.CLAMPS, Item.CLAMP_COUNT])
def test_both_counts_of_the_clamps_want_all_of_them(item: Item) -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_clamps_all")
    assert guarded(name, record(), Typed(item, 5, "5"))
    assert not guarded(name, record(), Typed(item, 6, "6"))


@pytest.mark.parametrize("item", [Item.SILENCE, Item.SILENCE_AGAIN])
def test_both_silences_want_the_word(item: Item) -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_word_typed")
    assert guarded(name, record(), Typed(item, 0.0, "quiet"))
    assert not guarded(name, record(), Typed(item, 0.0, " Silent "))


@pytest.mark.parametrize("item", [Item.SIGN_SEEN, Item.OPENING_HEARD])
def test_what_was_seen_belongs_to_the_sign_that_was_chosen(item: Item) -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_sign_named")
    assert guarded(name, record(sign_asked="ring"), Answer(item, "none", "inlet"))
    assert not guarded(name, record(sign_asked="ring"), Answer(item, "none", "ring"))


@pytest.mark.parametrize(("passes", "reached"), [(1, 0), (0, 1)])
def test_one_clamp_slackened_is_slackened(passes: int, reached: int) -> None:
    name = next(each.name for each in GUARDS if each.refuse.__name__ == "_not_slackened")
    state = record(passes=passes, clamp_reached=reached)
    assert guarded(name, state, Press(Act.AIR_ON))
    assert not guarded(name, record(), Press(Act.AIR_ON))


# -- let down ------------------------------------------------------------------------------------------


def test_the_signs_may_disagree_twice_and_not_a_third_time() -> None:
    sitting = proving()
    for dwell in (600, 1800):
        sitting.wait(dwell)
        sitting.sign(Sign.RING, "some")
        assert sitting.believes(Belief.LETTING_DOWN)
        assert sitting.state.air
        sitting.isolate(press=False)
        sitting.answer(Item.EYES, "covered")
        sitting.answer(Item.VENT, "was_open_silent")
        sitting.typed(Item.VENT_READING, 0.0)
        sitting.typed(Item.ZERO, 0.0)
    sitting.wait(1800)
    sitting.sign(Sign.RING, "some")
    assert sitting.believes(Belief.SUSPECT)
    assert sitting.state.air


@pytest.mark.parametrize(("second", "counts"), [(0.05, True), (0.051, False)])
def test_the_second_zero_may_stand_half_a_division_above_the_first(
    second: float, counts: bool
) -> None:
    sitting = Sitting().held(baseline=0.05 * BAR)
    sitting.let_down()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    sitting.typed(Item.ZERO_AGAIN, second * BAR)
    assert (sitting.state.belief is Belief.PROVING) is counts
    assert sitting.state.air


def test_a_reading_above_the_last_one_starts_isolating_again() -> None:
    for above, isolates in ((0.05, False), (0.06, True), (-0.5, False)):
        sitting = Sitting().held()
        sitting.isolate()
        sitting.vent()
        sitting.fall()
        sitting.wait(30)
        sitting.typed(Item.ZERO, (2 + above) * BAR)
        assert (sitting.item is Item.INLET) is isolates, above
        assert sitting.state.air
