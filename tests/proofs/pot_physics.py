"""A pot with real air in it and an honest person beside it: what can fool the procedure?

``run(count, seed)`` draws pots of every hole layout with faults: holes plugged from the start,
half-plugged, plugging during the run; gauges stuck, off zero, drifting; a leaking inlet. The
person does what the card asks and answers what would be seen and heard.
"""

import random
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, product
from math import exp

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Event, Press, Typed
from shopassist.core.pot.evidence import dwell_left, fall_wait_left, signs_counted, zero_band
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Gauge, Holes, Plate
from shopassist.core.pot.questions import questions
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.words import Act, Belief, Item, Sign
from shopassist.core.quantities import Kelvin, Metre, PascalGauge
from tests.proofs.report import Report

BAR = 1e5
HOLD = 4 * BAR
HEARD = 0.02 * BAR
"""Air leaving a clear hole is heard above this."""
HALF_HEARD = 0.05 * BAR
AIR_IN = 0.12 * BAR
"""More than the zero band and the class of the gauge can hide."""
STAGES = ("start", "hold", "venting", "late")
GAUGE_FAULTS = ("none", "stuck at zero", "stuck at hold", "high", "low", "drifts low")
STARTS = ("listed", "air in already", "unknown")


@dataclass(frozen=True)
class Fault:
    """One hole's trouble."""

    hole: str
    stage: str
    half: bool


@dataclass(frozen=True)
class Case:
    """One pot, its faults, and how the run began."""

    holes: Holes
    inlet_opens: bool
    faults: tuple[Fault, ...] = ()
    gauge: str = "none"
    leaking: bool = False
    start: str = "listed"
    vent_time: float = 120.0

    @property
    def count(self) -> int:
        """How many things are wrong with it."""
        return len(self.faults) + (self.gauge != "none") + self.leaking


def layouts() -> Iterator[tuple[Holes, bool]]:
    """Every way in which gauge, vent, relief and inlet can share holes, with extra openings."""
    for spots in product("abcd", repeat=4):
        if spots != _canonical(spots):
            continue
        for opens, extra in product((False, True), ("", "test", "shared test", "second gauge")):
            holes = Holes(*spots)
            if extra == "test":
                holes = replace(holes, test_valve="t")
            elif extra == "shared test":
                holes = replace(holes, test_valve=holes.vent)
            elif extra == "second gauge":
                holes = replace(holes, second_gauge="s")
            yield holes, opens


def _canonical(spots: tuple[str, ...]) -> tuple[str, ...]:
    names: dict[str, str] = {}
    return tuple(names.setdefault(spot, "abcd"[len(names)]) for spot in spots)


def cases(most_faulty_holes: int = 2) -> Iterator[Case]:
    """Every case, in a fixed order."""
    for holes, opens in layouts():
        for number in range(most_faulty_holes + 1):
            for chosen in combinations(holes.all(), number):
                kinds = product(STAGES, (False, True))
                for troubles in product(tuple(kinds), repeat=number):
                    faults = tuple(Fault(h, s, half) for h, (s, half) in zip(chosen, troubles))
                    for gauge, leaking, start in product(GAUGE_FAULTS, (False, True), STARTS):
                        yield Case(holes, opens, faults, gauge, leaking, start)


def random_case(rng: random.Random, most_faulty_holes: int = 2) -> Case:
    """Draw one case."""
    holes, opens = rng.choice(_LAYOUTS)
    chosen = rng.sample(holes.all(), min(rng.randint(0, most_faulty_holes), len(holes.all())))
    return Case(
        holes, opens,
        tuple(Fault(h, rng.choice(STAGES), rng.random() < 0.3) for h in chosen),
        rng.choice(GAUGE_FAULTS), rng.random() < 0.25, rng.choice(STARTS),
        rng.choice((3.0, 30.0, 120.0, 1200.0)),
    )  # fmt: skip


_LAYOUTS = tuple(layouts())
SINGLES = 70_000
"""From this count on every case with at most one faulty hole is walked."""


def plate_of(case: Case) -> Plate:
    gauge = Gauge(PascalGauge(7 * BAR), PascalGauge(0.1 * BAR), accuracy=0.5)
    return Plate(
        "Proof pot", PascalGauge(5.5 * BAR), Kelvin(333.15), 0.02, Metre(0.08), 6,
        relief_set=PascalGauge(5 * BAR), relief_lifted=20_000, gauge=gauge, holes=case.holes,
        inlet_shut_off=True, inlet_opens=case.inlet_opens, warmest=Kelvin(293.15),
    )  # fmt: skip


