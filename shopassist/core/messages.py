"""Words with values in them, kept apart until somebody wants to read them.

Core and services never format a number: they hand over a ``Text`` whose values are
SI ``Amount``s, and ``core.wording`` writes it in the reader's units and number style.
"""

from typing import TypeAlias

from shopassist.core.frozen import frozen


@frozen
class Amount:
    """A value of one quantity, still in SI."""

    value: float
    quantity: str
    """Name of its type in ``core.quantities``, for instance ``"PascalGauge"``."""
    decimals: int | None = None
    """Places to show in the shown unit; None leaves it to the wording."""
    unit: str = ""
    """A unit to keep, for instance the one that was typed; empty leaves it to the wording."""


@frozen
class Moment:
    """An instant to be written as local clock time."""

    utc: float
    late: bool = False
    """Up to the next whole minute: for what must not be early."""


Param: TypeAlias = "str | int | Amount | Moment | Text"


@frozen
class Text:
    """A sentence template with named places and what goes into them, other sentences too."""

    template: str
    params: tuple[tuple[str, Param], ...] = ()


def say(template: str, **params: Param) -> Text:
    """Build a ``Text``; places are written ``{name}``."""
    return Text(template, tuple(sorted(params.items())))
