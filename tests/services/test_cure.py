from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from shopassist.core.quantities import Kelvin
from shopassist.core.sheets import STAGES
from shopassist.services.cure import RECENT, CureView, StageView
from shopassist.services.cure_figures import figure_of
from tests.shops import Shop

HOUR = 3600.0


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def view_of(shop: Shop, batch: str) -> CureView:
    found = shop.cure.view(batch)
    assert found is not None
    return found


def stage_of(shop: Shop, batch: str, aim: str) -> StageView:
    found = view_of(shop, batch).stage(aim)  # type: ignore[arg-type]
    assert found is not None
    return found


def test_at_the_sheets_own_temperature_the_likely_time_is_the_sheets(shop: Shop) -> None:
    batch = shop.mixed(celsius=23.0)
    gel = stage_of(shop, batch, "hold")
    assert gel.likely is not None
    assert gel.likely - shop.now == pytest.approx(4 * HOUR, abs=1)


def test_hazards_are_gated_early_and_releases_late(shop: Shop) -> None:
    batch = shop.mixed()
    hazard, release = stage_of(shop, batch, "gel"), stage_of(shop, batch, "hold")
    assert hazard.gate is not None
    assert hazard.early is not None
    assert release.gate is not None
    assert release.late is not None
    assert hazard.gate < hazard.early
    assert release.gate > release.late


def test_colder_is_later_and_below_the_minimum_there_is_no_time(shop: Shop) -> None:
    warm, cool = shop.mixed("a", 23.0), shop.mixed("b", 17.0, "slow-clear")
    cold = shop.mixed("c", 10.0, "slow-clear")
    gates = [stage_of(shop, batch, "demould").gate for batch in (warm, cool, cold)]
    assert gates[0] is not None
    assert gates[1] is not None
    assert gates[0] < gates[1]
    assert gates[2] is None


def test_what_the_digits_count_to_follows_what_the_person_did(shop: Shop) -> None:
    batch = shop.mixed()
    aims = []
    for act in (
        lambda: None,
        lambda: shop.batches.poured(batch),
        lambda: shop.batches.load(batch, "big"),
    ):
        act()
        lead = view_of(shop, batch).lead(shop.now)
        assert lead is not None
        aims.append(lead.aim)
    assert aims == ["pressurise", "pressurise", "hold"]
    assert [s.aim for s in view_of(shop, batch).relevant()] == ["hold", "demould", "hard", "full"]
    shop.clock.suspend(8 * HOUR)
    lead = view_of(shop, batch).lead(shop.now)
    assert lead is not None
    assert lead.aim == "demould"


def test_before_pouring_the_working_time_still_matters(shop: Shop) -> None:
    batch = shop.mixed()
    assert [s.aim for s in view_of(shop, batch).relevant()][:2] == ["working", "pressurise"]
    shop.batches.poured(batch)
    assert view_of(shop, batch).relevant()[0].aim == "pressurise"
    shop.batches.not_poured(batch)
    assert view_of(shop, batch).relevant()[0].aim == "working"


def test_a_suspend_changes_no_gate_by_more_than_a_second(shop: Shop) -> None:
    batch = shop.mixed()
    before = stage_of(shop, batch, "pressurise").gate
    shop.clock.suspend(1200)
    after = stage_of(shop, batch, "pressurise").gate
    assert before is not None
    assert after == pytest.approx(before, abs=1)


def test_a_wall_clock_set_back_moves_no_hazard_later_in_real_time(shop: Shop) -> None:
    batch = shop.mixed()
    gate = stage_of(shop, batch, "pressurise").gate
    assert gate is not None
    left = gate - shop.now
    shop.clock.step(-3600)
    shop.clock.advance(60)
    moved = stage_of(shop, batch, "pressurise").gate
    assert moved is not None
    assert moved - shop.now == pytest.approx(left - 60, abs=1)


def test_a_restart_loses_nothing_and_the_time_off_counts(shop: Shop) -> None:
    batch = shop.mixed()
    gate = stage_of(shop, batch, "hold").gate
    shop.clock.reboot(1800)
    again = shop.killed()
    later = again.cure.view(batch)
    assert later is not None
    stage = later.stage("hold")
    assert stage is not None
    assert stage.gate == pytest.approx(gate, abs=31)
    again.close()


def test_a_reading_before_hardener_is_the_start_and_later_ones_bend_the_course(shop: Shop) -> None:
    batch = shop.mixed(celsius=23.0)
    shop.clock.advance(HOUR)
    shop.warm(batch, 30.0)
    hot = stage_of(shop, batch, "hold").likely
    shop.clock.advance(60)
    shop.warm(batch, 18.0)
    assert hot is not None
    assert (stage_of(shop, batch, "hold").likely or 0) > hot


