"""Sources of the mixing topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
