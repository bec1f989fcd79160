"""A whole floor as one plate: all that stands on it together, its own weight, joints, other foam, and lift-off.

Cells are as wide as moments can bear, not as small as base plates are. A small load is spread over a square two cells
wide; what the load itself does beyond that has no net force, dies away within two widths, and is a closed form. The
square never reaches over an edge or a joint, so that what lies beyond feels nothing that is not there. A load close to
an edge or a joint gets cells of its own: in the floor's, or where that would be too many, in a piece cut out about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor, log

import numpy as np
from numpy.typing import NDArray

from . import loads as on_plates
from . import patches
from .lines import lines_of
from .patches import Under
from .plate import Answered, Plate, plate
from .slab import Pressed, Region, Ring, Slab, inside
from .spread_out import SlabField
from .springs import plate_stiffness, radius_of_relative_stiffness

WIDEST = 0.6  # radii of relative stiffness: cells
STEPPED = 1.2  # from one radius for which cells are cut to the next
FEW_CELLS = 3_000  # up to so many; on larger floors finer cells would cost more than they save
AT_EDGES = 0.25  # radii: cells beside free edges and joints
MOST_CELLS = 12_000
SPREAD = 2.0  # cells: the square over which a small load is spread
NEAREST = 0.7  # radii from an edge or joint, within which a load gets lines of its own: at 0.4 radii without 6 % off
CLOSE = 0.3  # radii from an edge, within which it gets a piece of its own where the floor is too large for that
MOVES = 9  # steps each way, in which a square is moved away from what it would reach over
PIECE = 5.0  # radii from the load to where that piece is cut off
REACH = 1.5  # squares: farther off a load differs from its square by the second moment alone
FAR = 6.0  # radii: beyond, by nothing
AROUND = (0.75, 1.5, 2.5)  # radii round a load, where the top is looked at
MANY = 30  # loads: of more than these the net over the floor finds the worst at the top
ALONG = 0.4  # radii from one place looked at to the next, along long loads
MOST_PLACES = 3000  # of that net
FINEST = 0.4  # radii from one line of a picture's grid to the next
MOST_LINES = 70  # of such a grid, across a large floor
WITHIN = 0.06  # share by which a pressure or a tension may be off; tests/exact/test_whole_floors.py
SAME = 1e-6  # m
BESIDE = 1e-4  # m, from a joint to a picture's lines at its two sides


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
    ``plate.plate``; small loads by squares and what they leave out, as the head of this file has it.

    Examples
    --------
    An even load on a floor of one thickness: its own pressure and 3.6 kPa of slab, no tension anywhere.

    >>> floor = Slab(((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)), 0.15, 3e10, 0.2, 3e7)
    >>> (found,) = stood(floor, 24e3, 0.0, (Case((), 5e3),), ((1.0, 1.0),))
    >>> round(float(found.pressure[0])), round(1e3 * float(found.settlement[0]), 4), found.lifted
    (8600, 0.1667, False)
    """
    worked = _worked(slab, heavy, laid, cases)
    x, y, exact = _looked_at(slab, worked.every, worked.close, worked.radius, places)
    rest = worked.made.answered(worked.at_rest, x, y)
    beyond = _beyond_all(slab, worked, x[:exact], y[:exact])
    found = []
    for case, now, lifted in zip(cases, worked.found, worked.lifted, strict=True):
        more = [beyond[load] for load in case.loads if load in beyond]
        found.append(_told(slab, worked.made.answered(now, x, y), rest, more, (x, y), len(places), lifted, WITHIN))
    return tuple(found)


