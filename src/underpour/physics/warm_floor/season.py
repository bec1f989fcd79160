"""A year of a heated floor: what its water must be in each month, what goes up and what goes down into real ground.

The cell stands over the ground as a whole section has it: a resistance that is one for what lasts and another for what
swings with the year. A year of twelve months is a sum of waves, and each wave meets its own.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero
from .cell import Cell

Array = NDArray[np.float64]
MONTHS = 12


@dataclass(frozen=True)
class Below:
    """What a floor stands on, as its underside meets it."""

    resistance: complex  # m²·K/W, to the place whose temperature follows
    temperature: complex  # degC for what lasts, K for what swings


@dataclass(frozen=True)
class Season:
    """Twelve months of a heated floor."""

    heated: NDArray[np.bool_]  # (12,)
    water: Array  # (12,) degC, mean along the loops; in months without heat what stands in them
    up: Array  # (12,) W/m²
    down: Array  # (12,) W/m²
    below: Array  # (12,) degC, at the place that the cell was solved over: so warm that it takes what goes down

    @property
    def given(self) -> float:
        """By the water, in the months that are heated, on their mean. [W/m²]"""
        return float((self.up + self.down)[self.heated].sum()) / MONTHS

    @property
    def down_of_up(self) -> float:
        """Down over up in the months that are heated. [1]"""
        return float(self.down[self.heated].sum() / self.up[self.heated].sum())

    @property
    def down_of_total(self) -> float:
        """Down over what the water gives in the months that are heated. [1]"""
        return float(self.down[self.heated].sum() / (self.up + self.down)[self.heated].sum())


def over(cell: Cell, below: float, other: complex) -> tuple[complex, complex, complex]:
    """What water, room and ground hand to one another where another resistance lies below the same cell.

    Parameters
    ----------
    cell : Cell
        Solved over ``below``. [W/(m²·K)]
    below : float
        [m²·K/W]
    other : complex
        [m²·K/W]

    Returns
    -------
    water to room, water to ground, ground to room
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        A resistance below that the cell cannot have been solved over.

    Source
    ------
    Two networks with one star in common; derived. The underside is of one temperature, as it is below foam.

    Examples
    --------
    The same resistance gives the same three.

    >>> from underpour.physics.warm_floor.cell import Surface
    >>> made = Cell(5.0, 0.2, 0.1, 0.0, 0.1, Surface(np.zeros(1), np.zeros(1), np.zeros(1)))
    >>> [round(each.real, 9) for each in over(made, 2.0, 2.0)]
    [5.0, 0.2, 0.1]
    """
    left = 1.0 - (cell.water_to_ground + cell.ground_to_room) * below
    if not left > 0.0:
        raise OutOfDomain(f"no cell over {below} m²·K/W hands on so much")
    from_water, from_room = cell.water_to_ground / left, cell.ground_to_room / left
    own = 1.0 + (from_water + from_room) * below
    straight = cell.water_to_room - from_water * from_room * below / own
    through = 1.0 + (from_water + from_room) * other
    return straight + from_water * from_room * other / through, from_water / through, from_room / through


def season(cell: Cell, below: float, lasting: Below, yearly: Below, room: Array, load: Array) -> Season:
    """What the water must be in each month for the room's load, and what goes down meanwhile.

    Parameters
    ----------
    cell : Cell
        Solved over ``below``. [W/(m²·K)]
    below : float
        Any resistance above zero: what the cell was solved over, not what the ground is worth. [m²·K/W]
    lasting, yearly : Below
        Of the ground, for the mean of the year and for what swings; what swings faster meets the year's resistance. It
        may be below zero where edges let more through than the floor's own layers would. The yearly temperature is a
        complex swing: mean + Re(swing exp(2 pi i f)), f the part of the year. [m²·K/W, degC, K]
    room : ndarray, shape (12,)
        [degC]
    load : ndarray, shape (12,)
        Heat that the floor owes the room; 0 in months without heat, when the water stands. [W/m²]

    Returns
    -------
    Season
        [degC, W/m²]

    Raises
    ------
    OutOfDomain
        No month has a load.

    Source
    ------
    Derived: waves of the year by Fourier, each over its own resistance of the ground (ISO 13370 splits mean and swing
    alike, from memory).

    Examples
    --------
    Ground of one temperature that conducts alike at every pace: each month is steady by itself.

    >>> from underpour.physics.warm_floor.cell import Surface
    >>> made = Cell(5.0, 0.2, 0.1, 0.0, 0.1, Surface(np.zeros(1), np.zeros(1), np.zeros(1)))
    >>> year = season(made, 2.0, Below(2.0, 8.0), Below(2.0, 0.0), np.full(12, 20.0), np.full(12, 40.0))
    >>> round(float(year.water[0]), 3) == round(made.water_for(40.0, 20.0, 8.0), 3)
    True
    """
    above_zero(below=below)
    heated = load > 0.0
    if not heated.any():
        raise OutOfDomain("no month has a load")
    waves = np.fft.rfftfreq(MONTHS, 1.0 / MONTHS)
    handed = np.array([over(cell, below, lasting.resistance if wave == 0 else yearly.resistance) for wave in waves])
    middle = (np.arange(MONTHS) + 0.5) / MONTHS
    ground = lasting.temperature.real + (yearly.temperature * np.exp(2j * np.pi * middle)).real
    to_room, to_ground, across = (_months(handed[:, n]) for n in range(3))
    up_rest = across @ ground - (to_room + across) @ room
    down_rest = across @ room - (to_ground + across) @ ground
    rows = np.where(heated[:, None], to_room, to_room + to_ground)
    wanted = np.where(heated, load - up_rest, -(up_rest + down_rest))
    water = np.linalg.solve(rows, wanted)
    up, down = to_room @ water + up_rest, to_ground @ water + down_rest
    taken = cell.water_to_ground * water + cell.ground_to_room * room - down
    return Season(heated, water, up, down, taken / (cell.water_to_ground + cell.ground_to_room))


def _months(by_wave: NDArray[np.complex128]) -> Array:
    """The matrix (12, 12) that meets each wave of a year of months with its own factor."""
    turned = np.fft.irfft(np.fft.rfft(np.eye(MONTHS), axis=0) * by_wave[:, None], MONTHS, axis=0)
    return np.asarray(turned)
