"""A year of hours: whether it is one, and its monthly means."""

from __future__ import annotations

from calendar import month_name, monthrange
from collections.abc import Iterable
from dataclasses import dataclass
from math import isfinite

from ..measure.digits import fixed
from ..mistakes import Mistake
from .limits import limit, missing_between
from .text import shown

# line, year, month, day, hour (1 to 24), temperature and relative humidity as written; "" where the file has none
Row = tuple[int, int, int, int, int, str, str]

_DAYS = [0, *(monthrange(2000, month)[1] for month in range(1, 13))]  # of a leap year
_BEFORE = [0, *(24 * sum(_DAYS[:month]) for month in range(1, 13))]  # hours before each month of a leap year
_LEAP_DAY = range(_BEFORE[2] + 28 * 24, _BEFORE[3])
_LAST = _BEFORE[12] + 31 * 24 - 1
WHOLE = "A year has 8760 hours, from 1 January 01:00 to 31 December 24:00, one row each."


@dataclass(frozen=True, slots=True)
class Year:
    """A year of hours by its calendar months."""

    # Means of calendar months, 28 to 31 days, as stations print them; the year's wave takes them as equal twelfths
    # (catalogue.year.harmonic), which moves it by a day and its mean by less than 0.1 K.
    months: tuple[float, ...]  # degC
    hours: int
    missing: tuple[int, ...]  # hours of each month without a temperature
    years: tuple[int, int]
    temperatures: tuple[float, ...] = ()  # degC, hour by hour; a missing one lies between its neighbours
    humidities: tuple[float, ...] = ()  # 0 to 1, alike; () where too many are missing


def year_of(rows: Iterable[Row], file: str, kind: str) -> Year:
    """The monthly means of a whole year of hourly rows.

    Every hour must stand there, in order; 29 February may, if the whole of it does. An hour marked as missing is left
    out of its month, up to the share that ``weather.toml`` allows.

    Parameters
    ----------
    rows : iterable of Row
        The hour of a row is the one that ends then, as EPW and TMY3 have it: 24 still belongs to its day.
    file, kind : str
        The file's name for messages; "epw" or "tmy3", whose marks of a missing value count.

    Raises
    ------
    Mistake
        With the line: no such hour, no number, no air temperature, too few hours, hours missing, twice or out of order,
        too many without a value.
    """
    low, high = limit("coldest-hour"), limit("warmest-hour")
    none_from, none_to = missing_between(kind)
    sums, counts, missing = [0.0] * 13, [0] * 13, [0] * 13
    first_missing: dict[int, tuple[int, str]] = {}
    years: set[int] = set()
    hourly: list[float | None] = []
    humid: list[float | None] = []
    stamps: list[int] = []  # hour of a leap year, counted from 0
    lines: list[int] = []
    for line, year, month, day, hour, typed, humidity in rows:
        if not (1 <= month <= 12 and 1 <= day <= _DAYS[month] and 1 <= hour <= 24):
            wrong = f"There is no hour {hour} of day {day} of month {month}."
            raise Mistake("", "", wrong, "Hours are counted from 1 to 24, the one that ends then.", file, line)
        stamps.append(_BEFORE[month] + 24 * (day - 1) + hour - 1)
        lines.append(line)
        years.add(year)
        humid.append(_humidity(humidity, file, line))
        try:
            value = float(typed) if typed.strip() else none_to if isfinite(none_to) else none_from
        except ValueError:
            raise Mistake("", "", f'"{shown(typed)}" is no temperature.', _NUMBER, file, line) from None
        if none_from <= value <= none_to:
            missing[month] += 1
            hourly.append(None)
            first_missing.setdefault(month, (line, typed.strip()))
        elif low <= value <= high:
            sums[month] += value
            counts[month] += 1
            hourly.append(value)
        else:
            wrong = f"The air is at {shown(typed)} °C here; it has been measured from {low:.0f} to {high:.0f} °C."
            raise Mistake("", "", wrong, _CELSIUS, file, line)
    _whole(stamps, lines, file)
    _measured_enough(missing, counts, first_missing, file)
    months = tuple(total / count for total, count in zip(sums[1:], counts[1:], strict=True))
    unlikely_months(months, file)
    known = sum(each is not None for each in humid) >= (1.0 - limit("missing-share")) * len(humid)
    humidities = _bridged(humid) if known else ()
    return Year(months, len(stamps), tuple(missing[1:]), (min(years), max(years)), _bridged(hourly), humidities)


def _humidity(typed: str, file: str, line: int) -> float | None:
    """A row's relative humidity, 0 to 1; None where it has none.

    Saturated air is measured a little above 100 %, which counts as 100 %.
    """
    none_from, none_to = missing_between("humidity")
    try:
        value = float(typed)
    except ValueError:
        return None
    if none_from <= value or value <= none_to:
        return None
    if value > limit("most-humid"):
        wrong = f"The relative humidity is {shown(typed)} % here; air holds 100 % at the most."
        raise Mistake("", "", wrong, "Take the file as it was made.", file, line)
    return min(value, 100.0) / 100.0


