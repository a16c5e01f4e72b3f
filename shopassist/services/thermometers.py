"""Thermometers that write by themselves: followed, read line by line, made readings of cures.

Every sample is kept in a block beside the rows; a cure gets the lowest and highest of each few
minutes as one interval reading, so that a logger of a week is some two thousand rows and no more.
"""

from collections import deque
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import Protocol

from shopassist.clock import Clock
from shopassist.core.cabinet_watch import Probe
from shopassist.core.civil import DAY
from shopassist.core.entry.times import instants_of
from shopassist.core.errors import ShopError, StoreError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.rows import Draft
from shopassist.core.thermometers.bins import Bin, Sample, binned
from shopassist.core.thermometers.lines import Layout, Line, Order, layout_of, printed, read_line
from shopassist.core.thermometers.record import WAYS, Thermometer
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.ports import Samples
from shopassist.services.versions import Library

PREFIX = "thermometer/"
QUIET = Second(900.0)
"""A thermometer that says nothing for so long is told; ours."""
FUTURE = Second(60.0)
"""A sample so far ahead of our clock says that the logger's clock is wrong; ours."""
LATELY = 60
"""So many stretches are kept at hand; an hour is twelve where it hardly moves."""
GUESS_FROM = 12
"""So many lines are looked at to find out how a file is written."""


class Feed(Protocol):
    """Whole new lines of one file or port, whenever it is asked."""

    def lines(self) -> tuple[str, ...]:
        """What has come since the last call; raises ``OSError`` where it cannot be read."""
        ...

    def head(self) -> tuple[str, ...]:
        """The first lines of a file, for its columns; empty for a port."""
        ...

    def close(self) -> None:
        """Let go."""
        ...


@frozen
class Cures:
    """Where readings go."""

    batches: BatchService
    cure: CureService
    hand: InHand


class Followed:
    """One thermometer while it is followed."""

    def __init__(
        self, thermometer: Thermometer, feed: Feed, now: float, kept: Sample | None = None
    ) -> None:
        self.thermometer, self.feed = thermometer, feed
        self.trouble: Text | None = None
        self.latest = kept
        """Newest sample; at first what was kept before the program was closed."""
        self.heard = now
        """When the last sample came, [s since 1970 UTC]."""
        self.passed_over = 0
        """Lines that showed no temperature."""
        self._layout: Layout | None = None
        self.waiting: list[Sample] = []
        self.lately: deque[Bin] = deque(maxlen=LATELY)
        """Newest stretches, whether anything cures or not."""

    def samples(self, now: UtcSecond, order: Order, offset_at: Callable[[float], float]) -> None:
        """Read what has come into ``waiting``."""
        lines = self.feed.lines()
        for text in lines:
            line = self._read(text, lines, order)
            if line is None:
                self.passed_over += 1
                # It may be the heading of a file that has taken the old one's place.
                self._layout = None
                continue
            at = self._time(line, now, offset_at)
            if at is not None and (self.latest is None or at > self.latest[0]):
                self.latest = (at, line.temp)
                self.waiting.append(self.latest)
                self.heard = now

    def _read(self, text: str, lines: tuple[str, ...], order: Order) -> Line | None:
        if self.thermometer.way == WAYS[1]:
            temp = printed(text, self.thermometer.unit)
            return None if temp is None else Line(temp)
        if self._layout is None:
            seen = (*self.feed.head(), *lines)[:GUESS_FROM]
            self._layout = layout_of(seen, self.thermometer.column, self.thermometer.unit)
        return None if self._layout is None else read_line(text, self._layout, order)

    def _time(
        self, line: Line, now: UtcSecond, offset_at: Callable[[float], float]
    ) -> UtcSecond | None:
        """By the logger's clock, set right; by its coming where it has none."""
        if line.utc is None and line.local is None:
            return now
        utc = line.utc if line.utc is not None else self._instant(line.local or 0.0, now, offset_at)
        at = utc - self.thermometer.ahead
        if at > now + FUTURE:
            ahead = Amount(at - now, "Second")
            self.trouble = say("its clock is ahead by {ahead}: say so in its record", ahead=ahead)
            return None
        return UtcSecond(min(at, now))

    def _instant(self, local: float, now: UtcSecond, offset_at: Callable[[float], float]) -> float:
        """When local clocks showed this; of an hour that comes twice, what goes on soonest."""
        found = sorted(instants_of(local, offset_at))
        if not found:
            # The logger was not put forward with the others.
            return local - offset_at(local - DAY)
        if self.latest is not None:
            after = self.latest[0] + self.thermometer.ahead
            return next((each for each in found if each > after), found[-1])
        upto = now + FUTURE + self.thermometer.ahead
        return max((each for each in found if each <= upto), default=found[0])


