"""A pot that is warmer than its plate reckons with."""

from shopassist.core.pot.notes import notes_of, warm_notes
from shopassist.core.pot.state import PotState
from shopassist.core.pot.words import Item
from tests.core.pot.bench import BAR, Sitting, plate

HOT = "{t} is above this pot's rated temperature, {most}"
WARM = "{t} is warmer than the plate reckons with, {most}"


def warmth(sitting: Sitting) -> list[str]:
    told = [text.template for text in notes_of(sitting.state, None, sitting.now)]
    return [each for each in told if each.startswith("{t} is")]


def test_a_pot_warmer_than_its_plate_reckons_with_is_told() -> None:
    """Its fill limit was for the warmest of the plate: 20 °C here, rated for 60 °C."""
    sitting = Sitting().held()
    for celsius, told in ((20.0, None), (45.0, WARM), (60.0, WARM), (61.0, HOT), (19.0, None)):
        sitting.typed(Item.TEMPERATURE, celsius + 273.15)
        found = warmth(sitting)
        assert len(found) == (0 if told is None else 1), celsius
        assert told is None or found[0].startswith(told), celsius


def test_the_warmth_of_a_leak_check_counts_too_and_a_bare_plate_says_nothing() -> None:
    sitting = Sitting().held()
    sitting.typed(Item.LEAK_START, 4 * BAR, temperature=320.0)
    assert warmth(sitting)[0].startswith(WARM)
    sitting.typed(Item.READING, 4 * BAR)
    assert warmth(sitting)[0].startswith(WARM)
    bare = Sitting(plate(warmest=None, rated_temperature=None)).held()
    bare.typed(Item.TEMPERATURE, 400.0)
    assert warmth(bare) == []
    assert warm_notes(PotState()) == ()
