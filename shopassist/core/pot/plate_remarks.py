"""What a person should look at while a pot's plate is written; nothing of it hinders anybody."""

from collections.abc import Iterator, Mapping

from shopassist.core.messages import Amount, say
from shopassist.core.pot.plate import COLDEST_FILL, PLATE_FIELDS
from shopassist.core.quantities import PascalGauge
from shopassist.core.records import ReadQuantity, Remark, Value, number_at, read_record

USUAL_MOST = PascalGauge(10e5)
"""Pots for casting are rated lower than this: a number of psi may stand as bar; ours."""


def plate_remarks(mapping: Mapping[str, object], read: ReadQuantity) -> tuple[Remark, ...]:
    """Remarks by place; a plate is saved with them all the same."""
    values = read_record(mapping, PLATE_FIELDS, read).values
    return (*_high(values), *_short_dial(values), *_cold(values))


def _high(values: Mapping[str, Value]) -> Iterator[Remark]:
    for place in ("rating.pressure", "relief.set"):
        value = number_at(values, place)
        if value is not None and value > USUAL_MOST:
            yield Remark(place, say(
                "More than {usual}: few casting pots are rated so high. Is the unit as stamped?",
                usual=Amount(USUAL_MOST, "PascalGauge"),
            ), asks=True)  # fmt: skip


def _short_dial(values: Mapping[str, Value]) -> Iterator[Remark]:
    span, lifts_at = number_at(values, "gauge.span"), number_at(values, "relief.set")
    if span is not None and lifts_at is not None and span < lifts_at:
        yield Remark("gauge.span", say(
            "The dial ends below {set}, where the relief valve opens: it cannot show that the pot"
            " is too full.", set=Amount(lifts_at, "PascalGauge"),
        ), asks=True)  # fmt: skip


def _cold(values: Mapping[str, Value]) -> Iterator[Remark]:
    warmest = number_at(values, "rating.warmest")
    if warmest is not None and warmest < COLDEST_FILL and "rating.coldest_fill" not in values:
        yield Remark("rating.coldest_fill", say(
            "It is counted as filled at {cold} and never warmer: type how cold it is filled.",
            cold=Amount(COLDEST_FILL, "Kelvin", 0),
        ), asks=True)  # fmt: skip
