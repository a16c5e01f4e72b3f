"""From the entries of a blank to its drawing, its walls and the resin it needs."""

from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import field
from typing import TypeVar

from shopassist.core.blank import Job, Need, need
from shopassist.core.cavity import Cavity
from shopassist.core.errors import ShopError
from shopassist.core.figures import Figure, Origin
from shopassist.core.frozen import frozen
from shopassist.core.messages import Amount, Text, say
from shopassist.core.outline_text import ReadLength
from shopassist.core.pour import FACING_DEFAULT, LIP, WASTE_DEFAULT, level_loss
from shopassist.core.pour_plan import (
    Floating,
    LayerPlan,
    floating,
    plan_layers,
    wall_push,
)
from shopassist.core.quantities import (
    CubicMetre,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    SquareMetre,
)
from shopassist.core.section import Point, Section, outline, section, start_of
from shopassist.core.sheets import ResinSheet
from shopassist.core.span import Span
from shopassist.core.wall import Bore, DrillErrors, WallCheck, check_wall, wall_asked
from shopassist.core.workpiece import Core
from shopassist.services.blank_parts import CORE_SAID, cavity_of, core_of, metre, remarks
from shopassist.services.kept import Kept
from shopassist.services.said import Said

FLOAT_DENSITY = KilogramPerCubicMetre(1100.0)
"""Resin where the sheet gives no density, for lift and push alone; ours."""
T = TypeVar("T")


@frozen
class BlankPlan:
    """Everything that follows from the entries; problems stand beside the entry of their name."""

    job: Job | None = None
    need: Need | None = None
    wall: WallCheck | None = None
    section: Section | None = None
    floating: Floating | None = None
    layers: LayerPlan | None = None
    figures: Mapping[str, Figure] = field(default_factory=dict)
    """Ready to be explained; each is made when it is asked for."""
    problems: dict[str, Text] = field(default_factory=dict)
    notes: tuple[Text, ...] = ()


class Earlier:
    """The parts that a key pressed in another entry leaves as they are."""

    def __init__(self) -> None:
        self.read_as: Hashable = None
        """How lengths are read now: units and decimal sign."""
        self.core: Kept[Core | None] = Kept()
        self.wall: Kept[WallCheck] = Kept()
        self.outline: Kept[tuple[Point, ...]] = Kept()


def work_out(
    said: Said, sheet: ResinSheet | None, read: ReadLength, earlier: Earlier | None = None
) -> BlankPlan:
    """Work out as much as the entries allow; the first thing that cannot be stops the rest."""
    kept = earlier or Earlier()
    problems: dict[str, Text] = {}
    cavity = _part(lambda: cavity_of(said, read), problems)
    core = _part(lambda: _core(said, read, kept), problems)
    if cavity is None or ("stations" in problems or "grooves" in problems):
        return BlankPlan(problems=problems)
    job = _job(said, sheet, cavity, core)
    found = _part(lambda: need(job), problems)
    if "density_low" in problems and said.word("core") != "weighed":
        problems["core_mass"] = problems.pop("density_low")  # its density is not asked there
    if found is None:
        return BlankPlan(job, problems=problems)
    asked = _asked(said)
    bore = _bore(said)
    errors = DrillErrors()
    wall = None
    if core is not None and core.profile is not None and bore is not None:
        made_of = (core, bore, asked)
        wall = _part(
            lambda: kept.wall.of(made_of, lambda: check_wall(core, bore, errors, asked)), problems
        )
    if wall is not None and wall.verdict == "breaks out":
        problems["drill"] = _breaking_out(wall)
    drawn = section(
        job, found, bore if wall else None, errors if wall else None, wall, _outline(job, kept)
    )
    floats = _floating(core, sheet, found)
    layers = _layers(sheet, found)
    figures = _Figures(said, sheet, job, found, wall)
    return BlankPlan(job, found, wall, drawn, floats, layers, figures, problems,
                     (*_notes(job, found, wall, floats, layers, said),
                      *_push(job, found, sheet, said),
                      *remarks(said, core, _liquid(sheet))))  # fmt: skip


