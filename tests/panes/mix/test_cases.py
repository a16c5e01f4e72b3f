"""Numbers of cases that no other test of this pane has, and what follows a corrected weight."""

import pytest

from shopassist.core.explain import explain
from shopassist.core.figures import Figure
from tests.panes.mix.conftest import MixBench
from tests.panes.mix.test_cup_page import casting
from tests.panes.mix.test_measure_page import four_to_one, scale
from tests.panes.mix.test_shelf_pages import fast, lot, resin


@pytest.mark.parametrize(
    ("step", "error", "least"),
    [("1 g", "0 g", "105 g"), ("1 g", "1 g", "315 g"), ("0.1 g", "0.1 g", "31.5 g"),
     ("0.1 g", "0 g", "10.5 g")],
)  # fmt: skip
def test_the_least_batch_follows_what_the_scale_may_be_off_by(
    bench: MixBench, step: str, error: str, least: str
) -> None:
    """Case M06: off by 0.5, 1.5, 0.15 and 0.05 g."""
    shown = four_to_one(bench, "125 g").page("measure", scale=scale(bench, step, error))
    assert bench.figures(shown)["least_batch"] == least


def test_a_resin_by_drops_is_named_and_told_where_its_dose_stands(bench: MixBench) -> None:
    """Case M13: the dose goes by thickness and warmth; no ratio can say it."""
    bench.pane.on_sheet(bench.shop.bare(name="Clear polyester"))
    bench.type(amount="3 oz (weight)")
    what, do = bench.pane.screen.note
    assert what == "A resin hardened by drops of catalyst is not mixed here (polyester)."
    assert do.startswith("Polyester and vinyl ester take drops by thickness and warmth")
    assert do.endswith("Take its maker's table for the dose, or choose a two-part resin here.")
    assert bench.pane.screen.stops == ()


def test_three_minutes_and_three_in_a_second_cup_count_within_the_time(bench: MixBench) -> None:
    """Case M14: stirring runs from the hardener on and takes from what is left to pour."""
    rest = {f"step_{number}": "30 s" for number in (3, 4, 5, 6)}
    slow = {
        "pressurise": {"time": "30 min", "at": "22 °C"},
        "gel": {"time": "60 min", "at": "22 °C"},
    }
    resin(
        bench, "100 g", "polyurethane", law={"kind": "factor per 10 degrees", "factor": "2"}, **slow
    )
    bench.shop.warm(bench.batch, 22.0)
    short = bench.page("steps", step_1="30 s", step_2="30 s", **rest)
    assert short.caution == ("", "")
    latest = [row[1] for row in short.rows if row[0] == "Stir"]
    long = bench.page("steps", step_1="3 min", step_2="3 min", **rest)
    assert [row[0] for row in long.rows[:2]] == ["Stir", "Second cup, stir"]
    assert [row[1] for row in long.rows if row[0] == "Stir"] != latest
    assert any("never scrape the cup" in note for note in long.notes)


def test_three_degrees_warmer_leave_less_to_pressure(bench: MixBench) -> None:
    """Case C17: seven minutes at 22 °C are 0.81 of it at 25 °C, counted to the early end."""

    def by(celsius: float) -> str:
        return fast(bench, celsius).page("steps").rows[-1][1]

    cool, warm = by(22.0), by(25.0)
    assert (cool, warm) == ("5 min 4 s", "4 min 6 s")
    # 246 s of 304 s: 0.81.


# -- a corrected weight and its lots -----------------------------------------------------------------


def corrected(bench: MixBench, b: str) -> dict[str, str]:
    """The hardener of a mixed cup is weighed again."""
    bench.pane.on_correct("read upside down")
    bench.weigh("b", b, "read upside down")
    return dict(bench.page("stock").rows)


def test_a_corrected_weight_is_taken_from_its_lot_or_given_back(bench: MixBench) -> None:
    resin(bench, "144 g")
    lot(bench, "a", "500 g")
    lot(bench, "b", "200 g")
    bench.weigh("a", "100 g").weigh("b", "144 g")
    bench.pane.on_hardener_in()
    assert dict(bench.page("stock").rows)["B, lot L-b"] == "156.0 g left"
    assert corrected(bench, "146 g")["B, lot L-b"] == "154.0 g left"
    assert corrected(bench, "140 g")["B, lot L-b"] == "160.0 g left"
    assert corrected(bench, "140 g")["B, lot L-b"] == "160.0 g left"
    bench.killed()
    rows = dict(bench.page("stock").rows)
    assert (rows["A, lot L-a"], rows["B, lot L-b"]) == ("400.0 g left", "160.0 g left")


