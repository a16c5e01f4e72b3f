"""Pages beside the log's table: facts in their order, symptoms, what was learnt."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.learning import Fitted, Kind, Offer
from shopassist.core.messages import say
from shopassist.core.quantities import Kilogram, Ratio, Second
from shopassist.core.sheet_law import finding
from shopassist.core.sheets import StageName
from shopassist.panes.log.facts import with_times
from shopassist.panes.log.presenter import SYMPTOM_KEYS
from shopassist.services.witnesses import Learnt
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


def learnt(stage: StageName, kind: Kind, hours: float, sheet: float = 4.0) -> Learnt:
    offer = Offer(Second(hours * 3600), True, say("found"))
    fitted = Fitted(3, Ratio(1.0), Ratio(0.9), Ratio(1.1))
    return Learnt(stage, kind, Second(sheet * 3600), fitted, offer)


def hours(bench: LogBench, step: object) -> dict[str, float]:
    assert isinstance(step, dict)
    read = bench.shop.words.read_si
    return {key: round(read(text, "Second") / 3600, 3)
            for key, text in step.items() if key.startswith("time")}  # fmt: skip


def test_what_was_learnt_of_a_hazard_and_of_a_release_do_not_move_each_other(
    bench: LogBench,
) -> None:
    read, gel = bench.shop.words.read_si, {"gel": {"time": "4 h", "at": "23 °C"}}
    early, late = learnt("gel", "hazard", 3), learnt("gel", "release", 5)
    for found, times in (
        ((early, late), {"time": 3.0, "time_high": 5.0}),
        ((early,), {"time": 3.0, "time_high": 4.0}),
        ((late,), {"time": 4.0, "time_high": 5.0}),
    ):
        assert hours(bench, with_times(gel, found, read)["gel"]) == times
    ranged = {"gel": {"time": "3 h", "time_high": "5 h", "at": "23 °C"}}
    found = (learnt("gel", "hazard", 2, 3.0), learnt("gel", "release", 6, 5.0))
    made = with_times(ranged, found, read)
    assert hours(bench, made["gel"]) == {"time": 2.0, "time_high": 6.0}


def test_a_step_that_is_only_a_release_moves_as_a_whole(bench: LogBench) -> None:
    read, late = bench.shop.words.read_si, learnt("hard", "release", 6)
    one = with_times({"hard": {"time": "4 h", "at": "23 °C"}}, [late], read)
    assert hours(bench, one["hard"]) == {"time": 6.0}
    two = with_times({"hard": {"time": "2 h", "time_high": "4 h", "at": "23 °C"}}, [late], read)
    assert hours(bench, two["hard"]) == {"time": 3.0, "time_high": 6.0}


def test_further_times_move_along_and_the_law_stays(bench: LogBench) -> None:
    step = {"time": "4 h", "at": "23 °C", "time_2": "2 h", "at_2": "32 °C"}
    mapping = bench.shop.sheets.newest(bench.shop.bare(family="amine epoxy", gel=step))
    assert mapping is not None
    found = (learnt("gel", "hazard", 3), learnt("gel", "release", 5))
    made = with_times(mapping.mapping, found, bench.shop.words.read_si)
    assert hours(bench, made["gel"]) == {
        "time": 3.0, "time_high": 5.0, "time_2": 1.5, "time_2_high": 2.5,
    }  # fmt: skip
    new = bench.shop.sheets.save(made)[0]
    assert new is not None and new.record is not None and mapping.record is not None
    one, other = finding(mapping.record, "gel"), finding(new.record, "gel")
    assert one is not None and other is not None
    assert other.line.energy == pytest.approx(one.line.energy, rel=1e-6)
    assert other.line.sigma > one.line.sigma, "a range says less than one figure"


def test_learnt_times_are_rounded_to_the_careful_side(bench: LogBench) -> None:
    third = 4 / 3 + 1e-4
    for kind, text in (("hazard", "80 min"), ("release", "81 min")):
        found = learnt("gel", kind, third)  # type: ignore[arg-type]
        made = with_times({"gel": {"time": "4 h"}}, [found], bench.shop.words.read_si)["gel"]
        assert isinstance(made, dict)
        assert made["time" if kind == "hazard" else "time_high"] == text
    quick = learnt("gel", "hazard", 0.1001, 0.2)
    made = with_times({"gel": {"time": "12 min"}}, [quick], bench.shop.words.read_si)["gel"]
    assert isinstance(made, dict)
    assert made["time"] == "360 s"


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
