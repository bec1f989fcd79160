"""A slab on springs by elements: settlement, moments and pressure of any outline under any loads, with lift-off.

Bogner, Fox and Schmit's element: products of cubics, so that heights and slopes are continuous and a plate's energy is
finite. What is thicker counts with its own stiffness about its own middle; that a rib hangs below is not counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property, lru_cache

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import SuperLU

from ..bearing import GRAVITY
from ..conduction.solve import factor
from .cells import SAME, Cells, cells_of
from .hermite import gauss, products, shapes, sizes
from .slab import Ring, Slab
from .springs import plate_stiffness

OUTSIDE = 1e-7  # share of the plate's stiffness in the part of a cut cell that is no slab: keeps the factor sound
MOST_TURNS = 40  # of finding out where the slab has lifted


class StillLifting(ArithmeticError):
    """Where the slab lies and where it has lifted does not come to rest: the loads turn it over."""


@dataclass(frozen=True)
class Answered:
    """What the slab does at places; one number for each. Settlement and pressure are positive downwards."""

    settlement: NDArray[np.float64]  # m
    pressure: NDArray[np.float64]  # Pa on what lies below
    moment_x: NDArray[np.float64]  # N·m/m, of stresses along x; positive with tension below
    moment_y: NDArray[np.float64]  # N·m/m
    moment_xy: NDArray[np.float64]  # N·m/m
    thickness: NDArray[np.float64]  # m
    tilt: NDArray[np.float64]  # steepest slope; 1

    @property
    def principal(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Larger and smaller moment. [N·m/m]"""
        middle = (self.moment_x + self.moment_y) / 2.0
        turn = np.hypot((self.moment_x - self.moment_y) / 2.0, self.moment_xy)
        return middle + turn, middle - turn

    @property
    def tension_below(self) -> NDArray[np.float64]:
        """Largest tension at the underside, below zero where all is pressed. [Pa]"""
        return 6.0 * self.principal[0] / self.thickness**2

    @property
    def tension_above(self) -> NDArray[np.float64]:
        """Largest tension at the top. [Pa]"""
        return -6.0 * self.principal[1] / self.thickness**2


@dataclass(frozen=True)
class Places:
    """Where a cell's springs stand and its weight is summed: sixteen alike in whole cells, its own in a cut one."""

    points: NDArray[np.int64]  # (cells, 16) unknowns
    heights: NDArray[np.float64]  # (cells or 1, places, 16) of the shapes, before their sizes
    scale: NDArray[np.float64]  # (cells, 16) sizes of the shapes
    x: NDArray[np.float64]  # (cells, places) m
    y: NDArray[np.float64]  # (cells, places) m
    weight: NDArray[np.float64]  # (cells, places) m²

    def at(self, found: NDArray[np.float64]) -> NDArray[np.float64]:
        """Settlement at the places, (cells, places). [m]"""
        return np.einsum(
            "cqi,ci->cq",
            np.broadcast_to(self.heights, (len(self.points), *self.heights.shape[1:])),
            self.scale * found[self.points],
        )

    def bent(self, cells: Cells) -> NDArray[np.float64]:
        """Second derivatives of the shapes across plus up at the places, before sizes, (cells, places, 16). [1/m²]"""
        ix = np.searchsorted(cells.x, self.x[:, 0], side="right") - 1
        iy = np.searchsorted(cells.y, self.y[:, 0], side="right") - 1
        wide, high = np.diff(cells.x)[ix][:, None], np.diff(cells.y)[iy][:, None]
        at_x, at_y = (self.x - cells.x[ix][:, None]) / wide, (self.y - cells.y[iy][:, None]) / high
        across = np.einsum("cqi,cqj->cqij", shapes(at_x, 2) / wide[..., None] ** 2, shapes(at_y, 0))
        up = np.einsum("cqi,cqj->cqij", shapes(at_x, 0), shapes(at_y, 2) / high[..., None] ** 2)
        return (across + up).reshape(*self.x.shape, 16)

    def matrix(self, strength: NDArray[np.float64]) -> NDArray[np.float64]:
        """Springs of so much each, (cells, places), as matrices of the cells, (cells, 16, 16). [N/m]"""
        if len(self.heights) == 1:
            shape = self.heights[0]
            both = (shape[:, :, None] * shape[:, None, :]).reshape(len(shape), -1)
            found = (strength @ both).reshape(-1, 16, 16)
        else:
            found = np.einsum("cq,cqi,cqj->cij", strength, self.heights, self.heights)
        return found * self.scale[:, :, None] * self.scale[:, None, :]

    def load(self, force: NDArray[np.float64], unknowns: int) -> NDArray[np.float64]:
        """Forces at the places, (cells, places), as loads on the unknowns. [N]"""
        heights = np.broadcast_to(self.heights, (len(self.points), *self.heights.shape[1:]))
        found = np.einsum("cq,cqi->ci", force, heights) * self.scale
        return np.asarray(np.bincount(self.points.ravel(), found.ravel(), unknowns), np.float64)


