"""Words of the Plan pane: bars, the day's list, and what is reported by it."""

import pytest

from shopassist.core.figures import Figure
from shopassist.core.quantities import Kilogram
from shopassist.panes.plan.screen import BarRow
from shopassist.widgets.shown import Tick
from tests.panes.plan.conftest import PlanBench

H = 3600.0


def rows(bench: PlanBench) -> dict[str, BarRow]:
    return {each.key: each for each in bench.pane.screen.bars.rows}


def test_without_a_batch_the_pane_says_what_to_do(bench: PlanBench) -> None:
    screen = bench.pane.screen
    assert screen.bars.empty == "Take a batch in hand, or begin one."
    assert screen.lead.value == "–"
    assert screen.dos == ()
    assert bench.listed() == ["Nothing until somebody is there again."]
    assert screen.stage.title == "Rough-turn cores, cut grooves"
    assert (screen.stage.start, screen.stage.leave_out) == ("", "")
    bench.pane.on_leave_out()
    bench.pane.on_step(1)
    assert bench.pane.screen.stage.title == "Dry in the oven"


def test_a_new_batch_is_laid_into_the_week(bench: PlanBench) -> None:
    bench.open()
    screen = bench.pane.screen
    assert screen.right == "Handles"
    assert screen.figures[0].value == "8 h 30 min"
    assert screen.figures[1].value == "6 d 14 h"
    assert screen.figures[1].bracket is not None
    assert screen.figures[1].bracket.text.startswith("3 d 4 h")
    assert not screen.figures[2].explains
    assert screen.lead.bracket is not None
    assert [each.words for each in screen.dos] == ["Start: Rough-turn cores, cut grooves"]
    assert screen.dos[0].note == "by 10:24, 1 h hands-on"
    assert "Later today" in bench.listed()
    assert "Runs while you are away" in bench.listed()


def test_one_press_begins_a_stage_and_another_ends_it(bench: PlanBench) -> None:
    bench.open()
    bench.press("Start: Rough-turn cores, cut grooves")
    assert rows(bench)["rough"].kind == "running"
    bench.wait(0.8)
    bench.press("Done: Rough-turn cores, cut grooves")
    assert rows(bench)["rough"].kind == "done"
    bench.press("Start: Dry in the oven")
    assert "running since 09:48" in rows(bench)["dry"].words
    bench.pane.on_do(9)


def test_sticky_hands_report_later(bench: PlanBench) -> None:
    bench.open()
    bench.press("Start: Rough-turn cores, cut grooves")
    bench.wait(2)
    bench.pane.on_when(" 40 min ago ")
    bench.pane.on_when("40 min ago")
    bench.press("Done: Rough-turn cores, cut grooves")
    row = rows(bench)["rough"]
    assert row.end == pytest.approx(bench.shop.now - 2400)
    assert bench.pane.screen.when == ""


