"""Readings of a batch on the scale of its cure, timed once and kept."""

import random
from collections.abc import Iterator
from math import exp
from pathlib import Path

import pytest

from shopassist.core.batch import Batch
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.rows import Row
from shopassist.services.warmth import Readings, readings_of
from tests.shops import Shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    made.clock.moved = None
    yield made
    made.close()


class Timed:
    """Times rows by what they say, and counts how often it is asked."""

    def __init__(self, contact: float) -> None:
        self.contact, self.asked = contact, 0

    def __call__(self, row: Row) -> float:
        self.asked += 1
        return row.happened - self.contact


def act(shop: Shop, batch: str, chance: random.Random) -> None:
    """One of everything that a person or a logger does."""
    shop.clock.advance(chance.choice((0.0, 1.0, 60.0, 4000.0, 20_000.0)))
    temp = Kelvin(chance.uniform(285.0, 305.0))
    what, back = chance.random(), chance.choice((0.0, 0.0, 500.0, 9000.0))
    warmth = shop.batches.get(batch).warmth
    if what < 0.1 and warmth:
        shop.batches.correct_temperature(batch, chance.choice(warmth).row.seq, temp, temp, "slip")
    elif what < 0.2:
        shop.batches.unknown_temperature(
            batch, UtcSecond(shop.now - 1000 - back), UtcSecond(shop.now - back)
        )
    else:
        place = chance.choice(("resin", "shop"))
        since = UtcSecond(shop.now - back - 300) if what < 0.5 else None
        at = UtcSecond(shop.now - back)
        shop.batches.add_temperature(batch, temp, Kelvin(temp + 1), place, at, since)


def doubt(one: Row, other: Row) -> bool:
    return (one.seq + other.seq) % 5 == 0


@pytest.mark.parametrize("seed", range(4))
def test_what_is_kept_is_what_would_be_timed_anew(shop: Shop, seed: int) -> None:
    chance = random.Random(seed)
    batch = shop.mixed()
    shop.clock.advance(100.0)
    kept = Readings()
    contact = shop.batches.get(batch).first_contact or 0.0
    for _ in range(25):
        act(shop, batch, chance)
        upto = shop.now - contact - chance.choice((0.0, 0.0, 0.0, 3000.0))
        now, since = shop.batches.get(batch), Timed(contact)
        expected = readings_of(now, upto, since, doubt)
        same = kept.of(now, upto, since, doubt) == expected
        assert same


def test_a_new_reading_is_timed_alone(shop: Shop) -> None:
    batch = shop.mixed()
    for _ in range(200):
        shop.clock.advance(60)
        shop.warm(batch, 22.0)
    kept, since = Readings(), Timed(shop.batches.get(batch).first_contact or 0.0)
    kept.of(shop.batches.get(batch), 1e6, since)
    assert since.asked == 201
    for _ in range(3):
        kept.of(shop.batches.get(batch), 1e6, since)
    assert since.asked == 201
    shop.clock.advance(60)
    shop.warm(batch, 23.0)
    assert kept.of(shop.batches.get(batch), 1e6, since)[-1].high == pytest.approx(296.15)
    assert since.asked == 202


def last(shop: Shop, batch: str, contact: float) -> tuple[float, float]:
    """How cold and how warm the resin may be at the newest reading, in degrees Celsius."""
    found = readings_of(shop.batches.get(batch), 1e6, Timed(contact))[-1]
    return round(found.low - 273.15, 2), round(found.high - 273.15, 2)


def test_resin_comes_late_after_the_air_of_a_cabinet(shop: Shop) -> None:
    """Out of an eighteen-degree shop into thirty degrees of air: not warm at once."""
    batch = shop.mixed(celsius=18.0)
    contact = shop.batches.get(batch).first_contact or 0.0
    shop.clock.advance(900)
    shop.warm(batch, 30.0, "cabinet air")
    low, high = last(shop, batch, contact)
    assert low == pytest.approx(18.0 + 10.0 * (1 - exp(-900 / 12_000)), abs=0.01)
    assert high == 32.0
    view = shop.cure.view(batch)
    assert view is not None
    assert view.ahead.low == pytest.approx(low + 273.15, abs=0.01)
    assert any("comes late" in shop.words.say(note) for note in view.notes)
    for _ in range(48):
        shop.clock.advance(1800)
        shop.warm(batch, 30.0, "cabinet air")
    low, high = last(shop, batch, contact)
    assert low == pytest.approx(28.0, abs=0.02)
    assert high == 32.0


@pytest.mark.parametrize(
    ("where", "wide", "told"),
    [
        ("resin", 0.0, ""),
        ("mould", 1.0, "Read on the mould, not in resin: 1 °C each way is added; ours."),
        ("pot wall", 1.5, "Read on the pot, not in resin: 1.5 °C each way is added; ours."),
    ],
)
def test_what_was_read_beside_the_resin_widens_its_band(
    shop: Shop, where: str, wide: float, told: str
) -> None:
    batch = shop.mixed(celsius=20.0)
    contact = shop.batches.get(batch).first_contact or 0.0
    shop.clock.advance(900)
    shop.warm(batch, 24.0, where)
    assert last(shop, batch, contact) == (24.0 - wide, 24.0 + wide)
    view = shop.cure.view(batch)
    assert view is not None
    notes = [shop.words.say(note) for note in view.notes]
    assert [note for note in notes if note.startswith("Read on")] == ([told] if told else [])


def test_taken_out_it_may_stay_warm_for_hours(shop: Shop) -> None:
    batch = shop.mixed(celsius=30.0)
    contact = shop.batches.get(batch).first_contact or 0.0
    shop.clock.advance(3600)
    shop.warm(batch, 15.0, "shop")
    low, high = last(shop, batch, contact)
    assert low == 12.0
    assert high == pytest.approx(30.0 - 12.0 * (1 - exp(-3600 / 12_000)), abs=0.01)


def test_resin_itself_does_not_come_late(shop: Shop) -> None:
    batch = shop.mixed(celsius=18.0)
    contact = shop.batches.get(batch).first_contact or 0.0
    shop.clock.advance(60)
    shop.warm(batch, 30.0, "resin")
    assert last(shop, batch, contact) == (30.0, 30.0)


def test_where_the_air_stays_the_same_its_own_range_is_all(shop: Shop) -> None:
    batch = shop.mixed(celsius=None)
    shop.warm(batch, 20.0, "shop")
    contact = shop.batches.get(batch).first_contact or 0.0
    for _ in range(3):
        shop.clock.advance(1800)
        shop.warm(batch, 20.0, "shop")
        assert last(shop, batch, contact) == (17.0, 23.0)


def test_nothing_read_is_nothing_kept() -> None:
    assert Readings().of(Batch("none"), 10.0, lambda _: 0.0) == ()


def test_a_look_asks_the_clocks_no_more_often_for_a_long_series(shop: Shop) -> None:
    """What costs is how long lies between two rows: asked once for each reading, not at each look."""
    batch = shop.mixed()
    for _ in range(300):
        shop.clock.advance(60)
        shop.warm(batch, 22.0)
    shop.cure.view(batch)
    asked = 0
    real = shop.session.apart

    def counted(*rows: Row) -> object:
        nonlocal asked
        asked += 1
        return real(*rows)

    shop.session.apart = counted  # type: ignore[method-assign,assignment]
    for _ in range(5):
        shop.clock.advance(Second(61))
        shop.warm(batch, 22.5)
        shop.cure.view(batch)
    assert 0 < asked <= 5 * 6
    shop.cure.forget()
    shop.cure.view(batch)
    assert asked > 300
