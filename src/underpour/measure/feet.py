"""Feet and inches in one measure: 4 ft 3-1/2 in, 11' 6 7/8", 4'-6"."""

from __future__ import annotations

import re
from functools import cache

from . import refusals
from .numbers import NUMBER, number
from .table import Kind


@cache
def _feet_and_inches() -> re.Pattern[str]:
    return re.compile(rf"({NUMBER}) ?(?:ft\.?|feet|foot|') ?[,-]? ?({NUMBER}) ?(?:in\.?|inch|inches|\")", re.IGNORECASE)


@cache
def _without_unit() -> re.Pattern[str]:
    # "1 ft 2" asks for a unit, "1 ft2" has one.
    return re.compile(rf"({NUMBER}) ?(?:(?:ft\.?|feet|foot)[ ,-]+|' ?[,-]? ?)({NUMBER})", re.IGNORECASE)


def inches(typed: str, text: str, kind: Kind) -> float | None:
    """The whole of it in inches; None where the text is not feet and inches.

    Refuses inches without their unit, a part of a foot beside inches, and twelve inches or more.
    """
    bare = _without_unit().fullmatch(text)
    if bare:
        raise refusals.inches_of_what(typed, bare[1], bare[2], kind)
    found = _feet_and_inches().fullmatch(text)
    if not found:
        return None
    feet, over = number(found[1]), number(found[2])
    if feet is None or over is None:
        return None
    if feet % 1:
        raise refusals.part_of_a_foot(typed)
    if over >= 12:
        whole = feet + over // 12
        raise refusals.more_inches_than_a_foot(typed, f"{whole:g} ft {over % 12:g} in")
    return feet * 12 + over
