import math
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from shopassist.core.entry import EntrySpec, UnknownUnitError
from shopassist.core.errors import EntryError, ShopError
from shopassist.core.messages import Amount, Moment, say
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading
from shopassist.core.units import UnitTable, build_table
from shopassist.core.wording import DASH, MIXED, THIN, US, NumberStyle, Wording, spoken
from tests.core.workshop import LINES

PLAIN = Wording()
COMMA = Wording(NumberStyle(",", "ymd"))
BOSTON = Wording(NumberStyle(".", "mdy", 12), US)
MONDAY = 1_790_000_000.0
"""Monday, 21 September 2026, 14:13:20 UTC."""
DAY = 86400.0


def test_thousands_stand_apart_from_four_digits_on() -> None:
    assert PLAIN.number(1380, 0) == f"1{THIN}380"
    assert PLAIN.number(999, 0) == "999"
    assert PLAIN.number(1234567.25, 1) == f"1{THIN}234{THIN}567.3"
    assert COMMA.number(1380.5, 1) == f"1{THIN}380,5"


@given(st.floats(0, 1e14), st.integers(0, 15))
@example(2.3e-14, 15)
@example(0.5, 0)
@example(2.675, 2)
@example(0.0005, 3)
@example(1 / 3, 6)
def test_halves_go_up_and_the_noise_of_conversion_is_cut_off(value: float, places: int) -> None:
    """However it is written, it is what decimal arithmetic gives."""
    step = Decimal(1).scaleb(-min(places, 12))
    right = Decimal(f"{value:.13g}").quantize(step, ROUND_HALF_UP) if value < 1e13 else value
    written = PLAIN.number(value, places).replace(THIN, "")
    assert written == (f"{right:f}" if value < 1e13 else f"{value:.0f}")


def test_a_minus_is_a_true_minus_and_zero_has_none() -> None:
    assert PLAIN.number(-2.5, 1) == "−2.5"
    assert PLAIN.number(-0.04, 1) == "0.0"
    assert PLAIN.signed(0.04, 1) == "0.0"
    assert PLAIN.signed(-0.04, 1) == "0.0"
    assert PLAIN.signed(2.4, 1) == "+2.4"
    assert PLAIN.signed(-2.4, 1) == "−2.4"


def test_halves_go_up_and_the_noise_of_conversion_does_not_matter() -> None:
    assert PLAIN.number(12.5, 0) == "13"
    assert PLAIN.number(0.35, 1) == "0.4"
    assert PLAIN.number(1.0049999999999999, 2) == "1.01"
    assert PLAIN.number(0, 8) == "0.00000000"


def test_no_value_is_a_dash_and_a_giant_is_written_out() -> None:
    assert [PLAIN.number(v, 1) for v in (None, math.nan, math.inf)] == ["–"] * 3
    assert PLAIN.number(9_999_999_999_999.0, 2).endswith("999.00")
    assert PLAIN.number(1e13, 2) == THIN.join(["10", "000", "000", "000", "000"])
    assert PLAIN.amount(None, "Kilogram") == "–"
    assert PLAIN.split(None, "Kilogram") == ("–", "g")
    assert PLAIN.split(math.nan, "Second") == ("–", "")
    assert PLAIN.percent(None) == "–"
    assert PLAIN.significant(None, 2) == "–"
    assert PLAIN.span(None, 1.0, "Kilogram") == f"–{DASH}1{THIN}000"
    not_timed = (PLAIN.duration, PLAIN.digits, PLAIN.age, PLAIN.clock, PLAIN.date)
    assert [write(math.nan) for write in not_timed] == ["–"] * 5
    assert PLAIN.clock(math.inf, late=True) == "–"


@pytest.mark.parametrize(
    ("value", "digits", "shown"),
    [
        (0.01234, 2, "0.012"),
        (12345, 2, f"12{THIN}000"),
        (0.0996, 2, "0.10"),
        (99.6, 2, "100"),
        (9.96, 2, "10"),
        (-0.5, 2, "−0.50"),
        (0, 2, "0"),
        (5, 3, "5.00"),
        (0.125, 2, "0.13"),
        (0.0625, 2, "0.063"),
        (12.25, 3, "12.3"),
        (9.95, 2, "10"),
        (0.00996, 2, "0.010"),
    ],
)
def test_as_many_digits_count_as_were_asked_for(value: float, digits: int, shown: str) -> None:
    assert PLAIN.significant(value, digits) == shown


