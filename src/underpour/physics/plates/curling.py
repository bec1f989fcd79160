"""Curling: a slab that dries from its top alone bends by itself, and its own weight holds it down."""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ..bearing import GRAVITY
from ..domain import Numbers, above_zero, not_below_zero, plain
from . import loads as on_plates
from .felt import radius_of
from .lines import lines_of
from .plate import StillLifting, plate
from .slab import Slab

WIDEST = 0.6  # radii of relative stiffness: cells of a bay
AT_EDGES = 0.3  # radii: cells beside its edges
MOST = 24  # cells along a bay


def held_share(length: Numbers, radius: Numbers) -> Numbers:
    """Share of the stress of a slab held quite flat that stands in the middle of a bay held down by its bed.

    Parameters
    ----------
    length : float or ndarray
        Of the bay, joint to joint. [m]
    radius : float or ndarray, broadcast
        Of relative stiffness. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        C, at most 1.086. [1]

    Raises
    ------
    OutOfDomain
        Length or radius not above zero.

    Source
    ------
    Westergaard 1927, Analysis of stresses in concrete pavements due to variations of temperature; Bradbury 1938
    (from memory): C = 1 − 2 cos λ cosh λ (tan λ + tanh λ) / (sin 2λ + sinh 2λ), λ = L / (l √8).

    Examples
    --------
    L = 25 ft on l = 30.57 in, L / l = 9.81; Huang reads 1.07 off Bradbury's chart.

    >>> round(held_share(9.81, 1.0), 2), held_share(0.5, 1.0) < 0.001
    (1.08, True)
    """
    above_zero(length=length, radius=radius)
    turn = np.minimum(np.asarray(length, float) / (np.asarray(radius) * 8.0**0.5), 40.0)  # beyond, 1 to all digits
    both = np.cos(turn) * np.cosh(turn) * (np.tan(turn) + np.tanh(turn))
    return plain(1.0 - 2.0 * both / (np.sin(2.0 * turn) + np.sinh(2.0 * turn)))


def stress(modulus: Numbers, poisson: Numbers, strain: Numbers, along: Numbers, across: Numbers) -> Numbers:
    """Tension at the top in the middle of a bay whose top is shorter than its underside.

    Parameters
    ----------
    modulus : float or ndarray
        Young's modulus of the concrete under what lasts. [Pa]
    poisson : float or ndarray, broadcast
        [1]
    strain : float or ndarray, broadcast
        By how much the top would shrink more than the underside. [1]
    along, across : float or ndarray, broadcast
        C along the stress and across it, see ``held_share``. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        [Pa]

    Raises
    ------
    OutOfDomain
        Modulus not above zero, or a strain below it.

    Source
    ------
    Bradbury 1938 (from memory): E ε (C_x + ν C_y) / (2 (1 − ν²)).

    Examples
    --------
    Huang's example: E 4e6 psi, 5e-6 per °F, 20 °F, C 1.07 and 0.63: 238 psi.

    >>> round(stress(4e6, 0.15, 5e-6 * 20.0, 1.07, 0.63))
    238
    """
    above_zero(modulus=modulus)
    not_below_zero(poisson=poisson, strain=strain)
    nu = np.asarray(poisson)
    return plain(np.asarray(modulus) * strain * (np.asarray(along) + nu * np.asarray(across)) / (2.0 * (1.0 - nu**2)))


@lru_cache(maxsize=64)
def risen(bay: Slab, strain: float, density: float) -> float | None:
    """How far the corner of a rectangular bay rises above where it lay, its own weight holding it down.

    Parameters
    ----------
    bay : Slab
        Everything of it as tuples, one corner at (0, 0), with the modulus of what lasts. [m, Pa, N/m³]
    strain : float
        By how much the top would shrink more than the underside. [1]
    density : float
        Of the concrete. [kg/m³]

    Returns
    -------
    float or None
        None where the bay does not come to rest. [m]

    Source
    ------
    ``plate.plate`` with ``loads.curled``, on springs that only press.

    Examples
    --------
    Without any strain nothing rises.

    >>> bay = Slab(((0.0, 0.0), (3.0, 0.0), (3.0, 3.0), (0.0, 3.0)), 0.1, 1e10, 0.15, 3e7)
    >>> round(1e3 * risen(bay, 0.0, 2400.0), 9)
    0.0
    """
    radius = radius_of(bay)
    extent = float(np.ptp(np.asarray(bay.outline, float), axis=0).max())
    made = plate(bay, *lines_of(bay, max(WIDEST * radius, extent / MOST), at_edges=AT_EDGES * radius))
    try:
        found, _ = made.lifting(made.weight(density) + on_plates.curled(made, strain / bay.thickness))
    except StillLifting:
        return None
    corner = made.answered(found, np.array([1e-6]), np.array([1e-6]))
    return bay.thickness * density * GRAVITY / bay.foundation - float(corner.settlement[0])
