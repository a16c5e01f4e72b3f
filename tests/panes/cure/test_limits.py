"""What is said where it is too warm, too cold for a sheet that names no limit, or the clocks change."""

import pytest

from tests.panes.cure.bench import Bench

LAW = {"kind": "factor per 10 degrees", "factor": "2"}
DAY = {"time": "24 h", "at": "25 °C"}


def test_too_warm_is_not_called_too_cold(bench: Bench) -> None:
    """Case C04: above the sheet's highest no time counts, and the way out is the other one."""
    limits = {"lowest": "10 °C", "highest": "40 °C"}
    batch = bench.mixed(celsius=45.0, sheet=bench.bare(demould=DAY, law=LAW, temperature=limits))
    assert bench.screen.wait.caption == "May demould: no time while it is too warm"
    line = bench.line("demould")
    assert (line.range, line.gate) == ("not counted, too warm", "no time")
    assert line.note == "Too warm for this resin: the time does not count."
    bench.warm(batch, 8.0)
    assert bench.screen.wait.caption == "May demould: no time while it is too cold"
    assert bench.line("demould").range == "stalled, too cold"


def test_a_full_cure_that_stalls_as_it_hardens_is_only_too_cool(bench: Bench) -> None:
    sheet = bench.bare(full=DAY, law=LAW, glass="70 °C")
    bench.mixed(celsius=20.0, sheet=sheet)
    assert bench.screen.wait.caption == "Full cure: no time while it is too cool"
    assert bench.line("full").range == "stalls when cool"


@pytest.mark.parametrize(("celsius", "told"), [(12.0, True), (12.7, True), (13.0, False)])
def test_a_sheet_without_a_lowest_temperature_is_no_leave_to_count_on_in_the_cold(
    bench: Bench, celsius: float, told: bool
) -> None:
    """Case C11: "most products go dormant about 55 degF" (12.8 °C); plain doubling fails there."""
    bench.mixed(celsius=celsius, sheet=bench.bare(demould=DAY, law=LAW))
    notes = [note for note in bench.screen.notes if note.startswith("The sheet names no lowest")]
    assert len(notes) == told


def test_a_lowest_temperature_on_the_sheet_speaks_for_itself(bench: Bench) -> None:
    low = {"lowest": "5 °C"}
    bench.mixed(celsius=8.0, sheet=bench.bare(demould=DAY, law=LAW, temperature=low))
    assert not any("names no lowest" in note for note in bench.screen.notes)
    bench.mixed("Pot life alone", celsius=8.0, sheet=bench.bare(gel=DAY, law=LAW))
    bench.clock.suspend(90 * 86400)
    assert not any("names no lowest" in note for note in bench.screen.notes)


def test_a_table_goes_by_its_times_and_says_so(bench: Bench) -> None:
    """Case C11: 4 h at 95 °F and three days at 55 °F; straight between them 16.1 h at 75 °F.

    ln t is straight over 1/T: 4 h × 18^x with x = (1/297.04 - 1/308.15) / (1/285.93 - 1/308.15).
    """
    times = {"time": "4 h", "at": "95 °F", "time_2": "72 h", "at_2": "55 °F"}
    sheet = bench.bare(family="amine epoxy", demould=times, law={"kind": "table of times"})
    batch = bench.mixed(celsius=(75 - 32) / 1.8, sheet=sheet)
    view = bench.cure.view(batch)
    assert view is not None
    stage = view.stage("demould")
    assert stage is not None and stage.likely is not None
    assert (stage.likely - bench.now) / 3600 == pytest.approx(16.08, abs=0.01)
    (doubt,) = [note for note in bench.screen.notes if "hard to believe" in note]
    assert doubt.endswith("The table goes by them as they stand.")
    assert "default of the family" not in doubt


def test_the_change_of_the_clocks_is_told_before_it_is_met(bench: Bench) -> None:
    """Case X03: "show both: ends 03:55 (clock change tonight)"; here on the way back to winter."""
    bench.clock.set_zone("Europe/Berlin")
    bench.clock.suspend(33 * 86400)  # 24 October 2026, four in the afternoon; put back at three
    sheet = bench.bare(demould=DAY, law=LAW)
    bench.mixed(celsius=25.0, sheet=sheet)
    (told,) = [note for note in bench.screen.notes if note.startswith("The clocks are put")]
    assert told.startswith("The clocks are put back before Mon 00:")
    bench.clock.suspend(86400)
    assert not any(note.startswith("The clocks are put") for note in bench.screen.notes)
