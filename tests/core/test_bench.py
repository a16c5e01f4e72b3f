"""Lathe, drill, papers, film and symptoms: what the outside checks do not reach."""

import pytest

from shopassist.core.errors import ShopError
from shopassist.core.finish import (
    dew_gate,
    finish_volume,
    friction_limit,
    thinned_solids,
    turned_area,
    wet_film,
)
from shopassist.core.grits import CAMI, FEPA, Paper, Scale, between, ladder
from shopassist.core.lathe import FAULTS, drilling, rule_speed, speed_band, spin_energy
from shopassist.core.quantities import (
    Kelvin,
    Kilogram,
    Metre,
    PerSecond,
    Ratio,
    SquareMetre,
    SquareMetrePerCubicMetre,
)
from shopassist.core.symptoms import CLUES, SYMPTOMS, Facts, missing, rank

INCH = 0.0254


def celsius(value: float) -> Kelvin:
    return Kelvin(value + 273.15)


# -- lathe ---------------------------------------------------------------------------------------


def test_sound_work_gets_the_whole_band() -> None:
    """Case T01: 10 in from 600 to 900 turns a minute; 460 mm from 331 to 497."""
    bowl = speed_band(Metre(0.46))
    assert [round(each * 60) for each in (bowl.low, bowl.high)] == [331, 497]
    band = speed_band(Metre(10 * INCH))
    assert band.low * 60 == pytest.approx(600)
    assert band.high * 60 == pytest.approx(900)
    assert band.rim == pytest.approx(11.97, abs=0.01)
    assert band.reasons == ()


@pytest.mark.parametrize("fault", sorted(FAULTS))
def test_every_fault_lowers_the_band_and_says_why(fault: str) -> None:
    band = speed_band(Metre(0.06), frozenset({fault}))
    assert band.high == rule_speed(Metre(0.06), Ratio(6000.0))
    assert band.low < band.high
    assert band.reasons == (FAULTS[fault],)


def test_an_unknown_fault_is_refused() -> None:
    with pytest.raises(ShopError):
        speed_band(Metre(0.06), frozenset({"ghost"}))


def test_350_to_3000_is_73_times_the_energy() -> None:
    """Case T01: a knob turned the wrong way."""
    slow = spin_energy(Kilogram(5.0), Metre(0.4), PerSecond(350 / 60))
    fast = spin_energy(Kilogram(5.0), Metre(0.4), PerSecond(3000 / 60))
    assert fast / slow == pytest.approx(73, abs=0.5)


def test_a_stabilised_block_is_drilled_in_pecks_of_six_millimetres() -> None:
    """Case T03: 60 mm in 10 pecks."""
    card = drilling(Metre(0.010), Metre(0.060), Metre(0.040), "stabilised or resin")
    assert card.peck == pytest.approx(0.006)
    assert card.pecks == 10
    assert any("cool" in each.template for each in card.warnings)


def test_stop_and_length_keep_the_point_inside() -> None:
    """Case T02: 2 1/4 in with a 3/8 in drill in 3/4 in stock."""
    card = drilling(Metre(0.375 * INCH), Metre(2.25 * INCH), Metre(0.75 * INCH), "hardwood")
    assert card.length / INCH == pytest.approx(2.75)
    assert card.stop / INCH == pytest.approx(2.25 + 1 / 16)
    assert card.warnings == ()
    thin = drilling(Metre(0.008), Metre(2.25 * INCH), Metre(0.625 * INCH), "hardwood")
    assert "wall" in thin.warnings[0].template


@pytest.mark.parametrize("drill", [0.003, 0.010, 0.025])
def test_from_both_ends_the_drill_stops_past_the_middle(drill: float) -> None:
    """Two holes of half the blank and 1/16 in meet; a blank a diameter longer kept a wall there."""
    card = drilling(Metre(drill), Metre(0.100), Metre(0.040), "softwood", both_ends=True)
    assert card.stop == pytest.approx(0.053175)
    assert card.length == pytest.approx(0.103175)
    assert 2 * card.stop > card.length


