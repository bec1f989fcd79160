"""Where a slab would be punched through: perimeters round a load in the middle, beside an edge, in a corner."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi

from ..domain import OutOfDomain, above_zero, not_below_zero


@dataclass(frozen=True)
class Perimeter:
    """A line round a load along which the slab would be punched through."""

    length: float  # m
    area: float  # m², of the slab within it
    edges: int  # how many free edges it ends at: 0, 1, 2


def perimeters(
    length: float, width: float, off: float, along: float = inf, across: float = inf, round_corners: bool = False
) -> tuple[Perimeter, ...]:
    """Every perimeter that a load on a rectangle could be punched along: closed, and ending at the edges near it.

    Parameters
    ----------
    length, width : float
        Sides of the rectangle, the first along x. [m]
    off : float
        How far from its sides the perimeter runs. [m]
    along, across : float
        From its nearest side to the free edge that lies in the direction of x, and of y; inf where none is near. [m]
    round_corners : bool
        Whether the perimeter turns with that radius, or by straight sides. [1]

    Returns
    -------
    tuple of Perimeter
        The closed one first; one that ends at an edge only where one is near. [m, m²]

    Raises
    ------
    OutOfDomain
        A side or ``off`` not above zero, or a distance below zero.

    Source
    ------
    ACI 318-19 22.6.4 (straight sides); EN 1992-1-1 figures 6.13 and 6.15 (rounded); both from memory.

    Examples
    --------
    A square of 0.2 m and a perimeter 0.1 m off: closed, and where its side lies in an edge, the corners straight.

    >>> closed, edge = perimeters(0.2, 0.2, 0.1, along=0.0)
    >>> round(closed.length, 6), round(closed.area, 6), round(edge.length, 6), round(edge.area, 6)
    (1.6, 0.16, 1.0, 0.12)
    """
    above_zero(length=length, width=width, off=off)
    not_below_zero(along=along, across=across)
    if off == inf:
        raise OutOfDomain("off must be a length")
    turn = pi / 2.0 * off if round_corners else 2.0 * off  # of each corner
    cut = (1.0 - pi / 4.0) * off**2 if round_corners else 0.0
    x, y = length + 2.0 * off, width + 2.0 * off
    found = [Perimeter(2.0 * (length + width) + 4.0 * turn, x * y - 4.0 * cut, 0)]
    if along < inf:
        reach = length + along
        found.append(Perimeter(width + 2.0 * reach + 2.0 * turn, (reach + off) * y - 2.0 * cut, 1))
    if across < inf:
        reach = width + across
        found.append(Perimeter(length + 2.0 * reach + 2.0 * turn, (reach + off) * x - 2.0 * cut, 1))
    if along < inf and across < inf:
        out, up = length + along, width + across
        found.append(Perimeter(out + up + turn, (out + off) * (up + off) - cut, 2))
    return tuple(found)
