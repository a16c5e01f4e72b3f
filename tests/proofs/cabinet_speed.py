"""The cabinet's exact course against a general solver: three days with its thermostat at work.

``run(count, seed)`` draws cabinets. The same one, in the same run, is followed by scipy's
``solve_ivp`` (RK45 of the fourth and fifth order, events at each switching) at a tolerance that
keeps it as near to the truth as the exact course is asked to be, and the temperatures of all four
lumps are compared every quarter hour. Times are of the processor, and only their ratio counts.
"""

import random
from time import process_time

from shopassist.core.quantities import JoulePerKelvin, Kelvin, KelvinDelta, Second, Watt
from shopassist.core.quantities import WattPerKelvin as Path
from shopassist.core.warming import LUMPS, Heater, Warmed, warm_up
from tests.proofs.report import Report

FULL = 6
STRETCH = 1
LENGTH = 72 * 3600.0
EVERY = 900.0
NEAR = 0.01
FASTER = 20.0
TOLERANCE = 1e-10
"""At 1e-8 the general solver itself drifts past 0.01 K within three days."""

Times = list[float]


def drawn(rng: random.Random) -> tuple[Warmed, Heater, Kelvin]:
    """A cabinet, its heater, and the shop."""
    body = Warmed(
        air=JoulePerKelvin(rng.uniform(1400, 2500)),
        pot=JoulePerKelvin(rng.uniform(3000, 9000)),
        contents=JoulePerKelvin(rng.uniform(1500, 5000)),
        wall=JoulePerKelvin(rng.uniform(4000, 30000)),
        air_pot=Path(rng.uniform(2, 5)),
        pot_contents=Path(rng.uniform(0.4, 1.2)),
        air_wall=Path(rng.uniform(1.5, 3)),
        wall_shop=Path(rng.uniform(6, 12)),
    )
    shop = Kelvin(rng.uniform(278, 293))
    heater = Heater(Watt(rng.uniform(100, 200)), Kelvin(rng.uniform(303, 314)), KelvinDelta(1.0))
    return body, heater, shop


def ours(body: Warmed, heater: Heater, shop: Kelvin) -> tuple[list[Times], float]:
    """Temperatures each quarter hour, and the time it took."""
    begun = process_time()
    course = warm_up(body, heater, shop, shop, Second(LENGTH))
    spent = process_time() - begun
    count = int(LENGTH / EVERY) + 1
    return [
        [course.temperature(name, Second(n * EVERY)) for name in LUMPS] for n in range(count)
    ], spent


def general(body: Warmed, heater: Heater, shop: Kelvin) -> tuple[list[Times], float]:
    """The same by the general solver, begun anew at each switching."""
    from scipy.integrate import solve_ivp

    def flow(_: float, temps: Times, power: float) -> Times:
        air, pot, contents, wall = temps
        return [
            (power - body.air_pot * (air - pot) - body.air_wall * (air - wall)) / body.air,
            (body.air_pot * (air - pot) - body.pot_contents * (pot - contents)) / body.pot,
            body.pot_contents * (pot - contents) / body.contents,
            (body.air_wall * (air - wall) - body.wall_shop * (wall - shop)) / body.wall,
        ]

    levels = {True: heater.off_at, False: heater.set_at - heater.band / 2}
    time, state, on = 0.0, [float(shop)] * len(LUMPS), True
    found: list[Times] = []
    begun = process_time()
    while time < LENGTH:

        def switched(_: float, temps: Times, __: float, level: float = levels[on]) -> float:
            return float(temps[0]) - level

        switched.terminal = True  # type: ignore[attr-defined]
        switched.direction = 1 if on else -1  # type: ignore[attr-defined]
        solved = solve_ivp(
            flow, (time, LENGTH), state, args=(heater.power if on else 0.0,), events=switched,
            rtol=TOLERANCE, atol=TOLERANCE, dense_output=True,
        )  # fmt: skip
        end = float(solved.t[-1])
        while len(found) * EVERY <= end:
            found.append([float(each) for each in solved.sol(len(found) * EVERY)])
        time, state, on = end, list(solved.y[:, -1]), not on
    return found, process_time() - begun


def run(count: int, seed: int) -> Report:
    """Compare ``count`` cabinets; temperatures one by one, times in sum."""
    rng = random.Random(seed)
    worst, own_time, their_time = 0.0, 0.0, 0.0
    failures: list[str] = []
    for number in range(count):
        case = drawn(rng)
        mine, spent = ours(*case)
        theirs, longer = general(*case)
        own_time, their_time = own_time + spent, their_time + longer
        off = max(
            abs(a - b) for x, y in zip(mine, theirs, strict=True) for a, b in zip(x, y, strict=True)
        )
        worst = max(worst, off)
        if off > NEAR:
            failures.append(f"cabinet {number} of seed {seed} is {off:.4f} K off")
    ratio = their_time / own_time if own_time else 0.0
    if count and ratio < FASTER:
        failures.append(f"only {ratio:.1f} times as fast, seed {seed}")
    return Report(
        count, seed, tuple(failures),
        {"least ratio of times": ratio, "most kelvin between them": worst},
    )  # fmt: skip
