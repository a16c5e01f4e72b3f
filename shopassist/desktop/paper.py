"""Writes a sheet for the bench as a PDF of one page, by Qt alone."""

from html import escape
from pathlib import Path

from shopassist.desktop.one_page import need_file, write_page
from shopassist.widgets.paper_shown import PaperLine, PaperShown


def write_sheet(path: Path, shown: PaperShown, family: str) -> float:
    """Make the folder where it is missing, and write the sheet into it."""
    need_file(path)
    return write_pdf(path, shown, family)


def write_pdf(path: Path, shown: PaperShown, family: str) -> float:
    """Write the sheet and return the size of its words, [pt]; it never has a second page."""
    return write_page(path, shown.title, html(shown), family, letter=shown.letter)


def html(shown: PaperShown) -> str:
    """The sheet as a page of two columns."""
    left, right = _halves(shown)
    facts = " · ".join(escape(fact) for fact in shown.facts)
    return (
        f"<p><b>{escape(shown.title)}</b> &nbsp; {facts}<br>{escape(shown.revision)} &nbsp; "
        "Date ________ &nbsp; Hold ________ &nbsp; Who ________________</p>"
        '<table width="100%" cellspacing="0" cellpadding="0"><tr>'
        f'<td width="49%" valign="top">{left}</td><td width="2%"></td>'
        f'<td width="49%" valign="top">{right}</td></tr></table>'
        f"<p>{' '.join(escape(line) for line in shown.foot)}</p>"
    )


def _halves(shown: PaperShown) -> tuple[str, str]:
    """Parts in order, broken into two columns of about equal length; odd things at the end."""
    made = [_part(heading, lines) for heading, lines in shown.parts]
    made.append('<p class="head"><b>Odd things</b></p>' + "".join(
        f"<p><b>{escape(name)}:</b> {escape(words)}</p>" for name, words in shown.odd
    ))  # fmt: skip
    half, count = sum(len(part) for part in made) / 2, 0
    left: list[str] = []
    for part in made:
        if left and count + len(part) / 2 > half:
            break
        left.append(part)
        count += len(part)
    return "".join(left), "".join(made[len(left) :])


def _part(heading: str, lines: tuple[PaperLine, ...]) -> str:
    return f'<p class="head"><b>{escape(heading)}</b></p>' + "".join(_row(line) for line in lines)


def _row(line: PaperLine) -> str:
    write = "________ " if line.write else ""
    answer = f"{write}{escape(line.answer)}" if line.answer or line.write else "____"
    question = f"<b>{line.number}</b>&nbsp; {escape(line.question)}"
    return f'<p>{question}</p><p class="answer">{answer}</p>'
