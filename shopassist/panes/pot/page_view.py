"""The pages of numbers on screen: a table that explains itself, or charts with their readings."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.pot.screen import Numbers, Row
from shopassist.widgets.chart import Chart
from shopassist.widgets.chart_shown import ChartShown
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading

EMPTY = ChartShown("", 0.0, 1.0, 0.0, 1.0)
LABEL, VALUE, MARK, REST = range(4)


def label(kind: str, words: str = "") -> QLabel:
    """A label dressed by the theme."""
    made = QLabel(words)
    made.setProperty("kind", kind)
    return made


class NumbersView(QScrollArea):
    """One line a number: name, value, explain mark, range and what to know about it."""

    def __init__(self, look: Look, name: str, explain: Callable[[str], None]) -> None:
        super().__init__()
        self.look, self._explain = look, explain
        self._rows: tuple[Row, ...] = ()
        name_it(self, name, "Numbers")
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(0, 0, round(2 * look.u), 0)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(round(2 * look.u))
        self._grid.setVerticalSpacing(0)
        self._grid.setColumnStretch(REST, 1)
        column.addLayout(self._grid)
        self.notes = Heading(look, f"{name}.notes", "")
        column.addWidget(self.notes)
        column.addStretch(1)
        self.setWidget(inside)

    def minimumSizeHint(self) -> QSize:
        """Three lines; the rest can be reached."""
        return QSize(0, 3 * self.look.mm(9))

    def draw(self, numbers: Numbers) -> None:
        """Show the numbers; nothing happens when they are the same."""
        self.notes.draw("\n".join(numbers.notes))
        self.notes.setVisible(bool(numbers.notes))
        if numbers.rows == self._rows:
            return
        self._rows = numbers.rows
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.setObjectName("")
                widget.deleteLater()
        for number, row in enumerate(numbers.rows):
            self._add(number, row)

    def _add(self, number: int, row: Row) -> None:
        value = label("strong", row.value)
        name_it(value, row.id, row.label)
        value.setAccessibleDescription(" ".join((row.value, row.range, row.note)).strip())
        rest = label("label")
        rest.setWordWrap(True)
        colour = self.look.tokens.band_edge
        span = f'<span style="color:{colour}">{row.range}</span>' if row.range else ""
        rest.setText(" · ".join(part for part in (span, row.note) if part))
        middle = Qt.AlignmentFlag.AlignVCenter
        words = label("label", row.label)
        words.setWordWrap(True)  # in a narrow column they are not cut
        self._grid.addWidget(words, number, LABEL, middle)
        self._grid.addWidget(value, number, VALUE, middle | Qt.AlignmentFlag.AlignRight)
        self._grid.addWidget(rest, number, REST, middle)
        self._grid.setRowMinimumHeight(number, self.look.mm(9))
        if row.explains:
            mark = ExplainMark(self.look, f"{row.id}.explain", f"Explain {row.label}")
            mark.clicked.connect(lambda: self._explain(row.id))
            self._grid.addWidget(mark, number, MARK, middle)


class ReadingsView(QWidget):
    """The run as a chart, the let-down beside it, and every reading in a table."""

    def __init__(self, look: Look, save: Callable[[], None]) -> None:
        super().__init__()
        self.look = look
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        self.run = Chart(look, "pot.chart.run", EMPTY)
        self.fall = Chart(look, "pot.chart.fall", EMPTY)
        self.table = NumbersTable(look)
        row.addWidget(self.run, 3)
        row.addWidget(self.fall, 2)
        row.addLayout(self._build_table(save), 2)
        column.addLayout(row, 1)
        self.notes = Heading(look, "pot.readings.notes", "")
        column.addWidget(self.notes)

    def _build_table(self, save: Callable[[], None]) -> QVBoxLayout:
        """The readings in words, and the same for a spreadsheet."""
        column = QVBoxLayout()
        column.setSpacing(round(self.look.u))
        column.addWidget(self.table, 1)
        self.save = QPushButton("Save for a spreadsheet")
        name_it(self.save, "pot.save_csv", "Save the readings for a spreadsheet")
        self.save.clicked.connect(save)
        column.addWidget(self.save, 0, Qt.AlignmentFlag.AlignLeft)
        return column

    def draw(self, numbers: Numbers) -> None:
        """Show what was typed."""
        for chart, shown in zip(
            (self.run, self.fall), (*numbers.charts, EMPTY, EMPTY), strict=False
        ):
            chart.setVisible(shown is not EMPTY)
            chart.draw(shown)
        self.table.draw(numbers.table)
        for each in (self.table, self.save):
            each.setVisible(bool(numbers.table))
        self.notes.draw("\n".join(numbers.notes))


class NumbersTable(QScrollArea):
    """When, reading, temperature, what it was."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        name_it(self, "pot.readings", "Readings as typed")
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._shown: tuple[tuple[str, ...], ...] = ()

    def draw(self, table: tuple[tuple[str, ...], ...]) -> None:
        """Show the rows; nothing happens when they are the same."""
        if table == self._shown:
            return
        self._shown = table
        inside = QWidget()
        grid = QGridLayout(inside)
        grid.setContentsMargins(0, 0, round(2 * self.look.u), 0)
        grid.setHorizontalSpacing(round(2 * self.look.u))
        for number, row in enumerate(table):
            for place, words in enumerate(row):
                grid.addWidget(label("typed" if place == 1 else "label", words), number, place)
        grid.setRowStretch(len(table), 1)
        grid.setColumnStretch(3, 1)
        self.setWidget(inside)
        self.setAccessibleDescription("; ".join(" ".join(row).strip() for row in table))
