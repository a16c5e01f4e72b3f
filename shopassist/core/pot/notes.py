"""What a card says beside its question: what was reported, forces, the leak."""

from shopassist.core.messages import Amount, Text, say
from shopassist.core.pot.asks import LABELS, QUESTIONS, SIGN_NAMES
from shopassist.core.pot.cards import CardName, Reported
from shopassist.core.pot.evidence import (
    dwell_replaces_third,
    fall_unseen,
    gauge_of,
    lift_wanted,
    third_owed,
)
from shopassist.core.pot.leak import leak_notes
from shopassist.core.pot.plate import blocks, flags, hidden_force, working_limit
from shopassist.core.pot.state import Evidence, Now, PotState
from shopassist.core.pot.words import Belief, Item
from shopassist.core.quantities import PascalGauge
from shopassist.core.vessel import lid_force

NAMES: dict[Item, str] = {
    Item.RUN: "Run", Item.HOLD_PRESSURE: "Hold pressure", Item.RING: "Relief ring",
    Item.HOLE: "Hole", Item.GASKET: "Gasket", Item.BASELINE: "Gauge, lid off",
    Item.CLAMPS: "Clamps sound", Item.DRY_FIT: "Dry fit", Item.PLACE: "Place",
    Item.CLAMPS_ROUND: "Clamps", Item.CLAMP_COUNT: "Clamps hooked", Item.FIRST_AIR: "First air",
    Item.REGULATOR: "Regulator", Item.LID_HISS: "Hiss at the lid",
    Item.AT_PRESSURE: "At pressure", Item.SUPPLY: "Supply", Item.READING: "Gauge",
    Item.TEMPERATURE: "Temperature", Item.LEAK_START: "Leak check, first",
    Item.LEAK_END: "Leak check, second", Item.LIVE_LIFT: "Live lift", Item.INLET: "Inlet",
    Item.HOSE_BLED: "Hose bled", Item.HOSE: "Hose", Item.EYES: "Eyes", Item.VENT: "Vent",
    Item.VENT_READING: "Gauge", Item.OPENING_HEARD: "Opening", Item.FALL_FIRST: "Part-way down",
    Item.FALL_SECOND: "A minute later", Item.FALL_SPEED: "Fall", Item.VENT_AGAIN: "Vent again",
    Item.ZERO: "First zero", Item.SILENCE: "First silence", Item.SIGN_SEEN: "Sign",
    Item.ZERO_AGAIN: "Second zero", Item.SILENCE_AGAIN: "Second silence",
    Item.INLET_NOW: "Inlet now", Item.HOSE_NOW: "Hose now", Item.VENT_NOW_SEEN: "Vent now",
    Item.SLACKEN: "Slackened", Item.ROCK: "Lid rocked", Item.LID_OFF: "Lid",
    Item.LID_OFF_NOW: "Lid", Item.AFTERCARE: "Aftercare", Item.WHERE: "Where",
}  # fmt: skip

_OF_CARD: dict[CardName, tuple[Item, ...]] = {
    CardName.READY: (
        Item.RUN, Item.HOLD_PRESSURE, Item.RING, Item.HOLE, Item.GASKET, Item.BASELINE,
        Item.CLAMPS, Item.DRY_FIT, Item.PLACE,
    ),
    CardName.CLOSE: (Item.CLAMPS_ROUND, Item.CLAMP_COUNT),
    CardName.AIR_ON: (
        Item.FIRST_AIR, Item.REGULATOR, Item.LID_HISS, Item.AT_PRESSURE, Item.SUPPLY,
    ),
    CardName.HOLD: (
        Item.AT_PRESSURE, Item.SUPPLY, Item.READING, Item.TEMPERATURE, Item.LEAK_START,
        Item.LEAK_END, Item.LIVE_LIFT,
    ),
    CardName.ISOLATE_AND_VENT: (
        Item.INLET, Item.HOSE_BLED, Item.HOSE, Item.EYES, Item.VENT, Item.VENT_READING,
        Item.OPENING_HEARD, Item.FALL_FIRST, Item.FALL_SECOND, Item.FALL_SPEED, Item.VENT_AGAIN,
    ),
    CardName.ZERO: (Item.INLET, Item.HOSE, Item.VENT, Item.VENT_AGAIN, Item.FALL_SPEED),
    CardName.PROVE: (
        Item.SIGN_SEEN, Item.ZERO_AGAIN, Item.SILENCE_AGAIN, Item.INLET_NOW, Item.HOSE_NOW,
        Item.VENT_NOW_SEEN,
    ),
    CardName.CRACK: (Item.SLACKEN, Item.ROCK),
    CardName.NOT_KNOWN: (),
    CardName.SUSPECT: (),
}  # fmt: skip
"""The first zero is not on the prove card: the second is typed without seeing it."""


def reported_of(state: PotState, card: CardName) -> tuple[Reported, ...]:
    """What was reported on this walk, oldest first."""
    shown = _OF_CARD[card]
    return tuple(report(piece) for piece in state.evidence if piece.item in shown)


def report(piece: Evidence) -> Reported:
    """One answer in words."""
    return Reported(piece.item, _label(piece), _answer(piece), piece)


