import pytest

from shopassist.core.wording import DASH, NONE
from shopassist.panes.warmup.presenter import FIGURES, WarmupPresenter
from tests.panes.warmup.bench import Bench

HOT = {"thermostat": {"set": "41 °C"}, "watch": {"thermometer": True, "cut_out": "60 °C"}}


def figure(bench: Bench, name: str) -> str:
    """Number and unit of one of the smaller figures."""
    shown = bench.screen.figures[FIGURES.index(name)]
    return f"{shown.value} {shown.unit}".strip()


def whats(bench: Bench) -> list[str]:
    return [what for what, _ in bench.screen.notes]


# -- what is still needed --------------------------------------------------------------------


def test_without_a_record_the_cabinet_is_typed_and_the_first_blank_is_named(bench: Bench) -> None:
    assert bench.screen.is_typed
    assert bench.screen.lead.value == NONE
    assert bench.screen.lead.note == "needs: width inside"
    for name, text in (("width", "450"), ("depth", "450"), ("height", "600")):
        bench.type(name, text)  # type: ignore[arg-type]
    assert bench.screen.lead.note == "needs: foam inside"
    bench.type("insulation", "25")
    bench.type("heater", "100")
    assert bench.screen.lead.note == "needs: thermostat set to"
    bench.type("thermostat", "41")
    assert bench.screen.lead.note == "needs: shop"
    bench.type("shop", "15")
    assert bench.screen.lead.note == "needs the mass of moulds, resin or wood"
    assert bench.screen.picture.empty == bench.screen.lead.note


def test_a_typed_cabinet_is_as_good_as_a_record(bench: Bench) -> None:
    bench.ready()
    by_record = figure(bench, "warm_after")
    bench.pane.on_cabinet("")
    typed = {"width": "450", "depth": "450", "height": "600", "insulation": "25", "skin": "18",
             "heater": "100", "thermostat": "29"}  # fmt: skip
    for name, text in typed.items():
        bench.type(name, text)  # type: ignore[arg-type]
    assert bench.screen.is_typed
    assert figure(bench, "warm_after") == by_record


def test_without_the_wooden_skin_it_loses_more(bench: Bench) -> None:
    for name, text in {"width": "450", "depth": "450", "height": "600", "insulation": "25",
                       "heater": "100", "thermostat": "29"}.items():  # fmt: skip
        bench.type(name, text)  # type: ignore[arg-type]
    bench.load()
    bare = figure(bench, "duty")
    bench.type("skin", "18")
    assert int(bare.split()[0]) > int(figure(bench, "duty").split()[0])


# -- the plan ----------------------------------------------------------------------------------


def test_it_says_when_to_switch_on_and_how_long_it_takes(bench: Bench) -> None:
    bench.ready()
    screen = bench.screen
    assert screen.lead.value != NONE
    assert screen.lead.bracket is not None
    assert screen.lead.bracket.text.startswith("to ")
    warm = screen.figures[0]
    assert warm.bracket is not None
    assert warm.bracket.low < (warm.bracket.at or 0.0) < warm.bracket.high
    assert warm.bracket.text.endswith(" h")
    assert DASH in warm.bracket.text


def test_the_switch_is_thrown_for_the_slowest_that_it_may_be(bench: Bench) -> None:
    bench.ready()
    bench.screen  # noqa: B018 - worked out when it is drawn
    bench.pane.on_explain("warmup.switch_on")
    (found,) = bench.explained
    warm = found.inputs["warm through after"]
    pour = found.inputs["pour"]
    assert found.value == pytest.approx(float(pour.value or 0) - (warm.high or 0.0))  # type: ignore[union-attr]
    assert found.value is not None
    assert found.value > bench.now


def test_every_figure_explains_itself(bench: Bench) -> None:
    bench.plate()
    bench.ready()
    bench.screen  # noqa: B018
    for name in ("switch_on", *FIGURES):
        bench.pane.on_explain(f"warmup.{name}")
    assert [each.id for each in bench.explained] == [f"warmup.{n}" for n in ("switch_on", *FIGURES)]
    bench.pane.on_explain("warmup.nothing")
    assert len(bench.explained) == len(FIGURES) + 1


