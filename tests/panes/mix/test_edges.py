"""Edges of the mix: rounding at a limit, a scale that is full, whole strokes, colour as a share."""

import pytest

from tests.panes.mix.conftest import MixBench
from tests.panes.mix.test_cup_page import casting
from tests.panes.mix.test_measure_page import scale

FULL = {"mass": "150 g", "at": "25 °C"}

# -- as much as one cup takes ---------------------------------------------------------------------


@pytest.mark.parametrize(
    ("a", "b", "step", "shown"),
    [
        ("100", "90", "0.1 g", "150.1 g"),
        ("100", "83", "1 g", "150 g"),
        ("100", "47", "1 g", "151 g"),
    ],
)
def test_rounding_to_the_scale_is_no_more_resin_than_one_cup_takes(
    bench: MixBench, a: str, b: str, step: str, shown: str
) -> None:
    """Asked for what one cup takes: 150 g; the parts come to a step more by rounding alone."""
    ratio = {"basis": "weight", "a": a, "b": b}
    bench.pane.on_sheet(bench.shop.bare(ratio=ratio, limit=FULL))
    bench.type(amount="150 g", waste="0 %", scale_step=step).page("cup", resin_temp="25 °C")
    assert bench.grams[2] == shown
    assert (bench.pane.screen.page.caution, bench.pane.screen.needs_reason) == (("", ""), False)  # type: ignore[union-attr]


def test_more_than_rounding_is_too_much(bench: MixBench) -> None:
    ratio = {"basis": "weight", "a": "100", "b": "90"}
    bench.pane.on_sheet(bench.shop.bare(ratio=ratio, limit=FULL))
    shown = bench.type(amount="150.5 g", waste="0 %").page("cup", resin_temp="25 °C")
    assert shown.caution[1].startswith("2 cups of 75.3 g")
    # 82 g of A instead of 79 want 73.8 g of B: 155.8 g, and no second cup was ever asked for.
    bench.type(amount="150 g").weigh("a", "82 g")
    what, do = bench.page("cup").caution
    assert what == "Too much for one cup today: 150.0 g at most."
    assert do == "More went in than was asked for: out flat within 2 minutes."


def test_divided_into_full_cups_each_is_full_and_no_more(bench: MixBench) -> None:
    ratio = {"basis": "weight", "a": "100", "b": "90"}
    bench.pane.on_sheet(bench.shop.bare(ratio=ratio, limit=FULL))
    bench.type(amount="450 g", waste="0 %").page("cup", resin_temp="25 °C")
    bench.pane.on_act()
    assert bench.grams[2] == "150.1 g"
    assert not bench.pane.screen.needs_reason


def test_a_cup_of_the_sheets_own_mass_has_the_sheets_own_time(bench: MixBench) -> None:
    """100 g come to 100.1 g on the scale; the sheet's working time is for 100 g."""
    shown = casting(bench, "100 g").page("cup", resin_temp="22 °C")
    assert bench.grams[2] == "100.1 g"
    assert not any(note.startswith("Working time for this cup") for note in shown.notes)


@pytest.mark.parametrize(
    ("warm", "what"),
    [("36 °C", "Warmer than the sheet allows: up to 35 °C."),
     ("9 °C", "Colder than the sheet allows: from 10 °C."), ("10 °C", ""), ("35 °C", "")],
)  # fmt: skip
def test_too_cold_or_too_warm_for_the_sheet_stands_beside_the_grams(
    bench: MixBench, warm: str, what: str
) -> None:
    """Question 18 of the thirty: is it too cold or too damp today to cast?"""
    casting(bench, "40 g").page("cup", resin_temp=warm)
    assert bench.pane.screen.note[0] == what


# -- scale, strokes ------------------------------------------------------------------------------


def test_a_scale_that_weighs_less_than_the_last_stop_is_told_of_before(bench: MixBench) -> None:
    bench.type(ratio_a="100", ratio_b="30", amount="300 g", waste="0 %")
    pocket = scale(bench, "0.01 g", "0.01 g", most="200 g")
    told = "The scale weighs up to 200.0 g; this comes to 300.0 g."
    assert bench.page("measure", scale=pocket).caution[0] == told
    assert bench.pane.screen.note[0] == told
    bench.type(amount="200 g")
    assert bench.page("measure").caution == ("", "")
    # Zeroed with the cup on it, it still carries the cup.
    assert bench.page("measure", empty_cup="12 g").caution[0] == (
        "The scale weighs up to 200.0 g; this comes to 212.0 g, cup and all."
    )
    bench.page("cup", cups="2")
    assert bench.page("measure").caution == ("", "")