def _core(said: Said, read: ReadLength, kept: Earlier) -> Core | None:
    numbers = tuple(said.get(name) for name in CORE_SAID)
    words = tuple(said.word(name) for name in CORE_SAID)
    return kept.core.of((kept.read_as, numbers, words), lambda: core_of(said, read))


def _outline(job: Job, kept: Earlier) -> tuple[Point, ...] | None:
    core, start = job.core, start_of(job)
    if core is None or core.profile is None:
        return None
    profile = core.profile
    return kept.outline.of((core, start), lambda: outline(core, profile, start))


def _part(make: Callable[[], T], problems: dict[str, Text]) -> T | None:
    """Make one part, or note beside which entry it cannot be."""
    try:
        return make()
    except ShopError as error:
        problems[FIELDS.get(error.field, _root(error.field))] = error.title
        return None


def _root(name: str) -> str:
    """Which entry holds a numbered part: ``grooves.2.depth`` stands in ``grooves``."""
    first = name.split(".", maxsplit=1)[0]
    return {"steps": "mould_steps", "stations": "stations"}.get(first, first)


FIELDS = {
    "diameter": "mould_diameter", "depth": "bore_depth", "diameter_floor": "mould_diameter",
    "diameter_rim": "mould_rim", "width": "mould_width", "length": "mould_length",
    "volume": "mould_volume", "mass": "core_mass", "density": "density_low", "core": "stations",
    "density_high": "density_high", "bow": "bow", "drill": "drill", "level": "level",
    "facing": "facing", "pieces": "pieces", "spares": "spares", "waste": "waste", "base": "base",
    "water": "water_mass",
}  # fmt: skip
"""Which entry a refusal of the core belongs to."""


def is_stabilised(said: Said) -> bool:
    """Wood counts as stabilised unless it is said not to be."""
    return said.word("stabilised") != "no"


def _job(said: Said, sheet: ResinSheet | None, cavity: Cavity, core: Core | None) -> Job:
    shrink = said.get("shrink")
    if shrink is None and sheet is not None:
        shrink = sheet.shrink
    return Job(
        cavity, core, metre(said, "level"), Metre(said.get("base") or 0.0),
        int(said.get("pieces") or 1), int(said.get("spares") or 0),
        None if shrink is None else Ratio(shrink),
        Metre(_or(said.get("facing"), FACING_DEFAULT)),
        Ratio(_or(said.get("waste"), WASTE_DEFAULT)), is_stabilised(said),
        said.word("lies") == "yes", Metre(said.get("bow") or 0.0),
    )  # fmt: skip


def _or(value: float | None, default: float) -> float:
    return default if value is None else value


def _asked(said: Said) -> Metre:
    typed = metre(said, "wall")
    return typed if typed is not None else wall_asked(stabilised=is_stabilised(said))


def _bore(said: Said) -> Bore | None:
    drill = metre(said, "drill")
    if drill is None:
        return None
    return Bore(drill, metre(said, "bore_depth"), said.word("both_ends") == "yes")


def _floating(core: Core | None, sheet: ResinSheet | None, found: Need) -> Floating | None:
    if core is None:
        return None
    return floating(core, _liquid(sheet), found.for_one.mid)


def _layers(sheet: ResinSheet | None, found: Need) -> LayerPlan | None:
    if sheet is None or sheet.layer_limit is None or found.level is None:
        return None
    return plan_layers(found.level, sheet.layer_limit)


# -- words and figures ------------------------------------------------------------------------


