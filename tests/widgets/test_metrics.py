import pytest
from PySide6.QtGui import QFontMetricsF

from shopassist.widgets import fonts
from shopassist.widgets.fonts import CAPS_MM, OF_BODY, Role
from shopassist.widgets.look import Look
from shopassist.widgets.metrics import metrics_for, px_per_mm
from shopassist.widgets.tokens import DARK

PITCHES = [
    1 / 0.180,
    1 / 0.253,
    1 / 0.161,
    1 / 0.270,
    1 / 0.18 / 1.25,
    1 / 0.18 / 1.5,
    1 / 0.18 / 2,
]


def test_a_screen_that_tells_the_truth_is_believed() -> None:
    assert px_per_mm(1920, 345.4, 1.0, 1.0) == pytest.approx(5.559, abs=1e-3)


def test_a_screen_that_lies_is_held_to_what_screens_can_be() -> None:
    assert px_per_mm(1920, 16, 1.0, 1.0) == pytest.approx(260 / 25.4)
    assert px_per_mm(1920, 16_000, 1.0, 1.0) == pytest.approx(80 / 25.4)
    assert px_per_mm(1920, 0, 1.0, 1.0) == pytest.approx(96 / 25.4)


def test_a_scale_factor_divides_logical_pixels_a_millimetre() -> None:
    plain = px_per_mm(1920, 345, 1.0, 1.0)
    scaled = px_per_mm(1920 / 1.5, 345, 1.5, 1.0)
    assert scaled == pytest.approx(plain / 1.5)


def test_the_ruler_corrects_the_pitch() -> None:
    assert px_per_mm(1920, 345, 1.0, 1.1) == pytest.approx(1.1 * px_per_mm(1920, 345, 1.0, 1.0))


@pytest.mark.parametrize(("pitch", "body"), [(1 / 0.180, 18), (1 / 0.253, 15), (1 / 0.27, 15)])
def test_the_body_size_is_the_one_of_the_page(pitch: float, body: int) -> None:
    metrics = metrics_for(pitch, 0.75)
    assert metrics.body_px == body
    assert metrics.u == body / 3


def test_millimetres_are_rounded_up() -> None:
    metrics = metrics_for(1 / 0.253, 0.75)
    assert metrics.mm(19) == 76
    assert metrics.mm(0) == 0


@pytest.mark.parametrize("pitch", PITCHES)
@pytest.mark.parametrize("role", list(CAPS_MM))
def test_capitals_have_at_least_their_millimetres(look: Look, pitch: float, role: Role) -> None:
    look.set_pitch(pitch)
    height = QFontMetricsF(look.font(role)).capHeight()
    assert height >= CAPS_MM[role] * pitch - 0.35
    assert height <= CAPS_MM[role] * pitch + 1.5


@pytest.mark.parametrize("pitch", PITCHES)
def test_body_capitals_are_readable_at_half_a_metre(look: Look, pitch: float) -> None:
    look.set_pitch(pitch)
    assert QFontMetricsF(look.font("body")).capHeight() >= 2.3 * pitch - 0.35


def test_nothing_is_smaller_than_nine_tenths_of_the_body() -> None:
    assert min(OF_BODY.values()) == 0.9


def test_the_shipped_family_has_figures_of_one_width(look: Look) -> None:
    assert look.family == "B612"
    for role in ("digits", "body", "lead"):
        face = look.font(role)
        assert len({round(face.advance(f), 3) for f in "0123456789"}) == 1


def test_without_font_files_the_systems_family_is_taken(qapp: object) -> None:
    assert fonts.load([])
    assert fonts.caps_ratio(fonts.load([])) >= 0.5


def test_the_look_tells_of_a_change_once(look: Look) -> None:
    told: list[int] = []
    look.changed.connect(lambda: told.append(1))
    look.set_tokens(DARK)
    look.set_tokens(DARK)
    look.set_pitch(6.0)
    look.set_pitch(6.0)
    assert len(told) == 2


def test_fonts_are_made_once(look: Look) -> None:
    assert look.font("body") is look.font("body")
    before = look.font("state")
    look.set_pitch(2 * look.metrics.px_per_mm)
    assert look.font("state").pixelSize() > before.pixelSize()


def test_the_view_across_the_bench_keeps_the_sizes_and_follows_them(look: Look) -> None:
    other = look.across()
    assert other.tokens.name == "across"
    look.set_pitch(7.0)
    assert other.metrics == look.metrics


def test_a_look_fits_the_screen_it_is_shown_on(look: Look, qapp: object) -> None:
    from PySide6.QtWidgets import QApplication

    look.fit_screen(QApplication.primaryScreen())
    assert 80 / 25.4 <= look.metrics.px_per_mm <= 260 / 25.4
