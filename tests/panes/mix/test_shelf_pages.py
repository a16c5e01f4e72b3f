"""Colours, stock by lot and the minutes up to pressure."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.errors import RefusedError
from tests.panes.mix.conftest import MixBench

RATIO = {"basis": "weight", "a": "100", "b": "44"}


def resin(bench: MixBench, amount: str, family: str = "amine epoxy", **more: object) -> MixBench:
    fields = {"name": "Clear", "family": family, "ratio": RATIO} | more
    bench.pane.on_sheet(bench.shop.bare(**fields))
    return bench.type(amount=amount, waste="0 %")


# -- colour --------------------------------------------------------------------------------------


def test_caps_of_colour_are_grams_of_the_whole_mix(bench: MixBench) -> None:
    """250 g take 12.5 g at 5 % and 2.5 g at 1 %; each layer takes from what is left."""
    resin(bench, "250 g")
    assert bench.figures(bench.page("colour"))["colour_most"] == "12.5 g"
    shown = bench.page("colour", colour_mass_1="4 g", colour_mass_2="3.5 g")
    assert bench.figures(shown)["colour_left"] == "5.0 g"
    weak = bench.shop.keep(
        bench.shop.colours, name="Ink", cap="1 %", made_for="amine epoxy", kind="ink"
    )
    shown = bench.page("colour", colour_1=weak)
    assert bench.figures(shown) == {"colour_most": "2.5 g", "colour_left": "0.0 g"}
    assert shown.caution[0] == "Too much colour: 7.5 g of 2.5 g."
    assert bench.pane.screen.note[0] == shown.caution[0]


def test_colour_is_weighed_in_the_middle_and_never_enters_the_ratio(bench: MixBench) -> None:
    resin(bench, "250 g")
    plain = bench.grams
    grey = bench.shop.keep(bench.shop.colours, name="Smoke grey", made_for="amine epoxy")
    bench.page("colour", colour_1=grey, colour_mass_1="2 g")
    assert bench.grams == plain
    assert bench.stops[1] == "Smoke grey 175.7 later"
    bench.weigh("a", "173.7 g")
    assert bench.pane.screen.weighing == "colour"
    bench.weigh("colour", "175.9 g").weigh("b", "252.3 g")
    shown = bench.pane.screen.deviation
    assert shown is not None
    assert shown.value == "0.0 %"
    bench.pane.on_correct("")
    bench.pane.on_correct("")
    assert bench.pane.screen.weighing == "colour"


def test_water_based_colour_never_goes_into_polyurethane(bench: MixBench) -> None:
    resin(bench, "100 g", "polyurethane")
    ink = bench.shop.keep(bench.shop.colours, name="School ink", water="yes")
    shown = bench.page("colour", colour_1=ink)
    assert shown.caution[0] == "School ink is water-based: polyurethane foams with it."
    assert bench.pane.screen.note[0] == shown.caution[0]


def test_a_dye_for_polyester_is_refused_in_another_family(bench: MixBench) -> None:
    resin(bench, "100 g", "polyurethane")
    dye = bench.shop.keep(bench.shop.colours, name="Dye", made_for="polyester", kind="dye")
    assert (
        bench.page("colour", colour_1=dye).caution[0] == "Dye is made for another family of resin."
    )
    bench.type(amount="")
    assert bench.page("colour").caution[0].startswith("Dye is made for")
    assert bench.page("colour").notes[-1] == "Needs grams."


def test_an_untried_colour_wants_a_test_cup_until_it_did_well_once(bench: MixBench) -> None:
    resin(bench, "100 g")
    mica = bench.shop.keep(bench.shop.colours, name="Mica")
    sheet = bench.shop.batches.get(bench.batch).sheet
    untried = "Mica is untried in this resin: mix a test cup first."
    assert untried in bench.page("colour", colour_1=mica, colour_mass_1="1 g").notes
    bench.pane.on_hardener_in()
    bench.shop.batches.close(bench.batch, "good")
    bench.shop.hand.take_batch(bench.shop.batches.open("Next"))
    assert sheet is not None
    bench.pane.on_sheet(sheet[0])
    bench.type(amount="100 g")
    assert untried not in bench.page("colour", colour_1=mica, colour_mass_1="1 g").notes


def test_several_colours_share_one_stop(bench: MixBench) -> None:
    resin(bench, "100 g").page("colour", colour_mass_1="1 g", colour_mass_2="1 g")
    assert bench.stops[1].startswith("Colour ")


def test_colour_for_just_a_ratio_is_weighed_all_the_same(bench: MixBench) -> None:
    bench.hundred_thirty().page("colour", colour_mass_1="20 g")
    assert bench.pane.screen.note[0] == "Too much colour: 20.0 g of 11.6 g."


# -- stock ---------------------------------------------------------------------------------------


def lot(bench: MixBench, part: str, left: str, name: str = "", **more: str) -> str:
    fields = {"name": name or f"L-{part}", "resin": "Clear", "part": part, "left": left} | more
    return bench.shop.keep(bench.shop.lots, **fields)


def test_without_lots_the_page_says_where_they_are_entered(bench: MixBench) -> None:
    assert bench.page("stock").notes == ("Choose a resin sheet to see its lots.",)
    resin(bench, "100 g")
    assert bench.page("stock").notes[0].startswith("No lots entered.")


def test_a_shelf_that_is_short_is_told_before_anything_is_poured(bench: MixBench) -> None:
    """63.4 g of hardener are needed, 50 are left."""
    resin(bench, "207.36 g")
    lot(bench, "a", "1 kg")
    lot(bench, "b", "50 g")
    shown = bench.page("stock")
    assert shown.caution == (
        "Part B is short by 13.4 g: fill fewer pieces or open another lot.",
        "Open another lot, or mix less.",
    )  # fmt: skip
    assert bench.pane.screen.note[0] == shown.caution[0]
    bench.shop.batches.enter(bench.batch, "blank.pieces", Typed("8", 8.0, "Ratio"))
    assert bench.page("stock").caution[1] == "It is enough for 6 of 8 pieces."
    assert bench.figures(bench.page("stock"))["pieces_possible"] == "6"


def test_a_lot_loses_what_its_cups_take(bench: MixBench) -> None:
    resin(bench, "144 g")
    lot(bench, "a", "500 g")
    hardener = lot(bench, "b", "200 g", price="20")
    assert ("B, lot L-b", "200.0 g left") in bench.page("stock").rows
    bench.weigh("a", "100 g").weigh("b", "144 g")
    bench.pane.on_hardener_in()
    assert ("A, lot L-a", "400.0 g left") in bench.page("stock").rows
    assert ("B, lot L-b", "156.0 g left") in bench.page("stock").rows
    bench.killed()
    assert ("B, lot L-b", "156.0 g left") in bench.page("stock").rows
    bench.shop.keep(bench.shop.lots, hardener, name="L-b", resin="Clear", part="b", left="150 g")
    assert ("B, lot L-b", "150.0 g left") in bench.page("stock").rows


def test_a_batch_has_its_cost_where_both_prices_are_known(bench: MixBench) -> None:
    resin(bench, "144 g")
    lot(bench, "a", "500 g", price="10")
    assert "cost" not in bench.figures(bench.page("stock"))
    lot(bench, "b", "500 g", price="20")
    # 100 g at 10 and 44 g at 20 a kilogram.
    figures = bench.figures(bench.page("stock"))
    assert figures["cost"] == "1.88"
    assert "cost_each" not in figures
    bench.shop.batches.enter(bench.batch, "blank.pieces", Typed("8", 8.0, "Ratio"))
    assert bench.figures(bench.page("stock"))["cost_each"] == "0.24"


def test_wrong_strokes_show_in_what_the_bottles_lost(bench: MixBench) -> None:
    """Hardener left over for months: half of it was used."""
    resin(bench, "100 g")
    first, second = lot(bench, "a", "1000 g"), lot(bench, "b", "500 g")
    keep, lots = bench.shop.keep, bench.shop.lots
    keep(lots, first, name="L-a", resin="Clear", part="a", left="500 g")
    keep(lots, second, name="L-b", resin="Clear", part="b", left="390 g")
    notes = bench.page("stock").notes
    assert "By what the bottles lost, hardener is −50.0 % off the ratio." in notes
    assert any(note.startswith("Over 5 %") for note in notes)
    keep(lots, first, name="L-a", resin="Clear", part="a", left="500 g")
    keep(lots, second, name="L-b", resin="Clear", part="b", left="280 g")
    assert "By what the bottles lost, hardener is 0.0 % off the ratio." in bench.page("stock").notes


def test_a_new_lot_wants_a_test_cup_and_an_old_one_a_look(bench: MixBench) -> None:
    resin(bench, "100 g")
    lot(bench, "a", "500 g")
    lot(bench, "b", "500 g", expires="2020-01-31")
    notes = bench.page("stock").notes
    assert "Lot L-a is new here: mix a test cup first." in notes
    assert "Lot L-b was to be used by 2020-01-31." in notes
    assert bench.pane.screen.note == (
        "Lot L-a is new here: mix a test cup first.", "See Stock. And 2 more.",
    )  # fmt: skip
    bench.pane.on_hardener_in()
    sheet = bench.shop.batches.get(bench.batch).sheet
    assert sheet is not None
    bench.shop.hand.take_batch(bench.shop.batches.open("Next"))
    bench.pane.on_sheet(sheet[0])
    bench.type(amount="100 g")
    assert bench.page("stock").notes == ("Lot L-b was to be used by 2020-01-31.",)


def test_a_lot_on_the_sheet_itself_is_prompted_once(bench: MixBench) -> None:
    resin(bench, "100 g", lot="S-1", opened="2026-01-01", expires="2020-01-01")
    first = bench.pane.screen.note
    assert first == ("Lot S-1 is new here: mix a test cup first.", "See Stock. And 1 more.")
    sheet = bench.shop.batches.get(bench.batch).sheet
    bench.pane.on_hardener_in()
    bench.shop.hand.take_batch(bench.shop.batches.open("Next"))
    assert sheet is not None
    bench.pane.on_sheet(sheet[0])
    bench.type(amount="100 g")
    assert bench.pane.screen.note[0] == "Lot S-1 was to be used by 2020-01-01."


def test_two_lots_of_a_part_are_drawn_one_after_the_other(bench: MixBench) -> None:
    resin(bench, "144 g")
    lot(bench, "a", "60 g", "old", opened="2026-01-02")
    lot(bench, "a", "500 g", "new")
    lot(bench, "b", "500 g")
    bench.weigh("a", "100 g").weigh("b", "144 g")
    bench.pane.on_hardener_in()
    rows = dict(bench.page("stock").rows)
    assert (rows["A, lot old"], rows["A, lot new"]) == ("0.0 g left", "460.0 g left")


# -- steps ------------------------------------------------------------------------------------------

FAST = {
    "family": "polyurethane", "law": {"kind": "factor per 10 degrees", "factor": "2"},
    "ratio": {"basis": "weight", "a": "100", "b": "100"},
    "pressurise": {"time": "7 min", "at": "22 °C"}, "gel": {"time": "15 min", "at": "22 °C"},
}  # fmt: skip


def fast(bench: MixBench, celsius: float = 22.0) -> MixBench:
    resin(bench, "100 g", **FAST)  # type: ignore[arg-type]
    bench.shop.warm(bench.batch, celsius)
    return bench


def test_a_sheet_without_times_has_nothing_to_count_back_from(bench: MixBench) -> None:
    assert bench.page("steps").notes[0].startswith("The sheet gives no time")
    resin(bench, "100 g")
    assert bench.page("steps").notes[0].startswith("The sheet gives no time")
    assert bench.pane.digits() == ""


def test_steps_are_timed_back_from_pressure_and_late_ones_say_so(bench: MixBench) -> None:
    """Stir 1:00, cup 0:30, pour 2:00, load, clamp, fill 1:00 each: 6:30 of an early 7 min."""
    shown = fast(bench).page("steps")
    by = shown.rows[-1]
    assert by[0] == "Under pressure by"
    assert len(shown.rows) == 7
    assert shown.caution[0].endswith("too long for this resin today.")
    shown = bench.page(
        "steps", step_1="30 s", step_2="10 s", step_3="60 s", step_4="30 s", step_5="30 s",
        step_6="30 s",
    )  # fmt: skip
    assert shown.caution == ("", "")
    assert shown.rows[0][1].startswith("begin by ")
    warm = fast(bench, 35.0).page("steps")
    assert warm.rows[0][1] == "before the hardener goes in"


def test_running_steps_are_told_as_done_one_by_one(bench: MixBench) -> None:
    fast(bench).page(
        "steps", step_1="30 s", step_2="10 s", step_3="60 s", step_4="30 s", step_5="30 s",
        step_6="30 s",
    )  # fmt: skip
    bench.pane.on_hardener_in()
    shown = bench.page("steps")
    assert shown.act is not None
    assert (shown.act.words, shown.digits[0]) == ("Stir – done", "Stir; under pressure in")
    assert shown.shown == frozenset()
    before = bench.pane.digits()
    bench.shop.clock.advance(30.0)
    assert bench.pane.digits() != before
    bench.pane.on_act()
    shown = bench.page("steps")
    assert shown.act is not None
    assert shown.act.words == "Second cup, stir – done"
    assert shown.rows[0] == ("Stir", "done")
    bench.shop.clock.advance(240.0)
    assert bench.page("steps").caution[0].endswith("late: it is not at pressure in time.")
    bench.killed()
    bench.pane.on_page("steps")
    for _ in range(5):
        bench.pane.on_act()
    assert bench.page("steps").act is None
    assert len(bench.shop.batches.get(bench.batch).steps) == 6


def test_stirring_and_the_second_cup_are_steps_that_count(bench: MixBench) -> None:
    shown = fast(bench).page("steps")
    assert [row[0] for row in shown.rows[:2]] == ["Stir", "Second cup, stir"]
    assert any("never scrape the cup" in note for note in shown.notes)


def test_a_slow_resin_needs_no_minutes(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.sheet())
    bench.type(amount="100 g")
    bench.shop.warm(bench.batch, 18.0)
    assert bench.page("steps").notes[0].startswith("There is more than an hour")


def test_a_step_cannot_be_done_before_anything_is_mixed(bench: MixBench) -> None:
    fast(bench)
    with pytest.raises(RefusedError):
        bench.shop.batches.step_done(bench.batch, "Stir")


def test_a_shelf_that_holds_just_enough_is_enough(bench: MixBench) -> None:
    """100.0 g and 44.0 g are needed and are there: nothing is short by nothing."""
    resin(bench, "144 g")
    lot(bench, "a", "100 g")
    lot(bench, "b", "44 g")
    assert bench.page("stock").caution == ("", "")
    bench.type(amount="144.1 g")
    assert bench.page("stock").caution[0].startswith("Part A is short by 0.069 g")


def test_both_parts_that_are_short_are_told_at_once(bench: MixBench) -> None:
    """Of 100 g and 44 g there are 60 g and 20 g: nobody buys the one and finds the other missing."""
    resin(bench, "144 g")
    lot(bench, "a", "60 g")
    lot(bench, "b", "20 g")
    what, _ = bench.page("stock").caution
    assert what == (
        "Part A is short by 40.0 g: fill fewer pieces or open another lot."
        " Part B is short by 24.0 g: fill fewer pieces or open another lot."
    )


def test_one_bottle_weighed_again_says_nothing_of_the_ratio(bench: MixBench) -> None:
    """Case M04: 400 g of A and 200 g of B gone at 100 : 44 are 13.6 % too much hardener."""
    resin(bench, "144 g")
    first, second = lot(bench, "a", "1000 g"), lot(bench, "b", "500 g")
    keep, lots = bench.shop.keep, bench.shop.lots

    def told() -> list[str]:
        return [note for note in bench.page("stock").notes if "the bottles lost" in note]

    keep(lots, first, name="L-a", resin="Clear", part="a", left="600 g")
    assert told() == []
    keep(lots, second, name="L-b", resin="Clear", part="b", left="300 g")
    right = ["By what the bottles lost, hardener is 13.6 % off the ratio."]
    assert told() == right
    keep(lots, first, name="L-a", resin="Clear", part="a", left="100 g")
    assert told() == right
    keep(lots, second, name="L-b", resin="Clear", part="b", left="104 g")
    assert told() == ["By what the bottles lost, hardener is 0.0 % off the ratio."]
