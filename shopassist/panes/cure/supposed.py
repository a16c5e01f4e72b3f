"""A what-if beside the truth: at one temperature, with cold nights, or put into the cabinet."""

from shopassist.core.errors import ShopError
from shopassist.core.frozen import replace
from shopassist.core.quantities import UtcSecond
from shopassist.core.wording import Wording
from shopassist.panes.cure.form import ReadingForm
from shopassist.services.cure import CureService, CureView, StageView

IN_CABINET = "in the cabinet"
FRESH = "Into the cabinet only after the gel: fresh resin heats itself all the more in the warm."
Stages = dict[str, StageView]


class Supposed:
    """Asks the service what the form asks about; keeps the answer while nothing new is known."""

    def __init__(self, cure: CureService, form: ReadingForm, wording: Wording) -> None:
        self._cure, self._form, self._wording = cure, form, wording
        self._kept: tuple[object, Stages] = (None, {})

    @property
    def heading(self) -> str:
        """What is supposed; empty for nothing."""
        if self._form.in_cabinet:
            return IN_CABINET
        if self._form.nights is not None:
            return f"nights at {self._wording.amount(self._form.nights.night, 'Kelvin')}"
        temp = self._form.what_if
        return "" if temp is None else f"at {self._wording.amount(temp, 'Kelvin')}"

    def stages(self, view: CureView) -> Stages:
        """The milestones as they would be; no hazard later in the warm than it stands."""
        if not self._form.in_cabinet and self._form.nights is None:
            temp = self._form.what_if
            found = () if temp is None else self._cure.what_if(view.batch.id, temp)
            return {stage.aim: stage for stage in found}
        key = (id(view), view.worked_out, self._form.nights)
        if self._kept[0] != key:
            self._kept = (key, self._warm(view))
        return self._kept[1]

    def _warm(self, view: CureView) -> Stages:
        nights = self._form.nights
        if nights is not None:
            by_turns = nights.coming(UtcSecond(view.worked_out))
            made = self._cure.what_if_course(view.batch.id, by_turns)
            return {stage.aim: stage for stage in made}
        try:
            course = self._form.course(view.batch.id)
        except ShopError:
            return {}
        found = self._cure.what_if_course(view.batch.id, course)
        return {stage.aim: _no_later(stage, view.stage(stage.aim)) for stage in found}

    def notes(self, view: CureView) -> tuple[str, ...]:
        """What must be known before it goes into the cabinet."""
        standing = self._cure.course(view.batch.id) if self._form.in_cabinet else None
        return (FRESH,) if standing is not None and not standing.gelled else ()

    def forget(self) -> None:
        """Ask anew: what Warm-up has may be another."""
        self._kept = (None, {})


def _no_later(stage: StageView, true: StageView | None) -> StageView:
    if stage.kind == "release" or true is None or true.gate is None or stage.gate is None:
        return stage
    return replace(stage, gate=min(stage.gate, true.gate))
