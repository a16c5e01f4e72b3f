"""Sources that every topic uses."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "SI-BROCHURE": Source(
        "BIPM, The International System of Units (SI Brochure), 9th edition, 2019", "from memory"
    ),
    "PRACTICE": Source("Common practice of the trade; no source", "common practice"),
    "OWN": Source("A choice or computation of this project", "own computation"),
}
