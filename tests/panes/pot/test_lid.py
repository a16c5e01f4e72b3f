from dataclasses import replace

from shopassist.core.pot.clamps import slackening_order, tightening_order
from shopassist.core.pot.plate import Holes, Plate
from shopassist.panes.pot.lid import holes_of
from shopassist.widgets.shown import LidShown
from tests.panes.pot.conftest import PotBench

PLATE = Plate("Pot", clamps=6)


def lids(bench: PotBench) -> dict[str, LidShown]:
    """The lid as first drawn while tightening, and as first drawn while slackening."""
    seen: dict[str, LidShown] = {}
    for _ in range(90):
        lid = bench.screen.lid
        if lid is not None and "tightened" in lid.spoken:
            seen.setdefault("tightened", lid)
        if lid is not None and "slackened" in lid.spoken:
            seen["slackened"] = lid
            return seen
        if str(bench.screen.belief) == "pressurised" and not bench.screen.asks:
            bench.pane.on_offer("let_down")
        bench.step()
    raise AssertionError(seen)


def test_clamps_are_numbered_in_working_order_both_ways(bench: PotBench) -> None:
    seen = lids(bench)
    count = len(seen["tightened"].numbers)
    for word, order in (
        ("tightened", tightening_order(count)),
        ("slackened", slackening_order(count, nearest=count // 2 + 1)),
    ):
        numbers = seen[word].numbers
        assert tuple(numbers.index(turn) + 1 for turn in range(1, count + 1)) == order


def test_clamps_stay_hooked_in_the_drawing_until_the_lid_is_cracked(bench: PotBench) -> None:
    lid = lids(bench)["slackened"]
    assert lid.snug == frozenset(lid.numbers)


def test_the_clamp_worked_on_now_is_marked(bench: PotBench) -> None:
    bench.until("clamps_round")
    lid = bench.screen.lid
    assert lid is not None
    assert (lid.present, lid.snug) == (1, frozenset())
    bench.until("clamp_count")
    lid = bench.screen.lid
    assert lid is not None
    assert (lid.present, lid.snug) == (None, frozenset(lid.numbers))


def cracking(bench: PotBench) -> LidShown:
    lid = bench.screen.lid
    assert lid is not None
    return lid


def test_the_number_reached_moves_the_mark_and_the_pass_ends_it(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("slacken")
    assert (cracking(bench).present, cracking(bench).caption) == (
        1, "Pass 1 of 3; far side at the top"
    )  # fmt: skip
    bench.pane.on_typed("4")
    lid = cracking(bench)
    assert (lid.present, lid.snug) == (5, frozenset({5, 6}))
    bench.pane.on_typed("6")
    assert cracking(bench).present is None
    bench.pane.on_choice("done")
    lid = cracking(bench)
    assert (lid.present, lid.snug, lid.hooked) == (1, frozenset(), True)
    assert lid.caption.startswith("Pass 2 of 3")
    bench.until("rock")
    assert (cracking(bench).present, cracking(bench).caption) == (None, "3 passes done, all hooked")
    bench.until("lid_off")
    assert not cracking(bench).hooked
    assert "lift" in cracking(bench).caption


def test_what_sits_on_each_hole_stands_where_the_plate_puts_it(bench: PotBench) -> None:
    bench.until("clamps_round")
    lid = cracking(bench)
    places = {hole.label: (hole.turn, hole.radius) for hole in lid.holes}
    assert places == {
        "gauge": (0.75, 0.55), "vent": (0.5, 0.55), "relief": (0.25, 0.55),
        "test valve": (0.0, 0.55),
    }  # fmt: skip
    assert lid.beside == "On the wall: inlet."
    assert lid.beside in lid.spoken


def test_two_things_on_one_hole_are_one_hole(bench: PotBench) -> None:
    shared = Holes(gauge="middle", vent="Middle", relief="tee", inlet="tee 2", test_valve="middle")
    holes, beside = holes_of(replace(PLATE, holes=shared))
    assert [(hole.label, hole.radius) for hole in holes] == [
        ("gauge + test valve", 0.0), ("vent", 0.0), ("relief", 0.55), ("inlet", 0.55),
    ]  # fmt: skip
    assert len({hole.turn for hole in holes if hole.radius}) == 2
    assert not beside
