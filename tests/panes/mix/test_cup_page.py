"""One cup today: mass, depth, heat, what is left over; and the amount that Blank hands over."""

import pytest

from shopassist.core.errors import RefusedError
from shopassist.core.quantities import CubicMetre
from tests.panes.mix.conftest import MixBench
from tests.shops import Shop

FACTOR = {"kind": "factor per 10 degrees", "factor": "2"}
CASTING = {
    "name": "Casting", "family": "amine epoxy", "law": FACTOR,
    "limit": {"mass": "150 g", "layer": "25 mm", "at": "25 °C"},
    "temperature": {"lowest": "10 °C", "highest": "35 °C"},
    "density": {"a": "1.12 g/ml", "b": "0.98 g/ml", "mixed": "1.10 g/ml"},
    "working": {"time": "20 min", "at": "22.22 °C", "mass": "100 g"},
}  # fmt: skip


def casting(bench: MixBench, amount: str, **more: object) -> MixBench:
    bench.pane.on_sheet(bench.shop.bare(**(CASTING | more)))
    return bench.type(amount=amount, waste="0 %")


def test_without_a_sheet_no_limit_is_known(bench: MixBench) -> None:
    assert bench.page("cup").notes == ("Without a sheet no limit of mass or depth is known.",)
    bench.pane.on_sheet(bench.shop.bare())
    assert bench.page("cup").notes == ("Needs grams to judge a cup.",)
    bench.type(amount="100 g")
    assert "No limit of mass or depth on the sheet." in bench.page("cup").notes


def test_a_hot_day_shortens_the_working_time_and_the_cup(bench: MixBench) -> None:
    """From 72 to 94 °F twenty minutes become 8.6 before it warms itself: × 0.43."""
    shown = casting(bench, "170 g").page("cup", resin_temp="94 °F")
    found = bench.figures(shown)
    assert found["working_today"] == "8 min 34 s"
    # 34.4 °C over 25 °C is × 1.92 as fast: 25 mm × 1.032 / √1.92 = 18.6 mm, mass by its cube.
    assert found["deepest_layer"] == "18.6 mm"
    assert found["most_in_cup"] == "61.7 g"
    assert shown.caution[0] == "Too much for one cup today: 61.7 g at most."
    assert shown.act is not None
    assert shown.act.words == "Mix in 3 cups"
    assert [title for title, _ in shown.cards] == ["Part A is cloudy or gritty"]


def test_twelve_ounces_are_mixed_in_six_cups_of_two(bench: MixBench) -> None:
    casting(bench, "12 oz (weight)", limit={"mass": "57 g", "at": "25 °C"})
    shown = bench.page("cup", resin_temp="25 °C")
    assert bench.figures(shown)["cups_wanted"] == "6"
    assert "6 cups of 56.7 g" in shown.caution[1]
    bench.pane.on_act()
    shown = bench.page("cup")
    assert shown.act is None
    assert shown.caution == ("", "")
    # 340.2 g in six cups of 56.7 g: A = 43.62, B = 13.08.
    assert bench.grams == ("43.7 g", "13.1 g", "56.8 g")
    bench.pane.on_page("cup")
    bench.weigh("a", "43.7 g").weigh("b", "56.8 g")
    bench.pane.on_hardener_in()
    another = bench.pane.screen.another
    assert another is not None
    assert another.words == "Cup 2 of 6"


def test_too_much_in_one_cup_starts_only_with_a_typed_reason(bench: MixBench) -> None:
    casting(bench, "170 g").page("cup", resin_temp="25 °C")
    screen = bench.pane.screen
    assert screen.needs_reason
    assert screen.note[0] == "Too much for one cup today: 150.0 g at most."
    bench.pane.on_hardener_in()
    assert bench.pane.screen.message.startswith("This is too much for one cup today. Type why")
    bench.pane.on_hardener_in(reason="into a tray at once")
    assert bench.shop.batches.get(bench.batch).reasons == ("into a tray at once",)


def test_more_cups_than_anybody_mixes_are_told_and_not_counted(bench: MixBench) -> None:
    shown = casting(bench, "31 kg").page("cup", resin_temp="25 °C")
    assert shown.caution[1] == "More than 200 cups: look at the amount."
    assert shown.act is None
    assert bench.pane.screen.needs_reason
    bench.type(amount="30 kg")
    assert bench.page("cup").caution[1].startswith("200 cups of 150.0 g")