@pytest.mark.parametrize(
    ("a", "b", "told"),
    [("16 ml", "4 ml", "In whole strokes: 10 of A and 10 of B, 200 ml in all."),
     ("10 ml", "10 ml", "In whole strokes: 16 of A and 4 of B, 200 ml in all."),
     ("10 ml", "3 ml", "In whole strokes: 17 of A and 14 of B, 212 ml in all.")],
)  # fmt: skip
def test_strokes_are_counted_in_whole_ones_that_keep_the_ratio(
    bench: MixBench, a: str, b: str, told: str
) -> None:
    """190 ml at 4 : 1 are 152 and 38 ml: 9.5 strokes each of 16 and 4 ml.

    Of 10 and 3 ml 16 and 13 would be 2.5 % off; 17 and 14 are 170 and 42 ml, 1.2 %.
    """
    bench.type(ratio_a="4", ratio_b="1", amount="190 ml", waste="0 %").pane.on_basis("volume")
    shown = bench.page("measure", how="pumps", stroke_a=a, stroke_b=b)
    assert shown.notes[0] == told
    if a == "10 ml":
        assert shown.caution == (
            "One stroke of each is off the ratio.",
            "These pumps are not metered for it: give the strokes counted here.",
        )


@pytest.mark.parametrize(
    ("a", "b", "amount"), [("16 ml", "4 ml", "200 ml"), ("7 ml", "7 ml", "100 ml")]
)
def test_whole_strokes_already_or_none_that_keep_it(
    bench: MixBench, a: str, b: str, amount: str
) -> None:
    ratio = "4" if a == "16 ml" else "3.1415926"
    bench.type(ratio_a=ratio, ratio_b="0.01" if a == "7 ml" else "1", amount=amount, waste="0 %")
    bench.pane.on_basis("volume")
    shown = bench.page("measure", how="pumps", stroke_a=a, stroke_b=b)
    assert not any(note.startswith("In whole strokes") for note in shown.notes)


# -- colour ----------------------------------------------------------------------------------------


def test_colour_is_typed_as_a_share_of_both_parts_and_kept_in_grams(bench: MixBench) -> None:
    """Case M11: 2 % of 250 g are 5.0 g; a third part of 8 % is weighed in the same way."""
    shown = casting(bench, "250 g").page("colour", colour_mass_1="2 %")
    assert shown.rows == (("Colour", "5.0 g, 2.0 %"),)
    assert shown.answers["colour_mass_1"].text == "5.0 g"
    assert bench.figures(shown) == {"colour_most": "12.5 g", "colour_left": "7.5 g"}
    mica = bench.shop.keep(bench.shop.colours, name="{Mica}", cap="20 %", made_for="amine epoxy")
    shown = bench.page("colour", colour_2=mica, colour_mass_2="8 %")
    assert shown.rows[1] == ("{Mica}", "20.0 g, 8.0 %")
    assert bench.stops[1] == "Colour 217.4 later"
    # The grams stay when the amount changes, and what share they are is told.
    bench.type(amount="500 g")
    assert bench.page("colour").rows[1] == ("{Mica}", "20.0 g, 4.0 %")


def test_the_most_that_it_takes_is_not_too_much(bench: MixBench) -> None:
    shown = casting(bench, "500 g").page("colour", colour_mass_1="5 %")
    assert shown.rows == (("Colour", "25.0 g, 5.0 %"),)
    assert shown.caution == ("", "")


def test_a_share_of_what_is_not_known_in_grams_is_refused(bench: MixBench) -> None:
    bench.page("colour", colour_mass_1="2 %")
    assert bench.pane.screen.message == "A share needs the grams of A and B first."
    assert bench.page("colour").answers["colour_mass_1"].text == ""


@pytest.mark.parametrize("name", ["Vinylester infusion", "Vinyl-ester 411"])
def test_a_resin_by_drops_is_known_in_one_word_too(bench: MixBench, name: str) -> None:
    """Case M13."""
    bench.pane.on_sheet(bench.shop.bare(name=name))
    bench.type(amount="200 g")
    assert bench.pane.screen.note[0].startswith("A resin hardened by drops of catalyst")
    assert bench.pane.screen.stops == ()


# -- what a label says twice -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mixed", "told"),
    [
        ("1.084 g/ml", ""),
        ("1.11 g/ml", ""),
        ("1.19 g/ml", "9.8 % more"),
        ("1.02 g/ml", "5.9 % less"),
    ],
)
def test_a_mixed_density_that_its_parts_do_not_come_to_is_told(
    bench: MixBench, mixed: str, told: str
) -> None:
    """Case M01: what is stored twice must agree; 100 + 30 g take 89.29 + 30.61 ml: 1.0842 g/ml."""
    density = {"a": "1.12 g/ml", "b": "0.98 g/ml", "mixed": mixed}
    bench.pane.on_sheet(bench.shop.bare(density=density))
    bench.type(amount="300 ml", waste="0 %")
    what = f"The sheet's mixed density is {told} than its parts come to." if told else ""
    assert bench.pane.screen.note[0] == what
    assert bench.page("measure").caution[0] == what


def test_a_mixed_density_alone_is_taken_as_it_stands(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(density={"a": "1.12 g/ml", "mixed": "1.5 g/ml"}))
    bench.type(amount="300 ml", waste="0 %")
    assert bench.pane.screen.note[0] == ""


