"""The table of the log: a cell is asked for when it comes into sight."""

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from shopassist.panes.log.presenter import COLUMNS, LogPresenter

Index = QModelIndex | QPersistentModelIndex
NOWHERE = QModelIndex()


class LogModel(QAbstractTableModel):
    """Rows are written when they come into sight, so ten years scroll like ten days."""

    def __init__(self, presenter: LogPresenter) -> None:
        super().__init__()
        self._presenter = presenter
        self._count = presenter.screen.count
        self._cells: dict[int, tuple[str, ...]] = {}

    def refresh(self, count: int) -> None:
        """Take what changed."""
        self._cells.clear()
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
        """One cell; the whole of it as its tip where the column is narrow."""
        shown = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.ToolTipRole)
        if role not in shown or not index.isValid():
            return None
        row = index.row()
        if row not in self._cells:
            self._cells[row] = self._presenter.row(row)
        return self._cells[row][index.column()]

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
