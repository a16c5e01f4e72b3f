"""A whole batch through the real window, by keyboard alone, with a kill and a suspend in it."""

import tomllib
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from shopassist.clock.manual import ManualClock
from shopassist.core.pot.cards import AskKind
from shopassist.core.pot.words import Belief
from shopassist.store.opening import check
from shopassist.store.resources import resource
from tests.app.driver import Person

CTRL = Qt.KeyboardModifier.ControlModifier


class Caster(Person):
    """Somebody who also works a pot."""

    def read_limits(self) -> None:
        if self.visible("limits"):
            self.press("limits.read")

    def enter_records(self) -> None:
        made = self.program.services
        for library, kind, name in (
            (made.sheets, "sheets", "slow-clear"),
            (made.plates, "pots", "big-pot"),
        ):
            mapping = tomllib.loads(resource("demo", kind, f"{name}.toml").read_text("utf-8"))
            version, problems = library.save(mapping)
            assert version is not None, problems
        self.look()

    # -- the pot by keys -----------------------------------------------------------------

    @property
    def belief(self) -> Belief:
        pots = self.program.services.pots
        return pots.state(pots.ids()[0]).belief

    @property
    def asked(self) -> str:
        return self.program.presenters.pot.screen.field

    def into_pot(self) -> None:
        self.key(Qt.Key.Key_3, CTRL)
        focused = QApplication.focusWidget()
        pane = self.find(QWidget, "pot")
        assert focused is not None
        assert pane.isAncestorOf(focused) or focused is pane, focused.objectName()

    def say(self, answer: str) -> None:
        """Answer a choose card by its digit."""
        screen = self.program.presenters.pot.screen
        found = next((a for a in screen.answers if a.id == answer), None)
        assert found is not None, (self.asked, answer, [a.id for a in screen.answers])
        keys = found.shown.shortcut or found.shown.key
        alt = (
            Qt.KeyboardModifier.AltModifier
            if keys.startswith("Alt+")
            else Qt.KeyboardModifier.NoModifier
        )
        self.key(Qt.Key(ord(keys[-1])), alt)
        assert not self.program.presenters.pot.screen.refusal, (
            self.program.presenters.pot.screen.refusal
        )

    def type(self, text: str) -> None:
        """Answer a type card: the digits belong to the field."""
        assert self.program.presenters.pot.screen.kind is AskKind.TYPE, self.asked
        self.tab_to("pot.answer.typed_reading")
        self.keys(text)
        self.enter()
        assert not self.program.presenters.pot.screen.refusal, (
            self.program.presenters.pot.screen.refusal
        )

    def wait(self, seconds: float) -> None:
        self.clock.advance(seconds)
        self.program.tick()
        self.program.refresh()
        self.program.presenters.pot.changed.emit(None)
        self.look()

    def press_offer(self, act: str) -> None:
        self.press(f"pot.offer.{act}")

    def hold(self) -> None:
        """Hold Space on the gate for 1.5 s."""
        self.tab_to("pot.hold")
        button = QApplication.focusWidget()
        assert button is not None
        QTest.keyPress(button, Qt.Key.Key_Space)
        self.clock.advance(2)
        self.program.ticker.call_all()
        self.look()
        QTest.keyRelease(button, Qt.Key.Key_Space)
        self.look()

    # -- stretches of a batch ------------------------------------------------------------

    def mix(self) -> None:
        self.key(Qt.Key.Key_1, CTRL)
        self.tab_to("mix.sheet")
        self.key(Qt.Key.Key_Down)
        self.key(Qt.Key.Key_Return)
        self.tab_to("mix.amount")
        self.keys("200 g")
        self.enter()
        for part, grams in (("a", "166.2"), ("b", "216.1")):
            self.tab_to(f"mix.cup.1.actual_{part}")
            self.keys(grams)
            self.enter()
        self.press("mix.hardener_in")

    def temperature(self, text: str) -> None:
        self.key(Qt.Key.Key_2, CTRL)
        self.tab_to("cure.temperature")
        self.keys(text)
        self.enter()

    def pour(self) -> None:
        self.key(Qt.Key.Key_1, CTRL)
        self.press("mix.poured")

    def close_and_fill(self) -> None:
        self.into_pot()
        if self.belief is Belief.UNKNOWN:
            self.say("inside_seen")
        while not self.asked.startswith("air_on") and self.belief in (Belief.OPEN, Belief.CLOSED):
            self._ready_step()
        if self.program.presenters.pot.screen.kind is AskKind.PRESS:
            self._press_asked()
        for text in ("0.7",):
            self.type(text)
        self.say("agrees")
        self.say("none")
        self.wait(60)
        self.type("2.76")
        self.say("isolated")

    def _press_asked(self) -> None:
        screen = self.program.presenters.pot.screen
        answers = [a for a in (*screen.answers, *screen.offers) if a.id.startswith("air_on")]
        assert answers, (self.asked, screen.answers, screen.offers)
        name = "pot.answer.air_on" if answers[0] in screen.answers else "pot.offer.air_on"
        self.press(name)

    def _ready_step(self) -> None:
        item = self.asked.partition(".")[0]
        words = {
            "run": "casting", "ring": "snaps_back", "hole": "clear", "gasket": "clean",
            "dry_fit": "fits", "place": "stays", "clamps_round": "all_round", "aftercare": "cleaned",
        }  # fmt: skip
        numbers = {"hold_pressure": "2.76", "baseline": "0", "clamps": "6", "clamp_count": "6"}
        if item in words:
            self.say(words[item])
        elif item in numbers:
            self.type(numbers[item])
        else:
            raise AssertionError(f"not expected here: {self.asked}")

    def let_down(self) -> None:
        self.press("pot_line.action")
        self.into_pot()
        for answer in ("shut", "bled", "apart", "covered", "opened_hiss"):
            self.say(answer)
        self.wait(60)
        self.type("1.3")
        self.wait(61)
        self.type("1.29")
        self.say("open")
        self.say("slowly")
        self.wait(60)
        self.type("0")

    def empty_by_now(self) -> None:
        """Answer whatever is asked of a pot whose vent has stood open since before the restart."""
        self.press("pot_line.action")
        self.into_pot()
        for _ in range(80):
            if self.belief is Belief.CLEAR:
                return
            if self.program.presenters.pot.screen.wait_digits and self.asked == "":
                self.wait(60)
                continue
            self._emptying_step()
        raise AssertionError(f"never cleared; asks {self.asked}")

    def _emptying_step(self) -> None:
        item = self.asked.partition(".")[0]
        screen = self.program.presenters.pot.screen
        words = {
            "inlet": "shut", "hose_bled": "bled", "hose": "apart", "eyes": "covered",
            "vent": "was_open_silent", "fall_first": "straight_to_zero", "fall_speed": "not_watched",
            "vent_again": "open", "sign_seen": "none", "inlet_now": "shut", "hose_now": "apart",
            "vent_now_seen": "open", "where": "been_here",
        }  # fmt: skip
        if item in words:
            self.say(words[item])
        elif item == "sign":
            self.say(screen.answers[0].id)
        elif item in ("zero", "zero_again", "vent_reading"):
            self.type("0")
        elif item == "confirm":
            self.hold()
        elif item in ("", "dwell"):
            self.wait(60)
        else:
            raise AssertionError(f"not expected here: {self.asked}")

    def crack(self) -> None:
        while self.asked.startswith("slacken"):
            self.say("done")
        self.say("free")
        self.say("inside_seen")


