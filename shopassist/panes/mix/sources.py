"""What the mix pane works from; shelves are built when they are first looked at."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from shopassist.clock import Clock
from shopassist.core.frozen import frozen
from shopassist.core.sheets import ResinSheet
from shopassist.core.wood_set import WoodSet
from shopassist.core.wording import Wording
from shopassist.services.batches import BatchService
from shopassist.services.cure import CureService
from shopassist.services.in_hand import InHand
from shopassist.services.versions import Library

if TYPE_CHECKING:
    from shopassist.core.colour import Colourant
    from shopassist.core.shelf import ScaleRecord
    from shopassist.services.stock import StockService


@frozen
class MixSources:
    """Services of the pane."""

    batches: BatchService
    sheets: Library[ResinSheet]
    hand: InHand
    cure: CureService
    clock: Clock
    wording: Wording
    scales: "Callable[[], Library[ScaleRecord]]"
    colours: "Callable[[], Library[Colourant]]"
    stock: "Callable[[], StockService]"
    wood: Callable[[str], WoodSet]
    """What was reported of the wood of a batch; asked for where a resin froths with water."""
