"""The fewest panels that given rows can take, proved by an integer programme over where each row begins."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement, pairwise
from math import ceil, floor
from typing import Any

import numpy as np

from .assemble import THIN, Rows, near_joints, packed
from .ground_plan import SAME, Rise
from .rows import Cell, Strip
from .search import Found

FEWEST, MOST_CELLS = 48, 144  # stretches of a panel's length in which a start may lie
MOST = 600  # rows times those; more is not looked at
NODES = 20  # branches of the search, at the most: the measure of the work, not seconds


@dataclass(frozen=True, slots=True)
class Choice:
    """A stretch in which a row's first piece may end, taken at its best: both cut pieces as short as they get there."""

    low: float  # m, shortest first piece
    high: float
    whole: int  # panels that are laid whole
    start: float  # m, of the first piece where it is cut, 0 where it is whole
    end: float  # m, of the last one


@dataclass(frozen=True, slots=True)
class Fewest:
    """What the programme found for one set of rows."""

    least: int  # no starts of these rows take fewer panels
    starts: tuple[float, ...]  # where its best solution has them, m


def fewest_of(rows: Rows) -> Fewest | None:
    """A bound for these rows whatever their starts, and where the programme would begin them.

    Starts lie in stretches of a 48th of a panel or shorter; each counts with the shortest pieces and the widest stagger
    that it could give, so that the bound holds for every start and not for a grid of them.

    Arguments
    ---------
    rows
        Rows of one direction and place, lengths in m. Each strip has one height, and no two of them can be cut from one
        panel above each other: then what fits into a panel is a matter of lengths.

    Returns
    -------
    Fewest, or None
        None where the rows are not of that kind, or too many.
    """
    if len(rows.strips) * FEWEST > MOST or not _by_length(rows):
        return None
    finest = MOST_CELLS if rows.rules.interlock else FEWEST  # the flow of plain pieces grows with the square of it
    cells = max(FEWEST, min(finest, MOST // len(rows.strips)))
    choices = [tuple(_choices(rows, number, cells)) for number in range(len(rows.strips))]
    if not all(choices):
        return None
    return _solved(rows, choices, cells)


def settled(found: Found, bound: int) -> tuple[Found, int]:
    """A plan after the programme has looked at its rows, and the fewest panels that those take; 0 where it has not.

    Arguments
    ---------
    found
        The plan.
    bound
        The fewest panels of any plan; one that takes no more is not looked at again.
    """
    if found.panels <= bound or found.broken:
        return found, 0
    told = fewest_of(found.rows)
    if told is None:
        return found, 0
    if told.starts and told.least < found.panels:
        rows = found.rows
        panels = packed(rows, told.starts)[0].opened
        if panels < found.panels and not near_joints(rows, told.starts) and not rows.short(told.starts):
            found = replace(found, panels=panels, starts=told.starts)
    return found, max(told.least, bound)


def _by_length(rows: Rows) -> bool:
    """Whether only lengths decide what is cut from one panel."""
    rules = rows.rules
    heights = [_height(strip) for strip in rows.strips]
    if any(each is None for each in heights):
        return False
    if rules.interlock and any(rows.in_one(number) for number in range(len(rows.strips))):
        return False
    for (n, one), (m, other) in combinations_with_replacement(enumerate(heights), 2):
        held = n == m and rules.interlock and any(rows.beside[n])  # both would need the same side
        if not held and (one or 0.0) + (other or 0.0) + rules.kerf <= rules.width + SAME:
            return False
    return True


def _height(strip: Strip) -> float | None:
    """The one height that a strip has from end to end; None where it steps, slants or has a gap."""
    found = {(_level(cell.low, cell), _level(cell.high, cell)) for cell in strip.cells}
    reached = strip.x0
    for cell in strip.cells:
        if cell.x0 > reached + SAME:
            return None
        reached = max(reached, cell.x1)
    if len(found) != 1:
        return None
    low, high = found.pop()
    return None if low is None or high is None else high - low


def _level(line: Rise | float, cell: Cell) -> float | None:
    if not isinstance(line, Rise):
        return round(line, 9)
    one, other = line.at(cell.x0), line.at(cell.x1)
    return round(one, 9) if not line.radius and abs(one - other) < SAME else None


def _choices(rows: Rows, number: int, cells: int) -> Iterator[Choice]:
    """Every stretch of starts that keeps the least piece somewhere in it."""
    strip, rules = rows.strips[number], rows.rules
    length, whole, least = strip.length, rules.length, rules.least
    if number in rows.pinned:
        yield _at(rows, number, rows.pinned[number])
        return
    if rows.in_one(number):
        yield Choice(length, length, int(length > whole - SAME), 0.0 if length > whole - SAME else length, 0.0)
        return
    exact = length % whole
    for start in {whole, exact if exact > THIN else whole}:
        if start >= least - SAME and start <= length + SAME and _fits(length, start, whole, least):
            yield _at(rows, number, start)
    edges = sorted({least, min(whole, length), *(whole * k / cells for k in range(1, cells)), exact})
    edges = [each for each in edges if least - SAME <= each <= min(whole, length) + SAME]
    for low, high in pairwise(edges):
        if high - low < THIN:
            continue
        middle = (low + high) / 2.0
        longest, shortest = _end(length, low + THIN, whole), _end(length, high - THIN, whole)
        if longest < least:
            continue
        count = floor((length - middle) / whole)
        yield Choice(low, high, count, low, max(shortest - THIN, least))


def _at(rows: Rows, number: int, start: float) -> Choice:
    length, whole = rows.strips[number].length, rows.rules.length
    end = _end(length, start, whole)
    laid = floor((length - start + THIN) / whole) + int(start > whole - SAME)
    return Choice(start, start, laid, 0.0 if start > whole - SAME else start, end)


def _end(length: float, start: float, whole: float) -> float:
    end = (length - start) % whole
    return 0.0 if min(end, whole - end) < THIN else end


def _fits(length: float, start: float, whole: float, least: float) -> bool:
    end = _end(length, start, whole)
    return end == 0.0 or end >= least - SAME


def _solved(rows: Rows, choices: Sequence[Sequence[Choice]], cells: int) -> Fewest | None:
    """The programme: one choice a row, none too near to the row below, as few panels as their pieces come from."""
    rules = rows.rules
    where = [(n, each) for n, of in enumerate(choices) for each in of]
    count = len(where)
    model = _Model([float(each.whole) for _, each in where], whole=True)
    for n in range(len(choices)):
        model.hold({k: 1.0 for k, (m, _) in enumerate(where) if m == n}, 1.0, 1.0)
    joints = [rows.joints(n, (each.low + each.high) / 2.0) for n, each in where]
    of_strip = [[k for k, (n, _) in enumerate(where) if n == strip] for strip in range(len(choices))]
    for n, m in _over(rows):
        for k in of_strip[n]:
            near = [j for j in of_strip[m] if _clash(rows, (n, joints[k], where[k][1]), (m, joints[j], where[j][1]))]
            if near:
                model.hold({k: 1.0} | dict.fromkeys(near, 1.0), -np.inf, 1.0)
    if rules.interlock:
        _matched(model, where, rules.length - rules.kerf)
    else:
        units = rules.length / cells
        sizes: dict[int, dict[int, float]] = {}
        for k, (_, each) in enumerate(where):
            for part in (each.start, each.end):
                if part > THIN:
                    size = floor((part + rules.kerf) / units + 1e-9)
                    sizes.setdefault(size, {}).setdefault(k, 0.0)
                    sizes[size][k] += 1.0
        _flowing(model, sizes, floor((rules.length + rules.kerf) / units + 1e-9))
    value, _, chosen = model.solved()
    if value is None:
        return None
    picked = [where[k] for k in range(count) if chosen is not None and chosen[k] > 0.5]
    starts = tuple(each.low for _, each in sorted(picked, key=lambda pair: pair[0]))
    return Fewest(ceil(value - 1e-6), starts if len(starts) == len(choices) else ())


def _over(rows: Rows) -> Iterator[tuple[int, int]]:
    """Strips of which one lies in the row below the other, over some of the same stretch."""
    for n, upper in enumerate(rows.strips):
        for m, lower in enumerate(rows.strips):
            if lower.row == upper.row - 1 and min(lower.x1, upper.x1) - max(lower.x0, upper.x0) > SAME:
                yield n, m


Laid = tuple[int, Sequence[float], Choice]  # a strip, where its joints lie from the middle of a stretch, the stretch


def _clash(rows: Rows, upper: Laid, lower: Laid) -> bool:
    """Whether two stretches of starts bring two joints nearer than the stagger wherever in them the starts lie."""
    (n, own, one), (m, others, other) = upper, lower
    strip, below = rows.strips[n], rows.strips[m]
    play = (one.high - one.low + other.high - other.low) / 2.0
    reach = rows.rules.stagger - SAME - play
    left, right = strip.x0 + play, min(strip.x1 - play, below.x1 - THIN)
    for x in own:
        if x < strip.x1 - THIN:
            after = bisect_left(others, x)
            if any(abs(x - y) < reach and left < y < right for y in others[max(after - 1, 0) : after + 1]):
                return True
    return False


class _Model:
    """Rows of an integer programme as they are written down."""

    def __init__(self, costs: Sequence[float], *, whole: bool) -> None:
        self.costs = list(costs)
        self.whole = [int(whole)] * len(costs)
        self.most = [1.0] * len(costs)
        self.entries: list[tuple[int, int, float]] = []
        self.low: list[float] = []
        self.high: list[float] = []

    def more(self, cost: float, most: float, *, whole: bool) -> int:
        """Another unknown, by its place."""
        self.costs.append(cost)
        self.whole.append(int(whole))
        self.most.append(most)
        return len(self.costs) - 1

    def hold(self, terms: Mapping[int, float], low: float, high: float) -> None:
        """The sum of some of them lies between two values."""
        self.entries += [(len(self.low), k, value) for k, value in terms.items()]
        self.low.append(low)
        self.high.append(high)

    def solved(self) -> tuple[float | None, float | None, Any]:
        """A bound on the least cost, the least that was found, and where."""
        from scipy.optimize import Bounds, LinearConstraint, milp
        from scipy.sparse import coo_array

        at, of, value = zip(*self.entries, strict=True)
        matrix = coo_array((value, (at, of)), shape=(len(self.low), len(self.costs))).tocsr()
        found = milp(
            np.array(self.costs),
            integrality=np.array(self.whole),
            bounds=Bounds(0.0, np.array(self.most)),
            constraints=LinearConstraint(matrix, np.array(self.low), np.array(self.high)),
            options={"node_limit": NODES, "mip_rel_gap": 0.0},
        )
        bound = found.mip_dual_bound
        held = float(bound) if bound is not None and np.isfinite(bound) else None
        return held, None if found.x is None else float(found.fun), found.x


def _matched(model: _Model, where: Sequence[tuple[int, Choice]], room: float) -> None:
    """Panels that interlock: one first and one last piece to a panel, where both find room; others take their own.

    What fits with a long piece fits with a shorter one too, so as many pairs can be made as, for each length, there are
    first pieces up to it and last ones that fit with a longer one.
    """
    firsts = {k: each.start for k, (_, each) in enumerate(where) if each.start > THIN}
    lasts = {k: each.end for k, (_, each) in enumerate(where) if each.end > THIN}
    for k in firsts:
        model.costs[k] += 1.0
    for k in lasts:
        model.costs[k] += 1.0
    pairs = model.more(-1.0, float(len(where)), whole=False)
    lengths = sorted(set(firsts.values()))
    for n in range(-1, len(lengths)):
        up_to = lengths[n] if n >= 0 else 0.0
        longer = lengths[n + 1] if n + 1 < len(lengths) else np.inf
        terms: dict[int, float] = {pairs: 1.0}
        for k, length in firsts.items():
            if length <= up_to:
                terms[k] = terms.get(k, 0.0) - 1.0
        for k, length in lasts.items():
            if length + longer <= room + SAME:
                terms[k] = terms.get(k, 0.0) - 1.0
        model.hold(terms, -np.inf, 0.0)


def _flowing(model: _Model, sizes: Mapping[int, Mapping[int, float]], room: int) -> None:
    """Plain panels as flow from one end of a panel to the other, each piece an arc as long as itself.

    ``sizes`` has, for each length, which unknowns ask for how many pieces of it; a longer one never follows a shorter.
    """
    order = sorted(sizes, reverse=True)
    reached: set[int] = {0}
    arcs: set[tuple[int, int, int]] = set()
    for size in order:
        for _ in range(room // max(size, 1)):
            new = {(at, at + size, size) for at in reached if at + size <= room} - arcs
            if not new:
                break
            arcs |= new
            reached |= {end for _, end, _ in new}
    flows = {arc: model.more(0.0, np.inf, whole=True) for arc in sorted(arcs)}
    panels = model.more(1.0, np.inf, whole=True)
    leave = {at: model.more(0.0, np.inf, whole=False) for at in reached if at}
    for at in sorted(reached):
        terms = {k: 1.0 for (start, _, _), k in flows.items() if start == at}
        terms |= {k: -1.0 for (_, end, _), k in flows.items() if end == at}
        terms[leave[at] if at else panels] = 1.0 if at else -1.0
        model.hold(terms, 0.0, 0.0)
    for size, asked in sizes.items():
        terms = {k: 1.0 for (_, _, of), k in flows.items() if of == size}
        for k, times in asked.items():
            terms[k] = terms.get(k, 0.0) - times
        model.hold(terms, 0.0, np.inf)


def fewest_cut(lengths: Mapping[int, int], stock: int) -> int | None:
    """The fewest pieces of stock that lengths can be cut from, end to end.

    Arguments
    ---------
    lengths
        How many of each length, in whole units: mm, inches.
    stock
        Length of a piece of stock, in the same.

    Returns
    -------
    int, or None
        None where the programme did not come to an end.

    >>> fewest_cut({50: 3}, 96)  # two of 50 in do not go into 96
    3
    """
    model = _Model([], whole=True)
    asked: dict[int, dict[int, float]] = {}
    for length, count in lengths.items():
        k = model.more(0.0, float(count), whole=True)
        model.hold({k: 1.0}, float(count), float(count))
        asked[length] = {k: 1.0}
    _flowing(model, asked, stock)
    bound, found, _ = model.solved()
    if bound is None or found is None or round(found) != ceil(bound - 1e-6):
        return None
    return round(found)
