"""What moves a number of a solved section: its slope in every conductivity, capacity and film at once, by the adjoint.

The equations K T = b are symmetric (the swing's are complex and symmetric too). A number J that is linear in the
temperatures, with weights w, has the adjoint field K L = w, and its slope in the conductivity of a body is
-L' C T with the body's own matrix C: one load more for the factors that are there, and a sum over cells. The adjoint of
a heat flow is the field of unit air temperature at its faces; where all other faces feel one other air that is the
field itself, counted from that air, and nothing is solved.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..year import YEAR
from . import condensed, elements
from .assemble import FACINGS, Equations
from .solve import Factors, Solution

Array = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]
OMEGA = 2j * np.pi / YEAR  # 1/s
ALIKE = 1e-7  # share of what two airs are apart: such temperatures are one
SMOOTHED = 0.05  # K: places as cold as the coldest to within this count as coldest


@dataclass(frozen=True)
class Number:
    """How a number of the year changes with the temperatures: by mean · dT_mean + Re(swing · dT_swing).

    A flow also changes with the film that it passes; ``faces`` says how much of each face's flow is in the number.
    """

    mean: Array  # (n,)
    swing: ComplexArray  # (n,)
    faces_mean: Array  # (faces,) 1
    faces_swing: ComplexArray  # (faces,) 1


@dataclass(frozen=True)
class Slopes:
    """Slopes of one number J, in its unit per unit of what it is the slope in."""

    conductivity: Array  # (bodies,) J / (W/(m·K))
    capacity: Array  # (bodies,) J / (J/(m³·K))
    film: Array  # (spaces, 3) J / (W/(m²·K)): conductance 1/R of the films by space and by the way they face


def flow(solution: Solution, chosen: NDArray[np.bool_], mean: float, swing: complex) -> Number:
    """Heat that enters through the chosen faces: so many times its mean plus Re(so many times its swing).

    Parameters
    ----------
    solution : Solution
        One grid's answer. [degC, W/m]
    chosen : ndarray of bool, shape (faces,)
        Faces that count. [1]
    mean, swing : float, complex
        Weights: (1, 0) for the mean of the year; (0, conj(Q)/abs(Q)) for its amplitude, Q the swing of the flow. [1]

    Returns
    -------
    Number
        [W/m]

    Source
    ------
    Definition.

    Examples
    --------
    See ``slopes``.
    """
    load = -solution.equations.load(solution.resistance, chosen.astype(float))
    share = chosen.astype(np.float64)
    return Number(mean * load, np.asarray(swing * load, complex), mean * share, np.asarray(swing * share, complex))


def place(solution: Solution, unknowns: NDArray[np.int64], shares: Array, towards: float) -> Number:
    """Temperature of places in their extreme month: mean plus ``towards`` times amplitude, as a weighted sum.

    Parameters
    ----------
    solution : Solution
        One grid's answer. [degC]
    unknowns : ndarray of int, shape (m,)
        The places. [1]
    shares : ndarray, shape (m,)
        Weight of each; together 1. [1]
    towards : float
        -1 for the coldest month, 1 for the warmest, 0 for the mean of the year. [1]

    Returns
    -------
    Number
        [degC]

    Source
    ------
    Definition; the amplitude is differentiated where it is not nought.

    Examples
    --------
    See ``slopes``.
    """
    eq = solution.equations
    swing = solution.swing[unknowns]
    size = np.abs(swing)
    unit = np.divide(swing.conj(), size, out=np.zeros_like(swing), where=size > 0.0)
    of_mean, of_swing = np.zeros(eq.unknowns), np.zeros(eq.unknowns, complex)
    of_mean[unknowns] = shares
    of_swing[unknowns] = towards * shares * unit
    faces = len(eq.faces.length)
    return Number(of_mean, of_swing, np.zeros(faces), np.zeros(faces, complex))


def coldest(temperature: Array, lengths: Array, smoothed: float = SMOOTHED) -> Array:
    """How much each place counts for the coldest one.

    The least of many temperatures has no slope where two are alike. It is smoothed: in the place of the least stands
    -s log(mean of exp(-T/s)), whose slope in each temperature is what is given here. s is so small (0.05 K) that only
    places within a few tenths of a kelvin of the coldest count.

    Parameters
    ----------
    temperature : ndarray, shape (m,)
        Of each place in its coldest month. [degC]
    lengths : ndarray, shape (m,)
        Length that each place stands for. [m]
    smoothed : float
        s. [K]

    Returns
    -------
    ndarray, shape (m,)
        Shares, together 1. [1]

    Source
    ------
    The soft minimum (log-sum-exp), common practice, no source.

    Examples
    --------
    Two places alike and one far warmer:

    >>> coldest(np.array([12.0, 12.0, 15.0]), np.array([1.0, 1.0, 1.0])).round(6).tolist()
    [0.5, 0.5, 0.0]
    """
    weight = lengths * np.exp(-(temperature - temperature.min()) / smoothed)
    return np.asarray(weight / weight.sum(), np.float64)


def slopes(solution: Solution, numbers: Sequence[Number], bodies: int, spaces: int) -> tuple[Slopes, ...]:
    """Slopes of each number in every conductivity, heat capacity and film.

    Parameters
    ----------
    solution : Solution
        One grid's answer with its factors. [degC, W/m]
    numbers : sequence of Number
        What is asked for. [any]
    bodies, spaces : int
        How many there are in the section. [1]

    Returns
    -------
    tuple of Slopes
        One for each number. [unit of the number per W/(m·K), J/(m³·K), W/(m²·K)]

    Raises
    ------
    ValueError
        The factors were not kept on this grid, and something else is asked for than the mean heat between two airs.

    Source
    ------
    Derived: the adjoint of a linear system, common practice, no source.

    Examples
    --------
    A wall 0.2 m thick, films 0.13 and 0.04, 20 K: q = 20 / (0.17 + 0.2/k), and dq/dk = q² 0.2 / (20 k²).

    >>> from types import SimpleNamespace as S
    >>> from .shapes import Films
    >>> from .solve import Climate, solve
    >>> def box(x0, x1): return ((x0, 0.0), (x1, 0.0), (x1, 1.0), (x0, 1.0))
    >>> wall = S(outline=box(0.0, 0.2), conductivity=1.0, heat_capacity=2e6, priority=1)
    >>> room, out = S(where="room", outline=box(0.2, 1.0)), S(where="outdoors", outline=box(-1.0, 0.0))
    >>> films = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
    >>> one = solve([wall], [room, out], films, {"room": Climate(20.0), "outdoors": Climate(0.0)}).coarse
    >>> q = flow(one, one.equations.faces.space == 0, 1.0, 0.0)
    >>> round(float(slopes(one, [q], 1, 2)[0].conductivity[0]), 4), round(54.05405**2 * 0.2 / 20, 4)
    (29.2184, 29.2184)
    """
    eq = solution.equations
    adjoint = _steady_adjoints(solution, numbers)
    conductivity = -_Sums(eq, adjoint, solution.mean, bodies).conductivity
    film = _films(solution, adjoint, np.column_stack([each.faces_mean for each in numbers]), spaces, swing=False)
    capacity = np.zeros_like(conductivity)
    periodic = _factors(solution).periodic if any(number.swing.any() for number in numbers) else None
    if periodic is not None:
        adjoint = periodic.solve(np.column_stack([number.swing for number in numbers]))
        sums = _Sums(eq, adjoint, solution.swing, bodies)
        conductivity, capacity = conductivity - sums.conductivity.real, -(OMEGA * sums.capacity).real
        film += _films(solution, adjoint, np.column_stack([each.faces_swing for each in numbers]), spaces, swing=True)
    return tuple(Slopes(conductivity[:, n], capacity[:, n], film[:, :, n]) for n in range(len(numbers)))


def _steady_adjoints(solution: Solution, numbers: Sequence[Number]) -> Array:
    """(n, numbers), solved for only where the field does not tell them."""
    told = [_by_the_field(solution, number) for number in numbers]
    asked = [number.mean for number, known in zip(numbers, told, strict=True) if known is None]
    solved = iter(_factors(solution).steady.solve(np.column_stack(asked)).T if asked else ())
    found = [next(solved) if known is None else known for known in told]
    return np.stack(found, 1) if found else np.zeros((solution.equations.unknowns, 0))


def _by_the_field(solution: Solution, number: Number) -> Array | None:
    """The adjoint of a heat between two airs: the field itself, from the other air on, over their difference.

    Air that is one temperature at the faces that count and one other at all others is a + b times their share; the
    field less a then solves what the adjoint solves, times -b.
    """
    faces, share = solution.equations.faces, number.faces_mean
    counts = share != 0.0
    if not counts.any() or counts.all():
        return None
    side = elements.side(solution.equations.degree)
    air = solution.flow_mean * solution.resistance / faces.length + solution.mean[faces.points] @ (side.load / 2)
    base = air[~counts][0]
    apart = (air[counts][0] - base) / share[counts][0]
    small = ALIKE * max(abs(apart * share[counts][0]), abs(base))
    if abs(apart) <= small or np.abs(air - base - apart * share).max() > small:
        return None
    load = solution.equations.load(solution.resistance, share)
    if np.abs(load + number.mean).max() > ALIKE * np.abs(load).max():  # more than a heat is asked for
        return None
    return (base - solution.mean) / apart


class _Sums:
    """L' C T and L' S T of each body (bodies, numbers), C and S its matrices per unit of conductivity and capacity."""

    def __init__(self, eq: Equations, adjoint: NDArray, temperature: NDArray, bodies: int):
        kind = np.result_type(adjoint, temperature)
        self.conductivity = np.zeros((bodies, adjoint.shape[1]), kind)
        self.capacity = np.zeros((bodies, adjoint.shape[1]), kind)
        for piece in eq.pieces:
            at, element = temperature[piece.points], piece.element
            flat = (piece.high / piece.wide)[:, None] * (at @ element.along_x)
            flat = flat + (piece.wide / piece.high)[:, None] * (at @ element.along_y)
            swings = np.iscomplexobj(adjoint)  # what is stored swings with the year; its mean does not count
            stored = (piece.wide * piece.high / 4)[:, None] * (at @ element.capacity) if swings else None
            for n in range(adjoint.shape[1]):
                own = adjoint[piece.points, n]
                self.conductivity[:, n] += _by_body(piece.body, np.einsum("cm,cm->c", own, flat), bodies)
                if stored is not None:
                    self.capacity[:, n] += _by_body(piece.body, np.einsum("cm,cm->c", own, stored), bodies)


def _by_body(body: NDArray[np.int64], share: NDArray, bodies: int) -> NDArray:
    real = np.bincount(body, share.real, bodies)
    return real + 1j * np.bincount(body, share.imag, bodies) if np.iscomplexobj(share) else real


def _films(solution: Solution, adjoint: NDArray, counted: NDArray, spaces: int, swing: bool) -> Array:
    """Slopes in the conductances of films: integral of (counted + L)(air - T) over their faces."""
    faces, side = solution.equations.faces, elements.side(solution.equations.degree)
    temperature, flows = (solution.swing, solution.flow_swing) if swing else (solution.mean, solution.flow_mean)
    drop = flows * solution.resistance / faces.length  # mean of air - T along the face
    surface = temperature[faces.points]
    air = drop + surface @ (side.load / 2)
    across = ((air[:, None] - surface) @ side.mass) * (faces.length / 2)[:, None]
    made = np.zeros((spaces, len(FACINGS), adjoint.shape[1]))
    for n in range(adjoint.shape[1]):
        each = counted[:, n] * drop * faces.length + (adjoint[faces.points, n] * across).sum(1)
        np.add.at(made[:, :, n], (faces.space, faces.facing), each.real)
    return made


@dataclass(frozen=True)
class Bent:
    """How temperatures answer a finite change: terms of first and second order."""

    first: NDArray  # (n,) K
    second: NDArray  # (n,) K


EVERYWHERE = (-np.inf, np.inf)


def bent(
    solution: Solution, change: Array, stored: Array | None = None, between: tuple[float, float] = EVERYWHERE
) -> tuple[Bent, Bent]:
    """How all temperatures answer a finite change of conductivities, to second order: mean and swing.

    Where bodies change between two levels only, a cell that a level cuts changes by the part of it that lies between
    them: the grid stays as it is.

    Parameters
    ----------
    solution : Solution
        One grid's answer with its factors. [degC]
    change : ndarray, shape (bodies,)
        Change of each body's conductivity. [W/(m·K)]
    stored : ndarray, shape (bodies,), optional
        Change of each body's heat capacity at the same time. [J/(m³·K)]
    between : tuple of two floats
        The levels between which the bodies change, as the section counts them. [m]

    Returns
    -------
    tuple of two Bent
        Of the mean and of the swing. [K]

    Raises
    ------
    ValueError
        The factors were not kept on this grid.

    Source
    ------
    Derived: (K + D) (T + T1 + T2 + ...) = b, so K T1 = -D T and K T2 = -D T1; storage is part of the swing's matrix.

    Examples
    --------
    See ``tests/exact/test_adjoint.py``.
    """
    eq, factors = solution.equations, _factors(solution)
    shares = _between(eq, *between)
    conducts = [change[piece.body] * share for piece, share in zip(eq.pieces, shares, strict=True)]
    stores = [np.zeros_like(share) for share in shares]
    mean = _followed(eq, factors.steady, conducts, stores, solution.mean)
    if factors.periodic is None:
        return mean, Bent(np.zeros_like(solution.swing), np.zeros_like(solution.swing))
    if stored is not None:
        stores = [stored[piece.body] * share for piece, share in zip(eq.pieces, shares, strict=True)]
    return mean, _followed(eq, factors.periodic, conducts, stores, solution.swing)


def _between(eq: Equations, low: float, high: float) -> list[Array]:
    """Of each cell of each piece the part of its height that lies between two levels. [1]"""
    level = np.empty(eq.unknowns)
    there = eq.number >= 0
    level[eq.number[there]] = np.broadcast_to(eq.y, eq.number.shape)[there]
    shares = []
    for piece in eq.pieces:
        bottom = level[piece.points].min(1)
        inside = np.minimum(bottom + piece.high, high) - np.maximum(bottom, low)
        shares.append(np.clip(inside / piece.high, 0.0, 1.0))
    return shares


def _followed(
    eq: Equations, factors: condensed.Factors, conducts: Sequence[Array], stores: Sequence[Array], temperature: NDArray
) -> Bent:
    first = -factors.solve(_changed(eq, conducts, stores, temperature))
    return Bent(first, -factors.solve(_changed(eq, conducts, stores, first)))


def _changed(eq: Equations, conducts: Sequence[Array], stores: Sequence[Array], temperature: NDArray) -> NDArray:
    """D T, the matrix of a change of each cell times a field. [W/m]"""
    made = np.zeros_like(temperature)
    for piece, conducted, stored in zip(eq.pieces, conducts, stores, strict=True):
        here = (conducted != 0.0) | (stored != 0.0)
        points, wide, high, k = piece.points[here], piece.wide[here], piece.high[here], conducted[here]
        at = temperature[points]
        flow = (k * high / wide)[:, None] * (at @ piece.element.along_x)
        flow = flow + (k * wide / high)[:, None] * (at @ piece.element.along_y)
        if stored.any():
            flow = flow + OMEGA * (stored[here] * wide * high / 4)[:, None] * (at @ piece.element.capacity)
        np.add.at(made, points, flow)
    return made


def by_fraction(first: NDArray, second: NDArray) -> NDArray:
    """How far a number moves, from its terms of first and second order.

    The fraction first / (1 - second / first) has both terms, and is exact where layers lie one behind another, however
    large the change. Where the second term is more than half of the first and of its sign, the sum of both is taken:
    the fraction would run away there.

    Parameters
    ----------
    first, second : ndarray, any shape
        The terms, real or complex. [any]

    Returns
    -------
    ndarray, shape of ``first``
        [unit of ``first``]

    Source
    ------
    Padé's approximant [1/1]; derived.

    Examples
    --------
    A resistance of 1 grows by 1 before another of 1: 1/2 becomes 1/3. The terms are -1/4 and +1/8.

    >>> round(float(by_fraction(np.array(-0.25), np.array(0.125))), 6)
    -0.166667
    """
    ratio = np.divide(second, first, out=np.zeros_like(second), where=np.abs(first) > 0.0)
    tame = ratio.real <= 0.5
    bent = first / np.where(tame, 1.0 - ratio, 1.0)
    return np.where(tame, bent, first + second)


def _factors(solution: Solution) -> Factors:
    if solution.factors is None:
        raise ValueError("the factors of this grid were not kept")
    return solution.factors
