"""What the record of a batch says, one fact at a time; None where nobody wrote it down."""

from collections.abc import Mapping
from typing import Protocol

from shopassist.core.batch import Batch, Cup
from shopassist.core.colour import Colourant
from shopassist.core.errors import ShopError
from shopassist.core.lathe import speed_band
from shopassist.core.mixing import deviation, weight_ratio
from shopassist.core.off_ratio import ON
from shopassist.core.pot.course import Course
from shopassist.core.pot.leak import DIVISIONS_NEEDED, LEAST_WAIT, LIMIT, SETTLE
from shopassist.core.quantities import Metre, PascalAbsolute, Ratio, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.core.wood_set import WoodSet
from shopassist.services.colouring import added_of, cap_of, colour_total
from shopassist.services.damp import humidity_at_pour, most_humid
from shopassist.services.loads import EARLY
from shopassist.services.pot_air import PAIR, Fall, with_warmth
from shopassist.services.said import said_of
from shopassist.services.turn_wood import faults_of
from shopassist.services.warmth import WARMER

DAMP = 0.85
"""Humid from here on where neither sheet nor family says less; coating guides."""
BANDS = ((0.02, "within 2 %"), (0.05, "within 5 %"), (0.10, "within 10 %"))
"""Words for how far off a cup was; ours."""
HALF_FULL = Ratio(0.5)
"""Wood that took less than this share of its ceiling drank too little; ours."""
ROUNDING = 1e-9


class Woodwork(Protocol):
    """What is asked of the sets of cores."""

    def state(self, batch_id: str) -> WoodSet:
        """What was reported of one set."""
        ...

    def filled(self, batch_id: str) -> Ratio | None:
        """Share of its ceiling that a finished set took; None where it was not weighed."""
        ...

    def woods_before(self, batch_id: str) -> tuple[str, ...] | None:
        """Woods that its bath had treated before it; None where the bath has no name."""
        ...


def mixed_cups(batch: Batch) -> list[Cup]:
    """Cups with both parts weighed."""
    return [cup for cup in batch.cups if "a" in cup.weighed and "b" in cup.weighed]


def sheet_ratio(sheet: ResinSheet) -> Ratio | None:
    """Grams of B for one of A, where the sheet lets it be known."""
    share = Ratio(sheet.part_b / sheet.part_a)
    if sheet.basis == "weight":
        return share
    if sheet.density_a is None or sheet.density_b is None:
        return None
    return weight_ratio(share, sheet.density_a, sheet.density_b)


def worst_cup(batch: Batch, sheet: ResinSheet | None) -> float | None:
    """Deviation of the cup that is furthest off."""
    ratio = sheet_ratio(sheet) if sheet is not None else None
    if ratio is None:
        return None
    found: list[float] = []
    for cup in mixed_cups(batch):
        try:
            found.append(deviation(cup.weighed["a"].mass, cup.weighed["b"].mass, ratio))
        except ShopError:
            return None
    return max(found, key=abs, default=None)


def off_ratio(batch: Batch, sheet: ResinSheet | None) -> float | None:
    """Worst deviation as a share of what the sheet allows."""
    worst = worst_cup(batch, sheet)
    if worst is None or sheet is None:
        return None
    return abs(worst) / (sheet.tolerance or ON)


def band(worst: float | None) -> str | None:
    """How far off, in words."""
    if worst is None:
        return None
    return next((words for limit, words in BANDS if abs(worst) <= limit), "more than 10 % off")


