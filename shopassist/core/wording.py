"""Values in the reader's units, number style and local time: the last step before the screen."""

import re
from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from math import ceil, floor, isfinite, log10

from shopassist.core.civil import DAY, Civil, civil
from shopassist.core.entry import Entry, EntrySpec, UnknownUnitError, read_moment, read_quantity
from shopassist.core.errors import ShopError
from shopassist.core.messages import Amount, Moment, Param, Text
from shopassist.core.quantities import UtcSecond
from shopassist.core.rows import Reading
from shopassist.core.style import CHOICES, METRIC, MIXED, US, NumberStyle, UnitChoice
from shopassist.core.units import EARLY, Unit, UnitTable

__all__ = [
    "CHOICES", "DASH", "METRIC", "MIXED", "NONE", "THIN", "TRUE_MINUS", "US", "NumberStyle",
    "UnitChoice", "Wording", "spoken",
]  # fmt: skip

THIN, TRUE_MINUS, DASH = "\u2009", "\u2212", "\u2009\u2013\u2009"
NONE = "–"
"""Stands where there is no value."""
_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip
_SUFFIXES = {"PascalAbsolute": " abs", "PascalVacuum": " vacuum"}
_PLACE = re.compile(r"\{(\w+)\}")
_EXTRA, _SIGNIFICANT, _GROUP, _NEAR_DAYS, _NOON = 3, 2, 3, 6, 12
_MINUTE, _HOUR = 60, 3600
_LARGEST = 1e13
_PLAIN_BELOW, _NEAR_HALF = 1e9, 1e-3
_MOST_PLACES = 12


