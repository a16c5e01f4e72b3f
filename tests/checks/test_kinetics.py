"""Reference cures by two integrators, and what the program's own age and indices say of them.

None of these cures is a casting resin's: two are hot prepreg resins whose constants are public, the
rest is a shape of our own. They show that a cure of one energy follows its age alone, where that
ends, and which way a cup goes.
"""

from collections.abc import Callable
from math import exp, log

import pytest

from shopassist.core.arrhenius import arrhenius_rate
from shopassist.core.cup import USUAL_EPOXY, regime
from shopassist.core.cure import Course, Progress
from shopassist.core.cure_age import equivalent_age, ramp_age
from shopassist.core.cure_law import EnergyLaw
from shopassist.core.exotherm import adiabatic_rise, cooling_time, cup_area, peak_rate
from shopassist.core.milestones import STALL_SHARE, Ahead, Milestone, forecast
from shopassist.core.quantities import GAS_CONSTANT, JoulePerMole, Kelvin, Kilogram, Second
from tests.checks.integrators import Slopes, State, by_hand, by_library

BOOK_R = 8.314
"""Gas constant of the public code that the constants come from."""
HOUR, MINUTE, ZERO = 3_600.0, 60.0, 273.15
ENERGY = JoulePerMole(57e3)
GELLED = 0.57735
GEL_NUMBER = 4.376436
SPEEDS = {"deep": 2.5e-5, "slow": 1e-4, "medium": 5e-4, "fast": 2e-3}
"""Rate of the reference shape at 25 °C, [1/s]."""


def kelvin(celsius: float) -> Kelvin:
    return Kelvin(celsius + ZERO)


def both(
    slopes: Slopes, start: State, times: list[float], step: float | Callable[[State], float]
) -> list[State]:
    """The states by the library, once our own rule has come to the same."""
    stride = step if callable(step) else lambda _: step
    one, other = by_library(slopes, start, times), by_hand(slopes, start, times, stride)
    for a, b in zip(one, other, strict=True):
        assert a == pytest.approx(b, rel=2e-5, abs=1e-7)
    return one


def isothermal(rate: Callable[[float], float], start: float = 0.0) -> Callable[..., list[float]]:
    """Conversions at some times where nothing but the conversion moves the rate."""

    def at(times: list[float], step: float) -> list[float]:
        found = both(lambda _, state: [rate(state[0])], [start], times, step)
        return [state[0] for state in found]

    return at


# -- closed forms ---------------------------------------------------------------------------


def test_cv21_a_closed_form_gives_the_times_of_an_autocatalytic_cure() -> None:
    one, two = 5e-6, 1e-4
    whole = one + two
    listed = {0.1: 11978.6, 0.3: 24966.8, 0.5: 37560.5, 0.57735: 43764.4, 0.9: 133306.3}
    for done, seconds in {**listed, 0.95: 235296.7}.items():
        closed = two / whole**2 * log((one + two * done) / (one * (1 - done)))
        assert closed + done / (whole * (1 - done)) == pytest.approx(seconds, rel=1e-5)
    run = isothermal(lambda a: (one + two * a) * (1 - a) ** 2)
    assert run(list(listed.values()), 60.0) == pytest.approx(list(listed), rel=1e-5)


def test_cv22_a_closed_form_gives_the_course_of_a_simpler_one() -> None:
    one, two = 5e-6, 1e-4
    listed = {3600.0: 0.021406, 7200.0: 0.051051, 14400.0: 0.144108, 28800.0: 0.482420}
    grown = {t: exp((one + two) * t) for t in listed}
    closed = [one * (each - 1) / (one * each + two) for each in grown.values()]
    assert closed == pytest.approx(list(listed.values()), rel=3e-5)
    run = isothermal(lambda a: (one + two * a) * (1 - a))
    assert run(list(listed), 60.0) == pytest.approx(closed, rel=1e-7)


def test_cv23_a_thin_film_of_the_reference_shape_gels_when_the_formula_says() -> None:
    """And its fastest share a second is the program's."""
    k = SPEEDS["slow"]
    run = isothermal(lambda a: k * (0.05 + a) * (1 - a) ** 2)
    assert run([GEL_NUMBER / k], 60.0) == pytest.approx([GELLED], rel=1e-5)
    fastest = max(k * (0.05 + a / 1000) * (1 - a / 1000) ** 2 for a in range(1000))
    assert peak_rate(Second(GEL_NUMBER / k)) == pytest.approx(fastest, rel=1e-3)


# -- hot prepreg resins whose constants are public --------------------------------------------


