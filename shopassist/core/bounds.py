"""Refusals of values that no formula can take, worded for the field they came from."""

from math import inf

from shopassist.core.errors import out_of_range


def need_positive(**values: float) -> None:
    """Refuse zero, negative and endless values, each beside the field of its name."""
    for field, value in values.items():
        if not 0.0 < value < inf:
            raise out_of_range(field, "This must be more than zero. Measure it again.")


def need_not_negative(**values: float) -> None:
    """Refuse negative and endless values, each beside the field of its name."""
    for field, value in values.items():
        if not 0.0 <= value < inf:
            raise out_of_range(field, "This must not be less than zero.")


def need_share(**values: float) -> None:
    """Refuse shares outside nothing up to, not including, the whole."""
    for field, value in values.items():
        if not 0.0 <= value < 1.0:
            raise out_of_range(field, "Give a share from 0 % to under 100 %.")
