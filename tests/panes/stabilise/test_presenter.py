"""Words of the Stabilise pane, and the cases it was made for."""

from pathlib import Path

import pytest

from shopassist.core.errors import EntryError, StoreError
from shopassist.core.figures import Figure
from tests.panes.stabilise.conftest import SPECS, WoodBench


def test_a_newcomer_is_told_to_weigh(bench: WoodBench) -> None:
    screen = bench.pane.screen
    assert screen.what == "Weigh the whole set before the oven."
    assert screen.mass_label == "The set weighs"
    assert screen.present == 0
    assert screen.acts == ()
    assert screen.right == "New batch"
    assert screen.digits == ""


def test_the_first_weighing_opens_a_batch(bench: WoodBench) -> None:
    bench.weigh("412.6 g")
    screen = bench.pane.screen
    assert screen.batch_id
    assert screen.steps[screen.present or 0] == "Dry"
    assert screen.mass_label == ""
    assert [each.words for each in screen.acts] == ["Oven is at temperature, wood is in"]


def test_the_whole_path_ends_in_an_uptake(bench: WoodBench) -> None:
    bench.wrapped()
    assert bench.figures() == {"Until the core is hot": "2 h 42 min"}
    bench.act("Packets are in the hot oven")
    bench.wait(2.3)
    bench.act("Core is hot, by the probe")
    assert "Hold" in bench.pane.screen.wait
    bench.wait(2)
    bench.act("Oven off")
    assert bench.pane.screen.mass_label == "After the bake it weighs"
    bench.weigh("1720 g")
    screen = bench.pane.screen
    assert screen.what == "Uptake is known. The cores go on to Blank."
    assert screen.present is None
    figures = bench.figures()
    assert figures["Uptake on the dry mass"] == "59.3 %"
    assert figures["Share of the ceiling"] == "66.3 %"
    assert figures["Resin in the wood"] == "0.386 g/ml"
    assert figures["Moisture at the start"] == "13.0 %"


def test_it_survives_a_kill_at_every_step(bench: WoodBench) -> None:
    bench.covered()
    before = bench.pane.screen
    bench.killed()
    after = bench.pane.screen
    assert (after.what, after.facts, after.figures) == (before.what, before.facts, before.figures)


def test_a_power_cut_under_vacuum_and_a_sleeping_laptop(bench: WoodBench) -> None:
    """Case S16."""
    bench.covered()
    bench.act("Pump is on")
    bench.wait(1)
    assert bench.pane.screen.digits == "1:00:00"
    bench.shop.clock.suspend(1800)
    assert bench.pane.screen.digits == "1:30:00"
    bench.act("Power was cut")
    assert "not known" in bench.pane.screen.note
    bench.act("Gauge read, oil looked at")
    bench.act("Pump is on")
    assert bench.pane.screen.digits == "0:00"


def test_a_meter_at_its_floor_says_this_or_less(bench: WoodBench) -> None:
    """Case S02."""
    bench.meter("6.0 %")
    assert "at its floor it says nothing" in bench.pane.screen.message
    bench.meter("6.0 %", "6 %")
    assert bench.pane.screen.facts[-1].answer == "6.0 % or less (meter floor)"
    bench.meter("9.0 %")
    assert bench.pane.screen.facts[-1].answer == "9.0 %"
    assert bench.pane.screen.present == 0


def test_a_dial_is_judged_by_where_the_shop_lies(tmp_path: Path) -> None:
    """Case S11: 22 inHg near 5000 ft is the best of a pump that reaches 27 at the sea."""
    bench = WoodBench(tmp_path, elevation=1524.0).covered()
    bench.act("Pump is on")
    bench.dial("22 inHg")
    assert "Type what the pump reaches" in bench.pane.screen.note
    bench.type("pump_best", "2.92 inHg")
    assert "the best of this pump" in bench.pane.screen.note
    assert bench.pane.screen.figures[0].note.startswith("88.4 %")
    bench.dial("26 inHg")
    assert "Deeper than the air" in bench.pane.screen.message