def test_the_extremes_of_an_interval_are_taken_over_all_of_it(shop: Shop) -> None:
    batch = shop.mixed(celsius=None)
    start = shop.now
    shop.clock.advance(2 * HOUR)
    shop.warm(batch, 18.0, since=start)
    assert stage_of(shop, batch, "hold").forecast.done < 0.5


def test_without_a_reading_a_fresh_one_of_another_batch_speaks_for_the_shop(shop: Shop) -> None:
    shop.mixed("a", 19.0)
    other = shop.mixed("b", None, "slow-clear")
    latest = view_of(shop, other).latest
    assert latest is not None
    assert latest.middle == pytest.approx(292.15)
    shop.clock.suspend(13 * HOUR)
    assert view_of(shop, other).latest is None
    assert view_of(shop, other).ahead.low < 290


def test_an_old_reading_widens_the_outlook(shop: Shop) -> None:
    batch = shop.mixed(celsius=20.0)
    assert view_of(shop, batch).ahead.low == pytest.approx(293.15)
    shop.clock.suspend(4 * HOUR)
    assert view_of(shop, batch).ahead.low < 293


def test_a_batch_without_a_sheet_has_its_time_since_hardener_and_nothing_else(shop: Shop) -> None:
    batch = shop.mixed(sheet="none")
    shop.clock.advance(90)
    view = view_of(shop, batch)
    assert view.stages == ()
    assert view.lead(shop.now) is None
    assert view.elapsed.likely == pytest.approx(90)
    assert view.notes
    assert shop.cure.planned(batch) == ()


def test_before_hardener_there_is_a_plan_and_no_cure(shop: Shop) -> None:
    batch = shop.batches.open("Knobs")
    shop.batches.use_sheet(batch, shop.sheet(), 1)
    assert shop.cure.view(batch) is None
    plan = {stage.aim: stage.gate for stage in shop.cure.planned(batch)}
    assert plan["pressurise"] is not None
    assert shop.now < plan["pressurise"] < (plan["hold"] or 0)


def test_a_finished_batch_runs_no_more(shop: Shop) -> None:
    batch = shop.mixed()
    assert shop.cure.running() == (batch,)
    shop.batches.close(batch, "good")
    assert shop.cure.running() == ()


def test_the_answer_is_kept_for_a_minute_and_forgotten_on_news(shop: Shop) -> None:
    batch = shop.mixed()
    first = shop.cure.view(batch)
    shop.clock.advance(30)
    assert shop.cure.view(batch) is first
    shop.warm(batch, 22.0)
    assert shop.cure.view(batch) is not first


def test_small_steps_of_the_wall_clock_add_up_and_move_no_gate(shop: Shop) -> None:
    batch = shop.mixed()
    left = (stage_of(shop, batch, "hold").gate or 0.0) - shop.now
    for _ in range(4):
        shop.clock.step(1.5)
        shop.session.beat()
        assert (stage_of(shop, batch, "hold").gate or 0.0) - shop.now == pytest.approx(left, abs=1)


def test_hazards_follow_the_first_cup_and_releases_the_last(shop: Shop) -> None:
    batch = shop.mixed()
    hazard, release = stage_of(shop, batch, "gel").gate, stage_of(shop, batch, "hold").gate
    shop.clock.advance(600)
    shop.batches.hardener_in(batch, 2)
    assert stage_of(shop, batch, "gel").gate == pytest.approx(hazard, abs=1)
    later = stage_of(shop, batch, "hold").gate
    assert later is not None
    assert release is not None
    assert later - release == pytest.approx(600, rel=0.2)


def test_a_doubted_clock_counts_toward_caution(shop: Shop) -> None:
    batch = shop.mixed()
    shop.session.beat()
    shop.clock.moved = None
    shop.clock.reboot(60)
    shop.clock.step(20 * 86400)
    again = shop.killed()
    view = again.cure.view(batch)
    assert view is not None
    hazard, release = view.stage("gel"), view.stage("hold")
    assert hazard is not None
    assert release is not None
    assert hazard.gate is not None
    assert release.gate is not None
    assert hazard.passed(again.now)
    assert not release.passed(again.now)
    again.close()


@pytest.mark.parametrize("law", [{}, {"law": {"kind": "factor per 10 degrees", "factor": 2}}])
def test_every_milestone_explains_itself(shop: Shop, law: dict[str, Any]) -> None:
    batch = shop.mixed(sheet=shop.sheet(**law))
    view = view_of(shop, batch)
    for stage in view.stages:
        figure = figure_of(view, stage)
        assert figure.id == f"cure.milestone.{stage.aim}"
        assert {"temperature", "time at the sheet's temperature", "since hardener"} <= set(
            figure.inputs
        )
        assert (figure.value is None) == (figure.missing is not None)


