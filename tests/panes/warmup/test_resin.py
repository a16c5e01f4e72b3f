"""What the warmth does to resin, and what the cure is told of it."""

import pytest

from shopassist.core.errors import RefusedError
from tests.panes.warmup.bench import Bench

HOT = {"thermostat": {"set": "41 °C"}, "watch": {"thermometer": True, "cut_out": "60 °C"}}


def whats(bench: Bench) -> list[str]:
    return [what for what, _ in bench.screen.notes]


def test_c12_poured_moulds_are_warmed_after_the_gel_and_the_air_in_their_wood_grows(
    bench: Bench,
) -> None:
    bench.ready(thermostat={"set": "40 °C"}, watch={"thermometer": True, "cut_out": "60 °C"})
    bench.type("goal", "35")
    assert not any("after the gel" in what for what in whats(bench))
    bench.pane.on_inside("poured moulds")
    told = dict(bench.screen.notes)["Into the warmth only after the gel."]
    assert "grows by 6.9 % from 15 °C to 35 °C" in told
    bench.type("wood", "0")
    told = dict(bench.screen.notes)["Into the warmth only after the gel."]
    assert told == "Fresh resin there heats itself all the more."


def test_what_has_gelled_may_be_warmed(bench: Bench) -> None:
    bench.ready(watch={"thermometer": True, "cut_out": "60 °C"})
    bench.pane.on_inside("poured moulds")
    batch = bench.mixed(celsius=20.0)
    assert "Into the warmth only after the gel." in whats(bench)
    bench.batches.see(batch, "gelled")
    assert "Into the warmth only after the gel." not in whats(bench)


def test_the_cure_pane_is_given_the_course_or_the_reason(bench: Bench) -> None:
    batch = bench.mixed("Knobs", 17.0)
    bench.cabinet()
    with pytest.raises(RefusedError) as short:
        bench.pane.course_for(batch)
    assert bench.words.say(short.value.title) == "Warm-up needs: shop."
    bench.load()
    course = bench.pane.course_for(batch)
    assert course[0].low == pytest.approx(288.15)
    assert course[0].high == pytest.approx(290.15)
    bench.cabinet(**HOT)
    with pytest.raises(RefusedError) as hot:
        bench.pane.course_for(batch)
    assert "goes up to 32 °C only" in bench.words.say(hot.value.title)
    plain = bench.batches.open("Later")
    bench.cabinet()
    assert bench.pane.course_for(plain)[0].high == pytest.approx(288.15)
