"""Outlines as they are typed: corners in order, in a unit that is typed beside them."""

from __future__ import annotations

from typing import Literal

from ...mistakes import Mistake
from ..corners import read_corner
from ..kinds import as_error
from ..outline import Corner

LengthUnit = Literal["m", "mm", "cm", "ft", "in"]


def typed_corners(value: object, unit: str | None) -> tuple[Corner, ...]:
    """The corners of an outline as typed, each in the unit that stands beside it. [m]"""
    if not isinstance(value, list | tuple):
        raise as_error(Mistake("", "", "An outline is a list of corners.", 'Write ["0 0", "40 0", "40 28", "0 28"].'))
    corners: list[Corner] = []
    found: list[Mistake] = []
    for number, typed in enumerate(value, start=1):
        try:
            corners.append(read_corner(typed, unit or "m"))
        except Mistake as mistake:
            found.append(mistake.placed(at=str(number)))
    if found:
        raise as_error(*found)
    return tuple(corners)


AS_SCHEMA = {"type": "array", "items": {"type": "string"}, "minItems": 3}
