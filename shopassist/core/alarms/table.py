"""The table of alarms: priority from consequence and time, what to do, how it sounds.

An alarm exists only where somebody must do something. Three priorities, told apart by word,
shape, colour and sound. High ones stay until they are acknowledged, even when their cause has
gone; the others go with it.
"""

from collections.abc import Mapping
from typing import Literal

from shopassist.core.frozen import frozen
from shopassist.core.quantities import Second

Priority = Literal["high", "medium", "low"]
Kind = Literal[
    "pressurise_soon", "pressurise_now", "pressurise_missed",
    "working_soon", "working_now", "working_over", "working_hot",
    "window_open", "window_closing", "window_missed",
    "hold_over", "demould", "wait_over", "stage_over", "oven_stops",
    "reading_old", "too_cold", "too_warm", "cabinet_hot", "cabinet_cold", "thermometer_lost",
    "over_rating", "pot_hot", "relief_lifted", "suspect", "pressure_fall", "pot_long",
    "clock_doubted", "log_lost", "log_broken", "disk_low", "no_sound", "battery_low",
    "battery_out", "may_sleep",
]  # fmt: skip

RANKS: dict[Priority, int] = {"high": 0, "medium": 1, "low": 2}
MEDIUM_EVERY = Second(25.0)
HIGH_EVERY = Second(10.0)
SILENCE = Second(120.0)
"""Silence ends by itself after so long; ours, the shorter of the usual two."""
SHORT_SILENCE = Second(30.0)
"""Over the rating there is no longer rest than this; ours."""
TAKEOVER = Second(60.0)
"""A high alarm that nobody answered fills the window."""
LOUDER = Second(180.0)
"""Then it is sounded louder, within the program's own volume."""
NOT_SEEN = Second(300.0)
"""Then the log says that it was not seen."""


@frozen
class Rule:
    """One line of the table."""

    priority: Priority
    cause: str
    """Template: what is so. Places: subject, gate, detail."""
    action: str
    """What to do about it."""
    consequence: str
    """What follows if nobody does."""
    time: str
    """How long there is for it."""
    every: Second = Second(0.0)
    """How often it sounds again; 0: once."""
    times: int = 0
    """How often it sounds at most; 0: until it is answered."""
    takeover: Second | None = None
    """When it fills the window."""
    silence: Second = SILENCE
    silent: bool = False
    """Shown, never sounded."""

    @property
    def latches(self) -> bool:
        """Whether it stays when its cause has gone, until it is acknowledged."""
        return self.priority == "high"


def _high(cause: str, action: str, consequence: str, time: str, **more: object) -> Rule:
    rest = {"every": HIGH_EVERY, "takeover": TAKEOVER, **more}
    return Rule("high", cause, action, consequence, time, **rest)  # type: ignore[arg-type]


def _medium(cause: str, action: str, consequence: str, time: str, **more: object) -> Rule:
    rest = {"every": MEDIUM_EVERY, **more}
    return Rule("medium", cause, action, consequence, time, **rest)  # type: ignore[arg-type]


def _low(cause: str, action: str, consequence: str, time: str, **more: object) -> Rule:
    return Rule("low", cause, action, consequence, time, **more)  # type: ignore[arg-type]


