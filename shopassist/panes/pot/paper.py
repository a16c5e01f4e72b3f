"""The printed list in the reader's words and units."""

from shopassist.core.frozen import replace
from shopassist.core.messages import Amount, Param, Text, say
from shopassist.core.pot.paper import Line, Paper, paper
from shopassist.core.wording import US, Wording
from shopassist.services.pot import PotService
from shopassist.widgets.paper_shown import PaperLine, PaperShown


def paper_of(pots: PotService, pot_id: str, words: Wording) -> PaperShown | None:
    """The sheet of one pot; None while its plate is not entered."""
    state = pots.state(pot_id)
    if state.plate is None:
        return None
    return _shown(paper(state.plate, state.plate_version, state.ambient), words, pots.utc())


def _shown(sheet: Paper, words: Wording, now: float) -> PaperShown:
    revision = f"plate {sheet.version}, list {sheet.revision}, printed {words.date(now)}"
    return PaperShown(
        f"{sheet.name}: pressure pot list",
        revision,
        tuple(words.say(_in_both(fact, words)) for fact in sheet.plate),
        tuple(
            (part.heading, tuple(_line(line, words) for line in part.lines))
            for part in sheet.parts
        ),
        tuple((name, " ".join(lines)) for name, lines in sheet.odd),
        sheet.standing,
        overleaf=sum(not part.overleaf for part in sheet.parts),
        letter=words.units == US,
    )  # fmt: skip


TWIN = {"bar": "psi", "kPa": "psi", "psi": "bar"}


def _in_both(fact: Text, words: Wording) -> Text:
    """A pressure in the other unit too: the dial at the pot may be in that one."""
    twin = TWIN.get(words.units.unit("PascalGauge"), "bar")

    def both(param: Param) -> Param:
        if not isinstance(param, Amount) or param.quantity != "PascalGauge":
            return param
        return say("{one} ({other})", one=param, other=replace(param, unit=twin))

    return Text(fact.template, tuple((name, both(param)) for name, param in fact.params))


def _line(line: Line, words: Wording) -> PaperLine:
    ringed = " / ".join(words.say(answer) for answer in line.answers)
    measured = line.quantity in ("PascalGauge", "Kelvin")
    unit = words.unit(line.quantity) if measured else ""
    if line.warmth:
        unit = f"{unit} ________ {words.unit('Kelvin')}"
    answer = " / ".join(part for part in (unit, ringed) if part)
    return PaperLine(str(line.number), words.say(line.question), answer, bool(line.quantity))
