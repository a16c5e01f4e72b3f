"""What is on the shelf by lot, what it is enough for, and whether its use adds up."""

from collections.abc import Iterable, Mapping
from math import floor
from typing import Literal

from shopassist.core.bounds import need_not_negative, need_positive
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.quantities import Kilogram, Ratio

Part = Literal["a", "b"]

DRIFT_FLAG = Ratio(0.05)
"""Share by which the use of B may drift from the ratio before it is flagged; ours."""
ROUNDING = 1e-9
"""Share of a piece that is rounding, not shortage."""


@frozen
class Lot:
    """One container of one part; dates are written year-month-day."""

    part: Part
    name: str
    left: Kilogram
    opened: str = ""
    expires: str = ""
    id: str = ""
    price: float | None = None
    """Of a kilogram, in the shop's own money."""


@frozen
class Draw:
    """How much to take from one lot."""

    lot: Lot
    mass: Kilogram


@frozen
class Supply:
    """What the shelf gives for a need of one part."""

    draws: tuple[Draw, ...]
    short: Kilogram
    """What is missing; nothing where it is enough."""

    @property
    def mixes_lots(self) -> bool:
        """True where more than one lot goes into the batch."""
        return len(self.draws) > 1


def on_shelf(lots: Iterable[Lot], part: Part) -> Kilogram:
    """Everything left of one part."""
    return Kilogram(sum(lot.left for lot in lots if lot.part == part))


def draw(lots: Iterable[Lot], part: Part, needed: Kilogram) -> Supply:
    """Take a need from the lots: the last opened first, unopened ones by expiry."""
    need_not_negative(needed=needed)
    draws: list[Draw] = []
    missing = float(needed)
    for lot in sorted((lot for lot in lots if lot.part == part), key=_turn):
        taken = min(lot.left, missing)
        if taken > 0:
            draws.append(Draw(lot, Kilogram(taken)))
            missing -= taken
    return Supply(tuple(draws), Kilogram(missing if missing > needed * ROUNDING else 0.0))


def _turn(lot: Lot) -> tuple[bool, list[int], str]:
    # The last opened lot is the one in use; dates as text sort backwards by their negative signs.
    return (not lot.opened, [-ord(sign) for sign in lot.opened], lot.expires or "9999")


def pieces_possible(shelf: Mapping[Part, Kilogram], per_piece: Mapping[Part, Kilogram]) -> int:
    """Whole pieces that both parts on the shelf can fill."""
    need_positive(**{f"per_piece_{part}": mass for part, mass in per_piece.items()})
    return min(
        floor(shelf.get(part, Kilogram(0.0)) / mass * (1 + ROUNDING))
        for part, mass in per_piece.items()
    )


@frozen
class Drift:
    """Use of B against A over many batches."""

    share: Ratio
    """Used ratio over the sheet's, less one: above nothing is too much hardener."""
    flagged: bool


def drift(used_a: Kilogram, used_b: Kilogram, ratio: Ratio) -> Drift:
    """Compare what was used with the ratio B to A by weight; wrong habits show here."""
    need_positive(used_a=used_a, ratio=ratio)
    need_not_negative(used_b=used_b)
    share = used_b / used_a / ratio - 1
    return Drift(Ratio(share), abs(share) > DRIFT_FLAG)


def cost(masses: Mapping[Part, Kilogram], prices: Mapping[Part, float]) -> float | None:
    """Money for the resin, prices by the kilogram; None where a price is not known."""
    need_not_negative(**{f"price_{part}": price for part, price in prices.items()})
    if any(part not in prices for part in masses):
        return None
    return sum(mass * prices[part] for part, mass in masses.items())


def lot_prompts(lots: Iterable[Lot], used_before: frozenset[str], today: str) -> tuple[Text, ...]:
    """What to say about the lots of a batch: a new one wants a test cup, an old one a look."""
    said: list[Text] = []
    for lot in lots:
        if lot.name not in used_before:
            said.append(say("Lot {lot} is new here: mix a test cup first.", lot=lot.name))
        if lot.expires and lot.expires < today:
            said.append(say("Lot {lot} was to be used by {date}.", lot=lot.name, date=lot.expires))
    return tuple(said)


def shortage(part: Part, supply: Supply) -> Text | None:
    """Say what is missing, or nothing."""
    if supply.short <= 0:
        return None
    return say(
        "Part {part} is short by {mass}: fill fewer pieces or open another lot.",
        part=part.upper(),
        mass=Amount(supply.short, "Kilogram"),
    )
