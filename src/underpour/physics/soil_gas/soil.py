"""Air that comes through the ground from outdoors into a layer below a floor that is held at suction."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..domain import above_zero, not_below_zero
from ..plates.slab import Ring, area
from .hydraulics import AIR_VISCOSITY


def inflow(
    x: NDArray[np.float64],
    y: NDArray[np.float64],
    rings: Sequence[Ring],
    permeability: float,
    depth: float,
    viscosity: float = AIR_VISCOSITY,
) -> NDArray[np.float64]:
    """What the ground lets in at places below a floor, by area and suction.

    Beside a long straight edge that is k / (μ π sqrt(x² + d²)), the flow round a wall that stands d deep in even ground
    (exact there); each side of the plan adds the share of the way round from which it is seen. Without depth this is
    exact for any outline whose layer is all at one suction. The water table and layers of the ground are not in it.

    Parameters
    ----------
    x, y : ndarray, shape (n,)
        Places inside the outline. [m]
    rings : sequence of outlines
        The outline and its holes. [m]
    permeability : float
        Of the ground, to air. [m²]
    depth : float
        From the layer down to the bottom of the footing round it. [m]
    viscosity : float
        Of the air. [Pa·s]

    Returns
    -------
    ndarray, shape (n,)
        [m/(s·Pa)]

    Raises
    ------
    OutOfDomain
        Ground without permeability, a depth below nought.

    Source
    ------
    Exit gradient beside one sheet pile, h / (π sqrt(x² + d²)) (Harr 1962, from memory); half space under a plate of
    one potential, sides by the divergence theorem (derived).

    Examples
    --------
    In the middle of a strip 2 m wide without footings: 1/(2 π) of (1 + 1) from each long side, k / μ being one.

    >>> long = [(-1.0, -1e6), (1.0, -1e6), (1.0, 1e6), (-1.0, 1e6)]
    >>> float(round(inflow(np.zeros(1), np.zeros(1), [long], 1.0, 0.0, viscosity=1.0)[0] * np.pi, 6))
    2.0
    """
    above_zero(permeability=permeability, viscosity=viscosity)
    not_below_zero(depth=depth)
    seen = np.zeros(np.shape(x))
    for n, ring in enumerate(rings):
        corners = np.asarray(ring, float)
        if (area(ring) > 0.0) != (n == 0):  # the floor lies left of every side
            corners = corners[::-1]
        for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
            length = np.hypot(*(end - start))
            ux, uy = (end - start) / length
            first = (start[0] - x) * ux + (start[1] - y) * uy
            off = ux * (y - start[1]) - uy * (x - start[0])
            near, far = np.hypot(first, off), np.hypot(first + length, off)
            turned = (first + length) / np.maximum(far, 1e-12) - first / np.maximum(near, 1e-12)
            seen += np.sign(off) * turned / np.maximum(np.hypot(off, depth), 1e-12)
    # sides that are hidden behind others are taken off; with a depth of footing that may overshoot in deep bays
    return permeability / viscosity / (2.0 * np.pi) * np.maximum(seen, 0.0)
