"""Outlines as they are typed: corners in order, in a unit that is typed beside them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal, TypeVar

from ...mistakes import Mistake
from ...outlines.side import Point
from ..corners import TypedCorner, read_bent_corner, read_corner
from ..kinds import as_error

LengthUnit = Literal["m", "mm", "cm", "ft", "in"]
_C = TypeVar("_C")


def typed_corners(value: object, unit: str | None) -> tuple[Point, ...]:
    """The corners of an outline of straight sides as typed, each in the unit that stands beside it. [m]"""
    return _each(value, unit, read_corner)


def bent_corners(value: object, unit: str | None) -> tuple[TypedCorner, ...]:
    """The corners of an outline that may have arcs, as typed."""
    return _each(value, unit, read_bent_corner)


def _each(value: object, unit: str | None, read: Callable[[object, str], _C]) -> tuple[_C, ...]:
    if not isinstance(value, list | tuple):
        raise as_error(Mistake("", "", "An outline is a list of corners.", 'Write ["0 0", "40 0", "40 28", "0 28"].'))
    corners: list[_C] = []
    found: list[Mistake] = []
    for number, typed in enumerate(value, start=1):
        try:
            corners.append(read(typed, unit or "m"))
        except Mistake as mistake:
            found.append(mistake.placed(at=str(number)))
    if found:
        raise as_error(*found)
    return tuple(corners)


AS_SCHEMA = {"type": "array", "items": {"type": "string"}, "minItems": 3}
BENT_SCHEMA = {"type": "array", "items": {"type": "string"}, "minItems": 2}  # two corners with two arcs enclose
