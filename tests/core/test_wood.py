"""Species, voids, uptake, humidity: what the outside checks do not reach."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.errors import ShopError
from shopassist.core.humidity import (
    boiling_temperature,
    dew_point,
    humidity_of_wet_bulb,
    humidity_when_heated,
    saturation_pressure,
)
from shopassist.core.moisture import moisture, shrinkage_between
from shopassist.core.quantities import (
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    PascalAbsolute,
    Ratio,
)
from shopassist.core.sources import SOURCES
from shopassist.core.species import SPECIES, species
from shopassist.core.wood import gravity_at_12, sink_fill, uptake, void_fill, voids
from shopassist.core.wood_heat import wood_conductivity

RESIN = KilogramPerCubicMetre(1030.0)


@pytest.mark.parametrize("each", SPECIES, ids=lambda each: each.name)
def test_every_species_has_a_known_source_and_voids(each: object) -> None:
    assert each.source in SOURCES  # type: ignore[attr-defined]
    assert 0.3 < voids(each.dry_density) < 0.85  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("name", "dry", "share"),
    [("Maple, sugar", 675, 0.550), ("Walnut, black", 584, 0.611), ("Basswood", 385, 0.743),
     ("Ash, European", 680, 0.547), ("Box", 932, 0.379), ("Redcedar, western", 331, 0.779)],
)  # fmt: skip
def test_the_table_gives_the_published_voids(name: str, dry: float, share: float) -> None:
    wood = species(name)
    assert wood.dry_density == pytest.approx(dry, abs=1)
    assert voids(wood.dry_density) == pytest.approx(share, abs=0.001)


def test_an_unknown_species_asks_for_a_weighed_piece() -> None:
    with pytest.raises(ShopError) as refused:
        species("driftwood")
    assert refused.value.field == "species"


def test_no_two_species_share_a_name() -> None:
    assert len({each.name for each in SPECIES}) == len(SPECIES)


def test_shrinkages_lie_in_order() -> None:
    for each in SPECIES:
        if each.radial is not None and each.tangential is not None:
            assert each.radial < each.tangential < (each.volumetric or 1.0)


@pytest.mark.parametrize("dry", [0.0, 1500.0])
def test_wood_without_voids_or_substance_is_refused(dry: float) -> None:
    with pytest.raises(ShopError):
        voids(KilogramPerCubicMetre(dry))


def test_a_gravity_above_that_of_cell_walls_is_refused() -> None:
    with pytest.raises(ShopError):
        gravity_at_12(Ratio(1.6))


def test_wood_denser_than_the_resin_sinks_dry() -> None:
    assert sink_fill(KilogramPerCubicMetre(1200.0), RESIN) == pytest.approx(0)


def test_a_piece_lighter_than_dry_is_refused() -> None:
    with pytest.raises(ShopError):
        moisture(Kilogram(0.300), Kilogram(0.310))


def test_no_wood_shrinks_by_half() -> None:
    with pytest.raises(ShopError):
        shrinkage_between(Ratio(0.6), Ratio(0.1), Ratio(0.0))


def test_above_fibre_saturation_nothing_moves() -> None:
    assert shrinkage_between(Ratio(0.1), Ratio(0.8), Ratio(0.31)) == pytest.approx(0.0)


def test_burl_gained_by_density_is_told_against_its_ceiling() -> None:
    """Case S09: density 0.397 before, 1.115 after; 1.05 g/ml resin; 93 % of the voids."""
    dry = KilogramPerCubicMetre(397.0)
    gain = uptake(Kilogram(0.397), Kilogram(1.115))
    assert gain == pytest.approx(1.81, abs=0.01)
    assert void_fill(gain, dry, KilogramPerCubicMetre(1050.0)) == pytest.approx(0.93, abs=0.01)


def test_82_blanks_from_a_gallon_drink_more_than_they_can_hold() -> None:
    """Case S10: 46.2 ml each against 35.3 ml of voids in 46.1 ml."""
    blank = 0.75 * 0.75 * 5 * 25.4**3 / 1000
    assert blank == pytest.approx(46.1, abs=0.05)
    held = blank * voids(KilogramPerCubicMetre(350.0))
    assert held == pytest.approx(35.3, abs=0.1)
    assert pytest.approx(46.2, abs=0.05) == 3785.4 / 82


@pytest.mark.parametrize("celsius", [-0.1, 200.1])
def test_steam_tables_end_somewhere(celsius: float) -> None:
    with pytest.raises(ShopError):
        saturation_pressure(Kelvin(celsius + 273.15))


@pytest.mark.parametrize("pressure", [100.0, 1e7])
def test_boiling_outside_the_table_is_refused(pressure: float) -> None:
    with pytest.raises(ShopError):
        boiling_temperature(PascalAbsolute(pressure))


@given(celsius=st.floats(0.5, 199.5))
def test_boiling_is_the_inverse_of_saturation(celsius: float) -> None:
    temp = Kelvin(celsius + 273.15)
    assert boiling_temperature(saturation_pressure(temp)) == pytest.approx(temp, abs=1e-4)


def test_the_line_of_the_conductivity_ends_at_a_quarter_of_water() -> None:
    with pytest.raises(ShopError):
        wood_conductivity(Ratio(0.6), Ratio(0.3))


def test_frost_is_not_dew() -> None:
    with pytest.raises(ShopError):
        dew_point(Kelvin(283.15), Ratio(0.2))


def test_cooling_air_saturates_and_no_more() -> None:
    assert humidity_when_heated(Kelvin(303.15), Ratio(0.9), Kelvin(283.15)) == 1.0


@pytest.mark.parametrize(("dry", "wet"), [(20.0, 21.0), (60.0, 5.0)])
def test_a_wet_thermometer_that_cannot_be_is_refused(dry: float, wet: float) -> None:
    with pytest.raises(ShopError):
        humidity_of_wet_bulb(Kelvin(dry + 273.15), Kelvin(wet + 273.15), PascalAbsolute(101325.0))


def test_psychrometrics_agree_with_an_independent_library() -> None:
    library = pytest.importorskip("psychrolib")
    library.SetUnitSystem(library.SI)
    for celsius in range(1, 199, 9):
        ours = saturation_pressure(Kelvin(celsius + 273.15))
        assert ours == pytest.approx(library.GetSatVapPres(celsius), rel=1e-9)
    for warm, humid in ((16.0, 0.71), (21.0, 0.6), (30.0, 0.9)):
        ours_dew = dew_point(Kelvin(warm + 273.15), Ratio(humid)) - 273.15
        assert ours_dew == pytest.approx(library.GetTDewPointFromRelHum(warm, humid), abs=0.01)
