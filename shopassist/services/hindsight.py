"""Looking back: what a batch's record says about its symptoms, its like, and its sheet."""

from collections.abc import Callable

from shopassist.core.batch import Batch, Cup
from shopassist.core.compare import Traits
from shopassist.core.cure import trail
from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen
from shopassist.core.learning import LEAST, Fitted, Offer, fit, offer
from shopassist.core.milestones import Milestone, milestones_of
from shopassist.core.mixing import deviation, weight_ratio
from shopassist.core.off_ratio import ON
from shopassist.core.quantities import Kilogram, Ratio, Second
from shopassist.core.sheets import ResinSheet, StageName
from shopassist.core.symptoms import Cause, Facts, rank
from shopassist.core.wood_set import WoodSet
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.damp import humidity_at_pour, most_humid
from shopassist.services.log_line import LOTS
from shopassist.services.versions import Library
from shopassist.services.warmth import readings_of

MARKS: dict[str, StageName] = {"gelled": "gel", "nail-hard": "hard"}
"""Which of the sheet's times a mark of the witness cup bears on."""
DAMP = 0.85
"""Humid from here on where neither sheet nor family says less; coating guides."""
WARMER = 1.0
"""From this rise before the gel on it counts as warming, [K]; ours."""
BANDS = ((0.02, "within 2 %"), (0.05, "within 5 %"), (0.10, "within 10 %"))
"""Words for how far off a cup was; ours."""
LOT_OF = dict(zip("ab", LOTS, strict=True))
RECENT = 200
"""Batches that a sheet's times are learnt from, the newest ones; ours."""


@frozen
class Learnt:
    """One time of a sheet, fitted."""

    stage: StageName
    sheet: Second
    fitted: Fitted
    offer: Offer


