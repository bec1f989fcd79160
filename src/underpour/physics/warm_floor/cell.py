"""The tube cell: half the floor between two tubes, solved once for water, room and ground; anything else is their sum.

The tube is drawn as an eight-sided hole that takes heat from far away exactly as the round one does (the logarithmic
capacities are equal); its wall and the water's own film are a resistance around that hole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import gamma, log, pi, sqrt, tan

import numpy as np
from numpy.typing import NDArray

from ..conduction.shapes import Films, Outline
from ..conduction.solve import Climate, Solved, solve
from ..domain import OutOfDomain, above_zero, not_below_zero

SIDES = 8
TOLERANCE = 2e-4
AIR_STORES = 1.2e3  # J/(m³·K)
STILL_AIR = 0.03  # W/(m·K): a gap of some millimetres, with what crosses it as radiation
DEEP = 0.05  # m of nothing beyond the outermost surfaces
WATER, ROOM, GROUND = 0, 1, 2  # the spaces in their order


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of the floor, from the top down."""

    thickness: float  # m
    conductivity: float  # W/(m·K)
    heat_capacity: float = 0.0  # by volume, J/(m³·K); only what warms up asks for it


@dataclass(frozen=True, slots=True)
class Tube:
    """A tube in the floor."""

    outside: float  # m, diameter
    axis: float  # m, below the floor's surface
    spacing: float  # m
    wall: float  # m·K/W, of wall and water, for one metre of tube
    hollow: float = 0.0  # m of air below it, as wide as the tube: what concrete did not get to


@dataclass(frozen=True)
class Surface:
    """The floor's surface from above a tube to halfway to the next, each in shares of what it is moved by."""

    x: NDArray[np.float64]  # (n,) m
    by_water: NDArray[np.float64]  # (n,) 1, warmer for each kelvin that the water is above the room
    by_ground: NDArray[np.float64]  # (n,) 1, likewise of the ground


@dataclass(frozen=True)
class Cell:
    """What a floor with tubes hands from one to another for each square metre. [W/(m²·K)]"""

    water_to_room: float
    water_to_ground: float
    ground_to_room: float
    within: float  # of the largest of them, estimated numerical error
    film: float  # m²·K/W, from the surface into the room
    surface: Surface

    def up(self, water: float, room: float, ground: float) -> float:
        """Heat into the room. [degC -> W/m²]"""
        return self.water_to_room * (water - room) + self.ground_to_room * (ground - room)

    def down(self, water: float, room: float, ground: float) -> float:
        """Heat into the ground. [degC -> W/m²]"""
        return self.water_to_ground * (water - ground) + self.ground_to_room * (room - ground)

    def water_for(self, up: float, room: float, ground: float) -> float:
        """Mean temperature of the water that gives so much to the room. [W/m², degC -> degC]"""
        return room + (up - self.ground_to_room * (ground - room)) / self.water_to_room

    def floor(self, water: float, room: float, ground: float) -> tuple[float, float, float]:
        """Mean, warmest and coolest of the floor's surface. [degC]"""
        along = room + self.surface.by_water * (water - room) + self.surface.by_ground * (ground - room)
        return room + self.film * self.up(water, room, ground), float(along.max()), float(along.min())


@dataclass(frozen=True, slots=True)
class _Body:
    outline: Outline
    conductivity: float
    heat_capacity: float
    priority: int = 1


@dataclass(frozen=True, slots=True)
class _Space:
    where: str
    outline: Outline


def capacity_of_polygon(sides: int) -> float:
    """Logarithmic capacity of a regular polygon over the distance from its middle to a side.

    Parameters
    ----------
    sides : int
        At least three. [1]

    Returns
    -------
    float
        Radius of the circle that a polygon is, seen from far away, where the circle in it has radius one. [1]

    Raises
    ------
    OutOfDomain
        Fewer sides than three.

    Source
    ------
    Polya and Szego, Isoperimetric inequalities in mathematical physics, table of outer radii (from memory).

    Examples
    --------
    A square of side 2: Gamma(1/4)² / (4 pi^1.5) times 2.

    >>> round(capacity_of_polygon(4), 4)
    1.1803
    """
    if sides < 3:
        raise OutOfDomain(f"a polygon has at least three sides, got {sides}")
    n = 1.0 / sides
    side = 2.0 * tan(pi * n)
    return gamma(n) * side / (2.0 ** (1.0 + 2.0 * n) * sqrt(pi) * gamma(0.5 + n))


