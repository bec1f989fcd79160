"""A section that freezes and thaws, step by step: implicit in time, heat in place of temperature.

Each step solves the linearised balance a few times. Heat, not temperature, is handed on, so that none is lost however
steep the freezing range is; the matrix is put together only where the ground changes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero
from ..year import YEAR
from .cells import Cells

MOST_CORRECTIONS = 60
MOST_HALVINGS = 6  # of a step whose corrections do not settle
SHARES = (1.0, 0.5, 0.25, 0.1, 0.03)  # of a correction
NEAR = 1e-8  # of the heat that a step moves, at which corrections stop


@dataclass(frozen=True)
class Moment:
    """What surfaces feel during one step."""

    air: NDArray[np.float64]  # (3 × spaces,) degC
    films: NDArray[np.float64]  # (3 × spaces,) m²·K/W, snow in them


@dataclass(frozen=True)
class After:
    """The section after a step."""

    temperature: NDArray[np.float64]  # (n,) degC
    heat: NDArray[np.float64]  # (n,) J/m³
    taken: float  # J/m, heat that came in through the surfaces during the step
    imbalance: float  # J/m, of the step: what the cells hold less what came in
    corrections: int


def march(section: Cells, temperature: NDArray, moments: Iterable[Moment], step: float) -> Iterator[After]:
    """A section through time.

    Parameters
    ----------
    section : Cells
        [m, W/(m·K), J/(m³·K), J/m³]
    temperature : ndarray, shape (n,)
        To begin with. [degC]
    moments : iterable of Moment
        What the surfaces feel, one for each step; a film that changes may do so at any of them. [degC, m²·K/W]
    step : float
        [s]

    Returns
    -------
    iterator of After
        One for each step. [degC, J/m³, J/m]

    Raises
    ------
    OutOfDomain
        A step not above zero; corrections that do not settle.

    Source
    ------
    Enthalpy in place of temperature, implicit Euler, corrected as Swaminathan and Voller 1992 (from memory):
    the slope of heat over temperature at the last guess, and the temperature that the new heat has; where the heat of
    the new temperature moves less, that is taken, so that no cell is carried over a whole change of state at once
    (common practice, no source). Conductivity is that of the ice at the beginning of the step.

    Examples
    --------
    A cubic metre at 0 °C loses 2 W/K through its film alone: nothing else changes its heat.

    >>> from types import SimpleNamespace as S
    >>> from underpour.physics.frost.cells import cells
    >>> ground = S(outline=((0, -1), (1, -1), (1, 0), (0, 0)), conductivity=1.0, heat_capacity=2e6, priority=1)
    >>> air = S(where="outdoors", outline=((0, 0), (1, 0), (1, 1), (0, 1)))
    >>> one = cells(np.array([0.0, 1.0]), np.array([-1.0, 0.0, 1.0]), [ground], [air], {})
    >>> cold = Moment(np.full(3, -10.0), np.full(3, 0.5))
    >>> after = next(march(one, np.zeros(1), [cold], 86400.0))
    >>> round(float(after.temperature[0]), 4)  # T = -10 × 86400 / (2e6 + 86400)
    -0.4141
    """
    above_zero(step=step)
    band = _Band(section)
    now = np.array(temperature, float)
    held = section.made.heat(now)
    likely = np.zeros(len(now))  # J/m³, what each cell will gain: as much as in the step before
    for moment in moments:
        after = _through(section, band, now, held, moment, step, likely)
        likely = after.heat - held
        now, held = after.temperature, after.heat
        yield after


def _through(
    section: Cells,
    band: _Band,
    now: NDArray,
    held: NDArray,
    moment: Moment,
    step: float,
    likely: NDArray,
    halved: int = 0,
) -> After:
    """One step, in halves where corrections of the whole do not settle: a thawing cell may answer to no long step."""
    after = _settled(section, band, now, held, moment, step, likely)
    if after is not None:
        return after
    if halved == MOST_HALVINGS:
        raise OutOfDomain(f"corrections of a step do not settle after {MOST_CORRECTIONS}")
    half = likely / 2.0
    first = _through(section, band, now, held, moment, step / 2.0, half, halved + 1)
    last = _through(section, band, first.temperature, first.heat, moment, step / 2.0, half, halved + 1)
    return replace(
        last,
        taken=first.taken + last.taken,
        imbalance=first.imbalance + last.imbalance,
        corrections=first.corrections + last.corrections,
    )


def _settled(
    section: Cells, band: _Band, now: NDArray, held: NDArray, moment: Moment, step: float, likely: NDArray
) -> After | None:
    """One step; None where its corrections do not settle."""
    made, area = section.made, section.area
    out = section.to_air(now, moment.films)
    band.put(section.conductances(now), out)
    brought = np.bincount(section.surfaces.cell, out * moment.air[section.surfaces.group], len(now))
    # What is left over in each cell: what its heat would have to grow by to balance what comes in. [W/m]
    heat, left = held.copy(), brought - band.flows(now)
    begun = held + likely
    over = brought - band.flows(made.temperature(begun)) - area * likely / step
    if np.abs(over).sum() < np.abs(left).sum():
        heat, left = begun, over
    for count in range(1, MOST_CORRECTIONS + 1):
        guess = made.temperature(heat)
        slope = made.slope(guess)
        warmer = band.solve(area * slope / step, left)
        change, other = slope * warmer, made.heat(guess + warmer) - heat
        change = np.where(np.abs(other) < np.abs(change), other, change)
        for share in SHARES:  # a front that goes over several cells may overshoot: then a part of the way is nearer
            tried = heat + share * change
            over = brought - band.flows(made.temperature(tried)) - area * (tried - held) / step
            if np.abs(over).sum() < np.abs(left).sum():
                break
        heat, left = tried, over
        if np.abs(left).sum() <= NEAR * (np.abs(area * (heat - held)).sum() / step + np.abs(brought).sum()):
            guess = made.temperature(heat)
            taken = float((out * (moment.air[section.surfaces.group] - guess[section.surfaces.cell])).sum() * step)
            return After(guess, heat, taken, float((area * (heat - held)).sum()) - taken, count)
    return None


class _Band:
    """The symmetric matrix of the section as a band, and its factor, which is kept as long as nothing changes.

    Single precision: it only finds the way to the next correction; what is left over is told in double precision.
    """

    def __init__(self, section: Cells):
        self._section = section
        self._size = len(section.area)
        self._wide = int((section.other - section.one).max()) if len(section.one) else 0
        self._conducts = np.zeros((self._wide + 1, self._size), np.float32, order="F")
        self._slope: NDArray[np.float64] | None = None
        self._between: NDArray[np.float64] | None = None
        self._out: NDArray[np.float64] | None = None
        self._factor: NDArray[np.float64] | None = None

    def put(self, between: NDArray, out: NDArray) -> None:
        known = self._between is not None and self._out is not None
        if known and np.array_equal(between, self._between) and np.array_equal(out, self._out):  # type: ignore[arg-type]
            return
        at = self._section
        self._conducts[:] = 0.0
        self._conducts[at.other - at.one, at.one] = -between
        self._conducts[0] = (
            np.bincount(at.one, between, self._size)
            + np.bincount(at.other, between, self._size)
            + np.bincount(at.surfaces.cell, out, self._size)
        )
        self._between, self._out, self._slope = between, out, None

    def solve(self, slope: NDArray, right: NDArray) -> NDArray[np.float64]:
        from scipy.linalg import lapack

        if self._slope is None or not np.array_equal(slope, self._slope):
            matrix = self._conducts.copy(order="F")
            matrix[0] += slope.astype(np.float32)
            self._factor, fault = lapack.spbtrf(matrix, lower=1, overwrite_ab=1)
            if fault:
                raise OutOfDomain("a section without any way for heat cannot be stepped")
            self._slope = slope
        solved, _ = lapack.spbtrs(self._factor, right.astype(np.float32), lower=1)
        return np.asarray(solved, float)

    def flows(self, temperature: NDArray) -> NDArray[np.float64]:
        """Heat that leaves each cell, were all air at 0 °C. [W/m]"""
        at = self._section
        assert self._between is not None
        through = self._between * (temperature[at.one] - temperature[at.other])
        leaves = np.bincount(at.one, through, self._size) - np.bincount(at.other, through, self._size)
        to_air = np.bincount(at.surfaces.cell, self._out * temperature[at.surfaces.cell], self._size)
        return np.asarray(leaves + to_air)


def settled_year(
    section: Cells, air_mean: NDArray, air_swing: NDArray, films: NDArray
) -> tuple[NDArray[np.float64], NDArray[np.complex128]]:
    """Mean and swing of every cell after many like years, nothing of it frozen: what a winter begins from.

    Parameters
    ----------
    section : Cells
        [m, W/(m·K), J/(m³·K)]
    air_mean, air_swing : ndarray, shape (3 × spaces,)
        Of the air that each group of surfaces feels. [degC, K]
    films : ndarray, shape (3 × spaces,)
        [m²·K/W]

    Returns
    -------
    tuple of two ndarrays, shape (n,)
        Mean [degC] and complex amplitude [K].

    Source
    ------
    Finite volumes at the year's frequency; common practice, no source.

    Examples
    --------
    See ``tests/exact/test_frost_march.py``: Kelvin's wave into deep ground.
    """
    import scipy.sparse as sp
    from scipy.sparse.linalg import splu

    size, at = len(section.area), section
    warm = np.ones(size)  # degC: none of it is ice
    between, out = at.conductances(warm), at.to_air(warm, films)
    rows = np.concatenate([at.one, at.other, at.one, at.other, at.surfaces.cell])
    columns = np.concatenate([at.one, at.other, at.other, at.one, at.surfaces.cell])
    values = np.concatenate([between, between, -between, -between, out])
    conduction = sp.coo_array((values, (rows, columns)), (size, size)).tocsc()
    storage = sp.diags_array(2j * np.pi / YEAR * section.area * at.made.capacity)
    found = []
    for air, matrix in ((air_mean, conduction), (air_swing, conduction + storage)):
        felt = out * air[at.surfaces.group]
        right = np.bincount(at.surfaces.cell, felt.real, size) + (
            1j * np.bincount(at.surfaces.cell, felt.imag, size) if np.iscomplexobj(felt) else 0.0
        )
        factor = splu(matrix.tocsc(), permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0)
        found.append(factor.solve(right.astype(matrix.dtype)))
    return np.asarray(found[0].real), np.asarray(found[1])