def test_a_pour_too_soon_is_said_to_be_too_soon(bench: Bench) -> None:
    bench.ready()
    soon = bench.words.clock(bench.now + 1800)
    bench.pane.on_pour_at(soon)
    assert whats(bench)[0] == "Too late to be sure of that hour."
    assert (
        bench.screen.picture.marks[0].label
        == f"on {bench.words.clock(bench.now)[:3]}" + (bench.screen.picture.marks[0].label[-2:])
    )


def test_an_hour_that_cannot_be_read_is_said_beside_it(bench: Bench) -> None:
    bench.ready()
    bench.pane.on_pour_at("noonish")
    assert bench.screen.pour_error
    assert bench.screen.lead.note == "needs the time of the pour"
    bench.pane.on_pour_at("")
    assert not bench.screen.pour_error
    assert bench.screen.pour_text == "08:00"
    assert not bench.screen.pour_is_typed


def test_a_heater_that_cannot_hold_it_is_told(bench: Bench) -> None:
    bench.ready(heater={"power": "10 W"})
    assert whats(bench)[0].startswith("It cannot hold 29 °C")
    assert bench.screen.lead.note == "it never gets that warm"
    assert "holds" not in bench.screen.picture.caption


def test_a_heater_with_little_to_spare_is_told(bench: Bench) -> None:
    bench.ready(heater={"power": "28 W"})
    assert "little to spare" in whats(bench)[0]


def test_a_goal_above_the_thermostat_is_never_warm(bench: Bench) -> None:
    bench.ready()
    bench.type("goal", "35")
    assert figure(bench, "warm_after") == NONE
    assert bench.screen.figures[0].note.startswith("never")


def test_where_only_the_worst_never_gets_there_no_hour_is_promised(bench: Bench) -> None:
    bench.ready(heater={"power": "24 W"})
    bench.type("goal", "27")
    assert bench.screen.lead.value == NONE


def test_a_warm_shop_asks_for_no_hurry(bench: Bench) -> None:
    bench.ready()
    bench.type("shop", "24")
    assert bench.screen.figures[FIGURES.index("stand_out")].note == "the shop is warm enough"


def test_what_cannot_be_is_said_instead_of_a_plan(bench: Bench) -> None:
    bench.ready()
    bench.type("shop", "30")
    assert bench.screen.lead.note == "The shop is as warm as that already."


# -- what must not be warmed -------------------------------------------------------------------


def test_mixed_resin_in_a_cup_is_refused_and_nothing_is_worked_out(bench: Bench) -> None:
    bench.ready()
    bench.pane.on_inside("mixed resin in a cup")
    assert bench.screen.refused == "Mixed resin is not kept warm."
    assert bench.screen.notes[0][0] == bench.screen.refused
    assert bench.screen.lead.value == NONE
    bench.pane.on_explain("warmup.switch_on")
    assert bench.explained == []
    bench.pane.on_inside("no such thing")
    assert bench.screen.inside == "nothing mixed"


def test_more_in_one_mould_than_the_sheet_allows_is_refused(bench: Bench) -> None:
    bench.mixed(sheet=bench.sheet(limit={"mass": "200 g"}))
    bench.ready()
    bench.pane.on_inside("poured moulds")
    assert bench.screen.shares
    assert not bench.screen.refused
    bench.type("count", "1")
    assert "more than the sheet's" in bench.screen.refused


# -- the pot ---------------------------------------------------------------------------------------


def test_a_pot_is_filled_less_because_it_will_be_warm(bench: Bench) -> None:
    bench.plate()
    bench.ready()
    first = float(figure(bench, "fill").split()[0])
    bench.type("thermostat", "40")
    assert float(figure(bench, "fill").split()[0]) < first < 4.1


def test_without_a_pot_there_is_nothing_to_fill(bench: Bench) -> None:
    bench.ready()
    assert bench.screen.figures[-1].note == "no pot entered"
    bench.pane.on_committed("pot", None)
    assert bench.screen.figures[-1].note == "no pot in it"
    assert "pot" not in {each.kind for each in bench.screen.picture.series}


