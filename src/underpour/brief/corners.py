"""Corners as typed: two numbers in the plan's unit, or two lengths."""

from __future__ import annotations

import re

from .. import measure
from ..mistakes import Mistake
from .outline import Corner

_NUMBER = re.compile(r"[-+−]?(\d+\.?\d*|\.\d+)")
_LENGTH_OF_ONE = {"m": 1.0, "mm": 0.001, "cm": 0.01, "ft": 0.3048, "in": 0.0254}  # exact by definition
UNITS = tuple(_LENGTH_OF_ONE)


def read_corner(typed: object, unit: str) -> Corner:
    """One corner, in m.

    Parameters
    ----------
    typed : str
        Two numbers in ``unit`` with a space between, ``"40 28"``; or two lengths of their own with a comma and a space
        between, ``"12' 6\\", 28'"``.
    unit : str
        One of UNITS.

    Raises
    ------
    Mistake
        Anything else.

    Examples
    --------
    >>> read_corner("40 28.5", "m")
    (40.0, 28.5)
    """
    example = 'Write the two numbers of a corner in quotes, x first: "40 28".'
    if not isinstance(typed, str):
        raise Mistake("", "", "A corner is two numbers in quotes.", example)
    words = typed.strip()
    both = re.split(r",\s+", words) if re.search(r",\s", words) else words.split()
    if len(both) != 2:
        hint = f'{example} Lengths with spaces in them take a comma between: "12\' 6\\", 28\'".'
        raise Mistake("", "", f"A corner is two numbers, not {_counted(len(both))}.", hint)
    x, y = (_coordinate(word, unit) for word in both)
    return x, y


def _coordinate(word: str, unit: str) -> float:
    if _NUMBER.fullmatch(word):
        return float(word.replace("−", "-")) * _LENGTH_OF_ONE[unit]
    below = word.startswith(("-", "−"))
    length = measure.length(word[1:] if below else word).si
    return -length if below else length


def _counted(number: int) -> str:
    return {0: "none", 1: "one"}.get(number, str(number))
