"""What the pane says of a finished set: sinking, pieces that lag, bled-out resin."""

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
