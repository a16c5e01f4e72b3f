"""The closed vocabularies of the pot: states, acts, items, signs, branches."""

from enum import StrEnum


class Belief(StrEnum):
    """What the record amounts to; the program itself senses nothing."""

    UNKNOWN = "unknown"
    OPEN = "open"
    CLOSED = "closed"
    PRESSURISED = "pressurised"
    LETTING_DOWN = "letting down"
    PROVING = "proving"
    CLEAR = "clear to crack"
    CRACKED = "cracked"
    SUSPECT = "suspect"


class Act(StrEnum):
    """One press, or a hold."""

    LET_DOWN = "let_down"
    VENT_NOW = "vent_now"
    AIR_IN = "air_in_already"
    AIR_ON = "air_on"
    CONFIRM = "confirm"
    """The hold of 1.5 s that asks for *clear to crack*."""
    STOP = "stop"
    """Recorded; nothing moves: leave the vent open, walk away, come back."""
    LOST_TRACK = "lost_track"
    OPENED = "opened_without_list"
    RELIEF_LIFTED = "relief_lifted"
    SUPPLY_LOST = "supply_lost"
    TOO_HOT = "too_hot"
    DOUBT = "doubt"
    """No sign to be had, or signs that do not fit: get help."""


class Item(StrEnum):
    """What is asked, one thing at a time."""

    # Ready
    RUN = "run"
    HOLD_PRESSURE = "hold_pressure"
    RING = "ring"
    HOLE = "hole"
    GASKET = "gasket"
    BASELINE = "baseline"
    CLAMPS = "clamps"
    DRY_FIT = "dry_fit"
    PLACE = "place"
    # Close
    CLAMPS_ROUND = "clamps_round"
    CLAMP_COUNT = "clamp_count"
    AIR_ON = "air_on"
    # Air on
    FIRST_AIR = "first_air"
    REGULATOR = "regulator"
    LID_HISS = "lid_hiss"
    AT_PRESSURE = "at_pressure"
    SUPPLY = "supply"
    # Hold
    READING = "reading"
    TEMPERATURE = "temperature"
    LEAK_START = "leak_start"
    LEAK_END = "leak_end"
    LIVE_LIFT = "live_lift"
    STAY = "stay"
    # Let down
    INLET = "inlet"
    HOSE_BLED = "hose_bled"
    HOSE = "hose"
    EYES = "eyes"
    VENT = "vent"
    VENT_READING = "vent_reading"
    OPENING = "opening"
    OPENING_HEARD = "opening_heard"
    FALL_FIRST = "fall_first"
    FALL_SECOND = "fall_second"
    FALL_SPEED = "fall_speed"
    VENT_AGAIN = "vent_again"
    ZERO = "zero"
    SILENCE = "silence"
    # Prove
    DWELL = "dwell"
    SIGN = "sign"
    SIGN_SEEN = "sign_seen"
    ZERO_AGAIN = "zero_again"
    SILENCE_AGAIN = "silence_again"
    INLET_NOW = "inlet_now"
    HOSE_NOW = "hose_now"
    VENT_NOW_SEEN = "vent_now_seen"
    CONFIRM = "confirm"
    # Crack and open
    SLACKEN = "slacken"
    ROCK = "rock"
    LID_OFF = "lid_off"
    LID_OFF_NOW = "lid_off_now"
    AFTERCARE = "aftercare"
    WHERE = "where_were_you"


class Sign(StrEnum):
    """Signs of emptiness besides the gauge, least troublesome first."""

    VENT = "vent"
    TEST_VALVE = "test_valve"
    SECOND_GAUGE = "second_gauge"
    INLET = "inlet"
    RING = "ring"


class Branch(StrEnum):
    """Which odd thing is being dealt with; shown as its own card."""

    NONE = ""
    OVER_RATING = "over_rating"
    OVER_LIMIT = "over_limit"
    FALL_NOT_SEEN = "fall_not_seen"
    RESEAT = "reseat"
    RELIEF_LIFTED = "relief_lifted"
    NO_HISS = "no_hiss"
    STUCK_GAUGE = "stuck_gauge"
    DISAGREE = "disagree"
    SUPPLY_LOST = "supply_lost"
    TOO_HOT = "too_hot"
    STUCK_LID = "stuck_lid"
    LOST_TRACK = "lost_track"
    UNLISTED = "opened_without_list"


class Told(StrEnum):
    """What the program itself found out about its own past."""

    RESTARTED = "restarted"
    SUSPENDED = "suspended"
    CLOCK_DOUBTED = "clock_doubted"
    RESTORED = "restored"
    BROKEN = "broken"


class Run(StrEnum):
    """What the pot is closed for."""

    CASTING = "casting"
    TEST = "test"


CANT_TELL = "cant_tell"
"""Always offered, never advances."""
