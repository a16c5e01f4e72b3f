"""Sources of the mixing topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "BOAT-RATIO": Source(
        "Article on a boat-building epoxy: 2:1 by volume is 100:44 by weight", "restated"
    ),
    "VOLUMES-ADD": Source(
        "Mass is volume times density, and volumes of the parts add up: our working rule",
        "own computation",
    ),
    "PUMP-LOGS": Source(
        "Two builders' logs of metered pumps whose strokes were taken for parts", "restated"
    ),
    "BUILD-LOG-SHORT": Source(
        "A builder's log: 144 g of resin, hardener ran out at a total of 194 g of 207.36 g",
        "restated",
    ),
    "BUILDERS-LIST-1999": Source(
        "Post on a kit-aircraft builders' mailing list, November 1999: 100:25 on a 1 g scale,"
        " 3.902 to 4.102, with 1 g of error 3.717 to 4.319; supplier accepts 101:24.5 to 99:25.5",
        "restated",
    ),
    "UNIFORM-ROUNDING": Source(
        "Rounding to a step spreads evenly over it: standard deviation step / square root of 12;"
        " JCGM 100:2008 (GUM), 4.3.7",
        "from memory",
    ),
    "CUP-BLOG": Source(
        "A craft blog: lines of mixing cups were wrong, found by filling them with water",
        "restated",
    ),
    "OVER-POUR": Source(
        "100:44, target 200 g, resin or hardener poured over: worked through twice",
        "own computation",
    ),
    "COUNTER-LABEL": Source(
        "A vendor's support page: one product, 1:1 by volume and 100:83 by weight", "restated"
    ),
    "SMALL-CAST-BLOG": Source(
        "A hobby blog: polyurethane 1:1 by volume, 100:90 by weight, 26.4 in3 a pound, one cubic"
        " inch",
        "restated",
    ),
    "SCALE-IN-ML": Source(
        "A consumer article: kitchen scales in millilitres weigh water; figures recomputed",
        "own computation",
    ),
}
