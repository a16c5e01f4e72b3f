"""Numbers of the bath: what to pour, what holds the wood down, catalyst, stock, leftover."""

from collections.abc import Callable

from shopassist.core.bath import (
    COVER_AT_END,
    HEADSPACE,
    HOLD_DOWN,
    Bath,
    BathPlan,
    loss_unaccounted,
    plan_bath,
)
from shopassist.core.bath_history import colours_it, history_text
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.messages import Amount, Text, say
from shopassist.core.mixing import hardener_for
from shopassist.core.quantities import CubicMetre, Kilogram, Metre, Ratio, SquareMetre
from shopassist.core.solids import cylinder_volume
from shopassist.core.stabilising import dry_mass
from shopassist.core.wood import voids
from shopassist.services.stabilise_facts import (
    FILL,
    Density,
    Findings,
    WoodFacts,
    ours,
    pieces_of,
    resin_of,
    typed,
    volume_of,
)

FIELDS_OF_BATH = {
    "wood": "vessel_diameter", "height": "vessel_height", "fill": "fill", "weight": "weight",
    "cover": "cover", "area": "vessel_diameter",
}  # fmt: skip
"""Which entry a refusal of the bath belongs to."""
TALL = Metre(10.0)
"""A vessel whose height nobody gave."""
MORE_THAN_ALL = 1.05
"""Resin gone over what the voids hold, from which something else took it; ours."""


def bath_figures(facts: WoodFacts, density: Density | None, found: Findings) -> BathPlan | None:
    """The plan of the bath, what it says, and what is left after it."""
    plan = _plan(facts, density, found)
    _catalyst(facts, found)
    _stock(facts, plan, found)
    _after(facts, density, found)
    found.note("cover", history_text(facts.woods))
    colour = facts.bath.colour if facts.bath is not None else ""
    found.note("cover", colours_it(facts.said.word("species"), facts.woods, colour))
    return plan


def _plan(facts: WoodFacts, density: Density | None, found: Findings) -> BathPlan | None:
    said = facts.said
    volume, across = volume_of(said), said.get("vessel_diameter")
    stack = said.get("stack") or said.get("length")
    if volume is None or across is None or density is None or stack is None:
        return None
    height = said.get("vessel_height")
    area = SquareMetre(cylinder_volume(Metre(across), Metre(1.0)))
    bath = Bath(
        area, TALL if height is None else Metre(height), volume,
        dry_mass(facts.state) or Kilogram(density[0] * volume), Metre(stack),
        Ratio(said.get("fill") or FILL), resin_of(said),
        Metre(said.get("cover") or COVER_AT_END), said.word("weight") or "steel", HOLD_DOWN,
    )  # fmt: skip
    try:
        plan = plan_bath(bath)
    except ShopError as error:
        found.problems[FIELDS_OF_BATH.get(error.field, "vessel_diameter")] = error.title
        return None
    _put(plan, bath, density, found, rim=height is not None)
    return plan


def _put(plan: BathPlan, bath: Bath, density: Density, found: Findings, *, rim: bool) -> None:
    inputs: dict[str, Figure | Origin] = {
        "wood": typed(bath.wood, "CubicMetre"), "oven-dry density": density[1],
        "filled share": ours(bath.fill, "Ratio"), "area": typed(bath.area, "SquareMetre"),
    }  # fmt: skip
    drips = "Drips and skin."
    found.put("pour", "Resin to pour", plan.start, "CubicMetre", "bath.plan_bath", inputs, drips)
    found.put("drop", "Level falls by", plan.drop, "Metre", "bath.level_drop", inputs, drips)
    found.put("start_cover", "Cover at the start", plan.start_cover, "Metre", "bath.plan_bath",
              inputs, drips)  # fmt: skip
    found.put("end_cover", "Cover at the end", bath.cover, "Metre", "bath.plan_bath", inputs,
              drips)  # fmt: skip
    found.put("ballast", "Ballast", plan.ballast, "Kilogram", "resin_load.ballast", inputs, drips)
    found.put("leftover", "Left over afterwards", plan.end, "CubicMetre", "bath.plan_bath", inputs,
              drips)  # fmt: skip
    if rim:
        found.put("headspace", "Room for foam", plan.headspace, "Metre", "bath.plan_bath", inputs,
                  drips)  # fmt: skip
        if plan.foams_over:
            found.note("cover", say("Less than {room} under the rim: it can foam over into the"
                                    " pump.", room=Amount(HEADSPACE, "Metre", 0)))  # fmt: skip


