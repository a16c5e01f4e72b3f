"""The cards: what is asked, how it is worded, what is offered."""

import re
from collections.abc import Iterator
from dataclasses import replace

import pytest

from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.asks import (
    LABELS,
    QUESTIONS,
    SECOND_GAUGE_ANSWERS,
    SIGN_ACTS,
    SIGN_NAMES,
    SIGN_NOTES,
)
from shopassist.core.pot.cards import AskKind, CardName
from shopassist.core.pot.evidence import dwell_left
from shopassist.core.pot.notes import NAMES, report
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.questions import fall_target, questions
from shopassist.core.pot.standing import (
    BRANCHES,
    EXPIRED_WORDS,
    OFFERS,
    STANDING_WORDS,
    STATE_WORDS,
    SUSPECT_WORDS,
    TITLES,
)
from shopassist.core.pot.state import PotState
from shopassist.core.pot.vocabulary import CHOICES, TYPED_ITEMS
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Branch, Item, Sign, Told
from shopassist.core.quantities import Metre
from tests.core.pot.bench import BAR, Sitting, plate

MOST_WORDS = 12
MOST_ANSWERS = 6


def card(sitting: Sitting):  # type: ignore[no-untyped-def]
    return questions(sitting.state, sitting.now)


def words() -> Iterator[str]:
    yield from QUESTIONS.values()
    yield from SIGN_ACTS.values()
    yield from (part for labels in LABELS.values() for pair in labels.values() for part in pair)
    yield from (line for lines in BRANCHES.values() for line in lines)
    yield from (part for pair in OFFERS.values() for part in pair)
    yield from (*SUSPECT_WORDS, *EXPIRED_WORDS, *STANDING_WORDS, *TITLES.values())
    yield from STATE_WORDS.values()


def test_no_word_promises_that_a_pot_is_harmless() -> None:
    for text in words():
        assert not re.search(r"\bsafe(ly)?\b", text, re.IGNORECASE), text
        assert "✓" not in text


def test_questions_are_short() -> None:
    for text in QUESTIONS.values():
        sentences = [part for part in re.split(r"(?<=[.?])\s", text) if part]
        assert len(sentences) <= 2, text
        for sentence in sentences:
            assert len(sentence.split()) <= MOST_WORDS, sentence


def test_every_answer_has_its_words_and_every_word_its_answer() -> None:
    signs = (Item.SIGN, Item.OPENING)
    for item, names in CHOICES.items():
        if item not in signs:
            assert set(LABELS[item]) == set(names), item
    assert set(LABELS) == set(CHOICES) - set(signs)
    assert set(SIGN_NAMES) == set(Sign) == set(SIGN_ACTS) == set(SIGN_NOTES)
    assert set(SECOND_GAUGE_ANSWERS) == set(CHOICES[Item.SIGN_SEEN])
    assert set(TYPED_ITEMS) | set(CHOICES) <= set(QUESTIONS)


def test_no_card_has_more_than_six_answers() -> None:
    assert all(len(names) + 1 <= MOST_ANSWERS for names in CHOICES.values())


def test_every_asked_item_has_a_name_for_the_list_of_reports() -> None:
    silent = {Item.AIR_ON, Item.CONFIRM, Item.DWELL, Item.SIGN, Item.OPENING, Item.STAY}
    assert set(Item) - silent == set(NAMES)


def test_cant_tell_comes_last_on_every_card() -> None:
    sitting = Sitting()
    for _ in range(3):
        ask = card(sitting).ask
        assert ask.choices[-1].id == CANT_TELL
        sitting.do(ask.choices[0].event)
        if sitting.item is Item.HOLD_PRESSURE:
            sitting.typed(Item.HOLD_PRESSURE, 4 * BAR)


def test_a_typed_item_makes_its_own_event() -> None:
    sitting = Sitting()
    sitting.answer(Item.RUN, "casting")
    ask = card(sitting).ask
    assert ask.kind is AskKind.TYPE
    assert ask.quantity == "PascalGauge"
    sitting.do(ask.typed(4 * BAR, "4", "bar"))
    assert sitting.state.hold == 4 * BAR


def test_a_gauge_that_is_away_says_walk_to_it() -> None:
    sitting = Sitting()
    sitting.answer(Item.RUN, "casting")
    assert card(sitting).ask.hints
    near = Sitting(plate(readable_at_lid=True))
    near.answer(Item.RUN, "casting")
    assert card(near).ask.hints == ()


def test_a_hole_is_asked_by_its_name() -> None:
    sitting = Sitting()
    sitting.answer(Item.RUN, "casting")
    sitting.typed(Item.HOLD_PRESSURE, 4 * BAR)
    sitting.answer(Item.RING, "snaps_back")
    ask = card(sitting).ask
    assert ask.about == "north"
    assert dict(ask.question.params) == {"hole": "north"}
    sitting.do(ask.choices[1].event)
    assert card(sitting).reported[-1].label == say("Hole: {hole}", hole="north")


