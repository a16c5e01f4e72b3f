from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.blank import Job, Need, need, resin_mass
from shopassist.core.cavity import (
    Cavity,
    box_cavity,
    measured_cavity,
    round_cavity,
    stepped_cavity,
    tapered_cavity,
    turned_cavity,
    weighed_cavity,
)
from shopassist.core.errors import OutOfRangeError
from shopassist.core.grooves import square_ring_volume
from shopassist.core.mixing import part_masses
from shopassist.core.profile import Station, straight, tapered, turned
from shopassist.core.quantities import (
    CubicMetre,
    Kelvin,
    Kilogram,
    KilogramPerCubicMetre,
    Metre,
    Ratio,
    SquareMetre,
)
from shopassist.core.solids import cylinder_volume
from shopassist.core.span import Span, between, exact
from shopassist.core.workpiece import (
    Groove,
    displaced_core,
    turned_core,
    weighed_core,
)

M = Metre
MOULD = round_cavity(M(0.076), M(0.2))
RINGS = tuple(Groove("square", M(0.006), M(0.008), M(0.02 + 0.03 * n)) for n in range(6))
CORE = turned_core(straight(M(0.05), M(0.19)), RINGS)


def millilitres(volume: float) -> float:
    return volume * 1e6


def words(found: Need) -> list[str]:
    return [text.template for text in found.cautions]


def test_the_worked_fill_comes_out() -> None:
    found = need(Job(MOULD, CORE, shrink=Ratio(0.03), waste=Ratio(0.05)))
    assert millilitres(found.cavity.mid) == pytest.approx(907.3, abs=0.1)
    assert millilitres(found.core.mid) == pytest.approx(333.3, abs=0.1)
    assert millilitres(found.net.mid) == pytest.approx(574.0, abs=0.1)
    assert millilitres(found.for_one.mid) == pytest.approx(591.8, abs=0.1)
    assert millilitres(found.for_all.mid) == pytest.approx(621.4, abs=0.1)
    assert found.sink == pytest.approx(0.0039, abs=1e-4)
    assert found.for_one.is_exact


def test_a_mould_without_a_core_takes_its_own_volume() -> None:
    found = need(Job(MOULD, shrink=Ratio(0.0), waste=Ratio(0.0)))
    assert found.for_all == exact(MOULD.volume.mid)
    assert found.level == MOULD.depth
    assert found.over_rim == 0.0 and found.proud == 0.0
    assert words(found) == []


def test_without_a_shrink_figure_five_parts_in_a_hundred_are_added() -> None:
    assert need(Job(MOULD)).overfill.mid == pytest.approx(0.05 * MOULD.volume.mid)


def test_pieces_spares_and_waste_multiply() -> None:
    one = need(Job(MOULD, CORE)).for_one.mid
    many = need(Job(MOULD, CORE, pieces=10, spares=2))
    assert many.for_all.mid == pytest.approx(12 * 1.08 * one)
    assert many.for_one.mid == pytest.approx(one)


def test_overfill_of_a_full_mould_is_named_as_a_top_up() -> None:
    found = need(Job(MOULD, CORE))
    assert found.over_rim == pytest.approx(found.overfill.mid)
    assert "top-up" in words(found)[0]
    assert found.finished == pytest.approx(0.197)


def test_a_wanted_height_gets_its_facing_allowance_on_top() -> None:
    found = need(Job(MOULD, level=M(0.15)))
    assert millilitres(found.cavity.mid) == pytest.approx(
        millilitres(cylinder_volume(M(0.076), M(0.153)))
    )
    assert found.finished == 0.15
    assert found.level == pytest.approx(0.153 * 1.05, abs=1e-6)
    assert found.over_rim == 0.0


def test_the_poured_level_holds_exactly_the_liquid() -> None:
    found = need(Job(MOULD, CORE, level=M(0.1), facing=M(0.0)))
    assert found.level is not None
    room = cylinder_volume(M(0.076), found.level) - CORE.volume_to(found.level)
    assert room == pytest.approx(found.net.mid + found.overfill.mid, rel=1e-6)


