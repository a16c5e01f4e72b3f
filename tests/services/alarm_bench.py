"""A shop with its alarms, on a machine whose means the test sets."""

from pathlib import Path

from shopassist.core.alarms.calling import Sound
from shopassist.core.cabinet_watch import Setting
from shopassist.core.messages import Text
from shopassist.core.rows import Row
from shopassist.services import alarm_sources, cabinet_probe
from shopassist.services.alarms import AlarmService
from shopassist.services.means import Battery, Means, NoMachine
from tests.shops import Shop

MINUTE, HOUR = 60.0, 3600.0


class Machine(NoMachine):
    """A machine whose means are set by the test."""

    free: int | None = None
    power: Battery | None = None
    mute: Text | None = None
    sleepy: Text | None = None

    def free_bytes(self) -> int | None:
        return self.free

    def battery(self) -> Battery | None:
        return self.power

    def sound_trouble(self) -> Text | None:
        return self.mute

    def awake_trouble(self) -> Text | None:
        return self.sleepy


class Bench(Shop):
    """A shop with its alarms, looked at once a second."""

    def __init__(self, folder: Path, *args: object) -> None:
        super().__init__(folder, *args)  # type: ignore[arg-type]
        self.machine = Machine()
        self.setting: Setting | None = None
        """Of the cabinet in use."""
        self.means = Means(
            self.session, self.clock, self.machine, lambda: bool(self.cure.running())
        )
        self.session.trouble.connect(self.means.log_failed)
        self.alarms = AlarmService(
            self.journal, self.clock,
            (
                alarm_sources.cures(self.cure, self.pots), alarm_sources.of_pots(self.pots),
                self.waits.causes,
                cabinet_probe.cabinet(
                    lambda: self.setting, lambda: cabinet_probe.probes_of(self.cure)
                ),
            ),
            self.session.beat, (self.means.causes,),
        )  # fmt: skip
        self.alarms.lost.connect(self.means.log_failed)
        self.bursts: list[Sound] = []
        self.alarms.sounded.connect(self.bursts.append)
        for hook in (self.batches.changed, self.pots.changed):
            hook.connect(lambda _: self.alarms.renew())
        self.waits.changed.connect(lambda _: self.alarms.renew())
        self.alarms.start()
        self.clock.moved = None

    def live(self, seconds: float, step: float = 1.0) -> None:
        """Let awake time go by, looked at each second."""
        for _ in range(round(seconds / step)):
            self.clock.advance(step)
            self.alarms.tick()

    def asleep(self, seconds: float) -> None:
        self.clock.suspend(seconds)
        self.live(1)

    def kinds(self) -> list[str]:
        return [alarm.kind for alarm in self.alarms.book.alarms.values()]

    def gate(self, batch: str, aim: str) -> float:
        view = self.cure.view(batch)
        assert view is not None
        stage = view.stage(aim)  # type: ignore[arg-type]
        assert stage is not None
        assert stage.gate is not None
        return float(stage.gate)

    def again(self) -> "Bench":
        self.journal.close()
        return Bench(self.folder, self.clock)

    def rows(self) -> tuple[Row, ...]:
        return self.journal.read("alarms")


def until(bench: Bench, instant: float) -> None:
    """Awake up to an instant, slowly only at the end."""
    left = instant - bench.now
    bench.live(max(0.0, left - 5), 5.0)
    bench.live(max(0.0, instant - bench.now))
