"""What the record of a batch says afterwards."""

from pathlib import Path

import pytest

from shopassist.core.batch import Typed
from shopassist.core.quantities import Kilogram
from shopassist.core.rows import Draft
from shopassist.services.witnesses import Learnt
from tests.shops import Shop

H = 3600.0


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


def test_a_batch_without_a_sheet_says_little(shop: Shop) -> None:
    batch = shop.mixed(sheet="none", celsius=None)
    facts = shop.hindsight.facts(batch)
    assert facts.off_ratio is None
    assert facts.cured is None
    assert facts.under_minimum is None
    assert facts.hot_mass is None
    assert facts.warming is None
    traits = shop.hindsight.traits(shop.batches.get(batch))
    assert "Resin" not in traits
    assert traits["Cups"] == "1"
    assert traits["Amount"] == "200 g"


def test_a_batch_by_the_sheet_is_cured_after_its_time(shop: Shop) -> None:
    batch = shop.mixed(celsius=23.0)
    shop.clock.advance(10 * 24 * H)
    shop.warm(batch, 23.0)
    facts = shop.hindsight.facts(batch)
    assert facts.cured is not None
    assert facts.cured > 1
    assert facts.off_ratio == pytest.approx(0.0, abs=0.1)
    assert facts.under_minimum is False
    assert facts.hot_mass is False
    causes = {each.key: each.side for each in shop.hindsight.causes(batch, "soft everywhere")}
    assert causes["young"] == "against"
    assert causes["cold"] == "against"


def test_a_cold_batch_stays_young(shop: Shop) -> None:
    batch = shop.mixed(celsius=8.0)
    shop.clock.advance(24 * H)
    shop.warm(batch, 8.0)
    facts = shop.hindsight.facts(batch)
    assert facts.under_minimum
    assert facts.cured is not None
    assert facts.cured < 1
    assert shop.hindsight.traits(shop.batches.get(batch))["Coldest"] == "under the sheet's minimum"


def test_too_much_hardener_is_told_against_the_tolerance(shop: Shop) -> None:
    batch = shop.mixed()
    shop.batches.weigh(batch, 2, "a", Kilogram(0.100))
    shop.batches.weigh(batch, 2, "b", Kilogram(0.045))
    facts = shop.hindsight.facts(batch)
    assert facts.off_ratio is not None
    assert facts.off_ratio > 5
    assert shop.hindsight.traits(shop.batches.get(batch))["Hardener"] == "more than 10 % off"


def test_a_cup_with_hardener_and_no_resin_is_not_judged(shop: Shop) -> None:
    batch = shop.mixed()
    shop.batches.weigh(batch, 2, "a", Kilogram(0.0))
    shop.batches.weigh(batch, 2, "b", Kilogram(0.045))
    assert shop.hindsight.facts(batch).off_ratio is None


def test_a_sheet_by_volume_is_judged_by_its_densities(shop: Shop) -> None:
    ratio = {"basis": "volume", "a": "100", "b": "30"}
    plain = shop.sheet(ratio=ratio)
    batch = shop.mixed(sheet=plain)
    assert shop.hindsight.facts(batch).off_ratio is not None
    without = shop.sheet(ratio=ratio, density={})
    assert shop.hindsight.facts(shop.mixed(sheet=without)).off_ratio is None


def test_the_witness_and_the_pressure_speak(shop: Shop) -> None:
    batch = shop.mixed()
    assert shop.hindsight.facts(batch).witness_hard is None
    shop.clock.advance(H)
    shop.batches.load(batch, "big-pot")
    shop.clock.advance(4 * H)
    shop.warm(batch, 26.0)
    shop.batches.see(batch, "gelled")
    facts = shop.hindsight.facts(batch)
    assert facts.witness_hard is False
    assert facts.pressed_before_gel is True
    shop.batches.see(batch, "nail-hard")
    assert shop.hindsight.facts(batch).witness_hard is True


def test_warming_before_the_gel_is_seen(shop: Shop) -> None:
    batch = shop.mixed(celsius=None)
    shop.warm(batch, 18.0)
    shop.clock.advance(H)
    shop.warm(batch, 24.0)
    assert shop.hindsight.facts(batch).warming is True
    assert shop.hindsight.traits(shop.batches.get(batch))["Warming before the gel"] == "yes"


def test_a_batch_that_was_never_mixed_has_nothing_to_say(shop: Shop) -> None:
    batch = shop.batches.open("Plan only")
    assert shop.hindsight.facts(batch).warming is None
    shop.batches.use_sheet(batch, shop.sheet(), 1)
    shop.warm(batch, 20.0)
    facts = shop.hindsight.facts(batch)
    assert facts.cured is None
    assert facts.hot_mass is None


def test_failures_are_compared_with_what_came_out_well(shop: Shop) -> None:
    bad = [shop.mixed(f"Bad {n}", celsius=8.0) for n in range(3)]
    good = [shop.mixed(f"Good {n}", celsius=23.0) for n in range(3)]
    shop.index.read_all()
    compared = shop.index.compare(shop.index.all(), bad)
    found = compared.result
    assert (compared.ones, compared.others) == (len(bad), len(good))
    assert found.shared[0].name == "Coldest"
    assert found.shared[0].tells_apart


def learnt(shop: Shop, sheet: str) -> tuple[Learnt, ...]:
    shop.index.read_all()
    return shop.hindsight.witnesses.learnt(sheet, shop.index.newest())


