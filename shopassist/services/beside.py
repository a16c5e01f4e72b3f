"""What stands beside the grams of a mix: facts that a page works from, and what it says."""

from collections.abc import Mapping
from dataclasses import field

from shopassist.core.figures import Figure
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.core.scale import Scale
from shopassist.core.sheets import ResinSheet
from shopassist.services.mix import MixPlan
from shopassist.services.said import Said

Caution = tuple[Text, Text]
"""What is so, and what to do about it."""


@frozen
class MixFacts:
    """A mix as it stands, with what was said on its pages."""

    plan: MixPlan
    said: Said
    sheet: ResinSheet | None
    scale: Scale
    reads_millilitres: bool = False
    """The scale can be switched to millilitres, or stands on them now."""
    tolerance: Ratio | None = None
    scale_most: Kilogram | None = None
    """As much as the scale weighs, cup and all."""


ROUNDED = 2.0
"""Steps of the scale by which two rounded parts may differ from what is asked for."""


def mixed(facts: MixFacts) -> Kilogram:
    """What one cup takes; what rounding to the scale's step adds is no more resin."""
    shown, whole = Kilogram(facts.plan.total.value or 0.0), facts.plan.whole
    if whole is None or abs(shown - whole / facts.plan.cups) > ROUNDED * facts.scale.step:
        return shown
    return Kilogram(whole / facts.plan.cups)


@frozen
class Beside:
    """What one page says; problems stand beside the entry of their name."""

    figures: tuple[Figure, ...] = ()
    caution: Caution | None = None
    notes: tuple[Text, ...] = ()
    rows: tuple[tuple[Text, Text], ...] = ()
    problems: Mapping[str, Text] = field(default_factory=dict)
