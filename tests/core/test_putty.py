import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.errors import OutOfRangeError
from shopassist.core.putty import (
    KNEAD_DEFAULT,
    PuttyTimes,
    equal_grams_error,
    equal_part,
    part_mass,
    putty_volume,
)
from shopassist.core.quantities import CubicMetre, KilogramPerCubicMetre, Ratio, Second


def test_the_worked_groove_takes_equal_volumes_and_unequal_grams() -> None:
    total = putty_volume(CubicMetre(6.635e-6), Ratio(0.10))
    part = equal_part(total)
    a = part_mass(part, KilogramPerCubicMetre(1700.0))
    b = part_mass(part, KilogramPerCubicMetre(1900.0))
    assert total == pytest.approx(7.30e-6, abs=1e-8)
    assert a * 1e3 == pytest.approx(6.2, abs=0.05)
    assert b * 1e3 == pytest.approx(6.9, abs=0.05)


@given(st.floats(1e-8, 1e-3), st.floats(0.0, 1.0))
def test_both_parts_sum_to_the_putty(grooves: float, proud: float) -> None:
    total = putty_volume(CubicMetre(grooves), Ratio(proud))
    assert 2 * equal_part(total) == pytest.approx(total)
    assert total >= grooves


def test_equal_grams_of_unlike_parts_are_off_ratio() -> None:
    a, b = KilogramPerCubicMetre(1400.0), KilogramPerCubicMetre(1000.0)
    assert equal_grams_error(a, b) == pytest.approx(0.40)
    assert equal_grams_error(a, a) == 0.0


@pytest.mark.parametrize(
    ("times", "field"),
    [
        (PuttyTimes(work=KNEAD_DEFAULT), "work"),
        (PuttyTimes(work=Second(600.0), set=Second(600.0)), "set"),
        (PuttyTimes(set=Second(60.0)), "set"),
    ],
)
def test_waits_that_cannot_follow_one_another_are_refused(times: PuttyTimes, field: str) -> None:
    assert times.problem() == field
    with pytest.raises(OutOfRangeError) as caught:
        times.need_order()
    assert caught.value.field == field


def test_usual_waits_follow_one_another() -> None:
    PuttyTimes().need_order()
    PuttyTimes(work=Second(45 * 60.0)).need_order()


def test_nothing_to_fill_and_no_density_are_refused() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        putty_volume(CubicMetre(0.0), Ratio(0.1))
    assert caught.value.field == "grooves"
    with pytest.raises(OutOfRangeError) as caught:
        putty_volume(CubicMetre(1e-6), Ratio(-0.1))
    assert caught.value.field == "proud"
    with pytest.raises(OutOfRangeError) as caught:
        equal_part(CubicMetre(0.0))
    assert caught.value.field == "total"
    with pytest.raises(OutOfRangeError) as caught:
        part_mass(CubicMetre(1e-6), KilogramPerCubicMetre(0.0))
    assert caught.value.field == "density"
    with pytest.raises(OutOfRangeError) as caught:
        equal_grams_error(KilogramPerCubicMetre(1000.0), KilogramPerCubicMetre(0.0))
    assert caught.value.field == "density_b"
