"""Pots: pure advance, commit the row, then tell; what cannot be written is NOT KNOWN."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

from shopassist.clock import Clock
from shopassist.core.errors import StoreError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Moment, Text, say
from shopassist.core.pot.advance import advance
from shopassist.core.pot.cards import Card
from shopassist.core.pot.events import Answer, Event, PlateSet, Tell, row_of
from shopassist.core.pot.fold import Record, fold, fold_all, tell
from shopassist.core.pot.moves import LATE, UNDER_PRESSURE
from shopassist.core.pot.notes import report
from shopassist.core.pot.passing import settled
from shopassist.core.pot.plate import STANDARD_AMBIENT, Plate
from shopassist.core.pot.questions import expires_in, question_of, questions, state_word
from shopassist.core.pot.state import Now, PotState, Refusal
from shopassist.core.pot.words import Act, Belief, Branch, Item, Told
from shopassist.core.quantities import PascalAbsolute, PascalGauge, Second, UtcSecond
from shopassist.core.rows import Draft, Row
from shopassist.core.timeline import Finding
from shopassist.services.hooks import Hook
from shopassist.services.ports import Journal
from shopassist.services.versions import Library

if TYPE_CHECKING:
    from shopassist.core.pot.course import Course
    from shopassist.core.pot.state import Evidence

PREFIX = "pot/"
PLATE_KIND = "pot"
"""Pots are the records of this kind."""
WORST_FIRST = (
    Belief.SUSPECT, Belief.LETTING_DOWN, Belief.PROVING, Belief.CRACKED, Belief.CLEAR,
    Belief.PRESSURISED, Belief.UNKNOWN, Belief.CLOSED, Belief.OPEN,
)  # fmt: skip
"""Which pot the line shows first; a pot above its rating or too hot leads all."""
SLOWLY = Answer(Item.FALL_SPEED, "slowly")
TOO_QUICK = say(
    "Quicker than this pot's vent ever was: a port may be blocked. It fell at once, or can't tell."
)
ALARMING = (Branch.OVER_RATING, Branch.TOO_HOT, Branch.RELIEF_LIFTED)


class PotJournal(Journal, Protocol):
    """The journal as the pots see it."""

    def displaced(self) -> int:
        """``seq`` of the newest row that restored, copied or imported the data; 0 if none."""
        ...


@frozen
class Load:
    """What is in the pot, as its batches say: the earliest gel and the latest hold."""

    batches: tuple[str, ...] = ()
    pressurise_by: UtcSecond | None = None
    hold_until: UtcSecond | None = None
    hard: UtcSecond | None = None
    """When the last of them is hard, late estimate."""
    lowest: PascalGauge | None = None
    """The strictest least pressure of their sheets."""


@frozen
class PotLine:
    """The pot line's data for one pot; the words are made from it elsewhere."""

    pot_id: str
    name: str
    belief: Belief
    state_word: Text
    report: Text | None
    age: float | None
    """Age of the report, [s]."""
    action: Text | None
    expires_in: float | None
    branch: Branch = Branch.NONE
    pressure: float | None = None
    """The last typed reading, [Pa gauge]."""
    said_at: float | None = None
    """When the last report was made, [s since 1970 UTC]."""
    since: float | None = None
    """When air first went in, in this run; kept through restarts, [s since 1970 UTC]."""


