"""Writes a sheet for the bench as a PDF of one page, by Qt alone."""

from html import escape
from pathlib import Path

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import QFont, QPageLayout, QPageSize, QPdfWriter, QTextDocument

from shopassist.core.errors import StoreError
from shopassist.widgets.paper_shown import PaperLine, PaperShown

MARGIN_MM = 9.0
LARGEST, SMALLEST, STEP = 9.0, 5.0, 0.25
"""Sizes of the words that are tried until everything stands on one page, [pt]."""
STYLE = "p { margin: 0; } p.head { margin-top: 4px; } p.answer { margin-left: 14px; }"
DOTS = 1200
"""Resolution of the page, dots to the inch."""


def write_sheet(path: Path, shown: PaperShown, family: str) -> float:
    """Make the folder where it is missing, and write the sheet into it."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.open("ab").close()
    except OSError as error:
        raise StoreError("The sheet could not be written.", str(error)) from error
    return write_pdf(path, shown, family)


def write_pdf(path: Path, shown: PaperShown, family: str) -> float:
    """Write the sheet and return the size of its words, [pt]; it never has a second page."""
    writer = QPdfWriter(str(path))
    writer.setResolution(DOTS)
    writer.setTitle(shown.title)
    size = QPageSize.PageSizeId.Letter if shown.letter else QPageSize.PageSizeId.A4
    margins = QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    writer.setPageLayout(QPageLayout(
        QPageSize(size), QPageLayout.Orientation.Portrait, margins, QPageLayout.Unit.Millimeter
    ))  # fmt: skip
    points, document = _fitted(shown, family, writer)
    document.print_(writer)
    return points


def _fitted(shown: PaperShown, family: str, writer: QPdfWriter) -> tuple[float, QTextDocument]:
    """The largest words with which everything stands on one page."""
    points = LARGEST
    while True:
        document = _document(shown, family, points, writer)
        if document.pageCount() == 1:
            return points, document
        if points <= SMALLEST:
            raise StoreError("The list does not fit on one page.", "Shorten the pot's names.")
        points -= STEP


def _document(
    shown: PaperShown, family: str, points: float, writer: QPdfWriter
) -> QTextDocument:  # fmt: skip
    document = QTextDocument()
    document.documentLayout().setPaintDevice(writer)
    font = QFont(family)
    font.setPointSizeF(points)
    document.setDefaultFont(font)
    document.setDocumentMargin(0)
    document.setDefaultStyleSheet(STYLE)
    document.setHtml(html(shown))
    page = writer.pageLayout().paintRectPixels(writer.resolution())
    document.setPageSize(QSizeF(page.width(), page.height()))
    return document


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
