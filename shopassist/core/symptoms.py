"""Symptoms of a finished piece: causes ranked by what this batch recorded, never a certainty."""

from collections.abc import Callable
from typing import Literal

from shopassist.core.errors import out_of_range
from shopassist.core.frozen import frozen
from shopassist.core.messages import Text, say

Side = Literal["for", "against", "missing"]
ORDER: dict[Side, int] = {"for": 0, "missing": 1, "against": 2}


@frozen
class Facts:
    """What a batch has on record; None means nobody wrote it down."""

    off_ratio: float | None = None
    """Worst hardener deviation of its cups, as a share of the sheet's tolerance."""
    cured: float | None = None
    """Age at the reference temperature over the sheet's full cure."""
    age_at_demould: float | None = None
    """The same at the moment of demoulding, over the sheet's demould time."""
    under_minimum: bool | None = None
    """It was colder than the sheet's minimum for a while."""
    witness_hard: bool | None = None
    """The witness cup of the same mix is hard."""
    colour_over_cap: bool | None = None
    scraped: bool | None = None
    """Cup scraped and mixed again in a second cup."""
    wood_dry: bool | None = None
    """Wood at constant weight before the bath or the pour."""
    stabilised: bool | None = None
    pressed_before_gel: bool | None = None
    vented_early: bool | None = None
    pot_leaked: bool | None = None
    warming: bool | None = None
    """Wood and resin grew warmer between pour and gel."""
    depth_over_limit: bool | None = None
    hot_mass: bool | None = None
    """More in one cup or mould than the sheet allows at that warmth."""
    humid: bool | None = None
    pecked: bool | None = None
    """Drilled in short pecks with time to cool."""
    fast: bool | None = None
    """Turned or drilled above the speed band."""
    core_reached: bool | None = None
    """The core is known to have come to the bake temperature."""
    low_uptake: bool | None = None
    """Less than half of the ceiling."""
    bath_shared: bool | None = None
    """The bath had treated other woods before."""


@frozen
class Evidence:
    """What one fact says about one cause."""

    side: Side
    text: Text


@frozen
class Cause:
    """One possible reason, and what speaks for and against it."""

    key: str
    text: Text
    remedy: Text
    evidence: tuple[Evidence, ...]

    @property
    def side(self) -> Side:
        """The verdict of the evidence; one fact against weighs more than one for."""
        sides = {each.side for each in self.evidence}
        if "against" in sides:
            return "against"
        return "for" if "for" in sides else "missing"


Test = Callable[[Facts], bool | None]


@frozen
class _Clue:
    test: Test
    speaks_for: str
    against: str
    missing: str

    def weigh(self, facts: Facts) -> Evidence:
        found = self.test(facts)
        if found is None:
            return Evidence("missing", say(self.missing))
        return (
            Evidence("for", say(self.speaks_for))
            if found
            else Evidence("against", say(self.against))
        )


def _over(name: str, limit: float) -> Test:
    def test(facts: Facts) -> bool | None:
        value = getattr(facts, name)
        return None if value is None else value > limit

    return test


def _under(name: str, limit: float) -> Test:
    def test(facts: Facts) -> bool | None:
        value = getattr(facts, name)
        return None if value is None else value < limit

    return test


def _is(name: str, *, true: bool = True) -> Test:
    def test(facts: Facts) -> bool | None:
        value = getattr(facts, name)
        return None if value is None else value is true

    return test