def under_minimum(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    """Whether it was once colder than the sheet's minimum."""
    if sheet is None or sheet.temp_lowest is None or not batch.warmth:
        return None
    return min(each.low for each in batch.warmth) < sheet.temp_lowest


def coldest(batch: Batch, sheet: ResinSheet | None) -> str | None:
    """The same in words."""
    under = under_minimum(batch, sheet)
    return either(under, "under the sheet's minimum", "above the sheet's minimum")


def witness_hard(batch: Batch) -> bool | None:
    """Hard once nail-hard was seen; soft while it was only looked at."""
    if not batch.seen:
        return None
    return "nail-hard" in batch.seen


def pressed_before_gel(batch: Batch) -> bool | None:
    """Whether air was on before the gel was seen."""
    gelled, pressed = batch.seen.get("gelled"), batch.at_pressure
    if gelled is None or pressed is None:
        return None
    return pressed < gelled


def warmed(batch: Batch) -> bool | None:
    """Whether it grew warmer between hardener and gel."""
    start, end = batch.first_contact, batch.seen.get("gelled")
    if start is None:
        return None
    found = [each for each in batch.warmth if each.at >= start and (end is None or each.at <= end)]
    if len(found) < 2:  # noqa: PLR2004 - a trend takes two
        return None
    return found[-1].middle - found[0].middle > WARMER


def hot_mass(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    """Whether a cup held more than the sheet allows."""
    cups = mixed_cups(batch)
    if sheet is None or sheet.mass_limit is None or not cups:
        return None
    return max(cup.weighed["a"].mass + cup.weighed["b"].mass for cup in cups) > sheet.mass_limit


def stabilised(wood: WoodSet) -> bool | None:
    """Through bath and bake, where anything of the wood is on record."""
    known = wood.weighed or wood.events
    return "bake_off" in wood.events if known else None


def core_reached(wood: WoodSet) -> bool | None:
    """Whether the core was reported hot in a bake."""
    return "core_hot" in wood.events if "bake_on" in wood.events else None


def humid(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    """Above what the resin's family stands, by the humidity that was written down."""
    read = humidity_at_pour(batch)
    if read is None:
        return None
    limit = most_humid(sheet) if sheet is not None else None
    return read > (limit[0] if limit is not None else DAMP)


def too_deep(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    """Whether it was poured deeper than the sheet allows."""
    depth = batch.entries.get("mix.pour_depth")
    if depth is None or depth.value is None or sheet is None or sheet.layer_limit is None:
        return None
    return depth.value > sheet.layer_limit


def either(fact: bool | None, yes: str, no: str) -> str | None:  # noqa: FBT001 - a fact
    """One fact as one of two words."""
    if fact is None:
        return None
    return yes if fact else no


# -- the cup ------------------------------------------------------------------------------------


def colour_over_cap(batch: Batch, colours: Mapping[str, Colourant]) -> bool | None:
    """More colour than the strictest cap of what went in."""
    added = added_of(said_of(batch, "mix"), colours)
    on_scale = sum(c.weighed["colour"].mass for c in batch.cups if "colour" in c.weighed)
    used = on_scale or colour_total(added)
    mix = sum(cup.weighed["a"].mass + cup.weighed["b"].mass for cup in mixed_cups(batch))
    if not used or not mix:
        return None
    return used > mix * cap_of(added) * (1 + ROUNDING)


def scraped(batch: Batch) -> bool | None:
    """Whether the cup was scraped out into the mould."""
    return _word(batch, "mix.scraped", "scraped")


def _word(batch: Batch, name: str, word: str) -> bool | None:
    entry = batch.entries.get(name)
    return None if entry is None else entry.text == word


# -- the pot ------------------------------------------------------------------------------------


def vented_early(batch: Batch, hold: UtcSecond | None) -> bool | None:
    """Vented before the end of its hold, as it was told then or as it is known now."""
    if batch.at_pressure is None:
        return None
    if EARLY in batch.notes:
        return True
    if batch.left_pot is None or hold is None:
        return None
    return batch.left_pot < hold


def pot_leaked(
    batch: Batch, courses: tuple[Course, ...], ambient: PascalAbsolute, division: float
) -> bool | None:
    """Whether its pot lost air that the cold does not explain, by the rule of the pot's list."""
    run = next((each for each in courses if _held(each, batch.at_pressure)), None)
    settled = 0.0 if run is None or run.filled is None else run.filled + SETTLE
    pairs = [pair for pair in with_warmth(run) if pair[0].at >= settled]
    if len(pairs) < PAIR:
        return None
    fall = Fall(*pairs[0], *pairs[-1], ambient)
    passed = fall.last.at - fall.first.at
    if passed < max(LEAST_WAIT, DIVISIONS_NEEDED * division / LIMIT):
        return None
    return fall.leak / passed > LIMIT


def _held(run: Course, pressed: UtcSecond | None) -> bool:
    """Whether a run had its air at that moment: a pot of another shop may bear the same name."""
    if pressed is None or run.began > pressed:
        return False
    return run.ended is None or pressed <= run.ended


# -- wood -----------------------------------------------------------------------------------------


def low_uptake(filled: Ratio | None) -> bool | None:
    """Less than half of what it could take."""
    return None if filled is None else filled < HALF_FULL


def bath_shared(woods: tuple[str, ...] | None) -> bool | None:
    """Whether its bath had treated other sets before."""
    return None if woods is None else bool(woods)


# -- the lathe ------------------------------------------------------------------------------------


def pecked(batch: Batch) -> bool | None:
    """Whether it was drilled in short pecks with time to cool."""
    return _word(batch, "turn.drilled", "pecks")


def too_fast(batch: Batch) -> bool | None:
    """Whether the lathe's typed speed lies above the band of this diameter."""
    said, blank = said_of(batch, "turn"), said_of(batch, "blank")
    across, knob = said.get("diameter") or blank.get("mould_diameter"), said.get("knob")
    if not across or knob is None:
        return None
    band = speed_band(Metre(across), faults_of(said.word("faults")))
    return knob > band.high * (1 + ROUNDING)
