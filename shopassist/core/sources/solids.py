"""Sources of the solids topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "GEOMETRY": Source("Elementary geometry: closed form or integral", "own computation"),
    "QUADRATURE": Source(
        "The outline integrated numerically with scipy 1.17 (integrate.quad)", "own computation"
    ),
    "COOLPROP": Source("CoolProp 8.0: equation of state of water, IAPWS 1995", "own computation"),
    "PAPPUS": Source(
        "Pappus' second theorem: area times the way of its centroid; any handbook of mathematics",
        "from memory",
    ),
    "TANAKA-2001": Source(
        "M. Tanaka, G. Girard, R. Davis, A. Peuto, N. Bignell, Recommended table for the density of"
        " water between 0 °C and 40 °C based on recent experimental reports, Metrologia 38 (2001)"
        " 301-309, equation (1)",
        "from memory",
    ),
    "ARCHIMEDES": Source("Archimedes' principle; hydrostatics", "from memory"),
    "CELL-WALL": Source(
        "Density of the wood cell wall about 1.5 g/ml (1.46 to 1.53 by method); voids are the rest",
        "from memory",
    ),
    "GROOVE-INTEGRALS": Source(
        "Groove, frustum and mould volumes worked by closed form and again by integral",
        "own computation",
    ),
    "TURNERS-CLUB-DRILL": Source(
        "A turners' club page: a 3/8 in drill came out 3/8 in off after 7 in of depth", "restated"
    ),
    "PUTTY-SHEET": Source(
        "Data sheet of a two-part epoxy putty: 1:1 by volume is 1.4:1 by weight", "restated"
    ),
    "MOULD-GUIDES": Source(
        "Casting guides on bowing walls; side load and bulge recomputed", "own computation"
    ),
    "FRANK-KAMENETSKII": Source(
        "D. A. Frank-Kamenetskii, Diffusion and Heat Exchange in Chemical Kinetics: critical values"
        " 0.88 slab, 2.00 cylinder, 3.32 sphere, as restated in the abstract of 'Thermal explosions"
        " and the disappearance of criticality'",
        "restated",
    ),
    "SEMENOV": Source(
        "N. N. Semenov, theory of thermal explosion: critical value 1/e without consumption",
        "from memory",
    ),
    "REFERENCE-SHAPE": Source(
        "Our reference shape of a cure: rate k (0.05 + a)(1 - a)^2, gel at a = 0.577; it"
        " describes no product",
        "own computation",
    ),
    "LUMPED-RUNS": Source(
        "Our runs of a lumped heat balance on the reference shape: a peak of 60 °C is first"
        " exceeded at an index of 0.514",
        "own computation",
    ),
    "POLIMEROS-TETA": Source(
        "Heat of reaction 486 J/g of a DGEBA/TETA system, Polímeros (SciELO), abstract", "restated"
    ),
    "CASTING-LIMIT": Source(
        "Similarity of conduction and heat release: depth as one over the root of the rate",
        "own computation",
    ),
}