def test_a_dial_that_stands_still_gives_its_causes(bench: WoodBench) -> None:
    bench.covered()
    bench.act("Pump is on")
    bench.type("pump_best", "5 mbar")
    bench.dial("920 mbar")
    assert "A leak" in bench.pane.screen.note
    bench.type("chamber", "10 l")
    bench.type("pump_speed", "70 l/min")
    assert "A leak" not in bench.pane.screen.note
    bench.wait(0.5)
    bench.dial("920 mbar")
    assert "A leak" in bench.pane.screen.note
    bench.dial("1008.3 mbar")
    assert "A leak" not in bench.pane.screen.note


def test_the_shut_down_is_told_in_its_order(bench: WoodBench) -> None:
    bench.covered()
    bench.act("Pump is on")
    assert bench.pane.screen.note.startswith("Pause at")
    bench.act("Foam has collapsed")
    bench.act("No bubbles any more")
    assert bench.pane.screen.note.startswith("1 Close the valve")
    bench.act("Bubbles again")
    assert bench.pane.screen.note == ""


def test_the_bath_is_poured_by_what_the_wood_will_drink(bench: WoodBench) -> None:
    """Case S15."""
    bench.dried()
    bench.act("It is cool")
    bench.weigh("1080.5 g")
    figures = bench.figures()
    assert figures["Resin to pour"].endswith("ml")
    assert float(figures["Cover at the start"].split()[0]) > 10
    assert "Ballast" in figures


def test_foam_and_history_of_the_bath_are_told(bench: WoodBench) -> None:
    """Cases S14 and S17."""
    bench.dried()
    bench.pane.on_chosen("bath", "Tin 4")
    bench.act("It is cool")
    bench.weigh("1080.5 g")
    bench.type("vessel_height", "190 mm")
    assert "foam over" in bench.pane.screen.note
    assert "treated" not in bench.pane.screen.note
    bench.shop.hand.take_batch(bench.shop.batches.open("Pale set"))
    bench.dried()
    bench.pane.on_chosen("bath", "Tin 4")
    bench.act("It is cool")
    assert "This bath has treated: Maple, sugar" in bench.pane.screen.note
    other = bench.shop.batches.open("No name")
    bench.shop.hand.take_batch(other)
    bench.pane.on_chosen("bath", "Tin 4")
    bench.shop.hand.take_batch(bench.shop.batches.ids()[0])
    assert "wood not named" in " ".join(bench.service.bath_history("Tin 4"))


def test_the_lid_under_vacuum_carries_half_a_tonne(bench: WoodBench) -> None:
    """Case S18: 10 in at the sea, 5.13 kN."""
    bench.covered()
    bench.type("vessel_diameter", "10 in")
    bench.act("Pump is on")
    found = bench.service.figures(bench.pane.screen.batch_id).figures["lid"]
    assert found.value == pytest.approx(5130, rel=0.002)
    assert any("implode" in each for each in bench.pane.screen.cautions)


def test_an_oven_in_the_wrong_unit_is_asked_about(bench: WoodBench) -> None:
    """Case S05: 200 °C where 200 °F was meant."""
    from shopassist.panes.stabilise.asks import OVEN

    found = bench.shop.words.read("200 °C", OVEN)
    assert found.unlikely is not None
    assert bench.shop.words.read("200 °F", OVEN).unlikely is None
    with pytest.raises(EntryError):
        bench.shop.words.read("600 °C", OVEN)


def test_a_core_that_never_gets_hot_is_told_beside_its_field(bench: WoodBench) -> None:
    """Case S04: a drier too cool to cure."""
    bench.set_up()
    bench.type("oven", "85 °C")
    bench.type("core_goal", "88 °C")
    assert bench.pane.screen.answers["core_goal"].problem.startswith("The middle never comes")


