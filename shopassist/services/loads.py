"""What is in which pot: pressurise by the earliest batch, hold until the latest."""

from collections.abc import Iterable

from shopassist.core.pot.words import Belief, Item
from shopassist.core.quantities import PascalGauge, UtcSecond
from shopassist.services.batches import BatchService
from shopassist.services.cure import Aim, CureService, CureView
from shopassist.services.in_hand import InHand
from shopassist.services.pot import Load, PotService

CLOSED_POT = (Belief.CLOSED, Belief.PRESSURISED)
EARLY = "Vented before the hold was over: bubbles may have grown back."
"""The line in a batch that was let down early."""


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
        inside = self.inside(pot_id)
        views = [view for batch_id in inside if (view := self._cure.view(batch_id)) is not None]
        return Load(
            inside,
            min(_gates(views, "pressurise"), default=None),
            max(_gates(views, "hold"), default=None),
            max(_gates(views, "hard"), default=None),
            max((lowest for view in views if (lowest := self._lowest(view))), default=None),
        )

    def inside(self, pot_id: str) -> tuple[str, ...]:
        """Batches that are in one pot now."""
        return tuple(each for each in self._cure.running() if self._batches.get(each).pot == pot_id)

    def names(self, pot_id: str) -> tuple[str, ...]:
        """What the batches in one pot are called."""
        return tuple(self._batches.get(each).name for each in self.inside(pot_id))

    def others(self, pot_id: str) -> tuple[tuple[str, str], ...]:
        """Running batches that are in no pot and could be in this one: id and name."""
        if self._pots is None or self._pots.state(pot_id).belief not in CLOSED_POT:
            return ()
        found = (self._batches.get(each) for each in self._cure.running())
        return tuple((batch.id, batch.name) for batch in found if not batch.pot)

    def add(self, pot_id: str, batch_id: str) -> None:
        """Report that another batch is in the pot too."""
        if batch_id in self._cure.running():
            self._batches.load(batch_id, pot_id)

    def _lowest(self, view: CureView) -> PascalGauge | None:
        sheet = self._cure.sheet(view.batch)
        value = (sheet.values or {}).get("pressure.lowest") if sheet is not None else None
        return PascalGauge(value) if isinstance(value, float) else None

    def _moved(self, pot_id: str) -> None:
        assert self._pots is not None  # noqa: S101 - watch() has connected this
        before, now = self._beliefs.get(pot_id), self._pots.state(pot_id).belief
        self._beliefs[pot_id] = now
        if now is Belief.PRESSURISED and before is Belief.CLOSED:
            self._load(pot_id)
        self._mark_early(pot_id)
        if now is Belief.OPEN and before is not Belief.OPEN:
            for batch_id in self.inside(pot_id):
                self._batches.load(batch_id, "")

    def _load(self, pot_id: str) -> None:
        batch_id = self._hand.batch
        if batch_id and batch_id in self._cure.running():
            self._batches.load(batch_id, pot_id)

    def _mark_early(self, pot_id: str) -> None:
        """A batch whose pot was vented before its own hold was over says so, once."""
        assert self._pots is not None  # noqa: S101 - watch() has connected this
        vented = self._pots.state(pot_id).find(Item.VENT)
        if vented is None:
            return
        for batch_id in self.inside(pot_id):
            batch, view = self._batches.get(batch_id), self._cure.view(batch_id)
            ends = _gates([view] if view is not None else [], "hold")
            if any(vented.utc < end for end in ends) and EARLY not in batch.notes:
                self._batches.note(batch_id, EARLY)


def _gates(views: Iterable[CureView], aim: Aim) -> list[UtcSecond]:
    stages = (view.stage(aim) for view in views)
    return [stage.gate for stage in stages if stage is not None and stage.gate is not None]