@pytest.mark.parametrize(
    ("wording", "value", "quantity", "shown"),
    [
        (PLAIN, 276000.0, "PascalGauge", "2.76 bar"),
        (PLAIN, 0.1794, "Kilogram", "179.4 g"),
        (PLAIN, 1.38, "Kilogram", f"1{THIN}380 g"),
        (PLAIN, 0.99996, "Kilogram", f"1{THIN}000 g"),
        (PLAIN, 0.00004, "Kilogram", "0.040 g"),
        (PLAIN, 1e-12, "Kilogram", "0.0 g"),
        (PLAIN, 0.99e-7, "Kilogram", "0.0 g"),
        (PLAIN, 1e-6, "Ratio", "0.000001"),
        (PLAIN, 1.01e-7, "Kilogram", "0.0001 g"),
        (PLAIN, 0.0, "PascalGauge", "0.00 bar"),
        (PLAIN, 298.15, "Kelvin", "25.0 °C"),
        (PLAIN, 273.15, "Kelvin", "0.0 °C"),
        (PLAIN, 101325.0, "PascalAbsolute", f"1{THIN}013 mbar abs"),
        (PLAIN, 84659.7, "PascalVacuum", "847 mbar vacuum"),
        (PLAIN, 0.785, "Radian", "45.0°"),
        (PLAIN, 0.44, "Ratio", "0.440"),
        (PLAIN, 1225.0, "Newton", "125 kgf"),
        (PLAIN, 11520.0, "Second", "3 h 12 min"),
        (PLAIN, MONDAY, "UtcSecond", "14:13"),
        (COMMA, 276000.0, "PascalGauge", "2,76 bar"),
        (BOSTON, 0.226796185, "Kilogram", "8.00 oz"),
        (BOSTON, 275790.29, "PascalGauge", "40.0 psi"),
        (BOSTON, 298.15, "Kelvin", "77.0 °F"),
        (Wording(units=MIXED), 0.0254, "Metre", "1.00 in"),
        (Wording(units=MIXED), 0.25, "Kilogram", "250.0 g"),
    ],
)
def test_an_amount_is_a_number_and_its_unit(
    wording: Wording, value: float, quantity: str, shown: str
) -> None:
    assert wording.amount(value, quantity) == shown


def test_number_and_unit_come_apart_for_the_figures() -> None:
    assert PLAIN.split(276000.0, "PascalGauge") == ("2.76", "bar")
    assert PLAIN.split(276000.0, "PascalGauge", 1) == ("2.8", "bar")
    assert PLAIN.split(275790.29, "PascalGauge", 0, "psi") == ("40", "psi")
    assert PLAIN.split(0.226796185, "Kilogram", 0, "oz (weight)") == ("8", "oz (weight)")
    assert PLAIN.unit("PascalAbsolute") == "mbar abs"


def test_a_quantity_without_a_known_unit_still_shows_its_number() -> None:
    assert PLAIN.split(12.345, "Sponge") == ("12.35", "")
    assert PLAIN.split(12.345, "Kilogram", unit="furlong") == ("12.35", "furlong")
    assert PLAIN.span(1.0, 2.0, "Sponge") == f"1.000{DASH}2.000"


def test_both_ends_of_a_range_are_written_alike() -> None:
    assert PLAIN.span(206e-6, 222e-6, "CubicMetre") == f"206{DASH}222"
    assert PLAIN.span(99.6e-6, 222e-6, "CubicMetre") == f"100{DASH}222"
    assert PLAIN.span(0.0205, 0.0205, "Kilogram") == "20.5"
    assert PLAIN.span(268.15, 276.15, "Kelvin") == f"−5.0{DASH}3.0"
    assert PLAIN.span(273.17, 273.2, "Kelvin") == f"0.020{DASH}0.050"
    assert PLAIN.span(272.65, 273.17, "Kelvin") == f"−0.50{DASH}0.02"
    assert PLAIN.span(MONDAY, MONDAY + 3600, "UtcSecond") == f"14:13{DASH}15:13"
    assert PLAIN.span(0.0, math.inf, "Kilogram") == f"0.0{DASH}–"


