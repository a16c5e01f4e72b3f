"""Nights that are colder than the days, as a course for what-ifs beside the truth."""

from shopassist.core.bounds import need_positive
from shopassist.core.civil import DAY
from shopassist.core.cure import Warmth
from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kelvin, Second, UtcSecond

COUNT = 60
"""So many nights are looked ahead; after them it is taken to stay as by day; ours."""


@frozen
class Nights:
    """A shop whose heater is down by night, every night at the same hours."""

    day: Kelvin
    night: Kelvin
    begins: UtcSecond
    """One of the evenings, at any time before or after now."""
    length: Second

    @staticmethod
    def between(day: Kelvin, night: Kelvin, evening: UtcSecond, morning: UtcSecond) -> "Nights":
        """From any evening's hour to any morning's."""
        length = (morning - evening) % DAY
        if length <= 0:
            raise out_of_range("when", "The night has no length: type two different hours.")
        return Nights(day, night, evening, Second(length))

    def coming(self, now: UtcSecond) -> tuple[Warmth, ...]:
        """Day and night by turns, in seconds from now; the resin is taken to be as warm."""
        need_positive(length=self.length)
        start = (self.begins - now) % DAY
        if start + self.length > DAY:
            start -= DAY
        found, done = list[Warmth](), 0.0
        for _ in range(COUNT):
            for until, temp in ((start, self.day), (start + self.length, self.night)):
                if until > done:
                    found.append(Warmth(Second(until), temp, temp, Second(done)))
                    done = until
            start += DAY
        return (*found, Warmth(Second(done + 1.0), self.day, self.day, Second(done)))


def later(reading: Warmth, by: float) -> Warmth:
    """The same on a scale that begins earlier by so much."""
    since = None if reading.since is None else Second(reading.since + by)
    return Warmth(Second(reading.at + by), reading.low, reading.high, since, reading.known)