def lee_loos_springer(celsius: float) -> Callable[[float], float]:
    """Conversion a minute; its rate jumps at 0.3."""

    def constant(front: float, energy: float) -> float:
        return front * exp(-energy / (BOOK_R * (celsius + ZERO)))

    one, two, three = (
        constant(2.101e9, 8.07e4),
        constant(-2.014e9, 7.78e4),
        constant(1.96e5, 5.66e4),
    )
    if celsius == 150.0:
        # CV-25
        assert [one, two, three] == pytest.approx([0.229228, -0.501067, 0.0201914], rel=1e-4)

    def rate(done: float) -> float:
        early = (one + two * done) * (1 - done) * (0.47 - done)
        return early if done <= 0.3 else three * (1 - done)

    return rate


@pytest.mark.parametrize(
    ("celsius", "listed"),
    [
        (120.0, {7.276: 0.1, 61.40: 0.3, 118.28: 0.5, 390.34: 0.9}),
        (177.0, {2.403: 0.3, 8.752: 0.5, 39.12: 0.9}),
        (150.0, {30.0: 0.53293, 60.0: 0.74513, 120.0: 0.92411}),
    ],
    ids=["cv26", "cv27", "cv25 and cv28"],
)
def test_a_prepreg_of_two_stages_is_as_far_as_its_reference_says(
    celsius: float, listed: dict[float, float]
) -> None:
    """The jump costs either integrator some of its order: five figures are left."""
    rate, times = lee_loos_springer(celsius), list(listed)
    slopes: Slopes = lambda _, state: [rate(state[0])]  # noqa: E731
    for found in (
        by_library(slopes, [0.0], times),
        by_hand(slopes, [0.0], times, lambda _: 0.02),
    ):
        assert [each[0] for each in found] == pytest.approx(list(listed.values()), abs=2e-4)


def hubert(temp: float, constant: float = BOOK_R) -> float:
    """Front of the rate of the other one, [1/s]."""
    return 1.53e5 * exp(-66.5e3 / (constant * temp))


def test_cv29_a_prepreg_of_one_energy_is_as_far_as_its_reference_says() -> None:
    k = hubert(kelvin(180))
    assert k == pytest.approx(3.30334e-3, rel=1e-4)
    run = isothermal(lambda a: k * a**0.813 * (1 - a) ** 2.74, 0.001)
    found = run([600.0, 1800.0, 3600.0, 7200.0], 2.0)
    assert found == pytest.approx([0.0792, 0.54501, 0.7535, 0.85553], abs=5e-4)


def test_cv30_diffusion_slows_its_end() -> None:
    """The diffusion term is from memory."""

    def most(temp: float) -> float:
        return -1.684 + 5.475e-3 * temp

    assert [most(kelvin(c)) for c in (120, 180)] == pytest.approx([0.46850, 0.79700], abs=1e-4)
    k, end = hubert(kelvin(180)), most(kelvin(180))
    run = isothermal(lambda a: k * a**0.813 * (1 - a) ** 2.74 / (1 + exp(43.09 * (a - end))), 0.001)
    assert run([3600.0, 7200.0], 2.0) == pytest.approx([0.75091, 0.81978], abs=5e-4)


def test_cv31_the_gas_constant_is_the_gas_constant() -> None:
    """Digits of another constant in its place make a rate 1.86 times as high."""
    known = pytest.importorskip("scipy.constants").R
    assert pytest.approx(known, rel=1e-9) == GAS_CONSTANT
    slip = hubert(kelvin(180), 8.617) / hubert(kelvin(180))
    assert slip == pytest.approx(1.860, rel=1e-3)


# -- a cure of one energy follows its age alone --------------------------------------------------


def shop_evening(at: float) -> float:
    """4 h at 18 °C, a ramp of 2 h to 35 °C, 6 h there."""
    return kelvin(18 + 17 * min(max((at - 4 * HOUR) / (2 * HOUR), 0.0), 1.0))


def test_cv24_conversion_through_a_history_is_that_of_its_age() -> None:
    k, reference = SPEEDS["slow"], kelvin(25)

    def shape(a: float) -> float:
        return k * (0.05 + a) * (1 - a) ** 2

    def slopes(at: float, state: State) -> State:
        return [arrhenius_rate(ENERGY, Kelvin(shop_evening(at)), reference) * shape(state[0])]

    (through,) = both(slopes, [0.0], [12 * HOUR], 60.0)
    ends = equivalent_age(
        (Second(4 * HOUR), Second(6 * HOUR)), (kelvin(18), kelvin(35)), reference, ENERGY
    )
    age = ends + ramp_age(Second(2 * HOUR), kelvin(18), kelvin(35), reference, ENERGY)
    assert age / HOUR == pytest.approx(17.3444, rel=1e-4)  # CV-17 as a whole
    (of_age,) = isothermal(shape)([age], 60.0)
    assert through[0] == pytest.approx(0.72941, abs=1e-5)
    assert of_age == pytest.approx(through[0], abs=1e-5)


