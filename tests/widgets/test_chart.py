from collections.abc import Iterator
from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication

from shopassist.widgets.chart import Chart
from shopassist.widgets.chart_shown import ChartShown, Level, Target
from shopassist.widgets.look import Look
from shopassist.widgets.shown import Tick
from shopassist.widgets.tokens import DARK

SHOWN = ChartShown(
    "Cure so far", 0.0, 100.0, 0.0, 10.0,
    across=(Tick(20.0, "12:00"), Tick(40.0), Tick(80.0, "18:00")), up=(Tick(0.0, "0"), Tick(5.0, "5")),
    now=30.0, line=tuple((float(x), x / 10) for x in range(0, 101, 10)),
    band=tuple((float(x), x / 12, x / 9) for x in range(0, 101, 10)),
    levels=(Level(9.5, "demould"), Level(3.0, "lowest 15 °C", "limit")),
    dots=((10.0, 4.0), (20.0, 5.0)), bars=((40.0, 60.0, 3.0, 5.0),), gaps=((70.0, 80.0),),
    gap_word="not known", spoken="Now 3 hours old",
)  # fmt: skip


@pytest.fixture
def chart(look: Look) -> Iterator[Chart]:
    made = Chart(look, "test.chart", SHOWN)
    made.resize(500, 240)
    yield made
    made.close()
    made.deleteLater()
    settle()


def settle() -> None:
    for _ in range(4):
        QApplication.processEvents()


def test_nothing_is_fetched_before_the_first_paint(chart: Chart) -> None:
    settle()
    before = chart.plot
    chart.show()
    settle()
    assert before is None
    assert chart.plot.isVisible()


def test_it_is_drawn_in_the_range_that_was_asked_for(chart: Chart) -> None:
    chart.show()
    settle()
    across, up = chart.box.viewRange()
    assert across == pytest.approx([0.0, 100.0])
    assert up == pytest.approx([0.0, 10.0])


def test_the_caption_stands_above_the_plot_and_the_words_are_spoken(chart: Chart) -> None:
    chart.show()
    settle()
    assert chart.plot.y() > 0
    assert chart.plot.geometry().bottom() <= chart.height()
    assert chart.accessibleDescription() == "Now 3 hours old"


def test_the_same_values_are_drawn_once(chart: Chart, monkeypatch: pytest.MonkeyPatch) -> None:
    chart.show()
    settle()
    count = []
    monkeypatch.setattr(chart, "_axes", lambda: count.append(1))
    chart.draw(SHOWN)
    chart.draw(replace(SHOWN))
    assert count == []
    chart.draw(replace(SHOWN, now=31.0))
    assert count == [1]


def test_out_of_sight_nothing_is_drawn_and_it_is_made_up_for(
    chart: Chart, monkeypatch: pytest.MonkeyPatch
) -> None:
    chart.show()
    settle()
    chart.hide()
    count = []
    monkeypatch.setattr(chart, "_axes", lambda: count.append(1))
    chart.draw(replace(SHOWN, now=50.0))
    assert count == []
    chart.show()
    settle()
    assert count == [1]


def test_it_takes_another_theme_at_once(chart: Chart, look: Look) -> None:
    chart.show()
    settle()
    look.set_tokens(DARK)
    assert chart.plot.backgroundBrush().color().name().upper() == DARK.sheet


def test_it_keeps_to_its_widget(chart: Chart) -> None:
    chart.show()
    settle()
    chart.resize(300, 160)
    settle()
    assert chart.plot.width() == 300
    assert chart.sizeHint().width() > chart.minimumSizeHint().width()


def test_an_empty_chart_is_paper(chart: Chart) -> None:
    chart.draw(ChartShown("", 0.0, 1.0, 0.0, 1.0))
    chart.show()
    settle()
    assert chart.plot is not None


def test_with_no_now_the_whole_line_is_past(chart: Chart) -> None:
    chart.draw(replace(SHOWN, now=None, dots=SHOWN.dots[:1], gaps=()))
    chart.show()
    settle()
    assert chart.plot is not None


def test_before_its_first_point_the_line_is_all_ahead(chart: Chart) -> None:
    chart.draw(replace(SHOWN, now=-5.0))
    chart.show()
    settle()
    assert chart.plot is not None


def test_neither_mouse_nor_keyboard_stops_at_it(chart: Chart) -> None:
    chart.show()
    settle()
    assert not chart.plot.hasFocus()
    assert chart.plot.focusPolicy().name == "NoFocus"


def test_an_aim_is_a_tinted_band_and_a_rated_line_is_solid(chart: Chart) -> None:
    chart.draw(replace(
        SHOWN, target=Target(2.0, 4.0, "hold"), levels=(Level(8.0, "rated", "rated"),)
    ))  # fmt: skip
    chart.show()
    settle()
    items = chart.box.childGroup.childItems()
    regions = [item for item in items if type(item).__name__ == "LinearRegionItem"]
    assert {region.getRegion() for region in regions} == {(70.0, 80.0), (2.0, 4.0)}
    lines = [
        item for item in items if type(item).__name__ == "InfiniteLine" and item.value() == 8.0
    ]
    assert lines[0].pen.style().name == "SolidLine"


def words_of(chart: Chart) -> dict[str, tuple[float, float]]:
    """Where each word begins and ends, as shares of the width of the plot."""
    low, high = chart.box.viewRange()[0]
    found = {}
    for item in chart.box.childGroup.childItems():
        text = getattr(item, "textItem", None)
        if text is not None:
            box = text.mapRectToScene(text.boundingRect())
            ends = (chart.box.mapSceneToView(each).x() for each in (box.topLeft(), box.topRight()))
            left, right = ((x - low) / (high - low) for x in ends)
            found[text.toPlainText()] = (left, right)
    return found


def test_what_was_forecast_earlier_is_drawn_with_its_word_inside_the_chart(chart: Chart) -> None:
    fast = tuple((float(x), x / 5) for x in range(0, 101, 5))
    slow = tuple((float(x), x / 20) for x in range(30, 101, 5))
    steep = tuple((float(x), float(x)) for x in range(0, 101, 2))
    chart.draw(replace(
        SHOWN, ghosts=(("fast", fast), ("slow", slow), ("steep", steep), ("none", fast[:1]))
    ))  # fmt: skip
    chart.show()
    settle()
    words = words_of(chart)
    assert "none" not in words
    for word in ("fast", "slow", "steep"):
        assert -0.02 <= words[word][0] < words[word][1] <= 1.02
    assert words["fast"][1] == pytest.approx(0.34, abs=0.05)
    assert words["slow"][0] >= 0.6


def test_stretches_without_a_reading_carry_their_own_word(chart: Chart) -> None:
    chart.draw(replace(SHOWN, unread=((10.0, 30.0),), unread_word="no reading"))
    chart.show()
    settle()
    assert {"not known", "no reading"} <= words_of(chart).keys()
