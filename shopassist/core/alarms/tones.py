"""The tones of the alarms as samples: bursts of sines, made here, so that nothing need be shipped.

A fundamental between 500 and 1,000 Hz with four harmonics under 4 kHz: what older ears and a dust
extractor leave over. Pattern, pitch and word tell the priorities apart.
"""

from array import array
from functools import cache
from math import pi, sin

from shopassist.core.alarms.table import Priority
from shopassist.core.frozen import frozen

RATE = 22_050
"""Samples per second."""
HARMONICS = (1.0, 0.6, 0.45, 0.3, 0.2)
"""Strength of the fundamental and of each harmonic; ours."""
RAMP = 0.02
"""Each pulse swells and fades so long, [s]: no click."""
PLAIN, LOUD = 0.5, 0.95
"""Share of full scale, and after three minutes without an answer."""


@frozen
class Pattern:
    """Pulses of one pitch, each followed by a pause."""

    pitch: float
    """[Hz]."""
    pulse: float
    """[s]."""
    pauses: tuple[float, ...]
    """After each pulse, [s]."""

    @property
    def length(self) -> float:
        """From the first sample to the last, [s]."""
        return len(self.pauses) * self.pulse + sum(self.pauses)


PATTERNS: dict[Priority, Pattern] = {
    "high": Pattern(740.0, 0.15, (0.08, 0.08, 0.25, 0.08, 0.5, 0.08, 0.08, 0.25, 0.08, 0.0)),
    "medium": Pattern(622.0, 0.2, (0.2, 0.2, 0.0)),
    "low": Pattern(523.0, 0.25, (0.25, 0.0)),
}


@cache
def burst(priority: Priority, *, loud: bool = False) -> bytes:
    """One burst, as signed 16-bit samples of one channel."""
    pattern = PATTERNS[priority]
    pulse = _pulse(pattern.pitch, pattern.pulse, LOUD if loud else PLAIN)
    found = array("h")
    for pause in pattern.pauses:
        found.extend(pulse)
        found.extend(array("h", bytes(2 * round(pause * RATE))))
    return found.tobytes()


def _pulse(pitch: float, length: float, share: float) -> "array[int]":
    count = round(length * RATE)
    scale = 32_767 * share / sum(HARMONICS)
    step = 2 * pi * pitch / RATE
    return array("h", (round(scale * _swell(n, count) * _wave(step * n)) for n in range(count)))


def _wave(angle: float) -> float:
    return sum(part * sin(angle * (n + 1)) for n, part in enumerate(HARMONICS))


def _swell(n: int, count: int) -> float:
    edge = RAMP * RATE
    return min(1.0, n / edge, (count - 1 - n) / edge)