# -- a scale that began at zero again, a bottle that is lighter now, a pinch of colour ----------------


def test_a_reading_of_one_part_alone_is_asked_about(bench: MixBench) -> None:
    """100 g of A, the scale goes off with the cup on it and shows 30 g of B: 130 g in all."""
    bench.type(ratio_a="100", ratio_b="30", amount="130 g", waste="0 %")
    bench.weigh("a", "100 g").weigh("b", "30 g")
    told = "The running total must be above the last stop."
    asked = "Was the scale zeroed in between? Then the running total is 130.0 g."
    assert bench.pane.screen.message == f"{told} {asked}"
    bench.weigh("b", "60 g")
    assert bench.pane.screen.message == told
    bench.weigh("b", "130 g")
    assert bench.pane.screen.message == ""


def test_what_passes_for_a_running_total_may_be_one_part_alone(bench: MixBench) -> None:
    """At 1 : 1 100.5 g after 100 g are 0.5 g of B, or 100.5 g on a scale that was zeroed.

    To add the 99.5 g that seem short would be twice the hardener.
    """
    bench.type(ratio_a="1", ratio_b="1", amount="200 g", waste="0 %")
    bench.weigh("a", "100 g").weigh("b", "100.5 g")
    asked = "Was the scale zeroed in between? Then the running total is 200.5 g."
    assert bench.pane.screen.message == asked
    bench.pane.on_correct("")
    bench.weigh("b", "200.5 g")
    assert bench.pane.screen.message == ""


def test_a_bottle_is_weighed_anew_for_the_next_cup(bench: MixBench) -> None:
    """It held 500 g before the first cup; 400 g cannot be what it shows after the second too."""
    casting(bench, "130 g")
    bench.type(waste="0 %")
    shown = bench.page("measure", bottle="500 g", cup_now="112 g")
    assert bench.figures(shown)["bottle_stop"] == "400.0 g"
    bench.weigh("a", "100 g").weigh("b", "130 g")
    bench.pane.on_hardener_in()
    bench.pane.on_another_cup()
    shown = bench.page("measure")
    assert "bottle_stop" not in bench.figures(shown)
    assert (shown.answers["bottle"].text, shown.answers["cup_now"].text) == ("", "")


@pytest.mark.parametrize(("colour", "told"), [("0.2 g", True), ("1 g", False), ("0 g", False)])
def test_less_colour_than_a_step_of_the_scale_is_told(
    bench: MixBench, colour: str, told: bool
) -> None:
    bench.type(ratio_a="100", ratio_b="30", amount="130 g", waste="0 %", scale_step="1 g")
    shown = bench.page("colour", colour_mass_1=colour)
    assert (shown.caution[0] == "0.20 g of colour is less than this scale shows.") is told
    assert (bench.pane.screen.note[0] == shown.caution[0]) is told or not told


def test_a_pinch_of_colour_by_volume_is_not_judged_by_a_scale(bench: MixBench) -> None:
    bench.type(ratio_a="2", ratio_b="1", amount="130 ml", scale_step="1 g")
    bench.pane.on_basis("volume")
    assert bench.page("colour", colour_mass_1="0.2 g").caution == ("", "")


# -- what is summed up -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("a", "b", "told"),
    [("1", "0.44", "1 : 0.44"), ("3.88", "1", "3.88 : 1"), ("100", "33 1/3", "100 : 33.33"),
     ("2", "1", "2 : 1"), ("0.005", "1", "0.005 : 1"), ("1", "1.125", "1 : 1.125")],
)  # fmt: skip
def test_a_ratio_is_summed_up_as_it_was_typed(bench: MixBench, a: str, b: str, told: str) -> None:
    """Case M03: 1 : 0.44 is not 1 : 0.4, a tenth of the hardener less."""
    bench.type(ratio_a=a, ratio_b=b, amount="200 g", waste="0.5 %")
    assert bench.pane.screen.summary[1] == f"{told} by weight"
    assert bench.pane.screen.summary[3] == "waste 0.5 %"
    assert bench.type(waste="8 %").pane.screen.summary[3] == "waste 8 %"


def test_the_rule_of_a_tolerance_shows_the_sheets_own_limit(bench: MixBench) -> None:
    """2.5 % allowed were shown as 2 %, and 1.5 % as 2 %."""
    ratio = {"basis": "weight", "a": "100", "b": "30", "tolerance": "2.5 %"}
    bench.pane.on_sheet(bench.shop.bare(ratio=ratio))
    bench.type(amount="130 g", waste="0 %").weigh("a", "100 g").weigh("b", "130.8 g")
    rule = bench.pane.screen.rule
    assert rule is not None
    assert [tick.label for tick in rule.ticks] == ["−2.5 %", "0", "+2.5 %"]
    assert rule.spoken.endswith("allowed 2.5 %")
