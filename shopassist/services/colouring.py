"""Colours of one mix: grams, the room that is left, and what must not meet."""

from collections.abc import Mapping

from shopassist.core.colour import (
    CAP_DEFAULT,
    Colourant,
    clash,
    colour_room,
    must_not_mix,
)
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kilogram, Ratio
from shopassist.services.beside import Beside, Caution, MixFacts, mixed
from shopassist.services.said import Said

COLOURS = 3
"""Entries for colours of one mix; ours."""


@frozen
class Added:
    """One colour in the mix; no record where it was only typed."""

    number: int
    mass: Kilogram
    colour: Colourant | None
    tried: bool = False


def added_of(
    said: Said, colours: Mapping[str, Colourant], tried: frozenset[str] = frozenset()
) -> tuple[Added, ...]:
    """Colours that were chosen or weighed, in their order."""
    found: list[Added] = []
    for number in range(1, COLOURS + 1):
        name, mass = said.word(f"colour_{number}"), said.get(f"colour_mass_{number}")
        if name or mass:
            found.append(
                Added(number, Kilogram(mass or 0.0), colours.get(name), tried=name in tried)
            )
    return tuple(found)


def colour_total(added: tuple[Added, ...]) -> Kilogram:
    """All colour together; it never enters the ratio."""
    return Kilogram(sum(each.mass for each in added))


def cap_of(added: tuple[Added, ...]) -> Ratio:
    """The strictest cap of the colours in the mix."""
    return min((each.colour.cap for each in added if each.colour is not None), default=CAP_DEFAULT)


def forbidden(facts: MixFacts, added: tuple[Added, ...]) -> Caution | None:
    """A colour that must not go into this resin."""
    family = facts.sheet.family if facts.sheet is not None else "other"
    for each in added:
        if each.colour is not None and must_not_mix(each.colour, family):
            told = clash(each.colour, family, tried=each.tried)
            if told is not None:
                return told, say("Leave it out, or take one that is made for this resin.")
    return None


def over_cap(facts: MixFacts, added: tuple[Added, ...]) -> Caution | None:
    """More colour than the mix takes."""
    mix = mix_of(facts)
    if mix is None or not added:
        return None
    room = colour_room(mix, cap_of(added), tuple(each.mass for each in added))
    if not room.over:
        return None
    return (
        say("Too much colour: {used} of {most}.",
            used=Amount(room.used, "Kilogram"), most=Amount(room.most, "Kilogram")),
        say("More colour weakens the resin and slows its cure."),
    )  # fmt: skip


def too_fine(facts: MixFacts, added: tuple[Added, ...]) -> Caution | None:
    """Less colour in a cup than one step of the scale: its stop would show nothing."""
    if facts.plan.quantity != "Kilogram":
        return None
    least = min((each.mass for each in added if each.mass > 0), default=0.0) / facts.plan.cups
    if not 0 < least < facts.scale.step * (1 - 1e-9):
        return None
    return (
        say("{mass} of colour is less than this scale shows.", mass=Amount(least, "Kilogram")),
        say("Weigh it on a finer scale, or stir a known part of it into A beforehand."),
    )


def mix_of(facts: MixFacts) -> Kilogram | None:
    """All cups together: the colours are typed for the whole mix."""
    plan = facts.plan
    if plan.total.value is None or plan.quantity != "Kilogram":
        return None
    return Kilogram(mixed(facts) * plan.cups)


def shares(facts: MixFacts, added: tuple[Added, ...]) -> tuple[Text, ...]:
    """What each of several cups takes of each colour."""
    if facts.plan.cups == 1:
        return ()
    return tuple(
        say("{name}: {part} into each of {cups} cups.",
            name=each.colour.name if each.colour is not None else "Colour",
            part=Amount(each.mass / facts.plan.cups, "Kilogram"), cups=facts.plan.cups)
        for each in added
        if each.mass > 0
    )  # fmt: skip


def shown_shares(mix: Kilogram, added: tuple[Added, ...]) -> tuple[tuple[Text, Text], ...]:
    """Each colour in grams and as a share of A and B together."""
    return tuple(
        (say("{name}", name=each.colour.name if each.colour is not None else "Colour"),
         say("{mass}, {share}", mass=Amount(each.mass, "Kilogram"),
             share=Amount(each.mass / mix, "Ratio", 1, "%")))
        for each in added
        if each.mass > 0
    )  # fmt: skip


def colouring(facts: MixFacts, added: tuple[Added, ...]) -> Beside:
    """The page of the colours."""
    mix = mix_of(facts)
    notes: list[Text] = [say("Colour never enters the ratio; weigh it between A and B.")]
    family = facts.sheet.family if facts.sheet is not None else "other"
    for each in added:
        if each.colour is not None and not must_not_mix(each.colour, family):
            told = clash(each.colour, family, tried=each.tried)
            notes += [told] if told is not None else []
    if mix is None:
        return Beside(caution=forbidden(facts, added), notes=(*notes, say("Needs grams.")))
    cap = cap_of(added)
    try:
        room = colour_room(mix, cap, tuple(each.mass for each in added))
    except ShopError as error:
        return Beside(problems={"colour_mass_1": error.title}, notes=tuple(notes))
    known: dict[str, Figure | Origin] = {
        "A and B together": facts.plan.total,
        "most of it, as a share": Origin(
            cap, "Ratio", "record" if cap != CAP_DEFAULT else "common practice", unit="%"
        ),
    }
    notes = [*shares(facts, added), *notes]
    figures = tuple(
        Figure(f"mix.colour_{name}", value, "Kilogram", "colour.colour_room", known,
               label=say(label))
        for name, value, label in (("most", room.most, "Most colour"), ("left", room.left, "Left"))
    )  # fmt: skip
    if cap == CAP_DEFAULT:
        notes.append(say("5 % where no colour states its own: upper end of casting guides."))
    caution = forbidden(facts, added) or over_cap(facts, added) or too_fine(facts, added)
    return Beside(figures, caution, tuple(notes), shown_shares(mix, added))
