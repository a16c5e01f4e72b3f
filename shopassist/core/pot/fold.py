"""Fold a pot's rows into its record; what cannot be read or followed is not known."""

from collections.abc import Iterable
from dataclasses import field

from shopassist.core.frozen import frozen
from shopassist.core.pot.advance import advance
from shopassist.core.pot.events import Event, PlateOf, Tell, event_from_row
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.words import Told
from shopassist.core.rows import Reading, Row

VERSION = 1
"""Version of the row bodies that this code reads."""


@frozen
class AgeScale:
    """Seconds that run on through suspend and restart, made from readings of two clocks."""

    reading: Reading | None = None
    age: float = 0.0

    def same_boot(self, reading: Reading) -> bool:
        """Whether the machine ran on since the last reading."""
        return self.reading is None or (
            reading.boot_id == self.reading.boot_id
            and reading.since_boot >= self.reading.since_boot
        )

    def on(self, reading: Reading) -> "AgeScale":
        """Run on to another reading."""
        if self.reading is None:
            return AgeScale(reading, self.age)
        if self.same_boot(reading):
            passed = reading.since_boot - self.reading.since_boot
        else:
            passed = max(0.0, reading.utc - self.reading.utc)
        return AgeScale(reading, self.age + passed)

    def now(self, reading: Reading) -> Now:
        """The instant of a reading on this scale."""
        return Now(self.on(reading).age, reading.utc)


@frozen
class Record:
    """A pot's record and the scale its ages lie on."""

    state: PotState = field(default_factory=PotState)
    scale: AgeScale = field(default_factory=AgeScale)
    seq: int = 0
    """Place of the last folded row in the whole journal."""


def tell(record: Record, finding: Tell, reading: Reading) -> Record:
    """Fold in a finding; it is never refused."""
    result = advance(record.state, finding, record.scale.now(reading))
    state = PotState() if isinstance(result, Refusal) else result
    return Record(state, record.scale.on(reading), record.seq)


def fold(record: Record, row: Row, plate_of: PlateOf, displaced: int = 0) -> Record:
    """Fold one committed row in."""
    reading = row.recorded
    if not record.scale.same_boot(reading):
        record = tell(record, Tell(Told.RESTARTED), reading)
    if record.seq <= displaced < row.seq:
        record = tell(record, Tell(Told.RESTORED), reading)
    event = event_from_row(row.kind, row.body, plate_of) if row.version == VERSION else None
    result = _applied(record, event, reading)
    if isinstance(result, Refusal):
        result = tell(record, Tell(Told.BROKEN), reading).state
    return Record(result, record.scale.on(reading), row.seq)


def _applied(record: Record, event: Event | None, reading: Reading) -> PotState | Refusal:
    now = record.scale.now(reading)
    return advance(record.state, Tell(Told.BROKEN) if event is None else event, now)


def fold_all(rows: Iterable[Row], plate_of: PlateOf, displaced: int = 0) -> Record:
    """Fold a whole stream from nothing: a pot nobody has reported on is not known."""
    record = Record()
    for row in rows:
        record = fold(record, row, plate_of, displaced)
    return record
