"""Words on paper, as large as they still fit on their page or pages, by Qt alone."""

from pathlib import Path

from PySide6.QtCore import QMarginsF, QSizeF
from PySide6.QtGui import (
    QFont,
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPdfWriter,
    QTextDocument,
)

from shopassist.core.errors import StoreError

MARGIN_MM = 9.0
LARGEST, SMALLEST, STEP = 11.0, 5.0, 0.25
"""Sizes of the words that are tried until every page holds what belongs on it, [pt]."""
STYLE = (
    "p { margin: 0; } p.head { margin-top: 4px; } p.answer { margin-left: 14px; }"
    "p.overleaf { page-break-before: always; }"
    "p, td { color: black; }"
)
"""Black whatever the window's theme is: paper is white."""
DOTS = 1200
"""Resolution of the page, dots to the inch."""


def need_file(path: Path) -> None:
    """Make the folder where it is missing, and see that the file can be written."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.open("ab").close()
    except OSError as error:
        raise StoreError("The sheet could not be written.", str(error)) from error


def write_pages(
    path: Path, title: str, words: str, family: str, *, letter: bool, pages: int = 1
) -> float:
    """Write rich text as PDF and return the size of its words, [pt]; never more pages than these.

    A page after the first begins with a paragraph of class *overleaf*.
    """
    writer = QPdfWriter(str(path))
    writer.setResolution(DOTS)
    writer.setTitle(title)
    writer.setPageLayout(page_layout(letter=letter))
    return put(words, family, writer, pages)


def page_layout(*, letter: bool) -> QPageLayout:
    """A4 or Letter, upright, with our margins."""
    size = QPageSize.PageSizeId.Letter if letter else QPageSize.PageSizeId.A4
    margins = QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    return QPageLayout(
        QPageSize(size), QPageLayout.Orientation.Portrait, margins, QPageLayout.Unit.Millimeter
    )


def put(words: str, family: str, device: QPagedPaintDevice, pages: int = 1) -> float:
    """Draw rich text on so many pages of the device; the result is the size of its words, [pt]."""
    points, document = _fitted(words, family, device, pages)
    document.print_(device)
    return points


def _fitted(
    words: str, family: str, device: QPagedPaintDevice, pages: int
) -> tuple[float, QTextDocument]:
    """The largest words with which no page runs over."""
    points = LARGEST
    while True:
        document = _document(words, family, points, device)
        if document.pageCount() <= pages:
            return points, document
        if points <= SMALLEST:
            raise StoreError("The list does not fit on its paper.", "Shorten the names in it.")
        points -= STEP


def _document(words: str, family: str, points: float, device: QPagedPaintDevice) -> QTextDocument:
    document = QTextDocument()
    document.documentLayout().setPaintDevice(device)
    font = QFont(family)
    font.setPointSizeF(points)
    document.setDefaultFont(font)
    document.setDocumentMargin(0)
    document.setDefaultStyleSheet(STYLE)
    document.setHtml(words)
    page = device.pageLayout().paintRectPixels(device.logicalDpiX())
    document.setPageSize(QSizeF(page.width(), page.height()))
    return document
