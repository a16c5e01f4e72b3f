"""The rows of a batch, taken into account one after the other."""

from collections.abc import Iterable
from typing import cast

from shopassist.core.batch import (
    Batch,
    Cup,
    Drawn,
    NeedSet,
    PartName,
    Typed,
    UnknownWarmth,
    WarmthReading,
    Weighing,
)
from shopassist.core.frozen import replace
from shopassist.core.quantities import CubicMetre, Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Json, Row

FOLD_VERSION = 1


def fold(batch: Batch, row: Row) -> Batch:
    """Take one more row into account; an unknown kind changes nothing."""
    step = _STEPS.get(row.kind)
    return step(batch, row) if step is not None else batch


def fold_all(batch_id: str, rows: Iterable[Row]) -> Batch:
    """Fold a whole stream."""
    batch = Batch(batch_id)
    for row in rows:
        batch = fold(batch, row)
    return batch


def _text(row: Row, key: str) -> str:
    value = row.body.get(key, "")
    return value if isinstance(value, str) else ""


def _number(value: Json) -> float:
    return float(value) if isinstance(value, int | float) else 0.0


def _opened(batch: Batch, row: Row) -> Batch:
    return replace(
        batch, name=_text(row, "name"), opened=row.happened, again_of=_text(row, "again_of")
    )


def _named(batch: Batch, row: Row) -> Batch:
    return replace(batch, name=_text(row, "name"))


def _sheet(batch: Batch, row: Row) -> Batch:
    record = _text(row, "record")
    if not record:
        return replace(batch, sheet=None)
    reasons = (*batch.reasons, reason) if (reason := _text(row, "reason")) else batch.reasons
    return replace(batch, sheet=(record, int(_number(row.body.get("version")))), reasons=reasons)


def _entry(batch: Batch, row: Row) -> Batch:
    name, before = _text(row, "field"), batch.entries.get(_text(row, "field"))
    entries = {key: value for key, value in batch.entries.items() if key != name}
    if row.body.get("text") is not None:
        value = row.body.get("value")
        entries[name] = Typed(
            _text(row, "text"),
            float(value) if isinstance(value, int | float) else None,
            _text(row, "quantity"),
            _text(row, "origin") or "typed",
        )
    log = batch.entry_log[:-1] if row.body.get("undo") else (*batch.entry_log, (name, before))
    return replace(batch, entries=entries, entry_log=log)


def _with_cup(batch: Batch, cup: Cup) -> Batch:
    others = [each for each in batch.cups if each.number != cup.number]
    return replace(batch, cups=tuple(sorted([*others, cup], key=lambda each: each.number)))


def _weighed(batch: Batch, row: Row) -> Batch:
    cup = batch.cup(int(_number(row.body.get("cup"))))
    part = cast("PartName", _text(row, "part"))
    if row.body.get("mass") is None:
        kept = {name: each for name, each in cup.weighed.items() if name != part}
        return _with_cup(batch, replace(cup, weighed=kept))
    mass = Weighing(Kilogram(_number(row.body.get("mass"))), row.seq, row.happened)
    return _with_cup(batch, replace(cup, weighed={**cup.weighed, part: mass}))


def _hardener_in(batch: Batch, row: Row) -> Batch:
    cup = batch.cup(int(_number(row.body.get("cup"))))
    reasons = (*batch.reasons, reason) if (reason := _text(row, "reason")) else batch.reasons
    cup = replace(cup, contact_row=row, told=cup.told or row.seq)
    # Undo ends here: what was entered before hardener met resin is now a fact.
    return replace(_with_cup(batch, cup), entry_log=(), reasons=reasons)


def _poured(batch: Batch, row: Row) -> Batch:
    if row.body.get("off"):
        poured, by = batch.poured_before
        return replace(batch, poured=poured, poured_by=by, poured_before=(None, 0))
    before = batch.poured, batch.poured_by
    return replace(batch, poured=row.happened, poured_by=row.seq, poured_before=before)


