"""The small bracket beside a number: filled = estimated, hollow = allowed, blue = a target."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter

from shopassist.widgets import strokes
from shopassist.widgets.look import Look
from shopassist.widgets.shown import BracketShown

WIDTH_U, HEIGHT_U = 11.0, 2.4


def share(shown: BracketShown) -> float | None:
    """Where the value truly lies between low and high, 0 … 1."""
    if shown.at is None or shown.high <= shown.low:
        return None
    return min(max((shown.at - shown.low) / (shown.high - shown.low), 0.0), 1.0)


def paint(painter: QPainter, look: Look, rect: QRectF, shown: BracketShown) -> None:
    """Draw the bracket alone into a rectangle."""
    tokens = look.tokens
    fill, edge = {
        "estimated": (tokens.band, tokens.band_edge),
        "allowed": ("", tokens.ink),
        "target": (tokens.select, tokens.blue),
    }[shown.kind]
    inner = rect.adjusted(0, 0.12 * rect.height(), 0, -0.12 * rect.height())
    colour = look.colour(edge)
    if fill:
        strokes.fill(painter, inner, look.colour(fill))
    else:
        strokes.across(painter, rect.left(), rect.right(), inner.top() + 0.5, colour)
        strokes.across(painter, rect.left(), rect.right(), inner.bottom() - 0.5, colour)
    strokes.fill(painter, QRectF(rect.left(), rect.top(), 2, rect.height()), colour)
    strokes.fill(painter, QRectF(rect.right() - 2, rect.top(), 2, rect.height()), colour)
    place = share(shown)
    if place is not None:
        x = rect.left() + 1 + place * (rect.width() - 2)
        colour = look.colour(tokens.ink if shown.kind == "allowed" else edge)
        strokes.down(painter, x, rect.top() - 1, rect.bottom() + 1, colour, 3)


def paint_with_words(
    painter: QPainter, look: Look, at: tuple[float, float], shown: BracketShown, right: float
) -> None:
    """Draw the bracket from (x, baseline of its words), and the range behind it."""
    x, baseline = at
    u, face = look.u, look.font("body")
    height = HEIGHT_U * u
    middle = baseline - face.caps / 2
    rect = QRectF(x, middle - height / 2, WIDTH_U * u, height)
    paint(painter, look, rect, shown)
    token = {"estimated": "band_edge", "allowed": "ink", "target": "blue"}[shown.kind]
    colour = look.colour(getattr(look.tokens, token))
    start = rect.right() + 1.5 * u
    words = strokes.cut(look.font("body"), shown.text, right - start)
    strokes.write(painter, (start, baseline), words, look.font("body"), colour)