def test_a_share_is_written_as_per_cent() -> None:
    assert PLAIN.percent(0.08) == "8 %"
    assert PLAIN.percent(-0.2108, 1, signed=True) == "−21.1 %"
    assert PLAIN.percent(0.143, 1, signed=True) == "+14.3 %"


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0, "0 s"),
        (0.4, "0 s"),
        (45, "45 s"),
        (59.6, "1 min"),
        (125, "2 min 5 s"),
        (599.6, "10 min"),
        (3599, "1 h"),
        (11520, "3 h 12 min"),
        (2 * DAY - 31, "47 h 59 min"),
        (2 * DAY, "2 d"),
        (200_000, "2 d 8 h"),
        (-720, "−12 min"),
        (0.6, "1 s"),
        (-0.6, "−1 s"),
        (560, "9 min 20 s"),
        (620, "10 min"),
    ],
)
def test_a_length_of_time_has_two_units_at_most(seconds: float, shown: str) -> None:
    assert PLAIN.duration(seconds) == shown


def test_countdown_digits_count_a_begun_second() -> None:
    shown = [PLAIN.digits(s) for s in (0, 0.4, 59.2, 462, 11262, 200_000, -42, -1, 60.0000001)]
    assert shown == [
        "0:00",
        "0:01",
        "1:00",
        "7:42",
        "3:07:42",
        "55:33:20",
        "−0:42",
        "−0:01",
        "1:00",
    ]


def test_an_age_counts_what_has_passed() -> None:
    shown = [PLAIN.age(s) for s in (-5, 0.5, 45, 59.9, 60, 2299, 11279, 300_000)]
    assert shown == [
        "just now", "just now", "45 s ago", "59 s ago", "1 min ago", "38 min ago", "3 h 7 min ago",
        "3 d 11 h ago",
    ]  # fmt: skip
    assert PLAIN.age(DAY + 3000) == "24 h 50 min ago"
    assert PLAIN.age(2 * DAY + 3000) == "2 d ago"


def test_another_day_is_named_and_a_far_one_dated() -> None:
    assert PLAIN.clock(MONDAY) == "14:13"
    assert PLAIN.clock(MONDAY, MONDAY + 3600) == "14:13"
    assert PLAIN.clock(MONDAY, MONDAY + DAY) == "Mon 14:13"
    assert PLAIN.clock(MONDAY, MONDAY - 6 * DAY) == "Mon 14:13"
    assert PLAIN.clock(MONDAY, MONDAY + 7 * DAY) == "21 Sep 14:13"
    assert PLAIN.clock(MONDAY, MONDAY + 400 * DAY) == "21 Sep 2026 14:13"
    assert COMMA.clock(MONDAY, MONDAY + 7 * DAY) == "2026-09-21 14:13"
    assert BOSTON.clock(MONDAY, MONDAY + 7 * DAY) == "Sep 21 2:13 pm"


def test_a_day_ends_at_local_midnight() -> None:
    east = Wording(offset_at=lambda _: 11 * 3600)
    assert east.clock(MONDAY, MONDAY - 2 * 3600) == "Tue 01:13"
    assert east.date(MONDAY) == "22 Sep 2026"


def test_minutes_are_dropped_early_and_added_late() -> None:
    assert PLAIN.clock(MONDAY) == "14:13"
    assert PLAIN.clock(MONDAY + 39.5) == "14:13"
    assert PLAIN.clock(MONDAY, late=True) == "14:14"
    assert PLAIN.clock(MONDAY - 20, late=True) == "14:13"


def test_dates_and_hours_follow_the_style() -> None:
    assert [w.date(MONDAY) for w in (PLAIN, COMMA, BOSTON)] == [
        "21 Sep 2026", "2026-09-21", "Sep 21, 2026",
    ]  # fmt: skip
    midnight = MONDAY - 14 * 3600
    assert [BOSTON.clock(midnight + h * 3600) for h in (0, 11, 12, 23)] == [
        "12:13 am", "11:13 am", "12:13 pm", "11:13 pm",
    ]  # fmt: skip


def test_a_text_is_written_with_all_that_stands_in_it() -> None:
    inner = say("at {p}", p=Amount(276000.0, "PascalGauge", 1))
    text = say(
        "{who} held {n} times {how} since {t}, {missing}", who="Big pot", n=1384, how=inner,
        t=Moment(MONDAY),
    )  # fmt: skip
    assert PLAIN.say(text) == f"Big pot held 1{THIN}384 times at 2.8 bar since 14:13, {{missing}}"
    assert PLAIN.say(text, MONDAY + DAY).endswith("since Mon 14:13, {missing}")
    assert PLAIN.say("as it stands {x}") == "as it stands {x}"
    assert PLAIN.say(say("{a}", a=Amount(0.226796185, "Kilogram", 0, "oz"))) == "8 oz"


