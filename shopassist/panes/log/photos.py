"""Photographs of the open batch, shown from where they lie."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QImageReader, QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import (
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.log.presenter import LogPresenter
from shopassist.panes.log.screen import LogScreen, PhotoShown
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.tabs import scrolled

WIDE, HIGH = 80, 48
"""Room of a picture, in units of the look."""
NONE_YET = "No photograph yet. The log keeps where a picture lies; it never copies it."
UNREADABLE = "This file cannot be shown as a picture. The log keeps where it lies."
KINDS = "Pictures (*.jpg *.jpeg *.png *.webp *.tif *.tiff *.bmp *.gif);;All files (*)"


class Picture(QWidget):
    """A photograph as wide as there is room for it, and no larger than it was read."""

    def __init__(self, picture: QPixmap) -> None:
        super().__init__()
        self._picture = picture
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def heightForWidth(self, width: int) -> int:
        """In its own proportions."""
        whole = self._picture.size()
        return round(min(width, whole.width()) * whole.height() / whole.width())

    def sizeHint(self) -> QSize:
        """As it was read."""
        return self._picture.size()

    def minimumSizeHint(self) -> QSize:
        """It may be as narrow as the room is."""
        return QSize(1, 1)

    def paintEvent(self, _: QPaintEvent) -> None:
        """Draw it at the left."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        wide = min(self.width(), self._picture.width())
        painter.drawPixmap(QRect(0, 0, wide, self.heightForWidth(wide)), self._picture)
        painter.end()


class PhotosPage(QWidget):
    """Built anew only where the list has changed; each picture is read at the size it is shown."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__()
        self._look, self._presenter = look, presenter
        self._shown: tuple[PhotoShown, ...] | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        self.area = QScrollArea()
        name_it(self.area, "log.photos", "Photographs of the batch")
        column.addWidget(self.area, 1)
        self.path = QLineEdit()
        name_it(self.path, "log.photo_path", "Where a photograph lies")
        self.path.setPlaceholderText("Where a photograph lies, then Enter")
        self.path.returnPressed.connect(self._typed)
        self.choose = QPushButton("Choose …")
        name_it(self.choose, "log.photo_choose", "Choose a photograph")
        self.choose.clicked.connect(self._choose)
        row = QHBoxLayout()
        row.addWidget(self.path, 1)
        row.addWidget(self.choose)
        column.addLayout(row)
        self.error = Heading(look, "log.photo_error", "", "bold", "error")
        column.addWidget(self.error)

    def draw(self, screen: LogScreen) -> None:
        """Show the photographs of the open batch."""
        self.error.draw(screen.error)
        self.error.setVisible(bool(screen.error))
        if screen.page == "photos" and screen.photos != self._shown:
            self._shown = screen.photos
            self._build(screen.photos)

    def _build(self, photos: tuple[PhotoShown, ...]) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, round(2 * self._look.u), 0)
        column.setSpacing(round(1.5 * self._look.u))
        if not photos:
            column.addWidget(Heading(self._look, "log.photos.none", NONE_YET))
        for number, each in enumerate(photos, 1):
            self._add(column, number, each)
        column.addStretch(1)
        scrolled(inside, self.area)

    def _add(self, column: QVBoxLayout, number: int, each: PhotoShown) -> None:
        row = QHBoxLayout()
        row.addWidget(Heading(self._look, f"log.photo.{number}.name", each.name, "bold", "ink"), 1)
        off = QPushButton("Take off")
        name_it(off, f"log.photo.{number}", f"Show {each.name} no longer")
        off.clicked.connect(lambda _=False, n=number - 1: self._presenter.on_photo_off(n))
        row.addWidget(off)
        column.addLayout(row)
        picture = None if each.gone else self._picture(each.path)
        if picture is None:
            words = each.gone or UNREADABLE
            column.addWidget(Heading(self._look, f"log.photo.{number}.gone", words, "body", "ink"))
            return
        shown = Picture(picture)
        name_it(shown, f"log.photo.{number}.picture", f"Photograph {each.name}")
        column.addWidget(shown)

    def _picture(self, path: str) -> QPixmap | None:
        """Read no more of it than is shown; None where it is no picture."""
        reader = QImageReader(path)
        reader.setAutoTransform(True)
        room = QSize(round(WIDE * self._look.u), round(HIGH * self._look.u))
        if not reader.size().isValid():
            return None
        reader.setScaledSize(reader.size().scaled(room, Qt.AspectRatioMode.KeepAspectRatio))
        image = reader.read()
        return None if image.isNull() else QPixmap.fromImage(image)

    def _typed(self) -> None:
        if self._presenter.on_photo(self.path.text()):
            self.path.clear()

    def _choose(self) -> None:
        dialog = QFileDialog(self, "A photograph of the batch", "", KINDS)
        dialog.setObjectName("log.photo_dialog")
        dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.fileSelected.connect(self._presenter.on_photo)
        dialog.open()
