"""Looking back: what a batch's record says about its symptoms, its like, and its sheet."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from shopassist.core.batch import Batch
from shopassist.core.colour import Colourant
from shopassist.core.compare import Traits
from shopassist.core.cure import trail
from shopassist.core.frozen import frozen
from shopassist.core.quantities import Kilogram, Second, UtcSecond
from shopassist.core.sheet_milestones import milestones_of
from shopassist.core.sheets import ResinSheet, StageName
from shopassist.core.symptoms import Cause, Facts, rank
from shopassist.services import batch_facts as of
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.damp import oven_dry
from shopassist.services.log_line import LOTS
from shopassist.services.versions import Library
from shopassist.services.warmth import readings_of
from shopassist.services.witnesses import Witnesses

if TYPE_CHECKING:
    from shopassist.services.pot import PotService

LOT_OF = dict(zip("ab", LOTS, strict=True))


@frozen
class Beyond:
    """What others know of a batch; asked for when a symptom is looked at."""

    wood: Callable[[], of.Woodwork]
    colours: Callable[[], Library[Colourant]]
    pots: "PotService"
    lot_price: Callable[[str], float | None]
    """Price of a kilogram out of a lot, in the shop's own money; None where nobody wrote it."""
    demoulded: Callable[[str], UtcSecond | None]
    """When the plan was told that it left its mould."""


