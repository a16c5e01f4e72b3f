from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.errors import RefusedError
from shopassist.core.pour import recoat_window
from shopassist.core.quantities import Ratio, Second
from shopassist.core.rows import Draft
from shopassist.core.waits import fold_all
from tests.shops import Shop

MINUTE, HOUR = 60.0, 3600.0


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def minutes(value: float) -> Second:
    return Second(value * MINUTE)


def kinds(shop: Shop) -> list[str]:
    now = shop.now
    return [each.kind for each in shop.waits.causes() if each.holds(now, stands=False)]


def test_an_embed_is_called_for_when_its_window_opens_before_it_closes_and_when_it_is_missed(
    shop: Shop,
) -> None:
    shop.waits.start("top up", minutes(20), minutes(30))
    told = []
    for wait in (19, 1, 5, 5):
        shop.clock.advance(wait * MINUTE)
        told.append(kinds(shop))
    assert told == [[], ["window_open"], ["window_closing"], ["window_missed"]]


def test_a_seal_coat_is_poured_on_within_its_window_and_sanded_after_it(shop: Shop) -> None:
    """Case C13: 6 h to the gel and 18 h after it at 25 °C; at 18 °C from 9.7 h on for 29 h."""
    factor = Ratio(2 ** ((25 - 18) / 10))
    window = recoat_window(Second(6 * HOUR), Second(18 * HOUR), factor)
    shop.waits.start("Pour on the seal coat", window.opens, window.shuts)
    (running,) = shop.waits.running()
    assert (running.opens - shop.now) / HOUR == pytest.approx(9.7, abs=0.06)
    assert running.closes is not None
    assert (running.closes - running.opens) / HOUR == pytest.approx(29.2, abs=0.1)
    told = []
    for hours in (9.6, 0.2, 29.14, 0.5):
        shop.clock.suspend(hours * HOUR)
        told.append((kinds(shop), window.step(Second(shop.now - running.wait.row.happened))))
    assert told == [
        ([], "wait"), (["window_open"], "pour"), (["window_closing"], "pour"),
        (["window_missed"], "sand, then pour"),
    ]  # fmt: skip


def test_a_clock_without_an_end_is_told_when_it_is_over(shop: Shop) -> None:
    shop.waits.start("putty", minutes(10))
    (running,) = shop.waits.running()
    assert running.next(shop.now) == pytest.approx(shop.now + 600)
    shop.clock.suspend(700)
    assert kinds(shop) == ["wait_over"]
    shop.waits.end(running.wait.id)
    shop.waits.end(running.wait.id)
    assert shop.waits.running() == ()
    assert kinds(shop) == []


def test_several_run_at_once_the_soonest_first_and_outlive_the_program(shop: Shop) -> None:
    shop.waits.start("bake", minutes(90))
    shop.waits.start("coat", minutes(10), minutes(15))
    shop.clock.advance(12 * MINUTE)
    again = shop.killed()
    assert [each.wait.what for each in again.waits.running()] == ["coat", "bake"]
    dues = list(again.waits.dues())
    assert [due.rank.name for due in dues] == ["HAZARD", "RELEASE"]
    assert dues[0].gate == pytest.approx(again.now + 3 * MINUTE)
    again.clock.advance(10 * MINUTE)
    assert next(iter(again.waits.dues())).rank.name == "LATER"
    again.close()


def test_a_doubted_clock_opens_later_and_closes_earlier(shop: Shop) -> None:
    shop.waits.start("top up", minutes(60), minutes(90))
    shop.clock.moved = None
    shop.clock.reboot(600)
    shop.clock.step(-86_400.0 * 400)
    again = shop.killed()
    (running,) = again.waits.running()
    assert running.opens - again.now > 59 * MINUTE
    assert running.closes is not None
    assert running.closes < again.now
    again.close()


@pytest.mark.parametrize(
    ("what", "opens", "closes"), [(" ", 1, None), ("x", -1, None), ("x", 1e9, None), ("x", 5, 5)]
)
def test_a_clock_that_cannot_be_is_refused(
    shop: Shop, what: str, opens: float, closes: float | None
) -> None:
    with pytest.raises(RefusedError):
        shop.waits.start(what, minutes(opens), None if closes is None else minutes(closes))


def test_a_clock_runs_four_hundred_days_and_no_longer(shop: Shop) -> None:
    days = 24 * 60.0
    shop.waits.start("the longest", minutes(400 * days))
    with pytest.raises(RefusedError):
        shop.waits.start("longer", minutes(400 * days + 1))


def test_a_row_that_gives_no_time_opens_at_once(shop: Shop) -> None:
    shop.journal.append([Draft("waits", "wait_started", {"what": "coat"})])
    (wait,) = fold_all(shop.journal.read("waits"))
    assert (wait.what, wait.opens, wait.closes) == ("coat", 0.0, None)


def test_an_unknown_row_changes_nothing(shop: Shop) -> None:
    shop.journal.append([Draft("waits", "other", {})])
    assert fold_all(shop.journal.read("waits")) == ()
