"""How it is measured: what a scale, marked cups and pumps can and cannot tell."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.explain import explain
from shopassist.core.figures import Figure
from tests.panes.mix.conftest import MixBench
from tests.panes.mix.test_cup_page import CASTING


def scale(bench: MixBench, step: str, error: str = "", **more: str) -> str:
    fields = {"name": "Kitchen", "step": step} | ({"error": error} if error else {}) | more
    return bench.shop.keep(bench.shop.scales, **fields)


def four_to_one(bench: MixBench, amount: str) -> MixBench:
    bench.pane.on_sheet(bench.shop.bare(ratio={"basis": "weight", "a": "100", "b": "25",
                                               "tolerance": "3 %"}))  # fmt: skip
    return bench.type(amount=amount, waste="0 %")


def test_a_one_gram_scale_allows_the_ratio_from_a_hundred_and_five_grams(bench: MixBench) -> None:
    """±0.5 g: 3.90 to 4.10, just inside; ±1.5 g: 3.72 to 4.32, outside of 3.88 to 4.12."""
    four_to_one(bench, "125 g")
    exact = scale(bench, "1 g", "0 g")
    shown = bench.page("measure", scale=exact)
    assert bench.figures(shown) == {"scale_band": "2.5 %", "least_batch": "105 g"}
    assert shown.caution == ("", "")
    real = bench.shop.keep(bench.shop.scales, name="Real", step="1 g", error="1 g")
    shown = bench.page("measure", scale=real)
    assert bench.figures(shown) == {"scale_band": "7.6 %", "least_batch": "315 g"}
    assert shown.caution[0] == "With your scale, do not mix less than 315.0 g."
    fine = bench.shop.keep(bench.shop.scales, name="Fine", step="0.1 g", error="0.1 g")
    assert bench.figures(bench.page("measure", scale=fine))["least_batch"] == "31.5 g"


def test_step_and_stated_error_are_kept_apart(bench: MixBench) -> None:
    four_to_one(bench, "125 g")
    shown = bench.page("measure", scale=scale(bench, "1 g"))
    # Nothing stated: two steps and half a step.
    assert bench.figures(shown)["least_batch"] == "524 g"
    assert "No stated error: two steps are taken; ours." in shown.notes
    assert bench.grams == ("100 g", "25 g", "125 g")


def test_a_cup_tells_what_its_scale_may_be_off_by(bench: MixBench) -> None:
    four_to_one(bench, "125 g").page("measure", scale=scale(bench, "1 g", "1 g"))
    bench.weigh("a", "100 g").weigh("b", "125 g")
    shown = bench.pane.screen.deviation
    assert shown is not None
    assert (shown.value, shown.note) == ("0.0 %", "this scale tells ± 7.6 %")


def test_the_last_scale_is_taken_again_until_a_step_is_typed(bench: MixBench) -> None:
    four_to_one(bench, "125 g").page("measure", scale=scale(bench, "1 g"))
    bench.shop.hand.take_batch(bench.shop.batches.open("Next"))
    four_to_one(bench, "125.3 g")
    assert bench.grams[2] == "126 g"
    step = dict(bench.pane.screen.fields)["scale_step"]
    assert (step.value, step.origin) == (0.001, "on record")
    bench.type(scale_step="0.1 g")
    assert bench.grams[2] == "125.4 g"


def test_less_than_the_scale_can_tell_has_no_band(bench: MixBench) -> None:
    four_to_one(bench, "6 g")
    shown = bench.page("measure", scale=scale(bench, "1 g", "1 g"))
    assert bench.figures(shown)["scale_band"] == "–"
    assert shown.figures[0].note == "less than the scale can tell"


def test_a_tiny_casting_is_not_for_a_one_gram_scale(bench: MixBench) -> None:
    """1 cubic inch at 26.4 in³ a pound is 17.18 g: 9.04 and 8.14 g of 100 : 90."""
    bench.pane.on_sheet(bench.shop.bare(ratio={"basis": "weight", "a": "100", "b": "90"},
                                        density={"mixed": "1.0484 g/ml"}))  # fmt: skip
    bench.type(amount="16.387 ml", waste="0", scale_step="0.01 g")
    assert bench.grams == ("9.05 g", "8.14 g", "17.19 g")  # A up to the step, B to fit it
    shown = bench.page("measure", scale=scale(bench, "1 g", "0 g"))
    bench.type(scale_step="")
    shown = bench.page("measure")
    assert shown.caution[0].startswith("With your scale, do not mix less than ")
    assert bench.pane.screen.note[0].startswith("This scale leaves ±")


def by_volume(bench: MixBench, a: str = "1.12 g/ml", b: str = "0.98 g/ml") -> MixBench:
    bench.pane.on_sheet(bench.shop.bare(ratio={"basis": "volume", "a": "2", "b": "1"},
                                        density={"a": a, "b": b}))  # fmt: skip
    return bench.type(amount="300 ml", waste="0")


def test_a_scale_in_millilitres_shows_grams_of_water(bench: MixBench) -> None:
    """2 : 1 by volume at 1.12 and 0.98 g/ml would come out 1.75 : 1, +14.3 % hardener."""
    shown = by_volume(bench).page("measure", reads="ml")
    assert shown.notes[0] == (
        "A scale in millilitres shows grams of water. The ratio by volume on it would put 14.3 %"
        " too much hardener in. Read its figure as grams; never use a ratio by volume with it."
    )
    by_volume(bench, "0.98 g/ml", "1.12 g/ml")
    assert "off by −12.5 % of hardener" in bench.page("measure").notes[0]


def test_a_scale_that_can_show_millilitres_is_warned_of_before(bench: MixBench) -> None:
    shown = bench.hundred_thirty().page(
        "measure", scale=scale(bench, "1 g", shows="grams, millilitres, fluid ounces")
    )
    assert shown.notes[0].startswith("A scale in millilitres shows grams of water. Read its")


def test_ounces_are_asked_about_and_never_guessed(bench: MixBench) -> None:
    """8 US fl oz of 1.10 g/ml are 260.2 g; 8 oz by weight are 12.9 % less."""
    bench.pane.on_sheet(bench.shop.bare(density={"mixed": "1.10 g/ml"}))
    bench.type(amount="8 US fl oz", waste="0")
    assert bench.grams[2] == "260.3 g"
    bench.type(amount="8 oz (weight)")
    assert bench.grams[2] == "226.8 g"
    assert 1 - 226.796 / 260.247 > 0.128


def test_a_thick_part_is_poured_by_what_its_bottle_loses(bench: MixBench) -> None:
    shown = bench.hundred_thirty().page("measure", bottle="1000 g")
    assert bench.figures(shown)["bottle_stop"] == "822.2 g"
    shown = bench.page("measure", bottle="100 g")
    assert shown.answers["bottle"].problem == "The bottle does not hold that much."


def test_a_scale_that_lost_zero_goes_on_from_the_weighed_cup(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "180 g")
    shown = bench.page("measure", empty_cup="12 g", cup_now="192 g")
    # Cup 12 g and 180 g of A: with 54 g of B it is 246 g.
    assert bench.figures(shown)["regained.1"] == "246.0 g"
    shown = bench.page("measure", cup_now="150 g")
    assert shown.answers["cup_now"].problem.startswith("The cup weighs less")


def test_hardener_may_go_in_first(bench: MixBench) -> None:
    bench.hundred_thirty().page("measure", order="b")
    assert bench.stops == ("Hardener 53.3 present", "Resin 231.1 later")
    bench.weigh("b", "60 g")
    # 60 g of B want 200 g of A.
    assert bench.stops == ("Hardener 60.0 done", "Resin 260.0 present")
    bench.weigh("a", "260 g")
    shown = bench.pane.screen.deviation
    assert shown is not None
    assert shown.value == "0.0 %"


def test_the_lines_of_a_cup_are_checked_with_water(bench: MixBench) -> None:
    """The first line holds 33.0 ml, both 59.1: A 33.0, B 26.1, −20.9 % hardener."""
    bench.type(ratio_a="1", ratio_b="1", amount="60 ml").pane.on_basis("volume")
    shown = bench.page("measure", how="cups")
    assert shown.notes[0].startswith("Fill to each line with water")
    assert shown.shown == {"how", "line_first", "line_both", "water_temp"}
    shown = bench.page("measure", line_first="32.94 g", line_both="58.99 g")
    assert bench.figures(shown) == {
        "line_a": "33.0 ml", "line_b": "26.1 ml", "line_error": "−20.9 %",
    }  # fmt: skip
    assert shown.caution == ("These lines are off the ratio.", "Weigh the parts instead.")
    shown = bench.page("measure", line_both="65.88 g", water_temp="20 °C")
    assert bench.figures(shown)["line_error"] == "0.0 %"
    assert shown.caution == ("", "")
    shown = bench.page("measure", line_both="20 g")
    assert shown.answers["line_both"].problem.startswith("Both parts together")


def test_lines_without_a_ratio_by_volume_are_not_judged(bench: MixBench) -> None:
    shown = bench.hundred_thirty().page("measure", how="cups", line_first="30 g", line_both="60 g")
    assert shown.notes == ("Needs the ratio by volume to judge the lines.",)


def test_metered_pumps_stroked_by_the_label_are_half_short(bench: MixBench) -> None:
    """Two strokes to one of pumps metered for 2 : 1 give 4 : 1: −50 % hardener."""
    bench.type(ratio_a="2", ratio_b="1", amount="120 ml").pane.on_basis("volume")
    shown = bench.page("measure", how="pumps")
    assert shown.notes[0].startswith("Type what one full stroke")
    shown = bench.page("measure", stroke_a="20 ml", stroke_b="10 ml", strokes_a="2", strokes_b="1")
    found = bench.figures(shown)
    assert (found["pumped"], found["pumped_off"]) == ("0.250", "−50.0 %")
    assert shown.caution[1].startswith("Metered pumps want one stroke of each")


def test_five_strokes_each_of_metered_pumps_are_right(bench: MixBench) -> None:
    """4 : 1 on the label, five strokes each: exactly on the ratio."""
    bench.type(ratio_a="4", ratio_b="1", amount="100 ml", waste="0").pane.on_basis("volume")
    shown = bench.page(
        "measure", how="pumps", stroke_a="16 ml", stroke_b="4 ml", strokes_a="5", strokes_b="5"
    )
    found = bench.figures(shown)
    assert (found["pumped_off"], found["strokes_a"], found["strokes_b"]) == (
        "0.0 %",
        "5.00",
        "5.00",
    )
    assert shown.caution == ("", "")


def test_pumps_that_do_not_fit_the_label_are_told_before_the_first_stroke(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(
        ratio={"basis": "volume", "a": "2", "b": "1"}, stroke={"a": "20 ml", "b": "20 ml"},
        density={"a": "1.1 g/ml", "b": "1.0 g/ml"},
    ))  # fmt: skip
    shown = bench.type(amount="120 ml").page("measure", how="pumps")
    assert bench.figures(shown)["stroke_pair"] == "1.00"
    assert shown.caution[0] == "One stroke of each is off the ratio."


def test_pumps_by_weight_without_densities_are_not_judged(bench: MixBench) -> None:
    shown = bench.hundred_thirty().page(
        "measure", how="pumps", stroke_a="20 ml", stroke_b="10 ml", strokes_a="1", strokes_b="1"
    )
    assert bench.figures(shown) == {"stroke_pair": "0.500", "pumped": "0.500"}
    assert shown.notes[0].startswith("Needs the ratio by volume")


def test_strokes_are_a_basis_of_their_own(bench: MixBench) -> None:
    bench.type(ratio_a="1", ratio_b="1", amount="120 ml", waste="0").pane.on_basis("strokes")
    assert bench.pane.screen.figures[0].note == "needs what one stroke of each pump gives"
    bench.page("measure", how="pumps", stroke_a="20 ml", stroke_b="10 ml")
    assert bench.grams == ("80.0 ml", "40.0 ml", "120 ml")
    assert bench.pane.screen.summary[1] == "1 : 1 in strokes"


def two_ratios(bench: MixBench, density_b: str, basis: str = "volume") -> None:
    ratio, other = ("1", "1"), ("100", "83")
    if basis == "weight":
        ratio, other = other, ratio
    bench.pane.on_sheet(bench.shop.bare(
        ratio={"basis": basis, "a": ratio[0], "b": ratio[1]},
        other={"a": other[0], "b": other[1]}, density={"a": "1.15 g/ml", "b": density_b},
    ))  # fmt: skip


def test_a_label_with_two_ratios_is_weighed_by_the_one_by_weight(bench: MixBench) -> None:
    """1 : 1 by volume is 100 : 83 by weight: 300 g are 163.9 and 136.1 g."""
    two_ratios(bench, "0.9545 g/ml")
    bench.type(amount="300 g", waste="0")
    assert bench.grams == ("164.0 g", "136.1 g", "300.1 g")
    assert bench.pane.screen.bases == ("weight", "volume")
    bench.pane.on_basis("weight")
    assert bench.grams == ("164.0 g", "136.1 g", "300.1 g")
    assert bench.pane.screen.summary[1].endswith("by weight")
    shown = bench.page("measure", reads="ml")
    # 1 : 1 weighed is 1 / 0.83 of the hardener it should be.
    assert "20.5 % too much hardener" in shown.notes[0]
    assert shown.caution == ("", "")


def test_two_ratios_that_contradict_the_densities_are_told(bench: MixBench) -> None:
    for basis in ("volume", "weight"):
        two_ratios(bench, "1.05 g/ml", basis)
        bench.type(amount="300 g")
        shown = bench.page("measure", reads="")
        assert shown.caution[0] == "The sheet's two ratios are 9.1 % apart by its densities."
        assert bench.pane.screen.note[0] == shown.caution[0]


def test_a_page_can_explain_its_figures(bench: MixBench) -> None:
    told: list[str] = []
    bench.pane.explained.connect(lambda figure: told.append(figure.id))
    bench.hundred_thirty().page("measure")
    bench.pane.on_explain("mix.least_batch")
    assert told == ["mix.least_batch"]


def test_the_same_page_again_turns_back_to_the_ratio(bench: MixBench) -> None:
    bench.page("measure")
    assert bench.pane.screen.folded
    bench.pane.on_page("measure")
    assert bench.pane.screen.page is None
    bench.page("cup")
    bench.pane.on_unfold()
    assert bench.pane.screen.page is None
    assert not bench.pane.screen.folded


def test_every_figure_of_the_pages_is_explained_in_words(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(**CASTING))
    bench.type(amount="300 g")
    for part in "ab":
        bench.shop.keep(bench.shop.lots, name=part, resin="Casting", part=part, left="1 kg",
                        price="10")  # fmt: skip
    bench.shop.warm(bench.batch, 25.0)
    told: list[Figure] = []
    bench.pane.explained.connect(told.append)
    for shown in (
        bench.page("measure", bottle="500 g", empty_cup="10 g", cup_now="12 g"),
        bench.page("cup", pour_depth="45 mm"),
        bench.page("colour", colour_mass_1="1 g"),
        bench.page("stock"),
        bench.page("measure", how="cups", line_first="30 g", line_both="60 g"),
        bench.page("measure", how="pumps", stroke_a="20 ml", stroke_b="10 ml", strokes_a="1",
                   strokes_b="1"),
    ):  # fmt: skip
        bench.page(shown.key)
        for name in shown.figure_ids:
            bench.pane.on_explain(name)
    assert len({figure.id for figure in told}) > 8
    say = bench.shop.words.say
    for figure in told:
        found = explain(figure)
        assert found.formula, figure.id
        assert found.sections[0].rows, figure.id
        assert not any("_" in say(label) for s in found.sections for label, _ in s.rows), figure.id


def test_a_way_of_measuring_that_a_file_brought_and_nobody_knows_is_a_scale(
    bench: MixBench,
) -> None:
    usual = bench.hundred_thirty().page("measure").shown
    bench.pane.on_page("ratio")
    bench.shop.batches.enter(bench.batch, "mix.how", Typed("grams", None))
    assert bench.page("measure").shown == usual


@pytest.mark.parametrize(
    ("order", "told"),
    [("", "resin to 200 ml, then hardener to 300 ml"),
     ("b", "hardener to 100 ml, then resin to 300 ml")],
)  # fmt: skip
def test_without_a_scale_the_parts_stand_as_lines_of_a_cup(
    bench: MixBench, order: str, told: str
) -> None:
    """224.0 g at 1.12 g/ml and 98.0 g at 0.98 g/ml: the label's two to one by volume."""
    density = {"a": "1.12 g/ml", "b": "0.98 g/ml"}
    ratio = {"basis": "volume", "a": "2", "b": "1"}
    bench.pane.on_sheet(bench.shop.bare(density=density, ratio=ratio))
    bench.type(amount="300 ml", waste="0 %").page("measure", order=order)
    assert f"By both densities: {told}." in bench.page("measure", how="cups").notes
    shown = bench.page("measure", line_first="199.6 g", line_both="299.4 g")
    assert f"By both densities: {told}." in shown.notes
