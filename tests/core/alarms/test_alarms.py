from dataclasses import replace

import pytest

from shopassist.core.alarms import calling, causes
from shopassist.core.alarms.book import (
    ACKNOWLEDGED,
    GONE,
    NOT_SEEN,
    RAISED,
    SILENCED,
    STREAM,
    Book,
    fold,
    fold_all,
    keys_body,
    raised_body,
)
from shopassist.core.alarms.causes import Cause, Whose
from shopassist.core.alarms.table import NOT_SEEN as NOT_SEEN_AFTER
from shopassist.core.alarms.table import SILENCE, TABLE, Kind
from shopassist.core.messages import say
from shopassist.core.quantities import Kelvin, Kilogram, Second, UtcSecond
from shopassist.core.rows import Body, Reading, Row

NOON = 1_790_000_000.0
KNOBS = Whose("b1", "Knobs", "cure")


def at(after: float, boot: str = "one", since_boot: float | None = None) -> Reading:
    up = 1000.0 + after if since_boot is None else since_boot
    return Reading(UtcSecond(NOON + after), Second(up), boot, Second(0.0))


def row(kind: str, body: Body, reading: Reading, seq: int = 1) -> Row:
    return Row(seq, STREAM, seq, kind, 1, reading, reading.utc, body, "")


def raised(kind: Kind, after: float = 0.0, due: float | None = None, seq: int = 1) -> Row:
    due_at = UtcSecond(NOON + (after if due is None else due))
    return row(RAISED, raised_body(f"{kind}/b1", kind, due_at, "Knobs"), at(after), seq)


def about(kind: str, *keys: str, after: float = 1.0) -> Row:
    return row(kind, keys_body(keys), at(after), 9)


def gate(after: float) -> UtcSecond:
    return UtcSecond(NOON + after)


def stand(found: tuple[Cause, ...], after: float) -> list[str]:
    return [each.kind for each in found if each.holds(NOON + after, stands=False)]


# -- the table ---------------------------------------------------------------------------


@pytest.mark.parametrize("kind", TABLE)
def test_every_alarm_says_what_to_do_why_and_how_long_there_is(kind: Kind) -> None:
    rule = TABLE[kind]
    assert all((rule.cause, rule.action, rule.consequence, rule.time))
    assert rule.latches == (rule.priority == "high")
    assert rule.silence <= SILENCE <= 120
    assert (rule.takeover is not None) == (rule.priority == "high")


# -- causes ------------------------------------------------------------------------------


def test_a_hazard_calls_ten_and_three_minutes_early_and_tells_that_it_has_passed() -> None:
    found = causes.pressurise(KNOBS, gate(3600))
    assert stand(found, 2999) == []
    assert stand(found, 3000) == ["pressurise_soon"]
    assert stand(found, 3420) == ["pressurise_now"]
    assert stand(found, 3600) == ["pressurise_missed"]
    assert stand(found, 3600 + 7 * 86_400) == []


def test_working_time_calls_at_its_shares_and_a_heavy_cup_counts_as_high() -> None:
    light = causes.working(KNOBS, gate(0), gate(1000), Kilogram(0.1), Kilogram(0.2))
    assert [stand(light, after) for after in (749, 750, 900, 1000)] == [
        [], ["working_soon"], ["working_now"], ["working_over"],
    ]  # fmt: skip
    heavy = causes.working(KNOBS, gate(0), gate(1000), Kilogram(0.3), Kilogram(0.2))
    assert stand(heavy, 1000) == ["working_hot"]
    assert stand(causes.working(KNOBS, gate(0), gate(1), Kilogram(9.0), None), 1) == [
        "working_over"
    ]


def test_a_window_opens_is_about_to_close_and_is_missed() -> None:
    found = causes.window(KNOBS, gate(1200), gate(1800))
    assert [stand(found, after) for after in (1199, 1200, 1500, 1800)] == [
        [], ["window_open"], ["window_closing"], ["window_missed"],
    ]  # fmt: skip
    short = causes.window(KNOBS, gate(0), gate(60))
    assert stand(short, 0) == ["window_closing"]


