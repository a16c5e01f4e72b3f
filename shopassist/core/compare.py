"""What failures share and successes lack: plain counting over facts, no statistics claimed."""

from collections.abc import Mapping, Sequence

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.places import Span, joined, lowest, whole, without

Traits = Mapping[str, str]
"""Facts of one batch as words, by their name; what nobody wrote down is absent."""
FEW = 3
"""Under this many on either side the result is called thin; ours."""


@frozen
class Shared:
    """One fact that all of one side have in common."""

    name: str
    value: str
    others_with: int
    """How many of the other side have it too."""
    others_known: int
    """Of how many of the other side it is known at all."""

    @property
    def tells_apart(self) -> bool:
        """True where the other side is known and nobody there has it."""
        return self.others_known > 0 and self.others_with == 0


@frozen
class Comparison:
    """The facts in common, those that tell the two sides apart first."""

    shared: tuple[Shared, ...]
    unknown: tuple[str, ...]
    """Facts that some of the one side did not write down."""
    thin: bool
    """Too few batches to conclude anything."""

    @property
    def verdict(self) -> Text:
        """One sentence for the head of the table."""
        apart = [each for each in self.shared if each.tells_apart]
        if not apart:
            return say("Nothing on record is common to these and missing in the others.")
        first = say("{name}: {value}", name=apart[0].name, value=apart[0].value)
        if self.thin:
            return say("Too few to conclude: look at {first}.", first=first)
        return say("Look first at {first}.", first=first)


class Tally:
    """Facts of many batches, counted by the places of those that have them (``core/places``)."""

    def __init__(self) -> None:
        self._traits: dict[int, Traits] = {}
        self._known: dict[str, int] = {}
        self._having: dict[tuple[str, str], Span] = {}

    def put(self, place: int, traits: Traits) -> None:
        """Take the facts of one batch in place of what stood for it before."""
        earlier = self._traits.get(place, {})
        if earlier == traits:
            return
        for name, value in earlier.items():
            self._known[name] &= ~(1 << place)
            self._having[name, value] = without(self._having[name, value], place)
        for name, value in traits.items():
            self._known[name] = self._known.get(name, 0) | 1 << place
            self._having[name, value] = joined(self._having.get((name, value)), place, 1)
        self._traits[place] = traits

    def compare(self, ones: int, others: int) -> Comparison:
        """List what all of ``ones`` share; what fewest of the ``others`` have stands first."""
        shared: list[Shared] = []
        unknown: list[str] = []
        for name, known in self._known.items():
            if not known & ones:
                continue
            if ones & ~known:
                unknown.append(name)
                continue
            value = self._traits[lowest(ones)][name]
            who = whole(self._having[name, value])
            if not ones & ~who:
                counts = (who & others).bit_count(), (known & others).bit_count()
                shared.append(Shared(name, value, *counts))
        shared.sort(key=lambda each: (not each.tells_apart, _commonness(each)))
        thin = min(ones.bit_count(), others.bit_count()) < FEW
        return Comparison(tuple(shared), tuple(unknown), thin)


def compare(ones: Sequence[Traits], others: Sequence[Traits]) -> Comparison:
    """Compare two sides that are given whole."""
    tally = Tally()
    for place, traits in enumerate((*ones, *others)):
        tally.put(place, traits)
    first = (1 << len(ones)) - 1
    return tally.compare(first, (1 << len(ones) + len(others)) - 1 - first)


def _commonness(each: Shared) -> float:
    return each.others_with / each.others_known if each.others_known else 1.0
