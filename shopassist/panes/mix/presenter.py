"""Words of the mix pane: drafts in, grams and stops out; commits when a field is left."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal, cast

from shopassist.clock import Clock
from shopassist.core.batch import Batch, Cup, Typed
from shopassist.core.entry import Entry
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure
from shopassist.core.off_ratio import Verdict
from shopassist.core.quantities import Kilogram, UtcSecond
from shopassist.core.sheets import ResinSheet
from shopassist.core.wording import Wording
from shopassist.panes.mix import words
from shopassist.panes.mix.drafts import LABELS, FieldName, Standing, inputs, standing
from shopassist.panes.mix.screen import ButtonShown, MixScreen
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.hooks import Hook
from shopassist.services.in_hand import InHand
from shopassist.services.library import Library, Version
from shopassist.services.mix import MixPlan, plan, verdict

Basis = Literal["weight", "volume"]
FIELDS: tuple[FieldName, ...] = ("ratio_a", "ratio_b", "amount", "waste", "scale_step")


@dataclass(slots=True)
class _Drafts:
    """What is typed and not committed yet."""

    entries: dict[FieldName, Entry | None] = field(default_factory=dict)
    cup: int = 1
    unfolded: bool = False
    message: str = ""


class MixPresenter:
    """Keeps the drafts of the batch in hand; everything committed is the service's."""

    IDS = (
        "mix.sheet",
        "mix.basis.weight",
        "mix.basis.volume",
        "mix.ratio_a",
        "mix.ratio_b",
        "mix.amount",
        "mix.waste",
        "mix.scale_step",
        "mix.summary",
        "mix.part_a_target",
        "mix.part_b_target",
        "mix.total_target",
        "mix.stops",
        "mix.cup.<n>.actual_a",
        "mix.cup.<n>.actual_b",
        "mix.deviation",
        "mix.tolerance",
        "mix.note",
        "mix.reason",
        "mix.when",
        "mix.hardener_in",
        "mix.poured",
        "mix.another_cup",
        "mix.correct_weight",
        "mix.message",
    )

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], hand: InHand,
        cure: CureService, clock: Clock, wording: Wording,
    ) -> None:  # fmt: skip
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self.went_on: Hook[Literal["cure", "pot"]] = Hook()
        """Hardener is in, or it is poured: the next pane takes over."""
        self._batches = batches
        self._sheets = sheets
        self._hand = hand
        self._cure = cure
        self._clock = clock
        self._wording = wording
        self._drafts = _Drafts()
        self._shown: MixPlan | None = None
        batches.changed.connect(self._on_batch)
        sheets.changed.connect(lambda _: self.changed.emit(None))
        hand.changed.connect(self._on_hand)
        self._take_cup()

    def _on_batch(self, batch_id: str) -> None:
        if batch_id == self._hand.batch:
            self.changed.emit(None)

    def _on_hand(self, _: None) -> None:
        self._drafts = _Drafts()
        self._take_cup()
        self.changed.emit(None)

    def _take_cup(self) -> None:
        """Turn to the cup that is still being mixed, or the last one."""
        batch = self._batch()
        if batch is not None and batch.cups:
            self._drafts.cup = batch.cups[-1].number

    # -- what stands ------------------------------------------------------------------------

    def _batch(self) -> Batch | None:
        batch_id = self._hand.batch
        return self._batches.get(batch_id) if batch_id else None

    def _version(self, batch: Batch | None) -> Version[ResinSheet] | None:
        """The sheet in the version that this batch uses."""
        if batch is None or batch.sheet is None:
            return None
        return self._sheets.version(*batch.sheet)

    def _standings(self, batch: Batch | None) -> dict[FieldName, Standing]:
        version = self._version(batch)
        sheet = version.record if version is not None else None
        return {name: standing(name, self._drafts.entries, batch, sheet) for name in FIELDS}

    def _basis(self, batch: Batch | None) -> Basis:
        version = self._version(batch)
        if version is not None and version.record is not None:
            return version.record.basis
        typed = batch.entries.get("basis") if batch is not None else None
        return cast("Basis", typed.text) if typed is not None else "weight"

    def _plan(self, batch: Batch | None, found: dict[FieldName, Standing]) -> MixPlan:
        poured = self._cup(batch).weighed
        mass_a = poured["a"].mass if "a" in poured else None
        given = inputs(found, self._version(batch), self._basis(batch), b_first=False)
        return plan(given, mass_a)

    def _cup(self, batch: Batch | None) -> Cup:
        return batch.cup(self._drafts.cup) if batch is not None else Cup(self._drafts.cup)

    def _verdict(self, batch: Batch | None, made: MixPlan) -> Verdict | None:
        weighed = self._cup(batch).weighed
        if made.ratio is None or "a" not in weighed or "b" not in weighed:
            return None
        version = self._version(batch)
        tolerance = version.record.tolerance if version and version.record else None
        return verdict(weighed["a"].mass, weighed["b"].mass, made.ratio, tolerance)

    # -- what is shown ------------------------------------------------------------------------

    @property
    def screen(self) -> MixScreen:
        """The pane as it stands now."""
        batch = self._batch()
        found = self._standings(batch)
        made = self._shown = self._plan(batch, found)
        cup, say = self._cup(batch), self._wording
        judged = self._verdict(batch, made)
        weighing = _weighing(made, cup)
        version = self._version(batch)
        return MixScreen(
            batch_id=batch.id if batch else "",
            batch_name=batch.name if batch else "New batch",
            cup=cup.number,
            folded=not self._drafts.unfolded and bool(cup.weighed),
            summary=words.summary(say, version, self._basis(batch), found),
            sheets=tuple((v.id, v.name) for v in self._sheets.all() if not v.is_broken),
            sheet=batch.sheet[0] if batch and batch.sheet else "",
            basis=self._basis(batch),
            ratio_locked=version is not None,
            fields=tuple(found.items()),
            figures=words.figures(say, made),
            stops=words.stops(say, made, cup, weighing),
            weighing=weighing,
            deviation=words.deviation(say, judged),
            rule=words.rule(say, judged),
            note=words.note(say, judged, made, cup),
            ahead=self._ahead(batch, made),
            facts=words.facts(say, batch, cup),
            hardener=self._hardener(batch, made, cup, judged),
            needs_reason=judged is not None and judged.needs_reason and cup.contact is None,
            poured=_poured(batch),
            another=_another(batch, cup),
            message=self._drafts.message,
        )

    def _ahead(self, batch: Batch | None, made: MixPlan) -> tuple[tuple[str, str], ...]:
        """What would follow if hardener went in now: shown beside the grams."""
        version = self._version(batch)
        if made.missing is not None or version is None or version.record is None:
            return ()
        if batch is None or self._cup(batch).contact is not None:
            return ()
        return words.ahead(self._wording, self._cure.planned(batch.id))

    def _hardener(
        self, batch: Batch | None, made: MixPlan, cup: Cup, judged: Verdict | None
    ) -> ButtonShown | None:
        if cup.contact is not None:
            return None
        name = batch.name if batch else "new batch"
        if made.missing is not None:
            return ButtonShown("Hardener in", enabled=False, reason=self._wording.say(made.missing))
        if judged is not None and judged.needs_reason:
            return ButtonShown(f"Hardener in – {name}", reason="Far off its ratio: type why.")
        return ButtonShown(f"Hardener in – {name}")

    # -- acts: typing ---------------------------------------------------------------------------

    def on_edited(self, name: FieldName, entry: Entry | None) -> None:
        """Take a draft; the numbers follow at once, nothing is written yet."""
        self._drafts.entries[name] = entry
        self.changed.emit(None)

    def on_committed(self, name: FieldName, entry: Entry | None) -> None:
        """A field was left or Enter was pressed: write it."""
        typed = None if entry is None else Typed(entry.plain, entry.value, entry.quantity)
        self._drafts.entries.pop(name, None)
        self._do(lambda: self._batches.enter(self._for_entry(typed), name, typed))

    def _for_entry(self, typed: object) -> str:
        """Open a batch for the first entry; taking nothing away opens none."""
        if typed is None and not self._hand.batch:
            return ""
        drafts = self._drafts
        batch_id = self._hand.batch_for_entry()
        # A new batch in hand must not cost the drafts of the other fields.
        self._drafts = drafts
        return batch_id

    def on_basis(self, basis: Basis) -> None:
        """Say whether the typed ratio is by weight or by volume."""
        self._do(lambda: self._batches.enter(self._for_entry(basis), "basis", Typed(basis, None)))

    def on_sheet(self, record_id: str) -> None:
        """Use a resin sheet, or just a ratio where the id is empty."""
        newest = self._sheets.newest(record_id)
        number = newest.number if newest is not None else 0
        self._drafts.entries.pop("ratio_a", None)
        self._drafts.entries.pop("ratio_b", None)
        self._do(lambda: self._batches.use_sheet(self._for_entry(record_id), record_id, number))

    def on_unfold(self) -> None:
        """Show the inputs again."""
        self._drafts.unfolded = not self._drafts.unfolded
        self.changed.emit(None)

    # -- acts: weighing -----------------------------------------------------------------------

    def on_weighed(self, part: Literal["a", "b"], entry: Entry | None, reason: str = "") -> None:
        """Take what the scale shows at a stop; it is the running total."""
        if entry is None:
            return
        batch = self._batch()
        before = sum(
            each.mass for name, each in self._cup(batch).weighed.items() if name in _before(part)
        )
        mass = Kilogram(entry.value - before)
        if mass <= 0:
            self._tell("The running total must be above the last stop.")
            return
        number = self._drafts.cup
        self._do(lambda: self._batches.weigh(self._for_entry(entry), number, part, mass, reason))

    def on_correct(self, reason: str) -> None:
        """Weigh again what was typed wrong, before the cup reacts."""
        cup = self._cup(self._batch())
        if cup.contact is not None and not reason.strip():
            self._tell("Say why the weight changes; the old one stays in the log.")
            return
        part: Literal["a", "b"] = "b" if "b" in cup.weighed else "a"
        self._do(lambda: self._batches.unweigh(self._hand.batch, cup.number, part, reason))

    # -- acts: what happened ----------------------------------------------------------------------

    def on_hardener_in(self, when: str = "", reason: str = "") -> None:
        """Hardener has met resin: the clock of this cup starts, now or a little ago."""
        screen = self.screen
        if screen.hardener is None or not screen.hardener.enabled:
            return
        if screen.needs_reason and not reason.strip():
            self._tell("This cup is far off its ratio. Type why it is used all the same.")
            return
        number = self._drafts.cup

        def act() -> None:
            happened = self._moment(when)
            batch_id = self._for_entry(when or "now")
            self._batches.hardener_in(batch_id, number, happened, reason.strip())

        if self._do(act):
            self.went_on.emit("cure")

    def on_poured(self, when: str = "") -> None:
        """The resin is in the mould: working time no longer matters, the pot is next."""
        if self._do(lambda: self._batches.poured(self._hand.batch, self._moment(when))):
            self.went_on.emit("pot")

    def _moment(self, when: str) -> UtcSecond | None:
        """Hands are sticky: "2 min ago" and "14:06" count as well as now."""
        if when.strip().casefold() in ("", "now"):
            return None
        return self._wording.read_moment(when, self._clock.read(), "mix.when")

    def on_another_cup(self) -> None:
        """Mix one more cup of the same."""
        batch = self._batch()
        if batch is not None:
            self._drafts.cup = max((cup.number for cup in batch.cups), default=0) + 1
            self.changed.emit(None)

    def on_undo(self) -> None:
        """Give back what the newest entry replaced."""
        if self._hand.batch:
            undone = self._batches.undo(self._hand.batch)
            label = LABELS.get(cast("FieldName", undone), undone) if undone else None
            self._tell(f"Undone: {label}." if label else "Nothing to undo.")

    def on_explain(self, name: str) -> None:
        """Explain one of the figures."""
        made = self._shown
        if made is None:
            return
        figures = (made.part_a, made.part_b, made.total, made.step_error)
        for figure in figures:
            if figure is not None and figure.id == name:
                self.explained.emit(figure)

    def _do(self, act: Callable[[], object]) -> bool:
        try:
            act()
        except ShopError as error:
            detail = self._wording.say(error.detail)
            self._tell(f"{self._wording.say(error.title)} {detail}".strip())
            return False
        self._tell("")
        return True

    def _tell(self, message: str) -> None:
        self._drafts.message = message
        self.changed.emit(None)


def _before(part: str) -> tuple[str, ...]:
    return () if part == "a" else ("a", "colour")


def _weighing(made: MixPlan, cup: Cup) -> Literal["a", "b", ""]:
    if made.quantity != "Kilogram" or not made.steps:
        return ""
    for step in made.steps:
        if step.part not in cup.weighed:
            return cast("Literal['a', 'b']", step.part)
    return ""


def _poured(batch: Batch | None) -> ButtonShown | None:
    if batch is None or batch.first_contact is None or batch.poured is not None:
        return None
    return ButtonShown(f"Poured – {batch.name}")


def _another(batch: Batch | None, cup: Cup) -> ButtonShown | None:
    if batch is None or cup.contact is None:
        return None
    return ButtonShown("Another cup")
