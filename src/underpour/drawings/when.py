"""A moment of the year in words."""

from __future__ import annotations

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def moment_words(year_fraction: float) -> str:
    """The moment as one says it.

    >>> moment_words(0.125)
    'the middle of February'
    >>> moment_words(0.0)
    'the start of January'
    """
    month, part = divmod(year_fraction % 1.0 * 12.0, 1.0)
    third = "start" if part < 1 / 3 else "middle" if part <= 2 / 3 else "end"
    return f"the {third} of {MONTHS[int(month)]}"
