"""The facts of one batch in words, in the order in which they happened."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from math import ceil, floor

from shopassist.core.batch import Batch, Cup
from shopassist.core.quantities import Kilogram
from shopassist.core.records import ReadQuantity, flatten, is_blank, nest
from shopassist.core.sheet_milestones import HAZARDS
from shopassist.core.sheet_pairs import WORDS
from shopassist.core.wording import Wording
from shopassist.panes.log.screen import Fact
from shopassist.services.witnesses import Learnt

PARTS = {"a": "resin", "b": "hardener", "colour": "colour", "empty": "empty cup"}
MINUTE = 60.0
LABELS = {
    "amount": "Needed", "waste": "Waste", "scale_step": "Scale step", "ratio_a": "Parts of A",
    "ratio_b": "Parts of B", "basis": "Ratio by",
}  # fmt: skip


def facts_of(
    batch: Batch, say: Wording, sheet_name: Callable[[Batch], str],
    lots: Iterable[tuple[str, str, Kilogram]], cost: tuple[float, int] | None = None,
) -> tuple[Fact, ...]:  # fmt: skip
    """Every fact that the journal holds of a batch; what other panes than Mix asked comes last."""
    facts = [
        Fact("Opened", f"{say.date(batch.opened)}, {say.clock(batch.opened)}"),
        Fact("Resin", sheet_name(batch)),
    ]
    facts += _entries(batch, of_mix=True)
    for cup in batch.cups:
        facts += _cup(cup, say)
    facts += [
        Fact(f"Lot of {PARTS.get(part, part)}", f"{name}, {say.amount(mass, 'Kilogram')}")
        for part, name, mass in lots
    ]
    if cost is not None:
        facts.append(_cost(say, *cost))
    if batch.poured is not None:
        facts.append(Fact("Poured", _when(say, batch.poured, batch), typed=True))
    if batch.at_pressure is not None:
        facts.append(Fact("At pressure", _when(say, batch.at_pressure, batch), typed=True))
    facts += [
        Fact(f"{each.where.capitalize()}, {_when(say, each.at, batch)}",
             _warmth(say, each.low, each.high), typed=True)
        for each in batch.warmth
    ]  # fmt: skip
    facts += [
        Fact("Temperature not known",
             f"{_when(say, each.since, batch)} – {_when(say, each.until, batch)}", typed=True)
        for each in batch.unknowns
    ]  # fmt: skip
    facts += [
        Fact(f"Seen: {mark}", _when(say, when, batch), typed=True)
        for mark, when in batch.seen.items()
    ]
    if batch.finished is not None:
        facts.append(Fact("Outcome", f"{batch.outcome}, {_when(say, batch.finished, batch)}"))
    facts += [Fact("Reason", reason, typed=True) for reason in batch.reasons]
    facts += [Fact("Photograph", path, typed=True) for path in batch.photos]
    facts += [Fact("Note", note, typed=True) for note in batch.notes]
    return (*facts, *_entries(batch, of_mix=False))


def _entries(batch: Batch, *, of_mix: bool) -> list[Fact]:
    return [
        Fact(label_of(name), each.text, each.origin == "typed")
        for name, each in batch.entries.items()
        if ("." not in name or name.startswith("mix.")) is of_mix
    ]


def _cost(say: Wording, total: float, pieces: int) -> Fact:
    """In the shop's own money; of the resin alone."""
    each = f", {say.number(total / pieces, 2)} for one of {pieces}" if pieces > 1 else ""
    return Fact("Resin cost", f"{say.number(total, 2)}{each}")


def _cup(cup: Cup, say: Wording) -> list[Fact]:
    found = [
        Fact(f"Cup {cup.number}, {PARTS[part]}", say.amount(each.mass, "Kilogram"), typed=True)
        for part, each in cup.weighed.items()
    ]
    if cup.contact is not None:
        found.append(Fact(f"Cup {cup.number}, hardener in", say.clock(cup.contact), typed=True))
    return found


def _when(say: Wording, when: float, batch: Batch) -> str:
    """Clock time; with its weekday or date where that is another day than the batch's first."""
    return say.clock(when, batch.opened)


def label_of(field: str) -> str:
    """Words for a committed entry."""
    return LABELS.get(field, field.replace("_", " ").replace(".", ", ").capitalize())


def _warmth(say: Wording, low: float, high: float) -> str:
    if low == high:
        return say.amount(low, "Kelvin")
    return say.span(low, high, "Kelvin") + " " + say.unit("Kelvin")


def with_times(
    mapping: Mapping[str, object], learnt: Sequence[Learnt], read: ReadQuantity
) -> dict[str, object]:
    """A sheet's entries with the learnt times in them, as text with units.

    What was learnt of a hazard is the shortest of a step, what was learnt of a release its longest:
    neither may move the other. Further times of the step move by the same share, so that how it
    changes with warmth stays what it was.
    """
    flat = dict(flatten(mapping))
    for stage in dict.fromkeys(each.stage for each in learnt):
        own = {each.kind: each for each in learnt if each.stage == stage}
        shorter = own["hazard"].factor if "hazard" in own else 1.0
        longer = own["release"].factor if "release" in own else 1.0
        if stage not in HAZARDS:
            shorter = longer
        for mark in ("", *(f"_{number}" for number in WORDS)):
            _move(flat, f"{stage}.time{mark}", shorter, longer, read)
        count = max(each.fitted.count for each in own.values())
        flat[f"{stage}.method"] = f"{count} witness cups of this shop"
    return nest(flat)


def _move(
    flat: dict[str, object], place: str, shorter: float, longer: float, read: ReadQuantity
) -> None:
    """Multiply a time, and the other end of its range; one figure becomes a range where it must."""
    if is_blank(flat.get(place)):
        return
    last = f"{place}_high"
    ranged = not is_blank(flat.get(last))
    first = read(str(flat[place]), "Second")
    end = read(str(flat[last]), "Second") if ranged else first
    flat[place] = _whole(first * shorter, up=shorter == longer)
    if ranged or shorter != longer:
        flat[last] = _whole(end * longer, up=True)


def _whole(seconds: float, *, up: bool) -> str:
    """Whole minutes, under ten of them whole seconds: hazards down, releases up."""
    size, unit = (MINUTE, "min") if seconds >= 10 * MINUTE else (1.0, "s")
    # What stands on a whole minute already stays there.
    share = round(seconds / size, 6)
    return f"{ceil(share) if up else floor(share)} {unit}"
