"""Words of the pot pane: the core decides, the pane says it."""

from pathlib import Path

import pytest

from shopassist.core.errors import StoreError
from shopassist.core.pot.cards import AskKind
from tests.panes.pot.conftest import PotBench


def test_without_a_pot_nothing_is_asked(tmp_path: Path) -> None:
    bench = PotBench(tmp_path, plate=False)
    assert bench.screen.question.startswith("No pot entered")
    (enter,) = bench.screen.offers
    asked: list[None] = []
    bench.pane.entry_asked.connect(asked.append)
    bench.pane.on_offer(enter.id)
    assert asked == [None]
    assert bench.screen.pot_id == ""
    assert not bench.screen.examine


def test_a_new_pot_is_not_known_and_treated_as_pressurised(bench: PotBench) -> None:
    screen = bench.screen
    assert str(screen.belief) == "unknown"
    assert screen.pot_id == bench.pot
    assert "Big pot" in screen.right
    assert screen.walk or screen.question or screen.offers


def test_a_whole_run_is_answered_item_by_item(bench: PotBench) -> None:
    bench.held()
    screen = bench.screen
    assert screen.last is not None
    assert screen.last.value == "2.76"
    assert [each.shown.key for each in screen.offers] == ["F8", "F9", "F7"]
    assert [each.shown.key for each in screen.answers] == ["1", "2", "3", "4", "5"]
    assert screen.answers[0].id == "free.reading"
    assert screen.lid is not None
    bench.pane.on_offer("let_down")
    assert [words for words, _ in bench.screen.walk] == [
        "Isolate and vent", "Zero", "Prove", "Crack and open"
    ]  # fmt: skip
    assert bench.screen.walk[0][1] == "present"
    assert bench.screen.stop
    assert bench.screen.asks
    bench.until("zero")
    assert [state for _, state in bench.screen.walk] == ["done", "present", "later", "later"]
    bench.until("sign")
    bench.until_belief("open")
    assert bench.screen.walk == ()


def test_digits_belong_to_lists_and_alt_to_fields(bench: PotBench) -> None:
    bench.until("run")
    caps = [each.shown.key for each in bench.screen.answers]
    assert caps[0] == "1"
    bench.until("baseline")
    assert bench.screen.kind is AskKind.TYPE
    caps = [each.shown.shortcut for each in bench.screen.answers]
    assert bench.screen.answers[0].shown.key == "Enter"
    assert all(cap.startswith("Alt+") for cap in caps[1:-1])
    assert bench.screen.unit == "bar"
    assert bench.screen.quantity == "PascalGauge"


def test_a_field_that_is_no_reading_says_what_is_counted(bench: PotBench) -> None:
    bench.until("clamps")
    assert bench.screen.unit == "clamps"
    bench.until("clamp_count")
    assert bench.screen.unit == "clamps"
    bench.until_belief("pressurised")
    bench.pane.on_offer("let_down")
    bench.until("slacken")
    assert bench.screen.unit == ""
    assert bench.screen.hints[0].endswith("Type the number of the clamp you reached.")


@pytest.mark.parametrize("text", ["", "much", "1,234 bar", "-"])
def test_what_cannot_be_read_is_told_and_nothing_moves(bench: PotBench, text: str) -> None:
    bench.until("baseline")
    before = bench.screen.field
    bench.pane.on_typed(text)
    assert bench.screen.refusal
    assert bench.screen.field == before


def test_a_count_is_a_whole_number(bench: PotBench) -> None:
    bench.until("clamps")
    bench.pane.on_typed("5.5")
    assert "whole number" in bench.screen.refusal
    bench.pane.on_typed("6")
    assert bench.screen.refusal == ""


def test_a_refusal_gives_its_reason(bench: PotBench) -> None:
    bench.until("hold_pressure")
    bench.pane.on_typed("9 bar")
    assert bench.screen.refusal


