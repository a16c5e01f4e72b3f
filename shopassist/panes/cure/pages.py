"""Pages of the cure pane's lower half: times, curves, witness cup, all other cures."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.cure.screen import OWN, CureScreen, Line, TableShown
from shopassist.widgets.chart import Chart
from shopassist.widgets.chart_shown import ChartShown
from shopassist.widgets.explain_mark import ExplainMark
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading

TWO_CHARTS_EM = 44
"""From this width on both charts stand side by side."""
TWO_COLUMNS_EM = 51
"""From this width on the times stand in two columns."""
ONE_COLUMN = 4
"""So many times stand under one another without need of a second column."""
PARTS = 5
"""Columns of the grid for one column of times, a gap included."""
EMPTY = ChartShown("", 0.0, 1.0, 0.0, 1.0)


def label(kind: str, words: str = "") -> QLabel:
    """A label dressed by the theme."""
    made = QLabel(words)
    made.setProperty("kind", kind)
    return made


Row = tuple[QLabel, QLabel, QLabel, ExplainMark, QLabel]


class TimesPage(QScrollArea):
    """Milestones: name, likely range, the time to go by, and the what-if in a column apart."""

    def __init__(self, look: Look, presenter: CurePresenter) -> None:
        super().__init__()
        self._look, self._presenter = look, presenter
        self._lines: tuple[Line, ...] = ()
        self._rows: dict[str, Row] = {}
        self._columns = 0
        plain(self)
        self._inside = QWidget()
        column = QVBoxLayout(self._inside)
        column.setContentsMargins(0, 0, 0, 0)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(round(2 * look.u))
        self._grid.setVerticalSpacing(0)
        column.addLayout(self._grid)
        self.empty = Heading(look, "cure.empty", "")
        self.notes = Heading(look, "cure.times.notes", "")
        column.addWidget(self.empty)
        column.addWidget(self.notes)
        column.addStretch(1)
        self.setWidget(self._inside)

    def sizeHint(self) -> QSize:
        """As high as its lines."""
        return self._inside.sizeHint()

    def minimumSizeHint(self) -> QSize:
        """Three lines; the rest can be reached."""
        return QSize(0, 3 * self._look.mm(9))

    def draw(self, screen: CureScreen) -> None:
        """Show the lines of the screen."""
        changed = [line.id for line in screen.lines] != list(self._rows)
        self._lines = screen.lines
        if changed or self._columns != self._wanted():
            self._build()
        for line in screen.lines:
            name, likely, gate, mark, then = self._rows[line.id]
            name.setText(line.label)
            likely.setText(line.range)
            gate.setText("reached" if line.passed else line.gate)
            name.setToolTip(line.note)
            then.setText(f"{screen.what_if} {line.what_if}" if screen.what_if else "")
            mark.setAccessibleName(f"Explain {line.label}")
        self.empty.draw(screen.empty)
        self.empty.setVisible(bool(screen.empty))
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """One column of lines, or two."""
        super().resizeEvent(event)
        if self._columns != self._wanted():
            self._build()
            self.draw(self._presenter.screen)

    def _wanted(self) -> int:
        """Two columns only where one would be too long, and their words fit."""
        wide = self.width() >= TWO_COLUMNS_EM * self._look.metrics.body_px
        many = len(self._lines) > ONE_COLUMN
        return 2 if wide and many and not self._presenter.screen.what_if else 1

    def _fit(self) -> None:
        """A what-if takes the place of the likely range: both would not be read at a glance."""
        for row in self._rows.values():
            asked = bool(row[4].text())
            row[1].setVisible(not asked)
            row[4].setVisible(asked)

    def _build(self) -> None:
        for widgets in self._rows.values():
            for widget in widgets:
                self._grid.removeWidget(widget)
                widget.hide()
                widget.deleteLater()
        self._rows = {}
        self._columns = self._wanted()
        deep = -(-len(self._lines) // self._columns)
        for number, line in enumerate(self._lines):
            self._add(number % deep, number // deep, line)
        for block in range(self._columns):
            self._grid.setColumnStretch(block * PARTS + 1, 1)

    def _add(self, row: int, block: int, line: Line) -> None:
        name, likely, gate, then = label("label"), label("range"), label("strong"), label("label")
        name_it(gate, line.id, line.label)
        name_it(then, f"{line.id}.what_if", f"{line.label}, what if")
        mark = ExplainMark(self._look, f"{line.id}.explain", f"Explain {line.label}")
        mark.clicked.connect(lambda: self._presenter.on_explain(line.id))
        first = block * PARTS
        for column, widget in ((0, name), (1, likely), (1, then), (2, gate), (3, mark)):
            self._grid.addWidget(widget, row, first + column, Qt.AlignmentFlag.AlignVCenter)
        self._rows[line.id] = (name, likely, gate, mark, then)


class CurvePage(QWidget):
    """The age of the cure; beside it the temperature, where there is room."""

    def __init__(self, look: Look, presenter: CurePresenter) -> None:
        super().__init__()
        self._look = look
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        column.addLayout(row, 1)
        self.more = QPushButton("As a table, and for a spreadsheet")
        name_it(self.more, "cure.open_table", "The curves as a table")
        self.more.setProperty("kind", "quiet")
        self.more.clicked.connect(lambda: presenter.on_page("table"))
        column.addWidget(self.more, 0, Qt.AlignmentFlag.AlignRight)
        self.age = Chart(look, "cure.chart.age", EMPTY)
        self.warmth = Chart(look, "cure.chart.temperature", EMPTY)
        row.addWidget(self.age, 3)
        row.addWidget(self.warmth, 2)

    def draw(self, charts: tuple[ChartShown, ...]) -> None:
        """Show the charts; the last one is the temperature."""
        if charts:
            self.warmth.draw(charts[-1])
        if len(charts) > 1:
            self.age.draw(charts[0])
        self._one = len(charts) <= 1
        self._fit()

    _one = True

    def resizeEvent(self, _: QResizeEvent) -> None:
        """One chart or two."""
        self._fit()

    def _fit(self) -> None:
        """Drop the temperature where two would be crowded."""
        wide = self.width() >= TWO_CHARTS_EM * self._look.metrics.body_px
        self.age.setVisible(not self._one)
        self.warmth.setVisible(wide or self._one)


WORDS = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
NUMBERS = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter


class TablePage(QWidget):
    """The charts as a table, and the same for a spreadsheet."""

    def __init__(self, look: Look, presenter: CurePresenter) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(look.u))
        self.table = QTableWidget()
        name_it(self.table, "cure.table", "Age and temperature of this cure")
        self.table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.table.verticalHeader().hide()
        column.addWidget(self.table, 1)
        row = QHBoxLayout()
        self.save = QPushButton("Save for a spreadsheet")
        name_it(self.save, "cure.save_csv", "Save for a spreadsheet")
        self.save.clicked.connect(presenter.on_csv)
        self.saved = Heading(look, "cure.table.saved", "")
        row.addWidget(self.save)
        row.addWidget(self.saved, 1, Qt.AlignmentFlag.AlignVCenter)
        column.addLayout(row)
        self._look = look
        self._drawn: TableShown | None = None

    def minimumSizeHint(self) -> QSize:
        """Three lines; the rest can be reached."""
        return QSize(0, 3 * self._look.mm(9))

    def draw(self, shown: TableShown) -> None:
        """Show the rows, when they are others."""
        self.saved.draw(f"Saved: {shown.saved}" if shown.saved else "")
        if self._drawn is not None and self._drawn.rows == shown.rows:
            return
        self._drawn = shown
        self.table.setColumnCount(len(shown.head))
        for x, words in enumerate(shown.head):
            item = QTableWidgetItem(words)
            item.setTextAlignment(WORDS if x in shown.words else NUMBERS)
            self.table.setHorizontalHeaderItem(x, item)
        self.table.setRowCount(len(shown.rows))
        for y, row in enumerate(shown.rows):
            for x, words in enumerate(row):
                item = QTableWidgetItem(words)
                item.setTextAlignment(WORDS if x in shown.words else NUMBERS)
                self.table.setItem(y, x, item)
        self.table.resizeColumnsToContents()


class WitnessPage(QWidget):
    """What the witness cup shows, and how to test it."""

    def __init__(self, look: Look, presenter: CurePresenter) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(1.5 * look.u))
        column.addWidget(label("label", "Seen on the witness cup"))
        row = QHBoxLayout()
        row.setSpacing(round(1.5 * look.u))
        self.seen: dict[str, QPushButton] = {}
        for number, (mark, _) in enumerate(presenter.screen.seen, start=1):
            button = QPushButton(mark)
            name_it(button, f"cure.seen.{number}", f"Seen: {mark}")
            button.clicked.connect(lambda _=False, mark=mark: presenter.on_seen(mark))
            row.addWidget(button)
            self.seen[mark] = button
        row.addStretch(1)
        column.addLayout(row)
        self.advice = Heading(look, "cure.witness", "")
        column.addWidget(self.advice)
        column.addStretch(1)

    def draw(self, screen: CureScreen) -> None:
        """Show when each mark was seen."""
        for mark, when in screen.seen:
            button = self.seen[mark]
            button.setText(f"{mark} {when}".strip())
            button.setEnabled(bool(screen.batch_id))
        self.advice.draw(screen.witness)


def plain(area: QScrollArea) -> None:
    """Make a scroll area a part of the paper."""
    area.setWidgetResizable(True)
    area.setFrameShape(QScrollArea.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)


class WaitsPage(QScrollArea):
    """Every other cure in one list, the most urgent first."""

    def __init__(self, look: Look, presenter: CurePresenter) -> None:
        super().__init__()
        self._presenter = presenter
        plain(self)
        inside = QWidget()
        self._grid = QGridLayout(inside)
        self._grid.setContentsMargins(0, 0, round(2 * look.u), 0)
        self._grid.setHorizontalSpacing(round(2.5 * look.u))
        self._grid.setVerticalSpacing(0)
        self._grid.setColumnStretch(2, 1)
        self._grid.setRowStretch(99, 1)
        self.setWidget(inside)
        self._rows: dict[str, tuple[QLabel, QPushButton, QLabel, QPushButton]] = {}

    def draw(self, screen: CureScreen) -> None:
        """Show the cures in their order."""
        if [other.batch_id for other in screen.others] != list(self._rows):
            self._clear()
            for number, other in enumerate(screen.others):
                self._add(number, other.batch_id)
        for other in screen.others:
            _, name, caption, done = self._rows[other.batch_id]
            done.setVisible(other.own)
            done.setAccessibleName(f"Done: {other.name}")
            name.setText(other.name)
            name.setAccessibleName(f"{other.name}: {other.caption}")
            caption.setText(other.caption)
        self.tick()

    def lacks(self, screen: CureScreen) -> bool:
        """Whether it lists other cures than there are; out of sight their order does not matter."""
        return {other.batch_id for other in screen.others} != set(self._rows)

    def tick(self) -> None:
        """Show the seconds."""
        for batch_id, (digits, *_) in self._rows.items():
            digits.setText(self._presenter.digits_of(batch_id))

    def _clear(self) -> None:
        for widgets in self._rows.values():
            for widget in widgets:
                self._grid.removeWidget(widget)
                widget.hide()
                widget.deleteLater()
        self._rows = {}

    def _add(self, number: int, batch_id: str) -> None:
        digits, caption = label("count"), label("label")
        name_it(digits, f"cure.wait.{batch_id.removeprefix(OWN)}.remaining", "Remaining")
        digits.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        name = QPushButton()
        name_it(name, f"cure.wait.{batch_id.removeprefix(OWN)}.take", "")
        name.setProperty("kind", "quiet")
        name.clicked.connect(lambda: self._presenter.on_take(batch_id))
        done = QPushButton("Done")
        name_it(done, f"cure.wait.{batch_id.removeprefix(OWN)}.done", "Done")
        done.clicked.connect(lambda: self._presenter.on_done(batch_id))
        for column, widget in enumerate((digits, name, caption, done)):
            self._grid.addWidget(widget, number, column)
        self._rows[batch_id] = (digits, name, caption, done)
