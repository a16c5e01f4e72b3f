"""Sources of the heat topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
