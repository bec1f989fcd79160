"""scikit-fem with quadratic triangles: on a graded grid of its own, or refined where heat jumps between triangles."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.sparse.linalg import splu, spsolve
from skfem import (
    Basis,
    ElementTriP0,
    ElementTriP2,
    FacetBasis,
    Functional,
    InteriorFacetBasis,
    MeshTri,
    adaptive_theta,
    asm,
)
from skfem.helpers import dot, grad

from ..peer import Climate, conducted, films, graded, inside, lines_of, offered, stored, taken_up
from ..posed import Case

Array = NDArray[np.float64]
Solve = Callable[[sp.csc_matrix, Array], Array]


def as_it_comes(matrix: sp.csc_matrix, load: Array) -> Array:
    """scipy's spsolve with nothing set: SuperLU with COLAMD."""
    return np.asarray(spsolve(matrix, load))


def symmetric(matrix: sp.csc_matrix, load: Array) -> Array:
    """SuperLU told that the matrix is symmetric, which is the best of scipy's own settings here."""
    return np.asarray(factored(matrix)(load))


def factored(matrix: sp.csc_matrix) -> Callable[[Array], Array]:
    options = {"SymmetricMode": True, "Equil": False}
    return splu(matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options=options).solve


@dataclass(frozen=True)
class System:
    """A section on a grid of triangles."""

    basis: Basis
    conductivity: Array  # (triangles,) W/(m·K)
    conduction: sp.csc_matrix  # with the films, W/(m·K)
    storage: sp.csc_matrix | None  # J/(m·K)
    room: Array  # (n,) load of one kelvin in the room, W/(m·K)
    outdoors: Array  # (n,) of one kelvin outdoors
    films: tuple[tuple[str, NDArray[np.int64], float], ...]  # air, its sides, m²·K/W

    def heat(self, temperature: NDArray, air: complex) -> complex:
        """What the room at that temperature gives off. [W/m]"""
        return self.room.sum() * air - self.room @ temperature


def values(case: Case, grid: MeshTri) -> tuple[Array, Array]:
    """Conductivity and heat capacity of each triangle; nought in air. [W/(m·K), J/(m³·K)]"""
    middle = grid.p[:, grid.t].mean(axis=1)
    k, c = np.zeros(grid.nelements), np.zeros(grid.nelements)
    for part in sorted(case.parts, key=lambda part: -part.priority):
        here = inside(part.outline, *middle)
        k[here], c[here] = part.conductivity, part.heat_capacity
    return k, c


def bodies(case: Case, grid: MeshTri) -> MeshTri:
    """A grid without its triangles in air."""
    return grid.restrict(np.flatnonzero(values(case, grid)[0] > 0.0))


def system(case: Case, grid: MeshTri, *, stores: bool = False) -> System:
    """The equations of a section on a grid that holds nothing but its bodies."""
    k, c = values(case, grid)
    basis = Basis(grid, ElementTriP2(), intorder=2 if not stores else 4)
    flat = basis.with_element(ElementTriP0())
    conduction = asm(conducted, basis, k=flat.interpolate(k))
    storage = asm(stored, basis, c=flat.interpolate(c)).tocsc() if stores else None
    loads = {"room": np.zeros(basis.N), "outdoors": np.zeros(basis.N)}
    touched = []
    warm, cold = (Climate(case.climates[where].mean) for where in ("room", "outdoors"))
    for name, facets, _ in films(case, grid, warm, cold):
        resistance = film_of(case, name)
        here = FacetBasis(grid, ElementTriP2(), facets=facets)
        conduction = conduction + asm(taken_up, here) / resistance
        where = "outdoors" if name == "outdoors" else "room"
        loads[where] += asm(offered, here) / resistance
        touched.append((where, facets, resistance))
    return System(basis, k, conduction.tocsc(), storage, loads["room"], loads["outdoors"], tuple(touched))


def film_of(case: Case, name: str) -> float:
    """The film of what a side is, in the words of ``peer.films``. [m²·K/W]"""
    facing = {"floor": "up", "wall": "side", "soffit": "down", "outdoors": "side"}
    return case.films["outdoors" if name == "outdoors" else "room"].of(facing[name])  # type: ignore[arg-type]


def mean_heat(case: Case, posed: System, solve: Solve) -> float:
    """Mean heat that the room gives off. [W/m]"""
    return float(posed.heat(temperature(case, posed, solve), case.climates["room"].mean).real)


def temperature(case: Case, posed: System, solve: Solve) -> Array:
    room, outdoors = case.climates["room"].mean, case.climates["outdoors"].mean
    return solve(posed.conduction, posed.room * room + posed.outdoors * outdoors)


