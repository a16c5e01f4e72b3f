"""The one choice of batch and pot that the panes work on; window state, not a fact."""

from typing import Protocol

from shopassist.services.batches import BatchService
from shopassist.services.hooks import Hook


class StateKeeper(Protocol):
    """Where the window's own state is kept; its loss costs nothing."""

    def get(self, key: str) -> str:
        """What was kept under a key, or an empty text."""
        ...

    def put(self, key: str, value: str) -> None:
        """Keep a text."""
        ...


class InHand:
    """Batch in hand and pot in hand. Commands still carry ids; this only says which is shown."""

    def __init__(self, batches: BatchService, state: StateKeeper) -> None:
        self.changed: Hook[None] = Hook()
        self._batches = batches
        self._state = state
        kept = state.get("batch")
        self._batch = kept if kept in batches.ids() else ""
        if not self._batch and (recent := batches.recent(1)):
            self._batch = recent[0].id
        self._pot = state.get("pot")

    @property
    def batch(self) -> str:
        """Id of the batch in hand; empty before the first."""
        return self._batch

    @property
    def pot(self) -> str:
        """Id of the pot in hand; empty lets the pot pane choose."""
        return self._pot

    def take_batch(self, batch_id: str) -> None:
        """Work on another batch."""
        self._batch = batch_id
        self._state.put("batch", batch_id)
        self.changed.emit(None)

    def take_pot(self, pot_id: str) -> None:
        """Work on another pot."""
        self._pot = pot_id
        self._state.put("pot", pot_id)
        self.changed.emit(None)

    def batch_for_entry(self) -> str:
        """The batch that a new entry belongs to; opens one where there is none, or it is over."""
        if not self._batch or self._batches.get(self._batch).removed:
            self.take_batch(self._batches.open())
        return self._batch
