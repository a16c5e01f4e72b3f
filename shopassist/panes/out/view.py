"""The Out pane on screen: files at one page, backups at the other."""

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.out.presenter import OutPresenter
from shopassist.panes.out.screen import FILES, PAGES, OutScreen
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.tabs import row_of, scrolled, tabs

PANE = "out"


class OutView(PaneFrame):
    """Buttons that write, a list of backups."""

    def __init__(self, look: Look, presenter: OutPresenter) -> None:
        super().__init__(look, PANE, "Out")
        self._presenter = presenter
        self.pages = tabs(f"{PANE}.page", PAGES, presenter.on_page)
        self.body.addLayout(row_of(self.pages))
        self.stack = QStackedWidget()
        self.stack.addWidget(scrolled(self._build_files(), by_keys=False))
        self.stack.addWidget(self._build_backups())
        self.body.addWidget(self.stack, 1)
        self.written = Heading(look, f"{PANE}.written", "", "bold", "ink")
        self.message = Heading(look, f"{PANE}.message", "", "bold", "error")
        self.open = QPushButton("Look at it")
        name_it(self.open, f"{PANE}.open", "Look at the file")
        self.open.clicked.connect(presenter.on_open)
        foot = QHBoxLayout()
        foot.addWidget(self.written, 1)
        foot.addWidget(self.open)
        self.body.addLayout(foot)
        self.body.addWidget(self.message)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ------------------------------------------------------------------------------

    def _build_files(self) -> QWidget:
        page, column = self._column()
        self.folder = self._line("folder", "Folder", column)
        self.folder.editingFinished.connect(lambda: self._presenter.on_folder(self.folder.text()))
        self.files: dict[str, QPushButton] = {}
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(3 * self.look.u))
        grid.setVerticalSpacing(round(1.5 * self.look.u))
        grid.setColumnStretch(0, 2)
        grid.setColumnStretch(1, 5)
        for number, (name, words, use) in enumerate(FILES):
            button = QPushButton(words)
            name_it(button, f"{PANE}.{name}", words)
            button.clicked.connect(lambda _=False, name=name: self._presenter.on_file(name))
            grid.addWidget(button, number, 0)
            told = Heading(self.look, f"{PANE}.{name}.use", use)
            grid.addWidget(told, number, 1, Qt.AlignmentFlag.AlignVCenter)
            self.files[name] = button
        grid.addWidget(self._build_print(), 0, 2)
        column.addLayout(grid)
        self.path = self._line("import_path", "A batch from a file", column)
        self.bring = QPushButton("Bring it in")
        name_it(self.bring, f"{PANE}.import", "Bring the batch in")
        self.bring.clicked.connect(lambda: self._presenter.on_import(self.path.text()))
        row = QHBoxLayout()
        row.addWidget(self.bring)
        row.addStretch(1)
        column.addLayout(row)
        column.addStretch(1)
        return page

    def _build_print(self) -> QPushButton:
        self.print = QPushButton("Print …")
        name_it(self.print, f"{PANE}.print", "Print the batch sheet, with a preview")
        self.print.clicked.connect(self._presenter.on_print)
        return self.print

    def _line(self, name: str, label: str, column: QVBoxLayout) -> QLineEdit:
        words = QLabel(label)
        words.setProperty("kind", "label")
        line = QLineEdit()
        name_it(line, f"{PANE}.{name}", label)
        line.setProperty("typed", "true")
        words.setBuddy(line)
        column.addWidget(words)
        column.addWidget(line)
        return line

    def _build_backups(self) -> QWidget:
        page, column = self._column()
        self.rule = Heading(self.look, f"{PANE}.rule", "")
        self.copies = QListWidget()
        name_it(self.copies, f"{PANE}.copies", "Backups")
        self.copies.currentRowChanged.connect(self._presenter.on_choose)
        self.note = Heading(self.look, f"{PANE}.note", "", "body", "ink")
        self.copy_now = QPushButton("Back up now")
        name_it(self.copy_now, f"{PANE}.copy_now", "Back up now")
        self.copy_now.clicked.connect(self._presenter.on_copy_now)
        self.restore = QPushButton()
        name_it(self.restore, f"{PANE}.restore", "Put it back at the next start")
        self.restore.clicked.connect(self._presenter.on_restore)
        row = QHBoxLayout()
        row.addWidget(self.copy_now)
        row.addWidget(self.restore)
        row.addStretch(1)
        column.addWidget(self.rule)
        column.addWidget(self.copies, 1)
        column.addWidget(self.note)
        column.addLayout(row)
        return page

    def _column(self) -> tuple[QWidget, QVBoxLayout]:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 3, 0, 3)
        column.setSpacing(round(1.5 * self.look.u))
        return page, column

    # -- drawing -------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        for key, tab in self.pages.items():
            tab.setChecked(key == screen.page)
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        if self.folder.text() != screen.folder:
            self.folder.setText(screen.folder)
            self.folder.setCursorPosition(0)
        for name, button in self.files.items():
            button.setEnabled(screen.has_batch or name == "table")
        self.print.setEnabled(screen.has_batch)
        written = f"Written: {screen.written}" if screen.written else ""
        for heading, words in ((self.written, written), (self.message, screen.message)):
            heading.draw(words)
            heading.setVisible(bool(words))
        self.open.setVisible(screen.can_open)
        self._show_backups(screen)

    def _show_backups(self, screen: OutScreen) -> None:
        self.rule.draw(screen.rule)
        self.note.draw(screen.restore_note)
        shown = [self.copies.item(n).text() for n in range(self.copies.count())]
        words = [each.words for each in screen.copies]
        if shown != words:
            with QSignalBlocker(self.copies):
                self.copies.clear()
                self.copies.addItems(words)
        if self.copies.currentRow() != screen.chosen:
            with QSignalBlocker(self.copies):
                self.copies.setCurrentRow(screen.chosen)
        self.restore.setVisible(bool(screen.restore))
        self.restore.setText(screen.restore)
        self.restore.setAccessibleName(screen.restore or "Put it back at the next start")

    def take_focus(self) -> None:
        """Bring the keyboard to the first button or to the list."""
        page = self._presenter.screen.page
        target = self.files["sheet"] if page == "files" else self.copies
        target.setFocus(Qt.FocusReason.OtherFocusReason)
