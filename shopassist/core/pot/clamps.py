"""The order in which a lid's clamps are tightened, and slackened again."""

from shopassist.core.errors import out_of_range

MOST = 48
_STARTS: dict[int, tuple[int, ...]] = {3: (1, 2, 3), 6: (1, 4, 2, 5, 3, 6)}
"""Clamps of the first quarter in turn, where the printed order is not every other one."""


def tightening_order(clamps: int) -> tuple[int, ...]:
    r"""Order in which clamps numbered clockwise from 1 are tightened, across the lid.

    .. math:: (k,\; k + n/2,\; k + n/4,\; k + 3n/4) \quad\text{for } n \text{ divisible by } 4

    Parameters
    ----------
    clamps : int
        Number of clamps on the lid.

    Returns
    -------
    tuple[int, ...]
        Clamp numbers, each once.

    Raises
    ------
    OutOfRangeError
        For less than one clamp or more than 48.

    Notes
    -----
    Odd counts go round in steps of half the circle; twice an odd count takes opposite pairs, each
    next pair on the axis farthest from the last one. Up to three clamps there is no cross order.
    Left out: how hard each pass is turned.

    Sources
    -------
    PRACTICE, PCC-1

    Examples
    --------
    >>> tightening_order(8)
    (1, 5, 3, 7, 2, 6, 4, 8)
    """
    if not 1 <= clamps <= MOST:
        raise out_of_range("clamps", "A lid has between 1 and {most} clamps here.", most=MOST)
    if clamps % 4 == 0:
        return _quarters(clamps)
    if clamps % 2 == 1:
        step = clamps // 2
        return tuple(k * step % clamps + 1 for k in range(clamps))
    return _pairs(clamps)


def _quarters(n: int) -> tuple[int, ...]:
    quarter = n // 4
    starts = _STARTS.get(quarter) or _spread(quarter)
    return tuple(
        k + turn for k in starts for turn in (0, n // 2, quarter, 3 * quarter)
    )  # fmt: skip


def _spread(count: int) -> tuple[int, ...]:
    """Every other start first, then those between."""
    return (*range(1, count + 1, 2), *range(2, count + 1, 2))


def _apart(first: int, second: int, n: int) -> int:
    around = abs(first - second) % n
    return min(around, n - around)


def _pairs(n: int) -> tuple[int, ...]:
    """For twice an odd number: no clamp lies as far from one end of an axis as from the other."""
    half, order = n // 2, [1, 1 + n // 2]
    axes = list(range(2, half + 1))
    last = 1
    while axes:
        axis = max(axes, key=lambda k: (_apart(k, last, half), -k))
        ends = (axis, axis + half)
        begin = max(ends, key=lambda end: _apart(end, order[-1], n))
        order += [begin, ends[1] if begin == ends[0] else ends[0]]
        axes.remove(axis)
        last = axis
    return tuple(order)


def slackening_order(clamps: int, nearest: int = 1) -> tuple[int, ...]:
    r"""Order in which clamps are slackened: across the lid, the far side first.

    .. math:: s_i = (t_i + f - 2) \bmod n + 1, \qquad f = \text{clamp farthest from the operator}

    Parameters
    ----------
    clamps : int
        Number of clamps on the lid.
    nearest : int
        Number of the clamp nearest to where the operator stands.

    Returns
    -------
    tuple[int, ...]
        Clamp numbers, each once; the first lies opposite the operator.

    Raises
    ------
    OutOfRangeError
        For a count outside 1 to 48, or a clamp that the lid does not have.

    Notes
    -----
    The tightening order turned so that it begins at the far side: half a turn a pass, every clamp
    stays hooked. If air is left, the lid gives on the far side first, away from the face.

    Sources
    -------
    CRACK-LID, OWN

    Examples
    --------
    >>> slackening_order(6, nearest=1)
    (4, 1, 5, 2, 6, 3)
    """
    order = tightening_order(clamps)
    if not 1 <= nearest <= clamps:
        raise out_of_range("nearest", "This lid has no clamp {number}.", number=nearest)
    far = (nearest - 1 + clamps // 2) % clamps
    return tuple((number - 1 + far) % clamps + 1 for number in order)
