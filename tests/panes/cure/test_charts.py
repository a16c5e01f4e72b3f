import pytest

from shopassist.core.quantities import Kelvin
from shopassist.core.wording import US
from shopassist.services.curve import Ghost, age_curve, warmth_curve
from shopassist.widgets.chart_shown import ChartShown
from tests.panes.cure.bench import Bench

HOUR = 3600.0


def charts(bench: Bench) -> tuple[ChartShown, ...]:
    bench.cure_pane.on_page("curve")
    return bench.screen.charts


def test_the_curve_counts_hours_at_the_sheets_own_temperature(bench: Bench) -> None:
    bench.mixed(celsius=23.0)
    age, _ = charts(bench)
    assert age.caption == "Cure so far, as hours at 23 °C"
    assert [level.label for level in age.levels] == ["gel", "demould"]
    assert [round(level.at, 6) for level in age.levels] == [4.0, 18.0]


def test_at_the_sheets_temperature_an_hour_is_an_hour(bench: Bench) -> None:
    bench.mixed(celsius=23.0)
    bench.clock.advance(2 * HOUR)
    age, _ = charts(bench)
    for x, y in age.line:
        assert abs(y - (x - age.start) / HOUR) < 1e-6


def test_the_band_holds_the_line_and_widens(bench: Bench) -> None:
    bench.mixed(celsius=20.0)
    bench.clock.advance(HOUR)
    age, _ = charts(bench)
    assert all(low <= y <= high for (_, low, high), (_, y) in zip(age.band, age.line, strict=True))
    widths = [high - low for _, low, high in age.band]
    assert widths == sorted(widths)


