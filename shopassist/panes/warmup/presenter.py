"""Words of the warm-up pane: a cabinet, what stands in it, and when to switch on."""

from dataclasses import dataclass, field, replace

from shopassist.clock import Clock
from shopassist.core.cabinet import Cabinet
from shopassist.core.cure import Warmth
from shopassist.core.entry import Entry
from shopassist.core.errors import RefusedError, ShopError
from shopassist.core.figures import Figure
from shopassist.core.messages import say
from shopassist.core.pot.plate import Plate
from shopassist.core.quantities import Kelvin, Second, UtcSecond
from shopassist.core.wording import Wording
from shopassist.panes.warmup import words
from shopassist.panes.warmup.beside import LINES, WarmupSources, cure_beside, too_hot
from shopassist.panes.warmup.drafts import (
    SPECS,
    FieldName,
    Known,
    Standing,
    cabinet_of,
    load_of,
    missing,
    origins,
    standings,
)
from shopassist.panes.warmup.learning import Learning
from shopassist.panes.warmup.screen import LearnShown, PictureShown, WarmupScreen
from shopassist.services.hooks import Hook
from shopassist.services.into_cabinet import into_cabinet
from shopassist.services.versions import Version
from shopassist.services.warmup import (
    INSIDE,
    Given,
    Inside,
    Plan,
    PotInWarmth,
    has_load,
    plan,
    pot_in_warmth,
    refusal,
    told,
)
from shopassist.widgets.shown import FigureShown

POUR_AT = "08:00"
"""When the next pour is taken to be where nobody says; ours."""
MINUTE = 60.0
FRESH = Second(12 * 3600.0)
FIGURES = ("warm_after", "duty", "stand_out", "most", "fill")
PREFIX = "warmup"


@dataclass(slots=True)
class _Drafts:
    typed: dict[FieldName, Entry | None] = field(default_factory=dict)
    cabinet: str = ""
    inside: Inside = "nothing mixed"
    pour: str = ""
    pour_error: str = ""


