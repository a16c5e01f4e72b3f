"""Ovens that stop, pieces one by one, soft pieces and mistakes on the path of a set."""

from dataclasses import replace

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.stabilising import is_short, not_comparable
from shopassist.core.wood_set import fold_all_set
from tests.core.wood_bench import HOUR, TERMS, Bench


def test_a_missed_winding_is_a_gap_that_moves_the_next_weighing() -> None:
    """Case S06: an oven of two hours; hours that it stood off do not count."""
    bench = Bench(replace(TERMS, cut_off=Second(2 * HOUR), dry_for=Second(12 * HOUR)))
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    wait = bench.here.wait
    assert wait is not None
    assert (wait.key, wait.by) == ("wind", True)
    assert wait.not_before == pytest.approx(bench.now + 2 * HOUR - 600)
    bench.wait(2.5)
    off = bench.here.wait
    assert off is not None
    assert off.text.template.startswith("The oven is off")
    assert off.not_before == pytest.approx(bench.now - HOUR / 2)
    bench.say("oven_wound")
    assert bench.here.why is not None
    assert "does not count" in bench.here.why.template
    found = bench.here.dryness
    assert found is not None
    assert found.next_at == pytest.approx(bench.now + 10 * HOUR)
    bench.say("oven_cut")
    assert bench.here.wait is not None
    assert bench.here.wait.not_before == pytest.approx(bench.now)


def test_two_weighings_in_a_cold_oven_prove_nothing() -> None:
    bench = Bench()
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    bench.wait(20)
    bench.weigh(365.2, "oven")
    bench.say("oven_cut")
    bench.wait(6)
    bench.weigh(365.1, "oven")
    assert bench.here.dryness is not None
    assert not bench.here.dryness.dry


def test_a_bake_that_stood_off_is_heated_anew() -> None:
    terms = replace(TERMS, heat_up=Second(2 * HOUR), hold=Second(3 * HOUR))
    bench = Bench(terms).wrapped()
    bench.say("bake_on")
    bench.wait(2)
    bench.say("core_hot")
    bench.say("oven_cut")
    assert bench.here.key == "heat_up"
    assert bench.here.what.template.startswith("Start the oven again")
    bench.wait(1)
    bench.say("oven_wound")
    assert bench.here.why is not None
    assert bench.here.wait is not None
    assert bench.here.wait.not_before == pytest.approx(bench.now + 5 * HOUR)
    bench.wait(4)
    bench.say("bake_off")
    assert bench.here.why is not None
    assert "soft" in bench.here.why.template


def test_a_bake_with_a_clock_reminds_before_its_hold_is_over() -> None:
    terms = replace(
        TERMS, heat_up=Second(2 * HOUR), hold=Second(3 * HOUR), cut_off=Second(2 * HOUR)
    )
    bench = Bench().wrapped()
    bench.terms = terms
    bench.say("bake_on")
    assert bench.here.wait is not None
    assert bench.here.wait.key == "wind"
    bench.wait(3)
    assert bench.here.what.template.startswith("Start the oven again")
    long = Bench().wrapped()
    long.terms = replace(terms, cut_off=Second(9 * HOUR))
    long.say("bake_on")
    assert long.here.wait is not None
    assert long.here.wait.key == "bake"


@pytest.mark.parametrize(
    ("hours", "probe", "short"), [(5.5, False, False), (4.0, False, True), (4.5, True, False)]
)
def test_a_short_bake_is_told(hours: float, probe: bool, short: bool) -> None:
    terms = replace(TERMS, heat_up=Second(2 * HOUR), hold=Second(3 * HOUR))
    bench = Bench(terms).wrapped()
    bench.say("bake_on")
    bench.wait(1)
    if probe:
        bench.say("core_hot")
    bench.wait(hours - 1)
    bench.say("bake_off")
    assert is_short(bench.state, terms) is short


def test_how_long_a_bake_was_needs_terms_and_an_end() -> None:
    assert not is_short(Bench().wrapped().state, replace(TERMS, hold=Second(HOUR)))
    bench = Bench(replace(TERMS, hold=Second(HOUR))).wrapped()
    bench.say("bake_on")
    bench.wait(1)
    bench.say("bake_off")
    assert is_short(bench.state, bench.terms)
    assert not is_short(bench.state, TERMS)


