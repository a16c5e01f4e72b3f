import sys
from typing import Any

import pytest

from shopassist.core.messages import Moment, Text, say
from shopassist.core.pot.events import Answer, Event, Press, Tell, Typed
from shopassist.core.pot.guards import GUARDS
from shopassist.core.pot.plate import Plate
from shopassist.core.pot.state import Evidence, Refusal
from shopassist.core.pot.words import Act, Belief, Branch, Item, Told
from shopassist.core.quantities import PascalAbsolute, Second, UtcSecond
from shopassist.core.rows import Body, Draft
from shopassist.core.timeline import Finding, FindingKind
from shopassist.services.pot import PLATE_KIND, Load, PotService, _told
from shopassist.services.versions import Library
from tests.core.pot.bench import BAR, DAY, plate
from tests.fakes import HandClock, MemoryJournal

PLATES = {"one": plate(), "two": plate(name="Second pot")}


def parse(mapping: Any) -> tuple[Plate | None, tuple[Any, ...]]:
    return PLATES.get(str(mapping.get("key")), plate(name=str(mapping.get("name", "")))), ()


class Journal(MemoryJournal):
    """Remembers a displacement too."""

    place = 0

    def displaced(self) -> int:
        return self.place


class Shop:
    def __init__(self) -> None:
        self.clock = HandClock(utc=DAY * 86400.0)
        self.journal = Journal(self.clock)
        self.plates = Library(self.journal, PLATE_KIND, parse)
        self.load = Load()
        self.beats = 0
        self.pots = self.service()

    def service(self) -> PotService:
        return PotService(
            self.journal, self.clock, self.plates, lambda _pot: self.load,
            lambda: PascalAbsolute(95_000.0), self.beat,
        )  # fmt: skip

    def beat(self) -> None:
        self.beats += 1

    def enter(self, name: str = "Round pot") -> str:
        version, _ = self.plates.save({"name": name})
        assert version is not None
        return version.id

    def do(self, pot: str, *events: Event) -> None:
        for event in events:
            self.clock.advance(2)
            assert self.pots.act(pot, event) is None, event

    def open(self, pot: str) -> None:
        self.do(pot, Answer(Item.LID_OFF_NOW, "inside_seen"), Answer(Item.AFTERCARE, "cleaned"))

    def restart(self, *findings: Finding) -> None:
        self.plates = Library(self.journal, PLATE_KIND, parse)
        self.pots = self.service()
        self.pots.start(findings)


@pytest.fixture
def shop() -> Shop:
    return Shop()


def finding(kind: FindingKind, length: float = 0.0) -> Finding:
    clock = HandClock()
    return Finding(kind, clock.read(), clock.read(), Second(length))


def believes(shop: Shop, pot: str, belief: Belief) -> bool:
    return shop.pots.state(pot).belief is belief


def test_a_new_pot_is_not_known_and_has_its_plate(shop: Shop) -> None:
    pot = shop.enter()
    assert shop.pots.ids() == (pot,)
    assert believes(shop, pot, Belief.UNKNOWN)
    assert shop.pots.state(pot).plate == plate(name="Round pot")
    assert shop.pots.state(pot).ambient == 95_000.0
    assert shop.pots.line(pot).report is None
    assert shop.pots.line(pot).age is None


def test_an_act_is_a_row_before_anybody_hears_of_it(shop: Shop) -> None:
    pot = shop.enter()
    rows: list[int] = []
    shop.pots.changed.connect(lambda _pot: rows.append(len(shop.journal.read(f"pot/{pot}"))))
    shop.do(pot, Press(Act.AIR_IN))
    assert rows == [2]
    row = shop.journal.rows[-1]
    assert (row.kind, row.body) == ("press", {"act": "air_in_already"})
    assert row.happened == row.recorded.utc
    assert shop.beats == 1


def test_a_refusal_writes_nothing(shop: Shop) -> None:
    pot = shop.enter()
    before = len(shop.journal.rows)
    refusal = shop.pots.act(pot, Press(Act.CONFIRM))
    assert isinstance(refusal, Refusal)
    assert len(shop.journal.rows) == before


def test_the_record_is_what_the_rows_say(shop: Shop) -> None:
    pot = shop.enter()
    shop.open(pot)
    shop.do(pot, Answer(Item.RUN, "casting"), Typed(Item.HOLD_PRESSURE, 4 * BAR, "4", "bar"))
    before = shop.pots.state(pot)
    assert shop.service().state(pot) == before