TABLE: Mapping[Kind, Rule] = {
    # -- clocks: hazards ----------------------------------------------------------------
    "pressurise_soon": _medium(
        "{subject}: pressurise by {gate}", "Close the lid and start the list.",
        "Resin past this holds its bubbles.", "10 min",
    ),
    "pressurise_now": _high(
        "{subject}: pressurise now, by {gate}", "Pressurise, or leave it without pressure.",
        "Resin past this holds its bubbles.", "3 min",
    ),
    "pressurise_missed": _low(
        "{subject}: past its time for pressure since {gate}",
        "Put no pressure on resin that begins to gel; note it.",
        "Pressure on gelling resin cracks or voids it.", "none", silent=True,
    ),
    "working_soon": _low(
        "{subject}: pour soon, working time ends {gate}", "Finish the pour.",
        "It thickens in the cup.", "a quarter of the working time",
    ),
    "working_now": _medium(
        "{subject}: pour now, working time ends {gate}", "Pour what is mixed.",
        "It sets in the cup, hot.", "1 to 5 min",
    ),
    "working_over": _medium(
        "{subject}: working time over since {gate}", "Stop using it. Watch the cup for heat.",
        "Strings, voids, a hot cup.", "now", times=3,
    ),
    "working_hot": _high(
        "{subject}: more in the cup than the sheet allows, and its time is over",
        "Set it outdoors on stone, stand back, no lid.", "It may smoke and burn.", "now",
    ),
    "window_open": _low(
        "{subject}: may begin, until {gate}", "Do it while it is open.",
        "The window closes.", "the window",
    ),
    "window_closing": _medium(
        "{subject}: do it before {gate}", "Do it now, or let it pass.",
        "After it: scuff, and bond as a new layer.", "5 min",
    ),
    "window_missed": _low(
        "{subject}: missed, it closed {gate}",
        "Let it set, scuff it, and bond as a new layer.", "It does not bond by itself.", "hours",
    ),
    # -- clocks: releases ---------------------------------------------------------------
    "hold_over": _low(
        "{subject}: hold over, waited past {gate}", "The pot may be let down by its list.",
        "Waiting longer harms nothing.", "hours",
    ),
    "demould": _low(
        "{subject}: may be demoulded from {gate}", "Try the witness cup first.",
        "Waiting longer harms nothing.", "hours",
    ),
    "wait_over": _low(
        "{subject}: {detail}", "Go on with the next step.", "The work stands still.", "hours",
    ),
    "stage_over": _low(
        "{subject}: {detail}", "Look at it when you come by; the plan has it.",
        "The work stands still.", "hours", silent=True,
    ),
    "oven_stops": _medium(
        "{subject}: {detail}", "Start the oven again and say so.",
        "It cools, and its hours do not count.", "10 min", every=Second(300.0), times=6,
    ),
    # -- readings -----------------------------------------------------------------------
    "reading_old": _low(
        "{subject}: no temperature since {gate}", "Read the thermometer and type it.",
        "The times grow vague.", "1 h",
    ),
    "too_cold": _medium(
        "{subject}: {detail}, under its lowest", "Warm it: below this nothing counts.",
        "It stalls; no finish time.", "1 h", every=Second(1200.0), times=3,
    ),
    "too_warm": _medium(
        "{subject}: {detail}, above its highest", "Turn the heat down and look at it.",
        "It may boil, crack or smoke.", "minutes", every=Second(300.0), times=3,
    ),
    "cabinet_hot": _medium(
        "{subject} hotter than its setting: {detail}",
        "Switch its heater off, and look at thermostat and probe.",
        "A thermostat that sticks goes on heating.", "15 min", every=Second(300.0), times=3,
    ),
    "cabinet_cold": _low(
        "{subject} colder than its setting: {detail}",
        "Look at heater, door and thermostat.", "Everything in it takes longer.", "1 h",
    ),
    "thermometer_lost": _low(
        "{subject}: {detail}", "Look at its battery, its cable, its file.",
        "The times grow vague.", "1 h",
    ),
    # -- pots ---------------------------------------------------------------------------
    "over_rating": _high(
        "{subject}: above its rating", "Shut the supply and let it down.",
        "Lid or clamps may give way.", "1 to 2 min", silence=SHORT_SILENCE,
    ),
    "pot_hot": _high(
        "{subject}: too hot", "Take the heat away, stand clear, let it down.",
        "Pressure rises, parts soften.", "minutes", silence=SHORT_SILENCE,
    ),
    "relief_lifted": _high(
        "{subject}: its relief valve has lifted", "Shut the supply, stand clear, let it down.",
        "It was over its set pressure.", "1 to 2 min", silence=SHORT_SILENCE,
    ),
    "suspect": _high(
        "{subject}: STOP, signs of air", "Stand clear. Leave the vent open, walk away, come back.",
        "The lid may fly.", "seconds", takeover=Second(0.0),
    ),
    "pressure_fall": _medium(
        "{subject}: falls faster than its allowance", "Look at seal and hose before the gel.",
        "Bubbles grow again.", "15 min", times=6,
    ),
    "pot_long": _low(
        "{subject}: reported under pressure, its work is done", "Let it down by the list.",
        "Somebody may take it for empty.", "hours",
    ),
    # -- the means to alarm ----------------------------------------------------------------
    "clock_doubted": _medium(
        "{subject}: the clock is in doubt", "Say in Cure how long the machine was off.",
        "Times are as wide as the doubt.", "1 h", times=2,
    ),
    "log_lost": _high(
        "The log is not being written", "Free some space, or make the folder writable.",
        "What you do now may be forgotten.", "now",
    ),
    "log_broken": _high(
        "{detail}", "Keep the folder as it is and restore a backup beside it.",
        "No pot is known.", "now",
    ),
    "disk_low": _high(
        "Less than {detail} free on the disk", "Free some space.",
        "The log can soon not be written.", "30 min",
    ),
    "no_sound": _medium(
        "No sound: {detail}", "Plug a loudspeaker in, or stay where you see the screen.",
        "You see alarms, you do not hear them.", "now", times=1,
    ),
    "battery_low": _medium(
        "Battery at {detail}", "Plug in.", "The machine goes off.", "30 min", times=3,
    ),
    "battery_out": _high(
        "Battery at {detail}", "Plug in now.", "The machine goes off; alarms stop.", "10 min",
    ),
    "may_sleep": _low(
        "The laptop may sleep: alarms may be late", "Keep it awake by the system's own settings.",
        "You hear late.", "hours", silent=True,
    ),
}  # fmt: skip
