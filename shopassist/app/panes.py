"""Views of the panes, built when they first come into sight."""

from collections.abc import Callable
from functools import partial
from importlib import import_module
from typing import cast

from PySide6.QtWidgets import QWidget

from shopassist.app.foundation import Foundation
from shopassist.app.presenters import Presenters
from shopassist.app.services import Services
from shopassist.shell.lazy_pane import LazyPane
from shopassist.widgets.look import Look
from shopassist.widgets.ticker import Ticker


def build_panes(
    look: Look, parts: Presenters, made: Services, ticker: Ticker, base: Foundation
) -> dict[str, LazyPane]:
    """A place for each pane; its module is imported when it first comes into sight."""

    def since_boot() -> float:
        return float(base.clock.read().since_boot)

    say = made.wording
    needs: dict[str, tuple[str, Callable[[], tuple[object, ...]]]] = {
        "mix": ("mix.MixView", lambda: (parts.mix, say)),
        "cure": ("cure.CureView", lambda: (parts.cure, say)),
        "pot": ("pot.PotView", lambda: (parts.pot, ticker, since_boot)),
        "stabilise": ("stabilise.StabiliseView", lambda: (parts.stabilise, say)),
        "blank": ("blank.BlankView", lambda: (parts.blank, say)),
        "warm-up": ("warmup.WarmupView", lambda: (parts.warmup, say)),
        "turn": ("turn.TurnView", lambda: (parts.turn, say)),
        "plan": ("plan.PlanView", lambda: (parts.plan, say)),
        "out": ("out.OutView", lambda: (parts.out,)),
        "log": ("log.LogView", lambda: (parts.log,)),
        "records": ("records.RecordsView", lambda: (parts.records,)),
    }
    return {
        name: LazyPane(name, partial(_built, path, look, given))
        for name, (path, given) in needs.items()
    }


def _built(path: str, look: Look, given: Callable[[], tuple[object, ...]]) -> QWidget:
    """Import a pane's view and build it."""
    pane, name = path.split(".")
    view = getattr(import_module(f"shopassist.panes.{pane}.view"), name)
    return cast("QWidget", view(look, *given()))
