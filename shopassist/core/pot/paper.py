"""The whole list on one sheet of paper, from the same words and the same plate as the screen."""

from zlib import crc32

from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Param, Text, say
from shopassist.core.pot.asks import CANT, LABELS, QUESTIONS, SIGN_ACTS
from shopassist.core.pot.evidence import (
    CRACK_LIFE,
    GRANT_LIFE,
    LONGEST_DWELL,
    SHORT_DWELL,
    UNSEEN_DWELL,
)
from shopassist.core.pot.plate import Plate, working_limit
from shopassist.core.pot.questions import FIRST_AIR
from shopassist.core.pot.standing import (
    BRANCHES,
    EXPIRED_WORDS,
    SLACKEN_CAUTION,
    STANDING_WORDS,
    SUSPECT_WORDS,
)
from shopassist.core.pot.steps import CLOSE, FILL, LET_DOWN, PROVE, READY, Step
from shopassist.core.pot.vocabulary import CHOICES, TYPED_ITEMS
from shopassist.core.pot.words import Branch, Item, Sign
from shopassist.core.quantities import PascalAbsolute

GAUGE_LOST = (Item.SILENCE, Item.SILENCE_AGAIN, Item.OPENING, Item.VENT_READING)
"""Asked only where something went wrong: they stand among the branches."""
CRACK = (Item.SLACKEN, Item.ROCK, Item.LID_OFF, Item.AFTERCARE)
HOLD = (Item.LEAK_START, Item.LEAK_END)
ODD = (
    Branch.OVER_RATING, Branch.RELIEF_LIFTED, Branch.NO_HISS, Branch.STUCK_GAUGE, Branch.DISAGREE,
    Branch.SUPPLY_LOST, Branch.TOO_HOT, Branch.STUCK_LID, Branch.LOST_TRACK,
)  # fmt: skip
ODD_NAMES = {
    Branch.OVER_RATING: "Over the rating", Branch.RELIEF_LIFTED: "Relief valve lifts",
    Branch.NO_HISS: "No hiss", Branch.STUCK_GAUGE: "Gauge failed",
    Branch.DISAGREE: "Signs disagree", Branch.SUPPLY_LOST: "Supply lost",
    Branch.TOO_HOT: "Too hot", Branch.STUCK_LID: "Lid stuck", Branch.LOST_TRACK: "Lost track",
}  # fmt: skip


@frozen
class Line:
    """One item: its question, and what is written or ringed."""

    number: int
    question: Text
    answers: tuple[Text, ...]
    """To be ringed; none where a value is written."""
    quantity: str
    """What is written, with its unit."""
    warmth: bool
    """Whether the temperature is written too."""


@frozen
class Part:
    """A card of the list."""

    heading: str
    lines: tuple[Line, ...]
    overleaf: bool
    """On the second side of the sheet, where letting down begins."""


@frozen
class Paper:
    """The sheet: plate, list, odd things, standing words."""

    name: str
    version: int
    """Of the pot's plate."""
    revision: str
    """Changes with every word of the list."""
    plate: tuple[Text, ...]
    parts: tuple[Part, ...]
    odd: tuple[tuple[str, tuple[str, ...]], ...]
    standing: tuple[str, ...]


def paper(plate: Plate, version: int, ambient: PascalAbsolute) -> Paper:
    """Make the sheet of one pot."""
    parts = tuple(_parts(plate))
    return Paper(
        plate.name, version, _revision(parts), _plate(plate, ambient), parts,
        (
            *((ODD_NAMES[branch], BRANCHES[branch]) for branch in ODD),
            ("Time ran out", EXPIRED_WORDS), ("In doubt", SUSPECT_WORDS),
        ),
        (*STANDING_WORDS, "What is written here cannot be entered afterwards."),
    )  # fmt: skip


def _parts(plate: Plate) -> list[Part]:
    cards: tuple[tuple[str, tuple[Item, ...]], ...] = (
        ("Ready: lid off, before mixing", _items(READY)),
        ("Close", (*_items(CLOSE), Item.AIR_ON)),
        ("Air on", _items(FILL)),
        ("Hold", HOLD),
        (OVERLEAF[0], _items(LET_DOWN)),
        (OVERLEAF[1], _items(PROVE)),
        (OVERLEAF[2], CRACK),
    )
    found, number = [], 1
    for heading, items in cards:
        asked = [line for item in items for line in _asked(item, plate)]
        lines = [
            Line(n, question, *_answered(item), item in HOLD)
            for n, (item, question) in enumerate(asked, number)
        ]
        number += len(lines)
        found.append(Part(heading, tuple(lines), heading in OVERLEAF))
    return found


