"""Ratio, basis and amount to grams, stops and the start of the clock."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.errors import StoreError
from shopassist.core.figures import Figure
from shopassist.core.style import CHOICES
from tests.panes.mix.conftest import PAGE_SPECS, MixBench


def test_an_empty_pane_asks_for_the_ratio_and_then_for_the_amount(bench: MixBench) -> None:
    screen = bench.pane.screen
    assert screen.batch_name == "New batch"
    assert [each.note for each in screen.figures] == ["needs the ratio"] * 3
    assert screen.hardener is not None
    assert (screen.hardener.enabled, screen.hardener.reason) == (False, "needs the ratio")
    assert screen.stops == ()
    bench.type(ratio_a="100", ratio_b="30")
    assert [each.note for each in bench.pane.screen.figures] == ["needs the amount"] * 3


def test_ratio_basis_and_amount_are_enough_for_grams(bench: MixBench) -> None:
    bench.hundred_thirty()
    # 214 g and 8 % waste are 231.12 g: A = 231.12 / 1.3 = 177.79, up to the step of 0.1 g.
    assert bench.grams == ("177.8 g", "53.3 g", "231.1 g")
    assert bench.stops == ("Resin 177.8 present", "Hardener 231.1 later")
    assert bench.pane.screen.weighing == "a"


def test_two_ratios_on_a_label_are_kept_apart_by_their_basis(bench: MixBench) -> None:
    """300 g at 100 : 83 by weight are 163.9 and 136.1 g, not 150 and 150."""
    bench.type(ratio_a="100", ratio_b="83", amount="300 g", waste="0 %")
    assert bench.grams == ("164.0 g", "136.1 g", "300.1 g")  # A is rounded up to the step
    assert bench.pane.screen.summary[1] == "100 : 83 by weight"
    bench.pane.on_basis("volume")
    assert bench.pane.screen.summary[1] == "100 : 83 by volume"
    assert bench.pane.screen.figures[0].note == "needs both densities, or an amount as a volume"


def test_volumes_add_up_in_the_cup_and_grams_on_the_scale(bench: MixBench) -> None:
    bench.type(ratio_a="2", ratio_b="1", amount="300 g")
    assert bench.pane.screen.heading == ("Cup 1", "running total on the scale")
    bench.pane.on_basis("volume")
    bench.type(amount="200 ml")
    assert bench.pane.screen.heading == ("Cup 1", "running total in the cup")


def test_a_volume_without_a_density_is_never_taken_for_grams(bench: MixBench) -> None:
    """30 ml of water are no 30 g of resin."""
    bench.type(ratio_a="100", ratio_b="44", amount="30 ml")
    notes = [each.note for each in bench.pane.screen.figures]
    assert notes == ["needs the density, to turn a volume into grams"] * 3


def test_by_volume_without_densities_marked_cups_are_all_that_is_left(bench: MixBench) -> None:
    bench.type(ratio_a="2", ratio_b="1", amount="300 ml", waste="0 %")
    bench.pane.on_basis("volume")
    assert bench.grams == ("200 ml", "100 ml", "300 ml")
    assert bench.pane.screen.weighing == ""


def test_a_sheet_brings_ratio_basis_and_density(bench: MixBench) -> None:
    bench.pane.on_sheet(bench.shop.sheet())
    bench.type(amount="214 ml")
    screen = bench.pane.screen
    assert screen.ratio_locked
    assert screen.summary[0] == "Slow clear"
    # 214 ml at 1.09 g/ml with 8 % are 251.92 g.
    assert bench.grams == ("193.8 g", "58.1 g", "251.9 g")
    assert [label for label, _ in screen.ahead] == ["Pressurise by", "Hold until", "Demould from"]
    bench.pane.on_sheet("")
    assert not bench.pane.screen.ratio_locked
    assert bench.pane.screen.figures[0].note == "needs the ratio"


def test_drafts_move_the_grams_and_are_not_written(bench: MixBench) -> None:
    bench.hundred_thirty()
    bench.pane.on_edited("amount", bench.entry("amount", "428 g"))
    assert bench.grams[2] == "462.3 g"
    assert bench.shop.batches.get(bench.batch).entries["amount"].text == "214 g"
    bench.pane.on_edited("amount", None)
    assert bench.pane.screen.figures[0].note == "needs the amount"
    bench.pane.on_edited("waste", None)
    bench.type(amount="214 g")
    assert bench.grams[2] == "231.1 g"


def test_a_draft_outlives_the_opening_of_its_batch(bench: MixBench) -> None:
    bench.pane.on_edited("amount", bench.entry("amount", "100 g"))
    bench.type(ratio_a="100", ratio_b="30", waste="0")
    assert bench.grams[2] == "100.1 g"


def test_taking_nothing_away_opens_no_batch(bench: MixBench) -> None:
    bench.type(amount="")
    assert bench.batch == ""


def test_another_batch_in_hand_costs_the_drafts(bench: MixBench) -> None:
    bench.pane.on_edited("amount", bench.entry("amount", "100 g"))
    bench.shop.hand.take_batch(bench.shop.batches.open("Other"))
    assert dict(bench.pane.screen.fields)["amount"].value is None
    assert bench.pane.screen.batch_name == "Other"


def test_b_follows_the_a_that_was_really_poured(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "180.4 g")
    screen = bench.pane.screen
    # 180.4 g of A want 54.12 g of B.
    assert bench.grams == ("180.4 g", "54.1 g", "234.5 g")
    assert [(stop.state, stop.number, stop.was) for stop in screen.stops] == [
        ("done", "180.4", "stop was 180.4 g"),
        ("present", "234.5", "until 234.5 g"),
    ]
    assert screen.folded
    bench.pane.on_unfold()
    assert not bench.pane.screen.folded


def test_the_running_total_only_rises(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "180 g").weigh("b", "170 g")
    assert bench.pane.screen.message == "The running total must be above the last stop."
    bench.pane.on_weighed("b", None)
    assert "b" not in bench.shop.batches.get(bench.batch).cup(1).weighed


def test_a_whole_cup_is_weighed_started_and_poured(bench: MixBench) -> None:
    went: list[str] = []
    bench.pane.went_on.connect(went.append)
    bench.hundred_thirty().weigh("a", "177.8 g").weigh("b", "231.2 g")
    screen = bench.pane.screen
    assert screen.deviation is not None
    assert (screen.deviation.value, screen.deviation.label) == (
        "+0.1 %", "Hardener against its ratio; 2 and 5 % are ours",
    )  # fmt: skip
    assert screen.rule is not None
    assert (screen.rule.low, screen.rule.high) == (-0.02, 0.02)
    assert (screen.note, screen.weighing) == (("", ""), "")
    bench.pane.on_hardener_in("2 min ago")
    batch = bench.shop.batches.get(bench.batch)
    assert batch.first_contact is not None
    assert bench.shop.now - batch.first_contact == pytest.approx(120.0)
    screen = bench.pane.screen
    assert screen.hardener is None
    assert screen.another is not None
    assert screen.poured is not None
    assert [label for label, _ in screen.facts] == ["Hardener in"]
    bench.pane.on_poured()
    bench.shop.batches.load(bench.batch, "pot")
    assert [label for label, _ in bench.pane.screen.facts] == [
        "Hardener in", "Poured", "At pressure",
    ]  # fmt: skip
    assert went == ["cure", "pot"]
    assert bench.pane.screen.poured is None


def test_another_cup_starts_empty_and_is_kept_over_a_kill(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "177.8 g").weigh("b", "231.2 g")
    bench.pane.on_hardener_in()
    bench.pane.on_another_cup()
    assert bench.pane.screen.cup == 2
    assert bench.stops[0] == "Resin 177.8 present"
    bench.weigh("a", "178 g")
    bench.killed()
    assert bench.pane.screen.cup == 2
    assert bench.stops == ("Resin 178.0 done", "Hardener 231.4 present")


def test_hardener_that_ran_out_is_told_with_its_size_and_needs_a_reason(bench: MixBench) -> None:
    """144 g wanted 63.36 g of hardener; 50 g went in."""
    bench.type(ratio_a="1", ratio_b="0.44", amount="207.36 g", waste="0")
    bench.weigh("a", "144 g").weigh("b", "194 g")
    screen = bench.pane.screen
    assert screen.deviation is not None
    assert screen.deviation.value == "−21.1 %"
    assert screen.note[0].startswith("Hardener is short by 21.1")
    assert screen.needs_reason
    bench.pane.on_hardener_in()
    assert bench.pane.screen.message.startswith("This cup is far off its ratio.")
    assert bench.shop.batches.get(bench.batch).first_contact is None
    bench.pane.on_hardener_in(reason="Bottle empty, a test piece")
    batch = bench.shop.batches.get(bench.batch)
    assert batch.reasons == ("Bottle empty, a test piece",)
    assert bench.pane.screen.note[1].startswith("Nothing may be added any more.")


def test_four_times_the_hardener_never_starts_by_itself(bench: MixBench) -> None:
    """4 : 1 mixed half and half is 300 % too much hardener."""
    bench.type(ratio_a="4", ratio_b="1", amount="100 g").weigh("a", "100 g").weigh("b", "200 g")
    screen = bench.pane.screen
    assert screen.deviation is not None
    assert screen.deviation.value == "+300.0 %"
    assert screen.note[0].startswith("Too much hardener by 300")
    assert screen.hardener is not None
    assert screen.hardener.reason == "This cup is far off its ratio: type why."


def test_a_weight_is_corrected_freely_before_and_with_a_reason_after(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "177.8 g").weigh("b", "241.2 g")
    bench.pane.on_correct("")
    assert bench.pane.screen.weighing == "b"
    bench.weigh("b", "231.2 g")
    bench.pane.on_hardener_in()
    bench.pane.on_correct("")
    assert bench.pane.screen.message.startswith("Say why the weight changes")
    for part, reason in (("b", "read upside down"), ("a", "also wrong")):
        bench.pane.on_correct(reason)
        assert bench.pane.screen.weighing == part


def test_a_coarse_scale_says_what_it_leaves(bench: MixBench) -> None:
    bench.hundred_thirty("40 g").type(scale_step="1 g")
    assert bench.grams == ("34 g", "10 g", "44 g")
    assert bench.pane.screen.note == (
        "This scale leaves ± 5.0 %", "Use a finer scale or mix more at once.",
    )  # fmt: skip


def test_undo_gives_back_what_stood_before(bench: MixBench) -> None:
    bench.hundred_thirty()
    bench.type(amount="300 g")
    bench.pane.on_undo()
    assert bench.pane.screen.message == "Undone: Needed."
    assert bench.grams[2] == "231.1 g"
    bench.pane.on_undo()
    bench.pane.on_undo()
    bench.pane.on_undo()
    bench.pane.on_undo()
    assert bench.pane.screen.message == "Nothing to undo."


def test_what_is_undone_is_called_by_its_name(bench: MixBench) -> None:
    bench.hundred_thirty().page("cup", cups="2")
    bench.pane.on_undo()
    assert bench.pane.screen.message == "Undone: Mixed in cups."
    bench.shop.batches.enter(bench.batch, "blank.mould_depth", Typed("40 mm", 0.04, "Metre"))
    bench.pane.on_undo()
    assert bench.pane.screen.message == "Undone: mould depth."


def test_undo_without_a_batch_is_nothing(bench: MixBench) -> None:
    bench.pane.on_undo()
    assert bench.pane.screen.message == ""


def test_a_time_that_cannot_be_read_starts_nothing(bench: MixBench) -> None:
    bench.hundred_thirty()
    bench.pane.on_hardener_in("soon")
    assert bench.pane.screen.message
    assert bench.shop.batches.get(bench.batch).first_contact is None


def test_without_an_amount_no_clock_starts(bench: MixBench) -> None:
    bench.type(ratio_a="100", ratio_b="30")
    bench.pane.on_hardener_in()
    assert bench.shop.batches.get(bench.batch).first_contact is None


def test_a_full_disk_is_told_and_nothing_moves(
    bench: MixBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.hundred_thirty()

    def full(_: object) -> None:
        raise StoreError("The disk is full.", "Free some space.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_hardener_in()
    assert bench.pane.screen.message == "The disk is full. Free some space."
    assert bench.pane.screen.hardener is not None


def test_figures_explain_themselves(bench: MixBench) -> None:
    told: list[Figure] = []
    bench.pane.explained.connect(told.append)
    bench.pane.on_explain("mix.part_a_target")
    bench.hundred_thirty()
    assert bench.pane.screen.figures[0].explains
    for name in ("part_a_target", "part_b_target", "total_target", "step_error"):
        bench.pane.on_explain(f"mix.{name}")
    assert [each.id for each in told] == [
        "mix.part_a_target", "mix.part_b_target", "mix.total_target", "mix.step_error",
    ]  # fmt: skip
    assert told[0].inputs["needed"].kind == "typed"  # type: ignore[union-attr]


def test_another_cup_without_a_batch_is_nothing(bench: MixBench) -> None:
    bench.pane.on_another_cup()
    assert bench.pane.screen.cup == 1


def test_again_has_grams_in_one_act(bench: MixBench) -> None:
    bench.hundred_thirty()
    again = bench.shop.batches.open(again_of=bench.batch)
    bench.shop.hand.take_batch(again)
    assert bench.grams == ("177.8 g", "53.3 g", "231.1 g")


def test_other_batches_and_sheets_are_heeded_only_where_they_matter(bench: MixBench) -> None:
    bench.hundred_thirty()
    heard: list[None] = []
    bench.pane.changed.connect(heard.append)
    bench.shop.batches.open("Aside")
    assert heard == []
    bench.shop.sheet()
    assert heard == [None]


def test_the_entries_fold_when_the_stops_are_asked_for(bench: MixBench) -> None:
    bench.pane.on_weigh_out()
    assert not bench.pane.screen.quiet
    bench.hundred_thirty()
    bench.pane.on_page("cup")
    bench.pane.on_weigh_out()
    screen = bench.pane.screen
    assert (screen.quiet, screen.folded, screen.begun, screen.page) == (True, True, False, None)
    bench.pane.on_unfold()
    assert not bench.pane.screen.quiet


def test_a_draft_of_a_page_counts_at_once(bench: MixBench) -> None:
    bench.hundred_thirty()
    cups = PAGE_SPECS["cups"]
    assert cups is not None
    bench.pane.on_entry_edited("cups", bench.shop.words.read("2", cups))
    assert bench.grams == ("88.9 g", "26.7 g", "115.6 g")
    assert "mix.cups" not in bench.shop.batches.get(bench.batch).entries


def test_a_hurried_cup_is_told_what_speed_comes_from(bench: MixBench) -> None:
    """Ten per cent heavy on hardener, to set faster on a cold day."""
    bench.hundred_thirty().weigh("a", "177.8 g").weigh("b", "237 g")
    what, why = bench.pane.screen.note
    assert what == "Too much hardener by 11.0 %"
    assert "Speed comes from warmth or the grade of hardener, not from the ratio." in why
    assert why.startswith("Add 19.5 g of A. Then 256.5 g are in the cup.")


def test_short_hardener_is_rescued_in_grams_or_serves_less_resin(bench: MixBench) -> None:
    """Add 13.36 g of the same hardener, or 50 g serve 113.6 g of resin and 30.4 g are too much."""
    bench.type(ratio_a="1", ratio_b="0.44", amount="207.36 g", waste="0")
    bench.weigh("a", "144 g").weigh("b", "194 g")
    assert bench.pane.screen.note[1] == (
        "Add 13.4 g of B. Or know: 50.0 g of hardener serve 113.6 g of resin, 30.4 g are too much."
        " Stirring longer does not mend it."
    )


def test_a_cup_half_and_half_may_burn(bench: MixBench) -> None:
    bench.type(ratio_a="4", ratio_b="1", amount="100 g").weigh("a", "100 g").weigh("b", "200 g")
    assert "Heat or fire is possible" in bench.pane.screen.note[1]


def test_a_cup_right_on_its_ratio_has_nothing_to_mend(bench: MixBench) -> None:
    bench.hundred_thirty().weigh("a", "177.8 g").weigh("b", "235.8 g")
    # 58 g for 53.34: 8.7 % over, off but not far off.
    assert bench.pane.screen.note[0] == "Too much hardener by 8.7 %"
    assert not bench.pane.screen.needs_reason


def test_ounces_show_what_a_step_of_grams_tells_apart(bench: MixBench) -> None:
    bench.hundred_thirty()
    bench.shop.words.units = CHOICES["US"]
    # 177.8, 53.3 and 231.1 g; a tenth of a gram is 0.0035 oz.
    assert bench.grams == ("6.272 oz", "1.880 oz", "8.152 oz")
    bench.type(scale_step="0.01 oz")
    assert bench.grams == ("6.28 oz", "1.88 oz", "8.16 oz")
