"""Rows filled with panels: where each row begins, with the offcuts of the rows before it in hand."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil
from random import Random

from .ground_plan import SAME
from .panel import ABOVE, BELOW, LEFT, RIGHT, Rules
from .rows import Strip
from .stock import Stock, Taken

THIN = 1e-6  # m; what is shorter at the end of a row is no piece
TOUCH = 0.01  # m; rows that touch over less do not hold each other


@dataclass(frozen=True, slots=True)
class Slice:
    """A piece before it is known what it is cut from."""

    strip: int
    row: int
    x0: float
    x1: float
    y0: float
    y1: float
    meets: int
    off: tuple[float, float] = (0.0, 0.0)  # m, its corner right of the pitch's lines and above them


class Rows:
    """The strips of one direction and one offset, with what each needs to know of its neighbours.

    ``phase`` is where along the rows a line of the pitch lies. [m] ``pinned`` holds the starts that are not free.
    ``lines`` are places along the rows that joints keep ``near`` away from: joints of a layer below. [m]
    """

    def __init__(
        self,
        rows: Sequence[Sequence[Strip]],
        rules: Rules,
        phase: float = 0.0,
        pinned: Mapping[int, float] | None = None,
        lines: Sequence[float] = (),
        near: float = 0.0,
    ) -> None:
        self.rules = rules
        self.phase = phase
        self.pinned = dict(pinned or {})
        self.lines, self.near = sorted(lines), near
        self.strips = [strip for row in rows for strip in row]
        self.beside = [_neighbours(self.strips, number) for number in range(len(self.strips))]
        self._sliced: dict[tuple[int, float], tuple[Slice, ...]] = {}
        self._parted: dict[tuple[int, float], tuple[int, tuple[Slice, ...]]] = {}

    def slices(self, number: int, start: float) -> tuple[Slice, ...]:
        """The strip's pieces where its first one is so long."""
        key = number, round(start, 9)
        if key not in self._sliced:
            self._sliced[key] = tuple(self._slices(*key))
        return self._sliced[key]

    def whole_and_parts(self, number: int, start: float) -> tuple[int, tuple[Slice, ...]]:
        """How many of the strip's pieces are whole panels, and those that are not."""
        key = number, round(start, 9)
        if key not in self._parted:
            self._parted[key] = self._whole_and_parts(*key)
        return self._parted[key]

    def _whole_and_parts(self, number: int, start: float) -> tuple[int, tuple[Slice, ...]]:
        strip, length = self.strips[number], self.rules.length
        if strip.longest_low < length - SAME and strip.length > length + SAME:
            # Every piece as long as a panel is as high as one, so only the two ends can be parts.
            joints = self.joints(number, start)
            ends = [(strip.x0, joints[0])] if start < length - SAME else []
            ends += [(joints[-1], strip.x1)] if strip.x1 - joints[-1] < length - SAME else []
            parts = tuple(each for left, right in ends if (each := self._slice(number, left, right)))
            return len(joints) + 1 - len(ends), parts
        every = self.slices(number, start)
        parts = tuple(each for each in every if not self._whole(each))
        return len(every) - len(parts), parts

    def _whole(self, each: Slice) -> bool:
        rules = self.rules
        return each.x1 - each.x0 > rules.length - SAME and each.y1 - each.y0 > rules.width - SAME

    def in_one(self, number: int) -> bool:
        """Whether one piece can be the whole strip."""
        strip = self.strips[number]
        before = (strip.x0 - self.phase) % self.rules.pitch if self.rules.pitch else 0.0
        before = 0.0 if self.rules.pitch and self.rules.pitch - before < SAME * 10.0 else before
        return before + strip.length <= self.rules.length + SAME

    def lined_up(self, number: int, start: float) -> float:
        """A start no longer than this whose joint lies on a line of the pitch. [m]"""
        pitch = self.rules.pitch
        if not pitch or self.in_one(number):
            return start
        over = (self.strips[number].x0 + start - self.phase) % pitch
        start -= 0.0 if min(over, pitch - over) < SAME * 10.0 else over
        return start if start > SAME else start + self.rules.length

    def joints(self, number: int, start: float) -> list[float]:
        """Where the strip's pieces meet. [m]"""
        strip, length = self.strips[number], self.rules.length
        after = strip.length - start
        return [strip.x0 + start + length * k for k in range(ceil((after - THIN) / length))]

    def over_lines(self, number: int, start: float) -> int:
        """Joints of the strip that come too near to one of the lines."""
        found = 0
        for x in self.joints(number, start):
            after = bisect_left(self.lines, x)
            found += any(abs(line - x) < self.near - SAME for line in self.lines[max(after - 1, 0) : after + 1])
        return found

    @cached_property
    def narrow(self) -> int:
        """Strips that are nowhere as high, or not as long, as a strip should be."""
        heights = ((strip, strip.heights(strip.x0, strip.x1)) for strip in self.strips)
        least = self.rules.narrow
        return sum(
            there is not None and min(there[1] - there[0], strip.length) < least - SAME for strip, there in heights
        )

    def short(self, starts: Sequence[float]) -> int:
        """Pieces of a plan shorter than the least length, where the strip itself is not."""
        least, whole = self.rules.least, self.rules.length
        found = 0
        for strip, start in zip(self.strips, starts, strict=True):
            end = (strip.length - start) % whole
            found += strip.length > whole + SAME and start < least - SAME
            found += strip.length > start + SAME and THIN < end < least - SAME
        return found

    def _slices(self, number: int, start: float) -> Iterator[Slice]:
        strip = self.strips[number]
        ends = [strip.x0, *self.joints(number, start), strip.x1]
        for left, right in pairwise(ends):
            if found := self._slice(number, left, right):
                yield found

    def _slice(self, number: int, left: float, right: float) -> Slice | None:
        strip, (below, above) = self.strips[number], self.beside[number]
        there = strip.heights(left, right)
        if there is None:
            return None  # a gap as long as a panel
        meets = (LEFT if left > strip.x0 + SAME else 0) | (RIGHT if right < strip.x1 - SAME else 0)
        y0, y1 = there
        if y0 <= strip.low + SAME and any(_over(each, left, right) for each in below):
            meets |= BELOW
        if y1 >= strip.high - SAME and any(_over(each, left, right) for each in above):
            meets |= ABOVE
        pitch = self.rules.pitch
        off = ((left - self.phase) % pitch, (y0 - strip.low) % pitch) if pitch else (0.0, 0.0)
        return Slice(number, strip.row, left, right, y0, y1, meets, off)


