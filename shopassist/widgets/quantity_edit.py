"""A quantity typed as free text: label, box, and under it how it was read or what to change."""

from typing import Literal

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from shopassist.core.entry import Entry, EntrySpec
from shopassist.core.errors import EntryError
from shopassist.core.messages import Text
from shopassist.core.wording import Wording, spoken
from shopassist.widgets.echo import Echo
from shopassist.widgets.look import Look
from shopassist.widgets.piece import describe, name_it, on_sheet
from shopassist.widgets.quantity_line import QuantityLine

EntryOrigin = Literal[
    "typed",
    "sheet",
    "default",
    "job card",
    "on record",
    "from Blank",
    "from the plan",
    "from Cure",
    "from Stabilise",
    "",
]
OWN: frozenset[EntryOrigin] = frozenset({"typed", ""})
MOST_CHOICES = 4


class QuantityEdit(QWidget):
    """Nothing is red while typing; Enter or leaving judges what stands there.

    ``edited`` carries the ``Entry`` after every key, None while it cannot be read; ``committed``
    the one that was taken, None for an emptied field; ``refused`` the ``EntryError``.
    The line carries the name ``name``; the rest ``name.echo`` and ``name.choice.<n>``.
    """

    edited = Signal(object)
    committed = Signal(object)
    refused = Signal(object)

    def __init__(  # noqa: PLR0913 - a field is told what it is
        self,
        look: Look,
        name: str,
        label: str,
        spec: EntrySpec,
        wording: Wording,
        *,
        strict: bool = False,
        compact: bool = False,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        name_it(self, f"{name}.box", label)
        self.spec, self._wording, self._name = spec, wording, name
        self._committed = ""
        self._origin: EntryOrigin = ""
        self._asking: Entry | None = None
        self._choices: tuple[str, ...] = ()
        self.line = QuantityLine(look, name, label, strict=strict)
        self.echo = Echo(look, f"{name}.echo")
        self.label = QLabel(label)
        self._build(look, compact=compact)
        self.line.textEdited.connect(self._on_edited)
        self.line.entered.connect(self._on_entered)
        if not strict:
            self.line.left.connect(self.commit)
        self.refresh_unit()

    def _build(self, look: Look, *, compact: bool) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(round(look.u / 2))
        self.label.setProperty("kind", "label")
        self.label.setBuddy(self.line)
        self._row = QWidget()
        buttons = QHBoxLayout(self._row)
        buttons.setContentsMargins(0, 0, 0, 0)
        self._buttons = [self._button(number, buttons) for number in range(1, MOST_CHOICES + 1)]
        buttons.addStretch(1)
        for widget in (self.label, self.line, self.echo, self._row):
            column.addWidget(widget)
        if not compact:
            column.addStretch(1)
        self.label.setVisible(not compact)
        self.echo.setVisible(not compact)
        self._compact = compact
        self._row.hide()
        self.setFocusProxy(self.line)
        on_sheet(self)

    def _button(self, number: int, row: QHBoxLayout) -> QPushButton:
        button = QPushButton()
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setObjectName(f"{self._name}.choice.{number}")
        button.setAutoDefault(False)
        button.clicked.connect(lambda: self.choose(number))
        keys = QShortcut(QKeySequence(f"Alt+{number}"), self)
        keys.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        keys.setAutoRepeat(False)
        keys.activated.connect(lambda: self.choose(number))
        row.addWidget(button)
        return button

    # -- setting -------------------------------------------------------------------------------

    @property
    def is_dirty(self) -> bool:
        """Whether something stands here that was not taken yet."""
        return self.line.text().strip() != self._committed

    @property
    def is_settled(self) -> bool:
        """Whether what stands here was taken: it is neither refused nor asked about."""
        refused = self.line.property("state") == "error"
        return not self.is_dirty and not refused and self._asking is None

    @property
    def text(self) -> str:
        """What stands in the line."""
        return self.line.text()

    def refresh_unit(self) -> None:
        """Print the unit of the field; after another choice of units, too."""
        self.line.set_unit(self.spec.unit or self._wording.unit(self.spec.quantity))

    def set_value(
        self, value: float | None, origin: EntryOrigin = "default", decimals: int | None = None
    ) -> None:
        """Show a value in the unit of the field; what is being typed is never overwritten."""
        shown = "" if value is None else self._number(value, decimals)
        self._set(shown, origin if value is not None else "")

    def _number(self, value: float, decimals: int | None) -> str:
        unit = self.spec.unit or self._wording.units.unit(self.spec.quantity)
        return self._wording.split(value, self.spec.quantity, decimals, unit)[0]

    def set_text(self, plain: str, origin: EntryOrigin = "typed") -> None:
        """Show a stored text (``Entry.plain``) as this shop writes it."""
        unit = self.line.unit.text()
        text = plain.removesuffix(f" {unit}") if unit else plain
        self._set(text.replace(".", self._wording.style.decimal), origin if text else "")

    def clear(self) -> None:
        """Empty the field, whatever stands there."""
        self._committed = self.line.text().strip()
        self._set("", "")

    def _set(self, text: str, origin: EntryOrigin) -> None:
        self.refresh_unit()
        if self.line.strict and text:
            raise ValueError("a strict field starts empty and is typed")
        if self.is_dirty:
            return
        if (text, origin) == (self._committed, self._origin) and self._asking is None:
            return
        self._committed, self._origin, self._asking = text, origin, None
        self.line.setText(text)
        self._show_reading()

    # -- typing --------------------------------------------------------------------------------

    def _on_edited(self) -> None:
        self._origin = "typed"
        self._asking = None
        entry = self._show_reading()
        self.edited.emit(entry)

    def _show_reading(self) -> Entry | None:
        """Echo what stands there, without judging it."""
        entry = self._read_quietly()
        is_default = self._origin not in OWN
        self.line.dress("default" if is_default else "")
        words = self._wording.say(entry.echo) if entry is not None else ""
        marked = f"{words} · {self._origin}" if is_default and words else words
        self._tell(marked, "label", ())
        return entry

    def _read_quietly(self) -> Entry | None:
        if not self.line.text().strip():
            return None
        try:
            return self._wording.read(self.line.text(), self.spec)
        except EntryError:
            return None

    def _on_entered(self) -> None:
        """What was taken by Enter stands marked: the next key begins anew, it appends nothing."""
        self.commit()
        if not self.is_dirty and not self.line.strict and self.line.hasFocus():
            self.line.selectAll()

    def commit(self) -> None:
        """Judge what stands there: take it, ask, or say what to change."""
        text = self.line.text().strip()
        told = self._asking is not None or self.line.property("state") == "error"
        if text == self._committed or told:
            return
        if not text:
            self._take(None)
            return
        try:
            entry = self._wording.read(text, self.spec)
        except EntryError as error:
            self._refuse(error)
            return
        if entry.unlikely is not None:
            self._ask(entry, entry.unlikely)
        else:
            self._take(entry)

    def _take(self, entry: Entry | None) -> None:
        self._committed = self.line.text().strip()
        self._asking = None
        self._origin = "typed" if entry is not None else ""
        self._show_reading()
        self.committed.emit(entry)

    def _ask(self, entry: Entry, question: Text) -> None:
        self._asking = entry
        kept = self._wording.amount(entry.value, entry.quantity, entry.decimals, entry.unit)
        self._tell(self._wording.say(question), "strong", (f"Keep {kept}",))

    def _refuse(self, error: EntryError) -> None:
        self.line.dress("error")
        self._tell(self._wording.complaint(error), "error", error.choices[:MOST_CHOICES])
        self.refused.emit(error)

    def show_error(self, error: EntryError) -> None:
        """Show a refusal that came from elsewhere, for instance from a service."""
        self._refuse(error)

    def choose(self, number: int) -> None:
        """Take one of the readings offered, or keep what was asked about."""
        if not 1 <= number <= len(self._choices):
            return
        if self._asking is not None:
            self._take(self._asking)
            return
        self.line.setText(self._choices[number - 1])
        self._on_edited()
        self.commit()

    # -- words under the box -------------------------------------------------------------------

    def _tell(self, words: str, kind: str, choices: tuple[str, ...]) -> None:
        self.echo.say(words, kind)
        wanted = not self._compact or kind != "label"
        if self.echo.isHidden() == wanted:
            self.echo.setVisible(wanted)
        describe(self.line, spoken(words))
        if choices != self._choices:
            self._offer(choices)

    def _offer(self, choices: tuple[str, ...]) -> None:
        self._choices = choices
        for number, button in enumerate(self._buttons, start=1):
            button.setVisible(number <= len(choices))
            if number <= len(choices):
                button.setText(f"Alt {number}   {choices[number - 1]}")
                button.setAccessibleName(choices[number - 1])
        self._row.setVisible(bool(choices))
