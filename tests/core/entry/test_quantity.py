import pytest

from shopassist.core.entry import (
    Entry,
    EntrySpec,
    UnknownUnitError,
    count,
    kept_places,
    read_quantity,
)
from shopassist.core.errors import EntryError
from shopassist.core.messages import Amount
from shopassist.core.style import MIXED, US, NumberStyle
from shopassist.core.units import EARLY, build_table
from tests.core.workshop import LINES

COMMA = NumberStyle(",")
MASS, VOLUME, LENGTH = EntrySpec("Kilogram"), EntrySpec("CubicMetre"), EntrySpec("Metre")
TIME, WARMTH, GAUGE = EntrySpec("Second"), EntrySpec("Kelvin"), EntrySpec("PascalGauge")
EITHER = EntrySpec("Kilogram", also=("CubicMetre",))


def value(text: str, spec: EntrySpec, style: NumberStyle = NumberStyle()) -> float:  # noqa: B008
    return read_quantity(text, spec, style).value


def refused(text: str, spec: EntrySpec, style: NumberStyle = NumberStyle()) -> EntryError:  # noqa: B008
    with pytest.raises(EntryError) as caught:
        read_quantity(text, spec, style)
    return caught.value


@pytest.mark.parametrize(
    ("text", "spec", "expected"),
    [
        ("2.5 lb", MASS, 2.5 * 0.45359237),
        ("2 lb 8 oz", MASS, 2.5 * 0.45359237),
        ("2 lb 8", MASS, 2.5 * 0.45359237),
        ("3,5 kg", MASS, 3.5),
        ("3.5KG", MASS, 3.5),
        ("12,5", MASS, 0.0125),
        (",5 kg", MASS, 0.5),
        ("12. g", MASS, 0.012),
        ("1 380 g", MASS, 1.38),
        ("1\u2009380,5 g", MASS, 1.3805),
        ("1\u00a0380", MASS, 1.38),
        ("½ kg", MASS, 0.5),
        ("٣ kg", MASS, 3.0),
        ("٣٫٥ kg", MASS, 3.5),
        ("\u200e12\u202c g", MASS, 0.012),
        ("+5 g", MASS, 0.005),
        ("0,125 kg", MASS, 0.125),
        ("1 1/2 in", LENGTH, 0.0381),
        ("1-1/2 in", LENGTH, 0.0381),
        ("1½ in", LENGTH, 0.0381),
        ("1 ½ in", LENGTH, 0.0381),
        ('3/8"', LENGTH, 0.009525),
        ("7⁄8 in", LENGTH, 0.022225),
        ("5' 3\"", LENGTH, 1.6002),
        ("5'3", LENGTH, 1.6002),
        ("5 ft 3 in", LENGTH, 1.6002),
        ("12 m", LENGTH, 12.0),
        ("1h20", TIME, 4800.0),
        ("1 h 20 min", TIME, 4800.0),
        ("90 s", TIME, 90.0),
        ("75", TIME, 4500.0),
        ("3:07:42", TIME, 11262.0),
        ("2 d 4 h", TIME, 187200.0),
        ("25", WARMTH, 298.15),
        ("−5 °C", WARMTH, 268.15),
        ("77 F", WARMTH, 298.15),
        ("25℃", WARMTH, 298.15),
        ("40 psi", GAUGE, 275790.29),
        ("40 psig", GAUGE, 275790.29),
        ("2.76 bar g", GAUGE, 276000.0),
        ("0", GAUGE, 0.0),
        ("14.7 psia", EntrySpec("PascalAbsolute"), 101352.93),
        ("25 inHg vac", EntrySpec("PascalVacuum"), 84659.704),
        ("2 in3", VOLUME, 3.2774128e-5),
        ("5 cm³", VOLUME, 5e-6),
        ("8 US fl oz", VOLUME, 8 * 2.95735295625e-5),
        ("1 UK gal", VOLUME, 4.54609e-3),
        ("1.1", EntrySpec("KilogramPerCubicMetre"), 1100.0),
        ("60 kJ/mol", EntrySpec("JoulePerMole"), 60000.0),
        ("8 %", EntrySpec("Ratio"), 0.08),
        ("8", EntrySpec("Ratio", "%"), 0.08),
        ("0.44", EntrySpec("Ratio"), 0.44),
        ("-3 %", EntrySpec("Ratio", signed=True), -0.03),
        ("18 °F", EntrySpec("KelvinDelta"), 10.0),
    ],
)  # fmt: skip
def test_what_people_write_is_read(text: str, spec: EntrySpec, expected: float) -> None:
    assert value(text, spec) == pytest.approx(expected, rel=1e-6, abs=1e-12)
    if "," not in text:
        assert value(text.replace(".", ","), spec, COMMA) == pytest.approx(expected, rel=1e-6)


