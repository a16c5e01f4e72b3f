"""Our frozen classes are data classes in every way that is used."""

import copy
import dataclasses
from dataclasses import FrozenInstanceError, field, fields
from typing import Generic, TypeVar

import pytest

from shopassist.core.frozen import frozen, replace

T = TypeVar("T")


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
    assert replace(Point(1), y=5) == dataclasses.replace(Point(1), y=5) == Point(1, 5)
    assert [each.name for each in fields(Point)] == ["x", "y"]


@frozen
class Filled:
    """Fields of every kind."""

    needed: int
    listed: dict[str, int] = field(default_factory=dict)
    doubled: int = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "doubled", 2 * self.needed)


@frozen
class Named(Point):
    """Two numbers and a name."""

    name: str = ""


def test_a_factory_makes_a_new_value_for_each_and_what_follows_is_worked_out() -> None:
    one, two = Filled(1), Filled(2, {"a": 1})
    assert one.listed == {}
    assert one.listed is not Filled(1).listed
    assert (two.listed, two.doubled) == ({"a": 1}, 4)
    assert replace(one, needed=5).doubled == dataclasses.replace(one, needed=5).doubled == 10


def test_a_copy_leaves_the_first_one_alone_and_knows_its_fields() -> None:
    one = Named(1, 2, "n")
    assert replace(one, name="m", x=3) == Named(3, 2, "m")
    assert one == Named(1, 2, "n")
    with pytest.raises(TypeError, match="Named has no field 'nosuch'"):
        replace(one, nosuch=1)  # type: ignore[call-arg]


@frozen
class Held(Generic[T]):
    """One of any kind."""

    one: T


def test_a_copy_of_a_generic_class_is_of_that_class_and_as_frozen() -> None:
    other = replace(Held(1), one=2)
    assert type(other) is Held
    assert other == Held(2)
    with pytest.raises(FrozenInstanceError):
        other.one = 3  # type: ignore[misc]


def test_an_heir_has_the_fields_of_both() -> None:
    assert Named(1, 2, "n") == Named(1, 2, name="n")
    assert Named(1) != Point(1)
    assert repr(Named(1)) == "Named(x=1, y=0, name='')"


def test_a_wrong_call_is_refused_by_the_name_of_the_class() -> None:
    for _ in range(2):
        with pytest.raises(TypeError, match=r"Filled\.__init__"):
            Filled()  # type: ignore[call-arg]
        with pytest.raises(TypeError, match="nosuch"):
            Filled(1, nosuch=2)  # type: ignore[call-arg]


def test_nothing_is_removed() -> None:
    point = Point(1)
    with pytest.raises(FrozenInstanceError):
        del point.x


def test_a_copy_is_equal_and_a_deep_one_shares_nothing() -> None:
    filled = Filled(1, {"a": 1})
    assert copy.copy(filled) == copy.deepcopy(filled) == filled
    assert copy.deepcopy(filled).listed is not filled.listed
