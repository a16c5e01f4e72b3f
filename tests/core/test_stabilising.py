"""The one path from wet wood to a known uptake."""

from dataclasses import replace

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.quantities import Second
from shopassist.core.stabilise_gates import NEEDS, need_turn
from shopassist.core.stabilising import STEPS, dry_mass, stand
from shopassist.core.wood_set import EVENTS, WoodSet, fold_all_set
from tests.core.wood_bench import HOUR, TERMS, Bench


def test_the_whole_path_is_walked_in_its_order() -> None:
    bench = Bench(replace(TERMS, hold=Second(2 * HOUR)))
    seen = [bench.here.key]
    bench.weigh(412.6, "wet")
    seen.append(bench.here.key)
    bench.say("oven_on")
    bench.wait(20)
    bench.weigh(365.3, "oven")
    bench.wait(4)
    bench.weigh(365.1, "oven")
    bench.say("oven_off")
    seen.append(bench.here.key)
    bench.wait(2)
    bench.say("cool")
    seen.append(bench.here.key)
    bench.weigh(365.2, "bath")
    bench.say("covered")
    seen.append(bench.here.key)
    bench.say("pump_on")
    bench.say("foam_down")
    bench.wait(2.5)
    bench.say("quiet")
    bench.wait(0.2)
    bench.say("air_in")
    seen.append(bench.here.key)
    bench.wait(12)
    bench.say("out_of_bath")
    seen.append(bench.here.key)
    bench.weigh(640.0, "soaked")
    bench.say("wrapped")
    seen.append(bench.here.key)
    bench.say("bake_on")
    bench.wait(2)
    bench.say("core_hot")
    seen.append(bench.here.key)
    bench.wait(2)
    bench.say("bake_off")
    seen.append(bench.here.key)
    bench.weigh(600.0, "baked")
    seen.append(bench.here.key)
    assert seen == [*(key for key, _ in STEPS), "done"]
    assert bench.here.number == len(STEPS)
    with pytest.raises(ShopError, match="done"):
        bench.say("oven_on")


def test_one_hour_is_not_constant_weight() -> None:
    """Case S03."""
    bench = Bench()
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    bench.wait(1)
    bench.weigh(400.0, "oven")
    bench.wait(1)
    bench.weigh(400.0, "oven")
    assert bench.here.dryness is not None
    assert not bench.here.dryness.dry
    with pytest.raises(ShopError, match="Not dry"):
        bench.say("oven_off")


def test_a_wet_burl_keeps_the_vacuum_locked() -> None:
    """Case S01: no pump before it is dry by weight."""
    bench = Bench()
    bench.weigh(500.0, "wet")
    with pytest.raises(ShopError, match="not due"):
        bench.say("pump_on")
    with pytest.raises(ShopError, match="not due"):
        bench.say("covered")


def test_dry_wood_is_to_be_taken_out() -> None:
    bench = Bench()
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    bench.wait(20)
    bench.weigh(365.3, "oven")
    bench.wait(4)
    bench.weigh(365.1, "oven")
    assert "Take it out" in bench.here.what.template


def test_an_oven_that_switches_itself_off_is_wound_again() -> None:
    """Case S06: announced at 1:50 of 2:00, each winding anew."""
    bench = Bench(replace(TERMS, cut_off=Second(2 * HOUR)))
    bench.weigh(412.6, "wet")
    bench.say("oven_on")
    began = bench.now
    wait = bench.here.wait
    assert wait is not None
    assert wait.key == "wind"
    assert wait.not_before == pytest.approx(began + 2 * HOUR - 600)
    bench.wait(1.9)
    bench.say("oven_wound")
    again = bench.here.wait
    assert again is not None
    assert again.since == pytest.approx(bench.now)
    assert len(bench.state.windings) == 2


def test_wood_that_took_up_water_goes_back_to_the_oven() -> None:
    bench = Bench().dried()
    bench.wait(8)
    bench.say("cool")
    bench.weigh(367.0, "bath")
    assert "dry it again" in bench.here.what.template
    with pytest.raises(ShopError, match="back into the oven"):
        bench.say("covered")
    bench.say("oven_on")
    assert bench.here.key == "dry"
    assert dry_mass(bench.state) == pytest.approx(0.3651)


