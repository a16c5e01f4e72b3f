"""Stages as rows: begun, ended, taken back, edited; waits told; the week that follows."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from shopassist.core.batch import Typed
from shopassist.core.errors import ShopError
from shopassist.core.hours_text import read_hours
from shopassist.core.plan import Done
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.core.stages import STAGES
from shopassist.services.plan import field_of
from shopassist.services.plan_cure import by_cure
from tests.panes.plan.conftest import PlanBench

H = 3600.0


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[PlanBench]:
    made = PlanBench(tmp_path)
    yield made
    made.shop.close()


def hours(value: float) -> Typed:
    return Typed(f"{value} h", value * H, "Second")


def test_a_stage_is_begun_and_ended_by_rows_of_its_batch(bench: PlanBench) -> None:
    batch = bench.open()
    told: list[str] = []
    bench.service.changed.connect(told.append)
    bench.service.start(batch, "rough")
    bench.wait(1)
    bench.service.end(batch, "rough")
    assert told == [batch, batch]
    kinds = [row.kind for row in bench.shop.journal.read(f"batch/{batch}")]
    assert kinds[-2:] == ["stage_started", "stage_ended"]


def test_after_a_kill_the_wait_still_runs(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "dry", UtcSecond(bench.shop.now - 600))
    start = bench.shop.now - 600
    bench.killed()
    assert bench.service.done(bench.shop.batches.get(batch))["dry"] == Done(UtcSecond(start))


def test_what_runs_is_told_to_the_next_line_until_it_is_ended(bench: PlanBench) -> None:
    batch = bench.open("Handles")
    assert not list(bench.service.dues())
    bench.service.start(batch, "rough")
    assert not list(bench.service.dues()), "turning is no wait"
    bench.service.start(batch, "dry")
    (due,) = bench.service.dues()
    assert bench.shop.words.say(due.event) == "Dry in the oven: look"
    assert due.gate == pytest.approx(bench.shop.now + 24 * H)
    assert (due.pane, due.owner, due.subject) == ("plan", batch, "Handles")
    bench.shop.batches.close(batch, "good")
    assert not list(bench.service.dues())


def test_a_stage_begins_once_and_ends_only_while_it_runs(bench: PlanBench) -> None:
    batch, service = bench.open(), bench.service
    with pytest.raises(ShopError, match="does not run"):
        service.end(batch, "dry")
    service.start(batch, "dry")
    with pytest.raises(ShopError, match="begun already"):
        service.start(batch, "dry")
    with pytest.raises(ShopError, match="before its start"):
        service.end(batch, "dry", UtcSecond(bench.shop.now - 60))
    service.end(batch, "dry")
    with pytest.raises(ShopError, match="does not run"):
        service.end(batch, "dry")
    service.take_back(batch, "dry")
    with pytest.raises(ShopError, match="Nothing was reported"):
        service.take_back(batch, "dry")
    with pytest.raises(ShopError, match="without"):
        service.start(batch, "knitting")


def test_weigh_out_and_pot_are_never_ticked_off_in_the_plan(bench: PlanBench) -> None:
    batch = bench.shop.mixed()
    for key in ("pour", "pressure"):
        with pytest.raises(ShopError, match="its own pane"):
            bench.service.end(batch, key)
    bench.service.leave_out(batch, "pressure", out=True)
    with pytest.raises(ShopError) as refused:
        bench.service.start(batch, "rest")
    assert bench.shop.words.say(refused.value.title) == "Weigh, mix, pour, close is not over yet."


def test_a_batch_in_the_pot_is_not_demoulded_by_the_plan(bench: PlanBench) -> None:
    batch, batches = bench.shop.mixed(), bench.shop.batches
    batches.poured(batch)
    batches.load(batch, "big")
    assert bench.service.done(batches.get(batch))["pour"].end == pytest.approx(bench.shop.now)
    with pytest.raises(ShopError, match="not over yet") as refused:
        bench.service.start(batch, "rest")
    assert refused.value.field == "plan.start"
    bench.wait(20)
    batches.load(batch, "")
    bench.service.start(batch, "rest")
    done = bench.service.done(batches.get(batch))
    assert done["pressure"].end == pytest.approx(bench.shop.now)


def test_a_set_that_stabilise_follows_is_reported_there(bench: PlanBench) -> None:
    batch = bench.open()
    assert bench.service.reported_in(bench.shop.batches.get(batch), "dry") == ""
    bench.wood.weigh(batch, Kilogram(1.0), "wet")
    bench.wood.report(batch, "oven_on")
    assert bench.service.reported_in(bench.shop.batches.get(batch), "dry") == "stabilise"
    assert bench.service.done(bench.shop.batches.get(batch))["dry"].end is None
    with pytest.raises(ShopError, match="its own pane"):
        bench.service.end(batch, "dry")


def test_durations_follow_what_is_typed_and_never_cross(bench: PlanBench) -> None:
    batch = bench.open()
    set_duration = bench.service.set_duration

    def stage(key: str) -> tuple[float, ...]:
        found = next(e for e in bench.service.stages(bench.shop.batches.get(batch)) if e.key == key)
        return tuple(each / H for each in (found.low, found.likely, found.high, found.hands))

    set_duration(batch, "dry", "likely", hours(60))
    assert stage("dry") == pytest.approx((12, 60, 60, 0.5))
    with pytest.raises(ShopError) as refused:
        set_duration(batch, "dry", "high", hours(50))
    assert refused.value.field == "plan.high"
    assert "12.0 h, 60.0 h, 50.0 h" in bench.shop.words.say(refused.value.title)
    set_duration(batch, "dry", "likely", hours(0.2))
    assert stage("dry") == pytest.approx((0.2, 0.2, 48, 0.2))
    set_duration(batch, "dry", "likely", None)
    set_duration(batch, "dry", "low", hours(30))
    assert stage("dry") == pytest.approx((30, 30, 48, 0.5))
    set_duration(batch, "soak", "high", hours(15))
    assert stage("soak") == pytest.approx((12, 15, 15, 0.1))
    set_duration(batch, "turn", "hands", hours(0.5))
    assert stage("turn") == pytest.approx((0.5, 1, 2, 0.5))


def test_a_repeat_batch_takes_the_durations_over_but_not_the_due_day(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.set_duration(batch, "dry", "likely", hours(30))
    bench.service.set_due(batch, "Fri", UtcSecond(bench.shop.now + 400 * H))
    again = bench.shop.batches.get(bench.shop.batches.open(again_of=batch))
    assert again.entries[field_of("dry", "likely")].value == pytest.approx(30 * H)
    assert "plan.due" not in again.entries


def test_a_stage_that_is_left_out_holds_nothing_up(bench: PlanBench) -> None:
    batch, service = bench.open(), bench.service
    before = service.outlook(batch, bench.shop.clock.offset_at).figures["done"].value or 0.0
    service.leave_out(batch, "soak", out=True)
    after = service.outlook(batch, bench.shop.clock.offset_at).figures["done"].value or 0.0
    assert after < before
    with pytest.raises(ShopError, match="without"):
        service.start(batch, "soak")
    service.leave_out(batch, "soak", out=False)
    assert service.left_out(bench.shop.batches.get(batch)) == frozenset()
    service.start(batch, "rough")
    with pytest.raises(ShopError, match="begun already"):
        service.leave_out(batch, "rough", out=True)


def test_of_a_closed_batch_what_really_happened_remains(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "rough")
    bench.wait(2)
    bench.service.start(batch, "dry")
    bench.wait(5)
    bench.shop.batches.close(batch, "spoiled")
    outlook = bench.service.outlook(batch, bench.shop.clock.offset_at)
    assert [each.key for each in outlook.own] == ["rough", "dry"]
    assert outlook.own[1].end == pytest.approx(bench.shop.now)
    assert outlook.own[1].kind == "done"


def test_in_a_closed_batch_no_stage_begins_any_more(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "rough")
    bench.shop.batches.close(batch, "spoiled")
    with pytest.raises(ShopError, match="closed"):
        bench.service.start(batch, "putty")
    assert set(bench.service.done(bench.shop.batches.get(batch))) == {"rough"}


def test_batches_under_way_stand_beside_the_one_in_hand(bench: PlanBench) -> None:
    one, two = bench.open("One"), bench.open("Two")
    closed = bench.open("Closed")
    bench.service.start(one, "rough")
    bench.service.start(closed, "rough")
    bench.shop.batches.close(closed, "good")
    assert [each.id for each in bench.service.under_way(two)] == [one, two]
    assert [each.id for each in bench.service.under_way("")] == [one]
    outlook = bench.service.outlook(two, bench.shop.clock.offset_at)
    lathe = {key: next(p for p in placed if p.key == "rough")
             for key, placed in outlook.placed.items()}  # fmt: skip
    assert lathe[two].start >= lathe[one].hands_end


def test_a_due_day_begins_as_late_as_it_goes(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.set_due(batch, "in three weeks", UtcSecond(bench.shop.now + 21 * 24 * H))
    outlook = bench.service.outlook(batch, bench.shop.clock.offset_at)
    start = outlook.figures["start_by"].value or 0.0
    assert outlook.own[0].start == pytest.approx(start, abs=16 * H)
    assert bench.shop.now + 7 * 24 * H < start < bench.shop.now + 15 * 24 * H
    assert max(each.end for each in outlook.own) <= bench.shop.now + 21 * 24 * H
    assert outlook.due_problem is None
    bench.service.start(batch, "rough")
    begun = bench.service.outlook(batch, bench.shop.clock.offset_at)
    assert begun.figures["start_by"].value == pytest.approx(bench.shop.now)
    bench.service.set_due(batch, "", None)
    assert "start_by" not in bench.service.outlook(batch, bench.shop.clock.offset_at).figures


def test_a_due_day_that_cannot_be_kept_is_told(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.set_due(batch, "tomorrow", UtcSecond(bench.shop.now + 24 * H))
    outlook = bench.service.outlook(batch, bench.shop.clock.offset_at)
    assert outlook.due_problem is not None
    assert "Even if you start now" in outlook.due_problem.template
    assert outlook.own


def test_other_batches_may_push_a_batch_past_its_due_day(bench: PlanBench) -> None:
    for name in ("One", "Two", "Three"):
        bench.service.start(bench.open(name), "rough")
    batch = bench.open("Four")
    alone = bench.service.outlook(batch, bench.shop.clock.offset_at)
    first = min(alone.placed.items(), key=lambda each: each[0])[1]
    bench.service.set_due(batch, "soon", UtcSecond(max(each.end for each in first) + 24 * H))
    problem = bench.service.outlook(batch, bench.shop.clock.offset_at).due_problem
    assert problem is not None
    assert problem.template.startswith("With the other batches")


def test_hours_that_are_too_short_are_told_and_not_guessed_round(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.set_hours(read_hours("Mon 9:00-9:05", "plan.hours"))
    outlook = bench.service.outlook(batch, bench.shop.clock.offset_at)
    assert outlook.refused is not None
    assert "long enough" in outlook.refused.template
    bench.service.set_due(batch, "x", UtcSecond(bench.shop.now + 900 * H))
    assert bench.service.outlook(batch, bench.shop.clock.offset_at).refused is not None
    bench.killed()
    assert not bench.service.shop.is_default


def test_an_oven_that_never_runs_alone_takes_days_longer(bench: PlanBench) -> None:
    batch = bench.open()
    free = bench.service.outlook(batch, bench.shop.clock.offset_at).figures["done"].value or 0.0
    bench.service.set_attended(attended=True)
    watched = bench.service.outlook(batch, bench.shop.clock.offset_at).figures["done"].value or 0.0
    assert watched > free + 24 * H
    bench.killed()
    assert bench.service.shop.attended


def test_without_a_batch_there_is_no_figure(bench: PlanBench) -> None:
    outlook = bench.service.outlook("", bench.shop.clock.offset_at)
    assert (outlook.own, dict(outlook.figures), outlook.todo) == ((), {}, ())


def test_with_every_stage_left_out_there_is_no_figure(bench: PlanBench) -> None:
    batch = bench.open()
    for each in STAGES:
        bench.service.leave_out(batch, each.key, out=True)
    assert not bench.service.outlook(batch, bench.shop.clock.offset_at).figures


def test_under_pressure_the_cure_says_how_long_it_takes(bench: PlanBench) -> None:
    batch, batches = bench.shop.mixed(), bench.shop.batches
    assert not bench.service.by_cure(batches.get(batch))
    batches.poured(batch)
    batches.load(batch, "big")
    view = bench.shop.cure.view(batch)
    assert view is not None
    hold, demould, hard = (view.stage(a) for a in ("hold", "demould", "hard"))
    assert hold is not None and demould is not None and hard is not None
    placed = {e.key: e for e in bench.service.outlook(batch, bench.shop.clock.offset_at).own}
    assert placed["pressure"].end == pytest.approx(hold.gate)
    stages = {each.key: each for each in bench.service.stages(batches.get(batch))}
    assert stages["pressure"].high == pytest.approx((demould.gate or 0.0) - bench.shop.now)
    assert stages["pressure"].low <= stages["pressure"].likely
    rest = stages["rest"].likely + placed["pressure"].end
    assert rest == pytest.approx(hard.gate)
    bench.service.set_duration(batch, "pressure", "likely", hours(24))
    stages = {each.key: each for each in bench.service.stages(batches.get(batch))}
    assert stages["pressure"].likely == pytest.approx(24 * H), "what is typed stands above it"
    bench.wait(30)
    batches.load(batch, "")
    opened = bench.shop.now
    rest = {each.key: each for each in bench.service.stages(batches.get(batch))}["rest"].likely
    again = bench.shop.cure.view(batch)
    assert again is not None
    now_hard = again.stage("hard")
    assert now_hard is not None
    assert rest == pytest.approx(max(0.0, (now_hard.gate or 0.0) - opened), abs=1.0)


def test_where_no_time_can_be_given_our_judgement_stands(bench: PlanBench) -> None:
    for sheet in ("none", ""):
        batch = bench.shop.mixed(celsius=1.0, sheet=sheet)
        bench.shop.batches.load(batch, "big")
        stages = {e.key: e for e in bench.service.stages(bench.shop.batches.get(batch))}
        assert stages["pressure"] == STAGES[13]


def test_a_sheet_that_gives_less_says_less(bench: PlanBench) -> None:
    batch, batches = bench.shop.mixed(), bench.shop.batches
    batches.load(batch, "big")
    view = bench.shop.cure.view(batch)
    assert view is not None
    short = replace(view, stages=tuple(e for e in view.stages if e.aim not in ("demould", "hard")))
    found = by_cure(short)
    assert found.keys() == {"pressure"}
    assert found["pressure"].high == pytest.approx(found["pressure"].likely)
    assert by_cure(None) == {}


def test_the_order_of_the_stages_is_the_users(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.set_after(batch, "drill", "rough-turn")
    bench.service.set_after(batch, "mould", "True cores")
    bench.service.set_after(batch, "sand", "–")
    stages = {each.key: each for each in bench.stages(batch)}
    assert (stages["drill"].after, stages["mould"].after) == (("rough",), ("true",))
    assert stages["sand"].after == ()
    starts = {each.key: each.start for each in bench.look(batch)}
    assert starts["drill"] < starts["turn"]
    assert starts["mould"] > starts["true"]
    assert starts["sand"] < starts["dry"] + 24 * H
    bench.service.set_after(batch, "drill", "")
    assert {e.key: e for e in bench.stages(batch)}["drill"].after == ("turn",)


def test_stages_that_would_wait_for_each_other_are_refused(bench: PlanBench) -> None:
    batch = bench.open()
    with pytest.raises(ShopError, match="ring") as caught:
        bench.service.set_after(batch, "rough", "Wax")
    assert caught.value.field == "plan.after"
    with pytest.raises(ShopError, match="No stage"):
        bench.service.set_after(batch, "rough", "Rough-turn")
    assert {e.key: e for e in bench.stages(batch)}["rough"].after == ()


def test_a_ring_through_a_stage_that_is_left_out_is_refused_too(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.leave_out(batch, "putty_set", out=True)
    with pytest.raises(ShopError, match="ring"):
        bench.service.set_after(batch, "putty", "Putty sets")
    bench.service.set_after(batch, "wax", "Putty sets")
    job = {each.key: each for each in bench.service.job_stages(bench.shop.batches.get(batch))}
    assert job["wax"].after == ("putty",), "it waits for what the stage that is left out waited for"


def test_what_occupies_the_same_place_does_not_overlap(bench: PlanBench) -> None:
    batch = bench.open()

    def overlap() -> bool:
        found = {each.key: each for each in bench.look(batch)}
        return found["warm"].start < found["dry"].end and found["dry"].start < found["warm"].end

    bench.service.set_place(batch, "mould", "nothing")
    assert overlap()
    bench.service.set_place(batch, "warm", "Oven")
    assert not overlap(), "one oven for both"
    with pytest.raises(ShopError, match="Say one of"):
        bench.service.set_place(batch, "warm", "garage")
    bench.service.set_place(batch, "warm", "")
    assert overlap()


def test_order_and_place_go_with_a_repeat_and_nonsense_in_a_file_changes_nothing(
    bench: PlanBench,
) -> None:
    batch = bench.open()
    bench.service.set_after(batch, "drill", "rough-turn")
    bench.service.set_place(batch, "warm", "oven")
    again = bench.shop.batches.open(again_of=batch)
    stages = {each.key: each for each in bench.stages(again)}
    assert (stages["drill"].after, stages["warm"].place) == (("rough",), "oven")
    bench.shop.batches.enter(again, field_of("drill", "after"), Typed("moonrise", None))
    assert {e.key: e for e in bench.stages(again)}["drill"].after == ("turn",)
