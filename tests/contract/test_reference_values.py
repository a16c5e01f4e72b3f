"""Every value of the reference on cure (CV-01 to CV-79) and on the cabinet (C1 to C13) has its place:

outside checks (``resources/checks``, each with its source), a test where a whole run is compared, or
a reason why no code of ours is concerned. Here alone it is said which.
"""

import ast
from functools import cache
from pathlib import Path

import pytest

from shopassist.core.sources import SOURCES
from shopassist.store.check_files import shipped_checks

TESTS = Path(__file__).parents[1]
KINETICS, LAWS = "checks/test_kinetics.py", "core/test_cure_law.py"
CUPS = f"{KINETICS}::test_a_cup_peaks_and_gels_as_its_reference_says_and_the_program_names_its_way"
PREPREG = f"{KINETICS}::test_a_prepreg_of_two_stages_is_as_far_as_its_reference_says"
STALLS = f"{KINETICS}::test_cv36_a_hard_resin_left_cool_stalls_where_the_program_stops_counting"

IDS = (*(f"CV-{n:02}" for n in range(1, 80)), *(f"C{n}" for n in range(1, 14)))

COVERED: dict[str, tuple[str, ...]] = {
    "CV-01": ("CV-01",), "CV-02": ("CV-02",), "CV-03": ("CV-03",), "CV-04": ("CV-04",),
    "CV-07": ("CV-07-5", "CV-07-10", "CV-07-15", "CV-07-20", "CV-07-30", "CV-07-40"),
    "CV-08": (f"{KINETICS}::test_cv08_a_history_whose_energy_rises_in_the_cold",),
    "CV-09": ("CV-09-0.5", "CV-09-1.0"), "CV-10": ("CV-10",),
    "CV-11": ("CV-11-40", "CV-11-50", "CV-11-55", "CV-11-60", "CV-11-70"),
    "CV-12": ("CV-12-10", "CV-12-20", "CV-12-30"), "CV-13": ("CV-13",), "CV-14": ("CV-14",),
    "CV-15": ("CV-15-15", "CV-15-20", "CV-15-30", "CV-15-35", "CV-15-40"),
    "CV-16": ("CV-16-47", "CV-16-55", "CV-16-63"), "CV-17": ("CV-17", "CV-17-ends"),
    "CV-18": (
        "CV-18-middle",
        f"{KINETICS}::test_cv18_a_ramp_is_neither_its_middle_nor_the_mean_of_its_ends",
    ),
    "CV-19": ("CV-19",), "CV-20": ("CV-20", "CV-20-time"),
    "CV-21": (f"{KINETICS}::test_cv21_a_closed_form_gives_the_times_of_an_autocatalytic_cure",),
    "CV-22": (f"{KINETICS}::test_cv22_a_closed_form_gives_the_course_of_a_simpler_one",),
    "CV-23": (
        "CV-23-10", "CV-23-15", "CV-23-20", "CV-23-25", "CV-23-30", "CV-23-35", "CV-23-40",
        f"{KINETICS}::test_cv23_a_thin_film_of_the_reference_shape_gels_when_the_formula_says",
    ),
    "CV-24": (f"{KINETICS}::test_cv24_conversion_through_a_history_is_that_of_its_age",),
    "CV-25": (PREPREG, f"{KINETICS}::lee_loos_springer"),
    "CV-26": (PREPREG, "CV-26-0.9", "CV-26-late"), "CV-27": (PREPREG, "CV-26-0.9", "CV-26-late"),
    "CV-28": (PREPREG,),
    "CV-29": (
        f"{KINETICS}::test_cv29_a_prepreg_of_one_energy_is_as_far_as_its_reference_says",
        f"{KINETICS}::test_so_does_the_prepreg_of_one_energy_through_a_ramp",
    ),
    "CV-30": (f"{KINETICS}::test_cv30_diffusion_slows_its_end",),
    "CV-31": (f"{KINETICS}::test_cv31_the_gas_constant_is_the_gas_constant",),
    "CV-36": (STALLS, f"{KINETICS}::test_cv36_hot_enough_it_comes_further_and_so_does_the_program"),
    "CV-37": (f"{KINETICS}::test_cv37_warming_it_afterwards_starts_it_again",),
    "CV-39": ("CV-39a", "CV-39b", "CV-39c"),
    "CV-41": ("CV-41-area", CUPS),
    "CV-42": (
        "CV-42-area", CUPS, f"{KINETICS}::test_cv42_it_passes_fifty_degrees_on_its_way",
    ),
    "CV-43": ("CV-43-area", CUPS),
    "CV-44": (f"{KINETICS}::test_cv44_a_hundred_grams_pass_fifty_degrees_in_nine_minutes",),
    "CV-45": ("CV-45-area", CUPS),
    "CV-46": (f"{KINETICS}::test_cv46_without_any_loss_it_ends_at_the_whole_rise",),
    "CV-47": ("CV-47-50", "CV-47-100", "CV-47-250", "CV-47-deep-1000"),
    "CV-48": ("CV-48-deep", "CV-48-slow", "CV-48-med", "CV-48-fast"),
    "CV-49": ("CV-49-cylinder", "CV-49-sphere"),
    "CV-50": ("CV-50-30", "CV-50-40"), "CV-51": ("CV-51",),
    "CV-52": ("CV-52", "CV-52-share"), "CV-53": ("CV-53-slab", "CV-53-bar"),
    "CV-61": ("CV-61", "CV-61-back", "CV-61-pair"), "CV-62": ("CV-62",),
    "CV-63": ("CV-63", "CV-63-parts"), "CV-64": ("CV-64", "CV-64-error"),
    "CV-65": ("CV-65-rich", "CV-65-lean"), "CV-66": ("CV-66-1", "CV-66-2", "CV-66-3"),
    "CV-67": ("CV-67", "CV-67-two"), "CV-68": ("CV-68", "CV-68-short"),
    "CV-69": ("CV-69", "CV-69-resin"), "CV-70": ("CV-70",),
    "CV-72": ("CV-72-30", "CV-72-40", "CV-72-60"), "CV-73": ("CV-73", "CV-73-raw", "CV-73-line", "CV-73-believed"),
    "CV-74": ("CV-74", "CV-74-range"), "CV-75": ("CV-75", "CV-75-late", "CV-75-early"),
    "CV-76": ("CV-76-aibn-82", "CV-76-aibn-101", "CV-76-bpo-91", "CV-76-bpo-113"),
    "CV-77": (
        "CV-77", "CV-77-flag", f"{LAWS}::test_cv77_a_pair_with_an_odd_energy_is_worth_asking_about",
    ),
    "CV-78": ("CV-78",), "CV-79": ("CV-79",),
    "C1": ("CAB-C1",), "C2": ("CAB-C2",), "C3": ("CAB-C3",), "C4": ("CAB-C4", "CAB-C4-loss"),
    "C5": ("CAB-C5",), "C6": ("CAB-C6", "CAB-C6-area"), "C7": ("CAB-C7", "CAB-C7-long"),
    "C8": ("CAB-C8",), "C9": ("CAB-C9",), "C10": ("CAB-C10-on", "CAB-C10-off"),
    "C11": ("CAB-C11",), "C12": ("CAB-C12", "CAB-C12-time"),
    "C13": ("CAB-C13", "CAB-C13-constant"),
}  # fmt: skip

