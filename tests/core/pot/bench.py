"""A sitting at one pot: events with the time that passes between them."""

from dataclasses import replace
from typing import Any

from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Answer, Event, Press, Tell, Typed
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import Gauge, Holes, Plate
from shopassist.core.pot.state import Evidence, Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Branch, Item, Sign, Told
from shopassist.core.quantities import Kelvin, Metre, PascalGauge

BAR, HOUR = 1e5, 3600.0
DAY = 20_000
GAUGE = Gauge(PascalGauge(7 * BAR), PascalGauge(0.1 * BAR), accuracy=0.5)
HOLES = Holes(gauge="north", vent="east", relief="south", inlet="west")


def plate(**changes: Any) -> Plate:
    made = Plate(
        name="Test pot",
        rating=PascalGauge(5.5 * BAR),
        rated_temperature=Kelvin(333.15),
        volume=0.02,
        seal_diameter=Metre(0.08),
        clamps=6,
        relief_set=PascalGauge(5.0 * BAR),
        relief_lifted=DAY - 30,
        gauge=GAUGE,
        holes=HOLES,
        inlet_shut_off=True,
        inlet_opens=True,
        warmest=Kelvin(293.15),
    )
    return replace(made, **changes)


def piece(
    item: Item, value: str = "", age: float = 1000.0, hole: str = "", **more: Any
) -> Evidence:
    """One piece of evidence."""
    fields = {"number": None, "about": "", "awake": age, "utc": DAY * 86400.0} | more
    return Evidence(item=item, value=value, hole=hole, age=age, **fields)


def record(*pieces: Evidence, **fields: Any) -> PotState:
    """A record that holds nothing but this evidence and these fields."""
    given: dict[str, Any] = {"plate": plate(), "evidence": pieces, "baseline": 0.0}
    return PotState(**(given | fields))


