"""Weeks of a shop through everything that befalls its clocks; hazards never later, releases never
earlier, no alarm late, nothing done by itself.

Two shops live through each week with the same true time: one whose clocks are right, and one
whose wall clock is set by up to a year either way, whose zone changes, whose machine is switched
off. Both sleep, both are read the same temperatures or none. At every step the gates of the second
are compared with those of the first on the scale of true time.

While the machine is off, only a change that the record can show is made: by a year and some odd
weeks. An hour that the wall clock gains or loses while nothing runs is the same, to any program,
as an hour more or less off; so is a change by just what the clock had been wrong before.
"""

import os
import random
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from shopassist.clock.manual import ManualClock
from shopassist.core.alarms.causes import KEPT, NOW, SOON
from shopassist.core.pot.words import Belief
from shopassist.core.timeline import EARLIEST, LATEST
from shopassist.services.cure import CureView
from tests.proofs.report import Report
from tests.services.alarm_bench import Bench

FULL = 10_000
STRETCH = 50
WEEK, DAY, HOUR, MINUTE = 604_800.0, 86_400.0, 3_600.0, 60.0
ZONES: tuple[str | int, ...] = (
    "Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata", "Asia/Kathmandu",
    "America/St_Johns", "Africa/Casablanca", "Pacific/Apia", 0, 45_900,
)  # fmt: skip
CHANGES = (1_792_890_000.0, 1_806_195_600.0, 1_793_512_800.0, 1_805_007_600.0)
"""Near both changes of the clocks in Europe and North America, 2026 and 2027."""
STEPS = (365 * DAY, -365 * DAY, DAY, -DAY, HOUR, -HOUR, 90.0, -90.0, 1.5)
YEARS_OFF = (1.0, -1.0, 0.0, 0.0)
A_DAY = 1.0
"""Elapsed time is right to a second a day where no clock is in doubt."""
MEMORY = "/dev/shm" if os.path.isdir("/dev/shm") else None  # noqa: PTH112
"""Files in memory where there are such: what a cut of power leaves is another proof's matter."""


@dataclass
class Tally:
    """What was counted and what failed."""

    failures: list[str] = field(default_factory=list)
    alarms: int = 0
    looks: int = 0
    doubts: int = 0
    drift: float = 0.0

    def fail(self, what: str) -> None:
        """Note a failure, the first few only."""
        if len(self.failures) < 20:
            self.failures.append(what)


