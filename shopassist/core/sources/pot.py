"""Sources of the pot topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