def test_the_band_crosses_a_level_at_the_ends_of_its_likely_range(bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    bench.clock.advance(HOUR)
    view, standing = bench.cure.view(batch), bench.cure.course(batch)
    assert view is not None and standing is not None
    stage, curve = view.stage("demould"), age_curve(standing)
    assert stage is not None and curve is not None
    needed = dict(curve.levels)["demould"]
    fast = next(point.at for point in curve.points if point.fast >= needed)
    slow = next(point.at for point in curve.points if point.slow >= needed)
    step = curve.points[1].at - curve.points[0].at
    assert stage.early is not None and stage.late is not None
    assert abs(fast - stage.early) <= step
    assert abs(slow - stage.late) <= step


def test_after_the_demould_the_next_release_is_aimed_at(bench: Bench) -> None:
    bench.mixed(celsius=23.0)
    bench.clock.suspend(40 * HOUR)
    age, _ = charts(bench)
    assert [level.label for level in age.levels] == ["gel", "demould", "hard"]


def test_long_cures_count_days_and_short_ones_minutes(bench: Bench) -> None:
    batch = bench.mixed(
        celsius=22.0,
        sheet=bench.sheet("quick-opaque", demould={"time": "50 min", "at": "22 °C"}, full={}),
    )
    assert "as minutes at 22 °C" in charts(bench)[0].caption
    bench.batches.close(batch, "good")
    bench.mixed(
        celsius=23.0,
        sheet=bench.sheet("slow-clear", hard={}, demould={"time": "9 d", "at": "23 °C"}),
    )
    assert "as days at 23 °C" in charts(bench)[0].caption


def test_too_cold_for_any_time_what_is_behind_is_still_drawn(bench: Bench) -> None:
    batch = bench.mixed(celsius=10.0)
    bench.clock.advance(HOUR)
    standing = bench.cure.course(batch)
    assert standing is not None
    curve = age_curve(standing)
    assert curve is not None
    assert curve.points[-1].likely == 0.0
    assert charts(bench)[0].levels


def test_a_sheet_of_hazards_alone_has_no_curve(bench: Bench) -> None:
    bench.mixed(sheet=bench.sheet("slow-clear", gel={}, demould={}, hard={}, full={}))
    assert len(charts(bench)) == 1


def test_a_level_with_another_law_is_left_out(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    standing = bench.cure.course(batch)
    assert standing is not None
    curve = age_curve(standing)
    assert curve is not None
    assert len(curve.levels) == 2


def test_typed_temperatures_stand_as_points_and_ranges_as_boxes(bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    bench.clock.advance(3 * HOUR)
    bench.batches.add_temperature(
        batch, Kelvin(288.15), Kelvin(293.15), "resin", since=bench.batches.get(batch).warmth[0].at
    )
    _, warmth = charts(bench)
    assert len(warmth.dots) == 1
    ((start, end, low, high),) = warmth.bars
    assert end - start == 3 * HOUR
    assert (round(low, 6), round(high, 6)) == (15.0, 20.0)


def test_limits_and_gaps_are_drawn(bench: Bench) -> None:
    batch = bench.mixed(celsius=17.0)
    bench.clock.advance(3 * HOUR)
    contact = bench.batches.get(batch).first_contact
    assert contact is not None
    bench.batches.unknown_temperature(batch, contact, bench.clock.read().utc)
    _, warmth = charts(bench)
    assert [level.label for level in warmth.levels] == ["lowest 15 °C"]
    assert warmth.gaps == ((contact, bench.now),)
    began = bench.words.clock(contact, bench.now)
    assert f"not known {began} to {bench.words.clock(bench.now)}" in warmth.spoken
    assert warmth.unread == ()


def test_long_stretches_without_a_reading_are_marked(bench: Bench) -> None:
    batch = bench.mixed(celsius=21.0)
    began = bench.now
    bench.clock.advance(3 * HOUR)
    bench.warm(batch, 21.5)
    assert charts(bench)[1].unread == ()
    bench.clock.advance(5 * HOUR)
    bench.warm(batch, 20.0, since=bench.now - HOUR)
    assert charts(bench)[1].unread == ((began + 3 * HOUR, began + 7 * HOUR),)
    bench.clock.advance(4 * HOUR)
    _, warmth = charts(bench)
    assert warmth.unread[1:] == ((began + 11 * HOUR, began + 12 * HOUR),)
    assert warmth.unread_word == "no reading"
    assert f"and {bench.words.clock(began + 11 * HOUR, bench.now)} to " in warmth.spoken


def test_near_the_upper_limit_it_is_drawn_too(bench: Bench) -> None:
    bench.mixed(celsius=30.0)
    _, warmth = charts(bench)
    assert "highest 32 °C" in [level.label for level in warmth.levels]


def test_readings_in_air_carry_their_band(bench: Bench) -> None:
    batch = bench.mixed(celsius=20.0)
    assert charts(bench)[1].band == ()
    bench.clock.advance(HOUR)
    bench.warm(batch, 20.0, "shop")
    band = charts(bench)[1].band
    assert [round(high - low, 6) for _, low, high in band] == [0.0, 6.0]


def test_without_a_reading_the_chart_says_so(bench: Bench) -> None:
    batch = bench.mixed(celsius=None, sheet="none")
    standing = bench.cure.course(batch)
    assert standing is not None
    curve = warmth_curve(standing)
    assert (curve.lowest, curve.highest) == (None, None)
    (_,) = charts(bench)
    assert bench.screen.charts[-1].spoken == "No temperature was read yet."


def test_charts_speak_the_readers_units(bench: Bench) -> None:
    bench.mixed(celsius=20.0)
    bench.words.units = US
    age, warmth = charts(bench)
    assert age.caption.endswith("73 °F")
    assert warmth.caption == "Temperature, °F"
    assert round(warmth.dots[0][1]) == 68
    assert "hours old" in age.spoken


# -- as it was forecast earlier -----------------------------------------------------------------


def as_of(bench: Bench, batch: str) -> list[float]:
    """Hours since hardener at which each earlier forecast was made."""
    contact = bench.batches.get(batch).first_contact or 0.0
    return [round((each.now - contact) / HOUR, 3) for each in bench.cure.earlier(batch)]


def test_what_was_forecast_before_a_reading_stays_as_a_ghost(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    assert charts(bench)[0].ghosts == ()
    standing = bench.cure.course(batch)
    assert standing is not None
    told = age_curve(standing)
    assert told is not None
    bench.clock.advance(2 * HOUR)
    bench.warm(batch, 15.0)
    age, _ = charts(bench)
    ((word, points),) = age.ghosts
    assert word == f"as of {bench.words.clock(told.now)}"
    for x, y in points:
        assert y == pytest.approx((x - age.start) / HOUR, abs=1e-6)
    assert points[-1][1] > age.line[-1][1]
    (ghost,) = ghosts(bench, batch)
    assert ghost.gate == told.gate


def ghosts(bench: Bench, batch: str) -> tuple[Ghost, ...]:
    standing = bench.cure.course(batch)
    assert standing is not None
    curve = age_curve(standing, bench.cure.earlier(batch))
    assert curve is not None
    return curve.earlier


def test_a_ghost_begins_when_it_was_forecast_and_knows_nothing_of_later(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(HOUR)
    bench.warm(batch, 15.0)
    seen = bench.cure.view(batch)
    bench.clock.advance(HOUR)
    bench.warm(batch, 30.0)
    bench.warm(batch, 10.0, since=bench.now - 1800)
    assert seen is not None
    demould = seen.stage("demould")
    assert demould is not None
    first, second, *_ = ghosts(bench, batch)
    assert second.gate == pytest.approx(demould.gate, abs=1.0)
    assert first.gate is not None and second.gate is not None
    assert first.gate < second.gate
    standing = bench.cure.course(batch)
    assert standing is not None
    curve = age_curve(standing)
    assert curve is not None
    for point, age in zip(curve.points, second.likely, strict=True):
        assert (age is None) == (point.at < second.at)


def test_a_correction_leaves_the_ghost_of_what_was_believed(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(HOUR)
    bench.warm(batch, 35.0)
    wrong = bench.cure.view(batch)
    bench.clock.advance(HOUR)
    seq = bench.batches.get(batch).warmth[-1].row.seq
    bench.batches.correct_temperature(batch, seq, Kelvin(296.15), Kelvin(296.15), "a slip")
    assert wrong is not None
    believed = wrong.stage("demould")
    assert believed is not None
    bench.clock.advance(HOUR)
    bench.warm(batch, 18.0)
    assert as_of(bench, batch) == [0.0]
    bench.batches.correct_temperature(
        batch, bench.batches.get(batch).warmth[-2].row.seq, Kelvin(308.15), Kelvin(308.15), "was"
    )
    assert as_of(bench, batch) == [0.0, 1.0]
    assert ghosts(bench, batch)[1].gate == pytest.approx(believed.gate, abs=1.0)


def test_only_readings_that_bend_the_forecast_leave_a_ghost_and_few_are_shown(
    bench: Bench,
) -> None:
    batch = bench.mixed(celsius=23.0)
    for celsius in (23.4, 22.8, 20.0, 20.2, 24.0, 17.0, 22.0, 15.0):
        bench.clock.advance(600)
        bench.warm(batch, celsius)
    assert as_of(bench, batch) == [0.0, round(6 / 6, 3), round(7 / 6, 3)]
    assert bench.cure.earlier(batch)[0] is bench.cure.earlier(batch)[0]
    bench.cure.forget()
    assert as_of(bench, batch) == [0.0, round(6 / 6, 3), round(7 / 6, 3)]


def test_a_first_reading_after_a_guess_leaves_the_ghost_of_the_guess(bench: Bench) -> None:
    batch = bench.mixed(celsius=None)
    assert as_of(bench, batch) == []
    bench.clock.advance(600)
    bench.warm(batch, 20.0)
    assert as_of(bench, batch) == [0.0]


def test_before_hardener_and_under_another_sheet_there_is_no_ghost(bench: Bench) -> None:
    batch = bench.batches.open("Empty")
    assert bench.cure.earlier(batch) == ()
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(600)
    bench.warm(batch, 18.0)
    bench.batches.use_sheet(batch, bench.sheet("quick-opaque"), 1)
    assert ghosts(bench, batch) == ()


def test_many_batches_do_not_fill_the_memory_with_ghosts(bench: Bench) -> None:
    kept = bench.cure._earlier._kept
    for number in range(3):
        batch = bench.mixed(str(number), celsius=23.0)
        bench.clock.advance(600)
        bench.warm(batch, 18.0)
        bench.cure.earlier(batch)
    assert len(kept) == 3
    kept.most = 2
    batch = bench.mixed("last", celsius=23.0)
    bench.clock.advance(600)
    bench.warm(batch, 18.0)
    bench.cure.earlier(batch)
    assert len(kept) == 2


def test_what_one_batch_needs_is_told_however_little_is_kept(bench: Bench) -> None:
    bench.cure._earlier._kept.most = 1
    batch = bench.mixed(celsius=23.0)
    for celsius in (18.0, 14.0):
        bench.clock.advance(600)
        bench.warm(batch, celsius)
        bench.cure.earlier(batch)
    bench.clock.advance(600)
    assert len(bench.cure.earlier(batch)) == 2


def test_the_chart_in_words_tells_the_earlier_forecasts(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    first = bench.words.clock(bench.now)
    bench.clock.advance(2 * HOUR)
    bench.warm(batch, 15.0)
    spoken = charts(bench)[0].spoken
    assert f"as of {first} demould from" in spoken
    assert spoken.index("as of") < spoken.index("now demould from")
    cold = bench.mixed("cold", celsius=8.0)
    bench.clock.advance(HOUR)
    bench.warm(cold, 23.0)
    assert "demould no time" in charts(bench)[0].spoken


def test_a_forecast_that_stood_for_moments_leaves_no_ghost(bench: Bench) -> None:
    batch = bench.mixed(celsius=23.0)
    bench.clock.advance(HOUR)
    bench.warm(batch, 32.0)
    bench.clock.advance(299)
    bench.warm(batch, 20.0)
    assert as_of(bench, batch) == [0.0]
    bench.clock.advance(300)
    bench.warm(batch, 15.0)
    assert as_of(bench, batch) == [0.0, round((HOUR + 299) / HOUR, 3)]