class Shop:
    """One shop with its clock and the true time since its batches began."""

    def __init__(self, folder: Path, clock: ManualClock) -> None:
        self.bench = Bench(folder, clock)
        self.bench.alarms.changed.connect(lambda _: self.note())
        self.true = 0.0
        self.slept = False
        """The machine was not awake since the last look: what fell due meanwhile is told late."""
        self.told: set[str] = set()
        """Keys of all alarms that were ever raised."""
        self._views: dict[str, tuple[CureView | None, float]] = {}
        """Each view and the time since boot at which it was worked out."""
        self.late: list[tuple[str, float, bool]] = []
        """What a look found due and not raised, by how much, and whether it had slept."""
        self.raised: list[tuple[str, float, float]] = []
        """Key, when it was due and when it was raised, on the clock's scale."""
        self._seen: set[int] = set()

    def note(self) -> None:
        """Remember what was raised."""
        for alarm in self.bench.alarms.book.alarms.values():
            if alarm.row.seq not in self._seen:
                self._seen.add(alarm.row.seq)
                self.told.add(alarm.key)
                self.raised.append((alarm.key, float(alarm.due), float(alarm.row.recorded.utc)))

    def look(self) -> None:
        """One look of the one timer."""
        self.bench.alarms.tick()
        for key, gone, left in self.called():
            if gone > 0.0 and left > 0.0 and key not in self.told:
                self.late.append((key, gone, self.slept))
        self.slept = False

    def called(self) -> Iterator[tuple[str, float, float]]:
        """What must be called, for how long by now and how much longer: by the gates themselves.

        A gate is an instant of the wall clock as it stood when it was worked out; a step too small
        to be noticed moves the clock and not the gate, so both are held on the time since boot.
        """
        reading = self.bench.clock.read()
        for batch in self.bench.cure.running():
            view = self.bench.cure.view(batch)
            assert view is not None
            if self._views.get(batch, (None, 0.0))[0] is not view:
                born = reading.since_boot - (reading.utc - view.worked_out)
                self._views[batch] = view, born
            now = view.worked_out + reading.since_boot - self._views[batch][1]
            for key, begins, ends in self.windows(batch, view):
                yield key, now - begins, ends - now

    @staticmethod
    def windows(batch: str, view: CureView) -> Iterator[tuple[str, float, float]]:
        """When each call begins and ends."""
        by, held, out = view.stage("pressurise"), view.stage("hold"), view.stage("demould")
        if view.batch.at_pressure is not None:
            if held is not None and held.gate is not None:
                yield f"hold_over/{batch}", float(held.gate), held.gate + KEPT
        elif by is not None and by.gate is not None:
            gate = float(by.gate)
            yield f"pressurise_soon/{batch}", gate - SOON, gate - NOW
            yield f"pressurise_now/{batch}", gate - NOW, gate
            yield f"pressurise_missed/{batch}", gate, gate + KEPT
        if out is not None and out.gate is not None:
            yield f"demould/{batch}", float(out.gate), out.gate + KEPT

    def awake(self, seconds: float) -> None:
        """Time goes by with the machine awake; each second is looked at where something is due."""
        left = seconds
        while left > 0:
            stride = min(left, max(1.0, self.soonest() - 3.0))
            self.bench.clock.advance(stride)
            self.true += stride
            left -= stride
            self.look()

    def soonest(self) -> float:
        """How far the next gate of a hazard or a release is away, by the views and not the alarms."""
        now, found = self.bench.now, 1e9
        for batch in self.bench.cure.running():
            view = self.bench.cure.view(batch)
            for stage in view.stages if view is not None else ():
                if stage.gate is None:
                    continue
                for ahead in (0.0, NOW, SOON):
                    left = stage.gate - ahead - now
                    if left > -3.0:
                        found = min(found, max(left, 0.0))
        return found

    def reopen(self) -> None:
        """The program starts anew on the same folder."""
        self.bench = self.bench.again()
        self.bench.alarms.changed.connect(lambda _: self.note())
        self._seen = {alarm.row.seq for alarm in self.bench.alarms.book.alarms.values()}

    def gates(self) -> dict[str, float]:
        """Gates on the scale of true time."""
        now, found = self.bench.now, {}
        for batch in self.bench.cure.running():
            view = self.bench.cure.view(batch)
            for stage in view.stages if view is not None else ():
                if stage.gate is not None:
                    found[f"{batch}/{stage.aim}/{stage.kind}"] = self.true + stage.gate - now
        return found

    def held(self) -> float:
        """Age of the oldest view: where no age is credited a gate moves on with each new one."""
        views = [self.bench.cure.view(batch) for batch in self.bench.cure.running()]
        return max((self.bench.now - view.worked_out for view in views if view), default=0.0)


def begun(folder: Path, start: float, zone: str | int, warm: float | None) -> Shop:
    """A shop with a pot under pressure, a batch in it and one outside."""
    shop = Shop(folder, ManualClock(start, zone))
    bench = shop.bench
    pot = bench.plate()
    held = bench.mixed("held", warm)
    bench.batches.load(held, pot)
    outside = bench.mixed("outside", warm)
    bench.batches.poured(outside)
    shop.true = 0.0
    return shop


def week(seed: int, tally: Tally) -> None:
    """Live through one week twice."""
    rng = random.Random(seed)
    start = rng.choice(CHANGES) + rng.uniform(-2, 2) * DAY
    zone, warm = rng.choice(ZONES), rng.choice((None, 16.0, 20.0, 23.0, 27.0))
    with tempfile.TemporaryDirectory(dir=MEMORY) as folder:
        plain = begun(Path(folder, "plain"), start, zone, warm)
        faulty = begun(Path(folder, "faulty"), start, zone, warm)
        doubted = False
        while plain.true < WEEK:
            doubted |= befall(rng, plain, faulty)
            compare(seed, plain, faulty, tally, doubted=doubted)
        tally.doubts += doubted
        for shop in (plain, faulty):
            nothing_by_itself(seed, shop, tally)
            shop.bench.close()


def befall(rng: random.Random, plain: Shop, faulty: Shop) -> bool:
    """One thing happens to both, or to the second alone; whether its clock may be in doubt now."""
    kind = rng.choice(("awake", "awake", "suspend", "reboot", "step", "zone", "reading", "long"))
    if kind == "awake":
        both_awake(plain, faulty, rng.uniform(10, 40) * MINUTE)
    elif kind in ("suspend", "long"):
        length = rng.uniform(0.1, 10) * HOUR if kind == "suspend" else rng.uniform(10, 40) * HOUR
        for shop in (plain, faulty):
            asleep(shop, length)
    elif kind == "reading" and rng.random() < 0.7:
        celsius = rng.uniform(12.0, 30.0)
        for shop in (plain, faulty):
            for batch in shop.bench.cure.running():
                shop.bench.warm(batch, celsius, rng.choice(("resin",)))
            shop.look()
    elif kind == "step":
        faulty.bench.clock.step(rng.choice(STEPS))
        faulty.look()
    elif kind == "zone":
        faulty.bench.clock.set_zone(rng.choice(ZONES))
        faulty.look()
    elif kind == "reboot":
        return reboot(rng, plain, faulty)
    return False