@pytest.mark.parametrize("law", [{}, {"law": {"kind": "activation energy", "energy": "60 kJ/mol"}}])
def test_a_depth_of_nothing_is_none(bench: MixBench, law: dict[str, object]) -> None:
    casting(bench, "100 g", gel={"time": "40 min", "at": "25 °C"}, **law)
    shown = bench.page("cup", resin_temp="25 °C", pour_depth="0 mm")
    assert "layers" not in bench.figures(shown)
    assert "deepest_layer" in bench.figures(shown)


def test_a_cup_near_its_limit_and_warm_parts_add_up(bench: MixBench) -> None:
    casting(bench, "140 g", limit={"mass": "400 g", "at": "22 °C"})
    shown = bench.page("cup", resin_temp="30 °C")
    assert shown.caution == ("", "")
    bench.type(amount="180 g")
    shown = bench.page("cup")
    assert shown.caution[1].startswith("Both at once: take a smaller cup")
    assert bench.pane.screen.note[0] == "Near the most for one cup today."
    assert not bench.pane.screen.needs_reason


def test_working_time_is_never_scaled_by_mass(bench: MixBench) -> None:
    """140 g in a narrow cup set in five minutes: unknown, shorter than stated."""
    shown = casting(bench, "140 g").page("cup", resin_temp="22.22 °C")
    assert "Working time for this cup: unknown, shorter than for 100.0 g." in shown.notes
    assert bench.figures(shown)["working_today"] == "20 min"


def test_a_cold_garage_is_no_credit_and_the_last_pour_stands_beside(bench: MixBench) -> None:
    """0 °C last time, 10 °C today: twice as fast, the limit stays."""
    sheet = bench.shop.bare(**CASTING)
    bench.shop.mixed(celsius=0.0, sheet=sheet)
    bench.shop.hand.take_batch(bench.shop.batches.open("Today"))
    bench.pane.on_sheet(sheet)
    shown = bench.type(amount="190 g", waste="0").page("cup", resin_temp="10 °C")
    assert bench.figures(shown)["most_in_cup"] == "150.0 g"
    assert bench.figures(shown)["deepest_layer"] == "25.0 mm"
    assert shown.caution[0] == "Too much for one cup today: 150.0 g at most."
    assert "A cold shop is no credit: the sheet's own limit stands." in shown.notes
    assert (
        shown.notes[-1] == "Last time 199.9 g at 0 °C; today 190.0 g at 10 °C: 2.0 times as fast."
    )
    shown = bench.page("cup", resin_temp="5 °C")
    assert "Colder than the sheet allows: from 10 °C." in shown.notes
    assert (
        "Warmer than the sheet allows: up to 35 °C." in bench.page("cup", resin_temp="40 °C").notes
    )


def test_a_deep_pour_is_told_in_layers(bench: MixBench) -> None:
    """45 mm at 25 mm a layer are two pours; a thin one sets later than its sheet says."""
    shown = casting(bench, "140 g").page("cup", resin_temp="25 °C", pour_depth="45 mm")
    assert bench.figures(shown)["layers"] == "2"
    assert "Too deep for one pour: 2 layers." in shown.notes
    shown = bench.page("cup", pour_depth="15 mm")
    assert "Thin for this resin: it sets later than its sheet." in shown.notes


def test_heat_is_a_regime_and_no_figure_of_a_peak(bench: MixBench) -> None:
    slow = {"law": {"kind": "activation energy", "energy": "57 kJ/mol"},
            "limit": {"mass": "5 kg", "layer": "50 mm", "at": "25 °C"},
            "gel": {"time": "24 h", "at": "25 °C"}}  # fmt: skip
    casting(bench, "20 g", **slow)
    told = bench.page("cup", resin_temp="25 °C").notes
    assert "Heat: low. It gives off its warmth as fast as it makes it." in told
    assert "Heat is indicative, by an index; the sheet's limits come first." in told
    casting(bench, "20 g", **(slow | {"gel": {"time": "20 min", "at": "25 °C"}}))
    assert any("may run away" in note for note in bench.page("cup").notes)
    shown = bench.page("cup")
    assert not any("°C" in f"{figure.value}{figure.unit}" for figure in shown.figures)


def test_the_warm_end_of_the_newest_reading_counts(bench: MixBench) -> None:
    casting(bench, "100 g")
    assert "Type how warm the resin is today." in bench.page("cup").notes
    bench.shop.warm(bench.batch, 25.0)
    assert bench.figures(bench.page("cup"))["most_in_cup"] == "150.0 g"
    bench.shop.warm(bench.batch, 25.0, "shop")
    # Read in air, three kelvin are added.
    assert bench.figures(bench.page("cup"))["most_in_cup"] < "150"


