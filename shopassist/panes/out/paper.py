"""The batch sheet in the reader's words: what the screens show, and room for the hand."""

from collections.abc import Iterable

from shopassist.core.batch import Batch
from shopassist.core.plan import Planned
from shopassist.core.pot.paper import Paper
from shopassist.core.stages import Stage
from shopassist.core.wording import DASH, NONE, US, Wording
from shopassist.services.cure import Aim, StageView
from shopassist.widgets.batch_sheet_shown import SheetBlock, SheetRow, SheetShown

AIMS: dict[Aim, str] = {
    "working": "Pour by", "pressurise": "Pressurise by", "gel": "May gel from",
    "hold": "Hold until", "demould": "May demould", "hard": "May turn", "full": "Full cure",
}  # fmt: skip
DOWN = ("Let down", "Prove", "Crack")
"""Parts of the pot's list that stand on the batch's sheet too."""
Pair = tuple[str, str]


def sheet(
    say: Wording, batch: Batch, blocks: Iterable[SheetBlock], foot: tuple[str, ...], right: str
) -> SheetShown:
    """Put the page together."""
    filled = tuple(block for block in blocks if block.rows)
    letter = say.units == US or say.style.order == "mdy"
    return SheetShown(f"Batch sheet: {batch.name}", right, filled, foot, letter)


def mix_block(grams: Iterable[Pair]) -> SheetBlock:
    """Grams as Mix shows them, and what the scale really said."""
    rows = [SheetRow(label, value) for label, value in grams]
    by_hand = ("Resin, poured", "Hardener, poured", "Hardener in at", "Shop, resin, °; air, %",
               "Poured at", "Lots")  # fmt: skip
    return SheetBlock("Mix", (*rows, *(SheetRow(each, box=True) for each in by_hand)), 2)


def times_block(say: Wording, stages: Iterable[StageView], now: float) -> SheetBlock:
    """Clock times of the cure: hazards early, releases late."""
    rows = []
    for each in stages:
        gate = say.clock(each.gate, now, late=each.kind == "release") if each.gate else NONE
        span = ""
        if each.early is not None and each.late is not None:
            span = f"  ({say.clock(each.early, now)}{DASH}{say.clock(each.late, now)})"
        rows.append(SheetRow(AIMS[each.aim], f"{gate}{span}"))
    return SheetBlock("Cure, estimated", tuple(rows), 2)


def pot_block(say: Wording, paper: Paper | None) -> SheetBlock:
    """The pot's own sheet names all; letting down stands here too."""
    if paper is None:
        return SheetBlock("Pot", ())
    rows = [SheetRow(f"{paper.name}, list {paper.revision}: at pressure at", box=True)]
    for part in paper.parts:
        if part.heading.startswith(DOWN):
            rows += [SheetRow(f"{line.number}  {say.say(line.question)}", box=True)
                     for line in part.lines]  # fmt: skip
    return SheetBlock("Pot: let down in this order", tuple(rows), 2)


def plan_block(say: Wording, placed: Iterable[tuple[Planned, Stage]], now: float) -> SheetBlock:
    """What is still to be done, as planned now."""
    rows = [
        SheetRow(stage.name, say.clock(each.start, now), box=True)
        for each, stage in placed
        if each.kind != "done"
    ]
    return SheetBlock("Plan, as it stands now", tuple(rows), 2)