def test_a_release_is_told_from_its_late_gate_on_for_a_week() -> None:
    found = (causes.release(KNOBS, "demould", gate(100)),)
    assert [stand(found, after) for after in (99, 100, 7 * 86_400 + 100)] == [[], ["demould"], []]


def test_an_old_temperature_is_asked_for_again() -> None:
    found = (causes.reading_old(KNOBS, gate(0)),)
    assert stand(found, 10_799) == []
    assert stand(found, 10_800) == ["reading_old"]


def test_temperatures_have_a_dead_band_of_half_a_kelvin() -> None:
    limits = (Kelvin(288.15), Kelvin(305.15))

    def found(low: float, high: float, *standing: str) -> list[str]:
        made = causes.out_of_limits(
            KNOBS, (Kelvin(low), Kelvin(high)), gate(0), limits, say("x"),
            standing=frozenset(standing),
        )  # fmt: skip
        return [each.kind for each in made]

    assert found(288.15, 305.15) == []
    assert found(288.0, 288.0) == ["too_cold"]
    assert found(305.3, 305.3) == ["too_warm"]
    assert found(287.0, 306.0) == ["too_cold", "too_warm"]
    assert found(288.5, 290.0, "too_cold/b1") == ["too_cold"]
    assert found(288.7, 290.0, "too_cold/b1") == []
    nothing = causes.out_of_limits(
        KNOBS, (Kelvin(1.0), Kelvin(900.0)), gate(0), (None, None), say("x")
    )
    assert nothing == ()


def test_one_that_stands_is_kept_when_its_gate_moves_a_little() -> None:
    soon = causes.pressurise(KNOBS, gate(3600))[0]
    assert not soon.holds(NOON + 2950, stands=False)
    assert soon.holds(NOON + 2950, stands=True)
    assert not soon.holds(NOON + 2900, stands=True)
    plain = causes.so(KNOBS, "suspect", gate(0))
    assert plain.holds(NOON, stands=False)
    assert plain.holds(NOON - 1, stands=True)


def test_the_next_instant_to_look_at_is_known() -> None:
    found = causes.pressurise(KNOBS, gate(3600))
    assert calling.next_turn(found, NOON) == NOON + 2940
    assert calling.next_turn(found, NOON + 2999.5) == NOON + 3000
    assert calling.next_turn(found, NOON + 3500) == NOON + 3540
    assert calling.next_turn((), NOON) == float("inf")
    assert calling.next_turn((causes.so(KNOBS, "suspect", gate(0)),), NOON) == float("inf")


def test_only_dated_alarms_above_low_keep_the_machine_awake() -> None:
    soon = causes.pressurise(KNOBS, gate(3600))[0]
    assert not calling.calls_within(soon, NOON, 1800)
    assert calling.calls_within(soon, NOON + 1300, 1800)
    assert not calling.calls_within(causes.so(KNOBS, "suspect", gate(0)), NOON, 1800)
    assert not calling.calls_within(causes.release(KNOBS, "demould", gate(0)), NOON, 1800)


# -- the book ----------------------------------------------------------------------------


def test_silence_acknowledge_and_gone_are_three_facts() -> None:
    book = fold(Book(), raised("pressurise_now"))
    key = "pressurise_now/b1"
    silenced = fold(book, about(SILENCED, key))
    assert silenced.alarms[key].acknowledged is False
    assert calling.silent(silenced, silenced.alarms[key], at(2)) == pytest.approx(119)
    seen = fold(book, about(ACKNOWLEDGED, key))
    assert seen.standing(key)
    assert calling.silent(seen, seen.alarms[key], at(2)) <= 0
    assert fold(seen, about(GONE, key)).alarms == {}


