"""Sixty grams in a cup are a wait of their own; fifteen are not."""

from pathlib import Path

import pytest

from shopassist.core.batch import Typed
from shopassist.services.leftovers import LOOK_AFTER, leftover_dues
from shopassist.services.next import Due
from tests.shops import Shop


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    return Shop(tmp_path)


def left(shop: Shop, batch: str, grams: float) -> list[Due]:
    typed = Typed(f"{grams:g} g", grams / 1000, "Kilogram")
    shop.batches.enter(batch, "mix.leftover", typed)
    return list(leftover_dues(shop.batches))


def test_a_rest_is_looked_at_half_an_hour_after_the_pour(shop: Shop) -> None:
    batch = shop.mixed()
    assert list(leftover_dues(shop.batches)) == []
    shop.clock.advance(600.0)
    (due,) = left(shop, batch, 60.0)
    contact = shop.batches.get(batch).last_contact
    assert contact is not None
    assert due.gate == contact + LOOK_AFTER
    shop.batches.poured(batch)
    shop.batches.enter(batch, "mix.leftover_place", Typed("on the step", None))
    (due,) = leftover_dues(shop.batches)
    assert due.gate == pytest.approx(shop.now + LOOK_AFTER)
    assert shop.words.say(due.event).startswith("Rest of 60.0 g, on the step: cold?")
    shop.batches.enter(batch, "mix.leftover_cold", Typed("cold", None))
    assert list(leftover_dues(shop.batches)) == []


def test_a_little_is_no_wait(shop: Shop) -> None:
    assert left(shop, shop.mixed(), 15.0) == []
