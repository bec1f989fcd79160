"""The stream of steady heat: a number at every place whose lines are the ways that heat takes."""

from __future__ import annotations

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.csgraph import connected_components
from scipy.sparse.linalg import splu

from ..domain import OutOfDomain, above_zero

CORNERS = ((0, 0), (0, 1), (1, 1), (1, 0))  # of a cell, as steps up and across, anticlockwise


def stream(x: NDArray, y: NDArray, temperature: NDArray, conductivity: NDArray) -> NDArray[np.float64]:
    """Stream function of the heat that flows through bodies at rest.

    Between two places it differs by the heat that passes between them, whichever way one goes from one to the other. So
    its lines are the ways that heat takes, and between two lines a step apart flows that step. There is one only where
    no heat is stored: for a mean of the year, not for a month of it.

    Parameters
    ----------
    x : ndarray (nx,)
        Rising. [m]
    y : ndarray (ny,)
        Rising. [m]
    temperature : ndarray (ny, nx)
        Not a number in air. [degC]
    conductivity : ndarray (ny - 1, nx - 1)
        Of each cell; not a number in air. [W/(m·K)]

    Returns
    -------
    ndarray (ny, nx)
        Heat that flows downwards between the first place of a body and this one, where this one lies to the right of
        it; to the right, where it lies above. Not a number in air. [W/m]

    Raises
    ------
    OutOfDomain
        There is no body at all, or a body that conducts nothing; places do not rise.

    Source
    ------
    The flux is the turned gradient of a stream function, for it has no divergence; of all functions on the grid that
    one is taken whose flux is nearest to -k grad T, weighted by 1/k: the complementary energy is least. Derived.

    Examples
    --------
    A wall 0.2 m thick, 1 W/(m·K), 10 K warmer at its right: 50 W/m² flow to the left, 25 W/m through half a metre.

    >>> x, y = np.array([0.0, 0.1, 0.2]), np.array([0.0, 0.25, 0.5])
    >>> warm = np.tile([0.0, 5.0, 10.0], (3, 1))
    >>> (stream(x, y, warm, np.ones((2, 2)))[:, 0] + 0.0).round(6).tolist()
    [0.0, -12.5, -25.0]
    """
    above_zero(steps_of_x=np.diff(x), steps_of_y=np.diff(y))
    known = ~np.isnan(temperature)
    full = ~np.isnan(conductivity) & np.logical_and.reduce([_corner(known, at) for at in CORNERS])
    if not full.any() or not np.all(conductivity[full] > 0.0):
        raise OutOfDomain("heat flows only in bodies that conduct, and there must be one")
    number = np.arange(known.size).reshape(known.shape)
    at = np.stack([_corner(number, corner)[full] for corner in CORNERS])  # (4, cells)
    matrix = _matrix(np.diff(x), np.diff(y), conductivity, full, at, known.size)
    warm = temperature.ravel()[at]
    around = (np.roll(warm, -1, axis=0) - np.roll(warm, 1, axis=0)) / 2.0  # change along a corner's two sides
    load = np.bincount(at.ravel(), around.ravel(), known.size)
    used = np.unique(at)
    matrix, load = matrix[used][:, used], load[used]
    _, piece = connected_components(matrix, directed=False)
    _, first = np.unique(piece, return_index=True)
    free = np.setdiff1d(np.arange(used.size), first)
    values = np.zeros(used.size)
    values[free] = splu(matrix[free][:, free].tocsc()).solve(load[free])
    found = np.full(known.size, np.nan)
    found[used] = values
    return found.reshape(known.shape)


def _corner(of_places: NDArray, corner: tuple[int, int]) -> NDArray:
    """What holds at one corner of every cell."""
    up, across = corner
    ny, nx = of_places.shape
    return of_places[up : ny - 1 + up, across : nx - 1 + across]


def _matrix(dx: NDArray, dy: NDArray, conductivity: NDArray, full: NDArray, at: NDArray, size: int) -> sp.csr_matrix:
    """Bilinear cells, weighted by 1/k."""
    across = (np.broadcast_to(dy[:, None], full.shape) / dx[None, :] / conductivity)[full] / 6.0
    up = (np.broadcast_to(dx[None, :], full.shape) / dy[:, None] / conductivity)[full] / 6.0
    along_x = np.array([[2, -2, -1, 1], [-2, 2, 1, -1], [-1, 1, 2, -2], [1, -1, -2, 2]])
    along_y = np.array([[2, 1, -1, -2], [1, 2, -2, -1], [-1, -2, 2, 1], [-2, -1, 1, 2]])
    values = along_x[:, :, None] * across + along_y[:, :, None] * up
    rows = np.broadcast_to(at[:, None, :], values.shape)
    columns = np.broadcast_to(at[None, :, :], values.shape)
    return sp.csr_matrix((values.ravel(), (rows.ravel(), columns.ravel())), shape=(size, size))
