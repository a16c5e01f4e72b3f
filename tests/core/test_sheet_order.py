"""Times of a sheet that cannot follow one another are asked about and never hinder anybody."""

import pytest

from shopassist.core.sheet_milestones import sheet_notes
from shopassist.core.sheet_order import order_doubts
from shopassist.core.sheet_remarks import sheet_remarks
from shopassist.core.sheets import ResinSheet, sheet_from_mapping
from shopassist.core.wording import Wording

WORDS = Wording()
LAW = {"kind": "factor per 10 degrees", "factor": "2"}


def mapping(**steps: object) -> dict[str, object]:
    ratio = {"basis": "weight", "a": "100", "b": "44"}
    return {"name": "Casting", "ratio": ratio, "law": LAW} | steps


def sheet(**steps: object) -> ResinSheet:
    found = sheet_from_mapping(mapping(**steps), WORDS.read_si).sheet
    assert found is not None
    return found


def told(made: ResinSheet) -> list[str]:
    return [WORDS.say(text) for _, text in order_doubts(made)]


def at(time: str, temp: str = "25 °C", **more: str) -> dict[str, str]:
    return {"time": time, "at": temp} | more


def test_demoulding_before_it_gels_is_a_slip_of_somebody() -> None:
    """Two hours typed for two days: the release would come while it is liquid."""
    steps = {"gel": at("10 h"), "demould": at("2 h")}
    slip = "Demould within 2 h and gel after 10 h, both at 25 °C: one is a slip."
    assert told(sheet(**steps)) == [slip]
    assert [WORDS.say(text) for text in sheet_notes(sheet(**steps))] == [slip]
    asked = [each for each in sheet_remarks(mapping(**steps), WORDS.read_si) if each.asks]
    assert [(each.place, WORDS.say(each.text)) for each in asked] == [("demould", slip)]


def test_steps_are_held_together_as_warm_as_each_is() -> None:
    """10 h at 15 °C are 5 h at 25 °C by a factor of two for ten degrees."""
    assert told(sheet(gel=at("10 h", "15 °C"), demould=at("6 h"))) == []
    (slip,) = told(sheet(gel=at("10 h", "15 °C"), demould=at("4 h")))
    assert "gel after 5 h, both at 25 °C" in slip


@pytest.mark.parametrize(
    ("steps", "slips"),
    [
        ({"working": at("3 h"), "pressurise": at("4 h"), "gel": at("2 h")},
         ["working time after 3 h", "under pressure within after 4 h"]),
        ({"working": at("3 h"), "demould": at("2 h")}, ["working time after 3 h"]),
        ({"gel": at("2 h"), "hard": at("1 h")}, ["gel after 2 h"]),
        ({"gel": at("2 h"), "demould": at("12 h"), "hard": at("6 h"), "full": at("5 h")},
         ["demould after 12 h", "hard enough to turn after 6 h"]),
        ({"gel": at("2 h"), "demould": at("2 h"), "full": at("7 d")}, []),
        ({"demould": at("24 h"), "hard": at("12 h", time_high="36 h")}, []),
        ({"gel": {"time": "10 h"}, "demould": at("2 h")}, []),
        ({"gel": at("10 h"), "demould": {"time": "2 h"}}, []),
    ],
)  # fmt: skip
def test_each_step_is_held_against_those_before_it(
    steps: dict[str, object], slips: list[str]
) -> None:
    """A range is taken at its longest; a time without a temperature says nothing."""
    found = told(sheet(**steps))
    assert len(found) == len(slips)
    assert all(slip in text for slip, text in zip(slips, found, strict=True))


def test_a_table_that_is_hard_to_believe_is_gone_by_and_says_so() -> None:
    """4 h at 95 °F and three days at 55 °F are 95 kJ/mol: asked about, and the table goes by them."""
    times = {"time": "4 h", "at": "95 °F", "time_2": "72 h", "at_2": "55 °F"}
    made = sheet(demould=times, law={"kind": "table of times"}, family="amine epoxy")
    (doubt,) = [WORDS.say(text) for text in sheet_notes(made)]
    assert doubt.startswith("Demould: 95.3 ± 7.0 kJ/mol by these times is hard to believe")
    assert doubt.endswith("The table goes by them as they stand.")
