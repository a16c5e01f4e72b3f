"""Hours of the shop: as rows, and as a line of text."""

from typing import Any

import pytest

from shopassist.core.errors import EntryError
from shopassist.core.hours_text import read_hours, write_hours
from shopassist.core.quantities import Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.shop_week import ShopWeek, body_of, fold_all_weeks
from shopassist.core.work_hours import DEFAULT

H = 3600.0


def row(kind: str, **body: Any) -> Row:
    reading = Reading(UtcSecond(0.0), Second(0.0), "boot", Second(0.0))
    return Row(1, "plan", 1, kind, 1, reading, UtcSecond(0.0), body, "")


def test_hours_come_back_from_their_row() -> None:
    week = read_hours("Mon-Wed 8-12, 13:30-17; Sun 10-11", "plan.hours")
    found = fold_all_weeks([row("hours_set", **body_of(week))])
    assert {day: tuple(spans) for day, spans in found.week.items()} == week
    assert not found.is_default
    assert found.week[0] == ((8 * H, 12 * H), (13.5 * H, 17 * H))


@pytest.mark.parametrize(
    "week", [None, {}, {"0": "9"}, {"0": [[9]]}, {"0": [9]}, {"0": [[1.0, "x"]]}, {"0": [[9, 8]]}]
)
def test_hours_that_cannot_be_are_passed_over(week: object) -> None:
    assert fold_all_weeks([row("hours_set", week=week)]) == ShopWeek()


def test_rows_of_other_kinds_change_nothing() -> None:
    assert fold_all_weeks([row("note")]) == ShopWeek()


def test_an_oven_may_be_kept_from_running_alone() -> None:
    assert fold_all_weeks([row("attended_set", attended=True)]).attended
    both = [row("attended_set", attended=True), row("attended_set", attended=False)]
    assert not fold_all_weeks(both).attended


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("mon-fri 9-12, 13-18; sat 9-13", "Mon–Fri 9–12, 13–18; Sat 9–13"),
        ("Saturday-Monday 8:30 - 17", "Mon 8:30–17; Sat–Sun 8:30–17"),
        ("Mon, Wed 9–24", "Mon 9–24; Wed 9–24"),
        ("Tue 9-10; Tue 11-12;", "Tue 9–10, 11–12"),
    ],
)
def test_hours_are_read_and_written_alike(text: str, shown: str) -> None:
    week = read_hours(text, "plan.hours")
    assert write_hours(week) == shown
    assert read_hours(shown, "plan.hours") == week


def test_the_default_can_be_typed() -> None:
    assert write_hours(DEFAULT) == "Mon–Sat 9–18"
    assert read_hours("Mon-Sat 9-18", "plan.hours") == DEFAULT


@pytest.mark.parametrize(
    "text", ["", "9-18", "Mon", "Mon 9", "Moonday 9-18", "Mon 9-18-20", "Mon 18-9", "Mon 9:75-18",
             "Mon 9-18:61", "Mon 9-25", "Mon 9-12, 11-13", "Mon 9-12;" * 40, "Mon--Tue 9-10"],
)  # fmt: skip
def test_what_is_no_hours_is_refused_with_an_example(text: str) -> None:
    with pytest.raises(EntryError) as refused:
        read_hours(text, "plan.hours")
    assert refused.value.field == "plan.hours"
    assert "Mon-Fri" in refused.value.detail.template