class Wording:
    """Writes and reads for one shop; the program makes one and hands it to every presenter."""

    def __init__(
        self,
        style: NumberStyle | None = None,
        units: UnitChoice = METRIC,
        offset_at: Callable[[float], float] | None = None,
        more_units: Callable[[], UnitTable] | None = None,
    ) -> None:
        self.style = style or NumberStyle()
        """May be replaced when the settings change; so may ``units``."""
        self.units = units
        self.table = EARLY
        self._offset_at = offset_at or (lambda _: 0)
        self._more_units = more_units

    def warm(self) -> None:
        """Fetch the rarer units; after the first paint, or when one is asked for."""
        if self._more_units is not None:
            fetch, self._more_units = self._more_units, None
            self.table = fetch()

    # -- numbers -------------------------------------------------------------------------------

    def number(self, value: float | None, decimals: int) -> str:
        """Write a number with so many places; halves go away from zero."""
        if value is None or not isfinite(value):
            return NONE
        digits = _rounded(abs(value), decimals)
        is_negative = value < 0 and any(digit not in "0." for digit in digits)
        whole, _, places = digits.partition(".")
        text = _grouped(whole) + (self.style.decimal + places if places else "")
        return (TRUE_MINUS if is_negative else "") + text

    def significant(self, value: float | None, digits: int) -> str:
        """Write a number with so many digits that count; zeros stand for the rest."""
        if not value or not isfinite(value):
            return self.number(value, 0)
        decimals = digits - 1 - floor(log10(abs(value)))
        if float(_rounded(abs(value), decimals)) >= 10.0 ** (digits - decimals):
            decimals -= 1
        return self.number(value, decimals)

    def signed(self, value: float | None, decimals: int) -> str:
        """Write a number with its sign; nothing before a zero."""
        text = self.number(value, decimals)
        is_zero = not any(character in "123456789" for character in text)
        return text if is_zero or text.startswith(TRUE_MINUS) else f"+{text}"

    def percent(self, ratio: float | None, decimals: int = 0, *, signed: bool = False) -> str:
        """Write a share as per cent."""
        value = None if ratio is None else ratio * 100
        text = self.signed(value, decimals) if signed else self.number(value, decimals)
        return NONE if text == NONE else f"{text} %"

    # -- quantities ----------------------------------------------------------------------------

    def unit(self, quantity: str) -> str:
        """Shown unit of a quantity."""
        return self.units.unit(quantity) + _SUFFIXES.get(quantity, "")

    def split(
        self, value: float | None, quantity: str, decimals: int | None = None, unit: str = ""
    ) -> tuple[str, str]:
        """Number and unit apart, as the figures show them; times and instants have no unit."""
        if value is None or not isfinite(value):
            return NONE, "" if quantity in ("Second", "UtcSecond") else self.unit(quantity)
        if quantity == "UtcSecond":
            return self.clock(value), ""
        if quantity == "Second" and not unit:
            return self.duration(value), ""
        found = self.table.find(unit or self.units.unit(quantity), quantity)
        if found is None:
            return self.significant(value, 4), unit or self.units.unit(quantity)
        number = (value - found.offset) / found.factor
        places = _places(number, found) if decimals is None else decimals
        return self.number(number, places), (unit or found.symbol) + _SUFFIXES.get(quantity, "")

    def amount(
        self, value: float | None, quantity: str, decimals: int | None = None, unit: str = ""
    ) -> str:
        """Number and unit: "2.76 bar"."""
        number, symbol = self.split(value, quantity, decimals, unit)
        if number == NONE:
            return NONE
        return f"{number}{'' if symbol == '°' else ' '}{symbol}" if symbol else number

    def span(
        self, low: float | None, high: float | None, quantity: str, decimals: int | None = None
    ) -> str:
        """Both ends without the unit, written alike: "206 – 222"; one number where they meet."""
        if decimals is None and low is not None and high is not None:
            decimals = self._common_places(low, high, quantity)
        first = self.split(low, quantity, decimals)[0]
        last = self.split(high, quantity, decimals)[0]
        return first if first == last else f"{first}{DASH}{last}"

    def _common_places(self, low: float, high: float, quantity: str) -> int | None:
        found = self.table.find(self.units.unit(quantity), quantity)
        if found is None or not (isfinite(low) and isfinite(high)):
            return None
        ends = [(end - found.offset) / found.factor for end in (low, high)]
        return _places(max(ends, key=abs), found)

    # -- time ----------------------------------------------------------------------------------

    def clock(self, utc: float, now: float | None = None, *, late: bool = False) -> str:
        """Local clock time; the weekday on another day than now, the date when far away.

        Seconds are dropped; ``late`` goes up to the next minute instead, for what must not be
        early.
        """
        here = self._local(ceil(utc / _MINUTE) * _MINUTE if late and isfinite(utc) else utc)
        if here is None:
            return NONE
        time = self._time(here)
        today = self._local(now) if now is not None else None
        if today is None or today.day_number == here.day_number:
            return time
        if abs(today.day_number - here.day_number) <= _NEAR_DAYS:
            return f"{_DAYS[here.weekday]} {time}"
        return f"{self._date(here, with_year=here.year != today.year)} {time}"

    def date(self, utc: float) -> str:
        """Local date."""
        here = self._local(utc)
        return NONE if here is None else self._date(here, with_year=True)

    def corner(self, utc: float) -> str:
        """Weekday, date and clock time for the corner of the window."""
        here = self._local(utc)
        if here is None:
            return NONE
        return f"{_DAYS[here.weekday]} {self._date(here, with_year=False)}  {self._time(here)}"

    def day(self, utc: float) -> str:
        """Weekday and day of the month, for graduations of a calendar."""
        here = self._local(utc)
        return NONE if here is None else f"{_DAYS[here.weekday]} {here.day}"

    def duration(self, seconds: float) -> str:
        """Length of time in its two largest units: "3 h 12 min"."""
        if not isfinite(seconds):
            return NONE
        sign = TRUE_MINUS if seconds < 0 else ""
        return sign + _two_largest(abs(seconds)) if round(abs(seconds)) else "0 s"

    def digits(self, seconds: float) -> str:
        """Countdown digits, "3:07:42"; a begun second still counts."""
        if not isfinite(seconds):
            return NONE
        whole = ceil(seconds - 1e-6)
        sign = TRUE_MINUS if whole < 0 else ""
        hours, rest = divmod(abs(whole), _HOUR)
        minutes, left = divmod(rest, _MINUTE)
        return sign + (f"{hours}:{minutes:02}:{left:02}" if hours else f"{minutes}:{left:02}")

    def age(self, seconds: float) -> str:
        """How long ago, in whole units that have passed."""
        if not isfinite(seconds):
            return NONE
        whole = max(0, floor(seconds))
        if whole == 0:
            return "just now"
        if whole < _MINUTE:
            return f"{whole} s ago"
        step = _MINUTE if whole < 2 * DAY else _HOUR
        return f"{_two_largest(whole // step * step)} ago"

    def _local(self, utc: float) -> Civil | None:
        if not isfinite(utc):
            return None
        return civil(utc + self._offset_at(utc))

    def _time(self, here: Civil) -> str:
        if self.style.hours == _NOON:
            half = "am" if here.hour < _NOON else "pm"
            return f"{(here.hour - 1) % _NOON + 1}:{here.minute:02} {half}"
        return f"{here.hour:02}:{here.minute:02}"

    def _date(self, here: Civil, *, with_year: bool) -> str:
        if self.style.order == "ymd":
            return f"{here.year:04}-{here.month:02}-{here.day:02}"
        day, month = str(here.day), _MONTHS[here.month - 1]
        if self.style.order == "mdy":
            return f"{month} {day}, {here.year}" if with_year else f"{month} {day}"
        return f"{day} {month} {here.year}" if with_year else f"{day} {month}"

    def offset(self, utc: float) -> float:
        """Local time less UTC at an instant, for graduations on the local clock's own marks."""
        return self._offset_at(utc)

    # -- texts ---------------------------------------------------------------------------------

    def say(self, text: Text | str, now: float | None = None) -> str:
        """Write a text with its values; ``now`` tells which instants need their weekday."""
        if isinstance(text, str):
            return text
        params = dict(text.params)

        def fill(found: re.Match[str]) -> str:
            name = found[1]
            return self._param(params[name], now) if name in params else found[0]

        return _PLACE.sub(fill, text.template)

    def complaint(self, error: ShopError) -> str:
        """Write what was refused, and what to do about it."""
        return f"{self.say(error.title)} {self.say(error.detail)}".strip()

    def _param(self, param: Param, now: float | None) -> str:
        if isinstance(param, Amount):
            return self.amount(param.value, param.quantity, param.decimals, param.unit)
        if isinstance(param, Moment):
            return self.clock(param.utc, now, late=param.late)
        return self.number(param, 0) if isinstance(param, int) else self.say(param, now)

    # -- reading -------------------------------------------------------------------------------

    def read(self, text: str, spec: EntrySpec) -> Entry:
        """Read typed text in this shop's style; raises ``EntryError``."""
        try:
            return read_quantity(text, spec, self.style, self.table, self.units)
        except UnknownUnitError:
            self.warm()
            return read_quantity(text, spec, self.style, self.table, self.units)

    def read_si(self, text: str, quantity: str) -> float:
        """Read a stored text, whatever the shop's style is now; units must be written."""
        spec = EntrySpec(quantity, signed=True, unit_needed=True)
        try:
            return read_quantity(text, spec, table=self.table).value
        except UnknownUnitError:
            self.warm()
            return read_quantity(text, spec, table=self.table).value

    def read_moment(self, text: str, now: Reading, field: str = "") -> UtcSecond:
        """Read "now", "5 min ago" or a clock time that is past."""
        return read_moment(text, now, self._offset_at, field=field)

    def read_planned(self, text: str, now: Reading, field: str = "") -> UtcSecond:
        """Read a clock time that is still to come."""
        return read_moment(text, now, self._offset_at, ahead=True, field=field)


