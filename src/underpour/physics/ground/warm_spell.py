"""How far a warmer room reaches down into floor and ground, month by month."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero, not_below_zero
from ..year import YEAR

Array = NDArray[np.float64]


def warm_spell(
    room: Sequence[float], film: float, depths: Sequence[float], conductivity: float, capacity: float
) -> Array:
    """What a floor on endless ground is warmer by where the air over it is warmer for some months.

    Heat goes straight down: right in the middle of a floor, and near enough at its edge, where the room rules.

    Parameters
    ----------
    room : sequence of 12 floats
        How much warmer the air over the floor is, each year again. [K]
    film : float
        Resistance between that air and the floor. [m²·K/W]
    depths : sequence of n floats
        Resistance from the floor's surface down to each place that is asked for, the last the ground's surface.
        [m²·K/W]
    conductivity, capacity : float
        Of the ground, the latter by volume. [W/(m·K)] and [J/(m³·K)]

    Returns
    -------
    ndarray, (12, n)
        Means of the months. [K]

    Raises
    ------
    OutOfDomain
        Not twelve months, no place, depths that fall or lie below zero, film or ground not above zero.

    Source
    ------
    Carslaw and Jaeger 1959, 2.6: waves in a half space, each of its own length; mass of the floor's layers left out.
    What is warmer in the mean of all months warms floor and ground wholly.

    Examples
    --------
    Two kelvin all year are two kelvin everywhere:

    >>> warm_spell([2.0] * 12, 0.17, [0.0, 2.0], 2.0, 2e6)[0]
    array([2., 2.])
    """
    depth = np.asarray(depths, dtype=float)
    if len(room) != 12 or depth.size == 0 or np.any(np.diff(depth) < 0.0):
        raise OutOfDomain(f"twelve months and depths that do not fall are wanted, got {len(room)} and {depths!r}")
    not_below_zero(depths=depth)
    above_zero(film=film, conductivity=conductivity, capacity=capacity)
    waves = np.fft.rfft(room)
    turns = np.arange(1, waves.size) * 2.0 * np.pi / YEAR
    ground = 1.0 / np.sqrt(1j * turns * conductivity * capacity)
    left = (depth[-1] - depth)[None, :] + ground[:, None]
    share = np.vstack([np.ones((1, depth.size)), left / (left[:, :1] + depth[0] + film)])
    return np.asarray(np.fft.irfft(waves[:, None] * share, 12, axis=0))
