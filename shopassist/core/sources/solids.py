"""Sources of the solids topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
