"""The rows of a floor: what of it lies in each, from where to where, and how high a panel must be there."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil, floor

from .ground_plan import SAME, Column, GroundPlan, Rise


@dataclass(frozen=True, slots=True)
class Cell:
    """A stretch of a row over which one lower and one upper line stay the same."""

    x0: float
    x1: float
    low: Rise | float  # a side of the floor, or the row's own line
    high: Rise | float

    def area(self, left: float, right: float) -> float:
        """What of it lies between two x. [m²]"""
        left, right = max(left, self.x0), min(right, self.x1)
        return _under(self.high, left, right) - _under(self.low, left, right) if right > left else 0.0

    def heights(self, left: float, right: float) -> tuple[float, float]:
        """Its lowest and its highest place between two x. [m]"""
        ends = max(left, self.x0), min(right, self.x1)
        return min(_at(self.low, x) for x in ends), max(_at(self.high, x) for x in ends)


@dataclass(frozen=True)
class Strip:
    """What lies of the floor in one row without a gap that would part it."""

    row: int
    x0: float
    x1: float
    low: float  # the row's own lines
    high: float
    cells: tuple[Cell, ...]  # from left to right

    @property
    def length(self) -> float:
        return self.x1 - self.x0

    @cached_property
    def _lefts(self) -> list[float]:
        return [cell.x0 for cell in self.cells]

    @cached_property
    def _longest(self) -> float:
        return max(cell.x1 - cell.x0 for cell in self.cells)

    @cached_property
    def longest_low(self) -> float:
        """The longest stretch over which the floor does not reach from one of the row's lines to the other. [m]"""
        full = [cell for cell in self.cells if cell.low == self.low and cell.high == self.high]
        reached = [self.x0, *(x for cell in full for x in (cell.x0, cell.x1)), self.x1]
        return max(right - left for left, right in zip(reached[::2], reached[1::2], strict=True))

    def among(self, left: float, right: float) -> Iterator[Cell]:
        """The cells between two x."""
        first = bisect_left(self._lefts, left - self._longest - SAME)
        for cell in self.cells[first : bisect_right(self._lefts, right - SAME)]:
            if cell.x1 > left + SAME:
                yield cell

    def heights(self, left: float, right: float) -> tuple[float, float] | None:
        """The lowest and the highest place of the floor between two x; None where there is none."""
        lowest, highest = self.high, self.low
        for cell in self.among(left, right):
            low, high = cell.heights(left, right)
            lowest, highest = min(lowest, low), max(highest, high)
            if lowest <= self.low and highest >= self.high:
                break
        return (lowest, highest) if highest > lowest else None

    def area(self, left: float, right: float) -> float:
        """Of the floor between two x. [m²]"""
        return sum(cell.area(left, right) for cell in self.among(left, right))

    def across(self, x: float) -> float:
        """How much of the floor a line across the row passes over. [m]"""
        at = bisect_right(self._lefts, x) - 1
        over = [cell for cell in self.cells[: at + 1] if cell.x0 < x < cell.x1]
        return sum(_at(cell.high, x) - _at(cell.low, x) for cell in over)


def rows(plan: GroundPlan, height: float, offset: float, gap: float) -> list[list[Strip]]:
    """The strips of each row, from the lowest row to the highest.

    Arguments
    ---------
    plan
        The floor with x along the rows.
    height
        Of a row. [m]
    offset
        Height at which one row begins and another ends. [m]
    gap
        A strip goes on over a gap that is not longer than this: its panel is cut out there. [m]
    """
    first = floor((plan.bottom - offset + SAME) / height)
    last = ceil((plan.top - offset - SAME) / height)
    found = []
    for number, row in enumerate(range(first, last)):
        low = offset + row * height
        found.append(_strips(plan.columns, number, low, low + height, gap))
    return found


def between(below: list[Strip], above: list[Strip]) -> float:
    """Length over which two rows touch: the floor goes on from one into the other. [m]"""
    return sum(x1 - x0 for x0, x1 in shared(below, above))


def shared(below: list[Strip], above: list[Strip]) -> list[tuple[float, float]]:
    """The stretches over which two rows touch. [m]"""
    tops = [cell for strip in below for cell in strip.cells if not isinstance(cell.high, Rise)]
    bottoms = [cell for strip in above for cell in strip.cells if not isinstance(cell.low, Rise)]
    both = ((max(one.x0, other.x0), min(one.x1, other.x1)) for one in tops for other in bottoms)
    return [(x0, x1) for x0, x1 in both if x1 > x0]


def full_between(plan: GroundPlan, low: float, high: float) -> list[tuple[float, float]]:
    """Stretches over which the floor reaches all the way from one height to another. [m]

    >>> from underpour.outlines.floor import Floor
    >>> from underpour.outlines.outline import straight
    >>> from .ground_plan import ground_plan
    >>> full_between(ground_plan(Floor(straight([(0, 0), (6, 0), (0, 3)])), 0.0), 0.0, 1.0)
    [(0.0, 4.0)]
    """
    found: list[tuple[float, float]] = []
    for cell in sorted(_cells(plan.columns, low, high), key=lambda each: each.x0):
        if cell.low == low and cell.high == high:
            if found and cell.x0 <= found[-1][1] + SAME:
                found[-1] = found[-1][0], max(found[-1][1], cell.x1)
            else:
                found.append((cell.x0, cell.x1))
    return found


def _strips(columns: tuple[Column, ...], row: int, low: float, high: float, gap: float) -> list[Strip]:
    cells = sorted(_cells(columns, low, high), key=lambda cell: cell.x0)
    strips: list[Strip] = []
    open_: list[Cell] = []
    end = 0.0
    for cell in cells:
        if open_ and cell.x0 > end + max(gap, SAME):
            strips.append(Strip(row, open_[0].x0, end, low, high, tuple(open_)))
            open_ = []
        end = max(end, cell.x1) if open_ else cell.x1
        open_.append(cell)
    if open_:
        strips.append(Strip(row, open_[0].x0, end, low, high, tuple(open_)))
    return strips


def _cells(columns: tuple[Column, ...], low: float, high: float) -> Iterator[Cell]:
    for column in columns:
        for lower, upper in column.spans:
            yield from _clipped(column.x0, column.x1, lower, upper, low, high)


def _clipped(x0: float, x1: float, lower: Rise, upper: Rise, low: float, high: float) -> Iterator[Cell]:
    """A span of a column between the row's lines: at each x where a side meets one of them another cell begins."""
    if max(upper.at(x0), upper.at(x1)) <= low + SAME or min(lower.at(x0), lower.at(x1)) >= high - SAME:
        return
    meets = {x0, x1}
    for rise in (lower, upper):
        ends = sorted((rise.at(x0), rise.at(x1)))
        meets |= {rise.reaches(y) for y in (low, high) if ends[0] + SAME < y < ends[1] - SAME}
    places = sorted(meets)
    for left, right in pairwise(places):
        middle = (left + right) / 2.0
        bottom, top = lower.at(middle), upper.at(middle)
        if right - left > SAME and top > low + SAME and bottom < high - SAME:
            yield Cell(left, right, lower if bottom > low + SAME else low, upper if top < high - SAME else high)


def _at(line: Rise | float, x: float) -> float:
    return line.at(x) if isinstance(line, Rise) else line


def _under(line: Rise | float, left: float, right: float) -> float:
    return line.area(left, right) if isinstance(line, Rise) else line * (right - left)
