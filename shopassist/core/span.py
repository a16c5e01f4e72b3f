"""A value with the range it may lie in."""

from collections.abc import Callable
from itertools import product
from typing import Generic, TypeVar

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen

Q = TypeVar("Q", bound=float)
Q_co = TypeVar("Q_co", bound=float, covariant=True)


@frozen
class Span(Generic[Q_co]):
    """Lowest, likely and highest value of one quantity."""

    low: Q_co
    mid: Q_co
    high: Q_co

    @property
    def is_exact(self) -> bool:
        """True where there is nothing to carry."""
        return self.low == self.high


def exact(value: Q) -> Span[Q]:
    """A value without a range."""
    return Span(value, value, value)


def between(low: Q, high: Q, field: str) -> Span[Q]:
    """A range typed as its two ends; the likely value is half-way."""
    if not low <= high:
        raise out_of_range(field, "The highest is under the lowest: swap the two.")
    return Span(low, type(low)((low + high) / 2), high)


def across(function: Callable[..., Q], *spans: Span[float]) -> Span[Q]:
    """Carry ranges through a function that rises or falls steadily in each argument.

    Such a function is extreme at corners, so its value at every corner gives the exact range.
    """
    mid = function(*(span.mid for span in spans))
    ends = [(span.low,) if span.is_exact else (span.low, span.high) for span in spans]
    if all(len(end) == 1 for end in ends):
        return exact(mid)
    corners = [function(*corner) for corner in product(*ends)]
    return Span(min(corners), mid, max(corners))
