"""Joins the alarms: service, means, sound, wakefulness, band, the view they fill, the list.

Built after the first paint, so that a start costs nothing more; what was missed by then is raised
at its first look, with its lateness.
"""

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress

from shopassist.app.foundation import Foundation
from shopassist.app.services import Services
from shopassist.core.alarms.calling import Sound, answered, unanswered
from shopassist.core.alarms.table import RANKS, Priority
from shopassist.core.cabinet_watch import Probe
from shopassist.core.errors import StoreError
from shopassist.core.messages import Text
from shopassist.core.thermometers.lines import Order
from shopassist.desktop.awake import WakeLock
from shopassist.desktop.machine import ThisMachine
from shopassist.desktop.sound import Sounder
from shopassist.desktop.thermometers import open_feed
from shopassist.services import alarm_sources, cabinet_probe
from shopassist.services.alarms import AlarmService, Standing
from shopassist.services.means import Means
from shopassist.services.next import Due
from shopassist.services.thermometers import Cures, ThermometerService
from shopassist.shell import alarms as words
from shopassist.shell.main_window import MainWindow
from shopassist.widgets.alarm_card import AlarmCard
from shopassist.widgets.alarm_view import AlarmView
from shopassist.widgets.look import Look
from shopassist.widgets.shown import AlarmShown
from shopassist.widgets.ticker import Ticker

POLL = 5.0
"""The thermometers are looked at so often, [s]."""
ORDERS: dict[str, Order] = {"day": "dmy", "month": "mdy", "year": "ymd"}
AWAKE_BEFORE = 1800.0
"""The machine is kept awake so long before an alarm above low; ours, [s]."""
PROBE = 600.0
"""While one is near the way of the sound is tried so often, without a sound; ours, [s]."""
HEARD = "sound_heard"
"""Where the window's state keeps when a test was last heard."""


