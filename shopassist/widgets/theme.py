"""Style, palette and a short sheet; follows the system where asked."""

from typing import Literal

from PySide6.QtCore import QObject, Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication

from shopassist.widgets.look import Look
from shopassist.widgets.tokens import DARK, LIGHT, Tokens, plainer

Choice = Literal["light", "dark", "system"]

_ROLES: dict[QPalette.ColorRole, str] = {
    QPalette.ColorRole.Window: "bench",
    QPalette.ColorRole.Base: "raised",
    QPalette.ColorRole.AlternateBase: "sheet",
    QPalette.ColorRole.WindowText: "ink",
    QPalette.ColorRole.ButtonText: "ink",
    QPalette.ColorRole.Text: "ink",
    QPalette.ColorRole.Button: "raised",
    QPalette.ColorRole.Highlight: "select",
    QPalette.ColorRole.HighlightedText: "ink",
    QPalette.ColorRole.PlaceholderText: "graphite",
    QPalette.ColorRole.Link: "blue",
    QPalette.ColorRole.LinkVisited: "blue",
    QPalette.ColorRole.Accent: "blue",
    QPalette.ColorRole.Mid: "stroke",
    QPalette.ColorRole.Midlight: "hair",
    QPalette.ColorRole.Light: "raised",
    QPalette.ColorRole.Dark: "graphite",
    QPalette.ColorRole.Shadow: "hair",
    QPalette.ColorRole.BrightText: "on_blue",
    QPalette.ColorRole.ToolTipBase: "ink",
    QPalette.ColorRole.ToolTipText: "sheet",
}
_DISABLED = (
    QPalette.ColorRole.Text,
    QPalette.ColorRole.WindowText,
    QPalette.ColorRole.ButtonText,
)

_SHEET = """
QMenuBar {{ background: {sheet}; color: {ink}; padding: 1px {u}px; }}
QMenuBar::item {{ background: transparent; padding: 3px {u2}px; }}
QMenuBar::item:selected, QMenu::item:selected {{ background: {select}; color: {ink}; }}
QMenu {{ background: {sheet}; color: {ink}; border: 1px solid {stroke}; padding: {u}px 0; }}
QMenu::item {{ padding: {u}px {u5}px; }}
QMenu::item:disabled, QMenuBar::item:disabled {{ color: {disabled}; }}
QMenu::separator {{ height: 1px; background: {hair}; margin: {u}px 0; }}
QLineEdit, QPlainTextEdit, QComboBox {{
  background: {raised}; border: 2px solid {stroke}; border-radius: 4px; padding: 0 {u15}px;
  min-height: {field}px; selection-background-color: {select}; selection-color: {ink}; }}
QComboBox::drop-down {{ border: none; width: {u5}px; }}
QComboBox QLineEdit {{ border: none; padding: 0; min-height: 0; background: transparent; }}
QLineEdit[typed="true"] {{ color: {blue}; font-weight: bold; }}
QLineEdit[state="default"] {{ color: {graphite}; font-weight: bold; }}
QLineEdit[state="error"] {{ border: 2px solid {error}; border-left-width: 6px; }}
QLineEdit:disabled, QComboBox:disabled {{ border-style: dotted; color: {disabled}; }}
QPushButton {{
  background: {raised}; color: {ink}; border: 2px solid {stroke}; border-radius: 4px;
  padding: 0 {u3}px; min-height: {button}px; font-weight: bold; }}
QPushButton:pressed {{ background: {select}; color: {ink}; }}
QPushButton[kind="primary"] {{ background: {blue}; color: {on_blue}; border-color: {blue}; }}
QPushButton[kind="primary"]:pressed {{ background: {select}; color: {ink}; }}
QPushButton[kind="choice"]:checked {{
  background: {select}; border: 3px solid {blue}; color: {ink}; }}
QPushButton:disabled {{ border-style: dotted; color: {disabled}; background: {raised}; }}
QPushButton[kind="quiet"] {{ border: none; background: transparent; color: {blue}; padding: 0; }}
QPushButton[kind="tab"] {{
  border: none; border-radius: 0; border-bottom: 3px solid transparent; background: transparent;
  color: {blue}; padding: 0 {u}px; }}
QPushButton[kind="tab"]:checked {{ border-bottom-color: {blue}; color: {ink}; }}
QLabel[kind="label"] {{ color: {graphite}; }}
QLabel[kind="title"] {{ font-size: {title}px; font-weight: bold; }}
QLabel[kind="strong"] {{ font-weight: bold; }}
QLabel[kind="count"] {{ font-size: {count}px; font-weight: bold; }}
QLabel[kind="typed"] {{ color: {blue}; font-weight: bold; }}
QLabel[kind="range"] {{ color: {band_edge}; }}
QLabel[kind="error"] {{ color: {error}; }}
QScrollBar:vertical {{ background: transparent; width: {u2}px; }}
QScrollBar:horizontal {{ background: transparent; height: {u2}px; }}
QScrollBar::handle {{ background: {stroke}; border-radius: 2px; min-height: {u5}px; }}
QScrollBar::add-line, QScrollBar::sub-line {{ height: 0; width: 0; }}
QHeaderView::section {{
  background: {sheet}; color: {graphite}; border: none; border-bottom: 1px solid {hair};
  padding: {u}px 3px; text-align: left; }}
QAbstractItemView {{ background: {sheet}; border: none; outline: none; gridline-color: {hair}; }}
QListView::item {{ padding: {u}px {u}px {u}px 0; }}
QAbstractItemView::item:selected {{ background: {select}; color: {ink}; }}
QScrollArea, QScrollArea > QWidget > QWidget {{ background: transparent; border: none; }}
QCheckBox, QRadioButton {{ spacing: {u2}px; }}
QToolTip {{ background: {ink}; color: {sheet}; border: none; padding: {u}px; }}
"""


