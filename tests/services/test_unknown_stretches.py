"""Stretches of which nobody knows the temperature, whatever was read round them and within them.

Case C11: "heater-off or power-cut interval must be enterable afterwards as 'temperature unknown'
and counted as zero". By a sheet of 24 h at 25 °C and a factor of 2 for ten degrees, 5 h at 24 °C
are 5 × 2^-0.1 = 4.67 h; after 8 h that count nothing, 19.33 h are left, 20.72 h at 24 °C: hard
33.72 h after hardener.
"""

import random
from collections.abc import Iterator
from math import inf
from pathlib import Path

import pytest

from shopassist.core.quantities import UtcSecond
from shopassist.services.cure import StageView
from tests.shops import Shop

HOUR = 3600.0
LAW = {"law": {"kind": "factor per 10 degrees", "factor": "2"}}


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    made.clock.moved = None
    yield made
    made.close()


def casting(shop: Shop, celsius: float | None = 24.0) -> str:
    return shop.mixed(
        celsius=celsius,
        sheet=shop.bare(
            working={"time": "60 h", "at": "25 °C"}, gel={"time": "80 h", "at": "25 °C"},
            demould={"time": "24 h", "at": "25 °C"},
            temperature={"lowest": "10 °C", "highest": "40 °C"}, **LAW,
        ),
    )  # fmt: skip


def morning(shop: Shop) -> tuple[str, float]:
    """Read after five hours; the heater went off then, and eight hours later somebody comes."""
    batch, start = casting(shop), shop.now
    shop.clock.advance(5 * HOUR)
    shop.warm(batch, 24.0)
    shop.clock.advance(8 * HOUR)
    return batch, start


def unknown(shop: Shop, batch: str, start: float, since: float, until: float) -> None:
    shop.batches.unknown_temperature(
        batch, UtcSecond(start + since * HOUR), UtcSecond(start + until * HOUR)
    )


def hard_after(shop: Shop, batch: str, start: float) -> float:
    view = shop.cure.view(batch)
    assert view is not None
    stage = view.stage("demould")
    assert stage is not None and stage.likely is not None
    return (stage.likely - start) / HOUR


def test_it_counts_nothing_whether_typed_before_or_after_the_mornings_reading(shop: Shop) -> None:
    batch, start = morning(shop)
    unknown(shop, batch, start, 5, 13)
    assert hard_after(shop, batch, start) == pytest.approx(33.72, abs=0.01)
    shop.warm(batch, 24.0)  # at the very second at which the stretch ends
    assert hard_after(shop, batch, start) == pytest.approx(33.72, abs=0.01)


def test_a_reading_typed_first_takes_nothing_of_it_away(shop: Shop) -> None:
    batch, start = morning(shop)
    shop.warm(batch, 24.0)
    shop.clock.advance(20.0)
    unknown(shop, batch, start, 5, 13 + 20 / HOUR)
    assert hard_after(shop, batch, start) == pytest.approx(33.72, abs=0.02)
    view = shop.cure.view(batch)
    assert view is not None
    notes = {shop.words.say(note) for each in view.stages for note in each.forecast.notes}
    assert any(note.startswith("8 h") and "without a known" in note for note in notes)


def test_a_reading_within_it_gives_nothing_back(shop: Shop) -> None:
    batch, start = casting(shop), shop.now
    for hours in (5, 4, 4):
        shop.clock.advance(hours * HOUR)
        shop.warm(batch, 24.0)
    unknown(shop, batch, start, 5, 13)
    assert hard_after(shop, batch, start) == pytest.approx(33.72, abs=0.01)


def test_a_second_thought_that_is_longer_holds_the_first_one_in_it(shop: Shop) -> None:
    batch, start = morning(shop)
    shop.warm(batch, 24.0)
    unknown(shop, batch, start, 8, 10)
    unknown(shop, batch, start, 5, 13)
    assert hard_after(shop, batch, start) == pytest.approx(33.72, abs=0.01)


# -- whatever was read ---------------------------------------------------------------------------


def stages(shop: Shop, batch: str) -> dict[str, StageView]:
    shop.cure.forget()
    view = shop.cure.view(batch)
    assert view is not None
    return {each.aim: each for each in view.stages}


def some_readings(shop: Shop, batch: str, chance: random.Random) -> None:
    for _ in range(chance.randrange(5)):
        shop.clock.advance(chance.choice((60.0, HOUR, 9000.0, 20_000.0)))
        since = chance.choice((None, None, shop.now - 1800))
        shop.warm(batch, chance.uniform(8, 35), chance.choice(("resin", "shop")), since)
    shop.clock.advance(chance.choice((10.0, HOUR)))


@pytest.mark.parametrize("seed", range(12))
def test_to_know_less_never_brings_a_release_forward_or_puts_a_hazard_off(
    shop: Shop, seed: int
) -> None:
    chance = random.Random(seed)
    batch, start = casting(shop, chance.choice((None, 24.0, 12.0))), shop.now
    some_readings(shop, batch, chance)
    for _ in range(3):
        before, span = stages(shop, batch), (shop.now - start) / HOUR
        since = chance.uniform(-0.1, 0.9) * span
        unknown(shop, batch, start, since, min(span, since + chance.uniform(0.05, 1) * span))
        for aim, now in stages(shop, batch).items():
            was, gate = (each.gate or inf for each in (before[aim], now))
            if now.kind == "release":
                assert gate >= was - 1.0
            else:
                # A wider range of the past moves it by a thousandth at most.
                assert gate - start <= (was - start) * 1.001