class AlarmDesk:
    """What the window, the loudspeaker and the person have to do with alarms."""

    def __init__(
        self,
        base: Foundation,
        made: Services,
        window: MainWindow,
        look: Look,
        ticker: Ticker,
        dues: Callable[[], Iterable[Due]],
    ) -> None:  # fmt: skip
        self._base, self._made, self._window, self._look = base, made, window, look
        self.sounder, self.lock = Sounder(), WakeLock()
        self.thermometers = ThermometerService(
            made.thermometers, base.journal, Cures(made.batches, made.cure, made.hand), base.clock,
            open_feed,
        )  # fmt: skip
        machine = ThisMachine(base.paths.data, self._mute, lambda: self.lock.trouble)
        self.means = Means(base.session, base.clock, machine, self._busy)
        self.service = AlarmService(
            base.journal, base.clock,
            (
                alarm_sources.cures(made.cure, made.pots), alarm_sources.of_pots(made.pots),
                alarm_sources.waits(dues), made.waits.causes,
                alarm_sources.ovens(lambda: made.stabilise.too_hot()),  # noqa: PLW0108 - later
                alarm_sources.thermometers(self.thermometers),
                cabinet_probe.cabinet(made.cabinet_in_use, self._probes),
            ),
            base.session.beat, (self.means.causes,),
        )  # fmt: skip
        self.view = AlarmView(look, "alarm.view", ticker, window.board)
        self.view.hide()
        self._message: AlarmShown | None = None
        self._taken: set[str] = set()
        self._asks = self._quiet = False
        self._probe_at = 0.0
        self._join()
        self.service.start()
        self._stop_polling = ticker.every(POLL, self._poll)

    def _join(self) -> None:
        made, band, view = self._made, self._window.alarm_band, self.view
        for hook in (made.batches.changed, made.pots.changed, self._base.session.findings):
            hook.connect(lambda _: self.service.renew())
        made.waits.changed.connect(lambda _: self.service.renew())
        made.pots.alarm.connect(self._log_failed)
        self._base.session.trouble.connect(self._log_failed)
        self.service.lost.connect(self._log_failed)
        self.service.changed.connect(lambda _: self.draw())
        self.service.sounded.connect(self._sound)
        band.acknowledged.connect(self.acknowledge)
        band.silenced.connect(self.service.silence)
        view.acknowledged.connect(self.acknowledge)
        view.silenced.connect(self.service.silence)
        view.left.connect(self._window.leave_over)

    def _probes(self) -> Iterator[Probe]:
        """Everything that was read in the cabinet's air lately."""
        yield from cabinet_probe.probes_of(self._made.cure)
        yield from self.thermometers.probes()

    def _busy(self) -> bool:
        """Whether a cure runs or a pot may hold air."""
        return bool(self._made.cure.running()) or self._made.pots.holds_air()

    def _mute(self) -> Text | None:
        return self.sounder.trouble if self._base.settings.now.sound else None

    def _log_failed(self, _: object) -> None:
        self.means.log_failed()
        self.service.renew()

    # -- each second and each minute -----------------------------------------------------------

    def tick(self) -> None:
        """Look at the clock, and show a silence running out."""
        if self.sounder.look():
            self.service.renew()
        self.service.tick()
        if self._quiet or self.service.book.silence is not None:
            quiet = self.service.silenced()
            if quiet or self._quiet:
                self._quiet = quiet
                self.draw()

    def minute(self) -> None:
        """Stay awake only in the windows, and see then whether sound would go out; ages anew."""
        near, now = self.service.soon(AWAKE_BEFORE), self._base.clock.read().since_boot
        if near and self._base.settings.now.sound and now >= self._probe_at:
            self._probe_at = now + PROBE
            self.sounder.probe()
        self.lock.want(awake=near or self._made.pots.inhibits_sleep())
        self.draw()

    def _poll(self) -> None:
        """Look at the thermometers; a log that cannot be written is told by its own alarm."""
        with suppress(StoreError):
            self.thermometers.order = ORDERS[self._base.settings.now.date_order]
            self.thermometers.poll()

    # -- drawing ----------------------------------------------------------------------------------

    def draw(self) -> None:
        """Band, the view they fill, the list."""
        now = float(self._base.clock.read().utc)
        standing = self.service.standing()
        shown = words.band(standing, self._made.wording, now)
        self._draw_band(shown if shown is not None and not _graver(self._message, shown)
                        else self._message)  # fmt: skip
        self._draw_view(standing, shown)
        self._draw_card(now)

    def _draw_band(self, shown: AlarmShown | None) -> None:
        band, before = self._window.alarm_band, self._window.alarm_band.isHidden()
        band.draw(shown)
        if before != band.isHidden():
            self._window.board.arrange()

    def _draw_view(self, standing: Standing | None, shown: AlarmShown | None) -> None:
        fills = shown is not None and words.fills_window(standing) and not self._walk(standing)
        if not fills or standing is None or shown is None:
            if self._window.over is self.view:
                self._window.leave_over()
            return
        self.view.draw(shown)
        if standing.alarm.key not in self._taken:
            self._taken.add(standing.alarm.key)
            self._window.take_over(self.view)

    def _walk(self, standing: Standing | None) -> bool:
        """Nothing covers the list of a pot that is being let down, but that pot's own alarm."""
        if standing is None or not self._made.pots.inhibits_sleep():
            return False
        return standing.alarm.owner not in self._made.pots.ids()

    # -- answers ------------------------------------------------------------------------------

    def acknowledge(self) -> None:
        """The leading alarm was seen; a message is put away."""
        if self._message is not None and self._window.alarm_band.shown == self._message:
            self._message = None
            self.draw()
            return
        standing = self.service.standing()
        if standing is not None:
            self._taken.discard(standing.alarm.key)
        self.service.acknowledge()

    def tell(self, title: str, detail: str) -> None:
        """Show a message that is no alarm: something was refused."""
        self._message = AlarmShown("low", title, detail, "Close", "")
        self.draw()

    # -- sound ------------------------------------------------------------------------------------

    def _sound(self, sound: Sound) -> None:
        if self._base.settings.now.sound:
            self.sounder.play(sound)

    def _test(self, priority: Priority) -> None:
        self.sounder.play(Sound(priority))
        self._asks = True
        self.draw()

    def _heard(self, *, yes: bool) -> None:
        self.sounder.heard(yes=yes)
        if yes:
            now = float(self._base.clock.read().utc)
            self._base.state.put(HEARD, self._made.wording.date(now))
        self._asks = False
        self.service.renew()
        self.draw()

    def _sound_words(self) -> str:
        if not self._base.settings.now.sound:
            return "Sound is switched off: alarms show, and are not heard."
        if self.sounder.trouble is not None:
            return f"No sound: {self._made.wording.say(self.sounder.trouble)}."
        heard = self._base.state.get(HEARD)
        tried = f"Last heard {heard}." if heard else "Never tried on this machine."
        return f"{tried} Try it now, and each Monday: a laptop is not heard beside a lathe."

    # -- the list ---------------------------------------------------------------------------------

    def show_list(self) -> None:
        """Lay the list of alarms and the test of the sound beside the panes."""
        card = AlarmCard(self._look, "alarms")
        card.tested.connect(self._test)
        card.heard.connect(lambda: self._heard(yes=True))
        card.not_heard.connect(lambda: self._heard(yes=False))
        card.closed.connect(self._window.leave_beside)
        self._asks = False
        self._window.show_beside(card)
        self._draw_card(float(self._base.clock.read().utc))
        card.take_focus()

    @property
    def _card(self) -> AlarmCard | None:
        """The list, while it is what stands beside the panes."""
        beside = self._window.board.beside
        return beside if isinstance(beside, AlarmCard) else None

    def _draw_card(self, now: float) -> None:
        card = self._card
        if card is not None:
            book = self.service.book
            found = tuple(
                (alarm, self.service.cause(alarm.key))
                for alarm in (*unanswered(book), *answered(book))
            )
            say = self._made.wording
            card.draw(words.listed(found, self._sound_words(), say, now, asks=self._asks))

    def close(self) -> None:
        """Let go of loudspeaker and wakefulness."""
        self._stop_polling()
        self.thermometers.close()
        self.view.still()
        self._window.alarm_band.draw(None)
        self.sounder.close()
        self.lock.want(awake=False)


def _graver(message: AlarmShown | None, alarm: AlarmShown) -> bool:
    """A message stands before alarms that somebody has seen already, and before low ones."""
    if message is None:
        return False
    return alarm.steady or RANKS[alarm.priority] >= RANKS["low"]
