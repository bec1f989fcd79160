"""Temperatures between two tubes on lines fine enough to draw: the tube cell's own, in shares of what moves them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..conduction.sample import at_places, sampled
from .cell import Layer, Tube, solved_twice


@dataclass(frozen=True)
class Between:
    """Half the floor from above a tube to halfway to the next, in shares of what it is moved by."""

    x: NDArray[np.float64]  # (nx,) m, rising, 0 above the tube
    y: NDArray[np.float64]  # (ny,) m, rising to 0 at the surface
    by_water: NDArray[np.float64]  # (ny, nx) 1, warmer for each kelvin of the water; NaN in the tube and close to it
    by_ground: NDArray[np.float64]  # (ny, nx) 1, likewise of the ground

    def degrees(self, water: float, room: float, ground: float) -> NDArray[np.float64]:
        """Temperatures (ny, nx), NaN in the tube. [degC]"""
        return room + self.by_water * (water - room) + self.by_ground * (ground - room)


def between(layers: Sequence[Layer], tube: Tube, film: float, below: float) -> Between:
    """Temperatures everywhere in half the floor between two tubes.

    Parameters
    ----------
    layers, tube, film, below
        As for ``cell``. [m, W/(m·K), m²·K/W]

    Returns
    -------
    Between
        [m, 1]

    Raises
    ------
    OutOfDomain
        As for ``cell``.

    Source
    ------
    As for ``cell``; between the unknowns the elements' own polynomials.

    Examples
    --------
    Water, room and ground alike: everything is.

    >>> slab = (Layer(0.10, 2.0), Layer(0.05, 0.035))
    >>> made = between(slab, Tube(0.016, 0.05, 0.2, 0.1), film=0.1, below=0.5)
    >>> round(float(np.nanmax(np.abs(made.degrees(20.0, 20.0, 20.0) - 20.0))), 9)
    0.0
    """
    half, depth = tube.spacing / 2.0, sum(layer.thickness for layer in layers)
    water, ground = solved_twice(layers, tube, film, below)
    drawn = sampled(water, (0.0, half, -depth, 0.0), (0.0, half))
    x, y, by_water = drawn.x.astype(float), drawn.y.astype(float), drawn.mean.astype(float)
    by_ground = at_places(ground.fine.equations, ground.fine.mean, x, y)  # its own grid may be another
    return Between(x, y, by_water, np.where(np.isnan(by_water), np.nan, by_ground))