def test_x10_a_decimal_comma_never_becomes_ten_times_too_much() -> None:
    for style in (NumberStyle(), COMMA):
        entry = read_quantity("12,5 g", MASS, style)
        assert entry.value == pytest.approx(0.0125)
        assert dict(entry.echo.params)["value"] == Amount(entry.value, "Kilogram", 1, "g")
        assert value("1,5", MASS, style) == value("1.5", MASS, style)
    error = refused("1.000,5", MASS)
    assert error.choices == ("1000.5 g",)
    too_much = EntrySpec("Kilogram", unlikely_above=0.05)
    assert read_quantity("125 g", too_much).unlikely is not None


def test_m08_ounces_and_gallons_are_never_guessed() -> None:
    assert refused("8 oz", EITHER).choices == ("8 oz (weight)", "8 US fl oz", "8 UK fl oz")
    assert refused("8 oz", VOLUME).choices == ("8 US fl oz", "8 UK fl oz")
    assert refused("8 fl oz", VOLUME).choices == ("8 US fl oz", "8 UK fl oz")
    assert refused("1 gal", VOLUME).choices == ("1 US gal", "1 UK gal")
    assert refused("2 pints", EITHER).choices == ("2 US pt", "2 UK pt")
    assert refused("1,5 qt", VOLUME).choices == ("1,5 US qt", "1,5 UK qt")
    assert value("8 oz", MASS) == pytest.approx(0.226796185)
    assert value("2 lb 8 oz", EITHER) == pytest.approx(1.133980925)
    read = [read_quantity(choice, EITHER) for choice in refused("8 oz", EITHER).choices]
    assert [entry.quantity for entry in read] == ["Kilogram", "CubicMetre", "CubicMetre"]
    assert read[1].value * 1100 / read[0].value == pytest.approx(260.25 / 226.8, rel=1e-4)


@pytest.mark.parametrize(
    ("text", "spec", "choices"),
    [
        ("1,234", MASS, ("1.234 g", "1234 g")),
        ("1,234 kg", MASS, ("1.234 kg", "1234 kg")),
        ("1.234,5 g", MASS, ("1234.5 g",)),
        ("1,234.5", MASS, ("1234.5 g",)),
        ("1,234,567 g", MASS, ("1234567 g",)),
        ("-1,234 °C", WARMTH, ("-1.234 °C", "-1234 °C")),
        ("90 m", TIME, ("90 min",)),
        ("1 h 20 m", TIME, ("1 h 20 min",)),
        ("1:20", TIME, ("1 h 20 min", "1 min 20 s")),
        ("25°", WARMTH, ("25 °C", "25 °F")),
        ("-5 deg", WARMTH, ("-5 °C", "-5 °F")),
        ("40 lb", GAUGE, ("40 psi",)),
        ("20 lbs", EntrySpec("Newton"), ("20 lbf",)),
        ("20 kg", EntrySpec("Newton"), ("20 kgf",)),
        ("-25 inHg", EntrySpec("PascalVacuum"), ("25 inHg",)),
        ("25", EntrySpec("Kelvin", unit_needed=True), ("25 °C", "25 °F", "25 K")),
    ],
)
def test_what_is_unclear_is_refused_with_readings_to_choose_from(
    text: str, spec: EntrySpec, choices: tuple[str, ...]
) -> None:
    assert refused(text, spec).choices == choices


def test_a_choice_can_be_read_as_it_stands() -> None:
    for style, text in ((NumberStyle(), "1,234"), (COMMA, "1.234")):
        choices = refused(text, MASS, style).choices
        assert [value(choice, MASS, style) for choice in choices] == pytest.approx(
            [0.001234, 1.234]
        )


def test_the_own_decimal_sign_is_not_asked_about() -> None:
    assert value("1.234 kg", MASS) == pytest.approx(1.234)
    assert value("1,234 kg", MASS, COMMA) == pytest.approx(1.234)


