import pytest

from shopassist.panes.warmup.presenter import FIGURES
from tests.panes.warmup.bench import LOG, Bench


def duty(bench: Bench) -> str:
    return bench.screen.figures[FIGURES.index("duty")].value


def test_a_log_teaches_the_cabinet_and_the_record_keeps_it(bench: Bench) -> None:
    name = bench.cabinet(heater={"power": "40 W"})
    bench.load()
    bench.pane.on_learn()
    opened = bench.screen.learn
    assert opened.is_open
    assert not opened.can_keep
    bench.pane.on_learn_log(LOG)
    assert bench.screen.learn.message == ""
    assert len(bench.screen.learn.result) == 4
    assert bench.screen.learn.can_keep
    before = duty(bench)
    bench.pane.on_learn_keep()
    version = bench.cabinets.newest(name)
    assert version is not None and version.record is not None
    assert version.number == 2
    assert version.record.measured is not None
    assert version.record.measured_band is not None
    assert not bench.screen.learn.is_open
    assert duty(bench) != before
    bench.pane.on_explain("warmup.duty")
    bench.pane.on_learn_keep()
    assert bench.cabinets.newest(name) == version


@pytest.mark.parametrize(
    ("log", "words"),
    [
        ("0 15\n1 16", "four readings"),
        ("0 15\nsoon warm", "Line 2"),
        ("0 15\n15", "Line 2"),
        ("0 15\n" * 501, "500 lines"),
        ("0;15\n1:00;28.4\n1:10;2\n1:20;28.3\n1:30;1", "do not fit"),
    ],
)
def test_a_log_that_cannot_be_used_says_why(bench: Bench, log: str, words: str) -> None:
    bench.ready()
    bench.pane.on_learn()
    bench.pane.on_learn_log(log)
    assert words in bench.screen.learn.message
    assert bench.screen.learn.result == ()


def test_a_log_needs_the_entries_and_a_record_to_keep_it_in(bench: Bench) -> None:
    bench.pane.on_learn()
    bench.pane.on_learn_log(LOG)
    assert "Fill in the entries" in bench.screen.learn.message
    bench.ready(heater={"power": "40 W"})
    bench.pane.on_learn_log(LOG)
    bench.cabinets.remove(bench.screen.cabinet)
    assert bench.screen.learn.keep_reason.startswith("Save this cabinet")
    assert not bench.screen.learn.can_keep
    bench.pane.on_learn_close()
    assert bench.screen.learn.result


def test_other_units_are_read_and_written(bench: Bench) -> None:
    from shopassist.core.style import CHOICES, NumberStyle

    bench.words.style, bench.words.units = NumberStyle(",", "dmy"), CHOICES["US"]
    bench.cabinet(heater={"power": "40 W"})
    bench.load(shop="59")
    assert " in" in bench.screen.summary[0]
    bench.pane.on_learn_log("0 59\n10 66,4\n20 70,9\n30 74,1\n40 76,3")
    assert bench.screen.learn.message == ""
    assert "°F" in bench.screen.picture.caption
