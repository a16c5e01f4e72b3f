"""The stops on the scale with the entry at the present one, and the finished cup's deviation."""

from typing import Literal, cast

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.wording import Wording
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.screen import MixScreen
from shopassist.widgets.deviation_rule import DeviationRule
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.piece import name_it
from shopassist.widgets.quantity_edit import QuantityEdit
from shopassist.widgets.shown import DeviationShown, FigureShown
from shopassist.widgets.stops import Stops
from shopassist.widgets.wait_block import TwoEnds

Part = Literal["a", "b", "colour"]
NO_RULE = DeviationShown(-1.0, 1.0, -1.0, 1.0, None)
WORDS = {
    "a": "What the scale shows after the resin",
    "b": "What the scale shows after the hardener",
    "colour": "What the scale shows after the colour",
}
AT_MOST = 200.0
"""A reading above this is a slip of the keys, [kg]; ours."""


class Weighing(QWidget):
    """One list that never moves: done, present, later."""

    def __init__(self, look: Look, presenter: MixPresenter, wording: Wording) -> None:
        super().__init__()
        name_it(self, "mix.weighing", "Weighing out")
        self.look = look
        self._presenter, self._wording = presenter, wording
        self._edit: QuantityEdit | None = None
        self._edit_for: tuple[str, int, str] = ("", 0, "")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(1.5 * look.u))
        self.heading = TwoEnds(look, "mix.cup", "Cup", ("Cup 1", "running total on the scale"))
        self.stops = Stops(look, "mix.stops")
        self.deviation = FigureView(look, "mix.deviation", FigureShown("", "–"))
        self.deviation.explain_asked.connect(lambda: presenter.on_explain("mix.deviation"))
        self.rule = DeviationRule(look, "mix.tolerance", NO_RULE)
        for widget in (self.heading, self.stops, self.deviation, self.rule):
            column.addWidget(widget)

    def draw(self, screen: MixScreen, *, hidden: bool = False) -> None:
        """Show the stops as they stand, unless the entries need their room."""
        shown = bool(screen.stops) and not hidden
        self.heading.setVisible(shown)
        self.stops.setVisible(shown)
        self.heading.draw(screen.heading)
        self.stops.draw(screen.stops)
        self._place(screen)
        self.deviation.setVisible(screen.deviation is not None)
        self.rule.setVisible(screen.rule is not None)
        if screen.deviation is not None and screen.rule is not None:
            self.deviation.draw(screen.deviation)
            self.rule.draw(screen.rule)

    @property
    def line(self) -> QWidget | None:
        """The line of the entry at the present stop."""
        return self._edit.line if self._edit is not None else None

    def entry(self) -> QWidget | None:
        """The entry at the present stop, while something has been weighed already."""
        begun = self._presenter.screen.quiet
        return self._edit.line if self._edit is not None and begun else None

    def _place(self, screen: MixScreen) -> None:
        """One entry a cup and part: a new one starts empty, an old one is taken away."""
        wanted = (screen.batch_id, screen.cup, screen.weighing)
        if wanted == self._edit_for:
            if self._edit is not None:
                self._edit.refresh_unit()
            return
        had_focus = self._edit is not None and self._edit.line.hasFocus()
        if self._edit is not None:
            self.stops.place(None)
            self._edit.deleteLater()
            self._edit = None
        self._edit_for = wanted
        if screen.weighing:
            self._edit = self._make(screen.cup, screen.weighing)
            self.stops.place(self._edit)
            self._edit.show()
            if had_focus:
                self._edit.line.setFocus(Qt.FocusReason.OtherFocusReason)

    def _make(self, cup: int, part: str) -> QuantityEdit:
        name = f"mix.cup.{cup}.actual_{part}"
        spec = EntrySpec("Kilogram", field=name, lowest=0.0, highest=AT_MOST)
        edit = QuantityEdit(self.look, name, WORDS[part], spec, self._wording, compact=True)
        edit.committed.connect(lambda entry: self._weighed(cast("Part", part), entry))
        return edit

    def _weighed(self, part: Part, entry: Entry | None) -> None:
        self._presenter.on_weighed(part, entry)