class WarmupPresenter:
    """Keeps the entries; the arithmetic is the service's."""

    IDS = (
        "warmup.cabinet", *(f"warmup.{name}" for name in SPECS), "warmup.inside", "warmup.pour_at",
        "warmup.switch_on", *(f"warmup.{name}" for name in FIGURES),
        "warmup.note.<n>", "warmup.picture", "warmup.cure.<n>", "warmup.tell_pot",
        "warmup.learn_open", "warmup.learn.log", "warmup.learn.work_out", "warmup.learn.keep",
        "warmup.learn.close",
    )  # fmt: skip

    def __init__(self, sources: WarmupSources, clock: Clock, wording: Wording) -> None:
        self.changed: Hook[None] = Hook()
        self.explained: Hook[Figure] = Hook()
        self._of = sources
        self._clock = clock
        self._wording = wording
        self._figures: dict[str, Figure] = {}
        self._kept: tuple[Given, Plan] | None = None
        self._drawn_at = 0.0
        self._drafts = self._remembered()
        self.learning = Learning(wording)
        sources.cabinets.changed.connect(lambda _: self._tell())
        sources.plates.changed.connect(lambda _: self._tell())
        sources.batches.changed.connect(lambda _: self._tell())
        sources.hand.changed.connect(lambda _: self._tell())

    def _remembered(self) -> _Drafts:
        """What was typed before the program was closed; its loss costs nothing."""
        get = self._of.state.get
        drafts = _Drafts(cabinet=get(f"{PREFIX}.cabinet"), pour=get(f"{PREFIX}.pour_at"))
        kept = get(f"{PREFIX}.inside")
        drafts.inside = next((each for each in INSIDE if each == kept), INSIDE[0])
        for name in SPECS:
            if text := get(f"{PREFIX}.{name}"):
                try:
                    drafts.typed[name] = self._wording.read(text, SPECS[name])
                except ShopError:
                    continue
        if not drafts.cabinet and (known := self._of.cabinets.all()):
            drafts.cabinet = known[0].id
        return drafts

    def _tell(self) -> None:
        self.changed.emit(None)

    # -- what stands -------------------------------------------------------------------------

    def _version(self) -> Version[Cabinet] | None:
        version = self._of.cabinets.newest(self._drafts.cabinet)
        return None if version is None or version.removed or version.is_broken else version

    def _known(self) -> Known:
        version = self._version()
        return Known(version.record if version is not None else None, self._shop())

    def _shop(self) -> Kelvin | None:
        """The shop as somebody read it lately."""
        now = self._clock.read().utc
        readings = [
            reading for each in self._of.batches.recent(LINES * 3)
            for reading in each.warmth if reading.where == "shop"
        ]  # fmt: skip
        newest = max(readings, key=lambda each: each.at, default=None)
        return newest.middle if newest is not None and now - newest.at < FRESH else None

    def _plate(self) -> Version[Plate] | None:
        """The pot in hand, or the only one there is."""
        versions = [each for each in self._of.plates.all() if each.record is not None]
        in_hand = [each for each in versions if each.id == self._of.hand.pot]
        return next(iter(in_hand or versions), None)

    def _pour_at(self) -> UtcSecond | None:
        try:
            return self._wording.read_planned(self._drafts.pour or POUR_AT, self._clock.read())
        except ShopError:
            return None

    def _given(self, found: dict[FieldName, Standing]) -> Given | None:
        cabinet = cabinet_of(found, self._known())
        shop, goal, load = found["shop"].value, found["goal"].value, load_of(found)
        if cabinet is None or shop is None or goal is None or not has_load(load):
            return None
        count = int(found["count"].value or 1)
        return Given(
            cabinet, load, Kelvin(shop), Kelvin(goal), self._drafts.inside, count,
            self._pour_at(), origins(found, self._known()),
        )  # fmt: skip

    def course_for(self, batch_id: str) -> tuple[Warmth, ...]:
        """How warm the resin of a batch would become if it went in now; raises where not told."""
        found = standings(self._drafts.typed, self._known())
        given = self._given(found)
        if given is None:
            lacking = missing(found, is_typed=self._version() is None)
            raise RefusedError(say("Warm-up {lacking}.", lacking=lacking))
        batch, cure = self._of.batches.get(batch_id), self._of.cure
        view = cure.view(batch_id)
        ends = (given.shop, given.shop) if view is None else (view.ahead.low, view.ahead.high)
        return into_cabinet(given, cure.sheet(batch), ends)

    def _plan(self, given: Given) -> Plan:
        if self._kept is None or self._kept[0] != given:
            self._kept = given, plan(given)
        return self._kept[1]

    # -- what is shown ------------------------------------------------------------------------

    @property
    def screen(self) -> WarmupScreen:
        """The pane as it stands now."""
        found = standings(self._drafts.typed, self._known())
        self._drawn_at = self._clock.read().utc // MINUTE
        frame = self._frame(found)
        given = self._given(found)
        if given is None:
            return self._short(frame, missing(found, is_typed=self._version() is None))
        refused = refusal(given, self._of.sheet)
        if refused is not None:
            said = (self._wording.say(refused[0]), self._wording.say(refused[1]))
            return replace(self._short(frame, "not worked out"), notes=(said,), refused=said[0])
        try:
            return self._full(frame, given, self._plan(given))
        except ShopError as error:
            return self._short(frame, self._wording.say(error.title))

    def is_stale(self) -> bool:
        """Whether another minute has begun since the screen was made."""
        return self._clock.read().utc // MINUTE != self._drawn_at

    def _frame(self, found: dict[FieldName, Standing]) -> WarmupScreen:
        """Everything that does not need a plan."""
        version, batch, drafts = self._version(), self._of.batch, self._drafts
        return WarmupScreen(
            right=batch.name if batch is not None else "",
            cabinets=tuple((v.id, v.name) for v in self._of.cabinets.all() if not v.is_broken),
            cabinet=version.id if version is not None else "",
            is_typed=version is None,
            summary=words.summary(self._wording, version.record if version else None),
            fields=tuple(found.items()),
            inside=drafts.inside,
            shares=drafts.inside == "poured moulds",
            refused="",
            pour_text=drafts.pour or POUR_AT,
            pour_error=drafts.pour_error,
            pour_is_typed=bool(drafts.pour),
            lead=words.empty("Switch on at", "", lead=True),
            figures=(),
            notes=(),
            picture=PictureShown("Temperature"),
            cautions=words.CAUTIONS,
            what_if="",
            cure_lines=(),
            tell_pot="",
            learn=self._learn(version),
        )

    def _short(self, frame: WarmupScreen, lacking: str) -> WarmupScreen:
        self._figures = {}
        return replace(
            frame,
            lead=words.empty("Switch on at", lacking, lead=True),
            figures=tuple(words.empty(label, "") for label in words.LABELS),
            picture=PictureShown("Temperature", empty=lacking),
        )

    def _full(self, frame: WarmupScreen, given: Given, made: Plan) -> WarmupScreen:
        say, now = self._wording, float(self._clock.read().utc)
        pot, name = self._pot(given)
        figures = [made.warm_after, made.duty, made.stand_out, made.most]
        shown = [
            words.figure(say, each, now, places=0 if each.id == "warmup.most" else None)
            for each in figures
        ]
        shown.append(self._fill(given, pot))
        self._figures = {each.id: each for each in (made.switch_on, *figures)}
        if pot is not None and pot.fill.value is not None:
            self._figures[pot.fill.id] = pot.fill
        beside = cure_beside(self._of, given, made, say, now)
        self._figures |= {each.id: each for each in beside.figures}
        resin = too_hot(self._of, given), self._of.gelled()
        return replace(
            frame,
            lead=words.figure(say, made.switch_on, now, lead=True),
            figures=tuple(shown),
            notes=words.notes(say, given, made, (pot, name), now, resin),
            picture=words.picture(say, given, made, now),
            what_if=beside.heading,
            cure_lines=beside.lines,
            tell_pot=self._tell_pot_words(pot),
        )

    def _fill(self, given: Given, pot: PotInWarmth | None) -> FigureShown:
        if pot is None:
            lacking = "no pot in it" if not given.load.pot else "no pot entered"
            return words.empty(words.LABELS[-1], lacking)
        return words.figure(self._wording, pot.fill, 0.0)

    def _pot(self, given: Given) -> tuple[PotInWarmth | None, str]:
        version = self._plate()
        if not given.load.pot or version is None or version.record is None:
            return None, ""
        return (
            pot_in_warmth(version.record, given.cabinet, given.shop, self._of.ambient()),
            version.name,
        )

    def _tell_pot_words(self, pot: PotInWarmth | None) -> str:
        if pot is None or not pot.must_tell or pot.over_rated:
            return ""
        return f"Tell the record: {self._wording.amount(pot.warmest, 'Kelvin', 1)}"

    def _learn(self, version: Version[Cabinet] | None) -> LearnShown:
        reason = "" if version is not None else "Save this cabinet under Records first."
        return self.learning.shown(reason)

    # -- what the person does --------------------------------------------------------------------

    def on_committed(self, name: FieldName, entry: Entry | None) -> None:
        """Take a value, or the default back."""
        self._drafts.typed[name] = entry
        self._of.state.put(f"{PREFIX}.{name}", entry.plain if entry is not None else "")
        self._tell()

    def on_cabinet(self, record_id: str) -> None:
        """Work with another cabinet; empty for one that is typed here."""
        self._drafts.cabinet = record_id
        self._drafts.typed.pop("thermostat", None)
        self._of.state.put(f"{PREFIX}.thermostat", "")
        self._of.state.put(f"{PREFIX}.cabinet", record_id)
        self.learning.forget()
        self._tell()

    def on_inside(self, inside: str) -> None:
        """Say what is in the moulds."""
        self._drafts.inside = next((each for each in INSIDE if each == inside), INSIDE[0])
        self._of.state.put(f"{PREFIX}.inside", self._drafts.inside)
        self._tell()

    def on_pour_at(self, text: str) -> None:
        """Take the clock time of the pour; an empty one is eight o'clock again."""
        text = text.strip()
        self._drafts.pour_error = ""
        if text:
            try:
                self._wording.read_planned(text, self._clock.read(), "warmup.pour_at")
            except ShopError as error:
                self._drafts.pour_error = self._wording.say(error.title)
        self._drafts.pour = text
        self._of.state.put(f"{PREFIX}.pour_at", "" if self._drafts.pour_error else text)
        self._tell()

    def on_explain(self, name: str) -> None:
        """Ask for the explanation of a figure."""
        if name in self._figures:
            self.explained.emit(self._figures[name])

    def on_tell_pot(self) -> None:
        """Write the cabinet's warmth into the pot's record: its working limit follows from it."""
        found = standings(self._drafts.typed, self._known())
        given, version = self._given(found), self._plate()
        if given is None or version is None:
            return
        pot, _ = self._pot(given)
        if pot is None or not pot.must_tell or pot.over_rated:
            return
        mapping = told(version.mapping, pot.warmest)
        self._of.plates.save(mapping, version.id, "It stands in a warm cabinet.")

    # -- learning from a log -----------------------------------------------------------------------

    def on_learn(self) -> None:
        """Open the sheet for a logged warm-up."""
        self.learning.open()
        self._tell()

    def on_learn_close(self) -> None:
        """Close it again; what was typed stays."""
        self.learning.close()
        self._tell()

    def on_learn_log(self, text: str) -> None:
        """Learn the cabinet from the typed readings."""
        given = self._given(standings(self._drafts.typed, self._known()))
        self.learning.learn(text, given)
        self._tell()

    def on_learn_keep(self) -> None:
        """Write what was learnt into the cabinet's record, as a new version."""
        version = self._version()
        if version is None or self.learning.fit is None:
            return
        now = self._clock.read()
        measured = self.learning.measured(now.utc + now.utc_offset)
        mapping = {**version.mapping, "measured": measured}
        self._of.cabinets.save(mapping, version.id, "Learnt from a logged warm-up.")
        self.learning.forget()
        self._tell()
