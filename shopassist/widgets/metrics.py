"""Millimetres to pixels, and the unit that spacing is counted in."""

import math

from shopassist.core.frozen import frozen

MM_PER_INCH = 25.4
LOWEST_PPI, HIGHEST_PPI = 80.0, 260.0
BODY_CAPS_MM = 2.3
LEAST_BODY_PX = 15


@frozen
class Metrics:
    """Sizes on one screen, in logical pixels."""

    px_per_mm: float
    body_px: int = LEAST_BODY_PX

    def mm(self, millimetres: float) -> int:
        """Logical pixels that cover at least so many millimetres."""
        return math.ceil(millimetres * self.px_per_mm - 1e-6)

    @property
    def u(self) -> float:
        """The unit of space: a third of the body size."""
        return self.body_px / 3


def px_per_mm(logical_px: float, physical_mm: float, ratio: float, calibration: float) -> float:
    """Logical pixels a millimetre, from what the screen says of itself.

    Screens lie about their size, so the device pitch is held between 80 and 260 ppi before the
    ruler's calibration factor is applied.
    """
    told = logical_px * ratio / physical_mm * MM_PER_INCH if physical_mm > 0 else 96.0 * ratio
    held = min(max(told, LOWEST_PPI), HIGHEST_PPI)
    return held / MM_PER_INCH / ratio * calibration


def metrics_for(px_mm: float, caps_of_body: float) -> Metrics:
    """Metrics for a pitch and a font whose capitals are so many body sizes high."""
    body = math.ceil(BODY_CAPS_MM * px_mm / caps_of_body - 1e-6)
    return Metrics(px_mm, max(LEAST_BODY_PX, body))
