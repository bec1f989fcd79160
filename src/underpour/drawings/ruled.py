"""A ruled field for curves: where values lie on the sheet, its marks, and words beside it that keep off each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..measure.digits import MINUS
from . import colours
from .chains import spread
from .lettering import CAPITAL, LETTER, cut_to
from .levels import levels, written
from .paper import HAIR, letters, line

ROW = 1.25 * LETTER  # mm from line to line
CAP = LETTER * CAPITAL  # mm, height of a capital
Values = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Ruled:
    """Where a range of values each way lies on the sheet."""

    left: float  # mm
    top: float  # mm
    wide: float  # mm
    high: float  # mm
    across: tuple[float, float]  # the values at the left and at the right
    up: tuple[float, float]  # the values at the bottom and at the top

    @property
    def right(self) -> float:
        return self.left + self.wide

    @property
    def bottom(self) -> float:
        return self.top + self.high

    def x(self, value: float) -> float:
        low, high = self.across
        return self.left + self.wide * (value - low) / (high - low)

    def y(self, value: float) -> float:
        low, high = self.up
        return self.top + self.high * (1.0 - (value - low) / (high - low))

    def points(self, across: Values, up: Values) -> list[tuple[float, float]]:
        """Places on the sheet, those above the field left out."""
        return [
            (self.x(float(a)), self.y(float(b)))
            for a, b in zip(across, up, strict=True)
            if b <= self.up[1] + 1e-9 and a <= self.across[1] + 1e-9
        ]


def marks_across(of: Ruled, unit: str, count: int = 6) -> Iterator[str]:
    """Hairlines up the field at round values, their numbers below it, the unit at its right end."""
    theme, base = colours.light(), of.bottom + ROW
    known = (0.0, *levels(of.across[1], count))
    for value in known:
        said = "0" if value == 0.0 else written(value, known[1:])
        yield line(of.x(value), of.top, of.x(value), of.bottom, HAIR, colour=theme["rule"])
        yield letters(of.x(value), base, said, anchor="middle" if value else "start", colour=theme["note"])
    yield letters(of.right + 2.0, base, unit, colour=theme["note"])


def marks_up(of: Ruled, values: Sequence[float], unit: str) -> Iterator[str]:
    """Hairlines across the field at these values, their numbers right of it, the unit beside the uppermost."""
    theme = colours.light()
    for value in values:
        unit_too = f" {unit}" if value == max(values) else ""
        yield line(of.left, of.y(value), of.right, of.y(value), HAIR, colour=theme["rule"])
        yield letters(of.right + 1.2, of.y(value) + CAP / 2.0, f"{mark(value)}{unit_too}", colour=theme["note"])


def mark(value: float) -> str:
    """A round value as it is marked.

    >>> mark(40.0), mark(0.5), mark(-5.0)
    ('40', '0.5', '−5')
    """
    said = f"{abs(value):.6g}"
    return f"{MINUS}{said}" if value < 0.0 else said


def decade(low: float, high: float, most: int = 6) -> list[float]:
    """Round steps that hold both ends, no more than so many between them.

    >>> decade(19.2, 33.0)
    [15.0, 20.0, 25.0, 30.0, 35.0]
    """
    step = next(s * 10.0**k for k in range(9) for s in (1.0, 2.0, 5.0) if (high - low) / (s * 10.0**k) <= most)
    first, last = int(np.floor(low / step + 1e-9)), int(np.ceil(high / step - 1e-9))
    return [step * n for n in range(first, max(last, first + 1) + 1)]


def beside(
    rows: Sequence[tuple[float, str, int]], left: float, room: float, span: tuple[float, float], from_x: float
) -> Iterator[str]:
    """Words in a column at ``left``, each at its own height or as near to it as the others let it be, with a hairline
    to it from ``from_x``. Rows are height, words and weight of the letters. [mm]"""
    ordered = sorted(rows, key=lambda row: row[0])
    heights = spread([y for y, _, _ in ordered], [ROW] * len(ordered), span)
    for (y, said, weight), at in zip(ordered, heights, strict=True):
        yield line(from_x, y, left - 0.8, at, HAIR)
        yield letters(left, at + CAP / 2.0, cut_to(said, room, LETTER, weight), weight=weight)


def titled(title: str, name: str) -> str:
    """A picture's title with the version that it is of, where it stands among others.

    >>> titled("From cold", "bare slab"), titled("From cold", "")
    ('Bare slab: from cold', 'From cold')
    """
    return f"{name[0].upper()}{name[1:]}: {title[0].lower()}{title[1:]}" if name else title
