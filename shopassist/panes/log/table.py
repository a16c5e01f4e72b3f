"""The table of the log: the columns that have room, the batch's name always."""

from PySide6.QtCore import QAbstractTableModel, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it

WIDTHS = (13, 13, 13, 9, 9)
"""Of the columns, in digits of the body font."""
ROW_MM = 9.0
"""As high as a button: a row is pressed, too."""
BY_WORTH = (0, 4, 1, 2, 3)
"""Columns in the order in which they get room; what is left out stands in the facts."""


class LogTable(QTableView):
    """Rows to choose from; nothing is edited in it."""

    def __init__(self, look: Look, model: QAbstractTableModel) -> None:
        super().__init__()
        name_it(self, "log.table", "Batches, newest first; Space marks one for comparison")
        self.setModel(model)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setShowGrid(False)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(look.mm(ROW_MM))
        header = self.horizontalHeader()
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setHighlightSections(False)
        digit = look.font("body").advance("0")
        self._widths = tuple(round(digits * digit) for digits in WIDTHS)
        for column, width in enumerate(self._widths):
            self.setColumnWidth(column, width)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.setTabKeyNavigation(False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave out what has no room; the name stays, or no arrow key would find a row."""
        room = self.viewport().width() - self._widths[BY_WORTH[0]]
        for column in BY_WORTH[1:]:
            room -= self._widths[column]
            self.setColumnHidden(column, room < 0)
        super().resizeEvent(event)
