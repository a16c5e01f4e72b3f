"""A cup that is mixed after the pour: its own limits, its own pour, its own minutes."""

from tests.panes.mix.conftest import MixBench


def first_poured(bench: MixBench) -> MixBench:
    bench.pane.on_sheet(bench.shop.sheet("quick-opaque"))
    bench.type(amount="100 g", waste="0 %").page("cup", resin_temp="22 °C")
    bench.pane.on_page("ratio")
    return mixed(bench)


def mixed(bench: MixBench) -> MixBench:
    bench.weigh("a", "52.6 g").weigh("b", "100 g")
    bench.pane.on_hardener_in(reason="dry enough")
    for step in ("Stir", "Pour"):
        bench.shop.batches.step_done(bench.batch, step)
    bench.shop.clock.advance(120)
    bench.pane.on_poured()
    return bench


def may_pour(bench: MixBench) -> bool:
    return bench.pane.screen.poured is not None


def test_it_is_poured_by_itself_and_told_so(bench: MixBench) -> None:
    first_poured(bench)
    assert not may_pour(bench)
    assert [name for name, _ in bench.pane.screen.facts] == ["Hardener in", "Poured"]
    bench.shop.clock.advance(5 * 3600)
    bench.pane.on_another_cup()
    bench.weigh("a", "52.6 g").weigh("b", "100 g")
    bench.pane.on_hardener_in(reason="dry enough")
    assert may_pour(bench)
    assert [name for name, _ in bench.pane.screen.facts] == ["Hardener in"]


def test_before_its_hardener_the_limits_of_the_day_are_shown(bench: MixBench) -> None:
    first_poured(bench)
    assert "working_today" not in bench.figures(bench.page("cup"))
    bench.pane.on_another_cup()
    assert "working_today" in bench.figures(bench.page("cup"))


def test_its_minutes_to_pressure_count_from_its_own_hardener(bench: MixBench) -> None:
    first_poured(bench)
    bench.shop.clock.advance(5 * 3600)
    bench.pane.on_another_cup()
    bench.weigh("a", "52.6 g").weigh("b", "100 g")
    bench.pane.on_hardener_in(reason="dry enough")
    shown = bench.page("steps")
    assert shown.act is not None
    assert shown.act.words == "Stir – done"
    assert not any(words == "done" for _, words in shown.rows)
