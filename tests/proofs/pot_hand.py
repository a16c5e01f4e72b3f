"""An honest person with a healthy pot whose every answer goes through the services to a real file."""

import tomllib
from dataclasses import replace
from pathlib import Path

from shopassist.clock.manual import ManualClock
from shopassist.core.pot.events import Answer, Event, Press, row_of
from shopassist.core.pot.plate import Holes
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.steps import present
from shopassist.core.pot.words import Act, Belief, Item
from shopassist.store.resources import resource
from tests.proofs.pot_air import AIR_IN, HEARD, Case, Pot
from tests.proofs.pot_physics import Person
from tests.shops import Shop

HEALTHY = Case(Holes("lid, left", "lid, front", "lid, right", "wall, low", "lid, back"), True)  # fmt: skip
VENT_TIME = 60.0
MOST = 400
"""Steps after which an honest person has not come to the open lid."""
CLEARNESS = {
    Belief.OPEN: 4, Belief.CRACKED: 3, Belief.CLEAR: 3, Belief.CLOSED: 2, Belief.PROVING: 2,
    Belief.LETTING_DOWN: 1, Belief.PRESSURISED: 1, Belief.SUSPECT: 0, Belief.UNKNOWN: 0,
}  # fmt: skip
"""How much a belief lets a person do."""


def plate_text() -> dict[str, object]:
    """The demo's pot, with a rating and a relief valve for the pressure of the proofs."""
    mapping = tomllib.loads(resource("demo", "pots", "big-pot.toml").read_text("utf-8"))
    return mapping | {
        "rating": {"pressure": "5.5 bar", "temperature": "60 °C", "warmest": "20 °C"},
        "relief": {"set": "5 bar", "lifted": "2026-09-01", "bore": "6 mm"},
        "gauge": mapping["gauge"] | {"span": "7 bar", "class": 0.5},
    }


class Hand(Person):
    """Opens, fills, lets down and opens again; hears and reads what a real pot would show."""

    def __init__(self, folder: Path, clock: ManualClock | None = None) -> None:
        self.case = replace(HEALTHY, vent_time=VENT_TIME)
        self.pot = Pot(self.case)
        self.events: list[Event] = []
        self.patience = 0
        self.fall_seconds = 0.0
        self.opened_fresh = False
        self.shop = Shop(folder, clock)
        known = self.shop.pots.ids()
        self.pot_id = known[0] if known else self._new()
        self.acknowledged: dict[int, Event] = {}
        self.refused: Refusal | None = None

    def _new(self) -> str:
        version, problems = self.shop.plates.save(plate_text())
        assert version is not None, problems
        return version.id

    @property
    def state(self) -> PotState:
        return self.shop.pots.state(self.pot_id)

    @state.setter
    def state(self, _: PotState) -> None:
        raise AssertionError("the service keeps the state")

    @property
    def now(self) -> Now:
        return self.shop.pots._now(self.pot_id)

    @now.setter
    def now(self, _: Now) -> None:
        raise AssertionError("the clock is the shop's")

    def wait(self, seconds: float) -> None:
        self.pot.wait(seconds)
        self.shop.clock.advance(seconds)

    def do(self, event: Event) -> bool:
        self.refused = self.shop.pots.act(self.pot_id, event)
        if self.refused is not None:
            return False
        self.acknowledged[self.shop.pots.revision(self.pot_id)] = event
        self.events.append(event)
        return True

    # -- one step of a whole life: open, a run, open -------------------------------------------

    def step(self) -> bool:
        """Do what is asked next; False where it was refused."""
        self.wait(2)
        state = self.state
        match state.belief:
            case Belief.UNKNOWN if not self.pot.lid_on:
                return self.do(Answer(Item.LID_OFF_NOW, "inside_seen"))
            case Belief.SUSPECT:
                return self.do(Press(Act.LET_DOWN))
        item = present(state, self.now)
        if item is Item.SLACKEN:
            self.wait(30)
            return self.do(Answer(Item.SLACKEN, "done"))
        if item is Item.ROCK:
            return self.do(Answer(Item.ROCK, "hiss" if self.pot.pressure > HEARD else "free"))
        if item is Item.LID_OFF:
            self.lift()
            return self.do(Answer(Item.LID_OFF, "inside_seen"))
        return self.act(state.belief)

    def lift(self) -> None:
        """Take the lid off; with air in the pot that is the accident."""
        assert self.pot.pressure <= AIR_IN, "the lid was lifted with air in the pot"
        self.pot.lid_on = False
        self.pot.wait(1)
        self.pot.open.clear()
        self.pot.hose_on = True

    @property
    def lived(self) -> bool:
        """Whether a run is over: air went in and the lid is off again."""
        filled = any(event == Press(Act.AIR_ON) for event in self.events)
        return filled and self.state.belief is Belief.OPEN

    def lost(self) -> list[str]:
        """Acknowledged rows that are not in the file."""
        kept = {row.seq: (row.kind, row.body) for row in self._rows()}
        wanted = {seq: row_of(event) for seq, event in self.acknowledged.items()}
        return [f"row {seq} is lost" for seq, row in wanted.items() if kept.get(seq) != row]

    def _rows(self) -> tuple:  # type: ignore[type-arg]
        return self.shop.journal.read(f"pot/{self.pot_id}")

    def close(self) -> None:
        self.shop.close()
