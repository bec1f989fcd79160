"""A second way through a section: scikit-fem with quadratic triangles on a grid of its own.

It takes from underpour only the polygons, the airs and the film resistances. ``examples/*/held.toml`` holds some of
its numbers, and the other files here time it beside the tool's own way.

    python benchmarks/peer.py examples/daylight-basement/brief.toml
"""

from __future__ import annotations

import sys
from dataclasses import dataclass
from itertools import pairwise
from math import pi

import numpy as np
from numpy.typing import NDArray
from scipy.sparse.linalg import spsolve
from skfem import Basis, BilinearForm, ElementTriP0, ElementTriP2, FacetBasis, LinearForm, MeshTri, asm
from skfem.helpers import dot, grad

from underpour import catalogue
from underpour.sections.parts import Section

YEAR = 365.25 * 86400.0  # s
Array = NDArray[np.float64]


@dataclass(frozen=True)
class Climate:
    """Mean of the year and complex amplitude of its harmonic. [degC, K]"""

    mean: float
    swing: complex = 0.0


@dataclass(frozen=True)
class Second:
    """What the second way finds."""

    unknowns: int
    floor: float  # W/m, mean of the year, into the floor
    wall: float  # W/m
    corner: float  # degC, coldest of the year where floor and wall meet; outdoors under the slab's edge


@BilinearForm
def conducted(u, v, w):  # type: ignore[no-untyped-def]
    return w.k * dot(grad(u), grad(v))


@BilinearForm
def stored(u, v, w):  # type: ignore[no-untyped-def]
    return w.c * u * v


@BilinearForm
def taken_up(u, v, _):  # type: ignore[no-untyped-def]
    return u * v


@LinearForm
def offered(v, _):  # type: ignore[no-untyped-def]
    return v


def graded(lines: list[float], smallest: float, growth: float) -> Array:
    """Coordinates that hold every line, ``smallest`` apart beside it and further apart the farther away. [m]"""
    marks = sorted({round(x, 9) for x in lines})
    found = [marks[0]]
    for left, right in pairwise(marks):
        steps: list[float] = []
        while sum(steps) < right - left:
            done = sum(steps)
            steps.append(smallest + growth * min(done, abs(right - left - done)))
        ends = np.cumsum(steps) * (right - left) / sum(steps)
        found += [left + float(x) for x in ends]
        found[-1] = right
    return np.array(found)


def inside(outline: tuple[tuple[float, float], ...], x: Array, y: Array) -> NDArray[np.bool_]:
    """Which points lie in a polygon (crossing rule)."""
    found = np.zeros(x.shape, dtype=bool)
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if y0 != y1:
            found ^= ((y0 > y) != (y1 > y)) & (x < x0 + (y - y0) * (x1 - x0) / (y1 - y0))
    return found


def lines_of(section: Section, axis: int, smallest: float) -> list[float]:
    """Every level or place where a polygon bends; a slanted side is crossed by many more."""
    low, high = section.extent[2 * axis], section.extent[2 * axis + 1]
    found = [low, high, section.watched[axis]]
    for body in (*section.parts, *section.airs):
        found += [corner[axis] for corner in body.outline]
        for a, b in zip(body.outline, (*body.outline[1:], body.outline[0]), strict=True):
            if a[0] != b[0] and a[1] != b[1]:
                found += list(np.linspace(a[axis], b[axis], 2 + int(abs(b[axis] - a[axis]) / smallest)))
    return [x for x in found if low <= x <= high]


