"""The words of the log, each with the batches that have it: words are searched, not batches."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from shopassist.core.places import Span, joined, lowest, whole, without


@dataclass(slots=True)
class Words:
    """What is written of each batch, to be found by any part of a word.

    A part of a word stands within one word. So it is enough to know the batches that have each
    word, the words that have each pair of letters, and the batches that have each single letter.
    """

    _text: dict[int, str] = field(default_factory=dict)
    _who: dict[str, Span] = field(default_factory=dict)
    """By word; by single letter those that have it anywhere."""
    _pairs: dict[str, set[str]] = field(default_factory=dict)

    def take(self, texts: Mapping[int, str]) -> None:
        """Take what is written of some batches, by place, instead of what was."""
        fresh: dict[str, int] = {}
        first = min(texts, default=0)
        for place, text in texts.items():
            said, bit = _pieces(text), 1 << (place - first)
            earlier = _pieces(self._text.get(place, ""))
            for piece in earlier - said:
                self._forget(piece, place)
            for piece in said - earlier:
                fresh[piece] = fresh.get(piece, 0) | bit
            self._text[place] = text
        for piece, bits in fresh.items():
            if piece not in self._who:
                for pair in _pairs(piece):
                    self._pairs.setdefault(pair, set()).add(piece)
            low = lowest(bits)
            self._who[piece] = joined(self._who.get(piece), first + low, bits >> low)

    def _forget(self, piece: str, place: int) -> None:
        left = without(self._who[piece], place)
        self._who[piece] = left
        if not left[1]:
            del self._who[piece]
            for pair in _pairs(piece):
                self._pairs[pair].discard(piece)

    def having(self, part: str) -> int:
        """The batches that have a part of a word, in small letters, as a set of places."""
        if len(part) == 1:
            return whole(self._who.get(part, (0, 0)))
        found = 0
        for word in min((self._pairs.get(pair, set()) for pair in _pairs(part)), key=len):
            if part in word:
                found |= whole(self._who[word])
        return found


def _pieces(text: str) -> set[str]:
    """Words and single letters."""
    words = set(text.split())
    return words.union(*words)


def _pairs(word: str) -> set[str]:
    return {word[at : at + 2] for at in range(len(word) - 1)}
