"""What the Out pane stands on."""

from collections.abc import Iterable

from shopassist.app.foundation import Foundation
from shopassist.app.limits import LIMITS
from shopassist.app.services import Services
from shopassist.app.shelf import FileShelf
from shopassist.core.pot.paper import Paper, paper
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.out.presenter import OutSources
from shopassist.services.batch_file import BatchFiles
from shopassist.services.next import Due
from shopassist.store.copies import KeptCopies


def out_sources(base: Foundation, made: Services, mix: MixPresenter) -> OutSources:
    """Join them; files go beside the data unless another folder is named."""

    def grams() -> tuple[tuple[str, str], ...]:
        return tuple((e.label, f"{e.value} {e.unit}".strip()) for e in mix.screen.figures)

    def dues() -> Iterable[Due]:
        return (*made.stabilise.dues(), *made.plan.dues())

    return OutSources(
        made.batches, made.hand, made.index, made.cure, made.plan,
        BatchFiles(base.journal, made.batches, made.sheets, base.journal.newest),
        KeptCopies(base.paths, base.state), FileShelf(base.clock), base.state,
        str(base.paths.sheets), grams, lambda pot: _pot_paper(made, pot), dues, made.sheet_name,
        base.journal.newest, LIMITS,
    )  # fmt: skip


def _pot_paper(made: Services, pot_id: str) -> Paper | None:
    """The list of the batch's pot, else of the pot in hand; None while no plate is entered."""
    known = pot_id or made.hand.pot or next((each.id for each in made.plates.all()), "")
    state = made.pots.state(known) if known else None
    if state is None or state.plate is None:
        return None
    return paper(state.plate, state.plate_version, state.ambient)
