"""Each step is asked, and only its own line in the lists makes it so."""

import sys
from collections.abc import Callable
from dataclasses import dataclass, replace

import pytest

from shopassist.core.pot.events import Answer, Press
from shopassist.core.pot.evidence import dwell_left
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.state import Now
from shopassist.core.pot.steps import CLOSE, FILL, LET_DOWN, PROVE, READY, Step, hole_to_see
from shopassist.core.pot.words import Act, Belief, Item, Sign
from tests.core.pot.bench import BAR, HOLES, HOUR, Sitting, piece, plate, record

MODULE = sys.modules["shopassist.core.pot.steps"]
LISTS: dict[str, tuple[Step, ...]] = {
    "READY": READY, "CLOSE": CLOSE, "FILL": FILL, "LET_DOWN": LET_DOWN, "PROVE": PROVE,
}  # fmt: skip
ANSWERS: dict[Item, str] = {
    Item.RUN: "casting", Item.RING: "snaps_back", Item.HOLE: "clear", Item.GASKET: "clean",
    Item.DRY_FIT: "fits", Item.PLACE: "stays", Item.CLAMPS_ROUND: "all_round",
    Item.REGULATOR: "agrees", Item.LID_HISS: "none", Item.SUPPLY: "isolated", Item.INLET: "shut",
    Item.HOSE_BLED: "bled", Item.HOSE: "apart", Item.EYES: "covered", Item.VENT: "opened_hiss",
    Item.FALL_SPEED: "slowly", Item.VENT_AGAIN: "open", Item.SIGN_SEEN: "none",
    Item.INLET_NOW: "shut", Item.HOSE_NOW: "apart", Item.VENT_NOW_SEEN: "open",
    Item.OPENING_HEARD: "hiss_silent",
}  # fmt: skip
TYPED: dict[Item, float] = {
    Item.HOLD_PRESSURE: 4 * BAR, Item.BASELINE: 0.0, Item.CLAMPS: 6, Item.CLAMP_COUNT: 6,
    Item.FIRST_AIR: 0.7 * BAR, Item.AT_PRESSURE: 4 * BAR, Item.FALL_FIRST: 2 * BAR,
    Item.FALL_SECOND: 2 * BAR, Item.ZERO: 0.0, Item.ZERO_AGAIN: 0.0, Item.VENT_READING: 0.0,
}  # fmt: skip


@dataclass
class Lazy:
    """Answers what is asked and nothing else, and remembers what that was."""

    sitting: Sitting
    answers: dict[Item, str]
    typed: dict[Item, float]

    def run(self, until: Belief) -> list[Item]:
        asked: list[Item] = []
        for _ in range(80):
            self.sitting.wait(5)
            if self.sitting.believes(until):
                return asked
            item = self.sitting.item
            if item is None:
                self.sitting.press(Act.LET_DOWN)
                continue
            asked.append(item)
            self.give(item)
        raise AssertionError(asked)

    def give(self, item: Item) -> None:
        about = ""
        if item is Item.HOLE:
            seen = {piece.about for piece in self.sitting.state.all(Item.HOLE)}
            holes = self.sitting.state.plate.holes.all() if self.sitting.state.plate else ()
            about = next(hole for hole in holes if hole not in seen)
        if item in (Item.SIGN_SEEN, Item.OPENING_HEARD):
            about = self.sitting.state.sign_asked
        if item is Item.DWELL:
            self.sitting.wait(dwell_left(self.sitting.state, self.sitting.now))
        elif item is Item.FALL_SECOND:
            self.sitting.wait(60)
            self.sitting.typed(item, self.typed[item])
        elif item in (Item.SILENCE, Item.SILENCE_AGAIN):
            self.sitting.typed(item, 0.0, "silent")
        elif item in (Item.SIGN, Item.OPENING):
            self.sitting.answer(item, self.choose(item))
        elif item in (Item.AIR_ON, Item.CONFIRM):
            self.sitting.do(Press(Act(item.value)))
        elif item in self.typed:
            self.sitting.typed(item, self.typed[item])
        else:
            self.sitting.do(Answer(item, self.answers[item], about))

    def choose(self, item: Item) -> str:
        taken = {piece.about for piece in self.sitting.state.all(Item.SIGN_SEEN)}
        order = (Sign.INLET, Sign.RING) if item is Item.OPENING else tuple(Sign)
        state = self.sitting.state
        hissed = {piece.about for piece in state.all(Item.OPENING_HEARD)}
        if item is Item.OPENING:
            return next(sign for sign in order if sign not in hissed)
        able = tuple(hissed) if state.gauge_failed else order
        return next(
            s for s in able
            if s not in taken and s not in (Sign.TEST_VALVE, Sign.SECOND_GAUGE)
            and (s != Sign.VENT or state.vent_hissed)
        )  # fmt: skip