def test_an_instant_that_must_not_be_early_goes_up_to_its_minute() -> None:
    assert PLAIN.say(say("{t}", t=Moment(MONDAY))) == "14:13"
    assert PLAIN.say(say("{t}", t=Moment(MONDAY, late=True))) == "14:14"


def test_a_text_reads_in_another_shop_without_being_built_again() -> None:
    wording = Wording()
    text = say("{p}", p=Amount(275790.29, "PascalGauge"))
    assert wording.say(text) == "2.76 bar"
    wording.units, wording.style = US, NumberStyle(",")
    assert wording.say(text) == "40,0 psi"


def test_typing_is_read_in_the_units_of_the_shop() -> None:
    assert PLAIN.read("5", EntrySpec("Kilogram")).value == pytest.approx(0.005)
    assert BOSTON.read("5", EntrySpec("Kilogram")).value == pytest.approx(5 * 0.028349523125)
    assert PLAIN.say(PLAIN.read("12,5", EntrySpec("Kilogram")).echo) == "12.5 g = 0.441 oz (weight)"


def test_a_stored_text_reads_the_same_in_every_shop() -> None:
    for wording in (PLAIN, COMMA, BOSTON):
        assert wording.read_si("1.234 kg", "Kilogram") == pytest.approx(1.234)
        assert wording.read_si("0.44", "Ratio") == pytest.approx(0.44)
        assert wording.read_si("-0.3 bar", "PascalGauge") == pytest.approx(-30_000)
        with pytest.raises(EntryError):
            wording.read_si("25", "Kelvin")


def test_a_rare_unit_fetches_the_whole_table_once() -> None:
    fetched: list[UnitTable] = []

    def fetch() -> UnitTable:
        fetched.append(build_table(LINES))
        return fetched[-1]

    for read in ("read", "read_si"):
        wording = Wording(more_units=fetch)
        if read == "read":
            value = wording.read("2 yd", EntrySpec("Metre")).value
        else:
            value = wording.read_si("2 yd", "Metre")
        assert value == pytest.approx(1.8288)
        with pytest.raises(UnknownUnitError):
            wording.read("2 furlongs", EntrySpec("Metre"))
        with pytest.raises(UnknownUnitError):
            wording.read_si("2 furlongs", "Metre")
        wording.warm()
    assert len(fetched) == 2


def test_clock_times_are_read_in_local_time() -> None:
    here = Wording(offset_at=lambda _: 3600)
    now = Reading(UtcSecond(MONDAY), Second(0.0), "boot", Second(3600.0))
    assert here.read_moment("15:00", now) == MONDAY - 800
    assert here.read_planned("16:00", now) == MONDAY + 2800


def test_a_range_is_said_in_words() -> None:
    assert spoken(f"−5{DASH}1{THIN}380 °C") == "minus 5 to 1380 degrees Celsius"
    assert spoken("77 °F") == "77 degrees Fahrenheit"


@pytest.mark.parametrize(("value", "places", "shown"), [
    (1.0149999999999999, 2, "1.02"), (1385, -1, f"1{THIN}390"), (1384.9, -1, f"1{THIN}380"),
    (0.25, 1, "0.3"), (0.75, 1, "0.8"), (999_999_999.5, 0, f"1{THIN}000{THIN}000{THIN}000"),
    (2.0005, 3, "2.001"), (1_000_000.4995, 3, f"1{THIN}000{THIN}000.500"),
])  # fmt: skip
def test_a_half_goes_up_wherever_it_stands(value: float, places: int, shown: str) -> None:
    assert PLAIN.number(value, places) == shown


def test_more_places_than_a_number_has_are_left_out() -> None:
    assert PLAIN.number(123.4567890123, 20) == "123.456789012300"
    assert PLAIN.number(9e12, 24).endswith("000.000000000000")


def test_a_refusal_is_told_with_what_to_do_about_it() -> None:
    limit = say("At most {limit} fits.", limit=Amount(0.5, "Kilogram"))
    error = ShopError("Too much.", limit)
    assert Wording().complaint(error) == "Too much. At most 500.0 g fits."
    assert Wording().complaint(ShopError("Too much.")) == "Too much."