class _Figures(Mapping[str, Figure]):
    """Figures are made when somebody wants them explained, not with every key."""

    def __init__(
        self, said: Said, sheet: ResinSheet | None, job: Job, found: Need, wall: WallCheck | None
    ) -> None:
        self._said, self._sheet, self._wall = said, sheet, wall
        self._volumes = {
            "cavity": (found.cavity, "Mould holds"),
            "core": (found.core, "Core takes up"),
            "for_one": (found.for_one, "Resin for one"),
            "for_all": (found.for_all, all_words(job)),
        }

    def __getitem__(self, name: str) -> Figure:
        if name == "wall" and self._wall is not None:
            return _wall_figure(self._said, self._wall)
        value, label = self._volumes[name]
        return _volume(name, value, label, self._said, self._sheet)

    def __iter__(self) -> Iterator[str]:
        yield from self._volumes
        if self._wall is not None:
            yield "wall"

    def __len__(self) -> int:
        return len(self._volumes) + (self._wall is not None)


def all_words(job: Job) -> str:
    """What stands over the resin for all."""
    count = job.pieces + job.spares
    return f"For {count}, with waste" if count > 1 else "For one, with waste"


RANGE = say("From the ranges that were typed, carried to every corner.")
OMITS = (
    say("Resin that leaks, drips or sticks to the cup beyond the waste."),
    say("A mould that is not as round or as straight as typed."),
)


def _volume(
    name: str, value: Span[CubicMetre], label: str, said: Said, sheet: ResinSheet | None
) -> Figure:
    inputs: dict[str, Figure | Origin] = {
        each.replace("_", " "): Origin(
            number, QUANTITY.get(each, "Metre"), "typed", unit="%" if each in SHARES else ""
        )
        for each, number in said.numbers.items()
        if number is not None and each in QUANTITY
    }
    for each in ("stations", "grooves", "mould_steps"):
        if said.word(each):
            inputs[each.replace("_", " ")] = Origin(said.word(each), "", "typed")
    if sheet is not None and sheet.shrink is not None:
        inputs["shrinkage"] = Origin(sheet.shrink, "Ratio", "sheet", unit="%")
    return Figure(
        f"blank.{name}", value.mid, "CubicMetre", "blank.need", inputs,
        low=None if value.is_exact else value.low, high=None if value.is_exact else value.high,
        range_means=RANGE, omits=OMITS, label=say(label),
    )  # fmt: skip


QUANTITY = {
    "mould_diameter": "Metre", "mould_depth": "Metre", "mould_rim": "Metre",
    "mould_length": "Metre", "mould_width": "Metre", "mould_volume": "CubicMetre",
    "water_mass": "Kilogram", "water_temp": "Kelvin", "core_mass": "Kilogram",
    "core_volume": "CubicMetre", "density_low": "KilogramPerCubicMetre",
    "density_high": "KilogramPerCubicMetre", "pieces": "Ratio", "spares": "Ratio",
    "waste": "Ratio", "facing": "Metre", "shrink": "Ratio", "level": "Metre", "base": "Metre",
}  # fmt: skip


SHARES = ("waste", "shrink")
"""Typed as per cent."""


def _wall_figure(said: Said, wall: WallCheck) -> Figure:
    drill = said.get("drill") or 0.0
    inputs = {
        "diameter at the floor": Origin(wall.floor_diameter, "Metre", "computed"),
        "drill": Origin(drill, "Metre", "typed"),
        "drift, worst": Origin(wall.drift_worst, "Metre", "default",
                               say("Eccentricity, start, runout and wander; ours, guesses.")),
    }  # fmt: skip
    return Figure(
        "blank.wall", wall.likely, "Metre", "bore.wall_left", inputs, low=wall.worst,
        high=wall.nominal, range_means=say("From the worst drift to a bore dead on the axis."),
        omits=(say("A drill that follows the grain further than the guess."),),
        label=say("Wall left at its thinnest"),
    )  # fmt: skip


def _notes(
    job: Job, found: Need, wall: WallCheck | None, floats: Floating | None,
    layers: LayerPlan | None, said: Said,
) -> tuple[Text, ...]:  # fmt: skip
    told: list[Text] = []
    if wall is not None and wall.verdict != "enough":
        told += _wall_notes(wall)
    told += found.cautions
    if floats is not None and (said.word("core") or "turned") != "none":
        told += _floats(floats)
    told += _level(job, found, said)
    if layers is not None and layers.note is not None:
        told.append(layers.note)
    return tuple(told)


