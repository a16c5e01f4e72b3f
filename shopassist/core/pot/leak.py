"""The leak check: what temperature explains, what is left, and when it can be told."""

from enum import StrEnum

from shopassist.core.frozen import frozen
from shopassist.core.gas import sealed_gauge
from shopassist.core.leak import time_to_fall
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.evidence import gauge_of
from shopassist.core.pot.plate import Gauge
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.words import Item
from shopassist.core.quantities import Kelvin, PascalAbsolute, PascalDelta, PascalGauge, Second

LIMIT = 6894.757 / 600.0
"""Leak allowance: 1 psi in 10 min, [Pa/s]; own choice, no standard found."""
LEAST_WAIT = 600.0
SETTLE = 600.0
DIVISIONS_NEEDED = 2.0


class Verdict(StrEnum):
    """What a leak check says."""

    CANNOT_TELL = "cannot tell yet"
    WITHIN = "within"
    OVER = "over"


@frozen
class Leak:
    """The outcome of a leak check."""

    verdict: Verdict
    unexplained: PascalDelta
    """Fall that the temperature does not explain."""
    passed: float
    """Between the two readings, [s]."""
    wait_left: float
    """Until the allowance is two divisions of this gauge, [s]."""


def should_read(first: Evidence, temperature: float, ambient: PascalAbsolute) -> PascalGauge | None:
    """What a sealed pot's gauge should read at another temperature; None for odd readings."""
    if first.number is None or first.temperature is None:
        return None
    before, gauge = Kelvin(first.temperature), PascalGauge(first.number)
    if min(before, temperature, gauge + ambient) <= 0:
        return None
    return sealed_gauge(gauge, before, Kelvin(temperature), ambient)


def judge(state: PotState) -> Leak | None:
    """Judge the leak check on record; None while it is not complete."""
    first, second, gauge = state.find(Item.LEAK_START), state.find(Item.LEAK_END), gauge_of(state)
    if first is None or second is None or gauge is None or second.temperature is None:
        return None
    expected = should_read(first, second.temperature, state.ambient)
    if expected is None or second.number is None:
        return None
    passed = second.age - first.age
    needed = max(LEAST_WAIT, DIVISIONS_NEEDED * gauge.division / LIMIT)
    unexplained = PascalDelta(expected - second.number)
    if passed < needed:
        return Leak(Verdict.CANNOT_TELL, unexplained, passed, needed - passed)
    verdict = Verdict.OVER if unexplained / passed > LIMIT else Verdict.WITHIN
    return Leak(verdict, unexplained, passed, 0.0)


def has_risen(gauge: Gauge | None, unexplained: float) -> bool:
    """Whether a gauge rose by more than a division; ``unexplained``: its fall past warmth, [Pa]."""
    return gauge is not None and -unexplained > gauge.division


def leak_notes(state: PotState, now: Now) -> tuple[Text, ...]:
    """What the Hold card says about the leak."""
    return (*_today_note(state), *_verdict_notes(state, now))


def _today_note(state: PotState) -> tuple[Text, ...]:
    first, temperature = state.find(Item.LEAK_START), state.find(Item.TEMPERATURE)
    if first is None or temperature is None or temperature.number is None:
        return ()
    expected = should_read(first, temperature.number, state.ambient)
    if expected is None:
        return ()
    return (
        say(
            "At this temperature it should read {expected}.",
            expected=Amount(expected, "PascalGauge"),
        ),
    )


def _verdict_notes(state: PotState, now: Now) -> tuple[Text, ...]:
    leak = judge(state)
    if leak is None:
        return _settling(state, now)
    if has_risen(gauge_of(state), leak.unexplained):
        risen = Amount(-leak.unexplained, "PascalDelta")
        return (say(
            "Risen {risen} more than warmth explains: air comes in past inlet or regulator, or it"
            " is warmer inside than the thermometer. Supply off, hose off, watch the gauge.",
            risen=risen,
        ),)  # fmt: skip
    if leak.verdict is Verdict.CANNOT_TELL:
        wait = Amount(leak.wait_left, "Second")
        return (say("Leak: cannot tell yet; wait {wait} more.", wait=wait),)
    fallen = Amount(leak.unexplained, "PascalDelta")
    if leak.verdict is Verdict.WITHIN:
        return (say("Leak within the allowance: {fallen} unexplained.", fallen=fallen),)
    return (
        say("Leak over the allowance: {fallen} unexplained.", fallen=fallen),
        *_forecast(state, leak),
        say("A leak spoils a casting; it is no reason to hurry a lid."),
        say("Find it in a dry run, air alone, before the next resin is mixed."),
    )


def _forecast(state: PotState, leak: Leak) -> tuple[Text, ...]:
    second, hold = state.find(Item.LEAK_END), PascalGauge(state.hold or 0.0)
    if state.value(Item.SUPPLY) != "isolated":
        return (say("The supply hides it and may run all night: do not leave the pot like this."),)
    crossing = None
    if hold and second is not None and second.number is not None and second.number > 0:
        after = PascalGauge(second.number)
        before, between = PascalGauge(after + leak.unexplained), Second(leak.passed)
        crossing = time_to_fall(before, after, between, hold)
    if crossing is None:
        return ()
    return (
        say(
            "Isolated: below {hold} between {earliest} and {latest} after that reading.",
            hold=Amount(hold, "PascalGauge"), earliest=Amount(crossing.earliest, "Second"),
            latest=Amount(crossing.latest, "Second"),
        ),
    )  # fmt: skip


def _settling(state: PotState, now: Now) -> tuple[Text, ...]:
    filled = state.find(Item.AT_PRESSURE)
    if filled is None or now.age - filled.age >= SETTLE:
        return ()
    wait = Amount(SETTLE - (now.age - filled.age), "Second")
    return (say("Fresh air cools: let it settle {wait} before a leak check.", wait=wait),)
