"""A section's answer to air that changes at any pace: some frequencies solved, a rational function through them.

The temperatures at a dozen frequencies span all that the section does between them. Conduction and storage seen in that
span fall apart into modes, each of which follows the air with a delay of its own: what is watched is a rational
function of the frequency with real poles, which goes through every frequency that was solved, and steps in time are
sums of exponentials. Frequencies that it has not seen are solved too, and tell how far it is off.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import scipy.linalg
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero
from ..year import YEAR
from . import elements
from .assemble import Faces
from .condensed import Factors, condensed, factorised
from .solve import Solution, unknown_at

Array = NDArray[np.float64]
Felt = NDArray[np.int64]

HOURS = 8760  # of a year: what changes faster than two of them is not in hourly weather
STEP = 2.2  # from one frequency that is solved to the next
SLOWER = 4  # steps below once a year: ground that still settles, years after the pour
KEPT = 1e-9  # of the largest: directions of the span that are more than rounding
MOST = 0.01  # of the largest response: a fit that is further off is refused
AIMED = 0.003  # of the largest response: more frequencies are solved until it is reached
LEAST_DELAY = 1.0  # s: what follows faster has settled at once
MOST_THREADS = 2  # factors of several frequencies at a time: more fill memories
ROUNDS = 3  # times that frequencies are added


@dataclass(frozen=True)
class Watched:
    """A number that follows from temperatures, as a sum over unknowns and airs: a flow, a temperature."""

    unknowns: Array  # (n,) what one kelvin there adds
    airs: Array  # (airs,) what one kelvin of each air adds by itself


@dataclass(frozen=True)
class Response:
    """What is watched, for any air: a sum of modes, each with a delay, for each air that faces of a section feel."""

    delays: Array  # (m,) s, time constant of each mode
    shapes: Array  # (n, m) temperature of each unknown in it
    drive: Array  # (m, airs) how far one kelvin of each air brings it, held for ever
    seen: Array  # (outputs, m) what it adds to each watched number
    direct: Array  # (outputs, airs) what the air adds by itself
    highest: float  # rad/s, largest frequency that was solved
    unseen: Array  # (outputs,) largest error at frequencies not solved, as a share of the largest response. [1]

    def at(self, frequency: float) -> NDArray[np.complex128]:
        """Each watched number (outputs, airs) per kelvin of each air that swings at a frequency in rad/s."""
        if not 0.0 <= frequency <= self.highest * (1.0 + 1e-9):
            raise OutOfDomain(f"frequency {frequency:.3g} rad/s lies outside 0 to {self.highest:.3g}")
        lags = 1.0 + 1j * frequency * self.delays
        return np.asarray(self.seen @ (self.drive / lags[:, None]) + self.direct, np.complex128)


@dataclass(frozen=True)
class Followed:
    """A year of hours, settled: the modes and what is watched."""

    modes: Array  # (m, hours) K
    watched: Array  # (outputs, hours)


def flow_watched(solution: Solution, felt: Felt, chosen: Callable[[Faces], NDArray[np.bool_]]) -> Watched:
    """Heat that enters the bodies through the chosen faces.

    Parameters
    ----------
    solution : Solution
        One grid's answer; its grid and its films are read. [m, m²·K/W]
    felt : ndarray of int, shape (faces,)
        Which air each face feels, counted from 0. [1]
    chosen : function of Faces
        Which faces, (faces,) of bool. [1]

    Returns
    -------
    Watched
        Weights (n,) and (airs,). [W/(m·K)]

    Source
    ------
    Definition: film by film, length over resistance times what the air is warmer than the surface.

    Examples
    --------
    See ``responding``.
    """
    faces = solution.equations.faces
    mask = chosen(faces)
    per_kelvin = faces.length[mask] / solution.resistance[mask]
    share = per_kelvin[:, None] * (elements.side(solution.equations.degree).load / 2)
    return Watched(
        -np.bincount(faces.points[mask].ravel(), share.ravel(), solution.equations.unknowns).astype(float),
        np.bincount(felt[mask], per_kelvin, int(felt.max()) + 1).astype(float),
    )


def temperature_watched(solution: Solution, felt: Felt, x: float, y: float) -> Watched:
    """Temperature at a point that is on the grid.

    Parameters
    ----------
    solution : Solution
        One grid's answer; its grid is read. [m]
    felt : ndarray of int, shape (faces,)
        Which air each face feels, counted from 0. [1]
    x, y : float
        The point, on grid lines. [m]

    Returns
    -------
    Watched
        Weights (n,) and (airs,). [1]

    Raises
    ------
    ValueError
        The point lies in air.

    Source
    ------
    Definition.

    Examples
    --------
    See ``responding``.
    """
    unknowns = np.zeros(solution.equations.unknowns)
    unknowns[unknown_at(solution.equations, x, y)] = 1.0
    return Watched(unknowns, np.zeros(int(felt.max()) + 1))


def responding(solution: Solution, felt: Felt, watched: Sequence[Watched], *, fastest: float = HOURS / 2) -> Response:
    """Solve a section at frequencies spread evenly by their logarithm, and lay a rational function through them.

    Parameters
    ----------
    solution : Solution
        One grid's answer; its grid, conduction, storage and films are taken. [W/(m·K), J/(m·K), m²·K/W]
    felt : ndarray of int, shape (faces,)
        Which air each face feels, counted from 0. [1]
    watched : sequence of Watched
        What the fit is held to. [any unit]
    fastest : float
        Largest frequency, in cycles a year. [1/year]

    Returns
    -------
    Response
        Its watched numbers per kelvin of each air, [unit of each / K]; once a year, and frequencies below and
        above it, are met as they were solved.

    Raises
    ------
    OutOfDomain
        Nothing is watched, ``fastest`` is not above once a year, or a frequency between those solved is missed by more
        than 1 % of the largest response, with frequencies added three times over.

    Source
    ------
    Galerkin's projection on solutions at imaginary frequencies (rational Krylov), Grimme 1997, Krylov projection
    methods for model reduction (from memory). Real symmetric conduction and storage give real poles that all decay.

    Examples
    --------
    See tests/exact/test_response.py: thick ground follows its surface as the closed form says.
    """
    if not watched:
        raise OutOfDomain("nothing is watched")
    above_zero(fastest=fastest - 1.0)
    posed = _Posed.of(solution, felt)
    count = int(np.ceil(np.log(fastest) / np.log(STEP)))
    step = fastest ** (1.0 / count)
    cycles = [step**n for n in range(-SLOWER, count + 1)]
    unknowns = np.array([w.unknowns for w in watched])
    direct = np.array([w.airs for w in watched])
    span = [posed.steady(), *posed.each(cycles)]
    between = _between(cycles, 3)
    for _ in range(ROUNDS):
        fitted = _fitted(posed, span, unknowns, direct, 2.0 * np.pi * fastest / YEAR)
        found = posed.each(between)
        off = _off(fitted, between, [unknowns @ each + direct for each in found])
        if off.max() <= AIMED:
            break
        span += found
        cycles = sorted([*cycles, *between])
        between = _between(cycles, 2)
    if off.max() > MOST:
        raise OutOfDomain(f"the response between {len(cycles)} frequencies is missed by {100 * off.max():.1f} %")
    return Response(
        fitted.delays, fitted.shapes, fitted.drive, fitted.seen, fitted.direct, fitted.highest, np.asarray(off)
    )


@dataclass(frozen=True)
class _Posed:
    """A section's equations with its films, and what each air brings."""

    solution: Solution
    loads: Array  # (n, airs)

    @classmethod
    def of(cls, solution: Solution, felt: Felt) -> _Posed:
        eq = solution.equations
        _ = eq.condensing  # once, before threads ask for it
        loads = [eq.load(solution.resistance, (felt == n).astype(float)) for n in range(int(felt.max()) + 1)]
        return cls(solution, np.stack(loads, 1))

    def steady(self) -> Array:
        """Temperatures (n, airs) for one kelvin of each air, held for ever."""
        known = self.solution.factors
        return np.asarray((known.steady if known is not None else self._factors(0.0)).solve(self.loads))

    def swings(self, cycles: float) -> NDArray[np.complex128]:
        """Temperatures (n, airs) for one kelvin of each air that swings so often a year."""
        return np.asarray(self._factors(2j * np.pi * cycles / YEAR).solve(self.loads))

    def each(self, cycles: Sequence[float]) -> list[NDArray[np.complex128]]:
        """The same for several paces side by side; each lets its factors go in the thread that made them."""
        with ThreadPoolExecutor(min(len(cycles), MOST_THREADS)) as threads:
            return list(threads.map(self.swings, cycles))

    def _factors(self, pace: complex) -> Factors:
        return factorised(condensed(self.solution.equations, pace), self.solution.resistance)

    def onto(self, basis: Array) -> tuple[Array, Array]:
        """Conduction and storage in the span of a basis (n, m)."""
        eq = self.solution.equations
        conducts = basis.T @ (eq.conduction @ basis + eq.films(self.solution.resistance) @ basis)
        stores = basis.T @ (eq.storage @ basis)
        return (conducts + conducts.T) / 2, (stores + stores.T) / 2


