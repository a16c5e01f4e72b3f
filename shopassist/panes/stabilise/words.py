"""The words of each step: what may be reported, which numbers matter, what to beware of."""

from collections.abc import Iterator, Mapping, Sequence

from shopassist.core.drying import must_dry_again
from shopassist.core.figures import Figure
from shopassist.core.stabilising import Step
from shopassist.core.wood_set import WoodSet
from shopassist.core.wording import Wording
from shopassist.panes.stabilise.screen import ActShown, Told
from shopassist.services.stabilise_after import Uptake
from shopassist.widgets.shown import FigureShown, Reported

OVEN_CAUTION = (
    "Oven away from the kitchen and from anything that burns; an independent thermometer and a"
    " cut-out of its own."
)
FUMES = (
    "Monomer vapour: fresh air, no flame or spark near bath, pump and oven; gloves, no contact"
    " lenses."
)
IMPLODES = (
    "A chamber under vacuum can implode: rated for vacuum, no crazed or star-cracked acrylic, a"
    " guard between you and it, eyes protected. Never pry a lid that vacuum holds."
)
CATCH = "A catch pot keeps foam out of the pump; its exhaust goes outdoors."
AT_THE_PUMP = (
    "It can implode: guard up, eyes protected, no crazed acrylic; never pry a lid that vacuum"
    " holds. A catch pot keeps foam out of the pump."
)
CAUTIONS = (
    OVEN_CAUTION, FUMES, IMPLODES, "Never put pressure into a vacuum chamber, nor heat to it.",
    CATCH, "The maker's sheet of the resin and local rules come first.",
)  # fmt: skip
AT_HAND: dict[str, str] = {
    "weigh": "", "dry": OVEN_CAUTION,
    "cool": "It burns the hand, and dry wood smoulders in a tin that is not cold.",
    "cover": "Gloves. " + FUMES, "pull": AT_THE_PUMP,
    "soak": "Resin stays covered and away from heat and light: what has catalyst sets.",
    "wrap": "Gloves; wet rags go outdoors, spread flat. " + FUMES,
    "heat_up": OVEN_CAUTION + " Its vapour catches fire: fresh air, nobody asleep in the house.",
    "hold": OVEN_CAUTION, "after": "Hot resin under foil burns: let them cool first.", "done": "",
}  # fmt: skip
"""The caution that belongs to the hand that does this step."""
WHEN_WORDS = {
    "wet": "Before the oven", "oven": "In the oven", "bath": "Just before the bath",
    "soaked": "Out of the bath", "baked": "After the bake",
}  # fmt: skip
MASS_LABELS = {
    "weigh": "The set weighs", "dry": "The set weighs now", "cover": "Just before the bath",
    "wrap": "Out of the bath it weighs", "after": "After the bake it weighs",
}  # fmt: skip
EVENT_WORDS = {
    "oven_on": "Oven on", "oven_off": "Out of the oven", "cool": "Cool", "covered": "Covered",
    "pump_on": "Pump on", "foam_down": "Foam down", "quiet": "No bubbles",
    "bubbles": "Bubbles again", "air_in": "Air in", "power_cut": "Power cut",
    "gauge_read": "Gauge read", "out_of_bath": "Out of the bath", "wrapped": "Wrapped",
    "bake_on": "Bake on", "core_hot": "Core hot", "bake_off": "Oven off", "sank": "It sank",
    "floated": "It floated", "oven_wound": "Oven started again", "oven_cut": "Oven went off",
    "hard": "All hard", "soft": "Some are soft",
}  # fmt: skip
FIGURES_OF: dict[str, tuple[str, ...]] = {
    "weigh": ("density", "ceiling", "sink", "shrinks", "shrinks_radial"),
    "dry": ("moisture", "by_meter", "water", "resolution", "heading", "intervals", "offset"),
    "cool": ("moisture", "air", "ceiling", "pour"),
    "cover": ("pour", "start_cover", "ballast", "headspace", "regain", "stock"),
    "pull": ("dial_best", "pump_down", "lid", "swells"),
    "soak": ("drop", "end_cover", "leftover", "sink"),
    "wrap": ("used_each", "lost", "sink", "heat_up"),
    "heat_up": ("heat_up", "offset"),
    "hold": ("heat_up", "offset"),
    "after": ("ceiling",),
    "done": ("uptake", "void_fill", "retention", "new_density", "moisture", "lost"),
}
PAGE_FIGURES: dict[str, tuple[str, ...]] = {
    "set": ("shrinks", "shrinks_radial", "shrinks_volume", "density", "ceiling", "sink"),
    "dry": ("by_meter", "water", "resolution", "air", "oven_floor", "offset"),
    "bath": ("pour", "start_cover", "drop", "ballast", "headspace", "catalyst", "stock", "lost"),
    "vacuum": ("dial_best", "pump_down", "swells", "lid", "water_boils", "monomer_boils"),
    "bake": ("heat_up",),
    "compare": ("control_gain", "control_ceiling", "control_fill"),
}
SHARES = frozenset({
    "moisture", "ceiling", "sink", "uptake", "void_fill", "resolution", "regain", "air",
    "oven_floor", "shrinks", "shrinks_radial", "shrinks_volume", "control_gain", "control_ceiling",
    "control_fill",
})  # fmt: skip
FINE = frozenset({"resolution", "oven_floor", "regain"})
"""Shares of which a hundredth counts."""


