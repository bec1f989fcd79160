"""A floor below something that lies on part of it and keeps the room's warmth off."""

from __future__ import annotations

from math import pi, sqrt

from ..domain import above_zero, not_below_zero


def below_a_patch(
    room: float, under: float, film: float, layers: float, added: float, area: float, conductivity: float
) -> float:
    """Temperature of the floor in the middle of a patch that something lies on.

    Less heat goes down below the patch, so the ground there cools until its sides make up for it: the
    floor is felt through its film, its layers and the ground's resistance to a disc of the patch's area.

    Parameters
    ----------
    room, under : float
        Of the room, and of the underside of the floor's layers where nothing lies on it. [degC]
    film, layers : float
        Of the air at the open floor, and of the floor's layers. [m²·K/W]
    added : float
        Of what lies there, beside the film. [m²·K/W]
    area : float
        Of the patch. [m²]
    conductivity : float
        Of the ground. [W/(m·K)]

    Returns
    -------
    float
        [degC]

    Raises
    ------
    OutOfDomain
        Film, area or conductivity not above zero; layers or what is added below zero.

    Source
    ------
    What a change of one resistance does to a linear network (derived); an even temperature on a disc of radius a of a
    half-space meets pi a / (4 k) over its area (Carslaw and Jaeger 1959, 8.2, from memory). Steady.

    Examples
    --------
    With nothing on it the floor is as warm as it was: half of the way lies above it.

    >>> below_a_patch(room=20.0, under=10.0, film=0.2, layers=0.2, added=0.0, area=2.0, conductivity=1.5)
    15.0
    """
    above_zero(film=film, area=area, conductivity=conductivity)
    not_below_zero(layers=layers, added=added)
    through = film + layers + pi * sqrt(area / pi) / (4.0 * conductivity)
    flux = (room - under) / (film + layers) * through / (through + added)
    return room - flux * (film + added)
