"""Loggers that feed cures: which cure, how wide, and what is told when they fail."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from shopassist.core.cabinet_watch import astray
from shopassist.core.civil import civil
from shopassist.core.errors import StoreError
from shopassist.core.quantities import Kelvin
from shopassist.core.thermometers.record import WAYS, Thermometer, thermometer_from_mapping
from shopassist.services.thermometers import Cures, Followed, ThermometerService
from shopassist.services.versions import Library
from tests.shops import Shop


class Tape:
    """A feed that the test fills."""

    def __init__(self, way: str) -> None:
        self.new: list[str] = []
        self.top: tuple[str, ...] = () if way == WAYS[1] else ("time;temp °C",)
        self.broken = self.closed = False

    def lines(self) -> tuple[str, ...]:
        if self.broken:
            raise OSError(5, "unplugged")
        found, self.new = tuple(self.new), []
        return found

    def head(self) -> tuple[str, ...]:
        return self.top

    def close(self) -> None:
        self.closed = True


class Bench(Shop):
    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        self.tapes: list[Tape] = []
        self.records: Library[Thermometer] = Library(
            self.journal, "thermometer",
            lambda mapping: thermometer_from_mapping(mapping, self.words.read_si),
        )  # fmt: skip
        self.service = ThermometerService(
            self.records, self.journal, Cures(self.batches, self.cure, self.hand), self.clock,
            self.open,
        )  # fmt: skip
        self.told = 0
        self.service.changed.connect(lambda _: self.count())

    def count(self) -> None:
        self.told += 1

    def open(self, thermometer: Thermometer) -> Tape:
        self.tapes.append(Tape(thermometer.way))
        return self.tapes[-1]

    def enter(self, measures: str = "resin", way: str = WAYS[0], **more: str) -> str:
        mapping = {"name": "Logger", "way": way, "from": "x", "measures": measures, **more}
        version, problems = self.records.save(mapping)
        assert version is not None, problems
        return version.id

    def stamp(self, shift: float = 0.0) -> str:
        here = civil(self.now + shift + 3600)
        return (
            f"{here.day}.{here.month}.{here.year} {here.hour:02}:{here.minute:02}:{here.second:02}"
        )

    def log(self, minutes: int, celsius: float, shift: float = 0.0) -> None:
        """A line a minute, with a decimal comma."""
        for _ in range(minutes):
            self.clock.advance(60)
            self.tapes[-1].new.append(f"{self.stamp(shift)};{celsius:.1f}".replace(".", ",", 0))
            self.service.poll()

    def troubled(self) -> bool:
        return self.followed.trouble is not None

    @property
    def followed(self) -> Followed:
        return self.service.all()[0]


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    made = Bench(tmp_path)
    yield made
    made.service.close()
    made.close()


def test_a_logger_feeds_the_batch_in_hand_with_few_readings_and_keeps_every_sample(
    bench: Bench,
) -> None:
    bench.enter()
    batch = bench.mixed(celsius=None)
    bench.log(30, 24.0)
    warmth = bench.batches.get(batch).warmth
    assert 4 <= len(warmth) <= 6
    assert all(each.where == "resin" for each in warmth)
    assert warmth[-1].low == pytest.approx(297.15)
    rows = [row for s in bench.journal.streams("thermometer/") for row in bench.journal.read(s)]
    kept = [sample for row in rows for sample in bench.journal.block(row)]
    assert len(kept) >= 24
    assert bench.told >= 30


@pytest.mark.parametrize(
    ("measures", "fed"),
    [("resin", {"two"}), ("mould", {"two"}), ("shop", {"one", "two"}), ("cabinet air", {"one", "two"}),
     ("pot wall", {"one"})],
)  # fmt: skip
def test_each_feeds_the_cures_that_it_concerns(bench: Bench, measures: str, fed: set[str]) -> None:
    bench.enter(measures)
    one = bench.mixed("one", celsius=None)
    bench.batches.load(one, "pot")
    bench.mixed("two", celsius=None)
    bench.log(12, 22.0)
    found = {
        bench.batches.get(each).name
        for each in bench.batches.ids()
        if bench.batches.get(each).warmth
    }
    assert found == fed


def test_air_is_not_resin_its_range_is_widened(bench: Bench) -> None:
    bench.enter("shop")
    batch = bench.mixed(celsius=None)
    bench.log(12, 22.0)
    view = bench.cure.view(batch)
    assert view is not None
    assert view.ahead.low == pytest.approx(295.15 - 3)
    assert view.ahead.high == pytest.approx(295.15 + 3)


def test_what_was_before_hardener_belongs_to_no_cure(bench: Bench) -> None:
    bench.enter()
    bench.log(12, 22.0)
    batch = bench.mixed(celsius=None)
    bench.tapes[-1].new.append(f"{bench.stamp(-4000)};22.0")
    bench.service.poll()
    bench.log(2, 22.0)
    assert bench.batches.get(batch).warmth == ()


def test_a_clock_that_is_ahead_is_told_and_set_right_by_its_record(bench: Bench) -> None:
    record = bench.enter()
    batch = bench.mixed(celsius=None)
    bench.log(10, 22.0, shift=600)
    assert bench.troubled()
    assert bench.batches.get(batch).warmth == ()
    mapping = {
        "name": "Logger",
        "way": WAYS[0],
        "from": "x",
        "measures": "resin",
        "ahead": "10 min",
    }
    bench.records.save(mapping, record)
    assert bench.tapes[0].closed
    bench.log(10, 22.0, shift=600)
    assert not bench.troubled()
    assert bench.batches.get(batch).warmth[-1].at == pytest.approx(bench.now, abs=301)


def test_a_probe_in_the_cabinet_is_at_hand_while_nothing_cures(bench: Bench) -> None:
    bench.enter("cabinet air")
    bench.log(12, 25.5)
    probes = list(bench.service.probes())
    assert [each.low for each in probes] == [pytest.approx(298.65)] * 2
    assert not any(each.loaded for each in probes)
    assert astray(probes, Kelvin(294.26)) is not None
    bench.enter("shop")
    assert len(list(bench.service.probes())) == 2


def test_a_serial_line_is_timed_by_its_coming(bench: Bench) -> None:
    bench.enter(way=WAYS[1])
    batch = bench.mixed(celsius=None)
    for _ in range(7):
        bench.clock.advance(60)
        bench.tapes[-1].new += ["T=21.5 C", "ready"]
        bench.service.poll()
    (reading,) = bench.batches.get(batch).warmth
    assert reading.low == pytest.approx(294.65)
    assert bench.followed.passed_over == 7


def test_one_that_fails_or_says_nothing_is_told_and_comes_back(bench: Bench) -> None:
    bench.enter()
    bench.mixed(celsius=None)
    bench.tapes[-1].broken = True
    bench.service.poll()
    assert bench.troubled()
    bench.tapes[-1].broken = False
    bench.log(1, 22.0)
    assert not bench.troubled()
    bench.clock.suspend(1000)
    bench.service.poll()
    assert bench.troubled()


def test_one_that_was_removed_or_is_broken_is_not_followed(bench: Bench) -> None:
    record = bench.enter()
    bench.records.remove(record)
    assert bench.service.all() == ()
    assert bench.tapes[0].closed


def test_lines_that_show_nothing_are_counted(bench: Bench) -> None:
    bench.enter()
    bench.tapes[-1].top = ()
    bench.tapes[-1].new = ["no numbers here", "nor here"]
    bench.service.poll()
    assert bench.followed.passed_over == 2
    assert bench.followed.latest is None


# -- a program that is closed, a file that is another ------------------------------------------


def test_a_file_that_is_read_again_after_a_restart_is_taken_up_where_it_was_left(
    bench: Bench,
) -> None:
    record = bench.enter()
    batch = bench.mixed(celsius=None)
    bench.log(14, 24.0)
    before = bench.batches.get(batch).warmth
    whole = [f"{bench.stamp(60.0 * n)};24.0" for n in range(-13, 1)]
    bench.records.save({"name": "Logger", "way": WAYS[0], "from": "x", "measures": "resin"}, record)
    bench.tapes[-1].new += whole
    bench.service.poll()
    assert bench.batches.get(batch).warmth == before
    bench.log(8, 24.0)
    after = bench.batches.get(batch).warmth
    assert after[: len(before)] == before
    assert len(after) > len(before)
    for one, other in pairwise(after):
        assert other.since is not None
        assert one.at <= other.since


def test_samples_that_cannot_be_trusted_do_not_keep_the_file_from_being_read(
    bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = bench.enter()
    batch = bench.mixed(celsius=None)
    bench.log(12, 24.0)

    def refuse(_: object) -> None:
        raise StoreError("The block is not what its row says.")

    monkeypatch.setattr(bench.journal, "block", refuse)
    bench.records.save({"name": "Logger", "way": WAYS[0], "from": "x", "measures": "resin"}, record)
    bench.log(12, 25.0)
    assert bench.batches.get(batch).warmth[-1].high == pytest.approx(298.15)


def test_the_file_of_a_new_day_may_have_its_columns_otherwise(bench: Bench) -> None:
    bench.enter()
    batch = bench.mixed(celsius=None)
    bench.log(10, 24.0)
    tape = bench.tapes[-1]
    tape.top = ("humidity;temp °C;time",)
    tape.new += tape.top
    for _ in range(12):
        bench.clock.advance(60)
        tape.new.append(f"45,0;26,5;{bench.stamp()}")
        bench.service.poll()
    newest = bench.batches.get(batch).warmth[-1]
    assert newest.low == newest.high == pytest.approx(299.65)


# -- the change of the clocks -----------------------------------------------------------------------


class Abroad(Bench):
    """A shop in Denver, its logger's clock on the wall's."""

    def __init__(self, folder: Path, start: float) -> None:
        self._start = start
        super().__init__(folder)
        self.clock.set_zone("America/Denver")
        self.clock.suspend(start - self.now)

    def shown(self, utc: float) -> str:
        here = civil(utc + self.clock.offset_at(utc))
        return f"{here.day}.{here.month}.{here.year} {here.hour:02}:{here.minute:02}:00;24.0"


SPRING, AUTUMN = 1_805_014_800.0, 1_793_520_000.0
"""14 March 2027, 09:00 UTC: two becomes three; 1 November 2026, 08:00 UTC: two becomes one."""


@pytest.mark.parametrize("change", [SPRING, AUTUMN], ids=["forward", "back"])
def test_a_logger_on_local_time_loses_no_line_when_the_clocks_change(
    tmp_path: Path, change: float
) -> None:
    """Case X03: from three hours before to nine hours after it, every line at its own instant."""
    made = Abroad(tmp_path, change - 3 * 3600)
    made.enter()
    batch = made.mixed(celsius=None)
    for _ in range(12 * 6):
        made.clock.advance(600)
        made.tapes[-1].new.append(made.shown(made.now))
        made.service.poll()
        assert made.followed.trouble is None
        assert made.followed.latest is not None
        assert made.followed.latest[0] == pytest.approx(made.now, abs=60)
    assert made.batches.get(batch).warmth[-1].at == pytest.approx(made.now, abs=1200)
    made.close()


def test_a_file_of_the_whole_night_is_read_in_its_order_over_the_hour_that_comes_twice(
    tmp_path: Path,
) -> None:
    made = Abroad(tmp_path, AUTUMN + 4 * 3600)
    made.enter()
    made.mixed(celsius=None)
    made.clock.advance(60)
    night = [AUTUMN - 3 * 3600 + 600 * n for n in range(6 * 7)]
    made.tapes[-1].new += [made.shown(utc) for utc in night]
    made.service.poll()
    rows = [row for s in made.journal.streams("thermometer/") for row in made.journal.read(s)]
    kept = [at for row in rows for at, _ in made.journal.block(row)]
    kept += [at for at, _ in made.followed.waiting]
    assert kept == pytest.approx(night)
    made.close()


def test_a_logger_that_nobody_put_forward_is_an_hour_late_and_not_refused(tmp_path: Path) -> None:
    """Its half past two, which no clock of the shop showed, is half past three there."""
    made = Abroad(tmp_path, SPRING + 1800)
    made.enter()
    made.mixed(celsius=None)
    made.tapes[-1].new.append("14.3.2027 02:30:00;24.0")
    made.service.poll()
    assert made.followed.latest is not None
    assert made.followed.latest[0] == pytest.approx(SPRING + 1800)
    made.close()


@pytest.mark.parametrize("into", [-2400, 1200])
def test_begun_in_the_hour_that_comes_twice_a_logger_is_not_an_hour_out(
    tmp_path: Path, into: float
) -> None:
    made = Abroad(tmp_path, AUTUMN + into)
    made.enter()
    made.mixed(celsius=None)
    made.tapes[-1].new.append(made.shown(made.now))
    made.service.poll()
    assert made.followed.latest is not None
    assert made.followed.latest[0] == pytest.approx(made.now)
    made.close()
