"""Pages beside the log's table: facts in their order, symptoms, what was learnt."""

from shopassist.core.batch import Typed
from shopassist.core.quantities import Kilogram
from shopassist.panes.log.facts import with_times
from shopassist.panes.log.presenter import SYMPTOM_KEYS
from tests.panes.log.conftest import LogBench

H = 3600.0


def test_symptoms_are_ranked_with_their_evidence(bench: LogBench) -> None:
    bench.shop.mixed("Oak", celsius=8.0)
    bench.read()
    bench.log.on_page("symptoms")
    bench.log.on_page("nowhere")
    bench.log.on_symptom(len(SYMPTOM_KEYS))
    screen = bench.log.screen
    assert screen.causes[0].verdict == "The record points to it"
    assert screen.missing
    bench.log.on_symptom(3)
    assert bench.log.screen.symptom == 3
    assert bench.log.screen.causes != screen.causes


def test_a_range_of_the_sheet_is_replaced_as_a_whole(bench: LogBench) -> None:
    shop, sheet = bench.shop, bench.gelled_thrice()
    shop.index.read_all()
    learnt = shop.hindsight.witnesses.learnt(sheet, shop.index.newest())
    made = with_times({"gel": {"time": "3 h", "time_high": "5 h"}}, learnt)
    gel = made["gel"]
    assert isinstance(gel, dict)
    assert gel["time"] == gel["time_high"]


def test_what_was_poured_stands_before_what_other_panes_asked(bench: LogBench) -> None:
    shop = bench.shop
    batch = shop.batches.open("Knobs")
    shop.hand.take_batch(batch)
    shop.batches.enter(batch, "stabilise.pieces", Typed("4", 4.0, "Ratio"))
    shop.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
    shop.batches.weigh(batch, 1, "a", Kilogram(0.1538))
    labels = [fact.label for fact in bench.log.screen.facts]
    assert labels == ["Opened", "Resin", "Needed", "Cup 1, resin", "Stabilise, pieces"]


def test_a_symptom_keeps_what_is_on_record_from_what_is_not(bench: LogBench) -> None:
    bench.shop.mixed()
    bench.log.on_page("symptoms")
    ratio = next(c for c in bench.log.screen.causes if c.title == "Hardener off its ratio")
    assert ratio.verdict == "The record speaks against it"
    assert ratio.evidence == ("The weights lie within the sheet's tolerance.",)
    assert ratio.lacking == ("There was no witness cup.",)


def test_what_the_resin_of_a_piece_cost_is_a_fact(bench: LogBench) -> None:
    """153.8 g at 20 a kilogram and 46.1 g at 30: 4.46, and a quarter of it for each of four."""
    shop = bench.shop
    lots = {
        part: shop.keep(
            shop.lots, name=f"Lot {part}", resin="Slow clear", part=part, left="1 kg", price=price
        )
        for part, price in (("a", "20"), ("b", "30"))
    }
    free = shop.keep(shop.lots, name="Gift", resin="Slow clear", part="a", left="1 kg")
    batch = shop.mixed()

    def cost() -> str:
        return next((f.value for f in bench.log.screen.facts if f.label == "Resin cost"), "")

    assert cost() == ""
    shop.batches.draw(
        batch, [(lots["a"], "a", Kilogram(0.1538)), (lots["b"], "b", Kilogram(0.0461))]
    )
    assert cost() == "4.46"
    shop.batches.enter(batch, "blank.pieces", Typed("4", 4.0, "Ratio"))
    assert cost() == "4.46, 1.11 for one of 4"
    shop.batches.draw(batch, [(free, "a", Kilogram(0.001))])
    assert cost() == "", "a lot without a price hides no money"