def spoken(shown: str) -> str:
    """What a screen reader should say for a shown number or range."""
    return (
        shown.replace(DASH, " to ")
        .replace(THIN, "")
        .replace(TRUE_MINUS, "minus ")
        .replace("°C", "degrees Celsius")
        .replace("°F", "degrees Fahrenheit")
    )


def _rounded(value: float, decimals: int) -> str:
    """Round halves up, after the noise of unit conversion is cut off."""
    if value >= _LARGEST:
        return f"{value:.0f}"
    places = min(decimals, _MOST_PLACES)
    steps = value * 10.0**places
    if places >= 0 and steps < _PLAIN_BELOW and abs(steps % 1.0 - 0.5) > _NEAR_HALF:
        return f"{value:.{places}f}"  # no half is near: every way of rounding agrees
    step = Decimal(1).scaleb(-places)
    return f"{Decimal(f'{value:.13g}').quantize(step, ROUND_HALF_UP):f}"


def _grouped(whole: str) -> str:
    """Thin spaces between thousands, from four digits on."""
    if len(whole) <= _GROUP:
        return whole
    first = len(whole) % _GROUP or _GROUP
    parts = [whole[:first], *(whole[i : i + _GROUP] for i in range(first, len(whole), _GROUP))]
    return THIN.join(parts)


def _places(number: float, unit: Unit) -> int:
    """Places worth showing: the unit's own, none for many units, more for the very small."""
    if abs(number) < 10.0 ** -(unit.decimals + _EXTRA):
        return unit.decimals
    if round(abs(number), unit.decimals) >= unit.coarse_from:
        return 0
    needed = _SIGNIFICANT - 1 - floor(log10(abs(number)))
    return min(max(unit.decimals, needed), unit.decimals + _EXTRA)


def _two_largest(seconds: float) -> str:
    """Days and hours, hours and minutes, minutes and seconds; the second left out where zero."""
    if round(seconds) < 10 * _MINUTE:
        return _pair(round(seconds), (_MINUTE, "min"), "s")
    minutes = round(seconds / _MINUTE)
    if minutes < 2 * DAY // _MINUTE:
        return _pair(minutes, (_MINUTE, "h"), "min")
    return _pair(round(seconds / _HOUR), (24, "d"), "h")


def _pair(count: int, large: tuple[int, str], small: str) -> str:
    many, few = divmod(count, large[0])
    parts = [f"{n} {name}" for n, name in ((many, large[1]), (few, small)) if n]
    return " ".join(parts)
