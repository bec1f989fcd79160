"""Reference elements of degree p: the square, and the right triangle that is its half, on one lattice of points.

The lattice is the square's Gauss-Lobatto points, so the sides of squares and triangles carry the same points and the
temperature is continuous across them. On the square [-1, 1]² a cell of widths a, b and conductivity k has the matrix
k (b/a X + a/b Y) and the capacity matrix a b / 4 C.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Element:
    """Matrices of one reference shape; ``points`` are its places in the square's lattice, row by row."""

    points: NDArray[np.int64]  # (m,) index i (p + 1) + j of lattice point (i, j), i along x
    along_x: Array  # (m, m)
    along_y: Array  # (m, m)
    capacity: Array  # (m, m)


@dataclass(frozen=True)
class SideElement:
    """One side of a cell on [-1, 1]: what a film needs."""

    mass: Array  # (p + 1, p + 1)
    load: Array  # (p + 1,)


@cache
def lobatto(degree: int) -> Array:
    """Gauss-Lobatto points.

    Parameters
    ----------
    degree : int
        Degree p of the polynomials, at least 1. [1]

    Returns
    -------
    ndarray, shape (p + 1,)
        Points from -1 to 1. [1]

    Source
    ------
    Abramowitz and Stegun, 25.4.32 (clause: from memory).

    Examples
    --------
    >>> lobatto(2).tolist()
    [-1.0, 0.0, 1.0]
    """
    inner = np.sort(legendre.legroots(legendre.legder([0] * degree + [1]))) if degree > 1 else np.array([])
    return np.concatenate([[-1.0], np.where(np.abs(inner) < 1e-14, 0.0, inner), [1.0]])


@cache
def side(degree: int) -> SideElement:
    """Matrices of a side.

    Parameters
    ----------
    degree : int
        [1]

    Returns
    -------
    SideElement
        Mass (p + 1, p + 1) and load (p + 1,) on [-1, 1]. [1]

    Source
    ------
    Exact integration of Lagrange polynomials.

    Examples
    --------
    Simpson's rule:

    >>> (side(2).load * 3).round(12).tolist()
    [1.0, 4.0, 1.0]
    """
    at, weight = legendre.leggauss(degree + 1)
    values, _ = line_basis(degree, at)
    return SideElement((values.T * weight) @ values, values.T @ weight)


def line_basis(degree: int, at: Array) -> tuple[Array, Array]:
    """Lagrange polynomials on the Gauss-Lobatto points, and their slopes.

    Parameters
    ----------
    degree : int
        [1]
    at : ndarray, shape (n,)
        Places in [-1, 1]. [1]

    Returns
    -------
    two ndarrays, shape (n, p + 1)
        Values and slopes. [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> line_basis(1, np.array([0.0]))[0].tolist()
    [[0.5, 0.5]]
    """
    power = np.arange(degree + 1)
    inverse = np.linalg.inv(lobatto(degree)[:, None] ** power)
    slopes = np.where(power > 0, power * at[:, None] ** np.maximum(power - 1, 0), 0.0)
    return at[:, None] ** power @ inverse, slopes @ inverse


@cache
def line(degree: int) -> tuple[Array, Array]:
    """Matrices of a line of the lattice.

    Parameters
    ----------
    degree : int
        [1]

    Returns
    -------
    two ndarrays, shape (p + 1, p + 1)
        Of slope times slope and of value times value on [-1, 1]. [1]

    Source
    ------
    Exact integration of Lagrange polynomials.

    Examples
    --------
    >>> (line(1)[0] * 2).round(12).tolist()
    [[1.0, -1.0], [-1.0, 1.0]]
    """
    at, weight = legendre.leggauss(degree + 1)
    values, slopes = line_basis(degree, at)
    return (slopes.T * weight) @ slopes, (values.T * weight) @ values


