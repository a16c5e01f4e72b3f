"""Sources of the pressure topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
