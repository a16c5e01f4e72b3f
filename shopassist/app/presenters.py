"""Presenters of the panes: those of the first paint at once, the others when asked for. No Qt."""

from collections.abc import Callable
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from shopassist.app.foundation import Foundation
from shopassist.app.services import KINDS, Services, form_of
from shopassist.core.quantities import Second
from shopassist.panes.cure.presenter import CurePresenter
from shopassist.panes.mix.presenter import MixPresenter
from shopassist.panes.mix.sources import MixSources
from shopassist.panes.pot.presenter import PotPresenter
from shopassist.services.versions import Library
from shopassist.store.sheet_files import read_toml

if TYPE_CHECKING:
    from shopassist.panes.blank.presenter import BlankPresenter
    from shopassist.panes.log.presenter import LogPresenter
    from shopassist.panes.out.presenter import OutPresenter
    from shopassist.panes.plan.presenter import PlanPresenter
    from shopassist.panes.records.presenter import RecordsPresenter
    from shopassist.panes.stabilise.presenter import StabilisePresenter
    from shopassist.panes.turn.presenter import TurnPresenter
    from shopassist.panes.warmup.presenter import WarmupPresenter

T = TypeVar("T")
Met = Callable[[str, object], None]


class Presenters:
    """One for each pane; the three primary ones at once, the others when they are asked for."""

    def __init__(self, base: Foundation, made: Services, met: Met) -> None:
        self._base, self._made, self._met = base, made, met
        self.mix = MixPresenter(MixSources(
            made.batches, made.sheets, made.hand, made.cure, base.clock, made.wording,
            lambda: made.scales, lambda: made.colours, lambda: made.stock,
            lambda batch: made.stabilise.state(batch),  # noqa: PLW0108 - built when asked for
        ))  # fmt: skip
        self.cure = CurePresenter(
            made.batches, made.cure, made.waits, made.hand, base.clock, made.wording
        )
        self.cure.keep = self._keep
        self.cure.form.settle = self._settle
        self.cure.form.into = lambda batch: self.warmup.course_for(batch)  # noqa: PLW0108 - later
        self.pot = PotPresenter(
            made.pots, made.hand, made.wording, made.loads, lambda: made.chambers
        )
        self.pot.people = made.people
        made.batches.changed.connect(self._told_of)
        self.pot.keep = self._keep
        self.there: dict[str, object] = {}
        """Those that have been built, by pane."""
        for name, presenter in (("mix", self.mix), ("cure", self.cure), ("pot", self.pot)):
            self._meet(name, presenter)

    def _told_of(self, batch_id: str) -> None:
        """The pot's header names what is inside."""
        if batch_id in self._made.loads.inside(self.pot.pot_id):
            self.pot.changed.emit(None)

    def _settle(self, off: Second) -> None:
        """The person says how long the machine was off."""
        self._base.session.settle(off)
        self._made.cure.forget()

    def _keep(self, name: str, text: str) -> str:
        """Write a table where the other files go."""
        from shopassist.app.shelf import FileShelf
        from shopassist.panes.out.presenter import FOLDER

        folder = self._base.state.get(FOLDER) or str(self._base.paths.sheets)
        return FileShelf(self._base.clock).text(folder, name, text)

    def _meet(self, name: str, presenter: T) -> T:
        self.there[name] = presenter
        self._met(name, presenter)
        return presenter

    @cached_property
    def log(self) -> "LogPresenter":
        """The batch log."""
        from shopassist.app.shelf import FileShelf
        from shopassist.panes.log.presenter import LogPresenter

        made = self._made
        return self._meet("log", LogPresenter(
            made.sheets, made.hand, made.index, made.hindsight, made.wording, FileShelf.lies,
        ))  # fmt: skip

    @cached_property
    def records(self) -> "RecordsPresenter":
        """Sheets, pots, cabinets."""
        from shopassist.core.pot.plate_remarks import plate_remarks
        from shopassist.core.sheet_remarks import sheet_remarks
        from shopassist.panes.records.presenter import Kind, RecordsPresenter, nothing

        made = self._made
        libraries: dict[str, Library[Any]] = {
            "resin": made.sheets, "pot": made.plates, "cabinet": made.cabinets,
            "chamber": made.chambers, "pump": made.pumps, "bath": made.baths,
            "scale": made.scales, "colour": made.colours, "lot": made.lots,
            "thermometer": made.thermometers,
        }  # fmt: skip
        read = made.wording.read_si
        remarks = {
            "resin": lambda mapping: sheet_remarks(mapping, read),
            "pot": lambda mapping: plate_remarks(mapping, read),
        }
        kinds = tuple(
            Kind(kind, title, form_of(kind), libraries[kind], remarks.get(kind, nothing))
            for kind, title in KINDS
        )
        return self._meet("records", RecordsPresenter(
            kinds, made.wording, lambda path: read_toml(Path(path))
        ))  # fmt: skip

    @cached_property
    def stabilise(self) -> "StabilisePresenter":
        """From wet wood to uptake."""
        from shopassist.panes.stabilise.presenter import StabilisePresenter

        made = self._made
        return self._meet("stabilise", StabilisePresenter(
            made.batches, made.stabilise, made.hand, self._base.clock, made.wording
        ))  # fmt: skip

    @cached_property
    def blank(self) -> "BlankPresenter":
        """Mould, core and bore."""
        from shopassist.panes.blank.presenter import BlankPresenter

        made = self._made
        return self._meet("blank", BlankPresenter(
            made.batches, made.sheets, made.hand, made.wording,
            lambda batch: made.stabilise.new_density(batch),  # noqa: PLW0108 - built when asked
        ))  # fmt: skip

    @cached_property
    def warmup(self) -> "WarmupPresenter":
        """The warm cabinet."""
        from shopassist.panes.warmup.beside import WarmupSources
        from shopassist.panes.warmup.presenter import WarmupPresenter

        made, base = self._made, self._base
        sources = WarmupSources(
            made.cabinets, made.plates, made.batches, made.cure, made.hand, base.state,
            made.ambient,
        )  # fmt: skip
        return self._meet("warm-up", WarmupPresenter(sources, base.clock, made.wording))

    @cached_property
    def plan(self) -> "PlanPresenter":
        """The week."""
        from shopassist.panes.plan.presenter import PlanPresenter

        made = self._made
        presenter = self._meet("plan", PlanPresenter(
            made.plan, made.batches, made.hand, self._base.clock, made.wording
        ))  # fmt: skip
        made.stabilise.changed.connect(lambda _: presenter.changed.emit(None))
        return presenter

    @cached_property
    def turn(self) -> "TurnPresenter":
        """Cards for the lathe and after."""
        from shopassist.panes.turn.presenter import TurnPresenter

        made = self._made
        return self._meet("turn", TurnPresenter(
            made.batches, made.turn, made.hand, self._base.clock, made.wording
        ))  # fmt: skip

    @cached_property
    def out(self) -> "OutPresenter":
        """Files for others, and backups."""
        from shopassist.app.out_sources import out_sources
        from shopassist.panes.out.presenter import OutPresenter

        sources = out_sources(self._base, self._made, self.mix)
        return self._meet("out", OutPresenter(sources, self._base.clock, self._made.wording))
