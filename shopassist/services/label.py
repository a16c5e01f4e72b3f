"""What a label says twice: its ratios and its densities must agree with one another."""

from shopassist.core import amount, mixing
from shopassist.core.messages import Amount, say
from shopassist.core.quantities import Ratio
from shopassist.core.sheets import ResinSheet
from shopassist.services.beside import Caution
from shopassist.services.stock import weight_ratio_of

DENSITY_OFF = Ratio(0.03)
"""So far the density of a mix may be from that of its parts; more is told; ours, labels round."""
DISAGREE = Ratio(0.02)
"""Two ratios of one label may be so far apart; more is told; ours, labels round."""


def label_doubt(sheet: ResinSheet) -> Caution | None:
    """Warn where the figures of a label do not agree with one another."""
    return _pair(sheet) or _mixed(sheet)


def _mixed(sheet: ResinSheet) -> Caution | None:
    """The density of the mix against that of its parts: it turns every volume into grams."""
    mixed, weight = sheet.density_mixed, weight_ratio_of(sheet)
    if mixed is None or sheet.density_a is None or sheet.density_b is None or weight is None:
        return None
    apart = mixed / amount.mixed_density(weight, sheet.density_a, sheet.density_b) - 1
    if abs(apart) <= DENSITY_OFF:
        return None
    size = Amount(abs(100 * apart), "Ratio", 1)
    return (
        say("The sheet's mixed density is {size} % {way} than its parts come to.",
            size=size, way="more" if apart > 0 else "less"),
        say("A slip, or that of the cured resin: what is weighed out is wrong by as much."),
    )  # fmt: skip


def _pair(sheet: ResinSheet) -> Caution | None:
    """The two ratios of a label against its densities."""
    if sheet.other is None or sheet.density_a is None or sheet.density_b is None:
        return None
    by_weight, by_volume = sheet.ratio, sheet.other
    if sheet.basis == "volume":
        by_weight, by_volume = by_volume, by_weight
    apart = mixing.pair_mismatch(by_weight, by_volume, sheet.density_a, sheet.density_b)
    if abs(apart) <= DISAGREE:
        return None
    size = Amount(abs(100 * apart), "Ratio", 1)
    return (
        say("The sheet's two ratios are {size} % apart by its densities.", size=size),
        say("One of the four figures is wrong: look at the label."),
    )
