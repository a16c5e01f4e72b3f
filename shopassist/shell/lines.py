"""Words of the pot line and the next line."""

from shopassist.core.pot.words import Belief
from shopassist.core.wording import Wording
from shopassist.services.next import Due
from shopassist.services.people import People
from shopassist.services.pot import PotLine, PotService
from shopassist.widgets.shown import NextShown, PotLineShown
from shopassist.widgets.tokens import PotFace

FACES: dict[Belief, PotFace] = {
    Belief.UNKNOWN: "unknown",
    Belief.OPEN: "open",
    Belief.CLOSED: "closed",
    Belief.PRESSURISED: "pressurised",
    Belief.LETTING_DOWN: "letting_down",
    Belief.PROVING: "proving",
    Belief.CLEAR: "clear_to_crack",
    Belief.CRACKED: "clear_to_open",
    Belief.SUSPECT: "suspect",
}
ACTIONS: dict[Belief, str] = {
    Belief.OPEN: "",
    Belief.LETTING_DOWN: "Vent now",
    Belief.PROVING: "Vent now",
    Belief.CLEAR: "Vent now",
    Belief.CRACKED: "Vent now",
}
"""The one press that the line offers; letting down is never withheld."""
REPORTED = "You reported"
CLEAR_S, OPEN_S = 600.0, 300.0
NO_POT = PotLineShown("open", "NO POT", "No pot entered", "Enter its plate under Records", "")


def pot_shown(
    pots: PotService, wording: Wording, people: People | None = None
) -> PotLineShown:  # fmt: skip
    """The worst pot leads; the others are counted."""
    order = pots.worst()
    if not order:
        return NO_POT
    line = pots.line(order[0])
    more = f" · {len(order) - 1} more" if len(order) > 1 else ""
    between = ", " if line.belief is Belief.LETTING_DOWN else " – "
    word, _, rest = wording.say(line.state_word).partition(between)
    said = _sentence(wording.say(line.report)) if line.report is not None else ""
    report = said or rest
    told = _told(line, people, wording)
    detail = _detail(line, said if rest else "", told, wording, pots.utc()) + more
    return PotLineShown(
        face=FACES[line.belief],
        word=word,
        report=_sentence(rest) or report,
        detail=detail,
        action=ACTIONS.get(line.belief, "Let down"),
        life=_life(line),
        remaining=wording.digits(line.expires_in) if line.expires_in is not None else "",
        brief=_brief(report, detail) if not rest else ("", ""),
    )


def _brief(report: str, detail: str) -> tuple[str, str]:
    """What was reported before that it was reported; nothing where something else stands there."""
    what = report.removeprefix(REPORTED)
    if what == report:
        return "", ""
    return _sentence(what.lstrip(": ")), f"you reported, {detail}"


def _told(line: PotLine, people: People | None, wording: Wording) -> str:
    """How long ago, and by whom where it is known."""
    age = wording.age(line.age) if line.age is not None else ""
    by = people.at(line.said_at) if people is not None and line.said_at is not None else ""
    return f"{age} by {by}" if age and by else age


def _detail(line: PotLine, report: str, age: str, wording: Wording, now: float) -> str:
    closed = line.since is not None and line.belief is not Belief.OPEN
    since = f"air in since {wording.clock(line.since, now)}" if closed and line.since else ""
    return " · ".join(part for part in (report, age, since, line.name) if part)


def _life(line: PotLine) -> float | None:
    if line.expires_in is None:
        return None
    whole = CLEAR_S if line.belief is Belief.CLEAR else OPEN_S
    return max(0.0, min(1.0, line.expires_in / whole))


def next_shown(due: Due | None, wording: Wording, subject: str, now: float) -> NextShown:
    """The next event; the subject is named when it is not the batch in hand."""
    if due is None:
        return NextShown("Nothing is due", "")
    event = wording.say(due.event, now)
    if due.subject and due.subject != subject:
        event = f"{event} · {due.subject}"
    return NextShown(event, wording.say(due.range, now) if due.range is not None else "")


def going_on(pots: PotService, due: Due | None, wording: Wording, now: float) -> tuple[str, ...]:
    """What goes on when the program is closed: the worst pot at work, the next event to come."""
    told: list[str] = []
    if any(pots.state(each).belief not in (Belief.OPEN, Belief.UNKNOWN) for each in pots.ids()):
        shown = pot_shown(pots, wording)
        told.append(f"{shown.word}. {shown.report}.")
    if due is not None and due.gate is not None and due.gate > now:
        told.append(f"{wording.say(due.event, now)} · {due.subject}.")
    return tuple(told)


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
