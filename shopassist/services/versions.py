"""The records a user owns: versions in the journal, broken ones listed as broken."""

from collections.abc import Callable, Mapping
from typing import Generic, TypeVar, cast

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.records import Problem, flatten
from shopassist.core.rows import Body, Draft, Json, Row
from shopassist.services.hooks import Hook
from shopassist.services.ports import Journal

R = TypeVar("R")
Parse = Callable[[Mapping[str, object]], tuple[R | None, tuple[Problem, ...]]]


@frozen
class Version(Generic[R]):
    """One version of one record: what was typed, and what it reads as."""

    id: str
    number: int
    mapping: Body
    record: R | None
    problems: tuple[Problem, ...] = ()
    reason: str = ""
    removed: bool = False
    seq: int = 0
    """Place of its row in the whole journal."""

    @property
    def name(self) -> str:
        """The user's own name for it."""
        name = self.mapping.get("name")
        return name if isinstance(name, str) and name else self.id

    @property
    def is_broken(self) -> bool:
        """Whether it cannot be used until it is put right."""
        return self.record is None


class Library(Generic[R]):
    """All records of one kind; a row is a whole snapshot, version *n*."""

    def __init__(self, journal: Journal, kind: str, parse: Parse[R]) -> None:
        self.changed: Hook[str] = Hook()
        self.kind = kind
        self._journal = journal
        self._parse = parse
        self._versions: dict[str, list[Version[R]]] = {}
        for stream in journal.streams(self._prefix):
            self._versions[stream.removeprefix(self._prefix)] = [
                self._version(stream.removeprefix(self._prefix), number, row)
                for number, row in enumerate(journal.read(stream), start=1)
            ]

    @property
    def _prefix(self) -> str:
        return f"record/{self.kind}/"

    def _version(self, record_id: str, number: int, row: Row) -> Version[R]:
        mapping = row.body.get("record")
        body = mapping if isinstance(mapping, dict) else {}
        record, problems = self._parse(body)
        return Version(
            record_id, number, body, record, problems,
            str(row.body.get("reason", "")), row.kind == "removed", row.seq,
        )  # fmt: skip

    def all(self, *, removed: bool = False) -> tuple[Version[R], ...]:
        """The newest version of every record, by name."""
        newest = (versions[-1] for versions in self._versions.values())
        return tuple(
            sorted((v for v in newest if removed or not v.removed), key=lambda v: v.name.casefold())
        )

    def newest(self, record_id: str) -> Version[R] | None:
        """The version in force now."""
        versions = self._versions.get(record_id)
        return versions[-1] if versions else None

    def version(self, record_id: str, number: int) -> Version[R] | None:
        """One certain version: a batch keeps the one that it used."""
        versions = self._versions.get(record_id, [])
        return versions[number - 1] if 1 <= number <= len(versions) else None

    def versions(self, record_id: str) -> tuple[Version[R], ...]:
        """Every version of one record, the first one first."""
        return tuple(self._versions.get(record_id, ()))

    def check(self, mapping: Mapping[str, object]) -> tuple[Problem, ...]:
        """Everything that is wrong with a mapping, before anything is stored."""
        return self._parse(mapping)[1]

    def save(
        self, mapping: Mapping[str, object], record_id: str = "", reason: str = ""
    ) -> tuple[Version[R] | None, tuple[Problem, ...]]:
        """Store a new version, unless something is wrong with it: a broken one is never stored."""
        problems = self.check(mapping)
        if problems:
            return None, problems
        name = record_id or self._new_id(mapping)
        body: dict[str, Json] = {"record": _as_json(mapping), "reason": reason}
        return self._append(name, Draft(f"{self._prefix}{name}", "saved", body)), ()

    def remove(self, record_id: str) -> None:
        """Put a record away; nothing is erased, and batches keep their versions."""
        newest = self._versions[record_id][-1]
        body: dict[str, Json] = {"record": dict(newest.mapping)}
        self._append(record_id, Draft(f"{self._prefix}{record_id}", "removed", body))

    def _append(self, record_id: str, draft: Draft) -> Version[R]:
        (row,) = self._journal.append([draft])
        versions = self._versions.setdefault(record_id, [])
        version = self._version(record_id, len(versions) + 1, row)
        versions.append(version)
        self.changed.emit(record_id)
        return version

    def _new_id(self, mapping: Mapping[str, object]) -> str:
        name = str(mapping.get("name", "")).strip().casefold()
        word = (
            "".join(letter if letter.isalnum() else "-" for letter in name).strip("-") or "record"
        )
        taken = set(self._versions)
        numbered = (f"{word}-{n}" for n in range(2, len(taken) + 3))
        return word if word not in taken else next(each for each in numbered if each not in taken)


def _as_json(mapping: Mapping[str, object]) -> Json:
    return {key: _plain(value) for key, value in mapping.items()}


def _plain(value: object) -> Json:
    if isinstance(value, Mapping):
        return _as_json(value)
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    return cast("Json", value)


def changes(old: Body, new: Body) -> tuple[Text, ...]:
    """Each entry that differs between two versions, as *old → new*; by its text, as it is shown."""
    before, after = texts(old), texts(new)
    return tuple(
        say(
            "{place}: {old} → {new}",
            place=place,
            old=before.get(place, "–"),
            new=after.get(place, "–"),
        )
        for place in sorted({*before, *after})
        if before.get(place) != after.get(place)
    )


def texts(mapping: Mapping[str, object]) -> dict[str, str]:
    """Every entry as the text that stands in the form; a file may have had numbers and flags."""
    return {place: _text(value) for place, value in flatten(mapping) if value not in (None, "")}


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list | tuple):
        return ", ".join(str(item) for item in value)
    return str(value)
