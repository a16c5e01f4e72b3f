"""Which cabinet is in use, and what was read in it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.entry import EntrySpec
from shopassist.core.quantities import Kelvin
from shopassist.services.cabinet_probe import cabinet, cabinet_in_use, probes_of
from tests.panes.warmup.bench import Bench


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    yield made
    made.close()


def setting(bench: Bench) -> tuple[str, float] | None:
    spec = EntrySpec("Kelvin")
    found = cabinet_in_use(
        bench.cabinets, bench.state, lambda text: Kelvin(bench.words.read(text, spec).value)
    )
    return None if found is None else (found.name, round(found.set_at - 273.15, 3))


def test_the_cabinet_that_warm_up_works_with_is_meant(bench: Bench) -> None:
    assert setting(bench) is None
    first = bench.cabinet()
    bench.cabinet(name="Other box", thermostat={"set": "30 °C"})
    assert setting(bench) == ("Other box", 30.0)
    bench.pane.on_cabinet(first)
    assert setting(bench) == ("Warm box", 29.0)
    bench.cabinets.remove(first)
    assert setting(bench) == ("Other box", 30.0)


def test_a_setting_that_was_typed_goes_first(bench: Bench) -> None:
    bench.type("thermostat", "35")
    assert setting(bench) == ("Cabinet", 35.0)
    bench.cabinet()
    assert setting(bench) == ("Warm box", 29.0)
    bench.type("thermostat", "35")
    assert setting(bench) == ("Warm box", 35.0)
    bench.state.put("warmup.thermostat", "?")
    assert setting(bench) == ("Warm box", 29.0)


def test_only_air_of_the_cabinet_is_a_probe_and_only_while_something_hardens(bench: Bench) -> None:
    batch = bench.mixed()
    bench.warm(batch, 30.0, "cabinet air")
    bench.warm(batch, 25.0, "shop")
    (probe,) = probes_of(bench.cure)
    assert probe.loaded
    assert probe.middle == pytest.approx(303.15)
    bench.mixed("Bare", celsius=None)
    assert len(list(probes_of(bench.cure))) == 1
    bench.clock.suspend(20 * 86_400.0)
    bench.warm(batch, 30.0, "cabinet air", since=bench.now - 600)
    newest = next(iter(probes_of(bench.cure)))
    assert (newest.at - newest.since, newest.loaded) == (600.0, False)


def test_without_a_cabinet_nobody_is_called(bench: Bench) -> None:
    assert list(cabinet(lambda: None, lambda: probes_of(bench.cure))(frozenset())) == []
