from collections.abc import Callable, Iterator
from itertools import pairwise

import pytest
from pytestqt.qtbot import QtBot

from shopassist.widgets.ticker import Ticker


class Hands:
    """Wall time and stopwatch, moved together or apart."""

    def __init__(self) -> None:
        self.wall, self.elapsed = 1_790_000_000.25, 0.0

    def go(self, seconds: float) -> None:
        self.wall += seconds
        self.elapsed += seconds


def still_runs(ticker: Ticker) -> bool:
    return ticker.is_running


@pytest.fixture
def hands() -> Hands:
    return Hands()


@pytest.fixture
def ticker(qapp: object, hands: Hands) -> Iterator[Ticker]:
    made = Ticker(lambda: hands.wall, stopwatch=lambda: hands.elapsed)
    yield made
    made.deleteLater()


def test_it_is_still_when_nobody_listens(ticker: Ticker) -> None:
    assert not still_runs(ticker)
    stop = ticker.every(1.0, lambda: None)
    other = ticker.every(60.0, lambda: None)
    assert still_runs(ticker)
    stop()
    assert still_runs(ticker)
    other()
    assert not still_runs(ticker)
    stop()
    assert not still_runs(ticker)


def test_calls_fall_on_whole_seconds_of_the_wall(ticker: Ticker, hands: Hands) -> None:
    at: list[float] = []
    stop = ticker.every(1.0, lambda: at.append(hands.wall))
    for _ in range(350):
        hands.go(0.01)
        ticker.beat()
    stop()
    assert [(each + 0.5) % 1 for each in at] == pytest.approx([0.5] * 3, abs=0.011)
    assert [b - a for a, b in pairwise(at)] == pytest.approx([1.0, 1.0])


def test_rates_keep_apart(ticker: Ticker, hands: Hands) -> None:
    seconds: list[int] = []
    frames: list[int] = []
    stops = [
        ticker.every(1.0, lambda: seconds.append(1)),
        ticker.every(0.1, lambda: frames.append(1)),
    ]
    for _ in range(1000):
        hands.go(0.005)
        ticker.beat()
    for stop in stops:
        stop()
    assert len(seconds) == 5
    assert 45 <= len(frames) <= 51


def test_a_call_a_hair_early_is_not_made_twice(ticker: Ticker, hands: Hands) -> None:
    calls: list[int] = []
    stop = ticker.every(1.0, lambda: calls.append(1))
    hands.go(0.749)
    ticker.beat()
    hands.go(0.002)
    ticker.beat()
    stop()
    assert len(calls) == 1


def test_a_clock_that_stands_still_does_not_make_it_hurry(ticker: Ticker, hands: Hands) -> None:
    calls: list[int] = []
    hands.wall = 1_790_000_000.999
    stop = ticker.every(1.0, lambda: calls.append(1))
    for _ in range(1000):
        hands.elapsed += 0.01
        ticker.beat()
    stop()
    assert 6 <= len(calls) <= 20


def test_a_wall_clock_set_back_stops_nothing(ticker: Ticker, hands: Hands) -> None:
    calls: list[int] = []
    stop = ticker.every(1.0, lambda: calls.append(1))
    hands.wall -= 3600.0
    for _ in range(400):
        hands.go(0.01)
        ticker.beat()
    stop()
    assert 3 <= len(calls) <= 4


def test_after_a_move_by_hand_everybody_is_called(ticker: Ticker) -> None:
    calls: list[str] = []
    stops = [
        ticker.every(60.0, lambda: calls.append("a")),
        ticker.every(1.0, lambda: calls.append("b")),
    ]
    ticker.call_all()
    for stop in stops:
        stop()
    assert calls == ["a", "b"]


def test_a_listener_may_stop_itself_and_others_within_a_call(ticker: Ticker) -> None:
    calls: list[str] = []
    stops: dict[str, Callable[[], None]] = {}

    def first() -> None:
        calls.append("first")
        stops["first"]()
        stops["second"]()

    stops["first"] = ticker.every(1.0, first)
    stops["second"] = ticker.every(1.0, lambda: calls.append("second"))
    ticker.call_all()
    assert calls == ["first"]
    assert not ticker.is_running


def test_a_listener_that_fails_does_not_stop_the_clock(ticker: Ticker) -> None:
    def fail() -> None:
        raise LookupError

    stop = ticker.every(1.0, fail)
    with pytest.raises(LookupError):
        ticker.call_all()
    assert ticker.is_running
    stop()


@pytest.mark.parametrize("seconds", [0.0, -1.0, float("nan")])
def test_a_rate_is_more_than_nothing(ticker: Ticker, seconds: float) -> None:
    with pytest.raises(ValueError, match="not a rate"):
        ticker.every(seconds, lambda: None)


def test_the_real_timer_calls(qtbot: QtBot) -> None:
    calls: list[int] = []
    ticker = Ticker(lambda: 0.0)
    stop = ticker.every(0.01, lambda: calls.append(1))
    qtbot.waitUntil(lambda: len(calls) >= 3, timeout=2_000)
    stop()
    ticker.deleteLater()
