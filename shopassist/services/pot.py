"""Pots: pure advance, commit the row, then tell; what cannot be written is NOT KNOWN."""

from collections.abc import Callable
from dataclasses import dataclass

from shopassist.clock import Clock
from shopassist.core.messages import Text
from shopassist.core.pot.cards import Card
from shopassist.core.pot.events import Event
from shopassist.core.pot.plate import Plate
from shopassist.core.pot.state import PotState, Refusal
from shopassist.core.pot.words import Belief
from shopassist.core.quantities import PascalAbsolute, UtcSecond
from shopassist.services.hooks import Hook
from shopassist.services.library import Library
from shopassist.services.ports import Journal


@dataclass(frozen=True, slots=True)
class Load:
    """What is in the pot, as its batches say: the earliest gel and the latest hold."""

    batches: tuple[str, ...]
    pressurise_by: UtcSecond | None
    hold_until: UtcSecond | None


@dataclass(frozen=True, slots=True)
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


class PotService:
    """All pots; every command carries the id of its pot."""

    def __init__(
        self, journal: Journal, clock: Clock, plates: Library[Plate],
        load_of: Callable[[str], Load] | None = None,
        ambient: Callable[[], PascalAbsolute] | None = None,
    ) -> None:  # fmt: skip
        self.changed: Hook[str] = Hook()
        self.alarm: Hook[Text] = Hook()

    def ids(self) -> tuple[str, ...]:
        """Every pot that has a plate, in the order they were entered."""
        raise NotImplementedError

    def state(self, pot_id: str) -> PotState:
        """The record of one pot as it stands now, expiry included."""
        raise NotImplementedError

    def card(self, pot_id: str) -> Card:
        """What a screen shows of one pot now."""
        raise NotImplementedError

    def act(self, pot_id: str, event: Event) -> Refusal | None:
        """Apply one event and commit it; a refusal says why nothing moved."""
        raise NotImplementedError

    def worst(self) -> tuple[str, ...]:
        """Pots in the order the pot line shows them: the worst first."""
        raise NotImplementedError

    def line(self, pot_id: str) -> PotLine:
        """What the pot line shows of one pot."""
        raise NotImplementedError

    def load(self, pot_id: str) -> Load:
        """What is in the pot."""
        raise NotImplementedError

    def inhibits_sleep(self) -> bool:
        """Whether the machine should be kept awake: from the let-down to the open lid."""
        raise NotImplementedError