def wall_resistance(outside: float, inside: float, conductivity: float, water_film: float = 0.0) -> float:
    """Resistance of a tube's wall and of the film of water in it, for one metre of tube.

    Parameters
    ----------
    outside, inside : float
        Diameters. [m]
    conductivity : float
        Of the wall. [W/(m·K)]
    water_film : float
        From water to wall, by area of the bore; 0 leaves it out. [m²·K/W]

    Returns
    -------
    float
        [m·K/W]

    Raises
    ------
    OutOfDomain
        A bore that is not smaller than the tube, or a number not above zero.

    Source
    ------
    Conduction through a cylinder's wall; any handbook of heat.

    Examples
    --------
    e to one, conductivity 1 / (2 pi): one.

    >>> round(wall_resistance(2.718281828, 1.0, 0.1591549431), 6)
    1.0
    """
    above_zero(outside=outside, inside=inside, conductivity=conductivity)
    not_below_zero(water_film=water_film)
    if inside >= outside:
        raise OutOfDomain(f"the bore must be smaller than the tube, got {inside!r} in {outside!r}")
    return log(outside / inside) / (2.0 * pi * conductivity) + water_film / (pi * inside)


def cell(layers: Sequence[Layer], tube: Tube, film: float, below: float) -> Cell:
    """Solve half the floor between two tubes.

    Parameters
    ----------
    layers : sequence of Layer
        From the floor's surface down; the last is followed by ``below``. [m, W/(m·K)]
    tube : Tube
        [m, m·K/W]
    film : float
        From the surface into the room. [m²·K/W]
    below : float
        From the underside of the last layer to the place whose temperature is called the ground's. [m²·K/W]

    Returns
    -------
    Cell
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        A tube or its hollow that reaches out of its layer, tubes that touch, or a number not above zero.

    Source
    ------
    Conduction by ``conduction.solve`` with sides through which symmetry lets nothing pass; the hole by
    ``capacity_of_polygon``. EN 1264-2 and ISO 11855-2 allow such a calculation in place of their curve (from memory).

    Examples
    --------
    Heat that water gives to a room at its side is what the room lacks; nothing else leaves.

    >>> slab = (Layer(0.10, 2.0), Layer(0.05, 0.035))
    >>> made = cell(slab, Tube(0.016, 0.05, 0.2, 0.1), film=0.1, below=0.5)
    >>> round(made.up(35.0, 20.0, 10.0) + made.down(35.0, 20.0, 10.0), 1) > round(made.up(35.0, 20.0, 20.0), 1)
    True
    """
    return _kept(tuple(layers), tube, film, below)


@lru_cache(maxsize=32)
def _kept(layers: tuple[Layer, ...], tube: Tube, film: float, below: float) -> Cell:
    """The cell, kept by its numbers: who draws it asks for it once more."""
    half = tube.spacing / 2.0
    water, ground = solved_twice(layers, tube, film, below)

    def heat(solved: Solved, space: int) -> tuple[float, float]:
        told = solved.flow(lambda faces: faces.space == space)
        return told.mean / half, told.within / half

    to_room, near = heat(water, ROOM)
    to_ground, far = heat(water, GROUND)
    across, other = heat(ground, ROOM)
    x, by_water, _, _ = water.along(0.0, half, 0.0)
    ground_x, by_ground, _, _ = ground.along(0.0, half, 0.0)
    return Cell(
        -to_room,
        -to_ground,
        -across,
        max(near, far, other),
        film,
        Surface(x, by_water, np.interp(x, ground_x, by_ground)),
    )


def solved_twice(layers: Sequence[Layer], tube: Tube, film: float, below: float) -> tuple[Solved, Solved]:
    """Half the floor between two tubes, with nothing a kelvin warmer than the rest but the water, then but the ground.

    Parameters
    ----------
    layers, tube, film, below
        As for ``cell``. [m, W/(m·K), m²·K/W]

    Returns
    -------
    water, ground : Solved
        [K]

    Raises
    ------
    OutOfDomain
        As for ``cell``.

    Source
    ------
    As for ``cell``.

    Examples
    --------
    See tests/exact/test_between_tubes.py: with room, water and ground a kelvin warmer everything is.
    """
    _refuse(layers, tube, film, below)
    bodies, spaces = drawn(layers, tube)
    resistances = films(tube, film, below)

    def moved(by: str) -> Solved:
        climates = {where: Climate(float(where == by)) for where in ("water", "room", "ground")}
        return solve(bodies, spaces, resistances, climates, tolerance=TOLERANCE)

    return moved("water"), moved("ground")


