"""The invariant of the pot as code of its own: judges every grant from the events alone."""

from dataclasses import dataclass, field

from shopassist.core.pot.events import Answer, Correction, Event, Press, Tell, Typed
from shopassist.core.pot.plate import Plate, hides_much, working_limit
from shopassist.core.pot.running import GAUGE_ITEMS
from shopassist.core.pot.state import Now, PotState
from shopassist.core.pot.words import Act, Belief, Item, Sign, Told
from shopassist.core.quantities import PascalAbsolute

LIFE, LEAST, SHORT, LONG = 600.0, 180.0, 120.0, 1800.0
FRESH = LIFE - LEAST
"""How old a piece may be on which a word of the least length is given, [s]."""
EPS = 1e-6
LATE = (Belief.LETTING_DOWN, Belief.PROVING, Belief.CLEAR, Belief.CRACKED)
RESETS = {
    Act.LET_DOWN, Act.AIR_IN, Act.AIR_ON, Act.LOST_TRACK, Act.OPENED, Act.DOUBT,
}  # fmt: skip
AIR_MOVING = {
    (Item.SIGN_SEEN, "some"), (Item.SILENCE, "some"), (Item.SILENCE_AGAIN, "some"),
    (Item.VENT_NOW_SEEN, "open_air"),
}  # fmt: skip
STEADY = {(item, "silent_steady") for item in (Item.FALL_FIRST, Item.ZERO, Item.ZERO_AGAIN)}
"""The gauge stands above zero: whatever was typed before, the pot is not empty."""
HISSED = {(Item.OPENING_HEARD, "hiss_falls"), (Item.OPENING_HEARD, "hiss_silent")}
AIR_SEEN = AIR_MOVING | STEADY | HISSED | {
    (Item.SLACKEN, "hiss"), (Item.ROCK, "hiss"), (Item.LID_OFF, "hiss"), (Item.WHERE, "moved"),
}  # fmt: skip
HOLE_TOLD = {
    **dict.fromkeys(STEADY, "silent"), **dict.fromkeys(HISSED, "air"),
    (Item.OPENING_HEARD, "none"): "silent", (Item.SIGN_SEEN, "some"): "air",
    (Item.VENT_NOW_SEEN, "open_air"): "air", (Item.VENT, "opened_hiss"): "air",
    (Item.VENT, "was_open_air"): "air",
}  # fmt: skip
"""What an answer tells of its hole, the vent's where it names none."""
FALL_VOID = AIR_MOVING | {
    (Item.WHERE, "moved"), (Item.REGULATOR, "higher"), (Item.REGULATOR, "lower"),
}  # fmt: skip