@dataclass(eq=False)
class Plate:
    """A slab cut into cells and factorised once; each load after that is a matter of milliseconds."""

    slab: Slab
    cells: Cells
    unit: float  # slopes count as height over this length; m
    columns: NDArray[np.int64]  # (nx + 1, 2) which line of nodes the cell to the left and to the right of a line sees
    rows: NDArray[np.int64]  # (ny + 1, 2)
    number: NDArray[np.int64]  # (columns, rows) of the node, -1 where none is needed
    unknowns: int
    places: tuple[Places, ...]
    bending: sp.csc_array  # of plate and joints; N/m
    _factor: SuperLU = field(repr=False)

    def found(self, load: NDArray[np.float64]) -> NDArray[np.float64]:
        """Unknowns of one load case (n,) or several (n, m), with springs that pull as they press. [m]"""
        return np.asarray(self._factor.solve(load))

    def lifting(self, load: NDArray[np.float64]) -> tuple[NDArray[np.float64], int]:
        """Unknowns of one load case with springs that only press, and after how many turns they came to rest.

        Raises StillLifting where they do not.
        """
        found = self.found(load)
        borne = [np.ones_like(places.weight, bool) for places in self.places]
        for turn in range(1, MOST_TURNS + 1):
            now = [places.at(found) > 0.0 for places in self.places]
            if all(np.array_equal(old, new) for old, new in zip(borne, now, strict=True)):
                return found, turn
            borne = now
            matrix = self.bending + springs(self.places, self.strength, self.unknowns, borne)
            found = np.asarray(factor(matrix).solve(load))
        raise StillLifting

    @cached_property
    def strength(self) -> tuple[NDArray[np.float64], ...]:
        """k times area at the places. [N/m]"""
        return tuple(places.weight * self.slab.foundation_at(places.x, places.y) for places in self.places)

    def weight(self, density: float) -> NDArray[np.float64]:
        """The slab's own weight as loads on the unknowns. [kg/m³] -> [N]"""
        loads = np.zeros(self.unknowns)
        for places in self.places:
            thickness = self.slab.thickness_at(places.x, places.y)
            loads += places.load(places.weight * thickness * density * GRAVITY, self.unknowns)
        return loads

    def answered(self, found: NDArray[np.float64], x: NDArray[np.float64], y: NDArray[np.float64]) -> Answered:
        """What the slab does at places (n,) in it. [m]"""
        lines = self.cells
        ix = np.clip(np.searchsorted(lines.x, x, side="right") - 1, 0, len(lines.x) - 2)
        iy = np.clip(np.searchsorted(lines.y, y, side="right") - 1, 0, len(lines.y) - 2)
        wide, high = np.diff(lines.x)[ix], np.diff(lines.y)[iy]
        unknowns = found[points_of(self, ix, iy)].reshape(-1, 4, 4)
        at_x, at_y = (x - lines.x[ix]) / wide, (y - lines.y[iy]) / high
        size_x, size_y = sizes(wide, self.unit), sizes(high, self.unit)

        def worked(order_x, order_y):
            across = shapes(at_x, order_x) * size_x / wide[:, None] ** order_x
            up = shapes(at_y, order_y) * size_y / high[:, None] ** order_y
            return np.einsum("ni,nij,nj->n", across, unknowns, up)

        settlement = worked(0, 0)
        bent_x, bent_y, twist = worked(2, 0), worked(0, 2), worked(1, 1)
        thickness = self.slab.thickness_at(x, y)
        stiffness = plate_stiffness(self.slab.modulus, thickness, self.slab.poisson)
        nu = self.slab.poisson
        return Answered(
            settlement=settlement,
            pressure=np.maximum(self.slab.foundation_at(x, y) * settlement, 0.0),
            moment_x=-stiffness * (bent_x + nu * bent_y),
            moment_y=-stiffness * (bent_y + nu * bent_x),
            moment_xy=-stiffness * (1.0 - nu) * twist,
            thickness=thickness,
            tilt=np.hypot(worked(1, 0), worked(0, 1)),
        )


