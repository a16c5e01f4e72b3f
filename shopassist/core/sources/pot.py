"""Sources of the pot topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "PCC-1": Source(
        "ASME PCC-1, Guidelines for pressure boundary bolted flange joint assembly, cross pattern"
        " of Appendix F, as quoted in trade articles; number lists from memory",
        "restated",
    ),
    "CRACK-LID": Source(
        "Teaching note of process chemistry on opening pressure vessels: a zero gauge is no"
        " absolute proof; slacken the lid screws on the far side first, without removing them,"
        " then lift the lid slightly so that trapped pressure can leave",
        "read",
    ),
    "LOCKOUT": Source(
        "29 CFR 1910.147 (d)(1)-(6), control of hazardous energy: isolate, relieve stored energy,"
        " verify, and keep verifying while it can build up again",
        "restated",
    ),
    "UG-125": Source(
        "ASME BPVC Section VIII Division 1, UG-125 as reprinted in a US state code: a regulator is"
        " no protection against overpressure; no stop valve before a relief device",
        "restated",
    ),
    "UG-136": Source(
        "ASME BPVC Section VIII Division 1, UG-136(a)(3): lifting device usable at 75 % of the set"
        " pressure",
        "from memory",
    ),
    "PRUDENT": Source(
        "Prudent Practices in the Laboratory, National Academies, 1995, pp. 125-127: leaks are put"
        " right only after depressurising; disconnect or leave vented",
        "read",
    ),
}
