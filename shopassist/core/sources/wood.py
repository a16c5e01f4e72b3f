"""Sources of the wood topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
