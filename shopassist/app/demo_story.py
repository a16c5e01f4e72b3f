"""What happened in the invented shop: drawer knobs, clear resin over burr elm."""

from collections.abc import Mapping, Sequence
from typing import Any

from shopassist.app.demo_wood import blank_of_knobs, stabilise_knobs
from shopassist.app.foundation import Foundation
from shopassist.app.services import Services, build_services, start_services
from shopassist.clock.manual import ManualClock
from shopassist.core.batch import Typed
from shopassist.core.errors import ShopError
from shopassist.core.messages import Text
from shopassist.core.pot.events import Answer, Event, Press
from shopassist.core.pot.events import Typed as Reading
from shopassist.core.pot.words import Act, Item, Sign
from shopassist.core.quantities import Kelvin, Kilogram, UtcSecond
from shopassist.core.rows import Json
from shopassist.services.session import Session
from shopassist.services.settings import SettingsService
from shopassist.services.versions import Library
from shopassist.store.journal import SqliteJournal
from shopassist.store.paths import Paths

BAR = 1e5
HOLD = 2.76 * BAR
ZERO_CELSIUS = 273.15
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
FIRST_MIX, SECOND_MIX = DAY * 4 + HOUR * 3, MINUTE * 66
"""How long before the demo starts hardener went in, of the finished and of the running batch."""
STABILISING = HOUR * 44
"""How long before the mix the cores of the running batch were first weighed."""


class Forgetful:
    """Keeps the settings and the window state of the story nowhere."""

    problems: tuple[Text, ...] = ()

    def __init__(self) -> None:
        self._kept: dict[str, str] = {}

    def get(self, key: str) -> str:
        """What was kept for the length of the story."""
        return self._kept.get(key, "")

    def put(self, key: str, value: str) -> None:
        """Keep for the length of the story."""
        self._kept[key] = value

    def load(self) -> dict[str, Json]:
        """Nothing was kept."""
        return {}

    def save(self, values: Mapping[str, Json]) -> None:
        """Keep nothing."""


