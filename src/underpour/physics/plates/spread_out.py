"""What a slab and what lies below it feel all around its loads, on a grid: for pictures of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from .felt import loaded, radius_of
from .slab import Pressed, Slab, inside

AROUND = 3.0  # radii of relative stiffness beyond the loads: there next to nothing is left
NEAR = (0.0, 0.06, 0.12, 0.2, 0.3, 0.42, 0.56, 0.72, 0.9, 1.1, 1.35, 1.65, 2.0, 2.4, 2.7, 3.0)  # radii, off a load
ACROSS = 5  # places on a load, across
SAME = 0.02  # radii: lines of the grid that lie nearer than that are one


@dataclass(frozen=True, eq=False)
class SlabField:
    """Settlement, pressure and tension on lines across and up; NaN where there is no slab."""

    x: NDArray[np.float32]  # (n,) m
    y: NDArray[np.float32]  # (m,) m
    settlement: NDArray[np.float32]  # (m, n) m, of the loads alone
    pressure: NDArray[np.float32]  # (m, n) Pa on what lies below, of the loads alone
    below: NDArray[np.float32]  # (m, n) Pa, largest tension at the underside
    above: NDArray[np.float32]  # (m, n) Pa, largest tension at the top

    def between(
        self, values: NDArray[np.float32], x: NDArray[np.float64], y: NDArray[np.float64]
    ) -> NDArray[np.float64]:
        """One of the fields on other lines, rising, (len(y), len(x)): smooth; straight where the slab has gaps. [m]"""
        own_x, own_y, known = self.x.astype(float), self.y.astype(float), values.astype(float)
        if np.isnan(known).any():
            rows = np.stack([np.interp(x, own_x, row) for row in known])
            return np.stack([np.interp(y, own_y, column) for column in rows.T], -1)
        from scipy.interpolate import RectBivariateSpline

        degrees = [min(3, len(lines) - 1) for lines in (own_y, own_x)]
        return np.asarray(RectBivariateSpline(own_y, own_x, known, kx=degrees[0], ky=degrees[1])(y, x))


@lru_cache(maxsize=64)
def around(slab: Slab, loads: tuple[Pressed, ...], weight: float) -> SlabField:
    """What is felt from the loads out to three radii of relative stiffness, on lines that crowd at the loads.

    Parameters
    ----------
    slab : Slab
        [m, Pa, N/m³]
    loads : tuple of Pressed
        Every one within the outline. [m, Pa]
    weight : float
        Own weight of the slab where it has its usual thickness. [Pa]

    Returns
    -------
    SlabField
        [m, Pa]

    Raises
    ------
    OutOfDomain
        A load hangs over.
    StillLifting
        The loads turn the slab over.

    Source
    ------
    ``plate.plate``; where the springs let go, the pressure is nought.

    Examples
    --------
    Below the middle of a post a large slab settles most.

    >>> post = Pressed(((-0.1, -0.1), (0.1, -0.1), (0.1, 0.1), (-0.1, 0.1)), 1e6)
    >>> slab = Slab(((-4.0, -4.0), (4.0, -4.0), (4.0, 4.0), (-4.0, 4.0)), 0.15, 3e10, 0.2, 3e7)
    >>> field = around(slab, (post,), 3600.0)
    >>> row, column = np.unravel_index(field.settlement.argmax(), field.settlement.shape)
    >>> abs(round(float(field.x[column]), 6)), abs(round(float(field.y[row]), 6))
    (0.0, 0.0)
    """
    made, at_rest, found = loaded(slab, loads, weight)
    x, y = (_lines(slab, loads, axis) for axis in (0, 1))
    grid_x, grid_y = np.meshgrid(x, y)
    outline = np.asarray(slab.outline, float)
    there = inside([slab.outline, *slab.holes], *_drawn_in(outline, grid_x, grid_y))
    both, before = (made.answered(each, grid_x[there], grid_y[there]) for each in (found, at_rest))

    def spread(values: NDArray[np.float64]) -> NDArray[np.float32]:
        filled = np.full(grid_x.shape, np.nan, np.float32)
        filled[there] = values
        return filled

    return SlabField(
        x.astype(np.float32),
        y.astype(np.float32),
        spread(both.settlement - before.settlement),
        spread(np.maximum(both.pressure - before.pressure, 0.0)),
        spread(np.maximum(both.tension_below, 0.0)),
        spread(np.maximum(both.tension_above, 0.0)),
    )


def _drawn_in(
    outline: NDArray[np.float64], x: NDArray[np.float64], y: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Places a little nearer to the middle of an outline, so that those on its sides count as within."""
    middle = (outline.min(axis=0) + outline.max(axis=0)) / 2.0
    return x + 1e-9 * (middle[0] - x), y + 1e-9 * (middle[1] - y)


def _lines(slab: Slab, loads: Sequence[Pressed], axis: int) -> NDArray[np.float64]:
    """Lines of the grid along one axis: on each load, then further and further apart, up to the slab's end."""
    radius = radius_of(slab)
    steps = radius * np.array(NEAR)
    found = []
    for load in loads:
        side = np.asarray(load.outline, float)[:, axis]
        low, high = side.min(), side.max()
        found += [low - steps[1:], np.linspace(low, high, ACROSS), high + steps[1:]]
    ends = np.asarray(slab.outline, float)[:, axis]
    lines = np.unique(np.clip(np.concatenate(found), ends.min(), ends.max()))
    kept = [lines[0]]
    for each in lines[1:-1]:
        if each - kept[-1] >= SAME * radius:
            kept.append(each)
    if lines[-1] - kept[-1] < SAME * radius and len(kept) > 1:
        kept.pop()
    return np.array([*kept, lines[-1]])
