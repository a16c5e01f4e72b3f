"""What if the heater is down every night: case C01's household at 60 °F by night, 78 °F by day.

By doubling for ten degrees, 60 °F is half as fast as 78 °F. Of a day's cure at 78 °F, mixed at
noon: ten hours of it by 22:00, five in the ten hours to 08:00, and the last nine by 17:00.
"""

import pytest

from tests.panes.cure.bench import Bench

HOUR = 3600.0
LAW = {"kind": "factor per 10 degrees", "factor": "2"}
DAY = {"time": "24 h", "at": "78 °F"}


def supposed(bench: Bench, day: str, night: str, evening: str, morning: str) -> None:
    pane = bench.cure_pane
    pane.on_mode("nights")
    pane.on_number("temp", bench.entry(day))
    pane.on_number("low", bench.entry(night))
    pane.on_text("since", evening)
    pane.on_text("when", morning)
    pane.on_do()


def at_noon(bench: Bench, hours: float = 0.0, **limits: str) -> str:
    """Mixed at noon of the next day; the shop's clocks are an hour ahead."""
    since_noon = (bench.now + 3600 - 12 * HOUR) % 86400
    bench.clock.suspend(86400 - since_noon + hours * HOUR)
    more = {"temperature": limits} if limits else {}
    return bench.mixed(celsius=(78 - 32) / 1.8, sheet=bench.bare(demould=DAY, law=LAW, **more))


def likely(bench: Bench, batch: str) -> float:
    """Hours from now to the likely demoulding, were it so."""
    view = bench.cure.view(batch)
    assert view is not None
    stage = bench.cure_pane._supposed.stages(view)["demould"]
    assert stage.likely is not None
    return (stage.likely - bench.now) / HOUR


def test_a_household_that_cools_by_night_takes_29_hours_for_24(bench: Bench) -> None:
    batch = at_noon(bench)
    supposed(bench, "78 °F", "60 °F", "22:00", "08:00")
    assert bench.screen.error == ""
    assert likely(bench, batch) == pytest.approx(29.0, abs=0.01)
    assert bench.screen.what_if == "nights at 15.6 °C"
    true = bench.cure.view(batch)
    assert true is not None
    stage = true.stage("demould")
    assert stage is not None and stage.likely is not None
    assert (stage.likely - bench.now) / HOUR == pytest.approx(24.0, abs=0.01)
    assert bench.line("demould").what_if.startswith("from ")
    bench.cure_pane.on_clear_what_if()
    assert bench.screen.what_if == ""
    assert bench.line("demould").what_if == ""


def test_a_night_under_the_lowest_counts_nothing(bench: Bench) -> None:
    """Ten hours by 22:00, none to 08:00, fourteen by 22:00: 34 hours."""
    batch = at_noon(bench, lowest="65 °F")
    supposed(bench, "78 °F", "60 °F", "22:00", "08:00")
    assert likely(bench, batch) == pytest.approx(34.0, abs=0.01)


def test_begun_in_the_night_what_is_left_of_it_is_night(bench: Bench) -> None:
    """At midnight: eight hours count four, twenty are left by day, 14 h to 22:00, then twelve."""
    batch = at_noon(bench, hours=12.0)
    supposed(bench, "78 °F", "60 °F", "22:00", "08:00")
    assert likely(bench, batch) == pytest.approx(8 + 14 + 10 + 1, abs=0.01)


def test_what_is_not_typed_is_asked_for_and_hours_are_echoed(bench: Bench) -> None:
    at_noon(bench)
    pane = bench.cure_pane
    pane.on_mode("nights")
    assert dict(bench.screen.form.echoes) == {"since": "such as 22:00", "when": "such as 06:00"}
    assert not bench.screen.form.can_clear
    pane.on_do()
    assert bench.screen.error == "Type the temperature first."
    pane.on_number("temp", bench.entry("20 °C"))
    pane.on_number("low", bench.entry("12 °C"))
    pane.on_do()
    assert bench.screen.error == "Type since when first."
    pane.on_text("since", "22:00")
    pane.on_text("when", "6 in the morning")
    assert dict(bench.screen.form.echoes)["since"] == "every 22:00"
    assert dict(bench.screen.form.echoes)["when"] == "This is not a clock time."
    pane.on_text("when", "22:00")
    pane.on_do()
    assert bench.screen.error.startswith("The night has no length")
    pane.on_text("when", "06:00")
    pane.on_do()
    assert bench.screen.error == ""
    pane.on_mode("nights")
    assert bench.screen.form.can_clear


def test_one_what_if_stands_at_a_time(bench: Bench) -> None:
    at_noon(bench)
    supposed(bench, "78 °F", "60 °F", "22:00", "08:00")
    pane = bench.cure_pane
    pane.on_mode("what_if")
    pane.on_number("temp", bench.entry("30 °C"))
    pane.on_do()
    assert bench.screen.what_if == "at 30.0 °C"
    supposed(bench, "78 °F", "60 °F", "22:00", "08:00")
    assert bench.screen.what_if.startswith("nights at")
