"""The civil calendar from seconds: pure arithmetic, the Gregorian rule carried both ways."""

from math import floor

from shopassist.core.frozen import frozen

DAY = 86400
_ERA_DAYS, _ERA_YEARS = 146097, 400
_EPOCH_DAYS = 719468
"""Days from 1 March of the year 0 to 1 January 1970."""
_MONTHS = 12


@frozen
class Civil:
    """A local date and time of day."""

    year: int
    month: int
    day: int
    hour: int
    minute: int
    second: int
    weekday: int
    """0 is Monday."""
    day_number: int
    """Local days since 1 January 1970."""


def civil(local: float) -> Civil:
    """Calendar date and clock time of local seconds since 1970; parts of a second are dropped."""
    whole = floor(local)
    days, rest = divmod(whole, DAY)
    year, month, day = date_of(days)
    return Civil(year, month, day, rest // 3600, rest // 60 % 60, rest % 60, (days + 3) % 7, days)


def date_of(days: int) -> tuple[int, int, int]:
    """Year, month and day of a number of days since 1 January 1970."""
    era, in_era = divmod(days + _EPOCH_DAYS, _ERA_DAYS)
    year = (in_era - in_era // 1460 + in_era // 36524 - in_era // 146096) // 365
    in_year = in_era - (365 * year + year // 4 - year // 100)
    month_from_march = (5 * in_year + 2) // 153
    day = in_year - (153 * month_from_march + 2) // 5 + 1
    month = (month_from_march + 2) % _MONTHS + 1
    return year + era * _ERA_YEARS + (month <= 2), month, day  # noqa: PLR2004 - Jan, Feb


def days_of(year: int, month: int, day: int) -> int:
    """Days since 1 January 1970 of a date: the reverse of ``date_of``."""
    from_march = (month - 3) % _MONTHS
    era, in_cycle = divmod(year - (month <= 2), _ERA_YEARS)  # noqa: PLR2004 - Jan, Feb
    in_year = (153 * from_march + 2) // 5 + day - 1
    return (
        era * _ERA_DAYS + in_cycle * 365 + in_cycle // 4 - in_cycle // 100 + in_year - _EPOCH_DAYS
    )


def seconds_of(year: int, month: int, day: int, second_of_day: int = 0) -> int:
    """Local seconds since 1970 of a date and a second of its day."""
    return days_of(year, month, day) * DAY + second_of_day


def written_day(date: str) -> int:
    """Days since 1 January 1970 of a date written year-month-day."""
    year, month, day = (int(part) for part in date.split("-"))
    return days_of(year, month, day)


def is_date(year: int, month: int, day: int) -> bool:
    """Whether the calendar has such a day."""
    if not (1 <= month <= _MONTHS and day >= 1):
        return False
    return date_of(days_of(year, month, day)) == (year, month, day)