def test_a_high_alarm_stays_until_it_is_acknowledged_others_go_with_their_cause() -> None:
    book = fold_all([raised("pressurise_now"), raised("working_now", seq=2)])
    gone = fold(book, about(GONE, "pressurise_now/b1", "working_now/b1", "nothing/b1"))
    assert list(gone.alarms) == ["pressurise_now/b1"]
    assert not gone.standing("pressurise_now/b1")
    assert gone.alarms["pressurise_now/b1"].gone == NOON + 1
    assert fold(gone, about(ACKNOWLEDGED, "pressurise_now/b1")).alarms == {}


def test_silence_ends_by_itself_and_does_not_hold_for_what_comes_after_or_another_boot() -> None:
    book = fold_all([raised("working_now"), about(SILENCED, "working_now/b1", after=10)])
    alarm = book.alarms["working_now/b1"]
    assert calling.silent(book, alarm, at(129.9)) > 0
    assert calling.silent(book, alarm, at(130)) <= 0
    assert calling.silent(book, alarm, at(60, "two", 50.0)) <= 0
    assert calling.silent(book, alarm, at(60, since_boot=900.0)) <= 0
    other = fold(book, raised("pressurise_now", 20, seq=3)).alarms["pressurise_now/b1"]
    assert calling.silent(book, other, at(21)) <= 0
    moved = replace(at(20), utc=UtcSecond(NOON - 86_400))
    assert calling.silent(book, alarm, moved) == pytest.approx(110)


def test_over_the_rating_silence_is_short() -> None:
    book = fold_all([raised("over_rating"), about(SILENCED, "over_rating/b1", after=0)])
    assert calling.silent(book, book.alarms["over_rating/b1"], at(30)) <= 0


def test_what_comes_again_at_once_shows_and_does_not_sound() -> None:
    def again(kind: Kind, after: float, boot: str = "one") -> bool:
        book = fold_all([raised(kind), about(GONE, f"{kind}/b1", after=5)])
        later = replace(raised(kind, after, seq=2), recorded=at(after, boot))
        return fold(book, later).alarms[f"{kind}/b1"].quiet

    assert again("working_now", 60)
    assert not again("working_now", 700)
    assert again("demould", 3600)
    assert not again("demould", 50_000)
    assert not again("battery_out", 60)
    assert again("working_now", 60, "two")


def test_unknown_rows_and_kinds_change_nothing() -> None:
    assert fold(Book(), row("other", {}, at(0))) == Book()
    assert fold(Book(), row(RAISED, {"key": "x", "alarm": "x"}, at(0))) == Book()
    assert fold(Book(), row(GONE, {"keys": "x"}, at(0))).alarms == {}
    late = fold(Book(), row(RAISED, {"key": "demould/b", "alarm": "demould"}, at(0)))
    assert late.alarms["demould/b"].late <= 0
    assert late.alarms["demould/b"].owner == "b"


def test_lateness_is_how_long_after_its_cause_it_was_raised() -> None:
    assert fold(Book(), raised("demould", 8040, due=0)).alarms["demould/b1"].late == pytest.approx(
        8040
    )


# -- calling -------------------------------------------------------------------------------


def test_what_is_so_is_compared_with_what_stands() -> None:
    book = fold_all([raised("working_now"), raised("demould", seq=2)])
    so = (
        causes.so(KNOBS, "demould", gate(0)), causes.so(KNOBS, "suspect", gate(0)),
        causes.so(KNOBS, "suspect", gate(5)),
    )  # fmt: skip
    found = calling.moved(so, book, NOON)
    assert [each.key for each in found.raised] == ["suspect/b1"]
    assert found.gone == ("working_now/b1",)
    assert found
    assert not calling.moved((), Book(), NOON)


def test_the_gravest_leads_and_answered_low_ones_need_no_room() -> None:
    book = fold_all([raised("demould"), raised("working_now", seq=2), raised("suspect", seq=3)])
    leads = calling.leading(book)
    assert leads is not None
    assert leads.kind == "suspect"
    for key in ("suspect/b1", "working_now/b1", "demould/b1"):
        book = fold(book, about(ACKNOWLEDGED, key))
    kept = calling.leading(book)
    assert kept is not None
    assert kept.kind == "suspect"
    assert [each.kind for each in calling.answered(book)] == ["suspect", "working_now"]
    assert calling.leading(Book()) is None