def _bridged(hourly: list[float | None]) -> tuple[float, ...]:
    """The hours with each missing one on the straight line between its neighbours, the year's ends being neighbours.

    >>> _bridged([None, 4.0, None, None, 1.0])
    (2.5, 4.0, 3.0, 2.0, 1.0)
    """
    known = [n for n, value in enumerate(hourly) if value is not None]
    filled = [0.0 if value is None else value for value in hourly]
    for before, after in zip([known[-1] - len(hourly), *known], [*known, known[0] + len(hourly)], strict=True):
        low, high = filled[before % len(hourly)], filled[after % len(hourly)]
        for n in range(before + 1, after):
            filled[n % len(hourly)] = low + (high - low) * (n - before) / (after - before)
    return tuple(filled)


_NUMBER = "Each row has the air temperature in °C, a number with a point: -11.5."
_CELSIUS = "Are they degrees Fahrenheit? The file has to be in °C."


def unlikely_months(months: tuple[float, ...], file: str) -> None:
    """Refuse means that no month has had: most often °F in a column of °C.

    Raises
    ------
    Mistake
        The first such month, by name.
    """
    for number, mean in enumerate(months, 1):
        if not limit("coldest-month") <= mean <= limit("warmest-month"):
            wrong = f"The mean of {month_name[number]} comes to {fixed(mean, 1)} °C; no month has been like that."
            raise Mistake("", "", wrong, _CELSIUS, file)


def _whole(stamps: list[int], lines: list[int], file: str) -> None:
    if not stamps:
        raise Mistake("", "", "The file has no hours, only its heading.", WHOLE, file)
    gaps: list[tuple[int, int, int, int]] = []  # line, the hours before and after, how many are missing
    for n in range(1, len(stamps)):
        before, here = stamps[n - 1], stamps[n]
        step = here - before
        if before < _LEAP_DAY.start and here >= _LEAP_DAY.stop:  # most years have no 29 February
            step -= len(_LEAP_DAY)
        if step == 1:
            continue
        if step == 0:
            wrong = f"{_when(here)} stands in two rows."
            raise Mistake(
                "", "", wrong, "Rows are one for each hour; quarters and halves are not read.", file, lines[n]
            )
        if step < 0:
            again = before == _LAST and here == 0
            wrong = "A second year begins here." if again else f"After {_when(before)} comes {_when(here)}."
            raise Mistake("", "", wrong, f"One year is read, its hours in order. {WHOLE}", file, lines[n])
        gaps.append((lines[n], before, here, step - 1))
    if gaps:
        line, before, after, count = gaps[0]
        others = "one other gap" if len(gaps) == 2 else f"{len(gaps) - 1} other gaps"
        more = f" With {others} {_hours(sum(gap[3] for gap in gaps))} are missing." if gaps[1:] else ""
        missing = "1 hour is" if count == 1 else f"{_hours(count)} are"
        wrong = f"{missing} missing: after {_when(before)} comes {_when(after)}.{more}"
        instead = "Take a file without gaps, or type the monthly means of what there is (site.monthly)."
        raise Mistake("", "", wrong, instead, file, line)
    if stamps[0] != 0 or stamps[-1] != _LAST:
        held = f"{_hours(len(stamps))}, from {_when(stamps[0])} to {_when(stamps[-1])}"
        raise Mistake("", "", f"The file holds {held}: that is no whole year.", WHOLE, file, lines[-1])


def _measured_enough(missing: list[int], counts: list[int], first: dict[int, tuple[int, str]], file: str) -> None:
    for month in range(1, 13):
        share = missing[month] / (missing[month] + counts[month])
        if share > limit("missing-share"):
            line, typed = first[month]
            mark = f"written {shown(typed)}" if typed else "left empty"
            all_of_it = missing[month] + counts[month]
            wrong = f"{month_name[month]} has no temperature in {_hours(missing[month])} of {all_of_it}, {mark}."
            allowed = f"Up to {100 * limit('missing-share'):.0f} % of a month may be missing."
            raise Mistake("", "", wrong, f"{allowed} Take another file, or monthly normals.", file, line)


def _hours(count: int) -> str:
    return f"{fixed(count, 0)} hours"


def _when(stamp: int) -> str:
    """ "14 January 05:00" of an hour that ends then."""
    month = max(n for n in range(1, 13) if _BEFORE[n] <= stamp)
    day, hour = divmod(stamp - _BEFORE[month], 24)
    return f"{day + 1} {month_name[month]} {hour + 1:02d}:00"
