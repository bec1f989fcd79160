"""A slab on springs as the plate by elements takes it: outline, thickness, support, joints and what stands on it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import inf

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero, not_below_zero

Ring = Sequence[tuple[float, float]]  # corners in turn; m


@dataclass(frozen=True)
class Region:
    """A part of the slab in which something has another value than elsewhere."""

    outline: Ring
    value: float  # thickness in m, or k in N/m³


@dataclass(frozen=True)
class Joint:
    """A straight joint; it turns freely, and carries as much shear as it is stiff.

    It runs right through the slab unless it says where it begins and ends; an end inside the slab is held together.
    """

    across: str  # "x": the line x = at; "y": the line y = at
    at: float  # m
    stiffness: float  # shear by length of joint and by step of its two sides; N/m²
    start: float = -inf  # along the line; m
    end: float = inf  # m


@dataclass(frozen=True)
class Pressed:
    """An even pressure on a part of the slab."""

    outline: Ring
    pressure: float  # Pa

    @cached_property
    def area(self) -> float:
        """[m²]"""
        return abs(area(self.outline))

    @property
    def force(self) -> float:
        """[N]"""
        return self.area * self.pressure

    @cached_property
    def middle(self) -> tuple[float, float]:
        """Centre of area. [m]"""
        x, y = np.asarray(self.outline, float).T
        part = x * np.roll(y, -1) - np.roll(x, -1) * y
        by = 3.0 * part.sum()
        return float(((x + np.roll(x, -1)) * part).sum() / by), float(((y + np.roll(y, -1)) * part).sum() / by)


@dataclass(frozen=True)
class Slab:
    """A plate of one concrete, thin against its length, on springs that press up and, unless said, do not pull."""

    outline: Ring
    thickness: float  # m
    modulus: float  # Young's modulus of the concrete; Pa
    poisson: float  # 1
    foundation: float  # k of what lies below; N/m³
    holes: tuple[Ring, ...] = ()
    thickened: tuple[Region, ...] = ()
    otherwise_borne: tuple[Region, ...] = ()  # other foam, or k = 0 where nothing bears
    joints: tuple[Joint, ...] = ()

    def __post_init__(self) -> None:
        above_zero(thickness=self.thickness, modulus=self.modulus, foundation=self.foundation)
        not_below_zero(poisson=self.poisson)
        for region in self.thickened:
            above_zero(thickness=region.value)
        for region in self.otherwise_borne:
            not_below_zero(foundation=region.value)
        for joint in self.joints:
            not_below_zero(stiffness=joint.stiffness)
        for ring in (self.outline, *self.holes):
            if len(ring) < 3 or abs(area(ring)) == 0.0:
                raise OutOfDomain("an outline needs three corners or more, and an area")

    def thickness_at(self, x: NDArray, y: NDArray) -> NDArray[np.float64]:
        """Thickness at places of any shape. [m]"""
        return _valued(self.thickness, self.thickened, x, y)

    def foundation_at(self, x: NDArray, y: NDArray) -> NDArray[np.float64]:
        """k of what lies below at places of any shape. [N/m³]"""
        return _valued(self.foundation, self.otherwise_borne, x, y)


def area(ring: Ring) -> float:
    """Area of an outline, positive where it turns left.

    Parameters
    ----------
    ring : sequence of pairs
        Corners in turn. [m]

    Returns
    -------
    float
        [m²]

    Source
    ------
    Gauss's formula.

    Examples
    --------
    >>> area([(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)])
    2.0
    """
    x, y = np.asarray(ring, float).T
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum() / 2.0)


def inside(rings: Sequence[Ring], x: NDArray, y: NDArray) -> NDArray[np.bool_]:
    """Whether places lie within an odd number of outlines: in an outline and in none of its holes.

    Parameters
    ----------
    rings : sequence of outlines
        [m]
    x, y : ndarray, the same shape
        [m]

    Returns
    -------
    ndarray of bool, the same shape
        [1]

    Source
    ------
    A ray to the right crosses the outline an odd number of times; common practice, no source.

    Examples
    --------
    >>> inside([[(0, 0), (2, 0), (2, 2), (0, 2)]], np.array([1.0, 3.0]), np.array([1.0, 1.0])).tolist()
    [True, False]
    """
    odd = np.zeros(np.shape(x), bool)
    for ring in rings:
        corners = np.asarray(ring, float)
        for (x0, y0), (x1, y1) in zip(corners, np.roll(corners, -1, axis=0), strict=True):
            if y0 != y1:
                spans = (y0 > y) != (y1 > y)
                odd ^= spans & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
    return odd


def _valued(usual: float, regions: Sequence[Region], x: NDArray, y: NDArray) -> NDArray[np.float64]:
    """The value at places; where regions overlap the last one goes first."""
    found = np.full(np.shape(x), usual, float)
    for region in regions:
        found = np.where(inside([region.outline], x, y), region.value, found)
    return found
