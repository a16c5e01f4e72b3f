"""What was typed into an item, read as the answer that the item takes."""

from shopassist.core.entry import EntrySpec, count
from shopassist.core.errors import EntryError, ShopError
from shopassist.core.messages import Amount, say
from shopassist.core.pot.cards import Ask
from shopassist.core.pot.events import Event
from shopassist.core.pot.plate import Gauge, Plate
from shopassist.core.wording import Wording


def typed_event(
    ask: Ask, text: str, temperature: str, wording: Wording, plate: Plate | None
) -> Event:
    """Read a value, with its temperature where one belongs to it.

    Raises
    ------
        ShopError: it cannot be read, or it is a bare number past the end of the gauge of ``plate``:
            there the usual unit is not believed. The message says what to change.
    """
    value, unit = _read(text, ask, wording)
    gauge = plate.gauge if plate is not None else None
    if ask.quantity == "PascalGauge" and gauge is not None and value > gauge.span:
        _with_its_unit(text, value, gauge, wording)
    warmth = None
    if ask.with_temperature:
        warmth = wording.read(temperature, EntrySpec("Kelvin")).value
    return ask.typed(value, text.strip(), unit, warmth)


def _read(text: str, ask: Ask, wording: Wording) -> tuple[float, str]:
    if ask.quantity == "Word":
        return 0.0, ""
    if ask.quantity == "Count":
        return wording.read(text, count()).value, ""
    return wording.read(text, EntrySpec(ask.quantity)).value, wording.unit(ask.quantity)


def _with_its_unit(text: str, value: float, gauge: Gauge, wording: Wording) -> None:
    try:
        wording.read(text, EntrySpec("PascalGauge", unit_needed=True))
    except EntryError as error:
        raise ShopError(
            say(
                "{value} is past the end of this gauge, {span}.",
                value=Amount(value, "PascalGauge"),
                span=Amount(gauge.span, "PascalGauge"),
            ),
            say("Was it another unit? Type the unit with the number, even if this is right."),
        ) from error
