from collections.abc import Iterator
from pathlib import Path

import pytest

from shopassist.core.messages import say
from shopassist.core.pot.events import Answer, Press
from shopassist.core.pot.words import Act, Belief, Item
from shopassist.core.quantities import UtcSecond
from shopassist.core.wording import Wording
from shopassist.services.next import Due, NextService, Rank, soonest
from shopassist.services.pot import PotLine
from shopassist.shell.lines import ACTIONS, FACES, _life, next_shown, pot_shown
from tests.shops import Shop


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    made = Shop(tmp_path)
    yield made
    made.close()


def test_without_a_pot_the_line_says_so(shop: Shop) -> None:
    assert pot_shown(shop.pots, shop.words).report == "No pot entered"


def test_a_new_pot_is_not_known_and_to_be_treated_as_pressurised(shop: Shop) -> None:
    shop.plate()
    shown = pot_shown(shop.pots, shop.words)
    assert (shown.face, shown.word, shown.report) == (
        "unknown",
        "NOT KNOWN",
        "TREAT AS PRESSURISED",
    )
    assert shown.brief == ("", "")
    assert shown.action == "Let down"
    assert shown.detail == "Big pot", "what stands large is not said twice"


def test_an_open_pot_offers_nothing_and_tells_its_age(shop: Shop) -> None:
    pot = shop.plate()
    assert shop.pots.act(pot, Answer(Item.LID_OFF_NOW, "inside_seen")) is None
    shop.clock.advance(1200)
    shown = pot_shown(shop.pots, shop.words)
    assert (shown.face, shown.action) == ("open", "")
    assert "20 min ago" in shown.detail
    assert shown.report.startswith("You reported: ")
    assert shown.brief[0].lower() == shown.report.removeprefix("You reported: ").lower()
    assert shown.brief[1] == f"you reported, {shown.detail}"


def test_the_worst_pot_leads_and_the_others_are_counted(shop: Shop) -> None:
    first, second = shop.plate(), shop.plate()
    assert first != second
    shop.pots.act(first, Answer(Item.LID_OFF_NOW, "inside_seen"))
    shop.pots.act(second, Press(Act.AIR_IN))
    shown = pot_shown(shop.pots, shop.words)
    assert shown.face == "pressurised"
    assert shown.detail.endswith("1 more")


def test_every_belief_has_a_face_of_its_own() -> None:
    assert set(FACES) == set(Belief)
    assert len(set(FACES.values())) == len(Belief)


def test_letting_air_out_is_offered_in_every_state_but_open() -> None:
    for belief in Belief:
        offered = ACTIONS.get(belief, "Let down")
        assert bool(offered) is (belief is not Belief.OPEN)


@pytest.mark.parametrize(
    ("belief", "left", "share"),
    [(Belief.CLEAR, 300.0, 0.5), (Belief.CRACKED, 150.0, 0.5), (Belief.CLEAR, 900.0, 1.0)],
)
def test_the_life_of_a_grant_is_a_share_of_its_whole(
    belief: Belief, left: float, share: float
) -> None:
    line = PotLine("a", "A", belief, say("x"), None, None, None, left)
    assert _life(line) == pytest.approx(share)


def due(name: str, gate: float | None, rank: Rank) -> Due:
    return Due(
        say("Pour by"),
        None if gate is None else UtcSecond(gate),
        say("likely 10"),
        rank,
        "cure",
        name,
        name,
    )


def test_a_hazard_within_reach_goes_before_everything_and_a_far_one_before_releases() -> None:
    dues = [
        due("release", 100, Rank.RELEASE),
        due("far", 90_000, Rank.HAZARD),
        due("near", 3000, Rank.HAZARD),
    ]
    found = soonest(dues, 0.0)
    assert found is not None
    assert found.owner == "near"
    found = soonest(dues[:2], 0.0)
    assert found is not None
    assert found.owner == "far"
    assert soonest([], 0.0) is None
    undated = soonest([due("none", None, Rank.RELEASE), dues[0]], 0.0)
    assert undated is not None
    assert undated.owner == "release"


def test_the_next_line_names_a_subject_that_is_not_in_hand() -> None:
    service = NextService(lambda: [due("Knobs", 50, Rank.RELEASE)])
    words = Wording()
    assert next_shown(service.due(0), words, "Knobs", 0).event == "Pour by"
    assert next_shown(service.due(0), words, "Bowls", 0).event == "Pour by · Knobs"
    assert next_shown(None, words, "", 0).event == "Nothing is due"
    assert next_shown(service.due(0), words, "Knobs", 0).range == "likely 10"
