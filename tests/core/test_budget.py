import pytest
from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.budget import FAST_STEPS, budget, progress, scaled_by
from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import Ratio, Second

S = Second
C17 = (
    ("Stir", S(90.0)),
    ("Pour", S(120.0)),
    ("Load", S(60.0)),
    ("Clamp", S(60.0)),
    ("Fill", S(60.0)),
)


def test_case_c17_six_and_a_half_of_seven_minutes() -> None:
    plan = budget(C17, S(420.0))
    assert plan.total == 390.0 and plan.spare == 30.0 and plan.fits
    assert [step.starts for step in plan.steps] == [0.0, 90.0, 210.0, 270.0, 330.0]
    assert [step.latest_start for step in plan.steps] == [30.0, 120.0, 240.0, 300.0, 360.0]
    assert plan.steps[-1].ends == plan.total


def test_case_c17_three_degrees_warmer_no_longer_fits() -> None:
    by = scaled_by(S(420.0), Ratio(2 ** (-0.3)))
    assert by / 420 == pytest.approx(0.81, abs=0.005)
    plan = budget(C17, by)
    assert not plan.fits
    assert plan.steps[0].latest_start < 0


def test_the_usual_steps_are_those_of_the_case() -> None:
    assert sum(duration for _, duration in FAST_STEPS) == 390.0


def test_a_step_that_drags_says_so_as_it_drags() -> None:
    plan = budget(C17, S(420.0))
    assert not progress(plan, 0, S(60.0), S(60.0)).late
    assert not progress(plan, 0, S(119.0), S(119.0)).late
    dragging = progress(plan, 0, S(130.0), S(130.0))
    assert dragging.late and dragging.late_by == pytest.approx(10.0)


def test_a_late_start_of_the_next_step_counts() -> None:
    plan = budget(C17, S(420.0))
    found = progress(plan, 1, S(150.0), S(0.0))
    assert found.step is plan.steps[1]
    assert found.late and found.late_by == pytest.approx(30.0)
    assert found.left == 270.0


def test_a_quick_step_wins_its_time_back() -> None:
    assert not progress(budget(C17, S(420.0)), 3, S(300.0), S(0.0)).late


def test_with_all_steps_done_nothing_is_late() -> None:
    found = progress(budget(C17, S(420.0)), 5, S(400.0), S(0.0))
    assert found.step is None and not found.late and found.left == 20.0


@given(st.lists(st.floats(0.0, 600.0), min_size=1, max_size=9), st.floats(1.0, 3600.0))
def test_latest_starts_differ_from_starts_by_the_spare_time(times: list[float], by: float) -> None:
    plan = budget([(f"Step {n}", S(t)) for n, t in enumerate(times)], S(by))
    for step in plan.steps:
        assert step.latest_start - step.starts == pytest.approx(plan.spare, abs=1e-6)
    assert plan.steps[-1].ends == pytest.approx(plan.total)
    # On time means: a step begun at its latest start is just not late.
    last = plan.steps[-1]
    if last.latest_start >= 0:
        on_time = progress(plan, len(times) - 1, last.latest_start, S(0.0))
        assert on_time.late_by == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize(
    ("steps", "field"),
    [
        ((), "steps"),
        ((("", S(1.0)),), "steps.1.name"),
        ((("Stir", S(1.0)), ("Pour", S(-1.0))), "steps.2.duration"),
        ((("Stir", S(float("nan"))),), "steps.1.duration"),
    ],
)
def test_impossible_steps_are_named(steps: tuple[tuple[str, Second], ...], field: str) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        budget(steps, S(60.0))
    assert caught.value.field == field


def test_impossible_progress_is_refused() -> None:
    plan = budget(C17, S(420.0))
    for done in (-1, 6):
        with pytest.raises(OutOfRangeError) as caught:
            progress(plan, done, S(1.0), S(0.0))
        assert caught.value.field == "done"
    with pytest.raises(OutOfRangeError) as caught:
        progress(plan, 0, S(-1.0), S(0.0))
    assert caught.value.field == "elapsed"
    with pytest.raises(OutOfRangeError) as caught:
        budget(C17, S(0.0))
    assert caught.value.field == "by"
