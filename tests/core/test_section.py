from itertools import pairwise

import pytest

from shopassist.core.blank import Job, need
from shopassist.core.cavity import box_cavity, measured_cavity, round_cavity
from shopassist.core.profile import Station, straight, tapered, turned
from shopassist.core.quantities import CubicMetre, Kilogram, KilogramPerCubicMetre, Metre
from shopassist.core.section import Point, bore_depth, outline, section
from shopassist.core.span import exact
from shopassist.core.wall import Bore, DrillErrors, check_wall
from shopassist.core.workpiece import GROOVE_KINDS, Groove, turned_core, weighed_core

M = Metre
ERRORS = DrillErrors()


def test_the_drawn_outline_encloses_the_reckoned_volume() -> None:
    body = straight(M(0.05), M(0.1))
    for kind in GROOVE_KINDS:
        core = turned_core(body, [Groove(kind, M(0.005), M(0.01), M(at)) for at in (0.02, 0.06)])
        points = outline(core, body)
        drawn = turned(Station(point.at, M(2 * point.radius)) for point in points)
        assert drawn.volume == pytest.approx(core.volume.mid, rel=1e-3)
        assert all(a.at <= b.at for a, b in pairwise(points))


def test_a_groove_may_begin_where_the_core_begins() -> None:
    body = straight(M(0.05), M(0.1))
    core = turned_core(body, [Groove("square", M(0.005), M(0.01), M(0.005))])
    points = outline(core, body)
    assert points[0] == Point(M(0.0), M(0.025))
    assert points[1] == Point(M(0.0), M(0.02))


def test_a_standing_core_is_drawn_above_its_base_with_bore_cone_and_thinnest_place() -> None:
    core = turned_core(
        tapered(M(0.05), M(0.03), M(0.1)), [Groove("vee", M(0.004), M(0.01), M(0.05))]
    )
    job = Job(round_cavity(M(0.07), M(0.12)), core, base=M(0.01))
    bore = Bore(M(0.008), M(0.06))
    check = check_wall(core, bore, ERRORS)
    drawn = section(job, need(job), bore, ERRORS, check)
    assert drawn.cavity == (Point(M(0.0), M(0.035)), Point(M(0.12), M(0.035)))
    assert drawn.core[0] == Point(M(0.01), M(0.025))
    assert drawn.core[-1].at == pytest.approx(0.11)
    assert drawn.bore is not None and drawn.bore[1].at == pytest.approx(0.07)
    assert [cone.at for cone in drawn.cone] == pytest.approx([0.01, 0.07])
    assert drawn.cone[1].worst > drawn.cone[1].likely > drawn.cone[0].likely > 0.004
    assert drawn.thinnest is not None
    inner, outer = drawn.thinnest
    assert inner.at == outer.at == pytest.approx(check.at + 0.01)
    assert outer.radius - inner.radius == pytest.approx(check.nominal)
    assert drawn.level == need(job).level


def test_from_both_ends_the_cone_is_widest_in_the_middle() -> None:
    core = turned_core(straight(M(0.05), M(0.1)))
    job = Job(round_cavity(M(0.07), M(0.12)), core)
    cone = section(job, need(job), Bore(M(0.008), both_ends=True), ERRORS).cone
    assert cone[1].at == pytest.approx(0.05)
    assert cone[0].worst == cone[2].worst < cone[1].worst


def test_a_lying_core_is_drawn_in_the_middle_of_its_box() -> None:
    core = turned_core(
        straight(M(0.05), M(0.1)), [Groove("square", M(0.004), M(0.006), M(0.05), M(0.06), 4)]
    )
    job = Job(box_cavity(M(0.06), M(0.14), M(0.055)), core, lying=True)
    drawn = section(job, need(job))
    assert drawn.core[0].at == pytest.approx(0.02)
    assert drawn.cavity[1].at == pytest.approx(0.14)
    assert drawn.cavity[1].radius == pytest.approx(0.0275)
    assert (
        drawn.level is None and drawn.bore is None and drawn.cone == () and drawn.thinnest is None
    )
    floor = drawn.flutes[0]
    assert [point.at for point in floor] == pytest.approx([0.04, 0.10])
    assert floor[0].radius == pytest.approx(0.021)


def test_an_upright_box_shows_its_narrow_side() -> None:
    job = Job(box_cavity(M(0.06), M(0.14), M(0.055)))
    drawn = section(job, need(job), Bore(M(0.01)), ERRORS)
    assert drawn.cavity[1] == Point(M(0.055), M(0.03))
    assert drawn.core == () and drawn.bore is None and drawn.cone == ()


def test_what_was_only_weighed_is_not_drawn() -> None:
    core = weighed_core(Kilogram(0.01), exact(KilogramPerCubicMetre(600.0)))
    job = Job(measured_cavity(exact(CubicMetre(1e-4))), core)
    drawn = section(job, need(job))
    assert drawn.cavity == () and drawn.core == () and drawn.level is None


def test_a_bore_reaches_no_further_than_the_core() -> None:
    body = straight(M(0.05), M(0.1))
    assert bore_depth(Bore(M(0.01)), body) == body.length
    assert bore_depth(Bore(M(0.01), M(0.3)), body) == body.length
    assert bore_depth(Bore(M(0.01), M(0.03)), body) == 0.03