def plate(slab: Slab, x: NDArray[np.float64], y: NDArray[np.float64]) -> Plate:
    """Set up and factorise a slab.

    Parameters
    ----------
    slab : Slab
        [m, Pa, N/m³]
    x, y : ndarray, shape (n,)
        Lines of the cells, see ``lines.lines_of``; joints must lie on them. [m]

    Returns
    -------
    Plate
        [N/m]

    Source
    ------
    Bogner, Fox and Schmit 1965, The generation of interelement-compatible stiffness and mass matrices (from memory);
    Kirchhoff's plate on Winkler's springs.

    Examples
    --------
    10 kPa everywhere on k = 10 MN/m³: down by a millimetre, and no moment.

    >>> slab = Slab([(0, 0), (3, 0), (3, 2), (0, 2)], 0.15, 3e10, 0.2, 1e7)
    >>> made = plate(slab, np.linspace(0.0, 3.0, 4), np.linspace(0.0, 2.0, 3))
    >>> even = made.weight(1e4 / (0.15 * 9.80665))
    >>> felt = made.answered(made.found(even), np.array([0.4]), np.array([1.9]))
    >>> round(1e3 * float(felt.settlement[0]), 9), bool(abs(felt.moment_x[0]) < 1e-6)
    (1.0, True)
    """
    shape = _shaped(_as_built(slab), x.tobytes(), y.tobytes())
    at = (slab, shape.cells, shape.unit, shape.columns, shape.rows, shape.number, shape.unknowns)
    bending = shape.bending + _joined(*at)
    strength = tuple(each.weight * slab.foundation_at(each.x, each.y) for each in shape.places)
    made = factor(bending + springs(shape.places, strength, shape.unknowns))
    return Plate(*at, shape.places, bending, made)


@dataclass(frozen=True, eq=False)
class _Shape:
    """What of a plate is the same on whatever bed it lies and whatever its joints hand on."""

    cells: Cells
    unit: float
    columns: NDArray[np.int64]
    rows: NDArray[np.int64]
    number: NDArray[np.int64]
    unknowns: int
    places: tuple[Places, ...]
    bending: sp.csc_array  # of the plate alone; N/m


def _as_built(slab: Slab) -> Slab:
    """The slab without how stiff bed and joints are, its rings such that a cache can know them."""
    return replace(
        slab,
        outline=_fixed(slab.outline),
        holes=tuple(_fixed(each) for each in slab.holes),
        thickened=tuple(replace(each, outline=_fixed(each.outline)) for each in slab.thickened),
        foundation=1.0,
        otherwise_borne=tuple(replace(each, outline=_fixed(each.outline), value=1.0) for each in slab.otherwise_borne),
        joints=tuple(replace(each, stiffness=0.0) for each in slab.joints),
    )


