"""Corners as typed: two numbers in the plan's unit, or two lengths; and how the side that begins there bends."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from .. import measure
from ..measure.table import table
from ..mistakes import Mistake, nearest
from ..outlines.side import Point

NUMBER = re.compile(r"[-+−]?(\d+\.?\d*|\.\d+)")
LENGTH_OF_ONE = {"m": 1.0, "mm": 0.001, "cm": 0.01, "ft": 0.3048, "in": 0.0254}  # exact by definition
UNITS = tuple(LENGTH_OF_ONE)
_BENDS = ("rise", "radius", "through", "bulge")
_ARC = 'An arc is written behind the corner where it begins: "40 0 rise 3", "40 0 radius 20" or "40 0 through 43 14".'


@dataclass(frozen=True, slots=True)
class Bend:
    """How a side bends, as typed; lengths in m.

    ``rise`` is how far the arc's middle stands off the straight line between the two corners, ``radius`` that of the
    shorter arc; both are above zero where the arc bows out of what is enclosed. ``through`` is a point on the arc.
    ``bulge`` is the number of drawing files: the tangent of a quarter of the angle, above zero where the arc turns
    left on its way.
    """

    kind: Literal["rise", "radius", "through", "bulge"]
    value: float = 0.0
    point: Point = (0.0, 0.0)


@dataclass(frozen=True, slots=True)
class TypedCorner:
    """A corner of an outline, and the bend of the side that begins there; None where it is straight."""

    point: Point
    bend: Bend | None = None


def read_corner(typed: object, unit: str) -> Point:
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
    both = both_words(typed)
    if len(both) != 2:
        hint = f'{example} Lengths with spaces in them take a comma between: "12\' 6\\", 28\'".'
        raise Mistake("", "", f"A corner is two numbers, not {_counted(len(both))}.", hint)
    x, y = (signed(word, unit) for word in both)
    return x, y


def read_bent_corner(typed: object, unit: str) -> TypedCorner:
    """One corner of a plan, with the arc that may begin there.

    Raises Mistake where corner or arc cannot be read; ``unit`` is one of UNITS.

    Examples
    --------
    >>> read_bent_corner("40 28 rise 3", "m")
    TypedCorner(point=(40.0, 28.0), bend=Bend(kind='rise', value=3.0, point=(0.0, 0.0)))
    """
    if not isinstance(typed, str):
        return TypedCorner(read_corner(typed, unit))
    corner, word, bend = parted(typed)
    point = read_corner(corner, unit)
    if not word:
        return TypedCorner(point)
    if not bend:
        raise Mistake("", "", f"The arc of this corner has no {word}.", _ARC)
    match word:
        case "through":
            return TypedCorner(point, Bend("through", point=read_corner(bend, unit)))
        case "rise" | "radius":
            return TypedCorner(point, Bend("rise" if word == "rise" else "radius", signed(bend, unit)))
    if not NUMBER.fullmatch(bend):
        raise Mistake("", "", f"{bend} is no bulge, which is a bare number.", 'Write "40 0 bulge 0.5", or rise.')
    return TypedCorner(point, Bend("bulge", float(bend.replace("−", "-"))))


def both_words(typed: str) -> list[str]:
    """The words of x and of y; more or fewer where they are no corner.

    >>> both_words("40 28.5"), both_words("12 ft 6 in, 28 ft")
    (['40', '28.5'], ['12 ft 6 in', '28 ft'])
    """
    words = typed.strip()
    return re.split(r",\s+", words) if re.search(r",\s", words) else words.split()


def parted(typed: str) -> tuple[str, str, str]:
    """The corner's words, the word that begins the arc, and what stands behind it.

    Raises Mistake where another word stands there.

    >>> parted("40 0 rise 3")
    ('40 0 ', 'rise', '3')
    """
    words = list(re.finditer(r"(?<!\S)[A-Za-z]{3,}(?!\S)", typed))
    told = [found for found in words if found[0].casefold() in _BENDS]
    if len(told) > 1:
        wrong = f"This corner tells its arc twice, by {told[0][0]} and by {told[1][0]}."
        raise Mistake("", "", wrong, "Keep one of the two; an arc is known by either.")
    if told:
        return typed[: told[0].start()], told[0][0].casefold(), typed[told[0].end() :].strip()
    unknown = [found[0] for found in words if not table().find(found[0])]
    if not unknown:
        return typed, "", ""
    near = nearest(unknown[0], _BENDS)
    hint = f"The nearest is {near[0]}. " if near else ""
    raise Mistake("", "", f"No arc is told by {unknown[0]}.", f"{hint}{_ARC}")


def signed(words: str, unit: str) -> float:
    """A length that may lie below zero: a bare number in ``unit``, or with a unit of its own. [m]"""
    if NUMBER.fullmatch(words):
        return float(words.replace("−", "-")) * LENGTH_OF_ONE[unit]
    below = words.startswith(("-", "−"))
    length = measure.length(words[1:] if below else words).si
    return -length if below else length


def _counted(number: int) -> str:
    return {0: "none", 1: "one"}.get(number, str(number))