def test_a_whole_batch_by_keyboard_with_a_kill_and_a_suspend(
    tmp_path: Path, qapp: QApplication
) -> None:
    clock = ManualClock(offset=3600)
    person = Caster(tmp_path, clock)
    person.read_limits()
    person.enter_records()
    person.mix()
    mixed = float(clock.read().utc)
    person.temperature("22")
    clock.advance(600)
    person.pour()
    person.close_and_fill()
    assert person.belief is Belief.PRESSURISED
    batch = person.program.services.hand.batch
    gate = _gate(person, batch)

    # The laptop is shut for twenty minutes: the clock goes on, right to the second.
    clock.suspend(1200)
    person.look()
    assert _gate(person, batch) == pytest.approx(gate, abs=1)
    assert float(clock.read().utc) - mixed == pytest.approx(person_elapsed(person, batch), abs=1)

    # The process is gone in the middle of the hold: nothing acknowledged is lost.
    person.kill()
    clock.moved = None
    person = Caster(tmp_path, clock)
    assert person.belief is Belief.PRESSURISED
    assert _gate(person, batch) == pytest.approx(gate, abs=1)
    facts = person.program.services.batches.get(batch)
    assert facts.cup(1).weighed["a"].mass == pytest.approx(0.1662)
    assert facts.poured is not None
    assert facts.pot

    # In the middle of the let-down again: the pot comes back as pressurised.
    person.wait(6 * 3600)
    person.let_down()
    assert str(person.belief) == "proving"
    person.kill()
    clock.moved = None
    person = Caster(tmp_path, clock)
    assert person.belief is Belief.PRESSURISED
    person.empty_by_now()
    person.crack()
    assert person.belief is Belief.OPEN
    assert not person.program.services.batches.get(batch).pot
    person.close()
    assert check(tmp_path / "journal.db") == ()


def _gate(person: Caster, batch: str) -> float:
    view = person.program.services.cure.view(batch)
    assert view is not None
    stage = view.stage("hold")
    assert stage is not None
    assert stage.gate is not None
    return float(stage.gate)


def person_elapsed(person: Caster, batch: str) -> float:
    view = person.program.services.cure.view(batch)
    assert view is not None
    return float(view.elapsed.likely)
