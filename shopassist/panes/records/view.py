"""The records pane on screen: kinds, list and a form made from the table of fields."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListWidget,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from shopassist.panes.records.presenter import Cell, RecordsPresenter
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading

COLUMNS = 2


class RecordsView(PaneFrame):
    """One form for every kind of record."""

    def __init__(self, look: Look, presenter: RecordsPresenter) -> None:
        super().__init__(look, "records", "Records")
        self._presenter = presenter
        self._lines: dict[str, QLineEdit] = {}
        self._problems: dict[str, QLabel] = {}
        row = QHBoxLayout()
        row.setSpacing(round(3 * look.u))
        row.addLayout(self._build_left(), 1)
        row.addLayout(self._build_right(look), 3)
        self.body.addLayout(row, 1)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    def _build_left(self) -> QVBoxLayout:
        column = QVBoxLayout()
        self.kind = QComboBox()
        name_it(self.kind, "records.kind", "Kind of record")
        self.kind.addItems(self._presenter.screen.kinds)
        self.kind.activated.connect(self._presenter.on_kind)
        self.list = QListWidget()
        name_it(self.list, "records.list", "Records of this kind")
        self.list.currentRowChanged.connect(self._presenter.on_select)
        column.addWidget(self.kind)
        column.addWidget(self.list, 1)
        self.file = QLineEdit()
        name_it(self.file, "records.import", "Read a TOML file: its path, then Enter")
        self.file.setPlaceholderText("path of a TOML file, Enter")
        self.file.returnPressed.connect(lambda: self._presenter.on_import(self.file.text()))
        column.addWidget(self.file)
        return column

    def _build_right(self, look: Look) -> QVBoxLayout:
        column = QVBoxLayout()
        self.status = Heading(look, "records.status", "", "bold", "ink")
        self._area = QScrollArea()
        self._area.setWidgetResizable(True)
        column.addWidget(self._area, 1)
        column.addWidget(self.status)
        acts = QHBoxLayout()
        self.reason = QLineEdit()
        name_it(self.reason, "records.reason", "Why it changes")
        self.reason.setPlaceholderText("why it changes, if it matters")
        acts.addWidget(self.reason, 1)
        for name, words in (("new", "New"), ("remove", "Remove"), ("save", "Save")):
            button = QPushButton(words)
            name_it(button, f"records.{name}", words)
            button.clicked.connect(lambda _=False, name=name: self._act(name))
            acts.addWidget(button)
        column.addLayout(acts)
        return column

    def _act(self, name: str) -> None:
        if name == "save":
            self._presenter.on_save(self.reason.text())
            self.reason.clear()
        else:
            {"new": self._presenter.on_new, "remove": self._presenter.on_remove}[name]()

    def _build_form(self, cells: tuple[Cell, ...]) -> None:
        form = QWidget()
        grid = QGridLayout(form)
        self._lines, self._problems = {}, {}
        for number, cell in enumerate(cells):
            box = QVBoxLayout()
            label = QLabel(cell.field.label + (" *" if cell.field.required else ""))
            label.setProperty("kind", "label")
            line = QLineEdit()
            name_it(line, f"records.field.{cell.field.place}", cell.field.label)
            line.setToolTip(cell.field.note)
            place = cell.field.place
            line.textEdited.connect(lambda text, place=place: self._presenter.on_edit(place, text))
            line.editingFinished.connect(lambda place=place: self._presenter.on_leave(place))
            problem = QLabel()
            problem.setProperty("kind", "error")
            problem.setWordWrap(True)
            for widget in (label, line, problem):
                box.addWidget(widget)
            grid.addLayout(box, number // COLUMNS, number % COLUMNS)
            self._lines[place], self._problems[place] = line, problem
        self._area.setWidget(form)

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.title)
        self.kind.setCurrentIndex(screen.kind)
        self._draw_list()
        if list(self._lines) != [cell.field.place for cell in screen.cells]:
            self._build_form(screen.cells)
        for cell in screen.cells:
            line, problem = self._lines[cell.field.place], self._problems[cell.field.place]
            if line.text() != cell.text and not line.hasFocus():
                line.setText(cell.text)
            choices = f" ({', '.join(cell.field.choices)})" if cell.field.choices else ""
            problem.setText(cell.problem + (choices if cell.problem else ""))
            problem.setVisible(bool(cell.problem))
        self.status.draw(
            "\n".join((screen.status, *screen.other_problems, *screen.history)).strip()
        )

    def _draw_list(self) -> None:
        screen = self._presenter.screen
        words = [f"{line.name} – {line.detail}" for line in screen.lines]
        if [self.list.item(n).text() for n in range(self.list.count())] != words:
            self.list.blockSignals(True)  # noqa: FBT003 - Qt's own
            self.list.clear()
            self.list.addItems(words)
            self.list.setCurrentRow(screen.selected)
            self.list.blockSignals(False)  # noqa: FBT003 - Qt's own

    def take_focus(self) -> None:
        """Bring the keyboard to the first field."""
        next(iter(self._lines.values())).setFocus(Qt.FocusReason.OtherFocusReason)