class Hindsight:
    """Asks the services; keeps nothing."""

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], cure: CureService,
        lot_name: Callable[[str], str], wood: Callable[[str], WoodSet],
    ) -> None:  # fmt: skip
        self._batches = batches
        self._sheets = sheets
        self._cure = cure
        self._lot_name = lot_name
        self._wood = wood

    # -- symptoms ---------------------------------------------------------------------------

    def causes(self, batch_id: str, symptom: str) -> tuple[Cause, ...]:
        """Causes of a symptom, ranked by what this batch has on record."""
        return rank(symptom, self.facts(batch_id))

    def facts(self, batch_id: str) -> Facts:
        """What the record of one batch says."""
        batch = self._batches.get(batch_id)
        sheet = self._cure.sheet(batch)
        ages, wood = self._shares(batch, sheet), self._wood(batch_id)
        return Facts(
            off_ratio=_off_ratio(batch, sheet),
            cured=ages.get("full", ages.get("hard")),
            under_minimum=_under_minimum(batch, sheet),
            witness_hard=_witness(batch),
            pressed_before_gel=_pressed(batch),
            warming=_warming(batch),
            hot_mass=_hot_mass(batch, sheet),
            stabilised=_stabilised(wood),
            core_reached=_core_reached(wood),
            humid=_humid(batch, sheet),
            depth_over_limit=_too_deep(batch, sheet),
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

    # -- likeness ----------------------------------------------------------------------------

    def traits(self, batch: Batch) -> Traits:
        """Facts of a batch as words that can be compared; kept by ``log_line.LINE_VERSION``."""
        sheet = self._cure.sheet(batch)
        found: dict[str, str | None] = {
            "Resin": sheet.name if sheet is not None else None,
            "Sheet version": str(batch.sheet[1]) if batch.sheet else None,
            "Hardener": _band(_worst(batch, sheet)),
            "Cups": str(len(batch.cups)) if batch.cups else None,
            "Coldest": _coldest(batch, sheet),
            "Pressure": _either(_pressed(batch), "before the gel", "after the gel"),
            "Warming before the gel": _either(_warming(batch), "yes", "no"),
            "Mass in one cup": _either(
                _hot_mass(batch, sheet), "above the sheet's", "within the sheet's"
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

    # -- learning ------------------------------------------------------------------------------

    def learnt(self, record: str) -> tuple[Learnt, ...]:
        """What witness cups say about the newest version of a sheet."""
        version = self._sheets.newest(record)
        sheet = version.record if version is not None else None
        if sheet is None:
            return ()
        found: list[Learnt] = []
        for milestone in milestones_of(sheet):
            ages = self._observed(record, milestone)
            if len(ages) >= LEAST:
                fitted = fit(ages, milestone.required)
                made = offer(fitted, milestone.required, milestone.kind)
                found.append(Learnt(milestone.stage, milestone.required, fitted, made))
        return tuple(found)

    def _observed(self, record: str, milestone: Milestone) -> list[Second]:
        """Ages at the sheet's own temperature at which the mark was seen."""
        mark = next((m for m, stage in MARKS.items() if stage == milestone.stage), "")
        ages: list[Second] = []
        for batch in self._batches.recent(RECENT):
            if batch.sheet is None or batch.sheet[0] != record or mark not in batch.seen:
                continue
            age = self._age(batch, milestone, mark)
            if age is not None:
                ages.append(age)
        return ages

    @staticmethod
    def _age(batch: Batch, milestone: Milestone, mark: str) -> Second | None:
        rows = [cup.contact_row for cup in batch.cups if cup.contact_row is not None]
        if not rows or not batch.warmth:
            return None
        begun = min(rows, key=lambda row: row.happened)
        upto = Second(batch.seen[mark] - begun.happened)
        if upto <= 0:
            return None
        warmth = readings_of(batch, upto, lambda row: row.happened - begun.happened)
        age = trail(milestone.course, warmth, upto)[-1].age
        return age if age > 0 else None


# -- one fact each --------------------------------------------------------------------------------


def _mixed(batch: Batch) -> list[Cup]:
    return [cup for cup in batch.cups if "a" in cup.weighed and "b" in cup.weighed]


def _ratio(sheet: ResinSheet) -> Ratio | None:
    """Grams of B for one of A, where the sheet lets it be known."""
    share = Ratio(sheet.part_b / sheet.part_a)
    if sheet.basis == "weight":
        return share
    if sheet.density_a is None or sheet.density_b is None:
        return None
    return weight_ratio(share, sheet.density_a, sheet.density_b)


def _worst(batch: Batch, sheet: ResinSheet | None) -> float | None:
    """Deviation of the cup that is furthest off."""
    ratio = _ratio(sheet) if sheet is not None else None
    if ratio is None:
        return None
    found: list[float] = []
    for cup in _mixed(batch):
        try:
            found.append(deviation(cup.weighed["a"].mass, cup.weighed["b"].mass, ratio))
        except ShopError:
            return None
    return max(found, key=abs, default=None)


def _off_ratio(batch: Batch, sheet: ResinSheet | None) -> float | None:
    worst = _worst(batch, sheet)
    if worst is None or sheet is None:
        return None
    return abs(worst) / (sheet.tolerance or ON)


def _band(worst: float | None) -> str | None:
    if worst is None:
        return None
    return next((words for limit, words in BANDS if abs(worst) <= limit), "more than 10 % off")


def _under_minimum(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    if sheet is None or sheet.temp_lowest is None or not batch.warmth:
        return None
    return min(each.low for each in batch.warmth) < sheet.temp_lowest


def _coldest(batch: Batch, sheet: ResinSheet | None) -> str | None:
    under = _under_minimum(batch, sheet)
    return _either(under, "under the sheet's minimum", "above the sheet's minimum")


def _witness(batch: Batch) -> bool | None:
    """Hard once nail-hard was seen; soft while it was only looked at."""
    if not batch.seen:
        return None
    return "nail-hard" in batch.seen


def _pressed(batch: Batch) -> bool | None:
    gelled, pressed = batch.seen.get("gelled"), batch.at_pressure
    if gelled is None or pressed is None:
        return None
    return pressed < gelled


def _warming(batch: Batch) -> bool | None:
    start, end = batch.first_contact, batch.seen.get("gelled")
    if start is None:
        return None
    found = [each for each in batch.warmth if each.at >= start and (end is None or each.at <= end)]
    if len(found) < 2:  # noqa: PLR2004 - a trend takes two
        return None
    return found[-1].middle - found[0].middle > WARMER


def _hot_mass(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    cups = _mixed(batch)
    if sheet is None or sheet.mass_limit is None or not cups:
        return None
    return max(cup.weighed["a"].mass + cup.weighed["b"].mass for cup in cups) > sheet.mass_limit


def _stabilised(wood: WoodSet) -> bool | None:
    """Through bath and bake, where anything of the wood is on record."""
    known = wood.weighed or wood.events
    return "bake_off" in wood.events if known else None


def _core_reached(wood: WoodSet) -> bool | None:
    return "core_hot" in wood.events if "bake_on" in wood.events else None


def _humid(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    """Above what the resin's family stands, by the humidity that was written down."""
    read = humidity_at_pour(batch)
    if read is None:
        return None
    limit = most_humid(sheet) if sheet is not None else None
    return read > (limit[0] if limit is not None else DAMP)


def _too_deep(batch: Batch, sheet: ResinSheet | None) -> bool | None:
    depth = batch.entries.get("mix.pour_depth")
    if depth is None or depth.value is None or sheet is None or sheet.layer_limit is None:
        return None
    return depth.value > sheet.layer_limit


def _either(fact: bool | None, yes: str, no: str) -> str | None:  # noqa: FBT001 - a fact
    if fact is None:
        return None
    return yes if fact else no
