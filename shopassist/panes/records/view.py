"""The records pane on screen: kinds, list and a form made from the table of fields."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.records.form import Cell, Group
from shopassist.panes.records.presenter import RecordsPresenter
from shopassist.widgets.choice import Choice
from shopassist.widgets.look import Look
from shopassist.widgets.onward import go_on, show_whole
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading

COLUMNS = 3
ACTS = (("new", "New"), ("copy", "Copy"), ("remove", "Remove"), ("save", "Save"))


class FieldCell(QWidget):
    """Label, field, and what is wrong beneath it."""

    def __init__(self, cell: Cell, presenter: RecordsPresenter) -> None:
        super().__init__()
        self._place = cell.field.place
        self._presenter = presenter
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        label = self.label = QLabel(cell.label + (" *" if cell.field.required else ""))
        label.setProperty("kind", "label")
        label.setWordWrap(True)
        label.setAlignment(Qt.AlignmentFlag.AlignBottom)
        self.field: QLineEdit | QComboBox = self._choice(cell) if cell.options else self._line()
        name_it(self.field, f"records.field.{self._place}", cell.field.label)
        self.field.setToolTip(cell.field.note)
        label.setBuddy(self.field)
        self.problem = QLabel()
        self.problem.setProperty("kind", "error")
        self.problem.setWordWrap(True)
        self.problem.hide()
        self.remark = _remark()
        for widget in (label, self.field, self.problem, self.remark):
            column.addWidget(widget)
        column.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def _line(self) -> QLineEdit:
        line = QLineEdit()
        line.textEdited.connect(lambda text: self._presenter.on_edit(self._place, text))
        line.editingFinished.connect(lambda: self._presenter.on_leave(self._place))
        return line

    def _choice(self, cell: Cell) -> QComboBox:
        box = Choice()
        box.addItems(["", *cell.options])
        box.textActivated.connect(self._chosen)
        return box

    def _chosen(self, text: str) -> None:
        self._presenter.on_edit(self._place, text)
        self._presenter.on_leave(self._place)

    def fill(self, cell: Cell) -> None:
        """Write what stands in the draft; a field that is being typed in is left alone."""
        if isinstance(self.field, QComboBox):
            place = self.field.findText(cell.text)
            if place < 0:
                self.field.addItem(cell.text)
                place = self.field.count() - 1
            self.field.setCurrentIndex(place)
        elif self.field.text() != cell.text and not self.field.hasFocus():
            self.field.setText(cell.text)
            self.field.setCursorPosition(0)

    def draw(self, cell: Cell) -> None:
        """Show the field as it stands, and what is wrong with it."""
        self.fill(cell)
        if self.problem.text() != cell.problem:
            self.problem.setText(cell.problem)
            self.problem.setVisible(bool(cell.problem))
        _tell(self.remark, cell.remark)
        self.setHidden(cell.hidden)


def _remark(kind: str = "label") -> QLabel:
    label = QLabel()
    label.setProperty("kind", kind)
    label.setWordWrap(True)
    label.hide()
    return label


def _tell(label: QLabel, words: str) -> None:
    if label.text() != words:
        label.setText(words)
        label.setVisible(bool(words))


class RecordsView(PaneFrame):
    """One form for every kind of record."""

    def __init__(self, look: Look, presenter: RecordsPresenter) -> None:
        super().__init__(look, "records", "Records")
        self._presenter = presenter
        self._cells: dict[str, FieldCell] = {}
        self._rows: list[list[FieldCell]] = []
        self.remarks: dict[str, tuple[QLabel, QLabel]] = {}
        """What the entries of each group say together, and what is asked, by its heading."""
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        row.addLayout(self._build_left(look), 1)
        row.addLayout(self._build_right(look), 3)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_left(self, look: Look) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(1.5 * look.u))
        self.kind = Choice()
        name_it(self.kind, "records.kind", "Kind of record")
        self.kind.addItems(self._presenter.screen.kinds)
        self.kind.activated.connect(self._presenter.on_kind)
        self.list = QListWidget()
        name_it(self.list, "records.list", "Records of this kind")
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentRowChanged.connect(self._presenter.on_select)
        column.addWidget(self.kind)
        column.addWidget(self.list, 1)
        self.file = QLineEdit()
        name_it(self.file, "records.import", "Read records from a file: its path, then Enter")
        self.file.setPlaceholderText("from a file: its path, Enter")
        self.file.returnPressed.connect(lambda: self._presenter.on_import(self.file.text()))
        column.addWidget(self.file)
        return column

    def _build_right(self, look: Look) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(1.5 * look.u))
        self.caution = Heading(look, "records.caution", "")
        self.status = Heading(look, "records.status", "", "bold", "ink")
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        self._area.setFrameShape(QFrame.Shape.NoFrame)
        self._area.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # a form is scrolled by its entries
        column.addWidget(self.caution)
        column.addWidget(self._area, 1)
        column.addWidget(self.status)
        acts = QHBoxLayout()
        self.reason = QLineEdit()
        name_it(self.reason, "records.reason", "Why it changes")
        self.reason.setPlaceholderText("why it changes, if it matters")
        acts.addWidget(self.reason, 1)
        self.acts: dict[str, QPushButton] = {}
        for name, words in ACTS:
            button = QPushButton(words)
            name_it(button, f"records.{name}", words)
            button.clicked.connect(lambda _=False, name=name: self._act(name))
            acts.addWidget(button)
            self.acts[name] = button
        self.acts["save"].setProperty("kind", "primary")
        self.acts["save"].setAutoDefault(True)  # Enter presses it
        column.addLayout(acts)
        return column

    def _act(self, name: str) -> None:
        if name == "save":
            self._presenter.on_save(self.reason.text())
            self.reason.clear()
            self._to_first_problem()
            return
        acts = {"new": self._presenter.on_new, "copy": self._presenter.on_copy,
                "remove": self._presenter.on_remove}  # fmt: skip
        acts[name]()
        if name != "remove":
            self.take_focus()

    def _to_first_problem(self) -> None:
        """Bring the keyboard to what has to be put right, and that into sight; else to the list.

        A button that is pressed and then disabled would leave it to whatever comes next.
        """
        wrong = [cell for cell in self._cells.values() if cell.problem.text()]
        if wrong:
            wrong[0].field.setFocus(Qt.FocusReason.TabFocusReason)
            show_whole(wrong[0])
        elif not self.acts["save"].isEnabled():
            self.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _build_form(self, groups: tuple[Group, ...]) -> None:
        """Fields of another kind; a keyboard that was in one of the old goes on in the first."""
        form, now = QWidget(), QApplication.focusWidget()
        inside = now is not None and self._area.isAncestorOf(now)
        column = QVBoxLayout(form)
        column.setContentsMargins(0, 0, round(2 * self.look.u), 0)
        column.setSpacing(round(1.5 * self.look.u))
        self._cells, self.remarks, self._rows = {}, {}, []
        for group in groups:
            if group.title:
                title = QLabel(group.title)
                title.setProperty("kind", "strong")
                column.addWidget(title)
            column.addLayout(self._build_group(group))
            self.remarks[group.title] = labels = _remark(), _remark("strong")
            for label in labels:
                column.addWidget(label)
        column.addStretch(1)
        self._area.setWidget(form)
        column.activate()
        self._level()
        before: QWidget = self.file
        for made in self._cells.values():  # made after the buttons, they are reached before them
            self.setTabOrder(before, made.field)
            before = made.field
        if inside:
            self.take_focus()

    def _build_group(self, group: Group) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(round(2 * self.look.u))
        grid.setVerticalSpacing(round(1.5 * self.look.u))
        for number, cell in enumerate(group.cells):
            made = FieldCell(cell, self._presenter)
            made.fill(cell)  # before it has the keyboard, which would keep its text out
            grid.addWidget(made, number // COLUMNS, number % COLUMNS)
            self._cells[cell.field.place] = made
        for place in range(len(group.cells), COLUMNS):
            grid.addWidget(QWidget(), 0, place)  # an empty column keeps its space, too
        for column in range(COLUMNS):
            grid.setColumnStretch(column, 1)
        made_here = [self._cells[cell.field.place] for cell in group.cells]
        self._rows += [made_here[n : n + COLUMNS] for n in range(0, len(made_here), COLUMNS)]
        return grid

    def _level(self) -> None:
        """Where a label takes two lines, the fields beside it stand level with its own."""
        for row in self._rows:
            high = max(cell.label.heightForWidth(cell.width()) for cell in row)
            for cell in row:
                cell.label.setMinimumHeight(high)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Labels break elsewhere."""
        super().resizeEvent(event)
        self.layout().activate()  # type: ignore[union-attr]
        self._level()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter goes on to the next field in sight, from the last one to Save."""
        go_on(event, [*(cell.field for cell in self._cells.values()), self.acts["save"]])

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.title)
        self.kind.setCurrentIndex(screen.kind)
        self._draw_list()
        cells = [cell for group in screen.groups for cell in group.cells]
        if list(self._cells) != [cell.field.place for cell in cells]:
            self._build_form(screen.groups)
        for cell in cells:
            self._cells[cell.field.place].draw(cell)
        for group in screen.groups:
            for label, texts in zip(
                self.remarks[group.title], (group.remarks, group.asks), strict=True
            ):
                _tell(label, "\n".join(texts))
        self.caution.draw(screen.caution)
        self.caution.setVisible(bool(screen.caution))
        words = "\n".join((screen.status, *screen.other_problems, *screen.history)).strip()
        self.status.draw(words)
        self.status.setVisible(bool(words))
        self.acts["save"].setEnabled(screen.can_save)

    def _draw_list(self) -> None:
        screen = self._presenter.screen
        words = [f"{line.name} – {line.detail}" for line in screen.lines]
        if [self.list.item(n).text() for n in range(self.list.count())] != words:
            self.list.blockSignals(True)  # noqa: FBT003 - Qt's own
            self.list.clear()
            self.list.addItems(words)
            self.list.blockSignals(False)  # noqa: FBT003 - Qt's own
        if self.list.currentRow() != screen.selected:
            self.list.blockSignals(True)  # noqa: FBT003 - Qt's own
            self.list.setCurrentRow(screen.selected)
            self.list.blockSignals(False)  # noqa: FBT003 - Qt's own

    def take_focus(self) -> None:
        """Bring the keyboard to the first field."""
        first = next(iter(self._cells.values()))
        first.field.setFocus(Qt.FocusReason.OtherFocusReason)
