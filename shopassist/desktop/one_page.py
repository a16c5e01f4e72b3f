"""Words of one page on paper, as large as they still fit, by Qt alone."""

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
"""Sizes of the words that are tried until everything stands on one page, [pt]."""
STYLE = (
    "p { margin: 0; } p.head { margin-top: 4px; } p.answer { margin-left: 14px; }"
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


def write_page(path: Path, title: str, words: str, family: str, *, letter: bool) -> float:
    """Write rich text as PDF and return the size of its words, [pt]; never a second page."""
    writer = QPdfWriter(str(path))
    writer.setResolution(DOTS)
    writer.setTitle(title)
    writer.setPageLayout(page_layout(letter=letter))
    return put(words, family, writer)


def page_layout(*, letter: bool) -> QPageLayout:
    """A4 or Letter, upright, with our margins."""
    size = QPageSize.PageSizeId.Letter if letter else QPageSize.PageSizeId.A4
    margins = QMarginsF(MARGIN_MM, MARGIN_MM, MARGIN_MM, MARGIN_MM)
    return QPageLayout(
        QPageSize(size), QPageLayout.Orientation.Portrait, margins, QPageLayout.Unit.Millimeter
    )


def put(words: str, family: str, device: QPagedPaintDevice) -> float:
    """Draw rich text on one page of the device and return the size of its words, [pt]."""
    points, document = _fitted(words, family, device)
    document.print_(device)
    return points


def _fitted(words: str, family: str, device: QPagedPaintDevice) -> tuple[float, QTextDocument]:
    """The largest words with which everything stands on one page."""
    points = LARGEST
    while True:
        document = _document(words, family, points, device)
        if document.pageCount() == 1:
            return points, document
        if points <= SMALLEST:
            raise StoreError("The list does not fit on one page.", "Shorten the names in it.")
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