def graded_grid(case: Case, smallest: float, growth: float) -> MeshTri:
    """Rectangles through every corner, narrow beside each line of the section, each cut in two."""
    xs, ys = (graded(lines_of(case, axis, smallest), smallest, growth) for axis in (0, 1))
    return bodies(case, MeshTri.init_tensor(xs, ys))


def on_a_grid(case: Case, grid: MeshTri, solve: Solve) -> float:
    """From a grid to the heat of the room. [W/m]"""
    return mean_heat(case, system(case, grid), solve)


@Functional
def jump(w):  # type: ignore[no-untyped-def]
    """Square of the heat that one triangle gives and the next does not take, as the residual's estimate weighs it."""
    across = dot(w.k0 * grad(w.u0) - w.k1 * grad(w.u1), w.n)
    return w.h * across**2 / (w.k0 + w.k1)


@Functional
def missed(w):  # type: ignore[no-untyped-def]
    """The same at a film, whose air stands at ``w.air``; at the section's ends no heat should pass: 1/R is nought."""
    across = w.k * dot(grad(w.u), w.n) - w.film * (w.air - w.u)
    return w.h * across**2 / (2.0 * w.k)


def unmet(case: Case, posed: System, found: Array) -> Array:
    """The residual's estimate of each triangle's error: what is made in it, jumps at its sides, misses a film."""
    grid = posed.basis.mesh
    sides = [InteriorFacetBasis(grid, ElementTriP2(), side=side) for side in (0, 1)]
    seen = {f"u{n}": side.interpolate(found) for n, side in enumerate(sides)}
    k = {f"k{n}": posed.conductivity[grid.f2t[n, side.find]][:, None] for n, side in enumerate(sides)}
    facets = np.zeros(grid.facets.shape[1])
    np.add.at(facets, sides[0].find, jump.elemental(sides[0], **seen, **k) / 2)
    edge = FacetBasis(grid, ElementTriP2())
    film, air = np.zeros(grid.facets.shape[1]), np.zeros(grid.facets.shape[1])
    for where, touched, resistance in posed.films:
        film[touched], air[touched] = 1.0 / resistance, case.climates[where].mean
    of_edge = {
        "film": film[edge.find][:, None],
        "air": air[edge.find][:, None],
        "k": posed.conductivity[grid.f2t[0, edge.find]][:, None],
    }
    np.add.at(facets, edge.find, missed.elemental(edge, u=edge.interpolate(found), **of_edge))
    return facets[grid.t2f].sum(axis=0) + made(posed, found)


def made(posed: System, found: Array) -> Array:
    """Heat that a quadratic triangle makes or swallows, squared, times its area over its conductivity."""
    grid, dofs = posed.basis.mesh, posed.basis.element_dofs
    (x0, x1, x2), (y0, y1, y2) = (grid.p[axis][grid.t] for axis in (0, 1))
    twice = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
    slopes = np.array([[y1 - y2, y2 - y0, y0 - y1], [x2 - x1, x0 - x2, x1 - x0]]) / twice  # of the corners' shares
    along = np.einsum("aie,aje->ije", slopes, slopes)
    u = found[dofs]
    bends = sum(4.0 * u[n] * along[n, n] for n in range(3))
    bends = bends + 8.0 * (u[3] * along[0, 1] + u[4] * along[1, 2] + u[5] * along[0, 2])
    area = np.abs(twice) / 2
    return area**2 * posed.conductivity * bends**2


@dataclass(frozen=True)
class Marked:
    """How an adaptive grid is come by."""

    smallest: float  # m beside a line of the section, on the first grid
    growth: float
    share: float  # triangles are cut whose estimate is at least that much of the largest
    steps: int  # times that triangles are cut


def refined(case: Case, how: Marked, solve: Solve) -> Iterator[tuple[System, Array]]:
    """The first grid and each after it, with its temperatures."""
    grid = graded_grid(case, how.smallest, how.growth)
    for step in range(how.steps + 1):
        posed = system(case, grid)
        found = temperature(case, posed, solve)
        yield posed, found
        if step < how.steps:
            grid = grid.refined(adaptive_theta(unmet(case, posed, found), theta=how.share))


def adaptive(case: Case, how: Marked, solve: Solve) -> float:
    """From the outlines through every grid to the heat of the room on the last. [W/m]"""
    *_, (posed, found) = refined(case, how, solve)
    return float(posed.heat(found, case.climates["room"].mean).real)