def test_each_walk_has_its_card() -> None:
    seen: list[CardName] = []

    def look(sitting: Sitting) -> None:
        seen.append(card(sitting).name)

    sitting = Sitting(opened=False)
    look(sitting)
    sitting = Sitting()
    look(sitting)
    sitting.ready()
    look(sitting)
    sitting.close()
    look(sitting)
    sitting.press(Act.AIR_ON)
    look(sitting)
    held = Sitting().held()
    look(held)
    held.isolate()
    look(held)
    held.vent()
    held.fall()
    look(held)
    held.typed(Item.ZERO, 0.0)
    look(held)
    held.prove()
    held.press(Act.CONFIRM)
    look(held)
    held.press(Act.DOUBT)
    look(held)
    assert seen == [
        CardName.NOT_KNOWN, CardName.READY, CardName.CLOSE, CardName.CLOSE, CardName.AIR_ON,
        CardName.HOLD, CardName.ISOLATE_AND_VENT, CardName.ZERO, CardName.PROVE, CardName.CRACK,
        CardName.SUSPECT,
    ]  # fmt: skip


def test_letting_down_says_what_is_missing() -> None:
    sitting = Sitting().held()
    sitting.press(Act.LET_DOWN)
    assert card(sitting).state_word == say("LETTING DOWN, air not yet isolated")
    sitting.isolate(press=False)
    assert card(sitting).state_word == say("LETTING DOWN, vent not yet open")
    sitting.vent()
    assert card(sitting).state_word == say("LETTING DOWN")


def test_let_down_and_vent_now_are_on_every_card_of_a_pot_with_pressure() -> None:
    for belief in Belief:
        sitting = Sitting().held()
        sitting.state = replace(sitting.state, belief=belief)
        acts = [offer.act for offer in card(sitting).offers]
        wanted = belief is not Belief.OPEN
        assert (Act.LET_DOWN in acts) is wanted
        assert (Act.VENT_NOW in acts) is wanted
        assert acts[0] is Act.STOP


def test_the_dwell_is_a_wait_with_nothing_to_answer() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    shown = card(sitting)
    assert shown.ask.kind is AskKind.WAIT
    assert shown.ask.choices == ()
    assert shown.wait.left == dwell_left(sitting.state, sitting.now)


def test_the_minute_between_two_readings_is_counted() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(10)
    assert card(sitting).wait.left == 50.0
    sitting.wait(50)
    assert card(sitting).wait is None


def test_the_first_zero_is_hidden_while_the_second_is_typed() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.wait(600)
    sitting.sign(Sign.VENT)
    shown = card(sitting)
    assert shown.ask.item is Item.ZERO_AGAIN
    assert Item.ZERO not in {line.item for line in shown.reported}


def test_the_inlet_opened_as_a_sign_is_offered_only_then() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.wait(600)
    sitting.sign(Sign.INLET)
    sitting.typed(Item.ZERO_AGAIN, 0.0)
    assert "opened_as_sign" in [choice.id for choice in card(sitting).ask.choices]
    other = Sitting().held()
    other.press(Act.LET_DOWN)
    assert "opened_as_sign" not in [choice.id for choice in card(other).ask.choices]


def test_a_sign_is_chosen_then_answered() -> None:
    sitting = Sitting(plate(holes=Holes("n", "e", "s", "w", "", "g"))).held()
    sitting.let_down()
    sitting.wait(600)
    assert [choice.id for choice in card(sitting).ask.choices] == [
        "vent", "second_gauge", "inlet", "ring", CANT_TELL,
    ]  # fmt: skip
    sitting.answer(Item.SIGN, Sign.SECOND_GAUGE)
    ask = card(sitting).ask
    assert ask.about == "second_gauge"
    assert ask.choices[0].label == say("Above zero")
    sitting.do(ask.choices[1].event)
    assert card(sitting).reported[0].label == say("Second gauge")


def test_the_confirmation_is_held() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    sitting.prove()
    ask = card(sitting).ask
    assert ask.kind is AskKind.HOLD
    sitting.do(ask.choices[0].event)
    assert card(sitting).expires_in == pytest.approx(600.0)
    sitting.crack()
    assert card(sitting).expires_in == 300.0


def test_air_on_is_one_press() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    assert card(sitting).ask.kind is AskKind.PRESS


def test_the_filling_names_its_pressures() -> None:
    sitting = Sitting()
    sitting.ready()
    sitting.close()
    sitting.press(Act.AIR_ON)
    assert dict(card(sitting).ask.question.params) == {"first": Amount(70e3, "PascalGauge")}
    sitting.typed(Item.FIRST_AIR, 0.7 * BAR)
    sitting.answer(Item.REGULATOR, "agrees")
    sitting.answer(Item.LID_HISS, "none")
    assert dict(card(sitting).ask.question.params) == {"hold": Amount(4 * BAR, "PascalGauge")}


