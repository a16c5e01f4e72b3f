import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shopassist.core.arrhenius import (
    arrhenius_rate,
    energy_of_factor,
    factor_rate,
    two_pair_energy,
    two_pair_sigma,
)
from shopassist.core.cure import Course, rates
from shopassist.core.cure_age import equivalent_age, ramp_age
from shopassist.core.cure_law import (
    PRIORS,
    EnergyLaw,
    FactorLaw,
    Law,
    TableLaw,
    combined,
    fit,
    in_table,
    law_of,
    limits,
    plausible,
    rate,
    sensitivity,
)
from shopassist.core.errors import OutOfRangeError
from shopassist.core.quantities import JoulePerMole, Kelvin, Ratio, Second
from shopassist.core.sheets import CureLawEntry

HOUR = 3600.0
warmths = st.floats(255, 370).map(Kelvin)
quick = settings(max_examples=60, deadline=None)


def celsius(degrees: float) -> Kelvin:
    return Kelvin(degrees + 273.15)


TABLE = TableLaw(
    (
        (celsius(10), Second(60 * HOUR)),
        (celsius(20), Second(26 * HOUR)),
        (celsius(40), Second(9 * HOUR)),
    )
)
LAWS: list[Law] = [
    EnergyLaw(JoulePerMole(55e3), JoulePerMole(8e3)),
    EnergyLaw(JoulePerMole(5e3), JoulePerMole(8e3)),
    FactorLaw(),
    FactorLaw(Ratio(1.3), 0.05),
    TABLE,
]
each_law = pytest.mark.parametrize("law", LAWS, ids=lambda law: type(law).__name__)


@each_law
def test_at_the_reference_every_law_goes_at_the_reference_rate(law: Law) -> None:
    for tilt in (-1.96, 0.0, 1.0):
        assert rate(law, celsius(23), celsius(23), tilt) == pytest.approx(1)


@each_law
@quick
@given(cold=warmths, warmer=st.floats(0.1, 60))
def test_warmer_is_never_slower(law: Law, cold: Kelvin, warmer: float) -> None:
    reference = celsius(23)
    assert rate(law, Kelvin(cold + warmer), reference) >= rate(law, cold, reference)


@each_law
@quick
@given(temp=warmths, first=warmths, second=warmths)
def test_a_rate_can_be_taken_over_a_third_temperature(
    law: Law, temp: Kelvin, first: Kelvin, second: Kelvin
) -> None:
    direct = rate(law, temp, first, 1.0)
    assert direct == pytest.approx(rate(law, temp, second, 1.0) * rate(law, second, first, 1.0))


@each_law
def test_sensitivity_is_the_slope_of_the_rate(law: Law) -> None:
    temp, reference = celsius(17), celsius(23)
    up, down = (rate(law, Kelvin(temp + d), reference) for d in (0.05, -0.05))
    slope = (up - down) / 0.1 / rate(law, temp, reference)
    assert sensitivity(law, temp) == pytest.approx(slope, rel=2e-2)


@each_law
@quick
@given(temp=warmths)
def test_the_running_rates_are_those_of_the_law(law: Law, temp: Kelvin) -> None:
    course = Course(law, celsius(23))
    less, middle, more, slope = rates(course, temp)
    assert middle == pytest.approx(rate(law, temp, course.reference))
    assert less == pytest.approx(rate(law, temp, course.reference, -1.0))
    assert more == pytest.approx(rate(law, temp, course.reference, 1.0))
    assert slope == pytest.approx(middle * sensitivity(law, temp), rel=1e-6)


def test_a_table_gives_its_own_times_back() -> None:
    for temp, time in TABLE.points:
        assert 26 * HOUR / rate(TABLE, temp, celsius(20)) == pytest.approx(time)
        assert in_table(TABLE, temp)
    assert not in_table(TABLE, celsius(5))
    assert not in_table(TABLE, celsius(45))
    assert in_table(FactorLaw(), celsius(5))


@pytest.mark.parametrize(
    "points",
    [
        (),
        ((celsius(20), Second(1.0)),),
        ((celsius(20), Second(1.0)), (celsius(20), Second(1.0))),
        ((celsius(20), Second(1.0)), (celsius(30), Second(2.0))),
        ((celsius(20), Second(1.0)), (celsius(30), Second(0.0))),
        ((Kelvin(-1.0), Second(2.0)), (celsius(30), Second(1.0))),
    ],
)
def test_a_table_in_which_warmer_takes_longer_is_refused(
    points: tuple[tuple[Kelvin, Second], ...],
) -> None:
    with pytest.raises(OutOfRangeError):
        TableLaw(points)


def test_a_sheet_without_a_law_takes_the_default_of_its_family() -> None:
    assert law_of(CureLawEntry(), "polyurethane") == PRIORS["polyurethane"]
    own = law_of(CureLawEntry("activation energy", JoulePerMole(60e3)), "amine epoxy")
    assert own == EnergyLaw(JoulePerMole(60e3), JoulePerMole(8e3))
    sure = CureLawEntry("", JoulePerMole(60e3), JoulePerMole(2e3))
    assert law_of(sure, "amine epoxy") == EnergyLaw(JoulePerMole(60e3), JoulePerMole(2e3))