def plain() -> Lazy:
    return Lazy(Sitting(), ANSWERS, TYPED)


def spitting() -> Lazy:
    return Lazy(Sitting(), ANSWERS | {Item.HOSE_BLED: "spitting"}, TYPED)


def silent_vent() -> Lazy:
    return Lazy(Sitting(), ANSWERS | {Item.VENT: "opened_none"}, TYPED)


def stuck_gauge() -> Lazy:
    return Lazy(
        Sitting(plate(holes=Holes("north", "east", "south", "west"))),
        ANSWERS | {Item.VENT: "opened_none"},
        TYPED | {Item.VENT_READING: 4 * BAR},
    )


# What makes each step of the lists be asked.
SCENE: dict[str, dict[Item, Callable[[], Lazy]]] = {
    "READY": {step.item: plain for step in READY},
    "CLOSE": {step.item: plain for step in CLOSE[1:]},
    "FILL": {step.item: plain for step in FILL},
    "LET_DOWN": {step.item: plain for step in LET_DOWN}
    | {Item.VENT_READING: silent_vent, Item.OPENING: stuck_gauge, Item.SILENCE: stuck_gauge},
    "PROVE": {step.item: plain for step in PROVE} | {Item.SILENCE_AGAIN: stuck_gauge},
}
LINES = [
    (name, position)
    for name, steps in LISTS.items()
    for position, step in enumerate(steps)
    if step.item in SCENE[name]
]


def asked_in(name: str, position: int) -> tuple[list[Item], Item]:
    step = LISTS[name][position]
    scene = SCENE[name][step.item]
    again = [s.item for s in LISTS[name][:position]].count(step.item)
    lazy = spitting() if again else scene()
    until = Belief.PRESSURISED if name == "READY" else Belief.CLEAR
    return lazy.run(until), step.item


@pytest.mark.parametrize(("name", "position"), LINES)
def test_a_step_is_asked(name: str, position: int) -> None:
    asked, item = asked_in(name, position)
    assert item in asked


