"""What a bath has taken from the woods before, and whom that would show on."""

from collections.abc import Sequence

from shopassist.core.messages import Text, say

DARK = frozenset({
    "Walnut, black", "Walnut, European", "Redwood, old-growth", "Redcedar, western",
    "Redcedar, eastern", "Yew", "Cherry, black", "Cherry, European", "Plum", "Locust, black",
    "Butternut", "Oak, English", "Elm, English",
})  # fmt: skip
PALE = frozenset({
    "Ash, white", "Ash, European", "Basswood", "Birch, paper", "Birch, yellow",
    "Birch, European", "Box", "Holly", "Hornbeam", "Lime, European", "Maple, bigleaf",
    "Maple, red", "Maple, silver", "Maple, sugar", "Spruce, Sitka", "Sycamore, American",
    "Sycamore (maple), European", "Yellow-poplar", "Alder, red",
})  # fmt: skip
"""Woods that give colour, and woods that show it; common practice, no source."""


def history_text(woods: Sequence[str]) -> Text | None:
    """What it has treated, if anything."""
    if not woods:
        return None
    return say("This bath has treated: {woods}.", woods=", ".join(woods))


def colours_it(wood: str, woods: Sequence[str], colour: str) -> Text | None:
    """A caution where a pale wood goes into a bath that has a colour of its own."""
    if wood not in PALE:
        return None
    if colour not in ("", "clear"):
        return say("{wood} is pale and this bath is {colour}: try a scrap first.",
                   wood=wood, colour=colour)  # fmt: skip
    dark = [each for each in woods if each in DARK]
    if not dark:
        return None
    return say("{wood} is pale and this bath has treated {dark}: try a scrap first.",
               wood=wood, dark=", ".join(dark))  # fmt: skip
