"""What a formula says of itself: its docstring taken apart, and the constants that it uses."""

import re
from collections.abc import Callable, Mapping
from inspect import cleandoc

from shopassist.core.frozen import frozen

SECTION = re.compile(r"^(\w+)\n-{3,}\n", re.MULTILINE)
UNIT = re.compile(r",?\s*\[[^\]]*\]")
CONSTANT_UNITS = {
    "GAS_CONSTANT": "J/(mol K)",
    "STANDARD_GRAVITY": "m/s²",
    "AIR_CONSTANT": "J/(kg K)",
    "EARTH_RADIUS": "m",
    "LAPSE": "K/m",
    "SEA_LEVEL": "Pa",
    "SEA_LEVEL_TEMPERATURE": "K",
    "POUND_PER_SQUARE_INCH": "Pa",
}
"""Units of the constants that have one."""
LIMITS = frozenset({"FUZZ", "STEPS", "LOWEST", "HIGHEST", "ROUNDING", "SPECK"})
"""Names of numbers that bound or steer a computation and are no constants of nature or trade."""


@frozen
class FormulaText:
    """The parts of a formula's docstring."""

    summary: str
    math: str = ""
    plain: str = ""
    parameters: Mapping[str, str] | None = None
    """What each parameter is, without its unit."""
    notes: str = ""
    sources: tuple[str, ...] = ()

    def parameter(self, name: str) -> str:
        """What a parameter is; its own name in words where the docstring does not say."""
        return (self.parameters or {}).get(name, name.replace("_", " "))


def formula_text(doc: str | None) -> FormulaText:
    """Take a docstring apart; without one there is nothing to say."""
    if not doc:
        return FormulaText("")
    head, *rest = SECTION.split(cleandoc(doc))
    parts = dict(zip(rest[::2], rest[1::2], strict=True))
    return FormulaText(
        summary=" ".join(head.partition("\n\n")[0].split()),
        math=_paragraph(head, ".. math::"),
        plain=_paragraph(head, "Plain:"),
        parameters=_parameters(parts.get("Parameters", "")),
        notes=" ".join(parts.get("Notes", "").split()),
        sources=tuple(
            re.split(r"[\s,]+", sources) if (sources := parts.get("Sources", "").strip()) else ()
        ),
    )


def _paragraph(text: str, start: str) -> str:
    """The paragraph that begins with a word, without that word, on one line."""
    found = re.search(rf"^{re.escape(start)}(.*?)(?:\n\n|\Z)", text, re.MULTILINE | re.DOTALL)
    return " ".join(found[1].split()) if found else ""


def _parameters(text: str) -> dict[str, str]:
    found: dict[str, str] = {}
    name = ""
    for line in filter(None, text.splitlines()):
        if not line.startswith(" "):
            name = line.partition(":")[0].strip()
            found[name] = ""
        else:
            found[name] = f"{found[name]} {line.strip()}".strip()
    return {key: UNIT.sub("", value).rstrip(".") for key, value in found.items()}


@frozen
class Constant:
    """A number that a formula uses and nobody types."""

    name: str
    value: float
    unit: str = ""


def constants_of(function: Callable[..., object]) -> tuple[Constant, ...]:
    """Constants that the code of a formula names, in the order of its code."""
    code = getattr(function, "__code__", None)
    known: Mapping[str, object] = getattr(function, "__globals__", {})
    if code is None:
        return ()
    found = []
    for name in code.co_names:
        value = known.get(name)
        if name.isupper() and name not in LIMITS and isinstance(value, int | float):
            words = name.replace("_", " ").lower()
            found.append(Constant(words, float(value), CONSTANT_UNITS.get(name, "")))
    return tuple(found)