def over_the_floor(slab: Slab, heavy: float, laid: float, cases: tuple[Case, ...], number: int) -> SlabField:
    """One of those cases on lines across and up over the whole floor, for a picture of it.

    Parameters
    ----------
    slab : Slab
        [m, Pa, N/m³]
    heavy : float
        [N/m³]
    laid : float
        [Pa]
    cases : tuple of Case
        As for ``stood``, so that nothing is set up again. [m, Pa]
    number : int
        Which of them, from nought. [1]

    Returns
    -------
    SlabField
        Settlement of the case alone; pressure and tension with the floor's own weight. Of more loads than the worst
        is looked for at each, what a small base plate does beyond its square is left out. [m, Pa]

    Raises
    ------
    OutOfDomain, StillLifting
        As ``stood``.

    Source
    ------
    ``stood``.

    Examples
    --------
    An even load goes straight through, here with 3.6 kPa of slab.

    >>> floor = Slab(((0.0, 0.0), (6.0, 0.0), (6.0, 4.0), (0.0, 4.0)), 0.15, 3e10, 0.2, 3e7)
    >>> field = over_the_floor(floor, 24e3, 0.0, (Case((), 5e3),), 0)
    >>> round(float(field.pressure.min())), round(float(field.pressure.max()))
    (8600, 8600)
    """
    worked = _worked(slab, heavy, laid, cases)
    x, y = (_lines_over(slab, worked, axis) for axis in (0, 1))
    grid_x, grid_y = np.meshgrid(x, y)
    corners = np.asarray(slab.outline, float)
    middle = (corners.min(axis=0) + corners.max(axis=0)) / 2.0
    there = inside(
        [slab.outline, *slab.holes], grid_x + 1e-9 * (middle[0] - grid_x), grid_y + 1e-9 * (middle[1] - grid_y)
    )
    at = grid_x[there], grid_y[there]
    case, made = cases[number], worked.made
    beyond = _beyond_all(slab, worked, *at) if len(worked.every) <= MANY else {}
    more = [beyond[load] for load in case.loads if load in beyond]
    rest, now = made.answered(worked.at_rest, *at), made.answered(worked.found[number], *at)
    told = _told(slab, now, rest, more, at, 0, worked.lifted[number], WITHIN)

    def spread(values: NDArray[np.float64]) -> NDArray[np.float32]:
        filled = np.full(grid_x.shape, np.nan, np.float32)
        filled[there] = values
        return filled

    return SlabField(
        x.astype(np.float32),
        y.astype(np.float32),
        spread(told.settlement),
        spread(told.pressure),
        spread(np.maximum(told.below, 0.0)),
        spread(np.maximum(told.above, 0.0)),
    )


@dataclass(frozen=True, eq=False)
class _Worked:
    """A floor cut and solved for several cases."""

    made: Plate
    radius: float  # of relative stiffness, m
    every: tuple[Pressed, ...]  # loads of all cases
    close: tuple[Pressed, ...]  # those that need a piece of their own
    spread: dict[Pressed, Pressed]  # each as the cells have it
    at_rest: NDArray[np.float64]  # unknowns under the floor's own weight
    found: tuple[NDArray[np.float64], ...]  # and with each case on it
    lifted: tuple[bool, ...]


@lru_cache(maxsize=8)
def _worked(slab: Slab, heavy: float, laid: float, cases: tuple[Case, ...]) -> _Worked:
    radius = _radius(slab, slab.thickness, slab.foundation)
    every = tuple(dict.fromkeys(load for case in cases for load in case.loads))
    made, step, close = _cut(slab, radius, every)
    spread = {load: _as_wide_as_cells(slab, load, SPREAD * step) for load in every}
    spread |= {load: _moved_in(slab, load, SPREAD * min(AT_EDGES * radius, step)) for load in close}
    brought = {load: on_plates.pressed(made, spread[load]) for load in every}
    own = made.weight(heavy / 9.80665) + on_plates.even(made, laid)
    pushed = [
        np.sum([brought[load] for load in case.loads], axis=0) + on_plates.even(made, case.even) for case in cases
    ]
    solved = made.found(np.stack([own, *(own + push for push in pushed)], -1))
    found, lifted = [], []
    for n, push in enumerate(pushed, start=1):
        now = solved[:, n]
        lifted.append(any((at.at(now) < 0.0).any() for at in made.places))
        found.append(made.lifting(own + push)[0] if lifted[-1] else now)
    return _Worked(made, radius, every, close, spread, solved[:, 0], tuple(found), tuple(lifted))


def _beyond_all(
    slab: Slab, worked: _Worked, x: NDArray[np.float64], y: NDArray[np.float64]
) -> dict[Pressed, tuple[NDArray[np.int64], Under]]:
    """What each load does at places beyond what its square does."""
    spread, close = worked.spread, worked.close
    beyond = {
        load: _beyond(slab, load, spread[load], x, y)
        for load in worked.every
        if spread[load] is not load and load not in close
    }
    return beyond | {load: _in_a_piece(slab, load, spread[load], worked.radius, x, y) for load in close}


