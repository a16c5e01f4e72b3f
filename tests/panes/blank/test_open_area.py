"""What a level that fell means round a core, and what a heavy resin does to a soft wall."""

from tests.panes.blank.conftest import BlankBench


def lost(bench: BlankBench) -> str:
    (told,) = [note for note in bench.pane.screen.notes if note.startswith("It lost")]
    return told.removeprefix("It lost ").partition(":")[0]


def ring(bench: BlankBench) -> BlankBench:
    return bench.type(mould_diameter="120 mm", mould_depth="100 mm", stations="0: 80; 100: 80",
                      level="90 mm", facing="0 mm", shrink="0 %")  # fmt: skip


def test_round_a_core_only_the_ring_was_lost(bench: BlankBench) -> None:
    """Case V04: drop × open area; 5 mm of the ring of Ø 120 round Ø 80 are 31.4 ml, not 56.5."""
    ring(bench).type(level_drop="5 mm")
    assert lost(bench) == "31.4 ml"


def test_above_the_top_of_a_core_the_whole_mould_was_lost(bench: BlankBench) -> None:
    """The core ends at 87 mm: 3 mm of Ø 120 and 2 mm of the ring are 33.9 and 12.6 ml."""
    ring(bench).type(stations="0: 80; 87: 80", level_drop="5 mm")
    assert lost(bench) == "46.5 ml"
    bench.type(base="20 mm", stations="0: 80; 67: 80")
    assert lost(bench) == "46.5 ml"
    bench.type(base="0 mm", stations="0: 80; 60: 80")
    assert lost(bench) == "56.5 ml"


def test_over_the_axis_of_a_core_that_lies_two_thirds_of_the_box_were_open(
    bench: BlankBench,
) -> None:
    """2 mm at the axis of Ø 40 × 150 in a box of 180 × 60: 21.6 ml less all but 12 ml of core."""
    bench.type(mould="box", mould_length="180 mm", mould_width="60 mm", mould_depth="50 mm",
               stations="0: 40; 150: 40", lies="yes", base="5 mm", level="26 mm",
               facing="0 mm", shrink="0 %", level_drop="2 mm")  # fmt: skip
    assert lost(bench) == "9.6 ml"


def test_a_core_whose_shape_is_not_known_takes_nothing_off(bench: BlankBench) -> None:
    ring(bench).type(core="displaced", core_volume="450 ml", level_drop="5 mm")
    assert lost(bench) == "56.5 ml"


def test_a_filled_resin_pushes_by_its_own_density(bench: BlankBench) -> None:
    """Case V06: ½ρgh²L; 1.75 g/ml, 50 mm deep along a metre are 21.5 N, 2.2 kgf; 13.5 N by ours."""
    box = {"mould": "box", "mould_length": "1000 mm", "mould_width": "300 mm",
           "mould_depth": "50 mm", "core": "none"}  # fmt: skip
    bench.type(**box)
    assert "The long wall carries 1.4 kgf: does it bow?" in bench.pane.screen.notes
    sheet = bench.shop.sheet(density={"mixed": "1.75 g/ml"}, limit={"mass": "9 kg", "at": "23 °C"})
    batch = bench.shop.batches.open("Filled")
    bench.shop.hand.take_batch(batch)
    bench.shop.batches.use_sheet(batch, sheet, 1)
    bench.type(**box)
    assert "The long wall carries 2.2 kgf: does it bow?" in bench.pane.screen.notes