class Hindsight:
    """Asks the services; keeps nothing."""

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], cure: CureService,
        lot_name: Callable[[str], str], beyond: Beyond,
    ) -> None:  # fmt: skip
        self._batches = batches
        self._sheets = sheets
        self._cure = cure
        self._lot_name = lot_name
        self._beyond = beyond
        self.witnesses = Witnesses(batches, sheets)

    # -- symptoms ---------------------------------------------------------------------------

    def causes(self, batch_id: str, symptom: str) -> tuple[Cause, ...]:
        """Causes of a symptom, ranked by what this batch has on record."""
        return rank(symptom, self.facts(batch_id))

    def facts(self, batch_id: str) -> Facts:
        """What the record of one batch says."""
        batch = self._batches.get(batch_id)
        sheet = self._cure.sheet(batch)
        ages, work = self._shares(batch, sheet), self._beyond.wood()
        wood = work.state(batch_id)
        return Facts(
            off_ratio=of.off_ratio(batch, sheet),
            cured=ages.get("full", ages.get("hard")),
            age_at_demould=self._at_demould(batch, sheet),
            under_minimum=of.under_minimum(batch, sheet),
            witness_hard=of.witness_hard(batch),
            colour_over_cap=of.colour_over_cap(batch, self._colours(batch)),
            scraped=of.scraped(batch),
            wood_dry=oven_dry(wood),
            stabilised=of.stabilised(wood),
            pressed_before_gel=of.pressed_before_gel(batch),
            vented_early=of.vented_early(batch, self._hold(batch)),
            pot_leaked=self._leaked(batch),
            warming=of.warmed(batch),
            depth_over_limit=of.too_deep(batch, sheet),
            hot_mass=of.hot_mass(batch, sheet),
            humid=of.humid(batch, sheet),
            pecked=of.pecked(batch),
            fast=of.too_fast(batch),
            core_reached=of.core_reached(wood),
            low_uptake=of.low_uptake(work.filled(batch_id)),
            bath_shared=of.bath_shared(work.woods_before(batch_id)),
        )

    def _shares(self, batch: Batch, sheet: ResinSheet | None) -> dict[StageName, float]:
        """Age over the sheet's time of each stage, as of the outcome or of now."""
        standing = self._cure.course(batch.id) if batch.warmth else None
        if sheet is None or standing is None:
            return {}
        return {
            each.stage: standing.trail(each)[-1].age / each.required
            for each in milestones_of(sheet)
            if each.kind == "release"
        }

    def _colours(self, batch: Batch) -> dict[str, Colourant]:
        if not any(name.startswith("mix.colour_") for name in batch.entries):
            return {}
        return {v.id: v.record for v in self._beyond.colours().all() if v.record is not None}

    def _hold(self, batch: Batch) -> UtcSecond | None:
        """The end of its hold, as far as it is known now."""
        view = self._cure.view(batch.id) if batch.at_pressure is not None else None
        stage = view.stage("hold") if view is not None else None
        return stage.gate if stage is not None else None

    def _leaked(self, batch: Batch) -> bool | None:
        pot, pots = batch.held_in, self._beyond.pots
        if not pot or pot not in pots.ids():
            return None
        plate = pots.state(pot).plate
        division = plate.gauge.division if plate is not None and plate.gauge is not None else 0.0
        return of.pot_leaked(batch, pots.courses(pot), pots.ambient(pot), division)

    def _at_demould(self, batch: Batch, sheet: ResinSheet | None) -> float | None:
        """Age over the sheet's time at the moment it left its mould."""
        left, begun = self._beyond.demoulded(batch.id), batch.first_contact
        found = [each for each in milestones_of(sheet) if each.stage == "demould"] if sheet else []
        if left is None or begun is None or left <= begun or not batch.warmth or not found:
            return None
        upto = Second(left - begun)
        warmth = readings_of(batch, upto, lambda row: row.happened - begun)
        return trail(found[0].course, warmth, upto)[-1].age / found[0].required

    # -- likeness ----------------------------------------------------------------------------

    def traits(self, batch: Batch) -> Traits:
        """Facts of a batch as words that can be compared; kept by ``log_line.LINE_VERSION``."""
        sheet = self._cure.sheet(batch)
        found: dict[str, str | None] = {
            "Resin": sheet.name if sheet is not None else None,
            "Sheet version": str(batch.sheet[1]) if batch.sheet else None,
            "Hardener": of.band(of.worst_cup(batch, sheet)),
            "Cups": str(len(batch.cups)) if batch.cups else None,
            "Coldest": of.coldest(batch, sheet),
            "Pressure": of.either(of.pressed_before_gel(batch), "before the gel", "after the gel"),
            "Warming before the gel": of.either(of.warmed(batch), "yes", "no"),
            "Mass in one cup": of.either(
                of.hot_mass(batch, sheet), "above the sheet's", "within the sheet's"
            ),
            "Off the sheet with a reason": "yes" if batch.reasons else "no",
            **self._lots(batch),
        }
        typed = {
            name.replace("_", " ").replace(".", ": ").capitalize(): each.text
            for name, each in batch.entries.items()
        }
        return {k: v for k, v in found.items() if v is not None} | typed

    def _lots(self, batch: Batch) -> dict[str, str | None]:
        """The lots by part, so that a lot that failures share is found."""
        found = {part: sorted({name for each, name, _ in self.lots(batch) if each == part})
                 for part in LOT_OF}  # fmt: skip
        return {LOT_OF[part]: ", ".join(names) or None for part, names in found.items()}

    def lots(self, batch: Batch) -> tuple[tuple[str, str, Kilogram], ...]:
        """What the batch is made of: part, name of the lot, mass out of it."""
        taken: dict[tuple[str, str], float] = {}
        for each in batch.drawn:
            taken[each.part, each.lot] = taken.get((each.part, each.lot), 0.0) + each.mass
        return tuple(
            (part, self._lot_name(lot), Kilogram(mass)) for (part, lot), mass in taken.items()
        )

    def cost(self, batch: Batch) -> tuple[float, int] | None:
        """What the resin out of its lots cost, and for how many pieces; None without all prices."""
        priced = [(each.mass, self._beyond.lot_price(each.lot)) for each in batch.drawn]
        known = [mass * price for mass, price in priced if price is not None]
        if not known or len(known) < len(priced):
            return None
        pieces = batch.entries.get("blank.pieces")
        return sum(known), max(int(pieces.value or 1), 1) if pieces is not None else 1
