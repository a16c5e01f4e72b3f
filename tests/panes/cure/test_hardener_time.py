"""A hardener time that is set right, and degrees of the other scale."""

import pytest

from tests.panes.cure.bench import Bench
from tests.panes.cure.test_form import take


def pressurise_by(bench: Bench, batch: str) -> float:
    view = bench.cure.view(batch)
    assert view is not None
    stage = view.stage("pressurise")
    assert stage is not None
    assert stage.gate is not None
    return float(stage.gate)


def test_a_button_pressed_late_is_set_right_with_a_reason(bench: Bench) -> None:
    """Hands were sticky: the hardener was in ten minutes before anybody pressed."""
    batch = bench.mixed(celsius=23.0)
    before = pressurise_by(bench, batch)
    take(bench, "hardener", when="10 min ago")
    assert bench.screen.error == "Type why first."
    take(bench, "hardener", reason="pressed late")
    assert bench.batches.get(batch).first_contact == pytest.approx(bench.now - 600)
    assert pressurise_by(bench, batch) <= before - 600
    assert bench.batches.get(batch).reasons == ("pressed late",)
    assert dict(bench.screen.form.echoes)["when"] == "such as 14:06, 10 min ago"


def test_of_several_cups_the_last_one_is_set_right(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(1800)
    bench.batches.hardener_in(batch, 2)
    bench.clock.advance(60)
    take(bench, "hardener", when="5 min ago", reason="pressed late")
    first, second = bench.batches.get(batch).mixed
    assert (first.contact, second.contact) == pytest.approx((bench.now - 1860, bench.now - 300))


def test_a_time_set_right_needs_the_time(bench: Bench) -> None:
    bench.mixed()
    take(bench, "hardener", reason="pressed late")
    assert bench.screen.error == "Type when first."


def test_without_hardener_there_is_no_time_to_set_right(bench: Bench) -> None:
    take(bench, "hardener", when="5 min ago", reason="pressed late")
    assert bench.screen.error == "Nothing is mixed yet."


@pytest.mark.parametrize(
    ("typed", "asked"),
    [("72", True), ("68", True), ("-6", True), ("72 °F", False), ("55", False), ("0", False)],
)
def test_degrees_of_the_other_scale_are_asked_about(bench: Bench, typed: str, asked: bool) -> None:
    """72 °C would be hard within the hour; 22 typed for °C in a shop of °F would be frost."""
    assert (bench.entry(typed).unlikely is not None) is asked
