"""Is the wood dry? Judged by weighings, never by a meter under its floor."""

from collections.abc import Sequence

from shopassist.core.bounds import need_positive
from shopassist.core.drying_end import end_mass
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.moisture import moisture
from shopassist.core.quantities import Kelvin, KelvinDelta, Kilogram, Ratio, Second, UtcSecond

HOUR = 3600.0
OVEN = Kelvin(273.15 + 103.0)
OVEN_BAND = KelvinDelta(2.0)
"""The standards' oven: 103 °C, 2 K either way."""
REGAIN_ALLOWED = Ratio(0.003)
"""Gain since the oven above which the piece goes back; ours, from a shop's report."""
NEEDED = 3
"""Weighings that an end mass is told from."""
EVEN = 0.1
"""Intervals that differ by less than this share count as equal; ours."""
BATH_LIMIT = Kelvin(273.15 + 30.0)
"""Wood warmer than this starts to set a heat-cured bath; ours."""


@frozen
class Rule:
    """When two weighings count as the same; the names are those of the standards."""

    key: str
    name: str
    interval: Second
    """Least time between the two weighings."""
    share: Ratio | None = None
    """Greatest loss as a share of the mass."""
    steps: Ratio | None = None
    """Greatest loss in steps of the scale."""
    grams: Kilogram | None = None
    """Greatest loss as a mass."""
    source: str = ""


RULES = (
    Rule("en", "EN 13183-1: 0.1 % in 2 h", Second(2 * HOUR), share=Ratio(0.001), source="EN13183"),
    Rule("astm", "ASTM D4442, A: twice the scale's step in 3 h", Second(3 * HOUR), steps=Ratio(2.0),
         source="ASTM-D4442"),
    Rule("iso", "ISO 13061-1: 0.5 % in 6 h", Second(6 * HOUR), share=Ratio(0.005),
         source="ISO13061"),
    Rule("is", "IS 1708-1: 0.002 g, small cubes", Second(2 * HOUR), grams=Kilogram(2e-6),
         source="IS1708"),
    Rule("shop", "0.1 % in 4 h", Second(4 * HOUR), share=Ratio(0.001), source="OWN"),
)  # fmt: skip
"""Constant-weight rules, first the strictest that a shop scale can usually resolve."""


def rule(key: str) -> Rule:
    """Give the rule of one key."""
    for each in RULES:
        if each.key == key:
            return each
    raise out_of_range("rule", "There is no constant-weight rule of that name.")


@frozen
class Weighing:
    """One entry of the weigh log."""

    at: UtcSecond
    mass: Kilogram


@frozen
class Dryness:
    """What a weigh log says."""

    text: Text
    loss: Kilogram | None = None
    """Between the two weighings that were judged; negative: it gained."""
    allowed: Kilogram | None = None
    next_at: UtcSecond | None = None
    """When the next weighing can count."""
    end_mass: Kilogram | None = None
    """Where the log is heading, if it can be told."""
    dry: bool = False


def allowed_loss(rule: Rule, mass: Kilogram, step: Kilogram) -> Kilogram:
    r"""Greatest loss between two weighings that still counts as constant weight.

    .. math:: \Delta m = \max(s\,m,\; n\,d,\; g)

    Plain: the rule's share × mass, its scale steps × step, or its grams

    Parameters
    ----------
    rule
        The constant-weight rule.
    mass
        Mass at the earlier weighing, [kg].
    step
        Step of the scale, [kg].

    Returns
    -------
    Kilogram
        Greatest loss, [kg].

    Raises
    ------
    OutOfRangeError
        If mass or step is zero or negative.

    Notes
    -----
    A scale that cannot show this loss cannot prove dryness by this rule.

    Sources
    -------
    EN13183, ASTM-D4442, ISO13061, IS1708

    Examples
    --------
    >>> round(allowed_loss(RULES[0], Kilogram(0.365), Kilogram(0.0001)) * 1e3, 3)
    0.365
    """
    need_positive(mass=mass, step=step)
    return Kilogram(max((rule.share or 0.0) * mass, (rule.steps or 0.0) * step, rule.grams or 0.0))


def can_resolve(rule: Rule, mass: Kilogram, step: Kilogram) -> bool:
    """True where the scale shows a loss as small as the rule allows."""
    return step <= allowed_loss(rule, mass, step) * (1 + 1e-9)


def best_rule(mass: Kilogram, step: Kilogram) -> Rule:
    """Give the first rule that this scale can resolve on a piece of this mass."""
    return next(each for each in RULES if can_resolve(each, mass, step))