class Sitting:
    """One pot, one clock, one person."""

    def __init__(self, made: Plate | None = None, *, opened: bool = True) -> None:
        self.now = Now(1000.0, DAY * 86400.0)
        self.state = PotState(plate=plate() if made is None else made, plate_version=1)
        if opened:
            self.answer(Item.LID_OFF_NOW, "inside_seen")
            self.answer(Item.AFTERCARE, "cleaned")

    def believes(self, belief: Belief) -> bool:
        return settled(self.state, self.now).belief is belief

    @property
    def item(self) -> Item | None:
        return present(settled(self.state, self.now), self.now)

    def shows(self, branch: Branch) -> bool:
        return self.state.branch is branch

    def asks(self, item: Item | None) -> bool:
        return self.item is item

    def wait(self, seconds: float) -> None:
        self.now = Now(self.now.age + seconds, self.now.utc + seconds)

    def do(self, event: Event) -> None:
        result = advance(self.state, event, self.now)
        assert not isinstance(result, Refusal), (event, result, self.item)
        self.state = result

    def refused(self, event: Event) -> Refusal:
        result = advance(self.state, event, self.now)
        assert isinstance(result, Refusal), (event, result.belief)
        return result

    def answer(self, item: Item, choice: str, about: str = "") -> None:
        self.do(Answer(item, choice, about))

    def typed(
        self, item: Item, value: float, text: str = "", temperature: float | None = None
    ) -> None:
        self.do(Typed(item, value, text or f"{value / BAR:g}", "bar", temperature))

    def press(self, act: Act) -> None:
        self.do(Press(act))

    def tell(self, what: Told, seconds: float = 0.0) -> None:
        self.do(Tell(what, seconds))

    def tell_restart(self) -> None:
        self.tell(Told.RESTARTED)

    # -- stretches of a run ------------------------------------------------------------

    def ready_until_baseline(self, run: str = "casting", hold: float = 4 * BAR) -> None:
        self.answer(Item.RUN, run)
        self.typed(Item.HOLD_PRESSURE, hold)
        self.answer(Item.RING, "snaps_back")
        assert self.state.plate is not None
        for hole in self.state.plate.holes.all():
            self.answer(Item.HOLE, "clear", hole)
        self.answer(Item.GASKET, "clean")

    def ready(self, run: str = "casting", hold: float = 4 * BAR, baseline: float = 0.0) -> None:
        assert self.state.plate is not None
        self.ready_until_baseline(run, hold)
        self.typed(Item.BASELINE, baseline)
        self.typed(Item.CLAMPS, self.state.plate.clamps)
        self.answer(Item.DRY_FIT, "fits")
        self.answer(Item.PLACE, "stays")

    def close(self) -> None:
        self.answer(Item.CLAMPS_ROUND, "all_round")
        assert self.state.plate is not None
        self.typed(Item.CLAMP_COUNT, self.state.plate.clamps)

    def fill(self, hold: float = 4 * BAR, supply: str = "isolated") -> None:
        self.press(Act.AIR_ON)
        self.typed(Item.FIRST_AIR, 0.7 * BAR)
        self.answer(Item.REGULATOR, "agrees")
        self.answer(Item.LID_HISS, "none")
        self.typed(Item.AT_PRESSURE, hold)
        self.answer(Item.SUPPLY, supply)

    def held(self, **ready: Any) -> "Sitting":
        self.ready(**ready)
        self.close()
        self.fill()
        return self

    def isolate(self, *, press: bool = True) -> None:
        if press:
            self.press(Act.LET_DOWN)
        self.answer(Item.INLET, "shut")
        self.answer(Item.HOSE_BLED, "bled")
        self.answer(Item.HOSE, "apart")

    def vent(self, heard: str = "opened_hiss") -> None:
        self.answer(Item.EYES, "covered")
        self.answer(Item.VENT, heard)

    def fall(self, first: float = 2 * BAR, second: float = 2 * BAR, speed: str = "slowly") -> None:
        self.wait(30)
        self.typed(Item.FALL_FIRST, first)
        self.wait(60)
        self.typed(Item.FALL_SECOND, second)
        self.answer(Item.VENT_AGAIN, "open")
        self.answer(Item.FALL_SPEED, speed)

    def let_down(self) -> None:
        self.isolate()
        self.vent()
        self.fall()
        self.wait(30)
        self.typed(Item.ZERO, 0.0)

    def sign(self, sign: Sign, seen: str = "none") -> None:
        self.answer(Item.SIGN, sign)
        self.answer(Item.SIGN_SEEN, seen, sign)

    def sights(self) -> None:
        self.answer(Item.INLET_NOW, "shut")
        self.answer(Item.HOSE_NOW, "apart")
        self.answer(Item.VENT_NOW_SEEN, "open")

    def prove(self, *signs: Sign, dwell: float = 600) -> None:
        self.wait(dwell)
        for sign in signs or (Sign.VENT,):
            self.sign(sign)
        self.typed(Item.ZERO_AGAIN, 0.0)
        self.sights()

    def cleared(self) -> "Sitting":
        self.held()
        self.let_down()
        self.prove()
        self.press(Act.CONFIRM)
        return self

    def crack(self) -> None:
        assert self.state.plate is not None
        while self.item is Item.SLACKEN:
            self.answer(Item.SLACKEN, "done")
        self.answer(Item.ROCK, "free")


TWO_HOLES = Holes("north", "east", "east", "north")


def proving(sitting: Sitting | None = None) -> Sitting:
    """A run whose first zero was just typed."""
    made = (sitting or Sitting()).held()
    made.let_down()
    return made


def no_hiss(sitting: Sitting | None = None) -> Sitting:
    """A run whose vent gave no hiss while the gauge stands at hold."""
    made = (sitting or Sitting()).held()
    made.isolate()
    made.vent("opened_none")
    made.typed(Item.VENT_READING, 4 * BAR)
    return made