def palette_of(tokens: Tokens) -> QPalette:
    """Palette of a theme."""
    made = QPalette()
    for role, token in _ROLES.items():
        made.setColor(role, QColor(getattr(tokens, token)))
    for role in _DISABLED:
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(tokens.disabled))
    return made


def sheet_of(look: Look) -> str:
    """Return the short sheet for what a palette cannot say."""
    tokens, u = look.tokens, look.u
    colours = {name: getattr(tokens, name) for name in Tokens.__dataclass_fields__}
    target = look.mm(9)
    sizes = {
        "u": round(u),
        "u15": round(1.5 * u),
        "u2": round(2 * u),
        "u3": round(3 * u),
        "u5": round(5 * u),
        "button": target - 4,
        "field": max(look.mm(6.5), round(2 * look.metrics.body_px)) - 4,
        "title": round(1.2 * look.metrics.body_px),
        "count": round(1.7 * look.metrics.body_px),
    }
    return _SHEET.format_map({**colours, **sizes})


class Theme(QObject):
    """Dresses the application, and again when the system or the choice changes.

    The style below is Fusion; the application is made with it.
    """

    def __init__(self, app: QApplication, look: Look, choice: Choice = "light") -> None:
        super().__init__(app)
        self._app, self._look, self._choice = app, look, choice
        self._worn: tuple[Tokens, int, str] | None = None
        hints = app.styleHints()
        hints.colorSchemeChanged.connect(self._follow)
        accessible = getattr(hints, "accessibility", None)
        if accessible is not None:  # pragma: no branch - older Qt has no such hint
            accessible().contrastPreferenceChanged.connect(self._follow)
        look.changed.connect(self._dress)
        self._follow()
        self._dress()

    def choose(self, choice: Choice) -> None:
        """Take light, dark, or what the system says."""
        self._choice = choice
        self._follow()

    def _follow(self, *_: object) -> None:
        hints = self._app.styleHints()
        dark = self._choice == "dark" or (
            self._choice == "system" and hints.colorScheme() == Qt.ColorScheme.Dark
        )
        tokens = DARK if dark else LIGHT
        accessible = getattr(hints, "accessibility", None)
        if accessible is not None and (
            accessible().contrastPreference() == Qt.ContrastPreference.HighContrast
        ):
            tokens = plainer(tokens)
        self._look.set_tokens(tokens)

    def _dress(self) -> None:
        look = self._look
        worn = (look.tokens, look.metrics.body_px, look.family)
        if worn == self._worn:
            return
        self._worn = worn
        self._app.setPalette(palette_of(look.tokens))
        self._app.setFont(look.font("body"))
        self._app.setStyleSheet(sheet_of(look))
