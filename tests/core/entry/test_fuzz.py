"""Whatever is typed, the answer is a quantity or a plain refusal; what we write we can read."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.entry import EntrySpec, read_moment, read_quantity
from shopassist.core.errors import EntryError
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading
from shopassist.core.style import CHOICES, NumberStyle
from shopassist.core.units import BASE_OF, EARLY, build_table
from shopassist.core.wording import Wording
from tests.core.workshop import LINES

NOW = Reading(UtcSecond(1_790_000_000.0), Second(600.0), "boot", Second(3600.0))
STYLES = (NumberStyle("."), NumberStyle(","))
PIECES = (
    *"0123456789", *"0123456789", ".", ",", " ", " ", "\u2009", "\u00a0", "-", "−", "+", "/", ":",
    "½", "¾", "'", '"', "e", "E3", "nan", "inf", "lb", "oz", "g", "kg", "m", "min", "h", "s", "in",
    "ft", "ml", "fl oz", "gal", "US gal", "°C", "°F", "°", "bar", "psi", "psig", "bar abs", "%",
    "cm³", "in3", "W/(m² K)", "ago", "now", "pm", "Thu ", "٣", "²", "\u202e", "\x00", "\n", "💧",
)  # fmt: skip
WHOLE = build_table(LINES)
QUANTITIES = tuple(BASE_OF)


def is_plain(refusal: EntryError, text: str, spec: EntrySpec) -> bool:
    """Hold a refusal to its form; False, because nothing was read."""
    assert refusal.title.template
    assert refusal.field == spec.field
    assert text not in refusal.choices
    return False


def try_it(text: str, spec: EntrySpec, style: NumberStyle) -> bool:
    """True when it was read; any error but a refusal fails the test."""
    try:
        entry = read_quantity(text, spec, style, WHOLE)
    except EntryError as error:
        return is_plain(error, text, spec)
    assert abs(entry.value) < 1e60
    if entry.quantity not in ("Kelvin", "KelvinDelta"):
        assert entry.value >= 0
    again = read_quantity(entry.plain, spec, NumberStyle("."), WHOLE)
    assert again.value == pytest.approx(entry.value, rel=1e-12, abs=1e-300)
    return True


def test_ten_thousand_random_entries_are_read_or_refused() -> None:
    rng = random.Random(20260921)
    read = 0
    for _ in range(10_000):
        text = "".join(rng.choice(PIECES) for _ in range(rng.randint(1, 9)))
        also = ("CubicMetre",) if rng.random() < 0.2 else ()
        spec = EntrySpec(rng.choice(QUANTITIES), field="a.field", also=also)
        read += try_it(text, spec, rng.choice(STYLES))
    assert read > 300


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=60), st.sampled_from(QUANTITIES), st.sampled_from(STYLES))
def test_any_text_is_read_or_refused(text: str, quantity: str, style: NumberStyle) -> None:
    try_it(text, EntrySpec(quantity, field="a.field"), style)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=8).map("".join), st.booleans())
def test_any_clock_time_is_read_or_refused(text: str, ahead: bool) -> None:
    try:
        instant = read_moment(text, NOW, ahead=ahead)
    except EntryError:
        return
    assert instant >= NOW.utc if ahead and "ago" not in text else instant <= NOW.utc


SHOWN = st.floats(min_value=-1e6, max_value=1e6, allow_nan=False)


@settings(max_examples=500, deadline=None)
@given(
    SHOWN,
    st.sampled_from(QUANTITIES),
    st.integers(min_value=0, max_value=4),
    st.sampled_from(STYLES),
    st.sampled_from(sorted(CHOICES)),
)
def test_what_is_shown_reads_back_within_the_shown_step(
    number: float, quantity: str, decimals: int, style: NumberStyle, choice: str
) -> None:
    wording = Wording(style, CHOICES[choice])
    unit = EARLY.get(wording.units.unit(quantity), quantity)
    value = number * unit.factor + unit.offset
    if quantity == "Kelvin" and value < 0:
        return
    spec = EntrySpec(quantity, signed=True)
    shown = wording.amount(value, quantity, decimals, unit.symbol)
    back = wording.read(shown.removesuffix(" abs").removesuffix(" vacuum"), spec)
    assert back.decimals == decimals
    half_step = 0.5 * 10.0**-decimals * unit.factor
    assert abs(back.value - value) <= half_step * (1 + 1e-6) + 1e-9 * abs(value)


@settings(max_examples=300, deadline=None)
@given(st.floats(min_value=0, max_value=1e7), st.sampled_from(STYLES))
def test_a_length_of_time_reads_back_within_its_smaller_unit(
    seconds: float, style: NumberStyle
) -> None:
    wording = Wording(style)
    back = wording.read(wording.duration(seconds), EntrySpec("Second")).value
    step = 1.0 if seconds < 599 else 60.0 if seconds < 172_700 else 3600.0
    assert abs(back - seconds) <= step / 2 + 0.5
