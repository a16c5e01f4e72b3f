"""From mould and core to resin and walls, with the cases it was made for."""

import pytest

from shopassist.core.errors import ShopError, StoreError
from shopassist.core.explain import explain
from shopassist.core.figures import Figure
from shopassist.core.outline_text import read_grooves, read_profile, read_steps
from shopassist.core.wording import METRIC, US
from shopassist.panes.blank.asks import ALL, page_of
from shopassist.panes.blank.screen import PAGES
from tests.panes.blank.conftest import SPECS, BlankBench


def test_an_empty_pane_says_what_to_type(bench: BlankBench) -> None:
    screen = bench.pane.screen
    assert screen.section.missing.startswith("Type the mould")
    assert screen.wall.note == "needs bore and outline"
    assert [each.value for each in screen.figures] == ["–", "–"]
    assert not screen.usable
    assert screen.in_mix == ""
    assert screen.right == "New batch"


def test_a_mould_alone_needs_its_own_volume(bench: BlankBench) -> None:
    """Case V01: 30 ml are 33.0 g and never pass for 30 g; waste is on top."""
    bench.type(mould="water, weighed", water_mass="29.95 g", facing="0 mm", shrink="0 %")
    assert bench.figure("for_one") == "30.0 ml"
    bench.type(waste="10 %")
    assert bench.figure("for_all") == "33.0 ml"
    assert bench.pane.screen.section.missing == "Nothing to draw of a measured volume."


def test_a_knob_has_a_drawing_a_wall_and_an_amount(bench: BlankBench) -> None:
    screen = bench.knob().pane.screen
    assert screen.section.section is not None
    assert screen.section.diameter == "Ø 48.0 mm"
    assert screen.section.length == "40.0 mm"
    assert "Thinnest wall" in screen.section.spoken
    assert screen.warns
    assert screen.notes[0].startswith("Under the 3.0 mm")
    assert screen.wall.bracket is not None
    assert bench.figure("wall") == "2.4 mm"
    assert screen.figures[1].label == "For 12, with waste"


def test_the_volume_is_that_of_the_mould_less_the_core(bench: BlankBench) -> None:
    """Reference: mould 76 by 200, core 50 by 190 with six square grooves 8 by 6: net 574 ml."""
    bench.type(
        mould_diameter="76 mm", mould_depth="200 mm", stations="0: 50; 190: 50", base="5 mm",
        grooves=";".join(f"square 8 x 6 at {at}" for at in (20, 50, 80, 110, 140, 170)),
        facing="0 mm", waste="0 %", shrink="3 %",
    )  # fmt: skip
    assert bench.figure("for_one") == "592 ml"
    plan = bench.pane.plan()
    assert plan.need is not None
    assert plan.need.net.mid * 1e6 == pytest.approx(574.0, abs=0.2)


def test_a_core_that_floats_is_told_what_holds_it(bench: BlankBench) -> None:
    """Case V02: 400 g and 600 ml in 1.10 g/ml lift with 260 g."""
    bench.type(mould="water, measured", mould_volume="5 l", core="displaced",
               core_volume="600 ml", core_mass="400 g")  # fmt: skip
    plan = bench.pane.plan()
    assert plan.floating is not None
    assert plan.floating.lift * 1e3 == pytest.approx(260, abs=1)
    assert plan.floating.ballast["steel"] * 1e3 == pytest.approx(605, abs=2)
    notes = bench.pane.screen.notes
    assert any("floats up with 260" in note for note in notes)
    # Near a litre of spare on five: the level may fall as the piece moves.
    told = "In the resin itself that is 604.7 g of steel. Have 924 ml more resin at hand."
    assert told in notes


def test_a_soft_box_that_bows_takes_more(bench: BlankBench) -> None:
    """Case V06: 3 mm on both long walls of 600 × 100 × 75 add 180 ml to 4500."""
    bench.type(mould="box", mould_length="600 mm", mould_width="100 mm", mould_depth="75 mm",
               core="none", facing="0 mm", shrink="0 %", waste="0 %")  # fmt: skip
    before = bench.pane.plan().need
    bench.type(bow="3 mm")
    after = bench.pane.plan().need
    assert before is not None
    assert after is not None
    assert before.net.mid * 1e6 == pytest.approx(4500, abs=1)
    assert (after.net.mid - before.net.mid) * 1e6 == pytest.approx(180, abs=2)
    assert any("carries" in note for note in bench.pane.screen.notes)


