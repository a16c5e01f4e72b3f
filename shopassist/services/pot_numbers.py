"""Gathers what the numbers of one pot are worked out from; nothing of it is ever evidence."""

from shopassist.core.figures import Figure, Origin
from shopassist.core.messages import say
from shopassist.core.pot.blowing import learnt_area
from shopassist.core.pot.course import Course
from shopassist.core.pot.plate import Plate, working_limit
from shopassist.core.pot.state import PotState
from shopassist.core.quantities import PascalAbsolute, PascalGauge
from shopassist.services.pot import PotService
from shopassist.services.pot_air import Air, air_figures
from shopassist.services.pot_vessel import Vessel, vessel_figures


def vessel_of(pots: PotService, pot_id: str) -> tuple[Figure, ...]:
    """Numbers of the vessel, at the last reading if it shows air, else at the hold pressure."""
    state = pots.state(pot_id)
    if state.plate is None:
        return ()
    pressure, said = _pressure(state, state.plate, state.ambient)
    return vessel_figures(Vessel(state.plate, state.ambient, pressure, said))


def _pressure(
    state: PotState, plate: Plate, ambient: PascalAbsolute
) -> tuple[PascalGauge | None, Origin | None]:
    last = state.last
    if last is not None and last.number is not None and last.number > 0:
        return PascalGauge(last.number), Origin(last.number, "PascalGauge", "typed", when=last.utc)
    if state.hold is not None:
        note = say("Hold pressure of this run.")
        return PascalGauge(state.hold), Origin(state.hold, "PascalGauge", "typed", note)
    limit = working_limit(plate, ambient)
    if limit is None:
        return None, None
    note = say("Working limit of this pot.")
    return limit.pressure, Origin(limit.pressure, "PascalGauge", "computed", note)


def air_of(pots: PotService, pot_id: str) -> tuple[Figure, ...]:
    """Numbers of the air of the run under way, or of the last one."""
    state, runs, load = pots.state(pot_id), pots.courses(pot_id), pots.load(pot_id)
    if state.plate is None:
        return ()
    limit = working_limit(state.plate, state.ambient)
    hold = state.hold if state.hold is not None else limit.pressure if limit else None
    if load.lowest is not None:
        hold = load.lowest
    return air_figures(Air(
        state.plate, state.ambient, None if hold is None else PascalGauge(hold),
        runs[-1] if runs else None, load.hold_until, load.hard,
        learnt_area(runs, state.plate, state.ambient),
    ))  # fmt: skip


def course_of(pots: PotService, pot_id: str) -> Course | None:
    """The run under way, or the last one."""
    runs = pots.courses(pot_id)
    return runs[-1] if runs else None
