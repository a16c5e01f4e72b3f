"""The stages of a batch: what waits for what, how long, and what starts each clock."""

from collections.abc import Mapping, Sequence
from typing import Literal

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say
from shopassist.core.quantities import Second

HOUR = 3600.0
Guess = Literal["low", "likely", "high"]
GUESSES: tuple[Guess, ...] = ("low", "likely", "high")
Place = Literal["", "oven", "chamber", "cabinet", "pot", "lathe"]
"""What a stage occupies so that no other batch can use it meanwhile."""
PLACES: tuple[Place, ...] = ("oven", "chamber", "cabinet", "pot", "lathe")


@frozen
class Stage:
    """One step of a batch; durations are the editable default, our judgement."""

    key: str
    name: str
    low: Second
    likely: Second
    high: Second
    hands: Second
    """Share of it that a person must be there, taken at its start."""
    after: tuple[str, ...] = ()
    clock: str = ""
    """What starts its clock, in words."""
    place: Place = ""
    attended: bool = False
    """True where the user may say that it never runs unattended."""

    def lasts(self, guess: Guess) -> Second:
        """Duration by one of the three guesses, [s]."""
        return {"low": self.low, "likely": self.likely, "high": self.high}[guess]


def _stage(  # noqa: PLR0913, PLR0917 - one row of the table
    key: str, name: str, hours: tuple[float, float, float], hands: float, after: str = "",
    clock: str = "", place: Place = "", *, attended: bool = False,
) -> Stage:  # fmt: skip
    """Build one row from hours; ``after`` holds keys side by side."""
    low, likely, high = (Second(each * HOUR) for each in hours)
    return Stage(key, name, low, likely, high, Second(hands * HOUR), tuple(after.split()), clock,
                 place, attended)  # fmt: skip


STAGES: tuple[Stage, ...] = (
    _stage("rough", "Rough-turn cores, cut grooves", (0.5, 1, 2), 1, place="lathe"),
    _stage("dry", "Dry in the oven", (12, 24, 48), 0.5, "rough", "oven at temperature", "oven",
           attended=True),
    _stage("cool_dry", "Cool, sealed", (1, 2, 4), 0.1, "dry", "out of the oven"),
    _stage("vacuum", "Vacuum in the bath", (1, 4, 24), 0.5, "cool_dry",
           "resin covers the wood, pump on", "chamber", attended=True),
    _stage("soak", "Soak", (12, 24, 48), 0.1, "vacuum", "air let in", "chamber"),
    _stage("wrap", "Drain, wipe, wrap in foil", (0.3, 0.5, 1), 0.5, "soak"),
    _stage("heat_up", "Oven: core comes to temperature", (1, 2.5, 4), 0.1, "wrap",
           "oven at its setting", "oven", attended=True),
    _stage("bake", "Oven: hold", (1, 2, 3), 0.1, "heat_up", "core at its temperature", "oven",
           attended=True),
    _stage("cool_bake", "Cool", (2, 4, 12), 0.1, "bake", "oven off"),
    _stage("true", "True cores, clear grooves", (0.3, 0.5, 1), 0.5, "cool_bake", place="lathe"),
    _stage("mould", "Prepare moulds, dry fit, measure", (0.3, 0.5, 1), 0.5),
    _stage("warm", "Warm cabinet, pot, moulds, resin", (3, 6, 10), 0.1, "mould", "heater on",
           "cabinet"),
    _stage("pour", "Weigh, mix, pour, close", (0.3, 0.5, 1), 0.5, "true warm", "mixing"),
    _stage("pressure", "Cure under pressure", (8, 24, 48), 0.1, "pour",
           "at pressure, before the gel", "pot"),
    _stage("rest", "Demould, cure on", (12, 24, 96), 0.2, "pressure", "pot opened"),
    _stage("turn", "Turn the profile", (0.5, 1, 2), 1, "rest", place="lathe"),
    _stage("drill", "Drill the bore", (0.2, 0.4, 0.8), 0.4, "turn", place="lathe"),
    _stage("putty", "Fill grooves with putty", (0.2, 0.4, 0.6), 0.4, "drill", "kneading"),
    _stage("putty_set", "Putty sets", (8, 16, 24), 0, "putty", "last one pressed in"),
    _stage("sand", "Sand", (0.5, 1, 2), 1, "putty_set", place="lathe"),
    _stage("seal", "Sealer", (0.5, 1, 2), 0.1, "sand", "wet film"),
    _stage("coats", "Three coats", (3, 9, 72), 0.5, "seal", "each coat"),
    _stage("dry_coats", "Dry before wax", (12, 16, 72), 0, "coats", "last coat"),
    _stage("wax", "Wax and buff", (0.2, 0.2, 0.4), 0.2, "dry_coats", place="lathe"),
)  # fmt: skip
"""Durations are our judgement, anchored to the sums of the other panes; the user edits them."""


@frozen
class Slot:
    """Where a stage lies when nothing but the order holds it back."""

    start: Second
    end: Second
    float: Second
    """How long it can be late without moving the end."""

    @property
    def critical(self) -> bool:
        """True where any delay moves the end."""
        return self.float < 1.0


@frozen
class Network:
    """The whole graph with one set of durations."""

    slots: Mapping[str, Slot]
    length: Second

    @property
    def critical(self) -> tuple[str, ...]:
        """Keys on the critical path, in order."""
        found = [(slot.start, place, key) for place, (key, slot) in enumerate(self.slots.items())
                 if slot.critical]  # fmt: skip
        return tuple(key for _, _, key in sorted(found))