def test_a_bare_number_past_the_end_of_the_gauge_asks_for_its_unit(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("free.reading")
    before = bench.screen.field
    bench.pane.on_typed("40")
    assert "past the end of this gauge" in bench.screen.refusal
    assert "40" in bench.screen.refusal
    assert (bench.screen.field, str(bench.screen.belief)) == (before, "pressurised")
    bench.pane.on_typed("40 psi")
    assert bench.screen.last is not None
    assert (bench.screen.last.value, str(bench.screen.belief)) == ("2.76", "pressurised")


def test_with_its_unit_a_reading_past_the_end_is_taken_at_its_word(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("free.reading")
    bench.pane.on_typed("40 bar")
    assert bench.screen.refusal == ""
    assert bench.screen.branch_key


def test_nothing_is_typed_where_something_is_chosen(bench: PotBench) -> None:
    bench.until("run")
    before = bench.screen
    bench.pane.on_typed("2.76")
    bench.pane.on_choice("nowhere")
    bench.pane.on_hold()
    bench.pane.on_offer("nowhere")
    assert bench.screen == before


def test_a_reading_is_taken_up_freely_and_let_go(bench: PotBench) -> None:
    bench.held()
    reading = next(each for each in bench.screen.answers if each.id == "free.reading")
    bench.pane.on_offer(reading.id)
    taken = bench.screen
    assert (taken.field.split(".")[0], taken.last) == ("reading", None)
    assert taken.answers[-1].id == "back"
    bench.pane.on_choice("back")
    assert bench.screen.field == ""
    bench.pane.on_offer("free.reading")
    bench.pane.on_typed("2.70")
    assert bench.screen.last is not None
    assert bench.screen.last.value == "2.70"


def test_a_temperature_is_asked_for_beside_some_readings(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("free.leak_start")
    assert bench.screen.with_temperature
    bench.pane.on_typed("2.76", "warm")
    assert bench.screen.refusal
    bench.pane.on_typed("2.76", "21 °C")
    assert not bench.screen.refusal


def test_waits_count_and_grants_run_out(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("dwell")
    assert bench.screen.wait_digits
    assert bench.screen.wait_caption
    bench.until("slacken")
    assert bench.screen.expires


def test_a_restart_under_pressure_is_pressurised(bench: PotBench) -> None:
    bench.held()
    bench.shop = bench.shop.killed()
    bench.join()
    assert str(bench.screen.belief) == "pressurised"


def test_a_full_disk_is_told_and_the_answer_is_not_taken(
    bench: PotBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench.until("run")

    def full(*_: object) -> None:
        raise StoreError("The disk is full.", "Make room.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.pane.on_choice("casting")
    assert bench.screen.refusal.startswith("It could not be written: the pot counts as not known")


def test_earlier_runs_that_cannot_be_read_now_leave_the_pot_not_known(
    bench: PotBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    """How fast it fell is held against the runs before; the answer must not get lost on the way."""
    bench.held()
    bench.pane.on_offer("let_down")
    bench.until("fall_speed")

    def broken(*_: object) -> None:
        raise StoreError("The disk cannot be read.", "Look at it.")

    monkeypatch.setattr(bench.shop.journal, "read", broken)
    bench.pane.on_choice("slowly")
    assert bench.screen.refusal.startswith("It could not be written: the pot counts as not known")
    assert str(bench.screen.belief) == "unknown"
    monkeypatch.undo()
    bench.shop = bench.shop.killed()
    bench.join()
    assert str(bench.screen.belief) in ("unknown", "pressurised")


def test_a_suspect_pot_waits_for_its_examination(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_offer("doubt")
    assert str(bench.screen.belief) == "suspect"
    waits = bench.screen.examine
    bench.pane.on_examined("", "")
    assert "Write who" in bench.screen.refusal
    bench.pane.on_examined("Workshop inspector", "gasket renewed, vent clear")
    assert (waits, bench.screen.examine) == (True, False)


def test_several_pots_are_chosen_from(bench: PotBench) -> None:
    import tomllib

    from shopassist.store.resources import resource

    mapping = tomllib.loads(resource("demo", "pots", "big-pot.toml").read_text("utf-8"))
    version, problems = bench.shop.plates.save(mapping | {"name": "Small pot"})
    assert version is not None, problems
    assert [name for _, name in bench.screen.pots] == ["Big pot", "Small pot"]
    bench.pane.on_choose_pot(version.id)
    assert bench.screen.right.startswith("Small pot")


def test_odd_things_are_offered_and_never_block(bench: PotBench) -> None:
    bench.held()
    bench.pane.on_more()
    ids = [each.id for each in bench.screen.answers]
    assert ids[:2] == ["let_down", "vent_now"]
    assert {"lost_track", "doubt", "free.reading", "opened_without_list"} < set(ids)
    assert ids[-1] == "back"
    assert (bench.screen.kind, bench.screen.offers) == (None, ())
    bench.pane.on_choice("back")
    assert bench.screen.offers
    bench.pane.on_more()
    bench.pane.on_offer("too_hot")
    assert bench.screen.branch
    assert not bench.screen.odd


def test_pages_of_numbers_take_no_answers_but_let_air_out(bench: PotBench) -> None:
    bench.held()
    for page, _ in bench.screen.pages[1:]:
        bench.pane.on_page(page)
        screen = bench.screen
        assert (screen.page, screen.answers, screen.question) == (page, (), "")
        assert [each.id for each in screen.offers] == ["let_down", "vent_now"]
        bench.pane.on_choice("1")
        bench.pane.on_typed("2.5")
        bench.pane.on_hold()
        assert bench.screen.page == page
    bench.pane.on_offer("let_down")
    assert (bench.screen.page, bench.screen.pages) == ("list", ())
    bench.pane.on_page("vessel")
    assert bench.screen.page == "list"


def test_no_word_of_the_pane_promises_anything(bench: PotBench) -> None:
    seen: list[str] = []
    bench.held()
    bench.pane.on_offer("let_down")
    for _ in range(60):
        screen = bench.screen
        seen += [screen.question, *screen.hints, *screen.notes, *screen.cautions, *screen.branch]
        seen += [each.shown.words + each.shown.second for each in screen.answers]
        if str(screen.belief) == "open" and not screen.asks:
            break
        bench.step()
    assert not [words for words in seen if "safe" in words.lower()]


def test_a_narrow_pane_offers_the_usual_and_keeps_its_reading(bench: PotBench) -> None:
    bench.held()
    told: list[None] = []
    bench.pane.changed.connect(told.append)
    bench.pane.on_room(narrow=False)
    bench.pane.on_room(narrow=True)
    assert told == [None]
    assert [each.id for each in bench.screen.answers] == ["free.reading", "free.supply"]
    shown = [bench.screen.last is not None]
    bench.pane.on_more()
    shown.append(bench.screen.last is not None)
    assert shown == [True, False]
    assert "free.leak_start" in [each.id for each in bench.screen.answers]
