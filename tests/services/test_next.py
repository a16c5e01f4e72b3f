from shopassist.core.messages import say
from shopassist.core.quantities import UtcSecond
from shopassist.services.next import Due, NextService, Rank, soonest

NOW = 1_790_000_000.0


def due(name: str, rank: Rank, minutes: float | None) -> Due:
    gate = None if minutes is None else UtcSecond(NOW + 60 * minutes)
    return Due(say(name), gate, None, rank, "cure", name, name)


def first(*dues: Due) -> str:
    found = soonest(dues, NOW)
    assert found is not None
    return found.owner


def test_without_anything_running_nothing_is_next() -> None:
    assert soonest((), NOW) is None
    assert NextService(lambda: (), lambda: ()).due(NOW) is None


def test_a_hazard_leads_a_release_that_comes_sooner() -> None:
    assert first(due("release", Rank.RELEASE, 1), due("hazard", Rank.HAZARD, 300)) == "hazard"


def test_within_one_rank_the_soonest_leads() -> None:
    assert first(due("late", Rank.HAZARD, 30), due("soon", Rank.HAZARD, 20)) == "soon"
    assert first(due("late", Rank.RELEASE, 30), due("soon", Rank.RELEASE, 20)) == "soon"


def test_a_hazard_within_reach_leads_one_that_was_put_first() -> None:
    assert first(due("far", Rank.HAZARD, 61), due("near", Rank.HAZARD, 59)) == "near"
    assert first(due("other", Rank.URGENT, 90), due("near", Rank.HAZARD, 59)) == "near"
    assert first(due("other", Rank.URGENT, 90), due("far", Rank.HAZARD, 61)) == "other"


def test_what_has_no_time_comes_last_in_its_rank() -> None:
    assert (
        first(due("never", Rank.RELEASE, None), due("some day", Rank.RELEASE, 9999)) == "some day"
    )
    assert first(due("never", Rank.RELEASE, None), due("later", Rank.LATER, 1)) == "never"


def test_the_service_asks_every_source() -> None:
    service = NextService(
        lambda: [due("mix", Rank.RELEASE, 5)], lambda: [due("pot", Rank.HAZARD, 50)]
    )
    found = service.due(NOW)
    assert found is not None
    assert found.owner == "pot"
