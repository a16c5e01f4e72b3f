"""Files that grow and serial lines, read without waiting: whole lines, however they come."""

import os
from io import BufferedReader
from pathlib import Path
from typing import Protocol

from shopassist.core.thermometers.record import WAYS, Thermometer
from shopassist.services.thermometers import Feed

MOST = 262_144
"""So much of a long file is read when it is first followed, and at each look, [bytes]."""
HEAD = 4_096
MARK = 64
"""So many bytes before our place tell whether it is still the same file."""


class LineEnds:
    """Cuts bytes into whole lines; what has no end yet waits for it."""

    def __init__(self) -> None:
        self._rest = b""

    def take(self, data: bytes) -> tuple[str, ...]:
        """Add bytes; returns the lines that are whole now."""
        *whole, self._rest = (self._rest + data).replace(b"\r\n", b"\n").split(b"\n")
        if len(self._rest) > MOST:
            self._rest = b""
        return tuple(decoded(line) for line in whole if line.strip())

    def drop(self) -> None:
        """Forget what had no end: another file begins."""
        self._rest = b""


def decoded(line: bytes) -> str:
    """Text of a line: UTF-8 with or without its mark, else what old loggers write."""
    try:
        return line.decode("utf-8-sig").strip("\r\0 ")
    except UnicodeDecodeError:
        return line.decode("latin-1").strip("\r\0 ")


class FileFeed:
    """A file that a logger appends to; one that is replaced or cut short is begun anew."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._file: BufferedReader | None = None
        self._identity = (0, 0)
        self._left = b""
        """The last of what was read."""
        self._ends = LineEnds()

    def lines(self) -> tuple[str, ...]:
        """Whole lines since the last call."""
        status = self._path.stat()
        identity = (status.st_dev, status.st_ino)
        found: tuple[str, ...] = ()
        if self._file is not None and identity != self._identity:
            found = self._ends.take(self._file.read(MOST))
            self.close()
        if self._file is None:
            self._open(identity, status.st_size)
        file = self._file
        assert file is not None  # noqa: S101 - just opened
        if status.st_size < file.tell() or not self._as_left(file):
            file.seek(0)
            self._left = b""
            self._ends.drop()
        data = file.read(MOST)
        self._left = (self._left + data)[-MARK:]
        return (*found, *self._ends.take(data))

    def _as_left(self, file: BufferedReader) -> bool:
        """Whether what stands before our place is what was read: it may be cut and grown again."""
        file.seek(-len(self._left), os.SEEK_CUR)
        return file.read(len(self._left)) == self._left

    def _open(self, identity: tuple[int, int], size: int) -> None:
        self._file, self._identity, self._left = self._path.open("rb"), identity, b""
        self._ends.drop()
        if size > MOST:
            self._file.seek(size - MOST, os.SEEK_SET)
            self._file.readline()

    def head(self) -> tuple[str, ...]:
        """The first lines of the file."""
        with self._path.open("rb") as file:
            return LineEnds().take(file.read(HEAD))

    def close(self) -> None:
        """Let go of the file."""
        if self._file is not None:
            self._file.close()
        self._file = None


class Port(Protocol):
    """The part of a serial port that is needed here."""

    def read(self, size: int) -> bytes:
        """What has come; never waits."""
        ...

    def close(self) -> None:
        """Let go."""
        ...


class SerialFeed:
    """A port that prints readings; opened when it is there, and again when it comes back."""

    def __init__(self, name: str, baud: int) -> None:
        self._name, self._baud = name, baud
        self._port: Port | None = None
        self._ends = LineEnds()

    def lines(self) -> tuple[str, ...]:
        """Whole lines since the last call."""
        if self._port is None:
            self._port = open_port(self._name, self._baud)
            self._ends.drop()
        try:
            return self._ends.take(self._port.read(MOST))
        except OSError:
            self.close()
            raise

    def head(self) -> tuple[str, ...]:
        """A port has no beginning."""
        return ()

    def close(self) -> None:
        """Let go of the port."""
        if self._port is not None:
            self._port.close()
        self._port = None


def open_port(name: str, baud: int) -> Port:
    """Open a port by pyserial; whatever goes wrong is an ``OSError``."""
    try:
        import serial
    except ImportError as error:  # pragma: no cover - it is among the requirements
        raise OSError("serial lines need pyserial") from error
    found: Port = serial.Serial(name, baud, timeout=0)
    return found


def open_feed(thermometer: Thermometer) -> Feed:
    """The feed of a record."""
    if thermometer.way == WAYS[1]:
        return SerialFeed(thermometer.source, thermometer.baud)
    return FileFeed(Path(thermometer.source))