def _lines_over(slab: Slab, worked: _Worked, axis: int) -> NDArray[np.float64]:
    """Lines of a picture's grid: evenly over the floor, at both sides of each joint, at the sides of what changes
    the slab, and, where few loads stand, close together about each."""
    corners = np.asarray(slab.outline, float)[:, axis]
    low, high = float(corners.min()), float(corners.max())
    step = max(FINEST * worked.radius, (high - low) / MOST_LINES)
    found = [np.linspace(low, high, max(int((high - low) / step), 1) + 1)]
    found += [np.array([joint.at - BESIDE, joint.at + BESIDE]) for joint in slab.joints if joint.across == "xy"[axis]]
    regions = (*slab.holes, *(region.outline for region in (*slab.thickened, *slab.otherwise_borne)))
    found += [np.asarray(ring, float)[:, axis] for ring in regions]
    if len(worked.every) <= MANY:
        for load in worked.every:
            side = np.asarray(load.outline, float)[:, axis]
            start, end = float(side.min()), float(side.max())
            apart = worked.radius * np.array([0.15, 0.35])
            found += [np.linspace(start, end, 3), start - apart, end + apart]
    lines = np.unique(np.concatenate(found))
    lines = lines[(lines >= low) & (lines <= high)]
    return lines[np.r_[True, np.diff(lines) > BESIDE]]


def _radius(slab: Slab, thickness: float, foundation: float) -> float:
    stiffness = plate_stiffness(slab.modulus, thickness, slab.poisson)
    return float(radius_of_relative_stiffness(stiffness, foundation))


def _cut(slab: Slab, radius: float, every: Sequence[Pressed]) -> tuple[Plate, float, tuple[Pressed, ...]]:
    """The floor cut into cells, how wide the widest are, and the loads that need a piece of their own."""
    wide, high = np.ptp(np.asarray(slab.outline, float), axis=0)
    if wide * high < FEW_CELLS * (WIDEST * radius) ** 2:  # so that beds that differ a little have the same cells
        radius = STEPPED ** floor(log(radius, STEPPED))
    step = max(WIDEST * radius, float(wide * high / MOST_CELLS) ** 0.5)
    clear = {load: _clearance(slab, load.middle) for load in every}
    near = [load for load in every if clear[load] < NEAREST * radius]
    edged = min(AT_EDGES * radius, step)
    lines = lines_of(slab, step, at_edges=edged, beside=near)
    close: tuple[Pressed, ...] = ()
    if near and len(lines[0]) * len(lines[1]) > MOST_CELLS:
        lines = lines_of(slab, step, at_edges=edged)
        close = tuple(load for load in every if clear[load] < CLOSE * radius)
    return plate(slab, *lines), step, close


def _clearance(slab: Slab, place: tuple[float, float]) -> float:
    """How far a place lies from what parts or changes the slab. [m]"""
    x, y = place
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
    """The same force on a square two cells wide, or as there is room for; a load that is wider, as it is."""
    size = float(np.ptp(np.asarray(load.outline, float), axis=0).max())
    side = min(wide, 2.0 * (1.0 - 1e-9) * _clearance(slab, load.middle) / 2.0**0.5)
    return load if side <= size else _square(load.force, load.middle, side)


def _moved_in(slab: Slab, load: Pressed, wide: float) -> Pressed:
    """The same force on a square two cells wide as near to the load as there is room for it."""
    x, y = load.middle
    offsets = np.linspace(-1.0, 1.0, MOVES) * wide
    moves = np.stack([each.ravel() for each in np.meshgrid(offsets, offsets)], -1)
    places = np.array([x, y]) + moves[np.argsort(np.hypot(*moves.T), kind="stable")]
    best, room = load.middle, 0.0
    for place in places[inside([slab.outline, *slab.holes], *places.T)]:
        middle = (float(place[0]), float(place[1]))
        clear = 2.0 * (1.0 - 1e-9) * _clearance(slab, middle) / 2.0**0.5
        if clear > room:
            best, room = middle, clear
        if room >= wide:
            break
    return _square(load.force, best, min(wide, room)) if room > 0.0 else load


def _square(force: float, middle: tuple[float, float], side: float) -> Pressed:
    (x, y), half = middle, side / 2.0
    ring = ((x - half, y - half), (x + half, y - half), (x + half, y + half), (x - half, y + half))
    return Pressed(ring, force / side**2)


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
        patches.anywhere(p.pressure, p.outline, radius, foundation, slab.poisson, places[near]) for p in (load, spread)
    )
    names = ("settlement", "moment_x", "moment_y", "moment_xy")
    below = Under(*(getattr(own, name) - getattr(other, name) for name in names))
    at_a_point = patches.concentrated(load.force, radius, foundation, slab.poisson, places[away] - middle)
    bent = -(at_a_point.moment_x + at_a_point.moment_y) / (1.0 + slab.poisson) / (foundation * radius**4)
    wider = (sizes[1] ** 2 - sizes[0] ** 2) / 24.0  # of the square, by its second moment
    beside = Under(-wider * bent, *(np.zeros(len(away)) for _ in range(3)))
    both = Under(*(np.concatenate([getattr(below, name), getattr(beside, name)]) for name in names))
    return np.concatenate([near, away]), both


