"""Files that grow, are cut and replaced; a serial line over a pseudo-terminal."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.thermometers.record import WAYS, Thermometer
from shopassist.desktop import thermometers
from shopassist.desktop.thermometers import FileFeed, LineEnds, SerialFeed, decoded, open_feed


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "logger.csv"


@pytest.fixture
def feed(path: Path) -> Iterator[FileFeed]:
    made = FileFeed(path)
    yield made
    made.close()


def add(path: Path, text: str) -> None:
    with path.open("ab") as file:
        file.write(text.encode())


def test_only_whole_lines_are_handed_on(path: Path, feed: FileFeed) -> None:
    add(path, "time,temp\n12:00,21.")
    assert feed.lines() == ("time,temp",)
    add(path, "5\r\n12:01,2")
    assert feed.lines() == ("12:00,21.5",)
    assert feed.lines() == ()
    add(path, "1.6\n\n")
    assert feed.lines() == ("12:01,21.6",)
    assert feed.head()[0] == "time,temp"


def test_a_rotated_file_is_read_to_its_end_and_the_new_one_from_its_beginning(
    path: Path, feed: FileFeed
) -> None:
    add(path, "a\n")
    assert feed.lines() == ("a",)
    add(path, "b\n")
    path.rename(path.with_suffix(".1"))
    add(path, "c\n")
    assert feed.lines() == ("b", "c")


def test_a_file_cut_short_is_begun_anew(path: Path, feed: FileFeed) -> None:
    add(path, "first long line\nha")
    feed.lines()
    path.write_bytes(b"x\n")
    assert feed.lines() == ("x",)


def test_a_file_cut_and_grown_past_our_place_between_two_looks_is_begun_anew(
    path: Path, feed: FileFeed
) -> None:
    add(path, "one 20.0\ntwo 20.5\n")
    assert feed.lines() == ("one 20.0", "two 20.5")
    with path.open("r+", encoding="utf-8") as file:
        file.truncate(0)
        file.write("tre 30.0\nfou 30.5\nfiv 31.0\n")
    assert feed.lines() == ("tre 30.0", "fou 30.5", "fiv 31.0")
    add(path, "six 31.5\n")
    assert feed.lines() == ("six 31.5",)


def test_of_a_long_file_the_end_is_read_in_whole_lines(
    path: Path, feed: FileFeed, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(thermometers, "MOST", 20)
    add(path, "".join(f"line {n}\n" for n in range(9)))
    assert feed.lines() == ("line 7", "line 8")


def test_a_missing_file_is_an_error_until_it_is_there(path: Path, feed: FileFeed) -> None:
    with pytest.raises(OSError, match="No such file"):
        feed.lines()
    add(path, "a\n")
    assert feed.lines() == ("a",)


def test_marks_and_old_letters_are_read() -> None:
    assert decoded("\ufeffTemp °C".encode()) == "Temp °C"
    assert decoded("21 °C".encode("latin-1")) == "21 °C"


def test_a_line_without_an_end_is_not_hoarded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(thermometers, "MOST", 8)
    ends = LineEnds()
    assert ends.take(b"0123456789") == ()
    assert ends.take(b"21.5\n") == ("21.5",)


@pytest.mark.skipif(not hasattr(os, "openpty"), reason="there are no pseudo-terminals here")
def test_a_serial_line_is_read_as_it_prints() -> None:
    pytest.importorskip("serial")
    master, slave = os.openpty()
    feed = SerialFeed(os.ttyname(slave), 9600)
    try:
        assert feed.lines() == ()
        os.write(master, b"T=21.5 C\r\nT=2")
        found: tuple[str, ...] = ()
        for _ in range(1000):
            found = found + feed.lines()
            if found:
                break
        assert found == ("T=21.5 C",)
        os.write(master, b"1.6 C\n")
        for _ in range(1000):
            found = found + feed.lines()
            if len(found) > 1:
                break
        assert found[1] == "T=21.6 C"
        assert feed.head() == ()
    finally:
        feed.close()
        os.close(master)
        os.close(slave)


def test_a_port_that_is_not_there_or_goes_away_is_an_error(monkeypatch: pytest.MonkeyPatch) -> None:
    with pytest.raises(OSError, match="could not open"):
        SerialFeed("/nowhere/tty", 9600).lines()

    class Gone:
        closed = False

        def read(self, size: int) -> bytes:
            raise OSError("unplugged")

        def close(self) -> None:
            self.closed = True

    gone = Gone()
    monkeypatch.setattr(thermometers, "open_port", lambda *_: gone)
    feed = SerialFeed("/dev/x", 9600)
    with pytest.raises(OSError, match="unplugged"):
        feed.lines()
    assert gone.closed
    feed.close()


def test_each_record_gets_its_feed() -> None:
    assert isinstance(open_feed(Thermometer("a", WAYS[0], "/x", "shop")), FileFeed)
    assert isinstance(open_feed(Thermometer("a", WAYS[1], "/x", "shop")), SerialFeed)