def test_so_does_the_prepreg_of_one_energy_through_a_ramp() -> None:
    energy, reference = JoulePerMole(66.5e3), kelvin(180)

    def shape(a: float) -> float:
        return float(hubert(reference, GAS_CONSTANT) * a**0.813 * (1 - a) ** 2.74)

    def slopes(at: float, state: State) -> State:
        warm = kelvin(120 + 60 * min(at / HOUR, 1.0))
        return [arrhenius_rate(energy, warm, reference) * shape(state[0])]

    (through,) = both(slopes, [0.001], [1.5 * HOUR], 5.0)
    age = ramp_age(Second(HOUR), kelvin(120), kelvin(180), reference, energy) + HOUR / 2
    (of_age,) = isothermal(shape, 0.001)([age], 5.0)
    assert of_age == pytest.approx(through[0], abs=1e-4)


def test_cv08_a_history_whose_energy_rises_in_the_cold() -> None:
    history = ((6, 18), (12, 30), (6, 24), (24, 12))
    age = sum(
        hours
        * arrhenius_rate(
            JoulePerMole(33.5e3 + 1.47e3 * max(0, 20 - c)), Kelvin(c + 273.0), Kelvin(293.0)
        )
        for hours, c in history
    )
    assert age == pytest.approx(45.774, rel=1e-4)


def test_cv18_a_ramp_is_neither_its_middle_nor_the_mean_of_its_ends() -> None:
    ramp = ramp_age(Second(2 * HOUR), kelvin(18), kelvin(35), kelvin(25), ENERGY) / HOUR
    ends = [arrhenius_rate(ENERGY, kelvin(c), kelvin(25)) for c in (18, 35)]
    assert sum(ends) == pytest.approx(2.6843, rel=1e-3)
    middle = 2 * arrhenius_rate(ENERGY, kelvin(26.5), kelvin(25))
    assert middle == pytest.approx(2.2440, rel=1e-3)
    assert middle * 1.05 < ramp < sum(ends) / 1.1


# -- where it ends: a cure that turns to glass ----------------------------------------------------


def stalling(glass_start: float, glass_end: float) -> Callable[[float], Slopes]:
    """The reference shape at medium speed, slowed by its own glass transition."""

    def at(celsius: float) -> Slopes:
        k = SPEEDS["medium"] * arrhenius_rate(ENERGY, kelvin(celsius), kelvin(25))

        def slopes(_: float, state: State) -> State:
            a = state[0]
            glass = glass_start + (glass_end - glass_start) * 0.4 * a / (1 - 0.6 * a)
            slowed = 1 / (1 + exp((glass - celsius - 15) / 3))
            return [k * (0.05 + a) * (1 - a) ** 2 * slowed]

        return slopes

    return at


HARD = stalling(-22.0, 124.0)


def share_shown(celsius: float) -> float:
    """What the program shows of a full cure that has had its time and more, that warm."""
    course = Course(EnergyLaw(ENERGY, JoulePerMole(8e3)), kelvin(25))
    need = Milestone("full", "release", Second(24 * HOUR), course, glass=kelvin(124))
    ages = (0.0, 1e7, 0.0, 0.0)
    past = (Progress(), Progress(Second(1e7), release=(ages, ages, ages)))
    return forecast(need, past, Ahead(kelvin(celsius), kelvin(celsius))).done


@pytest.mark.parametrize(("celsius", "done"), [(15, 0.70201), (25, 0.76491)])
def test_cv36_a_hard_resin_left_cool_stalls_where_the_program_stops_counting(
    celsius: float, done: float
) -> None:
    (state,) = both(HARD(celsius), [0.0], [168 * HOUR], 30.0)
    assert state[0] == pytest.approx(done, abs=5e-4)
    assert share_shown(celsius) == STALL_SHARE == pytest.approx(done, abs=0.06)


def test_cv36_hot_enough_it_comes_further_and_so_does_the_program() -> None:
    (state,) = both(HARD(60), [0.0], [168 * HOUR], 20.0)
    assert state[0] == pytest.approx(0.92133, abs=5e-4)
    assert share_shown(120) == 1.0


