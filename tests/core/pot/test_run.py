from shopassist.core.pot.words import Act, Belief, Item
from tests.core.pot.bench import Sitting


def test_an_honest_run_comes_to_an_open_lid():
    sitting = Sitting()
    sitting.held()
    assert sitting.belief is Belief.PRESSURISED
    sitting.let_down()
    assert sitting.belief is Belief.PROVING
    sitting.prove()
    sitting.press(Act.CONFIRM)
    assert sitting.belief is Belief.CLEAR
    sitting.crack()
    assert sitting.belief is Belief.CRACKED
    sitting.answer(Item.LID_OFF, "inside_seen")
    assert sitting.belief is Belief.OPEN
