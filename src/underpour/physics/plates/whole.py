"""A whole floor as one plate: all that stands on it together, its own weight, joints, other foam, and lift-off.

Cells are as wide as moments can bear, not as small as base plates are. A small load is spread over a square as wide as
a cell; what the load itself does beyond that has no net force, dies away within two widths, and is a closed form. The
square never reaches over an edge or a joint, so that what lies beyond feels nothing that is not there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from . import loads as on_plates
from . import patches
from .lines import lines_of
from .patches import Under
from .plate import Answered, Plate, plate
from .slab import Pressed, Ring, Slab, inside
from .springs import plate_stiffness, radius_of_relative_stiffness

WIDEST = 0.6  # radii of relative stiffness: cells
AT_EDGES = 0.25  # radii: cells beside free edges and joints
MOST_CELLS = 12_000
SPREAD = 2.0  # cells: the square over which a small load is spread
NEAREST = 0.3  # radii from an edge, within which a load gets lines of its own
REACH = 1.5  # squares: farther off a load differs from its square by the second moment alone
FAR = 6.0  # radii: beyond, by nothing
AROUND = (0.75, 1.5, 2.5)  # radii round a load, where the top is looked at
MANY = 30  # loads: of more than these the net over the floor finds the worst at the top
ALONG = 0.4  # radii from one place looked at to the next, along long loads
MOST_PLACES = 3000  # of that net
WITHIN = 0.06  # share by which a pressure or a tension may be off; tests/exact/test_whole_floors.py
AT_THE_EDGE = 0.12  # the same where loads stand at edges of a floor too large for lines of their own
SAME = 1e-6  # m


@dataclass(frozen=True)
class Case:
    """What stands on the floor at the same time."""

    loads: tuple[Pressed, ...]
    even: float = 0.0  # Pa, all over it


@dataclass(frozen=True)
class Stood:
    """What the floor does under one case, at the places that were asked for and then at the worst ones."""

    x: NDArray[np.float64]  # m
    y: NDArray[np.float64]  # m
    settlement: NDArray[np.float64]  # m, of the case alone
    pressure: NDArray[np.float64]  # Pa on what lies below, with the floor's own weight
    below: NDArray[np.float64]  # Pa, tension at the underside, below zero where it is pressed
    above: NDArray[np.float64]  # Pa, tension at the top
    tilt: NDArray[np.float64]  # 1, steepest slope of the case alone
    asked: int  # how many of the places were asked for
    lifted: bool  # whether the slab lets go of what lies below somewhere
    within: float  # share by which pressure and tension may be off


@lru_cache(maxsize=64)
def stood(
    slab: Slab, heavy: float, laid: float, cases: tuple[Case, ...], places: tuple[tuple[float, float], ...]
) -> tuple[Stood, ...]:
    """What a floor does under several cases, set up once.

    Parameters
    ----------
    slab : Slab
        Everything of it as tuples. [m, Pa, N/m³]
    heavy : float
        What a volume of the slab weighs. [N/m³]
    laid : float
        What else lies all over it for good. [Pa]
    cases : tuple of Case
        [m, Pa]
    places : tuple of pairs
        Places on the slab to be looked at besides those about the loads. [m]

    Returns
    -------
    tuple of Stood
        One for each case. [Pa, m]

    Raises
    ------
    OutOfDomain
        A load hangs over the slab.
    StillLifting
        The loads turn the slab over.

    Source
    ------
    ``plate.plate``; many small loads as ``split`` has them.

    Examples
    --------
    An even load on a floor of one thickness: its own pressure and 3.6 kPa of slab, no tension anywhere.

    >>> floor = Slab(((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)), 0.15, 3e10, 0.2, 3e7)
    >>> (found,) = stood(floor, 24e3, 0.0, (Case((), 5e3),), ((1.0, 1.0),))
    >>> round(float(found.pressure[0])), round(1e3 * float(found.settlement[0]), 4), found.lifted
    (8600, 0.1667, False)
    """
    radius = _radius(slab, slab.thickness, slab.foundation)
    every = tuple(dict.fromkeys(load for case in cases for load in case.loads))
    made, step, within = _cut(slab, radius, every)
    spread = {load: _as_wide_as_cells(slab, load, SPREAD * step) for load in every}
    brought = {load: on_plates.pressed(made, spread[load]) for load in every}
    own = made.weight(heavy / 9.80665) + on_plates.even(made, laid)
    pushed = [
        np.sum([brought[load] for load in case.loads], axis=0) + on_plates.even(made, case.even) for case in cases
    ]
    solved = made.found(np.stack([own, *(own + push for push in pushed)], -1))
    x, y, exact = _looked_at(slab, every, radius, places)
    rest = made.answered(solved[:, 0], x, y)
    beyond = {
        load: _beyond(slab, load, spread[load], x[:exact], y[:exact]) for load in every if spread[load] is not load
    }
    found = []
    for n, case in enumerate(cases, start=1):
        now, lifted = solved[:, n], any((at.at(solved[:, n]) < 0.0).any() for at in made.places)
        if lifted:
            now, _ = made.lifting(own + pushed[n - 1])
        more = [beyond[load] for load in case.loads if load in beyond]
        found.append(_told(slab, made.answered(now, x, y), rest, more, (x, y), len(places), lifted, within))
    return tuple(found)


def _radius(slab: Slab, thickness: float, foundation: float) -> float:
    stiffness = plate_stiffness(slab.modulus, thickness, slab.poisson)
    return float(radius_of_relative_stiffness(stiffness, foundation))


def _cut(slab: Slab, radius: float, every: Sequence[Pressed]) -> tuple[Plate, float, float]:
    """The floor cut into cells, how wide the widest are, and what they let a result be off by."""
    wide, high = np.ptp(np.asarray(slab.outline, float), axis=0)
    step = max(WIDEST * radius, float(wide * high / MOST_CELLS) ** 0.5)
    near = [load for load in every if _clearance(slab, load) < NEAREST * radius]
    edged = min(AT_EDGES * radius, step)
    lines, within = lines_of(slab, step, at_edges=edged, beside=near), WITHIN
    if near and len(lines[0]) * len(lines[1]) > MOST_CELLS:
        lines, within = lines_of(slab, step, at_edges=edged), AT_THE_EDGE
    return plate(slab, *lines), step, within


def _clearance(slab: Slab, load: Pressed) -> float:
    """How far a load's middle lies from what parts or changes the slab. [m]"""
    x, y = load.middle
    rings = [slab.outline, *slab.holes, *(region.outline for region in (*slab.thickened, *slab.otherwise_borne))]
    found = [_off(ring, x, y) for ring in rings]
    for joint in slab.joints:
        there, along = (x, y) if joint.across == "x" else (y, x)
        past = max(joint.start - along, along - joint.end, 0.0)
        found.append(float(np.hypot(there - joint.at, past)))
    return min(found)


