"""What failures share and successes lack: plain counting over facts, no statistics claimed."""

from collections.abc import Mapping, Sequence

from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say

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


def compare(ones: Sequence[Traits], others: Sequence[Traits]) -> Comparison:
    """List what all of ``ones`` share; what fewest of the ``others`` have stands first."""
    names = list(dict.fromkeys(name for each in ones for name in each))
    shared: list[Shared] = []
    unknown: list[str] = []
    for name in names:
        values = {each.get(name) for each in ones}
        if None in values:
            unknown.append(name)
        elif len(values) == 1:
            value = ones[0][name]
            known = [each[name] for each in others if name in each]
            shared.append(Shared(name, value, known.count(value), len(known)))
    shared.sort(key=lambda each: (not each.tells_apart, _commonness(each)))
    thin = len(ones) < FEW or len(others) < FEW
    return Comparison(tuple(shared), tuple(unknown), thin)


def _commonness(each: Shared) -> float:
    return each.others_with / each.others_known if each.others_known else 1.0
