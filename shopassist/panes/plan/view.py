"""The Plan pane on screen: bars at the left; the day's list, one stage, the shop at the right."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from shopassist.core.wording import Wording
from shopassist.panes.plan.bars import Bars
from shopassist.panes.plan.panel import ASKS
from shopassist.panes.plan.presenter import FIGURES, MOST_DOS, PlanPresenter
from shopassist.panes.plan.screen import PAGES, SPANS, BarsShown, PlanScreen
from shopassist.widgets.entry_grid import EntryGrid
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.long_button import LongButton
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.paragraphs import Paragraphs
from shopassist.widgets.piece import name_it
from shopassist.widgets.prose import Heading
from shopassist.widgets.shown import FigureShown
from shopassist.widgets.tabs import row_of, scrolled, tabs

PANE = "plan"
ORDER = (
    ("after", "Comes after", "stages, apart by ;   – for none"),
    ("place", "Occupies", "oven, chamber, cabinet, pot, lathe; –"),
)
"""Entries for the order of a stage: name, label, hint."""


class TextEntry(QWidget):
    """A line of words under its label; what is wrong with it stands beneath."""

    def __init__(self, name: str, label: str, hint: str) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        self.label, self.line, self.hint = QLabel(label), QLineEdit(), QLabel(hint)
        self._hint = hint
        self.label.setProperty("kind", "label")
        self.label.setBuddy(self.line)
        name_it(self.line, name, label)
        self.hint.setWordWrap(True)
        for widget in (self.label, self.line, self.hint):
            column.addWidget(widget)

    def draw(self, text: str, error: str, hint: str = "", *, typed: bool = True) -> None:
        """Show what stands; what is being typed is never overwritten."""
        if not error and self.line.text() != text:
            self.line.setText(text)
            self.line.setCursorPosition(0)
        _dress(self.line, "typed", "true" if typed else "false")
        _dress(self.line, "state", "error" if error else "")
        self.hint.setText(error or hint or self._hint)
        _dress(self.hint, "kind", "error" if error else "label")


class PlanView(PaneFrame):
    """What is to be done now stands first; the bars show why."""

    def __init__(self, look: Look, presenter: PlanPresenter, wording: Wording) -> None:
        super().__init__(look, PANE, "Plan")
        self._presenter = presenter
        self._build_figures()
        row = QHBoxLayout()
        row.setSpacing(round(4 * look.u))
        row.addLayout(self._build_bars(), 17)
        row.addLayout(self._build_side(wording), 10)
        self.body.addLayout(row, 1)
        self.message = Heading(look, f"{PANE}.message", "", "bold", "error")
        self.body.addWidget(self.message)
        presenter.changed.connect(lambda _: self.show_screen())
        self.show_screen()

    # -- building ------------------------------------------------------------------------------

    def _build_figures(self) -> None:
        row = QHBoxLayout()
        row.setSpacing(round(4 * self.look.u))
        self.lead = self._figure("done")
        self.figures = [self._figure(name) for name in FIGURES]
        for view in (self.lead, *self.figures):
            row.addWidget(view, 4 if view is self.lead else 3, Qt.AlignmentFlag.AlignTop)
        self.body.addLayout(row)

    def _figure(self, name: str) -> FigureView:
        view = FigureView(self.look, f"{PANE}.{name}", FigureShown("", "–", lead=name == "done"))
        view.explain_asked.connect(lambda: self._presenter.on_explain(name))
        return view

    def _build_bars(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(round(self.look.u))
        self.spans = tabs(f"{PANE}.span", SPANS, self._presenter.on_span)
        column.addLayout(row_of(self.spans))
        self.bars = Bars(self.look, f"{PANE}.bars", BarsShown(empty="–"))
        self.bars.chosen.connect(self._presenter.on_select)
        self.bars.stepped.connect(self._presenter.on_step)
        self.area = scrolled(self.bars, by_keys=False)
        column.addWidget(self.area, 1)
        return column

    def _build_side(self, wording: Wording) -> QVBoxLayout:
        side = QVBoxLayout()
        side.setSpacing(round(1.5 * self.look.u))
        self.pages = tabs(f"{PANE}.page", PAGES, self._presenter.on_page)
        side.addLayout(row_of(self.pages))
        self.stack = QStackedWidget()
        pages = self._today_page(), self._stage_page(wording), self._shop_page()
        for (_, title), page in zip(PAGES, pages, strict=True):
            area = scrolled(page)
            area.setAccessibleName(title)
            self.stack.addWidget(area)
        side.addWidget(self.stack, 1)
        return side

    def _today_page(self) -> QWidget:
        page, column = self._page()
        self.dos: list[LongButton] = []
        self.notes: list[Heading] = []
        for number in range(1, MOST_DOS + 1):
            button = LongButton()
            name_it(button, f"{PANE}.do.{number}", "Report")
            button.clicked.connect(lambda _=False, n=number - 1: self._presenter.on_do(n))
            note = Heading(self.look, f"{PANE}.do.{number}.note", "")
            self.dos.append(button)
            self.notes.append(note)
            column.addWidget(button)
            column.addWidget(note)
        self.when = TextEntry(f"{PANE}.when", "When", "empty: now; or 10 min ago, 8:30")
        self.when.line.editingFinished.connect(
            lambda: self._presenter.on_when(self.when.line.text())
        )
        column.addWidget(self.when)
        self.list = Paragraphs(self.look, f"{PANE}.list", "The day's list", whole=True)
        column.addWidget(self.list, 1)
        return page

    def _stage_page(self, wording: Wording) -> QWidget:
        page, column = self._page()
        self.stage = Heading(self.look, f"{PANE}.stage", "", "title", "ink")
        self.lines = Paragraphs(self.look, f"{PANE}.stage.lines", "About this stage", whole=True)
        self.grid = EntryGrid(self.look, PANE, ASKS, wording)
        self.grid.committed.connect(self._presenter.on_committed)
        column.addWidget(self.stage)
        column.addWidget(self.grid)
        self.order: dict[str, TextEntry] = {}
        for name, label, hint in ORDER:
            self.order[name] = self._order(name, label, hint)
            column.addWidget(self.order[name])
        self.acts: dict[str, QPushButton] = {}
        pairs = (("start", "end"), ("take_back", "leave_out"))
        for names in pairs:
            row = QHBoxLayout()
            for name in names:
                row.addWidget(self._act(name))
            row.addStretch(1)
            column.addLayout(row)
        column.addWidget(self.lines, 1)
        return page

    def _order(self, name: str, label: str, hint: str) -> TextEntry:
        entry = TextEntry(f"{PANE}.{name}", label, hint)
        entry.line.editingFinished.connect(
            lambda: self._presenter.on_order(name, entry.line.text())
        )
        return entry

    def _act(self, name: str) -> QPushButton:
        act = {
            "start": self._presenter.on_start, "end": self._presenter.on_end,
            "take_back": self._presenter.on_take_back,
            "leave_out": self._presenter.on_leave_out,
        }[name]  # fmt: skip
        button = QPushButton()
        name_it(button, f"{PANE}.{name}", name)
        button.clicked.connect(act)
        self.acts[name] = button
        return button

    def _shop_page(self) -> QWidget:
        page, column = self._page()
        self.due = TextEntry(
            f"{PANE}.due", "This batch is due", "empty: as soon as it goes; or Fri, 2026-12-20"
        )
        self.due.line.editingFinished.connect(lambda: self._presenter.on_due(self.due.line.text()))
        self.hours = TextEntry(
            f"{PANE}.hours", "Somebody is in the shop", "such as Mon-Fri 9-12, 13-18; Sat 9-13"
        )
        self.hours.line.editingFinished.connect(
            lambda: self._presenter.on_hours(self.hours.line.text())
        )
        self.attended = QCheckBox("Oven and pump never run alone")
        name_it(self.attended, f"{PANE}.attended", "Oven and pump never run alone")
        self.attended.clicked.connect(lambda on: self._presenter.on_attended(attended=on))
        self.cautions = Heading(self.look, f"{PANE}.cautions", "")
        for widget in (self.due, self.hours, self.attended, self.cautions):
            column.addWidget(widget)
        column.addStretch(1)
        return page

    def _page(self) -> tuple[QWidget, QVBoxLayout]:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(6, 3, 6, 3)
        column.setSpacing(round(self.look.u))
        return page, column

    # -- drawing -------------------------------------------------------------------------------

    def show_screen(self) -> None:
        """Draw the presenter's screen."""
        screen = self._presenter.screen
        self.set_right(screen.right)
        self.lead.draw(screen.lead)
        for view, shown in zip(self.figures, screen.figures, strict=True):
            view.draw(shown)
        self.figures[-1].setVisible(screen.figures[-1].explains)
        self.bars.draw(screen.bars)
        for key, tab in (*self.spans.items(), *self.pages.items()):
            tab.setChecked(key in (screen.span, screen.page))
        self.stack.setCurrentIndex([key for key, _ in PAGES].index(screen.page))
        self.message.draw(screen.message)
        self.message.setVisible(bool(screen.message))
        self._show_today(screen)
        self._show_stage(screen)
        self._show_shop(screen)

    def _show_today(self, screen: PlanScreen) -> None:
        for number, (button, note) in enumerate(zip(self.dos, self.notes, strict=True)):
            shown = number < len(screen.dos)
            button.setVisible(shown)
            note.setVisible(shown)
            if shown:
                each = screen.dos[number]
                button.say(each.words)
                button.setAccessibleName(f"{each.words}, {each.note}")
                _dress(button, "kind", "primary" if each.primary else "")
                note.draw(each.note)
        self.when.draw(screen.when, screen.when_error)
        self.when.setVisible(bool(screen.dos))
        self.list.draw(screen.today)

    def _show_stage(self, screen: PlanScreen) -> None:
        stage = screen.stage
        self.stage.draw(stage.title)
        self.lines.draw(stage.lines)
        self.grid.draw(stage.answers)
        for name, shown in stage.order.items():
            self.order[name].draw(shown.text, shown.error, typed=shown.typed)
        for name, button in self.acts.items():
            words = str(getattr(stage, name))
            button.setVisible(bool(words))
            button.setText(words)
            button.setAccessibleName(words or name)
        rect = self.bars.row_rect(stage.key)
        if rect is not None:
            self.area.ensureVisible(0, rect.center().y(), 0, rect.height() * 2)

    def _show_shop(self, screen: PlanScreen) -> None:
        shop = screen.shop
        self.due.draw(shop.due, shop.due_error, shop.due_hint)
        self.hours.draw(shop.hours, shop.hours_error, typed=shop.hours_is_typed)
        self.attended.setChecked(shop.attended)
        self.cautions.draw(screen.cautions)

    def tick(self) -> None:
        """Once a second while visible: the plan moves only with the minute."""
        if self._presenter.is_stale():
            self.show_screen()

    def take_focus(self) -> None:
        """Bring the keyboard to what can be reported now, or to the bars."""
        shown = [each for each in self.dos if not each.isHidden()]
        target = shown[0] if shown and self._presenter.screen.page == "today" else self.bars
        target.setFocus(Qt.FocusReason.OtherFocusReason)


def _dress(widget: QWidget, name: str, value: str) -> None:
    """Set a property that the sheet looks at, only where it differs."""
    if widget.property(name) != value:
        widget.setProperty(name, value)
        widget.style().unpolish(widget)
        widget.style().polish(widget)
