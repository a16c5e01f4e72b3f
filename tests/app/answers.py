"""What an honest person with a healthy pot answers, item by item."""

HEALTHY: dict[str, str] = {
    "lid_off_now": "inside_seen", "aftercare": "cleaned", "run": "casting", "ring": "snaps_back",
    "hole": "clear", "gasket": "clean", "dry_fit": "fits", "place": "stays",
    "clamps_round": "all_round", "regulator": "agrees", "lid_hiss": "none", "supply": "isolated",
    "inlet": "shut", "hose_bled": "bled", "hose": "apart", "eyes": "covered",
    "vent": "opened_hiss", "vent_again": "open", "fall_speed": "slowly", "sign_seen": "none",
    "inlet_now": "shut", "hose_now": "apart", "vent_now_seen": "open", "slacken": "done",
    "rock": "free", "lid_off": "inside_seen", "where": "been_here",
}  # fmt: skip
"""The answer of each item that is chosen from a list."""
TYPED: dict[str, str] = {
    "hold_pressure": "2.76", "baseline": "0.0", "clamps": "6", "clamp_count": "6",
    "first_air": "0.7", "at_pressure": "2.76", "fall_first": "1.30", "fall_second": "1.29",
    "zero": "0.0", "zero_again": "0.0",
}  # fmt: skip
"""What is typed where a value is asked for, in bar."""