def test_drill_speeds_follow_the_chart() -> None:
    card = drilling(Metre(0.010), Metre(0.050), Metre(0.040), "hardwood")
    assert card.turns * 60 == pytest.approx(1273, abs=1)


@pytest.mark.parametrize(
    ("drill", "material", "field"), [(0.01, "cheese", "material"), (0.05, "hardwood", "drill")]
)
def test_what_cannot_be_drilled_is_refused(drill: float, material: str, field: str) -> None:
    with pytest.raises(ShopError) as refused:
        drilling(Metre(drill), Metre(0.05), Metre(0.04), material)
    assert refused.value.field == field


# -- papers ----------------------------------------------------------------------------------------


def papers(*grits: int, scale: Scale = "P") -> tuple[Paper, ...]:
    return tuple(Paper(scale, each) for each in grits)


def test_a_ladder_without_a_skip_has_no_step_too_far() -> None:
    """Case T06: each number at most 1.6 times the one before."""
    steps = ladder(papers(320, 400, 600, 800, 1200))
    assert not any(each.too_far for each in steps)


def test_a_skipped_paper_is_found_and_named() -> None:
    """Case T06: from 320 straight to 800 is 2.5 times."""
    (step,) = ladder(papers(320, 800))
    assert step.too_far
    assert [each.name for each in between(step)] == ["P500"]
    (far,) = ladder(papers(80, 180))
    assert [each.name for each in between(far)] == ["P120"]


def test_a_bridge_of_papers_has_no_step_too_far() -> None:
    for coarse, fine in ((60, 2500), (80, 400), (120, 1000)):
        (step,) = ladder(papers(coarse, fine))
        whole = (step.before, *between(step), step.after)
        assert not any(each.too_far for each in ladder(whole))


def test_a_step_that_is_near_enough_needs_no_bridge() -> None:
    (step,) = ladder(papers(320, 400))
    assert between(step) == ()


def test_a_table_with_a_gap_still_gives_the_nearest_papers() -> None:
    before, after = Paper("P", 180), Paper("CAMI", 600)
    (step,) = ladder((before, after))
    bridge = between(step)
    assert bridge
    assert all(each.scale == "CAMI" for each in bridge)


def test_the_scales_part_above_220() -> None:
    assert Paper("P", 220).grain == Paper("CAMI", 220).grain
    assert Paper("CAMI", 400).grain == pytest.approx(Paper("P", 800).grain, rel=0.02)
    assert Paper("CAMI", 320).name == "320 CAMI"
    (mixed,) = ladder((Paper("P", 320), Paper("CAMI", 400)))
    assert mixed.too_far


def test_the_tables_get_finer_with_the_number() -> None:
    for table in (FEPA, CAMI):
        grains = [table[each] for each in sorted(table)]
        assert grains == sorted(grains, reverse=True)


def test_a_step_back_is_refused() -> None:
    with pytest.raises(ShopError):
        ladder(papers(400, 320))


def test_a_paper_that_is_not_in_the_table_is_refused() -> None:
    with pytest.raises(ShopError):
        _ = Paper("P", 333).grain


# -- film --------------------------------------------------------------------------------------------


def test_dry_warm_air_opens_the_gate() -> None:
    gate = dew_gate(celsius(20), Ratio(0.5), celsius(20))
    assert gate.open
    assert gate.reasons == ()


def test_a_piece_from_a_cold_rack_shuts_it() -> None:
    gate = dew_gate(celsius(20), Ratio(0.70), celsius(15))
    assert not gate.open
    assert "dew settles" in gate.reasons[0].template


def test_air_too_humid_and_too_cold_gives_both_reasons() -> None:
    gate = dew_gate(celsius(9), Ratio(0.90), celsius(25))
    assert len(gate.reasons) == 2