def test_a_core_that_stands_proud_takes_up_only_what_is_below() -> None:
    tall = turned_core(straight(M(0.05), M(0.25)))
    found = need(Job(MOULD, tall))
    assert found.proud == pytest.approx(0.05)
    assert found.core.mid == pytest.approx(cylinder_volume(M(0.05), M(0.2)))


def test_a_core_on_a_stand_leaves_room_below() -> None:
    found = need(Job(MOULD, turned_core(straight(M(0.05), M(0.19))), base=M(0.05)))
    assert found.core.mid == pytest.approx(cylinder_volume(M(0.05), M(0.15)))


def test_grooves_above_the_level_are_not_counted() -> None:
    assert CORE.volume_to(M(0.03)) == pytest.approx(
        cylinder_volume(M(0.05), M(0.03)) - square_ring_volume(M(0.05), M(0.008), M(0.006))
    )


def test_the_lying_core_counts_whole() -> None:
    box = box_cavity(M(0.25), M(0.08), M(0.07))
    found = need(Job(box, CORE, lying=True))
    assert found.core == CORE.volume
    assert found.proud == 0.0
    assert found.sink is not None


def test_soft_long_walls_take_more() -> None:
    box = box_cavity(M(0.1), M(0.6), M(0.075))
    stiff, soft = need(Job(box)), need(Job(box, bow=M(0.003)))
    assert millilitres(soft.net.mid - stiff.net.mid) == pytest.approx(180.0)
    assert soft.net.mid / stiff.net.mid == pytest.approx(1.04)


def test_a_range_of_density_widens_the_need_and_nothing_else() -> None:
    density = between(KilogramPerCubicMetre(620.0), KilogramPerCubicMetre(680.0), "density")
    core = weighed_core(Kilogram(0.0371), density)
    found = need(Job(round_cavity(M(0.048), M(0.04)), core, pieces=12))
    assert found.core.low == pytest.approx(0.0371 / 680)
    assert found.for_one.low < found.for_one.mid < found.for_one.high
    assert found.net.high == pytest.approx(found.cavity.mid - found.core.low)
    assert "high end" in " ".join(words(found))


def test_case_v07_a_lump_of_mixed_stuff_is_a_range() -> None:
    inch = 16.387064e-6
    density = between(
        KilogramPerCubicMetre(0.0253 / inch), KilogramPerCubicMetre(0.0309 / inch), "density"
    )
    core = weighed_core(Kilogram(0.0236), density)
    assert millilitres(core.volume.low) == pytest.approx(12.5, abs=0.05)
    assert millilitres(core.volume.high) == pytest.approx(15.3, abs=0.05)
    assert core.volume.high / core.volume.low == pytest.approx(1.22, abs=0.005)


def test_soak_in_runs_from_none_to_every_void() -> None:
    core = weighed_core(Kilogram(0.0161), exact(KilogramPerCubicMetre(350.0)))
    found = need(Job(MOULD, core, stabilised=False))
    assert found.soak_in.low == 0.0
    assert millilitres(found.soak_in.high) == pytest.approx(35.3, abs=0.1)
    assert found.soak_in.mid == pytest.approx(found.soak_in.high / 2)
    assert found.for_one.high == pytest.approx(
        found.net.mid + found.overfill.mid + found.soak_in.high
    )
    assert "seal" in words(found)[-1]


def test_soak_in_without_a_mass_is_asked_for_and_not_invented() -> None:
    found = need(Job(MOULD, CORE, stabilised=False))
    assert found.soak_in == exact(0.0)
    assert "Weigh the core" in words(found)[-1]


def test_a_stabilised_core_drinks_nothing() -> None:
    core = weighed_core(Kilogram(0.0161), exact(KilogramPerCubicMetre(350.0)))
    assert need(Job(MOULD, core)).soak_in == exact(0.0)


def test_measured_water_gives_the_cavity_its_range() -> None:
    cavity = weighed_cavity(
        Span(Kilogram(0.0299), Kilogram(0.03), Kilogram(0.0301)), Kelvin(293.15)
    )
    found = need(Job(cavity))
    assert millilitres(found.cavity.mid) == pytest.approx(30.05, abs=0.01)
    assert found.for_one.low < found.for_one.mid < found.for_one.high
    assert found.level is None and found.sink is None and found.finished is None
    assert found.over_rim == found.overfill.mid