class PotService:
    """All pots; every command carries the id of its pot."""

    def __init__(
        self,
        journal: PotJournal,
        clock: Clock,
        plates: Library[Plate],
        load_of: Callable[[str], Load] | None = None,
        ambient: Callable[[], PascalAbsolute] | None = None,
        beat: Callable[[], None] | None = None,
    ) -> None:  # fmt: skip
        self.changed: Hook[str] = Hook()
        self.alarm: Hook[Text] = Hook()
        """Told when a row could not be written: the log is lost."""
        self._journal = journal
        self._clock = clock
        self._plates = plates
        self._load_of = load_of or (lambda _pot: Load())
        self._ambient = ambient or (lambda: STANDARD_AMBIENT)
        self._beat = beat or (lambda: None)
        self._unwritten: set[str] = set()
        self._aired: dict[str, float] = {}
        self._kept: dict[str, tuple[int, tuple[Course, ...]]] = {}
        self._records = {pot_id: self._folded(pot_id) for pot_id in self._all_ids()}
        plates.changed.connect(self._plate_changed)

    def _all_ids(self) -> tuple[str, ...]:
        plated = (version.id for version in self._plates.all(removed=True))
        kept = (stream.removeprefix(PREFIX) for stream in self._journal.streams(PREFIX))
        return tuple(dict.fromkeys((*plated, *kept)))

    def _folded(self, pot_id: str) -> Record:
        displaced = self._journal.displaced()
        rows = self._journal.read(PREFIX + pot_id)
        self._count_air(pot_id, rows)
        record = fold_all(rows, lambda number: self._plate(pot_id, number), displaced)
        if rows and record.seq < displaced:
            return tell(record, Tell(Told.RESTORED), self._clock.read())
        return record

    def _count_air(self, pot_id: str, rows: Sequence[Row]) -> None:
        """Remember when air first went into a pot that nobody has opened since."""
        since = len(rows)
        while since and not _opens(rows[since - 1]):
            since -= 1
        if since:
            self._aired.pop(pot_id, None)
        first = next((row.happened for row in rows[since:] if _airs(row)), None)
        if first is not None:
            self._aired.setdefault(pot_id, float(first))

    def _plate(self, pot_id: str, number: int) -> Plate | None:
        version = self._plates.version(pot_id, number)
        return None if version is None else version.record

    # -- looking ---------------------------------------------------------------------

    def ids(self) -> tuple[str, ...]:
        """Every pot in use, in the order they were entered; a removed one while it may hold air."""
        return tuple(
            pot_id for pot_id in self._records
            if not self._removed(pot_id) or self.state(pot_id).belief is not Belief.OPEN
        )  # fmt: skip

    def _removed(self, pot_id: str) -> bool:
        newest = self._plates.newest(pot_id)
        return newest is None or newest.removed

    def name(self, pot_id: str) -> str:
        """The user's own name for a pot."""
        newest = self._plates.newest(pot_id)
        return pot_id if newest is None else newest.name

    def _now(self, pot_id: str) -> Now:
        return self._records[pot_id].scale.now(self._clock.read())

    def state(self, pot_id: str) -> PotState:
        """The record of one pot as it stands now, expiry included."""
        return settled(self._records[pot_id].state, self._now(pot_id))

    def card(self, pot_id: str) -> Card:
        """What a screen shows of one pot now."""
        now = self._now(pot_id)
        card = questions(self._records[pot_id].state, now)
        until = self.load(pot_id).hold_until
        if until is None or now.utc >= until or card.belief not in UNDER_PRESSURE:
            return card
        end = Moment(until, late=True)
        held = say("Hold at least until {until}: let down sooner, bubbles regrow.", until=end)
        early = say("The hold is not over: let down now and bubbles regrow.")
        line = held if card.belief is Belief.PRESSURISED else early
        return replace(card, notes=(*card.notes, line))

    def utc(self) -> float:
        """Wall time now, for words only."""
        return float(self._clock.read().utc)

    def revision(self, pot_id: str) -> int:
        """Changes with every row of one pot."""
        return self._records[pot_id].seq

    def ambient(self, pot_id: str) -> PascalAbsolute:
        """Air pressure of the place, as this pot's record counts it."""
        return self._records[pot_id].state.ambient

    def courses(self, pot_id: str) -> "tuple[Course, ...]":
        """Every run that had air, by the readings that were typed; never evidence."""
        from shopassist.core.pot.course import courses

        seq, kept = self._kept.get(pot_id, (-1, ()))
        if seq != self._records[pot_id].seq:
            kept = courses(self._journal.read(PREFIX + pot_id))
            self._kept[pot_id] = self._records[pot_id].seq, kept
        return kept

    def load(self, pot_id: str) -> Load:
        """What is in the pot."""
        return self._load_of(pot_id)

    def worst(self) -> tuple[str, ...]:
        """Pots in the order the pot line shows them: the worst first."""
        return tuple(sorted(self.ids(), key=self._badness))

    def _badness(self, pot_id: str) -> tuple[bool, int]:
        state = self.state(pot_id)
        calm = state.branch not in ALARMING or state.belief is Belief.OPEN
        return calm, WORST_FIRST.index(state.belief)

    def line(self, pot_id: str) -> PotLine:
        """What the pot line shows of one pot."""
        now, state = self._now(pot_id), self.state(pot_id)
        said = state.last or state.reported
        told = None if said is None else _told(said, reading=state.last is not None)
        return PotLine(
            pot_id, self.name(pot_id), state.belief, state_word(state), told,
            None if said is None else now.age - said.age,
            question_of(state, now), expires_in(state, now), state.branch,
            None if state.last is None else state.last.number,
            None if said is None else said.utc, self._aired.get(pot_id),
        )  # fmt: skip

    def inhibits_sleep(self) -> bool:
        """Whether the machine should be kept awake: from the let-down to the open lid."""
        return any(self.state(pot_id).belief in LATE for pot_id in self._records)

    def holds_air(self) -> bool:
        """Whether any pot may hold air, as far as is known."""
        return any(self.state(pot_id).belief is not Belief.OPEN for pot_id in self._records)

    # -- acts --------------------------------------------------------------------------

    def act(self, pot_id: str, event: Event) -> Refusal | None:
        """Apply one event and commit it; a refusal says why nothing moved."""
        self._beat()
        result = advance(self._records[pot_id].state, event, self._now(pot_id))
        if isinstance(result, Refusal):
            return result
        try:
            too_quick = event == SLOWLY and self._too_quick(pot_id)
        except StoreError as error:  # a disk that cannot be read now keeps no answer either
            refusal: Refusal | None = self._lose(pot_id, error)
        else:
            if too_quick:
                return Refusal(TOO_QUICK, "blowdown")
            refusal = self._commit(pot_id, [event])
        self._renew_plate(pot_id)
        self.changed.emit(pot_id)
        return refusal

    def _too_quick(self, pot_id: str) -> bool:
        """Whether the fall was quicker than this pot's vent ever was: only ever a block."""
        from shopassist.core.pot.blowing import learnt_area, too_quick

        state, runs = self._records[pot_id].state, self.courses(pot_id)
        if state.plate is None or not runs:
            return False
        area = learnt_area(runs, state.plate, state.ambient)
        return too_quick(runs[-1], state.plate, area, state.ambient)

    def _commit(self, pot_id: str, events: Sequence[Event]) -> Refusal | None:
        """Write rows and fold them in; if that fails the pot is not known."""
        owed = [Tell(Told.BROKEN)] if pot_id in self._unwritten else []
        drafts = [Draft(PREFIX + pot_id, *row_of(event)) for event in (*owed, *events)]
        try:
            rows = self._journal.append(drafts)
        except StoreError as error:
            return self._lose(pot_id, error)
        self._unwritten.discard(pot_id)
        record = self._records[pot_id]
        for row in rows:
            record = fold(record, row, lambda number: self._plate(pot_id, number))
        self._records[pot_id] = record
        self._count_air(pot_id, rows)
        return None

    def _lose(self, pot_id: str, error: StoreError) -> Refusal:
        """An answer that was not kept: the pot is not known, and the next row says so."""
        self._forget(pot_id, Told.BROKEN)
        self._unwritten.add(pot_id)
        self.alarm.emit(error.title)
        return Refusal(say("It could not be written: the pot counts as not known."), "written")

    def _forget(self, pot_id: str, what: Told) -> None:
        self._records[pot_id] = tell(self._records[pot_id], Tell(what), self._clock.read())

    # -- plates ------------------------------------------------------------------------

    def _plate_changed(self, pot_id: str) -> None:
        if pot_id not in self._records:
            self._records[pot_id] = self._folded(pot_id)
        self._renew_plate(pot_id)
        self.changed.emit(pot_id)

    def _renew_plate(self, pot_id: str) -> None:
        """Take the newest plate as soon as the procedure allows it."""
        newest, state = self._plates.newest(pot_id), self._records[pot_id].state
        if newest is None or newest.number == state.plate_version:
            return
        event = PlateSet(newest.number, newest.record, self._ambient())
        if not isinstance(advance(state, event, self._now(pot_id)), Refusal):
            self._commit(pot_id, [event])

    # -- what happened to the machine -----------------------------------------------------

    def start(self, findings: Sequence[Finding] = ()) -> None:
        """Begin a sitting: every pot that may hold air was out of sight."""
        for pot_id in tuple(self._records):
            self._tell(pot_id, [Tell(Told.RESTARTED), *_tellings(findings)])
            self._renew_plate(pot_id)

    def heed(self, findings: Sequence[Finding]) -> None:
        """Fold in what the session found while the program ran."""
        for pot_id in tuple(self._records):
            self._tell(pot_id, _tellings(findings))

    def disbelieve(self) -> None:
        """The journal is broken somewhere: no pot is known."""
        for pot_id in tuple(self._records):
            self._tell(pot_id, [Tell(Told.BROKEN)])

    def _tell(self, pot_id: str, events: Sequence[Tell]) -> None:
        """Write findings that change anything; in memory they count even if unwritten."""
        for event in events:
            state = self._records[pot_id].state
            after = tell(self._records[pot_id], event, self._clock.read())
            if _timeless(after.state) != _timeless(state):
                self._commit(pot_id, [event])
                self.changed.emit(pot_id)