def test_a_high_alarm_fills_the_window_after_a_minute_then_grows_louder_then_is_not_seen() -> None:
    alarm = fold(Book(), raised("pressurise_now")).alarms["pressurise_now/b1"]
    stages = [calling.stage(alarm, Second(s)) for s in (0, 60, 180, NOT_SEEN_AFTER)]
    assert stages == ["band", "full", "louder", "not seen"]
    seen = replace(alarm, acknowledged=True)
    assert calling.stage(seen, Second(600)) == "band"
    hiss = fold(Book(), raised("suspect")).alarms["suspect/b1"]
    assert calling.stage(hiss, Second(0)) == "full"
    medium = fold(Book(), raised("working_now")).alarms["working_now/b1"]
    assert calling.stage(medium, Second(600)) == "band"
    noted = fold(fold(Book(), raised("suspect")), about(NOT_SEEN, "suspect/b1"))
    assert noted.alarms["suspect/b1"].not_seen


def bursts(book: Book, seconds: int, sitting: Reading | None = None) -> list[int]:
    """Seconds at which something sounds, looked at once a second."""
    heard, before = [], None
    for second in range(seconds):
        now = at(second)
        if calling.sound(book, sitting or at(0), before, now) is not None:
            heard.append(second)
        before = now
    return heard


def test_high_sounds_every_ten_medium_every_twenty_five_seconds_low_once() -> None:
    assert bursts(fold(Book(), raised("pressurise_now")), 31) == [0, 10, 20, 30]
    assert bursts(fold(Book(), raised("working_now")), 51) == [0, 25, 50]
    assert bursts(fold(Book(), raised("demould")), 51) == [0]
    assert bursts(fold(Book(), raised("working_over")), 200) == [0, 25, 50]
    assert bursts(fold(Book(), raised("may_sleep")), 51) == []


def test_a_silenced_alarm_sounds_again_after_two_minutes() -> None:
    book = fold_all([raised("pressurise_now"), about(SILENCED, "pressurise_now/b1", after=5)])
    assert bursts(book, 140) == [0, 130]


def test_an_acknowledged_one_is_still() -> None:
    book = fold_all([raised("pressurise_now"), about(ACKNOWLEDGED, "pressurise_now/b1")])
    assert bursts(book, 60) == []


def test_after_a_restart_it_calls_anew_and_escalates_from_then_on() -> None:
    book = fold(Book(), replace(raised("pressurise_now"), recorded=at(-900, "old", 5.0)))
    alarm = book.alarms["pressurise_now/b1"]
    assert calling.stood(alarm, at(0), at(30)) == pytest.approx(30)
    assert bursts(book, 11) == [0, 10]
    same = fold(Book(), raised("pressurise_now", -900))
    assert calling.stood(same.alarms["pressurise_now/b1"], at(0), at(30)) == pytest.approx(30)


def test_one_burst_speaks_for_a_whole_backlog_and_grows_loud() -> None:
    book = fold_all([raised("demould"), raised("hold_over", seq=2), raised("suspect", seq=3)])
    burst = calling.sound(book, at(0), None, at(0))
    assert burst is not None
    assert burst.priority == "high"
    assert not burst.loud
    loud = calling.sound(book, at(0), at(199), at(200))
    assert loud is not None
    assert loud.loud
    assert calling.sound(Book(), at(0), None, at(0)) is None


def test_the_next_call_is_known_to_the_second() -> None:
    high = fold(Book(), raised("pressurise_now"))
    assert calling.next_call(high, at(0), at(3)) == pytest.approx(1010.0)
    assert calling.next_call(high, at(0), at(55)) == pytest.approx(1060.0)
    low = fold(Book(), raised("demould"))
    assert calling.next_call(low, at(0), at(3)) == float("inf")
    medium = fold(Book(), raised("working_now"))
    assert calling.next_call(medium, at(0), at(26)) == pytest.approx(1050.0)
    assert calling.next_call(Book(), at(0), at(0)) == float("inf")
