from shopassist.core.quantities import Kelvin
from shopassist.core.wording import US
from shopassist.services.curve import age_curve, warmth_curve
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
    assert "not known 1 times" in warmth.spoken


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
