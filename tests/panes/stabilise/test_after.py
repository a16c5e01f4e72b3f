"""What the pane says of a finished set: sinking, pieces that lag, bled-out resin."""

import pytest

from shopassist.core.figures import Origin
from tests.panes.stabilise.conftest import WoodBench


def finish(bench: WoodBench, *pieces: str, sank: bool) -> None:
    bench.set_up()
    bench.type("pieces", "2")
    bench.pane.on_chosen("each", "each")
    for grams in ("203.4 g", "203.4 g"):
        bench.weigh(grams)
    bench.act("Oven is at temperature, wood is in")
    for _ in range(2):
        bench.wait(20)
        bench.weigh("180.0 g")
        bench.weigh("180.0 g")
    bench.act("Out of the oven, sealed")
    bench.act("It is cool")
    bench.weigh("180.0 g")
    bench.weigh("180.0 g")
    for words in ("Covered, ballast on", "Pump is on", "Foam has collapsed",
                  "No bubbles any more", "Valve shut, air is in"):  # fmt: skip
        bench.act(words)
    bench.act("It sank" if sank else "It floats")
    bench.act("Out of the bath")
    bench.weigh("300 g")
    bench.weigh("300 g")
    bench.act("Wrapped")
    bench.act("Packets are in the hot oven")
    bench.wait(6)
    bench.act("Oven off")
    for grams in pieces:
        bench.weigh(grams)


def test_the_piece_that_took_much_less_is_named(bench: WoodBench) -> None:
    finish(bench, "300 g", "220 g", sank=False)
    assert "Took much less than the others: piece 2." in bench.pane.screen.note
    assert "It floated" in bench.pane.screen.note


def test_a_set_that_sank_and_weighs_too_little_has_bled_out(bench: WoodBench) -> None:
    finish(bench, "200 g", "200 g", sank=True)
    assert "It sank, and the scale found less" in bench.pane.screen.note
    assert "piece" not in bench.pane.screen.note


def shown(bench: WoodBench, species: str) -> dict[str, str]:
    bench.pane.on_chosen("species", species)
    bench.pane.on_page("set")
    return {each.label: f"{each.value} {each.unit}".strip() for each in bench.pane.screen.figures}


def test_a_wood_shrinks_more_along_its_rings_than_across_them(bench: WoodBench) -> None:
    """Check M15: 12 % to dry, 9.9 and 4.8 % green to dry are 4.21 and 1.98 %."""
    found = shown(bench, "Maple, sugar")
    assert found["Shrinks along the rings, 12 % to dry"] == "4.2 %"
    assert found["Across the rings"] == "2.0 %"
    assert "Its volume, green to dry" not in found
    figures = bench.service.figures("", bench.pane._book.said()).figures
    assert figures["shrinks"].value == pytest.approx(0.0421, abs=5e-5)
    assert figures["shrinks_radial"].value == pytest.approx(0.0198, abs=5e-5)
    source = figures["shrinks"].inputs["green_to_dry"]
    assert isinstance(source, Origin)
    assert source.source == "WH190"


def test_a_wood_with_one_shrinkage_or_none_says_no_more(bench: WoodBench) -> None:
    found = shown(bench, "Alder, red")
    assert found["Its volume, green to dry"] == "12.6 %"
    assert not any(label.startswith("Shrinks") for label in found)
    assert not any("hrink" in label or "volume" in label for label in shown(bench, "Box"))
