"""An hour of a year: as it is said, and as people type it."""

from __future__ import annotations

import re
from calendar import month_name, monthrange

COMMON = 8760


def hour_words(at: int, hours: int) -> str:
    """An hour of a year of so many hours, counted from 0, by its end, as weather files have it.

    >>> hour_words(0, 8760), hour_words(8759, 8760), hour_words(59 * 24 + 4, 8784)
    ('1 January, 01:00', '31 December, 24:00', '29 February, 05:00')
    """
    day, hour = divmod(at, 24)
    for month, days in enumerate(_days(hours), 1):
        if day < days:
            return f"{day + 1} {month_name[month]}, {hour + 1:02d}:00"
        day -= days
    raise ValueError(f"a year of {hours} hours has no hour {at}")


def hour_of(typed: str, hours: int) -> int | None:
    """The hour of a year of so many that is meant by a day, a month and the end of an hour; None where none is.

    >>> hour_of("1 January 01:00", 8760), hour_of("december 31, 24:00", 8760), hour_of("14 feb 5:00", 8760)
    (0, 8759, 1060)
    >>> hour_of("29 February 05:00", 8760), hour_of("14 February 05:30", 8760), hour_of("noon", 8760)
    (None, None, None)
    """
    words = re.fullmatch(r"\s*(?:(\d+)\.?\s+([a-z]+)|([a-z]+)\s+(\d+))\s*,?\s+(\d+)(?::00)?\s*", typed.lower())
    if words is None:
        return None
    day, name = int(words[1] or words[4]), words[2] or words[3]
    hour = int(words[5])
    months = [n for n in range(1, 13) if len(name) >= 3 and month_name[n].lower().startswith(name)]
    days = _days(hours)
    if len(months) != 1 or not (1 <= day <= days[months[0] - 1] and 1 <= hour <= 24):
        return None
    return (sum(days[: months[0] - 1]) + day - 1) * 24 + hour - 1


def day_of(typed: str) -> int | None:
    """The day of a common year that is meant by a number and a month, counted from 0; None where none is.

    >>> day_of("1 January"), day_of("October 15"), day_of("31 June"), day_of("winter")
    (0, 287, None, None)
    """
    hour = hour_of(f"{typed} 1", COMMON)
    return hour // 24 if hour is not None else None


def _days(hours: int) -> list[int]:
    return [monthrange(2000 if hours > COMMON else 2001, n)[1] for n in range(1, 13)]
