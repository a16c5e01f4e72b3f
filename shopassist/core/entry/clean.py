"""Typed characters brought to the few that the grammar knows."""

import unicodedata

from shopassist.core.errors import EntryError
from shopassist.core.messages import say

LONGEST = 40
"""Characters that an entry may have."""
_FRACTIONS = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8",
    "⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip
_SAME = {
    "−": "-", "‐": "-", "‑": "-", "﹣": "-", "－": "-", "＋": "+", "⁄": "/", "∕": "/", "／": "/",
    "．": ".", "٫": ".", "，": ",", "：": ":", "％": "%", "℃": "°C", "℉": "°F", "º": "°", "μ": "µ",
    "㎜": "mm", "㎝": "cm", "㎎": "mg", "㎏": "kg", "㎖": "ml", "ℓ": "l", "⋅": "·",
}  # fmt: skip


def clean(text: str, field: str = "") -> str:
    """Bring digits, signs, fractions and blanks to plain ones; drop what cannot be seen."""
    seen = "".join(_plain(character) for character in text).strip()
    if len(seen) > LONGEST:
        raise EntryError(
            say("That is too long."), say("Type at most {n} characters.", n=LONGEST), field
        )
    return " ".join("".join(map(_written_out, seen)).split())


def _plain(character: str) -> str:
    """One visible character, a blank, or nothing."""
    if character < "\x7f" and character.isprintable():
        return character
    category = unicodedata.category(character)
    if category[0] == "Z" or character in "\t\n\r\v\f\x85":
        return " "
    if category in ("Cc", "Cf"):
        return ""
    digit = unicodedata.decimal(character, None)
    return character if digit is None else str(digit)


def _written_out(character: str) -> str:
    """A glyph that stands for several plain characters, spelled out."""
    fraction = _FRACTIONS.get(character)
    return f" {fraction}" if fraction else _SAME.get(character, character)
