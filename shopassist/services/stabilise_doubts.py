"""Weights and hours of a set that do not go together: told at the step where they can be mended."""

from shopassist.core.drying import REGAIN_ALLOWED, Dryness
from shopassist.core.messages import Amount, say
from shopassist.core.oven_time import hot_time
from shopassist.core.quantities import Kilogram, Metre, Second, UtcSecond
from shopassist.core.stabilising import Terms, dry_mass, dryness
from shopassist.services.stabilise_facts import Findings, WoodFacts, sides_of

AS_FAST = 0.95
"""A loss this near to the one before has not begun to end; ours."""
GUIDE_TIME, GUIDE_THICK = Second(24 * 3600.0), Metre(0.038)
"""A day in the oven for an inch and a half: practice of guides, no authority."""
LOG_NEEDED = 3


def doubts(facts: WoodFacts, terms: Terms, found: Findings) -> None:
    """Everything about the weights of a set that wants a second look."""
    judged = dryness(facts.state, terms, facts.now)
    _wet(facts, found)
    _steady(facts, terms, judged, found)
    _thick(facts, terms, judged, found)
    _before_bath(facts, terms, found)
    _after_bath(facts, found)


def _wet(facts: WoodFacts, found: Findings) -> None:
    wet, oven = facts.state.last("wet"), facts.state.last("oven")
    if wet is None or oven is None or oven.mass <= wet.mass * (1 + REGAIN_ALLOWED):
        return
    for step in ("dry", "cool"):
        found.note(step, say("Heavier than the wet wood was: one of the two weights, or what lay on"
                             " the scale, is wrong."))  # fmt: skip


def _hot_at(facts: WoodFacts, terms: Terms, at: UtcSecond) -> float:
    """Hours of heat up to an instant, by the clock where no run of the oven is known, [s]."""
    runs = facts.state.dry_runs
    return float(hot_time(runs, terms.cut_off, at)) if runs else float(at)


def _steady(facts: WoodFacts, terms: Terms, judged: Dryness, found: Findings) -> None:
    """A curve that does not flatten."""
    log = [each for each in facts.state.log() if each.when == "oven"][-LOG_NEEDED:]
    if len(log) < LOG_NEEDED or judged.dry:
        return
    (one, two, three), hours = log, [_hot_at(facts, terms, each.at) for each in log]
    if not hours[0] < hours[1] < hours[2]:
        return
    before = (one.mass - two.mass) / (hours[1] - hours[0])
    last = (two.mass - three.mass) / (hours[2] - hours[1])
    if before > 0 and last >= AS_FAST * before:
        found.note("dry", say("It loses as fast as before: far from dry. Thick or wet wood takes"
                              " days; an oven too hot takes the wood itself: read its"
                              " thermometer."))  # fmt: skip


def _thick(facts: WoodFacts, terms: Terms, judged: Dryness, found: Findings) -> None:
    """Thick wood loses so slowly that a rule for small pieces calls it dry too early."""
    across, length = facts.said.get("diameter"), facts.said.get("length")
    if across is None or not facts.state.dry_runs or not judged.dry:
        return
    thick = min((across, *sides_of(facts.said), *(() if length is None else (length,))))
    guide = Second(GUIDE_TIME * (thick / GUIDE_THICK) ** 2)
    if thick > GUIDE_THICK and _hot_at(facts, terms, facts.state.log()[-1].at) < guide:
        found.note("dry", say("Thick wood may only be slow: guides give {day} for {thin}, by the"
                              " square of the thickness {time} here. One more weighing a day later"
                              " tells.", day=Amount(GUIDE_TIME, "Second"),
                              thin=Amount(GUIDE_THICK, "Metre", 0),
                              time=Amount(guide, "Second")))  # fmt: skip


def _before_bath(facts: WoodFacts, terms: Terms, found: Findings) -> None:
    oven, bath = facts.state.last("oven"), facts.state.last("bath")
    if oven is None or bath is None or bath.at < oven.at:
        return
    lost = Kilogram(oven.mass - bath.mass)
    if lost > max(REGAIN_ALLOWED * oven.mass, 2 * terms.step):
        found.note("cover", say("Lighter by {g} than out of the oven: a piece or a chip is missing,"
                                " the scale was another, or it was not dry. The uptake counts from"
                                " this weight.", g=Amount(lost, "Kilogram")))  # fmt: skip


def _after_bath(facts: WoodFacts, found: Findings) -> None:
    state, dry = facts.state, dry_mass(facts.state)
    soaked, baked = state.last("soaked"), state.last("baked")
    if dry is not None and soaked is not None and soaked.mass < dry:
        found.note("wrap", say("Lighter than before the bath: a piece is missing, or a weight is"
                               " wrong."))  # fmt: skip
    if soaked is None or baked is None or baked.mass <= soaked.mass * (1 + REGAIN_ALLOWED):
        return
    for step in ("after", "done"):
        found.note(step, say("Heavier than out of the bath, and an oven adds nothing: foil, another"
                             " scale, or one piece too many."))  # fmt: skip
