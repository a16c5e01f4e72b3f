from pathlib import Path

import pytest

from shopassist.core.errors import StoreError
from shopassist.store.check_files import load_checks, read_check_file, shipped_checks


def test_the_shipped_checks_are_many() -> None:
    assert len(shipped_checks()) >= 150


def test_a_folder_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(StoreError):
        load_checks(tmp_path / "nowhere")


@pytest.mark.parametrize("content", [b"[[check", b"\xff\xfe", b"check = "])
def test_a_file_that_is_no_toml_is_refused_by_name(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "odd.toml"
    path.write_bytes(content)
    with pytest.raises(StoreError) as caught:
        read_check_file(path)
    assert dict(caught.value.title.params)["name"] == "odd.toml"
