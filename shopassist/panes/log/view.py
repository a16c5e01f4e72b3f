"""The batch log on screen: a table that asks for its rows, the facts of one batch beside it."""

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QTableView,
    QVBoxLayout,
)

from shopassist.core.batch import OUTCOMES
from shopassist.panes.log.presenter import COLUMNS, LogPresenter
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.pot_card import ReportedRows
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import Reported

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class LogModel(QAbstractTableModel):
    """Rows are folded when they come into sight, so ten years scroll like ten days."""

    def __init__(self, presenter: LogPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._count = presenter.screen.count

    def refresh(self) -> None:
        """Take what changed."""
        count = self._presenter.screen.count
        if count != self._count:
            self.beginResetModel()
            self._count = count
            self.endResetModel()
        elif count:
            self.dataChanged.emit(self.index(0, 0), self.index(count - 1, len(COLUMNS) - 1))

    def rowCount(self, parent: Index = NOWHERE) -> int:
        """Every batch is a row."""
        return 0 if parent.isValid() else self._count

    def columnCount(self, parent: Index = NOWHERE) -> int:
        """As many as there are headings."""
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> str | None:
        """One cell."""
        if role != Qt.ItemDataRole.DisplayRole or not index.isValid():
            return None
        return self._presenter.row(index.row())[index.column()]

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> str | None:
        """Headings."""
        if role != Qt.ItemDataRole.DisplayRole or orientation != Qt.Orientation.Horizontal:
            return None
        return COLUMNS[section]


class LogView(PaneFrame):
    """Table at the left, the open batch at the right."""

    def __init__(self, look: Look, presenter: LogPresenter) -> None:
        super().__init__(look, "log", "Log")
        self._presenter = presenter
        self._model = LogModel(presenter)
        row = QHBoxLayout()
        row.setSpacing(round(4 * look.u))
        row.addWidget(self._build_table(), 3)
        row.addLayout(self._build_side(look), 2)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_table(self) -> QTableView:
        self.table = QTableView()
        name_it(self.table, "log.table", "All batches, newest first")
        self.table.setModel(self._model)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.verticalHeader().hide()
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.setTabKeyNavigation(False)
        self.table.selectionModel().currentRowChanged.connect(
            lambda now, _: self._presenter.on_select(now.row())
        )
        self.table.activated.connect(lambda _: self._presenter.on_take_in_hand())
        return self.table

    def _build_side(self, look: Look) -> QVBoxLayout:
        side = QVBoxLayout()
        self.heading = Heading(look, "log.title", "", "title", "ink")
        self.facts = ReportedRows(look, "log.facts", "Facts of the batch", ())
        side.addWidget(self.heading)
        side.addWidget(self.facts, 1)
        side.addLayout(self._build_acts())
        self.next_time = self._line("log.next_time", "Next time: one line for the job card")
        self.next_time.editingFinished.connect(
            lambda: self._presenter.on_next_time(self.next_time.text())
        )
        self.note = self._line("log.note", "Add a note")
        self.note.returnPressed.connect(self._noted)
        self.error = Heading(look, "log.error", "", "bold", "error")
        for widget in (self.next_time, self.note):
            side.addWidget(widget)
        side.addWidget(self.error)
        return side

    def _build_acts(self) -> QVBoxLayout:
        column, first, second = QVBoxLayout(), QHBoxLayout(), QHBoxLayout()
        self.outcomes = {name: self._button(f"log.outcome.{name}", name) for name in OUTCOMES}
        for name, button in self.outcomes.items():
            button.clicked.connect(lambda _=False, name=name: self._presenter.on_outcome(name))
            first.addWidget(button)
        self.again = self._button("log.again", "Again")
        self.again.setProperty("kind", "primary")
        self.again.clicked.connect(self._presenter.on_again)
        self.take = self._button("log.take_in_hand", "Take in hand")
        self.take.clicked.connect(self._presenter.on_take_in_hand)
        self.remove = self._button("log.remove", "Remove / bring back")
        self.remove.clicked.connect(self._presenter.on_remove)
        for button in (self.again, self.take, self.remove):
            second.addWidget(button)
        column.addLayout(first)
        column.addLayout(second)
        return column

    @staticmethod
    def _button(name: str, words: str) -> QPushButton:
        button = QPushButton(words)
        name_it(button, name, words)
        return button

    @staticmethod
    def _line(name: str, words: str) -> QLineEdit:
        line = QLineEdit()
        name_it(line, name, words)
        line.setPlaceholderText(words)
        return line

    def _noted(self) -> None:
        self._presenter.on_note(self.note.text())
        self.note.clear()

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self._model.refresh()
        self.heading.draw(screen.title or screen.empty)
        self.facts.draw(tuple(Reported(fact.label, fact.value) for fact in screen.facts))
        if not self.next_time.hasFocus():
            self.next_time.setText(screen.next_time)
        self.error.draw(screen.note_error)
        for name, button in self.outcomes.items():
            button.setText(f"{name} ●" if name == screen.outcome else name)
        if screen.selected >= 0 and self.table.currentIndex().row() != screen.selected:
            self.table.selectRow(screen.selected)

    def take_focus(self) -> None:
        """Bring the keyboard to the table."""
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
