"""What is in which pot: pressurise by the earliest batch, hold until the latest."""

from shopassist.core.pot.words import Belief
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.in_hand import InHand
from shopassist.services.pot import Load, PotService


class PotLoads:
    """Puts the batch in hand into a pot when its air goes on, and takes it out with the lid."""

    def __init__(self, batches: BatchService, cure: CureService, hand: InHand) -> None:
        self._batches = batches
        self._cure = cure
        self._hand = hand
        self._pots: PotService | None = None
        self._beliefs: dict[str, Belief] = {}

    def watch(self, pots: PotService) -> None:
        """Follow what happens to the pots."""
        self._pots = pots
        self._beliefs = {pot_id: pots.state(pot_id).belief for pot_id in pots.ids()}
        pots.changed.connect(self._moved)

    def of(self, pot_id: str) -> Load:
        """The load of one pot, from the batches that say they are in it."""
        inside = [batch_id for batch_id in self._cure.running() if self._in(batch_id, pot_id)]
        views = [view for batch_id in inside if (view := self._cure.view(batch_id)) is not None]
        hold = [stage.gate for view in views if (stage := view.stage("hold")) and stage.gate]
        by = [stage.gate for view in views if (stage := view.stage("pressurise")) and stage.gate]
        return Load(tuple(inside), min(by, default=None), max(hold, default=None))

    def _in(self, batch_id: str, pot_id: str) -> bool:
        return self._batches.get(batch_id).pot == pot_id

    def _moved(self, pot_id: str) -> None:
        assert self._pots is not None  # noqa: S101 - watch() has connected this
        before, now = self._beliefs.get(pot_id), self._pots.state(pot_id).belief
        self._beliefs[pot_id] = now
        if now is Belief.PRESSURISED and before is Belief.CLOSED:
            self._load(pot_id)
        if now is Belief.OPEN and before is not Belief.OPEN:
            for batch_id in self._cure.running():
                if self._in(batch_id, pot_id):
                    self._batches.load(batch_id, "")

    def _load(self, pot_id: str) -> None:
        batch_id = self._hand.batch
        if batch_id and batch_id in self._cure.running():
            self._batches.load(batch_id, pot_id)