CLUES: dict[str, _Clue] = {
    "ratio": _Clue(_over("off_ratio", 1.0), "A cup was outside the sheet's tolerance.",
                   "The weights lie within the sheet's tolerance.",
                   "Nobody wrote down what went into the cup."),
    "witness_soft": _Clue(_is("witness_hard", true=False), "The witness cup is soft too.",
                          "The witness cup is hard.", "There was no witness cup."),
    "witness_hard": _Clue(_is("witness_hard"), "The witness cup is hard: the mix was right.",
                          "The witness cup is soft as well.", "There was no witness cup."),
    "young": _Clue(_under("cured", 1.0), "It has not reached the sheet's full cure.",
                   "It has reached the sheet's full cure.", "No temperature was written down."),
    "cold": _Clue(_is("under_minimum"), "It was colder than the sheet's minimum.",
                  "It was never colder than the sheet's minimum.",
                  "No temperature was written down."),
    "early": _Clue(_under("age_at_demould", 1.0), "It left the mould before its time.",
                   "It stayed in the mould long enough.",
                   "Demould time or temperature was not written down."),
    "unmixed": _Clue(_is("scraped"), "The cup was scraped out into the mould.",
                     "The cup was not scraped out.",
                     "Nobody wrote down whether the cup was scraped out."),
    "colour": _Clue(_is("colour_over_cap"), "More colour than its cap.", "Colour within its cap.",
                    "The colour was not weighed."),
    "wet": _Clue(_is("wood_dry", true=False), "The wood was not at constant weight.",
                 "The wood was dry by weight.", "The wood was not weighed dry."),
    "open_pores": _Clue(_is("stabilised", true=False), "The wood was not stabilised.",
                        "The wood was stabilised.", "Nobody wrote down whether it was stabilised."),
    "warming": _Clue(_is("warming"), "Wood and resin grew warmer while it was liquid.",
                     "It cooled or stayed level while it was liquid.",
                     "Fewer than two temperatures before the gel."),
    "late_pressure": _Clue(_is("pressed_before_gel", true=False),
                           "It came under pressure only after the gel.",
                           "It was under pressure before the gel.",
                           "The time of pressure was not written down."),
    "vented": _Clue(_is("vented_early"), "The pot was vented before it was hard.",
                    "The pot was vented late enough.", "The venting was not written down."),
    "leak": _Clue(_is("pot_leaked"), "The pot lost air that cold does not explain.",
                  "The pot held.", "Too few gauge readings to tell a leak."),
    "deep": _Clue(_is("depth_over_limit"), "Deeper than the sheet allows.",
                  "Within the sheet's depth.", "Depth or its limit is not known."),
    "hot": _Clue(_is("hot_mass"), "More in one cup than the sheet allows at that warmth.",
                 "Within the sheet's mass.", "Mass limit or temperature is not known."),
    "humid": _Clue(_is("humid"), "The air was humid.", "The air was dry enough.",
                   "The humidity was not written down."),
    "no_pecks": _Clue(_is("pecked", true=False), "Drilled in long steps.",
                      "Drilled in short pecks.", "How it was drilled was not written down."),
    "fast": _Clue(_is("fast"), "Faster than the band.", "Within the speed band.",
                  "The speed was not written down."),
    "core_cold": _Clue(_is("core_reached", true=False), "The core never came to temperature.",
                       "The core came to temperature.", "The core was not probed."),
    "dry_wood": _Clue(_is("low_uptake"), "The uptake was low.", "The uptake was good.",
                      "The pieces were not weighed before and after."),
    "bath": _Clue(_is("bath_shared"), "The bath had treated other woods.", "The bath was fresh.",
                  "The bath has no history."),
}  # fmt: skip


@frozen
class _Reason:
    key: str
    text: str
    remedy: str
    clues: tuple[str, ...]


def _reason(key: str, text: str, remedy: str, clues: str) -> _Reason:
    return _Reason(key, text, remedy, tuple(clues.split()))


OFF_RATIO = _reason("off ratio", "Hardener off its ratio", "Weigh both parts, by the stops.",
                    "ratio witness_soft")  # fmt: skip
TOO_YOUNG = _reason("young", "Not cured yet", "Wait, warmer; then press a nail into the witness.",
                    "young")  # fmt: skip
