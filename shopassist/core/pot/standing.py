"""Standing words: states, cards, branches, cautions."""

from shopassist.core.pot.cards import CardName
from shopassist.core.pot.words import Act, Belief, Branch

STATE_WORDS: dict[Belief, str] = {
    Belief.UNKNOWN: "NOT KNOWN – TREAT AS PRESSURISED",
    Belief.OPEN: "OPEN, when last seen",
    Belief.CLOSED: "CLOSED, NO AIR YET",
    Belief.PRESSURISED: "PRESSURISED",
    Belief.LETTING_DOWN: "LETTING DOWN",
    Belief.PROVING: "PROVING",
    Belief.CLEAR: "CLEAR TO CRACK",
    Belief.CRACKED: "CLEAR TO OPEN",
    Belief.SUSPECT: "STOP – SUSPECT",
}
LETTING_DOWN_AIR_ON = "LETTING DOWN, air not yet isolated"
LETTING_DOWN_VENT_SHUT = "LETTING DOWN, vent not yet open"

TITLES: dict[CardName, str] = {
    CardName.READY: "Ready: lid off, before mixing",
    CardName.CLOSE: "Close",
    CardName.AIR_ON: "Air on",
    CardName.HOLD: "Hold",
    CardName.ISOLATE_AND_VENT: "Let down 1: isolate and vent",
    CardName.ZERO: "Let down 2: zero",
    CardName.PROVE: "Let down 3: prove",
    CardName.CRACK: "Let down 4: crack and open",
    CardName.NOT_KNOWN: "Not known",
    CardName.SUSPECT: "Stop: suspect",
}

COMPLETIONS: dict[Belief, str] = {
    Belief.CLEAR: "Prove list complete as you reported: CLEAR TO CRACK.",
    Belief.CRACKED: "Crack list complete as you reported: CLEAR TO OPEN.",
}

BRANCHES: dict[Branch, tuple[str, ...]] = {
    Branch.NONE: (),
    Branch.OVER_RATING: (
        "Above the rating. Open the vent first if you can reach it.",
        "Shut the supply. Stand clear of lid and relief valve.",
        "Have the pot examined before the next run.",
    ),
    Branch.OVER_LIMIT: (
        "Over the working limit. Bleed down to it, then type again.",
        "The second time ends in a let-down.",
    ),
    Branch.FALL_NOT_SEEN: (
        "The gauge did not follow the air. Shut the inlet; no more air.",
        "A long wait and a third sign are owed.",
    ),
    Branch.RESEAT: ("Let down, open and reseat the gasket.", "Never tighten under pressure."),
    Branch.RELIEF_LIFTED: (
        "Relief valve lifted. Shut the supply, stand clear, let it reseat.",
        "The next run asks a live lift.",
    ),
    Branch.NO_HISS: (
        "The vent may be plugged. Do not probe it.",
        "Use another opening, eyes and ears covered.",
        "What sits on the vent's hole gives no sign any more.",
    ),
    Branch.STUCK_GAUGE: (
        "The gauge failed. It proves nothing in this run.",
        "Two other openings and a long wait are owed.",
    ),
    Branch.DISAGREE: ("The signs disagree. Believe the worse one.",),
    Branch.SUPPLY_LOST: (
        "The pot is still full.",
        "Shut the inlet or take the hose off before power returns.",
    ),
    Branch.TOO_HOT: (
        "Open the vent now if you can do it from clear of the lid.",
        "Heater off, ventilate, stand away.",
        "In doubt leave it alone: the pot is pressurised.",
    ),
    Branch.STUCK_LID: (
        "Look: is the vent open? Keep every clamp hooked.",
        "Rock gently. Use no pry bar.",
        "The third time: get help.",
    ),
    Branch.LOST_TRACK: ("Assume the highest pressure last reported.", "Start from isolating."),
    Branch.UNLISTED: ("Recorded. Look at the pot and say how it is now.",),
}

SUSPECT_WORDS = (
    "Leave the vent open and the hose off. Keep clear.",
    "Put no tools in the vent.",
    "If clamps are slack, leave them as they are.",
    "In doubt do not open. Get help.",
)
EXPIRED_WORDS = (
    "The time ran out. Hands off: neither tighten nor slacken.",
    "Leave the vent open. Answer again, then go on from the recorded pass.",
)
SLACKEN_CAUTION = "Clear of the lid's path. Slacken as if it were still pressurised."

OFFERS: dict[Act, tuple[str, str]] = {
    Act.STOP: ("Stop", "Leave the vent as it is; come back later"),
    Act.LET_DOWN: ("Let down", "Start isolating and venting"),
    Act.VENT_NOW: ("Vent now", "Records the vent open at once"),
    Act.AIR_IN: ("Air is in already", "The pot counts as pressurised"),
    Act.AIR_ON: ("Air on", "The pot counts as pressurised"),
    Act.CONFIRM: ("Hold", "Asks for clear to crack"),
    Act.LOST_TRACK: ("I lost track", "Back to isolating, fall not seen"),
    Act.OPENED: ("Opened without the list", "Then say how it is now"),
    Act.RELIEF_LIFTED: ("Relief valve lifted", "Stand clear, let it reseat"),
    Act.SUPPLY_LOST: ("Supply lost", "The pot is still full"),
    Act.TOO_HOT: ("Too hot: smoke or smell", "Vent now comes first"),
    Act.DOUBT: ("Signs do not fit", "Stop: suspect"),
}
OFFER_ORDER = (
    Act.STOP, Act.LET_DOWN, Act.VENT_NOW, Act.AIR_IN, Act.RELIEF_LIFTED, Act.SUPPLY_LOST,
    Act.TOO_HOT, Act.LOST_TRACK, Act.DOUBT, Act.OPENED,
)  # fmt: skip

STANDING_WORDS = (
    "This program cannot see or feel the pot.",
    "It keeps the order of the steps and what was typed.",
    "It is no safety device.",
    "It replaces neither relief valve, nor working gauge, nor the maker's instructions.",
    "Follow local rules. Ask a competent person about the vessel.",
    "Times, tolerances and the leak allowance are this project's own choices.",
    "They want a competent person's review.",
    "A pot's own instructions win wherever they are stricter.",
)
