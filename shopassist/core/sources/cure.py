"""Sources of the cure topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {}
