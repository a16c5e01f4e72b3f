"""The cure of the batch in hand, in the cabinet and without it, and what explains each line."""

from shopassist.core.figures import Figure, Origin
from shopassist.shell.explaining import explanation
from shopassist.widgets.shown import ExplainShown
from tests.panes.warmup.bench import Bench
from tests.panes.warmup.test_presenter import HOT, whats


def test_a_running_cure_is_shown_in_the_cabinet_and_without(bench: Bench) -> None:
    bench.mixed("Knobs", 17.0, bench.sheet())
    bench.ready()
    before = bench.cure.view(bench.hand.batch)
    assert before is not None
    assert bench.screen.what_if == "If Knobs went in now, switched on now"
    assert bench.screen.cure_lines
    after = bench.cure.view(bench.hand.batch)
    assert after is not None
    assert after.stages == before.stages


def test_the_warmth_shortens_what_waits_and_never_puts_a_hazard_off(bench: Bench) -> None:
    batch = bench.mixed("Knobs", 17.0, bench.sheet())
    bench.batches.poured(batch)
    bench.batches.load(batch, "big")
    bench.ready()
    assert [label for label, _ in bench.screen.cure_lines] == ["Hold until", "May demould"]
    assert all(", else " in words for _, words in bench.screen.cure_lines)


def explained(bench: Bench, number: int) -> tuple[Figure, ExplainShown]:
    bench.pane.on_explain(f"warmup.cure.{number}")
    return bench.explained[-1], explanation(bench.explained[-1], bench.words)


def test_each_line_of_the_cure_explains_itself(bench: Bench) -> None:
    batch = bench.mixed("Knobs", 17.0, bench.sheet())
    bench.batches.poured(batch)
    bench.batches.load(batch, "big")
    bench.ready()
    for number, (_, words) in enumerate(bench.screen.cure_lines, 1):
        figure, shown = explained(bench, number)
        assert figure.value is not None
        told = bench.words.clock(figure.value, bench.now, late=True)
        assert words.startswith(f"{told}, else ")
        else_ = figure.inputs["else"]
        assert isinstance(else_.value, float)
        assert words.endswith(bench.words.clock(else_.value, bench.now, late=True))
        assert shown.title.endswith(", if it went in now")
        assert shown.formula
        headings = [section.heading for section in shown.sections]
        for wanted in ("Numbers put in", "Rounding", "Left out, and where it holds", "Sources"):
            assert wanted in headings
        assert "How it was found: warm through after" in headings
        assert {"since hardener", "thermostat", "shop"} <= set(figure.inputs)
        assert any("family" in bench.words.say(each.note) for each in figure.inputs.values()
                   if isinstance(each, Origin) and each.note is not None)  # fmt: skip
    assert explained(bench, 1)[1].title == "Gel, if it went in now"
    before = len(bench.explained)
    bench.pane.on_explain("warmup.cure.3")
    assert len(bench.explained) == before


def test_a_hazard_explains_that_warmth_never_puts_it_off(bench: Bench) -> None:
    bench.mixed("Knobs", 30.0, bench.sheet())
    bench.ready()
    assert bench.screen.cure_lines
    figure, shown = explained(bench, 1)
    rounding = next(each.rows[0][1] for each in shown.sections if each.heading == "Rounding")
    assert "never puts it off" in rounding
    gate = figure.inputs["else"].value
    assert isinstance(gate, float) and figure.value is not None
    assert figure.value <= gate


def test_a_planned_batch_is_forecast_as_if_mixed_now(bench: Bench) -> None:
    batch = bench.batches.open("Bowl")
    bench.hand.take_batch(batch)
    bench.batches.use_sheet(batch, bench.sheet(), 1)
    bench.ready()
    assert bench.screen.what_if == "If Bowl were mixed now"
    figure, shown = explained(bench, 1)
    assert shown.title.endswith(", if it were mixed now")
    assert {"coldest of the resin", "warmest of the resin"} <= set(figure.inputs)
    assert "since hardener" not in figure.inputs


def test_above_the_sheets_highest_no_time_is_told(bench: Bench) -> None:
    bench.mixed("Knobs", 17.0, bench.sheet())
    bench.ready(**HOT)
    assert any("goes up to 32 °C only" in what for what in whats(bench))
    assert bench.screen.cure_lines == ()


def test_a_batch_without_a_sheet_or_over_says_nothing(bench: Bench) -> None:
    bench.mixed("Knobs", 17.0, "none")
    bench.ready()
    assert bench.screen.what_if == ""
