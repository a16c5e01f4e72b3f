"""The cure's charts and their table, worked out every few minutes or when facts change."""

from typing import TYPE_CHECKING

from shopassist.core.wording import Wording
from shopassist.panes.cure.charts import age_chart, warmth_chart
from shopassist.services.cure import CureService, CureView
from shopassist.services.curve import age_curve, warmth_curve
from shopassist.widgets.chart_shown import ChartShown

if TYPE_CHECKING:
    from shopassist.panes.cure.table import TableOf


EVERY = 300.0
"""The charts are drawn anew at least so often, [s]; ours."""


class Curves:
    """Asks the service, and keeps what was drawn."""

    def __init__(self, cure: CureService, wording: Wording) -> None:
        self._cure, self._wording = cure, wording
        self._kept: tuple[object, tuple[ChartShown, ...]] = (None, ())
        """Drawn for what is known, in which units."""

    def charts(self, view: CureView) -> tuple[ChartShown, ...]:
        """Age, where the sheet gives a release, and temperature; a minute moves them by a hair."""
        say, doubt = self._wording, view.elapsed.high - view.elapsed.low
        known = (view.batch, view.latest, view.ahead, doubt, say.offset(view.worked_out))
        key = (*known, view.worked_out // EVERY, say.units, say.style)
        if self._kept[0] != key:
            self._kept = (key, self._drawn(view.batch.id))
        return self._kept[1]

    def _drawn(self, batch_id: str) -> tuple[ChartShown, ...]:
        standing = self._cure.course(batch_id)
        if standing is None:
            return ()
        age = age_curve(standing, self._cure.earlier(batch_id))
        warmth = warmth_chart(self._wording, warmth_curve(standing))
        return (warmth,) if age is None else (age_chart(self._wording, age), warmth)

    def table(self, batch_id: str) -> "TableOf":
        """The same as a table."""
        from shopassist.panes.cure.table import TableOf  # not before it is asked for

        return TableOf(self._wording, self._cure.course(batch_id), self._cure.earlier(batch_id))