def _fitted(posed: _Posed, span: Sequence[NDArray], unknowns: Array, direct: Array, highest: float) -> Response:
    """Modes of the span, each scaled so that it conducts one."""
    columns = np.hstack([part for each in span for part in (each.real, each.imag)])
    size = np.linalg.norm(columns, axis=0)
    basis, strength, _ = np.linalg.svd(columns[:, size > 0.0] / size[size > 0.0], full_matrices=False)
    basis = basis[:, strength > KEPT * strength[0]]
    conducts, stores = posed.onto(basis)
    delays, turned = scipy.linalg.eigh(stores, conducts)
    shapes = basis @ turned
    return Response(
        np.maximum(delays, 0.0), shapes, shapes.T @ posed.loads, unknowns @ shapes, direct, highest, np.array([np.inf])
    )


def _between(cycles: Sequence[float], every: int) -> list[float]:
    """Frequencies in the middle of every second or third gap, the last gap among them."""
    return [float(np.sqrt(a * b)) for a, b in list(pairwise(cycles))[::-every]]


def _off(fitted: Response, cycles: Sequence[float], solved: Sequence[NDArray]) -> Array:
    """Largest error of each watched number (outputs,), as a share of its largest response to that air."""
    tops = [np.abs(fitted.at(frequency)) for frequency in (0.0, 2.0 * np.pi / YEAR)]
    largest = np.maximum.reduce([*tops, *(np.abs(each) for each in solved)])
    misses = [np.abs(fitted.at(2.0 * np.pi * c / YEAR) - each) for c, each in zip(cycles, solved, strict=True)]
    shares = np.divide(np.maximum.reduce(misses), largest, out=np.zeros_like(largest), where=largest > 0.0)
    return np.asarray(shares.max(axis=1))