def test_part_a_at_fifty_degrees_would_have_a_fifth_of_its_time(bench: MixBench) -> None:
    """Warmed to clear crystals it must cool first: × 0.18 at 50 °C of 25 °C."""
    shown = casting(
        bench, "100 g", working={"time": "100 min", "at": "25 °C", "mass": "100 g"}
    ).page("cup", resin_temp="50 °C")
    assert bench.figures(shown)["working_today"] == "17 min"
    assert any("Let it cool to working temperature" in line for line in shown.cards[0][1])


def left_over(bench: MixBench, mass: str) -> MixBench:
    casting(bench, "100 g").weigh("a", "76.9 g").weigh("b", "100 g")
    bench.pane.on_hardener_in()
    bench.pane.on_poured()
    bench.page("cup", leftover=mass)
    return bench


def test_sixty_grams_left_over_keep_the_batch_open_until_cold_and_hard(bench: MixBench) -> None:
    shown = left_over(bench, "60 g").page("cup", leftover_place="on the step")
    assert shown.caution == (
        "60.0 g left over may get hot.", "The batch is not closed before it is cold and hard.",
    )  # fmt: skip
    assert [title for title, _ in shown.cards] == ["The cup is hot", "What is left over"]
    with pytest.raises(RefusedError, match="cold and hard"):
        bench.shop.batches.close(bench.batch, "good")
    shown = bench.page("cup", leftover_cold="cold")
    assert shown.notes == ("Cold and hard: it may go into the bin.",)
    bench.shop.batches.close(bench.batch, "good")


def test_a_little_left_over_is_no_matter(bench: MixBench) -> None:
    left_over(bench, "15 g")
    assert bench.page("cup").notes == ("Little enough: leave it open until it is hard.",)
    bench.shop.batches.close(bench.batch, "good")


def test_after_the_pour_the_leftover_is_asked_for(bench: MixBench) -> None:
    casting(bench, "100 g")
    bench.pane.on_hardener_in()
    assert bench.page("cup").notes[0].startswith("How much is left in the cup?")
    bench.pane.on_act()


# -- a resin that is not for this pane -----------------------------------------------------------


@pytest.mark.parametrize("name", ["Clear polyester", "Vinyl ester 20"])
def test_a_resin_hardened_by_drops_is_refused_by_its_name(bench: MixBench, name: str) -> None:
    bench.pane.on_sheet(bench.shop.bare(name=name))
    bench.type(amount="3 oz (weight)")
    screen = bench.pane.screen
    assert screen.figures[0].note.startswith("A resin hardened by drops of catalyst")
    assert screen.hardener is not None
    assert not screen.hardener.enabled


def test_a_two_part_resin_may_speak_of_polyester_in_its_notes(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.bare(family="polyurethane", notes="no polyester dyes"))
    bench.type(amount="100 g")
    assert bench.pane.screen.stops
    bench.pane.on_sheet(bench.shop.bare(notes="12 drops of MEKP an ounce"))
    assert not bench.pane.screen.stops


# -- what Blank hands over --------------------------------------------------------------------


def need(shop: Shop, batch: str, *ml: float) -> None:
    low, likely, high = (CubicMetre(each * 1e-6) for each in ml)
    shop.batches.set_need(batch, low, likely, high, "g")


def test_blanks_amount_counts_until_one_is_typed_and_can_be_taken_again(bench: MixBench) -> None:
    """The range of a lump of mixed stuff is mixed for its high end, waste counted by Blank."""
    casting(bench, "")
    need(bench.shop, bench.batch, 12.5, 13.8, 15.2)
    bench.type(waste="")
    screen = bench.pane.screen
    assert screen.summary[2:] == ("15.2 ml, from Blank", "waste 0 %")
    assert bench.grams[2] == "16.8 g"
    assert screen.use_blank == ""
    bench.type(amount="30 ml")
    screen = bench.pane.screen
    assert screen.use_blank == "Use Blank’s 15.2 ml"
    assert bench.grams[2] == "35.8 g"  # 30 ml are 33.0 g, and 8 % of our own
    bench.pane.on_use_blank()
    assert bench.grams[2] == "16.8 g"
    bench.pane.on_edited("amount", bench.entry("amount", "10 g"))
    assert bench.grams[2] == "10.9 g"


def test_an_amount_measured_with_water_is_grams_by_the_density(bench: MixBench) -> None:
    """30 ml at 1.10 g/ml are 33.0 g; with 10 % loss 36.3: 25.2 and 11.1 of 100 : 44."""
    casting(bench, "30 ml", ratio={"basis": "weight", "a": "100", "b": "44"})
    assert bench.grams[2] == "33.1 g"
    bench.type(waste="10 %")
    assert bench.grams == ("25.3 g", "11.1 g", "36.4 g")
