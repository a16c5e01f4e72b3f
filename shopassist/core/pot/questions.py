"""Draw the card of a pot from its record."""

from shopassist.core.messages import Amount, Param, Text, say
from shopassist.core.pot.asks import (
    CANT,
    LABELS,
    QUESTIONS,
    SECOND_GAUGE_ANSWERS,
    SIGN_ACTS,
    SIGN_NAMES,
    SIGN_NOTES,
)
from shopassist.core.pot.cards import Ask, AskKind, Card, CardName, Choice, FreeItem, Wait, offer
from shopassist.core.pot.events import Answer, Press
from shopassist.core.pot.evidence import (
    above_baseline,
    dwell_left,
    dwell_owed,
    fall_wait_left,
    openings_left,
    signs_counted,
    signs_left,
)
from shopassist.core.pot.listed import ACTS, free_items
from shopassist.core.pot.notes import notes_of, reported_of
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import working_limit
from shopassist.core.pot.standing import (
    BRANCHES,
    EXPIRED_WORDS,
    LETTING_DOWN_AIR_ON,
    LETTING_DOWN_VENT_SHUT,
    OFFER_ORDER,
    OFFERS,
    SLACKEN_CAUTION,
    STATE_WORDS,
    SUSPECT_WORDS,
    TITLES,
)
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.steps import hole_to_see, present
from shopassist.core.pot.vocabulary import CHOICES, TYPED_ITEMS
from shopassist.core.pot.words import CANT_TELL, Act, Belief, Item

FIRST_AIR = 70e3
"""A little air: about 0.7 bar or 10 psi, [Pa gauge]; own choice."""
FALL_TARGET_DIVISIONS = 3.0
WAITS = (Item.DWELL,)
PRESSES = {Item.AIR_ON: Act.AIR_ON, Item.CONFIRM: Act.CONFIRM}


def questions(state: PotState, now: Now) -> Card:
    """Everything a screen shows of this pot now; the screen decides nothing."""
    current = settled(state, now)
    item = present(current, now)
    name = card_name(current, item)
    return Card(
        name=name,
        title=say(TITLES[name]),
        belief=current.belief,
        state_word=state_word(current),
        ask=None if item is None else ask_of(current, item, now),
        reported=reported_of(current, name),
        wait=wait_of(current, item, now),
        offers=tuple(
            offer(act, say(OFFERS[act][0]), say(OFFERS[act][1]))
            for act in OFFER_ORDER if act in ACTS[current.belief]
        ),
        free=tuple(FreeItem(ask_of(current, free, now)) for free in free_items(current)),
        branch=current.branch,
        branch_text=tuple(say(line) for line in BRANCHES[current.branch]),
        cautions=cautions_of(current),
        notes=notes_of(current, item, now),
        expires_in=expires_in(current, now),
    )  # fmt: skip


def question_of(state: PotState, now: Now) -> Text | None:
    """The question of the item that is asked now, without the rest of the card."""
    current = settled(state, now)
    item = present(current, now)
    return None if item is None else _question(current, item, now)


def state_word(state: PotState) -> Text:
    """The word for the state, as the pot line shows it."""
    if state.belief is not Belief.LETTING_DOWN:
        return say(STATE_WORDS[state.belief])
    if state.value(Item.HOSE) != "apart" or state.value(Item.INLET) != "shut":
        return say(LETTING_DOWN_AIR_ON)
    vent_open = state.find(Item.VENT) is not None
    return say(STATE_WORDS[state.belief] if vent_open else LETTING_DOWN_VENT_SHUT)


def card_name(state: PotState, item: Item | None) -> CardName:
    """Which walk to the pot this is."""
    match state.belief:
        case Belief.OPEN:
            return CardName.CLOSE if item is Item.CLAMPS_ROUND else CardName.READY
        case Belief.PRESSURISED:
            return CardName.AIR_ON if state.filling else CardName.HOLD
        case Belief.LETTING_DOWN:
            zero = item in (Item.ZERO, Item.SILENCE)
            return CardName.ZERO if zero else CardName.ISOLATE_AND_VENT
        case Belief.CLEAR | Belief.CRACKED:
            return CardName.CRACK
        case belief:
            return _PLAIN_CARDS[belief]


_PLAIN_CARDS: dict[Belief, CardName] = {
    Belief.UNKNOWN: CardName.NOT_KNOWN,
    Belief.CLOSED: CardName.CLOSE,
    Belief.PROVING: CardName.PROVE,
    Belief.SUSPECT: CardName.SUSPECT,
}


def cautions_of(state: PotState) -> tuple[Text, ...]:
    """What must stand on the card whatever is asked."""
    lines: list[Text] = []
    if state.belief is Belief.SUSPECT:
        lines += [*([state.suspect_why] if state.suspect_why else []), *map(say, SUSPECT_WORDS)]
    if state.belief is Belief.CLEAR:
        lines.append(say(SLACKEN_CAUTION))
    if state.belief is Belief.PROVING and state.dwell_done:
        lines += map(say, EXPIRED_WORDS)
    if state.doubted:
        lines.append(say("Clock doubted: ages may be wrong."))
    return tuple(lines)


