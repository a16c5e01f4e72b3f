"""Sets of cores on their way to a known uptake: rows written, state folded, waits told."""

from collections.abc import Callable, Iterable

from shopassist.clock import Clock
from shopassist.core.errors import RefusedError
from shopassist.core.messages import Moment, say
from shopassist.core.quantities import Kelvin, Kilogram, PascalAbsolute, PascalVacuum, UtcSecond
from shopassist.core.rows import Draft, Json
from shopassist.core.stabilising import Step, Terms, need_turn, stand
from shopassist.core.wood_set import Event, Weighed, When, WoodSet, fold_all_set, fold_set
from shopassist.services.batches import PREFIX, BatchService
from shopassist.services.hooks import Hook
from shopassist.services.next import Due, Rank
from shopassist.services.ports import Journal
from shopassist.services.said import Said, said_of
from shopassist.services.stabilise_plan import WoodFigures, work_out

PANE = "stabilise"
HISTORY = 100
"""Newest batches that a bath's history is told from; ours."""
RECENT = 12
"""Newest batches that are looked through for sets under way; ours."""


class StabiliseService:
    """Commands carry the id of their batch; the set's rows lie in the batch's own stream."""

    def __init__(
        self, journal: Journal, batches: BatchService, clock: Clock,
        ambient: Callable[[], PascalAbsolute],
    ) -> None:  # fmt: skip
        self.changed: Hook[str] = Hook()
        self._journal = journal
        self._batches = batches
        self._clock = clock
        self.ambient = ambient
        self._sets: dict[str, WoodSet] = {}

    # -- looking ---------------------------------------------------------------------------

    def state(self, batch_id: str) -> WoodSet:
        """The facts of one set."""
        if batch_id not in self._sets:
            self._sets[batch_id] = fold_all_set(self._journal.read(PREFIX + batch_id))
        return self._sets[batch_id]

    def figures(self, batch_id: str, said: Said | None = None) -> WoodFigures:
        """The numbers of one set; drafts may stand in for what is committed."""
        return work_out(said or said_of(self._batches.get(batch_id), PANE), self.state(batch_id))

    def terms(self, batch_id: str) -> Terms:
        """What the user has said about oven, bath and bake."""
        return self.figures(batch_id).terms

    def step(self, batch_id: str) -> Step:
        """Where the set stands now."""
        return stand(self.state(batch_id), self.terms(batch_id), self._clock.read().utc)

    def dues(self) -> Iterable[Due]:
        """Waits of all sets under way."""
        for batch in self._batches.recent(RECENT):
            if not self.state(batch.id).weighed and not self.state(batch.id).events:
                continue
            wait = self.step(batch.id).wait
            if wait is not None and wait.not_before is not None:
                event = say("{what} from {gate}", what=wait.text, gate=Moment(wait.not_before))
                yield Due(
                    event, wait.not_before, None, Rank.RELEASE, "stabilise", batch.name, batch.id
                )

    def bath_history(self, bath: str, but: str = "") -> tuple[str, ...]:
        """Woods that a bath of this name has treated, the newest first, each named once."""
        if not bath:
            return ()
        woods: list[str] = []
        for batch in self._batches.recent(HISTORY):
            said = said_of(batch, PANE)
            if batch.id != but and said.word("bath") == bath:
                woods.append(said.word("species") or "wood not named")
        return tuple(dict.fromkeys(woods))

    # -- acts ------------------------------------------------------------------------------

    def weigh(self, batch_id: str, mass: Kilogram, when: When) -> None:
        """Record the mass of the whole set."""
        body: dict[str, Json] = {"mass": float(mass), "when": when}
        self._commit(batch_id, "wood_weighed", body)

    def unweigh(self, batch_id: str, weighed: Weighed) -> None:
        """Take a weight back; both rows stay."""
        body: dict[str, Json] = {"mass": None, "when": weighed.when, "corrects": weighed.seq}
        self._commit(batch_id, "wood_weighed", body)

    def report(self, batch_id: str, event: Event, happened: UtcSecond | None = None) -> None:
        """Record what happened; refused where it has no place on the path."""
        need_turn(self.state(batch_id), self.terms(batch_id), event, self._clock.read().utc)
        self._commit(batch_id, "wood_event", {"event": event}, happened)

    def take_back(self, batch_id: str, event: Event) -> None:
        """Say that an event was reported by mistake; both rows stay."""
        self._commit(batch_id, "wood_event", {"event": event, "undone": True})

    def read_vacuum(self, batch_id: str, vacuum: PascalVacuum) -> None:
        """Record a dial reading of the chamber."""
        if vacuum >= self.ambient():
            raise RefusedError(
                "Deeper than the air is heavy here: look at dial, unit and elevation.", "",
                "stabilise.dial",
            )  # fmt: skip
        self._commit(batch_id, "wood_vacuum", {"vacuum": float(vacuum)})

    def read_meter(self, batch_id: str, shown: float, floor: float) -> None:
        """Record what a moisture meter shows, with the lowest it can show."""
        self._commit(batch_id, "wood_meter", {"shown": shown, "floor": floor})

    def read_oven(self, batch_id: str, temp: Kelvin) -> None:
        """Record the oven's temperature by a thermometer of its own."""
        self._commit(batch_id, "wood_oven", {"temp": float(temp)})

    def _commit(
        self, batch_id: str, kind: str, body: dict[str, Json], happened: UtcSecond | None = None
    ) -> None:
        state = self.state(batch_id)
        for row in self._journal.append([Draft(PREFIX + batch_id, kind, body, happened)]):
            state = fold_set(state, row)
        self._sets[batch_id] = state
        self.changed.emit(batch_id)
