"""Words found by any part of them, against a plain look through every text."""

from hypothesis import given
from hypothesis import strategies as st

from shopassist.core.places import set_of
from shopassist.services.log_words import Words

TEXTS = st.dictionaries(st.integers(0, 60), st.text("abß 1\n\t", max_size=9), max_size=12)
PART = st.text("abß1", min_size=1, max_size=4)


@given(st.lists(TEXTS, max_size=4), PART)
def test_a_part_of_a_word_is_found_wherever_a_plain_look_finds_it(
    taken: list[dict[int, str]], part: str
) -> None:
    words, plain = Words(), dict[int, str]()
    for texts in taken:
        words.take(texts)
        plain |= texts
    assert words.having(part) == set_of(place for place, text in plain.items() if part in text)


def test_words_that_nobody_has_any_more_are_let_go() -> None:
    words, bare = Words(), Words()
    for text in ("1 oak knob", "12 oak knobs", "120 ash", ""):
        words.take({7: text})
    bare.take({7: ""})
    assert words._who == bare._who == {}
    assert not any(words._pairs.values())


def test_a_letter_asks_for_no_more_than_a_letter() -> None:
    words = Words()
    words.take({0: "a oak", 1: "ash", 2: "elm"})
    words.take({1: "elm"})
    assert words.having("a") == set_of([0])
    assert words.having("x") == words.having("xy") == 0


def test_pairs_of_letters_are_not_enough() -> None:
    words = Words()
    words.take({0: "lmel", 1: "elm"})
    assert words.having("elm") == set_of([1])
