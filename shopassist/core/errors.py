"""Errors that the person at the bench can act on.

Anything that is not a ``ShopError`` is a bug and goes to the error window.
"""

from shopassist.core.messages import Param, Text, say


class ShopError(Exception):
    """Something the user can put right: what, why or how, and beside which field."""

    def __init__(self, title: Text | str, detail: Text | str = "", field: str = "") -> None:
        self.title = say(title) if isinstance(title, str) else title
        self.detail = say(detail) if isinstance(detail, str) else detail
        self.field = field
        super().__init__(self.title.template)


class OutOfRangeError(ShopError):
    """A value lies outside what a formula or a record accepts."""


class EntryError(ShopError):
    """Typed text that cannot be taken as a quantity; may offer readings to choose from."""

    def __init__(
        self,
        title: Text | str,
        detail: Text | str = "",
        field: str = "",
        choices: tuple[str, ...] = (),
    ) -> None:
        super().__init__(title, detail, field)
        self.choices = choices
        """Unambiguous texts, each of which may replace what was typed."""


class RefusedError(ShopError):
    """An act that the procedure or the record does not allow now, with its reason."""


class StoreError(ShopError):
    """The disk, the file or the folder would not do what was asked."""


def out_of_range(field: str, template: str, **params: Param) -> OutOfRangeError:
    """Make an ``OutOfRangeError`` beside one field."""
    return OutOfRangeError(say(template, **params), field=field)
