"""Sets of cores on their way to a known uptake: rows written, state folded, waits told."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace

from shopassist.clock import Clock
from shopassist.core.atmosphere import absolute_of_vacuum
from shopassist.core.batch import Batch
from shopassist.core.errors import RefusedError
from shopassist.core.frozen import frozen
from shopassist.core.messages import Moment, say
from shopassist.core.quantities import (
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    PascalAbsolute,
    PascalVacuum,
    Ratio,
    UtcSecond,
)
from shopassist.core.rows import Draft, Json, Row
from shopassist.core.stabilise_gates import need_turn
from shopassist.core.stabilising import Step, Terms, not_comparable, stand
from shopassist.core.wood_set import (
    EVENT,
    PROBE,
    Event,
    PieceWeighed,
    Weighed,
    When,
    WoodSet,
    fold_all_set,
    fold_set,
)
from shopassist.services.batches import PREFIX, BatchService
from shopassist.services.hooks import Hook
from shopassist.services.next import Due, Rank
from shopassist.services.ports import Journal
from shopassist.services.said import Said, said_of
from shopassist.services.session import Session
from shopassist.services.stabilise_after import Uptake
from shopassist.services.stabilise_dry import oven_limit
from shopassist.services.stabilise_facts import WoodFacts, WoodFigures
from shopassist.services.stabilise_plan import work_out
from shopassist.services.stabilise_shelf import (
    Earlier,
    WoodShelf,
    bath_left,
    oven_offset,
    pump_hours,
)

PANE = "stabilise"
HISTORY = 100
"""Newest batches that a bath's history and earlier uptakes are told from; ours."""
THEN: dict[str, str] = {
    "pull": "Let air in", "soak": "Out of the bath", "heat_up": "Core hot and held",
    "hold": "Oven off",
}  # fmt: skip
"""What may be done at the end of a wait: said in the next line instead of what is waited for."""
NOT_NAMED = "wood not named"
RECENT = 12
"""Newest batches that are looked through for sets under way; ours."""


@frozen
class Hot:
    """An oven above what it must not pass, by its thermometer."""

    batch: Batch
    temp: Kelvin
    limit: Kelvin
    at: UtcSecond


