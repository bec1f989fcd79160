"""Concrete that dries to one side: when the air in its pores is dry enough for what shall lie on it."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ..domain import Numbers, OutOfDomain, above_zero, plain

Array = NDArray[np.float64]

# CEB-FIP Model Code 1990, 2.1.8.3 (from memory)
DRY_SHARE = 0.05  # of the diffusivity that is left in dry pores
HALF_WAY = 0.80  # humidity at which it has fallen half of the way
STEEPNESS = 15.0
OF_CUBE = 1e-9  # m²/s at a characteristic strength of 10 MPa
DEPTH = 0.4  # ASTM F2170: of the thickness that dries towards one face
CELLS = 60
LATE = 60.0  # dimensionless time after which it counts as never


def diffusivity(strength: Numbers) -> Numbers:
    """How fast humidity spreads in wet concrete.

    Parameters
    ----------
    strength : float or ndarray
        Characteristic strength of cylinders. [Pa]

    Returns
    -------
    float or ndarray, the same shape
        [m²/s]

    Raises
    ------
    OutOfDomain
        Strength not above zero.

    Source
    ------
    CEB-FIP Model Code 1990, 2.1.8.3: 1e-9 m²/s over the strength in units of 10 MPa (from memory).

    Examples
    --------
    >>> round(diffusivity(25e6) * 1e10, 12)
    4.0
    """
    above_zero(strength=strength)
    return plain(OF_CUBE / (np.asarray(strength) / 10e6))


def share_left(humidity: Numbers, dry_share: float = DRY_SHARE) -> Numbers:
    """How much of the diffusivity of wet concrete is left at a humidity of its pores.

    Parameters
    ----------
    humidity : float or ndarray
        0 to 1. [1]
    dry_share : float
        What is left where it is dry. [1]

    Returns
    -------
    float or ndarray, the same shape
        [1]

    Raises
    ------
    OutOfDomain
        A humidity outside 0 to 1.

    Source
    ------
    CEB-FIP Model Code 1990, 2.1.8.3, after Bažant and Najjar 1972 (from memory).

    Examples
    --------
    At 80 % it has fallen half of the way from 1 to 0.05:

    >>> round(share_left(0.8), 3)
    0.525
    """
    h = np.asarray(humidity, dtype=float)
    if not np.all((h >= 0.0) & (h <= 1.0)):
        raise OutOfDomain(f"humidity must lie from 0 to 1, got {humidity!r}")
    return plain(_share(h, dry_share))


def _share(h: Array, dry_share: float) -> Array:
    dryness = np.clip(1.0 - h, 0.0, 1.0) / (1.0 - HALF_WAY)
    return dry_share + (1.0 - dry_share) / (1.0 + dryness**STEEPNESS)


def drying_time(
    thickness: float, wet: float, room: float, limit: float, depth: float = DEPTH, dry_share: float = DRY_SHARE
) -> float:
    """How long a slab sealed below dries until the air in its pores has come down to a limit.

    Parameters
    ----------
    thickness : float
        Of what dries towards the one open face: the slab's, or half of it where both faces are open. [m]
    wet : float
        Diffusivity of wet concrete. [m²/s]
    room : float
        Humidity at the open face, 0 to 1. [1]
    limit : float
        Humidity of the pores that is wanted, above ``room`` and below 1. [1]
    depth : float
        Where it is measured, as a share of ``thickness`` from the open face. [1]
    dry_share : float
        Share of the diffusivity that is left in dry pores; 1 for a diffusivity that stays as it is. [1]

    Returns
    -------
    float
        [s]; infinite where it takes longer than sixty times thickness squared over diffusivity.

    Raises
    ------
    OutOfDomain
        Thickness or diffusivity not above zero, a limit not between room and 1, a depth outside 0 to 1.

    Source
    ------
    Humidity spreads as heat does, with the diffusivity of CEB-FIP Model Code 1990 (from memory); saturated at
    first. What the cement binds while it sets is left out, so that strong concrete dries sooner than this.

    Examples
    --------
    Twice as thick takes four times as long:

    >>> thin = drying_time(0.1, 4e-10, 0.5, 0.85)
    >>> round(drying_time(0.2, 4e-10, 0.5, 0.85) / thin, 6)
    4.0
    """
    above_zero(thickness=thickness, wet=wet, dry_share=dry_share)
    if not 0.0 <= room < limit < 1.0:
        raise OutOfDomain(f"limit must lie between room and 1, got {limit!r} in a room at {room!r}")
    if not 0.0 < depth <= 1.0:
        raise OutOfDomain(f"depth must lie above 0 and up to 1, got {depth!r}")
    return _dimensionless(round(room, 3), round(limit, 4), round(depth, 4), dry_share) * thickness**2 / wet


@lru_cache(maxsize=256)
def _dimensionless(room: float, limit: float, depth: float, dry_share: float) -> float:
    """Time as a multiple of thickness squared over diffusivity."""
    from scipy.integrate import solve_ivp  # loads special functions and splines: only where a covering waits

    faces = np.linspace(0.0, 1.0, CELLS + 1) ** 1.5  # finer where it dries first
    middles, widths = (faces[1:] + faces[:-1]) / 2.0, np.diff(faces)
    gaps = np.diff(np.concatenate([[0.0], middles]))

    def change(_: float, h: Array) -> Array:
        steps = np.diff(np.concatenate([[room], h]))
        between = np.concatenate([[(room + h[0]) / 2.0], (h[1:] + h[:-1]) / 2.0])
        inward = np.append(_share(between, dry_share) * steps / gaps, 0.0)
        return np.asarray(np.diff(inward) / widths)

    def reached(_: float, h: Array) -> float:
        return float(np.interp(depth, np.concatenate([[0.0], middles]), np.concatenate([[room], h])) - limit)

    reached.terminal = True  # type: ignore[attr-defined]
    told = solve_ivp(
        change, (0.0, LATE), np.ones(CELLS), "LSODA", events=reached, rtol=1e-6, atol=1e-8, lband=1, uband=1
    )
    times = told.t_events[0] if told.t_events else np.array([])
    return float(times[0]) if times.size else np.inf