TOO_COLD = _reason(
    "cold", "Too cold to cure", "Warm it above the sheet's minimum and wait.", "cold"
)
SYMPTOMS: dict[str, tuple[str, tuple[_Reason, ...]]] = {
    "soft everywhere": ("Soft everywhere", (
        OFF_RATIO, TOO_YOUNG, TOO_COLD,
        _reason("colour", "Too much colour", "Keep to the cap, as layers are added.", "colour"))),
    "soft in spots": ("Soft in spots", (
        _reason("unmixed", "Unmixed resin from the cup's wall", "Stir, change cups, stir again;"
                " never scrape the cup into the mould.", "unmixed"),
        _reason("wood", "Something from the wood", "Seal or stabilise the wood; test a scrap.",
                "witness_hard open_pores"),
        _reason("wet", "Wet wood", "Dry to constant weight.", "wet witness_hard"))),
    "bubbles at the wood": ("Bubbles at the wood", (
        _reason("pores", "Air out of the pores", "Stabilise or seal the wood first.", "open_pores"),
        _reason("warming", "Warming while liquid", "Warm the wood first; pour as it cools.",
                "warming"),
        _reason("wet", "Wet wood", "Dry to constant weight.", "wet"),
        _reason("late", "Pressure too late", "Air on before the gel.", "late_pressure"))),
    "bubbles everywhere": ("Bubbles everywhere", (
        _reason("late", "Pressure too late", "Air on before the gel.", "late_pressure"),
        _reason("vented", "Vented too early", "Hold until it is hard.", "vented"),
        _reason("leak", "The pot leaked", "Find the leak with soapy water.", "leak"),
        _reason("humid", "Moisture in the resin or the air", "Dry air, dry tools, cans shut.",
                "humid"))),
    "cracks": ("Cracks", (
        _reason("hot", "It got too hot inside", "Smaller cups, thinner layers, cooler parts.",
                "hot"),
        _reason("deep", "Poured too deep", "Layers within the sheet's depth.", "deep"),
        _reason("early", "Out of the mould too early", "Leave it in until its time.", "early"))),
    "cloudiness": ("Cloudiness", (
        _reason("humid", "Moisture", "Dry wood, dry air, dry tools.", "humid"),
        _reason("wet", "Wet wood", "Dry to constant weight.", "wet"),
        _reason("bath", "Colour from the bath", "A fresh bath for pale wood.", "bath"))),
    "chip-out": ("Chip-out", (
        _reason("brittle", "Turned before it was cured", "Wait for full cure.", "young"),
        _reason("pecks", "Drilled in steps that were too long", "Short pecks, time to cool, a"
                " backing block.", "no_pecks"),
        _reason("fast", "Too fast", "Lower the speed; sharp tool, light cuts.", "fast"))),
    "gumming": ("Gumming", (
        TOO_YOUNG, OFF_RATIO,
        _reason("friction", "Friction heat", "Lighter passes; sand wet; let it rest.", "fast"))),
    "white spots in a bore": ("White spots in a bore", (
        _reason("heat", "Drilled too hot", "Short pecks, time to cool.", "no_pecks fast"),
        _reason("dry", "Wood that drank too little", "Longer soak; weigh for uptake.",
                "dry_wood"))),
    "under-cured middle": ("Under-cured middle", (
        _reason("core", "The core never came to temperature", "Count the bake from the core's"
                " temperature, not from the door.", "core_cold"),
        _reason("wet", "Wet wood", "Dry to constant weight.", "wet"))),
}  # fmt: skip
"""Ours, from the cases and the reference pages; common practice, no measured odds."""


def rank(symptom: str, facts: Facts) -> tuple[Cause, ...]:
    """Rank the causes of a symptom: what is supported, what is not known, what speaks against."""
    if symptom not in SYMPTOMS:
        raise out_of_range("symptom", "There is no such symptom in the guide.")
    causes = [
        Cause(each.key, say(each.text), say(each.remedy),
              tuple(CLUES[clue].weigh(facts) for clue in each.clues))
        for each in SYMPTOMS[symptom][1]
    ]  # fmt: skip
    return tuple(sorted(causes, key=lambda each: ORDER[each.side]))


def missing(causes: tuple[Cause, ...]) -> tuple[Text, ...]:
    """Evidence that nobody wrote down and that would help to tell."""
    texts = [each.text for cause in causes for each in cause.evidence if each.side == "missing"]
    return tuple(dict.fromkeys(texts))
