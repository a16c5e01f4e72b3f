"""The words of the items: one question, and one line for each answer.

``QUESTIONS`` and ``LABELS`` are read by ``questions``; ids and order stand in ``vocabulary``.
"""

from shopassist.core.pot.words import Item

QUESTIONS: dict[Item, str] = {
    Item.RUN: "Say what this run is. Resin needs a live-lifted relief valve.",
    Item.HOLD_PRESSURE: "Type the hold pressure for this run.",
    Item.RING: "Pull the relief ring and let it go. What does it do?",
    Item.HOLE: "Look through the hole: {hole}. What do you see?",
    Item.GASKET: "Wipe the gasket and its seat. What do you see?",
    Item.BASELINE: "Open the vent, lid off. Type what the gauge reads.",
    Item.CLAMPS: "Inspect every clamp. Type how many are present and sound.",
    Item.DRY_FIT: "Set the moulds in, lid on. Is there height to spare?",
    Item.PLACE: "Set the pot where it will stay. Does it stay there?",
    Item.CLAMPS_ROUND: "Tighten in the drawn order: snug, third, two thirds, tight, once round.",
    Item.CLAMP_COUNT: "Type how many clamps are hooked and tight.",
    Item.AIR_ON: "Stand clear of lid and relief valve. Then let a little air in.",
    Item.FIRST_AIR: "Let in about {first}. Type what the gauge reads.",
    Item.REGULATOR: "Compare with the regulator. What does the regulator show?",
    Item.LID_HISS: "Listen at the lid from the side. Any hiss?",
    Item.AT_PRESSURE: "Fill slowly to {hold}. Type what the gauge reads.",
    Item.SUPPLY: "Look at the air supply. What is it now?",
    Item.READING: "Type what the gauge reads now.",
    Item.TEMPERATURE: "Type the temperature at the pot.",
    Item.LEAK_START: "Shut the inlet after 10 min. Type reading and temperature.",
    Item.LEAK_END: "Wait 10 min or more. Type reading and temperature again.",
    Item.LIVE_LIFT: "Lift the relief ring under pressure. Type what the gauge read.",
    Item.STAY: "Type what the gauge reads to stay at pressure.",
    Item.INLET: "Shut the pot's inlet valve. How does its handle stand?",
    Item.HOSE_BLED: "Bleed the hose, face turned away. What did it do?",
    Item.HOSE: "Take the hose off the pot. What do you see?",
    Item.EYES: "Cover your eyes. Stand out of line with lid and vent.",
    Item.VENT: "Open the vent slowly, pointing away. What did you find?",
    Item.VENT_READING: "Type what the gauge reads.",
    Item.OPENING: "Leave the vent alone; do not probe it. Choose another opening.",
    Item.OPENING_HEARD: "Cover eyes and ears, open it slowly: {sign}. What happened?",
    Item.FALL_FIRST: "Let it fall to about {half}. Shut the vent and type the reading.",
    Item.FALL_SECOND: "Wait one minute, vent still shut. Type the reading.",
    Item.FALL_SPEED: "How did the gauge fall?",
    Item.VENT_AGAIN: "Open the vent and leave it open. How does it stand?",
    Item.ZERO: "Wait for the gauge to come down. Type what it reads.",
    Item.SILENCE: "Listen at both openings. Type the word silent if they are.",
    Item.DWELL: "Leave the vent open and wait. Nothing shortens this.",
    Item.SIGN: "Choose a second sign, at another hole than the gauge's.",
    Item.SIGN_SEEN: "{act} Is any air moving?",
    Item.ZERO_AGAIN: "Read the gauge afresh. Type what it reads.",
    Item.SILENCE_AGAIN: "Listen at both openings again. Type the word silent.",
    Item.INLET_NOW: "Look at the inlet valve now. How does it stand?",
    Item.HOSE_NOW: "Look at the hose now. What do you see?",
    Item.VENT_NOW_SEEN: "Look and listen at the vent now. How does it stand?",
    Item.CONFIRM: "Hold to record the checks. Treat the lid as if pressurised.",
    Item.SLACKEN: "Slacken every clamp half a turn, far side first, all hooked.",
    Item.ROCK: "Rock the lid by hand, every clamp still hooked. What happens?",
    Item.LID_OFF: "Unhook the clamps and lift the lid. What do you see?",
    Item.LID_OFF_NOW: "Look at the pot from where you stand. Is the lid off?",
    Item.AFTERCARE: "Clean holes and gasket while you remember. Any faults?",
    Item.WHERE: "Ten minutes went by without an answer. Where were you?",
}