def test_the_pots_record_is_told_how_warm_it_gets(bench: Bench) -> None:
    pot = bench.plate()
    bench.ready(**HOT)
    assert any("never gets so warm" in what for what in whats(bench))
    assert bench.screen.tell_pot == "Tell the record: 41.5 °C"
    bench.pane.on_tell_pot()
    version = bench.plates.newest(pot)
    assert version is not None and version.record is not None
    assert version.record.warmest == pytest.approx(314.65)
    assert version.record.rating is not None
    assert version.reason
    assert bench.screen.tell_pot == ""
    bench.pane.on_tell_pot()
    newest = bench.plates.newest(pot)
    assert newest is not None
    assert newest.number == version.number


def test_a_pot_not_rated_for_it_is_never_told_so(bench: Bench) -> None:
    bench.plate()
    bench.ready(thermostat={"set": "55 °C"}, watch={"cut_out": "70 °C"})
    assert any("not rated" in what for what in whats(bench))
    assert bench.screen.tell_pot == ""


def test_nothing_is_told_before_there_is_a_plan_or_a_pot(bench: Bench) -> None:
    bench.pane.on_tell_pot()
    bench.ready(**HOT)
    bench.pane.on_tell_pot()
    assert bench.plates.all() == ()
    bench.plate()
    bench.pane.on_committed("pot", None)
    bench.pane.on_tell_pot()
    assert bench.plates.all()[0].number == 1


def test_a_pot_without_its_rating_withholds_the_fill(bench: Bench) -> None:
    bench.plates.save({"name": "Bare", "rating": {"warmest": "20 °C"}, "lid": {"clamps": "6"}})
    bench.ready()
    assert bench.screen.figures[-1].note.startswith("needs the pot's rating")
    assert "never gets so warm" in whats(bench)[0]


def test_a_cabinet_without_a_second_pair_of_eyes_is_told(bench: Bench) -> None:
    bench.ready(watch={})
    assert "sticks" in whats(bench)[0]


# -- memory ---------------------------------------------------------------------------------------


def test_what_was_typed_is_there_again_after_a_restart(bench: Bench) -> None:
    bench.ready()
    bench.pane.on_inside("poured moulds")
    bench.pane.on_pour_at("9:30")
    again = bench.presenter()
    assert again.screen == bench.screen
    bench.state.put("warmup.pot", "a dozen")
    assert dict(bench.presenter().screen.fields)["pot"].value is None


def test_the_shop_as_read_lately_stands_in_for_a_blank(bench: Bench) -> None:
    bench.cabinet()
    assert dict(bench.screen.fields)["shop"].value is None
    bench.warm(bench.batches.open("a"), 16.0, "shop")
    assert dict(bench.screen.fields)["shop"].value == pytest.approx(289.15)
    assert dict(bench.screen.fields)["shop"].origin == "default"
    bench.clock.suspend(13 * 3600.0)
    assert dict(bench.screen.fields)["shop"].value is None


def test_a_removed_cabinet_leaves_it_to_be_typed(bench: Bench) -> None:
    name = bench.cabinet()
    assert bench.screen.cabinets == ((name, "Warm box"),)
    assert bench.presenter().screen.cabinet == name
    bench.cabinets.remove(name)
    assert bench.screen.is_typed


def test_it_grows_stale_with_the_minute(bench: Bench) -> None:
    bench.ready()
    bench.screen  # noqa: B018
    assert not bench.pane.is_stale()
    bench.clock.advance(61.0)
    assert bench.pane.is_stale()


def test_changes_elsewhere_are_told_on(bench: Bench) -> None:
    told: list[None] = []
    bench.pane.changed.connect(told.append)
    bench.plate()
    bench.batches.open("a")
    bench.cabinet()
    assert len(told) >= 3


def test_the_names_it_answers_for_begin_with_its_own() -> None:
    assert all(name.startswith("warmup.") for name in WarmupPresenter.IDS)


def test_a_pound_and_a_half_of_mixed_resin_is_never_kept_warm(bench: Bench) -> None:
    """Case C16: 680 g are 4.5 times what the sheet lets into one cup or mould."""
    bench.mixed(sheet=bench.sheet(limit={"mass": "150 g"}))
    bench.ready()
    bench.type("resin", "0.68")
    bench.type("count", "1")
    bench.pane.on_inside("poured moulds")
    assert bench.screen.refused == "680.0 g in one mould is more than the sheet's 150.0 g."
    bench.pane.on_inside("mixed resin in a cup")
    assert bench.screen.refused == "Mixed resin is not kept warm."
