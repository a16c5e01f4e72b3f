"""What was reported so far, day by day."""

from tests.panes.stabilise.conftest import WoodBench


def test_each_day_begins_with_its_date_and_no_event_repeats_it(bench: WoodBench) -> None:
    bench.wrapped()
    bench.wait(20)
    bench.act("Packets are in the hot oven")
    rows = bench.pane.screen.facts
    days = [each.label for each in rows if ":" not in each.label]
    assert len(days) == len(set(days)) > 1
    assert rows[0].label == days[0]
    assert all(not each.answer for each in rows if each.label in days)
    assert not any(day in each.answer for day in days for each in rows)
    assert rows[-1].label.endswith("Bake on")
