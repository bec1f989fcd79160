"""A graded rectangular grid through every corner of a section's bodies, and what fills each of its cells.

A slanted side is met by grid lines laid through its crossings, so that it runs from corner to corner of the cells
that it cuts; such a cell is two triangles. The grid thus follows every straight side exactly.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain
from .shapes import Body, Films, Outline, Space

SAME = 1e-7  # m: lines nearer than this are one line
MOST_LINES = 900  # a section that wants more in one direction is refused
FIRST_CELL = 0.1  # m: cell beside a corner, on the coarsest grid
RATIO = 2.5  # growth of cells away from a corner
POOR = 0.15  # W/(m·K): a poor conductor
LEAST_CELL = 1e-3  # m
NOTHING = -100  # fill of a cell that no body and no space claims

Side = Literal["left", "right", "bottom", "top"]
Stretch = tuple[float, float]  # m
RISING, FALLING = 1, 2  # the two ways a cell can be split: "/" and "\"


@dataclass(frozen=True)
class Grid:
    """Lines and fill. Fill is the index of a body, or -1 - index of a space, or ``NOTHING``.

    A whole cell has the same fill in both places. A split cell has ``first`` below its diagonal and ``second`` above.
    """

    x: NDArray[np.float64]  # (nx + 1,) m
    y: NDArray[np.float64]  # (ny + 1,) m
    first: NDArray[np.int64]  # (nx, ny)
    second: NDArray[np.int64]  # (nx, ny)
    split: NDArray[np.int8]  # (nx, ny): 0, RISING or FALLING

    def owner(self, side: Side) -> NDArray[np.int64]:
        """Fill that touches one side of each cell, (nx, ny)."""
        ways = {"left": [RISING], "right": [FALLING], "top": [RISING, FALLING], "bottom": []}[side]
        return np.where(np.isin(self.split, ways), self.second, self.first)


def graded(features: Mapping[float, float], ratio: float) -> NDArray[np.float64]:
    """Lines through every feature, narrow beside each inner one and growing away from it.

    Parameters
    ----------
    features : mapping of float to float
        Places that must be lines, and the width of the cell beside each; the first and the last are ends of the
        section and draw no narrow cells. [m]
    ratio : float
        Growth from one cell to the next. [1]

    Returns
    -------
    ndarray, shape (n,)
        Rising lines. [m]

    Source
    ------
    Common practice for corners of conduction, no source.

    Examples
    --------
    >>> graded({0.0: 1.0, 3.0: 1.0, 6.0: 1.0}, ratio=2.0).tolist()
    [0.0, 2.0, 3.0, 4.0, 6.0]
    """
    places = sorted(features)
    lines = [places[0]]
    last = len(places) - 2
    for n, (start, end) in enumerate(pairwise(places)):
        narrow_start, narrow_end = n > 0, n < last
        length = end - start
        if narrow_start and narrow_end:
            middle = start + length / 2
            cells = np.concatenate(
                [
                    _growing(middle - start, features[start], ratio),
                    _growing(end - middle, features[end], ratio)[::-1],
                ]
            )
            if length <= 1.5 * min(features[start], features[end]):
                cells = np.array([length])
        elif narrow_start:
            cells = _growing(length, features[start], ratio)
        elif narrow_end:
            cells = _growing(length, features[end], ratio)[::-1]
        else:
            cells = np.full(4, length / 4)
        lines += [*(start + np.cumsum(cells)[:-1]), end]
    return np.array(lines, float)


def _growing(length: float, first: float, ratio: float) -> NDArray[np.float64]:
    """Widths that grow by about ``ratio`` from about ``first`` and add up to ``length``."""
    count = max(1, round(np.log1p(length / first * (ratio - 1.0)) / np.log(ratio)))
    widths = ratio ** np.arange(count)
    return np.asarray(widths * (length / widths.sum()))


def finer(lines: NDArray[np.float64], features: Iterable[float]) -> NDArray[np.float64]:
    """Every cell halved, and the cells beside an inner feature halved once more.

    Parameters
    ----------
    lines : ndarray, shape (n,)
        Rising lines. [m]
    features : iterable of float
        Places beside which the temperature bends sharply. [m]

    Returns
    -------
    ndarray, shape (about 2 n,)
        Rising lines, the old ones among them. [m]

    Source
    ------
    Derived: halving takes the smooth part of the error of quadratic elements down 16 times, quartering the cells at a
    corner of strength r^a takes its part down 4^(2a) times, 4 to 16 for a from 1/2 to 1. So a third of the change,
    at most, is left after it.

    Examples
    --------
    >>> finer(np.array([0.0, 1.0, 2.0, 3.0]), [0.0, 1.0, 3.0])
    array([0.  , 0.5 , 0.75, 1.  , 1.25, 1.5 , 2.  , 2.5 , 3.  ])
    """
    inner = np.array(sorted(features)[1:-1])
    once = np.union1d(lines, (lines[1:] + lines[:-1]) / 2)
    beside = np.zeros(len(once) - 1, bool)
    at = np.clip(np.searchsorted(once, inner - SAME), 1, len(once) - 2)
    beside[at] = beside[at - 1] = True
    return np.union1d(once, (once[1:] + once[:-1])[beside] / 2)


def features_of(
    bodies: Sequence[Body], spaces: Sequence[Space], films: Sequence[Films], extra: Sequence[float] = ()
) -> tuple[dict[float, float], dict[float, float]]:
    """Every x and every y at which a body or a space has a corner, and how narrow the cells beside it must be.

    Where a poor conductor meets air beside a good one, the temperature falls over a length of conductivity times film;
    cells there are twice that. Elsewhere they are ``FIRST_CELL``.

    Parameters
    ----------
    bodies, spaces : sequences
        Outlines. [m]
    films : sequence of Films
        Films of each space. [m²·K/W]
    extra : sequence of float
        Further places x that shall be lines. [m]

    Returns
    -------
    two dicts of float to float
        Places x and y, each with the width of its first cell. [m]

    Source
    ------
    Derived: balance of conduction along the body and loss through the film;
    tried on thirty random sections in studies/2026-11-25-grids.md.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> slab = SimpleNamespace(outline=((0.0, 0.0), (2.0, 0.0), (2.0, 1.0)), conductivity=2.0)
    >>> features_of([slab], [], [])
    ({0.0: 0.1, 2.0: 0.1}, {0.0: 0.1, 1.0: 0.1})
    """
    corners = [(x, y, _first_cell(x, y, body.conductivity, spaces, films)) for body in bodies for x, y in body.outline]
    corners += [(x, y, FIRST_CELL) for space in spaces for x, y in space.outline]
    return (
        _narrowest([(x, cell) for x, _, cell in corners] + [(x, FIRST_CELL) for x in extra]),
        _narrowest([(y, cell) for _, y, cell in corners]),
    )


def _first_cell(x: float, y: float, conductivity: float, spaces: Sequence[Space], films: Sequence[Films]) -> float:
    cell = FIRST_CELL
    for space, film in zip(spaces, films, strict=True):
        xs, ys = zip(*space.outline, strict=True)
        touches = min(xs) - SAME <= x <= max(xs) + SAME and min(ys) - SAME <= y <= max(ys) + SAME
        if touches and conductivity < POOR:
            cell = min(cell, max(2.0 * conductivity * min(film.up, film.side, film.down), LEAST_CELL))
    return cell


def _narrowest(places: Iterable[tuple[float, float]]) -> dict[float, float]:
    """Each place once, with the narrowest cell that is asked for there."""
    kept: dict[float, float] = {}
    last = None
    for place, cell in sorted(places):
        if last is None or place - last > SAME:
            last = float(place)
            kept[last] = cell
        kept[last] = min(kept[last], cell)
    return kept


def _distinct(places: Iterable[float]) -> list[float]:
    kept: list[float] = []
    for place in sorted(places):
        if not kept or place - kept[-1] > SAME:
            kept.append(float(place))
    return kept


def fill(
    x: NDArray[np.float64], y: NDArray[np.float64], bodies: Sequence[Body], spaces: Sequence[Space]
) -> tuple[Grid, list[tuple[int, int]]]:
    """Lay the grid over the section: which body or space fills each cell, and which bodies contradict each other.

    Parameters
    ----------
    x, y : ndarray
        Rising lines through every corner. [m]
    bodies : sequence of Body, length n
        Lower priority wins; outlines in m. [m]
    spaces : sequence of Space
        Air; any body wins over it. [m]

    Returns
    -------
    Grid, list of pairs of int
        The grid, with lines added where slanted sides ask for them, and the pairs of bodies that overlap at the
        same priority. [m]

    Raises
    ------
    OutOfDomain
        Slanted sides that would need more lines than can be handled.

    Source
    ------
    Definition.

    Examples
    --------
    One body without any air: all of its one cell is body 0.

    >>> from types import SimpleNamespace
    >>> square = SimpleNamespace(outline=((0, 0), (1, 0), (1, 1), (0, 1)), priority=1)
    >>> fill(np.array([0.0, 1.0]), np.array([0.0, 1.0]), [square], [])[0].first.tolist()
    [[0]]
    """
    slants = _slanted_sides([*bodies, *spaces])
    x, y = _with_crossings(x, y, slants)
    split = _splits(x, y, slants)
    cx, cy = (x[1:] + x[:-1]) / 2, (y[1:] + y[:-1]) / 2
    middle = np.meshgrid(cx, cy, indexing="ij")
    first, clash = fill_at(middle[0], middle[1], bodies, spaces)
    second = first.copy()
    ix, iy = np.nonzero(split)
    if len(ix):
        third_x, third_y = np.diff(x)[ix] / 6, np.diff(y)[iy] / 6
        way = np.where(split[ix, iy] == RISING, 1.0, -1.0)
        below = fill_at(cx[ix] + way * third_x, cy[iy] - third_y, bodies, spaces)
        above = fill_at(cx[ix] - way * third_x, cy[iy] + third_y, bodies, spaces)
        first[ix, iy], second[ix, iy] = below[0], above[0]
        clash = clash | below[1] | above[1]
    return Grid(x, y, first, second, split), sorted(clash)


def fill_at(
    px: NDArray[np.float64], py: NDArray[np.float64], bodies: Sequence[Body], spaces: Sequence[Space]
) -> tuple[NDArray[np.int64], set[tuple[int, int]]]:
    """What fills each of some points, and which bodies contradict each other there.

    Parameters
    ----------
    px, py : ndarray, one shape
        Points, none of them on a side. [m]
    bodies : sequence of Body
        Lower priority wins. [m]
    spaces : sequence of Space
        Any body wins over them. [m]

    Returns
    -------
    ndarray of int, set of pairs of int
        Fill, shape of ``px``; pairs of unlike bodies of one priority that both claim a point. [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> square = SimpleNamespace(outline=((0, 0), (1, 0), (1, 1), (0, 1)), priority=1)
    >>> fill_at(np.array([0.5, 1.5]), np.array([0.5, 0.5]), [square], [])[0].tolist()
    [0, -100]
    """
    filled = np.full(px.shape, NOTHING, np.int64)
    for n, space in enumerate(spaces):
        filled[inside(px, py, space.outline)] = -1 - n
    ranks = np.full(px.shape, np.iinfo(np.int64).max)
    clash: set[tuple[int, int]] = set()
    for n, body in enumerate(bodies):
        claimed = inside(px, py, body.outline)
        level = claimed & (ranks == body.priority)
        clash |= {(int(other), n) for other in np.unique(filled[level]) if not _alike(bodies[int(other)], body)}
        wins = claimed & (body.priority < ranks)
        filled[wins], ranks[wins] = n, body.priority
    return filled, clash


def _alike(one: Body, other: Body) -> bool:
    """Two bodies of the same material may overlap: nothing depends on which one wins."""
    return one.conductivity == other.conductivity and one.heat_capacity == other.heat_capacity


def inside(px: NDArray[np.float64], py: NDArray[np.float64], outline: Outline) -> NDArray[np.bool_]:
    """Which points lie inside an outline (crossings of a ray to the right, counted).

    Parameters
    ----------
    px, py : ndarray, one shape
        Points, none of them on a side. [m]
    outline : outline
        Corners. [m]

    Returns
    -------
    ndarray of bool, shape of ``px``
        [1]

    Source
    ------
    Even-odd rule, common practice, no source.

    Examples
    --------
    >>> inside(np.array([0.5, 2.0]), np.array([0.2, 0.2]), ((0, 0), (1, 0), (1, 1))).tolist()
    [True, False]
    """
    odd = np.zeros(px.shape, bool)
    for (x0, y0), (x1, y1) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if y0 != y1:
            odd ^= ((y0 > py) != (y1 > py)) & (px < x0 + (py - y0) * ((x1 - x0) / (y1 - y0)))
    return odd


def crossed(bodies: Sequence[Body], spaces: Sequence[Space]) -> tuple[list[Stretch], list[Stretch]]:
    """Stretches of x and of y in which several slanted sides hand the grid's lines to one another.

    A line that crosses one slanted side there asks for a line in the other direction, which crosses the next side, and
    so on: foam under a sloped face. Few lines may be laid there at first, since each comes back many times.

    Parameters
    ----------
    bodies, spaces : sequences
        Outlines. [m]

    Returns
    -------
    two lists of pairs of float
        Stretches in x, and in y; empty where slanted sides stand alone. [m]

    Source
    ------
    Derived.

    Examples
    --------
    Two sides at 45 degrees, the second shifted by a tenth.

    >>> from types import SimpleNamespace
    >>> foam = SimpleNamespace(outline=((0.0, 0.0), (0.1, 0.0), (1.1, 1.0), (1.0, 1.0)))
    >>> crossed([foam], [])
    ([(0.0, 1.1)], [(0.0, 1.0)])
    """
    slants = _slanted_sides([*bodies, *spaces])
    found: tuple[list[Stretch], list[Stretch]] = ([], [])
    for n, (x0, y0, x1, y1) in enumerate(slants):
        for u0, v0, u1, v1 in slants[n + 1 :]:
            one, other = (x0, min(y0, y1), x1, max(y0, y1)), (u0, min(v0, v1), u1, max(v0, v1))
            meet_x = max(one[0], other[0]) < min(one[2], other[2]) - SAME
            meet_y = max(one[1], other[1]) < min(one[3], other[3]) - SAME
            if meet_x and meet_y:
                found[0].append((min(one[0], other[0]), max(one[2], other[2])))
                found[1].append((min(one[1], other[1]), max(one[3], other[3])))
    return found


def within(places: Iterable[float], stretches: Sequence[Stretch]) -> list[bool]:
    """Which places lie inside one of the stretches, ends left out. [m]

    Parameters
    ----------
    places : iterable of float
        [m]
    stretches : sequence of pairs of float
        [m]

    Returns
    -------
    list of bool
        [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> within([0.0, 0.5, 2.0], [(0.0, 1.0)])
    [False, True, False]
    """
    return [any(low + SAME < place < high - SAME for low, high in stretches) for place in places]


def _slanted_sides(shapes: Iterable[Body | Space]) -> list[tuple[float, float, float, float]]:
    """Sides that run along neither axis, each once, from left to right."""
    found: dict[tuple[float, float, float, float], None] = {}
    for shape in shapes:
        for start, end in zip(shape.outline, [*shape.outline[1:], shape.outline[0]], strict=True):
            if abs(start[0] - end[0]) > SAME and abs(start[1] - end[1]) > SAME:
                (x0, y0), (x1, y1) = sorted((start, end))
                found[(x0, y0, x1, y1)] = None
    return list(found)


def _with_crossings(
    x: NDArray[np.float64], y: NDArray[np.float64], slants: Sequence[tuple[float, float, float, float]]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Add lines until each slanted side meets the grid in crossings of two lines only."""
    while slants:
        more_x, more_y = list(x), list(y)
        for x0, y0, x1, y1 in slants:
            rise = (y1 - y0) / (x1 - x0)
            more_y += [y0 + (at - x0) * rise for at in x if x0 < at < x1]
            more_x += [x0 + (at - y0) / rise for at in y if min(y0, y1) < at < max(y0, y1)]
        new_x, new_y = np.array(_distinct(more_x)), np.array(_distinct(more_y))
        if max(len(new_x), len(new_y)) > MOST_LINES:
            raise OutOfDomain(
                "slanted sides need more grid lines than can be handled; bring their corners onto common lines"
            )
        if len(new_x) == len(x) and len(new_y) == len(y):
            break
        x, y = new_x, new_y
    return x, y


def _splits(
    x: NDArray[np.float64], y: NDArray[np.float64], slants: Sequence[tuple[float, float, float, float]]
) -> NDArray[np.int8]:
    """Which cells a slanted side cuts from corner to corner, and which way."""
    split = np.zeros((len(x) - 1, len(y) - 1), np.int8)
    for x0, y0, x1, y1 in slants:
        columns = np.arange(np.searchsorted(x, x0 - SAME), np.searchsorted(x, x1 - SAME))
        rise = (y1 - y0) / (x1 - x0)
        lower = y0 + (x[columns if rise > 0 else columns + 1] - x0) * rise
        rows = np.searchsorted(y, lower - 10 * SAME)
        split[columns, rows] = RISING if y1 > y0 else FALLING
    return split