def _catalyst(facts: WoodFacts, found: Findings) -> None:
    bath = facts.bath
    if bath is None:
        if facts.said.word("bath"):
            found.note("cover", say("Records – Stabilising baths keeps its catalyst, its date and"
                                    " what is left in it."))  # fmt: skip
        return
    if bath.by_weight and bath.share and bath.resin:
        found.put("catalyst", "Catalyst, by weight", hardener_for(bath.resin, bath.share),
                  "Kilogram", "mixing.hardener_for",
                  {"mass_a": Origin(bath.resin, "Kilogram", "record"),
                   "ratio": Origin(bath.share, "Ratio", "record")})  # fmt: skip
    ends = bath.keeps_until
    for missing, text in (
        (ends is not None and facts.now > ends,
         say("{bath}: its catalyst has been in longer than its sheet says it keeps. It thickens and"
             " fills less, and may set in the vessel: try it on one piece first.",
             bath=bath.name)),
        (not bath.mixed, say("{bath}: no date of its catalyst. Without catalyst it never cures.",
                             bath=bath.name)),
        (not bath.shaken, say("{bath}: shake it until the catalyst is all dissolved.",
                              bath=bath.name)),
    ):  # fmt: skip
        if missing:
            found.note("cover", text)


def _stock(facts: WoodFacts, plan: BathPlan | None, found: Findings) -> None:
    left = facts.bath_left
    if left is None or facts.bath is None:
        return
    found.put("stock", "In the bath's bottle", left, "Kilogram", "",
              {"weighed": Origin(facts.bath.left or 0.0, "Kilogram", "record")})  # fmt: skip
    need = plan.start * resin_of(facts.said) if plan is not None else 0.0
    if need > left:
        short = Amount(need - left, "Kilogram")
        found.note("cover", say("{bath} is {short} short of what is to be poured: top it up and"
                                " catalyse it, or take fewer pieces.",
                                bath=facts.bath.name, short=short))  # fmt: skip


def used_of(said_get: Callable[[str], float | None]) -> float | None:
    """Resin that went, [m3]: poured less what came back."""
    poured, back = said_get("poured"), said_get("poured_back")
    return None if poured is None or back is None else poured - back


def _after(facts: WoodFacts, density: Density | None, found: Findings) -> None:
    """What went, against what the wood took and could hold."""
    said, state = facts.said, facts.state
    used, poured, back = used_of(said.get), said.get("poured"), said.get("poured_back")
    if used is None or poured is None or back is None:
        return
    if used < 0:
        found.problems["poured_back"] = say("More came back than was poured.")
        return
    inputs: dict[str, Figure | Origin] = {
        "poured": typed(poured, "CubicMetre"), "back": typed(back, "CubicMetre")
    }  # fmt: skip
    each = used / pieces_of(said)
    found.put("used_each", "Resin gone, each piece", each, "CubicMetre", "bath.loss_unaccounted",
              inputs, "What stuck to vessel and hands.")  # fmt: skip
    dry, soaked = state.last("bath"), state.last("soaked")
    if dry is not None and soaked is not None and soaked.mass >= dry.mass:
        taken = CubicMetre((soaked.mass - dry.mass) / resin_of(said))
        lost = loss_unaccounted(CubicMetre(poured), CubicMetre(back), taken)
        found.put("lost", "Neither in wood nor bottle", lost, "CubicMetre",
                  "bath.loss_unaccounted",
                  {**inputs, "absorbed": Origin(taken, "CubicMetre", "measured")})  # fmt: skip
    found.note("wrap", _too_much(facts, density, each))
    found.note("done", _too_much(facts, density, each))


def _too_much(facts: WoodFacts, density: Density | None, each: float) -> Text | None:
    volume = volume_of(facts.said)
    if volume is None or density is None:
        return None
    room = volume / pieces_of(facts.said) * voids(density[0])
    if each <= room * MORE_THAN_ALL:
        return None
    return say("{used} each went, and a piece has room for {room}: skin, drips or spill took the"
               " rest, or the pieces are larger.",
               used=Amount(each, "CubicMetre"), room=Amount(room, "CubicMetre"))  # fmt: skip