ARGUED: dict[str, str] = {
    "CV-05": "Nurse and Saul's sum of degrees and hours: no law of ours is linear in degrees.",
    "CV-06": "Weaver and Sadgrove's square of degrees: a law for concrete that no sheet may choose.",
    "CV-32": "Conversion at the gel: the program counts ages and never a conversion.",
    "CV-33": "Conversion at the gel off the ratio: as CV-32.",
    "CV-34": "Glass transition by conversion: it is typed from a sheet and never worked out.",
    "CV-35": "Its inverse: as CV-34.",
    "CV-38": "Two forms of diffusion control: in the reference runs of CV-30 and CV-36 alone; the"
    " program caps a stalled cure by one rule.",
    "CV-40": "Heat of reaction from equivalents: a usual heat is taken, marked as ours.",
    "CV-54": "Gas from water in polyurethane: the program says keep it dry and names no litres.",
    "CV-55": "Bubbles from water: as CV-54.",
    "CV-56": "Equivalent weights: a maker's ratio is never made again from chemistry.",
    "CV-57": "Amine for an epoxy: as CV-56.",
    "CV-58": "Blends of epoxies: as CV-56.",
    "CV-59": "Technical amine: as CV-56.",
    "CV-60": "Amine by molecule: as CV-56.",
    "CV-71": "Shrinkage from two densities: it is typed, by volume, and never worked out.",
}

THERMAL_EXAMPLES: dict[str, str] = {
    "CV-01": "the code body's own library asks for 1 %; held to a hundredth of that",
    "CV-02": "as CV-01; held to a tenth of that",
    "CV-03": "as CV-01; held to a hundredth of that",
    "CAB-C13": "thermocouple; the book rounds 9.94 to 10 s",
    "HT-4x4": "measured on five hardwoods, 100 to 115 min",
    "HT-6x6": "measured, 226 to 265 min",
    "HT-3x3": "measured, 51 to 61 min",
}
"""Published examples that were read, each with what its own source allows."""


@cache
def functions(path: str) -> frozenset[str]:
    """Names of the functions of a test module."""
    tree = ast.parse((TESTS / path).read_text("utf-8"))
    return frozenset(node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef))


CHECKS = {check.id: check for check in shipped_checks()}


@pytest.mark.parametrize("value", IDS)
def test_each_value_has_one_place(value: str) -> None:
    assert (value in COVERED) != (value in ARGUED), f"{value} is mapped to nothing, or twice"


def test_nothing_else_is_mapped() -> None:
    assert {*COVERED, *ARGUED} == set(IDS)
    assert all(": " in reason and reason.endswith(".") for reason in ARGUED.values())


@pytest.mark.parametrize("value", COVERED)
def test_what_covers_a_value_exists(value: str) -> None:
    assert COVERED[value]
    for cover in COVERED[value]:
        path, _, name = cover.rpartition("::")
        if not path:
            assert CHECKS[cover].source in SOURCES
            continue
        assert name in functions(path)


@pytest.mark.parametrize("check", THERMAL_EXAMPLES)
def test_a_published_example_was_read_and_not_remembered(check: str) -> None:
    found = CHECKS[check]
    assert not found.from_memory
    assert SOURCES[found.source].standing == "read"
    assert found.basis in ("standard", "handbook", "paper")
