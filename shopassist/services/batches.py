"""Batches: every act is committed as a row, then folded in, then told."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from shopassist.clock import Clock
from shopassist.core.batch import OUTCOMES, SEEN_MARKS, Batch, NeedSet, PartName, Typed
from shopassist.core.batch_fold import FOLD_VERSION, fold, fold_all
from shopassist.core.errors import RefusedError
from shopassist.core.frozen import frozen
from shopassist.core.leftover import needs_watch
from shopassist.core.messages import say
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Draft, Json
from shopassist.services.hooks import Hook
from shopassist.services.ports import Journal

__all__ = ["FOLD_VERSION", "BatchService", "JobCard"]

PREFIX = "batch/"
CARD_LIMIT = 9
"""Recent job cards that *Again* offers: one for each digit key."""
CARD_FIELDS = (
    "ratio_a", "ratio_b", "basis", "amount", "pieces", "waste", "scale_step", "colour",
    "colour_amount", "pot", "hold_pressure", "moulds", "cores",
    "mix.how", "mix.scale", "mix.reads", "mix.order", "mix.cups", "mix.stroke_a", "mix.stroke_b",
    "mix.pour_depth", *(f"mix.colour_{n}" for n in range(1, 4)),
    *(f"mix.colour_mass_{n}" for n in range(1, 4)), *(f"mix.step_{n}" for n in range(1, 7)),
)  # fmt: skip
"""Entries that a repeat batch takes over."""
CARD_PANES = ("blank.", "plan.stage.")
"""Panes whose entries a repeat batch takes over whole."""


@frozen
class JobCard:
    """What *Again* shows of an earlier batch."""

    batch_id: str
    name: str
    opened: UtcSecond
    sheet: tuple[str, int] | None
    amount: str
    outcome: str
    next_time: str


class BatchService:
    """All batches; commands carry the id of the batch they are for."""

    def __init__(self, journal: Journal, clock: Clock) -> None:
        self.changed: Hook[str] = Hook()
        self._journal = journal
        self._clock = clock
        self._ids = [stream.removeprefix(PREFIX) for stream in journal.streams(PREFIX)]
        self._folded: dict[str, Batch] = {}

    # -- looking ---------------------------------------------------------------------

    def ids(self) -> tuple[str, ...]:
        """Every batch, oldest first."""
        return tuple(self._ids)

    def get(self, batch_id: str) -> Batch:
        """A batch as it stands now; folded from its rows when it is first asked for."""
        if batch_id not in self._folded:
            self._folded[batch_id] = fold_all(batch_id, self._journal.read(PREFIX + batch_id))
        return self._folded[batch_id]

    def as_of(self, batch_id: str, seqs: Iterable[int]) -> tuple[Batch, ...]:
        """A batch as it stood right after each of these rows, in their order."""
        wanted, found, batch = sorted(seqs), list[Batch](), Batch(batch_id)
        for row in self._journal.read(PREFIX + batch_id):
            while wanted and row.seq > wanted[0]:
                found.append(batch)
                wanted.pop(0)
            if not wanted:
                break
            batch = fold(batch, row)
        return (*found, *(batch for _ in wanted))

    def recent(self, count: int, *, removed: bool = False) -> tuple[Batch, ...]:
        """The newest batches, newest first."""
        found: list[Batch] = []
        for batch_id in reversed(self._ids):
            batch = self.get(batch_id)
            if removed or not batch.removed:
                found.append(batch)
            if len(found) == count:
                break
        return tuple(found)

    def reacting(self, count: int) -> tuple[Batch, ...]:
        """Of the newest batches those with hardener in and no outcome yet, newest first.

        What is finished is told by its kinds of rows, without folding it.
        """
        found: list[Batch] = []
        for batch_id in self._ids[: -count - 1 : -1]:
            kinds = () if batch_id in self._folded else self._journal.kinds(PREFIX + batch_id)
            if kinds and ("outcome" in kinds or "hardener_in" not in kinds):
                continue
            batch = self.get(batch_id)
            if batch.first_contact is not None and not batch.outcome and not batch.removed:
                found.append(batch)
        return tuple(found)

    def cards(self) -> tuple[JobCard, ...]:
        """Job cards of the newest batches that have an amount, one for each digit key."""
        with_amount = (batch for batch in self.recent(CARD_LIMIT * 2) if "amount" in batch.entries)
        cards = [
            JobCard(
                batch.id, batch.name, batch.opened, batch.sheet, batch.entries["amount"].text,
                batch.outcome, batch.next_time,
            )
            for batch in with_amount
        ]  # fmt: skip
        return tuple(cards[:CARD_LIMIT])

    # -- acts --------------------------------------------------------------------------

    def open(self, name: str = "", again_of: str = "") -> str:
        """Open a batch and return its id; a repeat takes over the job card of the earlier one."""
        batch_id = f"{len(self._ids) + 1:04d}"
        stream = PREFIX + batch_id
        given = name.strip() or f"Batch {len(self._ids) + 1}"
        drafts = [Draft(stream, "opened", {"name": given, "again_of": again_of})]
        if again_of:
            drafts += self._card_drafts(stream, self.get(again_of))
        rows = self._journal.append(drafts)
        self._ids.append(batch_id)
        self._folded[batch_id] = fold_all(batch_id, rows)
        self.changed.emit(batch_id)
        return batch_id

    def bring_in(self, drafts: Callable[[str], Sequence[Draft]]) -> str:
        """Open a batch of rows that were written elsewhere and return its id."""
        batch_id = f"{len(self._ids) + 1:04d}"
        stream = PREFIX + batch_id
        rows = self._journal.append(drafts(stream))
        self._ids.append(batch_id)
        self._folded[batch_id] = fold_all(batch_id, rows)
        self.changed.emit(batch_id)
        return batch_id

    def _card_drafts(self, stream: str, earlier: Batch) -> list[Draft]:
        drafts = []
        if earlier.sheet is not None:
            record, version = earlier.sheet
            drafts.append(Draft(stream, "sheet", {"record": record, "version": version}))
        blank = tuple(name for name in earlier.entries if name.startswith(CARD_PANES))
        for name in (*CARD_FIELDS, *blank):
            if (typed := earlier.entries.get(name)) is not None:
                body = _entry_body(name, replace(typed, origin="job card"))
                drafts.append(Draft(stream, "entry", body))
        if earlier.need is not None:
            drafts.append(Draft(stream, "need_set", _need_body(earlier.need)))
        return drafts

    def name(self, batch_id: str, name: str) -> None:
        """Give a batch another name."""
        self._commit(batch_id, "named", {"name": name.strip()})

    def use_sheet(self, batch_id: str, record: str, version: int, reason: str = "") -> None:
        """Use one version of one resin sheet from now on; an empty record means none."""
        body: dict[str, Json] = {"record": record, "version": version, "reason": reason}
        self._commit(batch_id, "sheet", body)

    def enter(self, batch_id: str, field: str, typed: Typed | None) -> None:
        """Commit an entry; None takes it away."""
        standing = self.get(batch_id).entries.get(field)
        if (standing.text if standing else None) == (typed.text if typed else None):
            return
        self._commit(batch_id, "entry", _entry_body(field, typed))

    def undo(self, batch_id: str) -> str | None:
        """Give back what the newest entry replaced; returns its field, None if there is none."""
        log = self.get(batch_id).entry_log
        if not log:
            return None
        field, before = log[-1]
        self._commit(batch_id, "entry", _entry_body(field, before) | {"undo": True})
        return field

    def weigh(
        self, batch_id: str, cup: int, part: PartName, mass: Kilogram, reason: str = ""
    ) -> None:
        """Record what one part weighs; a second weighing corrects the first and needs a reason."""
        earlier = self.get(batch_id).cup(cup).weighed.get(part)
        if earlier is not None and self.get(batch_id).cup(cup).contact is not None and not reason:
            raise RefusedError(
                "This was already weighed.",
                "Say why the weight changes; the old one stays in the log.",
                f"mix.cup.{cup}.actual_{part}",
            )
        body: dict[str, Json] = {"cup": cup, "part": part, "mass": float(mass), "reason": reason}
        if earlier is not None:
            body["corrects"] = earlier.seq
        self._commit(batch_id, "weighed", body)

    def hardener_in(
        self, batch_id: str, cup: int, happened: UtcSecond | None = None, reason: str = ""
    ) -> None:
        """Start the cure of one cup: hardener has met resin."""
        standing = self.get(batch_id).cup(cup)
        if standing.contact is not None and not reason:
            raise RefusedError(
                "This cup's hardener is already in.",
                "To correct the time, say why; to mix more, take another cup.",
                "mix.hardener_in",
            )
        body: dict[str, Json] = {"cup": cup, "reason": reason}
        if standing.contact_row is not None:
            body["corrects"] = standing.contact_row.seq
        self._commit(batch_id, "hardener_in", body, happened)

    def poured(self, batch_id: str, happened: UtcSecond | None = None) -> None:
        """Record that the resin is in the mould: the working time no longer matters."""
        if self.get(batch_id).first_contact is None:
            raise RefusedError("Nothing is mixed yet.", field="mix.poured")
        self._commit(batch_id, "poured", {}, happened)

    def not_poured(self, batch_id: str) -> None:
        """Take the last *poured* back: its working time matters again; the row stays in the log."""
        if not self.get(batch_id).may_be_unpoured:
            raise RefusedError("There is no pour to take back.", field="mix.not_poured")
        self._commit(batch_id, "poured", {"off": True})

    def load(self, batch_id: str, pot_id: str) -> None:
        """Record that the batch is in a pot whose air is on; an empty id takes it out."""
        if self.get(batch_id).pot != pot_id:
            self._commit(batch_id, "loaded", {"pot": pot_id})

    def unweigh(self, batch_id: str, cup: int, part: PartName, reason: str = "") -> None:
        """Take a weighing back, to weigh that part again; the row stays in the log."""
        earlier = self.get(batch_id).cup(cup).weighed.get(part)
        if earlier is not None:
            body: dict[str, Json] = {
                "cup": cup, "part": part, "mass": None, "reason": reason, "corrects": earlier.seq,
            }  # fmt: skip
            self._commit(batch_id, "weighed", body)

    def add_temperature(
        self, batch_id: str, low: Kelvin, high: Kelvin, where: str,
        happened: UtcSecond | None = None, since: UtcSecond | None = None,
    ) -> None:  # fmt: skip
        """Record a typed temperature, or the lowest and highest since an earlier moment."""
        until = self._clock.read().utc if happened is None else happened
        if low > high:
            raise RefusedError(
                "The lowest is above the highest.", "Look at both again.", "cure.form.low"
            )
        if since is not None and since >= until:
            raise RefusedError(
                "The beginning lies after the end.", "Look at both times.", "cure.form.since"
            )
        body: dict[str, Json] = {"low": float(low), "high": float(high), "where": where}
        if since is not None:
            body["since"] = float(since)
        self._commit(batch_id, "temperature", body, happened)

    def correct_temperature(
        self, batch_id: str, seq: int, low: Kelvin, high: Kelvin, reason: str
    ) -> None:
        """Set a reading right; the old one stays in the log, its time and place are kept."""
        standing = next((w for w in self.get(batch_id).warmth if w.row.seq == seq), None)
        if standing is None:
            raise RefusedError("There is no such reading.", field="cure.form.reading")
        if not reason.strip():
            raise RefusedError(
                "Say why the temperature changes.",
                "The old reading stays in the log beside the reason.",
                "cure.form.reason",
            )
        body: dict[str, Json] = {
            "low": float(low), "high": float(high), "where": standing.where,
            "corrects": seq, "reason": reason.strip(),
        }  # fmt: skip
        if standing.since is not None:
            body["since"] = float(standing.since)
        self._commit(batch_id, "temperature", body, standing.at)

    def unknown_temperature(self, batch_id: str, since: UtcSecond, until: UtcSecond) -> None:
        """Record a stretch of which nobody knows the temperature, entered afterwards."""
        if since >= until:
            raise RefusedError(
                "The beginning lies after the end.", "Look at both times.", "cure.form.since"
            )
        self._commit(batch_id, "temperature_unknown", {"since": float(since)}, until)

    def set_need(
        self, batch_id: str, low: CubicMetre, likely: CubicMetre, high: CubicMetre, geometry: str
    ) -> None:
        """Hand over the resin that Blank worked out; a typed amount stays above it."""
        need = NeedSet(low, likely, high, geometry, self._clock.read().utc)
        self._commit(batch_id, "need_set", _need_body(need))

    def draw(self, batch_id: str, lots: Sequence[tuple[str, str, Kilogram]]) -> None:
        """Record what a cup took out of which lot, as id, part and mass."""
        if lots:
            body: list[Json] = [[lot, part, float(mass)] for lot, part, mass in lots]
            self._commit(batch_id, "drawn", {"lots": body})

    def step_done(self, batch_id: str, name: str) -> None:
        """Record that one step from hardener to pressure is done."""
        if self.get(batch_id).first_contact is None:
            raise RefusedError("Nothing is mixed yet.", field="mix.step_done")
        self._commit(batch_id, "step_done", {"name": name})

    def see(self, batch_id: str, mark: str, happened: UtcSecond | None = None) -> None:
        """Record what the witness cup shows."""
        if mark not in SEEN_MARKS:
            raise RefusedError(say("There is no such mark as {mark}.", mark=mark))
        self._commit(batch_id, "seen", {"mark": mark}, happened)

    def close(self, batch_id: str, outcome: str) -> None:
        """Record how it came out; may be said again when the piece tells otherwise."""
        if outcome not in OUTCOMES:
            raise RefusedError(say("Say one of: {all}.", all=", ".join(OUTCOMES)))
        self._need_cold_leftover(batch_id)
        self._commit(batch_id, "outcome", {"outcome": outcome})

    def _need_cold_leftover(self, batch_id: str) -> None:
        """Refuse to let a batch out of sight whose rest in the cup may still get hot."""
        entries = self.get(batch_id).entries
        left = entries.get("mix.leftover")
        if left is None or "mix.leftover_cold" in entries:
            return
        if needs_watch(Kilogram(left.value or 0.0)):
            raise RefusedError(
                "Is the rest in the cup cold and hard?",
                "Say so under Mix, Cup: until then the batch stays open.",
                "mix.leftover_cold",
            )

    def note(self, batch_id: str, text: str) -> None:
        """Add a line to the batch."""
        self._commit(batch_id, "note", {"text": text.strip()})

    def add_photo(self, batch_id: str, path: str) -> None:
        """Keep where a photograph lies; the file itself stays where it is."""
        if path not in self.get(batch_id).photos:
            self._commit(batch_id, "photo", {"path": path})

    def take_photo_off(self, batch_id: str, path: str) -> None:
        """Show a photograph no longer; the row that named it stays."""
        if path in self.get(batch_id).photos:
            self._commit(batch_id, "photo", {"path": path, "off": True})

    def next_time(self, batch_id: str, text: str) -> None:
        """One line that the job card carries to the next batch."""
        self._commit(batch_id, "next_time", {"text": text.strip()})

    def remove(self, batch_id: str, *, removed: bool = True) -> None:
        """Put a batch among the removed ones, or bring it back."""
        self._commit(batch_id, "removed", {"removed": removed})

    # -- the one way a batch changes --------------------------------------------------

    def _commit(
        self, batch_id: str, kind: str, body: dict[str, Json], happened: UtcSecond | None = None
    ) -> None:
        batch = self.get(batch_id)
        rows = self._journal.append([Draft(PREFIX + batch_id, kind, body, happened)])
        for row in rows:
            batch = fold(batch, row)
        self._folded[batch_id] = replace(batch)
        self.changed.emit(batch_id)


def _entry_body(field: str, typed: Typed | None) -> dict[str, Json]:
    if typed is None:
        return {"field": field, "text": None}
    return {
        "field": field, "text": typed.text, "value": typed.value,
        "quantity": typed.quantity, "origin": typed.origin,
    }  # fmt: skip


def _need_body(need: NeedSet) -> dict[str, Json]:
    return {
        "low": float(need.low), "likely": float(need.likely), "high": float(need.high),
        "geometry": need.geometry,
    }  # fmt: skip