def test_the_lot_drawn_last_has_it_back_first(bench: MixBench) -> None:
    resin(bench, "144 g")
    lot(bench, "a", "500 g")
    lot(bench, "b", "30 g", "old", opened="2026-01-02")
    lot(bench, "b", "200 g", "new")
    bench.weigh("a", "100 g").weigh("b", "144 g")
    bench.pane.on_hardener_in()
    rows = dict(bench.page("stock").rows)
    assert (rows["B, lot old"], rows["B, lot new"]) == ("0.0 g left", "186.0 g left")
    rows = corrected(bench, "120 g")
    assert (rows["B, lot old"], rows["B, lot new"]) == ("10.0 g left", "200.0 g left")


def test_a_cup_mixed_before_there_were_lots_takes_nothing_from_them(bench: MixBench) -> None:
    resin(bench, "144 g").weigh("a", "100 g").weigh("b", "144 g")
    bench.pane.on_hardener_in()
    lot(bench, "b", "200 g")
    assert corrected(bench, "146 g")["B, lot L-b"] == "200.0 g left"


# -- colour in several cups --------------------------------------------------------------------------


def test_each_cup_takes_its_share_of_the_colour(bench: MixBench) -> None:
    casting(bench, "300 g").page("cup", resin_temp="25 °C")
    grey = bench.shop.keep(bench.shop.colours, name="Grey", made_for="amine epoxy")
    bench.page("colour", colour_1=grey, colour_mass_1="6 g")
    whole = bench.stops
    most = bench.figures(bench.page("colour"))["colour_most"]
    assert most == "15.0 g"
    bench.page("cup", cups="3")
    shown = bench.page("colour")
    assert bench.figures(shown)["colour_most"] == most
    assert shown.notes[0] == "Grey: 2.0 g into each of 3 cups."
    # 76.9 g of A and a third of the colour; before it was 230.8 g and all of it.
    assert (whole[1], bench.stops[1]) == ("Grey 236.8 later", "Grey 79.0 later")


# -- explanations ------------------------------------------------------------------------------------


def test_what_is_typed_as_per_cent_is_explained_as_per_cent(bench: MixBench) -> None:
    told: list[Figure] = []
    bench.pane.explained.connect(told.append)
    casting(bench, "100 g")
    bench.type(waste="8 %")
    bench.page("colour", colour_mass_1="1 g")
    for name in ("mix.part_a_target", "mix.step_error", "mix.colour_most"):
        bench.pane.on_explain(name)
    say = bench.shop.words.say
    texts = [say(text) for each in told for s in explain(each).sections for _, text in s.rows]
    assert any(text.startswith("8.0 %, typed") for text in texts), texts
    assert any(text.startswith("5.0 %, common practice") for text in texts)
    assert not any(text.startswith("0.0") and "typed" in text for text in texts)
    assert say(explain(told[1]).value).endswith(" %")


def test_how_far_a_cup_is_off_explains_itself(bench: MixBench) -> None:
    """144 g of A and 50 g of B at 100:44 are 21 % short of hardener."""
    told: list[Figure] = []
    bench.pane.explained.connect(told.append)
    bench.type(ratio_a="100", ratio_b="44", amount="200 g", scale_step="1 g")
    bench.pane.on_explain("mix.deviation")
    assert not told  # nothing is weighed yet
    bench.weigh("a", "144 g")
    bench.weigh("b", "194 g")
    shown = bench.pane.screen.deviation
    assert shown is not None
    assert shown.explains
    bench.pane.on_explain("mix.deviation")
    (figure,) = told
    say = bench.shop.words.say
    made = explain(figure)
    assert say(made.value) == "−21.1 %" == shown.value
    rows = {say(name): say(text) for section in made.sections for name, text in section.rows}
    assert rows["A in the cup"].startswith("144")
    assert rows["B in the cup"].startswith("50")
    assert rows["B per A by weight"].startswith("0.44")
    assert figure.value is not None
    assert figure.low is not None
    assert figure.high is not None
    assert figure.low < figure.value < figure.high
