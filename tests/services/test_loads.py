import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.pot.state import Evidence, PotState
from shopassist.core.pot.words import Belief, Item
from shopassist.services.batches import BatchService
from shopassist.services.hooks import Hook
from shopassist.services.loads import EARLY, PotLoads
from shopassist.store.resources import resource
from tests.shops import Shop


class Pots:
    """Pots whose belief the test sets."""

    def __init__(self, *names: str) -> None:
        self.changed: Hook[str] = Hook()
        self.beliefs = dict.fromkeys(names, Belief.OPEN)
        self.vented: float | None = None

    def ids(self) -> tuple[str, ...]:
        return tuple(self.beliefs)

    def state(self, pot_id: str) -> PotState:
        if self.vented is None:
            return PotState(belief=self.beliefs[pot_id])
        vent = Evidence(Item.VENT, "opened_hiss", None, "", "", 0.0, 0.0, self.vented)
        return PotState(belief=self.beliefs[pot_id], evidence=(vent,))

    def turn(self, pot_id: str, *beliefs: Belief) -> None:
        for belief in beliefs:
            self.beliefs[pot_id] = belief
            self.changed.emit(pot_id)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def watched(shop: Shop, pots: Pots) -> PotLoads:
    loads = PotLoads(shop.batches, shop.cure, shop.hand)
    loads.watch(pots)  # type: ignore[arg-type]
    return loads


def pot_of(batches: BatchService, batch: str) -> str:
    return batches.get(batch).pot


def test_air_on_a_closed_pot_puts_the_batch_in_hand_into_it(shop: Shop) -> None:
    pots = Pots("big")
    watched(shop, pots)
    batch = shop.mixed()
    pots.turn("big", Belief.CLOSED)
    assert pot_of(shop.batches, batch) == ""
    pots.turn("big", Belief.PRESSURISED)
    assert pot_of(shop.batches, batch) == "big"
    assert shop.batches.get(batch).at_pressure is not None


def test_pressure_that_was_only_found_again_loads_nothing(shop: Shop) -> None:
    pots = Pots("big")
    watched(shop, pots)
    batch = shop.mixed()
    pots.turn("big", Belief.UNKNOWN, Belief.PRESSURISED)
    assert pot_of(shop.batches, batch) == ""


def test_a_batch_without_hardener_is_not_loaded(shop: Shop) -> None:
    pots = Pots("big")
    watched(shop, pots)
    batch = shop.batches.open("Plan")
    shop.hand.take_batch(batch)
    pots.turn("big", Belief.CLOSED, Belief.PRESSURISED)
    assert pot_of(shop.batches, batch) == ""


def test_with_no_batch_in_hand_nothing_is_loaded(shop: Shop) -> None:
    pots = Pots("big")
    watched(shop, pots)
    pots.turn("big", Belief.CLOSED, Belief.PRESSURISED)
    assert shop.batches.ids() == ()


def test_the_lid_off_takes_out_what_was_in_that_pot_and_no_other(shop: Shop) -> None:
    pots = Pots("big", "small")
    watched(shop, pots)
    inside, beside = shop.mixed("a"), shop.mixed("b", sheet="slow-clear")
    shop.batches.load(inside, "big")
    shop.batches.load(beside, "small")
    pots.turn("big", Belief.CLEAR, Belief.OPEN)
    assert pot_of(shop.batches, inside) == ""
    assert pot_of(shop.batches, beside) == "small"


def test_an_open_pot_told_again_changes_nothing(shop: Shop) -> None:
    pots = Pots("big")
    watched(shop, pots)
    batch = shop.mixed()
    shop.batches.load(batch, "big")
    pots.turn("big", Belief.OPEN)
    assert pot_of(shop.batches, batch) == "big"


def test_pressurise_by_the_earliest_and_hold_until_the_latest(shop: Shop) -> None:
    loads = watched(shop, Pots("big"))
    first = shop.mixed("a")
    shop.clock.advance(1200)
    second = shop.mixed("b", sheet="slow-clear")
    alone = shop.mixed("c", sheet="slow-clear")
    for batch in (first, second):
        shop.batches.load(batch, "big")
    load = loads.of("big")
    assert set(load.batches) == {first, second}
    early, late = shop.cure.view(first), shop.cure.view(second)
    assert early is not None
    assert late is not None
    by, hold = early.stage("pressurise"), late.stage("hold")
    assert by is not None
    assert hold is not None
    assert load.pressurise_by == by.gate
    assert load.hold_until == hold.gate
    assert alone not in load.batches


def test_an_empty_pot_has_no_times(shop: Shop) -> None:
    load = watched(shop, Pots("big")).of("big")
    assert load.batches == ()
    assert load.pressurise_by is None
    assert load.hold_until is None


def test_a_batch_without_a_sheet_gives_its_pot_no_times(shop: Shop) -> None:
    loads = watched(shop, Pots("big"))
    batch = shop.mixed(sheet="none")
    shop.batches.load(batch, "big")
    load = loads.of("big")
    assert load.batches == (batch,)
    assert load.hold_until is None


def test_a_batch_vented_early_says_so_once(shop: Shop) -> None:
    pots = Pots("big")
    loads = watched(shop, pots)
    batch = shop.mixed()
    pots.turn("big", Belief.CLOSED, Belief.PRESSURISED)
    hold = loads.of("big").hold_until
    assert hold is not None
    pots.turn("big", Belief.LETTING_DOWN)
    assert shop.batches.get(batch).notes == ()
    pots.vented = hold - 60
    pots.turn("big", Belief.LETTING_DOWN, Belief.PROVING)
    assert shop.batches.get(batch).notes == (EARLY,)


def test_a_batch_vented_in_time_says_nothing(shop: Shop) -> None:
    pots = Pots("big")
    loads = watched(shop, pots)
    batch, plain = shop.mixed(), shop.mixed(sheet="none")
    for each in (batch, plain):
        loads.add("big", each)
    hold = loads.of("big").hold_until
    assert hold is not None
    pots.vented = hold + 60
    pots.turn("big", Belief.PRESSURISED, Belief.LETTING_DOWN)
    assert shop.batches.get(batch).notes == shop.batches.get(plain).notes == ()


def test_other_running_batches_may_be_in_a_closed_pot_too(shop: Shop) -> None:
    assert PotLoads(shop.batches, shop.cure, shop.hand).others("big") == ()
    pots = Pots("big")
    loads = watched(shop, pots)
    second, first = shop.mixed("b"), shop.mixed("a", sheet="slow-clear")
    assert loads.others("big") == ()
    pots.turn("big", Belief.CLOSED, Belief.PRESSURISED)
    assert loads.names("big") == ("a",)
    assert loads.others("big") == ((second, "b"),)
    loads.add("big", second)
    loads.add("big", "nobody")
    assert set(loads.inside("big")) == {first, second}
    assert loads.others("big") == ()


def test_the_strictest_least_pressure_of_the_sheets_counts(shop: Shop) -> None:
    loads = watched(shop, Pots("big"))
    plain = shop.mixed("plain")
    shop.batches.load(plain, "big")
    assert loads.of("big").lowest is None
    for name, pressure in (("low", "2 bar"), ("high", "3 bar")):
        text = resource("demo", "sheets", "slow-clear.toml").read_text("utf-8")
        changes = {"name": name, "pressure": {"lowest": pressure}}
        version, problems = shop.sheets.save(tomllib.loads(text) | changes)
        assert version is not None, problems
        shop.batches.load(shop.mixed(name, sheet=version.id), "big")
    assert loads.of("big").lowest == 3e5
    assert loads.of("big").hard is not None
