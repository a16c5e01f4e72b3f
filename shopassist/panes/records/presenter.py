"""Words of the records pane: one form for every kind of record, made from its table of fields."""

from collections.abc import Callable, Mapping
from typing import Any

from shopassist.core.errors import ShopError
from shopassist.core.frozen import frozen
from shopassist.core.records import Field, Remark, flatten, nest
from shopassist.core.wording import Wording
from shopassist.panes.records.form import CAUTIONS, Group, Told, groups_of
from shopassist.services.hooks import Hook
from shopassist.services.versions import Library, changes, texts

ReadFile = Callable[[str], Mapping[str, object]]
"""Reads a TOML file into a mapping, or raises ShopError."""
Remarks = Callable[[Mapping[str, object]], tuple[Remark, ...]]
"""What is to be known of a draft beside its entries, where nothing is wrong."""


def nothing(_: Mapping[str, object]) -> tuple[Remark, ...]:
    """Most kinds of record have nothing to remark."""
    return ()


@frozen
class Kind:
    """One kind of record the pane edits."""

    id: str
    title: str
    fields: tuple[Field, ...]
    kept: Library[Any]
    remarks: Remarks = nothing


@frozen
class Line:
    """One record in the list."""

    id: str
    name: str
    detail: str
    is_broken: bool


@frozen
class RecordsScreen:
    """Everything that the records pane shows."""

    kinds: tuple[str, ...]
    kind: int
    lines: tuple[Line, ...]
    selected: int
    title: str
    groups: tuple[Group, ...]
    caution: str
    other_problems: tuple[str, ...]
    status: str
    can_save: bool
    history: tuple[str, ...]


