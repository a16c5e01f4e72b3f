import pytest

from shopassist.core.civil import seconds_of
from shopassist.core.thermometers.lines import (
    Layout,
    Order,
    kelvin,
    layout_of,
    local_time,
    printed,
    read_line,
)

NOON = float(seconds_of(2026, 11, 25, 12 * 3600))


def first(text: str, order: Order = "dmy", column: str = "", unit: str = "") -> tuple[float, float]:
    """Temperature in °C and local time of the last line of a file."""
    lines = text.strip("\n").split("\n")
    layout = layout_of(lines, column, unit)
    assert layout is not None
    line = read_line(lines[-1], layout, order)
    assert line is not None
    moment = line.local if line.local is not None else line.utc
    return round(line.temp - 273.15, 3), float(moment if moment is not None else -1.0)


@pytest.mark.parametrize(
    ("text", "celsius", "moment"),
    [
        ("time,temp C\n2026-11-25 11:59:00,21.4\n2026-11-25 12:00:00,21.5", 21.5, NOON),
        ("Datum;Zeit;Temperatur °C;Feuchte\n25.11.2026;12:00:00;21,5;48,0", 21.5, NOON),
        ("25.11.2026 12:00\t21,5\t48", 21.5, NOON),
        ("2026-11-25T12:00:00Z,21.5", 21.5, NOON),
        ("2026-11-25T14:30:00+02:30,21.5", 21.5, NOON),
        ("date,humidity %,temperature (F)\n11/25/2026 12:00:00 pm,48,70.7", 21.5, NOON),
        ("stamp;t1\n" + f"{NOON:.0f};21.5", 21.5, NOON),
        (f"{NOON * 1000:.0f},21.5 °C", 21.5, NOON),
        ('"time","T1 (°C)"\n"25/11/2026 12:00:00","21.5"', 21.5, NOON),
        ("no;date;temp\n7;25.11.26 12:00;21,5", 21.5, NOON),
        ("21.5", 21.5, -1.0),
        ("temp\n294.65 K", 21.5, -1.0),
        ("2026-11-25 12:00:00|21.5|x", 21.5, NOON),
    ],
)
def test_a_logger_is_read_however_it_writes(text: str, celsius: float, moment: float) -> None:
    assert first(text) == (celsius, moment)


def test_a_date_that_may_be_read_two_ways_is_read_in_the_readers_order() -> None:
    text = "04/05/2026 12:00,21.5"
    assert first(text, "dmy")[1] == seconds_of(2026, 5, 4, 43_200)
    assert first(text, "mdy")[1] == seconds_of(2026, 4, 5, 43_200)


def test_the_column_is_taken_by_its_heading_or_its_number() -> None:
    text = "time,temp air,temp resin\n2026-11-25 12:00:00,19.0,21.5"
    assert first(text)[0] == 19.0
    assert first(text, column="resin")[0] == 21.5
    assert first(text, column="3")[0] == 21.5
    assert layout_of(text.split("\n"), "4") is None
    assert layout_of(text.split("\n"), "cellar") is None


def test_a_unit_of_the_record_goes_before_what_the_file_says() -> None:
    assert first("time,temp\n2026-11-25 12:00,70.7", unit="°F")[0] == 21.5


def test_nothing_is_guessed_from_nothing() -> None:
    assert layout_of([]) is None
    assert layout_of(["", "  "]) is None
    assert layout_of(["time,temperature"]) is None


@pytest.mark.parametrize(
    "line",
    [
        "time,temp", "2026-11-25 12:00:00", "2026-11-25 12:00:00,", "2026-11-25 12:00:00,error",
        "2026-11-25 12:00:00,-999", "2026-11-25 12:00:00,4000", "2026-02-30 12:00:00,21.5",
        "2026-11-25 25:00:00,21.5", "yesterday,21.5", "2026-11-25,21.5", "31/31/26 10:00,20",
    ],
)  # fmt: skip
def test_a_line_that_shows_no_temperature_at_a_time_is_passed_over(line: str) -> None:
    assert read_line(line, Layout(",", 1, (0,))) is None


def test_a_time_needs_a_date_and_a_clock() -> None:
    assert local_time("12:00", "dmy") is None
    assert local_time("25.11.2026", "dmy") is None
    assert local_time("25.11.2026 12:00 am", "dmy") == NOON - 43_200


@pytest.mark.parametrize(
    ("text", "unit", "celsius"),
    [
        ("T=21.5 C", "", 21.5), ("+021,5", "", 21.5), ("CH1 70.7 degF ok", "", 21.5),
        ("294.65K", "", 21.5), ("\u22125.0°C", "", -5.0), ("70.7", "°F", 21.5),
        ("T1: 21.5 C 48 %", "", 21.5),
    ],
)  # fmt: skip
def test_a_printed_line_gives_its_temperature(text: str, unit: str, celsius: float) -> None:
    found = printed(text, unit)
    assert found is not None
    assert found == pytest.approx(celsius + 273.15)


def test_a_printed_line_without_a_number_or_beyond_any_shop_gives_none() -> None:
    assert printed("ready") is None
    assert printed("9999 C") is None


def test_what_no_shop_is_is_refused() -> None:
    assert kelvin(-273.15, "°C") is None
    assert kelvin(21.5, "°C") == pytest.approx(294.65)
    assert kelvin(0.0, "K") is None


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ('"Time","T"\n"25/11/2026 12:00","21,5"', 21.5),
        ('"Time, local","Temp, inside (°F)"\n"2026-11-25 12:00","71,6"', 22.0),
        ('time,"temp"\n2026-11-25 12:00,"21.5', 21.5),
    ],
)
def test_a_comma_within_quotes_is_the_numbers_own(text: str, celsius: float) -> None:
    """Case X10: 21,5 must never become 21; a file may quote it and part its columns by commas."""
    assert first(text) == (celsius, NOON)


@pytest.mark.parametrize(
    ("heading", "celsius"),
    [("temp_f", 22.0), ("TempF", 22.0), ("temperature.F", 22.0), ("temp_f_avg", 22.0),
     ("temp_c", 71.6), ("Temp Fridge", 71.6)],
)  # fmt: skip
def test_a_unit_at_the_end_of_a_heading_counts(heading: str, celsius: float) -> None:
    """71.6 °F are 22.0 °C; read as Celsius a cure would be over in minutes."""
    assert first(f"time,{heading}\n2026-11-25 12:00,71.6") == (celsius, NOON)
