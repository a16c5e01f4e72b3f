"""The open cases of bath and vacuum, each with its own numbers, at the pane."""

from pathlib import Path

import pytest

from tests.panes.stabilise.conftest import WoodBench


def test_s11_the_same_dial_is_judged_by_barometer_or_not_at_all(tmp_path: Path) -> None:
    """22 inHg under 24.89 inHg of air are 73.5 torr; without either no verdict."""
    bench = WoodBench(tmp_path, elevation=None).covered()
    bench.type("pump_best", "2.92 inHg")
    bench.act("Pump is on")
    bench.dial("22 inHg")
    assert "no dial can be judged" in bench.pane.screen.note
    bench.type("barometer", "24.89 inHg")
    assert "best of this pump" in bench.pane.screen.note
    assert bench.pane.screen.figures[0].note.startswith("88.4 %")
    assert bench.figures()["In the chamber"] == "98 mbar abs"
    assert bench.figures()["Dial can reach here"].startswith("744")


def test_s13_the_vacuum_ends_on_what_is_seen_and_the_soak_is_twice_as_long(
    bench: WoodBench,
) -> None:
    """2.5 h under vacuum ask for 5 h."""
    bench.covered()
    bench.act("Pump is on")
    bench.act("Foam has collapsed")
    assert bench.pane.screen.until.startswith("since")
    bench.wait(2.5 - 1 / 6)
    bench.act("No bubbles any more")
    assert bench.pane.screen.digits == "10:00"
    bench.wait(1 / 6)
    bench.act("Valve shut, air is in")
    assert bench.pane.screen.digits == "5:00:00"
    bench.pane.on_act("out_of_bath")
    assert "early removal" in bench.pane.screen.message
    bench.type("soak", "24 h")
    assert bench.pane.screen.digits == "24:00:00"


def test_s14_foam_has_its_steps_its_room_and_somebody_beside_it(bench: WoodBench) -> None:
    """At 27 inHg bubbles are ten times as large, at 29 inHg 33 times."""
    bench.pumps.save({"name": "Small", "best": "3.12 kPa", "rest": "20 min"})
    bench.pane.on_chosen("pump_record", "small")
    assert dict(bench.pane.screen.choices["pump_record"])["small"] == "Small"
    bench.pane.on_page("vacuum")
    assert bench.figures()["Bubbles swell there"] == "32.5 times"
    bench.type("pump_best", "10.0 kPa")
    assert bench.figures()["Bubbles swell there"] == "10.1 times"
    bench.covered()
    bench.act("Pump is on")
    assert bench.pane.screen.note.startswith("Pause at 339 mbar vacuum, 508")
    bench.pane.on_act("quiet")
    assert "foam has collapsed" in bench.pane.screen.message
    bench.wait(0.5)
    assert "Small has run for 30 min" in bench.pane.screen.note


def test_s15_cover_is_the_drop_and_ten_millimetres(bench: WoodBench) -> None:
    """600 ml out of a vessel of 254 mm fall 11.8 mm."""
    bench.pane.on_page("bath")
    bench.type("volume", "1461 ml")
    bench.type("stack", "120 mm")
    bench.type("vessel_diameter", "254 mm")
    bench.pane.on_chosen("species", "Maple, bigleaf")
    bench.type("fill", "62 %")
    figures = bench.figures()
    assert figures["Level falls by"].startswith("11.8")
    assert figures["Cover at the start"].startswith("21.8")


def test_s16_after_a_power_cut_nothing_is_known_and_the_time_begins_anew(
    bench: WoodBench,
) -> None:
    bench.pumps.save({"name": "Vane", "oil": {"every": "1 h", "changed": "2026-01-01"}})
    bench.pane.on_chosen("pump_record", "vane")
    bench.covered()
    bench.act("Pump is on")
    bench.act("Foam has collapsed")
    bench.wait(2)
    bench.act("Power was cut")
    assert bench.pane.screen.what == "Read the gauge and look at the oil."
    assert "not known" in bench.pane.screen.why
    bench.act("Gauge read, oil looked at")
    bench.act("Pump is on")
    assert bench.pane.screen.digits == "0:00"
    bench.act("Foam has collapsed")
    bench.act("No bubbles any more")
    order = ["Close the valve", "inlet to the air", "run on a moment", "Switch the pump off"]
    places = [bench.pane.screen.note.index(words) for words in order]
    assert places == sorted(places)
    other = bench.shop.batches.open("Next")
    bench.shop.hand.take_batch(other)
    bench.pane.on_chosen("pump_record", "vane")
    bench.dried()
    bench.act("It is cool")
    assert "since its oil was changed" in bench.pane.screen.note


