"""The words of each step: what may be reported, which numbers matter, what to beware of."""

from collections.abc import Mapping

from shopassist.core.drying import must_dry_again
from shopassist.core.figures import Figure
from shopassist.core.stabilising import Step
from shopassist.core.wood_set import WoodSet
from shopassist.core.wording import Wording
from shopassist.panes.stabilise.screen import ActShown
from shopassist.widgets.shown import FigureShown, Reported

CAUTIONS = (
    (
        "Oven away from the kitchen and from anything that burns; an independent thermometer and a"
        " cut-out of its own."
    ),
    (
        "Monomer vapour: fresh air, no flame or spark near bath, pump and oven; gloves, no contact"
        " lenses."
    ),
    (
        "A chamber under vacuum can implode: rated for vacuum, no crazed or star-cracked acrylic, a"
        " guard between you and it, eyes protected. Never pry a lid that vacuum holds."
    ),
    "Never put pressure into a vacuum chamber, nor heat to it.",
    "A catch pot keeps foam out of the pump; its exhaust goes outdoors.",
    "The maker's sheet of the resin and local rules come first.",
)
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
    "pump_on": "Pump on", "quiet": "No bubbles", "bubbles": "Bubbles again", "air_in": "Air in",
    "power_cut": "Power cut", "gauge_read": "Gauge read", "out_of_bath": "Out of the bath",
    "wrapped": "Wrapped", "bake_on": "Bake on", "core_hot": "Core hot", "bake_off": "Oven off",
    "sank": "It sank", "floated": "It floated", "oven_wound": "Oven started again",
}  # fmt: skip
FIGURES_OF: dict[str, tuple[str, ...]] = {
    "weigh": ("ceiling", "sink"),
    "dry": ("moisture", "ceiling"),
    "cool": ("moisture", "pour"),
    "cover": ("pour", "start_cover", "ballast", "headspace"),
    "pull": ("lid",),
    "soak": ("drop", "sink"),
    "wrap": ("sink", "heat_up"),
    "heat_up": ("heat_up",),
    "hold": ("heat_up",),
    "after": ("ceiling",),
    "done": ("uptake", "void_fill", "retention", "moisture"),
}
SHARES = frozenset({"moisture", "ceiling", "sink", "uptake", "void_fill"})


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
        "heat_up": _heating(state),
        "hold": (ActShown("bake_off", "Oven off", primary=True),),
    }
    return made.get(step.key, ())


def _drying(state: WoodSet, step: Step, *, winds: bool) -> tuple[ActShown, ...]:
    if state.at("oven_on") is None:
        return (ActShown("oven_on", "Oven is at temperature, wood is in", primary=True),)
    found: list[ActShown] = []
    if step.dryness is not None and step.dryness.dry:
        found.append(ActShown("oven_off", "Out of the oven, sealed", primary=True))
    if winds:
        found.append(ActShown("oven_wound", "Oven started again"))
    return tuple(found)


def _covering(state: WoodSet) -> tuple[ActShown, ...]:
    oven, bath = state.last("oven"), state.last("bath")
    fresh = bath is not None and bath.at >= state.events["cool"]
    if fresh and bath is not None and oven is not None and must_dry_again(oven.mass, bath.mass):
        return (ActShown("oven_on", "Back in the oven", primary=True),)
    return (ActShown("covered", "Covered, ballast on", primary=True),) if fresh else ()


def _pulling(state: WoodSet) -> tuple[ActShown, ...]:
    air = ActShown("air_in", "Air is in")
    if state.at("power_cut") is not None and state.at("gauge_read") is None:
        return (ActShown("gauge_read", "Gauge read, oil looked at", primary=True), air)
    if state.at("pump_on") is None:
        return (ActShown("pump_on", "Pump is on", primary=True), air)
    if state.at("quiet") is None:
        return (ActShown("quiet", "No bubbles any more", primary=True),
                ActShown("power_cut", "Power was cut"), air)  # fmt: skip
    return (
        ActShown("air_in", "Valve shut, air is in", primary=True),
        ActShown("bubbles", "Bubbles again"),
        ActShown("power_cut", "Power was cut"),
    )


def _heating(state: WoodSet) -> tuple[ActShown, ...]:
    if state.at("bake_on") is None:
        return (ActShown("bake_on", "Packets are in the hot oven", primary=True),)
    return (ActShown("core_hot", "Core is hot, by the probe", primary=True),
            ActShown("bake_off", "Oven off"))  # fmt: skip


def figure(say: Wording, name: str, found: Mapping[str, Figure]) -> FigureShown | None:
    """One number of the set."""
    made = found.get(name)
    if made is None or made.value is None:
        return None
    label = say.say(made.label) if made.label is not None else name
    if name in SHARES:
        return FigureShown(label, say.number(made.value * 100, 1), "%", lead=False)
    if made.quantity == "Second":
        return FigureShown(label, say.duration(made.value), "", lead=False)
    number, unit = say.split(made.value, made.quantity)
    return FigureShown(label, number, unit, lead=False)


def places(step: float) -> int:
    """As many decimals of a gram as the scale shows."""
    found = 0
    while found < 4 and abs(step * 1000 - round(step * 1000, found)) > 1e-9:  # noqa: PLR2004 - 0.1 mg
        found += 1
    return found


def facts(say: Wording, state: WoodSet, step: float) -> tuple[Reported, ...]:
    """Everything reported so far, in its order."""
    found: list[tuple[float, Reported]] = []
    for each in state.weighed:
        words = say.amount(each.mass, "Kilogram", places(step), "g")
        label = WHEN_WORDS[each.when]
        found.append((each.at, Reported(f"{say.clock(each.at)}  {label}", words)))
    for event, at in state.events.items():
        found.append((at, Reported(f"{say.clock(at)}  {EVENT_WORDS[event]}", say.date(at))))
    for dial in state.vacuums:
        words = say.amount(dial.vacuum, "PascalVacuum")
        found.append((dial.at, Reported(f"{say.clock(dial.at)}  Dial", words)))
    for meter in state.meters:
        end = " or less (meter floor)" if meter.shown <= meter.floor else ""
        words = f"{say.percent(max(meter.shown, meter.floor), 1)}{end}"
        found.append((meter.at, Reported(f"{say.clock(meter.at)}  Meter", words)))
    return tuple(row for _, row in sorted(found, key=lambda pair: pair[0]))
