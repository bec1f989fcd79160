"""Temperature of ground that no building warms."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain
from ..year import YEAR


def undisturbed_temperature(
    depth: Numbers,
    moment: Numbers,
    mean: Numbers,
    amplitude: Numbers,
    coldest: Numbers,
    diffusivity: Numbers,
    year: Numbers = YEAR,
) -> Numbers:
    """Ground at a depth below open land whose surface swings once a year: each damping depth dulls it and delays it.

    Parameters
    ----------
    depth : float or ndarray
        Below the surface; 0 is the surface. [m]
    moment : float or ndarray, broadcast
        Of the year, from 0 at the start of January to 1. [1]
    mean : float or ndarray, broadcast
        Of the surface over the year; heat from the depths of the earth is left out. [degC]
    amplitude : float or ndarray, broadcast
        Half of the surface's swing over the year. [K]
    coldest : float or ndarray, broadcast
        Moment of the year at which the surface is coldest. [1]
    diffusivity : float or ndarray, broadcast
        Of the ground, conductivity over heat capacity by volume. [m²/s]
    year : float or ndarray, broadcast
        Length of the year. [s]

    Returns
    -------
    float or ndarray, the broadcast shape
        [degC]

    Raises
    ------
    OutOfDomain
        Diffusivity or year not above zero, or depth or amplitude below zero.

    Source
    ------
    Kusuda and Achenbach 1965, ASHRAE Transactions 71(1), 61-74 (formula quoted).

    Examples
    --------
    One damping depth down, when the surface is coldest: 10 - 12 cos(1) / e.

    >>> round(undisturbed_temperature((YEAR * 1e-6 / np.pi) ** 0.5, 0.1, 10.0, 12.0, 0.1, 1e-6), 4)
    7.6148
    """
    above_zero(diffusivity=diffusivity, year=year)
    not_below_zero(depth=depth, amplitude=amplitude)
    depths = depth / np.sqrt(year * diffusivity / np.pi)
    wave = np.cos(2.0 * np.pi * (np.subtract(moment, coldest)) - depths)
    return plain(mean - amplitude * np.exp(-depths) * wave)
