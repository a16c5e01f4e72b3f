"""What to think of a cup that is off its ratio, and what may still be done."""

from typing import Literal

from shopassist.core.errors import RefusedError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.mixing import deviation, hardener_for, resin_for
from shopassist.core.quantities import Kilogram, Ratio

Band = Literal["on", "near", "off", "far off"]
BANDS: tuple[Band, ...] = ("on", "near", "off", "far off")

ON = Ratio(0.02)
"""Up to here a cup counts as on its ratio where the sheet gives no tolerance; ours."""
NEAR = Ratio(0.05)
"""Up to here it counts as near; ours."""
NEEDS_REASON = Ratio(0.10)
"""From here a cure starts only with a typed reason; ours."""
FUZZ = 1e-9


@frozen
class Verdict:
    """How a cup stands to its ratio."""

    deviation: Ratio
    """Positive: too much B."""
    band: Band
    on_limit: Ratio
    """Share up to which it counts as on."""
    off_limit: Ratio
    """Share above which it counts as off."""
    by_sheet: bool
    """The limits are the sheet's own."""

    @property
    def needs_reason(self) -> bool:
        """True where a cure may not start without a typed reason."""
        return self.band == "far off"


def judge(mass_a: Kilogram, mass_b: Kilogram, ratio: Ratio, tolerance: Ratio | None) -> Verdict:
    """Say how far off a cup is, against the sheet's tolerance or our own bands."""
    off = deviation(mass_a, mass_b, ratio)
    on_limit, off_limit = (ON, NEAR) if tolerance is None else (tolerance, tolerance)
    reason = max(NEEDS_REASON, off_limit)
    size = abs(off)
    band: Band = "on"
    if size > reason + FUZZ or (size >= reason - FUZZ and reason > off_limit):
        band = "far off"
    elif size > off_limit + FUZZ:
        band = "off"
    elif size > on_limit + FUZZ:
        band = "near"
    return Verdict(off, band, on_limit, off_limit, tolerance is not None)


@frozen
class Rescue:
    """The one remedy: add what is short, before it reacts."""

    part: Literal["a", "b"]
    mass: Kilogram
    """To add of that part."""
    total: Kilogram
    """Of A and B afterwards: hold it against cup, mould and the most in one cup."""
    words: tuple[Text, ...]


def rescue(mass_a: Kilogram, mass_b: Kilogram, ratio: Ratio, *, reacting: bool) -> Rescue | None:
    """What to add so that the ratio is right again; None where nothing is short."""
    off = deviation(mass_a, mass_b, ratio)
    if abs(off) <= FUZZ:
        return None
    if reacting:
        raise RefusedError(
            "It is reacting already: nothing more may go in.",
            "What sets later never becomes part of what has set. Log the cup as off its ratio.",
            "mix.rescue",
        )
    part: Literal["a", "b"] = "b" if off < 0 else "a"
    wanted = hardener_for(mass_a, ratio) if part == "b" else resin_for(mass_b, ratio)
    mass = Kilogram(wanted - (mass_b if part == "b" else mass_a))
    total = Kilogram(mass_a + mass_b + mass)
    return Rescue(part, mass, total, _advice(part, mass))


def _advice(part: Literal["a", "b"], mass: Kilogram) -> tuple[Text, ...]:
    return (
        say("Add {mass} of {part}.", mass=Amount(mass, "Kilogram"), part=part.upper()),
        say("Stirring longer does not mend a ratio."),
        say("Speed comes from warmth or another hardener, not from the ratio."),
    )


def serves(mass_b: Kilogram, mass_a: Kilogram, ratio: Ratio) -> tuple[Kilogram, Kilogram]:
    """Resin that the hardener in the cup serves, and resin in it that is too much."""
    served = min(resin_for(mass_b, ratio), mass_a)
    return Kilogram(served), Kilogram(mass_a - served)