class RecordsPresenter:
    """Keeps the draft of the open record; nothing is stored before it reads without a problem."""

    IDS = (
        "records.kind",
        "records.list",
        "records.new",
        "records.save",
        "records.remove",
        "records.import",
        "records.reason",
        "records.copy",
        "records.field.<n>",
        "records.status",
    )

    def __init__(self, kinds: tuple[Kind, ...], wording: Wording, read_file: ReadFile) -> None:
        self.changed: Hook[None] = Hook()
        self._kinds = kinds
        self._wording = wording
        self._read_file = read_file
        self._kind = 0
        self._id = ""
        self._draft: dict[str, str] = {}
        self._strange: dict[str, object] = {}
        self._problems: dict[str, str] = {}
        self._status = ""
        self._show_newest()
        for kind in kinds:
            kind.kept.changed.connect(lambda _: self.changed.emit(None))

    @property
    def _now(self) -> Kind:
        return self._kinds[self._kind]

    # -- what is shown ------------------------------------------------------------------

    @property
    def screen(self) -> RecordsScreen:
        """The pane as it stands now."""
        versions = self._now.kept.all()
        lines = tuple(
            Line(v.id, v.name, f"version {v.number}{_broken(v.is_broken)}", v.is_broken)
            for v in versions
        )
        selected = next((n for n, v in enumerate(versions) if v.id == self._id), -1)
        places = {field.place for field in self._now.fields}
        groups = groups_of(self._now.fields, self._draft, self._problems, self._told())
        other = tuple(f"{p}: {t}" for p, t in self._problems.items() if p not in places)
        return RecordsScreen(
            tuple(kind.title for kind in self._kinds), self._kind, lines, selected,
            self._draft.get("name", "") or f"New {self._now.title.lower().removesuffix('s')}",
            groups, CAUTIONS.get(self._now.id, ""), other, self._status, self._is_changed(),
            self._history(),
        )  # fmt: skip

    def _told(self) -> tuple[Told, ...]:
        found = self._now.remarks(self._mapping())
        return tuple(Told(each.place, self._wording.say(each.text), each.asks) for each in found)

    def _history(self) -> tuple[str, ...]:
        newest = self._now.kept.newest(self._id)
        if newest is None or newest.number == 1:
            return ()
        earlier = self._now.kept.version(self._id, newest.number - 1)
        found = changes(earlier.mapping, newest.mapping) if earlier is not None else ()
        return tuple(self._wording.say(text) for text in found)

    def _is_changed(self) -> bool:
        newest = self._now.kept.newest(self._id)
        return self._draft != (texts(newest.mapping) if newest is not None else {})

    # -- acts ------------------------------------------------------------------------------

    def on_kind(self, number: int) -> None:
        """Turn to another kind of record."""
        if number != self._kind and 0 <= number < len(self._kinds):
            self._kind = number
            self._show_newest()
            self.changed.emit(None)

    def on_select(self, number: int) -> None:
        """Open a record."""
        versions = self._now.kept.all()
        if 0 <= number < len(versions) and versions[number].id != self._id:
            self._open(versions[number].id)
            self.changed.emit(None)

    def on_new(self) -> None:
        """Start an empty record."""
        self._open("")
        self.changed.emit(None)

    def on_copy(self) -> None:
        """Start a new record from the open one."""
        draft = {**self._draft, "name": f"{self._draft.get('name', '')} copy".strip()}
        strange = self._strange
        self._open("")
        self._draft, self._strange = draft, strange
        self._status = "A copy: change what differs, then save."
        self.changed.emit(None)

    def on_edit(self, place: str, text: str) -> None:
        """Take a draft; nothing is judged while typing."""
        kept = {key: value for key, value in self._draft.items() if key != place}
        self._draft = {**kept, place: text} if text.strip() else kept
        self._problems.pop(place, None)
        self._status = ""

    def on_leave(self, place: str) -> None:
        """Judge a field when it is left, and what stands beside it under the same heading."""
        found, group = self._found(), place.rpartition(".")[0]

        def beside(each: str) -> bool:
            return each == place or (bool(group) and each.rpartition(".")[0] == group)

        others = {p: text for p, text in self._problems.items() if not beside(p)}
        told = {p for p in self._problems if p != place} | set(self._draft)
        own = {p: text for p, text in found.items() if beside(p) and p in told}
        self._problems = others | own
        self.changed.emit(None)

    def on_save(self, reason: str = "") -> None:
        """Store a new version, or show every problem beside its field."""
        try:
            version, problems = self._now.kept.save(self._mapping(), self._id, reason)
        except ShopError as error:
            self._status = self._wording.say(error.title)
        else:
            self._problems = {p.place: self._wording.say(p.text) for p in problems}
            if version is not None:
                self._id = version.id
                self._status = f"Saved as version {version.number}."
            else:
                self._status = f"Not saved yet: {len(problems)} to put right."
        self.changed.emit(None)

    def on_remove(self) -> None:
        """Put the open record away; batches keep the version that they used."""
        if self._id:
            self._now.kept.remove(self._id)
            self._show_newest()
            self._status = "Removed. Batches keep the version that they used."
            self.changed.emit(None)

    def on_import(self, path: str) -> None:
        """Read a file into the form; a broken one is shown with its problems and not stored."""
        try:
            mapping = self._read_file(path)
        except ShopError as error:
            self._status = self._wording.say(error.title)
        else:
            self._open("")
            self._draft = texts(mapping)
            self._strange = {
                p: v for p, v in flatten(mapping) if not isinstance(v, str | int | float)
            }
            self._problems = self._found()
            count = len(self._problems)
            self._status = (
                "Read. Save to keep it." if not count else f"Read, with {count} to put right."
            )
        self.changed.emit(None)

    # -- the draft -------------------------------------------------------------------------

    def _show_newest(self) -> None:
        versions = self._now.kept.all()
        self._open(versions[0].id if versions else "")

    def _open(self, record_id: str) -> None:
        newest = self._now.kept.newest(record_id)
        self._id = record_id
        self._draft = texts(newest.mapping) if newest is not None else {}
        self._strange = {}
        self._problems = (
            {p.place: self._wording.say(p.text) for p in newest.problems} if newest else {}
        )
        self._status = ""

    def _mapping(self) -> dict[str, object]:
        return nest({**self._strange, **self._draft})

    def _found(self) -> dict[str, str]:
        problems = self._now.kept.check(self._mapping())
        return {problem.place: self._wording.say(problem.text) for problem in problems}


def _broken(is_broken: bool) -> str:  # noqa: FBT001 - the record's own mark
    return ", cannot be read" if is_broken else ""
