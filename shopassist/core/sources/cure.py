"""Sources of the cure topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "FHP-1977": Source(
        "P. Freiesleben Hansen, E. J. Pedersen, Maturity computer for controlled curing and"
        " hardening of concrete, 1977: equivalent age by the Arrhenius law",
        "from memory",
    ),
    "ASTM-C1074": Source(
        "ASTM C1074, Estimating Concrete Strength by the Maturity Method: equivalent age at a"
        " specified temperature; scope read, formula from memory",
        "from memory",
    ),
    "FIB-MC2020": Source(
        "fib Model Code 2020, 14.6, temperature-adjusted age: test values of the code body's open"
        " library for structural design",
        "read",
    ),
    "NIST-8.1.5.1": Source(
        "NIST/SEMATECH e-Handbook of Statistical Methods, 8.1.5.1, Arrhenius acceleration",
        "from memory",
    ),
    "JEDEC-STYLE": Source(
        "Acceleration 55 to 125 °C at 0.7 eV, as usual in electronics", "from memory"
    ),
    "F1980-STYLE": Source("Ageing by a factor of 2 per 10 °C, as in ASTM F1980", "from memory"),
    "DOUBLING-RULE": Source(
        "Rule of thumb: 10 °C warmer halves the time; several suppliers and a kit-aircraft manual",
        "common practice",
    ),
    "GLOSSARY-HALVING": Source(
        "A hard-plastics maker's glossary: 7 days at room temperature, half of it 10 °C warmer",
        "restated",
    ),
    "MILLETT-STAMM-1946": Source(
        "M. A. Millett, A. J. Stamm, Treatment of wood with urea resin-forming systems, US Forest"
        " Products Laboratory 1946, summary: 20 min at 310 to 320 °F or 48 h at 220 °F",
        "read",
    ),
    "TWO-PAIR": Source(
        "Activation energy and its uncertainty from two times; worked by us", "own computation"
    ),
    "EPOXY-ENERGIES": Source(
        "Published activation energies of epoxies with amines, 44 to 67 kJ/mol, in seven abstracts"
        " of 1984 to 2021",
        "restated",
    ),
    "RUN-ON-SHEET": Source(
        "Temperature histories of our own, integrated twice by independent code", "own computation"
    ),
    "BOAT-FORUM-COLD": Source(
        "Boat builders' reports of cures in the cold; factors recomputed by doubling per 10 °C",
        "own computation",
    ),
    "STALL-ABSTRACTS": Source(
        "Isothermal transitions of thermosets (Gillham) and cold cures of structural epoxy"
        " (Moussa, Vassilopoulos, Keller 2012), abstracts: a cure below the glass transition"
        " stalls",
        "restated",
    ),
    "TI-B-103": Source(
        "Danish Technological Institute, TI-B 103, 1994: rate of hardening by temperature; form"
        " read, its usual constants of 33.5 kJ/mol and 1.47 kJ/mol a degree from memory",
        "read",
    ),
    "LEE-LOOS-SPRINGER": Source(
        "W. I. Lee, A. C. Loos, G. S. Springer, J. Composite Materials 16, 1982: cure of a hot"
        " prepreg resin; constants as public research code quotes them, never for casting resin",
        "restated",
    ),
    "HUBERT-2001": Source(
        "P. Hubert, A. Johnston, A. Poursartip, K. Nelson, 2001: cure of a hot prepreg resin; rate"
        " constants as public research code quotes them, its diffusion term from memory",
        "restated",
    ),
    "MEAN-KINETIC": Source(
        "Mean kinetic temperature as pharmacopoeias define it: steady, of the same mean rate",
        "from memory",
    ),
    "INITIATOR-HALF-LIFE": Source(
        "Half-lives of two radical initiators, AIBN and dibenzoyl peroxide, by their usual"
        " Arrhenius constants",
        "from memory",
    ),
    "STUDENT-T": Source(
        "Student's t for the prediction of one more value of a normal sample; handbook of"
        " statistics, table from memory",
        "from memory",
    ),
}
