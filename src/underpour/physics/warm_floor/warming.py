"""How long a floor takes to warm: the tube cell through time, with so much heat and no warmer water than allowed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, inf, sqrt

import numpy as np
from numpy.typing import NDArray

from ..conduction import condensed
from ..conduction.assemble import Equations
from ..conduction.solve import Climate, solve
from ..domain import above_zero
from .cell import ROOM, TOLERANCE, WATER, Layer, Tube, drawn, films

Array = NDArray[np.float64]
FLOOR = 2  # place of the surface in what is told of a step
MORE = 1.5  # times what it took, that is followed
FOR_EVER = 1e14  # s: a step in which all comes to rest
GAMMA = 1.0 - 1.0 / sqrt(2.0)  # of the two stages of a step: second order, and nothing is left to ring


@dataclass(frozen=True)
class Warming:
    """A floor from cold, at the end of each step; all per square metre of floor."""

    hours: Array  # (n,) h
    water: Array  # (n,) degC, mean along the loop
    floor: Array  # (n,) degC, mean of the surface
    given: Array  # (n,) W/m², by the water
    up: Array  # (n,) W/m², into the room
    down: Array  # (n,) W/m², out below

    def reached(self, floor: float) -> float | None:
        """When the surface first is so warm; None where it is not by the end. [degC -> h]"""
        there = np.nonzero(self.floor >= floor)[0]
        if not len(there):
            return None
        n = int(there[0])
        if n == 0:
            return float(self.hours[0])
        part = (floor - self.floor[n - 1]) / (self.floor[n] - self.floor[n - 1])
        return float(self.hours[n - 1] + part * (self.hours[n] - self.hours[n - 1]))


def without_losses(thickness: float, heat_capacity: float, rise: float, power: float) -> float:
    """Hours that so much heat takes to warm a slab that loses none.

    Parameters
    ----------
    thickness : float
        [m]
    heat_capacity : float
        By volume. [J/(m³·K)]
    rise : float
        [K]
    power : float
        By area. [W/m²]

    Returns
    -------
    float
        [h]

    Raises
    ------
    OutOfDomain
        A number not above zero.

    Source
    ------
    Balance of energy.

    Examples
    --------
    150 mm of 2.2 MJ/(m³·K) by 30 °F, 5.5 MJ/m², at 70 W/m².

    >>> round(without_losses(0.150, 2.2e6, 30.0 / 1.8, 70.0), 1)
    21.8
    """
    above_zero(thickness=thickness, heat_capacity=heat_capacity, rise=rise, power=power)
    return thickness * heat_capacity * rise / power / 3600.0


def warm_up(
    layers: Sequence[Layer],
    tube: Tube,
    film: float,
    below: float,
    *,
    start: float,
    room: float,
    ground: float,
    power: float,
    warmest: float,
    hours: float,
    until: float = inf,
    step: float = 900.0,
) -> Warming:
    """A floor from cold while its water gives a steady heat, until the water is as warm as it may be.

    Parameters
    ----------
    layers : sequence of Layer
        As for ``cell``, each with what it stores. [m, W/(m·K), J/(m³·K)]
    tube : Tube
        [m, m·K/W]
    film, below : float
        As for ``cell``. [m²·K/W]
    start : float
        Of all layers. [degC]
    room, ground : float
        Of the room and of the place below, held. [degC]
    power : float
        That the water gives while it may. [W/m²]
    warmest : float
        That the mean of the water may be; heat falls off once it is there. [degC]
    hours : float
        That are followed at the most. [h]
    until : float
        Surface from which on only half as long again is followed as it took. [degC]
    step : float
        [s]

    Returns
    -------
    Warming
        [h, degC, W/m²]

    Raises
    ------
    OutOfDomain
        A layer that stores nothing, or a number not above zero where it must be.

    Source
    ------
    Conduction through time by elements of third degree; two implicit stages a step, stiffly accurate and L-stable
    (Alexander 1977, from memory).

    Examples
    --------
    Once warm, what the water gives goes up and down.

    >>> slab = (Layer(0.10, 2.0, 2e6), Layer(0.05, 0.035, 4e4))
    >>> made = warm_up(slab, Tube(0.016, 0.05, 0.2, 0.1), 0.1, 0.5, start=10.0, room=20.0, ground=10.0, power=80.0,
    ...     warmest=60.0, hours=72.0)
    >>> round(float(made.up[-1] + made.down[-1]))
    80
    """
    above_zero(power=power, hours=hours, step=step)
    for layer in layers:
        above_zero(heat_capacity=layer.heat_capacity)
    cold = start, room, ground
    return _kept(tuple(layers), tube, (film, below), cold, power, warmest, hours, until, step)


@lru_cache(maxsize=16)
def _kept(
    layers: tuple[Layer, ...],
    tube: Tube,
    around: tuple[float, float],
    cold: tuple[float, float, float],
    power: float,
    warmest: float,
    hours: float,
    until: float,
    step: float,
) -> Warming:
    """A floor from cold, kept by its numbers: who draws it asks for it once more."""
    start, *airs = cold
    heating = _Heating(_Cell.of(layers, tube, *around), tube, step)
    now = np.full(heating.cell.eq.unknowns, start)
    return heating.followed(now, (airs[0], airs[1]), power, warmest, hours, until)[1]


def after_rest(
    layers: Sequence[Layer],
    tube: Tube,
    film: float,
    below: float,
    *,
    water: float,
    room: float,
    resting: float,
    ground: float,
    rest: float,
    power: float,
    warmest: float,
    hours: float,
    until: float = inf,
    step: float = 900.0,
) -> tuple[Warming, Warming]:
    """A warm floor whose heat rests for a time and comes on again.

    Parameters
    ----------
    layers : sequence of Layer
        As for ``warm_up``. [m, W/(m·K), J/(m³·K)]
    tube : Tube
        [m, m·K/W]
    film, below : float
        As for ``cell``. [m²·K/W]
    water : float
        Mean along the loop, as which the floor has long stood when its heat is turned off. [degC]
    room, resting : float
        Of the room while it is heated, and meanwhile. [degC]
    ground : float
        Of the place below, held. [degC]
    rest : float
        How long no heat comes. [h]
    power, warmest : float
        As for ``warm_up``, once it comes again. [W/m², degC]
    hours : float
        That are followed from then on, at the most. [h]
    until : float
        As for ``warm_up``. [degC]
    step : float
        [s]

    Returns
    -------
    resting, back : Warming
        From the end of the heat, and from its return on. [h, degC, W/m²]

    Raises
    ------
    OutOfDomain
        As for ``warm_up``, or a rest not above zero.

    Source
    ------
    As for ``warm_up``.

    Examples
    --------
    What has rested long stands between room and ground.

    >>> slab = (Layer(0.10, 2.0, 2e6), Layer(0.05, 0.035, 4e4))
    >>> cooled, back = after_rest(slab, Tube(0.016, 0.05, 0.2, 0.1), 0.1, 0.5, water=35.0, room=20.0, resting=15.0,
    ...     ground=15.0, rest=240.0, power=80.0, warmest=60.0, hours=24.0)
    >>> round(float(cooled.floor[-1]), 1), bool(back.floor[-1] > 20.0)
    (15.0, True)
    """
    above_zero(rest=rest, power=power, hours=hours, step=step)
    for layer in layers:
        above_zero(heat_capacity=layer.heat_capacity)
    heating = _Heating(_Cell.of(layers, tube, film, below), tube, step)
    now = heating.settled(water, (room, ground))
    now, cooled = heating.followed(now, (resting, ground), 0.0, inf, rest, inf)
    return cooled, heating.followed(now, (room, ground), power, warmest, hours, until)[1]


class _Heating:
    """A cell with its equations factorised for steps of one length."""

    def __init__(self, cell: _Cell, tube: Tube, step: float):
        self.cell, self.tube, self.step = cell, tube, step
        self.by_heat, self.by_water = _Steps(cell, step, held=False), _Steps(cell, step, held=True)

    def settled(self, water: float, airs: tuple[float, float]) -> Array:
        """Temperatures of a floor whose water and airs have long been so warm."""
        return _Steps(self.cell, FOR_EVER, held=True).after(
            np.full(self.cell.eq.unknowns, water), np.array([water, *airs]), 0.0
        )

    def followed(
        self, now: Array, airs: tuple[float, float], power: float, warmest: float, hours: float, until: float
    ) -> tuple[Array, Warming]:
        """From such temperatures on: those at the end, and what was on the way."""
        air, told = np.array([0.0, *airs]), []  # the water's stands in it where it is held
        steps = round(hours * 3600.0 / self.step)
        for n in range(1, steps + 1):
            after = self.by_heat.after(now, air, power)
            water = self.cell.around(after) + power * self.tube.spacing * self.tube.wall
            if water > warmest:
                air[WATER], water = warmest, warmest
                after = self.by_water.after(now, air, 0.0)
            now = after
            told.append((n * self.step / 3600.0, water, *self.cell.told(now, air, water)))
            if told[-1][FLOOR] >= until:
                steps = min(steps, ceil(n * MORE))
            if n >= steps:
                break
        hour, water_then, floor, given, up, down = np.array(told).T
        return now, Warming(hour, water_then, floor, given, up, down)


@dataclass(frozen=True)
class _Cell:
    """The half cell's equations, and what is read from its temperatures."""

    eq: Equations
    resistance: Array  # (faces,)
    half: float  # m
    perimeter: float  # m, of the half hole

    @classmethod
    def of(cls, layers: Sequence[Layer], tube: Tube, film: float, below: float) -> _Cell:
        bodies, spaces = drawn(layers, tube)
        climates = {space.where: Climate(float(space.where == "water")) for space in spaces}
        coarse = solve(bodies, spaces, films(tube, film, below), climates, tolerance=10.0 * TOLERANCE).coarse
        faces = coarse.equations.faces
        around = float(faces.length[faces.space == WATER].sum())
        return cls(coarse.equations, coarse.resistance, tube.spacing / 2.0, around)

    def around(self, now: Array) -> float:
        """Mean of the hole's surface. [degC]"""
        ones = np.where(self.eq.faces.space == WATER, 1.0, np.inf)
        return -float(self.eq.flows(ones, np.zeros(len(ones)), now).sum()) / self.perimeter

    def told(self, now: Array, air: Array, water: float) -> tuple[float, float, float, float]:
        """Surface, heat given, up and down. [degC, W/m²]"""
        felt = air[self.eq.faces.space]
        felt[self.eq.faces.space == WATER] = water
        by_face = self.eq.flows(self.resistance, felt, now) / self.half
        given, up, down = (float(by_face[self.eq.faces.space == space].sum()) for space in range(3))
        film = float(self.resistance[self.eq.faces.space == ROOM][0])
        return float(air[ROOM]) - film * up, given, -up, -down


class _Steps:
    """Steps of one length, with the water's warmth held or its heat."""

    def __init__(self, cell: _Cell, step: float, *, held: bool):
        self.cell, pace = cell, 1.0 / (GAMMA * step)
        is_water = cell.eq.faces.space == WATER
        self.resistance = cell.resistance if held else np.where(is_water, np.inf, cell.resistance)
        self.factors = condensed.factorised(condensed.condensed(cell.eq, pace), self.resistance)
        self.storage = cell.eq.storage * pace
        self.from_water = cell.eq.load(np.ones(len(is_water)), is_water.astype(float)) / cell.perimeter

    def after(self, now: Array, air: Array, power: float) -> Array:
        """Temperatures after one step. [degC, W/m² -> degC]"""
        brought = self.cell.eq.load(self.resistance, air[self.cell.eq.faces.space])
        brought = brought + self.from_water * power * self.cell.half
        first = self.factors.solve(brought + self.storage @ now)
        return np.asarray(self.factors.solve(brought + self.storage @ (now + (1.0 - GAMMA) / GAMMA * (first - now))))