def _label(piece: Evidence) -> Text:
    if piece.item is Item.HOLE:
        return say("Hole: {hole}", hole=piece.about)
    if piece.about:
        return say(SIGN_NAMES.get(piece.about, piece.about))
    return say(NAMES.get(piece.item, QUESTIONS.get(piece.item, "")))


def _answer(piece: Evidence) -> Text:
    if piece.number is not None:
        return say("{text} {unit}", text=piece.value, unit=piece.unit)
    known = LABELS.get(piece.item, {}).get(piece.value)
    if known is not None:
        return say(known[0])
    return say({"pressed": "Vent now was pressed", "cant_tell": "Can't tell"}.get(
        piece.value, SIGN_NAMES.get(piece.value, piece.value)
    ))  # fmt: skip


def notes_of(state: PotState, item: Item | None, now: Now) -> tuple[Text, ...]:
    """Numbers and reasons beside the question."""
    match state.belief:
        case Belief.OPEN:
            return _ready_notes(state, now)
        case Belief.PRESSURISED:
            return (
                *_force_notes(state), *warm_notes(state), *leak_notes(state, now),
                *_left_alone(state),
            )  # fmt: skip
        case Belief.LETTING_DOWN | Belief.PROVING:
            return (*_force_notes(state), *_zero_notes(state, item))
        case Belief.CLEAR:
            reached = state.clamp_reached
            done = say("Passes recorded: {passes}", passes=state.passes)
            return (done, say("Last clamp: {clamp}", clamp=reached)) if reached else (done,)
        case _:
            return _force_notes(state)


def _ready_notes(state: PotState, now: Now) -> tuple[Text, ...]:
    if state.plate is None:
        return (say("No plate entered: no run starts."),)
    limit = working_limit(state.plate, state.ambient)
    planned = state.hold if state.hold is not None else limit.pressure if limit else None
    hold = None if planned is None else PascalGauge(planned)
    found = [*blocks(state.plate, now.day), *flags(state.plate, hold, now.day)]
    if limit is not None:
        governs = {"rating": "the rating", "relief": "the relief valve", "warming": "warming up"}
        found.append(say(
            "Working limit {limit}; {part} governs.",
            limit=Amount(limit.pressure, "PascalGauge"), part=governs[limit.governs],
        ))  # fmt: skip
    if lift_wanted(state, now):
        found.append(say("The relief valve is due a live lift: only a test run is offered."))
    if state.locked:
        found.append(say("Over the rating once: waits for an examination note."))
    return tuple(found)


def _force_notes(state: PotState) -> tuple[Text, ...]:
    """What the last reading does to the lid."""
    last, plate = state.last, state.plate
    if last is None or last.number is None or plate is None or last.number <= 0:
        return ()
    if plate.seal_diameter is None:
        return ()
    return (
        say(
            "{pressure} pushes on this lid with {force}.",
            pressure=Amount(last.number, "PascalGauge"),
            force=Amount(lid_force(PascalGauge(last.number), plate.seal_diameter), "Newton"),
        ),
    )


def warm_notes(state: PotState) -> tuple[Text, ...]:
    """The newest temperature, held against what the plate reckons with."""
    plate = state.plate
    typed = [
        piece.number if piece.item is Item.TEMPERATURE else piece.temperature
        for piece in state.evidence
    ]
    warm = next((each for each in reversed(typed) if each is not None), None)
    if plate is None or warm is None:
        return ()
    for most, words in ((plate.rated_temperature, ABOVE_RATED), (plate.warmest, ABOVE_RECKONED)):
        if most is not None and warm > most:
            return (say(words, t=Amount(warm, "Kelvin"), most=Amount(most, "Kelvin")),)
    return ()


ABOVE_RATED = (
    "{t} is above this pot's rated temperature, {most}: heater off, stand away. Too hot stands"
    " under Something else."
)
ABOVE_RECKONED = (
    "{t} is warmer than the plate reckons with, {most}: the fill limit was for that. Heater off,"
    " read the gauge, bleed down where it nears the limit."
)


def _left_alone(state: PotState) -> tuple[Text, ...]:
    """What to know before walking away from a full pot."""
    if state.filling:
        return ()
    still = say("Do not move the pot before it is vented: resin slops.")
    if state.value(Item.SUPPLY) != "connected":
        return (still,)
    return (say("Supply connected: stay by it, or isolate it and take the hose off."), still)


def _zero_notes(state: PotState, item: Item | None) -> tuple[Text, ...]:
    found: list[Text] = []
    force = None if state.plate is None else hidden_force(state.plate)
    if force is not None and item in (Item.ZERO, Item.ZERO_AGAIN, Item.DWELL):
        found.append(say(
            "A zero on this gauge can still hide {force} on the lid.",
            force=Amount(force, "Newton"),
        ))  # fmt: skip
    if state.belief is Belief.PROVING:
        words = "Hole {hole} was silent under pressure: nothing on it is a sign."
        found.extend(say(words, hole=hole) for hole in sorted(state.silent_holes))
    if state.belief is Belief.PROVING and gauge_of(state) is not None and not state.gauge_failed:
        if fall_unseen(state):
            found.append(say("The fall was not seen: 30 min and a third sign."))
        elif dwell_replaces_third(state):
            found.append(say("No third opening: 30 min stand in for the third sign."))
        elif third_owed(state) and state.air:
            found.append(say("A third sign is owed on this pot."))
    return tuple(found)
