"""The layer under a floor as seen from above: outline, footings that part it, openings through them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

import numpy as np

from ..domain import OutOfDomain, above_zero
from ..plates.slab import Ring, area
from .hydraulics import Hydraulics


@dataclass(frozen=True)
class Part:
    """A part of the plan whose layer is another one."""

    outline: Ring
    hydraulics: Hydraulics


@dataclass(frozen=True)
class Plan:
    """A layer in one outline, none of it below footings; parts have hydraulics of their own, the last one's first."""

    outline: Ring
    hydraulics: Hydraulics
    holes: tuple[Ring, ...] = ()
    footings: tuple[Ring, ...] = ()
    parts: tuple[Part, ...] = ()

    def __post_init__(self) -> None:
        for ring in (self.outline, *self.holes, *self.footings, *(part.outline for part in self.parts)):
            if len(ring) < 3 or abs(area(ring)) == 0.0:
                raise OutOfDomain("an outline needs three corners or more, and an area")

    @property
    def rings(self) -> tuple[Ring, ...]:
        return (self.outline, *self.holes)


@dataclass(frozen=True)
class Footing:
    """An inner footing in straight stretches: where no air passes, and the openings that were left in it."""

    solid: tuple[Ring, ...]
    openings: tuple[Ring, ...]


def footing(line: Sequence[tuple[float, float]], width: float, openings: Sequence[tuple[float, float]] = ()) -> Footing:
    """A footing along a line, cut where air may cross below it or through it.

    Parameters
    ----------
    line : sequence of pairs
        Its middle, from end to end. [m]
    width : float
        [m]
    openings : sequence of pairs
        How far along the line the middle of each opening is, and how wide it is along the line. [m]

    Returns
    -------
    Footing
        [m]

    Raises
    ------
    OutOfDomain
        An opening that reaches over an end or a bend of the line, or into another one.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> found = footing([(0, 0), (4, 0)], width=0.4, openings=[(2.0, 0.2)])
    >>> [[round(x, 3) for x, _ in ring] for ring in (*found.solid, *found.openings)]
    [[0.0, 1.9, 1.9, 0.0], [2.1, 4.0, 4.0, 2.1], [1.9, 2.1, 2.1, 1.9]]
    """
    above_zero(width=width)
    solid: list[Ring] = []
    found: list[Ring] = []
    before, placed = 0.0, 0
    for start, end in pairwise(line):
        length = hypot(end[0] - start[0], end[1] - start[1])
        above_zero(length=length)
        ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
        of_it = sorted((at - before - by / 2.0, at - before + by / 2.0) for at, by in openings)
        of_it = [each for each in of_it if each[0] >= -1e-9 and each[1] <= length + 1e-9]
        placed += len(of_it)
        if any(this[1] > following[0] for this, following in pairwise(of_it)):
            raise OutOfDomain("openings of a footing reach into one another")
        places = [0.0, *(place for pair in of_it for place in pair), length]
        for n, (first, last) in enumerate(pairwise(places)):
            if last - first > 1e-9:
                ring = [
                    (start[0] + along * ux - aside * uy, start[1] + along * uy + aside * ux)
                    for along, aside in ((first, -width / 2), (last, -width / 2), (last, width / 2), (first, width / 2))
                ]
                (found if n % 2 else solid).append(ring)
        before += length
    if placed < len(openings):
        raise OutOfDomain("an opening reaches over an end or a bend of its footing")
    return Footing(tuple(solid), tuple(found))


def sleeve(bore: float, length: float, friction: float, entry: float, density: float, viscosity: float) -> Hydraulics:
    """Hydraulics of an opening that is a pipe: as if its flow were spread over an opening as wide as its bore.

    Parameters
    ----------
    bore : float
        Inside diameter; the opening in the plan is as wide. [m]
    length : float
        Of the pipe, the footing's width. [m]
    friction : float
        Friction factor by Darcy of fast flow. [1]
    entry : float
        Loss at both ends together, in heads of speed. [1]
    density : float
        Of the air. [kg/m³]
    viscosity : float
        Of the air. [Pa·s]

    Returns
    -------
    Hydraulics
        [Pa·s/m³] and [Pa·s²/m⁵]

    Raises
    ------
    OutOfDomain
        A bore or a length of nought.

    Source
    ------
    Hagen and Poiseuille for slow flow, Darcy and Weisbach with losses at the ends for fast flow (from memory), the two
    added (derived, on the safe side).

    Examples
    --------
    >>> found = sleeve(bore=0.1, length=0.5, friction=0.02, entry=1.5, density=1.2, viscosity=1.8e-5)
    >>> round(found.viscous, 4), round(found.inertial, 1)  # 128 μ w / (π d⁴); ρ (λ L/d + ζ) w² / (2 A² L)
    (0.7334, 311.3)
    """
    above_zero(bore=bore, length=length, density=density, viscosity=viscosity)
    opening = np.pi * bore**2 / 4.0
    viscous = 128.0 * viscosity * bore / (np.pi * bore**4)
    inertial = density * (friction * length / bore + entry) * bore**2 / (2.0 * opening**2 * length)
    return Hydraulics(float(viscous), float(inertial))
