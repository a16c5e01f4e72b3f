"""Settings and window state on disk: whole, with the last good copy; folders and resources."""

import os
import sys
from pathlib import Path

import pytest

from shopassist.core.errors import StoreError
from shopassist.store import atomic
from shopassist.store.atomic import previous_of, write_atomic
from shopassist.store.keeping import KeptFile
from shopassist.store.paths import paths_of
from shopassist.store.resources import resource
from shopassist.store.state import State


def test_a_written_file_is_there_with_the_one_before(tmp_path: Path) -> None:
    path = tmp_path / "deep" / "settings.json"
    write_atomic(path, "1")
    write_atomic(path, "2")
    assert (path.read_text(), previous_of(path).read_text()) == ("2", "1")
    assert sorted(p.name for p in path.parent.iterdir()) == [path.name, previous_of(path).name]


def test_the_last_good_copy_can_be_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "a"
    write_atomic(path, "1")
    write_atomic(path, "2", keep_previous=False)
    assert not previous_of(path).exists()


@pytest.mark.parametrize("failing", range(6))
def test_x07_a_write_that_fails_anywhere_leaves_the_old_or_the_new_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    path = tmp_path / "settings.json"
    write_atomic(path, '{"a": 1}')
    calls = 0

    def counted(real: object) -> object:
        def call(*args: object, **kwargs: object) -> object:
            nonlocal calls
            calls += 1
            if calls - 1 == failing:
                raise OSError(28, "No space left on device")
            return real(*args, **kwargs)  # type: ignore[operator]

        return call

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", counted(os.fsync))
        patched.setattr(Path, "replace", counted(Path.replace))
        patched.setattr(Path, "open", counted(Path.open))
        try:
            write_atomic(path, '{"a": 2}')
            written = True
        except OSError:
            written = False
    assert path.read_text() == ('{"a": 2}' if written else '{"a": 1}')
    assert not (tmp_path / ".settings.json.new").exists()


def test_nothing_is_read_where_there_is_nothing(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "settings.json")
    assert (kept.load(), kept.problems) == ({}, ())


def test_values_come_back(tmp_path: Path) -> None:
    kept = KeptFile(tmp_path / "settings.json")
    kept.save({"units": "us", "more": [1, {"a": None}]})
    assert KeptFile(kept.path).load() == {"units": "us", "more": [1, {"a": None}]}


@pytest.mark.parametrize("content", [b"", b"\0" * 300, b"{", b"[1]", b"\xff\xfe", b"[" * 100_000])
def test_x07_an_unreadable_file_falls_back_is_told_and_is_never_written_over(
    tmp_path: Path, content: bytes
) -> None:
    path = tmp_path / "settings.json"
    kept = KeptFile(path)
    kept.save({"units": "metric"})
    kept.save({"units": "us"})
    path.write_bytes(content)
    again = KeptFile(path)
    assert again.load() == {"units": "metric"}
    assert "cannot be read" in again.problems[0].template
    assert path.read_bytes() == content
    again.save({"units": "mixed"})
    again.save({"units": "us"})
    asides = list(tmp_path.glob("*.unreadable-*"))
    assert [p.read_bytes() for p in asides] == [content]
    assert KeptFile(path).load() == {"units": "us"}


def test_without_a_good_copy_the_defaults_are_used(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_text("{")
    kept = KeptFile(path)
    assert kept.load() == {}
    assert dict(kept.problems[0].params)["used"] == "Defaults are used."


def test_a_second_unreadable_file_takes_another_name(tmp_path: Path) -> None:
    for _ in range(2):
        path = tmp_path / "a"
        path.write_text("bad")
        atomic.set_aside(path)
    assert len(list(tmp_path.iterdir())) == 2


def test_a_file_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(StoreError) as caught:
        KeptFile(tmp_path / "file" / "settings.json").save({})
    assert "could not be written" in caught.value.title.template


def test_the_windows_state_comes_back_and_its_loss_costs_nothing(tmp_path: Path) -> None:
    path = tmp_path / "window.json"
    state = State(KeptFile(path))
    assert state.get("batch") == ""
    state.put("batch", "0012")
    before = path.stat().st_mtime_ns
    state.put("batch", "0012")
    assert path.stat().st_mtime_ns == before
    assert State(KeptFile(path)).get("batch") == "0012"
    path.write_text('{"batch": 12}')
    assert State(KeptFile(path)).get("batch") == ""
    lost = State(KeptFile(tmp_path / "window.json" / "no"))
    lost.put("batch", "0013")
    assert lost.get("batch") == "0013"


def test_a_data_dir_holds_everything(tmp_path: Path) -> None:
    paths = paths_of(tmp_path)
    for path in (paths.journal, paths.backups, paths.settings, paths.window, paths.cache):
        assert path.is_relative_to(tmp_path)
    assert list(tmp_path.iterdir()) == []


def test_without_one_the_systems_folders_are_used() -> None:
    paths = paths_of()
    assert all(p.is_absolute() for p in (paths.config, paths.data, paths.state, paths.cache))
    assert "platformdirs" in sys.modules


def test_resources_lie_beside_the_package_or_in_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert resource("fonts", "LICENCE-B612.txt").is_file()
    monkeypatch.setattr("shopassist.store.resources.PACKAGE", tmp_path)
    (tmp_path / "_resources").mkdir()
    assert resource("units") == tmp_path / "_resources" / "units"