def test_where_frost_would_settle_no_piece_is_too_cold() -> None:
    """At 5 °C and 40 % water condenses only at -7.6 °C, as frost."""
    gate = dew_gate(celsius(12), Ratio(0.30), celsius(1))
    assert (gate.open, gate.dew) == (True, None)
    assert not dew_gate(celsius(5), Ratio(0.40), celsius(5)).open


def test_at_20_celsius_the_piece_needs_air_under_83_percent() -> None:
    assert dew_gate(celsius(20), Ratio(0.82), celsius(20)).open
    assert not dew_gate(celsius(20), Ratio(0.84), celsius(20)).open


@pytest.mark.parametrize("solids", [0.0, 1.1])
def test_solids_that_cannot_be_are_refused(solids: float) -> None:
    with pytest.raises(ShopError):
        wet_film(Metre(50e-6), Ratio(solids))
    with pytest.raises(ShopError):
        thinned_solids(Ratio(solids), Ratio(1.0))


def test_a_bore_as_wide_as_the_piece_is_refused() -> None:
    with pytest.raises(ShopError):
        turned_area(Metre(0.06), Metre(0.15), Metre(0.06))


def test_no_coats_is_no_plan() -> None:
    with pytest.raises(ShopError):
        finish_volume(SquareMetre(0.03), SquareMetrePerCubicMetre(1e4), Ratio(0.0))


def test_friction_stays_comfortable_or_under_the_softening() -> None:
    assert friction_limit(None) == celsius(40)
    assert friction_limit(celsius(45)) == celsius(35)
    assert friction_limit(celsius(71)) == celsius(40)


# -- symptoms ------------------------------------------------------------------------------------------


def test_every_clue_is_used_and_every_clue_named_exists() -> None:
    used = {clue for _, reasons in SYMPTOMS.values() for each in reasons for clue in each.clues}
    assert used == set(CLUES)


@pytest.mark.parametrize("symptom", sorted(SYMPTOMS))
def test_with_nothing_on_record_nothing_is_claimed(symptom: str) -> None:
    causes = rank(symptom, Facts())
    assert causes
    assert {each.side for each in causes} == {"missing"}
    assert missing(causes)


def test_soft_after_three_days_is_told_by_the_record() -> None:
    """Case R02: within tolerance and old enough, a soft witness still speaks of the mix."""
    facts = Facts(off_ratio=0.4, cured=1.3, witness_hard=True, under_minimum=False)
    causes = {each.key: each for each in rank("soft everywhere", facts)}
    assert causes["off ratio"].side == "against"
    assert causes["young"].side == "against"
    assert causes["cold"].side == "against"
    assert causes["colour"].side == "missing"
    spots = rank("soft in spots", Facts(witness_hard=True, stabilised=False))
    assert spots[0].key == "wood"
    assert spots[0].side == "for"


def test_a_mix_off_its_ratio_stands_first() -> None:
    causes = rank("soft everywhere", Facts(off_ratio=2.0, cured=1.3, witness_hard=False))
    assert causes[0].key == "off ratio"
    assert causes[-1].key == "young"


def test_one_fact_against_outweighs_one_for() -> None:
    causes = rank("soft everywhere", Facts(off_ratio=2.0, witness_hard=True))
    assert next(each for each in causes if each.key == "off ratio").side == "against"


def test_bubbles_at_the_wood_on_a_warming_day() -> None:
    """Case C12."""
    causes = rank("bubbles at the wood", Facts(warming=True, stabilised=True, wood_dry=True))
    assert causes[0].key == "warming"


def test_a_young_casting_that_gums_is_told_to_wait() -> None:
    """Case T04."""
    assert rank("gumming", Facts(cured=0.7))[0].key == "young"
    assert rank("gumming", Facts(cured=1.2, fast=True))[0].key == "friction"


def test_an_unknown_symptom_is_refused() -> None:
    with pytest.raises(ShopError):
        rank("haunted", Facts())