def test_a_factor_of_the_sheet_is_surer_than_the_rule_of_thumb() -> None:
    rule = law_of(CureLawEntry("factor per 10 degrees"), "amine epoxy")
    stated = law_of(CureLawEntry("factor per 10 degrees", factor=Ratio(2.0)), "amine epoxy")
    assert isinstance(rule, FactorLaw)
    assert isinstance(stated, FactorLaw)
    assert rule.factor == stated.factor
    assert stated.sigma < rule.sigma


def test_two_findings_of_an_energy_make_a_surer_one() -> None:
    raw = two_pair_energy(Second(24 * HOUR), celsius(23), Second(8 * HOUR), celsius(40))
    sigma = two_pair_sigma(Ratio(0.15), celsius(23), Ratio(0.15), celsius(40))
    both = combined(EnergyLaw(raw, sigma), PRIORS["amine epoxy"])
    assert both.energy == pytest.approx(52887, rel=1e-4)
    assert both.sigma == pytest.approx(6151, rel=1e-3)
    assert both.sigma < min(sigma, PRIORS["amine epoxy"].sigma)


def test_cv77_a_pair_with_an_odd_energy_is_worth_asking_about() -> None:
    odd = two_pair_energy(Second(72 * HOUR), celsius(20), Second(24 * HOUR), celsius(30))
    assert odd == pytest.approx(81180, rel=1e-3)
    assert not plausible(odd, "amine epoxy")
    assert plausible(odd, "heat-cured methacrylate")
    slip = two_pair_energy(Second(72 * HOUR), celsius(20), Second(12 * HOUR), celsius(30))
    assert not any(plausible(slip, family) for family in PRIORS)


def test_each_family_believes_what_is_usual_in_it() -> None:
    assert limits("amine epoxy") == (31e3, 79e3)
    assert limits("polyurethane") == (30e3, 86e3)
    for family, prior in PRIORS.items():
        low, high = limits(family)
        assert plausible(prior.energy, family)
        assert plausible(low, family) and plausible(high, family)
        assert not plausible(JoulePerMole(low - 1), family)
        assert not plausible(JoulePerMole(high + 1), family)


def test_two_times_at_one_temperature_say_nothing() -> None:
    with pytest.raises(OutOfRangeError):
        two_pair_energy(Second(1.0), celsius(20), Second(2.0), celsius(20))
    with pytest.raises(OutOfRangeError):
        two_pair_sigma(Ratio(0.1), celsius(20), Ratio(0.1), celsius(20))


def test_cv74_three_points_give_one_line() -> None:
    points = (
        (celsius(15), Second(60 * HOUR)),
        (celsius(25), Second(26 * HOUR)),
        (celsius(40), Second(9 * HOUR)),
    )
    line = fit(points)
    assert line.energy == pytest.approx(56808, rel=1e-3)
    assert line.time(celsius(25)) == pytest.approx(26.683 * HOUR, rel=1e-3)
    assert line.worst < 0.6
    with pytest.raises(OutOfRangeError):
        fit(points[:1])


def test_one_factor_is_another_energy_at_each_temperature() -> None:
    for low in (10, 20, 30):
        energy = energy_of_factor(Ratio(2.0), celsius(low))
        assert arrhenius_rate(energy, celsius(low + 10), celsius(low)) == pytest.approx(2)
        assert factor_rate(Ratio(2.0), celsius(low + 10), celsius(low)) == pytest.approx(2)


@quick
@given(energy=st.floats(2e4, 1e5).map(JoulePerMole), temp=warmths, cut=st.floats(0.01, 0.99))
def test_age_adds_up_over_any_cut(energy: JoulePerMole, temp: Kelvin, cut: float) -> None:
    reference = celsius(25)
    whole = equivalent_age((Second(HOUR),), (temp,), reference, energy)
    parts = (Second(HOUR * cut), Second(HOUR * (1 - cut)))
    assert equivalent_age(parts, (temp, temp), reference, energy) == pytest.approx(whole)
    assert ramp_age(Second(HOUR), temp, temp, reference, energy) == pytest.approx(whole)


def test_a_time_without_a_temperature_is_refused() -> None:
    with pytest.raises(OutOfRangeError):
        equivalent_age((Second(1.0),), (), celsius(25), JoulePerMole(55e3))


def test_cv18_neither_the_mean_temperature_nor_the_mean_rate_will_do() -> None:
    energy, reference = JoulePerMole(57e3), celsius(25)
    true = ramp_age(Second(2 * HOUR), celsius(18), celsius(35), reference, energy)
    middle = 2 * HOUR * arrhenius_rate(energy, celsius(26.5), reference)
    ends = HOUR * sum(arrhenius_rate(energy, celsius(t), reference) for t in (18, 35))
    assert middle / HOUR == pytest.approx(2.2440, rel=1e-3)
    assert ends / HOUR == pytest.approx(2.6843, rel=1e-3)
    assert middle < true < ends