OVERLEAF = ("Let down: isolate, vent, zero", "Prove", "Crack and open")


def _items(steps: tuple[Step, ...]) -> tuple[Item, ...]:
    """Items of a list, each once."""
    return tuple(dict.fromkeys(step.item for step in steps if step.item not in GAUGE_LOST))


def _asked(item: Item, plate: Plate) -> list[tuple[Item, Text]]:
    """An item as questions: one for each hole, one for each sign that this pot can give."""
    if item is Item.HOLE:
        return [(item, say(QUESTIONS[item], hole=hole)) for hole in plate.holes.all()]
    if item is Item.SIGN:
        signs = [sign for sign in Sign if plate.hole_of(sign) in plate.sign_holes()]
        acts = [say(QUESTIONS[Item.SIGN_SEEN], act=SIGN_ACTS[sign]) for sign in signs]
        acts[:1] = [_with_more(Item.SIGN, act) for act in acts[:1]]
        return [(Item.SIGN_SEEN, act) for act in acts]
    return [(item, _with_more(item, say(QUESTIONS[item], **_params(item))))]


def _with_more(item: Item, question: Text) -> Text:
    more = ADDED.get(item)
    return question if more is None else say("{a} {b}", a=question, b=more)


ADDED: dict[Item, Text] = {
    Item.DWELL: say(
        "{least} at least, and as long as the vent took ({most} if not known); {unseen} where the"
        " fall was not seen.",
        least=Amount(SHORT_DWELL, "Second"), most=Amount(LONGEST_DWELL, "Second"),
        unseen=Amount(UNSEEN_DWELL, "Second"),
    ),
    Item.SIGN: say("A second sign always, a third where it is owed."),
    Item.SLACKEN: say(
        "{caution} Within {time} of the signs.", caution=SLACKEN_CAUTION,
        time=Amount(GRANT_LIFE, "Second"),
    ),
    Item.LID_OFF: say("Within {time} of rocking.", time=Amount(CRACK_LIFE, "Second")),
}  # fmt: skip
"""Times that the program counts and a person at the sheet must."""


def _params(item: Item) -> dict[str, Param]:
    match item:
        case Item.FIRST_AIR:
            return {"first": Amount(FIRST_AIR, "PascalGauge")}
        case Item.AT_PRESSURE:
            return {"hold": "the hold pressure"}
        case Item.FALL_FIRST:
            return {"half": "half"}
        case _:
            return {}


def _answered(item: Item) -> tuple[tuple[Text, ...], str]:
    quantity = TYPED_ITEMS.get(item, "")
    names = [name for name in CHOICES.get(item, ()) if name != "opened_as_sign"]
    labels = [say(LABELS[item][name][0]) for name in names]
    return (*labels, *((say(CANT[0]),) if labels else ())), quantity


def _plate(plate: Plate, ambient: PascalAbsolute) -> tuple[Text, ...]:
    limit = working_limit(plate, ambient)
    known: tuple[tuple[str, float | None, str], ...] = (
        ("Rated {value}", plate.rating, "PascalGauge"),
        ("Relief valve {value}", plate.relief_set, "PascalGauge"),
        ("Fill to {value} at most", None if limit is None else limit.pressure, "PascalGauge"),
        ("One division {value}", plate.gauge.division if plate.gauge else None, "PascalGauge"),
    )
    lines = [say(text, value=Amount(value, unit)) for text, value, unit in known if value]
    return (*lines, say("{count} clamps, {passes} passes", count=plate.clamps, passes=plate.passes))


def _revision(parts: tuple[Part, ...]) -> str:
    words = "\n".join(repr(line) for part in parts for line in part.lines)
    everything = "\n".join((words, repr(BRANCHES), repr(STANDING_WORDS), repr(SUSPECT_WORDS)))
    return f"{crc32(everything.encode()):08x}"