def _off(ring: Ring, x: float, y: float) -> float:
    """How far a place lies from the nearest side of an outline. [m]"""
    start = np.asarray(ring, float)
    way = np.roll(start, -1, axis=0) - start
    from_start = np.array([x, y]) - start
    share = np.clip((from_start * way).sum(-1) / np.maximum((way**2).sum(-1), SAME**2), 0.0, 1.0)
    return float(np.hypot(*(from_start - share[:, None] * way).T).min())


def _as_wide_as_cells(slab: Slab, load: Pressed, wide: float) -> Pressed:
    """The same force on a square as wide as a cell, or as there is room for; a load that is wider, as it is."""
    size = float(np.ptp(np.asarray(load.outline, float), axis=0).max())
    side = min(wide, 2.0 * (1.0 - 1e-9) * _clearance(slab, load) / 2.0**0.5)
    if side <= size:
        return load
    (x, y), half = load.middle, side / 2.0
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return Pressed(ring, load.force / side**2)


def _beyond(slab: Slab, load: Pressed, spread: Pressed, x: NDArray, y: NDArray) -> tuple[NDArray[np.int64], Under]:
    """What a load does beyond what its square does, and at which places; by the slab as it is below the load."""
    middle = np.array(load.middle)
    thickness, foundation = (
        float(slab.thickness_at(*middle[:, None])[0]),
        float(slab.foundation_at(*middle[:, None])[0]),
    )
    if foundation == 0.0:
        return np.empty(0, np.int64), Under(*(np.empty(0),) * 4)
    radius = _radius(slab, thickness, foundation)
    far = np.hypot(x - middle[0], y - middle[1])
    same_side = ~_across_joints(slab, middle, x, y)
    sizes = [float(np.ptp(np.asarray(p.outline, float), axis=0).max()) for p in (load, spread)]
    near = np.nonzero((far <= REACH * sizes[1]) & same_side)[0]
    away = np.nonzero((far > REACH * sizes[1]) & (far < FAR * radius) & same_side)[0]
    places = np.stack([x, y], -1)
    own, other = (
        patches.patch(p.pressure, p.outline, radius, foundation, slab.poisson, places[near]) for p in (load, spread)
    )
    names = ("settlement", "moment_x", "moment_y", "moment_xy")
    below = Under(*(getattr(own, name) - getattr(other, name) for name in names))
    at_a_point = patches.concentrated(load.force, radius, foundation, slab.poisson, places[away] - middle)
    bent = -(at_a_point.moment_x + at_a_point.moment_y) / (1.0 + slab.poisson) / (foundation * radius**4)
    wider = (sizes[1] ** 2 - sizes[0] ** 2) / 24.0  # of the square, by its second moment
    beside = Under(-wider * bent, *(np.zeros(len(away)) for _ in range(3)))
    both = Under(*(np.concatenate([getattr(below, name), getattr(beside, name)]) for name in names))
    return np.concatenate([near, away]), both


