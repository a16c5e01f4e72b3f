"""A pot with real air in it: hole layouts, faults, valves and a gauge that may lie."""

import random
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations, product
from math import exp

from shopassist.core.pot.plate import Gauge, Holes, Plate
from shopassist.core.quantities import Kelvin, Metre, PascalGauge

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
                    faults = tuple(
                        Fault(h, s, half) for h, (s, half) in zip(chosen, troubles, strict=True)
                    )
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
