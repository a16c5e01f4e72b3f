"""What the shop's own witness cups say about a sheet's times, by a stated method."""

from collections.abc import Sequence
from math import exp, log, sqrt
from typing import Literal

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Ratio, Second

LEAST = 3
"""Batches before a new version is offered."""
T95: dict[int, float] = {
    2: 4.303, 3: 3.182, 4: 2.776, 5: 2.571, 6: 2.447, 7: 2.365, 8: 2.306, 9: 2.262, 10: 2.228,
    12: 2.179, 15: 2.131, 20: 2.086, 30: 2.042, 60: 2.000,
}  # fmt: skip
"""Student's t, 97.5 %, by degrees of freedom; handbook table from memory."""
Kind = Literal["hazard", "release"]


@frozen
class Fitted:
    """How the observed ages stand to the sheet's."""

    count: int
    factor: Ratio
    """Middle of observed over sheet's age."""
    low: Ratio
    high: Ratio
    """The next batch will lie between these, 95 of 100 times, if batches scatter as these did."""


@frozen
class Offer:
    """A time for a new version of the sheet."""

    time: Second
    changed: bool
    text: Text


def t_value(freedom: int) -> float:
    """Student's t of the next smaller row of the table: never too small."""
    if freedom < min(T95):
        raise out_of_range("freedom", "Two batches say nothing about their scatter.")
    return T95[max(each for each in T95 if each <= freedom)]


def fit(observed: Sequence[Second], sheet: Second) -> Fitted:
    r"""Middle and prediction band of observed ages over the sheet's.

    .. math:: \ln f = \overline{\ln(t_i/t)} ,\quad
        b = t_{0.975} \, s \sqrt{1 + 1/n}

    Plain: mean of the logarithms of observed ÷ sheet; band for the next one by Student's t

    Parameters
    ----------
    observed
        Ages at the sheet's reference temperature when the mark was seen, [s].
    sheet
        The sheet's time at that temperature, [s].

    Returns
    -------
    Fitted
        Factor with its band.

    Raises
    ------
    OutOfRangeError
        If there are fewer than three ages or one is not positive.

    Notes
    -----
    The mark was true some time before somebody looked, so observed ages lean late.

    Sources
    -------
    STUDENT-T

    Examples
    --------
    >>> found = fit([Second(9000.0), Second(10000.0), Second(11000.0)], Second(10000.0))
    >>> round(found.factor, 2), found.count
    (1.0, 3)
    """
    need_positive(sheet=sheet)
    if len(observed) < LEAST:
        raise out_of_range("observed", "Three batches are needed before anything is offered.")
    for each in observed:
        need_positive(observed=each)
    logs = [log(each / sheet) for each in observed]
    count = len(logs)
    middle = sum(logs) / count
    spread = sqrt(sum((each - middle) ** 2 for each in logs) / (count - 1))
    band = t_value(count - 1) * spread * sqrt(1 + 1 / count)
    return Fitted(count, Ratio(exp(middle)), Ratio(exp(middle - band)), Ratio(exp(middle + band)))


def offer(found: Fitted, sheet: Second, kind: Kind, maker_least: Second | None = None) -> Offer:
    """Offer a time: a hazard may only come earlier, a release never below the maker's minimum."""
    if kind == "hazard":
        time = Second(min(sheet, sheet * found.low))
    else:
        time = Second(max(sheet * found.high, maker_least if maker_least is not None else sheet))
    changed = abs(time - sheet) > 0.005 * sheet
    words = say(
        "{n} batches: {time} instead of {sheet}.", n=found.count,
        time=Amount(time, "Second"), sheet=Amount(sheet, "Second"),
    )  # fmt: skip
    if not changed:
        words = say("{n} batches: the sheet's time stands.", n=found.count)
    return Offer(time, changed, words)
