"""Every entry of Mix at both ends of what it takes: all pages are drawn, whatever stands there."""

import pytest

from shopassist.core.batch import Typed
from shopassist.core.entry import EntrySpec
from shopassist.panes.mix.asks import ALL, PAGES
from shopassist.panes.mix.drafts import SPECS
from tests.panes.mix.conftest import MixBench
from tests.panes.mix.test_cup_page import casting

ENTRIES: dict[str, EntrySpec] = {
    **{str(name): spec for name, spec in SPECS.items()},
    **{f"mix.{ask.name}": ask.spec for ask in ALL if ask.spec is not None},
}
TINY, HUGE = 1e-9, 1e9
"""Where an entry has no end of its own."""


@pytest.mark.parametrize("name", ENTRIES)
def test_no_end_of_an_entry_breaks_a_page(bench: MixBench, name: str) -> None:
    spec = ENTRIES[name]
    gel, law = (
        {"time": "40 min", "at": "25 °C"},
        {"kind": "activation energy", "energy": "60 kJ/mol"},
    )
    casting(bench, "140 g", gel=gel, law=law).page("cup", resin_temp="25 °C", pour_depth="9 mm")
    for end in (spec.lowest or TINY, spec.lowest or 0.0, spec.highest or HUGE):
        bench.shop.batches.enter(bench.batch, name, Typed(f"{end}", end, spec.quantity))
        for page, _, _ in PAGES:
            bench.pane.on_page(page)
            shown = bench.pane.screen.page
            assert (shown.key if shown is not None else "ratio") == page, end