SIGN_ACTS: dict[str, str] = {
    "vent": "Hold a tissue to the open vent.",
    "test_valve": "Open the test valve.",
    "second_gauge": "Read the second gauge.",
    "inlet": "See the hose apart, then open the inlet valve.",
    "ring": "Cover eyes and ears, lift the relief ring and hold it.",
}
SIGN_NAMES: dict[str, str] = {
    "vent": "Vent",
    "test_valve": "Test valve",
    "second_gauge": "Second gauge",
    "inlet": "Inlet, hose off",
    "ring": "Relief ring",
}
SIGN_NOTES: dict[str, str] = {
    "vent": "Silent after the hiss of this run",
    "test_valve": "Opened and left open",
    "second_gauge": "Reads zero",
    "inlet": "Opened with the hose seen apart",
    "ring": "Lifted and held; dust can make it weep",
}
SECOND_GAUGE_ANSWERS = {
    "some": ("Above zero", "Believe it: back to isolating"),
    "none": ("At zero", ""),
}

CANT = ("Can't tell", "Nothing moves; asked again")

_SIGHT = "Asked again"
_VOID = "After a zero: back to isolating"

LABELS: dict[Item, dict[str, tuple[str, str]]] = {
    Item.RUN: {
        "casting": ("Casting with resin", ""),
        "test": ("Dry test run, no resin", "May end in a live lift of the relief valve"),
    },
    Item.RING: {
        "weeps": ("Weeps or hangs", "No run until it is put right"),
        "snaps_back": ("Lifts and snaps back", ""),
        "does_not_move": ("Does not move", "No run until it is put right"),
    },
    Item.HOLE: {"blocked": ("Blocked or dirty", "Clean it; asked again"), "clear": ("Clear", "")},
    Item.GASKET: {
        "clean": ("Clean and whole", ""),
        "dirty": ("Dirty", "Clean it; asked again"),
        "damaged": ("Cut, hard or worn", "Replace it; asked again"),
    },
    Item.BASELINE: {"on_pin": ("Needle rests on its pin", "No baseline: replace the gauge")},
    Item.DRY_FIT: {
        "touches": ("Touches the lid", "Asked again"),
        "fits": ("Fits, height to spare", ""),
        "not_tried": ("Not tried", "Asked again"),
    },
    Item.PLACE: {
        "moves_later": ("Has to be moved later", "Asked again"),
        "stays": ("Stays here", ""),
    },
    Item.CLAMPS_ROUND: {
        "not_yet": ("Not yet round", "Asked again"),
        "all_round": ("Once round: none turns", "The pot counts as closed"),
    },
    Item.REGULATOR: {
        "higher": ("Much more", "No more air; let down"),
        "agrees": ("About the same", ""),
        "lower": ("Much less", "No more air; let down"),
    },
    Item.LID_HISS: {
        "some": ("A hiss", "Let down and reseat; never tighten now"),
        "none": ("No hiss", ""),
    },
    Item.SUPPLY: {
        "connected": ("Connected, relieving regulator", "Gauge is asked for"),
        "isolated": ("Isolated: inlet shut", "Gauge is asked for"),
        "lost": ("Lost: no air comes", "The pot is still full"),
        "back": ("Back again", "Gauge is asked for"),
        "topped_up": ("Topped up", "Gauge is asked for"),
    },
    Item.LIVE_LIFT: {"did_not_lift": ("Did not lift", "No casting until it does")},
    Item.INLET: {
        "open": ("Open", _SIGHT),
        "shut": ("Shut", ""),
    },
    Item.HOSE_BLED: {
        "not_bled": ("Not bled yet", _SIGHT),
        "bled": ("Bled, then quiet", ""),
        "spitting": ("Keeps spitting", "Shut the supply; vent comes first"),
        "no_hose": ("No hose on it", ""),
    },
    Item.HOSE: {"coupled": ("Coupled", _SIGHT), "apart": ("Apart", "")},
    Item.EYES: {"not_yet": ("Not yet", _SIGHT), "covered": ("Covered, out of line", "")},
    Item.VENT: {
        "opened_hiss": ("Was shut, I opened it: hiss", ""),
        "opened_none": ("Was shut, I opened it: none or a puff", "Gauge is asked for"),
        "was_open_air": ("Already open, air moving", ""),
        "was_open_silent": ("Already open, silent", "Gauge is asked for"),
    },
    Item.OPENING_HEARD: {
        "hiss_falls": ("Hiss, and the gauge falls", ""),
        "hiss_silent": ("Hiss, then silent; gauge stays", "The gauge may have failed"),
        "none": ("No air, or a short puff", "Another opening, or stop"),
    },
    Item.FALL_FIRST: {
        "straight_to_zero": ("Went straight to zero", "Long wait and a third sign"),
        "silent_steady": ("Steady above zero, vent silent", "The vent may be plugged"),
    },
    Item.FALL_SPEED: {
        "at_once": ("At once", "Long wait and a third sign"),
        "slowly": ("Slowly", ""),
        "not_watched": ("I did not watch", "Long wait and a third sign"),
    },
    Item.VENT_AGAIN: {"shut": ("Shut", _SIGHT), "open": ("Open, left open", "")},
    Item.ZERO: {
        "silent_steady": ("Steady above zero, vent silent", "The vent may be plugged"),
        "on_pin": ("Needle rests on its pin", "The gauge counts as failed"),
    },
    Item.SILENCE: {"some": ("Air is moving", "Back to isolating")},
    Item.SIGN_SEEN: {"some": ("Some air", "Believe it: back to isolating"), "none": ("None", "")},
    Item.ZERO_AGAIN: {
        "silent_steady": ("Steady above zero, vent silent", "The vent may be plugged"),
        "on_pin": ("Needle rests on its pin", "The gauge counts as failed"),
    },
    Item.SILENCE_AGAIN: {"some": ("Air is moving", "Back to isolating")},
    Item.INLET_NOW: {
        "open": ("Open", _VOID),
        "shut": ("Shut", ""),
        "opened_as_sign": ("Open, as the sign; hose apart", ""),
    },
    Item.HOSE_NOW: {"coupled": ("Coupled", _VOID), "apart": ("Apart", "")},
    Item.VENT_NOW_SEEN: {
        "shut": ("Shut", _VOID),
        "open_air": ("Open, air moving", "Believe it: back to isolating"),
        "open": ("Open, silent", ""),
    },
    Item.SLACKEN: {
        "hiss": ("A hiss", "Stop: suspect"),
        "done": ("One pass round, all hooked", ""),
    },
    Item.ROCK: {
        "stuck": ("Does not move", "Stuck lid: leave every clamp hooked"),
        "free": ("Rocks freely, no hiss", ""),
        "hiss": ("A hiss", "Stop: suspect"),
    },
    Item.LID_OFF: {
        "still_on": ("Still on", "Asked again"),
        "inside_seen": ("Off; I see the inside", ""),
        "hiss": ("A hiss", "Stop: suspect"),
    },
    Item.LID_OFF_NOW: {
        "lid_is_on": ("The lid is on", "Stays as it is"),
        "inside_seen": ("Lid is off; I see the inside", "Recorded as opened"),
    },
    Item.AFTERCARE: {
        "later": ("Later", ""),
        "cleaned": ("Cleaned, no faults", ""),
        "faults": ("Cleaned; I found a fault", "Marked on the run"),
    },
    Item.WHERE: {
        "been_here": ("Here at the pot", "Sightings are asked again"),
        "was_away": ("Away from it", "Sightings are asked again"),
        "moved": ("Somebody may have moved things", "Back to isolating, fall not seen"),
    },
}  # fmt: skip
"""Answer id to label and consequence; an empty consequence is not shown."""
