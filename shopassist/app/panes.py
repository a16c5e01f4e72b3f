"""Builds presenters at once and views when they first come into sight."""

from dataclasses import dataclass
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import Any, cast

from PySide6.QtWidgets import QWidget

from shopassist.app.foundation import Foundation
from shopassist.app.services import FORMS, Services
from shopassist.core.atmosphere import air_pressure
from shopassist.panes.blank.presenter import BlankPresenter
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.log.presenter import LogPresenter
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.pot.presenter import PotPresenter
from shopassist.panes.records.presenter import Kind, RecordsPresenter
from shopassist.panes.stabilise.presenter import StabilisePresenter
from shopassist.panes.warmup.beside import WarmupSources
from shopassist.panes.warmup.presenter import WarmupPresenter
from shopassist.services.library import Library
from shopassist.shell.lazy_pane import LazyPane
from shopassist.store.sheet_files import read_toml
from shopassist.widgets.look import Look
from shopassist.widgets.ticker import Ticker


@dataclass(slots=True)
class Presenters:
    """One for each pane."""

    mix: MixPresenter
    cure: CurePresenter
    pot: PotPresenter
    log: LogPresenter
    records: RecordsPresenter
    stabilise: StabilisePresenter
    blank: BlankPresenter
    warmup: WarmupPresenter


def build_presenters(base: Foundation, made: Services) -> Presenters:
    """Build all presenters; they hold words and drafts, no widgets."""
    libraries: dict[str, Library[Any]] = {
        "resin": made.sheets,
        "pot": made.plates,
        "cabinet": made.cabinets,
    }
    kinds = tuple(Kind(kind, title, fields, libraries[kind]) for kind, title, fields in FORMS)
    return Presenters(
        MixPresenter(made.batches, made.sheets, made.hand, made.cure, base.clock, made.wording),
        CurePresenter(made.batches, made.cure, made.hand, base.clock, made.wording),
        PotPresenter(made.pots, made.hand, made.wording),
        LogPresenter(
            made.batches, made.sheets, made.hand, made.index, made.hindsight, made.wording
        ),
        RecordsPresenter(kinds, made.wording, lambda path: read_toml(Path(path))),
        StabilisePresenter(made.batches, made.stabilise, made.hand, base.clock, made.wording),
        BlankPresenter(made.batches, made.sheets, made.hand, made.wording),
        _warmup(base, made),
    )


def _warmup(base: Foundation, made: Services) -> WarmupPresenter:
    sources = WarmupSources(
        made.cabinets, made.plates, made.batches, made.cure, made.hand, base.state,
        lambda: air_pressure(base.settings.now.elevation),
    )  # fmt: skip
    return WarmupPresenter(sources, base.clock, made.wording)


def build_panes(
    look: Look, parts: Presenters, made: Services, ticker: Ticker, base: Foundation
) -> dict[str, LazyPane]:
    """A place for each pane; its module is imported when it first comes into sight."""

    def since_boot() -> float:
        return float(base.clock.read().since_boot)

    say = made.wording
    needs: dict[str, tuple[str, tuple[object, ...]]] = {
        "mix": ("mix.MixView", (parts.mix, say)),
        "cure": ("cure.CureView", (parts.cure, say)),
        "pot": ("pot.PotView", (parts.pot, ticker, since_boot)),
        "stabilise": ("stabilise.StabiliseView", (parts.stabilise, say)),
        "blank": ("blank.BlankView", (parts.blank, say)),
        "warm-up": ("warmup.WarmupView", (parts.warmup, say)),
        "log": ("log.LogView", (parts.log,)),
        "records": ("records.RecordsView", (parts.records,)),
    }
    return {
        name: LazyPane(name, partial(_built, path, look, *given))
        for name, (path, given) in needs.items()
    }


def _built(path: str, *given: object) -> QWidget:
    """Import a pane's view and build it."""
    pane, name = path.split(".")
    view = getattr(import_module(f"shopassist.panes.{pane}.view"), name)
    return cast("QWidget", view(*given))