def second_way(
    section: Section, room: Climate, outdoors: Climate, *, smallest: float = 0.004, growth: float = 0.25
) -> Second:
    """Solve a section once more, with the films for heat loss."""
    xs, ys = (graded(lines_of(section, axis, smallest), smallest, growth) for axis in (0, 1))
    whole = MeshTri.init_tensor(xs, ys)
    middle = whole.p[:, whole.t].mean(axis=1)
    k, c = np.zeros(whole.nelements), np.zeros(whole.nelements)
    for part in sorted(section.parts, key=lambda part: -part.priority):
        here = inside(part.outline, *middle)
        k[here], c[here] = part.conductivity, part.heat_capacity
    grid, k, c = whole.restrict(np.flatnonzero(k > 0.0)), k[k > 0.0], c[k > 0.0]

    basis = Basis(grid, ElementTriP2())
    flat = basis.with_element(ElementTriP0())
    stiff = asm(conducted, basis, k=flat.interpolate(k))
    heavy = asm(stored, basis, c=flat.interpolate(c))
    load = np.zeros(basis.N, dtype=complex)
    steady = np.zeros(basis.N)
    sides = {}
    for name, facets, resistance in films(section, grid, room, outdoors):
        here = FacetBasis(grid, ElementTriP2(), facets=facets)
        pull, air = asm(offered, here) / resistance, room if name != "outdoors" else outdoors
        stiff = stiff + asm(taken_up, here) / resistance
        steady, load = steady + pull * air.mean, load + pull * air.swing
        sides[name] = sides.get(name, 0.0) + pull
    mean = spsolve(stiff.tocsc(), steady)
    swing = spsolve((stiff + 2j * pi / YEAR * heavy).tocsc(), load)
    flow = {name: float(pull.sum() * room.mean - pull @ mean) for name, pull in sides.items()}
    at = int(np.argmin(np.hypot(*(basis.doflocs - np.array(section.watched)[:, None]))))
    return Second(basis.N, flow.get("floor", 0.0), flow.get("wall", 0.0), float(mean[at] - abs(swing[at])))


def films(
    section: Section, grid: MeshTri, room: Climate, outdoors: Climate
) -> list[tuple[str, NDArray[np.int64], float]]:
    """Sides that touch air, by what they are, with the film's resistance. [m²·K/W]"""
    edge = grid.boundary_facets()
    middle = grid.p[:, grid.facets[:, edge]].mean(axis=1)
    body = grid.p[:, grid.t[:, grid.f2t[0, edge]]].mean(axis=1)
    level = np.ptp(grid.p[1][grid.facets[:, edge]], axis=0) < 1e-9
    outwards = np.sign(middle - body) * np.array([~level, level])
    x, y = middle + 1e-6 * outwards
    found = []
    for air in section.airs:
        touched = inside(air.outline, x, y)
        if air.where == "outdoors":
            found.append(("outdoors", edge[touched], catalogue.surface("outdoors").value))
            continue
        floor = touched & level & (outwards[1] > 0)
        below = touched & level & (outwards[1] < 0)
        down = "floor-up" if room.mean < outdoors.mean else "floor-down"
        found.append(("floor", edge[floor], catalogue.surface(down).value))
        found.append(("wall", edge[touched & ~level], catalogue.surface("wall").value))
        found.append(("soffit", edge[below], catalogue.surface("floor-up").value))
    return [(name, facets, r) for name, facets, r in found if len(facets)]


def main(brief: str) -> int:
    from underpour.brief import read
    from underpour.resolve import resolve
    from underpour.sections.build import section

    reading = read(brief)
    for name, asked in (("as briefed", reading.brief), *reading.alternatives):
        resolved = resolve(asked)
        room = Climate(resolved.room.mean, resolved.room.swing)
        floor = wall = 0.0
        for edge in resolved.edges:
            beside = resolved.air_beside(edge)
            outdoors = Climate(beside.mean, beside.swing)
            for smallest, growth in ((0.008, 0.35), (0.004, 0.25)):
                found = second_way(section(resolved, edge), room, outdoors, smallest=smallest, growth=growth)
                print(f"{name}, edge {edge.letter}: {found}")
            floor, wall = floor + found.floor * edge.length, wall + found.wall * edge.length
        print(f"{name}: floor {floor:.2f} W, wall {wall:.2f} W, mean of the year")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