def witnessed(shop: Shop, sheet: str, hours: float, mark: str = "gelled") -> str:
    batch = shop.mixed(celsius=23.0, sheet=sheet)
    shop.clock.advance(hours * H)
    shop.warm(batch, 23.0)
    shop.batches.see(batch, mark)
    return batch


def test_three_witness_cups_teach_a_sheet(shop: Shop) -> None:
    sheet = shop.sheet()
    for hours in (3.0, 3.1):
        witnessed(shop, sheet, hours)
    assert learnt(shop, sheet) == ()
    witnessed(shop, sheet, 3.2)
    taught = {(each.stage, each.offer.time <= each.sheet) for each in learnt(shop, sheet)}
    assert ("gel", True) in taught


def test_a_spoiled_batch_counts_only_toward_caution(shop: Shop) -> None:
    """The sheet's gel is at 4 h and more: one spoiled at 3 h counts for the hazard alone."""
    sheet = shop.sheet()
    batches = [witnessed(shop, sheet, hours) for hours in (3.0, 3.1, 3.2)]

    def counts() -> dict[str, int]:
        gel = [each for each in learnt(shop, sheet) if each.stage == "gel"]
        return {"earlier" if n == 0 else "later": each.fitted.count for n, each in enumerate(gel)}

    assert counts() == {"earlier": 3, "later": 3}
    batches.append(witnessed(shop, sheet, 3.3))
    shop.batches.close(batches[-1], "spoiled")
    assert counts() == {"earlier": 4, "later": 3}
    shop.batches.close(batches[-1], "good")
    assert counts() == {"earlier": 4, "later": 4}


def test_a_newer_version_that_counts_otherwise_has_its_batches_read_again(shop: Shop) -> None:
    sheet = shop.sheet()
    for hours in (3.0, 3.1, 3.2):
        witnessed(shop, sheet, hours)
    before = {each.offer.time for each in learnt(shop, sheet)}
    newest = shop.sheets.newest(sheet)
    assert newest is not None
    gel = {"time": "4 h", "at": "30 °C"}
    version, problems = shop.sheets.save({**newest.mapping, "gel": gel}, sheet)
    assert version is not None, problems
    assert {each.offer.time for each in learnt(shop, sheet)} != before


def test_what_cannot_teach_is_left_out(shop: Shop) -> None:
    sheet = shop.sheet()
    for hours in (3.0, 3.1):
        witnessed(shop, sheet, hours)
    unread = shop.mixed(celsius=None, sheet=sheet)
    shop.batches.see(unread, "gelled")
    empty = shop.batches.open("No cup")
    shop.batches.use_sheet(empty, sheet, 1)
    shop.batches.see(empty, "gelled")
    at_once = shop.mixed(celsius=23.0, sheet=sheet)
    shop.batches.see(at_once, "gelled")
    cold = shop.mixed(celsius=2.0, sheet=sheet)
    shop.clock.advance(3 * H)
    shop.warm(cold, 2.0)
    shop.batches.see(cold, "gelled")
    assert learnt(shop, sheet) == ()


def test_an_unknown_or_broken_sheet_teaches_nothing(shop: Shop) -> None:
    assert learnt(shop, "nowhere") == ()


def test_an_entry_of_a_batch_is_a_trait(shop: Shop) -> None:
    batch = shop.mixed()
    shop.batches.enter(batch, "scale_step", Typed("0.1 g", 1e-4, "Kilogram"))
    assert shop.hindsight.traits(shop.batches.get(batch))["Scale step"] == "0.1 g"


@pytest.mark.parametrize(
    ("family", "humidity", "humid"),
    [("polyurethane", 0.62, True), ("polyurethane", 0.45, False), ("amine epoxy", 0.62, False),
     ("amine epoxy", 0.9, True)],
)  # fmt: skip
def test_damp_air_speaks_of_froth_where_the_resin_foams(
    shop: Shop, family: str, humidity: float, humid: bool
) -> None:
    """Case C19: at most 50 % for a polyurethane."""
    batch = shop.mixed(sheet=shop.sheet(family=family))
    assert shop.hindsight.facts(batch).humid is None
    shop.batches.enter(batch, "turn.humidity", Typed(f"{humidity:%}", humidity, "Ratio"))
    assert shop.hindsight.facts(batch).humid is humid
    causes = {each.key: each.side for each in shop.hindsight.causes(batch, "bubbles everywhere")}
    assert causes["humid"] == ("for" if humid else "against")


def test_the_woods_own_record_speaks(shop: Shop) -> None:
    batch = shop.mixed()
    facts = shop.hindsight.facts(batch)
    assert (facts.stabilised, facts.core_reached) == (None, None)

    def report(event: str) -> None:
        shop.journal.append([Draft(f"batch/{batch}", "wood_event", {"event": event})])

    report("oven_on")
    assert shop.hindsight.facts(batch).stabilised is False
    report("bake_on")
    assert shop.hindsight.facts(batch).core_reached is False
    report("core_hot")
    report("bake_off")
    facts = shop.hindsight.facts(batch)
    assert (facts.stabilised, facts.core_reached) == (True, True)


def test_a_pour_deeper_than_the_sheet_allows_is_told(shop: Shop) -> None:
    batch = shop.mixed(sheet=shop.sheet(limit={"layer": "50 mm", "mass": "1 kg", "at": "23 °C"}))
    assert shop.hindsight.facts(batch).depth_over_limit is None
    for depth, deep in ((0.08, True), (0.04, False)):
        shop.batches.enter(batch, "mix.pour_depth", Typed(f"{depth} m", depth, "Metre"))
        assert shop.hindsight.facts(batch).depth_over_limit is deep