def _floats(floats: Floating) -> list[Text]:
    """What holds a light core down, from above or in the resin, and what to have at hand."""
    return [
        say("It floats up with {lift}: hold it down with {held}.",
            lift=Amount(floats.lift, "Kilogram"), held=Amount(floats.held, "Kilogram")),
        say("In the resin itself that is {steel} of steel. Have {spare} more resin at hand.",
            steel=Amount(floats.ballast["steel"], "Kilogram"),
            spare=Amount(floats.spare, "CubicMetre")),
    ]  # fmt: skip


def _level(job: Job, found: Need, said: Said) -> list[Text]:
    """A level close to the rim, and what went where the level fell."""
    told: list[Text] = []
    level, depth = said.get("level"), job.cavity.depth
    if level is not None and depth is not None and depth - level < LIP:
        told.append(say("Less than {lip} to the rim: put it where it stays before you pour.",
                        lip=Amount(LIP, "Metre", 0)))  # fmt: skip
    drop = said.get("level_drop")
    stands = found.level or depth
    lost = _lost(job, stands, Metre(drop)) if drop and stands is not None else None
    if lost is not None:
        told.append(say("It lost {lost}: mix as much again for the top-up, and find the leak.",
                        lost=Amount(lost, "CubicMetre")))  # fmt: skip
    return told


def _lost(job: Job, stands: Metre, drop: Metre) -> CubicMetre | None:
    """What left where the level fell: the mould's area there, less what stands in it of the core.

    How wide a core is there is known of one that was turned alone.
    """
    area = job.cavity.area_at(stands)
    if area is None:
        return None
    core, before, after = job.core, stands - job.base, max(stands - drop - job.base, 0.0)
    open_area = area
    if core is not None and core.profile is not None and before > after:
        below = core.volume_under if job.lying else core.volume_to
        of_core = below(Metre(before)) - below(Metre(after))
        open_area = SquareMetre(min(max(area - of_core / drop, 0.0), area))
    return level_loss(drop, open_area)


SOFT = ("box",)
"""Moulds whose walls are asked about."""


def _push(job: Job, found: Need, sheet: ResinSheet | None, said: Said) -> list[Text]:
    """What a soft wall carries."""
    depth = found.level or job.cavity.depth
    if depth is None or (said.word("mould") or "round") not in SOFT:
        return []
    push = wall_push(job.cavity, _liquid(sheet), depth)
    if push is None:
        return []
    force = Amount(push.force, "Newton")
    return [say("The long wall carries {force}: does it bow?", force=force)]


def _liquid(sheet: ResinSheet | None) -> KilogramPerCubicMetre:
    """Density of the fresh resin: the sheet's, or ours."""
    return (sheet.density_mixed if sheet is not None else None) or FLOAT_DENSITY


def _breaking_out(wall: WallCheck) -> Text:
    """What to change where the bore may leave no wood."""
    more = Amount(wall.thicker, "Metre")
    if wall.greatest_drill is None:
        return say("No wood is left at the worst: the core wants {more} more there.", more=more)
    return say("No wood is left at the worst: {drill} at most, or {more} more wood.",
               drill=Amount(wall.greatest_drill, "Metre"), more=more)  # fmt: skip


def _wall_notes(wall: WallCheck) -> list[Text]:
    asked = Amount(wall.asked, "Metre")
    told = [{
        "may be thin": say("May be under {asked}: drill wander is a guess.", asked=asked),
        "too thin": say("Under the {asked} asked for.", asked=asked),
        "breaks out": say("The drill may break out of the wood.", asked=asked),
    }[wall.verdict]]  # fmt: skip
    if wall.greatest_drill is not None:
        told.append(say("Greatest drill that leaves it: {drill}.",
                        drill=Amount(wall.greatest_drill, "Metre")))  # fmt: skip
    told.append(say("Or make the core {more} thicker there.",
                    more=Amount(wall.thicker, "Metre")))  # fmt: skip
    return told
