"""A core that lies in a box and is not covered: what of it is under the resin, and what is needed.

Circular segments by hand: area below a level h of a circle of radius r is
r² acos((r - h)/r) - (r - h) √(2rh - h²).
"""

from math import acos, pi, sqrt

import pytest

from shopassist.core.blank import Job, need
from shopassist.core.cavity import box_cavity
from shopassist.core.profile import Profile, straight, tapered
from shopassist.core.quantities import Metre, Ratio
from shopassist.core.workpiece import Core, Groove, turned_core

BOX = box_cavity(Metre(0.18), Metre(0.06), Metre(0.05))


def segment(radius: float, height: float) -> float:
    up = radius - height
    return radius**2 * acos(up / radius) - up * sqrt(2 * radius * height - height**2)


def job(level: float, core: Core, base: float = 0.005) -> Job:
    return Job(BOX, core, Metre(level), Metre(base), shrink=Ratio(0.0), facing=Metre(0.0),
               lying=True)  # fmt: skip


@pytest.mark.parametrize("height", [0.004, 0.012, 0.020, 0.031, 0.0399])
def test_a_straight_core_is_under_by_its_segment(height: float) -> None:
    profile = straight(Metre(0.040), Metre(0.150))
    expected = segment(0.020, height) * 0.150
    assert profile.volume_under(Metre(height)) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("level", [-0.01, 0.0, 0.040, 0.3])
def test_under_all_or_none_of_it(level: float) -> None:
    profile = tapered(Metre(0.040), Metre(0.020), Metre(0.1))
    expected = profile.volume if level > 0.03 else 0.0
    assert profile.volume_under(Metre(level)) == expected


def test_a_taper_lies_on_its_axis_and_is_half_under_at_it() -> None:
    profile = tapered(Metre(0.040), Metre(0.020), Metre(0.100))
    assert profile.volume_under(Metre(0.020)) == pytest.approx(profile.volume / 2, rel=1e-9)


def by_slices(profile: Profile, level: float, count: int = 20_000) -> float:
    """The same by many thin slices."""
    total, step = 0.0, profile.length / count
    for number in range(count):
        radius = profile.diameter_at(Metre(profile.start + (number + 0.5) * step)) / 2
        height = level - (profile.greatest / 2 - radius)
        share = 1.0 if height >= 2 * radius else 0.0
        if 0 < height < 2 * radius:
            share = segment(radius, height) / (pi * radius**2)
        total += share * pi * radius**2 * step
    return total


@pytest.mark.parametrize("level", [0.006, 0.013, 0.027, 0.034])
def test_a_level_that_cuts_a_taper_is_near_enough(level: float) -> None:
    profile = tapered(Metre(0.040), Metre(0.020), Metre(0.100))
    assert profile.volume_under(Metre(level)) == pytest.approx(by_slices(profile, level), rel=5e-3)


def test_what_stands_out_displaces_nothing_and_is_told() -> None:
    """Half of Ø 40 × 150 out of 25 mm in 180 × 60: 270 ml less 94.2 ml, and 20 mm stand out."""
    core = turned_core(straight(Metre(0.040), Metre(0.150)))
    found = need(job(0.025, core))
    assert found.net.mid * 1e6 == pytest.approx(270.0 - 94.25, abs=0.01)
    assert found.proud == pytest.approx(0.020)
    assert [text.template for text in found.cautions] == [
        "The core stands {proud} out of the resin."
    ]
    covered = need(job(0.045, core))
    assert covered.net.mid * 1e6 == pytest.approx(0.18 * 0.06 * 0.045 * 1e6 - 188.50, abs=0.01)
    assert covered.proud == pytest.approx(0.0, abs=1e-12)
    assert covered.cautions == ()


def test_half_of_a_ring_groove_is_under_at_the_axis() -> None:
    groove = Groove("square", Metre(0.006), Metre(0.008), Metre(0.075))
    plain = turned_core(straight(Metre(0.040), Metre(0.150)))
    cut = turned_core(straight(Metre(0.040), Metre(0.150)), (groove,))
    lost = plain.volume_under(Metre(0.020)) - cut.volume_under(Metre(0.020))
    assert lost == pytest.approx(sum(cut.cuts) / 2)


def test_a_core_without_an_outline_is_taken_whole() -> None:
    plain = turned_core(straight(Metre(0.040), Metre(0.150)))
    unknown = Core(plain.volume)
    assert unknown.volume_under(Metre(0.001)) == plain.volume.mid


def test_a_core_that_stands_out_of_a_level_is_told_of_too() -> None:
    core = turned_core(straight(Metre(0.030), Metre(0.080)))
    found = need(Job(BOX, core, Metre(0.045), Metre(0.0), shrink=Ratio(0.0), facing=Metre(0.0)))
    assert found.proud == pytest.approx(0.035)
    assert "The core stands {proud} out of the resin." in [t.template for t in found.cautions]