def _in_a_piece(
    slab: Slab, load: Pressed, spread: Pressed, radius: float, x: NDArray, y: NDArray
) -> tuple[NDArray[np.int64], Under]:
    """The same for a load close to an edge or a joint: by a piece of the slab with cells as fine as the load."""
    (x0, y0), reach = load.middle, PIECE * radius
    here = np.nonzero((np.abs(x - x0) < reach) & (np.abs(y - y0) < reach))[0]
    made, beyond = _solved_piece(*_piece(slab, (load, spread), reach), radius)
    found = made.answered(beyond, x[here] - x0, y[here] - y0)
    return here, Under(found.settlement, found.moment_x, found.moment_y, found.moment_xy)


def _piece(slab: Slab, loads: tuple[Pressed, Pressed], reach: float) -> tuple[Slab, tuple[Pressed, Pressed]]:
    """What lies about the first load, seen from its middle: the same for every load that stands alike."""
    x0, y0 = loads[0].middle

    def seen(ring: Ring) -> Ring:
        return tuple((round(x - x0, 7), round(y - y0, 7)) for x, y in ring)

    def cut(ring: Ring) -> Ring:
        for axis, sign in ((0, 1.0), (0, -1.0), (1, 1.0), (1, -1.0)):
            ring = _cut_off(ring, axis, sign, reach)
        return ring

    joints = [
        replace(
            joint,
            at=round(joint.at - (x0 if joint.across == "x" else y0), 7),
            start=round(joint.start - (y0 if joint.across == "x" else x0), 7),
            end=round(joint.end - (y0 if joint.across == "x" else x0), 7),
        )
        for joint in slab.joints
    ]

    def regions(every: tuple[Region, ...]) -> tuple[Region, ...]:
        found = (Region(cut(seen(each.outline)), each.value) for each in every)
        return tuple(each for each in found if len(each.outline) > 2)

    holes = (cut(seen(hole)) for hole in slab.holes)
    piece = replace(
        slab,
        outline=cut(seen(slab.outline)),
        holes=tuple(hole for hole in holes if len(hole) > 2),
        thickened=regions(slab.thickened),
        otherwise_borne=regions(slab.otherwise_borne),
        joints=tuple(each for each in joints if abs(each.at) < reach and each.start < reach and each.end > -reach),
    )
    one, other = (Pressed(seen(each.outline), each.pressure) for each in loads)
    return piece, (one, other)


def _cut_off(ring: Ring, axis: int, sign: float, reach: float) -> Ring:
    """An outline without what lies beyond a line across one axis, by Sutherland and Hodgman's way."""
    kept: list[tuple[float, float]] = []
    for start, end in zip(ring, (*ring[1:], *ring[:1]), strict=True):
        before, after = reach - sign * start[axis], reach - sign * end[axis]
        if before >= 0.0:
            kept.append(start)
        if (before > 0.0) != (after > 0.0) and before != after and before != 0.0 and after != 0.0:
            share = before / (before - after)
            x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
            kept.append((sign * reach, y) if axis == 0 else (x, sign * reach))
    return tuple(kept)


@lru_cache(maxsize=512)
def _solved_piece(piece: Slab, loads: tuple[Pressed, Pressed], radius: float) -> tuple[Plate, NDArray[np.float64]]:
    """A piece and what the first load does on it beyond what the second does."""
    lines = lines_of(piece, radius, at_edges=AT_EDGES * radius, beside=loads)
    made = plate(piece, *lines)
    own, other = (on_plates.pressed(made, each) for each in loads)
    return made, made.found(own - other)


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
    slab: Slab, every: Sequence[Pressed], close: Sequence[Pressed], radius: float, asked: Sequence[tuple[float, float]]
) -> tuple[NDArray[np.float64], NDArray[np.float64], int]:
    """The places asked for, then those below and about each load, and a net over the floor.

    How many of them may lie so near to a load that its square does not do is told with them: where many loads stand,
    the net is there for the top alone, far from them.
    """
    turn = np.pi / 4.0 * np.arange(8)
    ring = np.concatenate([far * radius * np.stack([np.cos(turn), np.sin(turn)], -1) for far in AROUND])
    few = len(every) <= MANY
    found = [_below(load, radius) if few or load in close else np.array(load.middle)[None] for load in every]
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
    for joint in slab.joints:  # a place right on a joint is taken for one at its lower side
        along = every_place[:, "xy".index(joint.across)]
        along[np.abs(along - joint.at) < SAME / 2.0] = joint.at - SAME
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
