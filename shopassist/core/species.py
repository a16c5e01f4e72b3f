"""Woods by name: a fallback where the piece itself has not been weighed and measured."""

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import KilogramPerCubicMetre, Ratio
from shopassist.core.wood import oven_dry_density

SCATTER = Ratio(0.10)
"""Pieces of one species lie this far either way, from a page that quotes the handbook."""


@frozen
class Species:
    """Mean values of a species; the piece in hand may differ by a tenth."""

    name: str
    gravity: Ratio
    """Specific gravity at 12 % moisture."""
    source: str
    """Key in ``core.sources``."""
    volumetric: Ratio | None = None
    """Shrinkage of the volume from green to oven-dry."""
    radial: Ratio | None = None
    tangential: Ratio | None = None

    @property
    def dry_density(self) -> KilogramPerCubicMetre:
        """Oven-dry mass over oven-dry volume, [kg/m3]."""
        return oven_dry_density(self.gravity)


def _wood(
    name: str,
    gravity: float,
    source: str,
    volumetric: float = 0.0,
    across: tuple[float, float] | None = None,
) -> Species:
    """Build one row: shrinkages in percent as the tables print them."""
    radial, tangential = across or (None, None)
    return Species(
        name, Ratio(gravity), source,
        Ratio(volumetric / 100) if volumetric else None,
        Ratio(radial / 100) if radial else None,
        Ratio(tangential / 100) if tangential else None,
    )  # fmt: skip


SPECIES = (
    _wood("Alder, red", 0.41, "WOOD-TABLE-TREES", 12.6),
    _wood("Ash, white", 0.6, "WOOD-TABLE-TREES", 13.3, (4.9, 7.8)),
    _wood("Basswood", 0.37, "WOOD-TABLE-TREES", 15.8),
    _wood("Beech, American", 0.64, "WOOD-TABLE-TREES", 17.2, (5.5, 11.9)),
    _wood("Birch, paper", 0.55, "WOOD-TABLE-TREES", 16.2),
    _wood("Birch, yellow", 0.62, "WOOD-TABLE-TREES", 16.8),
    _wood("Butternut", 0.38, "WOOD-TABLE-TREES", 10.6),
    _wood("Cherry, black", 0.5, "WOOD-TABLE-TREES", 11.5, (3.7, 7.1)),
    _wood("Elm, American", 0.5, "WOOD-TABLE-TREES", 14.6),
    _wood("Hackberry", 0.53, "WOOD-TABLE-TREES"),
    _wood("Hickory, shagbark", 0.72, "WOOD-TABLE-TREES"),
    _wood("Locust, black", 0.69, "WOOD-TABLE-TREES"),
    _wood("Maple, bigleaf", 0.48, "WOOD-TABLE-TREES"),
    _wood("Maple, red", 0.54, "WOOD-TABLE-TREES"),
    _wood("Maple, silver", 0.47, "WOOD-TABLE-NOTES"),
    _wood("Maple, sugar", 0.63, "WOOD-TABLE-NOTES", 0.0, (4.8, 9.9)),
    _wood("Oak, northern red", 0.63, "WOOD-TABLE-NOTES"),
    _wood("Oak, white", 0.68, "WOOD-TABLE-NOTES", 16.3),
    _wood("Sycamore, American", 0.49, "WOOD-MEMORY", 14.1),
    _wood("Walnut, black", 0.55, "WOOD-TABLE-NOTES", 12.8, (5.5, 7.8)),
    _wood("Yellow-poplar", 0.42, "WOOD-TABLE-NOTES", 12.7, (4.6, 8.2)),
    _wood("Douglas-fir, coast", 0.48, "WOOD-TABLE-EXTENSION", 12.4),
    _wood("Larch, western", 0.52, "WOOD-TABLE-EXTENSION"),
    _wood("Pine, ponderosa", 0.4, "WH190"),
    _wood("Pine, loblolly", 0.51, "WOOD-TABLE-ARMY"),
    _wood("Redcedar, western", 0.32, "WOOD-MEMORY", 6.8),
    _wood("Redcedar, eastern", 0.47, "WOOD-MEMORY", 7.8),
    _wood("Spruce, Sitka", 0.4, "WOOD-TABLE-ARMY"),
    _wood("Redwood, old-growth", 0.4, "WH190"),
    _wood("Ash, European", 0.6339, "WOOD-TABLE-DENSITY"),
    _wood("Beech, European", 0.6518, "WOOD-TABLE-DENSITY"),
    _wood("Birch, European", 0.5982, "WOOD-TABLE-DENSITY"),
    _wood("Box", 0.8482, "WOOD-TABLE-DENSITY"),
    _wood("Cherry, European", 0.5625, "WOOD-TABLE-DENSITY"),
    _wood("Chestnut, sweet", 0.5, "WOOD-TABLE-DENSITY"),
    _wood("Elm, English", 0.5, "WOOD-TABLE-DENSITY"),
    _wood("Holly", 0.6786, "WOOD-TABLE-DENSITY"),
    _wood("Lime, European", 0.5, "WOOD-TABLE-DENSITY"),
    _wood("Oak, English", 0.6607, "WOOD-TABLE-DENSITY"),
    _wood("Plane", 0.5714, "WOOD-TABLE-DENSITY"),
    _wood("Apple", 0.6696, "WOOD-TABLE-DENSITY"),
    _wood("Pear", 0.5982, "WOOD-TABLE-DENSITY"),
    _wood("Plum", 0.6429, "WOOD-TABLE-DENSITY"),
    _wood("Sycamore (maple), European", 0.5536, "WOOD-MEMORY"),
    _wood("Walnut, European", 0.5893, "WOOD-MEMORY"),
    _wood("Yew", 0.5982, "WOOD-MEMORY"),
    _wood("Hornbeam", 0.6607, "WOOD-MEMORY"),
)
"""Shrinkages by the handbook's table 4-3; those of density by the source of each row."""
BY_NAME = {each.name: each for each in SPECIES}


def species(name: str) -> Species:
    """Give the row of one species."""
    try:
        return BY_NAME[name]
    except KeyError:
        raise out_of_range(
            "species", "No species of that name in the table: weigh a piece."
        ) from None
