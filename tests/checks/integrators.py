"""Two integrators that share nothing: scipy's, and Runge and Kutta's rule stepped by ourselves."""

from collections.abc import Callable, Sequence

import pytest

State = list[float]
Slopes = Callable[[float, State], State]
"""Growth of each part of a state at one time."""
Stride = Callable[[State], float]
"""How long a step may be there, [s]."""


def by_library(slopes: Slopes, start: State, times: Sequence[float]) -> list[State]:
    """States at these times, by a solver that chooses its own steps and orders."""
    solve = pytest.importorskip("scipy.integrate").solve_ivp
    run = solve(
        slopes, (0.0, times[-1]), start, t_eval=times, method="LSODA", rtol=1e-9, atol=1e-11
    )
    assert run.success, run.message
    return [list(map(float, row)) for row in run.y.T]


def by_hand(slopes: Slopes, start: State, times: Sequence[float], stride: Stride) -> list[State]:
    """The same by the rule of fourth order, in steps that the state decides."""
    at, state, found = 0.0, list(start), list[State]()
    for time in times:
        while at < time:
            step = min(stride(state), time - at)
            state, at = _step(slopes, at, state, step), at + step
        found.append(state)
    return found


def _step(slopes: Slopes, at: float, state: State, step: float) -> State:
    def moved(by: State, share: float) -> State:
        return [value + share * step * slope for value, slope in zip(state, by, strict=True)]

    one = slopes(at, state)
    two = slopes(at + step / 2, moved(one, 0.5))
    three = slopes(at + step / 2, moved(two, 0.5))
    four = slopes(at + step, moved(three, 1.0))
    whole = [(a + 2 * b + 2 * c + d) / 6 for a, b, c, d in zip(one, two, three, four, strict=True)]
    return moved(whole, 1.0)
