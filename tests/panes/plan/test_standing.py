"""What the Plan pane shows of a full disk, a closed batch and a batch under pressure."""

import pytest

from shopassist.panes.plan.screen import BarRow
from tests.panes.plan.conftest import PlanBench


def rows(bench: PlanBench) -> dict[str, BarRow]:
    return {each.key: each for each in bench.pane.screen.bars.rows}


def test_a_disk_that_is_full_is_told_and_nothing_moves(
    bench: PlanBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    from shopassist.core.errors import StoreError

    bench.open()

    def full(_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.press("Start: Rough-turn cores, cut grooves")
    assert bench.pane.screen.message == "The disk is full."
    assert rows(bench)["rough"].kind == "planned"


def test_a_closed_batch_shows_what_really_happened(bench: PlanBench) -> None:
    batch = bench.open()
    bench.service.start(batch, "rough")
    bench.wait(1)
    bench.service.end(batch, "rough")
    bench.shop.batches.close(batch, "good")
    screen = bench.pane.screen
    assert [each.key for each in screen.bars.rows] == ["rough"]
    assert screen.stage.start == ""


def test_under_pressure_the_times_are_the_cures(bench: PlanBench) -> None:
    batch = bench.shop.mixed("Knobs")
    bench.shop.batches.poured(batch)
    bench.shop.batches.load(batch, "big-pot")
    bench.pane.on_select("pressure")
    stage = bench.pane.screen.stage
    assert (stage.answers["likely"].origin, stage.answers["hands"].origin) == (
        "from Cure", "default",
    )  # fmt: skip
    assert "By this batch's own cure, as Cure forecasts it." in [w for _, _, w in stage.lines]
