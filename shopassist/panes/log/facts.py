"""The facts of one batch in words, in the order in which they happened."""

from collections.abc import Callable, Iterable, Mapping, Sequence

from shopassist.core.batch import Batch, Cup
from shopassist.core.quantities import Kilogram
from shopassist.core.records import flatten, nest
from shopassist.core.wording import Wording
from shopassist.panes.log.screen import Fact
from shopassist.services.witnesses import Learnt

PARTS = {"a": "resin", "b": "hardener", "colour": "colour", "empty": "empty cup"}
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


def with_times(mapping: Mapping[str, object], learnt: Sequence[Learnt]) -> dict[str, object]:
    """A sheet's entries with the learnt times in them, as text with units."""
    flat = dict(flatten(mapping))
    for each in learnt:
        flat[f"{each.stage}.time"] = f"{round(each.offer.time / 60)} min"
        if f"{each.stage}.time_high" in flat:
            flat[f"{each.stage}.time_high"] = f"{round(each.offer.time / 60)} min"
        flat[f"{each.stage}.method"] = f"{each.fitted.count} witness cups of this shop"
    return nest(flat)
