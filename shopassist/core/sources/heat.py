"""Sources of the heat topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "ISO6946": Source(
        "ISO 6946, thermal resistance of building components: surface resistances as a"
        " documentation page restates them; the Annex's formulae and the outer 0.04 from memory",
        "restated",
    ),
    "ISO10456": Source(
        "ISO 10456 and EN 12524, tables of design thermal values, as public copies give them;"
        " plywood 0.13 W/(m K) for 500 kg/m3 from memory",
        "restated",
    ),
    "EN13163": Source("EN 13163, expanded polystyrene by grade, from a maker's table", "restated"),
    "CENGEL-HT": Source(
        "Cengel, Heat Transfer: example 4-1 (thermocouple) and problem 11-41 (long shaft) with"
        " their solutions",
        "read",
    ),
    "SHAFT-EXAMPLE": Source(
        "A university example of a cooling steel shaft: inputs read, answer summed anew with a"
        " general scientific library",
        "own computation",
    ),
    "INCROPERA-HT": Source(
        "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, example 5.1", "from memory"
    ),
    "WH190-HEATING": Source(
        "Wood Handbook, FPL-GTR-190, 2010, chapter 20, equations 20-1 to 20-4 and Table 20-4:"
        " heating of round and square timbers",
        "read",
    ),
    "HEAT-LUMPS": Source(
        "Balance of heat over lumps of one temperature, U A dT between them; any text on heat"
        " transfer",
        "own computation",
    ),
    "CHURCHILL-CHU": Source(
        "Churchill and Chu's correlations for free convection, and radiation of a painted wall,"
        " worked out once for a pot of 0.28 m by 0.32 m",
        "own computation",
    ),
}