def _refuse(layers: Sequence[Layer], tube: Tube, film: float, below: float) -> None:
    above_zero(film=film, below=below, outside=tube.outside, spacing=tube.spacing, wall=tube.wall)
    not_below_zero(hollow=tube.hollow)
    for layer in layers:
        above_zero(thickness=layer.thickness, conductivity=layer.conductivity)
    if not tube.outside < tube.spacing:
        raise OutOfDomain(f"tubes must not touch, got spacing {tube.spacing!r} and diameter {tube.outside!r}")


def _reach(tube: Tube) -> float:
    """From the axis to the hole's sides. [m]"""
    return tube.outside / 2.0 / capacity_of_polygon(SIDES)


def drawn(layers: Sequence[Layer], tube: Tube) -> tuple[list[_Body], list[_Space]]:
    """Half the floor between two tubes as bodies and spaces, the water's, the room's and the ground's in this order.

    Parameters
    ----------
    layers : sequence of Layer
        [m]
    tube : Tube
        [m]

    Returns
    -------
    bodies, spaces
        x from above the tube, y from the surface up. [m]

    Raises
    ------
    OutOfDomain
        A tube that does not lie within one layer, or a hollow that reaches out of it.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> len(drawn((Layer(0.1, 2.0), Layer(0.05, 0.035)), Tube(0.016, 0.05, 0.2, 0.1))[0])
    2
    """
    half, reach, top, bodies, lies_in = tube.spacing / 2.0, _reach(tube), 0.0, [], False
    hole = tuple((x, up - tube.axis) for x, up in _hole(reach))
    for layer in layers:
        bottom = top - layer.thickness
        holds = bottom <= -tube.axis - reach and -tube.axis + reach <= top
        outline = _box(0.0, bottom, half, top)
        bodies.append(_Body((*outline, *reversed(hole)) if holds else outline, layer.conductivity, layer.heat_capacity))
        if holds and tube.hollow > 0.0:
            under = -tube.axis - reach
            if under - tube.hollow < bottom - 1e-9:
                raise OutOfDomain(f"a hollow of {tube.hollow!r} m reaches out of the tube's layer")
            bodies.append(_Body(_box(0.0, under - tube.hollow, reach, under), STILL_AIR, AIR_STORES, priority=0))
        top, lies_in = bottom, lies_in or holds
    if not lies_in:
        raise OutOfDomain(f"the tube must lie within one layer, got its axis {tube.axis!r} m below the surface")
    return bodies, [
        _Space("water", hole),
        _Space("room", _box(0.0, 0.0, half, DEEP)),
        _Space("ground", _box(0.0, top - DEEP, half, top)),
    ]


def _hole(reach: float) -> Outline:
    """Half of it, from its lowest place round to its highest, about its axis."""
    flat = reach * tan(pi / SIDES)
    return ((0.0, -reach), (flat, -reach), (reach, -flat), (reach, flat), (flat, reach), (0.0, reach))


def _box(x0: float, y0: float, x1: float, y1: float) -> Outline:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def films(tube: Tube, film: float, below: float) -> dict[str, Films]:
    """The resistances at the surfaces of a cell: round the hole, so that the tube's wall is counted, above and below.

    Parameters
    ----------
    tube : Tube
        [m, m·K/W]
    film, below : float
        [m²·K/W]

    Returns
    -------
    dict of str to Films
        [m²·K/W]

    Source
    ------
    Definition.

    Examples
    --------
    >>> films(Tube(0.016, 0.05, 0.2, 0.1), 0.17, 0.5)["room"].up
    0.17
    """
    around = tube.wall * SIDES * 2.0 * _reach(tube) * tan(pi / SIDES)
    return {
        "water": Films(around, around, around),
        "room": Films(film, film, film),
        "ground": Films(below, below, below),
    }
