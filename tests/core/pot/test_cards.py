"""What a card shows beside its question: reports, words, waits, notes; and the pot line's word."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from shopassist.core.messages import Amount, say
from shopassist.core.pot.cards import Ask, AskKind, Card, CardName
from shopassist.core.pot.listed import ACTS
from shopassist.core.pot.notes import report, reported_of
from shopassist.core.pot.questions import question_of, questions
from shopassist.core.pot.standing import COMPLETIONS, STATE_WORDS
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Branch, Item, Sign
from shopassist.core.quantities import PascalGauge
from tests.core.pot.bench import BAR, Sitting, no_hiss, piece, plate, proving, record


def card(sitting: Sitting) -> Card:
    return questions(sitting.state, sitting.now)


def ask(sitting: Sitting) -> Ask:
    found = card(sitting).ask
    assert found is not None
    return found


def choice_ids(sitting: Sitting) -> list[str]:
    return [choice.id for choice in ask(sitting).choices]


def notes(sitting: Sitting) -> list[str]:
    return [text.template for text in card(sitting).notes]


# -- the word for the state -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("belief", "word"),
    [
        (Belief.UNKNOWN, "NOT KNOWN – TREAT AS PRESSURISED"),
        (Belief.OPEN, "OPEN, when last seen"),
        (Belief.CLOSED, "CLOSED, NO AIR YET"),
        (Belief.PRESSURISED, "PRESSURISED"),
        (Belief.PROVING, "PROVING"),
        (Belief.CLEAR, "CLEAR TO CRACK"),
        (Belief.CRACKED, "CLEAR TO OPEN"),
        (Belief.SUSPECT, "STOP – SUSPECT"),
    ],
)
def test_each_state_has_its_word(belief: Belief, word: str) -> None:
    assert questions(record(belief=belief), Sitting().now).state_word == say(word)


def test_only_a_word_that_was_given_is_announced_and_as_reported() -> None:
    assert set(COMPLETIONS) == {Belief.CLEAR, Belief.CRACKED}
    for belief, told in COMPLETIONS.items():
        assert told.endswith(f"complete as you reported: {STATE_WORDS[belief]}.")


@pytest.mark.parametrize(
    ("hose", "inlet", "vent", "word"),
    [
        ("coupled", "open", "", "LETTING DOWN, air not yet isolated"),
        ("apart", "open", "opened_hiss", "LETTING DOWN, air not yet isolated"),
        ("coupled", "shut", "opened_hiss", "LETTING DOWN, air not yet isolated"),
        ("apart", "shut", "", "LETTING DOWN, vent not yet open"),
        ("apart", "shut", "opened_hiss", "LETTING DOWN"),
    ],
)
def test_letting_down_names_what_is_missing(hose: str, inlet: str, vent: str, word: str) -> None:
    seen = [piece(Item.HOSE, hose), piece(Item.INLET, inlet)]
    vented = [piece(Item.VENT, vent)] if vent else []
    state = record(*seen, *vented, belief=Belief.LETTING_DOWN)
    assert questions(state, Sitting().now).state_word == say(word)


# -- what is asked ----------------------------------------------------------------------------------


def test_the_question_alone_is_that_of_the_card() -> None:
    sitting = Sitting()
    assert question_of(sitting.state, sitting.now) == ask(sitting).question
    held = Sitting().held()
    assert held.asks(None)
    assert question_of(held.state, held.now) is None
    late = Sitting().cleared()
    late.wait(601)
    assert question_of(late.state, late.now) == ask(late).question


def test_cant_tell_says_that_nothing_moves() -> None:
    last = ask(Sitting()).choices[-1]
    assert (last.id, last.label) == (CANT_TELL, say("Can't tell"))
    assert last.consequence == say("Nothing moves; asked again")


def test_a_press_says_what_it_does() -> None:
    offers = {each.act: each for each in card(Sitting().held()).offers}
    assert offers[Act.LET_DOWN].label == say("Let down")
    assert offers[Act.LET_DOWN].consequence == say("Start isolating and venting")
    assert list(offers)[:3] == [Act.STOP, Act.LET_DOWN, Act.VENT_NOW]


@pytest.mark.parametrize("belief", list(Belief))
def test_every_press_that_a_state_lists_is_offered_or_is_what_is_asked(belief: Belief) -> None:
    shown = questions(record(belief=belief), Sitting().now)
    asked = {Act.AIR_ON, Act.CONFIRM}
    assert {each.act for each in shown.offers} == ACTS[belief] - asked
    assert shown.offers[0].act is Act.STOP


def test_both_readings_of_the_leak_check_take_a_temperature_and_no_other_does() -> None:
    free = {each.ask.item: each.ask for each in card(Sitting().held()).free}
    warm = {item for item, asked in free.items() if asked.with_temperature}
    assert warm == {Item.LEAK_START, Item.LEAK_END}
    closed = Sitting()
    closed.ready()
    closed.close()
    assert ask(closed).kind is AskKind.PRESS
    assert not ask(closed).with_temperature
    assert Item.READING in free


def test_a_sign_is_asked_by_what_is_done_for_it() -> None:
    sitting = proving()
    sitting.wait(600)
    sitting.answer(Item.SIGN, Sign.VENT)
    assert dict(ask(sitting).question.params) == {"act": "Hold a tissue to the open vent."}


def test_another_opening_is_answered_about_itself() -> None:
    sitting = no_hiss()
    sitting.answer(Item.OPENING, Sign.RING)
    assert ask(sitting).about == "ring"
    sitting.do(ask(sitting).choices[1].event)
    assert sitting.state.find(Item.OPENING_HEARD, "south") is not None


def test_the_fall_is_asked_for_at_its_own_target() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    assert dict(ask(sitting).question.params) == {"half": Amount(2 * BAR, "PascalGauge")}


@pytest.mark.parametrize(
    ("signs", "offered"),
    [((Sign.VENT,), False), ((Sign.INLET,), True), ((Sign.INLET, Sign.RING), True)],
)
def test_an_open_inlet_is_an_answer_only_where_it_was_opened_as_a_sign(
    signs: tuple[Sign, ...], offered: bool
) -> None:
    sitting = proving()
    if len(signs) > 1:
        sitting.state = replace(sitting.state, baseline=None)  # a third sign is owed
    sitting.wait(600)
    for sign in signs:
        sitting.sign(sign)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    assert sitting.asks(Item.INLET_NOW)
    assert ("opened_as_sign" in choice_ids(sitting)) is offered


def test_without_any_sign_an_open_inlet_is_no_answer() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.isolate()
    sitting.answer(Item.VENT, "opened_none")
    sitting.typed(Item.ZERO, 0.0)
    sitting.wait(120)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    assert sitting.asks(Item.INLET_NOW)
    assert "opened_as_sign" not in choice_ids(sitting)


# -- waits and cautions -------------------------------------------------------------------------------


def test_the_minute_between_two_readings_is_counted_to_its_end() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(59.5)
    wait = card(sitting).wait
    assert wait is not None
    assert (wait.seconds, wait.left) == (60.0, 0.5)
    sitting.wait(0.5)
    assert card(sitting).wait is None


def test_hands_off_is_said_when_the_word_ran_out_and_not_before_it_was_given() -> None:
    assert card(proving()).cautions == ()
    sitting = Sitting().cleared()
    sitting.wait(601)
    assert card(sitting).cautions[0] == say(
        "The time ran out. Hands off: neither tighten nor slacken."
    )
    sitting.press(Act.AIR_IN)
    assert card(sitting).cautions == ()


def stuck() -> Sitting:
    sitting = no_hiss()
    for sign in (Sign.INLET, Sign.RING):
        sitting.answer(Item.OPENING, sign)
        sitting.answer(Item.OPENING_HEARD, "hiss_silent", sign)
    return sitting


def test_the_silence_of_a_stuck_gauge_stands_on_the_card_of_the_zero() -> None:
    sitting = stuck()
    assert sitting.asks(Item.SILENCE)
    assert card(sitting).name is CardName.ZERO
    assert sitting.shows(Branch.STUCK_GAUGE)


# -- what was reported --------------------------------------------------------------------------------

WALKS: dict[CardName, set[Item]] = {
    CardName.READY: {
        Item.RUN, Item.HOLD_PRESSURE, Item.RING, Item.HOLE, Item.GASKET, Item.BASELINE,
        Item.CLAMPS, Item.DRY_FIT, Item.PLACE,
    },
    CardName.CLOSE: {Item.CLAMPS_ROUND, Item.CLAMP_COUNT},
    CardName.AIR_ON: {
        Item.FIRST_AIR, Item.REGULATOR, Item.LID_HISS, Item.AT_PRESSURE, Item.SUPPLY,
    },
    CardName.HOLD: {
        Item.AT_PRESSURE, Item.SUPPLY, Item.READING, Item.TEMPERATURE, Item.LEAK_START,
        Item.LEAK_END, Item.LIVE_LIFT,
    },
    CardName.ISOLATE_AND_VENT: {
        Item.INLET, Item.HOSE_BLED, Item.HOSE, Item.EYES, Item.VENT, Item.VENT_READING,
        Item.OPENING_HEARD, Item.FALL_FIRST, Item.FALL_SECOND, Item.VENT_AGAIN, Item.FALL_SPEED,
    },
    CardName.ZERO: {Item.INLET, Item.HOSE, Item.VENT, Item.VENT_AGAIN, Item.FALL_SPEED},
    CardName.PROVE: {
        Item.SIGN_SEEN, Item.ZERO_AGAIN, Item.SILENCE_AGAIN, Item.INLET_NOW, Item.HOSE_NOW,
        Item.VENT_NOW_SEEN,
    },
    CardName.CRACK: {Item.SLACKEN, Item.ROCK},
    CardName.NOT_KNOWN: set(),
    CardName.SUSPECT: set(),
}  # fmt: skip
"""By the page: items 0–5, 6, 7–9, 8–11, 12–14, what a zero needs, 17–19 without 15, 20."""


@pytest.mark.parametrize("walk", list(CardName))
def test_a_walk_shows_what_was_reported_on_it_and_no_first_zero_while_the_second_is_typed(
    walk: CardName,
) -> None:
    state = record(*(piece(item, "x") for item in Item))
    assert {line.item for line in reported_of(state, walk)} == WALKS[walk]


def test_reports_name_the_question_and_the_answer() -> None:
    sitting = Sitting()
    sitting.ready()
    shown = [(line.label, line.answer) for line in reported_of(sitting.state, CardName.READY)]
    assert shown[:4] == [
        (say("Run"), say("Casting with resin")),
        (say("Hold pressure"), say("{text} {unit}", text="4", unit="bar")),
        (say("Relief ring"), say("Lifts and snaps back")),
        (say("Hole: {hole}", hole="north"), say("Clear")),
    ]


def test_what_has_no_name_of_its_own_is_reported_by_its_question() -> None:
    sitting = no_hiss()
    sitting.answer(Item.OPENING, Sign.RING)
    assert sitting.state.reported is not None
    told = report(sitting.state.reported)
    assert told.label.template.startswith("Leave the vent alone")
    assert told.answer == say("Relief ring")


# -- notes ---------------------------------------------------------------------------------------------

FORCE = "{pressure} pushes on this lid with {force}."
STILL = "Do not move the pot before it is vented: resin slops."
CONNECTED = "Supply connected: stay by it, or isolate it and take the hose off."
HIDDEN = "A zero on this gauge can still hide {force} on the lid."
SETTLE = "Fresh air cools: let it settle {wait} before a leak check."


def filling() -> Sitting:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    return sitting


def test_a_full_pot_says_its_force_its_leak_and_what_to_know_before_walking_away() -> None:
    assert notes(Sitting().held()) == [FORCE, SETTLE, STILL]


def test_a_pot_on_its_supply_is_stayed_by() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.fill(supply="connected")
    assert notes(sitting) == [FORCE, SETTLE, CONNECTED, STILL]


def test_nobody_walks_away_while_the_air_goes_in() -> None:
    assert notes(filling()) == [FORCE]


@pytest.mark.parametrize(
    ("made", "told"),
    [
        (lambda: Sitting().held(), True),
        (proving, False),
    ],
)
def test_the_force_is_that_of_the_last_reading(made: Callable[[], Sitting], told: bool) -> None:
    assert (FORCE in notes(made())) is told


def test_a_let_down_says_the_force_that_is_still_there() -> None:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    assert notes(sitting) == [FORCE]
    (shown,) = card(sitting).notes
    assert dict(shown.params)["pressure"] == Amount(4 * BAR, "PascalGauge")


def test_what_a_zero_hides_is_said_at_both_zeros_and_in_the_wait_between_them() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    assert HIDDEN not in notes(sitting)
    sitting.fall()
    assert sitting.asks(Item.ZERO)
    assert HIDDEN in notes(sitting)
    sitting.typed(Item.ZERO, 0.0)
    assert HIDDEN in notes(sitting)
    sitting.wait(600)
    assert sitting.asks(Item.SIGN)
    assert HIDDEN not in notes(sitting)
    sitting.sign(Sign.VENT)
    assert HIDDEN in notes(sitting)


@pytest.mark.parametrize("failed", ["", "below"])
def test_what_is_owed_is_said_from_the_first_zero_on_and_not_of_a_failed_gauge(failed: str) -> None:
    unseen = "The fall was not seen: 30 min and a third sign."
    state = record(air=True, gauge_failed=failed)
    for belief in (Belief.LETTING_DOWN, Belief.PROVING):
        shown = questions(replace(state, belief=belief), Sitting().now).notes
        assert (say(unseen) in shown) is (belief is Belief.PROVING and not failed)


@pytest.mark.parametrize(
    ("changes", "part"),
    [
        ({"rating": PascalGauge(4 * BAR), "coldest_fill": plate().warmest}, "the rating"),
        ({"coldest_fill": plate().warmest}, "the relief valve"),
        ({}, "warming up"),
    ],
)
def test_the_working_limit_says_what_governs_it(changes: dict[str, object], part: str) -> None:
    sitting = Sitting(plate(**changes))
    limit = next(each for each in card(sitting).notes if each.template.startswith("Working"))
    assert dict(limit.params)["part"] == part


def test_ready_flags_the_pressure_that_is_planned() -> None:
    poor = "This pressure lies in a part of the dial that reads poorly."
    sitting = Sitting()
    assert poor not in notes(sitting)
    sitting.answer(Item.RUN, "casting")
    sitting.typed(Item.HOLD_PRESSURE, 1 * BAR)
    assert poor in notes(sitting)
