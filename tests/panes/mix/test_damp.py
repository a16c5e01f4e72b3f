"""Case C19: damp air and wood that is not dry, told before hardener goes in."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.quantities import Kilogram
from shopassist.core.rows import Draft
from tests.panes.mix.conftest import MixBench
from tests.panes.mix.test_shelf_pages import resin

NO_REASON = ("", "")


def bangles(bench: MixBench) -> MixBench:
    return resin(bench, "100 g", "polyurethane")


def core(bench: MixBench, **entries: str) -> None:
    for name, text in entries.items():
        bench.shop.batches.enter(bench.batch, f"blank.{name}", Typed(text, None))


def weighed(bench: MixBench, grams: float, when: str = "wet") -> None:
    body = {"mass": grams / 1000, "when": when}
    bench.shop.journal.append([Draft(f"batch/{bench.batch}", "wood_weighed", body)])  # type: ignore[arg-type]
    bench.pane.changed.emit(None)


def test_on_a_rainy_day_the_caution_stands_beside_the_grams(bench: MixBench) -> None:
    """Two days of rain, 78 %: polyurethane stands 50 %, by its suppliers' guidance."""
    bangles(bench)
    assert "Damp air spoils this resin: type the air's humidity." in bench.page("cup").notes
    shown = bench.page("cup", humidity="78 %")
    assert shown.caution[0] == "The air is too damp: 78 %, this resin stands 50 %."
    assert "common practice" in shown.caution[1]
    assert bench.pane.screen.note == shown.caution
    assert bench.page("cup", humidity="50 %").caution == NO_REASON
    assert bench.pane.screen.note == NO_REASON
    assert not bench.pane.screen.needs_reason


def test_the_sheets_own_limit_comes_first_and_is_named(bench: MixBench) -> None:
    resin(bench, "100 g", "polyurethane", limit={"humidity": "70 %"})
    assert bench.page("cup", humidity="65 %").caution == NO_REASON
    what, whose = bench.page("cup", humidity="75 %").caution
    assert what.endswith("this resin stands 70 %.")
    assert whose.endswith("The limit is your sheet's.")


def test_an_epoxy_has_no_limit_unless_its_sheet_gives_one(bench: MixBench) -> None:
    resin(bench, "100 g")
    shown = bench.page("cup", humidity="90 %")
    assert shown.caution == NO_REASON
    resin(bench, "100 g", limit={"humidity": "85 %"})
    assert bench.page("cup").caution[0].startswith("The air is too damp: 90 %")


def test_damp_air_stands_below_a_cup_that_is_too_full(bench: MixBench) -> None:
    resin(bench, "100 g", "polyurethane", limit={"mass": "50 g", "at": "22 °C"})
    shown = bench.page("cup", humidity="78 %", resin_temp="22 °C")
    assert shown.caution[0].startswith("Too much for one cup today")
    assert "The air is too damp: 78 %, this resin stands 50 %." in shown.notes
    assert bench.pane.screen.note[1].endswith("And 1 more.")


def test_the_humidity_of_the_lathes_card_counts_where_no_other_is_typed(bench: MixBench) -> None:
    bangles(bench)
    bench.shop.batches.enter(bench.batch, "turn.humidity", Typed("78 %", 0.78, "Ratio"))
    assert bench.pane.screen.note[0].startswith("The air is too damp: 78 %")
    bench.page("cup", humidity="40 %")
    assert bench.pane.screen.note == NO_REASON


@pytest.mark.parametrize("entry", ["stations", "core_mass", "core_volume"])
def test_wood_without_a_record_is_not_taken_for_dry(bench: MixBench, entry: str) -> None:
    bangles(bench)
    assert not bench.pane.screen.needs_reason
    core(bench, **{entry: "0: 28; 40: 34"})
    screen = bench.pane.screen
    assert screen.note[0] == "Nothing on record shows this wood oven-dry by weight."
    bench.pane.on_hardener_in()
    assert bench.pane.screen.message.startswith("Nothing shows this wood oven-dry. Type why")
    assert bench.shop.batches.get(bench.batch).first_contact is None
    bench.pane.on_hardener_in(reason="dried with the last set")
    assert bench.shop.batches.get(bench.batch).reasons == ("dried with the last set",)


def test_a_mould_without_a_core_asks_nothing_of_the_wood(bench: MixBench) -> None:
    bangles(bench)
    core(bench, stations="0: 28; 40: 34", core="none")
    assert not bench.pane.screen.needs_reason


def test_weighings_that_end_dry_open_the_way(bench: MixBench) -> None:
    bangles(bench)
    weighed(bench, 1220.4)
    assert bench.pane.screen.note[0] == "The weighings of this wood do not show it oven-dry."
    stream = f"batch/{bench.batch}"
    bench.shop.journal.append([Draft(stream, "wood_event", {"event": "oven_off"})])
    assert bench.pane.screen.note == NO_REASON
    assert not bench.pane.screen.needs_reason


def test_other_resins_do_not_ask_for_dry_wood_here(bench: MixBench) -> None:
    resin(bench, "100 g")
    core(bench, stations="0: 28; 40: 34")
    weighed(bench, float(Kilogram(1220.4)))
    assert not bench.pane.screen.needs_reason