class Story:
    """The invented shop's week, acted out on the real services."""

    def __init__(
        self, paths: Paths, journal: SqliteJournal, clock: ManualClock, now: float
    ) -> None:
        kept = Forgetful()
        self._session = Session(journal, clock)
        base = Foundation(
            paths,
            clock,
            journal,
            self._session,
            SettingsService(kept),
            kept,  # type: ignore[arg-type]
        )
        found = self._session.start()
        self.made: Services = build_services(base)
        start_services(self.made, base, found)
        self._clock, self._now = clock, now
        clock.moved = self._session.beat
        self._pot = ""

    def shelve(self, kind: str, mappings: Sequence[Mapping[str, object]]) -> None:
        """Put scales, colours, lots, pumps or baths on the shelf."""
        libraries: dict[str, Library[Any]] = {
            "scale": self.made.scales, "colour": self.made.colours, "lot": self.made.lots,
            "pump": self.made.pumps, "bath": self.made.baths,
        }  # fmt: skip
        for mapping in mappings:
            self._save(libraries[kind].save(mapping))

    def tell(
        self,
        sheets: Sequence[Mapping[str, object]],
        pots: Sequence[Mapping[str, object]],
        cabinets: Sequence[Mapping[str, object]] = (),
        chambers: Sequence[Mapping[str, object]] = (),
    ) -> str:
        """Act everything out up to now; the batch that is in hand then."""
        for mapping in sheets:
            self._save(self.made.sheets.save(mapping))
        for mapping in pots:
            self._pot = self._save(self.made.plates.save(mapping))
        for mapping in cabinets:
            self._save(self.made.cabinets.save(mapping))
        for mapping in chambers:
            self._save(self.made.chambers.save(mapping))
        self._finished()
        later = self.made.batches.open("Finials 3")
        batch = self._stabilised()
        self._drying(later)
        self._running(batch)
        self._until(0.0)
        self._session.end()
        return batch

    @staticmethod
    def _save(saved: tuple[object, Sequence[object]]) -> str:
        version, problems = saved
        if version is None:
            raise ShopError(f"A record of the demo is broken: {problems}")
        return str(getattr(version, "id", ""))

    def _until(self, before_now: float) -> None:
        """Let the time go by until so long before now; the heartbeat goes on."""
        left = self._now - before_now - float(self._clock.read().utc)
        if left > HOUR:
            # The laptop sleeps meanwhile, as laptops do.
            self._clock.suspend(left - MINUTE)
            left = MINUTE
        self._clock.advance(max(0.0, left))

    # -- batches ----------------------------------------------------------------------------

    def _mix(self, batch: str, amount: str, value: float, grams: tuple[float, float]) -> str:
        batches = self.made.batches
        self.made.hand.take_batch(batch)
        sheet = next(v for v in self.made.sheets.all() if v.id == "slow-clear")
        batches.use_sheet(batch, sheet.id, sheet.number)
        batches.enter(batch, "amount", Typed(amount, value, "CubicMetre"))
        batches.add_temperature(batch, _celsius(21.0), _celsius(21.0), "shop")
        batches.weigh(batch, 1, "a", Kilogram(grams[0] / 1000))
        batches.weigh(batch, 1, "b", Kilogram(grams[1] / 1000))
        batches.hardener_in(batch, 1)
        self._from_lots(batch, grams)
        self._clock.advance(18 * MINUTE)
        batches.poured(batch)
        return batch

    def _from_lots(self, batch: str, grams: tuple[float, float]) -> None:
        """Both parts come out of the lots on the shelf."""
        lots = {v.record.lot.part: v.id for v in self.made.lots.all() if v.record is not None}
        taken = zip(lots.items(), grams, strict=True)
        self.made.batches.draw(
            batch, [(lot, part, Kilogram(mass / 1000)) for (part, lot), mass in taken]
        )

    def _finished(self) -> None:
        """Knobs 11: held, let down by the list, opened, good."""
        self._until(FIRST_MIX)
        batches = self.made.batches
        batch = self._mix(batches.open("Knobs 11"), "196 ml", 1.96e-4, (177.6, 53.2))
        self._close_and_fill()
        self._clock.advance(30 * MINUTE)
        batches.add_temperature(batch, _celsius(20.5), _celsius(20.5), "resin")
        self._clock.suspend(11 * HOUR)
        self._let_down()
        batches.add_temperature(batch, _celsius(19.5), _celsius(19.5), "shop")
        self._clock.suspend(20 * HOUR)
        batches.see(batch, "nail-hard")
        batches.close(batch, "good")
        batches.next_time(batch, "warm the moulds a little longer")

    def _stabilised(self) -> str:
        """Knobs 12: the cores dried, stabilised and baked, then measured for their moulds."""
        self._until(SECOND_MIX + STABILISING)
        batch = self.made.batches.open("Knobs 12")
        self.made.hand.take_batch(batch)
        stabilise_knobs(self.made, self._clock, batch)
        self._until(SECOND_MIX + HOUR)
        blank_of_knobs(self.made, batch)
        return batch

    def _drying(self, batch: str) -> None:
        """Finials 3: cores turned yesterday, since then in the oven."""
        plan = self.made.plan
        now = float(self._clock.read().utc)
        plan.start(batch, "rough", UtcSecond(now - 20 * HOUR))
        plan.end(batch, "rough", UtcSecond(now - 19 * HOUR))
        plan.start(batch, "dry", UtcSecond(now - 19 * HOUR))

    def _running(self, batch: str) -> None:
        """Knobs 12: at pressure, the gel still to come."""
        self._until(SECOND_MIX)
        self._mix(batch, "214 ml", 2.14e-4, (194.6, 58.6))
        self._close_and_fill()
        self._clock.advance(10 * MINUTE)
        self.made.batches.add_temperature(batch, _celsius(21.5), _celsius(21.5), "pot wall")

    # -- the pot -----------------------------------------------------------------------------

    def _do(self, *events: Event) -> None:
        for event in events:
            refusal = self.made.pots.act(self._pot, event)
            if refusal is not None:
                raise ShopError(refusal.reason)

    def _close_and_fill(self) -> None:
        state = self.made.pots.state(self._pot)
        if state.belief != "open":
            self._do(Answer(Item.LID_OFF_NOW, "inside_seen"))
        if state.find(Item.AFTERCARE) is None:
            self._do(Answer(Item.AFTERCARE, "cleaned"))
        plate = self.made.pots.state(self._pot).plate
        holes = plate.holes.all() if plate is not None else ()
        clamps = float(plate.clamps) if plate is not None else 0.0
        self._do(
            Answer(Item.RUN, "casting"),
            _reading(Item.HOLD_PRESSURE, HOLD),
            Answer(Item.RING, "snaps_back"),
            *(Answer(Item.HOLE, "clear", hole) for hole in holes),
            Answer(Item.GASKET, "clean"),
            _reading(Item.BASELINE, 0.0),
            Reading(Item.CLAMPS, clamps, f"{clamps:g}"),
            Answer(Item.DRY_FIT, "fits"),
            Answer(Item.PLACE, "stays"),
            Answer(Item.CLAMPS_ROUND, "all_round"),
            Reading(Item.CLAMP_COUNT, clamps, f"{clamps:g}"),
            Press(Act.AIR_ON),
            _reading(Item.FIRST_AIR, 0.7 * BAR),
            Answer(Item.REGULATOR, "agrees"),
            Answer(Item.LID_HISS, "none"),
        )
        self._clock.advance(3 * MINUTE)
        self._do(_reading(Item.AT_PRESSURE, HOLD), Answer(Item.SUPPLY, "isolated"))

    def _let_down(self) -> None:
        self._do(
            Press(Act.LET_DOWN),
            Answer(Item.INLET, "shut"),
            Answer(Item.HOSE_BLED, "bled"),
            Answer(Item.HOSE, "apart"),
            Answer(Item.EYES, "covered"),
            Answer(Item.VENT, "opened_hiss"),
        )
        self._clock.advance(MINUTE)
        self._do(_reading(Item.FALL_FIRST, 1.3 * BAR))
        self._clock.advance(MINUTE)
        self._do(
            _reading(Item.FALL_SECOND, 1.29 * BAR),
            Answer(Item.VENT_AGAIN, "open"),
            Answer(Item.FALL_SPEED, "slowly"),
        )
        self._clock.advance(2 * MINUTE)
        self._do(_reading(Item.ZERO, 0.0))
        self._clock.advance(10 * MINUTE)
        for sign in (Sign.VENT, Sign.TEST_VALVE):
            self._do(Answer(Item.SIGN, sign), Answer(Item.SIGN_SEEN, "none", sign))
        self._do(
            _reading(Item.ZERO_AGAIN, 0.0),
            Answer(Item.INLET_NOW, "shut"),
            Answer(Item.HOSE_NOW, "apart"),
            Answer(Item.VENT_NOW_SEEN, "open"),
            Press(Act.CONFIRM),
        )
        plate = self.made.pots.state(self._pot).plate
        for _ in range(plate.passes if plate is not None else 0):
            self._do(Answer(Item.SLACKEN, "done"))
        self._do(
            Answer(Item.ROCK, "free"),
            Answer(Item.LID_OFF, "inside_seen"),
            Answer(Item.AFTERCARE, "cleaned"),
        )


def _celsius(value: float) -> Kelvin:
    return Kelvin(value + ZERO_CELSIUS)


def _reading(item: Item, value: float) -> Reading:
    return Reading(item, value, f"{value / BAR:.2f}", "bar")
