import itertools
import re
from pathlib import Path

import pytest

from shopassist.widgets.tokens import ACROSS, DARK, LIGHT, POT_FIELDS, Tokens, plainer

PACKAGE = Path(__file__).parents[2] / "shopassist"
HEX = re.compile(r"#[0-9A-Fa-f]{6}\b|#[0-9A-Fa-f]{3}\b")

# token: contrast on sheet, bench, raised, as the page of the look gives them
LIGHT_RATIOS = {
    "ink": (15.7, 12.6, 16.6),
    "graphite": (7.1, 5.7, 7.4),
    "stroke": (4.2, 3.4, 4.4),
    "blue": (8.5, 6.8, 8.9),
    "band_edge": (7.6, 6.1, 8.0),
    "error": (7.4, 5.9, 7.8),
    "disabled": (4.6, 3.7, 4.9),
    "line": (6.0, 4.8, 6.3),
}
DARK_RATIOS = {
    "ink": (14.2, 15.8, 12.2),
    "graphite": (8.1, 9.0, 7.0),
    "stroke": (4.8, 5.4, 4.1),
    "blue": (8.7, 9.7, 7.5),
    "band_edge": (8.5, 9.4, 7.3),
    "error": (8.2, 9.1, 7.0),
    "disabled": (5.3, 5.9, 4.5),
    "line": (7.9, 8.8, 6.8),
}
POT_RATIOS = {
    "unknown": 11.3,
    "open": 14.9,
    "closed": 10.7,
    "pressurised": 9.0,
    "letting_down": 7.4,
    "proving": 7.4,
    "clear_to_crack": 11.9,
    "clear_to_open": 11.9,
    "suspect": 9.0,
}
BESIDE = [
    # theme, one token, another, ratio
    (LIGHT, "hair", "sheet", 1.5),
    (DARK, "hair", "sheet", 1.5),
    (LIGHT, "on_blue", "blue", 8.9),
    (DARK, "on_blue", "blue", 9.6),
    (LIGHT, "ink", "select", 13.1),
    (LIGHT, "blue", "select", 7.0),
    (DARK, "ink", "select", 10.6),
    (DARK, "blue", "select", 6.5),
    (LIGHT, "ink", "band", 11.5),
    (DARK, "ink", "band", 8.2),
    (LIGHT, "on_amber", "amber", 9.9),
    (DARK, "on_amber", "amber", 9.9),
    (LIGHT, "amber", "sheet", 1.6),
    (LIGHT, "wood", "sheet", 2.4),
    (LIGHT, "resin", "sheet", 3.0),
    (DARK, "wood", "sheet", 3.3),
    (DARK, "resin", "sheet", 4.4),
    (ACROSS, "ink", "sheet", 18.7),
]


def luminance(colour: str) -> float:
    def channel(at: int) -> float:
        share = int(colour[at : at + 2], 16) / 255
        return share / 12.92 if share <= 0.04045 else float(((share + 0.055) / 1.055) ** 2.4)

    return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)


def contrast(one: str, other: str) -> float:
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_ends_of_its_scale() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#777777", "#777777") == 1.0


@pytest.mark.parametrize(("tokens", "table"), [(LIGHT, LIGHT_RATIOS), (DARK, DARK_RATIOS)])
def test_every_ratio_of_the_palette_is_what_the_page_says(
    tokens: Tokens, table: dict[str, tuple[float, ...]]
) -> None:
    found = {
        name: tuple(
            round(contrast(getattr(tokens, name), ground), 1)
            for ground in (tokens.sheet, tokens.bench, tokens.raised)
        )
        for name in table
    }
    assert found == table


@pytest.mark.parametrize(("tokens", "one", "other", "ratio"), BESIDE)
def test_pairs_that_stand_together_have_their_ratio(
    tokens: Tokens, one: str, other: str, ratio: float
) -> None:
    assert round(contrast(getattr(tokens, one), getattr(tokens, other)), 1) == ratio


def test_the_pot_line_has_the_ratios_of_the_page_and_at_least_seven() -> None:
    found = {face: round(contrast(pair.field, pair.text), 1) for face, pair in POT_FIELDS.items()}
    assert found == POT_RATIOS
    assert min(found.values()) >= 7


@pytest.mark.parametrize("tokens", [LIGHT, DARK, plainer(LIGHT), plainer(DARK), ACROSS])
def test_words_are_readable_on_every_ground_they_stand_on(tokens: Tokens) -> None:
    for name in ("ink", "graphite", "blue", "band_edge", "error", "line"):
        for ground in (tokens.sheet, tokens.bench, tokens.raised):
            assert contrast(getattr(tokens, name), ground) >= 4.5, (name, ground)
    for ground in (tokens.sheet, tokens.raised):
        assert contrast(tokens.disabled, ground) >= 4.5
    assert contrast(tokens.alarm, tokens.on_alarm) >= 7
    assert contrast(tokens.stroke, tokens.raised) >= 3


@pytest.mark.parametrize("tokens", [LIGHT, DARK])
def test_the_edge_of_the_pot_line_stands_out_from_the_bench(tokens: Tokens) -> None:
    for face in POT_FIELDS:
        edge = tokens.pot_edge(face)
        assert (
            contrast(edge, tokens.bench) >= 3 or contrast(POT_FIELDS[face].field, tokens.bench) >= 3
        )


def test_no_pot_state_is_green() -> None:
    for pair in POT_FIELDS.values():
        red, green, blue = (int(pair.field[at : at + 2], 16) for at in (1, 3, 5))
        assert not (green > red and green > blue)


def test_no_colour_is_written_anywhere_but_in_the_tokens() -> None:
    strays = [
        f"{path.name}: {found}"
        for path in PACKAGE.rglob("*.py")
        if path.name != "tokens.py"
        for found in HEX.findall(path.read_text("utf-8"))
    ]
    assert strays == []


def test_more_contrast_leaves_no_pale_words() -> None:
    for tokens, more in ((LIGHT, plainer(LIGHT)), (DARK, plainer(DARK))):
        for name in ("graphite", "stroke", "hair", "disabled"):
            assert contrast(getattr(more, name), more.sheet) >= 7
            assert contrast(getattr(more, name), more.sheet) >= contrast(
                getattr(tokens, name), tokens.sheet
            )


def test_states_with_one_field_differ_by_more_than_colour() -> None:
    from shopassist.widgets import pot_glyph

    for one, other in itertools.combinations(POT_FIELDS, 2):
        if POT_FIELDS[one] == POT_FIELDS[other]:
            assert pot_glyph._GLYPHS[one] is not pot_glyph._GLYPHS[other]