def test_an_insert_by_weight_carries_its_range(bench: BlankBench) -> None:
    """Case V07: mixed wood between 0.5 and 0.61 g/ml spreads 22 %."""
    bench.type(mould="water, measured", mould_volume="40 ml", core="weighed", core_mass="7.6 g",
               density_low="0.5 g/ml", density_high="0.608 g/ml")  # fmt: skip
    figure = bench.pane.screen.figures[0]
    assert figure.bracket is not None
    plan = bench.pane.plan()
    assert plan.need is not None
    assert plan.need.core.low * 1e6 == pytest.approx(12.5, abs=0.05)
    assert plan.need.core.high * 1e6 == pytest.approx(15.2, abs=0.05)
    bench.type(stabilised="no")
    assert any("seal it first" in note for note in bench.pane.screen.notes)
    bench.type(density_high="0.4 g/ml")
    assert "swap the two" in bench.problem("density_high")


def test_a_deep_pour_is_told_in_layers(bench: BlankBench) -> None:
    """Case C08: 45 mm at 25 mm a layer are two pours."""
    sheet = bench.shop.sheet(limit={"layer": "25 mm", "at": "23 °C"})
    batch = bench.shop.batches.open("Deep")
    bench.shop.hand.take_batch(batch)
    bench.shop.batches.use_sheet(batch, sheet, 1)
    bench.type(mould_diameter="60 mm", mould_depth="45 mm", core="none", facing="0 mm")
    assert any("2 layers" in note for note in bench.pane.screen.notes)


def test_the_wall_asked_for_is_named(bench: BlankBench) -> None:
    """Case T02: 8 mm in 5/8 in stock leaves 3.94 mm, under 4."""
    bench.type(mould_diameter="40 mm", mould_depth="60 mm", stations="0: 15.875; 57: 15.875",
               drill="8 mm", stabilised="no")  # fmt: skip
    plan = bench.pane.plan()
    assert plan.wall is not None
    assert plan.wall.nominal * 1e3 == pytest.approx(3.94, abs=0.01)
    assert plan.wall.verdict != "enough"
    bench.type(wall="1 mm")
    assert bench.pane.plan().wall is not None
    before = bench.pane.plan().wall
    bench.type(both_ends="yes")
    after = bench.pane.plan().wall
    assert before is not None
    assert after is not None
    assert after.worst > before.worst


@pytest.mark.parametrize(
    ("texts", "field"),
    [
        ({"stations": "0: 60; 37: 60"}, "stations"),
        ({"stations": "0: 22; 8"}, "stations"),
        ({"stations": "0: 22; 8: blue"}, "stations"),
        ({"stations": "10: 22; 8: 22"}, "stations"),
        ({"grooves": "square 3 x 8 at 14"}, "grooves"),
        ({"grooves": "square 3 x 2 at 90"}, "grooves"),
        ({"grooves": "deep one"}, "grooves"),
        ({"grooves": "square 3 x 0 at 5"}, "grooves"),
        ({"drill": "60 mm"}, "drill"),
        ({"bore_depth": "60 mm"}, "bore_depth"),
        ({"facing": "50 mm"}, "facing"),
        ({"level": "60 mm"}, "level"),
        ({"mould": "stepped", "mould_steps": "60 x"}, "mould_steps"),
        ({"mould": "stepped", "mould_steps": ";"}, "mould_steps"),
        ({"bow": "2 mm"}, "bow"),
    ],
)
def test_what_cannot_be_is_told_beside_its_entry(
    bench: BlankBench, texts: dict[str, str], field: str
) -> None:
    bench.knob().type(**texts)
    told = {name: each.problem for name, each in bench.pane.screen.answers.items() if each.problem}
    assert field in told, told


def test_a_bore_that_leaves_no_wood_is_told_beside_the_drill(bench: BlankBench) -> None:
    bench.knob().type(drill="60 mm")
    told = bench.pane.screen.answers["drill"].problem
    assert told.startswith("No wood is left at the worst")
    assert "at most, or" in told
    bench.type(stations="0: 4; 37: 4", drill="3.9 mm", grooves="")
    assert "the core wants 9.0 mm more" in bench.pane.screen.answers["drill"].problem
    bench.type(stations="0: 40; 37: 40")
    assert bench.pane.screen.answers["drill"].problem == ""


def test_every_kind_of_mould_is_drawn_or_counted(bench: BlankBench) -> None:
    bench.type(core="none", facing="0 mm", waste="0 %", shrink="0 %")
    bench.type(mould="tapered", mould_diameter="60 mm", mould_rim="40 mm", mould_depth="80 mm")
    assert bench.figure("for_one") == "159 ml"
    bench.type(mould="stepped", mould_steps="60 x 20; 40 x 30")
    assert bench.figure("for_one") == "94.2 ml"
    bench.type(mould="turned", mould_steps="0: 60; 80: 40")
    assert bench.figure("for_one") == "159 ml"
    bench.type(mould="box", mould_length="100 mm", mould_width="50 mm", mould_depth="20 mm")
    assert bench.figure("for_one") == "100 ml"
    assert bench.pane.screen.section.section is not None
    shown = bench.pane.screen.shown
    assert "mould_length" in shown
    assert "mould_diameter" not in shown