def followed(response: Response, air: Array) -> Followed:
    """A settled year: what is watched, hour by hour, when the same year of air comes round again and again.

    Parameters
    ----------
    response : Response
        [unit of each watched number / K]
    air : ndarray, shape (airs, hours)
        Temperature of each air at even steps through a year of 365.2425 days. [degC or K]

    Returns
    -------
    Followed
        Modes (m, hours) and watched numbers (outputs, hours). [K, unit of each watched number]

    Raises
    ------
    OutOfDomain
        Steps that are finer than the fit was held to.

    Source
    ------
    Fourier series of the year, each term through the response at its frequency.

    Examples
    --------
    One mode with a delay of a tenth of a year follows a slow wave at 1 / (1 + i 2 pi / 10): amplitude 0.847.

    >>> one = np.ones((1, 1))
    >>> tank = Response(np.array([YEAR / 10]), one, one, one, 0 * one, 2 * np.pi / YEAR * 60, np.zeros(1))
    >>> wave = np.cos(2 * np.pi * np.arange(120) / 120)[None]
    >>> round(float(followed(tank, wave).watched.max()), 2)
    0.85
    """
    hours = air.shape[1]
    frequency = 2.0 * np.pi / YEAR * np.arange(hours // 2 + 1)
    if frequency[-1] > response.highest * 1.01:
        raise OutOfDomain(f"{hours} steps a year are finer than the fit was held to")
    driven = response.drive @ np.fft.rfft(air, axis=1)
    modes = np.fft.irfft(driven / (1.0 + 1j * frequency * response.delays[:, None]), hours, axis=1)
    return Followed(modes, response.seen @ modes + response.direct @ air)


def first_years(
    response: Response, start: float, mean: Array, swing: NDArray[np.complex128], begins: float, years: Array
) -> Array:
    """What is watched in the years after a start from ground that is equally warm everywhere.

    Parameters
    ----------
    response : Response
        [unit of each watched number / K]
    start : float
        Temperature of everything at the start. [degC]
    mean : ndarray, shape (airs,)
        Mean of each air from the start on. [degC]
    swing : ndarray of complex, shape (airs,)
        Complex amplitude of each air; see ``field.moment``. [K]
    begins : float
        Moment of the year at the start, 0 at the start of January. [year]
    years : ndarray, shape (n,)
        How long after the start. [year]

    Returns
    -------
    ndarray, shape (outputs, n)
        [unit of each watched number]

    Source
    ------
    Derived: the settled year, and what is left of the difference at the start, which dies away mode by mode.

    Examples
    --------
    A tank at 0 degC with a delay of a year, its air at 10 degC: 10 (1 - exp(-1)) after a year.

    >>> one = np.ones((1, 1))
    >>> tank = Response(np.array([YEAR]), one, one, one, 0 * one, 1.0, np.zeros(1))
    >>> round(float(first_years(tank, 0.0, np.array([10.0]), np.array([0j]), 0.0, np.array([1.0]))[0, 0]), 3)
    6.321
    """
    turn = 2.0 * np.pi * (begins + years)
    lags = 1.0 + 2j * np.pi / YEAR * response.delays
    waves = (response.drive @ swing) / lags
    settled = (response.drive @ mean)[:, None] + (waves[:, None] * np.exp(1j * turn)).real
    at_start = response.drive @ mean + (waves * np.exp(2j * np.pi * begins)).real
    gap = start * response.drive.sum(axis=1) - at_start
    slow = np.maximum(response.delays, LEAST_DELAY)
    left = gap[:, None] * np.exp(-YEAR * years / slow[:, None])
    air = mean[:, None] + (swing[:, None] * np.exp(1j * turn)).real
    return np.asarray(response.seen @ (settled + left) + response.direct @ air)
