import pytest

from shopassist.core.errors import OutOfRangeError
from shopassist.core.leftover import (
    CRYSTAL_CARD,
    HOT_CUP_CARD,
    LEFTOVER_CARD,
    needs_heat_card,
    needs_watch,
    times_over,
    unaccounted,
)
from shopassist.core.quantities import Kilogram, Ratio

KG = Kilogram


def test_case_c15_sixty_grams_are_watched_and_a_smear_is_not() -> None:
    assert needs_watch(KG(0.060))
    assert not needs_watch(KG(0.020))


def test_case_c16_a_reservoir_is_many_times_a_cup() -> None:
    assert times_over(KG(0.680), KG(0.150)) == pytest.approx(4.5, abs=0.05)
    assert times_over(KG(0.680), KG(0.100)) == pytest.approx(6.8)


def test_resin_that_nobody_named_is_asked_for() -> None:
    assert unaccounted(KG(0.5), KG(0.4), KG(0.05)) == pytest.approx(0.05)
    assert unaccounted(KG(0.5), KG(0.48), KG(0.05)) == 0.0


def test_case_m05_a_mix_far_off_ratio_shows_the_heat_card_either_way() -> None:
    assert needs_heat_card(Ratio(3.0)) and needs_heat_card(Ratio(-0.3))
    assert not needs_heat_card(Ratio(0.211))


def test_cards_never_advise_a_lid_a_bin_or_keeping_warm() -> None:
    told = [text.template for text in (*LEFTOVER_CARD, *HOT_CUP_CARD)]
    assert any(line.startswith("No lid") for line in told)
    assert any("into the bin before it is cold and hard" in line for line in told)
    assert any(line.startswith("Never keep mixed resin warm") for line in told)
    assert not any("safe" in line.lower() for line in told)


def test_case_c14_warmed_resin_is_cooled_before_mixing() -> None:
    told = [text.template for text in CRYSTAL_CARD]
    assert any("cool to working temperature before you mix" in line for line in told)


def test_impossible_leftovers_are_refused() -> None:
    for call, field in (
        (lambda: needs_watch(KG(-0.1)), "leftover"),
        (lambda: unaccounted(KG(1.0), KG(-1.0), KG(0.0)), "poured"),
        (lambda: times_over(KG(1.0), KG(0.0)), "limit"),
        (lambda: times_over(KG(-1.0), KG(1.0)), "mass"),
    ):
        with pytest.raises(OutOfRangeError) as caught:
            call()
        assert caught.value.field == field