def both_awake(plain: Shop, faulty: Shop, seconds: float) -> None:
    for shop in (plain, faulty):
        shop.awake(seconds)


def asleep(shop: Shop, length: float) -> None:
    """The machine sleeps; the first look is within a second of its waking."""
    shop.bench.clock.suspend(length)
    shop.true += length
    shop.slept = True
    shop.bench.clock.advance(1.0)
    shop.true += 1.0
    shop.look()


def reboot(rng: random.Random, plain: Shop, faulty: Shop) -> bool:
    """Off and on again; meanwhile the second one's wall clock may be set.

    One that was set back twice by a year stands before all years that are believed: it measures no
    gap at all, though nobody moved it while the machine was off.
    """
    length = rng.uniform(30.0, 6 * HOUR)
    moved = rng.choice(YEARS_OFF) * (365 + rng.uniform(20, 40)) * DAY
    for shop, step in ((plain, 0.0), (faulty, moved)):
        shop.bench.session.beat()
        shop.bench.clock.reboot(length)
        shop.true += length
        if step:
            shop.bench.clock.step(step)
        shop.slept = True
        shop.reopen()
        shop.look()
    return moved != 0.0 or not EARLIEST <= faulty.bench.now < LATEST


def compare(seed: int, plain: Shop, faulty: Shop, tally: Tally, *, doubted: bool) -> None:
    """Hazards no later, releases no earlier, time right, no alarm late."""
    true, seen, held = plain.gates(), faulty.gates(), faulty.held()
    tally.looks += len(true)
    for key, gate in true.items():
        _, aim, kind = key.split("/")
        other = seen.get(key)
        if kind == "hazard" and (other is None or other > gate + 2.0):
            tally.fail(f"week {seed}: {aim} later by {None if other is None else other - gate}")
        if kind == "release" and other is not None and other < gate - 2.0 - held:
            tally.fail(f"week {seed}: {aim} earlier by {gate - other:.0f} s")
    for shop in (plain, faulty):
        elapsed(seed, shop, tally, doubted=doubted and shop is faulty)
        lateness(seed, shop, tally)


def elapsed(seed: int, shop: Shop, tally: Tally, *, doubted: bool) -> None:
    """The range holds the true time; without a doubt it is right to a second a day."""
    for batch in shop.bench.cure.running():
        row = shop.bench.batches.get(batch).cups[0].contact_row
        assert row is not None
        span = shop.bench.session.elapsed(row)
        if not span.low - 2.0 <= shop.true <= span.high + 2.0:
            tally.fail(f"week {seed}: {shop.true:.0f} s are not within {span.low} to {span.high}")
        off = abs(span.likely - shop.true)
        if not doubted:
            tally.drift = max(tally.drift, off / max(1.0, shop.true / DAY))
            if off > A_DAY * max(1.0, shop.true / DAY):
                tally.fail(f"week {seed}: {off:.1f} s off")


def lateness(seed: int, shop: Shop, tally: Tally) -> None:
    """Nothing was due and not called at any look, and nothing was called before it was due.

    A look stands within a second of every instant at which something falls due, so one awake that
    calls all that is due is no later than that; the first look after a sleep is a second after it.
    """
    for key, by, slept in shop.late:
        tally.fail(f"week {seed}: {key} not called {by:.1f} s after it was due, slept: {slept}")
    shop.late.clear()
    for key, due, raised in shop.raised:
        tally.alarms += 1
        if raised < due - 1e-6:
            tally.fail(f"week {seed}: {key} raised before it was due")
    shop.raised.clear()


def nothing_by_itself(seed: int, shop: Shop, tally: Tally) -> None:
    """No batch is finished and no pot is open unless somebody said so."""
    bench = shop.bench
    for batch in bench.batches.ids():
        if bench.batches.get(batch).outcome:
            tally.fail(f"week {seed}: {batch} was finished by itself")
    for pot in bench.pots.ids():
        if bench.pots.state(pot).belief is Belief.OPEN:
            tally.fail(f"week {seed}: {pot} opened by itself")


def run(count: int, seed: int) -> Report:
    """Live through ``count`` weeks."""
    tally = Tally()
    for number in range(count):
        week(seed * 1_000_003 + number, tally)
    figures = {
        "gates compared": tally.looks, "alarms raised": tally.alarms,
        "weeks with a doubted clock": tally.doubts, "most seconds a day off": tally.drift,
    }  # fmt: skip
    return Report(count, seed, tuple(tally.failures), figures)
