"""Further times of a step: read, written, and what is wrong with them."""

import tomllib

import pytest

from shopassist.core.records import flatten, nest
from shopassist.core.sheet_pairs import pairs_of
from shopassist.core.sheets import SHEET_FIELDS, STAGES, sheet_from_mapping
from tests.core.test_records import GOOD, read

HOUR = 3600.0


def problems(**demould: str) -> dict[str, str]:
    mapping = tomllib.loads(GOOD) | {"demould": demould}
    found = sheet_from_mapping(mapping, read).problems
    return {each.place.removeprefix("demould."): each.text.template for each in found}


def test_further_times_are_read_with_their_own_temperatures() -> None:
    demould = {
        "time": "24 h", "at": "23 °C",
        "time_2": "8 h", "time_2_high": "10 h", "at_2": "40 °C",
        "time_3": "60 h", "at_3": "15 °C",
    }  # fmt: skip
    sheet = sheet_from_mapping(tomllib.loads(GOOD) | {"demould": demould}, read).sheet
    assert sheet is not None
    step = sheet.stage("demould")
    assert step is not None
    assert [(round(p.temp - 273.15), round(p.time / HOUR)) for p in step.pairs] == [
        (23, 24), (40, 8), (15, 60),
    ]  # fmt: skip
    assert step.more == step.pairs[1:]
    assert step.more[0].longest == pytest.approx(10 * HOUR)
    assert step.more[0].middle == pytest.approx(80**0.5 * HOUR)
    assert (step.pairs[0].error, step.more[0].error) == (0.15, 0.3)


def test_a_sheet_without_them_is_as_it_was() -> None:
    sheet = sheet_from_mapping(tomllib.loads(GOOD), read).sheet
    assert sheet is not None
    gel = sheet.stage("gel")
    assert gel is not None
    assert (gel.more, len(gel.pairs)) == ((), 1)
    assert pairs_of({}, "gel") == ()


def test_every_step_takes_two_further_times() -> None:
    places = {field.place for field in SHEET_FIELDS}
    for stage in STAGES:
        assert {f"{stage}.{name}_{n}" for name in ("time", "at") for n in (2, 3)} <= places


FIRST = {"time": "24 h", "at": "23 °C"}


@pytest.mark.parametrize(
    ("entries", "place", "word"),
    [
        (FIRST | {"time_2": "8 h"}, "at_2", "At which temperature"),
        (FIRST | {"at_2": "40 °C"}, "time_2", "missing"),
        (FIRST | {"time_3_high": "9 h"}, "time_3", "missing"),
        (FIRST | {"time_2": "8 h", "at_2": "23 °C"}, "at_2", "holds at this temperature"),
        (
            FIRST | {"time_2": "8 h", "at_2": "40 °C", "time_3": "7 h", "at_3": "40.2 °C"},
            "at_3", "holds at this temperature",
        ),
        (FIRST | {"time_2": "30 h", "at_2": "40 °C"}, "time_2", "never take longer"),
        (FIRST | {"time_2": "8 h", "at_2": "15 °C"}, "time_2", "never take longer"),
        (
            FIRST | {"time_2": "8 h", "at_2": "40 °C", "time_3": "9 h", "at_3": "50 °C"},
            "time_3", "never take longer",
        ),
        (FIRST | {"time_2": "8 h", "time_2_high": "7 h", "at_2": "40 °C"}, "time_2_high", "under"),
        ({"time": "24 h", "time_2": "8 h", "at_2": "40 °C"}, "at", "how warm"),
        ({"time_2": "8 h", "at_2": "40 °C"}, "time", "missing"),
    ],
)  # fmt: skip
def test_what_cannot_be_right_is_told_beside_its_field(
    entries: dict[str, str], place: str, word: str
) -> None:
    found = problems(**entries)
    assert list(found) == [place]
    assert word in found[place]


def test_a_gap_in_the_numbering_is_nobodys_fault() -> None:
    assert problems(**FIRST, time_3="8 h", at_3="40 °C") == {}


def test_a_table_needs_two_temperatures_of_one_step() -> None:
    table = tomllib.loads(GOOD) | {"law": {"kind": "table of times"}}
    (problem,) = sheet_from_mapping(table, read).problems
    assert problem.place == "law.kind"
    assert sheet_from_mapping(
        table | {"demould": FIRST | {"time_2": "8 h", "at_2": "40 °C"}}, read
    ).sheet


def test_nothing_is_lost_between_file_and_form() -> None:
    mapping = {"demould": FIRST | {"time_2": "8 h", "at_2": "40 °C"}}
    assert nest(dict(flatten(mapping))) == mapping
