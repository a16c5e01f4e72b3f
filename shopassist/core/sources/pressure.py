"""Sources of the pressure topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "US-STD-ATM-1976": Source(
        "NOAA, NASA, USAF, U.S. Standard Atmosphere, 1976: constants of the lowest layer read in"
        " restatements; Table I from memory, reproduced by two open libraries",
        "restated",
    ),
    "PRESSURE-TERMS": Source(
        "Gauge pressure counts from the air around, absolute from nothing, vacuum downward from"
        " the air: the trade's terms",
        "common practice",
    ),
    "GAY-LUSSAC": Source("Gay-Lussac's law for a fixed volume of ideal gas", "from memory"),
    "BOYLE": Source("Boyle's and Mariotte's law at constant temperature", "from memory"),
    "TYRE-CASE": Source(
        "A motoring question: 38 psi set warm reads 35 psi at 5 °C with no air lost", "restated"
    ),
    "LEAK-BY-DECAY": Source(
        "Leak by pressure decay, Q = V times fall over time, after temperature: several leak-test"
        " texts",
        "restated",
    ),
    "DECAY-FORECAST": Source(
        "Exponential and straight forecasts of a falling gauge, worked by us", "own computation"
    ),
    "GAS-DYNAMICS": Source(
        "Flow of air through an orifice, choked at 0.528; an open reference text on gas dynamics",
        "restated",
    ),
    "BSL-15.5": Source(
        "Bird, Stewart, Lightfoot, Transport Phenomena, chapter 15: free expansion of a tank of"
        " air; statement read, answer recomputed",
        "restated",
    ),
    "BLOWDOWN-NOTES": Source(
        "Published inputs of a tank blowdown, 0.85 m3 from 600 to 100 kPa through 10 mm; times"
        " recomputed",
        "restated",
    ),
    "FORCE-AREA": Source("Force is pressure times area; any text on statics", "from memory"),
    "PERREIRA-1980": Source(
        "D. C. Perreira, Ensuring Safe Operation of Vessels with Quick-Opening Closures, National"
        " Board Bulletin, 1980: 8 ft at 150 psi is just over one million pounds",
        "read",
    ),
    "CROWL-2003": Source(
        "D. A. Crowl, Understanding Explosions, AIChE 2003, appendix B: equations B-1 (Brode), B-2"
        " (isentropic), B-3",
        "read",
    ),
    "PCC-2-2008": Source(
        "ASME PCC-2-2008, article 5.1, appendix II: stored energy of a pneumatic test", "read"
    ),
    "PSSR-2000": Source(
        "Pressure Systems Safety Regulations 2000 (SI 2000/128), 250 bar litres: restated by an"
        " inspection body",
        "restated",
    ),
    "SPVD-2014": Source("Directive 2014/29/EU: 50 bar litres; the limit as restated", "restated"),
    "UG-125": Source(
        "ASME BPVC VIII-1, UG-125(c): pressure may rise by 10 % or 3 psi; excerpts", "read"
    ),
    "UG-134": Source(
        "ASME BPVC VIII-1 (2015), UG-134(d)(1): set pressure tolerance 2 psi up to 70 psi, 3 %"
        " above; page read",
        "read",
    ),
    "MASS-BALANCE": Source(
        "Mass and energy balance of ideal air in a rigid vessel", "own computation"
    ),
    "AIR-TABLE-PARITY": Source(
        "Recomputed with independent open libraries for air and the atmosphere", "own computation"
    ),
}
