"""Many small loads on a large slab: each a smooth heap for the elements, and what the heap leaves out by closed form.

A heap as wide as a cell is carried by cells of half a metre. What a real base plate does otherwise than its heap has no
net force and dies away within some radii of relative stiffness, so that an endless plate gives it.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import j0, jv

from ..domain import OutOfDomain, above_zero
from . import patches
from .patches import Under
from .slab import Pressed

CELLS = 1.1  # width of a heap in cells of the plate
FAR = 9.0  # radii of relative stiffness: further off nothing is left of the difference
AS_A_POINT = 4.0  # sizes of a load: further off it is one, within a thousandth of its largest moment


def heap(
    force: float, width: float, radius: float, foundation: float, poisson: float, away: NDArray[np.float64]
) -> Under:
    """What an endless plate does beside a force heaped up as Gauss's bell.

    Parameters
    ----------
    force : float
        [N]
    width : float
        Standard deviation. [m]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    poisson : float
        [1]
    away : ndarray, shape (n, 2)
        Places as seen from the middle. [m]

    Returns
    -------
    Under
        Settlement [m] and moments [N·m/m], shape (n,).

    Raises
    ------
    OutOfDomain
        Width, radius or foundation not above zero.

    Source
    ------
    Derived: Hankel's transform of D ∇⁴w + k w = q.

    Examples
    --------
    A heap far wider than the radius of relative stiffness goes straight through: q / k.

    >>> wide = heap(2.0 * np.pi * 50.0**2, 50.0, 1.0, 10.0, 0.2, np.zeros((1, 2)))
    >>> round(float(wide.settlement[0]), 4)
    0.1
    """
    above_zero(width=width, radius=radius, foundation=foundation)
    far, way = np.hypot(*away.T), np.arctan2(away[:, 1], away[:, 0])
    down, turn, apart = (np.interp(far / radius, *each) for each in _tables(width / radius))
    settlement = force / (2.0 * np.pi * foundation * radius**2) * down
    both = (1.0 + poisson) * force / (2.0 * np.pi) * turn
    shear = -(1.0 - poisson) * force / (2.0 * np.pi) * apart
    return Under(
        settlement,
        (both + shear * np.cos(2.0 * way)) / 2.0,
        (both - shear * np.cos(2.0 * way)) / 2.0,
        shear * np.sin(2.0 * way) / 2.0,
    )


def left_out(load: Pressed, width: float, radius: float, foundation: float, poisson: float, places: NDArray) -> Under:
    """What a load does at places beyond what its heap does there.

    Parameters
    ----------
    load : Pressed
        [m, Pa]
    width : float
        Of its heap. [m]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    poisson : float
        [1]
    places : ndarray, shape (n, 2)
        [m]

    Returns
    -------
    Under
        Settlement [m] and moments [N·m/m], shape (n,); nought far off.

    Raises
    ------
    OutOfDomain
        As for ``heap``.

    Source
    ------
    Derived; the difference has no net force.

    Examples
    --------
    See tests/exact/test_large_floors.py.
    """
    away = places - np.array(load.middle)
    far = np.hypot(*away.T)
    size = float(np.ptp(np.asarray(load.outline, float), axis=0).max())
    below, beside = far < AS_A_POINT * size, (far >= AS_A_POINT * size) & (far < FAR * radius)
    found = [np.zeros(len(places)) for _ in range(4)]
    for here in (below, beside):
        if not here.any():
            continue
        if here is below:
            true = patches.patch(load.pressure, load.outline, radius, foundation, poisson, places[here])
        else:
            true = patches.concentrated(load.force, radius, foundation, poisson, away[here])
        smooth = heap(load.force, width, radius, foundation, poisson, away[here])
        for total, one, other in zip(found, _four(true), _four(smooth), strict=True):
            total[here] = one - other
    return Under(*found)


def _four(under: Under) -> tuple[NDArray, ...]:
    return under.settlement, under.moment_x, under.moment_y, under.moment_xy


@lru_cache(maxsize=64)
def _tables(width: float) -> tuple[tuple[NDArray, NDArray], ...]:
    """Integrals over all waves, by distance in radii: for settlement, the sum and the difference of moments."""
    if width <= 0.0:
        raise OutOfDomain("a heap has a width")
    far = np.linspace(0.0, FAR, 900)
    wave, step = np.linspace(0.0, 7.0 / width, 1200, retstep=True)
    weight = np.full(len(wave), step)
    weight[[0, -1]] /= 2.0
    bell = weight * np.exp(-((wave * width) ** 2) / 2.0) / (wave**4 + 1.0)
    phase = far[:, None] * wave
    near = j0(phase)
    return (far, near @ (bell * wave)), (far, near @ (bell * wave**3)), (far, jv(2, phase) @ (bell * wave**3))
