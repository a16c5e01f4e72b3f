"""Every colour of the program. No other file may hold one; a test recomputes the contrasts."""

from dataclasses import replace
from typing import Literal

from shopassist.core.frozen import frozen

PotFace = Literal[
    "unknown",
    "open",
    "closed",
    "pressurised",
    "letting_down",
    "proving",
    "clear_to_crack",
    "clear_to_open",
    "suspect",
]


@frozen
class PotField:
    """The two colours of the pot line in one state."""

    field: str
    text: str


_PAPER_TEXT = "#1B1F24"
_LET_DOWN = PotField("#F08A24", "#14120F")
_CLEAR = PotField("#3B2A73", "#FFFFFF")
_FULL = PotField("#8E1B1B", "#FFFFFF")

_DARK_TEXTS = (_PAPER_TEXT, _LET_DOWN.text)
POT_FIELDS: dict[PotFace, PotField] = {
    "unknown": PotField("#3A3A42", "#FFFFFF"),
    "open": PotField("#F6F3EC", _PAPER_TEXT),
    "closed": PotField("#D9CFBC", _PAPER_TEXT),
    "pressurised": _FULL,
    "letting_down": _LET_DOWN,
    "proving": _LET_DOWN,
    "clear_to_crack": _CLEAR,
    "clear_to_open": _CLEAR,
    "suspect": _FULL,
}
"""The same in both themes: a pot must not look different at night."""


@frozen
class Tokens:
    """One theme. Names are uses, not hues."""

    name: Literal["light", "dark", "across"]
    bench: str
    """Window behind the panes, rail."""
    sheet: str
    """Panes, next line, menu."""
    raised: str
    """Fields, buttons, the lid's disc."""
    ink: str
    """Computed figures, words, rules."""
    graphite: str
    """Labels, units, echoes, past time."""
    stroke: str
    """Edges of fields and buttons, small graduations."""
    hair: str
    """Separation only; carries no meaning."""
    blue: str
    """Typed values, the primary button, focus, explain mark."""
    on_blue: str
    select: str
    """Selected row or text, typed target band, pressed button."""
    band: str
    """Fill of an estimated range, always with edges."""
    band_edge: str
    """Edges and text of a range, hatching of wood."""
    error: str
    """Refused entry, rated-pressure line."""
    alarm: str
    on_alarm: str
    """Words on the band of a high alarm."""
    disabled: str
    line: str
    """Named levels in charts."""
    wood: str
    resin: str
    amber: str = "#F2C230"
    on_amber: str = _PAPER_TEXT

    def pot(self, face: PotFace) -> PotField:
        """Colours of the pot line in one state."""
        return POT_FIELDS[face]

    def pot_edge(self, face: PotFace) -> str:
        """Colour of the two edges that hold the pot line against its surroundings."""
        text = POT_FIELDS[face].text
        return self.ink if self.name == "light" or text in _DARK_TEXTS else text


LIGHT = Tokens(
    name="light",
    bench="#E6E0D4",
    sheet="#FBF9F4",
    raised="#FFFFFF",
    ink=_PAPER_TEXT,
    graphite="#50565C",
    stroke="#7F776A",
    hair="#D3CBBB",
    blue="#174A86",
    on_blue="#FFFFFF",
    select="#DCE6F1",
    band="#E9D5B4",
    band_edge="#6E4917",
    error="#A11D1D",
    alarm="#A11D1D",
    on_alarm="#FFFFFF",
    disabled="#757169",
    line="#0B63A5",
    wood="#C79A63",
    resin="#8C9096",
)
DARK = Tokens(
    name="dark",
    bench="#121416",
    sheet="#1C1F23",
    raised="#272B30",
    ink="#F1EDE4",
    graphite="#B3B6B4",
    stroke="#858B91",
    hair="#363B41",
    blue="#94C0F2",
    on_blue="#10161D",
    select="#22364C",
    band="#54422A",
    band_edge="#DDB27C",
    error="#FF9C8C",
    alarm="#A11D1D",
    on_alarm="#FFFFFF",
    disabled="#8F9293",
    line="#6CBBEE",
    wood="#8A6A42",
    resin="#7E848B",
)
ACROSS = replace(
    DARK, name="across", bench="#101216", sheet="#101216", ink="#FFFFFF", graphite="#C4C7C7"
)
"""The view for reading from across the bench: white on nearly black."""


def plainer(tokens: Tokens) -> Tokens:
    """The same theme for people who ask the system for more contrast: no greys."""
    return replace(
        tokens,
        graphite=tokens.ink,
        stroke=tokens.ink,
        hair=tokens.ink,
        disabled=tokens.graphite,
    )