def _across_joints(slab: Slab, middle: NDArray, x: NDArray, y: NDArray) -> NDArray[np.bool_]:
    """Which places lie beyond a joint as seen from a load."""
    found = np.zeros(len(x), bool)
    for joint in slab.joints:
        own, there, along = (middle[0], x, y) if joint.across == "x" else (middle[1], y, x)
        parts = (along > joint.start) & (along < joint.end)
        found |= parts & ((there > joint.at) != (own > joint.at))
    return found


def _told(
    slab: Slab,
    both: Answered,
    rest: Answered,
    beyond: Sequence[tuple[NDArray[np.int64], Under]],
    at: tuple[NDArray, NDArray],
    asked: int,
    lifted: bool,
    within: float,
) -> Stood:
    settled, mx, my, mxy = (each.copy() for each in (both.settlement, both.moment_x, both.moment_y, both.moment_xy))
    for near, more in beyond:
        settled[near] += more.settlement
        mx[near] += more.moment_x
        my[near] += more.moment_y
        mxy[near] += more.moment_xy
    x, y = at
    middle, turn = (mx + my) / 2.0, np.hypot((mx - my) / 2.0, mxy)
    return Stood(
        x,
        y,
        settled - rest.settlement,
        np.maximum(slab.foundation_at(x, y) * settled, 0.0),
        6.0 * (middle + turn) / both.thickness**2,
        -6.0 * (middle - turn) / both.thickness**2,
        both.tilt - np.minimum(rest.tilt, both.tilt),
        asked,
        lifted,
        within,
    )


def _looked_at(
    slab: Slab, every: Sequence[Pressed], radius: float, asked: Sequence[tuple[float, float]]
) -> tuple[NDArray[np.float64], NDArray[np.float64], int]:
    """The places asked for, then those below and about each load, and a net over the floor.

    How many of them may lie so near to a load that its square does not do is told with them: where many loads stand,
    the net is there for the top alone, far from them.
    """
    turn = np.pi / 4.0 * np.arange(8)
    ring = np.concatenate([far * radius * np.stack([np.cos(turn), np.sin(turn)], -1) for far in AROUND])
    few = len(every) <= MANY
    found = [_below(load, radius) if few else np.array(load.middle)[None] for load in every]
    found += [np.array(load.middle) + ring for load in every] if few else []
    corners = np.asarray(slab.outline, float)
    (x0, y0), (x1, y1) = corners.min(axis=0), corners.max(axis=0)
    net = max(radius / 2.0, ((x1 - x0) * (y1 - y0) / MOST_PLACES) ** 0.5)
    across, up = (np.linspace(low, high, max(int((high - low) / net), 1) + 1) for low, high in ((x0, x1), (y0, y1)))
    net_of_floor = np.stack([each.ravel() for each in np.meshgrid(across, up)], -1)
    kept = [np.array(asked, float).reshape(-1, 2)]
    for places in (*found, net_of_floor):
        pulled = places * (1.0 - 1e-9) + 1e-9 * corners.mean(axis=0)
        kept.append(pulled[inside([slab.outline, *slab.holes], *pulled.T)])
    every_place = np.concatenate(kept)
    exact = len(every_place) if few else len(every_place) - len(kept[-1])
    return every_place[:, 0], every_place[:, 1], exact


def _below(load: Pressed, radius: float) -> NDArray[np.float64]:
    """Places on a load: its middle, its corners, and a row of them where it is long."""
    corners = np.asarray(load.outline, float)
    middle = np.array(load.middle)
    small = middle + (corners - middle) * (1.0 - 1e-6)
    sides = np.hypot(*(np.roll(corners, -1, axis=0) - corners).T)
    longest = int(np.argmax(sides))
    if sides[longest] <= ALONG * radius:
        return np.concatenate([middle[None], small, (small + np.roll(small, -1, axis=0)) / 2.0])
    way = np.roll(corners, -1, axis=0)[longest] - corners[longest]
    shares = np.linspace(-0.5, 0.5, int(np.ceil(sides[longest] / (ALONG * radius))) + 1) * (1.0 - 1e-6)
    return np.concatenate([middle + shares[:, None] * way, small])
