"""What happened to the wood of the invented shop: elm cores for drawer knobs."""

from collections.abc import Iterable, Mapping

from shopassist.app.services import Services
from shopassist.clock.manual import ManualClock
from shopassist.core.batch import Typed
from shopassist.core.entry.asked import Ask
from shopassist.core.quantities import Kilogram, PascalVacuum
from shopassist.core.wood_set import Event, When
from shopassist.panes.blank import asks as blank
from shopassist.panes.stabilise import asks as stabilise
from shopassist.panes.turn import asks as turn

HOUR = 3600.0
SET = {
    "pieces": "4", "species": "Elm, English", "diameter": "30 mm", "length": "45 mm",
    "scale_step": "0.1 g", "vessel_diameter": "160 mm", "vessel_height": "250 mm",
    "stack": "100 mm", "oven": "95 °C", "core_goal": "88 °C",
    "hold": "2 h", "bath": "Tin 4", "chamber_record": "bell-with-acrylic-lid",
    "pump_record": "two-stage-pump",
}  # fmt: skip
KNOB = {
    "mould_diameter": "48 mm", "mould_depth": "41 mm",
    "stations": "0: 22; 8: 22; 12: 14; 18: 14; 28: 40; 34: 42; 37: 36", "drill": "4.5 mm",
    "bore_depth": "16 mm", "pieces": "4", "grooves": "square 3 x 2 at 31",
}  # fmt: skip
BENCH = {"papers": "240 320 400 600 800 1000", "recoat": "6 h", "air": "20 °C", "humidity": "55 %"}
"""What was typed at the lathe for these knobs: papers of the shop, its lacquer, its air."""


def enter(
    made: Services, batch: str, pane: str, asks: Iterable[Ask], texts: Mapping[str, str]
) -> None:
    """Type entries of a pane."""
    for ask in asks:
        text = texts.get(ask.name)
        if text is None:
            continue
        typed = Typed(text, None)
        if ask.spec is not None:
            entry = made.wording.read(text, ask.spec)
            typed = Typed(entry.plain, entry.value, entry.quantity)
        made.batches.enter(batch, f"{pane}.{ask.name}", typed)


def stabilise_knobs(made: Services, clock: ManualClock, batch: str) -> None:
    """From the first weighing to the uptake, in about forty hours."""
    wood = made.stabilise

    def weigh(grams: float, when: When) -> None:
        wood.weigh(batch, Kilogram(grams / 1000), when)

    def later(hours: float, *events: Event) -> None:
        clock.advance(hours * HOUR)
        for event in events:
            wood.report(batch, event)

    enter(made, batch, stabilise.PANE, stabilise.ALL, SET)
    weigh(73.8, "wet")
    later(0.2, "oven_on")
    later(15.0)
    weigh(67.4, "oven")
    later(4.0)
    weigh(67.3, "oven")
    later(0.1, "oven_off")
    later(2.0, "cool")
    weigh(67.4, "bath")
    later(0.2, "covered", "pump_on")
    later(0.5, "foam_down")
    wood.read_vacuum(batch, PascalVacuum(96_000.0))
    later(2.0, "quiet")
    later(0.2, "air_in")
    later(8.0, "out_of_bath")
    weigh(124.0, "soaked")
    later(0.3, "wrapped", "bake_on")
    later(1.8, "core_hot")
    later(2.1, "bake_off")
    later(1.0)
    weigh(115.5, "baked")


def blank_of_knobs(made: Services, batch: str) -> None:
    """Mould, outline and bore of a knob, as measured with calipers."""
    enter(made, batch, blank.PANE, blank.ALL, KNOB)
    enter(made, batch, turn.PANE, turn.ALL, BENCH)
