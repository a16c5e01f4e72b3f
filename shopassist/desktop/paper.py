"""Writes a sheet for the bench as a PDF: both sides of one sheet of paper, by Qt alone.

What is done up to Hold stands on the first side, letting down and whatever is odd on the second.
"""

from html import escape
from pathlib import Path

from shopassist.desktop.fitted_pages import need_file, write_pages
from shopassist.widgets.paper_shown import PaperLine, PaperShown

SIDES = 2


def write_sheet(path: Path, shown: PaperShown, family: str) -> float:
    """Make the folder where it is missing, and write the sheet into it."""
    need_file(path)
    return write_pdf(path, shown, family)


def write_pdf(path: Path, shown: PaperShown, family: str) -> float:
    """Write the sheet and return the size of its words, [pt]; it never has a third page."""
    return write_pages(path, shown.title, html(shown), family, letter=shown.letter, pages=SIDES)


def html(shown: PaperShown) -> str:
    """Two pages of two columns; each says what stands on the other."""
    first = [_part(heading, lines) for heading, lines in shown.parts[: shown.overleaf]]
    second = [_part(heading, lines) for heading, lines in shown.parts[shown.overleaf :]]
    second.append('<p class="head"><b>Odd things</b></p>' + "".join(
        f"<p><b>{escape(name)}:</b> {escape(words)}</p>" for name, words in shown.odd
    ))  # fmt: skip
    facts = " · ".join(escape(fact) for fact in shown.facts)
    title, revision = f"<b>{escape(shown.title)}</b>", escape(shown.revision)
    return (
        f"<p>{title}, side 1: up to the hold. Letting down is overleaf. &nbsp; {facts}<br>"
        f"{revision} &nbsp; Date ________ &nbsp; Hold ________ &nbsp; Who ________________</p>"
        f"{_columns(first)}<p>{' '.join(escape(line) for line in shown.foot)}</p>"
        f'<p class="overleaf">{title}, side 2: letting down and opening. &nbsp; {facts}<br>'
        f"{revision} &nbsp; Date ________ &nbsp; Who ________________</p>"
        f"{_columns(second)}"
    )


def _columns(parts: list[str]) -> str:
    """Parts in order, broken into two columns of about equal length."""
    half, count = sum(map(len, parts)) / 2, 0
    left: list[str] = []
    for part in parts:
        if left and count + len(part) / 2 > half:
            break
        left.append(part)
        count += len(part)
    return (
        '<table width="100%" cellspacing="0" cellpadding="0"><tr>'
        f'<td width="49%" valign="top">{"".join(left)}</td><td width="2%"></td>'
        f'<td width="49%" valign="top">{"".join(parts[len(left) :])}</td></tr></table>'
    )


def _part(heading: str, lines: tuple[PaperLine, ...]) -> str:
    return f'<p class="head"><b>{escape(heading)}</b></p>' + "".join(_row(line) for line in lines)


def _row(line: PaperLine) -> str:
    write = "________ " if line.write else ""
    answer = f"{write}{escape(line.answer)}" if line.answer or line.write else "____"
    question = f"<b>{line.number}</b>&nbsp; {escape(line.question)}"
    return f'<p>{question}</p><p class="answer">{answer}</p>'