def test_the_bath_wants_a_fresh_weighing() -> None:
    bench = Bench().dried()
    bench.say("cool")
    assert "once more" in bench.here.what.template
    with pytest.raises(ShopError, match="Weigh it first"):
        bench.say("covered")


def test_the_vacuum_ends_on_what_is_seen() -> None:
    """Case S13."""
    bench = Bench().covered()
    bench.say("pump_on")
    wait = bench.here.wait
    assert wait is not None
    assert wait.not_before is None
    with pytest.raises(ShopError, match="foam"):
        bench.say("quiet")
    bench.say("foam_down")
    bench.say("quiet")
    bench.say("bubbles")
    assert bench.state.at("quiet") is None
    bench.wait(2.5)
    bench.say("quiet")
    quiet = bench.here.wait
    assert quiet is not None
    assert quiet.not_before == pytest.approx(bench.now + 600)


def test_the_soak_lasts_twice_the_vacuum_and_is_not_cut_short() -> None:
    bench = Bench().soaking()
    wait = bench.here.wait
    assert wait is not None
    assert wait.not_before == pytest.approx(bench.now + 2 * 2.75 * HOUR)
    bench.wait(4)
    with pytest.raises(ShopError, match="not over"):
        bench.say("out_of_bath")
    bench.wait(2)
    bench.say("out_of_bath")
    assert bench.here.key == "wrap"


def test_the_sheet_may_ask_for_a_longer_soak() -> None:
    bench = Bench(replace(TERMS, soak=Second(24 * HOUR))).soaking()
    wait = bench.here.wait
    assert wait is not None
    assert wait.not_before == pytest.approx(bench.now + 24 * HOUR)


def test_after_a_power_cut_the_chamber_is_not_known() -> None:
    """Case S16."""
    bench = Bench().covered()
    bench.say("pump_on")
    bench.wait(1)
    bench.say("power_cut")
    assert "Read the gauge" in bench.here.what.template
    bench.say("gauge_read")
    assert "start the pump" in bench.here.what.template
    bench.say("pump_on")
    assert bench.state.at("power_cut") is None
    assert bench.here.wait is not None
    assert bench.here.wait.since == pytest.approx(bench.now)


def test_letting_air_in_is_never_refused() -> None:
    for bench in (Bench(), Bench().dried(), Bench().covered(), Bench().wrapped()):
        bench.say("air_in")
    early = Bench()
    early.say("air_in")
    assert early.here.key == "weigh"


def test_a_soak_without_a_pump_is_as_long_as_the_sheet_says() -> None:
    bench = Bench().covered()
    bench.say("air_in")
    wait = bench.here.wait
    assert wait is not None
    assert wait.not_before == pytest.approx(bench.now)


def test_the_bake_counts_from_the_core_not_from_the_door() -> None:
    """Case S07."""
    terms = replace(TERMS, heat_up=Second(2 * HOUR), hold=Second(3 * HOUR))
    bench = Bench(terms).wrapped()
    bench.say("bake_on")
    before = bench.here
    assert before.wait is not None
    assert before.wait.not_before == pytest.approx(bench.now + 5 * HOUR)
    bench.wait(1.5)
    bench.say("core_hot")
    assert (before.key, bench.here.key) == ("heat_up", "hold")
    assert bench.here.wait is not None
    assert bench.here.wait.not_before == pytest.approx(bench.now + 3 * HOUR)


def test_without_sizes_or_hold_nothing_is_promised() -> None:
    bench = Bench().wrapped()
    bench.say("bake_on")
    assert bench.here.wait is not None
    assert bench.here.wait.not_before is None
    assert "probe" in bench.here.what.template
    bench.say("core_hot")
    assert bench.here.wait is not None
    assert bench.here.wait.not_before is None
    known = Bench(replace(TERMS, heat_up=Second(HOUR))).wrapped()
    known.say("bake_on")
    assert known.here.wait is not None
    assert known.here.wait.not_before is None


