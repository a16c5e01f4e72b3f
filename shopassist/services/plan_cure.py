"""How long a batch stays under pressure and rests, by its own cure rather than by the table."""

from collections.abc import Mapping

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second, UtcSecond
from shopassist.services.cure import CureView, StageView

PRESSURE, REST = "pressure", "rest"


@frozen
class Lasts:
    """Shortest, likely, longest."""

    low: Second
    likely: Second
    high: Second


def by_cure(view: CureView | None) -> Mapping[str, Lasts]:
    """Durations that follow from the cure's forecast, counted from when the stage began.

    Under pressure until past a late gel, at the longest until it may be demoulded; then at rest
    until it may be turned. Nothing where the pot has no air yet or no time can be given.
    """
    if view is None or view.batch.at_pressure is None:
        return {}
    hold, demould = view.stage("hold"), view.stage("demould")
    if hold is None or hold.gate is None:
        return {}
    start = view.batch.at_pressure
    latest = demould.gate if demould is not None and demould.gate is not None else hold.gate
    found = {PRESSURE: _lasts(start, hold.likely or hold.gate, hold.gate, latest)}
    opened = view.batch.left_pot
    end = UtcSecond(start + found[PRESSURE].likely) if opened is None else opened
    hard = view.stage("hard")
    if hard is not None and hard.gate is not None:
        found[REST] = _of(hard, end, hard.gate)
    return found


def _of(stage: StageView, start: UtcSecond, gate: UtcSecond) -> Lasts:
    return _lasts(start, stage.likely or gate, gate, stage.late or gate)


def _lasts(start: UtcSecond, low: UtcSecond, likely: UtcSecond, high: UtcSecond) -> Lasts:
    spans = [Second(max(0.0, end - start)) for end in (low, likely, high)]
    return Lasts(min(spans[:2]), spans[1], max(spans[1:]))
