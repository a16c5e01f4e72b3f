"""Where the law of a forecast came from, in the cure's own words."""

from shopassist.core.figures import Figure
from shopassist.core.messages import Text
from shopassist.services.curve import age_curve
from shopassist.shell.explaining import explanation
from shopassist.widgets.shown import ExplainShown
from tests.panes.cure.bench import Bench

STEPS = {
    "family": "amine epoxy",
    "working": {"time": "2 h", "at": "23 °C"},
    "demould": {"time": "24 h", "at": "23 °C"},
}
TWO = STEPS | {"demould": {"time": "24 h", "at": "23 °C", "time_2": "8 h", "at_2": "40 °C"}}


def explained(bench: Bench, aim: str, **sheet: object) -> tuple[Figure, ExplainShown]:
    told: list[Figure] = []
    bench.cure_pane.explained.connect(told.append)
    bench.mixed(sheet=bench.bare(**sheet), celsius=30.0)
    _ = bench.screen
    bench.cure_pane.on_explain(f"cure.milestone.{aim}")
    return told[-1], explanation(told[-1], bench.words)


def rows(shown: ExplainShown) -> dict[str, str]:
    return {label: words for section in shown.sections for label, words in section.rows}


def formulas(shown: ExplainShown) -> list[str]:
    """Of what was worked out among the numbers put in."""
    return [
        words for section in shown.sections for label, words in section.rows if label == "Formula"
    ]


def headings(shown: ExplainShown) -> list[str]:
    return [section.heading for section in shown.sections]


def test_two_times_of_the_sheet_are_named_and_worked_out(bench: Bench) -> None:
    _, shown = explained(bench, "demould", **TWO)
    found = rows(shown)
    assert found["the law"] == (
        "activation energy, from the sheet (From the sheet's 2 times of demould, 49.8 ± 9.6"
        " kJ/mol, and the default of the family, 55.0 ± 8.0 kJ/mol; both together: 52.9 ± 6.2"
        " kJ/mol.)"
    )
    assert found["the sheet's second time"].startswith("8 h, from the sheet (at 40.0 °C: never")
    assert "How it was found: by the sheet's times of demould" in headings(shown)
    assert found["time 2"] == "8 h, from the sheet (at 40.0 °C; error 0.15)"
    assert formulas(shown) == [
        "E = (E one ÷ σ one² + E two ÷ σ two²) ÷ (1 ÷ σ one² + 1 ÷ σ two²)",
        "E = R × ln(time one ÷ time two) ÷ (1 ÷ T one − 1 ÷ T two)",
        "σ = R × √(error one² + error two²) ÷ |1 ÷ T one − 1 ÷ T two|",
    ]


def test_three_times_are_worked_out_as_a_line(bench: Bench) -> None:
    three = {"time": "60 h", "at": "15 °C", "time_2": "26 h", "at_2": "25 °C",
             "time_3": "9 h", "at_3": "40 °C"}  # fmt: skip
    _, shown = explained(bench, "demould", **(STEPS | {"demould": three}))
    assert "56.8 ± " in rows(shown)["the law"]
    assert formulas(shown)[1].startswith("E = R × slope of the line")
    assert [name in rows(shown) for name in ("time 3", "error 3", "the sheet's third time")] == [
        True, True, True,
    ]  # fmt: skip


def test_the_invented_sheet_has_a_second_time(bench: Bench) -> None:
    told: list[Figure] = []
    bench.cure_pane.explained.connect(told.append)
    bench.mixed()
    _ = bench.screen
    bench.cure_pane.on_explain("cure.milestone.hard")
    law = rows(explanation(told[-1], bench.words))["the law"]
    assert "From the sheet's 2 times of demould, 49.1 ± 17.7 kJ/mol" in law


def test_the_default_of_the_family_is_named(bench: Bench) -> None:
    _, shown = explained(bench, "working", **TWO)
    assert rows(shown)["activation energy"] == (
        "55.0 kJ/mol, a default of ours (Default of the family, 55.0 ± 8.0 kJ/mol.)"
    )


