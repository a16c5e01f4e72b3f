"""Where a drying piece is heading, told from three weighings."""

from math import log

from shopassist.core.bounds import need_positive
from shopassist.core.errors import out_of_range
from shopassist.core.quantities import Kilogram, Ratio


def loss_ratio(first: Kilogram, second: Kilogram, third: Kilogram) -> Ratio:
    r"""How much of each loss follows in the next equal interval.

    .. math:: r = \frac{m_3 - m_2}{m_2 - m_1}

    Plain: the later loss ÷ the earlier loss

    Parameters
    ----------
    first
        First of three equally spaced weighings, [kg].
    second
        Second weighing, [kg].
    third
        Third weighing, [kg].

    Returns
    -------
    Ratio
        Between 0 and 1 while it is drying steadily, [1].

    Raises
    ------
    OutOfRangeError
        If the piece did not lose mass between the first two, or not steadily less.

    Notes
    -----
    Only below fibre saturation and at one oven temperature.

    Sources
    -------
    AITKEN

    Examples
    --------
    >>> round(loss_ratio(Kilogram(0.400), Kilogram(0.380), Kilogram(0.368)), 3)
    0.6
    """
    need_positive(first=first, second=second, third=third)
    if not second < first or not third < second or first - second <= second - third:
        raise out_of_range("third", "The losses do not shrink steadily: no end can be told yet.")
    return Ratio((third - second) / (second - first))


def end_mass(first: Kilogram, second: Kilogram, third: Kilogram) -> Kilogram:
    r"""Mass that three equally spaced weighings are heading for.

    .. math:: m_\infty = m_3 - \frac{(m_3 - m_2)^2}{(m_3 - m_2) - (m_2 - m_1)}

    Plain: third mass - later loss² ÷ (earlier loss - later loss)

    Parameters
    ----------
    first
        First of three equally spaced weighings, [kg].
    second
        Second weighing, [kg].
    third
        Third weighing, [kg].

    Returns
    -------
    Kilogram
        Extrapolated end mass, [kg].

    Raises
    ------
    OutOfRangeError
        If the losses do not shrink steadily.

    Notes
    -----
    Aitken's method: one exponential. Thick pieces slow down later, so the end lies lower;
    never a proof of dryness.

    Sources
    -------
    AITKEN

    Examples
    --------
    >>> round(end_mass(Kilogram(0.400), Kilogram(0.380), Kilogram(0.368)), 4)
    0.35
    """
    loss_ratio(first, second, third)
    later, earlier = third - second, second - first
    return Kilogram(third - later**2 / (later - earlier))


def intervals_left(ratio: Ratio, mass: Kilogram, end: Kilogram, within: Ratio) -> Ratio:
    r"""How many more equal intervals until the piece is within a share of its end mass.

    .. math:: n = \frac{\ln\left(\delta m_\infty / (m - m_\infty)\right)}{\ln r}

    Plain: ln(share × end mass ÷ what is still to lose) ÷ ln(loss ratio)

    Parameters
    ----------
    ratio
        Loss ratio of the log, [1].
    mass
        Mass at the last weighing, [kg].
    end
        Extrapolated end mass, [kg].
    within
        Share of the end mass that is near enough, [1].

    Returns
    -------
    Ratio
        Number of intervals; 0 where it is there already, [1].

    Raises
    ------
    OutOfRangeError
        If the ratio does not lie between 0 and 1 or a mass is not positive.

    Notes
    -----
    As the extrapolation, a hope and no proof.

    Sources
    -------
    AITKEN

    Examples
    --------
    >>> last, end = Kilogram(0.368), Kilogram(0.350)
    >>> round(intervals_left(Ratio(0.6), last, end, Ratio(0.005)), 2)
    4.56
    """
    need_positive(mass=mass, end=end, within=within)
    if not 0.0 < ratio < 1.0:
        raise out_of_range("ratio", "The loss ratio of a drying piece lies between 0 and 1.")
    left = mass - end
    if left <= within * end:
        return Ratio(0.0)
    return Ratio(log(within * end / left) / log(ratio))