def test_a_time_that_cannot_be_read_is_told_beside_its_field(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_when("soonish")
    bench.press("Start: Rough-turn cores, cut grooves")
    screen = bench.pane.screen
    assert screen.when_error.startswith("This is not a clock time.")
    assert screen.when == "soonish"
    assert "rough" in rows(bench)
    assert rows(bench)["rough"].kind == "planned"


def test_what_runs_too_long_is_to_be_looked_at(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "dry")
    bench.wait(25)
    screen = bench.pane.screen
    assert screen.dos[0].words == "Done: Dry in the oven"
    assert screen.dos[0].note == "running longer than likely; at most 2 d"
    bench.press("Done: Dry in the oven")
    assert rows(bench)["dry"].kind == "done"


def test_what_can_wait_says_until_when(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "dry")
    bench.wait(0.5)
    found = {each.words: each.note for each in bench.pane.screen.dos}
    assert found["Start: Prepare moulds, dry fit, measure"].startswith("can wait until ")
    assert found["Done: Dry in the oven"] == "runs, likely to Tue 09:00"


def test_weigh_out_and_pot_lead_to_their_panes(bench: PlanBench) -> None:
    batch = bench.open()
    for key in ("true", "warm"):
        bench.service.start(batch, key)
        bench.service.end(batch, key)
    gone: list[str] = []
    bench.pane.went_on.connect(gone.append)
    other = bench.open("Another")
    bench.press("In Mix: Weigh, mix, pour, close")
    assert gone == ["mix"]
    assert bench.shop.hand.batch == batch != other


def test_the_pane_of_the_batch_in_hand_is_shown_at_once(bench: PlanBench) -> None:
    batch = bench.open()
    bench.wood.weigh(batch, Kilogram(1.0), "wet")
    bench.wood.report(batch, "oven_on")
    bench.wait(30)
    gone: list[str] = []
    bench.pane.went_on.connect(gone.append)
    bench.press("In Stabilise: Dry in the oven")
    assert gone == ["stabilise"]


def test_two_batches_are_told_apart(bench: PlanBench) -> None:
    one = bench.open("One")
    bench.service.start(one, "dry")
    bench.service.leave_out(one, "mould", out=True)
    bench.open("Two")
    bench.wait(0.5)
    screen = bench.pane.screen
    assert [each.name for each in screen.bars.threads] == ["One"]
    assert any(each.note.startswith("One: ") for each in screen.dos)
    assert any(each.note.startswith("Two: ") for each in screen.dos)


def test_an_oven_that_may_not_run_alone_is_named_before_leaving(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "dry")
    bench.pane.on_attended(attended=True)
    assert bench.pane.screen.shop.attended
    listed = bench.listed()
    assert listed[listed.index("Before you leave") + 1] == (
        "Dry in the oven – Handles: switch off, somebody must be there"
    )


def test_on_a_day_off_the_next_thing_is_named(bench: PlanBench) -> None:
    bench.open()
    bench.wait(6 * 24)
    listed = bench.listed()
    assert listed[0] == "Next"
    assert listed[1].startswith("Mon 09:00  ")
    assert bench.pane.screen.dos == ()


def test_only_so_many_buttons_stand_in_the_list(bench: PlanBench) -> None:
    for number in range(6):
        bench.service.start(bench.open(f"B{number}"), "dry")
    assert len(bench.pane.screen.dos) == 4
    bench.wait(30)
    assert len(bench.pane.screen.dos) == 4


def test_bars_reach_from_a_little_back_to_what_was_asked_for(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_span("near")
    near = bench.pane.screen.bars
    assert near.end - near.start == pytest.approx(48 * H)
    assert [each.label for each in near.ticks if each.label] == ["Tue 29", "Wed 30"]
    assert len(near.ticks) == 8
    bench.pane.on_span("all")
    everything = bench.pane.screen.bars
    assert len(everything.rows) == 24
    assert all(each.label for each in everything.ticks)
    bench.pane.on_span("week")
    assert bench.pane.screen.span == "week"
    bench.pane.on_span("century")
    assert bench.pane.screen.span == "week"


def test_closed_hours_lie_between_the_open_ones(bench: PlanBench) -> None:
    bench.open()
    bars = bench.pane.screen.bars
    assert bars.shut[0] == pytest.approx((bars.start, bench.shop.now))
    assert bars.shut[1] == pytest.approx((bench.shop.now + 9 * H, bench.shop.now + 24 * H))


def test_a_day_of_the_changed_clock_keeps_its_midnights(bench: PlanBench) -> None:
    from shopassist.core.wording import Wording
    from shopassist.panes.plan.words import ticks

    change = bench.shop.now + 15 * H + 3 * H
    say = Wording(offset_at=lambda at: 7200 if at < change else 3600)
    found = list(ticks(say, bench.shop.now, bench.shop.now + 50 * H))
    days = [each for each in found if each.label]
    assert [each.label for each in days] == ["Tue 29", "Wed 30"]
    assert days[1].at - days[0].at == pytest.approx(25 * H)
    assert all(isinstance(each, Tick) for each in found)


def test_a_stage_nobody_reported_is_not_drawn(bench: PlanBench) -> None:
    bench.service.start(bench.open(), "vacuum")
    assert "dry" not in rows(bench)
    assert rows(bench)["vacuum"].critical
    assert rows(bench)["vacuum"].room >= rows(bench)["vacuum"].end


def test_a_stage_is_chosen_from_row_to_row(bench: PlanBench) -> None:
    bench.open()
    assert rows(bench)["rough"].selected
    bench.pane.on_step(1)
    screen = bench.pane.screen
    assert (screen.stage.key, screen.page) == ("dry", "stage")
    bench.pane.on_step(-5)
    assert bench.pane.screen.stage.key == "rough"
    bench.pane.on_select("wax")
    bench.pane.on_step(1)
    assert bench.pane.screen.stage.key == "rough", "the row below is out of view: back to the top"
    bench.pane.on_select("knitting")
    assert bench.pane.screen.stage.key == "rough"


def test_everything_about_a_stage_stands_on_its_page(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_select("dry")
    stage = bench.pane.screen.stage
    told = [words for _, _, words in stage.lines]
    assert told[0] == "10:00 to Tue 10:00"
    assert any(each.startswith(("can be ", "any delay")) for each in told)
    assert "Its clock starts: oven at temperature." in told
    assert "One batch at a time in the oven." in told
    assert "Our judgement; change it to what your shop takes." in told
    assert stage.answers["likely"].value == pytest.approx(24 * H)
    assert stage.answers["likely"].origin == "default"
    bench.pane.on_select("wax")
    assert "any delay moves the next" in [w for _, _, w in bench.pane.screen.stage.lines]


def test_durations_are_typed_and_the_end_follows(bench: PlanBench) -> None:
    bench.open()
    before = bench.pane.screen.lead.value
    bench.pane.on_select("dry")
    bench.type("likely", "60 h")
    screen = bench.pane.screen
    assert screen.stage.answers["likely"].origin == "typed"
    assert screen.lead.value != before
    assert not any("judgement" in words for _, _, words in screen.stage.lines)
    bench.type("high", "20 h")
    assert "follow one another" in bench.pane.screen.stage.answers["high"].problem
    bench.type("high", "70 h")
    assert bench.pane.screen.stage.answers["high"].problem == ""
    bench.type("likely", "")
    assert bench.pane.screen.stage.answers["likely"].origin == "default"


def test_a_repeat_batch_shows_where_its_durations_come_from(bench: PlanBench) -> None:
    batch = bench.open()
    bench.pane.on_select("dry")
    bench.type("likely", "60 h")
    bench.shop.hand.take_batch(bench.shop.batches.open(again_of=batch))
    bench.pane.on_select("dry")
    assert bench.pane.screen.stage.answers["likely"].origin == "job card"


def test_a_duration_typed_without_a_batch_opens_one(bench: PlanBench) -> None:
    bench.pane.on_select("dry")
    bench.type("likely", "30 h")
    screen = bench.pane.screen
    assert screen.right == "Batch 1"
    assert screen.stage.key == "dry"
    assert screen.stage.answers["likely"].value == pytest.approx(30 * H)


def test_a_stage_is_begun_ended_and_taken_back_on_its_page(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_select("mould")
    assert bench.pane.screen.stage.start == "Start"
    bench.pane.on_start()
    assert (bench.pane.screen.stage.start, bench.pane.screen.stage.end) == ("", "Done")
    bench.pane.on_end()
    assert bench.pane.screen.stage.end == ""
    bench.pane.on_end()
    assert bench.pane.screen.message == "This stage does not run."
    assert bench.pane.screen.stage.take_back == "Take the report back"
    bench.pane.on_take_back()
    assert bench.pane.screen.stage.start == "Start"
    assert bench.pane.screen.message == ""


def test_a_stage_is_left_out_and_brought_back(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_select("soak")
    bench.pane.on_leave_out()
    stage = bench.pane.screen.stage
    assert (stage.leave_out, stage.start) == ("Bring it back", "")
    assert not any("to" in words for _, _, words in stage.lines[:1])
    bench.pane.on_leave_out()
    assert bench.pane.screen.stage.leave_out == "Leave it out"


def test_hours_are_typed_for_all_batches(bench: PlanBench) -> None:
    bench.open()
    assert bench.pane.screen.shop.hours == "Mon–Sat 9–18"
    bench.pane.on_hours("Mon–Sat 9–18")
    assert not bench.pane.screen.shop.hours_is_typed
    bench.pane.on_hours("whenever")
    assert bench.pane.screen.shop.hours_error.startswith("These are no hours.")
    bench.pane.on_hours("Mon–Sat 9–18")
    assert bench.pane.screen.shop.hours_error == ""
    bench.pane.on_hours("Mon-Fri 17-21")
    shop = bench.pane.screen.shop
    assert (shop.hours, shop.hours_is_typed) == ("Mon–Fri 17–21", True)


def test_hours_too_short_for_the_work_are_told_in_place_of_bars(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_hours("Mon 9:00-9:05")
    screen = bench.pane.screen
    assert "long enough" in screen.bars.empty
    assert screen.lead.value == "–"


def test_a_due_day_is_typed_as_a_day_or_a_time(bench: PlanBench) -> None:
    bench.pane.on_due("")
    assert not bench.shop.batches.ids(), "leaving an empty field opens no batch"
    bench.open()
    bench.pane.on_due("2026-10-19")
    screen = bench.pane.screen
    assert screen.shop.due == "2026-10-19"
    assert screen.shop.due_hint == "Mon 19 Oct 2026, 18:00"
    assert screen.figures[2].explains
    bench.pane.on_due("2026-10-19")
    bench.pane.on_due("tomorrow 12:00")
    assert "Even if you start now" in bench.pane.screen.shop.due_error
    bench.pane.on_due("whenever")
    assert bench.pane.screen.shop.due_error
    bench.pane.on_due("tomorrow 12:00")
    bench.pane.on_due("")
    assert (bench.pane.screen.shop.due, bench.pane.screen.shop.due_error) == ("", "")


def test_every_number_asks_for_its_explanation(bench: PlanBench) -> None:
    bench.open()
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    for name in ("done", "hands_left", "path", "start_by"):
        bench.pane.on_explain(name)
    assert [each.id for each in asked] == ["plan.done", "plan.hands_left", "plan.path"]


def test_pages_and_minutes(bench: PlanBench) -> None:
    bench.open()
    told: list[None] = []
    bench.pane.changed.connect(told.append)
    bench.pane.on_page("shop")
    bench.pane.on_page("attic")
    assert bench.pane.screen.page == "shop"
    assert len(told) == 1
    assert not bench.pane.is_stale()
    bench.wait(0.1)
    assert bench.pane.is_stale()


def test_the_order_of_a_stage_is_shown_in_words_and_edited(bench: PlanBench) -> None:
    bench.pane.on_select("drill")
    assert bench.pane.screen.stage.order["after"].text == "Turn the profile"
    bench.open()
    bench.pane.on_select("drill")
    order = bench.pane.screen.stage.order
    assert (order["after"].text, order["after"].typed) == ("Turn the profile", False)
    assert order["place"].text == "lathe"
    bench.pane.on_order("after", "Turn the profile")
    assert not bench.pane.screen.stage.order["after"].typed
    bench.pane.on_order("after", "rough")
    order = bench.pane.screen.stage.order
    assert (order["after"].text, order["after"].typed) == ("Rough-turn cores, cut grooves", True)
    bench.pane.on_order("after", "Turn the profile")
    assert not bench.pane.screen.stage.order["after"].typed, "our own again"
    bench.pane.on_order("place", "garage")
    assert "Say one of" in bench.pane.screen.stage.order["place"].error
    bench.pane.on_order("place", "nothing")
    assert bench.pane.screen.stage.order["place"].text == "-"


def test_what_may_overlap_is_told(bench: PlanBench) -> None:
    bench.open()
    bench.pane.on_select("mould")
    told = [words for _, _, words in bench.pane.screen.stage.lines]
    assert told[-1].startswith("May overlap with: Rough-turn cores, cut grooves; Dry in the oven")
    bench.pane.on_select("wax")
    told = [words for _, _, words in bench.pane.screen.stage.lines]
    assert told[-1] == "Overlaps with nothing else of this batch."