@cache
def square(degree: int) -> Element:
    """The whole cell.

    Parameters
    ----------
    degree : int
        [1]

    Returns
    -------
    Element
        Matrices ((p + 1)², (p + 1)²) on [-1, 1]². [1]

    Source
    ------
    Exact integration of tensor products.

    Examples
    --------
    >>> square(1).along_x[0].round(12).tolist()  # (2, 1, -2, -1) / 6
    [0.333333333333, 0.166666666667, -0.333333333333, -0.166666666667]
    """
    stiff, mass = line(degree)
    products = (np.asarray(np.kron(a, b), np.float64) for a, b in ((stiff, mass), (mass, stiff), (mass, mass)))
    return Element(np.arange((degree + 1) ** 2), *products)


@cache
def triangle(degree: int, above: bool, rising: bool) -> Element:
    """The half of a cell above or below its diagonal.

    Parameters
    ----------
    degree : int
        [1]
    above, rising : bool
        Which half, and whether the diagonal rises to the right. [1]

    Returns
    -------
    Element
        Matrices (m, m), m = (p + 1)(p + 2) / 2. [1]

    Source
    ------
    Exact integration with Gauss points on the collapsed square.

    Examples
    --------
    Half of the square of area 4:

    >>> round(float(triangle(2, above=False, rising=True).capacity.sum()), 12)
    2.0
    """
    i, j = (np.array(c) for c in zip(*[(i, j) for i in range(degree + 1) for j in range(i + 1)], strict=True))
    px, py = lobatto(degree)[i], lobatto(degree)[j]
    a, b = (np.array(c) for c in zip(*[(a, d - a) for d in range(degree + 1) for a in range(d + 1)], strict=True))
    inverse = np.linalg.inv(px[:, None] ** a * py[:, None] ** b)
    at, weight = legendre.leggauss(degree + 2)
    u, v = np.repeat(at, len(at)), np.tile(at, len(at))
    x, y = u, (1 + u) * (1 + v) / 2 - 1  # the half below the rising diagonal: y < x
    w = np.repeat(weight, len(at)) * np.tile(weight, len(at)) * (1 + u) / 2
    values = (x[:, None] ** a * y[:, None] ** b) @ inverse
    dx = np.where(a > 0, a * x[:, None] ** np.maximum(a - 1, 0) * y[:, None] ** b, 0.0) @ inverse
    dy = np.where(b > 0, b * x[:, None] ** a * y[:, None] ** np.maximum(b - 1, 0), 0.0) @ inverse
    if above:
        i, j = degree - i, degree - j
    if not rising:
        i = degree - i
    stiff_x, stiff_y, mass = ((f.T * w) @ f for f in (dx, dy, values))
    return Element(i * (degree + 1) + j, stiff_x, stiff_y, mass)


@cache
def raised(lower: Element, degree: int, higher: Element, higher_degree: int) -> Array:
    """Values at the points of a higher degree, from those of a lower one on the same shape.

    Parameters
    ----------
    lower, higher : Element
        One shape in two degrees. [1]
    degree, higher_degree : int
        Their degrees. [1]

    Returns
    -------
    ndarray, shape (points of the higher, points of the lower)
        [1]

    Source
    ------
    Interpolation.

    Examples
    --------
    In the middle of a square a linear function is the mean of the corners:

    >>> raised(square(1), 1, square(2), 2)[4].round(12).tolist()
    [0.25, 0.25, 0.25, 0.25]
    """
    whole = len(lower.points) == (degree + 1) ** 2
    powers = [(a, b) for a in range(degree + 1) for b in range(degree + 1) if whole or a + b <= degree]
    a, b = np.array(powers).T

    def monomials(element: Element, p: int) -> Array:
        x, y = lobatto(p)[element.points // (p + 1)], lobatto(p)[element.points % (p + 1)]
        return np.asarray(x[:, None] ** a * y[:, None] ** b)

    return np.asarray(np.linalg.solve(monomials(lower, degree).T, monomials(higher, higher_degree).T).T)
