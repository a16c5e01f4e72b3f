"""Where formulas, constants and checks come from, by key; one module a topic."""

from shopassist.core.sources import cure, general, heat, mixing, pot, pressure, solids, units, wood
from shopassist.core.sources.citation import Source, Standing

__all__ = ["SOURCES", "Source", "Standing"]

SOURCES: dict[str, Source] = {
    **general.SOURCES,
    **units.SOURCES,
    **mixing.SOURCES,
    **cure.SOURCES,
    **pressure.SOURCES,
    **pot.SOURCES,
    **solids.SOURCES,
    **heat.SOURCES,
    **wood.SOURCES,
}
"""Every key used in a ``Sources`` section, a check or an ``Origin`` stands here."""
