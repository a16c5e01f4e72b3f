"""A mix as it stands: batch, sheet, entries and what follows from them, worked out once a look."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, cast

from shopassist.core.batch import Batch, Cup
from shopassist.core.civil import civil
from shopassist.core.entry import Entry
from shopassist.core.errors import RefusedError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import say
from shopassist.core.off_ratio import Rescue, Verdict, rescue
from shopassist.core.quantities import Kelvin, Kilogram, Ratio, Second
from shopassist.core.scale import Scale
from shopassist.core.sheets import ResinSheet
from shopassist.panes.mix.drafts import FIELDS, FieldName, Standing, inputs, standing
from shopassist.panes.mix.sources import MixSources
from shopassist.services.entry_book import EntryBook
from shopassist.services.mix import (
    Basis,
    MixInputs,
    MixPlan,
    Part,
    empty_plan,
    off_by,
    plan,
    verdict,
)
from shopassist.services.versions import Version
from shopassist.services.warmth import outlook

if TYPE_CHECKING:
    from shopassist.core.milestones import Ahead
    from shopassist.core.shelf import ScaleRecord
    from shopassist.services.beside import MixFacts
    from shopassist.services.colouring import Added
    from shopassist.services.cup_today import Earlier
    from shopassist.services.cure import CureView
    from shopassist.services.steps import StepsNow
    from shopassist.services.stock import Shelf

BASES: tuple[Basis, ...] = ("weight", "volume", "strokes")
LAST_SCALES = 6
"""Newest batches that are looked through for the scale in use; ours."""


@dataclass(slots=True)
class Drafts:
    """What is typed and not committed yet, and how the pane is turned."""

    entries: dict[FieldName, Entry | None] = field(default_factory=dict)
    cup: int = 1
    unfolded: bool = False
    weighing: bool = False
    """Somebody asked for the stops: the entries fold."""
    page: str = "ratio"
    message: str = ""


@frozen
class Stand:
    """Everything that stands at one look."""

    batch: Batch | None
    version: Version[ResinSheet] | None
    found: dict[FieldName, Standing]
    basis: Basis
    bases: tuple[Basis, ...]
    """Those that may be chosen."""
    given: MixInputs
    plan: MixPlan
    cup: Cup
    judged: Verdict | None
    scale: Scale
    record: "ScaleRecord | None"
    added: "tuple[Added, ...]"

    @property
    def weighing(self) -> Part | Literal[""]:
        """The part whose reading is asked for now."""
        if self.plan.quantity != "Kilogram":
            return ""
        left = (s.part for s in self.plan.steps if s.part not in self.cup.weighed)
        return next(left, self.rescue.part if self.rescue is not None else "")

    @property
    def rescue(self) -> Rescue | None:
        """What may still be added to a cup that is off its ratio and does not react yet."""
        judged, ratio = self.judged, self.plan.ratio
        off = judged is not None and judged.band in ("off", "far off")
        if not off or ratio is None or self.cup.contact is not None:
            return None
        mass_a, mass_b = (self.cup.weighed[part].mass for part in ("a", "b"))
        return rescue(mass_a, mass_b, ratio, reacting=False)

    def mends(self, part: Part) -> bool:
        """Whether what is weighed now of a part is added to what is in the cup of it."""
        return self.rescue is not None and self.rescue.part == part

    def mass_at(self, part: Part, reading: Kilogram) -> Kilogram | None:
        """What a part weighs by the running total; None where that is not above the last stop."""
        weighed, order = self.cup.weighed, [step.part for step in self.plan.steps]
        more = self.mends(part)
        before = order[: order.index(part)] if part in order else []
        others = set(order) - {part} if more else set(before)
        mass = reading - sum(each.mass for name, each in weighed.items() if name in others)
        return Kilogram(mass) if mass > (weighed[part].mass if more else 0.0) else None

    @property
    def colour_name(self) -> str:
        """Name of the one colour in the mix; empty where there are none or several."""
        if len(self.added) != 1 or self.added[0].colour is None:
            return ""
        return self.added[0].colour.name

    def off(self, tells: float | None) -> Figure | None:
        """How far the weighed cup is off its ratio, with what the scale may be off by."""
        if self.judged is None or self.plan.ratio is None:
            return None
        mass_a, mass_b = (self.cup.weighed[part].mass for part in ("a", "b"))
        return off_by(mass_a, mass_b, self.plan.ratio, tells)

    @property
    def sheet(self) -> ResinSheet | None:
        """The sheet in the version that this batch uses."""
        return self.version.record if self.version is not None else None


class Desk:
    """Looks at one mix after the other."""

    def __init__(self, sources: MixSources, book: EntryBook) -> None:
        self._from, self._book = sources, book

    # -- the batch and its sheet -------------------------------------------------------------------

    @property
    def batch(self) -> Batch | None:
        """The batch in hand."""
        return self._book.batch

    def version(self, batch: Batch | None) -> Version[ResinSheet] | None:
        """The sheet in the version that a batch uses."""
        if batch is None or batch.sheet is None:
            return None
        return self._from.sheets.version(*batch.sheet)

    def look(self, drafts: Drafts) -> Stand:
        """Work out everything that stands."""
        batch = self.batch
        version = self.version(batch)
        sheet = version.record if version is not None else None
        basis, bases = self._basis(batch, sheet)
        found = {name: standing(name, drafts.entries, batch, sheet) for name in FIELDS}
        record = self.scale_record(batch)
        if record is not None and found["scale_step"].origin == "default":
            found["scale_step"] = Standing("", record.scale.step, "Kilogram", "on record")
        added = self.added(sheet)
        given = inputs(
            found, version, basis, b_first=self._book.text("order") == "b",
            extra=self._extra(sheet, added, record),
        )  # fmt: skip
        cup = batch.cup(drafts.cup) if batch is not None else Cup(drafts.cup)
        made = self._plan(given, sheet, cup)
        error = record.scale.error if record is not None else None
        scale = Scale(Kilogram(cast("float", given.step.value)), error)
        return Stand(batch, version, found, basis, bases, given, made, cup,
                     _judged(cup, made, sheet), scale, record, added)  # fmt: skip

    @staticmethod
    def _plan(given: MixInputs, sheet: ResinSheet | None, cup: Cup) -> MixPlan:
        if sheet is not None and (refused := by_drops(sheet)) is not None:
            return empty_plan(refused.title)
        poured = {part: weighed.mass for part, weighed in cup.weighed.items()}
        if given.b_first:
            return plan(given, None, poured.get("b"))
        return plan(given, poured.get("a"))

    def _basis(
        self, batch: Batch | None, sheet: ResinSheet | None
    ) -> tuple[Basis, tuple[Basis, ...]]:
        typed = batch.entries.get("basis") if batch is not None else None
        chosen = cast("Basis", typed.text) if typed is not None else None
        if sheet is None:
            return chosen or "weight", BASES
        if sheet.other is None or chosen not in ("weight", "volume"):
            both: tuple[Basis, ...] = ("weight", "volume")
            return sheet.basis, both if sheet.other is not None else (sheet.basis,)
        return chosen, ("weight", "volume")

    def _extra(
        self, sheet: ResinSheet | None, added: "tuple[Added, ...]", record: "ScaleRecord | None"
    ) -> "Extra":
        strokes = []
        for part in ("a", "b"):
            value = self._book.value(f"stroke_{part}")
            own = getattr(sheet, f"stroke_{part}") if sheet is not None else None
            kind = "typed" if value is not None else "sheet"
            shown = value if value is not None else own
            strokes.append(None if shown is None else Origin(shown, "CubicMetre", kind))  # type: ignore[arg-type]
        step = None
        if record is not None:
            step = Origin(record.scale.step, "Kilogram", "record", say(record.name))
        cups = int(self._book.value("cups") or 1)
        return Extra(
            tuple(strokes), cups,
            Kilogram(sum(each.mass for each in added) / cups), step,
        )  # fmt: skip

    # -- the shelf -------------------------------------------------------------------------------

    def scale_id(self, batch: Batch | None) -> str:
        """The scale of this batch, else the one that was used last; empty for a typed step."""
        own = self._book.answer("scale")
        if own.text or batch is None or "scale_step" in batch.entries:
            return own.text
        recent = self._from.batches.recent(LAST_SCALES)
        used = (b.entries.get("mix.scale") for b in recent if b.id != batch.id)
        return next((each.text for each in used if each is not None), "")

    def scale_record(self, batch: Batch | None) -> "ScaleRecord | None":
        """The scale on record that is used."""
        chosen = self.scale_id(batch)
        if not chosen:
            return None
        version = self._from.scales().newest(chosen)
        return version.record if version is not None else None

    def added(self, sheet: ResinSheet | None) -> "tuple[Added, ...]":
        """Colours in the mix."""
        names = [self._book.text(f"colour_{n}") for n in (1, 2, 3)]
        if not any(names) and not any(self._book.value(f"colour_mass_{n}") for n in (1, 2, 3)):
            return ()
        from shopassist.services.colouring import added_of

        records = {
            v.id: v.record for v in self._from.colours().all() if v.record is not None
        } if any(names) else {}  # fmt: skip
        return added_of(self._book.said(), records, self._tried(sheet, frozenset(names)))

    def _tried(self, sheet: ResinSheet | None, names: frozenset[str]) -> frozenset[str]:
        """Colours that came out well in this resin before."""
        found: set[str] = set()
        for batch in self._from.batches.recent(TRIED):
            version = self.version(batch)
            same = sheet is not None and version is not None and version.name == sheet.name
            if same and batch.outcome in ("good", "usable"):
                found |= {
                    each.text for name, each in batch.entries.items()
                    if name.startswith("mix.colour_") and each.text in names
                }  # fmt: skip
        return frozenset(found)

    # -- facts for the pages ----------------------------------------------------------------------

    def facts(self, stand: Stand) -> "MixFacts":
        """What the pages work from."""
        from dataclasses import replace

        from shopassist.services.beside import MixFacts

        said, more = self._book.said(), stand.rescue
        done = {f"weighed_{part}": float(each.mass) for part, each in stand.cup.weighed.items()}
        done |= {} if more is None else {f"mend_{more.part}": float(more.mass)}
        return MixFacts(
            stand.plan, replace(said, numbers={**said.numbers, **done}), stand.sheet, stand.scale,
            stand.record is not None and stand.record.mixes_units, stand.given.tolerance,
            stand.record.most if stand.record is not None else None,
        )  # fmt: skip

    def temp(self, stand: Stand) -> Origin | None:
        """How warm the resin is taken to be: typed, or the warm end of the newest reading."""
        typed = self._book.value("resin_temp")
        if typed is not None:
            return Origin(typed, "Kelvin", "typed")
        if stand.batch is None:
            return None
        now = self._from.clock.read().utc
        latest = self._from.cure.latest_warmth(stand.batch, now)
        if latest is None:
            return None
        warm = Kelvin(outlook(latest, now - latest.at, borrowed=not stand.batch.warmth).high)
        return Origin(warm, "Kelvin", "measured", say("The warm end of the newest reading."))

    def as_mixed(self, stand: Stand) -> "Ahead | None":
        """From how cold to how warm it is taken to be by what was typed; None: nothing new."""
        typed, batch = self._book.value("resin_temp"), stand.batch
        if typed is None or batch is None:
            return None
        from shopassist.services.as_mixed import news

        now = self._from.clock.read().utc
        latest = self._from.cure.latest_warmth(batch, now)
        age = now - latest.at if latest is not None else 0.0
        return news(batch, Kelvin(typed), latest, age)

    def warm(self, stand: Stand) -> Kelvin | None:
        """The same as a bare temperature."""
        found = self.temp(stand)
        return Kelvin(cast("float", found.value)) if found is not None else None

    def earlier(self, stand: Stand) -> "Earlier | None":
        """The last pour of the same resin with a temperature."""
        from shopassist.services.cup_today import Earlier

        own = stand.batch.id if stand.batch is not None else ""
        for batch in self._from.batches.recent(TRIED):
            version = self.version(batch)
            if batch.id == own or version is None or version.name != _name(stand):
                continue
            mass = sum(each.mass for cup in batch.cups for each in cup.weighed.values())
            if batch.first_contact is not None and batch.warmth and mass:
                return Earlier(Kilogram(mass), batch.warmth[0].middle)
        return None

    def pieces(self, stand: Stand) -> int:
        """Pieces that the amount is for, as Blank has them."""
        typed = stand.batch.entries.get("blank.pieces") if stand.batch is not None else None
        return max(int(typed.value or 1), 1) if typed is not None else 1

    def shelf(self, stand: Stand) -> "Shelf | None":
        """The lots of this resin."""
        if stand.sheet is None:
            return None
        return self._from.stock().shelf(stand.sheet, stand.batch.id if stand.batch else "")

    def today(self) -> str:
        """The local date as lots write it."""
        now = self._from.clock.read()
        here = civil(now.utc + now.utc_offset)
        return f"{here.year:04}-{here.month:02}-{here.day:02}"

    def steps(self, stand: Stand) -> "StepsNow":
        """The minutes up to pressure, and where a running batch stands in them."""
        from shopassist.services.steps import steps_now

        now, view = self._from.clock.read().utc, self._running(stand)
        since = view.contact if view is not None else None
        return steps_now(self._book.said(), self.by(stand), stand.batch, now, since)

    def _running(self, stand: Stand) -> "CureView | None":
        """The cure of this batch, once hardener is in."""
        return self._from.cure.view(stand.batch.id) if stand.batch is not None else None

    def by(self, stand: Stand) -> Second | None:
        """Pressurise by, counted from hardener-in; the working time where the sheet has no such."""
        if stand.batch is None or stand.sheet is None:
            return None
        batch, now, view = stand.batch, self._from.clock.read().utc, self._running(stand)
        if view is not None:
            stage = view.stage("pressurise")
            return _since(stage.gate if stage else None, view.contact)
        stages = self._from.cure.planned(batch.id, self.as_mixed(stand))
        stage = next((each for each in stages if each.aim == "pressurise"), None)
        return _since(stage.gate if stage is not None else None, now)


TRIED = 60
"""Newest batches that are looked through for a colour that did well; ours."""


@frozen
class Extra:
    """What the pages add to the ratio and the amount."""

    strokes: tuple[Origin | None, ...] = (None, None)
    cups: int = 1
    colour: Kilogram = Kilogram(0.0)
    step: Origin | None = None


def _name(stand: Stand) -> str:
    return stand.version.name if stand.version is not None else ""


def _since(gate: float | None, start: float) -> Second | None:
    return None if gate is None else Second(gate - start)


def _judged(cup: Cup, made: MixPlan, sheet: ResinSheet | None) -> Verdict | None:
    weighed = cup.weighed
    if made.ratio is None or "a" not in weighed or "b" not in weighed:
        return None
    tolerance: Ratio | None = sheet.tolerance if sheet is not None else None
    return verdict(weighed["a"].mass, weighed["b"].mass, made.ratio, tolerance)


def by_drops(sheet: ResinSheet) -> RefusedError | None:
    """Why a resin that is hardened by drops of catalyst is not mixed here."""
    from shopassist.core.colour import need_two_parts

    told = [sheet.name]
    if sheet.family == "other":
        told.append(str((sheet.values or {}).get("notes", "")))
    try:
        need_two_parts(*told)
    except RefusedError as error:
        return error
    return None
