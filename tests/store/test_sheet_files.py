from pathlib import Path

import pytest

from shopassist.core.errors import StoreError
from shopassist.store.sheet_files import LARGEST, folder_of, read_toml


def test_a_file_becomes_a_mapping(tmp_path: Path) -> None:
    (tmp_path / "b.toml").write_text('name = "b"\n[ratio]\na = 1\n')
    (tmp_path / "a.toml").write_text('name = "a"\n')
    assert folder_of(tmp_path) == ({"name": "a"}, {"name": "b", "ratio": {"a": 1}})


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"name = \n", "TOML"),
        (b"\xff\xfe\x00", "text"),
        (b"#" * (LARGEST + 1), "large"),
    ],
)
def test_what_is_no_record_is_told_in_plain_words(
    tmp_path: Path, content: bytes, words: str
) -> None:
    path = tmp_path / "x.toml"
    path.write_bytes(content)
    with pytest.raises(StoreError) as caught:
        read_toml(path)
    assert words in caught.value.title.template
    assert caught.value.field == str(path)


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="cannot be read"):
        read_toml(tmp_path / "none.toml")
