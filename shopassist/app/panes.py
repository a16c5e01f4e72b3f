"""Builds presenters at once and views when they first come into sight."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PySide6.QtWidgets import QWidget

from shopassist.app.foundation import Foundation
from shopassist.app.services import FORMS, Services
from shopassist.core.atmosphere import air_pressure
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
    """A place for each pane."""

    def mix() -> QWidget:
        from shopassist.panes.mix.view import MixView

        return MixView(look, parts.mix, made.wording)

    def cure() -> QWidget:
        from shopassist.panes.cure.view import CureView

        return CureView(look, parts.cure, made.wording)

    def pot() -> QWidget:
        from shopassist.panes.pot.view import PotView

        return PotView(look, parts.pot, ticker, lambda: float(base.clock.read().since_boot))

    def log() -> QWidget:
        from shopassist.panes.log.view import LogView

        return LogView(look, parts.log)

    def records() -> QWidget:
        from shopassist.panes.records.view import RecordsView

        return RecordsView(look, parts.records)

    def stabilise() -> QWidget:
        from shopassist.panes.stabilise.view import StabiliseView

        return StabiliseView(look, parts.stabilise, made.wording)

    def warmup() -> QWidget:
        from shopassist.panes.warmup.view import WarmupView

        return WarmupView(look, parts.warmup, made.wording)

    builders: dict[str, Callable[[], QWidget]] = {
        "mix": mix, "cure": cure, "pot": pot, "log": log, "records": records,
        "stabilise": stabilise, "warm-up": warmup,
    }  # fmt: skip
    return {name: LazyPane(name, build) for name, build in builders.items()}