def test_cv37_warming_it_afterwards_starts_it_again() -> None:
    (cool,) = both(HARD(20), [0.0], [168 * HOUR], 30.0)
    (warm,) = both(HARD(60), cool, [8 * HOUR], 20.0)
    assert [cool[0], warm[0]] == pytest.approx([0.73479, 0.89344], abs=5e-4)


# -- cups that warm themselves ---------------------------------------------------------------------


def cup(grams: float, k25: float, room: float, surface: float) -> Slopes:
    """Conversion and temperature of a cup, with the program's area, rise and cooling."""
    mass, around = Kilogram(grams / 1e3), kelvin(room)
    area = cup_area(mass, USUAL_EPOXY.density)
    rise = adiabatic_rise(USUAL_EPOXY.heat, USUAL_EPOXY.capacity)
    still = cooling_time(mass, USUAL_EPOXY.capacity, USUAL_EPOXY.surface, area)
    loss = surface / USUAL_EPOXY.surface / still

    def slopes(_: float, state: State) -> State:
        done, temp = state
        k = k25 * exp(ENERGY / GAS_CONSTANT * (1 / kelvin(25) - 1 / temp))
        rate = k * (0.05 + done) * (1 - done) ** 2
        return [rate, rate * rise - loss * (temp - around)]

    return slopes


def run_cup(
    grams: float, speed: str, times: list[float], room: float = 25.0, surface: float = 10.0
) -> list[State]:
    """A cup by both integrators; steps of a fiftieth of what the reaction takes there."""
    k25 = SPEEDS[speed]

    def stride(state: State) -> float:
        faster = exp(ENERGY / GAS_CONSTANT * (1 / kelvin(25) - 1 / state[1]))
        return min(0.05 / (k25 * faster), 60.0)

    slopes = cup(grams, k25, room, surface)
    return both(slopes, [0.0, kelvin(room)], [t * MINUTE for t in times], stride)


@pytest.mark.parametrize(
    ("grams", "speed", "gel", "peak", "hottest", "heat"),
    [
        (50, "slow", 469.48, 343.1, (34.43, 0.05), "watch"),
        (500, "slow", 214.67, 218.02, (186.01, 0.3), "run-away"),
        (100, "fast", 6.601, 6.737, (242.50, 0.5), "run-away"),
        (1000, "deep", 2280.7, 1442.0, (29.68, 0.05), "low"),
    ],
    ids=["cv41", "cv42", "cv43", "cv45"],
)
def test_a_cup_peaks_and_gels_as_its_reference_says_and_the_program_names_its_way(
    grams: float, speed: str, gel: float, peak: float, hottest: tuple[float, float], heat: str
) -> None:
    times = sorted([gel, peak, peak * 0.97, peak * 1.03])
    found = dict(zip(times, run_cup(grams, speed, times), strict=True))
    assert found[gel][0] == pytest.approx(GELLED, abs=2e-3 if hottest[0] < 100 else 1e-2)
    assert found[peak][1] - ZERO == pytest.approx(hottest[0], abs=hottest[1])
    assert found[peak][1] > max(found[peak * 0.97][1], found[peak * 1.03][1])
    film = Second(GEL_NUMBER / SPEEDS[speed])
    assert regime(Kilogram(grams / 1e3), None, film, ENERGY, kelvin(25)).heat == heat


def test_cv42_it_passes_fifty_degrees_on_its_way() -> None:
    (state,) = run_cup(500, "slow", [197.44])
    assert state[1] - ZERO == pytest.approx(50.0, abs=0.1)


def test_cv44_a_hundred_grams_pass_fifty_degrees_in_nine_minutes() -> None:
    """A pot life as makers measure it, before the gel."""
    warm, gelled = run_cup(100, "fast", [9.007, 9.696], room=20.0)
    assert warm[1] - ZERO == pytest.approx(50.0, abs=0.4)
    assert warm[0] < 0.3
    assert gelled[0] == pytest.approx(GELLED, abs=1e-2)


@pytest.mark.parametrize(("speed", "gel"), [("slow", 126.95), ("fast", 6.3476)])
def test_cv46_without_any_loss_it_ends_at_the_whole_rise(speed: str, gel: float) -> None:
    gelled, ended = run_cup(100, speed, [gel, 1.02 * gel], surface=0.0)
    assert gelled[0] == pytest.approx(GELLED, abs=5e-3)
    rise = adiabatic_rise(USUAL_EPOXY.heat, USUAL_EPOXY.capacity)
    for done, temp in (gelled, ended):
        assert temp == pytest.approx(kelvin(25) + rise * done, abs=1e-3)
    assert 25 + rise == pytest.approx(247.22, abs=0.01)
