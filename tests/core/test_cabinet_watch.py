"""A probe inside against the cabinet's setting."""

import pytest

from shopassist.core.cabinet_watch import Probe, astray
from shopassist.core.quantities import Kelvin, UtcSecond

SET = Kelvin(313.15)
MINUTE = 60.0


def probe(minute: float, off: float, *, loaded: bool = True, since: float | None = None) -> Probe:
    at, temp = UtcSecond(minute * MINUTE), Kelvin(SET + off)
    begun = at if since is None else UtcSecond(since * MINUTE)
    return Probe(begun, at, temp, temp, loaded)


def test_nothing_read_is_nothing_wrong() -> None:
    assert astray([], SET) is None


@pytest.mark.parametrize(("off", "side"), [(3.0, None), (3.1, "hot"), (-3.0, None), (-3.1, "cold")])
def test_three_kelvin_are_allowed_and_no_more(off: float, side: str | None) -> None:
    found = astray([probe(0, off)], SET)
    assert (found.side if found else None) == side


def test_somebody_is_called_a_quarter_of_an_hour_after_it_was_first_off() -> None:
    found = astray([probe(8, 5), probe(0, 0), probe(4, 4)], SET)
    assert found is not None
    assert found.since == 4 * MINUTE
    assert found.begins == 19 * MINUTE
    assert found.ends == (8 + 180) * MINUTE


def test_a_reading_within_begins_it_anew() -> None:
    assert astray([probe(0, 9), probe(10, 0)], SET) is None
    found = astray([probe(0, 9), probe(10, 0), probe(20, 9)], SET)
    assert found is not None
    assert found.since == 20 * MINUTE


def test_an_interval_is_off_since_its_beginning() -> None:
    found = astray([probe(5, 4, since=0)], SET)
    assert found is not None
    assert float(found.since) == 0.0


def test_what_still_warms_up_is_not_cold_yet() -> None:
    warming = [probe(m, -20 + m) for m in range(0, 16, 5)]
    found = astray(warming, SET)
    assert found is not None
    assert found.since == 15 * MINUTE
    stuck = [probe(m, -20) for m in range(0, 16, 5)]
    found = astray(stuck, SET)
    assert found is not None
    assert float(found.since) == 0.0


def test_an_empty_cabinet_may_be_cold_and_may_not_be_hot() -> None:
    assert astray([probe(0, -20, loaded=False)], SET) is None
    assert astray([probe(0, 20, loaded=False)], SET) is not None


def test_readings_of_long_ago_are_not_gone_through() -> None:
    found = astray([probe(m, 9) for m in range(0, 200, 10)], SET)
    assert found is not None
    assert found.since == (190 - 60) * MINUTE
