"""Which milestones stand beside a warm-up, and what is said of one without a time."""

from dataclasses import replace

from shopassist.core.milestones import Ahead
from shopassist.core.quantities import Kelvin
from shopassist.panes.warmup.drafts import standings
from shopassist.services.cabinet_cure import InCabinet, figure_in_cabinet, in_cabinet
from shopassist.services.cure import CureView
from shopassist.services.warmup import plan
from tests.panes.warmup.bench import Bench


def view_of(bench: Bench) -> CureView:
    found = bench.cure.view(bench.hand.batch)
    assert found is not None
    return found


def test_what_is_reached_is_left_out_and_what_has_no_time_stays(bench: Bench) -> None:
    bench.mixed("Knobs", 20.0, bench.sheet())
    stages = view_of(bench).stages
    ahead = in_cabinet(stages, stages, bench.now)
    assert [each.stage for each in ahead] == list(stages)
    gates = [each.gate for each in stages if each.gate is not None]
    later = in_cabinet(stages, stages, max(gates) + 1)
    assert [each.stage.aim for each in later] == [s.aim for s in stages if s.gate is None]


def test_a_hazard_is_never_put_off_and_a_release_is_told_as_it_comes(bench: Bench) -> None:
    bench.mixed("Knobs", 20.0, bench.sheet())
    true = view_of(bench).stages
    warm = [replace(each, gate=None if each.gate is None else each.gate + 60) for each in true]  # type: ignore[arg-type]
    for each, stage in zip(in_cabinet(warm, true, bench.now), true, strict=True):
        if stage.gate is not None:
            late = stage.gate if stage.kind == "hazard" else stage.gate + 60
            assert (each.gate, each.without) == (late, stage.gate)


def test_without_a_time_the_figure_says_so(bench: Bench) -> None:
    bench.mixed("Knobs", 20.0, bench.sheet())
    bench.ready()
    given = bench.pane._given(standings(bench.pane._drafts.typed, bench.pane._known()))
    assert given is not None
    kept = Ahead(Kelvin(300.0), Kelvin(301.0))
    none = InCabinet(view_of(bench).stages[0], None, None)
    figure = figure_in_cabinet("warmup.cure.1", none, given, plan(given), None, kept)
    assert figure.value is None
    assert figure.missing is not None
    assert "else" not in figure.inputs


def test_once_all_is_reached_nothing_is_said_of_the_cure(bench: Bench) -> None:
    bench.mixed("Knobs", 20.0, bench.bare(gel={"time": "1 h", "at": "23 °C"}))
    bench.ready()
    assert bench.screen.what_if
    bench.clock.suspend(5 * 86400)
    assert bench.screen.what_if == ""