@pytest.mark.parametrize(("keeps", "told"), [("1 h", True), ("100000 h", False)])
def test_a_bath_older_than_its_sheet_grants_is_told(
    bench: WoodBench, keeps: str, told: bool
) -> None:
    bench.baths.save({
        "name": "Tin 9",
        "catalyst": {"how": "whole bottle", "shaken": True, "mixed": "2020-01-01", "keeps": keeps},
    })  # fmt: skip
    bench.dried()
    bench.pane.on_chosen("bath", "Tin 9")
    bench.act("It is cool")
    assert ("longer than its sheet says it keeps" in bench.pane.screen.note) is told


def test_s17_pale_wood_into_a_bath_of_a_dark_past_is_told(bench: WoodBench) -> None:
    bench.baths.save({
        "name": "Tin 4", "left": "1 kg", "colour": "honey",
        "catalyst": {"how": "by weight", "share": "1 %", "resin": "4 kg"},
    })  # fmt: skip
    bench.pane.on_chosen("species", "Walnut, black")
    bench.type("diameter", "50 mm")
    bench.pane.on_chosen("bath", "Tin 4")
    bench.shop.hand.take_batch(bench.shop.batches.open("Pale set"))
    bench.dried()
    bench.pane.on_chosen("bath", "Tin 4")
    bench.act("It is cool")
    note = bench.pane.screen.note
    assert "This bath has treated: Walnut, black" in note
    assert "Maple, sugar is pale and this bath is honey" in note
    assert "no date of its catalyst" in note
    assert "shake it" in note
    assert "short of what is to be poured" in note
    bench.pane.on_page("bath")
    assert bench.figures()["Catalyst, by weight"] == "40.0 g"
    bench.weigh("1080 g")
    bench.wait(1)
    bench.act("Covered, ballast on")
    bench.type("poured", "700 ml")
    bench.type("poured_back", "200 ml")
    bench.shop.hand.take_batch(bench.shop.batches.open("Third"))
    bench.pane.on_chosen("bath", "Tin 4")
    bench.pane.on_page("bath")
    assert bench.figures()["In the bath's bottle"] == "485.0 g"


def test_s18_the_lid_of_ten_inches_carries_1154_pounds(bench: WoodBench) -> None:
    """1154 lbf are 5.13 kN, 524 kgf, at the sea; the record says what its lid must be."""
    bench.chambers.save({"name": "Bell", "lid": {"diameter": "10 in", "kind": "glass"},
                         "inside": {"volume": "12 l"}})  # fmt: skip
    bench.pane.on_chosen("chamber_record", "bell")
    bench.pane.on_page("vacuum")
    assert bench.figures()["Air presses on the lid with"] == "524 kgf"
    bench.dried()
    bench.act("It is cool")
    assert "not known to be made for vacuum" in bench.pane.screen.note
    assert "shield the glass" in bench.pane.screen.note
    assert "implode" in " ".join(bench.pane.screen.cautions)
    bench.weigh("1080 g")
    bench.act("Covered, ballast on")
    assert "eyes protected" in bench.pane.screen.beware


def test_a_stall_is_told_by_what_boils_there(bench: WoodBench) -> None:
    bench.covered()
    bench.pane.on_chosen("monomer", "mma")
    bench.type("pump_best", "5 mbar")
    bench.type("chamber", "10 l")
    bench.type("pump_speed", "70 l/min")
    bench.act("Pump is on")
    bench.act("Foam has collapsed")
    bench.wait(1)
    bench.dial("975.4 mbar")
    assert "resin itself boils" in bench.pane.screen.note
    bench.dial("989.9 mbar")
    assert "wood is wet" in bench.pane.screen.note
    bench.dial("1008 mbar")
    assert "those bubbles never end" in bench.pane.screen.note
    bench.pane.on_page("vacuum")
    assert bench.figures()["Pump-down if tight"]
    bench.type("bath_temp", "-5 °C")
    assert bench.pane.screen.answers["bath_temp"].problem
    bench.type("bath_temp", "25 °C")
    bench.type("pump_best", "999 mbar")
    bench.type("barometer", "900 mbar")
    assert bench.pane.screen.answers["pump_best"].problem