def test_case_v01_thirty_millilitres_are_thirty_three_grams() -> None:
    density = KilogramPerCubicMetre(1100.0)
    cavity = measured_cavity(exact(CubicMetre(30e-6)))
    found = need(Job(cavity, shrink=Ratio(0.0), waste=Ratio(0.1)))
    assert resin_mass(found.for_one, density).mid == pytest.approx(0.0330)
    total = resin_mass(found.for_all, density).mid
    assert total == pytest.approx(0.0363)
    parts = part_masses(total, Ratio(0.44))
    assert parts.a == pytest.approx(0.0252, abs=5e-5)
    assert parts.b == pytest.approx(0.0111, abs=5e-5)


def test_an_empty_sheet_gives_no_grams_and_says_what_to_do() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        resin_mass(exact(CubicMetre(30e-6)), None)
    assert caught.value.field == "density.mixed"
    assert "Weigh a known volume" in caught.value.title.template
    with pytest.raises(OutOfRangeError) as caught:
        resin_mass(exact(CubicMetre(30e-6)), KilogramPerCubicMetre(0.0))
    assert caught.value.field == "density"


def test_a_measured_mould_with_a_known_opening_tells_how_far_it_sinks() -> None:
    cavity = measured_cavity(exact(CubicMetre(30e-6)), M(0.03), SquareMetre(0.001))
    found = need(Job(cavity, turned_core(straight(M(0.01), M(0.02)))))
    assert found.sink == pytest.approx(0.05 * found.net.mid / 0.001)
    assert found.finished == pytest.approx(0.027)
    assert need(
        Job(measured_cavity(exact(CubicMetre(30e-6)), None, SquareMetre(0.001)))
    ).sink == pytest.approx(0.0015)


def test_a_core_that_may_fill_the_cavity_is_questioned() -> None:
    cavity = measured_cavity(Span(CubicMetre(20e-6), CubicMetre(30e-6), CubicMetre(40e-6)))
    core = displaced_core(Span(CubicMetre(21e-6), CubicMetre(22e-6), CubicMetre(23e-6)))
    found = need(Job(cavity, core))
    assert found.net.low == 0.0
    assert "fill the cavity" in " ".join(words(found))


@pytest.mark.parametrize(
    ("job", "field"),
    [
        (Job(round_cavity(M(0.04), M(0.2)), CORE), "core"),
        (Job(measured_cavity(exact(CubicMetre(30e-6))), displaced_core(exact(CubicMetre(31e-6)))), "core"),
        (Job(box_cavity(M(0.3), M(0.04), M(0.2)), CORE), "core"),
        (Job(box_cavity(M(0.1), M(0.08), M(0.2)), CORE, lying=True), "core"),
        (Job(box_cavity(M(0.3), M(0.08), M(0.04)), CORE, lying=True), "core"),
        (Job(MOULD, CORE, lying=True), "lying"),
        (Job(MOULD, CORE, base=M(0.2)), "base"),
        (Job(MOULD, CORE, base=M(-0.1)), "base"),
        (Job(MOULD, base=M(-0.1)), "base"),
        (Job(MOULD, level=M(0.199)), "level"),
        (Job(MOULD, level=M(0.0), facing=M(0.0)), "level"),
        (Job(measured_cavity(exact(CubicMetre(30e-6))), level=M(0.01)), "level"),
        (Job(MOULD, pieces=0), "pieces"),
        (Job(MOULD, spares=-1), "spares"),
        (Job(MOULD, waste=Ratio(1.0)), "waste"),
        (Job(MOULD, waste=Ratio(-0.1)), "waste"),
        (Job(MOULD, shrink=Ratio(1.0)), "shrink"),
        (Job(MOULD, facing=M(-0.001)), "facing"),
        (Job(MOULD, facing=M(0.2)), "facing"),
        (Job(MOULD, bow=M(0.001)), "bow"),
        (Job(MOULD, weighed_core(Kilogram(0.2), exact(KilogramPerCubicMetre(1600.0))), stabilised=False), "density"),
    ],
)  # fmt: skip
def test_a_job_that_cannot_be_is_refused_beside_its_field(job: Job, field: str) -> None:
    with pytest.raises(OutOfRangeError) as caught:
        need(job)
    assert caught.value.field == field
    assert caught.value.title.template.endswith(".")


