"""Words of the alarms: for the band, for the window they fill, for the list of them."""

from shopassist.core.alarms.book import TOLD_LATE, Alarm
from shopassist.core.alarms.causes import Cause
from shopassist.core.messages import Moment, Param, Text
from shopassist.core.wording import Wording
from shopassist.services.alarms import Standing
from shopassist.widgets.shown import AlarmShown, AlarmsShown

BAND_STAGES = ("full", "louder", "not seen")


def band(standing: Standing | None, say: Wording, now: float) -> AlarmShown | None:
    """What stands in the band; None where nothing does."""
    if standing is None:
        return None
    alarm = standing.alarm
    words = cause_words(alarm, standing.cause, say, now)
    more = f" · {standing.more} more" if standing.more else ""
    quiet = alarm.acknowledged
    # What sounds but once does not go on flashing either.
    return AlarmShown(
        alarm.rule.priority,
        words,
        f"{detail(alarm, say, now)}{more}",
        "" if quiet else "Acknowledge",
        "" if quiet or alarm.rule.silent else _silence(standing, say),
        steady=quiet or alarm.rule.times == 1,
    )


def _silence(standing: Standing, say: Wording) -> str:
    left = standing.silent
    return f"Silent {say.digits(left)}" if left > 0 else "Silence 2 min"


def cause_words(alarm: Alarm, cause: Cause | None, say: Wording, now: float) -> str:
    """What is so, in the words of the table."""
    params: dict[str, Param] = {
        "subject": str(alarm.row.body.get("subject", "")),
        "gate": Moment(alarm.due if cause is None or cause.gate is None else cause.gate),
        "detail": "" if cause is None or cause.detail is None else cause.detail,
    }
    return say.say(Text(alarm.rule.cause, tuple(params.items())), now)


def detail(alarm: Alarm, say: Wording, now: float) -> str:
    """What to do, or when it was; and how late it was told."""
    late = f" Told late by {say.duration(alarm.late)}." if alarm.late > TOLD_LATE else ""
    if alarm.gone is not None:
        since, until = say.clock(alarm.due, now), say.clock(alarm.gone, now)
        return f"Was so from {since} to {until}.{late}"
    return f"{alarm.rule.action}{late}"


def fills_window(standing: Standing | None) -> bool:
    """Whether it has escalated so far."""
    return standing is not None and standing.stage in BAND_STAGES


def line(alarm: Alarm, cause: Cause | None, say: Wording, now: float) -> tuple[str, str]:
    """One alarm in the list: what is so, and all the table says of it."""
    rule = alarm.rule
    seen = "acknowledged" if alarm.acknowledged else "not acknowledged"
    since = f"{rule.priority}, since {say.clock(alarm.due, now)}, {seen}"
    head = f"{cause_words(alarm, cause, say, now)} ({since})"
    return head, f"{detail(alarm, say, now)} Else: {rule.consequence} Time: {rule.time}."


def listed(
    alarms: tuple[tuple[Alarm, Cause | None], ...], sound: str, say: Wording, now: float,
    *, asks: bool,
) -> AlarmsShown:  # fmt: skip
    """The whole list."""
    lines = tuple(line(alarm, cause, say, now) for alarm, cause in alarms)
    return AlarmsShown(lines or (("No alarm is on.", ""),), sound, asks)
