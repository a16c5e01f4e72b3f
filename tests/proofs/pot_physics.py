"""A pot with real air in it and an honest person beside it: what can fool the procedure?

``run(count, seed)`` draws pots of every hole layout with faults: holes plugged from the start,
half-plugged, plugging during the run; gauges stuck, off zero, drifting; a leaking inlet. The
person does what the card asks and answers what would be seen and heard.
"""

import random
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Event, Press, Typed
from shopassist.core.pot.evidence import dwell_left, fall_wait_left, signs_counted, zero_band
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import blocks
from shopassist.core.pot.questions import questions
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item, Sign
from tests.proofs.pot_air import (
    AIR_IN,
    BAR,
    HALF_HEARD,
    HEARD,
    HOLD,
    Case,
    Pot,
    cases,
    plate_of,
    random_case,
)
from tests.proofs.report import Report


@dataclass
class Outcome:
    """How one let-down ended."""

    end: str
    pressure: float
    state: PotState
    events: list[Event]
    plugged: frozenset[str]
    """Holes that let nothing through at the end."""


class Person:
    """Does what the card asks, and says what is seen and heard."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.pot = Pot(case)
        self.now = Now(1000.0, 20_000 * 86400.0)
        self.state = PotState(plate=plate_of(case), plate_version=1)
        self.events: list[Event] = []
        self.patience = 0
        self.fall_seconds = 0.0
        self.opened_fresh = False

    def wait(self, seconds: float) -> None:
        self.pot.wait(seconds)
        self.now = Now(self.now.age + seconds, self.now.utc + seconds)

    def do(self, event: Event) -> bool:
        result = advance(self.state, event, self.now)
        if isinstance(result, Refusal):
            return False
        self.state = result
        self.events.append(event)
        return True

    def must(self, event: Event) -> None:
        assert self.do(event), (event, self.case, advance(self.state, event, self.now))

    # -- the run -----------------------------------------------------------------------

    def live(self, most: int = 400) -> Outcome:
        if self.case.start == "air in already":
            self.must(Press(Act.AIR_IN))
        for _ in range(most):
            self.wait(2)
            belief = settled(self.state, self.now).belief
            if belief is Belief.CLEAR:
                return self.outcome("clear")
            if belief is Belief.SUSPECT:
                return self.outcome("suspect")
            if self.state.gauge_failed and belief is Belief.OPEN:
                return self.outcome("blocked")
            if not self.act(belief):
                return self.outcome("blocked")
        return self.outcome("patience")

    def crack(self, seconds: float) -> Outcome:
        """Go on from the word: slacken over so many seconds, rock, lift."""
        for _ in range(400):
            self.wait(2)
            belief = settled(self.state, self.now).belief
            if belief is Belief.OPEN:
                return self.outcome("open")
            item = present(settled(self.state, self.now), self.now)
            if item is Item.SLACKEN:
                self.wait(seconds / 3)
                self.must(Answer(Item.SLACKEN, "done"))
            elif item is Item.ROCK:
                hiss = self.pot.pressure > HEARD
                self.must(Answer(Item.ROCK, "hiss" if hiss else "free"))
            elif item is Item.LID_OFF:
                self.must(Answer(Item.LID_OFF, "inside_seen"))
            elif not self.act(belief):
                return self.outcome("blocked")
        return self.outcome("patience")

    def outcome(self, end: str) -> Outcome:
        plugged = frozenset(h for h, how in self.pot.state.items() if how == "plugged")
        return Outcome(end, self.pot.pressure, self.state, self.events, plugged)

    def act(self, belief: Belief) -> bool:
        if belief is Belief.UNKNOWN:
            return self.do(Press(Act.LET_DOWN))
        ask = questions(self.state, self.now).ask
        if ask is None:
            self.pot.at_hold()
            return self.do(Press(Act.LET_DOWN))
        method = getattr(self, f"on_{ask.item.value}", None)
        if method is not None:
            return bool(method())
        answer = SIMPLE[ask.item]
        return self.do(Answer(ask.item, answer, ask.about))

    def type(self, item: Item, value: float, text: str = "") -> bool:
        return self.do(Typed(item, value, text or f"{value / BAR:g}", "bar"))

    def reading(self, item: Item) -> bool:
        return self.type(item, self.pot.reads())

    # -- Ready to Hold -------------------------------------------------------------------

    def on_hole(self) -> bool:
        hole = questions(self.state, self.now).ask
        assert hole is not None
        if self.pot.state[hole.about] != "clear":
            self.pot.clean(hole.about)
            return self.do(Answer(Item.HOLE, "blocked", hole.about))
        return self.do(Answer(Item.HOLE, "clear", hole.about))

    def on_hold_pressure(self) -> bool:
        return self.type(Item.HOLD_PRESSURE, HOLD)

    def on_baseline(self) -> bool:
        return self.reading(Item.BASELINE)

    def on_clamps(self) -> bool:
        return self.type(Item.CLAMPS, 6)

    def on_clamp_count(self) -> bool:
        self.pot.lid_on = True
        return self.type(Item.CLAMP_COUNT, 6)

    def on_air_on(self) -> bool:
        self.pot.pressure = 0.7 * BAR
        return self.do(Press(Act.AIR_ON))

    def on_first_air(self) -> bool:
        return self.reading(Item.FIRST_AIR)

    def on_regulator(self) -> bool:
        near = abs(self.pot.reads() - self.pot.pressure) < 0.35 * BAR
        return self.do(Answer(Item.REGULATOR, "agrees" if near else "lower"))

    def on_at_pressure(self) -> bool:
        self.pot.pressure = HOLD
        return self.reading(Item.AT_PRESSURE)

    def on_reading(self) -> bool:
        return self.reading(Item.READING)

    # -- Let down --------------------------------------------------------------------------

    def on_inlet(self) -> bool:
        self.pot.open.discard("inlet")
        return self.do(Answer(Item.INLET, "shut"))

    def on_hose_bled(self) -> bool:
        if not self.pot.hose_on:
            return self.do(Answer(Item.HOSE_BLED, "no_hose"))
        return self.do(Answer(Item.HOSE_BLED, "spitting" if self.case.leaking else "bled"))

    def on_hose(self) -> bool:
        self.pot.hose_on = False
        return self.do(Answer(Item.HOSE, "apart"))

    def on_vent(self) -> bool:
        if "vent" in self.pot.open:
            moving = self.pot.sounds("vent")
            return self.do(Answer(Item.VENT, "was_open_air" if moving else "was_open_silent"))
        self.fall_seconds = 0.0
        heard = self.pot.hiss("vent")
        return self.do(Answer(Item.VENT, "opened_hiss" if heard else "opened_none"))

    def on_vent_reading(self) -> bool:
        return self.reading(Item.VENT_READING)

    def on_opening(self) -> bool:
        ask = questions(self.state, self.now).ask
        assert ask is not None
        return self.do(ask.choices[0].event)

    def on_opening_heard(self) -> bool:
        device, before = self.state.sign_asked, self.pot.reads()
        if not self.pot.hiss(device):
            return self.do(Answer(Item.OPENING_HEARD, "none", device))
        for _ in range(400):
            self.wait(5)
            if self.pot.reads() < before - 0.15 * BAR:
                return self.do(Answer(Item.OPENING_HEARD, "hiss_falls", device))
            if not self.pot.sounds(device):
                break
        return self.do(Answer(Item.OPENING_HEARD, "hiss_silent", device))

    def _outlets(self) -> list[str]:
        return [device for device in self.pot.open if device != "lid"]

    def silent(self) -> bool:
        return not any(self.pot.sounds(device) for device in self._outlets())

    def on_fall_first(self) -> bool:
        start = self.pot.reads()
        if self.state.fall_from is None:
            return self.type(Item.FALL_FIRST, start)
        target, waited = self.state.fall_from / 2, 0.0
        while self.pot.reads() > target and waited < 3600:
            self.wait(1)
            waited += 1
            if self.silent() and self.pot.reads() > 0.35 * BAR:
                self.wait(30)
                if self.pot.reads() > 0.35 * BAR and self.silent():
                    return self.do(Answer(Item.FALL_FIRST, "silent_steady"))
        self.fall_seconds = waited
        if self.pot.reads() < 0.3 * BAR or waited <= 2:
            return self.do(Answer(Item.FALL_FIRST, "straight_to_zero"))
        self.pot.open.discard("vent")
        for device in self._outlets():
            self.pot.open.discard(device)
        return self.reading(Item.FALL_FIRST)

    def on_fall_second(self) -> bool:
        self.wait(fall_wait_left(self.state, self.now) + 1)
        return self.reading(Item.FALL_SECOND)

    def on_vent_again(self) -> bool:
        self.pot.open.add("vent")
        for piece in self.state.all(Item.OPENING_HEARD):
            if piece.value == "hiss_falls":
                self.pot.open.add(piece.about)
        return self.do(Answer(Item.VENT_AGAIN, "open"))

    def on_fall_speed(self) -> bool:
        return self.do(Answer(Item.FALL_SPEED, "slowly" if self.fall_seconds > 2 else "at_once"))

    def on_zero(self) -> bool:
        return self._zero(Item.ZERO)

    def _zero(self, item: Item) -> bool:
        band = zero_band(self.state)
        assert band is not None
        for _ in range(2000):
            if self.pot.reads() <= band[1]:
                break
            if self.silent():
                self.wait(60)
                if self.silent() and self.pot.reads() > band[1]:
                    return self.do(Answer(item, "silent_steady"))
            self.wait(5)
        if not self.silent():
            self.wait(60)
        return self.reading(item)

    def on_silence(self) -> bool:
        return self._silence(Item.SILENCE)

    def on_silence_again(self) -> bool:
        return self._silence(Item.SILENCE_AGAIN)

    def _silence(self, item: Item) -> bool:
        for _ in range(400):
            if self.silent():
                return self.type(item, 0.0, "silent")
            self.wait(10)
        return self.do(Answer(item, "some"))

    def on_dwell(self) -> bool:
        self.wait(dwell_left(self.state, self.now) + 1)
        return True

    def on_sign(self) -> bool:
        ask = questions(self.state, self.now).ask
        assert ask is not None
        if len(ask.choices) == 1:
            return self.do(Press(Act.DOUBT))
        return self.do(ask.choices[0].event)

    def on_sign_seen(self) -> bool:
        sign = Sign(self.state.sign_asked)
        return self.do(Answer(Item.SIGN_SEEN, "some" if self.air_at(sign) else "none", sign))

    def air_at(self, sign: Sign) -> bool:
        if sign is Sign.SECOND_GAUGE:
            return self.pot.behind(self.case.holes.second_gauge) > HALF_HEARD
        if sign is Sign.VENT:
            return self.pot.sounds("vent")
        heard = self.pot.puff(sign.value)
        self.wait(5)
        if sign is Sign.RING:
            self.pot.open.discard("ring")
        return heard

    def on_zero_again(self) -> bool:
        return self.reading(Item.ZERO_AGAIN)

    def on_inlet_now(self) -> bool:
        as_sign = any(p.about == "inlet" for p in signs_counted(self.state, self.now))
        if "inlet" in self.pot.open and as_sign:
            return self.do(Answer(Item.INLET_NOW, "opened_as_sign"))
        self.pot.open.discard("inlet")
        return self.do(Answer(Item.INLET_NOW, "shut"))

    def on_vent_now_seen(self) -> bool:
        moving = self.pot.sounds("vent")
        return self.do(Answer(Item.VENT_NOW_SEEN, "open_air" if moving else "open"))

    def on_confirm(self) -> bool:
        return self.do(Press(Act.CONFIRM))


SIMPLE: dict[Item, str] = {
    Item.RUN: "casting", Item.RING: "snaps_back", Item.GASKET: "clean", Item.DRY_FIT: "fits",
    Item.PLACE: "stays", Item.CLAMPS_ROUND: "all_round", Item.LID_HISS: "none",
    Item.SUPPLY: "isolated", Item.EYES: "covered", Item.HOSE_NOW: "apart",
    Item.WHERE: "been_here", Item.AFTERCARE: "cleaned",
    Item.LID_OFF_NOW: "inside_seen",
}  # fmt: skip


def live(case: Case) -> Outcome:
    """Let one person live through one case."""
    person = Person(case)
    if case.start == "listed":
        person.must(Answer(Item.LID_OFF_NOW, "inside_seen"))
    return person.live()


FULL = 300_000
STRETCH = 5_000


def run(count: int, seed: int) -> Report:
    """Draw cases; report every *clear to crack* with air in the pot, and every run without an end."""
    rng = random.Random(seed)
    return judge((random_case(rng) for _ in range(count)), count, seed)


def run_singles() -> Report:
    """Walk every case with at most one faulty hole, whatever gauge and inlet do."""
    return judge(cases(most_faulty_holes=1), 0, 0)


def judge(drawn: Iterable[Case], count: int, seed: int) -> Report:
    """Live through cases and count how they ended."""
    ends: Counter[str] = Counter()
    failures: list[str] = []
    for case in drawn:
        outcome = live(case)
        ends[outcome.end] += 1
        if outcome.end == "clear" and outcome.pressure > AIR_IN:
            if beyond_telling(case, outcome):
                ends["air that no opening and no gauge shows"] += 1
            else:
                failures.append(f"{outcome.pressure / BAR:.2f} bar left: {case}")
        if outcome.end == "patience":
            failures.append(f"no end: {case}")
        healthy = case.count == 0 and case.start == "listed"
        if healthy and outcome.end != "clear" and not blocks(plate_of(case), 20_000):
            failures.append(f"healthy pot came to {outcome.end}: {case}")
    return Report(count, seed, tuple(failures), dict(ends))


def beyond_telling(case: Case, outcome: Outcome) -> bool:
    """Three faults at once: the gauge lies, and both openings that were tried let nothing through."""
    tried = {piece.hole for piece in outcome.state.all(Item.SIGN_SEEN)}
    lies = case.gauge != "none" or case.holes.gauge in outcome.plugged
    return case.count > 2 and lies and len(tried) > 1 and tried <= outcome.plugged
