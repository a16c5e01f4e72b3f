"""Events of a pot, one journal row each, and the way to a row's body and back."""

from collections.abc import Callable
from typing import TypeAlias

from shopassist.core.frozen import frozen
from shopassist.core.pot.plate import STANDARD_AMBIENT, Plate
from shopassist.core.pot.words import Act, Item, Told
from shopassist.core.quantities import PascalAbsolute
from shopassist.core.rows import Body, Json


@frozen
class Answer:
    """What was seen, chosen on a card."""

    item: Item
    choice: str
    about: str = ""
    """Which hole, or which sign."""


@frozen
class Typed:
    """A value typed into an empty field: a gauge reading, a count, a temperature, a word."""

    item: Item
    value: float
    """SI: [Pa gauge], [K], or a plain count."""
    text: str
    """The characters as typed."""
    unit: str = ""
    temperature: float | None = None
    """Pot temperature beside a reading of the leak check, [K]."""


@frozen
class Press:
    """One press."""

    act: Act


@frozen
class Note:
    """Examined by somebody, with what they wrote."""

    who: str
    text: str


@frozen
class Correction:
    """An earlier answer was wrong; never brings evidence back."""

    item: Item
    reason: str


@frozen
class Tell:
    """What the program found about its own past: restart, suspend, clock, restored data."""

    what: Told
    seconds: float = 0.0


@frozen
class PlateSet:
    """One version of the pot's plate counts from now on."""

    version: int
    plate: Plate | None
    ambient: PascalAbsolute = STANDARD_AMBIENT
    """Local air pressure used for the working limit."""


Event: TypeAlias = Answer | Typed | Press | Note | Correction | Tell | PlateSet
PlateOf: TypeAlias = Callable[[int], Plate | None]
"""The plate of one version of the record, None where there is none or it is broken."""


def row_of(event: Event) -> tuple[str, dict[str, Json]]:
    """Kind and body of the one row that this event becomes."""
    if isinstance(event, Answer):
        return "answer", {"item": str(event.item), "choice": event.choice, "about": event.about}
    if isinstance(event, Typed):
        body: dict[str, Json] = {"item": str(event.item), "value": float(event.value)}
        body |= {"text": event.text, "unit": event.unit, "temperature": event.temperature}
        return "typed", body
    if isinstance(event, Press):
        return "press", {"act": str(event.act)}
    if isinstance(event, Note):
        return "examined", {"who": event.who, "text": event.text}
    if isinstance(event, Correction):
        return "correction", {"item": str(event.item), "reason": event.reason}
    if isinstance(event, Tell):
        return "told", {"what": str(event.what), "seconds": float(event.seconds)}
    return "plate", {"version": event.version, "ambient": float(event.ambient)}


def event_from_row(kind: str, body: Body, plate_of: PlateOf) -> Event | None:
    """Read a row back; None if it cannot be read, and then the pot is not known."""
    try:
        return _READERS[kind](body, plate_of)
    except (KeyError, ValueError, TypeError):
        return None


def _number(raw: Json) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise TypeError(raw)
    return float(raw)


def _typed(body: Body, _: PlateOf) -> Event:
    temperature = body.get("temperature")
    return Typed(
        Item(str(body["item"])), _number(body["value"]), str(body["text"]), str(body["unit"]),
        None if temperature is None else _number(temperature),
    )  # fmt: skip


def _plate(body: Body, plate_of: PlateOf) -> Event:
    version = int(_number(body["version"]))
    return PlateSet(version, plate_of(version), PascalAbsolute(_number(body["ambient"])))


_READERS: dict[str, Callable[[Body, PlateOf], Event]] = {
    "answer": lambda body, _: Answer(
        Item(str(body["item"])), str(body["choice"]), str(body["about"])
    ),
    "typed": _typed,
    "press": lambda body, _: Press(Act(str(body["act"]))),
    "examined": lambda body, _: Note(str(body["who"]), str(body["text"])),
    "correction": lambda body, _: Correction(Item(str(body["item"])), str(body["reason"])),
    "told": lambda body, _: Tell(Told(str(body["what"])), _number(body["seconds"])),
    "plate": _plate,
}
