"""Sources of the wood topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "WH190": Source(
        "USDA Forest Products Laboratory, Wood Handbook, FPL-GTR-190, 2010: chapters 4, 5 and 19",
        "read",
    ),
    "WH190-EMC": Source(
        "Wood Handbook, FPL-GTR-190, 2010, Table 4-2 (equilibrium moisture) and equation 4-5",
        "read",
    ),
    "WH190-GRAVITY": Source(
        "Wood Handbook, FPL-GTR-190, 2010, equations 4-9 to 4-12; numbers of the equations and the"
        " 26.5 from memory, the ash example of p. 4-11 read",
        "from memory",
    ),
    "WH282": Source(
        "Wood Handbook, FPL-GTR-282, 2021, chapter 4, equations 4-2 and 4-5, as quoted in a public"
        " fact sheet",
        "restated",
    ),
    "WH190-HEAT": Source(
        "Wood Handbook, FPL-GTR-190, 2010, equation 4-16a, as an open library of physical"
        " properties restates it",
        "restated",
    ),
    "SOAKED-ESTIMATE": Source(
        "Wood and liquid resin taken side by side, worked by us", "own computation"
    ),
    "ASTM-D4442": Source(
        "ASTM D4442, moisture content of wood: methods A and B as a test laboratory sums them up",
        "restated",
    ),
    "EN13183": Source(
        "EN 13183-1:2002, oven-dry method, as a national timber trade body describes it", "restated"
    ),
    "ISO13061": Source("ISO 13061-1 (formerly ISO 3130): interval and share", "from memory"),
    "IS1708": Source("IS 1708-1:1986, moisture content of small clear specimens", "read"),
    "AITKEN": Source(
        "Aitken's delta-squared extrapolation; any text on numerical methods", "from memory"
    ),
    "HYLAND-WEXLER": Source(
        "Hyland and Wexler 1983 as printed in the ASHRAE Handbook of Fundamentals and restated in"
        " an independent library of psychrometrics, which agrees to 12 places",
        "restated",
    ),
    "PSYCHROMETER": Source(
        "Sprung's psychrometer formula, constant of an aspirated instrument 6.62e-4 per kelvin",
        "from memory",
    ),
    "IDEAL-GAS": Source("Ideal gas law", "from memory"),
    "COATING-GUIDE": Source(
        "A coating maker's guide to dew point, after ISO 8502-4: two worked readings", "restated"
    ),
    "PORE-FILLING": Source(
        "Pore-filling ratio, after Wu and others, Wood Science and Technology 2017, abstract; the"
        " algebra is ours",
        "restated",
    ),
    "BATH-GEOMETRY": Source("Volumes and levels of a bath worked by us", "own computation"),
    "PUMP-DOWN": Source(
        "Exponential pump-down at constant speed; vacuum lecture of a physics laboratory, 2012",
        "restated",
    ),
    "PUMP-MAKER": Source(
        "A pump maker's article: a pump rated 27 inHg reads 22 near 5000 ft, as it should",
        "restated",
    ),
    "MMA-VAPOUR": Source(
        "Methyl methacrylate, DIPPR-101 form in Perry's Handbook, 8th ed., Table 2-8, from memory;"
        " a safety data sheet's 28 mmHg at 20 °C and 37 to 39 mmHg at 25 °C were read",
        "from memory",
    ),
    "MMA-NIST": Source(
        "NIST WebBook, methyl methacrylate, Antoine equation after Brockhaus and Jenckel 1956,"
        " 312 to 362 K",
        "read",
    ),
    "WOOD-TABLE-TREES": Source(
        "A public table of tree strengths derived from Wood Handbook table 5-3", "restated"
    ),
    "WOOD-TABLE-NOTES": Source("Magazine notes derived from the Wood Handbook", "restated"),
    "WOOD-TABLE-EXTENSION": Source(
        "A state university's extension table that cites the Wood Handbook", "read"
    ),
    "WOOD-TABLE-ARMY": Source("US Army TM 5-852-4, table 2-2 (Forest Products Laboratory)", "read"),
    "WOOD-TABLE-DENSITY": Source(
        "A public engineering table of air-dry densities, taken as at 12 % moisture", "read"
    ),
    "WOOD-MEMORY": Source("Density of this species from memory, unconfirmed", "from memory"),
    "TURNERS-RULE": Source(
        "Turners' rule of thumb, inches of diameter times revolutions a minute 6000 to 9000; some"
        " forums, disputed as cautious",
        "restated",
    ),
    "MEDH": Source(
        "Mechanical Engineer's Data Handbook, 5.2.7, turning of plastics, p. 176", "read"
    ),
    "DRILL-CHART": Source(
        "A drill speed chart: 3/8 in at 1500 and 5/8 in at 750 revolutions a minute in hardwood",
        "read",
    ),
    "DRILL-ADVICE": Source(
        "A woodworking magazine's forum: 2 1/4 in finished and a 3/8 in drill want 2 5/8 in and"
        " 1/16 in of trim at each end",
        "restated",
    ),
    "GRIT-TABLES": Source(
        "FEPA P (ISO 6344) and CAMI grit tables on two public reference pages", "read"
    ),
    "LACQUER-SHEET": Source(
        "Data sheets: lacquer 30 % solids at 50 µm, sealer 22 %; oil polyurethane 450 to 500 ft2"
        " a gallon",
        "read",
    ),
    "SHOP-REPORTS": Source("Reports of makers, one shop each", "restated"),
}
