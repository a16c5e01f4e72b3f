"""What the cards answer where an entry could never get by."""

import pytest

from shopassist.services.said import Said
from shopassist.services.turn import Borrowed
from shopassist.services.turn_finish import air_card, coat_card, putty_card, sand_card
from shopassist.services.turn_wood import drill_card, lathe_card


def test_sizes_that_cannot_be_are_told_beside_their_entries() -> None:
    none = frozenset[str]()
    assert lathe_card(Said({"diameter": -1.0}), none).plan.problems.keys() == {"diameter"}
    assert putty_card(Said({"grooves": -1.0})).problems.keys() == {"grooves"}
    sizes = {"drill": 0.01, "depth": -1.0, "stock": 0.02}
    assert drill_card(Said(sizes), Borrowed()).plan.problems.keys() == {"depth"}
    coats = {"coat_diameter": 0.06, "coat_length": 0.15, "solids": 2.0}
    assert coat_card(Said(coats)).plan.problems.keys() == {"solids"}
    assert coat_card(Said({"recoat": -1.0, "air": 293.0})).plan.problems.keys() == {"recoat"}
    assert air_card(Said({"air": 293.0, "humidity": 2.0}), "", None).problems.keys() == {"humidity"}


def test_a_row_without_grits_is_no_row() -> None:
    assert sand_card(Said({}, {"papers": ", ;"}), None, None).plan.problems.keys() == {"papers"}


@pytest.mark.parametrize(("film", "wet"), [(None, 100e-6), (25e-6, 50e-6)])
def test_a_film_that_is_not_typed_is_ours(film: float | None, wet: float) -> None:
    said = Said({"coat_diameter": 0.06, "coat_length": 0.15, "solids": 0.5, "dry_film": film})
    found = coat_card(said).plan.figures["wet"]
    assert found.value == pytest.approx(wet)