def _neighbours(strips: Sequence[Strip], number: int) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """The stretches over which a strip touches the row below it, and the one above it. [m]"""
    strip = strips[number]
    below = [pair for other in strips if other.row == strip.row - 1 for pair in _touching(other, strip)]
    above = [pair for other in strips if other.row == strip.row + 1 for pair in _touching(strip, other)]
    return below, above


def _touching(lower: Strip, upper: Strip) -> Iterator[tuple[float, float]]:
    tops = [(cell.x0, cell.x1) for cell in lower.cells if cell.high == lower.high]
    bottoms = [(cell.x0, cell.x1) for cell in upper.cells if cell.low == upper.low]
    for a, b in tops:
        for c, d in bottoms:
            if min(b, d) - max(a, c) > SAME:
                yield max(a, c), min(b, d)


def _over(pair: tuple[float, float], left: float, right: float) -> bool:
    return min(pair[1], right) - max(pair[0], left) > TOUCH


def starts(rows: Rows, number: int, stock: Stock, before: Sequence[float]) -> list[float]:
    """Lengths that the first piece of a strip may well have: they use what is at hand, or keep the stagger. [m]"""
    strip, rules = rows.strips[number], rows.rules
    whole, length = rules.length, strip.length
    if number in rows.pinned:
        return [rows.pinned[number]]
    if rows.in_one(number):
        return [length]
    may = {whole, length % whole, whole / 2.0, rules.least, (length - rules.least) % whole}
    for left, _, sides, *_ in stock.left:
        if not rules.interlock or sides & RIGHT:
            may.add(min(left, whole))
        if not rules.interlock or sides & LEFT:
            may.add((length - left) % whole)
    for joint in before:
        if strip.x0 - whole < joint < strip.x1 + whole:
            may |= {(joint + by - strip.x0) % whole for by in (rules.stagger, -rules.stagger)}
    for line in rows.lines:
        if strip.x0 < line < strip.x0 + whole:
            may |= {(line + by - strip.x0) % whole for by in (rows.near, -rows.near)}
    if rules.pitch:
        lined = {rows.lined_up(number, start) for start in may}
        may = {each for start in lined for each in (start, start + rules.pitch) if each < length - SAME}
    usable = [start if start > SAME else whole for start in may]
    long_enough = sorted({round(start, 9) for start in usable if _long_enough(start, length, rules)})
    clear = [start for start in long_enough if not rows.over_lines(number, start)] if rows.lines else long_enough
    return clear or long_enough or [rows.lined_up(number, min(whole, length))]


