"""Cubic pieces that meet with one slope: the shapes of a beam, and by their products of a plate."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

POINTS = 4  # of Gauss in one direction: exact for products of two cubics


def shapes(at: NDArray[np.float64], order: int) -> NDArray[np.float64]:
    """The four cubics on a piece of length 1, or their derivatives.

    Parameters
    ----------
    at : ndarray, shape (n,)
        Places from 0 to 1 along the piece. [1]
    order : int
        0 for the shapes themselves, 1 or 2 for derivatives. [1]

    Returns
    -------
    ndarray, shape (n, 4)
        For height and slope at the start, height and slope at the end. [1]

    Source
    ------
    Hermite's cubics; common practice, no source.

    Examples
    --------
    >>> shapes(np.array([0.5]), 0).tolist()
    [[0.5, 0.125, 0.5, -0.125]]
    """
    s = np.asarray(at, float)
    rows = {
        0: [1 - 3 * s**2 + 2 * s**3, s - 2 * s**2 + s**3, 3 * s**2 - 2 * s**3, s**3 - s**2],
        1: [6 * s**2 - 6 * s, 1 - 4 * s + 3 * s**2, 6 * s - 6 * s**2, 3 * s**2 - 2 * s],
        2: [12 * s - 6, 6 * s - 4, 6 - 12 * s, 6 * s - 2],
    }
    return np.stack(rows[order], -1)


@cache
def gauss(points: int = POINTS) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Places and weights on a piece of length 1.

    Parameters
    ----------
    points : int
        [1]

    Returns
    -------
    two ndarrays, shape (points,)
        [1]

    Source
    ------
    Gauss and Legendre, by numpy.

    Examples
    --------
    >>> float(gauss(2)[1].sum())
    1.0
    """
    at, weight = np.polynomial.legendre.leggauss(points)
    return (at + 1.0) / 2.0, weight / 2.0


def products(lengths: NDArray[np.float64], unit: float, one: int, other: int) -> NDArray[np.float64]:
    """Integrals of the products of two cubics or their derivatives over pieces of several lengths.

    Parameters
    ----------
    lengths : ndarray, shape (n,)
        [m]
    unit : float
        Slopes count as height over this length, so that all unknowns are of one size. [m]
    one, other : int
        Orders of the derivatives, 0 to 2. [1]

    Returns
    -------
    ndarray, shape (n, 4, 4)
        [m to the power of 1 less the orders]

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(float(products(np.array([420.0]), 1.0, 0, 0)[0, 0, 0]), 9)  # 156/420 of the length
    156.0
    """
    at, weight = gauss()
    whole = np.einsum("q,qi,qj->ij", weight, shapes(at, one), shapes(at, other))
    sized = sizes(lengths, unit)
    powers = np.asarray(lengths) ** (1.0 - one - other)
    return powers[:, None, None] * sized[:, :, None] * sized[:, None, :] * whole


def sizes(lengths: NDArray[np.float64], unit: float) -> NDArray[np.float64]:
    """What turns the unit piece's slopes into the unknowns of pieces of several lengths.

    Parameters
    ----------
    lengths : ndarray, shape (n,)
        [m]
    unit : float
        As for ``products``. [m]

    Returns
    -------
    ndarray, shape (n, 4)
        [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> sizes(np.array([3.0]), 1.0).tolist()
    [[1.0, 3.0, 1.0, 3.0]]
    """
    slope = np.asarray(lengths) / unit
    one = np.ones_like(slope)
    return np.stack([one, slope, one, slope], -1)
