"""A vacuum chamber: the air on its lid, and never pressure in it."""

from typing import Any

import pytest

from shopassist.core.chamber import (
    CAUTIONS,
    Chamber,
    cautions_of,
    chamber_from_mapping,
    vacuum_force,
)
from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import CubicMetre, Metre, PascalAbsolute
from shopassist.core.wording import Wording

WHOLE = {
    "name": "Bell", "lid": {"diameter": "300 mm", "kind": "acrylic", "looked": "2026-09-01"},
    "inside": {"volume": "10 l"}, "made": {"vacuum": True},
}  # fmt: skip


def read(mapping: Any) -> tuple[Chamber | None, tuple[str, ...]]:
    chamber, problems = chamber_from_mapping(mapping, Wording().read_si)
    return chamber, tuple(problem.place for problem in problems)


def test_a_whole_plate_is_read() -> None:
    assert read(WHOLE) == (
        Chamber("Bell", Metre(0.3), "acrylic", CubicMetre(0.01), True, "2026-09-01"), ()
    )  # fmt: skip


def test_a_name_and_a_seal_line_are_enough() -> None:
    bare = read({"name": "Bell", "lid": {"diameter": "300 mm"}})[0]
    assert bare == Chamber("Bell", Metre(0.3))
    assert read({"name": "Bell"}) == (None, ("lid.diameter",))


def test_it_is_never_a_pressure_vessel() -> None:
    assert read({**WHOLE, "made": {"vacuum": True, "pressure": True}}) == (None, ("made.pressure",))


@pytest.mark.parametrize(("millimetres", "newton"), [(254, 5134), (304.8, 7393), (300, 7162)])
def test_the_air_presses_on_the_lid(millimetres: float, newton: float) -> None:
    force = vacuum_force(Metre(millimetres / 1000), PascalAbsolute(101325.0))
    assert force == pytest.approx(newton, abs=1)
    assert vacuum_force(Metre(0.3), PascalAbsolute(84_560.0)) < 6000


def test_a_lid_has_a_size() -> None:
    with pytest.raises(OutOfRangeError):
        vacuum_force(Metre(0.0), PascalAbsolute(101325.0))


def test_what_is_not_known_is_said() -> None:
    plain = Chamber("Jar", Metre(0.2), "glass")
    told = [text.template for text in cautions_of(plain)]
    assert len(told) == 3
    assert "Do not use it" in told[0]
    assert cautions_of(Chamber("Bell", Metre(0.3), "acrylic", None, True, "2026-09-01")) == ()
    assert any("implode" in text.template for text in CAUTIONS)
