"""Sources of the units topic."""

from shopassist.core.sources.citation import Source

SOURCES: dict[str, Source] = {
    "NIST-SP811": Source(
        "A. Thompson, B. N. Taylor, Guide for the Use of the International System of Units, "
        "NIST Special Publication 811, 2008 edition, appendix B.8 (factors) and B.7 (rounding)",
        "from memory",
    ),
    "YARD-POUND-1959": Source(
        "International yard and pound agreement of 1 July 1959: 1 yd = 0.9144 m and "
        "1 lb = 0.45359237 kg exactly",
        "from memory",
    ),
    "UK-WMA-1985": Source(
        "Weights and Measures Act 1985 (UK), schedule 1: 1 gal = 4.54609 dm3", "from memory"
    ),
    "US-GALLON": Source(
        "NIST Handbook 44, appendix C: 1 US gal = 231 cubic inches, 128 US fl oz", "from memory"
    ),
    "CIVIL-DAYS": Source(
        "Proleptic Gregorian calendar, ISO 8601: leap years every 4, not 100, but 400 years",
        "from memory",
    ),
}