def test_an_energy_that_is_not_believed_is_told_where_its_forecast_stands(bench: Bench) -> None:
    odd = {"time": "72 h", "at": "20 °C", "time_2": "24 h", "at_2": "30 °C"}
    _, shown = explained(bench, "demould", **(STEPS | {"demould": odd}))
    assert (
        "the 81.2 ± 15.7 kJ/mol of the sheet's times is not believed"
        in rows(shown)["activation energy"]
    )
    assert any(
        note.startswith("Demould: 81.2 ± 15.7 kJ/mol by these times is hard to believe")
        for note in bench.screen.notes
    )


def test_laws_that_the_sheet_gives_are_named(bench: Bench) -> None:
    factor = {"kind": "factor per 10 degrees", "factor": "2"}
    _, shown = explained(bench, "demould", **TWO, law=factor)
    assert rows(shown)["factor per 10 degrees"].endswith("(The factor that the sheet gives.)")
    energy, shown = explained(bench, "demould", **TWO, law={"energy": "60 kJ/mol"})
    assert rows(shown)["activation energy"].startswith("60.0 kJ/mol, from the sheet")
    table, shown = explained(bench, "demould", **TWO, law={"kind": "table of times"})
    assert rows(shown)["table of so many times"].startswith("2, from the sheet (Straight")
    assert energy.value != table.value


def test_a_milestone_from_elsewhere_has_no_law_to_name(bench: Bench) -> None:
    from dataclasses import replace

    from shopassist.services.cure_figures import figure_of

    bench.mixed(sheet=bench.bare(**TWO))
    view = bench.cure.view(bench.hand.batch)
    assert view is not None
    stage = view.stages[0]
    bare = replace(stage.forecast, milestone=replace(stage.forecast.milestone, basis=None))
    names = figure_of(view, replace(stage, forecast=bare)).inputs
    assert "the sheet's temperature" in names
    assert "activation energy" not in names
    assert isinstance(figure_of(view, stage).label, Text)


def test_the_cup_of_today_never_lasts_longer_than_the_sheet_prints(bench: Bench) -> None:
    from shopassist.core.figures import Origin
    from shopassist.core.quantities import Kelvin
    from shopassist.services.cup_today import _working

    given = {"time": "72 min", "at": "20 °C", "time_2": "12 min", "at_2": "30 °C"}
    name = bench.bare(**(STEPS | {"working": given}))
    version = bench.sheets.newest(name)
    assert version is not None and version.record is not None
    at = [
        _working(version.record, Origin(Kelvin(degrees + 273.15), "Kelvin", "typed"))[0]
        for degrees in (29.0, 30.0)
    ]
    assert at[0].value is not None and at[0].value > 1200
    assert at[1].value == 720
    assert "the sheet prints" in at[1].inputs


def test_a_step_with_a_law_of_its_own_stands_on_the_curve_where_it_is_likely(bench: Bench) -> None:
    gel = {"time": "4 h", "at": "23 °C", "time_2": "100 min", "at_2": "35 °C"}
    batch = bench.mixed(sheet=bench.bare(**(TWO | {"gel": gel})), celsius=30.0)
    standing = bench.cure.course(batch)
    view = bench.cure.view(batch)
    assert standing is not None and view is not None
    curve = age_curve(standing)
    hold = view.stage("hold")
    assert curve is not None and hold is not None and hold.likely is not None
    assert [step for step, _ in curve.levels] == ["gel", "demould"]
    before = [point for point in curve.points if point.at <= hold.likely][-1]
    after = next(point for point in curve.points if point.at > hold.likely)
    assert before.likely <= curve.levels[0][1] <= after.likely
    cold = bench.mixed(
        sheet=bench.bare(**(TWO | {"gel": gel, "temperature": {"lowest": "15 °C"}})), celsius=5.0
    )
    standing = bench.cure.course(cold)
    assert standing is not None
    frozen = age_curve(standing)
    assert frozen is not None
    assert [step for step, _ in frozen.levels] == ["demould"], "no time can be given for the gel"