@pytest.mark.parametrize(
    ("text", "spec", "template"),
    [
        ("", MASS, "Nothing is typed yet."),
        ("  \u200b ", MASS, "Nothing is typed yet."),
        ("nan", MASS, "This is not a number."),
        ("inf g", MASS, "This is not a number."),
        ("1e3", MASS, "Write the number out, without E."),
        ("1.5E-3 kg", MASS, "Write the number out, without E."),
        ("-5 g", MASS, "This cannot be less than zero."),
        ("−0 g", MASS, "This cannot be less than zero."),
        ("1" * 41, MASS, "That is too long."),
        ("1/0 kg", MASS, "Nothing can be divided by zero."),
        ("1.2.3", MASS, "Which one is the decimal sign?"),
        ("..", MASS, "This is not a number."),
        (".. 5", MASS, "{rest} cannot be read here."),
        ("1 2 g", MASS, "{rest} cannot be read here."),
        ("~5 g", MASS, "{rest} cannot be read here."),
        ("10–12 g", MASS, "That is a range."),
        ("5²", MASS, "{rest} cannot be read here."),
        ("5 foo", MASS, "{unit} is not a unit used here."),
        ("5 g each", MASS, "{rest} cannot be read here."),
        ("5 ml", MASS, "{unit} measures {what}; this is {wanted}."),
        ("5g 3kg", MASS, "These do not add up."),
        ("5 g 3 g", MASS, "These do not add up."),
        ("2 kg 3 ml", EITHER, "These do not add up."),
        ("1 bar 2 mbar", GAUGE, "These do not add up."),
        ("1h200", TIME, "{number} of what, at the end?"),
        ("5 in 3", LENGTH, "{number} of what, at the end?"),
        ("−300 °C", WARMTH, "Nothing is that cold."),
        ("40 psia", GAUGE, "This field takes {wanted} pressure, not {typed}."),
        ("40 psi vac", GAUGE, "This field takes {wanted} pressure, not {typed}."),
        (
            "40 psig",
            EntrySpec("PascalAbsolute"),
            "This field takes {wanted} pressure, not {typed}.",
        ),
        ("4 psig", EntrySpec("PascalDelta"), "This field takes a difference of pressures."),
        ("4 psig", MASS, "{unit} is not a unit used here."),
        ("4 (g", MASS, "{unit} is not a unit used here."),
        ("25", EntrySpec("Kelvin", unit_needed=True), "{number} of what?"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_words(
    text: str, spec: EntrySpec, template: str
) -> None:
    assert refused(text, spec).title.template == template


def test_an_unknown_unit_names_those_that_are_taken() -> None:
    error = refused("5 foo", EntrySpec("CubicMetre", field="mix.amount"))
    assert isinstance(error, UnknownUnitError)
    assert error.field == "mix.amount"
    assert dict(error.title.params) == {"unit": "foo"}
    assert dict(error.detail.params) == {"accepted": "ml, l, cm³, in³, US fl oz, UK fl oz"}
    plain = refused("5 foo", EntrySpec("Ratio"))
    assert dict(plain.detail.params) == {"accepted": "a plain number, %"}


def test_limits_refuse_the_impossible_and_ask_about_the_unlikely() -> None:
    spec = EntrySpec(
        "Kilogram", lowest=0.001, highest=30.0, unlikely_below=0.01, unlikely_above=10.0
    )
    assert refused("31 kg", spec).title.template == "This is too much."
    assert dict(refused("31 kg", spec).detail.params)["limit"] == Amount(30.0, "Kilogram")
    assert refused("0.5 g", spec).title.template == "This is too little."
    assert read_quantity("25 kg", spec).unlikely is not None
    assert read_quantity("5 g", spec).unlikely is not None
    assert read_quantity("500 g", spec).unlikely is None
    assert read_quantity("10 kg", spec).unlikely is None


def test_a_count_takes_no_part_of_one() -> None:
    cups = count("mix.cups", 1.0, 200.0)
    assert [value(text, cups) for text in ("3", "3.0", "4/2")] == [3.0, 3.0, 2.0]
    error = refused("2.5", cups)
    assert (error.title.template, error.field) == ("Give a whole number.", "mix.cups")


def test_limits_belong_to_the_first_quantity_of_a_field() -> None:
    spec = EntrySpec("Kilogram", also=("CubicMetre",), highest=1e-9, unlikely_above=1e-9)
    entry = read_quantity("250 ml", spec)
    assert (entry.quantity, entry.unlikely) == ("CubicMetre", None)


def test_a_bare_number_takes_the_unit_at_the_field() -> None:
    assert value("5", EntrySpec("Kilogram", "kg")) == 5.0
    assert read_quantity("5", MASS, choice=US).value == pytest.approx(5 * 0.028349523125)
    assert read_quantity("70", WARMTH, choice=MIXED).value == pytest.approx(294.261111)
    assert value("5", EITHER) == pytest.approx(0.005)


def test_places_and_unit_are_remembered_as_typed() -> None:
    def kept(text: str, spec: EntrySpec) -> tuple[str, int | None, str]:
        entry = read_quantity(text, spec)
        return entry.unit, entry.decimals, entry.plain

    assert kept("12,50 g", MASS) == ("g", 2, "12.50 g")
    assert kept("2 lb 8 oz", MASS) == ("oz", 0, "2 lb 8 oz (weight)")
    assert kept("1½ in", LENGTH) == ("in", None, "1 1/2 in")
    assert kept("1h20", TIME) == ("min", 0, "1 h 20 min")
    assert kept("-5", WARMTH) == ("°C", 0, "-5 °C")
    assert kept("0,44", EntrySpec("Ratio")) == ("", 2, "0.44")


def echo(text: str, spec: EntrySpec) -> list[Amount]:
    params = dict(read_quantity(text, spec).echo.params)
    return [amount for name in ("value", "other") if isinstance(amount := params.get(name), Amount)]


def test_the_echo_shows_the_typed_unit_and_the_other_one() -> None:
    assert [(a.unit, a.decimals) for a in echo("2.5 lb", MASS)] == [("lb", 1), ("g", 0)]
    assert [(a.unit, a.decimals) for a in echo("40 psi", GAUGE)] == [("psi", 0), ("bar", 2)]
    assert [(a.unit, a.decimals) for a in echo("25", WARMTH)] == [("°C", 0), ("°F", 0)]
    assert [(a.unit, a.decimals) for a in echo("2 lb 8 oz", MASS)] == [("g", 0)]
    assert [(a.unit, a.decimals) for a in echo("½ lb", MASS)] == [("lb", None), ("g", None)]
    assert [(a.unit, a.decimals) for a in echo("60 kJ/mol", EntrySpec("JoulePerMole"))] == [
        ("kJ/mol", 0)
    ]
    assert [a.unit for a in echo("75", TIME)] == [""]


def test_conversion_keeps_the_rounding_of_what_was_typed() -> None:
    foot, metre, millimetre = (EARLY.get(symbol, "Metre") for symbol in ("ft", "m", "mm"))
    assert kept_places(foot, 0, metre) == 1  # 36 ft is 11.0 m
    assert kept_places(foot, 0, millimetre) == 0
    assert kept_places(metre, 3, millimetre) == 0
    assert kept_places(millimetre, 3, metre) == 6


def test_a_larger_table_knows_the_rarer_units() -> None:
    with pytest.raises(UnknownUnitError):
        read_quantity("2 yd", LENGTH)
    entry = read_quantity("2 yd", LENGTH, table=build_table(LINES))
    assert isinstance(entry, Entry)
    assert entry.value == pytest.approx(1.8288)


@pytest.mark.parametrize(
    ("text", "torr"), [("70 cmHg", 700.0), ("70 cm Hg", 700.0), ("640 mmHg", 640)]
)
def test_a_dial_in_centimetres_of_mercury_is_read(text: str, torr: float) -> None:
    """Common vacuum dials run from 0 to 76 cmHg; a torr is 101325 / 760 Pa."""
    entry = read_quantity(text, EntrySpec("PascalVacuum"), table=build_table(LINES))
    assert entry.value == pytest.approx(torr * 101325 / 760)


@pytest.mark.parametrize(
    ("text", "spec"), [("24-36 h", TIME), ("24 – 48 h", TIME), ("18-22 °C", WARMTH)]
)
def test_a_range_in_one_entry_is_called_one(text: str, spec: EntrySpec) -> None:
    """As data sheets print it: 24-36 h; the shorter and the longest have entries of their own."""
    error = refused(text, spec)
    assert error.title.template == "That is a range."
    assert error.detail.template.startswith("Type one number")


def test_a_ratio_in_one_entry_is_called_one() -> None:
    error = refused("100:44", EntrySpec("Ratio"))
    assert (error.title.template, error.detail.template) == (
        "That is a ratio.", "Each part has its own entry.",
    )  # fmt: skip
    assert refused("100:44", MASS).title.template != "That is a ratio."