def test_a_missing_size_leaves_a_dash_and_no_message(bench: BlankBench) -> None:
    for kind in ("", "tapered", "stepped", "turned", "box", "water, weighed", "water, measured"):
        bench.pane.on_chosen("mould", kind)
        assert bench.figure("for_one") == "–"
        assert not [each for each in bench.pane.screen.answers.values() if each.problem]
    bench.type(mould_diameter="48 mm", mould_depth="40 mm")
    bench.pane.on_chosen("mould", "")
    for kind in ("weighed", "displaced", "none", ""):
        bench.pane.on_chosen("core", kind)
        assert bench.figure("for_one") != "–"


def test_a_draft_moves_the_drawing_and_is_not_written(bench: BlankBench) -> None:
    bench.knob()
    spec = SPECS["drill"]
    assert spec is not None
    bench.pane.on_edited("drill", bench.shop.words.read("5 mm", spec))
    assert bench.figure("wall") == "3.4 mm"
    batch = bench.shop.batches.get(bench.shop.hand.batch)
    assert batch.entries["blank.drill"].text == "7 mm"
    bench.shop.hand.take_batch(bench.shop.batches.open("Other"))
    assert bench.figure("wall") == "–"


def test_the_resin_is_handed_to_mix_and_comes_back_with_again(bench: BlankBench) -> None:
    asked: list[str] = []
    bench.pane.went_on.connect(asked.append)
    bench.pane.on_use()
    assert asked == []
    bench.knob()
    assert bench.pane.screen.usable
    assert bench.pane.screen.in_mix.endswith(" ml go to Mix.")
    bench.pane.on_use()
    assert asked == ["mix"]
    first = bench.shop.hand.batch
    need = bench.shop.batches.get(first).need
    assert need is not None
    assert need.low == pytest.approx(need.likely)
    assert bench.pane.screen.in_mix.startswith("Mix has ")
    bench.type(drill="6 mm")
    assert ", from earlier sizes." in bench.pane.screen.in_mix
    repeat = bench.shop.batches.open(again_of=first)
    bench.shop.hand.take_batch(repeat)
    assert bench.figure("for_one") != "–"
    assert bench.shop.batches.get(repeat).need is not None
    reopened = bench.shop.reopened()
    assert reopened.batches.get(first).need == need


