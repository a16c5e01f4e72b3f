"""What the records know that a card needs: blank, resin, state of cure, and the putty's waits."""

from collections.abc import Callable

from shopassist.clock import Clock
from shopassist.core.batch import Batch
from shopassist.core.frozen import frozen
from shopassist.core.messages import Moment, Text, say
from shopassist.core.outline_text import ReadLength
from shopassist.core.putty import KNEAD_DEFAULT
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.core.wood_set import WoodSet
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.damp import oven_dry
from shopassist.services.plan import PlanService
from shopassist.services.turn import Borrowed, borrowed
from shopassist.services.versions import Library

KNEADING, SETTING = "putty", "putty_set"

SOFTENS_EARLY = say(
    "Hard, but at this warmth it never cures fully: friction softens it early. Light passes, let it"
    " rest, or post-cure it by the sheet."
)


NEVER_HARD = say(
    "No time can be told at which it is hard enough to spin: wait, or try a thumbnail on the"
    " witness cup."
)


@frozen
class PuttyWait:
    """Where the putty stands."""

    stage: str = ""
    """``putty`` while it is kneaded and pressed in, ``putty_set`` while it sets."""
    since: UtcSecond = UtcSecond(0.0)
    until: UtcSecond = UtcSecond(0.0)
    """End of kneading, or not before this may it be turned or sanded."""
    done: bool = False
    """It has set and been reported."""


class TurnService:
    """Reads what others recorded; the only thing it writes are the putty's stages in the plan."""

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], cure: CureService,
        plan: PlanService, wood: Callable[[str], WoodSet], clock: Clock,
    ) -> None:  # fmt: skip
        self._batches = batches
        self._sheets = sheets
        self._cure = cure
        self._wood = wood
        self._clock = clock
        self.plan = plan

    # -- what is known -------------------------------------------------------------------------

    def lent(self, batch: Batch | None, read: ReadLength) -> Borrowed:
        """What Blank knows of the piece."""
        return borrowed(batch, read)

    def _sheet(self, batch: Batch | None) -> ResinSheet | None:
        version = self._sheets.version(*batch.sheet) if batch and batch.sheet else None
        return version.record if version is not None else None

    def glass(self, batch: Batch | None) -> Kelvin | None:
        """Softening by the sheet."""
        sheet = self._sheet(batch)
        return sheet.glass if sheet is not None else None

    def family(self, batch: Batch | None) -> str:
        """Family of the resin; empty where no sheet is chosen."""
        sheet = self._sheet(batch)
        return sheet.family if sheet is not None else ""

    def still_curing(self, batch: Batch | None) -> Text | None:
        """Why the resin may gum: it is younger than its sheet's full cure."""
        if batch is None or batch.first_contact is None:
            return None
        view = self._cure.view(batch.id)
        full = view.stage("full") if view is not None else None
        hard = view.stage("hard") if view is not None else None
        stage = full if full is not None and full.gate is not None else hard or full
        if stage is None:
            return say("The sheet gives no full cure: try a thumbnail on the witness cup first.")
        if stage.gate is None:
            return say("No end of the cure can be told yet. Under-cured resin gums and loads paper:"
                       " wait; or try a thumbnail on the witness cup.")  # fmt: skip
        if not stage.passed(self._clock.read().utc):
            return say("Still curing until {late}: under-cured resin gums and loads paper. Wait; or"
                       " try a thumbnail on the witness cup.", late=Moment(stage.gate))  # fmt: skip
        return SOFTENS_EARLY if stage is not full and full is not None else None

    def too_soft(self, batch: Batch | None) -> tuple[Text, ...]:
        """Why a casting should not spin yet: its sheet calls it hard later, no thumbnail does."""
        if batch is None or batch.first_contact is None or "nail-hard" in batch.seen:
            return ()
        view = self._cure.view(batch.id)
        found = [view.stage(aim) for aim in ("hard", "full", "demould")] if view is not None else []
        stage = next((each for each in found if each is not None), None)
        if stage is None:
            return ()
        if stage.gate is None:
            return (NEVER_HARD,)
        if stage.passed(self._clock.read().utc):
            return ()
        told = say(
            "Not hard enough to spin before {late}: soft resin creeps, tears out and flies. Wait,"
            " or try a thumbnail on the witness cup.", late=Moment(stage.gate),
        )  # fmt: skip
        return (told,)

    def oven_dry(self, batch: Batch | None) -> bool | None:
        """Whether the wood's weighings showed it dry; None where nothing is on record."""
        if batch is None:
            return None
        return oven_dry(self._wood(batch.id))

    # -- the putty's waits: they are stages of the plan -------------------------------------------

    def putty(self, batch: Batch | None, knead: Second | None) -> PuttyWait:
        """What the putty is waiting for."""
        if batch is None:
            return PuttyWait()
        done = self.plan.done(batch)
        kneading, setting = done.get(KNEADING), done.get(SETTING)
        if setting is not None:
            until = UtcSecond(setting.start + self.set_time(batch))
            return PuttyWait(SETTING, setting.start, until, setting.end is not None)
        if kneading is not None and kneading.end is None:
            lasts = KNEAD_DEFAULT if knead is None else knead
            return PuttyWait(KNEADING, kneading.start, UtcSecond(kneading.start + lasts))
        return PuttyWait()

    def set_time(self, batch: Batch | None) -> Second:
        """How long it sets: the plan's own likely time, typed or ours."""
        stages = self.plan.stages(batch) if batch is not None else ()
        found = [each.likely for each in stages if each.key == SETTING]
        return found[0] if found else self.plan.default(SETTING).likely

    def start_kneading(self, batch_id: str) -> None:
        """The parts have met: the putty's clock runs."""
        self.plan.start(batch_id, KNEADING)

    def pressed_in(self, batch_id: str) -> None:
        """The last one is filled: it sets from now on."""
        self.plan.end(batch_id, KNEADING)
        self.plan.start(batch_id, SETTING)

    def has_set(self, batch_id: str) -> None:
        """It is hard: it may be turned and sanded."""
        self.plan.end(batch_id, SETTING)
