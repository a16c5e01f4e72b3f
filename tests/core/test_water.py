import pytest

from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import Kelvin, Kilogram
from shopassist.core.water import water_density, water_volume


def test_water_is_heaviest_at_four_degrees() -> None:
    at = [water_density(Kelvin(273.15 + t)) for t in (0, 2, 4, 6, 20, 40)]
    assert max(at) == at[2]
    assert at[2] > at[3] > at[4] > at[5]


@pytest.mark.parametrize("celsius", [0.5, 4, 10, 20, 30, 39.5])
def test_an_independent_library_gives_the_same_density(celsius: float) -> None:
    library = pytest.importorskip("CoolProp.CoolProp")
    ours = water_density(Kelvin(273.15 + celsius))
    assert ours == pytest.approx(
        library.PropsSI("D", "T", 273.15 + celsius, "P", 101325, "Water"), rel=5e-6
    )


@pytest.mark.parametrize("celsius", [-0.1, 40.1, float("nan")])
def test_ice_and_hot_water_are_refused(celsius: float) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        water_volume(Kilogram(0.03), Kelvin(273.15 + celsius))
    assert caught.value.field == "temp"


def test_no_water_measures_nothing() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        water_volume(Kilogram(0.0), Kelvin(293.15))
    assert caught.value.field == "mass"


def test_thirty_grams_are_thirty_millilitres_to_a_part_in_five_hundred() -> None:
    assert water_volume(Kilogram(0.03), Kelvin(293.15)) * 1e6 == pytest.approx(30.0, rel=2e-3)