class ThermometerService:
    """Follows every thermometer on record."""

    def __init__(
        self,
        library: Library[Thermometer],
        samples: Samples,
        cures: Cures,
        clock: Clock,
        open_feed: Callable[[Thermometer], Feed],
    ) -> None:
        self.changed: Hook[None] = Hook()
        self._library, self._samples, self._clock = library, samples, clock
        self._batches, self._cure, self._hand = cures.batches, cures.cure, cures.hand
        self._open = open_feed
        self.order: Order = "dmy"
        self._followed: dict[str, Followed] = {}
        library.changed.connect(self._renewed)
        for version in library.all():
            self._renewed(version.id)

    def _renewed(self, record_id: str) -> None:
        """A record was made, changed or taken away: follow it as it is now."""
        old = self._followed.pop(record_id, None)
        if old is not None:
            old.feed.close()
        newest = self._library.newest(record_id)
        if newest is not None and newest.record is not None and not newest.removed:
            feed = self._open(newest.record)
            self._followed[record_id] = Followed(
                newest.record, feed, self._clock.read().utc, self._kept_last(record_id)
            )

    def _kept_last(self, record_id: str) -> Sample | None:
        """The newest sample on record: a file that is read again is taken up behind it."""
        for row in self._samples.tail(PREFIX + record_id, 1):
            with suppress(StoreError):
                return next(
                    ((at, Kelvin(temp)) for at, temp in reversed(self._samples.block(row))), None
                )
        return None

    def all(self) -> tuple[Followed, ...]:
        """Every thermometer that is followed."""
        return tuple(self._followed.values())

    def poll(self) -> None:
        """Look whether anything has come; cheap where nothing has."""
        for record_id, followed in self._followed.items():
            self._poll(record_id, followed)

    def _poll(self, record_id: str, followed: Followed) -> None:
        now = self._clock.read().utc
        before = (followed.trouble, followed.latest)
        try:
            followed.trouble = None
            followed.samples(now, self.order, lambda utc: float(self._clock.offset_at(utc)))
        except OSError as error:
            followed.trouble = say("{why}", why=str(error.strerror or error))
        if followed.trouble is None and now - followed.heard > QUIET:
            followed.trouble = say("nothing has come for a quarter of an hour")
        bins, taken = binned(followed.waiting)
        if taken:
            self._keep(record_id, followed, bins, followed.waiting[:taken])
            del followed.waiting[:taken]
        if (followed.trouble, followed.latest) != before:
            self.changed.emit(None)

    def _keep(
        self, record_id: str, followed: Followed, bins: tuple[Bin, ...], samples: list[Sample]
    ) -> None:
        """The block first, then a reading for each cure that it concerns."""
        followed.lately.extend(bins)
        body = {"measures": followed.thermometer.measures}
        draft = Draft(PREFIX + record_id, "samples", body)
        self._samples.append_block(draft, [(at, float(temp)) for at, temp in samples])
        for batch_id in self._concerned(followed.thermometer):
            for each in bins:
                # A stretch of before the hardener, or out of its order, is none of this cure's.
                with suppress(ShopError):
                    self._add(batch_id, each, followed.thermometer)

    def _add(self, batch_id: str, each: Bin, thermometer: Thermometer) -> None:
        batch = self._batches.get(batch_id)
        if batch.first_contact is None or each.until <= batch.first_contact:
            return
        since = max(each.since, batch.first_contact)
        low, high = Kelvin(each.low), Kelvin(each.high)
        self._batches.add_temperature(
            batch_id, low, high, thermometer.measures, each.until,
            UtcSecond(since) if since < each.until else None,
        )  # fmt: skip

    def _concerned(self, thermometer: Thermometer) -> Iterator[str]:
        """Resin and mould: the batch in hand. Pot wall: what is in a pot. Air: all that cures."""
        for batch_id in self._cure.running():
            if thermometer.measures in ("resin", "mould"):
                concerned = batch_id == self._hand.batch
            elif thermometer.measures == "pot wall":
                concerned = bool(self._batches.get(batch_id).pot)
            else:
                concerned = True
            if concerned:
                yield batch_id

    def probes(self) -> Iterator[Probe]:
        """What was read in the cabinet's air lately, also while nothing cures."""
        for followed in self._followed.values():
            if followed.thermometer.measures == "cabinet air":
                for each in followed.lately:
                    yield Probe(each.since, each.until, each.low, each.high, loaded=False)

    def close(self) -> None:
        """Let go of every file and port."""
        for followed in self._followed.values():
            followed.feed.close()
        self._followed.clear()
