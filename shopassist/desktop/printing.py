"""Pages shown as they will be printed, then printed, by Qt's own preview.

Brings in Qt's printing: import it where a page is asked for, not before.
"""

from html import escape

from PySide6.QtCore import QPoint, Qt
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewDialog
from PySide6.QtWidgets import QWidget

from shopassist.core.errors import StoreError
from shopassist.core.frozen import frozen
from shopassist.desktop.fitted_pages import page_layout, put

SHARE = 0.8
"""Of the width of the window that asks."""
FRAME = 40
"""Room for the frame that the system puts round the preview, [px]; ours."""
TOO_SMALL = "This does not fit on this paper. Choose A4 or Letter, upright."


@frozen
class Page:
    """What is to be printed: rich text, and how many pages it may take."""

    title: str
    words: str
    letter: bool = False
    """Letter instead of A4."""
    count: int = 1


class Preview(QPrintPreviewDialog):
    """A page on the paper that is chosen; beside the window, whose keys and alarms go on."""

    def __init__(self, page: Page, family: str, parent: QWidget) -> None:
        self._printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        super().__init__(self._printer, parent)
        self._page, self._family = page, family
        self._printer.setDocName(page.title)
        self._printer.setPageLayout(page_layout(letter=page.letter))
        if page.count > 1:  # where the printer can
            self._printer.setDuplex(QPrinter.DuplexMode.DuplexLongSide)
        self.setObjectName("print.preview")
        self.setAccessibleName(f"Preview of {page.title}")
        self.setWindowTitle(page.title)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setModal(False)
        self.paintRequested.connect(self._draw)

    def _draw(self, printer: QPrinter) -> None:
        """Fit the words to the paper that stands chosen now."""
        try:
            put(self._page.words, self._family, printer, self._page.count)
        except StoreError:
            put(f"<p>{escape(TOO_SMALL)}</p>", self._family, printer)


def preview(page: Page, family: str, parent: QWidget, below: int = 0) -> Preview:
    """Open the preview of a page; so much of the parent stays in sight above it, [px]."""
    dialog = Preview(page, family, parent)
    room = parent.rect().adjusted(0, below + FRAME, 0, -FRAME)
    dialog.resize(round(room.width() * SHARE), room.height())
    dialog.move(
        parent.mapToGlobal(room.topLeft() + QPoint((room.width() - dialog.width()) // 2, 0))
    )
    dialog.show()
    return dialog
