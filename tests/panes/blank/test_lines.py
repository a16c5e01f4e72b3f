"""Outlines and grooves while they are typed."""

from tests.panes.blank.conftest import BlankBench


def test_a_line_that_is_typed_counts_as_soon_as_it_can_be_read(bench: BlankBench) -> None:
    bench.knob()
    before = bench.figure("for_one")
    bench.pane.on_line_edited("grooves", "square 3 x 2 at 4")
    followed = bench.figure("for_one")
    assert followed != before
    bench.pane.on_line_edited("grooves", "square 3 x 2 at 4; vee 3")
    assert bench.figure("for_one") == followed
    assert bench.problem("grooves") == ""
    bench.pane.on_line_edited("grooves", "")
    assert bench.figure("for_one") == before
    bench.pane.on_line_edited("grooves", "square 3 x 2 at 4")
    bench.pane.on_chosen("grooves", "square 3 x")
    assert bench.problem("grooves")
    bench.pane.on_chosen("grooves", "")
    assert bench.figure("for_one") == before
