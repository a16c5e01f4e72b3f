"""A shop in a process of its own: acts, says each act aloud once it is kept, waits to be killed."""

import sys
from pathlib import Path

from shopassist.core.batch import Typed
from shopassist.core.quantities import Kilogram


def main(folder: str) -> None:
    """Weigh one batch after the other; every line on the pipe is an act that was acknowledged."""
    sys.path.insert(0, str(Path(__file__).parents[2]))
    from tests.shops import Shop

    shop = Shop(Path(folder))
    sheet = shop.sheet()
    number = 0
    while True:
        number += 1
        batch = shop.batches.open(f"Batch {number}")
        say("opened", batch)
        shop.batches.use_sheet(batch, sheet, 1)
        shop.batches.enter(batch, "amount", Typed("200 g", 0.2, "Kilogram"))
        say("amount", batch)
        shop.batches.weigh(batch, 1, "a", Kilogram(0.1538))
        say("a", batch)
        shop.batches.weigh(batch, 1, "b", Kilogram(0.0461))
        say("b", batch)
        shop.batches.hardener_in(batch, 1)
        say("hardener", batch)


def say(act: str, batch: str) -> None:
    """Acknowledge an act."""
    print(act, batch, flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
