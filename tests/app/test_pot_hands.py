"""The whole list by mouse and by finger, light and dark, and on screens of other scales."""

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.core.pot.words import Belief
from shopassist.widgets.tokens import DARK, LIGHT
from tests.app.pot_bench import PotDesk
from tests.app.pot_hands import MouseWalker, TouchWalker

HANDS = {"mouse": MouseWalker, "finger": TouchWalker}
ANSWER_MM = 19.0
ROOT = Path(__file__).parents[2]


@pytest.fixture
def desk(tmp_path: Path, qapp: QApplication) -> Iterator[PotDesk]:
    made = PotDesk(tmp_path)
    yield made
    made.close()


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("hand", HANDS)
def test_a_whole_run_is_answered_without_the_keyboard(desk: PotDesk, hand: str, dark: bool) -> None:
    person = desk.person
    person.program.look.set_tokens(DARK if dark else LIGHT)
    factor = float(os.environ.get("QT_SCALE_FACTOR", "1"))
    assert person.program.window.devicePixelRatioF() == factor
    walker = HANDS[hand](person)
    walker.until(Belief.PRESSURISED)
    walker.let_down()
    walker.until_item("slacken")
    assert desk.word.startswith("CLEAR TO CRACK")
    walker.until_item("aftercare")
    assert desk.word.startswith("OPEN")
    least = person.program.look.mm(ANSWER_MM)
    answers = [name for name in walker.pressed if name.startswith("pot.answer")]
    assert len(answers) > 30
    assert all(
        each.height() >= least
        for each in person.program.panes["pot"].findChildren(QWidget)
        if each.objectName() in answers and each.isVisible()
    )


@pytest.mark.skipif("QT_SCALE_FACTOR" in os.environ, reason="this is the scaled run")
@pytest.mark.parametrize(("factor", "case"), [("1.5", "finger-dark"), ("2", "mouse-light")])
def test_a_whole_run_on_a_screen_of_another_scale(factor: str, case: str) -> None:
    name = f"test_a_whole_run_is_answered_without_the_keyboard[{case}]"
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "-p", "no:randomly",
         f"{Path(__file__).relative_to(ROOT)}::{name}"],
        cwd=ROOT, env={**os.environ, "QT_SCALE_FACTOR": factor}, capture_output=True, text=True,
        check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stdout[-3000:]
