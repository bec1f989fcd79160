"""How warm a surface below a floor would be with nothing on it, from how warm it is with the floor on it."""

from __future__ import annotations

from cmath import sqrt
from math import pi

from ..domain import above_zero
from ..year import YEAR


def uncovered(
    room: tuple[float, complex],
    plane: tuple[float, complex],
    outdoors: float,
    above: float,
    film: float,
    conductivity: float,
    capacity: float,
) -> tuple[float, complex]:
    """Temperature of a surface once what lies on it is taken off: mean of the year and its swing.

    The mean flows out to the open air by the resistance that it has now; the swing meets endless ground, whose own
    swing below is what it is now. What lies above stores no heat.

    Parameters
    ----------
    room, plane : tuple of float and complex
        Mean and swing of the room, and of the surface below the floor as it lies. [degC], [K]
    outdoors : float
        Mean of the year outdoors. [degC]
    above : float
        Resistance from the room's air to the surface, film and layers. [m²·K/W]
    film : float
        Resistance between the room's air and the bare surface. [m²·K/W]
    conductivity, capacity : float
        Of the ground, the latter by volume. [W/(m·K)] and [J/(m³·K)]

    Returns
    -------
    tuple of float and complex
        [degC], [K]

    Raises
    ------
    OutOfDomain
        A resistance or a property of the ground that is not above zero.

    Source
    ------
    Resistances in a row; Carslaw and Jaeger 1959, 2.6, for the ground's answer to a wave: 1/sqrt(iωλC) (from memory).

    Examples
    --------
    20 °C over 10 °C outdoors, the surface half of the way with 1 m²·K/W above it: half of that above leaves it at two
    thirds.

    >>> mean, _ = uncovered((20.0, 0j), (15.0, 0j), 10.0, 1.0, 0.5, 2.0, 2e6)
    >>> round(mean, 6)
    16.666667
    """
    above_zero(above=above, film=film, conductivity=conductivity, capacity=capacity)
    (inside, sways), (mean, swing) = room, plane
    share = (mean - outdoors) / (inside - outdoors) if inside != outdoors else 0.0
    ground = above * share / (1.0 - share) if 0.0 < share < 1.0 else None
    bare = mean if ground is None else outdoors + (inside - outdoors) * ground / (ground + film)
    wave = 1.0 / sqrt(2j * pi / YEAR * conductivity * capacity)
    below = swing - (sways - swing) / above * wave
    return bare, (below * film + sways * wave) / (film + wave)