def _fixed(ring: Ring) -> Ring:
    return tuple((float(x), float(y)) for x, y in ring)


@lru_cache(maxsize=4)
def _shaped(slab: Slab, across: bytes, up: bytes) -> _Shape:
    x, y = np.frombuffer(across), np.frombuffer(up)
    cells = cells_of(slab, x, y)
    unit = float(np.median(np.concatenate([np.diff(x), np.diff(y)])))
    columns, rows = _doubled(slab, "x", x), _doubled(slab, "y", y)
    ix, iy = np.nonzero(cells.there)
    needed = np.zeros((columns.max() + 1, rows.max() + 1), bool)
    for right in (0, 1):
        for top in (0, 1):
            needed[columns[ix + right, 1 - right], rows[iy + top, 1 - top]] = True
    number = _numbered(slab, cells, columns, rows, needed)
    unknowns = 4 * (int(number.max()) + 1)
    places = _places(slab, cells, unit, columns, rows, number)
    bending = _bending(slab, cells, unit, columns, rows, number, unknowns)
    return _Shape(cells, unit, columns, rows, number, unknowns, places, bending)


def springs(
    places: Sequence[Places],
    strength: Sequence[NDArray[np.float64]],
    unknowns: int,
    borne: Sequence[NDArray[np.bool_]] | None = None,
) -> sp.csc_array:
    """Matrix of the springs, or of those that still bear.

    Parameters
    ----------
    places : sequence of Places
        Of whole cells and of cut ones. [m]
    strength : sequence of ndarray
        k times area at their places. [N/m]
    unknowns : int
        [1]
    borne : sequence of ndarray of bool, optional
        Which of them bear. [1]

    Returns
    -------
    csc_array, shape (unknowns, unknowns)
        [N/m]

    Source
    ------
    Winkler's springs.

    Examples
    --------
    See ``plate``.
    """
    kept = strength if borne is None else [k * on for k, on in zip(strength, borne, strict=True)]
    parts = [(each.points, each.matrix(k)) for each, k in zip(places, kept, strict=True)]
    return _summed(parts, unknowns)


def points_of(plate: Plate, ix: NDArray[np.int64], iy: NDArray[np.int64]) -> NDArray[np.int64]:
    """Unknowns of cells.

    Parameters
    ----------
    plate : Plate
        [m]
    ix, iy : ndarray of int, shape (n,)
        Cells across and up. [1]

    Returns
    -------
    ndarray of int, shape (n, 16)
        Height, slope across, slope up and twist of each corner, in the order of the products. [1]

    Source
    ------
    Definition.

    Examples
    --------
    See ``plate``.
    """
    return _points(plate.columns, plate.rows, plate.number, ix, iy)


def _summed(parts: Sequence[tuple[NDArray, NDArray]], unknowns: int) -> sp.csc_array:
    """Matrices of cells, (cells, m, m) at unknowns (cells, m), as one."""
    rows = [np.repeat(points, points.shape[1], 1).ravel() for points, _ in parts]
    columns = [np.tile(points, (1, points.shape[1])).ravel() for points, _ in parts]
    values = [matrix.ravel() for _, matrix in parts]
    at = (np.concatenate(rows), np.concatenate(columns))
    return sp.coo_array((np.concatenate(values), at), (unknowns, unknowns)).tocsc()


def _doubled(slab: Slab, axis: str, lines: NDArray) -> NDArray[np.int64]:
    """For each line the line of nodes that cells before and after it see: two different ones at a joint."""
    joints = [int(np.argmin(np.abs(lines - joint.at))) for joint in slab.joints if joint.across == axis]
    split = np.zeros(len(lines), np.int64)
    split[joints] = 1
    after = np.arange(len(lines)) + np.cumsum(split)
    return np.stack([after - split, after], -1)