def acts(state: WoodSet, step: Step, *, winds: bool) -> tuple[ActShown, ...]:
    """What may be reported at this step, the likeliest first."""
    made: dict[str, tuple[ActShown, ...]] = {
        "dry": _drying(state, step, winds=winds),
        "cool": (ActShown("cool", "It is cool", primary=True),),
        "cover": _covering(state),
        "pull": _pulling(state),
        "soak": (
            ActShown("out_of_bath", "Out of the bath", primary=True),
            ActShown("sank", "It sank"),
            ActShown("floated", "It floats"),
        ),
        "wrap": (ActShown("wrapped", "Wrapped", primary=True),),
        "heat_up": _heating(state, winds=winds),
        "hold": (
            ActShown("bake_off", "Oven off", primary=True), *_oven_acts(state, winds=winds)
        ),
        "after": (ActShown("hard", "All are hard"), ActShown("soft", "Some are soft")),
        "done": _done(state),
    }  # fmt: skip
    return made.get(step.key, ())


def _oven_acts(state: WoodSet, *, winds: bool) -> tuple[ActShown, ...]:
    """An oven that stopped is told, and started again."""
    off = bool(state.runs) and state.runs[-1].end is not None
    again = ActShown("oven_wound", "Oven started again", primary=off)
    if off:
        return (again,)
    cut = ActShown("oven_cut", "Oven went off")
    return (again, cut) if winds else (cut,)


def _drying(state: WoodSet, step: Step, *, winds: bool) -> tuple[ActShown, ...]:
    if state.at("oven_on") is None:
        return (ActShown("oven_on", "Oven is at temperature, wood is in", primary=True),)
    dry = step.dryness is not None and step.dryness.dry
    out = (ActShown("oven_off", "Out of the oven, sealed", primary=True),) if dry else ()
    return (*out, *_oven_acts(state, winds=winds))


def _covering(state: WoodSet) -> tuple[ActShown, ...]:
    oven, bath = state.last("oven"), state.last("bath")
    fresh = bath is not None and bath.at >= state.events["cool"]
    if fresh and bath is not None and oven is not None and must_dry_again(oven.mass, bath.mass):
        return (ActShown("oven_on", "Back in the oven", primary=True),)
    return (ActShown("covered", "Covered, ballast on", primary=True),) if fresh else ()


def _pulling(state: WoodSet) -> tuple[ActShown, ...]:
    air, cut = ActShown("air_in", "Air is in"), ActShown("power_cut", "Power was cut")
    if state.at("power_cut") is not None and state.at("gauge_read") is None:
        return (ActShown("gauge_read", "Gauge read, oil looked at", primary=True), air)
    if state.at("pump_on") is None:
        return (ActShown("pump_on", "Pump is on", primary=True), air)
    if state.at("foam_down") is None:
        return (ActShown("foam_down", "Foam has collapsed", primary=True), cut, air)
    if state.at("quiet") is None:
        return (ActShown("quiet", "No bubbles any more", primary=True), cut, air)
    return (
        ActShown("air_in", "Valve shut, air is in", primary=True),
        ActShown("bubbles", "Bubbles again"),
        cut,
    )