def test_what_cannot_be_written_is_not_known_and_alarms(shop: Shop) -> None:
    pot = shop.enter()
    shop.open(pot)
    alarms: list[Text] = []
    shop.pots.alarm.connect(alarms.append)
    shop.journal.full = True
    refusal = shop.pots.act(pot, Answer(Item.RUN, "casting"))
    assert refusal is not None
    assert refusal.guard == "written"
    assert alarms == [say("The disk is full.")]
    assert believes(shop, pot, Belief.UNKNOWN)


def test_once_it_can_be_written_again_the_gap_is_on_record(shop: Shop) -> None:
    pot = shop.enter()
    shop.open(pot)
    shop.journal.full = True
    shop.pots.act(pot, Answer(Item.RUN, "casting"))
    shop.journal.full = False
    shop.do(pot, Press(Act.LET_DOWN))
    assert [row.kind for row in shop.journal.rows[-2:]] == ["told", "press"]
    assert believes(shop, pot, Belief.LETTING_DOWN)
    assert shop.service().state(pot).belief is Belief.LETTING_DOWN


def test_a_restart_makes_a_closed_pot_pressurised_and_says_so_in_a_row(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN), Press(Act.LET_DOWN))
    shop.restart()
    assert believes(shop, pot, Belief.PRESSURISED)
    assert shop.journal.rows[-1].body == {"what": "restarted", "seconds": 0.0}
    rows = len(shop.journal.rows)
    shop.restart()
    assert len(shop.journal.rows) == rows


def test_an_open_or_unknown_pot_stays_so_through_a_restart(shop: Shop) -> None:
    pot, other = shop.enter(), shop.enter("Tall pot")
    shop.open(pot)
    shop.restart(finding("rebooted"))
    assert believes(shop, pot, Belief.OPEN)
    assert believes(shop, other, Belief.UNKNOWN)


@pytest.mark.parametrize(
    ("kind", "length", "belief"),
    [
        ("suspended", 100.0, Belief.LETTING_DOWN),
        ("suspended", 200.0, Belief.PRESSURISED),
        ("rebooted", 0.0, Belief.PRESSURISED),
        ("clock_doubted", 0.0, Belief.PRESSURISED),
        ("zone_changed", 3600.0, Belief.LETTING_DOWN),
    ],
)
def test_findings_are_heeded(shop: Shop, kind: FindingKind, length: float, belief: Belief) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN), Press(Act.LET_DOWN))
    shop.pots.heed([finding(kind, length)])
    assert believes(shop, pot, belief)
    assert shop.pots.state(pot).doubted is (kind == "clock_doubted")


def test_a_finding_that_cannot_be_written_still_counts(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN), Press(Act.LET_DOWN))
    shop.journal.full = True
    shop.pots.heed([finding("suspended", 500.0)])
    assert believes(shop, pot, Belief.UNKNOWN)


def test_restored_data_are_not_believed(shop: Shop) -> None:
    pot = shop.enter()
    shop.open(pot)
    shop.journal.append([Draft("shop", "restored", {})])
    shop.journal.place = len(shop.journal.rows)
    shop.restart()
    assert believes(shop, pot, Belief.UNKNOWN)


def test_a_broken_journal_makes_every_pot_not_known(shop: Shop) -> None:
    pot = shop.enter()
    shop.open(pot)
    shop.pots.disbelieve()
    assert believes(shop, pot, Belief.UNKNOWN)


def test_a_new_plate_waits_until_the_lid_is_off(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN))
    shop.plates.save({"name": "Round pot", "key": "two"}, pot)
    assert shop.pots.state(pot).plate_version == 1
    shop.do(pot, Press(Act.OPENED))
    assert shop.pots.state(pot).plate_version == 2
    shop.open(pot)
    assert shop.pots.state(pot).plate == PLATES["two"]


def test_a_removed_pot_is_shown_while_it_may_hold_air(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN))
    shop.plates.remove(pot)
    assert shop.pots.ids() == (pot,)
    shop.do(pot, Press(Act.OPENED))
    shop.open(pot)
    assert shop.pots.ids() == ()


def test_a_pot_without_a_plate_record_is_called_by_its_id(shop: Shop) -> None:
    shop.journal.append([Draft("pot/lost", "press", {"act": "air_in_already"})])
    shop.pots = shop.service()
    shop.pots.start()
    assert shop.pots.name("lost") == "lost"
    assert shop.pots.state("lost").plate is None
    assert shop.pots.ids() == ("lost",)


