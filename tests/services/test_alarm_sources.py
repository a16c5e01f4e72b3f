"""Odd pots and waits: what each calls for."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.alarms.table import TABLE
from shopassist.core.messages import say
from shopassist.core.pot.state import Evidence, PotState
from shopassist.core.pot.words import Belief, Branch, Item
from shopassist.core.quantities import UtcSecond
from shopassist.services import alarm_sources
from shopassist.services.next import Due, Rank
from shopassist.services.pot import Load
from tests.core.pot.bench import plate
from tests.shops import Shop

NOW = 1_790_000_000.0
BAR = 1e5


class Pots:
    """Pots in whatever state the test says."""

    def __init__(self, state: PotState, load: Load | None = None) -> None:
        self._state, self._load = state, load or Load()

    def ids(self) -> tuple[str, ...]:
        return ("big",)

    def name(self, _: str) -> str:
        return "Big pot"

    def state(self, _: str) -> PotState:
        return self._state

    def load(self, _: str) -> Load:
        return self._load


def read(item: Item, bar: float, age: float) -> Evidence:
    return Evidence(item, "", bar * BAR, "", "", age, 0, NOW + age, "bar", 293.15)


def kinds(state: PotState, load: Load | None = None) -> list[tuple[str, float]]:
    source = alarm_sources.of_pots(Pots(state, load))  # type: ignore[arg-type]
    return [(cause.kind, float(cause.begins)) for cause in source(frozenset())]


@pytest.mark.parametrize(
    ("branch", "kind"),
    [
        (Branch.OVER_RATING, "over_rating"),
        (Branch.TOO_HOT, "pot_hot"),
        (Branch.RELIEF_LIFTED, "relief_lifted"),
    ],
)
def test_a_pot_on_a_dangerous_branch_calls_until_it_is_open(branch: Branch, kind: str) -> None:
    last = read(Item.READING, 5.0, 60.0)
    state = PotState(belief=Belief.PRESSURISED, branch=branch, last=last)
    assert kinds(state) == [(kind, NOW + 60.0)]
    assert kinds(PotState(belief=Belief.OPEN, branch=branch)) == []


def test_a_suspect_pot_calls_even_if_nothing_was_read() -> None:
    assert kinds(PotState(belief=Belief.SUSPECT)) == [("suspect", 0.0)]


@pytest.mark.parametrize(("fall", "found"), [(0.5, ["pressure_fall"]), (0.0, [])])
def test_a_leak_over_its_allowance_calls_while_under_pressure(
    fall: float, found: list[str]
) -> None:
    evidence = (read(Item.LEAK_START, 3.0, 0.0), read(Item.LEAK_END, 3.0 - fall, 3600.0))
    state = PotState(belief=Belief.PRESSURISED, plate=plate(), evidence=evidence)
    assert [kind for kind, _ in kinds(state)] == found


def test_a_pot_that_nobody_let_down_is_told_half_a_day_after_its_hold() -> None:
    load = Load(("a",), None, UtcSecond(NOW))
    assert kinds(PotState(belief=Belief.PRESSURISED), load) == [("pot_long", NOW + 12 * 3600)]
    assert kinds(PotState(belief=Belief.OPEN), load) == []


def test_waits_of_others_are_told_when_they_are_over() -> None:
    dues = (
        Due(say("bake from now"), UtcSecond(NOW), None, Rank.RELEASE, "stabilise", "Set", "s1"),
        Due(say("someday"), None, None, Rank.LATER, "stabilise", "Set", "s2"),
    )
    (cause,) = alarm_sources.waits(lambda: dues)(frozenset())
    assert (cause.kind, cause.key, cause.begins) == ("wait_over", "wait_over/s1", NOW)


def test_a_stage_of_the_plan_is_shown_and_not_sounded() -> None:
    due = Due(say("Soak: look"), UtcSecond(NOW), None, Rank.LATER, "plan", "Handles 1", "0003")
    (cause,) = alarm_sources.waits(lambda: [due])(frozenset())
    assert cause.kind == "stage_over"
    assert TABLE[cause.kind].silent


# -- cures -----------------------------------------------------------------------------------


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def of_cures(shop: Shop) -> set[str]:
    source = alarm_sources.cures(shop.cure, shop.pots)
    return {cause.kind for cause in source(frozenset())}


def test_a_shop_without_a_pot_is_not_called_for_pressure(shop: Shop) -> None:
    shop.mixed()
    assert not any(kind.startswith("pressurise") for kind in of_cures(shop))
    shop.plate()
    assert "pressurise_soon" in of_cures(shop)


def test_what_was_poured_is_not_called_for_again(shop: Shop) -> None:
    batch = shop.mixed()
    assert "working_soon" in of_cures(shop)
    shop.batches.poured(batch)
    assert "working_soon" not in of_cures(shop)


def test_a_cure_without_sheet_or_reading_asks_for_nothing(shop: Shop) -> None:
    shop.mixed(celsius=None, sheet="none")
    assert of_cures(shop) == set()


def test_the_newest_reading_is_held_against_the_sheet(shop: Shop) -> None:
    batch = shop.mixed(celsius=10.0)
    assert "too_cold" in of_cures(shop)
    shop.clock.advance(60)
    shop.warm(batch, 40.0)
    assert "too_warm" in of_cures(shop)
    shop.clock.advance(60)
    shop.warm(batch, 23.0)
    assert not {"too_cold", "too_warm"} & of_cures(shop)


def test_a_batch_that_nobody_closed_asks_for_no_temperature_after_two_weeks(shop: Shop) -> None:
    shop.mixed(celsius=10.0)
    assert "reading_old" in of_cures(shop)
    for _ in range(15):
        shop.clock.suspend(86_400.0)
    assert "reading_old" not in of_cures(shop)


def test_a_doubted_clock_is_told_with_the_batch_it_concerns(shop: Shop) -> None:
    shop.mixed()
    shop.clock.moved = None
    shop.clock.reboot(600)
    shop.clock.step(-86_400.0 * 3)
    again = shop.killed()
    assert "clock_doubted" in of_cures(again)
    again.close()


def test_a_demould_that_the_sheet_does_not_give_is_not_told(shop: Shop) -> None:
    shop.mixed(sheet=shop.sheet(demould={}, hard={}))
    assert not {"demould", "reading_old"} & of_cures(shop)
