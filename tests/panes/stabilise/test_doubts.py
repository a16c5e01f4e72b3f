"""Weights that do not go together, a curve that never flattens, thick wood, a strange barometer."""

from pathlib import Path

import pytest

from shopassist.core.entry import EntrySpec
from shopassist.core.wording import US, Wording
from shopassist.panes.stabilise.asks import METER
from tests.panes.stabilise.conftest import SPECS, WoodBench


def hot(bench: WoodBench, wet: str, *log: tuple[float, str]) -> str:
    """Weigh wet, then in the oven after so many hours each; the note that stands then."""
    bench.type("scale_step", "0.1 g")
    bench.weigh(wet)
    bench.act("Oven is at temperature, wood is in")
    for hours, mass in log:
        bench.wait(hours)
        bench.weigh(mass)
    return bench.pane.screen.note


# -- drying ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("log", "told"),
    [
        (((6.0, "470 g"), (6.0, "450 g"), (6.0, "430 g")), True),
        (((6.0, "470 g"), (6.0, "465 g"), (6.0, "455 g")), True),
        (((6.0, "470 g"), (12.0, "430 g"), (6.0, "410 g")), True),
        (((6.0, "470 g"), (6.0, "450 g"), (6.0, "440 g")), False),
        (((6.0, "470 g"), (6.0, "470 g"), (6.0, "460 g")), False),
        (((6.0, "470 g"), (6.0, "450 g")), False),
        (((6.0, "470 g"), (0.0, "450 g"), (6.0, "430 g")), False),
    ],
)
def test_a_curve_that_does_not_flatten_is_told(
    bench: WoodBench, log: tuple[tuple[float, str], ...], told: bool
) -> None:
    assert ("It loses as fast as before" in hot(bench, "500 g", *log)) is told


def test_hours_in_an_oven_that_stood_off_tell_no_rate(bench: WoodBench) -> None:
    bench.type("cut_off", "2 h")
    note = hot(bench, "500 g", (2.0, "480 g"), (10.0, "470 g"), (1.0, "469 g"))
    assert "as fast as before" not in note


def test_dry_wood_loses_no_more(bench: WoodBench) -> None:
    note = hot(bench, "500 g", (20.0, "362.2 g"), (4.0, "362.1 g"), (4.0, "362.0 g"))
    assert "as fast as before" not in note


def test_thick_wood_that_looks_flat_may_only_be_slow(bench: WoodBench) -> None:
    """24 h for 38 mm are 134.6 h for 90 mm: 24 × (90/38)²."""
    bench.type("diameter", "90 mm")
    note = hot(bench, "500 g", (20.0, "460.1 g"), (4.0, "460.0 g"))
    assert "guides give 24 h for 38 mm, by the square of the thickness 5 d" in note
    bench.type("length", "30 mm")
    assert "may only be slow" not in bench.pane.screen.note
    bench.type("length", "200 mm")
    assert "may only be slow" in bench.pane.screen.note
    bench.wait(5 * 24.0)
    bench.weigh("460.0 g")
    assert "may only be slow" not in bench.pane.screen.note


@pytest.mark.parametrize(("thick", "second"), [("38 mm", "460.0 g"), ("90 mm", "450.0 g")])
def test_thin_wood_and_wood_that_is_not_dry_yet_hear_nothing_of_it(
    bench: WoodBench, thick: str, second: str
) -> None:
    bench.type("diameter", thick)
    assert "may only be slow" not in hot(bench, "500 g", (20.0, "460.1 g"), (2.5, second))


def test_wood_that_comes_out_heavier_than_it_went_in_is_a_wrong_weight(bench: WoodBench) -> None:
    told = "Heavier than the wet wood was"
    assert told in hot(bench, "361 g", (20.0, "400 g"))
    bench.wait(4)
    bench.weigh("399.9 g")
    assert told in bench.pane.screen.note
    bench.act("Out of the oven, sealed")
    assert told in bench.pane.screen.note


