"""What was typed into an item, read as the answer that the item takes."""

from shopassist.core.entry import EntrySpec
from shopassist.core.errors import ShopError
from shopassist.core.pot.cards import Ask
from shopassist.core.pot.events import Event
from shopassist.core.wording import Wording


def typed_event(ask: Ask, text: str, temperature: str, wording: Wording) -> Event:
    """Read a value, with its temperature where one belongs to it.

    Raises
    ------
        ShopError: it cannot be read; the message says what to change.
    """
    value, unit = _read(text, ask, wording)
    warmth = None
    if ask.with_temperature:
        warmth = wording.read(temperature, EntrySpec("Kelvin")).value
    return ask.typed(value, text.strip(), unit, warmth)


def _read(text: str, ask: Ask, wording: Wording) -> tuple[float, str]:
    if ask.quantity == "Word":
        return 0.0, ""
    spec = EntrySpec("Ratio" if ask.quantity == "Count" else ask.quantity, unit="")
    entry = wording.read(text, spec)
    if ask.quantity == "Count" and entry.value != int(entry.value):
        raise ShopError("Give a whole number.")
    return entry.value, "" if ask.quantity == "Count" else wording.unit(ask.quantity)
