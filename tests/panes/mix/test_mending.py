"""A cup that is off its ratio: what may still be added is weighed on, and what it comes to is told."""

import pytest

from tests.panes.mix.conftest import MixBench


def hundred_forty_four(bench: MixBench, amount: str = "216 g") -> MixBench:
    return bench.type(ratio_a="100", ratio_b="44", amount=amount, waste="0 %")


def deviation(bench: MixBench) -> str:
    shown = bench.pane.screen.deviation
    assert shown is not None
    return shown.value


def test_too_much_hardener_is_mended_by_resin_on_the_running_total(bench: MixBench) -> None:
    """150 g with 75 g at 100 : 44 want 75 / 0.44 = 170.5 g of A: 20.5 g more, 245.5 g in all."""
    hundred_forty_four(bench).weigh("a", "150 g").weigh("b", "225 g")
    assert deviation(bench) == "+13.6 %"
    assert bench.stops[2] == "More resin 245.5 present"
    assert bench.pane.screen.weighing == "a"
    bench.weigh("a", "225 g")
    assert bench.pane.screen.message == "The running total must be above the last stop."
    bench.weigh("a", "245.5 g")
    assert bench.stops == ("Resin 170.5 done", "Hardener 245.5 done")
    assert (deviation(bench), bench.pane.screen.needs_reason) == ("0.0 %", False)
    bench.killed()
    assert deviation(bench) == "0.0 %"
    bench.pane.on_hardener_in()
    assert bench.pane.screen.facts[0][0] == "Hardener in"


def test_hardener_that_ran_out_is_topped_up_from_the_next_bottle(bench: MixBench) -> None:
    """Case M03: 13.36 g are short; the reading to come to is 207.4 g."""
    hundred_forty_four(bench, "207.36 g").weigh("a", "144 g").weigh("b", "194 g")
    assert bench.stops[2] == "More hardener 207.4 present"
    bench.weigh("b", "207.4 g")
    assert bench.stops == ("Resin 144.0 done", "Hardener 207.4 done")
    assert deviation(bench) == "+0.1 %"


def test_what_mends_it_is_added_over_the_colour_that_is_in_already(bench: MixBench) -> None:
    hundred_forty_four(bench).page("colour", colour_mass_1="5 g")
    bench.weigh("a", "150 g").weigh("colour", "155 g").weigh("b", "230 g")
    assert bench.stops[3] == "More resin 250.5 present"
    bench.weigh("a", "250.5 g")
    assert bench.stops == ("Resin 170.5 done", "Colour 175.5 done", "Hardener 250.5 done")
    assert deviation(bench) == "0.0 %"


def test_resin_that_was_to_go_in_last_and_fell_short(bench: MixBench) -> None:
    hundred_forty_four(bench).page("measure", order="b")
    bench.weigh("b", "66 g").weigh("a", "190 g")
    assert bench.stops[2] == "More resin 216.0 present"
    bench.weigh("a", "216 g")
    assert deviation(bench) == "0.0 %"


def test_nothing_is_added_to_a_cup_that_is_near_or_reacts_already(bench: MixBench) -> None:
    hundred_forty_four(bench).weigh("a", "150 g").weigh("b", "219 g")  # 4.5 % too much
    assert len(bench.stops) == 2
    assert bench.pane.screen.weighing == ""
    bench.pane.on_correct("")
    bench.weigh("b", "225 g")
    bench.pane.on_hardener_in(reason="for a jig")
    assert len(bench.stops) == 2
    assert "Nothing may be added any more" in bench.pane.screen.note[1]


@pytest.mark.parametrize(("limit", "told"), [("400 g", True), ("450 g", False)])
def test_a_mended_cup_may_be_too_full(bench: MixBench, limit: str, told: bool) -> None:
    """Case M05: 90 g with 90 g at 4 : 1 are four times the hardener; 270 g more make 450 g."""
    bench.pane.on_sheet(bench.shop.bare(ratio={"basis": "weight", "a": "100", "b": "25"},
                                        limit={"mass": limit, "at": "23 °C"}))  # fmt: skip
    bench.type(amount="112.5 g", waste="0 %").page("cup", resin_temp="23 °C")
    bench.weigh("a", "90 g").weigh("b", "180 g")
    assert bench.stops[2] == "More resin 450.0 present"
    assert ("450.0 g are more than one cup takes today" in bench.pane.screen.note[1]) is told


def test_a_cup_is_mended_on_a_scale_that_lost_its_zero(bench: MixBench) -> None:
    """12 g of cup, 30 g of B and 90 g of A instead of 100 g: 132 g, and 142 g once it is mended."""
    bench.type(ratio_a="100", ratio_b="30", amount="130 g", waste="0 %")
    bench.page("measure", order="b", empty_cup="12 g")
    bench.weigh("b", "30 g").weigh("a", "120 g")
    shown = bench.page("measure", cup_now="132 g")
    assert shown.answers["cup_now"].problem == ""
    assert bench.figures(shown)["regained.1"] == "142.0 g"
    assert shown.figures[-1].label == "More resin until it shows"
