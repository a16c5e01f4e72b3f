"""The cards at the lathe, with the numbers of the cases they were made for."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.entry import EntrySpec
from shopassist.core.errors import StoreError
from shopassist.core.figures import Figure
from shopassist.core.quantities import PerSecond
from shopassist.core.style import US
from shopassist.services.turn_desk import KNEADING, SETTING
from tests.panes.turn.conftest import TurnBench

H = 3600.0


# -- lathe -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("diameter", "slow", "fast"),
    [("10 in", "600 /min", "900 /min"), ("5 in", "1 200 /min", "1 800 /min"),
     ("460 mm", "330 /min", "500 /min")],
)  # fmt: skip
def test_the_band_follows_the_diameter(
    bench: TurnBench, diameter: str, slow: str, fast: str
) -> None:
    found = bench.faults().type(diameter=diameter).figures()
    assert (found["Begin at"], found["Not faster than"]) == (slow, fast)


def test_resin_on_wood_begins_in_the_lower_half(bench: TurnBench) -> None:
    bench.type(diameter="460 mm")
    assert bench.figures()["Not faster than"] == "330 /min"
    assert bench.figures()["Begin at"] == "170 /min"
    assert [w for _, _, w in bench.pane.screen.lines] == [
        "Half the band for:", "Resin and wood can part at their joint.",
    ]  # fmt: skip
    bench.faults("voids", "cracks")
    assert "Voids unbalance it and can break out." in [w for _, _, w in bench.pane.screen.lines]
    bench.faults()
    assert bench.pane.screen.lines == ()
    bench.pane.on_fault(99)


def test_a_foot_across_at_a_thousand_turns_flies_at_16_metres_a_second(bench: TurnBench) -> None:
    bench.type(diameter="12 in", knob="1000")
    assert bench.figures()["At the rim"] == "16.0 m/s"
    rule = bench.pane.screen.speed
    assert rule is not None
    assert rule.at == pytest.approx(1000.0)
    assert rule.low < rule.high < 1000.0
    assert rule.spoken == ("Band 250 to 500 revolutions a minute, the lathe turns at 1\u2009000")


def test_the_knob_turned_the_wrong_way_is_told_by_its_energy(bench: TurnBench) -> None:
    bench.faults("cracks").type(diameter="17.142857 in", knob="3000")
    assert bench.pane.screen.note == (
        "Above the band: 73.5 times the energy of its upper end.", "Slow down first."
    )  # fmt: skip
    bench.type(knob="350")
    assert bench.pane.screen.note == ("", "")


def test_a_cylinder_of_1300_grams_holds_13_joules(bench: TurnBench) -> None:
    bench.type(diameter="100 mm", length="150 mm", knob="1200")
    assert bench.figures()["Energy in it"] == "13 J"
    bench.type(piece_density="0.55 g/ml")
    assert bench.figures()["Energy in it"] == "6.4 J"


def test_without_a_diameter_it_says_what_is_missing(bench: TurnBench) -> None:
    screen = bench.pane.screen
    assert screen.missing == "Type the greatest diameter."
    assert screen.speed is None
    assert screen.right == "New batch"
    assert "Face shield" in screen.cautions


# -- drill -----------------------------------------------------------------------------------------


def test_a_blank_is_cut_longer_so_that_the_point_never_breaks_out(bench: TurnBench) -> None:
    bench.shop.words.units = US
    bench.page("drill").type(drill="3/8 in", depth="2 1/4 in", stock="3/4 in")
    found = bench.figures()
    assert found["Cut the blank to"] == "2.75 in"
    assert found["Stop the drill at"] == "2.31 in"
    assert bench.note().startswith("Let it cool between pecks")


def test_under_four_millimetres_of_wall_it_may_split(bench: TurnBench) -> None:
    bench.page("drill").type(drill="8 mm", depth="57 mm", stock="5/8 in", material="hardwood")
    assert bench.note().startswith("Only 3.9 mm of wall round the drill")


def test_a_stabilised_block_is_drilled_in_ten_pecks_of_six_millimetres(bench: TurnBench) -> None:
    bench.page("drill").type(drill="12 mm", depth="60 mm", stock="40 mm")
    found = bench.figures()
    assert (found["Withdraw every"], found["Pecks"]) == ("6.0 mm", "10")
    rule = bench.pane.screen.pecks
    assert rule is not None
    assert len(rule.ticks) == 11
    assert [each.label for each in rule.ticks][:3] == ["0.0", "", "12.0"]
    assert rule.gate == pytest.approx(0.0615875)
    assert rule.gate_text == "stop 61.6 mm"
    told = [words for _, _, words in bench.pane.screen.lines]
    assert "Stop by the drill's full width: its point goes on into the end that is cut off." in told
    bench.type(both_ends="yes")
    rule = bench.pane.screen.pecks
    assert rule is not None
    assert rule.gate_text == "stop 33.2 mm from each end"
    assert bench.figures()["Cut the blank to"] == "63.2 mm"
    assert "end for end" in " ".join(w for _, _, w in bench.pane.screen.lines)


def test_a_drill_as_thick_as_the_stock_is_refused_beside_its_field(bench: TurnBench) -> None:
    bench.page("drill").type(drill="12 mm", depth="60 mm", stock="12 mm")
    screen = bench.pane.screen
    assert screen.answers["drill"].problem.startswith("The drill is as thick")
    assert screen.pecks is None


def test_drill_wants_three_sizes(bench: TurnBench) -> None:
    assert bench.page("drill").pane.screen.missing == "Type drill, depth and stock."


# -- from Blank -----------------------------------------------------------------------------------


def knob(bench: TurnBench) -> str:
    """A knob measured in Blank, with a groove."""
    batch = bench.shop.batches.open("Knobs")
    bench.shop.hand.take_batch(batch)
    for name, text, value, quantity in (
        ("mould_diameter", "48 mm", 0.048, "Metre"), ("mould_depth", "40 mm", 0.040, "Metre"),
        ("drill", "7 mm", 0.007, "Metre"), ("bore_depth", "16 mm", 0.016, "Metre"),
        ("pieces", "12", 12.0, "Ratio"),
    ):  # fmt: skip
        bench.shop.batches.enter(batch, f"blank.{name}", Typed(text, value, quantity))
    for name, text in (
        ("stations", "0: 22; 8: 22; 12: 14; 18: 14; 28: 40; 34: 42; 37: 36"),
        ("grooves", "square 3 x 2 at 31"), ("both_ends", "yes"),
    ):  # fmt: skip
        bench.shop.batches.enter(batch, f"blank.{name}", Typed(text, None))
    return batch


def test_what_blank_knows_need_not_be_typed(bench: TurnBench) -> None:
    knob(bench)
    answers = bench.pane.screen.answers
    assert (answers["diameter"].value, answers["diameter"].origin) == (0.048, "from Blank")
    assert bench.figures()["Not faster than"] == "3 170 /min"
    bench.page("drill")
    assert bench.pane.screen.answers["both_ends"].text == "yes"
    assert "Wall left at its thinnest" in bench.figures()
    bench.type(drill="6 mm")
    assert bench.pane.screen.answers["drill"].origin == "typed"


def test_an_outline_alone_gives_the_length_of_the_bore(bench: TurnBench) -> None:
    batch = knob(bench)
    bench.shop.batches.enter(batch, "blank.bore_depth", None)
    bench.page("drill")
    assert bench.pane.screen.answers["depth"].value == pytest.approx(0.037)


def test_the_grooves_of_all_pieces_are_filled(bench: TurnBench) -> None:
    knob(bench)
    bench.page("putty")
    answers = bench.pane.screen.answers
    assert answers["grooves"].origin == "from Blank"
    assert answers["pieces"].value == pytest.approx(12.0)
    one = answers["grooves"].value or 0.0
    total = float(bench.figures()["Putty in all"].split()[0])
    assert total == pytest.approx(12 * one * 1.1e6, abs=0.06)


# -- putty ----------------------------------------------------------------------------------------


def test_equal_parts_by_volume_are_unequal_grams(bench: TurnBench) -> None:
    bench.page("putty").type(grooves="6.635 ml", putty_a="1.70 g/ml", putty_b="1.90 g/ml")
    assert bench.figures() == {
        "Of each part": "3.6 ml", "Putty in all": "7.3 ml", "Part A weighs": "6.2 g",
        "Part B weighs": "6.9 g",
    }  # fmt: skip
    assert bench.note().strip() == "Equal grams would give 11 % too little B."
    bench.type(putty_b="1.20 g/ml", proud="20 %")
    assert bench.note().strip() == "Equal grams would give 42 % too much B."
    bench.type(putty_b="1.70 g/ml")
    assert bench.note() == " "


def test_kneading_and_setting_are_stages_of_the_plan(bench: TurnBench) -> None:
    bench.page("putty")
    assert bench.pane.screen.missing.startswith("Type the grooves' volume")
    assert bench.pane.digits() == ""
    bench.pane.on_act(0)
    batch = bench.shop.hand.batch
    assert bench.plan.own(batch).started.keys() == {KNEADING}
    screen = bench.pane.screen
    assert screen.wait is not None
    assert screen.wait.caption == "Knead until one even colour"
    assert bench.pane.digits() == "5:00"
    bench.wait(5 / 60)
    assert bench.pane.is_stale()
    wait = bench.pane.screen.wait
    assert wait is not None
    assert wait.caption == "Press it in; since kneading began"
    bench.wait(1 / 60)
    assert bench.pane.digits() == "6:00"
    bench.pane.on_act(0)
    assert bench.plan.done(bench.shop.batches.get(batch))[KNEADING].end is not None
    wait = bench.pane.screen.wait
    assert wait is not None
    assert wait.caption == "It sets: not before Tue 01:06"
    assert bench.pane.digits() == "16:00:00"
    bench.wait(16)
    wait = bench.pane.screen.wait
    assert wait is not None
    assert (wait.caption, wait.counts) == ("Try it with a thumbnail", False)
    bench.pane.on_act(5)
    bench.pane.on_act(0)
    wait = bench.pane.screen.wait
    assert wait is not None
    assert wait == type(wait)("It has set. Turn and sand.", (), counts=False)
    assert SETTING in bench.plan.done(bench.shop.batches.get(batch))
    bench.page("lathe")
    assert bench.pane.digits() == ""


def origin(bench: TurnBench) -> str:
    return bench.pane.screen.answers["set"].origin


def test_how_long_it_sets_is_said_in_one_place(bench: TurnBench) -> None:
    bench.page("putty")
    assert bench.pane.screen.answers["set"].value == pytest.approx(16 * H)
    assert origin(bench) == "from the plan"
    bench.type(set="10 h", knead="2 min")
    assert origin(bench) == "typed"
    stages = bench.plan.stages(bench.shop.batches.get(bench.shop.hand.batch))
    assert next(e.likely for e in stages if e.key == SETTING) == pytest.approx(10 * H)
    bench.pane.on_act(0)
    assert bench.pane.digits() == "2:00"
    bench.plan.set_duration(bench.shop.hand.batch, SETTING, "high", Typed("12 h", 12 * H, "Second"))
    bench.type(set="14 h")
    assert "follow one another" in bench.pane.screen.answers["set"].problem
    bench.type(set="")
    assert origin(bench) == "from the plan"


# -- the pane -----------------------------------------------------------------------------------


def test_numbers_follow_each_key_and_are_kept_by_enter(bench: TurnBench) -> None:
    entry = bench.shop.words.read("10 in", EntrySpec("Metre"))
    bench.faults()
    bench.pane.on_edited("diameter", entry)
    assert bench.figures()["Not faster than"] == "900 /min"
    bench.pane.on_edited("set", entry)
    other = bench.shop.batches.open("Other")
    bench.shop.hand.take_batch(other)
    assert bench.pane.screen.missing


def test_every_number_can_be_explained(bench: TurnBench) -> None:
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    bench.type(diameter="60 mm", length="100 mm")
    for name in bench.pane.screen.figure_names:
        bench.pane.on_explain(name)
    bench.pane.on_explain("weather")
    assert [each.formula for each in asked] == [
        "lathe.rule_speed", "lathe.rule_speed", "lathe.rim_speed", "lathe.spin_energy",
    ]  # fmt: skip


def test_a_disk_that_is_full_is_told(bench: TurnBench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.shop.hand.take_batch(bench.shop.batches.open("One"))

    def full(_: object) -> None:
        raise StoreError("The disk is full.", "Free some space.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.type(diameter="60 mm")
    assert bench.pane.screen.message == "The disk is full. Free some space."


def test_pages_and_other_batches(bench: TurnBench) -> None:
    bench.page("attic")
    assert bench.pane.screen.page == "lathe"
    one = bench.shop.batches.open("One")
    told: list[None] = []
    bench.pane.changed.connect(told.append)
    bench.shop.batches.note(one, "not in hand")
    assert told == []
    assert not bench.pane.is_stale()
    bench.wait(0.1)
    assert bench.pane.is_stale()


def test_speeds_are_numbers_of_turns(bench: TurnBench) -> None:
    bench.type(diameter="60 mm", knob="1500")
    assert bench.pane._book.value("knob") == pytest.approx(PerSecond(25.0))
    assert bench.service.glass(None) is None
    assert bench.service.family(None) == ""
    assert bench.service.oven_dry(None) is None


@pytest.mark.parametrize(("diameter", "told"), [("55 mm", True), ("60 mm", False)])
def test_where_the_rule_asks_for_more_than_lathes_turn_it_says_so(
    bench: TurnBench, diameter: str, told: bool
) -> None:
    """Case T01: 9000 ÷ 2.165 in is 4160 a minute, ÷ 2.362 in 3810; a reference calls it limited."""
    bench.faults().type(diameter=diameter)
    lines = [words for _, _, words in bench.pane.screen.lines]
    assert any(words.startswith("The rule does not know the lathe") for words in lines) is told
