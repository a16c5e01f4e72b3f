"""What gives way where the Cure pane is low: first the words, then the rule, never the digits."""

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from shopassist.panes.cure.view import CureView
from shopassist.store.resources import resource
from shopassist.widgets import fonts
from shopassist.widgets.look import Look
from tests.panes.cure.bench import Bench


@pytest.mark.parametrize("height", [575, 520, 470, 300, 260])
def test_the_rule_is_shown_while_there_is_room_for_it(
    qapp: QApplication, qtbot: QtBot, bench: Bench, height: int
) -> None:
    look = Look(fonts.load(sorted(resource("fonts").glob("*.otf"))))
    look.set_pitch(96 / 25.4)
    bench.mixed()
    view = CureView(look, bench.cure_pane, bench.words)
    qtbot.addWidget(view)
    view.resize(948, height)
    view.show()
    for _ in range(4):
        qapp.processEvents()
    wait = view.wait
    assert wait.isVisible()
    assert wait.digits.height() >= wait.digits.minimumSizeHint().height()
    room = height - view._beside_wait() - wait.sizeHint().height()
    assert room < 0 or (wait.rule.isVisible() and wait.context.isVisible())
    for part in (wait.rule, wait.context):
        assert part.isHidden() or part.height() >= part.sizeHint().height()