@pytest.mark.parametrize(
    ("name", "text", "field"),
    [
        ("vessel_diameter", "60 mm", "vessel_diameter"),
        ("vessel_height", "100 mm", "vessel_height"),
        ("volume", "0.2 l", "volume"),
    ],
)
def test_what_does_not_fit_is_told_beside_its_field(
    bench: WoodBench, name: str, text: str, field: str
) -> None:
    bench.dried()
    bench.type(name, text)
    assert bench.pane.screen.answers[field].problem


def test_a_draft_moves_the_numbers_and_is_not_written(bench: WoodBench) -> None:
    bench.set_up()
    before = bench.figures()
    density = SPECS["resin_density"]
    assert density is not None
    entry = bench.shop.words.read("0.9 g/ml", density)
    bench.pane.on_edited("resin_density", entry)
    assert bench.figures() != before
    bench.pane.on_edited("resin_density", None)
    assert bench.figures() == before


def test_a_weight_is_typed_again(bench: WoodBench) -> None:
    bench.dried()
    bench.act("It is cool")
    bench.pane.on_correct_mass()
    bench.weigh("1081 g")
    assert not any("080.0" in each.answer for each in bench.pane.screen.facts)
    fresh = WoodBench(bench.shop.folder / "fresh")
    fresh.pane.on_correct_mass()
    assert fresh.pane.screen.message == ""


def test_nothing_typed_is_no_reading(bench: WoodBench) -> None:
    bench.pane.on_mass(None)
    bench.pane.on_dial(None)
    bench.pane.on_meter(None)
    bench.pane.on_floor(None)
    assert bench.shop.batches.ids() == ()


def test_what_is_not_due_is_refused_with_what_is(bench: WoodBench) -> None:
    bench.weigh("412 g")
    bench.pane.on_act("pump_on")
    assert bench.pane.screen.message.startswith("That step is not due yet.")
    assert "oven" in bench.pane.screen.message


def test_air_may_always_be_let_in(bench: WoodBench) -> None:
    bench.weigh("412 g")
    bench.pane.on_act("air_in")
    assert bench.pane.screen.message == ""


def test_an_oven_that_switches_itself_off_has_its_button(bench: WoodBench) -> None:
    """Case S06."""
    bench.type("cut_off", "2 h")
    bench.weigh("412 g")
    bench.act("Oven is at temperature, wood is in")
    assert "switches itself off" in bench.pane.screen.wait
    bench.act("Oven started again")
    assert bench.pane.screen.digits == "1:50:00"


def test_a_log_that_shrinks_steadily_tells_where_it_is_heading(bench: WoodBench) -> None:
    bench.type("scale_step", "0.1 g")
    bench.weigh("420 g")
    bench.act("Oven is at temperature, wood is in")
    for grams in ("400 g", "380 g", "368 g"):
        bench.wait(4)
        bench.weigh(grams)
    assert bench.figures()["Heading for"] == "350.0 g"
    assert bench.figures()["More intervals like the last"] == "7.7"
    assert "No proof of dryness" in bench.pane.screen.note
    assert bench.figures()["Lost since the weighing before"] == "12.0 g"


def test_it_floated_is_remembered(bench: WoodBench) -> None:
    bench.soaking()
    bench.act("It floats")
    bench.act("It sank")
    bench.act("It floats")
    bench.wait(6)
    bench.act("Out of the bath")
    bench.weigh("1900 g")
    bench.act("Wrapped")
    bench.act("Packets are in the hot oven")
    bench.act("Oven off")
    bench.weigh("1700 g")
    assert "It floated" in bench.pane.screen.note


