"""What a degree more does not show at a corner where two good conductors touch in a point between two poor ones.

Ground and footing between two boards: temperatures go as a power of the distance from the corner so small (0.2 at a
contrast of 40) that neither a degree more nor a cell less changes much. So the change between two degrees says too
little there, and the more so the finer the grid is elsewhere. How much too little follows from that power.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from ..domain import Numbers
from . import elements

if TYPE_CHECKING:
    from .assemble import Equations
    from .solve import Solution

Array = NDArray[np.float64]
ALIKE = 3.0  # conductivities within this ratio bend temperatures little where they meet


def crossed(low_left: Numbers, high_left: Numbers, low_right: Numbers, high_right: Numbers) -> NDArray[np.bool_]:
    """Whether two good conductors touch in a point, with a poor one on either hand: heat squeezes through there.

    Parameters
    ----------
    low_left, high_left, low_right, high_right : float or ndarray
        Conductivities of what fills the four quarters around a corner; below nought where that is no body. [W/(m·K)]

    Returns
    -------
    bool or ndarray of bool
        [1]

    Source
    ------
    Definition.

    Examples
    --------
    >>> bool(crossed(2.0, 0.03, 0.03, 1.5)), bool(crossed(2.0, 0.03, 1.5, 0.03))
    (True, False)
    """
    rising = np.minimum(low_left, high_right), np.maximum(low_left, high_right)
    falling = np.minimum(high_left, low_right), np.maximum(high_left, low_right)
    bodies = (rising[0] > 0.0) & (falling[0] > 0.0)
    return np.asarray(bodies & ((rising[0] > ALIKE * falling[1]) | (falling[0] > ALIKE * rising[1])))


def power(contrast: float) -> float:
    """Power of the distance as which temperatures go from such a corner.

    Parameters
    ----------
    contrast : float
        Conductivity of the good conductors over that of the poor ones, above 1. [1]

    Returns
    -------
    float
        [1]

    Source
    ------
    Kellogg 1974, intersecting interfaces (from memory): four right angles, conductivities alike across the corner.

    Examples
    --------
    The contrast that is often taken as a trial, 161.4476 (Kellogg):

    >>> round(power(161.4476387975881), 6)
    0.1
    """
    return float(4.0 / np.pi * np.arctan(1.0 / np.sqrt(contrast)))


def unseen(lower: Solution, higher: Solution) -> tuple[float, float]:
    """Energy that the higher degree lacks beside such corners, less what the change to it shows there already.

    What a field lacks in energy falls as the degree to minus four times the power, where its temperatures go as a
    power of the distance from a corner of the grid. So with p and P degrees it lacks 1 / ((P/p)^(4 power) - 1) of what
    the change holds in the cells around the corner.

    Parameters
    ----------
    lower, higher : Solution
        A grid's two solutions. [degC]

    Returns
    -------
    two floats
        Of the mean and of the swing. [W·K/m]

    Source
    ------
    Rate of the p-version at a corner: Babuska and Suri 1987 (from memory). Held to strips on sections in
    studies/2026-11-28-heat-alone.md.

    Examples
    --------
    See tests/exact/test_error_estimate.py.
    """
    more = _more(higher.equations, lower.equations.degree)
    if not more.any():
        return 0.0, 0.0
    fields = (lower.mean, higher.mean), (lower.swing, higher.swing)
    mean, swing = (_energy(more, lower, higher, *each) for each in fields)
    return mean, swing


def _energy(more: Array, lower: Solution, higher: Solution, before: NDArray, after: NDArray) -> float:
    """Energy of the difference of two degrees, each cell's so many times."""
    old, new = lower.equations, higher.equations
    found = 0.0
    for low, high in zip(old.pieces, new.pieces, strict=True):
        here = more[high.column, high.row] > 0.0
        if here.any():
            raised = elements.raised(low.element, old.degree, high.element, new.degree)
            lacks = after[high.points[here]] - before[low.points[here]] @ raised.T
            share = more[high.column[here], high.row[here]] * new.conductivity[high.body[here]]
            tall = (high.high[here] / high.wide[here])[:, None]
            along = tall * (lacks @ high.element.along_x) + (lacks @ high.element.along_y) / tall
            found += float((share * (lacks.conj() * along).sum(1).real).sum())
    return found


def _more(eq: Equations, degree: int) -> Array:
    """Of each cell of the grid: what is lacking over what one degree more changes, less that change itself."""
    p = eq.degree
    k = np.full(((len(eq.x) - 1) // p, (len(eq.y) - 1) // p), -1.0)
    for piece in eq.pieces:
        if piece.points.shape[1] == (p + 1) ** 2:  # halves of cells meet slanted sides, at no such corner
            k[piece.column, piece.row] = eq.conductivity[piece.body]
    more = np.zeros_like(k)
    for column, row in np.argwhere(crossed(k[:-1, :-1], k[:-1, 1:], k[1:, :-1], k[1:, 1:])):
        around = np.s_[column : column + 2, row : row + 2]
        poor, other, good, best = sorted(k[around].ravel())
        shown = (p / degree) ** (4.0 * power(np.sqrt(good * best / (poor * other)))) - 1.0
        more[around] = np.maximum(more[around], max(1.0 / shown - 1.0, 0.0))
    return more