def test_a_weight_is_corrected_by_a_later_row() -> None:
    bench = Bench()
    first = bench.weigh(412.6, "wet")
    bench.weigh(402.6, "wet", corrects=first)
    assert [each.mass for each in bench.state.weighed] == [pytest.approx(0.4026)]
    bench.weigh(None, "wet", corrects=bench.state.weighed[0].seq)
    assert bench.here.key == "weigh"
    assert dry_mass(bench.state) is None


def test_what_is_not_known_changes_nothing() -> None:
    bench = Bench()
    bench.take("poured")
    bench.take("wood_event", event="danced")
    bench.take("wood_weighed", mass=0.1, when="someday")
    assert bench.state == WoodSet()
    bench.take("wood_event", event="oven_on")
    bench.take("wood_event", event="oven_on", undone=True)
    assert bench.state.at("oven_on") is None


def test_readings_are_kept_with_their_times() -> None:
    bench = Bench()
    bench.take("wood_vacuum", vacuum=90000.0)
    bench.take("wood_meter", shown=0.06, floor=0.06)
    bench.take("wood_oven", temp=376.0)
    bench.take("wood_probe", temp=361.0)
    assert bench.state.probes[0][1] == pytest.approx(361.0)
    state = fold_all_set([bench.row("wood_vacuum", vacuum=1.0), bench.row("wood_oven")])
    assert len(state.vacuums) == 1
    assert bench.state.meters[0].floor == pytest.approx(0.06)
    assert bench.state.oven_temps[0][1] == pytest.approx(376.0)
    assert bench.state.oven_dial is None
    bench.take("wood_oven", temp=378.0, dial=373.0)
    assert bench.state.oven_dial == pytest.approx(373.0)


def test_dry_mass_is_that_of_the_oven_where_the_bath_agrees() -> None:
    bench = Bench().covered()
    assert dry_mass(bench.state) == pytest.approx(0.3651)
    only_bath = Bench()
    only_bath.weigh(300.0, "bath")
    assert dry_mass(only_bath.state) == pytest.approx(0.300)


def test_what_weighs_less_at_the_bath_goes_in_with_that_weight() -> None:
    """Unless it went back into the oven after it: then the oven's newer weight counts."""
    bench = Bench().dried()
    bench.weigh(350.0, "bath")
    assert dry_mass(bench.state) == pytest.approx(0.350)
    bench.wait(1)
    bench.weigh(360.0, "oven")
    assert dry_mass(bench.state) == pytest.approx(0.360)


@pytest.mark.parametrize(
    ("dry", "words"),
    [(None, "No uptake: there is no dry mass. The cores go on to Blank."),
     (600.1, "No uptake: it weighs less than its dry wood. Look at both weights."),
     (600.0, "Uptake is known. The cores go on to Blank.")],
)  # fmt: skip
def test_an_uptake_is_known_where_both_weights_are_and_agree(dry: float | None, words: str) -> None:
    bench = Bench()
    if dry is not None:
        bench.weigh(dry, "oven")
    bench.take("wood_event", event="bake_off")
    bench.weigh(600.0, "baked")
    assert bench.here.what.template == words


def test_every_event_has_its_place_on_the_path() -> None:
    assert set(NEEDS) == set(EVENTS)
    keys = {*(key for key, _ in STEPS), "done"}
    assert all(set(steps) <= keys for steps in NEEDS.values())


def test_no_event_is_accepted_at_a_step_where_it_has_no_place() -> None:
    for bench in (Bench(), Bench().dried(), Bench().covered(), Bench().soaking()):
        here = stand(bench.state, bench.terms, bench.now)  # type: ignore[arg-type]
        for event in EVENTS:
            if event != "air_in" and here.key not in NEEDS[event]:
                with pytest.raises(ShopError):
                    need_turn(bench.state, bench.terms, event, bench.now)  # type: ignore[arg-type]
