from array import array

import pytest

from shopassist.core.alarms.table import Priority
from shopassist.core.alarms.tones import HARMONICS, PATTERNS, RATE, burst

np = pytest.importorskip("numpy")


def samples(priority: Priority, *, loud: bool = False) -> "array[int]":
    found = array("h")
    found.frombytes(burst(priority, loud=loud))
    return found


@pytest.mark.parametrize("priority", PATTERNS)
def test_a_burst_is_as_long_as_its_pattern_and_within_scale(priority: Priority) -> None:
    found, pattern = samples(priority), PATTERNS[priority]
    assert len(found) / RATE == pytest.approx(pattern.length, abs=0.001)
    assert pattern.length < 3.0
    assert max(found) <= 32_767 * 0.5
    assert max(samples(priority, loud=True)) > max(found)


@pytest.mark.parametrize("priority", PATTERNS)
def test_what_is_heard_lies_between_five_hundred_hertz_and_four_kilohertz(
    priority: Priority,
) -> None:
    pattern = PATTERNS[priority]
    pulse = np.array(samples(priority)[: round(pattern.pulse * RATE)], dtype=float)
    power = np.abs(np.fft.rfft(pulse)) ** 2
    pitch = np.fft.rfftfreq(len(pulse), 1 / RATE)
    heard = power[(pitch > 500) & (pitch < 4000)].sum() / power.sum()
    assert heard > 0.97
    peaks = [power[np.argmin(np.abs(pitch - pattern.pitch * (n + 1)))] for n in range(5)]
    assert len(HARMONICS) == 5
    assert all(peak > power.max() / 100 for peak in peaks)


def test_the_patterns_are_told_apart_by_their_pulses() -> None:
    assert [len(PATTERNS[each].pauses) for each in ("high", "medium", "low")] == [10, 3, 2]


def test_a_pulse_begins_and_ends_in_silence() -> None:
    found = samples("low")
    assert found[0] == 0
    assert abs(found[-1]) == 0