def test_a_full_disk_is_told(bench: BlankBench, monkeypatch: pytest.MonkeyPatch) -> None:
    bench.knob()

    def full(*_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_use()
    assert bench.pane.screen.message == "The disk is full."


def test_figures_explain_themselves(bench: BlankBench) -> None:
    bench.knob()
    asked: list[Figure] = []
    bench.pane.explained.connect(asked.append)
    for name in ("wall", "for_one", "for_all", "weather"):
        bench.pane.on_explain(name)
    assert [each.formula for each in asked] == ["bore.wall_left", "blank.need", "blank.need"]
    assert "stations" in asked[1].inputs


def test_pages_are_turned(bench: BlankBench) -> None:
    bench.pane.on_page("bore")
    bench.pane.on_page("nowhere")
    assert bench.pane.screen.page == "bore"


def test_lines_are_read_in_the_shops_own_numbers() -> None:
    def read(text: str) -> float:
        return float(text.replace(",", ".")) / 1000

    profile = read_profile("0: 28,5; 12 x 20", "stations", read)
    assert profile.stations[0].diameter == pytest.approx(0.0285)
    assert read_steps("60 × 20", "s", read) == ((0.06, 0.02),)
    ring, flute = read_grooves("Round 5 at 20; vee 4 x 3 at 30 along 10 times 4", "g", read)
    assert (ring.kind, ring.depth, ring.width) == ("round", 0.005, 0.010)
    assert (flute.kind, flute.length, flute.count) == ("vee", 0.01, 4)
    with pytest.raises(ShopError):
        read_grooves("vee 4 x 3 at 30 along 10 times 0", "g", read)
    with pytest.raises(ShopError):
        read_profile(";".join(f"{n}: 3" for n in range(70)), "s", read)


def test_a_level_that_fell_says_what_was_lost(bench: BlankBench) -> None:
    """4 mm over 300 cm² are 120 ml gone through a leak."""
    bench.type(mould="box", mould_length="300 mm", mould_width="100 mm", mould_depth="60 mm",
               core="none")  # fmt: skip
    assert not any("It lost" in note for note in bench.pane.screen.notes)
    bench.type(level_drop="4 mm")
    assert "It lost 120 ml: mix as much again for the top-up, and find the leak." in (
        bench.pane.screen.notes
    )


def test_a_mould_filled_close_to_its_rim_is_not_carried(bench: BlankBench) -> None:
    bench.type(mould="box", mould_length="300 mm", mould_width="100 mm", mould_depth="60 mm",
               core="none", level="30 mm")  # fmt: skip
    rim = "Less than 25 mm to the rim: put it where it stays before you pour."
    assert rim not in bench.pane.screen.notes
    bench.type(level="45 mm")
    assert rim in bench.pane.screen.notes


def test_the_high_end_of_a_range_goes_to_mix(bench: BlankBench) -> None:
    """A lump of clay and wax takes up 12.5 to 15.2 ml: what is left over needs the high end."""
    bench.type(mould="water, measured", mould_volume="40 ml", core="weighed", core_mass="23.6 g",
               density_low="1544 kg/m3", density_high="1886 kg/m3", waste="0 %", shrink="0 %",
               facing="0 mm")  # fmt: skip
    need = bench.pane.plan().need
    assert need is not None
    assert need.for_all.high * 1e6 == pytest.approx(40 - 12.5, abs=0.1)
    assert bench.pane.screen.in_mix == "27.5 ml go to Mix."


def test_a_core_read_in_other_units_is_another_core(bench: BlankBench) -> None:
    """The outline is kept from key to key, but not over another choice of units."""
    bench.type(mould_diameter="900 mm", mould_depth="900 mm", stations="0: 20; 30: 20")
    first = bench.pane.plan().job
    bench.type(mould_diameter="901 mm")
    second = bench.pane.plan().job
    bench.shop.words.units = US
    third = bench.pane.plan().job
    assert first is not None
    assert second is not None
    assert third is not None
    assert first.core is second.core
    assert third.core is not None
    assert second.core is not None
    assert third.core.volume.mid / second.core.volume.mid == pytest.approx(25.4**3)


def test_every_figure_can_be_explained_and_nothing_else(bench: BlankBench) -> None:
    plan = bench.knob().pane.plan()
    assert list(plan.figures) == ["cavity", "core", "for_one", "for_all", "wall"]
    assert len(plan.figures) == 5
    assert {name: made.id for name, made in plan.figures.items()}["wall"] == "blank.wall"
    bench.type(stations="")
    bare = bench.pane.plan().figures
    assert len(bare) == 4
    assert bare.get("wall") is None


def test_the_long_wall_of_a_box_carries_its_resin(bench: BlankBench) -> None:
    """Case V06: 75 mm deep and 600 mm long at 1.10 g/ml push with 18 N: 1.86 kgf."""
    bench.type(mould="box", mould_length="600 mm", mould_width="100 mm", mould_depth="75 mm",
               core="none")  # fmt: skip
    assert any(note.startswith("The long wall carries 1.9 kgf") for note in bench.pane.screen.notes)
    bench.shop.words.units = METRIC.changed(Newton="N")
    assert "The long wall carries 18 N: does it bow?" in bench.pane.screen.notes


def test_five_per_cent_are_added_where_no_sheet_gives_its_shrinkage(bench: BlankBench) -> None:
    """Case C08: overfill of 5 % for shrinkage."""
    bench.type(mould="water, measured", mould_volume="100 ml", core="none", facing="0 mm")
    assert bench.figure("for_one") == "105 ml"
    bench.type(shrink="0 %")
    assert bench.figure("for_one") == "100 ml"


def test_what_is_typed_as_per_cent_is_explained_as_per_cent(bench: BlankBench) -> None:
    told: list[Figure] = []
    bench.pane.explained.connect(told.append)
    bench.knob().type(waste="8 %")
    bench.pane.on_explain("for_all")
    rows = [row for part in explain(told[0]).sections for row in part.rows]
    say = bench.shop.words.say
    assert [say(text) for label, text in rows if say(label) == "waste"] == ["8.0 %, typed"]


def test_what_cannot_be_is_told_in_the_drawings_place_with_its_page(bench: BlankBench) -> None:
    """The entry may stand on another page than the open one."""
    bench.knob().type(grooves="square 3 x 30 at 14")
    screen = bench.pane.screen
    assert screen.section.missing == f"Core: {screen.answers['grooves'].problem}"
    assert "deeper than the core" in screen.section.missing
    assert [each.note for each in screen.figures] == ["see what cannot be"] * 2
    bench.type(grooves="", facing="60 mm")
    assert bench.pane.screen.section.missing.startswith("More: Facing off would take the whole")
    bench.type(facing="0 mm", mould_diameter="20 mm")
    screen = bench.pane.screen
    assert screen.section.missing == f"Core: {screen.answers['stations'].problem}"
    bench.type(mould_diameter="48 mm")
    assert bench.pane.screen.section.missing == ""


@pytest.mark.parametrize("name", [ask.name for ask in ALL])
def test_every_entry_has_its_page(name: str) -> None:
    assert page_of(name) in {words for _, words in PAGES}