def test_a_row_with_an_unknown_plate_version_gives_no_plate(shop: Shop) -> None:
    pot = shop.enter()
    body: Body = {"version": 7, "ambient": 101325.0}
    shop.journal.append([Draft(f"pot/{pot}", "plate", body)])
    assert shop.service().state(pot).plate is None


def test_the_worst_pot_leads(shop: Shop) -> None:
    first, second, third = shop.enter("A"), shop.enter("B"), shop.enter("C")
    shop.open(first)
    shop.do(second, Press(Act.AIR_IN))
    shop.do(third, Press(Act.DOUBT))
    assert shop.pots.worst() == (third, second, first)
    shop.do(second, Press(Act.TOO_HOT))
    assert shop.pots.worst()[0] == second
    assert shop.pots.line(second).branch is Branch.TOO_HOT


def test_the_line_says_what_was_reported_and_how_long_ago(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN), Typed(Item.READING, 4 * BAR, "4,0", "bar"))
    shop.clock.advance(60)
    line = shop.pots.line(pot)
    assert line.name == "Round pot"
    assert line.report == say("you reported {answer}", answer="4,0 bar")
    assert line.age == 60
    assert line.action is None
    shop.do(pot, Press(Act.LET_DOWN))
    assert shop.pots.line(pot).action is not None


def test_the_line_says_what_was_counted_and_words_follow_a_colon() -> None:
    """6 by itself could be a pressure."""
    reading, counted, seen = (
        Evidence(item, value, number, "", "", 0.0, 0.0, 0.0, unit)
        for item, value, number, unit in (
            (Item.READING, "2.76", 2.76 * BAR, "bar"),
            (Item.CLAMP_COUNT, "6", 6.0, ""),
            (Item.LID_OFF, "inside_seen", None, ""),
        )
    )
    assert _told(reading, reading=True) == say("you reported {answer}", answer="2.76 bar")
    assert _told(counted, reading=False) == say(
        "you reported: {label}, {answer}", label="Clamps hooked", answer="6"
    )
    assert _told(seen, reading=False).template == "you reported: {answer}"


def test_letting_down_before_the_hold_is_over_is_one_line(shop: Shop) -> None:
    pot = shop.enter()
    until = UtcSecond(shop.clock.utc + 3600)
    held = say(
        "Hold at least until {until}: let down sooner, bubbles regrow.",
        until=Moment(until, late=True),
    )
    line = say("The hold is not over: let down now and bubbles regrow.")
    shop.load = Load(("0001",), hold_until=until)
    assert {line, held}.isdisjoint(shop.pots.card(pot).notes)
    shop.do(pot, Press(Act.AIR_IN))
    assert held in shop.pots.card(pot).notes
    shop.do(pot, Press(Act.LET_DOWN))
    assert line in shop.pots.card(pot).notes
    shop.clock.advance(3600)
    assert line not in shop.pots.card(pot).notes
    assert shop.pots.load(pot).batches == ("0001",)


def test_sleep_is_inhibited_from_the_let_down_to_the_open_lid(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN))
    assert not shop.pots.inhibits_sleep()
    shop.do(pot, Press(Act.LET_DOWN))
    assert shop.pots.inhibits_sleep()
    shop.do(pot, Press(Act.OPENED))
    assert not shop.pots.inhibits_sleep()


def test_without_callbacks_the_service_uses_the_standard_air(shop: Shop) -> None:
    pot = shop.enter()
    bare = PotService(shop.journal, shop.clock, shop.plates)
    assert bare.load(pot) == Load()
    assert bare.act(pot, Press(Act.AIR_IN)) is None


def test_a_telling_that_changes_nothing_is_not_written(shop: Shop) -> None:
    pot = shop.enter()
    rows = len(shop.journal.rows)
    shop.pots.heed([finding("rebooted")])
    assert len(shop.journal.rows) == rows
    assert believes(shop, pot, Belief.UNKNOWN)


def test_rows_of_findings_fold_like_the_findings(shop: Shop) -> None:
    pot = shop.enter()
    shop.do(pot, Press(Act.AIR_IN), Press(Act.LET_DOWN))
    shop.pots.heed([finding("clock_doubted")])
    assert shop.service().state(pot) == shop.pots.state(pot)
    assert shop.pots.act(pot, Tell(Told.RESTARTED)) is None


def test_nothing_is_announced_before_the_guards_agree(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys.modules["shopassist.core.pot.advance"], "GUARDS", GUARDS[:0])
    pot = shop.enter()
    assert shop.pots.act(pot, Press(Act.STOP)) is None
