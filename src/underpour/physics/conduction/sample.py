"""A solved section sampled on lines fine enough to draw."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from . import elements
from .assemble import Equations
from .field import Field
from .solve import Solved

ACROSS = 110  # places across the window, at least


def sampled(
    solved: Solved, window: tuple[float, float, float, float], floor: tuple[float, float], level: float = 0.0
) -> Field:
    """Temperatures inside a window, and along the floor.

    Parameters
    ----------
    solved : Solved
        [degC]
    window : four floats
        x0, x1, y0, y1. [m]
    floor : two floats
        x from and to of the floor's surface. [m]
    level : float
        Height y of the line along the floor: its surface, or the underside of its build-up. [m]

    Returns
    -------
    Field
        Mean [degC] and swing [K]; not a number where there is air.

    Source
    ------
    The elements' own polynomials.

    Examples
    --------
    See tests/exact/test_conduction.py: a wall's temperatures fall along a straight line.
    """
    eq = solved.fine.equations
    p = eq.degree
    lines_x, lines_y = eq.x[::p], eq.y[::p]
    x0, x1, y0, y1 = window
    step = max(x1 - x0, y1 - y0) / ACROSS
    x, from_x = _places(lines_x, p, x0, x1, step)
    y, from_y = _places(lines_y, p, y0, y1, step)
    known = eq.number >= 0
    air = _covered(known, p, lines_x, x, lines_y, y)
    values = [
        np.where(air, np.nan, from_x @ _lattice(eq, unknowns) @ from_y.T).T
        for unknowns in (solved.fine.mean, solved.fine.swing)
    ]
    floor_x, floor_mean, floor_swing, _ = solved.along(floor[0], floor[1], level)
    shown = floor_x <= x1 + step
    return Field(
        x.astype(np.float32),
        y.astype(np.float32),
        values[0].astype(np.float32),
        values[1].astype(np.complex64),
        floor_x[shown].astype(np.float32),
        floor_mean[shown].astype(np.float32),
        floor_swing[shown].astype(np.complex64),
    )


def at_places(equations: Equations, unknowns: NDArray, x: NDArray, y: NDArray) -> NDArray:
    """Values of a grid at the crossings of other lines, such as those of a ``Field``.

    Parameters
    ----------
    equations : Equations
        The grid. [m]
    unknowns : ndarray, shape (n,)
        What stands at its unknowns. [degC or K]
    x : ndarray, shape (nx,)
        Places across, inside the grid. [m]
    y : ndarray, shape (ny,)
        Places up, inside the grid, rising. [m]

    Returns
    -------
    ndarray, shape (ny, nx)
        Of no meaning where there is air. [unit of ``unknowns``]

    Source
    ------
    The elements' own polynomials.

    Examples
    --------
    See tests/exact/test_any_hour.py: the grid's own places give what stands there.
    """
    p = equations.degree
    from_x, from_y = (
        _weights(lines[::p], p, _snapped(np.asarray(at, float), lines[::p]))
        for lines, at in ((equations.x, x), (equations.y, y))
    )
    return np.asarray((from_x @ _lattice(equations, unknowns) @ from_y.T).T)


def _snapped(at: NDArray, lines: NDArray) -> NDArray:
    """Places as they were before they were kept in single precision: those that lie at a line are on it."""
    nearest = lines[np.argmin(np.abs(at[:, None] - lines), axis=1)]
    return np.where(np.abs(at - nearest) < 1e-5, nearest, at)


def _lattice(equations: Equations, unknowns: NDArray) -> NDArray:
    """What stands at the unknowns on the lattice of the grid, nought in air."""
    return np.where(equations.number >= 0, unknowns[np.maximum(equations.number, 0)], 0.0)


def _places(lines: NDArray, degree: int, low: float, high: float, step: float) -> tuple[NDArray, NDArray]:
    """Places between ``low`` and ``high`` with every grid line among them, and their weights on the lattice."""
    inner = lines[(lines > low + 1e-9) & (lines < high - 1e-9)]
    ends = np.concatenate([[low], inner, [high]])
    counts = np.maximum(degree, np.ceil(np.diff(ends) / step).astype(int))
    at = np.concatenate(
        [*(np.linspace(a, b, n, endpoint=False) for a, b, n in zip(ends, ends[1:], counts, strict=False)), [high]]
    )
    return at, _weights(lines, degree, at)


def _weights(lines: NDArray, degree: int, at: NDArray) -> NDArray:
    """Weights of the lattice's lines at places between them."""
    cell = np.clip(np.searchsorted(lines, at, side="right") - 1, 0, len(lines) - 2)
    local = 2.0 * (at - lines[cell]) / (lines[cell + 1] - lines[cell]) - 1.0
    weights = np.zeros((len(at), (len(lines) - 1) * degree + 1))
    columns = cell[:, None] * degree + np.arange(degree + 1)
    weights[np.arange(len(at))[:, None], columns] = elements.line_basis(degree, local)[0]
    return weights


def _covered(
    known: NDArray, degree: int, lines_x: NDArray, x: NDArray, lines_y: NDArray, y: NDArray
) -> NDArray[np.bool_]:
    """Which places (nx, ny) touch no cell that is full of material."""
    nx, ny = len(lines_x) - 1, len(lines_y) - 1
    full = np.ones((nx, ny), bool)
    for i in range(degree + 1):
        for j in range(degree + 1):
            full &= known[i : i + nx * degree : degree, j : j + ny * degree : degree]
    touched = np.zeros((len(x), len(y)), bool)
    for shift_x in (-1e-7, 1e-7):
        for shift_y in (-1e-7, 1e-7):
            column = np.clip(np.searchsorted(lines_x, x + shift_x) - 1, 0, nx - 1)
            row = np.clip(np.searchsorted(lines_y, y + shift_y) - 1, 0, ny - 1)
            touched |= full[column[:, None], row]
    return ~touched