def _numbered(slab: Slab, cells: Cells, columns: NDArray, rows: NDArray, needed: NDArray) -> NDArray[np.int64]:
    """Number of each node, -1 where none is needed; the two sides of a line are one where no joint parts them."""
    same = np.arange(needed.size).reshape(needed.shape)
    for axis, lines, doubled, other in (("x", cells.x, columns, rows), ("y", cells.y, rows, columns)):
        nodes, there = (same, cells.there) if axis == "x" else (same.T, cells.there.T)
        for n in np.nonzero(doubled[:, 0] != doubled[:, 1])[0]:
            parted = _parted(slab, axis, float(lines[n]), cells.y if axis == "x" else cells.x)
            if not 0 < n < len(lines) - 1 or parted.all():
                continue
            held = np.nonzero(~parted & (there[n - 1] | there[n]))[0]
            for end in np.unique(np.concatenate([other[held, 1], other[held + 1, 0]])):
                left, right = nodes[doubled[n, 0], end], nodes[doubled[n, 1], end]
                same[same == max(left, right)] = min(left, right)
    kept = np.unique(same[needed])
    number = np.full(needed.size, -1, np.int64)
    number[kept] = np.arange(len(kept))
    return np.where(needed, number[same], -1)


def _parted(slab: Slab, axis: str, at: float, along: NDArray) -> NDArray[np.bool_]:
    """Between which lines along it a joint parts the cells on its two sides."""
    found = np.zeros(len(along) - 1, bool)
    middle = (along[1:] + along[:-1]) / 2.0
    for joint in slab.joints:
        if joint.across == axis and abs(joint.at - at) <= SAME:
            found |= (middle > joint.start) & (middle < joint.end)
    return found


def _points(columns: NDArray, rows: NDArray, number: NDArray, ix: NDArray, iy: NDArray) -> NDArray[np.int64]:
    """Unknowns of cells (n, 16): height, slope across, slope up, twist of each corner, in the order of the products."""
    found = np.empty((len(ix), 4, 4), np.int64)
    for right in (0, 1):
        for top in (0, 1):
            node = 4 * number[columns[ix + right, 1 - right], rows[iy + top, 1 - top]]
            for slope_x in (0, 1):
                for slope_y in (0, 1):
                    found[:, 2 * right + slope_x, 2 * top + slope_y] = node + slope_x + 2 * slope_y
    return found.reshape(-1, 16)


def _places(slab: Slab, cells: Cells, unit: float, columns, rows, number) -> tuple[Places, ...]:
    wide, high = np.diff(cells.x), np.diff(cells.y)

    def scale(ix, iy):
        return (sizes(wide[ix], unit)[:, :, None] * sizes(high[iy], unit)[:, None, :]).reshape(-1, 16)

    ix, iy = np.nonzero(cells.whole)
    one = shapes(gauss()[0], 0)
    heights = np.einsum("pi,qj->pqij", one, one).reshape(1, -1, 16)
    found = [Places(_points(columns, rows, number, ix, iy), heights, scale(ix, iy), *cells.summed())]
    for (jx, jy), placed in cells.cut.items():
        at_x = shapes((placed[:, 0] - cells.x[jx]) / wide[jx], 0)
        at_y = shapes((placed[:, 1] - cells.y[jy]) / high[jy], 0)
        own = np.einsum("qi,qj->qij", at_x, at_y).reshape(1, -1, 16)
        here = (np.array([jx]), np.array([jy]))
        found.append(Places(_points(columns, rows, number, *here), own, scale(*here), *placed.T[:, None, :]))
    return tuple(found)


