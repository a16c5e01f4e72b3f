"""Writes the sheet of one batch: one page, black on white, with boxes to fill in by hand."""

from collections.abc import Sequence
from html import escape
from pathlib import Path

from shopassist.desktop.fitted_pages import need_file, write_pages
from shopassist.widgets.batch_sheet_shown import SheetBlock, SheetRow, SheetShown

LINE = "_" * 14


def write_batch_sheet(path: Path, shown: SheetShown, family: str) -> float:
    """Write the sheet and return the size of its words, [pt]."""
    need_file(path)
    return write_pages(path, shown.title, html(shown), family, letter=shown.letter)


def html(shown: SheetShown) -> str:
    """The page as rich text of Qt's kind."""
    head = (
        f'<table width="100%"><tr><td><b><big>{escape(shown.title)}</big></b></td>'
        f'<td align="right">{escape(shown.right)}</td></tr></table><hr>'
    )
    foot = " ".join(escape(each) for each in shown.foot)
    return head + "".join(map(_block, shown.blocks)) + f"<hr><p><small>{foot}</small></p>"


def _block(block: SheetBlock) -> str:
    per = max(1, -(-len(block.rows) // block.columns))
    parts = [block.rows[start : start + per] for start in range(0, len(block.rows), per)]
    wide = 100 // block.columns
    cells = "".join(f'<td width="{wide}%" valign="top">{_rows(part)}</td>' for part in parts)
    table = f'<table width="100%" cellspacing="4"><tr>{cells}</tr></table>'
    return f'<p class="head"><b>{escape(block.heading)}</b></p>{table}'


def _rows(rows: Sequence[SheetRow]) -> str:
    return f'<table width="100%">{"".join(map(_row, rows))}</table>'


def _row(row: SheetRow) -> str:
    value = f"<b>{escape(row.value)}</b>" if row.value else ""
    box = f"&nbsp; {LINE}" if row.box else ""
    return (
        f'<tr><td>{escape(row.label)}</td><td align="right">{value}</td>'
        f'<td align="right">{box}</td></tr>'
    )
