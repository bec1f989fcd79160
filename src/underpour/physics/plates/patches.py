"""An even load on a patch of any outline, on a plate without edges: exact, by Kelvin's functions.

From the place that is asked about, the patch is a fan of thin sectors; in each the influence of a point load is
integrated exactly along the ray, so that only the angle is left to be summed. A place outside of the patch sees
sectors that come and go, and their signs take care of it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import kei, keip, ker, kerp

from ..domain import OutOfDomain, above_zero

ANGLES = 24  # Gauss points on each side of the patch, for each of its two halves
AS_POINTS = 4.0  # sizes of a patch: farther off it is felt as four points, within a part in ten thousand of its own
SAME = 1e-9  # m
TOUCHING = 1e-12  # of the patch's size: a place this near to a side lies on it


@dataclass(frozen=True)
class Under:
    """What an endless plate does at places below or beside a patch; one number for each place."""

    settlement: NDArray[np.float64]  # m
    moment_x: NDArray[np.float64]  # N·m/m, of stresses along x; positive with tension below
    moment_y: NDArray[np.float64]  # N·m/m
    moment_xy: NDArray[np.float64]  # N·m/m

    @property
    def largest_moment(self) -> NDArray[np.float64]:
        """The larger principal moment. [N·m/m]"""
        middle = (self.moment_x + self.moment_y) / 2.0
        return middle + np.hypot((self.moment_x - self.moment_y) / 2.0, self.moment_xy)


def point(load: float, radius: float, foundation: float, distance: NDArray[np.float64]) -> NDArray[np.float64]:
    """Settlement of an endless plate at distances from a point load.

    Parameters
    ----------
    load : float
        [N]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    distance : ndarray, any shape
        [m]

    Returns
    -------
    ndarray, the same shape
        Settlement. [m]

    Raises
    ------
    OutOfDomain
        Load, radius or foundation not above zero.

    Source
    ------
    Hertz 1884, Wyman 1950, Westergaard 1926: w = −P / (2 π k l²) kei(r / l).

    Examples
    --------
    Below the load P / (8 k l²), for kei(0) is −π/4.

    >>> float(point(8.0, 1.0, 1.0, np.array(0.0)).round(12))
    1.0
    """
    above_zero(load=load, radius=radius, foundation=foundation)
    return -load / (2.0 * np.pi * foundation * radius**2) * kei(np.asarray(distance) / radius)


def concentrated(load: float, radius: float, foundation: float, poisson: float, away: NDArray[np.float64]) -> Under:
    """What an endless plate does at places beside a point load.

    Parameters
    ----------
    load : float
        [N]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    poisson : float
        [1]
    away : ndarray, shape (n, 2)
        Places as seen from the load. [m]

    Returns
    -------
    Under
        Settlement [m] and moments [N·m/m], shape (n,).

    Raises
    ------
    OutOfDomain
        Load, radius or foundation not above zero; a place at the load itself, where moments have no end.

    Source
    ------
    Derived from ``point``: M_r + M_t = (1 + ν) P/2π ker(x), M_r − M_t = (1 − ν) P/2π (ker(x) − 2 kei'(x)/x), x = r/l.

    Examples
    --------
    Ten radii off, nothing is left of it.

    >>> beside = concentrated(1.0, 1.0, 1.0, 0.2, np.array([[10.0, 0.0]]))
    >>> bool(abs(beside.moment_x[0]) < 1e-3)
    True
    """
    far, way = np.hypot(*away.T) / radius, np.arctan2(away[:, 1], away[:, 0])
    above_zero(distance=far)
    both = (1.0 + poisson) * load / (2.0 * np.pi) * ker(far)
    apart = (1.0 - poisson) * load / (2.0 * np.pi) * (ker(far) - 2.0 * keip(far) / far)
    return Under(
        point(load, radius, foundation, far * radius),
        (both + apart * np.cos(2.0 * way)) / 2.0,
        (both - apart * np.cos(2.0 * way)) / 2.0,
        apart * np.sin(2.0 * way) / 2.0,
    )


def circle(pressure: float, contact: float, radius: float, foundation: float, poisson: float) -> tuple[float, float]:
    """Settlement and moment below the middle of an even round load.

    Parameters
    ----------
    pressure : float
        [Pa]
    contact : float
        Radius of the loaded circle. [m]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    poisson : float
        [1]

    Returns
    -------
    two floats
        Settlement [m] and moment [N·m/m], the same in every direction.

    Raises
    ------
    OutOfDomain
        Pressure, contact, radius or foundation not above zero.

    Source
    ------
    Wyman 1950: w = q/k [1 + (a/l) ker'(a/l)], M = (1 + ν)/2 q a l kei'(a/l).

    Examples
    --------
    A load far wider than the radius of relative stiffness goes straight through: q / k and no moment.

    >>> [round(abs(each), 6) for each in circle(100.0, 50.0, 1.0, 1000.0, 0.2)]
    [0.1, 0.0]
    """
    above_zero(pressure=pressure, contact=contact, radius=radius, foundation=foundation)
    far = contact / radius
    settlement = pressure / foundation * (1.0 + far * kerp(far))
    moment = (1.0 + poisson) / 2.0 * pressure * contact * radius * keip(far)
    return float(settlement), float(moment)


def patch(
    pressure: float,
    outline: Sequence[tuple[float, float]],
    radius: float,
    foundation: float,
    poisson: float,
    places: NDArray[np.float64],
) -> Under:
    """What an endless plate does at places below and beside an evenly loaded patch with straight sides.

    Parameters
    ----------
    pressure : float
        [Pa]
    outline : sequence of pairs
        Corners in turn, either way round; no side crosses another. [m]
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
        Settlement [m] and moments [N·m/m], shape (n,).

    Raises
    ------
    OutOfDomain
        Pressure, radius or foundation not above zero; fewer than three corners or no area.

    Source
    ------
    Derived from the point load's settlement (Wyman 1950) by integration along rays: ∫ x kei dx = −x ker',
    ∫ x ker dx = x kei' (Abramowitz and Stegun 9.9, from memory). A circle gives ``circle`` again.

    Examples
    --------
    Below the middle of a patch that is far wider than the radius of relative stiffness: q / k.

    >>> wide = [(-40.0, -40.0), (40.0, -40.0), (40.0, 40.0), (-40.0, 40.0)]
    >>> under = patch(100.0, wide, 1.0, 1000.0, 0.2, np.array([[0.0, 0.0]]))
    >>> float(under.settlement[0].round(6))
    0.1
    """
    above_zero(pressure=pressure, radius=radius, foundation=foundation)
    corners = np.asarray(outline, float)
    turn = _twice_the_area(corners) if len(corners) >= 3 else 0.0
    if turn == 0.0:
        raise OutOfDomain("a patch needs three corners or more, and an area")
    reach, angle, weight = _fan(corners, np.asarray(places, float), float(np.ptp(corners, axis=0).max()))
    weight = weight * np.sign(turn) / (2.0 * np.pi)
    far = reach / radius
    rises, turns, bends = _along_rays(far)
    both = (1.0 + poisson) * pressure * radius**2 * (weight * turns).sum(-1)
    shear = (1.0 - poisson) * pressure * radius**2
    apart = shear * (weight * bends * np.cos(2.0 * angle)).sum(-1)
    twist = shear * (weight * bends * np.sin(2.0 * angle)).sum(-1) / 2.0
    return Under(
        settlement=pressure / foundation * (weight * rises).sum(-1),
        moment_x=(both + apart) / 2.0,
        moment_y=(both - apart) / 2.0,
        moment_xy=twist,
    )


def anywhere(
    pressure: float,
    outline: Sequence[tuple[float, float]],
    radius: float,
    foundation: float,
    poisson: float,
    places: NDArray[np.float64],
    *,
    sizes: float = AS_POINTS,
) -> Under:
    """The same as ``patch`` where places near a patch are few among many: far off a rectangle is four points by Gauss.

    Parameters
    ----------
    pressure : float
        [Pa]
    outline : sequence of pairs
        As for ``patch``; what is no parallelogram is a patch everywhere. [m]
    radius : float
        Of relative stiffness. [m]
    foundation : float
        k of what lies below. [N/m³]
    poisson : float
        [1]
    places : ndarray, shape (n, 2)
        [m]
    sizes : float
        How many sizes of the patch are far off. [1]

    Returns
    -------
    Under
        Settlement [m] and moments [N·m/m], shape (n,).

    Raises
    ------
    OutOfDomain
        As for ``patch``.

    Source
    ------
    ``patch`` and ``concentrated``; Gauss's rule of two points each way.

    Examples
    --------
    >>> square, far = [(-0.1, -0.1), (0.1, -0.1), (0.1, 0.1), (-0.1, 0.1)], np.array([[0.9, 0.3]])
    >>> one, other = (each(1e6, square, 0.8, 3e7, 0.2, far).settlement[0] for each in (anywhere, patch))
    >>> bool(abs(one / other - 1.0) < 1e-4)
    True
    """
    corners = np.asarray(outline, float)
    points = _as_points(corners)
    away = np.hypot(*(places - corners.mean(axis=0)).T)
    near = away < sizes * np.ptp(corners, axis=0).max() if len(points) else np.ones(len(places), bool)
    found = np.zeros((4, len(places)))
    if near.any():
        found[:, near] = _rows(patch(pressure, outline, radius, foundation, poisson, places[near]))
    if not near.all():
        seen = (places[~near][None] - points[:, None]).reshape(-1, 2)
        force = pressure * abs(_twice_the_area(corners)) / 2.0 / len(points)
        of_one = _rows(concentrated(force, radius, foundation, poisson, seen))
        found[:, ~near] = of_one.reshape(4, len(points), -1).sum(axis=1)
    return Under(*found)


def _as_points(corners: NDArray[np.float64]) -> NDArray[np.float64]:
    """Gauss's four places on a parallelogram, (4, 2), which share its force; none on any other outline."""
    if len(corners) != 4 or np.abs(corners[0] - corners[1] + corners[2] - corners[3]).max() > SAME:
        return np.empty((0, 2))
    middle = corners.mean(axis=0)
    return np.asarray(middle + (corners - middle) / 3.0**0.5)


def _rows(under: Under) -> NDArray[np.float64]:
    return np.stack([under.settlement, under.moment_x, under.moment_y, under.moment_xy])


def _along_rays(far: NDArray) -> tuple[NDArray, NDArray, NDArray]:
    """Integrals along rays of so many radii: for the settlement, for the moments' sum, for their difference."""
    at = np.maximum(far, 1e-12)
    rises = 1.0 + at * kerp(at)
    turns = at * keip(at)
    bends = turns - 2.0 * (kei(at) + np.pi / 4.0)
    return rises, turns, bends


def _fan(corners: NDArray, places: NDArray, size: float) -> tuple[NDArray, NDArray, NDArray]:
    """Distances to the sides, directions and signed widths of thin sectors, (n, sectors), seen from each place.

    Each side is halved at the foot of the perpendicular, so that the distance grows one way in each part; the sectors'
    widths follow a substitution by the side's own length, which stays smooth where a side is seen at a low angle.
    """
    nodes, shares = _gauss()
    starts, ends = corners, np.roll(corners, -1, axis=0)
    along = ends - starts
    length = np.hypot(*along.T)
    unit = along / length[:, None]
    to_start = starts[None] - places[:, None]  # (n, sides, 2)
    height = to_start[..., 0] * unit[:, 1] - to_start[..., 1] * unit[:, 0]  # signed distance of the side's line
    first = (to_start * unit).sum(-1)
    last = first + length
    foot = np.clip(0.0, first, last)
    touches = np.abs(height) <= TOUCHING * size
    away = np.where(touches, 1.0, height)
    low, high = (np.arctan(end / np.abs(away)) for end in (first, last))
    middle = np.arctan(foot / np.abs(away))
    pieces = []
    for begins, stops in ((low, middle), (middle, high)):
        half = (stops - begins) / 2.0
        at = begins[..., None] + half[..., None] * (1.0 + nodes)
        slid = np.abs(away)[..., None] * np.tan(at)
        reach = np.hypot(slid, away[..., None])
        foot_x = unit[None, :, 1, None] * height[..., None]
        foot_y = -unit[None, :, 0, None] * height[..., None]
        angle = np.arctan2(foot_y + slid * unit[None, :, 1, None], foot_x + slid * unit[None, :, 0, None])
        width = np.where(touches, 0.0, np.sign(away) * half)[..., None] * shares
        pieces.append((reach, angle, width))
    flat = [np.concatenate([piece[n] for piece in pieces], -1).reshape(len(places), -1) for n in range(3)]
    return flat[0], flat[1], flat[2]


@cache
def _gauss() -> tuple[NDArray, NDArray]:
    return np.polynomial.legendre.leggauss(ANGLES)


def _twice_the_area(corners: NDArray) -> float:
    x, y = corners.T
    return float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum())
