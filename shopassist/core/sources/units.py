"""Sources of the units topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