class Pot:
    """Air, holes, valves and a gauge."""

    def __init__(self, case: Case) -> None:
        self.case = case
        self.pressure = 0.0 if case.start == "listed" else HOLD
        self.state: dict[str, str] = dict.fromkeys(case.holes.all(), "clear")
        self.open: set[str] = set()
        """Devices that stand open: vent, inlet, test_valve, ring, lid."""
        self.hose_on = True
        self.frozen: dict[str, float] = {}
        self.stuck: float | None = 0.0 if case.gauge == "stuck at zero" else None
        self.drift = {"high": 0.3 * BAR, "low": -0.3 * BAR}.get(case.gauge, 0.0)
        self.lid_on = case.start != "listed"
        self.stage("start")
        if case.start != "listed":
            self.at_hold()

    def at_hold(self) -> None:
        self.stage("hold")
        if self.case.gauge == "stuck at hold":
            self.stuck = self.pressure
        if self.case.gauge == "drifts low":
            self.drift = -0.5 * BAR

    def stage(self, stage: str) -> None:
        for fault in self.case.faults:
            if fault.stage == stage and self.state[fault.hole] == "clear":
                self.state[fault.hole] = "half" if fault.half else "plugged"
                self.frozen[fault.hole] = self.pressure

    def clean(self, hole: str) -> None:
        self.state[hole] = "clear"

    def hole(self, device: str) -> str:
        return {"ring": self.case.holes.relief}.get(device) or str(getattr(self.case.holes, device))

    def _conductance(self, hole: str) -> float:
        return (
            {"clear": 1.0, "half": 0.05, "plugged": 0.0}[self.state[hole]] * 5 / self.case.vent_time
        )

    def wait(self, seconds: float) -> None:
        """Let the air flow; long steps where nothing is left to happen."""
        source = self.hose_on and (self.case.leaking or "inlet" in self.open)
        outlets = {self.hole(device) for device in self.open if device != "lid"}
        while seconds > 0:
            rate = sum(self._conductance(hole) for hole in outlets)
            quiet = not source and (rate == 0 or self.pressure < 1e3)
            dt = seconds if quiet else min(seconds, max(0.5, self.case.vent_time / 40))
            seconds -= dt
            self.pressure *= exp(-rate * dt)
            if source:
                self.pressure = min(HOLD, self.pressure + 2e3 * dt)
            if self.lid_on and self.pressure < HOLD / 2:
                self.stage("venting")
            if self.lid_on and self.pressure < 0.8 * BAR:
                self.stage("late")
        if not self.lid_on:
            self.pressure = 0.0

    def behind(self, hole: str, *devices: str) -> float:
        """Pressure that a device at this hole sees."""
        if self.state[hole] != "plugged":
            return self.pressure
        outlet = any(self.hole(d) == hole for d in self.open if d != "lid")
        if outlet:
            self.frozen[hole] = 0.0
        return self.frozen[hole]

    def reads(self) -> float:
        value = self.behind(self.case.holes.gauge) if self.stuck is None else self.stuck
        half = 0.05 * BAR
        return round((value + self.drift * (self.stuck is None)) / half) * half

    def hiss(self, device: str) -> bool:
        """Open a device and listen for more than the short puff of what a plug had shut in."""
        self.puff(device)
        return self.sounds(device)

    def puff(self, device: str) -> bool:
        """Open a device; whether any air at all came out."""
        hole = self.hole(device)
        shut_in = self.state[hole] == "plugged" and self.frozen.get(hole, 0.0) > HEARD
        if shut_in:
            self.frozen[hole] = 0.0
        self.open.add(device)
        return shut_in or self.sounds(device)

    def sounds(self, device: str) -> bool:
        """Whether air moves at an open device now."""
        state = self.state[self.hole(device)]
        if state == "plugged":
            return False
        return self.pressure > (HEARD if state == "clear" else HALF_HEARD)


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
        as_sign = any(p.about == "inlet" for p in signs_counted(self.state, self.now))
        if "inlet" in self.pot.open and as_sign:
            return self.do(Answer(Item.INLET, "opened_as_sign"))
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

    def on_confirm(self) -> bool:
        return self.do(Press(Act.CONFIRM))


SIMPLE: dict[Item, str] = {
    Item.RUN: "casting", Item.RING: "snaps_back", Item.GASKET: "clean", Item.DRY_FIT: "fits",
    Item.PLACE: "stays", Item.CLAMPS_ROUND: "all_round", Item.LID_HISS: "none",
    Item.SUPPLY: "isolated", Item.EYES: "covered", Item.HOSE_NOW: "apart",
    Item.VENT_NOW_SEEN: "open", Item.WHERE: "been_here", Item.AFTERCARE: "cleaned",
    Item.LID_OFF_NOW: "inside_seen",
}  # fmt: skip


def live(case: Case) -> Outcome:
    """Let one person live through one case."""
    person = Person(case)
    if case.start == "listed":
        person.must(Answer(Item.LID_OFF_NOW, "inside_seen"))
    return person.live()


def run(count: int, seed: int) -> Report:
    """Draw cases; report every *clear to crack* with air in the pot, and every run without an end.

    ``count`` of at least the number of all cases with one faulty hole walks those in order instead.
    """
    rng = random.Random(seed)
    if count >= SINGLES:
        return judge(cases(most_faulty_holes=1), count, seed)
    return judge((random_case(rng) for _ in range(count)), count, seed)


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
        if case.count == 0 and case.start == "listed" and outcome.end != "clear":
            allowed = not plate_of(case).sign_holes() or outcome.end == "suspect"
            if not allowed:
                failures.append(f"healthy pot came to {outcome.end}: {case}")
    return Report(count, seed, tuple(failures), dict(ends))


def beyond_telling(case: Case, outcome: Outcome) -> bool:
    """Three faults at once: the gauge lies, and both openings that were tried let nothing through."""
    tried = {piece.hole for piece in outcome.state.all(Item.SIGN_SEEN)}
    lies = case.gauge != "none" or case.holes.gauge in outcome.plugged
    return case.count > 2 and lies and len(tried) > 1 and tried <= outcome.plugged
