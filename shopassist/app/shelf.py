"""Where files for others go: each is written whole or not at all."""

from pathlib import Path

from shopassist.clock import Clock
from shopassist.core.errors import StoreError
from shopassist.core.messages import say
from shopassist.services.coming import Event
from shopassist.store.atomic import write_atomic
from shopassist.widgets.batch_sheet_shown import SheetShown


class FileShelf:
    """Writes into the folder that is named; what each file needs is loaded when it is asked for."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock

    def sheet(self, folder: str, name: str, shown: SheetShown) -> str:
        """Write a sheet as PDF; returns where it lies."""
        from PySide6.QtGui import QGuiApplication

        from shopassist.desktop.batch_sheet import write_batch_sheet

        path = Path(folder) / name
        write_batch_sheet(path, shown, QGuiApplication.font().family())
        return str(path)

    def calendar(self, folder: str, name: str, events: tuple[Event, ...]) -> str:
        """Write a calendar file."""
        from shopassist.desktop.calendar_file import calendar_bytes

        return self.text(folder, name, calendar_bytes(events, self._clock.read().utc).decode())

    def text(self, folder: str, name: str, words: str) -> str:
        """Write a text as it is, line ends included."""
        path = Path(folder) / name
        try:
            write_atomic(path, words, keep_previous=False)
        except OSError as error:
            raise StoreError(say("{file} could not be written.", file=name), str(error)) from error
        return str(path)

    @staticmethod
    def lies(path: str) -> str:
        """The whole path of a file; empty where there is none."""
        try:
            whole = Path(path).expanduser().resolve()
            return str(whole) if whole.is_file() else ""
        except (OSError, RuntimeError, ValueError):
            return ""

    @staticmethod
    def read(path: str) -> str:
        """Read a text."""
        try:
            return Path(path).expanduser().read_text("utf-8")
        except (OSError, UnicodeDecodeError) as error:
            name = Path(path).name
            raise StoreError(say("{file} cannot be read.", file=name), str(error)) from error
