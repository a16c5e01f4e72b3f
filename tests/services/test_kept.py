"""What is kept is made once for the same, anew for other, and never after a refusal."""

import pytest

from shopassist.services.kept import Kept, Newest


def test_the_same_is_made_once_and_other_anew() -> None:
    made: list[int] = []
    kept: Kept[int] = Kept()

    def make() -> int:
        made.append(len(made))
        return len(made)

    assert [kept.of("a", make), kept.of("a", make), kept.of("b", make)] == [1, 1, 2]
    assert kept.of("a", make) == 3


def test_what_cannot_be_made_is_tried_again_and_nothing_old_is_given() -> None:
    kept: Kept[int] = Kept()
    kept.of("a", lambda: 1)

    def refuse() -> int:
        raise ValueError("no")

    for _ in range(2):
        with pytest.raises(ValueError, match="no"):
            kept.of("b", refuse)
    assert kept.of("a", lambda: 2) == 2


def test_of_many_the_few_asked_for_last_are_kept() -> None:
    made: list[str] = []
    newest: Newest[str, str] = Newest(2)

    def of(key: str) -> str:
        def make() -> str:
            made.append(key)
            return key

        return newest.of(key, make)

    assert [of(key) for key in "abab"] == list("abab")
    assert made == ["a", "b"]
    of("a")
    of("c")
    assert len(newest) == 2
    of("a")
    assert made == ["a", "b", "c"]
    assert newest.take("b") is None
    assert newest.take("a") == "a"
    newest.put("c", "other")
    assert (newest.take("c"), len(newest)) == ("other", 0)
    of("d")
    newest.clear()
    assert len(newest) == 0
