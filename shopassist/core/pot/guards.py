"""Why an event is refused: a flat tuple of named guards, each one ``if``."""

from collections.abc import Callable

from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.events import Answer, Correction, Event, Note, PlateSet, Press, Typed
from shopassist.core.pot.evidence import (
    EDGE,
    fall_wait_left,
    gauge_of,
    lift_wanted,
    openings_left,
    ready_in_date,
    signs_counted,
    signs_left,
)
from shopassist.core.pot.listed import ACTS, free_items
from shopassist.core.pot.moves import in_band
from shopassist.core.pot.plate import blocks, working_limit
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.steps import hole_to_see, present
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Item, Run

Refuse = Callable[[PotState, Event, Now], Text | None]


@frozen
class Guard:
    """One reason to refuse."""

    name: str
    refuse: Refuse
    on: tuple[type[Event], ...]
    """The kinds of events that it looks at."""


def _item(event: Event) -> Item | None:
    return event.item if isinstance(event, Answer | Typed) else None


def _listed(state: PotState, event: Event, _now: Now) -> Text | None:
    if isinstance(event, Press) and event.act not in ACTS[state.belief]:
        return say("This is not on the list in this state.")
    return None


def _in_turn(state: PotState, event: Event, now: Now) -> Text | None:
    item = _item(event)
    if item is None or item in (present(state, now), *free_items(state)):
        return None
    return say("An earlier item comes first.")


def _confirm_last(state: PotState, event: Event, now: Now) -> Text | None:
    wanted = event == Press(Act.CONFIRM) and present(state, now) is not Item.CONFIRM
    return say("Something is still owed before this.") if wanted else None


def _air_on_last(state: PotState, event: Event, now: Now) -> Text | None:
    wanted = event == Press(Act.AIR_ON) and present(state, now) is not Item.AIR_ON
    return say("Close is not finished.") if wanted else None


def _ready_in_date(state: PotState, event: Event, now: Now) -> Text | None:
    if event == Press(Act.AIR_ON) and not ready_in_date(state, now):
        return say("Ready is older than 12 hours. Let down, open, and do it again.")
    return None


def _hole_in_turn(state: PotState, event: Event, now: Now) -> Text | None:
    if isinstance(event, Answer) and event.item is Item.HOLE:
        return None if event.about == hole_to_see(state, now) else say("Another hole comes first.")
    return None


def _sign_known(state: PotState, event: Event, now: Now) -> Text | None:
    if not isinstance(event, Answer) or event.choice == CANT_TELL:
        return None
    if event.item is Item.SIGN and event.choice not in signs_left(state, now):
        return say("This opening cannot give another sign on this pot.")
    if event.item is Item.OPENING and event.choice not in openings_left(state):
        return say("This opening was tried, or the pot has none.")
    return None


def _sign_named(state: PotState, event: Event, _now: Now) -> Text | None:
    if not isinstance(event, Answer) or event.choice == CANT_TELL:
        return None
    seen = event.item in (Item.SIGN_SEEN, Item.OPENING_HEARD)
    return say("Choose the sign first.") if seen and event.about != state.sign_asked else None


def _inlet_as_sign(state: PotState, event: Event, now: Now) -> Text | None:
    if not isinstance(event, Answer) or event.choice != "opened_as_sign":
        return None
    counted = any(piece.about == "inlet" for piece in signs_counted(state, now))
    return None if counted else say("The inlet was not opened as a sign.")


def _within_limit(state: PotState, event: Event, _now: Now) -> Text | None:
    if not isinstance(event, Typed) or event.item is not Item.HOLD_PRESSURE:
        return None
    limit = None if state.plate is None else working_limit(state.plate, state.ambient)
    if limit is None:
        return say("This pot has no working limit: enter rating and relief valve.")
    if 0 < event.value <= limit.pressure + EDGE:
        return None
    return say("Hold at {limit} or less on this pot.", limit=Amount(limit.pressure, "PascalGauge"))


def _baseline_small(state: PotState, event: Event, _now: Now) -> Text | None:
    gauge = gauge_of(state)
    if not isinstance(event, Typed) or event.item is not Item.BASELINE or gauge is None:
        return None
    if abs(event.value) <= gauge.division + EDGE:
        return None
    return say("This gauge is off its zero by more than a division: replace it first.")


def _clamps_all(state: PotState, event: Event, _now: Now) -> Text | None:
    counts = (Item.CLAMPS, Item.CLAMP_COUNT)
    if not isinstance(event, Typed) or event.item not in counts or state.plate is None:
        return None
    if event.value == state.plate.clamps:
        return None
    return say("This lid has {count} clamps: all of them, sound.", count=state.plate.clamps)


def _plate_there(state: PotState, event: Event, _now: Now) -> Text | None:
    if isinstance(event, Answer) and event.item is Item.RUN and state.plate is None:
        return say("Enter this pot's plate first.")
    return None


