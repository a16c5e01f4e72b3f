from collections.abc import Mapping

import pytest

from shopassist.core.messages import say
from shopassist.core.records import Problem
from shopassist.core.rows import Body
from shopassist.services.versions import Library, changes
from tests.fakes import HandClock, MemoryJournal


def parse(mapping: Mapping[str, object]) -> tuple[str | None, tuple[Problem, ...]]:
    name = mapping.get("name")
    if isinstance(name, str) and name:
        return name.upper(), ()
    return None, (Problem("name", say("This is needed.")),)


@pytest.fixture
def journal() -> MemoryJournal:
    return MemoryJournal(HandClock())


def test_each_save_is_a_whole_new_version_and_old_ones_stay(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", parse)
    first, _ = library.save({"name": "Slow Clear", "law": {"factor": 2}, "holes": ("a", "b")})
    assert first is not None
    second, _ = library.save({"name": "Slow clear 2"}, first.id, "maker's new page")
    assert second is not None
    assert (second.number, second.reason, second.id) == (2, "maker's new page", "slow-clear")
    for each in (library, Library(journal, "resin", parse)):
        assert [version.name for version in each.all()] == ["Slow clear 2"]
        old = each.version("slow-clear", 1)
        assert old is not None
        assert old.mapping == {"name": "Slow Clear", "law": {"factor": 2}, "holes": ["a", "b"]}
        assert each.version("slow-clear", 3) is None
        assert each.version("other", 1) is None


def test_a_broken_record_is_never_stored(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", parse)
    version, problems = library.save({"colour": "red"})
    assert version is None
    assert [problem.place for problem in problems] == ["name"]
    assert journal.rows == []


def test_a_row_that_does_not_read_any_more_is_listed_as_broken(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", parse)
    library.save({"name": "Old"})
    stricter: Library[str] = Library(
        journal, "resin", lambda mapping: (None, (Problem("family", say("This is needed.")),))
    )
    (version,) = stricter.all()
    assert version.is_broken
    assert version.name == "Old"
    assert version.problems[0].place == "family"


def test_two_records_of_one_name_get_two_ids(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", parse)
    ids = [
        version.id
        for name in ("Slow", "slow", "SLOW!", "???")
        if (version := library.save({"name": name})[0])
    ]
    assert ids == ["slow", "slow-2", "slow-3", "record"]


def test_a_removed_record_is_put_away_and_not_erased(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", parse)
    told: list[str] = []
    library.changed.connect(told.append)
    library.save({"name": "Slow"})
    library.remove("slow")
    assert library.all() == ()
    assert [version.name for version in library.all(removed=True)] == ["Slow"]
    assert told == ["slow", "slow"]
    newest = library.newest("slow")
    assert newest is not None
    assert newest.removed
    assert library.newest("nothing") is None


def test_changes_name_each_place_old_and_new() -> None:
    texts = changes(
        {"name": "a", "gel": {"time": "4 h"}}, {"name": "a", "gel": {"time": "5 h"}, "lot": "7"}
    )
    assert [dict(text.params) for text in texts] == [
        {"place": "gel.time", "old": "4 h", "new": "5 h"},
        {"place": "lot", "old": "–", "new": "7"},
    ]


def test_what_a_file_said_as_a_number_or_flag_is_no_change_once_the_form_saved_it() -> None:
    read: Body = {"ratio": {"a": 100}, "catalyst": {"shaken": True}, "holes": ["a", "b"], "cold": 0}
    kept: Body = {
        "ratio": {"a": "100"},
        "catalyst": {"shaken": "yes"},
        "holes": "a, b",
        "cold": "5",
    }
    (change,) = changes(read, kept)
    assert dict(change.params) == {"place": "cold", "old": "0", "new": "5"}


def test_a_record_without_a_name_goes_by_its_id(journal: MemoryJournal) -> None:
    library = Library(journal, "resin", lambda mapping: ("x", ()))
    version, _ = library.save({})
    assert version is not None
    assert version.name == "record"
