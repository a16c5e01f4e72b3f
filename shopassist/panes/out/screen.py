"""What the Out pane shows, as plain data."""

from shopassist.core.frozen import frozen

PAGES: tuple[tuple[str, str], ...] = (("files", "Files"), ("backups", "Backups"))
FILES: tuple[tuple[str, str, str], ...] = (
    ("sheet", "Batch sheet", "One page for the bench, with boxes to fill in; PDF."),
    ("calendar", "Calendar", "What comes next, with alarms, for a calendar of yours."),
    ("batch", "This batch as a file", "Everything recorded, to keep or to bring in elsewhere."),
    ("table", "All batches as a table", "For a spreadsheet; no cell of it runs as a formula."),
)
"""Name, words and use of each file that can be written."""


@frozen
class CopyShown:
    """One backup in the list."""

    name: str
    words: str
    asked: bool
    """It will be put in the log's place at the next start."""


@frozen
class OutScreen:
    """Everything that the pane shows."""

    right: str
    page: str
    folder: str
    has_batch: bool
    written: str
    """Where the last file lies."""
    can_open: bool
    """Whether it is a file that can be looked at."""
    message: str
    copies: tuple[CopyShown, ...]
    chosen: int
    """Which backup is chosen; -1 for none."""
    rule: str
    restore: str
    """Words of the button; empty where nothing is chosen."""
    restore_note: str
