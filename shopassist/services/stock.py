"""What is on the shelf: lots with what is left of them, what they are enough for, their drift."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from shopassist.core.batch import Batch, Drawn
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.sheets import ResinSheet
from shopassist.core.shelf import LotRecord
from shopassist.core.stock import (
    Draw,
    Drift,
    Lot,
    Part,
    Supply,
    cost,
    draw,
    drift,
    lot_prompts,
    on_shelf,
    pieces_possible,
    shortage,
)
from shopassist.services.batches import BatchService
from shopassist.services.beside import Beside, Caution, MixFacts
from shopassist.services.versions import Library, Version

PARTS: tuple[Part, ...] = ("a", "b")
HISTORY = 200
"""Newest batches that the use of a lot is added up from; ours."""
NO_LOTS = say("No lots entered. Under Records they can be: what is left, opened, use by, price.")


@frozen
class Shelf:
    """The lots of one resin as they stand now."""

    lots: tuple[Lot, ...]
    used_before: frozenset[str]
    """Lots that an earlier batch was mixed from."""
    drift: Drift | None
    """Use of B against A, by what the bottles lost, else by what was weighed."""


class StockService:
    """Lots are records; what a batch took out of them are rows of that batch."""

    def __init__(
        self, batches: BatchService, sheets: Library[ResinSheet], lots: Library[LotRecord]
    ) -> None:
        self._batches, self._sheets, self._lots = batches, sheets, lots
        self._kept: dict[str, Shelf] = {}
        batches.changed.connect(lambda _: self._kept.clear())
        sheets.changed.connect(lambda _: self._kept.clear())
        lots.changed.connect(lambda _: self._kept.clear())

    def any(self) -> bool:
        """Whether anything is on record at all."""
        return bool(self._lots.all())

    def shelf(self, sheet: ResinSheet, without: str = "") -> Shelf:
        """The lots of one resin; ``without`` leaves the present batch out of what came before."""
        key = f"{sheet.name}\n{without}"
        if key not in self._kept:
            self._kept[key] = self._shelf(sheet, without)
        return self._kept[key]

    def _records(self, sheet: ResinSheet) -> list[Version[LotRecord]]:
        name = sheet.name.casefold()
        return [
            version
            for version in self._lots.all()
            if version.record is not None and version.record.resin.casefold() == name
        ]

    def _shelf(self, sheet: ResinSheet, without: str) -> Shelf:
        records, batches = self._records(sheet), self._of(sheet)
        lots = tuple(self._lot(version, batches) for version in records)
        before = frozenset(
            each.lot for batch in batches if batch.id != without for each in batch.drawn
        )
        names = frozenset(lot.name for lot in lots if lot.id in before)
        return Shelf(lots, names | self._sheet_lots(batches, without), self._drift(sheet, records))

    def _sheet_lots(self, batches: list[Batch], without: str) -> frozenset[str]:
        """Lots that stood on the sheets of earlier batches."""
        found = set()
        for batch in batches:
            if batch.id == without or batch.sheet is None or batch.first_contact is None:
                continue
            version = self._sheets.version(*batch.sheet)
            if version is not None and version.record is not None:
                found.add(lot_of(version.record))
        return frozenset(found - {""})

    def _of(self, sheet: ResinSheet) -> list[Batch]:
        """Batches of this resin, newest first."""
        found = []
        for batch in self._batches.recent(HISTORY):
            version = self._sheets.version(*batch.sheet) if batch.sheet is not None else None
            if version is not None and version.name.casefold() == sheet.name.casefold():
                found.append(batch)
        return found

    @staticmethod
    def _lot(version: Version[LotRecord], batches: list[Batch]) -> Lot:
        """What is left: what was weighed last, less what went into batches since."""
        lot = version.record.lot if version.record is not None else Lot("a", "", Kilogram(0.0))
        used = sum(
            each.mass
            for batch in batches
            for each in batch.drawn
            if each.lot == version.id and each.seq > version.seq
        )
        return replace(lot, left=Kilogram(max(lot.left - used, 0.0)), id=version.id)

    def _drift(self, sheet: ResinSheet, records: list[Version[LotRecord]]) -> Drift | None:
        """What the bottles have lost between one weighing and the next, B against A.

        It counts once both parts were weighed again: a bottle alone says nothing of the ratio.
        """
        used, since = dict.fromkeys(PARTS, 0.0), dict[Part, float]()
        for _, part, lost in sorted(self._lost(records)):
            since[part] = since.get(part, 0.0) + lost
            if len(since) == len(PARTS):
                for each, mass in since.items():
                    used[each] += mass
                since.clear()
        weight = weight_ratio_of(sheet)
        if weight is None or used["a"] <= 0:
            return None
        return drift(Kilogram(used["a"]), Kilogram(used["b"]), weight)

    def _lost(self, records: list[Version[LotRecord]]) -> Iterator[tuple[int, Part, float]]:
        """Each weighing after the first: its row, the part, and what is gone since the last one."""
        for version in records:
            levels = [
                (each.seq, each.record.lot)
                for each in self._lots.versions(version.id)
                if each.record is not None
            ]
            for (_, before), (seq, after) in pairwise(levels):
                yield seq, after.part, max(before.left - after.left, 0.0)


def weight_ratio_of(sheet: ResinSheet) -> Ratio | None:
    """B per A by weight, where the sheet tells it."""
    if sheet.basis == "weight":
        return sheet.ratio
    if sheet.other is not None:
        return sheet.other
    if sheet.density_a is None or sheet.density_b is None:
        return None
    return Ratio(sheet.ratio * sheet.density_b / sheet.density_a)


def lot_of(sheet: ResinSheet) -> str:
    """The lot that stands on the sheet itself; empty where none does."""
    return str((sheet.values or {}).get("lot", ""))


def supplies(facts: MixFacts, shelf: Shelf) -> dict[Part, Supply]:
    """What each part takes from which lot; parts without a lot on record are left out."""
    needed = needs(facts)
    return {
        part: draw(shelf.lots, part, mass)
        for part, mass in needed.items()
        if any(lot.part == part for lot in shelf.lots)
    }


def needs(facts: MixFacts) -> dict[Part, Kilogram]:
    """Grams of each part for all cups."""
    plan = facts.plan
    if plan.quantity != "Kilogram" or plan.ratio is None or plan.whole is None:
        return {}
    mass_a = plan.whole / (1 + plan.ratio)
    return {"a": Kilogram(mass_a), "b": Kilogram(plan.whole - mass_a)}


def short(facts: MixFacts, shelf: Shelf, pieces: int) -> Caution | None:
    """Why the shelf is not enough, and for how many pieces it is."""
    found = supplies(facts, shelf)
    told = [text for part in found if (text := shortage(part, found[part])) is not None]
    if not told:
        return None
    what = told[0] if len(told) == 1 else say("{a} {b}", a=told[0], b=told[1])
    needed = needs(facts)
    each = {part: Kilogram(needed[part] / pieces) for part in found}
    can = pieces_possible({part: on_shelf(shelf.lots, part) for part in found}, each)
    if pieces == 1:
        return what, say("Open another lot, or mix less.")
    return what, say("It is enough for {can} of {pieces} pieces.", can=can, pieces=pieces)


def drawn(shelf: Shelf, poured: dict[Part, Kilogram]) -> tuple[Draw, ...]:
    """Which lots a weighed cup was taken from."""
    return tuple(
        each for part, mass in poured.items() for each in draw(shelf.lots, part, mass).draws
    )


def drawn_more(
    shelf: Shelf, batch: Batch, part: Part, mixed: Kilogram
) -> tuple[tuple[str, Kilogram], ...]:
    """What a batch takes of its lots so that it has drawn what was mixed of a part."""
    before = [each for each in batch.drawn if each.part == part]
    more = mixed - sum(each.mass for each in before)
    if not before or abs(more) < FINEST:
        return ()
    if more > 0:
        supply = draw(shelf.lots, part, Kilogram(more))
        return tuple((each.lot.id, each.mass) for each in supply.draws)
    return _given_back(before, Kilogram(-more))


def _given_back(before: Sequence[Drawn], mass: Kilogram) -> tuple[tuple[str, Kilogram], ...]:
    """The lot that was drawn last is given back first."""
    held: dict[str, float] = {}
    for each in before:
        held[each.lot] = held.pop(each.lot, 0.0) + each.mass
    back, left = [], float(mass)
    for lot in reversed(held):
        given = min(held[lot], left)
        if given > 0:
            back.append((lot, Kilogram(-given)))
            left -= given
    return tuple(back)


FINEST = 1e-9
"""Less than this is rounding, [kg]."""


def stock_beside(facts: MixFacts, shelf: Shelf | None, pieces: int, today: str) -> Beside:
    """The page of the stock."""
    if shelf is None or facts.sheet is None:
        return Beside(notes=(say("Choose a resin sheet to see its lots."),))
    notes = list(prompts(facts.sheet, shelf, supplies(facts, shelf), today))
    if not shelf.lots:
        return Beside(notes=(*notes, NO_LOTS))
    rows = tuple(
        (say("{part}, lot {lot}", part=lot.part.upper(), lot=lot.name),
         say("{left} left", left=Amount(lot.left, "Kilogram")))
        for lot in shelf.lots
    )  # fmt: skip
    if shelf.drift is not None:
        off = Amount(100 * shelf.drift.share, "Ratio", 1)
        notes.append(say("By what the bottles lost, hardener is {off} % off the ratio.", off=off))
        if shelf.drift.flagged:
            notes.append(say("Over 5 %: look for a wrong habit, or a pump that draws air."))
    return Beside(_figures(facts, shelf, pieces), short(facts, shelf, pieces),
                  tuple(notes), rows)  # fmt: skip


def prompts(
    sheet: ResinSheet, shelf: Shelf, found: dict[Part, Supply], today: str
) -> tuple[Text, ...]:
    """New lots want a test cup; old ones a look."""
    lots: list[Lot] = [each.lot for supply in found.values() for each in supply.draws]
    own = lot_of(sheet)
    if own and not lots:
        expires = str((sheet.values or {}).get("expires", ""))
        lots.append(Lot("a", own, Kilogram(0.0), expires=expires))
    return lot_prompts(_once(lots), shelf.used_before, today)


def _once(lots: Iterable[Lot]) -> list[Lot]:
    return list({lot.name: lot for lot in lots}.values())


def _figures(facts: MixFacts, shelf: Shelf, pieces: int) -> tuple[Figure, ...]:
    needed, made = needs(facts), list[Figure]()
    stocked = [part for part in PARTS if any(lot.part == part for lot in shelf.lots)]
    if needed and len(stocked) == len(PARTS):
        have = {part: on_shelf(shelf.lots, part) for part in PARTS}
        each = {part: Kilogram(mass / pieces) for part, mass in needed.items()}
        made.append(Figure(
            "mix.pieces_possible", float(pieces_possible(have, each)), "Ratio",
            "stock.pieces_possible",
            {f"{part.upper()} on the shelf": Origin(have[part], "Kilogram", "record")
             for part in PARTS},
            label=say("Enough for pieces"),
        ))  # fmt: skip
    prices = {lot.part: lot.price for lot in shelf.lots if lot.price is not None}
    total = cost(needed, prices) if needed else None
    if total is not None:
        known = {f"price of {part.upper()}": Origin(price, "Ratio", "record")
                 for part, price in prices.items()}  # fmt: skip
        made.append(Figure("mix.cost", total, "Ratio", "stock.cost", known,
                           label=say("Resin costs")))  # fmt: skip
        if pieces > 1:
            made.append(Figure(
                "mix.cost_each", total / pieces, "Ratio", "stock.cost",
                {**known, "pieces": Origin(float(pieces), "Ratio", "typed")},
                omits=(say("Wood, colour, sandpaper, heat and hours."),),
                label=say("Of it for a piece"),
            ))  # fmt: skip
    return tuple(made)
