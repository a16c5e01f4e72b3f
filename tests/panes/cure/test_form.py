import pytest

from shopassist.core.cure import Warmth
from shopassist.core.quantities import Kelvin, Second
from shopassist.core.wording import US
from tests.panes.cure.bench import Bench

HOUR = 3600.0
ZERO = 273.15


def take(bench: Bench, mode: str, **fields: str) -> None:
    pane = bench.cure_pane
    pane.on_mode(mode)
    for name, text in fields.items():
        if name in ("temp", "low", "high"):
            pane.on_number(name, bench.entry(text))  # type: ignore[arg-type]
        else:
            pane.on_text(name, text)  # type: ignore[arg-type]
    pane.on_do()


def test_a_reading_of_earlier_bends_the_course_from_there_on(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(2 * HOUR)
    before = bench.line("demould").gate
    take(bench, "reading", temp="17", when="90 min ago")
    reading = bench.batches.get(batch).warmth[-1]
    assert bench.now - reading.at == pytest.approx(90 * 60)
    assert bench.line("demould").gate != before


def test_without_a_time_a_reading_is_of_now(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    take(bench, "reading", temp="20")
    assert bench.batches.get(batch).warmth[-1].at == bench.now


def test_lowest_and_highest_are_kept_with_their_beginning(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.clock.advance(3 * HOUR)
    take(bench, "extremes", low="15.5", high="21", since="2 h ago")
    reading = bench.batches.get(batch).warmth[-1]
    assert [reading.low, reading.high] == pytest.approx([15.5 + ZERO, 21 + ZERO])
    assert reading.since == pytest.approx(bench.now - 2 * HOUR)


def test_a_lowest_above_the_highest_is_refused(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.clock.advance(HOUR)
    take(bench, "extremes", low="22", high="21", since="30 min ago")
    assert "above the highest" in bench.screen.error
    assert bench.batches.get(batch).warmth == ()


def test_an_interval_needs_its_beginning(bench: Bench) -> None:
    bench.mixed(celsius=None)
    take(bench, "extremes", low="15", high="21")
    assert bench.screen.error == "Type since when first."


def test_a_beginning_after_the_end_is_refused(bench: Bench) -> None:
    bench.mixed(celsius=None)
    bench.clock.advance(HOUR)
    take(bench, "extremes", low="15", high="21", since="now")
    assert "after the end" in bench.screen.error
    take(bench, "unknown", since="10 min ago", when="20 min ago")
    assert "after the end" in bench.screen.error


def test_a_missing_temperature_is_asked_for(bench: Bench) -> None:
    bench.mixed()
    take(bench, "reading")
    assert bench.screen.error == "Type the temperature first."


def test_a_number_taken_back_is_missing(bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_number("temp", bench.entry("20"))
    bench.cure_pane.on_number("temp", None)
    bench.cure_pane.on_do()
    assert bench.screen.error == "Type the temperature first."


def test_a_heater_off_stretch_is_entered_afterwards_and_counts_nothing_for_releases(
    bench: Bench,
) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(6 * HOUR)
    bench.warm(batch, 23.0)
    before = bench.cure.view(batch)
    take(bench, "unknown", since="5 h ago", when="1 h ago")
    after = bench.cure.view(batch)
    assert before is not None and after is not None
    release = [view.stage("demould") for view in (before, after)]
    hazard = [view.stage("gel") for view in (before, after)]
    assert release[0] is not None and release[1] is not None
    assert hazard[0] is not None and hazard[1] is not None
    assert (release[1].likely or 0) - (release[0].likely or 0) == pytest.approx(4 * HOUR, rel=0.02)
    assert (hazard[1].gate or 0) <= (hazard[0].gate or 0)
    assert any("without a known temperature" in n for n in bench.screen.lines[-2].note.splitlines())


def test_an_unknown_stretch_may_last_until_now(bench: Bench) -> None:
    batch = bench.mixed()
    bench.clock.advance(HOUR)
    take(bench, "unknown", since="30 min ago")
    assert bench.batches.get(batch).unknowns[0].until == bench.now
    take(bench, "unknown")
    assert bench.screen.error == "Type since when first."


def test_a_correction_needs_its_reason_and_keeps_time_and_place(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.warm(batch, 32.0, "mould")
    at = bench.now
    bench.clock.advance(600)
    take(bench, "correct", temp="23")
    assert "Say why" in bench.screen.error
    take(bench, "correct", temp="23", reason="digits swapped")
    (reading,) = bench.batches.get(batch).warmth
    assert reading.low == pytest.approx(23 + ZERO)
    assert (reading.at, reading.where) == (at, "mould")
    assert reading.row.body["reason"] == "digits swapped"


def test_an_interval_keeps_its_beginning_when_corrected(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    bench.clock.advance(HOUR)
    take(bench, "extremes", low="10", high="12", since="30 min ago")
    since = bench.batches.get(batch).warmth[0].since
    take(bench, "correct", temp="20", reason="wrong dial")
    assert bench.batches.get(batch).warmth[0].since == since


def test_the_reading_to_correct_can_be_chosen(bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    bench.clock.advance(600)
    bench.warm(batch, 21.0)
    bench.cure_pane.on_mode("correct")
    shown = bench.screen.form.readings
    assert [words.split()[1] for _, words in shown] == ["21.0", "20.0"]
    bench.cure_pane.on_pick(shown[-1][0])
    bench.cure_pane.on_number("temp", bench.entry("19"))
    bench.cure_pane.on_text("reason", "misread")
    bench.cure_pane.on_do()
    assert [round(w.low - ZERO) for w in bench.batches.get(batch).warmth] == [19, 21]


def test_with_nothing_read_there_is_nothing_to_correct(bench: Bench) -> None:
    bench.mixed(celsius=None)
    take(bench, "correct", temp="19", reason="x")
    assert bench.screen.error == "There is no reading to correct."
    bench.cure_pane.on_pick(999)
    bench.cure_pane.on_number("temp", bench.entry("19"))
    bench.cure_pane.on_do()
    assert bench.screen.error == "There is no such reading."


def test_what_if_stands_beside_the_truth_and_moves_no_gate(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    before = [line.gate for line in bench.screen.lines]
    rows = len(bench.journal.read(f"batch/{batch}"))
    take(bench, "what_if", temp="16")
    assert [line.gate for line in bench.screen.lines] == before
    assert bench.screen.what_if == "at 16.0 °C"
    assert bench.line("demould").what_if.startswith("from ")
    assert bench.line("demould").what_if != bench.line("demould").gate
    assert bench.screen.page == "times"
    assert len(bench.journal.read(f"batch/{batch}")) == rows
    bench.cure_pane.on_mode("what_if")
    assert bench.screen.form.can_clear
    bench.cure_pane.on_clear_what_if()
    assert bench.screen.what_if == ""
    assert bench.line("demould").what_if == ""


def warming(_: str) -> tuple[Warmth, ...]:
    """A cabinet that brings it to thirty degrees in two hours."""
    return tuple(
        Warmth(Second(n * 900.0), Kelvin(291.15 + 1.5 * n), Kelvin(291.15 + 1.5 * n))
        for n in range(9)
    )


def in_cabinet(bench: Bench) -> str:
    bench.cure_pane.form.into = warming
    batch = bench.mixed(celsius=18.0)
    take(bench, "cabinet")
    return batch


def test_in_the_cabinet_stands_beside_the_truth_and_moves_no_gate(bench: Bench) -> None:
    batch = in_cabinet(bench)
    rows = len(bench.journal.read(f"batch/{batch}"))
    assert bench.screen.what_if == "in the cabinet"
    assert bench.screen.page == "times"
    view = bench.cure.view(batch)
    assert view is not None
    for stage in bench.cure.what_if_course(batch, warming(batch)):
        true = view.stage(stage.aim)
        if stage.aim in ("gel", "hold", "demould"):
            assert true is not None and true.gate is not None and stage.gate is not None
            assert stage.gate < true.gate
    line = bench.line("demould")
    assert line.what_if.startswith("from ")
    assert line.what_if != line.gate
    assert len(bench.journal.read(f"batch/{batch}")) == rows
    can_clear = []
    for mode in ("cabinet", "reading"):
        bench.cure_pane.on_mode(mode)
        can_clear.append(bench.screen.form.can_clear)
    assert can_clear == [True, False]
    bench.cure_pane.on_clear_what_if()
    assert bench.screen.what_if == ""


def test_one_what_if_takes_the_place_of_the_other(bench: Bench) -> None:
    in_cabinet(bench)
    take(bench, "what_if", temp="16")
    assert bench.screen.what_if == "at 16.0 °C"
    take(bench, "cabinet")
    assert bench.screen.what_if == "in the cabinet"


def test_before_the_gel_it_is_told_that_the_warmth_is_for_later(bench: Bench) -> None:
    in_cabinet(bench)
    assert any(
        note.startswith("Into the cabinet only after the gel") for note in bench.screen.notes
    )
    bench.cure_pane.on_seen("gelled")
    assert not any("only after the gel" in note for note in bench.screen.notes)


def test_a_cabinet_that_is_colder_than_the_shop_puts_no_hazard_off(bench: Bench) -> None:
    batch = bench.mixed(celsius=30.0)
    bench.cure_pane.form.into = lambda _: (Warmth(Second(0.0), Kelvin(288.15), Kelvin(288.15)),)
    take(bench, "cabinet")
    assert bench.line("pressurise").what_if == bench.line("pressurise").gate
    view = bench.cure.view(batch)
    assert view is not None
    assert bench.line("demould").what_if != bench.line("demould").gate


def test_without_a_cabinet_or_a_course_the_reason_is_told(bench: Bench) -> None:
    bench.mixed(celsius=18.0)
    take(bench, "cabinet")
    assert bench.screen.error == "No cabinet is known here."
    assert bench.screen.what_if == ""
    in_cabinet(bench)
    bench.cure_pane.form.into = None
    bench.clock.advance(120)
    bench.warm(bench.hand.batch, 19.0)
    assert bench.screen.what_if == ""
    assert bench.line("demould").what_if == ""


def test_what_if_colder_is_never_sooner(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    gates = [
        {stage.aim: stage.gate for stage in bench.cure.what_if(batch, ZERO + celsius)}["demould"]  # type: ignore[arg-type]
        for celsius in (26.0, 21.0, 16.0)
    ]
    assert gates == sorted(gates, key=lambda gate: gate or 0)


def test_before_hardener_there_is_no_what_if_and_no_course(bench: Bench) -> None:
    batch = bench.batches.open("plan")
    assert bench.cure.what_if(batch, 290.0) == ()  # type: ignore[arg-type]
    assert bench.cure.course(batch) is None


def test_typed_times_say_how_they_are_understood(bench: Bench) -> None:
    bench.mixed()
    bench.clock.advance(HOUR)
    bench.cure_pane.on_mode("extremes")
    assert dict(bench.screen.form.echoes)["since"] == "such as 22:00"
    bench.cure_pane.on_text("since", "30 min ago")
    assert dict(bench.screen.form.echoes)["since"].endswith("30 min ago")
    bench.cure_pane.on_text("since", "soonish")
    assert "not a clock time" in dict(bench.screen.form.echoes)["since"]
    bench.cure_pane.on_mode("reading")
    assert dict(bench.screen.form.echoes)["when"] == "empty: now"


def test_another_act_drops_what_was_typed_and_the_error(bench: Bench) -> None:
    bench.mixed()
    bench.cure_pane.on_do()
    serial = bench.screen.form.serial
    bench.cure_pane.on_mode("unknown")
    assert bench.screen.error == ""
    assert bench.screen.form.serial == serial + 1
    bench.cure_pane.on_mode("unknown")
    bench.cure_pane.on_mode("nonsense")
    assert bench.screen.form.mode == "unknown"
    assert bench.screen.form.serial == serial + 1


def test_with_nothing_curing_the_form_has_no_readings(bench: Bench) -> None:
    assert bench.screen.form.readings == ()


def test_readings_are_written_in_the_readers_unit(bench: Bench) -> None:
    bench.mixed(celsius=20.0)
    bench.words.units = US
    assert bench.screen.form.readings[0][1].endswith("68.0 °F")


def start(bench: Bench, what: str, after: str, before: str = "") -> None:
    pane = bench.cure_pane
    pane.on_mode("clock")
    for name, text in (("what", what), ("after", after), ("before", before)):
        pane.on_text(name, text)  # type: ignore[arg-type]
    pane.on_do()


def test_a_clock_of_ones_own_stands_among_the_others_until_it_is_done(bench: Bench) -> None:
    bench.mixed()
    start(bench, "Top up", "25 min", "30 min")
    (other,) = bench.screen.others
    assert other.own
    assert other.caption.startswith("from ")
    assert bench.cure_pane.digits_of(other.batch_id) == "25:00"
    bench.clock.advance(26 * 60)
    assert bench.screen.others[0].caption.startswith("before ")
    assert bench.cure_pane.digits_of(other.batch_id) == "4:00"
    bench.clock.advance(10 * 60)
    assert bench.screen.others[0].caption.endswith("missed")
    bench.cure_pane.on_take(other.batch_id)
    bench.cure_pane.on_done(other.batch_id)
    assert bench.screen.others == ()
    assert bench.cure_pane.digits_of(other.batch_id) == ""


def test_without_a_cure_a_clock_of_ones_own_has_the_digits(bench: Bench) -> None:
    assert bench.cure_pane.digits() == "–"
    start(bench, "Putty", "5 min")
    assert bench.screen.error == ""
    assert bench.screen.page in {"readings", "waits"}
    assert bench.cure_pane.digits() == "5:00"
    assert bench.screen.wait.caption.startswith("Putty: from ")
    bench.clock.advance(301)
    assert bench.screen.others[0].caption.endswith("reached")


def test_a_clock_needs_its_length_and_its_name(bench: Bench) -> None:
    start(bench, "Putty", "")
    assert "after how long" in bench.screen.error
    start(bench, "", "5 min")
    assert "what the clock is for" in bench.screen.error


def test_a_doubt_about_the_clock_is_settled_by_the_persons_word(bench: Bench) -> None:
    told: list[float] = []
    bench.mixed()
    pane = bench.cure_pane
    pane.on_mode("off")
    pane.on_do()
    assert "how long it was off" in bench.screen.error
    pane.on_text("off", "2 h")
    pane.on_do()
    pane.form.settle = lambda off: told.append(float(off))
    pane.on_text("off", "2 h")
    pane.on_do()
    assert told == [7200.0]
    assert bench.screen.error == ""
