"""What every painted piece needs: colours, sizes and fonts, and word when they change."""

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QColor, QScreen

from shopassist.widgets import fonts
from shopassist.widgets.fonts import Face, Role
from shopassist.widgets.metrics import Metrics, metrics_for, px_per_mm
from shopassist.widgets.tokens import ACROSS, LIGHT, Tokens

DEFAULT_PX_PER_MM = 96 / 25.4


class Look(QObject):
    """The present look; shared by all pieces of a window."""

    changed = Signal()

    def __init__(self, family: str, tokens: Tokens = LIGHT, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.family = family
        self.caps = fonts.caps_ratio(family)
        self.tokens = tokens
        self.metrics: Metrics = metrics_for(DEFAULT_PX_PER_MM, self.caps)
        self.calibration = 1.0
        self._fonts: dict[tuple[str, int], Face] = {}
        self._roles: dict[Role, Face] = {}
        self._colours: dict[str, QColor] = {}

    def set_tokens(self, tokens: Tokens) -> None:
        """Change the theme."""
        if tokens != self.tokens:
            self.tokens = tokens
            self.changed.emit()

    def set_pitch(self, px_mm: float) -> None:
        """Change the screen's pitch in logical pixels a millimetre."""
        metrics = metrics_for(px_mm, self.caps)
        if metrics != self.metrics:
            self.metrics = metrics
            self._fonts.clear()
            self._roles.clear()
            self.changed.emit()

    def fit_screen(self, screen: QScreen) -> None:
        """Take the pitch of this screen, corrected by the ruler's calibration."""
        size, millimetres = screen.size(), screen.physicalSize()
        self.set_pitch(
            px_per_mm(
                size.width(), millimetres.width(), screen.devicePixelRatio(), self.calibration
            )
        )

    def mm(self, millimetres: float) -> int:
        """Logical pixels of a length."""
        return self.metrics.mm(millimetres)

    @property
    def u(self) -> float:
        """The unit of space."""
        return self.metrics.u

    def font(self, role: Role) -> Face:
        """Font of a role, made once."""
        found = self._roles.get(role)
        if found is None:
            px = fonts.role_px(role, self.metrics, self.caps)
            found = self._roles[role] = self.font_px(px, bold=role not in fonts.REGULAR)
        return found

    def font_px(self, px: float, *, bold: bool) -> Face:
        """Font of any size, made once."""
        key = ("bold" if bold else "regular", round(px))
        if key not in self._fonts:
            self._fonts[key] = fonts.font(self.family, px, bold=bold)
        return self._fonts[key]

    def colour(self, value: str) -> QColor:
        """Make one token into a colour Qt can use, once."""
        if value not in self._colours:
            self._colours[value] = QColor(value)
        return self._colours[value]

    def across(self) -> "Look":
        """A look for the across-the-bench view: these sizes, white on nearly black."""
        other = Look(self.family, ACROSS, self)
        other.metrics = self.metrics
        self.changed.connect(lambda: other.set_pitch(self.metrics.px_per_mm))
        return other
