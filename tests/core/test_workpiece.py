from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from shopassist.core.cavity import box_cavity, measured_cavity, round_cavity
from shopassist.core.errors import OutOfRangeError
from shopassist.core.grooves import square_ring_volume
from shopassist.core.profile import straight, tapered
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
)
from shopassist.core.solids import cylinder_volume
from shopassist.core.span import exact
from shopassist.core.workpiece import (
    GROOVE_KINDS,
    Core,
    Groove,
    core_by_displaced_water,
    cut_volume,
    displaced_core,
    turned_core,
    weighed_core,
)

M = Metre
RING = Groove("square", M(0.006), M(0.008), M(0.02))


def millilitres(volume: float) -> float:
    return volume * 1e6


def bad_groove(**changes: Any) -> Callable[[], Core]:
    groove = replace(Groove("square", M(0.006), M(0.008), M(0.05)), **changes)
    return lambda: turned_core(straight(M(0.05), M(0.1)), [groove])


@pytest.mark.parametrize(
    ("build", "field"),
    [
        (bad_groove(depth=M(0.03)), "grooves.1.depth"),
        (bad_groove(at=M(0.001)), "grooves.1.at"),
        (bad_groove(at=M(0.0995)), "grooves.1.at"),
        (bad_groove(length=M(0.05), count=0), "count"),
        (bad_groove(length=M(0.05), count=20), "count"),
        (bad_groove(width=M(-0.01)), "width"),
        (lambda: turned_core(straight(M(0.05), M(0.1)), mass=Kilogram(0.0)), "mass"),
        (lambda: turned_core(straight(M(0.05), M(0.1)), [RING, replace(RING, at=M(0.025))]), "grooves.2.at"),
        (lambda: turned_core(straight(M(0.05), M(0.1)), [Groove("square", M(0.0249), M(0.012), M(0.05), M(0.1), 13)] * 2), "grooves"),
        (lambda: weighed_core(Kilogram(-1.0), exact(KilogramPerCubicMetre(600.0))), "mass"),
        (lambda: weighed_core(Kilogram(1.0), exact(KilogramPerCubicMetre(0.0))), "density"),
        (lambda: displaced_core(exact(CubicMetre(0.0))), "volume"),
        (lambda: displaced_core(exact(CubicMetre(1e-4)), Kilogram(0.0)), "mass"),
        (lambda: box_cavity(M(0.1), M(0.0), M(0.1)), "width"),
        (lambda: round_cavity(M(0.1), M(0.0)), "depth"),
        (lambda: measured_cavity(exact(CubicMetre(0.0))), "volume"),
    ],
)  # fmt: skip
def test_an_impossible_core_or_mould_is_refused(build: Callable[[], object], field: str) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        build()
    assert caught.value.field == field


def test_every_kind_of_groove_takes_wood_away() -> None:
    body = straight(M(0.05), M(0.1))
    for kind in GROOVE_KINDS:
        ring = turned_core(body, [Groove(kind, M(0.004), M(0.008), M(0.05))])
        along = turned_core(body, [Groove(kind, M(0.004), M(0.008), M(0.05), M(0.06), 4)])
        assert 0 < ring.volume.mid < body.volume
        assert 0 < along.volume.mid < body.volume


def test_a_ring_on_a_taper_is_reckoned_at_its_middle() -> None:
    core = turned_core(
        tapered(M(0.06), M(0.04), M(0.1)), [Groove("square", M(0.005), M(0.01), M(0.05))]
    )
    expected = square_ring_volume(M(0.05), M(0.01), M(0.005))
    assert core.profile is not None
    assert core.profile.volume - core.volume.mid == pytest.approx(expected)


def test_putty_for_the_grooves_is_what_was_cut_away() -> None:
    body, grooves = straight(M(0.05), M(0.1)), (RING, replace(RING, at=M(0.06)))
    cut = cut_volume(body, grooves)
    assert cut == pytest.approx(2 * 6.635e-6, rel=1e-4)
    assert turned_core(body, grooves).volume.mid == pytest.approx(body.volume - cut)


def test_displaced_water_gives_volume_and_density() -> None:
    core = core_by_displaced_water(Kilogram(0.0998), Kelvin(293.15), Kilogram(0.06))
    assert millilitres(core.volume.mid) == pytest.approx(99.98, abs=0.01)
    assert core.density is not None
    assert core.density.mid == pytest.approx(600.1, abs=0.2)
    assert core.volume_to(M(0.01)) == core.volume.mid


def test_a_groove_at_the_very_end_counts_by_its_place() -> None:
    sliver = Groove("vee", M(0.001), M(0.0), M(0.0))
    assert turned_core(straight(M(0.05), M(0.1)), [sliver]).volume.mid == pytest.approx(
        cylinder_volume(M(0.05), M(0.1))
    )
