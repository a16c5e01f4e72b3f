import pytest

from shopassist.core.quantities import Kelvin, UtcSecond
from shopassist.core.thermometers.bins import Bin, Sample, binned
from shopassist.core.thermometers.record import thermometer_from_mapping
from shopassist.core.wording import Wording


def samples(*temps: float, every: float = 60.0) -> list[Sample]:
    return [(UtcSecond(1000.0 + n * every), Kelvin(t + 273.15)) for n, t in enumerate(temps)]


def test_five_minutes_make_one_reading_from_the_lowest_to_the_highest() -> None:
    bins, taken = binned(samples(21.0, 21.2, 20.9, 21.1, 21.0, 21.3, 21.4))
    assert taken == 6
    (found,) = bins
    assert (found.since, found.until) == (1000.0, 1300.0)
    assert float(found.low) == pytest.approx(294.05)
    assert float(found.high) == pytest.approx(294.45)


def test_a_jump_ends_a_stretch_at_once() -> None:
    bins, taken = binned(samples(21.0, 21.1, 24.0, 24.1))
    assert taken == 3
    assert len(bins) == 1


def test_what_is_left_over_waits_unless_it_is_the_end() -> None:
    few = samples(21.0, 21.1)
    assert binned(few) == ((), 0)
    assert binned(few, end=True) == ((Bin(few[0][0], few[1][0], few[0][1], few[1][1]),), 2)
    assert binned([], end=True) == ((), 0)


def test_a_record_says_where_it_comes_from_and_what_it_measures() -> None:
    words = Wording()
    mapping = {
        "name": "Logger", "way": "a file that grows", "from": "x.csv", "measures": "shop",
        "ahead": "2 min", "baud": "19200",
    }  # fmt: skip
    found, problems = thermometer_from_mapping(mapping, words.read_si)
    assert problems == ()
    assert found is not None
    assert (found.source, found.ahead, found.baud) == ("x.csv", 120.0, 19200)
    none, wrong = thermometer_from_mapping({"name": "x"}, words.read_si)
    assert none is None
    assert {each.place for each in wrong} == {"way", "from", "measures"}
