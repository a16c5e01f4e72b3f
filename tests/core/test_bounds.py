"""Refusals, each beside the field that its value came from."""

from collections.abc import Callable

import pytest

from shopassist.core.bounds import need_not_negative, need_positive, need_share
from shopassist.core.errors import OutOfRangeError

INF, NAN = float("inf"), float("nan")
TINY, HUGE = 1e-300, 1e300
BELOW_ONE = 1.0 - 1e-12


@pytest.mark.parametrize(
    ("need", "taken", "refused"),
    [
        (need_positive, (TINY, 1.0, HUGE), (0.0, -0.0, -TINY, -1.0, INF, -INF, NAN)),
        (need_not_negative, (0.0, TINY, 1.0, HUGE), (-TINY, -1.0, INF, -INF, NAN)),
        (need_share, (0.0, TINY, 0.5, BELOW_ONE), (-TINY, -1.0, 1.0, 2.0, INF, NAN)),
    ],
)
def test_what_a_formula_cannot_take_is_refused_beside_its_field(
    need: Callable[..., None], taken: tuple[float, ...], refused: tuple[float, ...]
) -> None:
    for value in taken:
        need(before=value, mass=value)
    for value in refused:
        with pytest.raises(OutOfRangeError) as found:
            need(before=taken[-1], mass=value)
        assert found.value.field == "mass"