def test_a_guessed_temperature_is_named_a_guess(shop: Shop) -> None:
    batch = shop.mixed(celsius=None)
    view = view_of(shop, batch)
    origin = figure_of(view, view.stages[0]).inputs["temperature"]
    assert getattr(origin, "kind", "") == "default"


def test_a_sheet_edited_during_a_batch_leaves_the_batch_its_own_version(shop: Shop) -> None:
    batch = shop.mixed()
    before = stage_of(shop, batch, "hold").gate
    version = shop.sheets.newest("slow-clear")
    assert version is not None
    changed = dict(version.mapping) | {"gel": {"time": "9 h", "at": "23 °C"}}
    shop.sheets.save(changed, "slow-clear")
    assert stage_of(shop, batch, "hold").gate == pytest.approx(before, abs=1)
    shop.batches.use_sheet(batch, "slow-clear", 2, "the maker's new page")
    assert (stage_of(shop, batch, "hold").gate or 0) > (before or 0)


def test_a_reading_after_hardener_counts_as_after_it_whatever_the_wall_clock_says(
    shop: Shop,
) -> None:
    batch = shop.mixed(celsius=23.0)
    shop.clock.advance(600)
    before = stage_of(shop, batch, "gel").gate
    shop.clock.step(-86_400)
    shop.warm(batch, 30.0)
    after = stage_of(shop, batch, "gel").gate
    assert before is not None and after is not None
    latest = view_of(shop, batch).latest
    assert latest is not None
    assert latest.middle == pytest.approx(303.15)
    assert after - shop.now < before - (shop.now + 86_400)


def test_an_old_reading_stays_old_when_the_wall_clock_is_set_back(shop: Shop) -> None:
    batch = shop.mixed(celsius=20.0)
    shop.clock.suspend(4 * HOUR)
    wide = view_of(shop, batch).ahead
    shop.clock.step(-86_400)
    assert view_of(shop, batch).ahead == wide


def test_a_correction_keeps_the_time_of_the_reading_it_sets_right(shop: Shop) -> None:
    batch = shop.mixed(celsius=23.0)
    seq = shop.batches.get(batch).warmth[0].row.seq
    gate = stage_of(shop, batch, "gel").gate
    shop.clock.step(86_400)
    shop.batches.correct_temperature(batch, seq, Kelvin(296.15), Kelvin(296.15), "typed wrongly")
    (reading,) = shop.batches.get(batch).warmth
    assert reading.clocked.seq == seq
    shop.batches.correct_temperature(
        batch, reading.row.seq, Kelvin(296.15), Kelvin(296.15), "once more"
    )
    assert shop.batches.get(batch).warmth[0].clocked.seq == seq
    again = stage_of(shop, batch, "gel").gate
    assert gate is not None and again is not None
    assert again - 86_400 == pytest.approx(gate, abs=1)


def test_time_of_unknown_length_between_two_readings_is_as_wide_as_a_gap(shop: Shop) -> None:
    batch = shop.mixed(celsius=27.0)
    shop.clock.moved = None
    shop.clock.advance(60)
    shop.session.beat()
    shop.clock.reboot(2 * HOUR)
    shop.clock.step(-86_400.0 * 365)
    again = shop.killed()
    again.warm(batch, 15.0)
    view = again.cure.view(batch)
    assert view is not None and view.elapsed.doubted
    hold = view.stage("hold")
    assert hold is not None and hold.gate is not None
    assert hold.gate - again.now > 4 * HOUR
    again.close()


def test_steps_with_laws_of_their_own_are_each_folded_once(shop: Shop) -> None:
    sheet = shop.bare(
        family="amine epoxy",
        working={"time": "2 h", "at": "23 °C", "time_2": "1 h", "at_2": "33 °C"},
        gel={"time": "4 h", "at": "23 °C", "time_2": "110 min", "at_2": "33 °C"},
        demould={"time": "24 h", "at": "23 °C", "time_2": "8 h", "at_2": "40 °C"},
        hard={"time": "40 h", "at": "23 °C"},
    )
    batch = shop.mixed(sheet=sheet)
    for _ in range(20):
        shop.clock.advance(600)
        shop.warm(batch, 24.0)
    view_of(shop, batch)
    runs = list(shop.cure._runs._kept.values())
    assert len(runs) == 4, "cup, gel, demould, and the film for what has no times of its own"
    before = [run.folded for run in runs]
    shop.clock.advance(600)
    shop.warm(batch, 25.0)
    view_of(shop, batch)
    shop.cure.what_if(batch, Kelvin(300.0))
    assert list(shop.cure._runs._kept.values()) == runs
    assert [run.folded for run in runs] == [count + 1 for count in before]


def test_many_cures_with_many_laws_are_kept(shop: Shop) -> None:
    """As many cures as are looked through, each step of each with a course of its own."""
    assert shop.cure._runs.most >= RECENT * len(STAGES)
