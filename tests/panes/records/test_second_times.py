"""Second times of a step on the form: asked for in turn, judged, and what they say of the law."""

import pytest

from tests.panes.records.conftest import RecordsBench
from tests.panes.records.test_presenter import typed

EPOXY = {"family": "amine epoxy", "demould__time": "24 h", "demould__at": "23 °C"}
TWO = EPOXY | {"demould__time_2": "8 h", "demould__at_2": "40 °C"}
TOGETHER = (
    "From the sheet's 2 times of demould, 49.8 ± 9.6 kJ/mol, and the default of the family,"
    " 55.0 ± 8.0 kJ/mol; both together: 52.9 ± 6.2 kJ/mol."
)


def test_a_further_time_is_asked_for_once_the_one_before_stands(bench: RecordsBench) -> None:
    def hidden() -> list[bool]:
        places = ("time", "time_2", "time_2_high", "at_2", "time_3", "at_3")
        return [bench.whole(f"demould.{place}").hidden for place in places]

    assert hidden() == [False, True, True, True, True, True]
    typed(bench, **EPOXY)
    assert hidden() == [False, False, False, False, True, True]
    typed(bench, demould__time_2="8 h")
    assert hidden() == [False] * 6
    typed(bench, demould__time="", demould__time_2="", demould__at_3="50 °C")
    assert hidden() == [False, True, True, True, False, False]


def test_a_missing_half_shows_itself(bench: RecordsBench) -> None:
    typed(bench, demould__at_2="40 °C")
    bench.pane.on_edit("demould.time", "")
    bench.pane.on_save()
    assert bench.problem("demould.time_2") == "The time itself is missing."
    assert not bench.whole("demould.time_2").hidden


def test_two_times_say_beside_them_what_they_give(bench: RecordsBench) -> None:
    typed(bench, **EPOXY)
    assert bench.remarks("Demould") == ()
    assert bench.remarks("How times change with warmth") == (
        "Demould: Default of the family, 55.0 ± 8.0 kJ/mol.",
    )
    typed(bench, **TWO)
    assert bench.remarks("Demould") == (TOGETHER,)
    assert bench.remarks("How times change with warmth") == (
        "Demould: by its own times, 52.9 ± 6.2 kJ/mol.",
    )
    bench.pane.on_save()
    assert bench.pane.screen.status == "Saved as version 1."


def test_it_is_said_before_the_sheet_has_a_name(bench: RecordsBench) -> None:
    for place, text in TWO.items():
        bench.pane.on_edit(place.replace("__", "."), text)
    assert bench.remarks("Demould") == (TOGETHER,)


def test_an_odd_energy_is_asked_about_and_hinders_nobody(bench: RecordsBench) -> None:
    odd = {"demould__time": "72 h", "demould__at": "20 °C", "demould__time_2": "24 h"}
    typed(bench, **(EPOXY | odd), demould__at_2="30 °C")
    (told,) = bench.asks("Demould")
    assert bench.remarks("Demould") == ()
    assert told.startswith("81.2 ± 15.7 kJ/mol by these times is hard to believe: 31 to 79 is")
    assert "Not used: the default of the family is" in told
    bench.pane.on_save()
    assert bench.pane.screen.status == "Saved as version 1."
    typed(bench, law__energy="81 kJ/mol")
    (told,) = bench.remarks("Demould")
    assert bench.asks("Demould") == ()
    assert told.endswith("Not used: The energy that the sheet gives.")


def test_a_temperature_beyond_use_is_allowed_and_told(bench: RecordsBench) -> None:
    typed(bench, **TWO, temperature__lowest="15 °C", temperature__highest="32 °C")
    assert bench.whole("demould.at_2").remark == (
        "Above its highest of use, 32 °C: good for the law alone."
    )
    bench.pane.on_leave("demould.at_2")
    assert bench.problem("demould.at_2") == ""


def test_while_times_contradict_each_other_nothing_is_worked_out(bench: RecordsBench) -> None:
    typed(bench, **(TWO | {"demould__time_2": "30 h"}))
    bench.pane.on_leave("demould.time_2")
    assert "never take longer" in bench.problem("demould.time_2")
    assert bench.remarks("Demould") == ()
    assert bench.remarks("How times change with warmth") == ()


def test_a_contradiction_comes_and_goes_with_either_of_its_entries(bench: RecordsBench) -> None:
    typed(bench, **(EPOXY | {"demould__time_2": "50 h"}))
    bench.pane.on_leave("demould.time_2")
    assert bench.problem("demould.at_2") == "", "it is only about to be typed"
    typed(bench, demould__at_2="40 °C")
    bench.pane.on_leave("demould.at_2")
    assert "never take longer" in bench.problem("demould.time_2")
    typed(bench, demould__at_2="10 °C")
    bench.pane.on_leave("demould.at_2")
    assert bench.problem("demould.time_2") == ""
    typed(bench, demould__at_2="")
    bench.pane.on_save()
    assert "At which temperature" in bench.problem("demould.at_2")
    typed(bench, demould__time_2="")
    bench.pane.on_leave("demould.time_2")
    assert bench.problem("demould.at_2") == ""


def test_scattered_times_are_doubted_beside_them(bench: RecordsBench) -> None:
    typed(bench, family="amine epoxy", demould__time="60 h", demould__at="15 °C",
          demould__time_2="13 h", demould__at_2="25 °C",
          demould__time_3="9 h", demould__at_3="40 °C")  # fmt: skip
    assert bench.asks("Demould")[0].startswith("One of these times lies far off")


def test_a_cup_and_a_film_are_told_apart(bench: RecordsBench) -> None:
    typed(bench, **TWO, working__time="2 h", working__at="23 °C", hard__time="36 h",
          hard__at="23 °C")  # fmt: skip
    assert bench.remarks("How times change with warmth") == (
        "Working time: Default of the family, 55.0 ± 8.0 kJ/mol.",
        "Demould: by its own times, 52.9 ± 6.2 kJ/mol.",
        f"Hard enough to turn: {TOGETHER}",
    )


@pytest.mark.parametrize("family", ["polyurethane", "", "glue"])
def test_the_family_that_stands_is_the_one_that_is_asked(bench: RecordsBench, family: str) -> None:
    typed(bench, **(TWO | {"family": family}))
    (told,) = bench.remarks("Demould")
    assert ("50.0 ± 12.0" if family == "polyurethane" else "55.0 ± 12.0") in told


def test_a_file_with_second_times_comes_into_the_form_and_out_again(bench: RecordsBench) -> None:
    path = bench.file(
        'name = "From file"\nfamily = "amine epoxy"\n[ratio]\nbasis = "weight"\na = 100\nb = 44\n'
        '[demould]\ntime = "24 h"\nat = "23 °C"\ntime_2 = "8 h"\nat_2 = "40 °C"\n'
    )
    bench.pane.on_import(path)
    assert bench.pane.screen.status == "Read. Save to keep it."
    assert bench.remarks("Demould") == (TOGETHER,)
    bench.pane.on_save()
    (version,) = bench.shop.sheets.all()
    demould = version.mapping["demould"]
    assert demould == {"time": "24 h", "at": "23 °C", "time_2": "8 h", "at_2": "40 °C"}


def test_other_kinds_of_record_remark_nothing(bench: RecordsBench) -> None:
    bench.shop.plate()
    bench.pane.on_kind(1)
    assert not any(group.remarks or group.asks for group in bench.pane.screen.groups)
    assert not any(cell.hidden for group in bench.pane.screen.groups for cell in group.cells)