def _opens(row: Row) -> bool:
    return row.body.get("choice") == "inside_seen"


def _airs(row: Row) -> bool:
    return row.body.get("act") in (Act.AIR_ON, Act.AIR_IN)


def _timeless(state: PotState) -> PotState:
    return replace(state, answered=0.0, since=0.0, seen_at=0.0)


def _tellings(findings: Sequence[Finding]) -> list[Tell]:
    told: list[Tell] = []
    for finding in findings:
        if finding.kind == "suspended":
            told.append(Tell(Told.SUSPENDED, Second(finding.length)))
        elif finding.kind == "rebooted":
            told.append(Tell(Told.RESTARTED))
        elif finding.kind == "clock_doubted":
            told.append(Tell(Told.CLOCK_DOUBTED))
    return told


def _told(said: "Evidence", *, reading: bool) -> Text:
    """What was reported: a reading by itself, a count with what was counted, else in its words."""
    found = report(said)
    answer = _plain(found.answer).strip()
    if reading:
        return say("you reported {answer}", answer=answer)
    if said.number is not None:
        label = _plain(found.label)
        return say("you reported: {label}, {answer}", label=label, answer=answer)
    return say("you reported: {answer}", answer=answer)


def _plain(text: Text) -> str:
    """Put an answer's own words into another sentence."""
    return text.template.format(**{name: str(value) for name, value in text.params})