def _long_enough(start: float, length: float, rules: Rules) -> bool:
    end = (length - start) % rules.length
    return rules.least - SAME <= start <= rules.length + SAME and (end <= THIN or end >= rules.least - SAME)


def conflicts(rows: Rows, number: int, start: float, before: Sequence[float]) -> int:
    """Joints of the strip that lie nearer than the stagger to one of the row below."""
    strip, rules = rows.strips[number], rows.rules
    near = 0
    for joint in before:
        if strip.x0 + SAME < joint < strip.x1 - SAME:
            off = (joint - strip.x0 - start) % rules.length
            before_it = off < rules.stagger - SAME and joint - off >= strip.x0 + start - SAME
            behind = rules.length - off < rules.stagger - SAME and joint + rules.length - off < strip.x1 - SAME
            near += before_it or behind
    return near


@dataclass(frozen=True, slots=True)
class Filling:
    """The start of each strip as they were chosen, and how many pieces were cut in trying. [m]"""

    starts: tuple[float, ...]
    cuts: int


def assembled(rows: Rows, chance: Random, share: float, jitter: float, down: bool) -> Filling:
    """The start of each strip, chosen one after another with the offcuts of those before it in hand.

    Arguments
    ---------
    share
        Of its area that the smallest offcut is worth while rows are still to come.
    jitter
        By how much of a panel's area a choice may be worse and still be taken.
    down
        From the highest row to the lowest.
    """
    rules = rows.rules
    order = range(len(rows.strips))
    stock, chosen = Stock(rules), [0.0] * len(rows.strips)
    placed: dict[int, list[float]] = {}
    cuts = 0
    step = 1 if down else -1
    for number in reversed(order) if down else order:
        strip = rows.strips[number]
        before = placed.get(strip.row + step, [])
        best: tuple[float, float, Stock] | None = None
        for start in starts(rows, number, stock, before):
            clash = conflicts(rows, number, start, before)
            tried = stock.copy()
            whole, parts = rows.whole_and_parts(number, start)
            tried.open(whole)
            cuts += len(parts)
            for each in parts:
                tried.take(each.x1 - each.x0, each.y1 - each.y0, each.meets, each.off)
            cost = (tried.opened - stock.opened) * rules.area - tried.worth(share) + clash * 4.0 * rules.area
            cost += chance.random() * jitter * rules.area
            if best is None or cost < best[0] - SAME:
                best = cost, start, tried
        assert best is not None
        _, chosen[number], stock = best
        placed.setdefault(strip.row, []).extend(rows.joints(number, chosen[number]))
    return Filling(tuple(chosen), cuts)


def packed(rows: Rows, starts: Sequence[float]) -> tuple[Stock, list[tuple[Slice, Taken]]]:
    """The pieces of a plan that are no whole panels, cut from as few as taking the largest first finds."""
    stock = Stock(rows.rules)
    parted = [rows.whole_and_parts(number, start) for number, start in enumerate(starts)]
    parts = sorted(
        (each for _, own in parted for each in own), key=lambda each: -(each.x1 - each.x0) * (each.y1 - each.y0)
    )
    taken = [(each, stock.take(each.x1 - each.x0, each.y1 - each.y0, each.meets, each.off)) for each in parts]
    stock.open(sum(whole for whole, _ in parted))
    return stock, taken


def near_joints(rows: Rows, chosen: Sequence[float]) -> int:
    """Joints of a whole plan that lie nearer than the stagger to one of the row below."""
    found = 0
    for number, start in enumerate(chosen):
        row = rows.strips[number].row
        before = [
            joint
            for other, strip in enumerate(rows.strips)
            if strip.row == row - 1
            for joint in rows.joints(other, chosen[other])
        ]
        found += conflicts(rows, number, start, before)
    return found
