import pytest

from shopassist.core.figures import Figure
from shopassist.core.quantities import Kelvin, Kilogram
from shopassist.services.next import Rank
from tests.panes.cure.bench import Bench

HOUR = 3600.0


def test_with_nothing_curing_the_pane_says_how_to_begin(bench: Bench) -> None:
    screen = bench.screen
    assert screen.wait.caption == "Nothing is curing"
    assert "Hardener in" in screen.empty
    assert screen.lines == ()
    assert bench.cure_pane.digits() == "–"
    assert list(bench.cure_pane.dues()) == []


def test_the_digits_count_to_the_gate_and_never_to_the_middle(bench: Bench) -> None:
    batch = bench.mixed()
    view = bench.cure.view(batch)
    assert view is not None
    lead = view.lead(bench.now)
    assert lead is not None and lead.gate is not None and lead.likely is not None
    assert bench.cure_pane.digits() == bench.words.digits(lead.gate - bench.now)
    assert bench.cure_pane.digits() != bench.words.digits(lead.likely - bench.now)


def test_the_batch_in_hand_stands_in_front_and_the_others_beside_it(bench: Bench) -> None:
    first, second = bench.mixed("a"), bench.mixed("b", sheet="slow-clear")
    bench.hand.take_batch(first)
    assert bench.screen.batch_id == first
    assert [x.batch_id for x in bench.screen.others] == [second]
    bench.cure_pane.on_take(second)
    assert bench.screen.batch_id == second


def test_a_batch_in_hand_that_is_not_mixed_leaves_the_newest_cure_in_front(bench: Bench) -> None:
    running = bench.mixed("a")
    bench.hand.take_batch(bench.batches.open("plan"))
    assert bench.screen.batch_id == running


def test_others_stand_with_the_most_urgent_first(bench: Bench) -> None:
    slow = bench.mixed("slow")
    bench.batches.load(slow, "big")
    quick = bench.mixed("quick", sheet=bench.sheet("quick-opaque"))
    none = bench.mixed("none", sheet="none")
    old = bench.mixed("front", sheet="slow-clear")
    assert [x.batch_id for x in bench.screen.others] == [quick, slow, none]
    assert bench.screen.beside.startswith("quick · ")
    assert bench.screen.beside.endswith("2 more")
    assert old == bench.screen.batch_id


def test_one_other_needs_no_count(bench: Bench) -> None:
    bench.mixed("a")
    bench.mixed("b", sheet="slow-clear")
    assert bench.screen.beside.startswith("a · ")
    assert "more" not in bench.screen.beside


def test_a_reached_gate_is_told_and_the_digits_stand_at_nothing(bench: Bench) -> None:
    batch = bench.mixed(sheet=bench.sheet("quick-opaque"))
    bench.batches.load(batch, "big")
    bench.clock.suspend(90 * 86400)
    assert bench.screen.wait.caption.endswith(": reached")
    assert bench.cure_pane.digits() == "0:00"
    assert bench.line("demould").passed
    assert next(iter(bench.cure_pane.dues())).rank is Rank.LATER


def test_too_cold_gives_no_time_and_the_digits_count_up(bench: Bench) -> None:
    batch = bench.mixed(celsius=10.0)
    bench.batches.load(batch, "big")
    bench.clock.advance(90)
    assert "too cold" in bench.screen.wait.caption
    assert bench.line("demould").gate == "no time"
    assert bench.cure_pane.digits() == "1:30"
    assert bench.screen.wait.rule is None


def test_without_a_sheet_the_time_since_hardener_is_shown(bench: Bench) -> None:
    bench.mixed(sheet="none")
    bench.clock.advance(75)
    assert bench.screen.wait.caption == "Time since hardener"
    assert not bench.screen.wait.explains
    assert bench.cure_pane.digits() == "1:15"
    assert "No sheet" in bench.screen.notes[0]
    assert list(bench.cure_pane.dues()) == []


def test_hazards_say_before_and_releases_say_from(bench: Bench) -> None:
    bench.mixed()
    assert bench.line("working").gate.startswith("before ")
    assert bench.line("demould").gate.startswith("from ")