def test_a_meter_is_set_for_one_wood_and_guesses_in_wet_wood(bench: WoodBench) -> None:
    bench.weigh("500 g")
    bench.meter("14 %", "6 %")
    assert bench.pane.screen.note == (
        "A meter is set for one wood at one warmth: correct it by its own table first."
    )
    bench.meter("38 %")
    assert bench.pane.screen.note.startswith("Above 30 % a meter only guesses")


@pytest.mark.parametrize(
    ("spec", "text", "asked"),
    [(METER, "0.38", True), (METER, "6", False), (SPECS["fill"], "0.7", True),
     (SPECS["fill"], "70", False)],
)  # fmt: skip
def test_a_share_of_one_typed_for_percent_is_asked_about(
    spec: EntrySpec, text: str, asked: bool
) -> None:
    """0.7 % of the voids would pour next to nothing over the wood."""
    assert (Wording(offset_at=lambda _: 0).read(text, spec).unlikely is not None) is asked


def test_a_dial_turned_down_for_the_bake_makes_no_oven_run_hot(bench: WoodBench) -> None:
    """Case S05 over two settings: 105 °C at a dial of 100 are 5 K, also when it stands at 90."""
    bench.set_up()
    bench.type("oven_dial", "100 °C")
    bench.pane.on_chosen("oven_name", "Small one")
    bench.weigh("1220.4 g")
    bench.act("Oven is at temperature, wood is in")
    bench.oven("105 °C")
    assert bench.figures()["Oven above its dial by"] == "5.0 °C"
    bench.type("oven_dial", "90 °C")
    assert bench.figures()["Oven above its dial by"] == "5.0 °C"
    bench.oven("93 °C")
    assert bench.figures()["Oven above its dial by"] == "3.0 °C"
    bench.type("oven_dial", "100 °C")
    bench.shop.hand.take_batch(bench.shop.batches.open("Next"))
    bench.set_up()
    bench.type("oven_dial", "95 °C")
    bench.pane.on_chosen("oven_name", "small one")
    bench.pane.on_committed("oven", None)
    bench.weigh("1000 g")
    assert "was off its dial by 3" in bench.pane.screen.note


def test_a_dial_that_is_told_after_the_reading_counts_for_it(bench: WoodBench) -> None:
    bench.set_up()
    bench.weigh("1220.4 g")
    bench.act("Oven is at temperature, wood is in")
    bench.oven("105 °C")
    assert "Oven above its dial by" not in bench.figures()
    bench.type("oven_dial", "100 °C")
    assert bench.figures()["Oven above its dial by"] == "5.0 °C"


def test_the_oven_is_named_in_the_readers_own_degrees(bench: WoodBench) -> None:
    """A unit that is taken for another burns wood: 103 °C are 217 °F."""
    bench.weigh("500 g")
    assert "Into the oven at 103 °C" in bench.pane.screen.what
    bench.shop.words.units = US
    assert "Into the oven at 217 °F" in bench.pane.screen.what


# -- bath and bake ---------------------------------------------------------------------------------


def test_what_weighs_less_before_the_bath_is_told_and_is_the_base(bench: WoodBench) -> None:
    """1080 g out of the oven, 1040 g at the bath: 1560 g are 50 % of what went in, not 44."""
    bench.dried()
    bench.wait(2)
    bench.act("It is cool")
    bench.weigh("1079.0 g")
    assert "Lighter by" not in bench.pane.screen.note
    bench.pane.on_correct_mass()
    bench.weigh("1040 g")
    assert "Lighter by 40.0 g than out of the oven" in bench.pane.screen.note
    bench.act("Covered, ballast on")
    finish(bench, soaked="1600 g", baked="1560 g")
    assert bench.figures()["Uptake on the dry mass"] == "50.0 %"