def need_order(stages: Sequence[Stage]) -> tuple[Stage, ...]:
    """Put stages into an order in which each stands after all it waits for."""
    known = {each.key for each in stages}
    if len(known) != len(stages):
        raise out_of_range("stages", "Two stages have the same name.")
    for each in stages:
        strange = [key for key in each.after if key not in known]
        if strange:
            raise out_of_range(each.key, "This waits for a stage that is not in the plan.")
        if not 0 <= each.low <= each.likely <= each.high:
            raise out_of_range(each.key, "Give the durations in the order low, likely, high.")
    rounds = _rounds({each.key: each.after for each in stages})
    return tuple(sorted(stages, key=lambda each: rounds[each.key]))


def _rounds(after: Mapping[str, tuple[str, ...]]) -> dict[str, int]:
    """In which round each may begin: one after the latest of those that it waits for."""
    found: dict[str, int] = {}
    waiting = dict.fromkeys(after, 0)
    followers: dict[str, list[str]] = {key: [] for key in after}
    for key, others in after.items():
        for other in dict.fromkeys(others):
            followers[other].append(key)
            waiting[key] += 1
    ready = [key for key, count in waiting.items() if not count]
    while ready:
        key = ready.pop()
        found[key] = max((found[other] + 1 for other in after[key]), default=0)
        for other in followers[key]:
            waiting[other] -= 1
            if not waiting[other]:
                ready.append(other)
    if len(found) != len(after):
        lost = next(key for key in after if key not in found)
        raise out_of_range(lost, "These stages wait for each other in a ring.")
    return found


def network(stages: Sequence[Stage] = STAGES, guess: Guess = "likely") -> Network:
    """Earliest times, float and critical path: the method of the critical path."""
    order = need_order(stages)
    start: dict[str, float] = {}
    end: dict[str, float] = {}
    for each in order:
        start[each.key] = max((end[key] for key in each.after), default=0.0)
        end[each.key] = start[each.key] + each.lasts(guess)
    length = max(end.values(), default=0.0)
    latest = dict.fromkeys(end, length)
    for each in reversed(order):
        for key in each.after:
            latest[key] = min(latest[key], latest[each.key] - each.lasts(guess))
    slots = {
        each.key: Slot(Second(start[each.key]), Second(end[each.key]),
                       Second(latest[each.key] - end[each.key]))
        for each in stages
    }  # fmt: skip
    return Network(slots, Second(length))


def beside(stages: Sequence[Stage], key: str) -> tuple[Stage, ...]:
    """Stages that may overlap with one: neither waits for the other, nor do they share a place."""
    by_key = {each.key: each for each in stages}

    def before(of: str) -> frozenset[str]:
        found = frozenset(by_key[of].after)
        return found.union(*map(before, found))

    mine, place = before(key), by_key[key].place
    return tuple(
        each for each in stages
        if each.key != key and each.key not in mine and key not in before(each.key)
        and not (place and place == each.place)
    )  # fmt: skip


def hands_on(stages: Sequence[Stage]) -> Second:
    """Time that a person must be there over the whole batch."""
    return Second(sum(each.hands for each in stages))


NOTHING = ("-", "–", "nothing", "none")
"""Words for a stage that waits for no other, and for one that occupies no place."""


def read_after(text: str, stages: Sequence[Stage], field: str) -> tuple[str, ...]:
    """Keys of the stages that are named, apart by ``;``: by the beginning of a name, or a part."""
    if text.strip().casefold() in NOTHING:
        return ()
    named = [each.strip() for each in text.split(";") if each.strip()]
    return tuple(dict.fromkeys(_named(each, stages, field) for each in named))


def _named(word: str, stages: Sequence[Stage], field: str) -> str:
    wanted = word.casefold()
    whole = [each for each in stages if each.name.casefold() == wanted]
    begins = [each for each in stages if each.name.casefold().startswith(wanted)]
    has = [each for each in stages if wanted in each.name.casefold()]
    found = whole or begins or has
    if len(found) == 1:
        return found[0].key
    if not found:
        raise out_of_range(field, "No stage is called {word}.", word=word)
    raise out_of_range(
        field, "More than one stage is called so: {all}.",
        all="; ".join(each.name for each in found),
    )  # fmt: skip


def read_place(text: str, field: str) -> Place:
    """What a stage occupies, from its word."""
    word = text.strip().casefold()
    if word in NOTHING:
        return ""
    for place in PLACES:
        if word == place:
            return place
    raise out_of_range(field, "Say one of: {all}, nothing.", all=", ".join(PLACES))


def without(stages: Sequence[Stage], dropped: frozenset[str]) -> tuple[Stage, ...]:
    """Leave stages out; what waited for them waits for what they waited for."""
    by_key = {each.key: each for each in stages}

    def before(keys: Sequence[str]) -> tuple[str, ...]:
        found: list[str] = []
        for key in keys:
            if key not in dropped:
                found.append(key)
            else:
                found.extend(before(by_key[key].after))
        return tuple(dict.fromkeys(found))

    return tuple(
        Stage(each.key, each.name, each.low, each.likely, each.high, each.hands,
              before(each.after), each.clock, each.place, each.attended)
        for each in stages if each.key not in dropped
    )  # fmt: skip


JUDGEMENT: Text = say("Our judgement; change it to what your shop takes.")
"""Stands beside every default duration."""
