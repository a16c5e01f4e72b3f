"""Whatever is typed into a field is read or plainly refused; what is shown reads back.

Three sorts of entries: rubbish of the pieces that people type and paste, values as the program
shows them, and words that mean two things. ``run(count, seed)``; trial ``n`` is seeded by
``seed + n``.
"""

import random
from pathlib import Path

from shopassist.core.entry import EntrySpec, read_quantity
from shopassist.core.errors import EntryError
from shopassist.core.style import CHOICES, NumberStyle
from shopassist.core.units import BASE_OF, EARLY, build_table
from shopassist.core.wording import Wording
from tests.proofs.report import Report

FULL = 1_000_000
STRETCH = 50_000
STYLES = (NumberStyle("."), NumberStyle(","))
PIECES = (
    *"0123456789", *"0123456789", ".", ",", " ", " ", "\u2009", "\u00a0", "-", "−", "+", "/", ":",
    "½", "¾", "'", '"', "e", "E3", "nan", "inf", "lb", "oz", "g", "kg", "m", "min", "h", "s", "in",
    "ft", "ml", "fl oz", "gal", "US gal", "°C", "°F", "°", "bar", "psi", "psig", "bar abs", "%",
    "cm³", "in3", "W/(m² K)", "ago", "now", "pm", "Thu ", "٣", "²", "\u202e", "\x00", "\n",
)  # fmt: skip
LARGEST = 1e60
NEVER_BELOW = ("Kelvin", "KelvinDelta")
UNITS = Path(__file__).parents[2] / "resources" / "units" / "workshop.txt"
WHOLE = build_table(UNITS.read_text("utf-8").splitlines())
QUANTITIES = tuple(BASE_OF)
AMOUNT = EntrySpec("Kilogram", field="a.field", also=("CubicMetre",))
VOLUME = EntrySpec("CubicMetre", field="a.field")
TWO_MEANINGS = (("oz", AMOUNT), ("oz", VOLUME), ("fl oz", VOLUME), ("gal", VOLUME), ("pt", VOLUME))


def run(count: int, seed: int) -> Report:
    """Type ``count`` entries."""
    failures: list[str] = []
    figures = {"read": 0.0, "refused": 0.0, "shown and read back": 0.0, "two meanings refused": 0.0}
    for number in range(count):
        rng = random.Random(seed + number)
        sort = rng.random()
        try:
            if sort < 0.5:
                figures["read" if _rubbish(rng) else "refused"] += 1
            elif sort < 0.9:
                _shown(rng)
                figures["shown and read back"] += 1
            else:
                _two_meanings(rng)
                figures["two meanings refused"] += 1
        except Exception as error:  # noqa: BLE001 - any of them is what is looked for
            failures.append(f"seed {seed + number}: {type(error).__name__}: {error}")
    return Report(count, seed, tuple(failures), figures)


def _rubbish(rng: random.Random) -> bool:
    """Read or refuse it; what was read reads alike from what is stored."""
    text = "".join(rng.choice(PIECES) for _ in range(rng.randint(1, 9)))
    also = ("CubicMetre",) if rng.random() < 0.2 else ()
    spec = EntrySpec(rng.choice(QUANTITIES), field="a.field", also=also)
    try:
        entry = read_quantity(text, spec, rng.choice(STYLES), WHOLE)
    except EntryError as error:
        _need(bool(error.title.template) and error.field == spec.field, "a refusal says what is so")
        return False
    _need(abs(entry.value) < LARGEST, "no endless number")
    _need(entry.value >= 0 or entry.quantity in NEVER_BELOW, "nothing below nothing")
    again = read_quantity(entry.plain, spec, NumberStyle("."), WHOLE)
    _need(abs(again.value - entry.value) <= 1e-12 * abs(entry.value) + 1e-300, "stored alike")
    return True


def _shown(rng: random.Random) -> None:
    """A value as it is shown reads back within the shown step, in its own style."""
    wording = Wording(rng.choice(STYLES), CHOICES[rng.choice(sorted(CHOICES))])
    quantity, decimals = rng.choice(QUANTITIES), rng.randint(0, 4)
    unit = EARLY.get(wording.units.unit(quantity), quantity)
    value = rng.uniform(-1, 1) * 10.0 ** rng.uniform(-2, 6) * unit.factor + unit.offset
    if quantity == "Kelvin" and value < 0:
        value = -value
    shown = wording.amount(value, quantity, decimals, unit.symbol)
    text = shown.removesuffix(" abs").removesuffix(" vacuum")
    back = wording.read(text, EntrySpec(quantity, signed=True))
    half = 0.5 * 10.0**-decimals * unit.factor
    _need(back.decimals == decimals, f"{shown}: places")
    _need(abs(back.value - value) <= half * (1 + 1e-6) + 1e-9 * abs(value), f"{shown}: value")


def _two_meanings(rng: random.Random) -> None:
    """Refused, with choices that can be taken as they stand."""
    word, spec = rng.choice(TWO_MEANINGS)
    style = rng.choice(STYLES)
    if rng.random() < 0.3:
        sign = "," if style.decimal == "." else "."
        text = f"{rng.randint(1, 999)}{sign}{rng.randint(0, 999):03d} g"
        spec = AMOUNT
    else:
        text = f"{rng.randint(1, 99)} {word}"
    try:
        entry = read_quantity(text, spec, style, WHOLE)
    except EntryError as error:
        _need(len(error.choices) > 1, f"{text}: choices")
        for choice in error.choices:
            read_quantity(choice, spec, style, WHOLE)
        return
    _need(condition=False, what=f"{text} was read as {entry.value}")


def _need(condition: bool, what: str) -> None:
    if not condition:
        raise AssertionError(what)
