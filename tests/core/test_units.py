import pytest

from shopassist.core import quantities
from shopassist.core.early_units import EARLY_UNITS
from shopassist.core.errors import EntryError
from shopassist.core.style import CHOICES
from shopassist.core.units import BASE_OF, EARLY, build_table, factors, from_si, to_si, unit_key
from tests.core.workshop import LINES

WHOLE = build_table(LINES)


def test_every_early_number_is_the_one_that_pint_works_out() -> None:
    for unit, (factor, offset) in zip(EARLY_UNITS, factors(LINES, EARLY_UNITS), strict=True):
        # a factor with an offset is found as a difference near 255, which costs three digits
        assert factor == pytest.approx(unit.factor, rel=1e-13 if offset else 1e-15), unit.symbol
        assert offset == pytest.approx(unit.offset, rel=1e-15), unit.symbol


def test_the_definition_file_adds_units_and_changes_none() -> None:
    assert WHOLE.units[: len(EARLY_UNITS)] == EARLY_UNITS
    assert len(WHOLE.units) > len(EARLY_UNITS) + 30


def test_one_spelling_means_one_unit_of_a_quantity() -> None:
    for quantity in BASE_OF:
        seen: dict[str, str] = {}
        for unit in WHOLE.of(quantity):
            for spelling in {unit.symbol, unit.full_name, *unit.spellings}:
                key = unit_key(spelling)
                assert seen.setdefault(key, unit.symbol) == unit.symbol, (quantity, spelling)


def test_every_quantity_of_the_house_has_a_unit() -> None:
    names = {name for name in quantities.UNIT_OF if name != "UtcSecond"}
    assert set(BASE_OF) == names
    assert all(EARLY.of(name) for name in names)


def test_every_unit_measures_quantities_of_the_house() -> None:
    assert {q for unit in WHOLE.units for q in unit.quantities} <= set(BASE_OF)


def test_every_choice_shows_units_that_are_known_before_the_first_paint() -> None:
    for choice in CHOICES.values():
        for quantity in BASE_OF:
            found = EARLY.find(choice.unit(quantity), quantity)
            assert found is not None
            assert found.symbol == choice.unit(quantity)


def test_a_choice_may_differ_in_one_unit() -> None:
    changed = CHOICES["metric"].changed(PascalGauge="psi")
    assert (changed.unit("PascalGauge"), changed.unit("Kilogram")) == ("psi", "g")


@pytest.mark.parametrize(
    ("spelling", "quantity", "symbol"),
    [
        ("PSI", "PascalGauge", "psi"),
        ("Kg", "Kilogram", "kg"),
        ("fl. oz US", "CubicMetre", "US fl oz"),
        ("US FL OZ", "CubicMetre", "US fl oz"),
        ("cm^3", "CubicMetre", "cm³"),
        ("W/(m²·K)", "WattPerSquareMetreKelvin", "W/(m² K)"),
        ("mm", "Metre", "mm"),
        ("c", "Kelvin", "°C"),
    ],
)
def test_a_unit_is_found_however_it_is_dressed(spelling: str, quantity: str, symbol: str) -> None:
    found = EARLY.find(spelling, quantity)
    assert found is not None
    assert found.symbol == symbol


def test_a_blank_before_a_digit_makes_another_word() -> None:
    assert unit_key("in 3") != unit_key("in3")
    assert EARLY.find("in 3", "CubicMetre") is None


def test_a_temperature_and_a_difference_are_converted_apart() -> None:
    assert to_si(18, "°F", "Kelvin") == pytest.approx(265.3722222222)
    assert to_si(18, "°F", "KelvinDelta") == pytest.approx(10.0)


def test_a_pressure_is_no_mass() -> None:
    with pytest.raises(EntryError) as caught:
        to_si(1, "bar", "Kilogram")
    assert caught.value.detail.params == (("accepted", "g, kg, oz, lb"),)
    with pytest.raises(EntryError):
        from_si(1, "", "Kilogram")


def test_there_and_back_is_where_it_was() -> None:
    for unit in WHOLE.units:
        for quantity in unit.quantities:
            there = to_si(12.5, unit.symbol, quantity, WHOLE)
            assert from_si(there, unit.symbol, quantity, WHOLE) == pytest.approx(12.5, rel=1e-12)


def test_quantities_of_a_spelling_are_all_found() -> None:
    assert EARLY.quantities_of("K") == ("Kelvin", "KelvinDelta")
    assert EARLY.quantities_of("furlong") == ()
