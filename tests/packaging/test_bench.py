import json
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication
from PySide6.QtWidgets import QLabel, QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from chores.bench import RATIOS, Ratio, _in_turn, main, written
from chores.bench_floor import Painter, window_of
from chores.bench_probe import Census, Painted, Piece, census, keystrokes
from chores.ground import SetupError
from shopassist.widgets.figure_view import FigureView
from shopassist.widgets.look import Look
from shopassist.widgets.shown import FigureShown
from tests.qt_hygiene import (
    loop_turns,
    no_job_left,
    no_timer_left_running,
    no_window_left,
)

__all__ = ["loop_turns", "no_job_left", "no_timer_left_running", "no_window_left"]


def test_the_json_is_exactly_the_interface() -> None:
    text = written({"first_paint": Ratio(0.4, 0.2)}, as_json=True)
    assert json.loads(text) == {
        "ratios": {"first_paint": {"ours": 0.4, "floor": 0.2, "ratio": 2.0}}
    }
    assert "\n" not in text


def test_a_person_reads_a_line_for_each() -> None:
    text = written({"first_paint": Ratio(0.4, 0.2)}, as_json=False)
    assert "first_paint" in text
    assert "400.0 ms" in text
    assert "2.00" in text
    assert "180.0 MB" in written({"memory": Ratio(180.0, 179.0, "MB")}, as_json=False)


def test_ten_ratios_are_measured_and_no_other_name_is_known() -> None:
    log = {"log_search", "log_compare", "log_open"}
    keys = {"keystroke", "blank_keystroke"}
    assert (
        set(RATIOS)
        == {"first_paint", "idle_cpu", "idle_charts", "memory", "ten_years"} | keys | log
    )
    with pytest.raises(SetupError, match="fly"):
        main(Path("python"), ["fly"], as_json=True)


def test_both_sides_are_measured_in_turn_and_the_medians_are_compared() -> None:
    order: list[str] = []
    ours, floor = iter([9.0, 3.0, 1.0, 2.0]), iter([9.0, 1.0, 1.0, 5.0])

    def side(name: str, values: object) -> list[float]:
        order.append(name)
        return [next(values)]  # type: ignore[call-overload]

    ratio = _in_turn(3, lambda: side("ours", ours), lambda: side("floor", floor))
    assert order == ["ours", "floor"] * 4
    assert ratio == Ratio(2.0, 1.0)


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    window = QWidget()
    qtbot.addWidget(window)
    layout = QVBoxLayout(window)
    edit, sum_, still = QLineEdit("21"), QLabel("21"), QLabel("unmoved")
    edit.setObjectName("edit")
    edit.textEdited.connect(lambda text: sum_.setText(text * 2))
    for widget in (edit, sum_, still):
        layout.addWidget(widget)
    window.show()
    QCoreApplication.processEvents()
    return window


def test_a_census_lists_what_is_seen_and_the_bare_window_shows_as_much(
    window: QWidget, qtbot: QtBot, tmp_path: Path
) -> None:
    moving = window.findChildren(QLabel)[0]
    census(window, {moving}).save(tmp_path / "c.json")
    read = Census.load(tmp_path / "c.json")
    assert [(p.kind, p.text, p.repainted) for p in read.pieces] == [
        ("edit", "21", False),
        ("label", "21", True),
        ("label", "unmoved", False),
    ]
    bare, changing = window_of(read)
    qtbot.addWidget(bare)
    assert len(bare.findChildren(QWidget)) == 3
    assert [type(widget) for widget in changing] == [QLabel]
    assert (bare.width(), bare.height()) == (window.width(), window.height())


def test_a_custom_drawn_leaf_becomes_a_painter_of_its_area(qtbot: QtBot) -> None:
    bare, changing = window_of(Census(300, 200, (Piece("painter", (5, 6, 70, 80), "", True),)))
    qtbot.addWidget(bare)
    assert changing[0].geometry().getRect() == (5, 6, 70, 80)


def test_the_bare_window_writes_the_words_that_ours_draws(qtbot: QtBot) -> None:
    host = QWidget()
    look = Look(host.font().family(), parent=host)
    qtbot.addWidget(host)
    figure = FigureView(look, "x", FigureShown("Together", "231.1", "g"), host)
    host.show()
    (piece, *_) = census(host, {figure}).pieces
    assert (piece.kind, piece.text) == ("painter", "231.1 g")
    bare, changing = window_of(Census(300, 200, (piece,)))
    qtbot.addWidget(bare)
    assert [painter.text for painter in changing if isinstance(painter, Painter)] == ["231.1 g"]


def test_a_keystroke_is_timed_until_what_depends_on_it_is_painted(window: QWidget) -> None:
    painted = Painted(QCoreApplication.instance() or pytest.fail("no application"))
    edit, moving = window.findChild(QLineEdit), window.findChildren(QLabel)[0]
    assert edit is not None
    times = keystrokes(edit, {edit, moving}, painted, 4)
    assert len(times) == 4
    assert all(0 < seconds < 1 for seconds in times)
    assert (edit.text(), moving.text()) == ("21", "2121")


def test_half_of_the_numbers_that_are_timed_were_never_on_screen(window: QWidget) -> None:
    painted = Painted(QCoreApplication.instance() or pytest.fail("no application"))
    edit, moving = window.findChild(QLineEdit), window.findChildren(QLabel)[0]
    assert edit is not None
    seen: list[str] = []
    edit.textEdited.connect(seen.append)
    assert len(keystrokes(edit, {edit, moving}, painted, 24)) == 24
    assert len(set(seen)) > len(seen) / 2


def test_a_number_that_never_repaints_is_not_measured_as_fast(
    window: QWidget, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("chores.bench_probe.PATIENCE_S", 0.05)
    painted = Painted(QCoreApplication.instance() or pytest.fail("no application"))
    edit, still = window.findChild(QLineEdit), window.findChildren(QLabel)[1]
    assert edit is not None
    with pytest.raises(TimeoutError, match="QLabel"):
        keystrokes(edit, {still}, painted, 2)
