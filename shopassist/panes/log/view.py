"""The batch log on screen: search and table at the left, one batch with its pages at the right."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.batch import OUTCOMES
from shopassist.panes.log.model import LogModel
from shopassist.panes.log.pages import ComparePage, LearntPage, SymptomPage
from shopassist.panes.log.photos import PhotosPage
from shopassist.panes.log.presenter import LogPresenter
from shopassist.panes.log.screen import FILTERS, PAGES, LogScreen
from shopassist.panes.log.table import LogTable
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_card import ReportedRows
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import Reported
from shopassist.widgets.tabs import row_of, scrolled, tabs


class LogView(PaneFrame):
    """Table at the left, the open batch at the right."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__(look, "log", "Log")
        self._presenter = presenter
        self._model = LogModel(presenter)
        row = QHBoxLayout()
        row.setSpacing(round(4 * look.u))
        row.addLayout(self._build_left(look), 5)
        row.addLayout(self._build_side(look), 4)
        self.body.addLayout(row, 1)
        self._keys()
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _keys(self) -> None:
        scope = Qt.ShortcutContext.WidgetWithChildrenShortcut
        find = QShortcut(QKeySequence.StandardKey.Find, self)
        find.setContext(scope)
        find.activated.connect(lambda: self.search.setFocus(Qt.FocusReason.ShortcutFocusReason))
        mark = QShortcut(QKeySequence(Qt.Key.Key_Space), self.table)
        mark.setContext(Qt.ShortcutContext.WidgetShortcut)
        mark.activated.connect(self._presenter.on_mark)

    # -- the left side ----------------------------------------------------------------------

    def _build_left(self, look: Look) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(1.5 * look.u))
        self.search = _line("log.search", "Search: words of name, resin, notes  (Ctrl+F)")
        self.search.setClearButtonEnabled(True)
        self.search.textChanged.connect(self._presenter.on_search)
        column.addWidget(self.search)
        self.filters = tabs("log.filter", FILTERS, self._presenter.on_filter)
        column.addLayout(row_of(self.filters))
        column.addWidget(self._build_table(look), 1)
        self.status = Heading(look, "log.status", "")
        column.addWidget(self.status)
        return column

    def _build_table(self, look: Look) -> QTableView:
        self.table = LogTable(look, self._model)
        self.table.selectionModel().currentRowChanged.connect(
            lambda now, _: self._presenter.on_select(now.row())
        )
        self.table.activated.connect(lambda _: self._presenter.on_take_in_hand())
        return self.table

    # -- the right side ---------------------------------------------------------------------

    def _build_side(self, look: Look) -> QVBoxLayout:
        side = QVBoxLayout()
        side.setSpacing(round(1.5 * look.u))
        self.heading = Heading(look, "log.title", "", "title", "ink")
        side.addWidget(self.heading)
        self.pages = tabs("log.page", PAGES, self._presenter.on_page)
        side.addLayout(row_of(self.pages))
        self.stack = QStackedWidget()
        self.compare = ComparePage(look, self._presenter)
        self.symptoms = SymptomPage(look, self._presenter)
        self.learnt = LearntPage(look, self._presenter)
        self.photos = PhotosPage(look, self._presenter)
        facts = self._build_facts(look)
        for page in (facts, self.compare, self.symptoms, self.learnt, self.photos):
            self.stack.addWidget(page)
        side.addWidget(self.stack, 1)
        return side

    def _build_facts(self, look: Look) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(1.5 * look.u))
        self.facts = ReportedRows(look, "log.facts", "Facts of the batch", ())
        self.facts.setAutoFillBackground(False)
        column.addWidget(scrolled(self.facts), 1)
        column.addSpacing(round(look.u))
        column.addLayout(self._build_acts())
        self.name_line = _line("log.name", "Name")
        self.name_line.editingFinished.connect(
            lambda: self._presenter.on_name(self.name_line.text())
        )
        self.next_time = _line("log.next_time", "Next time: one line for the job card")
        self.next_time.editingFinished.connect(
            lambda: self._presenter.on_next_time(self.next_time.text())
        )
        self.note = _line("log.note", "Add a note, then Enter")
        self.note.returnPressed.connect(self._noted)
        self.error = Heading(look, "log.error", "", "bold", "error")
        names = QHBoxLayout()
        names.addWidget(self.name_line, 2)
        names.addWidget(self.next_time, 3)
        column.addLayout(names)
        column.addWidget(self.note)
        column.addWidget(self.error)
        return page

    def _build_acts(self) -> QVBoxLayout:
        column, first, second = QVBoxLayout(), QHBoxLayout(), QHBoxLayout()
        self.outcomes = {name: _button(f"log.outcome.{name}", name) for name in OUTCOMES}
        for name, button in self.outcomes.items():
            button.setCheckable(True)
            button.setProperty("kind", "choice")
            button.clicked.connect(lambda _=False, name=name: self._presenter.on_outcome(name))
            first.addWidget(button)
        self.again = _button("log.again", "Again")
        self.again.setProperty("kind", "primary")
        self.again.clicked.connect(self._presenter.on_again)
        self.take = _button("log.take_in_hand", "Take in hand")
        self.take.clicked.connect(self._presenter.on_take_in_hand)
        self.mark = _button("log.mark", "Mark")
        self.mark.setToolTip("Mark it for the comparison; Space in the table does the same.")
        self.mark.clicked.connect(self._presenter.on_mark)
        self.remove = _button("log.remove", "Remove")
        self.remove.clicked.connect(self._presenter.on_remove)
        for button in (self.again, self.take, self.mark, self.remove):
            second.addWidget(button)
        column.addLayout(first)
        column.addLayout(second)
        return column

    def _noted(self) -> None:
        self._presenter.on_note(self.note.text())
        self.note.clear()

    # -- drawing ------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self._model.refresh(screen.count)
        self.set_right(f"{screen.count} batches" if screen.count != 1 else "1 batch")
        self.status.draw(screen.reading or screen.empty)
        self.status.setVisible(bool(screen.reading or screen.empty))
        for key, button in self.filters.items():
            button.setChecked(key in screen.filters)
        for key, button in self.pages.items():
            button.setChecked(key == screen.page)
        self.heading.draw(screen.title or screen.empty)
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        self._show_facts(screen)
        self.compare.draw(screen)
        self.symptoms.draw(screen)
        self.learnt.draw(screen)
        self.photos.draw(screen)
        if screen.selected >= 0 and self.table.currentIndex().row() != screen.selected:
            self.table.selectRow(screen.selected)

    def _show_facts(self, screen: LogScreen) -> None:
        self.facts.draw(tuple(Reported(fact.label, fact.value) for fact in screen.facts))
        self.facts.updateGeometry()
        for line, words in ((self.next_time, screen.next_time), (self.name_line, screen.name)):
            if not line.hasFocus() and line.text() != words:
                line.setText(words)
        self.error.draw(screen.error)
        self.error.setVisible(bool(screen.error))
        for name, button in self.outcomes.items():
            button.setChecked(name == screen.outcome)
        self.remove.setText("Bring back" if screen.removed else "Remove")

    def take_focus(self) -> None:
        """Bring the keyboard to the table."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)


def _button(name: str, words: str) -> QPushButton:
    button = QPushButton(words)
    name_it(button, name, words)
    return button


def _line(name: str, words: str) -> QLineEdit:
    line = QLineEdit()
    name_it(line, name, words)
    line.setPlaceholderText(words)
    return line