def test_bubbles_and_a_full_disk(bench: WoodBench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.weigh("412 g")
    rows = bench.shop.journal.append

    def full(*_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.act("Oven is at temperature, wood is in")
    assert bench.pane.screen.message == "The disk is full."
    assert bench.pane.screen.present == 1
    monkeypatch.setattr(bench.shop.journal, "append", rows)
    bench.act("Oven is at temperature, wood is in")
    assert bench.pane.screen.message == ""


def test_a_figure_explains_itself(bench: WoodBench) -> None:
    bench.set_up()
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    bench.pane.on_explain("ceiling")
    bench.pane.on_explain("weather")
    assert [each.formula for each in asked] == ["wood.most_uptake"]


def test_pages_are_turned(bench: WoodBench) -> None:
    bench.pane.on_page("bath")
    bench.pane.on_page("nowhere")
    assert bench.pane.screen.page == "bath"


def test_another_batch_in_hand_is_another_set(bench: WoodBench) -> None:
    bench.weigh("412 g")
    told: list[None] = []
    bench.pane.changed.connect(told.append)
    bench.shop.hand.take_batch(bench.shop.batches.open("Other"))
    assert bench.pane.screen.present == 0
    count = len(told)
    bench.shop.batches.note(bench.shop.batches.ids()[0], "elsewhere")
    assert len(told) == count


def test_waits_of_all_sets_are_told_to_the_next_line(bench: WoodBench) -> None:
    bench.shop.mixed("No wood")
    bench.shop.hand.take_batch(bench.shop.batches.open("Set"))
    bench.soaking()
    dues = list(bench.service.dues())
    assert [due.subject for due in dues] == ["Set"]
    assert dues[0].pane == "stabilise"
    assert dues[0].gate == pytest.approx(bench.shop.now + 2 * 2.7 * 3600, abs=1)
    assert bench.shop.words.say(dues[0].event).startswith("Out of the bath from ")


def test_an_oven_reading_and_a_mistaken_report_are_rows_too(bench: WoodBench) -> None:
    from shopassist.core.quantities import Kelvin

    bench.weigh("412 g")
    batch = bench.pane.screen.batch_id
    bench.service.read_oven(batch, Kelvin(376.0))
    assert bench.service.state(batch).oven_temps
    bench.act("Oven is at temperature, wood is in")
    bench.service.take_back(batch, "oven_on")
    assert bench.pane.screen.present == 1
    assert bench.service.state(batch).at("oven_on") is None


def test_pieces_that_are_not_round_go_by_their_volume(bench: WoodBench) -> None:
    bench.type("volume", "1.66 l")
    bench.type("stack", "130 mm")
    bench.weigh("1220 g")
    bench.act("Oven is at temperature, wood is in")
    bench.wait(5)
    bench.weigh("1080 g")
    bench.type("vessel_diameter", "200 mm")
    found = bench.service.figures(bench.pane.screen.batch_id).figures
    assert "pour" in found
    assert "headspace" not in found
    bench.pane.on_chosen("rule", "iso")
    assert bench.service.terms(bench.pane.screen.batch_id).rule.key == "iso"
    assert "core_goal" not in bench.pane.screen.answers["core_goal"].problem


def test_without_a_height_of_the_wood_no_bath_is_planned(bench: WoodBench) -> None:
    bench.type("volume", "1.66 l")
    bench.type("vessel_diameter", "200 mm")
    bench.pane.on_chosen("species", "Basswood")
    found = bench.service.figures(bench.pane.screen.batch_id)
    assert found.bath is None
    assert "ceiling" in found.figures


def test_an_uptake_without_a_size_is_still_an_uptake(bench: WoodBench) -> None:
    bench.wrapped()
    bench.act("Packets are in the hot oven")
    bench.act("Oven off")
    bench.weigh("1720 g")
    for name in ("diameter", "volume"):
        bench.pane.on_committed(name, None)
    bench.pane.on_chosen("species", "")
    assert bench.figures() == {
        "Uptake on the dry mass": "59.3 %", "Moisture at the start": "13.0 %"
    }  # fmt: skip


def test_a_fold_of_a_lighter_wet_weight_tells_no_moisture(bench: WoodBench) -> None:
    bench.weigh("300 g")
    bench.act("Oven is at temperature, wood is in")
    bench.weigh("310 g")
    assert "Moisture at the start" not in bench.figures()