def resolution(dry: Kilogram, step: Kilogram) -> Ratio:
    r"""Moisture that the scale cannot tell from none.

    .. math:: \Delta M = \frac{d}{m_0}

    Plain: step of the scale ÷ oven-dry mass

    Parameters
    ----------
    dry
        Oven-dry mass, [kg].
    step
        Step of the scale, [kg].

    Returns
    -------
    Ratio
        Uncertainty of the moisture, [1].

    Raises
    ------
    OutOfRangeError
        If a mass is zero or negative.

    Notes
    -----
    Half a step at each of two weighings, taken together.

    Sources
    -------
    GEOMETRY

    Examples
    --------
    >>> round(resolution(Kilogram(0.365), Kilogram(0.001)), 4)
    0.0027
    """
    need_positive(dry=dry, step=step)
    return Ratio(step / dry)


def judge(log: Sequence[Weighing], rule: Rule, step: Kilogram) -> Dryness:
    """Tell from the weigh log whether the piece is at constant weight.

    The last weighing is held against the latest one that lies the rule's interval before it;
    a gain is never dryness.
    """
    if not log:
        return Dryness(say("Weigh it before the oven, and again when it has been hot."))
    last = log[-1]
    next_at = UtcSecond(last.at + rule.interval)
    allowed = allowed_loss(rule, last.mass, step)
    if not can_resolve(rule, last.mass, step):
        text = say(
            "A scale in steps of {step} cannot show the {loss} this rule allows: take a finer one.",
            step=Amount(step, "Kilogram"), loss=Amount(allowed, "Kilogram"),
        )  # fmt: skip
        return Dryness(text, allowed=allowed, next_at=next_at)
    before = _before(log, rule)
    if before is None:
        text = say("One more weighing, {time} or more after this one.",
                   time=Amount(rule.interval, "Second"))  # fmt: skip
        return Dryness(text, allowed=allowed, next_at=next_at, end_mass=_heading(log))
    loss = Kilogram(before.mass - last.mass)
    allowed = allowed_loss(rule, before.mass, step)
    if loss < -allowed:
        return Dryness(say("It gained mass: it took up water. Back into the oven."),
                       loss, allowed, next_at)  # fmt: skip
    if loss > allowed:
        return Dryness(say("Still losing water. Leave it in the oven."),
                       loss, allowed, next_at, _heading(log))  # fmt: skip
    return Dryness(say("Constant weight: dry by this rule."), loss, allowed, dry=True)


def _before(log: Sequence[Weighing], rule: Rule) -> Weighing | None:
    """Latest weighing that lies far enough back to be compared with the last one."""
    last = log[-1]
    far = [each for each in log[:-1] if last.at - each.at >= rule.interval]
    return far[-1] if far else None


def _heading(log: Sequence[Weighing]) -> Kilogram | None:
    """End mass by the last three weighings where they are equally spaced and steady."""
    if len(log) < NEEDED:
        return None
    one, two, three = log[-NEEDED:]
    first, second = two.at - one.at, three.at - two.at
    if first <= 0 or abs(second - first) > EVEN * first:
        return None
    if not 0 < two.mass - three.mass < one.mass - two.mass:
        return None
    return end_mass(one.mass, two.mass, three.mass)


def must_dry_again(dry: Kilogram, now: Kilogram) -> bool:
    """True when a dried piece has taken up too much from the air since the oven."""
    need_positive(dry=dry, now=now)
    return now / dry - 1 > REGAIN_ALLOWED


@frozen
class MeterReading:
    """What a moisture meter can say: at its floor it only says *this or less*."""

    moisture: Ratio
    at_floor: bool

    @property
    def text(self) -> Text:
        """The reading as it may be written down."""
        shown = Amount(self.moisture, "Ratio", 1, "%")
        return say("{m} or less (meter floor)", m=shown) if self.at_floor else say("{m}", m=shown)


def meter_reading(shown: Ratio, floor: Ratio) -> MeterReading:
    """Keep a meter's reading for what it is worth."""
    return MeterReading(Ratio(max(shown, floor)), shown <= floor)


def meter_bias(shown: Ratio, mass: Kilogram, dry: Kilogram) -> Ratio:
    """Meter minus scale: a warning about this meter, never a correction."""
    return Ratio(shown - moisture(mass, dry))


def windings(total: Second, cut_off: Second) -> int:
    """How often an appliance that switches itself off must be started for a long run."""
    need_positive(total=total, cut_off=cut_off)
    return max(1, -int(-total // cut_off))