def expires_in(state: PotState, now: Now) -> float | None:
    """What is left of the word that was given, [s]."""
    if state.belief is Belief.CRACKED and state.crack_expires is not None:
        return state.crack_expires - now.age
    if state.belief is Belief.CLEAR and state.grant is not None:
        return state.grant.expires - now.age
    return None


def wait_of(state: PotState, item: Item | None, now: Now) -> Wait | None:
    """Time that the program counts before the present item can be answered."""
    if item is Item.DWELL:
        return Wait(say("Vent open, two zeros apart"), dwell_owed(state), dwell_left(state, now))
    if item is Item.FALL_SECOND:
        left = fall_wait_left(state, now)
        return Wait(say("One minute between two readings"), 60.0, left) if left > 0 else None
    return None


def ask_of(state: PotState, item: Item, now: Now) -> Ask:
    """One item with its question and its answers."""
    if item in PRESSES:
        event = Press(PRESSES[item])
        kind = AskKind.HOLD if item is Item.CONFIRM else AskKind.PRESS
        label, what = OFFERS[event.act]
        only = Choice(str(event.act), say(label), say(what), event)
        return Ask(item, kind, _question(state, item, now), (only,))
    quantity = TYPED_ITEMS.get(item, "")
    kind = AskKind.TYPE if quantity else AskKind.WAIT if item in WAITS else AskKind.CHOOSE
    return Ask(
        item, kind, _question(state, item, now), _choices(state, item, now), quantity,
        _about(state, item, now), item in (Item.LEAK_START, Item.LEAK_END),
        _hints(state, quantity),
    )  # fmt: skip


def _hints(state: PotState, quantity: str) -> tuple[Text, ...]:
    away = state.plate is not None and not state.plate.readable_at_lid
    return (say("Walk to the gauge."),) if away and quantity == "PascalGauge" else ()


def _about(state: PotState, item: Item, now: Now) -> str:
    if item is Item.HOLE:
        return hole_to_see(state, now)
    return state.sign_asked if item in (Item.SIGN_SEEN, Item.OPENING_HEARD) else ""


def _choices(state: PotState, item: Item, now: Now) -> tuple[Choice, ...]:
    if item in WAITS:
        return ()
    about = _about(state, item, now)
    made = [_choice(state, item, name, about) for name in _offered(state, item, now)]
    cant = Choice(CANT_TELL, say(CANT[0]), say(CANT[1]), Answer(item, CANT_TELL, about))
    return (*made, cant)


def _offered(state: PotState, item: Item, now: Now) -> tuple[str, ...]:
    """Ids of the answers that this record allows, in order."""
    if item is Item.SIGN:
        return tuple(str(sign) for sign in signs_left(state, now))
    if item is Item.OPENING:
        return tuple(str(sign) for sign in openings_left(state))
    opened = any(piece.about == "inlet" for piece in signs_counted(state, now))
    names = CHOICES.get(item, ())
    return names if opened else tuple(name for name in names if name != "opened_as_sign")


def _choice(state: PotState, item: Item, name: str, about: str) -> Choice:
    if item in (Item.SIGN, Item.OPENING):
        label, what = SIGN_NAMES[name], SIGN_NOTES[name]
    elif item is Item.SIGN_SEEN and state.sign_asked == "second_gauge":
        label, what = SECOND_GAUGE_ANSWERS[name]
    else:
        label, what = LABELS[item][name]
    return Choice(name, say(label), say(what) if what else None, Answer(item, name, about))


def _question(state: PotState, item: Item, now: Now) -> Text:
    return say(QUESTIONS[item], **_params(state, item, now))


def _params(state: PotState, item: Item, now: Now) -> dict[str, Param]:
    match item:
        case Item.HOLE:
            return {"hole": hole_to_see(state, now)}
        case Item.SIGN_SEEN:
            return {"act": SIGN_ACTS.get(state.sign_asked, "")}
        case Item.OPENING_HEARD:
            return {"sign": SIGN_NAMES.get(state.sign_asked, "").lower()}
        case Item.FIRST_AIR:
            return {"first": Amount(FIRST_AIR, "PascalGauge")}
        case Item.AT_PRESSURE:
            return {"hold": Amount(_hold(state), "PascalGauge")}
        case Item.FALL_FIRST:
            return {"half": Amount(fall_target(state), "PascalGauge")}
        case _:
            return {}


def _hold(state: PotState) -> float:
    limit = None if state.plate is None else working_limit(state.plate, state.ambient)
    return state.hold if state.hold is not None else limit.pressure if limit else 0.0


def fall_target(state: PotState) -> float:
    """Where the recorded fall is read: the higher of half and three divisions up, [Pa gauge]."""
    start = state.fall_from if state.fall_from is not None else _hold(state)
    return max(start / 2, above_baseline(state, FALL_TARGET_DIVISIONS))