def test_a_typed_temperature_goes_to_the_batch_in_front_with_its_place(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    assert "no temperature yet" in bench.screen.temperature_line
    bench.cure_pane.on_place("pot wall")
    bench.cure_pane.on_temperature(bench.entry("19"))
    reading = bench.batches.get(batch).warmth[-1]
    assert reading.where == "pot wall"
    assert bench.screen.temperature == ("19.0", "°C")
    assert bench.screen.place == "pot wall"


def test_an_emptied_field_adds_nothing(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.cure_pane.on_temperature(None)
    assert bench.batches.get(batch).warmth == ()


def test_before_any_batch_a_temperature_opens_one(bench: Bench) -> None:
    bench.cure_pane.on_temperature(bench.entry("19"))
    assert len(bench.batches.ids()) == 1


def test_readings_count_in_the_words_of_certainty(bench: Bench) -> None:
    bench.mixed(celsius=None)
    assert bench.screen.wait.right == "no reading, so the range is wide"
    bench.cure_pane.on_temperature(bench.entry("19"))
    assert bench.screen.wait.right == "from one reading at 19.0 °C"
    bench.clock.advance(60)
    bench.cure_pane.on_temperature(bench.entry("20"))
    assert bench.screen.wait.right.startswith("from 2 readings")


def test_a_reading_of_another_batch_is_told_as_such(bench: Bench) -> None:
    bench.mixed("a", 19.0)
    bench.mixed("b", None, "slow-clear")
    assert bench.screen.temperature_line.endswith("for another batch")


def test_a_reading_in_air_says_that_it_is_widened(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.warm(batch, 20.0, "shop")
    assert any("air, not in resin" in note for note in bench.screen.notes)


def breathing(bench: Bench) -> list[str]:
    return [note for note in bench.screen.notes if "air in wood grows" in note]


@pytest.mark.parametrize(
    ("morning", "noon", "grows"), [("70 °F", "94 °F", "4.5 %"), ("15 °C", "35 °C", "6.9 %")]
)
def test_c12_on_a_warming_day_it_is_told_how_the_air_in_the_wood_grows(
    bench: Bench, morning: str, noon: str, grows: str
) -> None:
    bench.mixed(celsius=bench.entry(morning).value - 273.15)
    assert breathing(bench) == []
    bench.clock.advance(1800)
    bench.cure_pane.on_temperature(bench.entry(noon))
    assert f"grows by {grows} and comes out as bubbles" in breathing(bench)[0]
    bench.cure_pane.on_seen("gelled")
    assert breathing(bench) == []


def test_c12_another_thermometer_or_a_cooling_day_is_no_warming(bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    bench.clock.advance(600)
    bench.warm(batch, 28.0, "shop")
    assert breathing(bench) == []
    bench.clock.advance(600)
    bench.warm(batch, 15.0)
    assert breathing(bench) == []


def test_marks_of_the_witness_cup_carry_their_time(bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_seen("gelled")
    seen = dict(bench.screen.seen)
    assert seen["gelled"] == bench.words.clock(bench.now)
    assert seen["strings"] == ""
    assert "lags" in bench.screen.witness


def test_with_nothing_curing_a_mark_changes_nothing(bench: Bench) -> None:
    bench.cure_pane.on_seen("gelled")
    assert bench.batches.ids() == ()


def test_a_refusal_stands_as_words_and_goes_with_the_next_act(bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_seen("boiling")
    assert "boiling" in bench.screen.error
    bench.cure_pane.on_seen("gelled")
    assert bench.screen.error == ""


def test_every_time_explains_itself_and_the_digits_explain_their_lead(bench: Bench) -> None:
    told: list[Figure] = []
    bench.cure_pane.explained.connect(told.append)
    bench.cure_pane.on_explain()
    assert told == []
    bench.mixed()
    _ = bench.screen
    bench.cure_pane.on_explain()
    bench.cure_pane.on_explain("cure.milestone.demould")
    bench.cure_pane.on_explain("cure.milestone.nothing")
    assert [figure.id for figure in told] == ["cure.milestone.pressurise", "cure.milestone.demould"]


def test_without_a_lead_there_is_nothing_to_explain(bench: Bench) -> None:
    told: list[Figure] = []
    bench.cure_pane.explained.connect(told.append)
    bench.mixed(sheet="none")
    _ = bench.screen
    bench.cure_pane.on_explain()
    assert told == []


def test_a_doubted_clock_is_told_first(bench: Bench) -> None:
    bench.mixed()
    bench.session.beat()
    bench.clock.moved = None
    bench.clock.reboot(60)
    bench.clock.step(20 * 86400)
    bench.session.start()
    assert bench.screen.notes[0].startswith("The clock is in doubt")


def test_the_next_line_hears_of_every_cure(bench: Bench) -> None:
    first = bench.mixed("a")
    second = bench.mixed("b", sheet="slow-clear")
    bench.batches.load(second, "big")
    dues = {due.owner: due for due in bench.cure_pane.dues()}
    assert dues[first].rank is Rank.HAZARD
    assert dues[second].rank is Rank.RELEASE
    assert bench.words.say(dues[second].event, bench.now).startswith("Hold until")


def test_a_page_is_opened_and_kept(bench: Bench) -> None:
    bench.mixed()
    assert bench.page() == "times"
    bench.cure_pane.on_page("witness")
    assert bench.page() == "witness"
    bench.cure_pane.on_page("cellar")
    assert bench.page() == "witness"


def test_room_opens_the_curve_until_the_person_chooses(bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_room(roomy=True)
    assert bench.page() == "curve"
    bench.cure_pane.on_room(roomy=False)
    assert bench.page() == "times"
    bench.cure_pane.on_page("readings")
    bench.cure_pane.on_room(roomy=True)
    assert bench.page() == "readings"


def test_the_list_of_others_closes_when_there_are_none(bench: Bench) -> None:
    other = bench.mixed("a")
    bench.mixed("b", sheet="slow-clear")
    bench.cure_pane.on_page("waits")
    assert bench.page() == "waits"
    bench.batches.close(other, "good")
    assert bench.page() == "times"


def test_twelve_cures_stand_in_one_list(bench: Bench) -> None:
    bench.sheet()
    for number in range(12):
        bench.mixed(f"Bowl {number}", sheet="slow-clear")
    assert len(bench.screen.others) == 11
    digits = [bench.cure_pane.digits_of(x.batch_id) for x in bench.screen.others]
    assert all(digits)


def test_charts_are_worked_out_on_their_page_only_and_once(bench: Bench) -> None:
    bench.mixed()
    assert bench.screen.charts == ()
    bench.cure_pane.on_page("curve")
    first = bench.screen
    assert len(first.charts) == 2
    bench.clock.advance(10)
    second = bench.screen
    assert second.charts is first.charts
    bench.clock.advance(120)
    third = bench.screen
    assert third.charts is not first.charts


def test_without_a_sheet_only_the_temperature_has_a_chart(bench: Bench) -> None:
    bench.mixed(sheet="none")
    bench.cure_pane.on_page("curve")
    assert [chart.caption for chart in bench.screen.charts] == ["Temperature, °C"]


def test_the_view_from_across_the_bench_shows_the_same_wait(bench: Bench) -> None:
    bench.mixed()
    shown = bench.cure_pane.bench()
    assert shown.caption == bench.screen.wait.caption
    assert shown.side == "Knobs"


def test_a_change_elsewhere_is_told_on(bench: Bench) -> None:
    before = bench.told
    bench.mixed()
    assert bench.told > before


@pytest.mark.parametrize("celsius", [15.0, 21.0, 30.0])
def test_no_range_end_is_rounded_inward(bench: Bench, celsius: float) -> None:
    batch = bench.mixed(celsius=celsius)
    view = bench.cure.view(batch)
    assert view is not None
    rule = bench.screen.wait.rule
    lead = view.lead(bench.now)
    assert rule is not None and lead is not None
    assert rule.low is not None and lead.early is not None and rule.low <= lead.early
    assert rule.high is not None and lead.late is not None and rule.high >= lead.late


def test_seven_days_at_22_degrees_are_nine_at_18(bench: Bench) -> None:
    """Case C08: times 1.32, so 9.2 days; demoulding and turning are waits of their own."""
    week = {"time": "7 d", "at": "22 °C"}
    law = {"kind": "factor per 10 degrees", "factor": "2"}
    batch = bench.mixed(celsius=18.0, sheet=bench.bare(demould=week, hard=week, law=law))
    for aim, label in (("demould", "Demould"), ("hard", "Turn")):
        line = bench.line(aim)
        assert (line.label, line.gate[:5]) == (label, "from ")
        view = bench.cure.view(batch)
        assert view is not None
        stage = view.stage(aim)  # type: ignore[arg-type]
        assert stage is not None
        assert stage.likely is not None
        assert (stage.likely - bench.now) / 86400 == pytest.approx(9.2, abs=0.05)


def test_a_range_of_temperatures_is_told_as_one(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.batches.add_temperature(batch, Kelvin(288.15), Kelvin(298.15), "resin")
    assert bench.screen.temperature_line == "15.0\u2009–\u200925.0 °C, typed just now, resin"


def fuller(bench: Bench, mass: float) -> str:
    sheet = bench.sheet(working={"time": "2 h", "at": "23 °C", "mass": "150 g"})
    batch = bench.mixed(sheet=sheet)
    bench.batches.weigh(batch, 1, "a", Kilogram(mass - 0.0461), "weighed again")
    return batch


@pytest.mark.parametrize(("mass", "told"), [(0.6, True), (0.151, False)])
def test_a_fuller_cup_than_the_sheets_has_less_time(bench: Bench, mass: float, told: bool) -> None:
    """Case C06: an hour of pot life was five minutes; it is never scaled by mass."""
    batch = fuller(bench, mass)
    note = "The sheet’s working time is for 150.0 g; a cup of 600.0 g has less."
    assert any(each.startswith(note) for each in bench.screen.notes) is told
    bench.batches.poured(batch)
    assert not any(each.startswith(note) for each in bench.screen.notes)