def test_soft_pieces_go_back_and_hard_ones_do_not() -> None:
    bench = Bench().wrapped()
    bench.say("bake_on")
    bench.wait(3)
    bench.say("bake_off")
    bench.weigh(600.0, "baked")
    keys = [bench.here.key]
    with pytest.raises(ShopError, match="soft"):
        bench.say("bake_on")
    now = UtcSecond(bench.now)
    assert not_comparable(bench.state, bench.terms, now) is None
    bench.say("soft")
    assert not_comparable(bench.state, bench.terms, now) is not None
    assert bench.here.why is not None
    bench.wait(1)
    bench.say("bake_on")
    keys.append(bench.here.key)
    bench.wait(3)
    bench.say("bake_off")
    keys.append(bench.here.key)
    assert keys == ["done", "heat_up", "after"]
    bench.weigh(599.0, "baked")
    bench.say("hard")
    assert not_comparable(bench.state, bench.terms, now) is None


def test_a_base_that_was_not_dry_is_no_measure() -> None:
    bench = Bench()
    now = UtcSecond(bench.now)
    why = not_comparable(bench.state, bench.terms, now)
    assert why is not None
    assert "dry mass" in why.template
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    bench.wait(5)
    bench.weigh(380.0, "oven")
    wet = not_comparable(bench.state, bench.terms, UtcSecond(bench.now))
    assert wet is not None
    assert "not proved dry" in wet.template


def test_a_piece_that_still_loses_keeps_its_set_in_the_oven() -> None:
    bench = Bench()
    for when, hours, masses in (
        ("wet", 0, (200.0, 212.6)), ("oven", 20, (165.3, 200.0)), ("oven", 4, (165.3, 199.7)),
        ("oven", 4, (165.3, 199.6)),
    ):  # fmt: skip
        bench.wait(hours)
        for number, grams in enumerate(masses, 1):
            bench.weigh(grams, when, piece=number, of=2)
        if when == "wet":
            bench.say("oven_on")
        elif bench.now < 25 * HOUR:
            assert bench.here.dryness is not None
            assert not bench.here.dryness.dry
            if len(bench.state.log()) > 2:
                assert bench.here.dryness.text.template.startswith("Piece")
    assert bench.here.dryness is not None
    assert bench.here.dryness.dry
    assert bench.state.weighed[-1].mass == pytest.approx(0.3649)
    assert bench.state.weighed[-1].each == (0.1653, 0.1996)


def test_a_round_of_pieces_is_complete_or_no_weighing() -> None:
    bench = Bench()
    first = bench.weigh(200.0, "wet", piece=1, of=3)
    bench.weigh(201.0, "wet", piece=1, of=3)
    bench.weigh(190.0, "wet", piece=3, of=3)
    assert bench.here.key == "weigh"
    assert len(bench.state.pieces) == 2
    bench.weigh(None, "wet", corrects=first + 1)
    assert [each.number for each in bench.state.pieces] == [3]
    bench.weigh(580.0, "wet")
    assert not bench.state.pieces


def test_what_was_reported_by_mistake_never_happened() -> None:
    bench = Bench()
    rows = [bench.row("wood_weighed", mass=0.4126, when="wet")]
    rows.append(bench.row("wood_event", event="oven_on"))
    rows.append(bench.row("wood_event", event="oven_cut"))
    rows.append(bench.row("wood_event", event="oven_cut", undone=True, corrects=rows[-1].seq))
    state = fold_all_set(rows)
    assert state.runs[-1].end is None
    assert state.at("oven_on") is not None
    assert state.at("oven_cut") is None


def test_the_hours_of_a_pump_are_its_runs() -> None:
    bench = Bench().covered()
    bench.say("pump_on")
    bench.wait(1)
    bench.say("power_cut")
    bench.say("gauge_read")
    bench.say("pump_on")
    bench.wait(2)
    bench.say("air_in")
    bench.say("air_in")
    assert [end - start for start, end in bench.state.pumped] == [HOUR, 2 * HOUR]
