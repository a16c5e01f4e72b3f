"""What stands on the cards of the panes that are not in sight."""

from shopassist.core.wording import NONE, Wording
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.pot.presenter import PotPresenter
from shopassist.services.pot import PotLine
from shopassist.widgets.shown import CardShown, FigureShown


def mix_card(presenter: MixPresenter) -> CardShown:
    """The total in the cup, or what is missing."""
    screen = presenter.screen
    done = [stop for stop in screen.stops if stop.state == "done"]
    if done:
        last = done[-1]
        return CardShown(
            "mix", "Mix", screen.batch_name, f"In the cup after the {last.name.lower()}",
            last.number, last.unit, "typed", line=_mix_line(screen.deviation),
        )  # fmt: skip
    total: FigureShown = screen.figures[-1]
    return CardShown(
        "mix", "Mix", screen.batch_name, "To mix", total.value, total.unit, total.source,
        line=total.note,
    )  # fmt: skip


def _mix_line(deviation: FigureShown | None) -> str:
    return f"hardener {deviation.value}" if deviation is not None else ""


def cure_card(presenter: CurePresenter) -> CardShown:
    """What the digits count to."""
    screen = presenter.screen
    if not screen.batch_id:
        return CardShown("cure", "Cure", "", screen.wait.caption)
    number, unit = screen.temperature
    what, *_ = screen.wait.caption.split(", ")  # the pane has room for what is added to it
    warmth, *_ = screen.temperature_line.split(": ")
    return CardShown(
        "cure", "Cure", screen.right, what, presenter.digits(),
        line=warmth if number == NONE else f"{number} {unit}, {warmth}",
    )  # fmt: skip


def pot_card(presenter: PotPresenter, line: PotLine | None, words: Wording) -> CardShown:
    """What was reported last, what is asked, or what is waited for."""
    screen = presenter.screen
    if screen.wait_digits:
        return CardShown("pot", "Pot", screen.right, screen.wait_caption, screen.wait_digits)
    if line is None:
        what, _, then = screen.question.partition(". ")
        return CardShown("pot", "Pot", "", what, line=then)
    age = words.age(line.age) if line.age is not None else ""
    told = screen.question or age
    if line.pressure is None:
        return CardShown("pot", "Pot", screen.right, "No reading", line=told)
    value, unit = words.split(line.pressure, "PascalGauge")
    return CardShown(
        "pot", "Pot", screen.right, "Last reading, you reported", value, unit, "typed", line=told
    )