def test_the_refusal_of_a_large_core_names_both_sizes() -> None:
    with pytest.raises(OutOfRangeError) as caught:
        need(Job(tapered_cavity(M(0.04), M(0.08), M(0.2)), CORE))
    assert dict(caught.value.title.params).keys() == {"core", "room"}


def test_a_core_may_just_fit() -> None:
    found = need(Job(round_cavity(M(0.05), M(0.2)), CORE, shrink=Ratio(0.0)))
    assert found.net.mid == pytest.approx(
        cylinder_volume(M(0.05), M(0.01)) + 6 * 6.635e-6, rel=1e-4
    )


def test_a_bulge_of_the_core_meets_a_step_of_the_mould() -> None:
    mould = stepped_cavity(((M(0.03), M(0.05)), (M(0.06), M(0.05))))
    pear = turned_core(tapered(M(0.05), M(0.02), M(0.04)))
    with pytest.raises(OutOfRangeError):
        need(Job(mould, pear))
    found = need(
        Job(mould, turned_core(tapered(M(0.005), M(0.05), M(0.1)), ()), shrink=Ratio(0.02))
    )
    assert found.net.mid > 0


def test_a_lying_core_leaves_the_poured_level_in_the_box() -> None:
    box = box_cavity(M(0.25), M(0.08), M(0.07))
    found = need(Job(box, CORE, lying=True, level=M(0.06), facing=M(0.0)))
    assert found.level is not None and box.depth is not None
    assert 0.06 < found.level < box.depth


def test_turned_moulds_start_at_their_floor() -> None:
    outline = turned((Station(M(0.5), M(0.05)), Station(M(0.6), M(0.07))))
    cavity = turned_cavity(outline)
    assert cavity.depth == pytest.approx(0.1)
    assert cavity.volume_to(M(0.1)) == pytest.approx(outline.volume)
    assert cavity.area_at(M(0.0)) == pytest.approx(3.14159265 * 0.025**2)


sizes = st.floats(0.05, 0.3)


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    diameter, depth = draw(sizes), draw(sizes)
    cavity: Cavity = round_cavity(M(diameter), M(depth))
    core = turned_core(
        straight(M(diameter * draw(st.floats(0.1, 0.9))), M(depth * draw(st.floats(0.1, 1.2)))),
        mass=Kilogram(diameter**2 * depth * draw(st.floats(5.0, 50.0))),
    )
    return Job(
        cavity,
        core if draw(st.booleans()) else None,
        pieces=draw(st.integers(1, 9)),
        shrink=draw(st.sampled_from([None, Ratio(0.0), Ratio(0.04)])),
        waste=Ratio(draw(st.floats(0.0, 0.3))),
    )


@settings(deadline=None)
@given(jobs())
def test_cavity_is_core_and_net(job: Job) -> None:
    found = need(job)
    assert found.core.mid + found.net.mid == pytest.approx(found.cavity.mid)
    assert found.for_one.mid == pytest.approx(
        found.net.mid + found.overfill.mid + found.soak_in.mid
    )


@settings(deadline=None)
@given(jobs(), st.floats(1.01, 2.0))
def test_more_of_anything_never_needs_less(job: Job, times: float) -> None:
    found = need(job)
    assert need(replace(job, pieces=job.pieces + 1)).for_all.mid > found.for_all.mid
    assert need(replace(job, waste=Ratio(job.waste * times))).for_all.mid >= found.for_all.mid
    assert need(replace(job, core=None)).for_one.mid >= found.for_one.mid


@settings(deadline=None)
@given(jobs(), st.floats(0.1, 10.0))
def test_need_goes_with_the_cube_of_size(job: Job, size: float) -> None:
    def grown(length: Metre) -> Metre:
        return M(length * size)

    outline = job.cavity.profile
    assert outline is not None
    core = job.core
    if core is not None and core.profile is not None:
        core = turned_core(straight(grown(core.profile.greatest), grown(core.profile.length)))
    big = replace(
        job,
        cavity=round_cavity(grown(outline.greatest), grown(outline.length)),
        core=core,
        facing=grown(job.facing),
    )
    assert need(big).for_all.mid == pytest.approx(size**3 * need(job).for_all.mid, rel=1e-6)
