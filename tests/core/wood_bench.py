"""Rows of a set of cores, written by hand, for tests of the path."""

from typing import Any

from shopassist.core.drying import rule
from shopassist.core.quantities import Kilogram, Second, UtcSecond
from shopassist.core.rows import Reading, Row
from shopassist.core.stabilise_gates import need_turn
from shopassist.core.stabilising import Step, Terms, stand
from shopassist.core.wood_set import Event, WoodSet, fold_set

HOUR = 3600.0
TERMS = Terms(rule("shop"), Kilogram(0.0001))


class Bench:
    """One set, its clock and what is reported."""

    def __init__(self, terms: Terms = TERMS) -> None:
        self.terms = terms
        self.now = 1000.0
        self.seq = 0
        self.state = WoodSet()

    def row(self, kind: str, **body: Any) -> Row:
        self.seq += 1
        reading = Reading(UtcSecond(self.now), Second(self.now), "boot", Second(0.0))
        return Row(self.seq, "batch/one", self.seq, kind, 1, reading, UtcSecond(self.now), body, "")

    def take(self, kind: str, **body: Any) -> int:
        self.state = fold_set(self.state, self.row(kind, **body))
        return self.seq

    def weigh(self, grams: float | None, when: str, **more: Any) -> int:
        mass = None if grams is None else grams / 1000
        return self.take("wood_weighed", mass=mass, when=when, **more)

    def say(self, event: Event) -> None:
        need_turn(self.state, self.terms, event, UtcSecond(self.now))
        self.take("wood_event", event=event)

    def wait(self, hours: float) -> None:
        self.now += hours * HOUR

    @property
    def here(self) -> Step:
        return stand(self.state, self.terms, UtcSecond(self.now))

    def dried(self) -> "Bench":
        """From the first weighing to the bag."""
        self.weigh(412.6, "wet")
        self.say("oven_on")
        self.wait(20)
        self.weigh(365.3, "oven")
        self.wait(4)
        self.weigh(365.1, "oven")
        self.say("oven_off")
        return self

    def covered(self) -> "Bench":
        """On to the bath."""
        self.dried()
        self.wait(2)
        self.say("cool")
        self.weigh(365.2, "bath")
        self.say("covered")
        return self

    def soaking(self) -> "Bench":
        """On to the soak."""
        self.covered()
        self.say("pump_on")
        self.say("foam_down")
        self.wait(2.5)
        self.say("quiet")
        self.wait(0.25)
        self.say("air_in")
        return self

    def wrapped(self) -> "Bench":
        """On to the oven."""
        self.soaking()
        self.wait(12)
        self.say("out_of_bath")
        self.weigh(640.0, "soaked")
        self.say("wrapped")
        return self
