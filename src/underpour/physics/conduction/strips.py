"""Heat between the airs of a section cut in upright strips: exact across each strip, polynomials up it.

Where nothing changes from left to right the equations fall apart into modes, each of them a sum of two exponentials
across the strip. What is left are the temperatures on the lines between strips, one line after another. No line is
laid for what bends across, so that a section needs some fifty numbers a line where a grid needs thousands. The
temperatures are the best ones of a space of functions: those of a space that holds it are never further from the truth.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray
from scipy.linalg import blas, lapack

from .assemble import DOWN, FACINGS, SIDE, UP

FLAT = 1e-7  # a mode that changes by less than this across its strip is taken to change by this
BETWEEN = 12.0  # of the geometric mean of a narrow row's fastest mode and the section's slowest

Array = NDArray[np.float64]
Places = NDArray[np.int64]


@dataclass(frozen=True)
class Strips:
    """Upright strips of rows; in each cell one conductivity or one air."""

    wide: Array  # (strips,) m
    high: Array  # (rows,) m
    conducts: Array  # (strips, rows) W/(m·K), 0 in air
    air: Places  # (strips, rows) index of the space, -1 in bodies


@dataclass(frozen=True)
class Couplings:
    """What the surfaces of a section give to one another, for one metre of edge.

    ``higher @ temperatures`` is the heat that each surface gives off; ``lower`` is the same one degree below. Their
    difference has no negative number in it, whatever surfaces are summed with whatever weights.
    """

    space: Places  # (n,) of each surface
    facing: Places  # (n,) UP, SIDE or DOWN
    higher: Array  # (n, n) W/(m·K)
    lower: Array  # (n, n) W/(m·K)


@cache
def line_in_modes(degree: int) -> tuple[Array, Array, Array]:
    """Matrices of a row on [-1, 1]: its two ends, and between them integrals of Legendre's polynomials.

    Parameters
    ----------
    degree : int
        At least 1; of it degree - 1 functions are nought at both ends. [1]

    Returns
    -------
    three ndarrays, shapes (degree + 1, degree + 1) twice and (degree + 1,)
        Slope times slope, value times value, and value alone; low end first, high end last. [1]

    Source
    ------
    Szabo and Babuska 1991, hierarchic shape functions (from memory).

    Examples
    --------
    The function between the ends is (x² - 1) sqrt(3/8): its slopes give 1, it couples with no end by slopes.

    >>> line_in_modes(2)[0].round(12).tolist()
    [[0.5, 0.0, -0.5], [0.0, 1.0, 0.0], [-0.5, 0.0, 0.5]]
    """
    at, weight = legendre.leggauss(degree + 1)
    each = legendre.legvander(at, degree)
    inner = [(each[:, n] - each[:, n - 2]) / np.sqrt(4.0 * n - 2.0) for n in range(2, degree + 1)]
    values = np.stack([(1.0 - at) / 2.0, *inner, (1.0 + at) / 2.0], 1)
    slopes = np.diag([0.5, *[1.0] * (degree - 1), 0.5])
    slopes[0, -1] = slopes[-1, 0] = -0.5
    return slopes, np.asarray((values.T * weight) @ values), np.asarray(weight @ values)


def couplings(strips: Strips, degrees: Places, conductance: Array) -> Couplings:
    """What the surfaces give to one another, with polynomials of the degrees told and of one degree less.

    Parameters
    ----------
    strips : Strips
        [m, W/(m·K)]
    degrees : ndarray of int, shape (rows,)
        Of the polynomials in each row, at least 2. [1]
    conductance : ndarray, shape (spaces, 3)
        Of the film of each space, by the way the surface faces. [W/(m²·K)]

    Returns
    -------
    Couplings
        [W/(m·K)]

    Raises
    ------
    ArithmeticError
        Rows too unlike in height for the modes to be found.

    Source
    ------
    Derived: separation of variables in each strip; what is nearest to the truth in a space of functions is Ritz 1909
    (from memory).

    Examples
    --------
    A slab 0.2 m thick and 4 m wide, 1 W/(m·K), films of 10 and 25: 4 / (0.1 + 0.2 + 0.04).

    >>> one = Strips(np.array([1.0, 3.0]), np.array([1.0, 0.2, 1.0]),
    ...     np.array([[0.0, 1.0, 0.0]] * 2), np.array([[1, -1, 0]] * 2))
    >>> both = couplings(one, np.array([2, 2, 2]), np.array([[10.0, 0.0, 0.0], [0.0, 0.0, 25.0]]))
    >>> both.higher.round(6).tolist(), round(4 / 0.34, 6)
    ([[11.764706, -11.764706], [-11.764706, 11.764706]], 11.764706)
    """
    if len(strips.wide) == 1:
        strips = _halved(strips)
    rows = _Rows(strips.high, degrees)
    stiff, mass = rows.slopes(strips.conducts), rows.values(strips.conducts)
    body = strips.conducts > 0.0
    there = (body.astype(float) @ rows.spread(np.ones_like(strips.high), np.ones(rows.most + 1))) > 0.0
    loads = np.zeros((len(strips.wide), rows.unknowns, conductance.size))
    for solid, air, facing in (
        (body[:, :-1], strips.air[:, 1:], UP),
        (body[:, 1:], strips.air[:, :-1], DOWN),
    ):
        strip, row = np.nonzero(solid & (air >= 0))
        space, end = air[strip, row], rows.ends[row + 1]
        film = conductance[space, facing]
        stiff[strip, end, end] += film
        loads[strip, end, space * len(FACINGS) + facing] += film
    beside = np.zeros((len(strips.wide) + 1, conductance.size, len(strips.high)))
    for solid, air in ((body[:-1], strips.air[1:]), (body[1:], strips.air[:-1])):
        line, row = np.nonzero(solid & (air >= 0))
        space = air[line, row]
        beside[line + 1, space * len(FACINGS) + SIDE, row] += conductance[space, SIDE]
    by_width = np.einsum("snf,s->f", loads, strips.wide)
    by_height = np.einsum("lfr,r->f", beside, strips.high)
    used = np.flatnonzero(by_width + by_height)
    films = rows.values(beside.sum(1))
    sides = (beside[:, used] @ rows.spread(strips.high / 2.0, line_in_modes(rows.most)[2])).transpose(0, 2, 1)
    whole = np.diag((by_width + by_height)[used])
    between = BETWEEN / (strips.high.min() * strips.high.sum())
    system = _System(strips.wide, stiff + between * mass, mass, loads[:, :, used], films, sides, there, between)
    return Couplings(
        used // len(FACINGS),
        used % len(FACINGS),
        whole - system.answered(),
        whole - system.of(rows.lower).answered(),
    )


class _Rows:
    """Where the unknowns of rows of many degrees lie: at every end one, between two ends one less than the degree."""

    def __init__(self, high: Array, degrees: Places):
        self.high, self.most = high, int(degrees.max())
        self.ends = np.concatenate([[0], np.cumsum(degrees)])
        self.unknowns = int(self.ends[-1]) + 1
        local = np.arange(self.most + 1)
        has = local < degrees[:, None]
        has[:, -1] = True
        at = self.ends[:-1, None] + local
        at[:, -1] = self.ends[1:]
        self.one = np.nonzero(has)
        self.place = at[self.one]
        row, low, high_ = np.nonzero(has[:, :, None] & has[:, None, :])
        self.pairs = row, low, high_
        self.entry = at[row, low] * self.unknowns + at[row, high_]
        odd = row % 2 == 1  # rows that touch share an end: every other row at a time
        self.turns = np.flatnonzero(odd), np.flatnonzero(~odd)
        kept = np.ones(self.unknowns, bool)
        kept[self.ends[1:] - 1] = False  # the highest function of each row
        self.lower = np.flatnonzero(kept)

    def slopes(self, weights: Array) -> Array:
        """(k, n, n): of slopes, each row counted with its weight (k, rows)."""
        return self._summed(weights * (2.0 / self.high), line_in_modes(self.most)[0])

    def values(self, weights: Array) -> Array:
        """(k, n, n): of values, each row counted with its weight (k, rows)."""
        return self._summed(weights * (self.high / 2.0), line_in_modes(self.most)[1])

    def _summed(self, weights: Array, reference: Array) -> Array:
        row, low, high = self.pairs
        entries = weights[:, row] * reference[low, high]
        made = np.zeros((len(weights), self.unknowns**2))
        for turn in self.turns:
            made[:, self.entry[turn]] += entries[:, turn]
        return made.reshape(len(weights), self.unknowns, self.unknowns)

    def spread(self, weights: Array, reference: Array) -> Array:
        """(rows, n): of each row its weight times what stands for its functions."""
        made = np.zeros((len(weights), self.unknowns))
        row, local = self.one
        made[row, self.place] = weights[row] * reference[local]
        return made


def _halved(strips: Strips) -> Strips:
    """One strip as two, so that there is a line."""
    return Strips(
        np.repeat(strips.wide / 2.0, 2), strips.high, np.repeat(strips.conducts, 2, 0), np.repeat(strips.air, 2, 0)
    )


@dataclass(frozen=True)
class _System:
    wide: Array  # (strips,)
    shifted: Array  # (strips, n, n) slopes up, films above and below; and ``between`` times the mass
    mass: Array  # (strips, n, n) what slopes across count with
    loads: Array  # (strips, n, surfaces) of films above and below
    films: Array  # (lines, n, n) of films beside
    sides: Array  # (lines, n, surfaces) their loads
    there: NDArray[np.bool_]  # (strips, n) unknowns that are no air
    between: float  # 1/m²: the middle of the slowest and the fastest mode, from where neither drowns in rounding

    def of(self, kept: Places) -> _System:
        """The same in fewer unknowns."""

        def square(matrices: Array) -> Array:
            return matrices.take(kept, 1).take(kept, 2)

        return _System(
            self.wide,
            square(self.shifted),
            square(self.mass),
            self.loads.take(kept, 1),
            square(self.films),
            self.sides.take(kept, 1),
            self.there.take(kept, 1),
            self.between,
        )

    def answered(self) -> Array:
        """Loads times the temperatures that they cause, (surfaces, surfaces). [W/(m·K)]

        From left to right each line is put in terms of the next, and what it answers by itself is summed.
        """
        strips, count, surfaces = self.loads.shape
        found = np.zeros((surfaces, surfaces))
        before = np.zeros(count, bool)
        matrix, load = np.zeros((count, count)), np.zeros((count, surfaces))
        for n, there in enumerate(self.there):
            strip = _across(self, n) if there.any() else None
            if strip is not None:
                found += strip.inside
            if n > 0 and (before | there).any():
                matrix += self.films[n]
                load += self.sides[n]
                if strip is not None:
                    matrix[strip.square] += strip.own
                    load[strip.at] += strip.load
                at, square = _picked(before | there)
                factor, wrong = lapack.dpotrf(matrix[square], lower=1)
                if wrong:
                    raise ArithmeticError("a line's equations cannot be solved")
                answer = blas.dtrsm(1.0, factor, load[at], lower=1)
                found += answer.T @ answer
            matrix, load, before = np.zeros((count, count)), np.zeros((count, surfaces)), there
            if strip is None or n == strips - 1:
                continue
            matrix[strip.square], load[strip.at] = strip.own, strip.load
            if n > 0:
                onwards = np.zeros((count, strip.onwards.shape[1]))
                onwards[strip.at] = strip.onwards
                onwards = blas.dtrsm(1.0, factor, onwards[at], lower=1)
                matrix[strip.square] -= onwards.T @ onwards
                load[strip.at] -= onwards.T @ answer
        return found


@dataclass(frozen=True)
class _Strip:
    """One strip in terms of the temperatures on its two lines; at an end of the section it has one."""

    at: slice | Places
    square: tuple[slice | Places, slice | Places]
    own: Array  # (m, m) heat into a line from its own temperatures
    onwards: Array  # (m, m) and from the other line's
    load: Array  # (m, surfaces) of either line
    inside: Array  # (surfaces, surfaces) what it answers with both lines at nought


def _picked(there: NDArray[np.bool_]) -> tuple[slice | Places, tuple[slice | Places, slice | Places]]:
    """Indices of what is there in vectors and in matrices; slices where air is nowhere or above only."""
    count = np.count_nonzero(there)
    if np.count_nonzero(there[:count]) == count:
        return slice(0, count), (slice(0, count), slice(0, count))
    at = np.flatnonzero(there)
    return at, (at[:, None], at)


def _across(system: _System, n: int) -> _Strip:
    """Modes of one strip; each is a sum of two exponentials across it."""
    at, square = _picked(system.there[n])
    mass, wide = system.mass[n][square], system.wide[n]
    shares, modes, wrong = lapack.dsygvd(mass.T, system.shifted[n][square].T)
    if wrong:
        raise ArithmeticError("the modes of a strip cannot be found")
    modes = modes / np.sqrt(shares)
    rate = np.sqrt(np.maximum(1.0 / shares - system.between, (FLAT / wide) ** 2))  # 1/m
    pulled = modes.T @ system.loads[n][at]
    back = mass @ modes
    at_an_end = n in (0, len(system.wide) - 1)
    length = rate * wide if at_an_end else rate * (wide / 2.0)  # to where no heat passes
    reach = np.tanh(length) / rate
    halves = 1.0 if at_an_end else 2.0
    inside = pulled.T @ (((wide - halves * reach) / (rate * rate))[:, None] * pulled)
    load = back @ (reach[:, None] * pulled)
    if at_an_end:
        return _Strip(at, square, (back * (rate * rate * reach)) @ back.T, back, load, inside)
    faded = np.exp(-rate * wide)
    other = 2.0 * faded / -np.expm1(-2.0 * rate * wide)
    return _Strip(
        at, square, (back * (rate * (1.0 + faded * other))) @ back.T, -(back * (rate * other)) @ back.T, load, inside
    )
