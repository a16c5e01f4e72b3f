"""Words of the log."""

from pathlib import Path

import pytest

from shopassist.core.quantities import Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Row
from shopassist.panes.log.presenter import COLUMNS, SYMPTOM_KEYS
from tests.panes.log.conftest import LogBench

H = 3600.0


def test_an_empty_log_says_how_to_begin(bench: LogBench) -> None:
    bench.read()
    screen = bench.log.screen
    assert screen.count == 0
    assert screen.selected == -1
    assert "Type an amount in Mix" in screen.empty


def test_nothing_happens_where_there_is_no_batch(bench: LogBench) -> None:
    log = bench.log
    log.on_take_in_hand()
    log.on_again()
    log.on_outcome("good")
    log.on_note("x")
    log.on_next_time("x")
    log.on_name("x")
    log.on_remove()
    log.on_mark()
    log.on_save_learnt()
    log.on_page("symptoms")
    assert log.screen.causes == ()
    assert bench.shop.batches.ids() == ()


def test_while_it_is_read_all_batches_are_there_and_it_says_so(bench: LogBench) -> None:
    one, two = bench.shop.mixed("One"), bench.shop.mixed("Two")
    bench.reopen()
    assert bench.log.ids == (two, one)
    assert bench.log.row(1)[0] == "One"
    assert "Reading" in bench.log.screen.reading
    bench.log.on_page("compare")
    assert "Reading" in bench.log.screen.verdict
    bench.read()
    assert "Nothing to compare" in bench.log.screen.verdict
    assert bench.log.screen.reading == ""


def test_a_row_has_a_cell_for_each_column(bench: LogBench) -> None:
    bench.shop.mixed("Knobs 1")
    bench.shop.batches.open("Plain")
    bench.read()
    assert bench.log.row(1) == ("Knobs 1", bench.log.row(1)[1], "Slow clear", "200 g", "–")
    assert bench.log.row(0)[2:] == ("no sheet", "–", "–")
    assert len(bench.log.row(0)) == len(COLUMNS)


def test_the_batch_in_hand_is_open_in_the_log(bench: LogBench) -> None:
    one = bench.shop.mixed("One")
    bench.shop.mixed("Two")
    bench.read()
    bench.shop.hand.take_batch(one)
    assert bench.log.screen.title == "One"
    assert bench.log.screen.selected == 1


def test_search_and_filters_narrow_the_list(bench: LogBench) -> None:
    bench.shop.batches.close(bench.shop.mixed("Oak"), "good")
    bench.shop.batches.close(bench.shop.mixed("Ash"), "spoiled")
    bench.read()
    bench.log.on_search("oak")
    bench.log.on_search("oak")
    assert [bench.log.row(n)[0] for n in range(bench.log.screen.count)] == ["Oak"]
    bench.log.on_search("")
    bench.log.on_filter("spoiled")
    assert bench.log.screen.filters == {"spoiled"}
    assert bench.log.row(0)[0] == "Ash"
    bench.log.on_search("oak")
    assert "Clear the search" in bench.log.screen.empty
    bench.log.on_search("")
    bench.log.on_filter("spoiled")
    bench.log.on_filter("removed")
    assert bench.log.screen.filters == {"removed"}


def test_a_removed_batch_is_brought_back(bench: LogBench) -> None:
    bench.shop.mixed("Oak")
    bench.read()
    bench.log.on_remove()
    assert bench.log.screen.count == 0
    bench.log.on_filter("removed")
    assert bench.log.row(0)[0] == "Oak (removed)"
    assert bench.log.screen.removed
    bench.log.on_remove()
    bench.log.on_filter("removed")
    assert bench.log.screen.count == 1


