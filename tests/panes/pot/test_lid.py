from shopassist.core.pot.clamps import slackening_order, tightening_order
from shopassist.widgets.shown import LidShown
from tests.panes.pot.conftest import PotBench


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
        ("slackened", slackening_order(count)),
    ):
        numbers = seen[word].numbers
        assert tuple(numbers.index(turn) + 1 for turn in range(1, count + 1)) == order


def test_clamps_stay_hooked_in_the_drawing_until_the_lid_is_cracked(bench: PotBench) -> None:
    lid = lids(bench)["slackened"]
    assert lid.snug == frozenset(lid.numbers)