def test_another_opening_is_asked_by_its_name() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent("opened_none")
    sitting.typed(Item.VENT_READING, 4 * BAR)
    assert [choice.id for choice in card(sitting).ask.choices] == ["inlet", "ring", CANT_TELL]
    sitting.answer(Item.OPENING, Sign.RING)
    assert dict(card(sitting).ask.question.params) == {"sign": "relief ring"}
    assert card(sitting).branch_text


def test_expiry_says_hands_off() -> None:
    sitting = Sitting().cleared()
    assert card(sitting).cautions
    sitting.wait(601)
    assert card(sitting).cautions[0].template.startswith("The time ran out")


def test_suspect_says_why_and_what_to_leave_alone() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    assert len(card(sitting).cautions) == 1 + len(SUSPECT_WORDS)
    sitting.state = replace(sitting.state, suspect_why=None)
    assert len(card(sitting).cautions) == len(SUSPECT_WORDS)


def test_a_doubted_clock_is_said() -> None:
    sitting = Sitting().held()
    sitting.tell(Told.CLOCK_DOUBTED)
    assert card(sitting).cautions == (say("Clock doubted: ages may be wrong."),)


# -- notes -------------------------------------------------------------------------------


def notes(sitting: Sitting) -> list[str]:
    return [text.template for text in card(sitting).notes]


def test_ready_shows_blocks_limit_and_locks() -> None:
    sitting = Sitting(plate(relief_lifted=None, inlet_shut_off=False))
    sitting.state = replace(sitting.state, locked=True)
    said = notes(sitting)
    assert "The inlet has no shut-off valve." in said
    assert "Working limit {limit}; {part} governs." in said
    assert any("only a test run" in line for line in said)
    assert any("examination note" in line for line in said)
    assert notes(Sitting(plate(rating=None)))[0].startswith("This pot has no rated")
    bare = Sitting()
    bare.state = PotState(belief=Belief.OPEN)
    assert notes(bare) == ["No plate entered: no run starts."]


def test_a_reading_shows_its_force_on_the_lid() -> None:
    sitting = Sitting().held()
    assert "{pressure} pushes on this lid with {force}." in notes(sitting)
    assert Sitting(plate(seal_diameter=None)).held() is not None
    silent = Sitting(plate(seal_diameter=None)).held()
    assert "{pressure} pushes on this lid with {force}." not in notes(silent)


def test_zero_shows_the_force_it_can_hide_and_what_is_owed() -> None:
    sitting = Sitting().held()
    sitting.let_down()
    assert notes(sitting) == ["A zero on this gauge can still hide {force} on the lid."]
    sitting.press(Act.LOST_TRACK)
    sitting.isolate(press=False)
    sitting.vent("was_open_silent")
    sitting.typed(Item.VENT_READING, 0.0)
    sitting.typed(Item.ZERO, 0.0)
    assert "The fall was not seen: 30 min and a third sign." in notes(sitting)
    large = Sitting(plate(seal_diameter=Metre(0.3))).held()
    large.let_down()
    assert "A third sign is owed on this pot." in notes(large)
    two = plate(seal_diameter=Metre(0.3), holes=Holes("n", "e", "e", "n"), inlet_opens=False)
    stood = Sitting(two).held()
    stood.let_down()
    assert "No third opening: 30 min stand in for the third sign." in notes(stood)


def test_slackening_shows_passes_and_the_clamp_reached() -> None:
    sitting = Sitting().cleared()
    assert notes(sitting) == ["Passes recorded: {passes}"]
    sitting.typed(Item.SLACKEN, 4.0)
    assert notes(sitting) == ["Passes recorded: {passes}", "Last clamp: {clamp}"]
    sitting.answer(Item.SLACKEN, "done")
    sitting.answer(Item.SLACKEN, "done")
    sitting.answer(Item.SLACKEN, "done")
    sitting.answer(Item.ROCK, "free")
    assert notes(sitting) == []


def test_reports_have_words() -> None:
    sitting = Sitting().held()
    sitting.press(Act.VENT_NOW)
    (vent,) = card(sitting).reported
    assert vent.answer == say("Vent now was pressed")
    sitting.answer(Item.INLET, CANT_TELL)
    assert sitting.state.reported is not None
    assert report(sitting.state.reported).answer == say("Can't tell")


def test_the_target_of_the_fall_is_the_higher_of_half_and_three_divisions() -> None:
    sitting = Sitting().held()
    assert fall_target(sitting.state) == 2 * BAR
    assert fall_target(replace(sitting.state, fall_from=0.4 * BAR)) == pytest.approx(0.3 * BAR)
    assert fall_target(PotState()) == 0.0


def test_a_standing_branch_has_its_lines() -> None:
    assert set(BRANCHES) == set(Branch)
    assert set(OFFERS) == set(Act)
    assert set(STATE_WORDS) == set(Belief)
    assert set(TITLES) == set(CardName)
    assert all(isinstance(text, Text) for text in card(Sitting()).notes)