def _loaded(batch: Batch, row: Row) -> Batch:
    pot = _text(row, "pot")
    began = batch.at_pressure if batch.at_pressure is not None or not pot else row.happened
    left = batch.left_pot if pot else row.happened
    return replace(
        batch, pot=pot, held_in=pot or batch.held_in, at_pressure=began, left_pot=left,
        pressed_by=row.seq if pot else batch.pressed_by,
    )  # fmt: skip


def _temperature(batch: Batch, row: Row) -> Batch:
    since, corrected = row.body.get("since"), row.body.get("corrects")
    earlier = next((each for each in batch.warmth if each.row.seq == corrected), None)
    reading = WarmthReading(
        row,
        Kelvin(_number(row.body.get("low"))),
        Kelvin(_number(row.body.get("high"))),
        _text(row, "where"),
        UtcSecond(float(since)) if isinstance(since, int | float) else None,
        earlier.clocked if earlier is not None else None,
    )
    kept = batch.warmth
    if corrected is not None:
        kept = tuple(each for each in kept if each.row.seq != corrected)
    if not kept or kept[-1].at <= reading.at:
        return replace(batch, warmth=(*kept, reading))
    return replace(batch, warmth=tuple(sorted([*kept, reading], key=lambda each: each.at)))


def _unknown_warmth(batch: Batch, row: Row) -> Batch:
    found = UnknownWarmth(row, UtcSecond(_number(row.body.get("since"))))
    return replace(batch, unknowns=(*batch.unknowns, found))


def _need_set(batch: Batch, row: Row) -> Batch:
    low, likely, high = (
        CubicMetre(_number(row.body.get(key))) for key in ("low", "likely", "high")
    )
    return replace(batch, need=NeedSet(low, likely, high, _text(row, "geometry"), row.happened))


def _drawn(batch: Batch, row: Row) -> Batch:
    found = row.body.get("lots")
    lots = found if isinstance(found, list) else []
    made = tuple(
        Drawn(str(each[0]), str(each[1]), Kilogram(_number(each[2])), row.seq)
        for each in lots
        if isinstance(each, list) and len(each) == len(("lot", "part", "mass"))
    )
    return replace(batch, drawn=(*batch.drawn, *made))


def _step_done(batch: Batch, row: Row) -> Batch:
    return replace(batch, steps=(*batch.steps, row.happened))


def _seen(batch: Batch, row: Row) -> Batch:
    return replace(batch, seen={**batch.seen, _text(row, "mark"): row.happened})


def _outcome(batch: Batch, row: Row) -> Batch:
    first = row.happened if batch.closed is None else batch.closed
    return replace(batch, outcome=_text(row, "outcome"), finished=row.happened, closed=first)


def _note(batch: Batch, row: Row) -> Batch:
    return replace(batch, notes=(*batch.notes, _text(row, "text")))


def _photo(batch: Batch, row: Row) -> Batch:
    path = _text(row, "path")
    others = tuple(each for each in batch.photos if each != path)
    return replace(batch, photos=others if row.body.get("off") else (*others, path))


def _next_time(batch: Batch, row: Row) -> Batch:
    return replace(batch, next_time=_text(row, "text"))


def _removed(batch: Batch, row: Row) -> Batch:
    return replace(batch, removed=row.body.get("removed") is not False)


_STEPS = {
    "opened": _opened,
    "named": _named,
    "sheet": _sheet,
    "entry": _entry,
    "weighed": _weighed,
    "hardener_in": _hardener_in,
    "poured": _poured,
    "loaded": _loaded,
    "temperature": _temperature,
    "temperature_unknown": _unknown_warmth,
    "need_set": _need_set,
    "drawn": _drawn,
    "step_done": _step_done,
    "seen": _seen,
    "outcome": _outcome,
    "note": _note,
    "photo": _photo,
    "next_time": _next_time,
    "removed": _removed,
}
