"""A batch as a file of plain JSON, and back again, with nothing lost."""

import json
from collections.abc import Callable, Mapping, Sequence

from shopassist.core.errors import EntryError, RefusedError
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Draft, Json, Row
from shopassist.core.sheets import ResinSheet
from shopassist.services.batches import PREFIX, BatchService
from shopassist.services.ports import Journal
from shopassist.services.versions import Library

FORM, VERSION = "shopassist batch", 1
IMPORTED = "batch_imported"
LARGEST = 32_000_000
"""Characters of a file that is read; ours."""
FIELD = "out.import_path"


def batch_text(journal: Journal, sheets: Library[ResinSheet], batch_id: str) -> str:
    """Every row of a batch, and every version of a sheet that it names."""
    rows = journal.read(PREFIX + batch_id)
    places = {row.seq: row.stream_seq for row in rows}
    whole: dict[str, Json] = {
        "form": FORM, "version": VERSION,
        "rows": [_row(row, places) for row in rows],
        "sheets": [
            {"record": name, "version": number, "mapping": dict(version.mapping)}
            for name, number in _sheets_named(rows)
            if (version := sheets.version(name, number)) is not None
        ],
    }  # fmt: skip
    return json.dumps(whole, indent=1, sort_keys=True, ensure_ascii=False) + "\n"


def _row(row: Row, places: Mapping[int, int]) -> Json:
    recorded: Json = {
        "utc": row.recorded.utc, "since_boot": row.recorded.since_boot,
        "boot_id": row.recorded.boot_id, "utc_offset": row.recorded.utc_offset,
    }  # fmt: skip
    body = dict(row.body)
    corrects = body.get("corrects")
    # A row elsewhere in the log has no place in the file.
    if isinstance(corrects, int):
        body["corrects"] = places.get(corrects)
    return {"kind": row.kind, "version": row.version, "happened": row.happened,
            "recorded": recorded, "body": body}  # fmt: skip


def _sheets_named(rows: Sequence[Row]) -> list[tuple[str, int]]:
    named = [
        (str(row.body.get("record")), int(number))
        for row in rows
        if row.kind == "sheet" and isinstance(number := row.body.get("version"), int | float)
    ]
    return list(dict.fromkeys(named))


class BatchFiles:
    """Brings a batch in from a file."""

    def __init__(
        self, journal: Journal, batches: BatchService, sheets: Library[ResinSheet],
        newest: Callable[[], int],
    ) -> None:  # fmt: skip
        self._journal = journal
        self._batches = batches
        self._sheets = sheets
        self._newest = newest

    def text(self, batch_id: str) -> str:
        """The batch as a file."""
        return batch_text(self._journal, self._sheets, batch_id)

    def bring_in(self, text: str) -> str:
        """Take a batch in under a new id, which is returned; raises ``ShopError``.

        Its pot is another one's: here it stands in none, and no pot is believed for it.
        """
        whole = _read(text)
        rows = [each for each in _list(whole, "rows") if isinstance(each, dict)]
        if not rows or rows[0].get("kind") != "opened":
            raise EntryError("This file holds no batch.", "Choose another one.", FIELD)
        renamed = self._take_sheets(_list(whole, "sheets"))
        first = self._newest() + 1
        return self._batches.bring_in(
            lambda stream: [
                *(_draft(stream, each, first, renamed) for each in rows),
                Draft(stream, IMPORTED, {"recorded": [each.get("recorded") for each in rows]}),
                *([Draft(stream, "loaded", {"pot": ""})] if _in_a_pot(rows) else ()),
            ]
        )

    def _take_sheets(self, listed: Sequence[Json]) -> dict[tuple[str, int], tuple[str, int]]:
        """Where each sheet of the file stands here: found alike, or stored as a new one."""
        found: dict[tuple[str, int], tuple[str, int]] = {}
        for each in listed:
            if not isinstance(each, dict) or not isinstance(each.get("mapping"), dict):
                continue
            mapping = each["mapping"]
            key = (str(each.get("record")), _whole(each.get("version")))
            alike = self._sheets.version(*key)
            if alike is not None and dict(alike.mapping) == mapping:
                found[key] = key
                continue
            version, _ = self._sheets.save(mapping)  # type: ignore[arg-type]
            if version is not None:
                found[key] = (version.id, version.number)
        return found


def _in_a_pot(rows: Sequence[Mapping[str, Json]]) -> bool:
    loads = [each.get("body") for each in rows if each.get("kind") == "loaded"]
    return bool(loads) and isinstance(loads[-1], dict) and bool(loads[-1].get("pot"))


def _draft(
    stream: str, row: Mapping[str, Json], first: int,
    renamed: Mapping[tuple[str, int], tuple[str, int]],
) -> Draft:  # fmt: skip
    body = row.get("body")
    happened, version = row.get("happened"), row.get("version")
    if not isinstance(body, dict) or not isinstance(happened, int | float):
        raise EntryError("This file is not whole.", "Choose another one.", FIELD)
    own = dict(body)
    corrects = own.get("corrects")
    if isinstance(corrects, int):
        own["corrects"] = first + corrects - 1
    key = (str(own.get("record")), _whole(own.get("version")))
    if row.get("kind") == "sheet" and key in renamed:
        own["record"], own["version"] = renamed[key]
    return Draft(stream, str(row.get("kind")), own, UtcSecond(float(happened)), _whole(version))


def _read(text: str) -> Mapping[str, Json]:
    if len(text) > LARGEST:
        raise EntryError("This file is too large for a batch.", "Choose another one.", FIELD)
    try:
        whole = json.loads(text)
    except (ValueError, RecursionError):
        raise EntryError("This file is not a batch of this program.", "", FIELD) from None
    if not isinstance(whole, dict) or whole.get("form") != FORM:
        raise EntryError("This file is not a batch of this program.", "", FIELD)
    if whole.get("version") != VERSION:
        raise RefusedError("This file was written by a newer program.", field=FIELD)
    return whole


def _list(whole: Mapping[str, Json], name: str) -> Sequence[Json]:
    found = whole.get(name)
    return found if isinstance(found, list) else ()


def _whole(value: Json) -> int:
    return int(value) if isinstance(value, int | float) else 1