def _heating(state: WoodSet, *, winds: bool) -> tuple[ActShown, ...]:
    if state.at("bake_on") is None:
        return (ActShown("bake_on", "Packets are in the hot oven", primary=True),)
    hot = ActShown("core_hot", "Core is hot, by the probe", primary=True)
    off = ActShown("bake_off", "Oven off")
    more = _oven_acts(state, winds=winds)
    return (*more, off) if more[0].primary else (hot, off, *more)


def _done(state: WoodSet) -> tuple[ActShown, ...]:
    if state.at("soft") is not None:
        return (ActShown("bake_on", "Back in the hot oven", primary=True),
                ActShown("hard", "The rest is hard"))  # fmt: skip
    on = ActShown("to_blank", "On to Blank", primary=True)
    hard = () if state.at("hard") is not None else (ActShown("hard", "All are hard"),)
    return (on, *hard, ActShown("soft", "Some are soft"))


def figure(say: Wording, name: str, found: Mapping[str, Figure]) -> FigureShown | None:
    """One number of the set."""
    made = found.get(name)
    if made is None or made.value is None:
        return None
    label = say.say(made.label) if made.label is not None else name
    explains = bool(made.formula)
    if name in SHARES:
        places = 2 if name in FINE else 1
        return FigureShown(label, say.number(made.value * 100, places), "%", lead=False,
                           explains=explains)  # fmt: skip
    if name in ("intervals", "swells"):
        return FigureShown(label, say.number(made.value, 1), "times" if name == "swells" else "",
                           lead=False, explains=explains)  # fmt: skip
    if made.quantity == "Second":
        return FigureShown(label, say.duration(made.value), "", lead=False, explains=explains)
    number, unit = say.split(made.value, made.quantity)
    upto = "" if made.high is None else f"to {say.amount(made.high, made.quantity)}"
    return FigureShown(label, number, unit, note=upto, lead=False, explains=explains)


def places(step: float) -> int:
    """As many decimals of a gram as the scale shows."""
    found = 0
    while found < 4 and abs(step * 1000 - round(step * 1000, found)) > 1e-9:  # noqa: PLR2004 - 0.1 mg
        found += 1
    return found


def facts(say: Wording, state: WoodSet, step: float) -> tuple[Reported, ...]:
    """Everything reported so far, in its order; each day begins with its date."""
    found: list[tuple[float, Reported]] = []

    def add(at: float, label: str, words: str) -> None:
        found.append((at, Reported(f"{say.clock(at)}  {label}", words)))

    for each in state.weighed:
        pieces = f", {len(each.each)} pieces" if each.each else ""
        add(each.at, WHEN_WORDS[each.when] + pieces,
            say.amount(each.mass, "Kilogram", places(step), "g"))  # fmt: skip
    for event, at in state.events.items():
        add(at, EVENT_WORDS[event], "")
    for dial in state.vacuums:
        add(dial.at, "Dial", say.amount(dial.vacuum, "PascalVacuum"))
    for at, temp in state.oven_temps:
        add(at, "Oven", say.amount(temp, "Kelvin"))
    for at, temp in state.probes:
        add(at, "Dummy core", say.amount(temp, "Kelvin"))
    for meter in state.meters:
        end = " or less (meter floor)" if meter.shown <= meter.floor else ""
        add(meter.at, "Meter", f"{say.percent(max(meter.shown, meter.floor), 1)}{end}")
    return tuple(_by_days(say, sorted(found, key=lambda pair: pair[0])))


def _by_days(say: Wording, rows: Sequence[tuple[float, Reported]]) -> Iterator[Reported]:
    day = ""
    for at, row in rows:
        if say.date(at) != day:
            day = say.date(at)
            yield Reported(day, "")
        yield row


def compared(say: Wording, uptakes: Sequence[Uptake], here: str) -> tuple[Told, ...]:
    """Each finished set with its uptake, this one marked, and why one is no measure."""
    rows: list[Told] = []
    for each in uptakes:
        label = " – ".join(part for part in (each.name or "Batch", each.wood) if part)
        rows.append(("bold", "ink", f"{label} (this set)" if each.batch_id == here else label))
        words = say.percent(each.gain, 1)
        if each.fill is not None:
            words += f" of its dry mass, {say.percent(each.fill, 0)} of the ceiling"
        rows.append(("body", "ink", words))
        if each.not_comparable is not None:
            rows.append(("body", "graphite", f"Not comparable: {say.say(each.not_comparable)}"))
    return tuple(rows) or (("body", "graphite", "No finished set yet."),)
