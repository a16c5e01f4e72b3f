"""What a long proof hands back: ``run(count, seed) -> Report`` in every proof module."""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True)
class Report:
    """The outcome of ``count`` trials from one seed.

    ``failures`` holds one line a failure, with what is needed to repeat it; ``figures`` holds what
    was counted or measured (``{"kills": 25, "rows lost": 0}``). Numbers of several reports of one
    proof are added up, so a figure is a count unless its name begins with *most* or *least*.
    """

    count: int
    seed: int
    failures: tuple[str, ...] = ()
    figures: Mapping[str, float] = field(default_factory=dict)

    @property
    def passed(self) -> bool:
        """Whether nothing failed."""
        return not self.failures