def _bending(slab: Slab, cells: Cells, unit: float, columns, rows, number, unknowns: int) -> sp.csc_array:
    """Stiffness of the plate: whole cells by products of beams, cut ones at their places."""
    wide, high = np.diff(cells.x), np.diff(cells.y)
    nu = slab.poisson
    ix, iy = np.nonzero(cells.there)
    middle = ((cells.x[ix] + cells.x[ix + 1]) / 2.0, (cells.y[iy] + cells.y[iy + 1]) / 2.0)
    stiffness = plate_stiffness(slab.modulus, slab.thickness_at(*middle), nu)
    stiffness = stiffness * np.where(cells.whole[ix, iy], 1.0, OUTSIDE)
    x = {each: products(wide, unit, *each) for each in ((0, 0), (1, 1), (2, 2), (0, 2), (2, 0))}
    y = {each: products(high, unit, *each) for each in x}
    whole = np.zeros((len(ix), 16, 16))
    terms = (((2, 2), (0, 0), 1.0), ((0, 0), (2, 2), 1.0), ((0, 2), (2, 0), nu), ((2, 0), (0, 2), nu))
    for across, up, times in (*terms, ((1, 1), (1, 1), 2.0 * (1.0 - nu))):
        whole += times * np.einsum("nij,nkl->nikjl", x[across][ix], y[up][iy]).reshape(-1, 16, 16)
    parts = [(_points(columns, rows, number, ix, iy), stiffness[:, None, None] * whole)]
    for (jx, jy), placed in cells.cut.items():
        at_x, at_y = (placed[:, 0] - cells.x[jx]) / wide[jx], (placed[:, 1] - cells.y[jy]) / high[jy]
        size = (sizes(wide[[jx]], unit)[0][:, None] * sizes(high[[jy]], unit)[0]).ravel()

        def bent(order_x, order_y, at_x=at_x, at_y=at_y, jx=jx, jy=jy, size=size):
            both = np.einsum("qi,qj->qij", shapes(at_x, order_x), shapes(at_y, order_y)).reshape(-1, 16)
            return both * size / (wide[jx] ** order_x * high[jy] ** order_y)

        xx, yy, xy = bent(2, 0), bent(0, 2), bent(1, 1)
        here = plate_stiffness(slab.modulus, slab.thickness_at(placed[:, 0], placed[:, 1]), nu) * placed[:, 2]
        matrix = np.einsum("q,qi,qj->ij", here, xx + nu * yy, xx) + np.einsum("q,qi,qj->ij", here, yy + nu * xx, yy)
        matrix += 2.0 * (1.0 - nu) * np.einsum("q,qi,qj->ij", here, xy, xy)
        parts.append((_points(columns, rows, number, np.array([jx]), np.array([jy])), matrix[None]))
    return _summed(parts, unknowns)


def _joined(slab: Slab, cells: Cells, unit: float, columns, rows, number, unknowns: int) -> sp.csc_array:
    """Joints that carry shear: the steps between their two sides, with the joint's stiffness."""
    parts = [(np.zeros((0, 8), np.int64), np.zeros((0, 8, 8)))]
    there = cells.there
    for joint in slab.joints:
        lines, along = (cells.x, cells.y) if joint.across == "x" else (cells.y, cells.x)
        n = int(np.argmin(np.abs(lines - joint.at)))
        solid = there if joint.across == "x" else there.T
        if not 0 < n < len(lines) - 1 or joint.stiffness == 0.0:
            continue
        middle = (along[1:] + along[:-1]) / 2.0
        on = np.nonzero(solid[n - 1] & solid[n] & (middle > joint.start) & (middle < joint.end))[0]
        mass = products(np.diff(along)[on], unit, 0, 0) * joint.stiffness
        step = np.concatenate([np.concatenate([mass, -mass], 2), np.concatenate([-mass, mass], 2)], 1)
        points = []
        for side in (0, 1):
            lying = columns[n, side] if joint.across == "x" else rows[n, side]
            for end in (0, 1):
                other = (rows if joint.across == "x" else columns)[on + end, 1 - end]
                node = 4 * (number[lying, other] if joint.across == "x" else number[other, lying])
                points += [node, node + (2 if joint.across == "x" else 1)]
        parts.append((np.stack(points, -1), step))
    return _summed(parts, unknowns)
