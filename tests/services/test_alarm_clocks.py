"""No clock fault may call a hazard later or a release earlier."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.services.alarm_bench import HOUR, Bench

MOVES = st.lists(
    st.tuples(
        st.sampled_from(["step", "suspend", "reboot", "zone"]),
        st.sampled_from([-31_536_000.0, -86_400.0, -3600.0, -90.0, 90.0, 3600.0, 31_536_000.0]),
        st.integers(1, 40),
    ),
    max_size=4,
)


NEAR, FAR = 100.0, 900.0
"""So seldom the clock is looked at here."""


def first_calls(folder: Path, moves: list[tuple[str, float, int]]) -> dict[str, float]:
    """True time after hardener at which each alarm was first raised."""
    bench = Bench(folder)
    pot = bench.plate()
    open_batch = bench.mixed("open")
    bench.batches.poured(open_batch)
    held = bench.mixed("held")
    bench.batches.load(held, pot)
    true, owed = 0.0, list(moves)
    found: dict[str, float] = {}
    while true < 30 * HOUR:
        if owed and true >= owed[0][2] * 1800.0:
            kind, size, _ = owed.pop(0)
            if kind == "step":
                bench.clock.step(size)
            elif kind == "zone":
                bench.clock.set_zone(int(size) % 86_400 // 1800 * 1800 - 43_200)
            elif kind == "suspend":
                bench.clock.suspend(min(abs(size), HOUR))
                true += min(abs(size), HOUR)
            else:
                bench.clock.reboot(min(abs(size), HOUR))
                true += min(abs(size), HOUR)
                bench = bench.again()
        stride = NEAR if true < 5 * HOUR else FAR
        bench.clock.advance(stride)
        true += stride
        bench.alarms.tick()
        for alarm in bench.alarms.book.alarms.values():
            name = "open" if alarm.owner == open_batch else "held"
            found.setdefault(f"{alarm.kind}/{name}", true)
    bench.close()
    return found


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> dict[str, float]:
    return first_calls(tmp_path_factory.mktemp("plain"), [])


@settings(
    max_examples=5, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(moves=MOVES)
def test_no_clock_fault_calls_a_hazard_later_or_a_release_earlier(
    tmp_path_factory: pytest.TempPathFactory,
    plain: dict[str, float],
    moves: list[tuple[str, float, int]],
) -> None:
    faulty = first_calls(tmp_path_factory.mktemp("faulty"), moves)
    asleep = sum(min(abs(s), HOUR) for kind, s, _ in moves if kind in ("suspend", "reboot"))
    for key in ("hold_over/held", "demould/held"):
        assert faulty.get(key, 1e9) >= plain[key] - FAR - 1
    hazards = [
        f"{kind}/open" for kind in ("pressurise_soon", "pressurise_now", "pressurise_missed")
    ]
    first_plain = min(plain[key] for key in hazards)
    first_faulty = min(faulty.get(key, 1e9) for key in hazards)
    assert first_faulty <= first_plain + asleep + NEAR + 1