@pytest.mark.parametrize(("name", "position"), LINES)
def test_without_its_line_the_test_of_a_step_fails(
    name: str, position: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    steps = LISTS[name]
    monkeypatch.setattr(MODULE, name, (*steps[:position], *steps[position + 1 :]))
    with pytest.raises((AssertionError, StopIteration)):
        test_a_step_is_asked(name, position)


def test_an_opening_is_asked_again_until_two_have_hissed() -> None:
    lazy = stuck_gauge()
    asked = lazy.run(Belief.CLEAR)
    assert asked.count(Item.OPENING) == 2
    assert lazy.sitting.state.gauge_failed == "stuck"


def test_a_hole_is_asked_for_each_hole() -> None:
    assert plain().run(Belief.PRESSURISED).count(Item.HOLE) == len(HOLES.all())


def test_a_suspect_pot_asks_nothing() -> None:
    sitting = Sitting().held()
    sitting.press(Act.DOUBT)
    assert sitting.asks(None)


def test_a_test_run_asks_for_the_live_lift() -> None:
    sitting = Sitting().held(run="test")
    assert sitting.asks(Item.LIVE_LIFT)
    sitting.typed(Item.LIVE_LIFT, 3 * BAR)
    assert sitting.asks(Item.LIVE_LIFT)
    sitting.typed(Item.LIVE_LIFT, 3.8 * BAR)
    assert sitting.asks(None)


def test_without_a_plate_three_passes_are_owed() -> None:
    sitting = Sitting().cleared()
    sitting.state = replace(sitting.state, plate=None)
    assert sitting.asks(Item.SLACKEN)
    sitting.state = replace(sitting.state, passes=2)
    assert sitting.asks(Item.SLACKEN)
    sitting.state = replace(sitting.state, passes=3)
    assert sitting.asks(Item.ROCK)


def step_of(item: Item) -> Step:
    return next(step for name in LISTS for step in LISTS[name] if step.item is item)


@pytest.mark.parametrize(
    ("item", "value"),
    [
        (Item.HOLD_PRESSURE, "4"), (Item.RING, "snaps_back"), (Item.GASKET, "clean"),
        (Item.BASELINE, "0"), (Item.CLAMPS, "6"), (Item.DRY_FIT, "fits"), (Item.PLACE, "stays"),
    ],
)  # fmt: skip
def test_each_answer_of_ready_lives_twelve_hours_of_its_own(item: Item, value: str) -> None:
    met = step_of(item).met
    said = record(piece(item, value, age=5 * HOUR))
    assert met(said, Now(17 * HOUR - 1))
    assert not met(said, Now(17 * HOUR))
    assert not met(record(), Now(0.0))


def test_a_hole_is_asked_again_after_twelve_hours() -> None:
    seen = [
        piece(Item.HOLE, "clear", age=5 * HOUR, hole=hole, about=hole)
        for hole in ("north", "east", "south", "west")
    ]
    assert hole_to_see(record(*seen), Now(17 * HOUR - 1)) == ""
    assert hole_to_see(record(*seen), Now(17 * HOUR)) == "north"
    later = replace(seen[0], age=6 * HOUR)
    assert hole_to_see(record(later, *seen[1:]), Now(17 * HOUR)) == "east"


# -- the vent stands open -------------------------------------------------------------------------


def in_the_fall() -> Sitting:
    """The vent was shut for two readings; the first is typed and its minute is over."""
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.wait(30)
    sitting.typed(Item.FALL_FIRST, 2 * BAR)
    sitting.wait(60)
    return sitting


def test_after_the_readings_the_vent_is_asked_for_until_it_was_seen_open() -> None:
    sitting = in_the_fall()
    sitting.typed(Item.FALL_SECOND, 2 * BAR)
    assert sitting.asks(Item.VENT_AGAIN)
    sitting.answer(Item.VENT_AGAIN, "shut")
    assert sitting.asks(Item.VENT_AGAIN)
    sitting.answer(Item.VENT_AGAIN, "open")
    assert sitting.asks(Item.FALL_SPEED)


def test_a_second_reading_puts_the_vent_in_doubt_whatever_was_pressed_before_it() -> None:
    sitting = in_the_fall()
    sitting.press(Act.VENT_NOW)
    sitting.answer(Item.VENT, "was_open_air")
    sitting.typed(Item.FALL_SECOND, 2 * BAR)
    assert sitting.asks(Item.VENT_AGAIN)


def test_a_vent_that_nobody_looked_at_does_not_stand_open() -> None:
    assert step_of(Item.VENT_AGAIN).met(record(), Now(0.0)) is False


# -- waits that the program asked for ---------------------------------------------------------------


def test_a_long_wait_for_the_zero_is_nobody_idle() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.wait(1200)
    assert sitting.asks(Item.ZERO)


def test_a_long_wait_for_the_silence_is_nobody_idle() -> None:
    sitting = Sitting().held()
    sitting.isolate()
    sitting.vent()
    sitting.fall()
    sitting.answer(Item.ZERO, "on_pin")
    sitting.wait(1200)
    assert sitting.asks(Item.SILENCE)
