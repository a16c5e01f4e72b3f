"""Which events each belief lists beside its present item; everything else is refused."""

from shopassist.core.pot.evidence import Path, path
from shopassist.core.pot.state import Evidence, PotState
from shopassist.core.pot.words import Act, Belief, Item, Run

_TOWARD_CAUTION = frozenset({Act.AIR_IN, Act.STOP})
_AIR_OUT = frozenset({Act.LET_DOWN, Act.VENT_NOW})
_TROUBLE = frozenset({Act.LOST_TRACK, Act.OPENED, Act.RELIEF_LIFTED, Act.TOO_HOT, Act.DOUBT})
_CLOSED_POT = _TOWARD_CAUTION | _AIR_OUT | _TROUBLE | {Act.SUPPLY_LOST}

ACTS: dict[Belief, frozenset[Act]] = {
    Belief.UNKNOWN: _TOWARD_CAUTION | _AIR_OUT | _TROUBLE,
    Belief.OPEN: _TOWARD_CAUTION,
    Belief.CLOSED: _CLOSED_POT | {Act.AIR_ON},
    Belief.PRESSURISED: _CLOSED_POT,
    Belief.LETTING_DOWN: _CLOSED_POT | {Act.CONFIRM},
    Belief.PROVING: _CLOSED_POT | {Act.CONFIRM},
    Belief.CLEAR: _CLOSED_POT,
    Belief.CRACKED: _CLOSED_POT,
    Belief.SUSPECT: _TOWARD_CAUTION | _AIR_OUT | _TROUBLE,
}
"""The flat table of presses."""

_HOLD = (Item.READING, Item.TEMPERATURE, Item.LEAK_START, Item.LEAK_END, Item.SUPPLY)
_LATE = (Item.READING, Item.SUPPLY)

FREE: dict[Belief, tuple[Item, ...]] = {
    Belief.UNKNOWN: (Item.READING,),
    Belief.OPEN: (),
    Belief.CLOSED: (Item.READING,),
    Belief.PRESSURISED: _HOLD,
    Belief.LETTING_DOWN: (*_LATE, Item.STAY),
    Belief.PROVING: _LATE,
    Belief.CLEAR: _LATE,
    Belief.CRACKED: _LATE,
    Belief.SUSPECT: (Item.READING, Item.LID_OFF_NOW),
}
"""The flat table of what may be reported although it is not asked for."""


_TAKEN_BACK = frozenset(
    {Belief.PRESSURISED, Belief.LETTING_DOWN, Belief.PROVING, Belief.CLEAR, Belief.CRACKED}
)
"""Where an answer may be taken back: there what rests on it is voided, and nothing gets clearer."""


def wrong_answer(state: PotState) -> Evidence | None:
    """The last answer, where it still counts and may be taken back."""
    said = state.reported
    return said if state.belief in _TAKEN_BACK and said in state.evidence else None


def free_items(state: PotState) -> tuple[Item, ...]:
    """What may be reported now beside the present item."""
    found = [item for item in FREE[state.belief] if item is not Item.STAY or state.may_stay]
    if state.filling:
        found = [item for item in found if item is not Item.SUPPLY]
    if state.belief is Belief.PRESSURISED and state.run is Run.TEST:
        found.append(Item.LIVE_LIFT)
    if state.belief is Belief.PROVING and state.dwell_done:
        found.append(Item.SLACKEN)
    late_lid = state.belief in (Belief.PROVING, Belief.CLEAR)
    if late_lid and state.value(Item.ROCK) == "free":
        found.append(Item.LID_OFF)
    if state.belief is Belief.LETTING_DOWN and path(state) is Path.STUCK:
        found.remove(Item.READING)
    return tuple(found)