class StabiliseService:
    """Commands carry the id of their batch; the set's rows lie in the batch's own stream."""

    def __init__(
        self, journal: Journal, batches: BatchService, clock: Clock,
        ambient: Callable[[], PascalAbsolute | None], session: Session | None = None,
        shelf: WoodShelf | None = None,
    ) -> None:  # fmt: skip
        self.changed: Hook[str] = Hook()
        self._journal, self._batches, self._clock = journal, batches, clock
        self._ambient, self._session, self._shelf = ambient, session, shelf
        self._rows: dict[str, tuple[Row, ...]] = {}
        self._sets: dict[str, WoodSet] = {}
        self._densities: dict[str, tuple[tuple[WoodSet, Batch], KilogramPerCubicMetre | None]] = {}
        """Each with what it was worked from."""

    # -- looking ---------------------------------------------------------------------------

    def _own(self, batch_id: str) -> tuple[Row, ...]:
        """The rows of one set."""
        if batch_id not in self._rows:
            rows = self._journal.read(PREFIX + batch_id)
            self._rows[batch_id] = tuple(row for row in rows if row.kind.startswith("wood_"))
        return self._rows[batch_id]

    def state(self, batch_id: str) -> WoodSet:
        """The facts of one set, at the times that the wall clock told."""
        if batch_id not in self._sets:
            self._sets[batch_id] = fold_all_set(self._own(batch_id))
        return self._sets[batch_id]

    def counted(self, batch_id: str, *, early: bool = False) -> WoodSet:
        """The same facts at the times that count: a wall clock that was moved changes no wait.

        Releases take the least time that can have passed, hazards the most.
        """
        session = self._session
        if session is None:
            return self.state(batch_id)
        now, moved, off = self._clock.read(), [], 0.0
        for row in self._own(batch_id):
            span = session.elapsed(row, now)
            at = now.utc - (span.high if early else span.low)
            off = max(off, abs(at - row.happened))
            moved.append(replace(row, happened=UtcSecond(at)))
        return fold_all_set(moved) if off > 1.0 else self.state(batch_id)

    def ambient(self, said: Said) -> PascalAbsolute | None:
        """Air pressure here: by the barometer, else by elevation; None where neither is known."""
        read = said.get("barometer")
        return PascalAbsolute(read) if read is not None else self._ambient()

    def choices(self) -> Mapping[str, tuple[tuple[str, str], ...]]:
        """Records that can be chosen."""
        return self._shelf.choices() if self._shelf is not None else {}

    def facts(self, batch_id: str, said: Said | None = None) -> WoodFacts:
        """Everything that the numbers of one set are worked from."""
        if said is None:
            said = said_of(self._batches.get(batch_id), PANE)
        state = self.state(batch_id) if batch_id else WoodSet()
        now, shelf = self._clock.read().utc, self._shelf
        woods = self.bath_history(said.word("bath"), batch_id)
        made = WoodFacts(said, state, now, self.ambient(said), self._ambient(), woods=woods)
        if said.word("oven_name"):
            made = replace(made, offset=oven_offset(said, self._earlier(batch_id)))
        if shelf is None:
            return made
        pump, bath = shelf.pump(said), shelf.bath(said)
        if pump is not None and pump.oil_every is not None:
            hours = pump_hours(said.word("pump_record"), pump.oil_changed, self._earlier())
            made = replace(made, pump_hours=hours)
        if bath is not None:
            left = bath_left(bath, self._earlier(batch_id))
            made = replace(made, bath=bath.record, bath_left=left)
        return replace(made, chamber=shelf.chamber(said), pump=pump)

    def figures(self, batch_id: str, said: Said | None = None) -> WoodFigures:
        """The numbers of one set; drafts may stand in for what is committed."""
        return work_out(self.facts(batch_id, said))

    def terms(self, batch_id: str) -> Terms:
        """What the user has said about oven, bath and bake."""
        return self.figures(batch_id).terms

    def step(self, batch_id: str, terms: Terms | None = None) -> Step:
        """Where the set stands now; an oven that stops by itself is told by its earliest end."""
        now = self._clock.read().utc
        known = terms if terms is not None else self.terms(batch_id)
        if not batch_id:
            return stand(WoodSet(), known, now)
        late = stand(self.counted(batch_id), known, now)
        early = stand(self.counted(batch_id, early=True), known, now)
        return early if early.wait is not None and early.wait.by else late

    def dues(self) -> Iterable[Due]:
        """Waits of all sets under way."""
        for batch in self._batches.recent(RECENT):
            if not self._own(batch.id):
                continue
            step = self.step(batch.id)
            wait = step.wait
            if wait is None or wait.not_before is None:
                continue
            words = "{what} by {gate}" if wait.by else "{what} from {gate}"
            what = wait.text if wait.by or step.key not in THEN else say(THEN[step.key])
            event = say(words, what=what, gate=Moment(wait.not_before))
            rank = Rank.HAZARD if wait.by else Rank.RELEASE
            yield Due(
                event, wait.not_before, None, rank, "stabilise", batch.name, batch.id,
                "oven_stops" if wait.by else "wait_over",
            )  # fmt: skip

    def too_hot(self) -> Iterator[Hot]:
        """Ovens with wood in them that were read above what they must not pass."""
        for batch in self._batches.recent(RECENT):
            state = self.state(batch.id) if self._own(batch.id) else WoodSet()
            in_oven = bool(state.runs) and state.runs[-1].end is None
            if in_oven and state.oven_temps and state.oven_temps[-1][0] >= state.runs[0].start:
                at, temp = state.oven_temps[-1]
                limit = oven_limit(WoodFacts(said_of(batch, PANE), state))
                if temp > limit:
                    yield Hot(batch, temp, limit, at)

    def _earlier(self, but: str = "") -> Iterator[Earlier]:
        """Sets of the newest batches."""
        for batch in self._batches.recent(HISTORY):
            if batch.id != but and self._own(batch.id):
                yield Earlier(batch.id, batch.name, said_of(batch, PANE), self.state(batch.id))

    def bath_history(self, bath: str, but: str = "") -> tuple[str, ...]:
        """Woods that a bath of this name has treated, the newest first, each named once."""
        if not bath:
            return ()
        woods: list[str] = []
        for batch in self._batches.recent(HISTORY):
            said = said_of(batch, PANE)
            if batch.id != but and said.word("bath") == bath:
                woods.append(said.word("species") or NOT_NAMED)
        return tuple(dict.fromkeys(woods))

    def filled(self, batch_id: str) -> Ratio | None:
        """Share of its ceiling that a finished set took; None where it was not weighed."""
        found = self.figures(batch_id).figures.get("void_fill")
        return None if found is None or found.value is None else Ratio(found.value)

    def woods_before(self, batch_id: str) -> tuple[str, ...] | None:
        """Woods that the bath of a set had treated before it; None where the bath has no name."""
        own = self._batches.get(batch_id)
        bath = said_of(own, PANE).word("bath")
        if not bath:
            return None
        said = [said_of(each, PANE) for each in self._batches.recent(HISTORY)
                if each.id != batch_id and each.opened < own.opened]  # fmt: skip
        woods = [each.word("species") or NOT_NAMED for each in said if each.word("bath") == bath]
        return tuple(dict.fromkeys(woods))

    def uptakes(self) -> tuple[Uptake, ...]:
        """Every finished set, the newest first."""
        found = []
        for each in self._earlier():
            made = self.figures(each.batch_id)
            gain, fill = made.figures.get("uptake"), made.figures.get("void_fill")
            if gain is None or gain.value is None:
                continue
            why = not_comparable(each.state, made.terms, self._clock.read().utc)
            share = Ratio(fill.value) if fill is not None and fill.value is not None else None
            found.append(Uptake(each.batch_id, each.name, each.said.word("species"),
                                Ratio(gain.value), share, why))  # fmt: skip
        return tuple(found)

    def new_density(self, batch_id: str) -> KilogramPerCubicMetre | None:
        """Density of the finished cores: what Blank takes over; None until they are weighed."""
        state = self.state(batch_id)
        if state.last("baked") is None:
            return None
        basis = (state, self._batches.get(batch_id))
        kept = self._densities.get(batch_id)
        if kept is None or kept[0][0] is not basis[0] or kept[0][1] is not basis[1]:
            made = self.figures(batch_id).figures.get("new_density")
            value = made.value if made is not None else None
            kept = (basis, None if value is None else KilogramPerCubicMetre(value))
            self._densities[batch_id] = kept
        return kept[1]

    # -- acts ------------------------------------------------------------------------------

    def weigh(self, batch_id: str, mass: Kilogram, when: When, piece: int = 0, of: int = 0) -> None:
        """Record the mass of the whole set, or of one piece of it."""
        body: dict[str, Json] = {"mass": float(mass), "when": when}
        if piece:
            body |= {"piece": piece, "of": of}
        self._commit(batch_id, "wood_weighed", body)

    def unweigh(self, batch_id: str, weighed: Weighed | PieceWeighed) -> None:
        """Take a weight back; both rows stay."""
        body: dict[str, Json] = {"mass": None, "when": weighed.when, "corrects": weighed.seq}
        self._commit(batch_id, "wood_weighed", body)

    def report(self, batch_id: str, event: Event, happened: UtcSecond | None = None) -> None:
        """Record what happened; refused where it has no place on the path."""
        terms, now = self.terms(batch_id), self._clock.read().utc
        need_turn(self.counted(batch_id), terms, event, now)
        self._commit(batch_id, EVENT, {"event": event}, happened)

    def take_back(self, batch_id: str, event: Event) -> None:
        """Say that an event was reported by mistake; both rows stay."""
        body: dict[str, Json] = {"event": event, "undone": True}
        rows = [row for row in self._reports(batch_id) if row.body.get("event") == event]
        if rows:
            body["corrects"] = rows[-1].seq
        self._commit(batch_id, EVENT, body)

    def newest_report(self, batch_id: str) -> Event | None:
        """What was reported last and still stands."""
        rows = self._reports(batch_id)
        return str(rows[-1].body.get("event")) if rows else None  # type: ignore[return-value]

    def _reports(self, batch_id: str) -> list[Row]:
        rows = [row for row in self._own(batch_id) if row.kind == EVENT]
        gone = {row.body.get("corrects") for row in rows if row.body.get("undone")}
        return [row for row in rows if not row.body.get("undone") and row.seq not in gone]

    def read_vacuum(self, batch_id: str, vacuum: PascalVacuum) -> None:
        """Record a dial reading of the chamber."""
        ambient = self.ambient(said_of(self._batches.get(batch_id), PANE))
        if ambient is not None and vacuum >= ambient:
            raise RefusedError(
                "Deeper than the air is heavy here: look at dial, unit and elevation.", "",
                "stabilise.dial",
            )  # fmt: skip
        self._commit(batch_id, "wood_vacuum", {"vacuum": float(vacuum)})

    def absolute(self, batch_id: str, said: Said) -> PascalAbsolute | None:
        """What the newest dial reading means here."""
        read, ambient = self.state(batch_id).vacuums, self.ambient(said)
        if not read or ambient is None or read[-1].vacuum >= ambient:
            return None
        return absolute_of_vacuum(read[-1].vacuum, ambient)

    def read_meter(self, batch_id: str, shown: float, floor: float) -> None:
        """Record what a moisture meter shows, with the lowest it can show."""
        self._commit(batch_id, "wood_meter", {"shown": shown, "floor": floor})

    def read_oven(self, batch_id: str, temp: Kelvin) -> None:
        """Record the oven's temperature by a thermometer of its own, and where its dial stood."""
        dial = said_of(self._batches.get(batch_id), PANE).get("oven_dial")
        body: dict[str, Json] = {"temp": float(temp)}
        self._commit(batch_id, "wood_oven", body if dial is None else {**body, "dial": dial})

    def read_probe(self, batch_id: str, temp: Kelvin) -> None:
        """Record the probe in the dummy core; once it is as hot as it must be, the core is."""
        self._commit(batch_id, PROBE, {"temp": float(temp)})
        goal = said_of(self._batches.get(batch_id), PANE).get("core_goal")
        state = self.state(batch_id)
        waits = state.at("core_hot") is None and state.at("bake_off") is None
        if goal is not None and temp >= goal and waits and state.at("bake_on") is not None:
            self.report(batch_id, "core_hot")

    def _commit(
        self, batch_id: str, kind: str, body: dict[str, Json], happened: UtcSecond | None = None
    ) -> None:
        before, state = self._own(batch_id), self.state(batch_id)
        rows = self._journal.append([Draft(PREFIX + batch_id, kind, body, happened)])
        self._rows[batch_id] = (*before, *rows)
        if "corrects" in body:
            state = fold_all_set(self._rows[batch_id])
        else:
            for row in rows:
                state = fold_set(state, row)
        self._sets[batch_id] = state
        self.changed.emit(batch_id)
