"""The mean of the year's heat alone, to a tolerance that is named: where no temperature of a place is asked for.

A grid that shall tell temperatures at corners is laid far finer than heat needs. Here a section is cut in upright
strips (``strips``), rows are laid no finer than the tolerance asks for, and their degree rises with their height.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import log, log1p

import numpy as np
from numpy.typing import NDArray

from .assemble import DOWN, FACINGS, SIDE, UP, Faces
from .blocks import Blocks, blocks
from .crossing import ALIKE, crossed
from .grid import NOTHING
from .lines import POOR
from .shapes import Body, Films, Space
from .solve import Climate, Gap, Overlap, Told, solve
from .strips import Couplings, Strips, couplings

Array = NDArray[np.float64]


MIDDLING = 0.2  # m
RISING = 1.0  # more of a degree for rows ten times as high
DEGREES = 2, 8
GROWTH = 12.0  # of rows away from a corner
PLAIN = 2.0  # m: row beside a line on which nothing bends
MILD = 6.0  # of ``sharp``: row beside a corner of conductors that are nearly alike
OF_A_FILM = 70.0  # 1/m: of ``sharp``, times conductivity times film: row where a poor conductor meets air
LEAST = 1e-3  # of ``sharp``: no such row is lower
CROSSED = 1e-4  # of ``sharp``: row where two good conductors touch in a point between two poor ones
ALONE = 2.5  # of the narrower of two rows wanted: what is no higher is one row
MORE = 1.5  # times the change that is looked for at a corner
OF_A_CROSSING = 1.6  # times more: there heat changes less with the degree than it is wrong


@dataclass(frozen=True)
class Fineness:
    """How rows are laid."""

    reaches: float  # share of the heat that it is tried for first
    sharp: float  # m: row beside a corner at which temperatures bend sharply
    degree: float  # of rows as high as ``MIDDLING``

    def degrees(self, heights: Array) -> NDArray[np.int64]:
        """Of the polynomials in rows of such heights."""
        rising = self.degree + RISING * np.log10(heights / MIDDLING)
        return np.asarray(np.clip(np.rint(rising), *DEGREES).astype(np.int64))

    @property
    def times(self) -> float:
        """What is off over what one degree more changes, and half as much again, where corners are at their worst.

        There the energy that is off falls as the square of the degree: insulated on one hand, held on the other.
        """
        degree = float(self.degrees(np.array([self.sharp]))[0])
        return MORE / ((degree / (degree - 1.0)) ** 2 - 1.0)


FINENESS = (
    Fineness(1e-3, 0.12, 4.1),
    Fineness(5e-4, 0.05, 4.5),
    Fineness(1e-4, 0.02, 5.0),
    Fineness(5e-5, 0.012, 5.3),
    Fineness(1e-5, 0.004, 6.3),
    Fineness(1e-6, 0.001, 7.3),
)


@dataclass(frozen=True)
class Heats:
    """Heat that enters the bodies, mean of the year, with its estimated error. [W/m]"""

    spaces: tuple[Told, ...]  # through all surfaces of each space
    faces: tuple[tuple[Told, Told, Told], ...]  # of each space through those that look up, aside and down


def mean_heat(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    films: Mapping[str, Films],
    climates: Mapping[str, Climate],
    *,
    tolerance: float = 1e-3,
) -> Heats:
    """Heat of every space, mean of the year.

    Parameters
    ----------
    bodies, spaces : sequences
        What the section is made of; together they leave no gap. [m, W/(m·K)]
    films : mapping of str to Films
        Surface resistances by the space's ``where``. [m²·K/W]
    climates : mapping of str to Climate
        Air temperatures by the space's ``where``; only their means count. [degC]
    tolerance : float
        Wanted error of the heat that the first space gives off, as a share of it. [1]

    Returns
    -------
    Heats
        [W/m]

    Raises
    ------
    Overlap, Gap
        The bodies contradict each other or leave a hole.
    OutOfDomain
        As for ``solve``.

    Source
    ------
    Derived. The error is what one degree more changes, times what that may leave out at a corner; of a part of the
    surfaces at most the geometric mean of its own energy's and of all the airs'. See studies/2026-11-28-heat-alone.md.
    Where sides slope, or where a finer tolerance is asked for than strips reach, ``solve`` answers.

    Examples
    --------
    A wall 0.2 m thick, 1 W/(m·K), films 0.13 and 0.04, 20 K: 20 / 0.37 W/m².

    >>> from types import SimpleNamespace as S
    >>> def box(x0, x1): return ((x0, 0.0), (x1, 0.0), (x1, 1.0), (x0, 1.0))
    >>> wall = S(outline=box(0.0, 0.2), conductivity=1.0, heat_capacity=2e6, priority=1)
    >>> room, out = S(where="room", outline=box(0.2, 1.0)), S(where="outdoors", outline=box(-1.0, 0.0))
    >>> films = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
    >>> heats = mean_heat([wall], [room, out], films, {"room": Climate(20.0), "outdoors": Climate(0.0)})
    >>> round(heats.spaces[0].mean, 4), round(heats.faces[0][1].mean, 4)
    (54.0541, 54.0541)
    """
    made, clashes = blocks(bodies, spaces)
    if clashes:
        raise Overlap(clashes)
    if made is not None:
        _without_gap(made)
        by_film = np.array([[films[space.where].of(facing) for facing in FACINGS] for space in spaces])
        means = np.array([[climates[space.where].of(facing).mean for facing in FACINGS] for space in spaces])
        asked = _rows_asked(made, by_film.min(1))
        for fineness in FINENESS[_start(tolerance) :]:
            strips, degrees = _laid(made, asked, fineness)
            try:
                found = couplings(strips, degrees, 1.0 / by_film)
            except ArithmeticError:
                break
            heats = _heats(found, means, fineness.times * (OF_A_CROSSING if asked.crossed else 1.0))
            if heats.spaces[0].within <= tolerance * abs(heats.spaces[0].mean):
                return heats
    return _by_grid(bodies, spaces, films, climates, tolerance)


def _start(tolerance: float) -> int:
    """The coarsest rows that may do."""
    return next((n for n, each in enumerate(FINENESS) if each.reaches <= tolerance), len(FINENESS) - 1)


def _without_gap(made: Blocks) -> None:
    gaps = np.argwhere(made.fill == NOTHING)
    if len(gaps):
        column, row = gaps[0]
        raise Gap(float(made.x[column : column + 2].mean()), float(made.y[row : row + 2].mean()))


@dataclass(frozen=True)
class _Asked:
    """Of each level of the blocks: what kind of corner lies on it, if any."""

    mild: NDArray[np.bool_]  # (ny + 1,) conductors that are nearly alike: temperatures bend a little
    sharp: NDArray[np.bool_]  # (ny + 1,) temperatures bend sharply
    film: Array  # (ny + 1,) m, conductivity times film of a poor conductor that meets air beside another body; or inf
    crossing: NDArray[np.bool_]  # (ny + 1,) two good conductors touch between two poor ones

    @property
    def crossed(self) -> bool:
        return bool(self.crossing.any())

    def rows(self, sharp: float) -> list[float]:
        """The row that is wanted beside each level. [m]"""
        beside_air = sharp * np.clip(self.film * OF_A_FILM, LEAST, 1.0)
        other = np.where(self.mild, MILD * sharp, PLAIN)
        return np.where(self.crossing, CROSSED * sharp, np.where(self.sharp, beside_air, other)).tolist()


def _rows_asked(made: Blocks, film: Array) -> _Asked:
    """What fills the four quarters around each corner of the blocks decides, as in ``lines.features``."""
    around = np.pad(made.kind, 1, mode="edge")  # at an end of the section it is as in a mirror
    quarters = np.stack([around[:-1, :-1], around[:-1, 1:], around[1:, :-1], around[1:, 1:]])
    body = quarters > 0.0
    best, worst = np.where(body, quarters, 0.0).max(0), np.where(body, quarters, np.inf).min(0)
    count = body.sum(0)
    low_left, high_left, low_right, high_right = quarters
    straight = ((low_left == low_right) & (high_left == high_right)) | (
        (low_left == high_left) & (low_right == high_right)
    )
    full = count == len(quarters)
    mild = ~straight & full & (best < ALIKE * worst)
    sharp = ~straight & ~mild & (count > 1)
    least = np.where(body, np.inf, film[np.where(body, 0.0, -1.0 - quarters).astype(int)]).min(0)
    poor = sharp & ~full & (worst < POOR) & (best > worst)
    crossing = sharp & crossed(low_left, high_left, low_right, high_right)
    reach = np.full(worst.shape, np.inf)
    reach[poor] = worst[poor] * least[poor]
    return _Asked(mild.any(0), sharp.any(0), reach.min(0), crossing.any(0))


def _laid(made: Blocks, asked: _Asked, fineness: Fineness) -> tuple[Strips, NDArray[np.int64]]:
    """Rows as high as is wanted beside each level, growing away from it, and their degrees."""
    wanted, levels = asked.rows(fineness.sharp), made.y.tolist()
    high: list[float] = []
    of: list[int] = []
    last = len(levels) - 2
    for n, (low, top) in enumerate(pairwise(levels)):
        rows = _between(top - low, wanted[n] if n else None, wanted[n + 1] if n < last else None)
        high += rows
        of += [n] * len(rows)
    heights = np.array(high)
    kind = made.kind[:, of]
    air = np.where(kind < 0.0, -1.0 - kind, -1.0).astype(np.int64)
    return Strips(np.diff(made.x), heights, np.maximum(kind, 0.0), air), fineness.degrees(heights)


def _between(length: float, first: float | None, last: float | None) -> list[float]:
    """Heights of rows between two levels, growing away from both; None at an end of the section. [m]"""
    if first is None and last is None:
        return [length]
    if first is None or last is None:
        rows = _growing(length, first or last or length)
        return rows if last is None else rows[::-1]
    if length <= ALONE * min(first, last):
        return [length]
    return [*_growing(length / 2.0, first), *_growing(length / 2.0, last)[::-1]]


def _growing(length: float, first: float) -> list[float]:
    count = max(1, round(log1p(length / first * (GROWTH - 1.0)) / log(GROWTH)))
    start = length * (GROWTH - 1.0) / (GROWTH**count - 1.0)
    return [start * GROWTH**n for n in range(count)]


def _heats(found: Couplings, means: Array, times: float) -> Heats:
    """Sums of surfaces. The error of each is at most the geometric mean of its own energy's and of all the airs'."""
    air = means[found.space, found.facing]
    missing = times * (found.lower - found.higher)
    apart = air - air.max()
    rounded = np.abs(found.higher.sum(1)).max()  # what flows where all airs are alike
    of_all = max(apart @ missing @ apart, 0.0) + rounded * np.ptp(air) ** 2
    ways = np.array([[True] * 3, [True, False, False], [False, True, False], [False, False, True]])
    spaces = np.arange(len(means))
    chosen = (found.space == spaces[:, None])[:, None, :] & ways[:, found.facing]  # (spaces, whole and ways, surfaces)
    own = np.maximum(np.einsum("swi,ij,swj->sw", chosen, missing, chosen), 0.0) + rounded
    heat, within = (chosen @ (found.higher @ air)).tolist(), np.sqrt(own * of_all).tolist()
    told = [[Told(q, 0j, e) for q, e in zip(*each, strict=True)] for each in zip(heat, within, strict=True)]
    return Heats(tuple(each[0] for each in told), tuple((up, side, down) for _, up, side, down in told))


def _by_grid(
    bodies: Sequence[Body],
    spaces: Sequence[Space],
    films: Mapping[str, Films],
    climates: Mapping[str, Climate],
    tolerance: float,
) -> Heats:
    """The same by ``solve``: sides that slope, or a finer tolerance than strips reach."""
    still = {where: _still(climate) for where, climate in climates.items()}
    solved = solve(bodies, spaces, films, still, tolerance=tolerance)

    def through(space: int, facing: int | None) -> Told:
        def chosen(faces: Faces) -> NDArray[np.bool_]:
            return np.asarray((faces.space == space) & (True if facing is None else faces.facing == facing))

        return solved.flow(chosen)

    each = range(len(spaces))
    return Heats(
        tuple(through(n, None) for n in each),
        tuple((through(n, UP), through(n, SIDE), through(n, DOWN)) for n in each),
    )


def _still(climate: Climate) -> Climate:
    return Climate(climate.mean, level=None if climate.level is None else _still(climate.level))