def finish(bench: WoodBench, soaked: str, baked: str) -> None:
    bench.act("Pump is on")
    bench.wait(0.2)
    bench.act("Foam has collapsed")
    bench.wait(2.3)
    bench.act("No bubbles any more")
    bench.wait(0.2)
    bench.act("Valve shut, air is in")
    bench.wait(6)
    bench.act("Out of the bath")
    bench.weigh(soaked)
    assert ("Lighter than before the bath" in bench.pane.screen.note) is (soaked == "1000 g")
    bench.act("Wrapped")
    bench.act("Packets are in the hot oven")
    bench.wait(6)
    bench.act("Oven off")
    bench.weigh(baked)


def test_less_than_the_dry_wood_is_no_uptake(bench: WoodBench) -> None:
    finish(bench.covered(), soaked="1000 g", baked="1050 g")
    screen = bench.pane.screen
    assert screen.what == "No uptake: it weighs less than its dry wood. Look at both weights."
    assert "Uptake on the dry mass" not in bench.figures()
    assert "Heavier than out of the bath" in screen.note


def test_an_oven_adds_no_mass(bench: WoodBench) -> None:
    finish(bench.covered(), soaked="1900 g", baked="1950 g")
    assert "Heavier than out of the bath" in bench.pane.screen.note
    bench.act("All are hard")
    assert "Heavier than out of the bath" in bench.pane.screen.note


def test_a_little_more_on_the_scale_is_a_scale(bench: WoodBench) -> None:
    finish(bench.covered(), soaked="1900 g", baked="1905 g")
    assert "Heavier than out of the bath" not in bench.pane.screen.note
    assert bench.pane.screen.what == "Uptake is known. The cores go on to Blank."


# -- vacuum ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("elevation", "read", "asked"),
    [(1500.0, "1013 hPa", True), (1500.0, "846 hPa", False), (1500.0, "870 hPa", False),
     (0.0, "845 hPa", True), (None, "1013 hPa", False)],
)  # fmt: skip
def test_a_barometer_brought_to_the_sea_makes_a_good_pump_leak(
    tmp_path: Path, elevation: float | None, read: str, asked: bool
) -> None:
    """Case S11 with a weather report: at 1500 m 1013 hPa would make 24 inHg a third of a bar."""
    bench = WoodBench(tmp_path, elevation).covered()
    bench.type("barometer", read)
    problem = bench.pane.screen.answers["barometer"].problem
    assert bool(problem) is asked
    if asked:
        here = "846 mbar abs" if elevation else "1\u2009013 mbar abs"
        assert problem.startswith(f"By the shop's elevation the air is {here}")


@pytest.mark.parametrize(("best", "asked"), [("27 inHg", True), ("2.92 inHg", False)])
def test_a_pump_that_is_named_by_its_dial_is_asked_about(
    bench: WoodBench, best: str, asked: bool
) -> None:
    """Case S11: *27 inHg* taken as absolute would leave a dial 99 mbar to show."""
    bench.covered().type("pump_best", best)
    problem = bench.pane.screen.answers["pump_best"].problem
    assert ("was a dial's reading typed?" in problem) is asked
    assert ("Dial can reach here" in bench.figures()) is not asked


def test_a_resin_boils_below_its_pressure_however_deep_the_pump_could_go(bench: WoodBench) -> None:
    """At 35 °C the monomer boils at 79.5 mbar: at 33 mbar it boils, and no leak need be sought."""
    bench.covered()
    bench.pane.on_chosen("monomer", "mma")
    bench.type("bath_temp", "35 °C")
    bench.act("Pump is on")
    bench.act("Foam has collapsed")
    bench.dial("980 mbar")
    assert "those bubbles never end" in bench.pane.screen.note
    bench.type("pump_best", "10 mbar")
    told = bench.pane.screen.note
    assert "the resin itself boils: those bubbles never end" in told
    assert told.count("resin itself boils") == 1
    bench.dial("920 mbar")
    assert "those bubbles never end" not in bench.pane.screen.note
