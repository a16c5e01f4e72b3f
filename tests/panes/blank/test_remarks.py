"""What is left out of a blank's numbers, what sinks, and what water leaves behind."""

import pytest

from tests.panes.blank.conftest import SPECS, BlankBench


def test_a_core_that_is_not_known_yet_is_told_as_not_counted(bench: BlankBench) -> None:
    bench.type(mould_diameter="60 mm", mould_depth="100 mm", core="weighed", core_mass="200 g")
    told = "The core is not counted: its weight or its density is missing."
    assert told in bench.pane.screen.notes
    bench.type(density_low="0.9 g/ml")
    assert told not in bench.pane.screen.notes
    bench.type(core="displaced")
    assert "The core is not counted: what it displaces is missing." in bench.pane.screen.notes
    bench.type(core="none")
    assert not any("not counted" in note for note in bench.pane.screen.notes)


def test_a_core_heavier_than_the_resin_sinks(bench: BlankBench) -> None:
    """200 g at 1.25 g/ml are 160 ml; in resin of 1.1 g/ml they weigh down with 24 g."""
    bench.type(mould_diameter="60 mm", mould_depth="100 mm", core="weighed", core_mass="200 g",
               density_low="1.25 g/ml")  # fmt: skip
    assert any(note.startswith("It is heavier than the resin") for note in bench.pane.screen.notes)
    bench.type(density_low="1.0 g/ml")
    assert not any("heavier than the resin" in note for note in bench.pane.screen.notes)


def test_a_metal_part_is_known_by_weight_and_density(bench: BlankBench) -> None:
    """200 g of brass at 8.5 g/ml are 23.5 ml; more than any wood has is asked about."""
    bench.type(mould="water, measured", mould_volume="100 ml", core="weighed", core_mass="200 g",
               density_low="8.5 g/ml", facing="0 mm", shrink="0 %")  # fmt: skip
    assert bench.figure("for_one") == "76.5 ml"
    words = bench.shop.words
    spec = SPECS["density_low"]
    assert spec is not None
    assert words.read("6.5 g/ml", spec).unlikely is not None
    assert words.read("0.65 g/ml", spec).unlikely is None


@pytest.mark.parametrize("kind", ["water, measured", "water, weighed"])
def test_a_mould_that_was_measured_with_water_is_dried(bench: BlankBench, kind: str) -> None:
    """Case V01."""
    bench.type(mould=kind, mould_volume="30 ml", water_mass="30 g", core="none")
    assert any(note.startswith("Dry the mould") for note in bench.pane.screen.notes)


@pytest.mark.parametrize("kind", ["", "displaced"])
def test_a_core_too_heavy_for_wood_is_told_beside_its_weight(bench: BlankBench, kind: str) -> None:
    """600 g in 196 ml are no wood; where no density is typed, its entry is not there to say so."""
    bench.type(mould_diameter="60 mm", mould_depth="100 mm", stations="0: 50; 100: 50",
               core_volume="196 ml", core=kind, core_mass="600 g", stabilised="no")  # fmt: skip
    assert bench.problem("core_mass") == "No wood is this dense: check mass and volume."
    assert bench.problem("density_low") == ""