def _lift_first(state: PotState, event: Event, now: Now) -> Text | None:
    casting = isinstance(event, Answer) and event.item is Item.RUN and event.choice == Run.CASTING
    if casting and lift_wanted(state, now):
        return say("The relief valve is due a live lift: do a test run without resin.")
    return None


def _closing(event: Event) -> bool:
    return event == Answer(Item.CLAMPS_ROUND, "all_round")


def _plate_allows(state: PotState, event: Event, now: Now) -> Text | None:
    if not _closing(event) or state.plate is None:
        return None
    return next(iter(blocks(state.plate, now.day)), None)


def _not_locked(state: PotState, event: Event, _now: Now) -> Text | None:
    if _closing(event) and state.locked:
        return say("This pot was over its rating: it waits for an examination note.")
    return None


def _gauge_works(state: PotState, event: Event, _now: Now) -> Text | None:
    if _closing(event) and state.gauge_failed:
        return say("The gauge failed: fit a new one and enter it on the plate.")
    return None


def _not_slackened(state: PotState, event: Event, _now: Now) -> Text | None:
    staying = isinstance(event, Typed) and event.item is Item.STAY
    slack = state.passes > 0 or state.clamp_reached > 0
    if slack and (staying or event == Press(Act.AIR_ON)):
        return say("Clamps were slackened: no air until Close is done again.")
    return None


def _still_there(state: PotState, event: Event, _now: Now) -> Text | None:
    if isinstance(event, Typed) and event.item is Item.STAY and in_band(state, event.value):
        return say("The gauge reads nothing: there is no pressure to stay at.")
    return None


def _minute_apart(state: PotState, event: Event, now: Now) -> Text | None:
    second = isinstance(event, Typed) and event.item is Item.FALL_SECOND
    return say("Wait out the minute.") if second and fall_wait_left(state, now) > 0 else None


def _word_typed(_state: PotState, event: Event, _now: Now) -> Text | None:
    asked = isinstance(event, Typed) and event.item in (Item.SILENCE, Item.SILENCE_AGAIN)
    if asked and isinstance(event, Typed) and event.text.strip().casefold() != "silent":
        return say("Type the word silent, if both openings are.")
    return None


def _clamp_there(state: PotState, event: Event, _now: Now) -> Text | None:
    if not isinstance(event, Typed) or event.item is not Item.SLACKEN:
        return None
    if state.plate is not None and 1 <= event.value <= state.plate.clamps:
        return None
    return say("This lid has no such clamp.")


def _finite(_state: PotState, event: Event, _now: Now) -> Text | None:
    if isinstance(event, Typed) and not abs(event.value) < float("inf"):
        return say("This is not a number.")
    return None


def _plate_frozen(state: PotState, event: Event, _now: Now) -> Text | None:
    loose = (Belief.OPEN, Belief.UNKNOWN)
    if isinstance(event, PlateSet) and state.belief not in loose:
        return say("The plate is fixed from Close until the lid is off.")
    return None


def _signed(_state: PotState, event: Event, _now: Now) -> Text | None:
    if isinstance(event, Note) and not (event.who.strip() and event.text.strip()):
        return say("Write who examined the pot, and what was found.")
    if isinstance(event, Correction) and not event.reason.strip():
        return say("Say why the earlier answer was wrong.")
    return None


GUARDS: tuple[Guard, ...] = (
    Guard("listed", _listed, (Press,)),
    Guard("in turn", _in_turn, (Answer, Typed)),
    Guard("confirm last", _confirm_last, (Press,)),
    Guard("air on last", _air_on_last, (Press,)),
    Guard("ready in date", _ready_in_date, (Press,)),
    Guard("hole in turn", _hole_in_turn, (Answer,)),
    Guard("sign known", _sign_known, (Answer,)),
    Guard("sign named", _sign_named, (Answer,)),
    Guard("inlet as sign", _inlet_as_sign, (Answer,)),
    Guard("within limit", _within_limit, (Typed,)),
    Guard("baseline small", _baseline_small, (Typed,)),
    Guard("clamps all", _clamps_all, (Typed,)),
    Guard("plate there", _plate_there, (Answer,)),
    Guard("lift first", _lift_first, (Answer,)),
    Guard("plate allows", _plate_allows, (Answer,)),
    Guard("not locked", _not_locked, (Answer,)),
    Guard("gauge works", _gauge_works, (Answer,)),
    Guard("not slackened", _not_slackened, (Typed, Press)),
    Guard("still there", _still_there, (Typed,)),
    Guard("minute apart", _minute_apart, (Typed,)),
    Guard("word typed", _word_typed, (Typed,)),
    Guard("clamp there", _clamp_there, (Typed,)),
    Guard("finite", _finite, (Typed,)),
    Guard("plate frozen", _plate_frozen, (PlateSet,)),
    Guard("signed", _signed, (Note, Correction)),
)
"""Asked in this order, those that look at the event; the first refusal counts.

A test removes each in turn.
"""
