from shopassist.core.pot.words import Act, Belief, Item
from tests.core.pot.bench import Sitting


def test_an_honest_run_comes_to_an_open_lid() -> None:
    sitting = Sitting()
    sitting.held()
    assert sitting.believes(Belief.PRESSURISED)
    sitting.let_down()
    assert sitting.believes(Belief.PROVING)
    sitting.prove()
    sitting.press(Act.CONFIRM)
    assert sitting.believes(Belief.CLEAR)
    sitting.crack()
    assert sitting.believes(Belief.CRACKED)
    sitting.answer(Item.LID_OFF, "inside_seen")
    assert sitting.believes(Belief.OPEN)