def test_every_fact_is_written_with_its_day(bench: LogBench) -> None:
    shop = bench.shop
    batch = shop.mixed("Oak")
    shop.clock.advance(600)
    shop.batches.poured(batch)
    shop.batches.load(batch, "big-pot")
    shop.clock.advance(30 * H)
    shop.batches.add_temperature(batch, Kelvin(290.0), Kelvin(295.0), "shop")
    shop.batches.unknown_temperature(batch, UtcSecond(shop.now - H), UtcSecond(shop.now - 60))
    shop.batches.see(batch, "gelled")
    shop.batches.note(batch, "Froth at the lid")
    shop.batches.close(batch, "usable")
    facts = {each.label: each.value for each in bench.log.screen.facts}
    assert facts["Needed"] == "200 g"
    assert facts["Cup 1, resin"] == "153.8 g"
    assert facts["Note"] == "Froth at the lid"
    assert facts["Outcome"].startswith("usable, ")
    weekday, clock = facts["Seen: gelled"].split()
    assert weekday in {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"}
    assert ":" in clock
    assert " " not in facts["Poured"]
    assert any(label.startswith("Shop, ") for label in facts)
    assert "Temperature not known" in facts


def test_selecting_marks_and_acts(bench: LogBench) -> None:
    shop, log = bench.shop, bench.log
    one, two = shop.mixed("One"), shop.mixed("Two")
    bench.read()
    log.on_select(1)
    log.on_select(1)
    log.on_select(9)
    assert log.screen.title == "One"
    log.on_outcome("spoiled")
    log.on_outcome("splendid")
    assert shop.batches.get(one).outcome == "spoiled"
    log.on_note("  ")
    log.on_note("Soft at the foot")
    log.on_next_time("Warmer")
    log.on_next_time("Warmer")
    log.on_name("Oak knobs")
    log.on_name("Oak knobs")
    batch = shop.batches.get(one)
    assert (batch.notes, batch.next_time, batch.name) == (
        ("Soft at the foot",), "Warmer", "Oak knobs"
    )  # fmt: skip
    log.on_mark()
    assert log.screen.marked == 1
    assert log.row(1)[0].startswith("■")
    log.on_mark()
    assert log.screen.marked == 0
    log.on_take_in_hand()
    assert shop.hand.batch == one
    assert two in log.ids


def test_again_opens_a_repeat_and_takes_it_in_hand(bench: LogBench) -> None:
    """Case R01: the best batch is repeated, not remembered."""
    one = bench.shop.mixed("One")
    bench.read()
    asked: list[str] = []
    bench.log.again_asked.connect(asked.append)
    bench.log.on_again()
    assert asked == [bench.shop.hand.batch]
    assert bench.shop.batches.get(asked[0]).again_of == one


def test_a_full_disk_is_told_and_nothing_is_lost(
    bench: LogBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    from shopassist.core.errors import StoreError

    one = bench.shop.mixed("One")
    bench.read()

    def full(*_: object) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(bench.shop.journal, "append", full)
    bench.log.on_note("x")
    assert bench.log.screen.error == "The disk is full."
    assert bench.shop.batches.get(one).notes == ()


def test_what_failures_share_is_told(bench: LogBench) -> None:
    """Case R01: the one common factor of the failures stands first."""
    shop = bench.shop
    for n in range(3):
        shop.batches.close(shop.mixed(f"Cold {n}", celsius=8.0), "spoiled")
        shop.batches.close(shop.mixed(f"Warm {n}", celsius=23.0), "good")
    shop.batches.enter(bench.log.ids[0], "waste", None)
    bench.read()
    bench.log.on_page("compare")
    screen = bench.log.screen
    assert "3 compared, the spoiled ones, with 3 others" in screen.verdict
    assert screen.shared[0] == ("Coldest", "under the sheet's minimum", "0 of 3")
    bench.log.on_mark()
    assert "the marked ones" in bench.log.screen.verdict


def test_a_fact_the_others_lack_is_called_not_on_record(bench: LogBench) -> None:
    shop = bench.shop
    shop.batches.close(shop.mixed("Bad", celsius=8.0), "spoiled")
    bench.read()
    bench.log.on_page("compare")
    assert all(row[2] == "not on record" for row in bench.log.screen.shared)


def test_learnt_times_are_offered_and_saved_as_a_new_version(bench: LogBench) -> None:
    shop, sheet = bench.shop, bench.gelled_thrice()
    bench.read()
    bench.log.on_page("sheet")
    screen = bench.log.screen
    assert any(fact.label == "Gel" for fact in screen.learnt)
    assert screen.offer
    bench.log.on_save_learnt()
    newest = shop.sheets.newest(sheet)
    assert newest is not None
    assert newest.number == 2
    assert newest.record is not None
    gel = newest.record.stage("gel")
    assert gel is not None
    assert gel.method.startswith("3 witness cups")
    first = shop.sheets.version(sheet, 1)
    assert first is not None
    assert first.record is not None
    assert gel.time < (first.record.stage("gel") or gel).time


def test_without_a_sheet_nothing_is_learnt(bench: LogBench) -> None:
    bench.shop.mixed(sheet="none")
    bench.read()
    bench.log.on_page("sheet")
    assert bench.log.screen.learnt == ()
    bench.log.on_save_learnt()
    assert bench.log.screen.offer == ""


def test_searching_comparing_and_scrolling_read_no_batch_and_opening_reads_one(
    bench: LogBench, monkeypatch: pytest.MonkeyPatch
) -> None:
    for n in range(60):
        batch = bench.shop.batches.open(f"{'Oak' if n % 2 else 'Ash'} {n}")
        bench.shop.batches.close(batch, "good" if n % 3 else "spoiled")
    bench.reopen()
    bench.read()
    bench.log.on_select(0)
    assert bench.log.screen.count == 60
    asked: list[str] = []
    journal, read = bench.shop.journal, bench.shop.journal.read

    def counted(stream: str, after: int = 0) -> tuple[Row, ...]:
        asked.append(stream)
        return read(stream, after)

    monkeypatch.setattr(journal, "read", counted)
    bench.log.on_search("oak")
    assert bench.log.screen.count == 30
    assert [bench.log.row(n)[0] for n in range(30)][-1] == "Oak 1"
    bench.log.on_page("compare")
    assert "10 compared, the spoiled ones, with 20 others" in bench.log.screen.verdict
    assert asked == []
    bench.log.on_select(20)
    assert bench.log.screen.selected == 20
    assert len(asked) == 1


def test_a_photograph_is_kept_by_where_it_lies_and_told_when_it_is_gone(
    bench: LogBench, tmp_path: Path
) -> None:
    batch = bench.shop.mixed("Oak")
    one, two = tmp_path / "one.png", tmp_path / "two.png"
    for each in (one, two):
        each.write_bytes(b"")
    bench.log.on_page("photos")
    assert bench.log.on_photo(f" {one} ")
    assert bench.log.on_photo(str(two))
    assert bench.log.on_photo(str(one))
    assert [each.name for each in bench.log.screen.photos] == ["two.png", "one.png"]
    assert not bench.log.screen.photos[1].gone
    one.unlink()
    gone = bench.log.screen.photos[1]
    assert str(one) in gone.gone
    assert bench.shop.batches.get(batch).photos == (str(one), str(two))
    one.write_bytes(b"")
    assert bench.log.screen.photos[1].gone == ""
    bench.log.on_page("facts")
    told = [each.value for each in bench.log.screen.facts if each.label == "Photograph"]
    assert told == [str(one), str(two)]


def test_what_is_no_file_is_no_photograph(bench: LogBench, tmp_path: Path) -> None:
    assert not bench.log.on_photo("/nowhere/at all.jpg")
    batch = bench.shop.mixed("Oak")
    assert not bench.log.on_photo(str(tmp_path))
    assert "no file" in bench.log.screen.error
    assert not bench.log.on_photo(" ")
    assert bench.shop.batches.get(batch).photos == ()


def test_a_photograph_taken_off_stays_in_the_journal(bench: LogBench, tmp_path: Path) -> None:
    batch = bench.shop.mixed("Oak")
    path = tmp_path / "one.png"
    path.write_bytes(b"")
    bench.log.on_page("photos")
    bench.log.on_photo_off(0)
    bench.log.on_photo(str(path))
    bench.log.on_photo_off(0)
    assert bench.log.screen.photos == ()
    rows = bench.shop.journal.read(f"batch/{batch}")
    assert [row.body["path"] for row in rows if row.kind == "photo"] == [str(path)] * 2
    bench.shop.batches.take_photo_off(batch, "never there")


def test_soft_in_spots_speaks_of_stirring_and_soft_everywhere_of_the_ratio(bench: LogBench) -> None:
    """Case M14: two symptoms, two lists of causes."""
    bench.shop.mixed("Oak")
    bench.read()
    bench.log.on_page("symptoms")
    found = {}
    for key in ("soft in spots", "soft everywhere"):
        bench.log.on_symptom(SYMPTOM_KEYS.index(key))
        found[key] = " ".join(each.title for each in bench.log.screen.causes)
    assert "Unmixed resin from the cup" in found["soft in spots"]
    assert "Unmixed resin" not in found["soft everywhere"]
    assert "ratio" in found["soft everywhere"]


def test_lots_are_traced_to_batches_and_back(bench: LogBench) -> None:
    """Case R01: a lot that all failures share stands in the comparison."""
    shop = bench.shop
    lots = {
        name: shop.keep(
            shop.lots, name=name, resin="Slow clear", part="a", left="2 kg"
        )
        for name in ("Drum 7", "Drum 8")
    }  # fmt: skip
    for number, (drum, outcome) in enumerate([("Drum 7", "spoiled"), ("Drum 8", "good")] * 3):
        batch = shop.mixed(f"Knobs {number}")
        shop.batches.draw(
            batch, [(lots[drum], "a", Kilogram(0.1)), (lots[drum], "a", Kilogram(0.05))]
        )
        shop.batches.close(batch, outcome)
    shop.batches.draw(shop.hand.batch, [("gone", "b", Kilogram(0.046))])
    bench.read()
    facts = {each.label: each.value for each in bench.log.screen.facts}
    assert facts["Lot of resin"] == "Drum 8, 150.0 g"
    assert facts["Lot of hardener"] == "gone, 46.0 g"
    bench.log.on_search("drum 7")
    assert [bench.log.row(n)[0] for n in range(bench.log.screen.count)] == [
        "Knobs 4", "Knobs 2", "Knobs 0",
    ]  # fmt: skip
    bench.log.on_search("")
    bench.log.on_page("compare")
    assert ("Lot of resin", "Drum 7", "0 of 3") in bench.log.screen.shared
