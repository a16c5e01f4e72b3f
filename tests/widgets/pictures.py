"""Pictures as people see them: in grey, and with the three kinds of colour vision less common.

The matrices are those of Machado, Oliveira and Fernandes (2009) at full severity, from memory, on
linear light.
"""

from PySide6.QtGui import QColor, QImage

MATRICES = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216),
               (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413),
               (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602),
               (0.004733, 0.691367, 0.303900)),
}  # fmt: skip
VISIONS = ("grey", *MATRICES)
Pixels = tuple[tuple[float, float, float], ...]
WIDE = 48


def plainly(image: QImage, vision: str) -> Pixels:
    """A small picture as one kind of eye sees it, in linear light."""
    small = image.scaledToWidth(WIDE)
    found = []
    for y in range(small.height()):
        for x in range(small.width()):
            colour = QColor(small.pixel(x, y))
            found.append(_seen((colour.redF(), colour.greenF(), colour.blueF()), vision))
    return tuple(found)


def _seen(rgb: tuple[float, float, float], vision: str) -> tuple[float, float, float]:
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in rgb]
    if vision == "grey":
        light = 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
        return light, light, light
    rows = MATRICES[vision]
    red, green, blue = (
        min(1.0, max(0.0, sum(a * b for a, b in zip(row, linear, strict=True)))) for row in rows
    )
    return red, green, blue


def apart(one: Pixels, two: Pixels) -> float:
    """Mean distance of two pictures, 0 for the same."""
    total = sum(
        max(abs(a - b) for a, b in zip(first, second, strict=True))
        for first, second in zip(one, two, strict=True)
    )
    return total / len(one)
