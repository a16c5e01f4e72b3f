"""What has gone wrong at real pots, tried through the window."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtWidgets import QApplication, QLineEdit

from shopassist.core.pot.words import Belief
from shopassist.services.loads import EARLY
from tests.app.driver import Person
from tests.app.pot_bench import PotDesk
from tests.app.pot_walker import PotWalker
from tests.app.test_whole_batch import record, weigh_out

Made = Callable[..., PotDesk]


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[Made]:
    made: list[PotDesk] = []

    def make(**plate: Any) -> PotDesk:
        made.append(PotDesk(tmp_path, **plate))
        return made[-1]

    yield make
    for each in made:
        each.close()


# -- before the lid goes on ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("plate", "reason"),
    [
        ({"rating": {"pressure": None}}, "no rated pressure"),
        ({"relief": {"set": None}}, "no relief valve"),
        ({"relief": {"set": "5 bar"}}, "set above the rating"),
        ({"inlet": {"shut_off": False}}, "no shut-off valve"),
        ({"examined": {"due": "2019-01-01"}}, "examination is overdue"),
    ],
)
def test_a_pot_that_is_not_fit_is_never_closed(desk: Made, plate: Any, reason: str) -> None:
    pot = desk(**plate)
    pot.walker.until_item("run")
    assert reason in pot.notes
    with pytest.raises(AssertionError):
        pot.walker.until(Belief.CLOSED)
    assert pot.screen.refusal
    assert pot.word.startswith("OPEN")


@pytest.mark.parametrize(
    ("item", "answer"),
    [("ring", "weeps"), ("hole", "blocked"), ("gasket", "damaged"), ("clamps_round", "not_yet")],
)
def test_a_no_before_filling_leads_nowhere(desk: Made, item: str, answer: str) -> None:
    pot = desk()
    pot.walker.until_item(item)
    pot.choose(answer)
    assert pot.item == item


def test_a_clamp_too_few_ends_it(desk: Made) -> None:
    pot = desk()
    pot.walker.until_item("clamps")
    pot.type("5")
    assert pot.item == "clamps"
    assert pot.screen.refusal


def test_a_tight_fit_and_a_pot_that_will_be_carried_are_not_ready(desk: Made) -> None:
    pot = desk()
    pot.walker.until_item("dry_fit")
    pot.choose("touches")
    assert pot.item == "dry_fit"
    pot.choose("fits")
    pot.choose("moves_later")
    assert pot.item == "place"


@pytest.mark.parametrize("run", ["casting", "test"])
def test_no_run_of_any_kind_goes_above_the_limit(desk: Made, run: str) -> None:
    pot = desk()
    pot.walker.until_item("run")
    pot.choose(run)
    for pressure in ("4.2", "3.6"):
        pot.type(pressure)
        assert pot.screen.refusal.startswith("Hold at 3.43 bar or less")
        assert pot.item == "hold_pressure"


def test_a_limit_that_warming_governs_says_so(desk: Made) -> None:
    pot = desk(rating={"warmest": "45 °C", "coldest_fill": "20 °C"})
    pot.walker.until_item("run")
    assert "warming up governs" in pot.notes
    rows = pot.rows("vessel")
    assert "Warming up governs" in rows["pot.vessel.limit"]
    assert "oven" in rows["pot.vessel.warm"] or "fill lower" in rows["pot.vessel.warm"]


def test_a_gauge_not_compared_for_a_year_is_flagged(desk: Made) -> None:
    pot = desk(gauge={"tested": "2019-01-01"})
    pot.walker.until_item("run")
    assert "last compared more than a year ago" in pot.notes


# -- air on ----------------------------------------------------------------------------------------


def test_a_gauge_that_never_leaves_zero_means_pressurised(desk: Made) -> None:
    pot = desk()
    pot.walker.until_item("first_air")
    pot.type("0.1")
    assert pot.screen.belief is Belief.LETTING_DOWN
    assert pot.screen.branch_key == "fall_not_seen"


def test_a_hiss_at_the_lid_is_reseated_and_never_tightened(desk: Made) -> None:
    pot = desk()
    pot.walker.until_item("lid_hiss")
    pot.choose("some")
    assert pot.screen.branch_key == "reseat"
    assert "Never tighten under pressure" in pot.notes


def test_over_the_rating_is_let_down_and_locks_the_plate(desk: Made) -> None:
    pot = desk()
    pot.walker.until_item("at_pressure")
    pot.type("4.3")
    assert pot.screen.branch_key == "over_rating"
    assert pot.screen.belief is Belief.LETTING_DOWN
    pot.wait(1)
    pot.person.sequence("F2")  # unanswered, its alarm would fill the window before the next reading
    pot.walker.until(Belief.OPEN)
    pot.walker.until_item("run")
    assert "examination note" in pot.notes
    assert pot.person.visible("pot.examined_by")


# -- held ------------------------------------------------------------------------------------------


def test_a_pot_that_holds_only_on_supply_is_flagged(desk: Made) -> None:
    pot = desk()
    pot.walker.answers["supply"] = "connected"
    pot.held()
    assert "Supply connected: stay by it" in pot.notes
    pot.wait(700)
    for reading in ("2.76", "2.40"):
        pot.choose("free.leak_start" if reading == "2.76" else "free.leak_end")
        pot.type(reading, "20 °C")
        pot.wait(1800)
    assert "Leak over the allowance" in pot.notes
    assert "do not leave the pot like this" in pot.notes
    assert "dry run, air alone, before the next resin" in pot.notes


def test_a_slow_leak_is_forecast_with_its_two_ends(desk: Made) -> None:
    pot = desk().held()
    pot.choose("free.leak_start")
    pot.type("2.76", "20 °C")
    pot.wait(3600)
    pot.choose("free.leak_end")
    pot.type("2.60", "20 °C")
    below = pot.rows("air")["pot.air.below"]
    assert below.count(":") >= 2


def test_a_cold_night_is_no_leak(desk: Made) -> None:
    pot = desk().held()
    pot.choose("free.leak_start")
    pot.type("2.76", "25 °C")
    pot.wait(8 * 3600)
    pot.choose("free.leak_end")
    pot.type("2.57", "10 °C")
    rows = pot.rows("air")
    assert rows["pot.air.explained"].startswith("0.19 bar")
    assert rows["pot.air.unexplained"].startswith("0.00")


def test_it_must_not_be_carried_until_it_is_vented(desk: Made) -> None:
    pot = desk().held()
    assert "Do not move the pot before it is vented" in pot.notes


def test_pressurised_since_is_shown_to_whoever_opens_the_program(
    tmp_path: Path, qapp: QApplication
) -> None:
    pot = PotDesk(tmp_path)
    pot.person.find(QLineEdit, "pot.who").setFocus()
    pot.person.keys("the turner")
    pot.person.enter()
    pot.held()
    clock = pot.person.clock
    since = pot.person.program.window.pot_line.shown.detail
    assert "air in since" in since
    pot.person.kill()
    clock.advance(5 * 3600.0)
    again = Person(tmp_path, clock)
    line = again.program.window.pot_line.shown
    assert line.word == "PRESSURISED"
    assert since.split("since ")[1][:5] in line.detail
    assert "by the turner" in line.detail
    assert again.program.presenters.pot.screen.who == ""
    again.close()


# -- letting down ----------------------------------------------------------------------------------


def test_nearly_empty_is_not_empty(desk: Made) -> None:
    pot = desk().held().let_down_to("zero")
    for reading in ("1.2", "0.3", "0.15"):
        pot.type(reading)
        assert pot.item == "zero", reading
        assert pot.screen.belief is Belief.LETTING_DOWN
    pot.type("1.72")
    assert pot.item == "inlet", "it rose: isolate again"
    rows = pot.person.program.services.pots.state(pot.pot)
    assert rows.grant is None


def test_the_hose_comes_off_after_it_was_bled_and_never_before(desk: Made) -> None:
    pot = desk().held().let_down_to("hose_bled")
    assert "apart" not in [each.id for each in pot.screen.answers]
    pot.choose("not_bled")
    assert pot.item == "hose_bled"
    pot.choose("bled")
    assert pot.item == "hose"


def test_a_zero_alone_never_gives_the_word(desk: Made) -> None:
    pot = desk().held().let_down_to("dwell")
    pot.walker.until_item("sign")
    assert "third sign is owed" in pot.notes
    assert pot.word == "PROVING"
    for sign in ("vent", "test_valve"):
        assert pot.word == "PROVING"
        pot.choose(sign)
        pot.choose("none")
    pot.walker.until_item("confirm")
    assert pot.word == "PROVING"


def test_the_vent_stays_open_and_nothing_shortens_the_wait(desk: Made) -> None:
    pot = desk().held().let_down_to("dwell")
    digits = pot.screen.wait_digits
    for keys in ("1", "2", "Return", "Space", "Esc"):
        pot.walker.keys(keys)
    assert (pot.item, pot.screen.wait_digits) == ("dwell", digits)


def test_vented_early_marks_the_batch(tmp_path: Path, qapp: QApplication) -> None:
    person = Person(tmp_path)
    person.press("limits.read")
    record(person, "resin", "slow-clear")
    record(person, "pot", "big-pot")
    weigh_out(person)
    walker = PotWalker(person)
    walker.go()
    walker.until(Belief.PRESSURISED)
    notes = " ".join(walker.screen.notes)
    assert "Hold at least until" in notes
    caption = person.program.presenters.cure.screen.wait.caption
    (held,) = re.findall(r"until ((?:\w+ )?\d\d:\d\d)", caption)
    assert f"until {held}:" in notes  # to the minute the hour that the cure says
    batch = person.program.services.batches.get(person.program.services.hand.batch)
    assert "Hold until" in person.program.window.next_line.shown.event
    walker.keys("F8")
    assert "bubbles regrow" in " ".join(walker.screen.notes)
    walker.until_item("fall_first")
    assert EARLY in person.program.services.batches.get(batch.id).notes
    person.close()
