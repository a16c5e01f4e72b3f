"""One page of paper for one batch, as plain data."""

from shopassist.core.frozen import frozen


@frozen
class SheetRow:
    """Label and value; ``box`` leaves room for a hand-written one."""

    label: str
    value: str = ""
    box: bool = False


@frozen
class SheetBlock:
    """A part of the sheet: heading and rows in one or more columns."""

    heading: str
    rows: tuple[SheetRow, ...]
    columns: int = 1


@frozen
class SheetShown:
    """Everything on the page."""

    title: str
    right: str
    blocks: tuple[SheetBlock, ...]
    foot: tuple[str, ...]
    letter: bool = False
    """US Letter instead of A4."""
