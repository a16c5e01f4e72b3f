"""The cabinet in use, and whether a thermometer inside agrees with its setting."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from itertools import takewhile

from shopassist.core.alarms import causes
from shopassist.core.alarms.causes import Cause, Whose
from shopassist.core.cabinet import Cabinet
from shopassist.core.cabinet_watch import BACK, HOLDS, Probe, Setting, astray
from shopassist.core.errors import ShopError
from shopassist.core.messages import Amount, say
from shopassist.core.quantities import Kelvin
from shopassist.services.alarms import Source
from shopassist.services.cure import CureService
from shopassist.services.in_hand import StateKeeper
from shopassist.services.versions import Library

AIR = "cabinet air"
Read = Callable[[str], Kelvin]


def cabinet_in_use(cabinets: Library[Cabinet], state: StateKeeper, read: Read) -> Setting | None:
    """The cabinet that Warm-up works with; a setting that was typed there goes first."""
    chosen = cabinets.newest(state.get("warmup.cabinet"))
    known = [each for each in (chosen, *cabinets.all()) if each is not None and not each.removed]
    record_id, record = next(((each.id, each.record) for each in known if each.record), ("", None))
    set_at = None if record is None else record.set_at
    with suppress(ShopError):
        text = state.get("warmup.thermostat")
        set_at = read(text) if text else set_at
    if set_at is None:
        return None
    return Setting(record_id, "Cabinet" if record is None else record.name, set_at)


def probes_of(cure: CureService) -> Iterator[Probe]:
    """Readings in the cabinet's air of all that still has to harden, from its last few hours."""
    for batch_id in cure.running():
        view = cure.view(batch_id)
        warmth = view.batch.warmth if view is not None else ()
        if view is None or not warmth:
            continue
        waits = [stage for aim in ("demould", "hard") if (stage := view.stage(aim)) is not None]
        loaded = any(not stage.passed(view.worked_out) for stage in waits)
        floor = warmth[-1].at - BACK - HOLDS
        for each in takewhile(lambda each, floor=floor: each.at >= floor, reversed(warmth)):  # type: ignore[misc]
            if each.where == AIR:
                since = each.at if each.since is None else each.since
                yield Probe(since, each.at, each.low, each.high, loaded)


def cabinet(setting: Callable[[], Setting | None], probes: Callable[[], Iterable[Probe]]) -> Source:
    """Calls once a probe has disagreed with the setting for a quarter of an hour."""

    def found(_: frozenset[str]) -> Iterator[Cause]:
        of = setting()
        wrong = None if of is None else astray(probes(), of.set_at)
        if of is not None and wrong is not None:
            shown = say(
                "{temp} read, set to {set}",
                temp=Amount(wrong.last.middle, "Kelvin"), set=Amount(of.set_at, "Kelvin"),
            )  # fmt: skip
            whose = Whose(of.id, of.name, "cure")
            yield causes.cabinet_astray(whose, wrong, shown)

    return found
