"""Writes an explanation and lays it over its pane."""

from functools import cache

from PySide6.QtWidgets import QApplication, QWidget

from shopassist.core.checks import by_function
from shopassist.core.explain import explain
from shopassist.core.figures import Figure
from shopassist.core.wording import Wording
from shopassist.shell.keyboard import give_back
from shopassist.store.check_files import shipped_checks
from shopassist.widgets.explain_sheet import ExplainSheet
from shopassist.widgets.look import Look
from shopassist.widgets.pane_frame import PaneFrame
from shopassist.widgets.shown import ExplainShown, SheetSection


@cache
def passed_checks() -> dict[str, tuple[str, ...]]:
    """Outside checks by the formula that passes them; the test suite runs each."""
    return by_function(shipped_checks())


def explanation(figure: Figure, words: Wording) -> ExplainShown:
    """Everything behind one number, in words."""
    found = explain(figure, passed_checks().get(figure.formula, ()))
    return ExplainShown(
        words.say(found.title),
        words.say(found.value),
        found.formula,
        tuple(
            SheetSection(
                words.say(section.heading),
                tuple((words.say(label), words.say(text)) for label, text in section.rows),
            )
            for section in found.sections
        ),
    )


def explained(look: Look, pane: QWidget, figure: Figure, words: Wording) -> ExplainSheet | None:
    """Lay the explanation over its pane; Escape or *Close* puts it away."""
    if not isinstance(pane, PaneFrame):
        return None
    earlier = pane.laid_over
    if isinstance(earlier, ExplainSheet):
        earlier.closed.emit()
    sheet = ExplainSheet(look, f"{pane.objectName()}.explanation")
    before = QApplication.focusWidget()

    def close() -> None:
        pane.show_sheet(None)
        sheet.deleteLater()
        give_back(before, pane)

    sheet.closed.connect(close)
    sheet.draw(explanation(figure, words))
    pane.show_sheet(sheet)
    return sheet