@dataclass
class Witness:
    """What was said, kept without looking at the procedure's own evidence."""

    plate: Plate
    air: bool = True
    baseline: float | None = None
    hold: float | None = None
    highest: float = float("-inf")
    vent_hissed: bool = False
    fall: bool = False
    firsts: list[float] = field(default_factory=list)
    """Instants, less suspends, of typed first zeros or silences since the last reset."""
    seconds: list[tuple[float, float]] = field(default_factory=list)
    """Age and awake instant of second zeros."""
    signs: dict[str, float] = field(default_factory=dict)
    sights: dict[Item, float] = field(default_factory=dict)
    slept: float = 0.0
    ends: float | None = None
    """When the word that was given runs out, and all that it rested on with it."""
    heard: frozenset[str] = frozenset()
    """Holes other than the vent at which air was heard in this let-down."""
    dumb: frozenset[str] = frozenset()
    """Holes at which nothing was heard while the gauge stood above zero, and nothing since."""

    def copy(self) -> "Witness":
        """Make another that goes on by itself: what it holds is replaced, never changed."""
        other = Witness.__new__(Witness)
        other.__dict__.update(self.__dict__)
        return other

    def reset(self) -> None:
        self.firsts, self.seconds, self.signs, self.sights = [], [], {}, {}
        self.ends = None

    def at(self, age: float) -> "Witness":
        """What is known at a later instant: after a word that ran out every sign is owed again."""
        if self.ends is None or age < self.ends:
            return self
        later = self.copy()
        later.seconds, later.signs, later.sights, later.ends = [], {}, {}, None
        return later

    def new_run(self) -> None:
        self.reset()
        self.air, self.baseline, self.hold = True, None, None
        self.highest, self.vent_hissed, self.fall = float("-inf"), False, False
        self.heard = self.dumb = frozenset()

    def watch(self, before: PotState, event: Event, after: PotState, now: Now) -> list[str]:
        """Take one accepted event; what is wrong with the move that it made."""
        self.__dict__.update(self.at(now.age).__dict__)
        if isinstance(event, Tell):
            return self._told(before, event, after)
        if isinstance(event, Press):
            self._pressed(before, event.act)
        elif isinstance(event, Answer):
            self._answered(before, event, now)
        elif isinstance(event, Typed):
            self._typed(event, now)
        elif isinstance(event, Correction):
            self._corrected(event.item)
        if before.belief is Belief.SUSPECT and after.belief is Belief.LETTING_DOWN:
            self.fall = False
        if after.belief is Belief.LETTING_DOWN and before.belief in LATE[1:]:
            self.reset()
        if after.belief not in LATE or _started_again(before, after):
            self.heard = frozenset()
        if after.belief is Belief.OPEN and before.belief is not Belief.OPEN:
            wrong = self._opened(before, event)
            self.new_run() if not before.reseat else self._reseated()
            return wrong
        if after.belief is Belief.CLEAR and before.belief is not Belief.CLEAR:
            return self._granted(before, event, after, now)
        return []

    def _reseated(self) -> None:
        hold = self.hold
        self.new_run()
        self.hold = hold

    def _told(self, before: PotState, event: Tell, after: PotState) -> list[str]:
        if event.what is Told.SUSPENDED:
            self.slept += event.seconds
            if event.seconds <= 120:
                return []
        self.reset()
        self.heard = frozenset()
        if event.what in (Told.RESTORED, Told.BROKEN):
            self.new_run()
            return [] if after.belief is Belief.UNKNOWN else ["restored data believed"]
        kept = (Belief.UNKNOWN, Belief.OPEN, Belief.SUSPECT)
        wanted = before.belief if before.belief in kept else Belief.PRESSURISED
        return [] if after.belief is wanted else [f"restart went {before.belief} → {after.belief}"]

    def _corrected(self, item: Item) -> None:
        """What was taken back never counts again."""
        self.heard = frozenset()
        if item is Item.BASELINE:
            self.baseline = None
        if item in GAUGE_ITEMS:
            self.highest = float("-inf")
        if item is Item.VENT:
            self.vent_hissed = False
        if item is Item.VENT_READING:
            self.dumb = self.dumb - {self.plate.holes.vent}
        if item is Item.OPENING_HEARD:
            self.dumb = frozenset()
        if item in GAUGE_ITEMS or item is Item.FALL_SPEED:
            self.fall = False

    def _pressed(self, before: PotState, act: Act) -> None:
        if act in RESETS or (act is Act.VENT_NOW and before.belief is not Belief.LETTING_DOWN):
            self.reset()
            self.heard = frozenset()
        if act in (Act.AIR_ON, Act.AIR_IN):
            self.air, self.fall = True, False
        if act is Act.AIR_IN and before.belief is Belief.OPEN:
            self.baseline = None
        if act is Act.LOST_TRACK:
            self.air, self.fall = True, False
        if act is Act.DOUBT:
            self.air = True
        if act in (Act.RELIEF_LIFTED, Act.OPENED):
            self.air, self.heard = True, frozenset()

    def _answered(self, before: PotState, event: Answer, now: Now) -> None:
        item, choice = event.item, event.choice
        if item is Item.CLAMPS_ROUND and choice == "all_round":
            self.air = False
        if item is Item.VENT and choice in ("opened_hiss", "was_open_air"):
            self.vent_hissed = self.air = True
        if item is Item.FALL_SPEED:
            self.fall = choice == "slowly"
        if item is Item.SUPPLY and choice not in ("isolated", "cant_tell") and not before.filling:
            self.fall, self.air = False, True
        if item is Item.OPENING_HEARD and choice.startswith("hiss"):
            self.heard = self.heard | {self.plate.hole_of(Sign(event.about))}
        if item is Item.SIGN_SEEN and choice == "none":
            self.signs = {**self.signs, self.plate.hole_of(Sign(event.about)): now.age}
        self._passing(item, choice, event.about)
        if (item, choice) in AIR_SEEN:
            self.air = True
        if (item, choice) in STEADY | HISSED:
            self.reset()
        if (item, choice) in FALL_VOID:
            self.fall = False
        if (item, choice) in FALL_VOID or (item is Item.SUPPLY and choice != "cant_tell"):
            self.heard = frozenset()
        if item is Item.SIGN_SEEN and choice == "some":
            self.vent_hissed = self.vent_hissed and event.about == Sign.VENT
        good = {
            Item.INLET_NOW: ("shut", "opened_as_sign"), Item.HOSE_NOW: ("apart",),
            Item.VENT_NOW_SEEN: ("open",),
        }  # fmt: skip
        if choice in good.get(item, ()):
            self.sights = {**self.sights, item: now.age}

    def _passing(self, item: Item, choice: str, about: str) -> None:
        """A hole that is silent under pressure, and one at which air is heard."""
        told = HOLE_TOLD.get((item, choice))
        if told is not None:
            hole = {self.plate.hole_of(Sign(about or Sign.VENT))}
            self.dumb = self.dumb | hole if told == "silent" else self.dumb - hole

    def _typed(self, event: Typed, now: Now) -> None:
        item, value, awake = event.item, event.value, now.age - self.slept
        gauge = self.plate.gauge
        assert gauge is not None
        base, half = self.baseline or 0.0, gauge.division / 2
        zero = abs(value - base) <= half + EPS and abs(value) <= gauge.division + EPS
        if item is Item.BASELINE:
            self.baseline = value
        elif item is Item.HOLD_PRESSURE:
            self.hold = value
        elif item not in (Item.CLAMPS, Item.CLAMP_COUNT, Item.SLACKEN, Item.TEMPERATURE):
            above = value > min(base + half, gauge.division) + EPS
            self.highest, self.air = max(self.highest, value), self.air or above
            if above and item is Item.VENT_READING:
                self.dumb = self.dumb | {self.plate.holes.vent}
        if (item is Item.ZERO and zero) or (item is Item.SILENCE and event.text == "silent"):
            self.firsts = [*self.firsts, awake]
        silent = item is Item.SILENCE_AGAIN and event.text == "silent"
        if (item is Item.ZERO_AGAIN and zero) or silent:
            self.seconds = [*self.seconds, (now.age, awake)]
        if self.plate.rating is not None and value > self.plate.rating + EPS:
            self.heard = frozenset()

    # -- judging -------------------------------------------------------------------------

    def _opened(self, before: PotState, event: Event) -> list[str]:
        through = isinstance(event, Answer) and event.choice == "inside_seen"
        ways = (Belief.CRACKED, Belief.UNKNOWN, Belief.SUSPECT, Belief.PROVING, Belief.CLEAR)
        return [] if through and before.belief in ways else [f"opened from {before.belief}"]

    def live(self) -> bool:
        gauge, hold = self.plate.gauge, self.hold
        assert gauge is not None
        if hold is None:
            limit = working_limit(self.plate, PascalAbsolute(101325.0))
            hold = limit.pressure if limit else gauge.span
        return self.highest >= max(hold / 5, 3 * gauge.division)

    def _granted(self, before: PotState, event: Event, after: PotState, now: Now) -> list[str]:
        if before.belief is not Belief.PROVING or event != Press(Act.CONFIRM):
            return [f"granted from {before.belief} by {event}"]
        wrong = [f"{item} not seen" for item in self.unseen(now.age)]
        if not self.firsts or not self.seconds:
            return [*wrong, "two zeros missing"]
        second_age, second_awake = self.seconds[-1]
        apart = second_awake - self.firsts[-1]
        if now.age - second_age > FRESH:
            wrong.append("second zero stale")
        grant = after.grant
        self.ends = None if grant is None else grant.expires
        ages = [*self.sights.values(), second_age]
        wrong += self._signs_wrong(after, apart, now)
        if grant is None or grant.expires > min(ages) + LIFE + EPS:
            wrong.append("granted past its evidence")
        elif not LEAST - EPS <= grant.expires - now.age <= LIFE + EPS:
            wrong.append(f"granted for {grant.expires - now.age:.0f} s")
        return wrong

    def unseen(self, age: float) -> list[Item]:
        sights = (Item.INLET_NOW, Item.HOSE_NOW, Item.VENT_NOW_SEEN)
        return [i for i in sights if age - self.sights.get(i, float("-inf")) > FRESH]

    def silent(self, age: float) -> frozenset[str]:
        """Holes at which a sign showed no air and is fresh."""
        return frozenset([hole for hole, then in self.signs.items() if age - then <= FRESH])

    def _signs_wrong(self, after: PotState, apart: float, now: Now) -> list[str]:
        own = self.plate.holes.gauge
        holes = set(self.silent(now.age)) - {own, ""} - self.dumb
        if after.gauge_failed:
            vent = {self.plate.holes.vent} if self.vent_hissed else set()
            proved = (self.heard | vent) - {own, ""}
            least = 2 if after.gauge_failed == "stuck" else 1
            enough = len(holes) > 1 and apart >= LONG - EPS and len(proved) >= least
            return [] if enough else [f"stuck gauge: {holes}, {apart:.0f} s, {proved}"]
        if not self.air:
            return [] if apart >= SHORT - EPS else [f"no air: {apart:.0f} s apart"]
        wrong = [] if holes else ["no second sign"]
        if apart < (SHORT if self.fall else LONG) - EPS:
            wrong.append(f"zeros {apart:.0f} s apart, fall {self.fall}")
        third = not self.live() or not self.fall or self.baseline is None or hides_much(self.plate)
        stood_in = self.live() and self.vent_hissed and apart >= LONG - EPS
        if third and len(holes) < 2 and not stood_in:
            wrong.append(f"third sign missing: {holes}, {apart:.0f} s")
        return wrong


def _started_again(before: PotState, after: PotState) -> bool:
    """Whether a let-down went back to isolating, other than by a gauge that failed."""
    again = after.belief is Belief.LETTING_DOWN and before.belief in LATE[1:]
    return again and after.gauge_failed == before.gauge_failed
