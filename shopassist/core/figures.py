"""A computed number that can explain itself.

Services return ``Figure``s; the words of the explanation are built only when asked,
from the formula's own docstring, the inputs' origins and the outside checks.
"""

from collections.abc import Mapping
from dataclasses import field
from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text

OriginKind = Literal[
    "typed", "measured", "record", "sheet", "default", "standard", "common practice", "computed"
]


@frozen
class Origin:
    """An input and where it came from."""

    value: float | str
    quantity: str
    """Type name in ``core.quantities``; empty for a word or a plain number."""
    kind: OriginKind
    note: Text | None = None
    """For instance which sheet and version, or which of our defaults."""
    when: float | None = None
    """When it was typed or read, [s since 1970 UTC]."""
    source: str = ""
    """Key in ``core.sources``, where it has one."""
    unit: str = ""
    """Unit to show it in, as its field does: a share as ``%``; empty: the shop's own."""


@frozen
class Figure:
    """A result: value, range, and the way it was found."""

    id: str
    """The ``objectName`` of the place where it is shown."""
    value: float | None
    """None while it cannot be worked out; ``missing`` then says what is needed."""
    quantity: str
    formula: str
    """Dotted path of the core function, for instance ``mixing.part_masses``."""
    inputs: Mapping[str, "Figure | Origin"] = field(default_factory=dict)
    low: float | None = None
    high: float | None = None
    range_means: Text | None = None
    """What the range stands for, in words."""
    rounding: Text | None = None
    """How the shown number was rounded and towards which side."""
    omits: tuple[Text, ...] = ()
    """What the model leaves out."""
    missing: Text | None = None
    label: Text | None = None
    unit: str = ""
    """Unit to explain it in; empty: the shop's own."""
    late: bool = False
    """An instant to wait for: it is told as the next whole minute, never as the one before."""
