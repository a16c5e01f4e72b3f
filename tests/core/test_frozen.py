"""Our frozen classes are data classes in every way that is used."""

from dataclasses import FrozenInstanceError, fields, replace

import pytest

from shopassist.core.frozen import frozen


@frozen
class Point:
    """Two numbers."""

    x: int
    y: int = 0


@frozen
class Other:
    """The same two numbers."""

    x: int
    y: int = 0


@frozen
class Nothing:
    """No fields at all."""


@frozen
class Loud:
    """Shows itself its own way."""

    x: int

    def __repr__(self) -> str:
        return "loud"


def test_equal_fields_are_equal_and_hash_alike() -> None:
    assert Point(1, 2) == Point(1, 2)
    assert Point(1, 2) != Point(1, 3)
    assert len({Point(1, 2), Point(1, 2), Point(2, 1)}) == 2
    assert Nothing() == Nothing()
    assert hash(Nothing()) == hash(Nothing())


def test_another_class_is_never_equal() -> None:
    strangers: list[object] = [Other(1, 2), (1, 2)]
    assert Point(1, 2) not in strangers


def test_nothing_is_changed_or_added() -> None:
    point = Point(1)
    with pytest.raises(FrozenInstanceError):
        point.x = 2  # type: ignore[misc]
    with pytest.raises((FrozenInstanceError, AttributeError, TypeError)):
        point.z = 2  # type: ignore[attr-defined]


def test_it_is_shown_replaced_and_listed_as_any_data_class() -> None:
    assert repr(Point(1, 2)) == "Point(x=1, y=2)"
    assert repr(Nothing()) == "Nothing()"
    assert repr(Loud(1)) == "loud"
    assert replace(Point(1), y=5) == Point(1, 5)
    assert [each.name for each in fields(Point)] == ["x", "y"]
