"""What a heat flow changes with every conductivity and every film: by the adjoint, and by solving again and again."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import scipy.sparse as sp
from numpy.typing import NDArray
from scipy.optimize import approx_fprime
from skfem import Basis, ElementTriP0, ElementTriP2, FacetBasis, asm

from underpour.physics.conduction.adjoint import flow, slopes
from underpour.physics.conduction.solve import Solution

from . import posed
from .peer import Climate, conducted, films, offered, taken_up
from .peers import triangles
from .race import Race, Way

Array = NDArray[np.float64]
THEME = "gradient"
ALLOWED = 0.02  # of the flow: what is furthest off, each slope times its value
GRID = 0.1, 0.5  # of the peer: m beside a line, growth
SHARE = 1e-6  # of a value: what finite differences move it by


def races(tiny: bool = False) -> list[Race]:
    return [race(name, case().still, tiny) for name, case in list(posed.CASES.items())[1 if tiny else 0 :]]


def by_adjoint(solution: Solution, case: posed.Case) -> Array:
    """Of the room's mean heat in each conductivity, each times its conductivity. [W/m]"""
    room = posed.of_the_room(solution.equations.faces)
    found = slopes(solution, [flow(solution, room, 1.0, 0j)], len(case.parts), len(case.airs))[0]
    return found.conductivity * np.array([part.conductivity for part in case.parts])


class Summed:
    """The peer's equations as a sum over bodies, so that finite differences need not assemble again."""

    def __init__(self, case: posed.Case):
        self.case = case
        grid = triangles.graded_grid(case, *GRID)
        basis = Basis(grid, ElementTriP2(), intorder=2)
        flat = basis.with_element(ElementTriP0())
        middle = grid.p[:, grid.t].mean(axis=1)
        owner = np.full(grid.nelements, -1)
        for n, part in sorted(enumerate(case.parts), key=lambda each: -each[1].priority):
            owner[triangles.inside(part.outline, *middle)] = n
        own = [asm(conducted, basis, k=flat.interpolate(1.0 * (owner == n))) for n in range(len(case.parts))]
        self.own = [each.tocsc() for each in own]
        self.films, self.room, self.outdoors = sp.csc_matrix((basis.N, basis.N)), np.zeros(basis.N), np.zeros(basis.N)
        for name, facets, _ in films(case, grid, *(Climate(case.climates[each].mean) for each in ("room", "outdoors"))):
            side, resistance = FacetBasis(grid, ElementTriP2(), facets=facets), triangles.film_of(case, name)
            self.films = self.films + asm(taken_up, side) / resistance
            load = asm(offered, side) / resistance
            if name == "outdoors":
                self.outdoors += load
            else:
                self.room += load

    def heat(self, conductivity: Array) -> float:
        air = self.case.climates
        matrix = self.films + sum(float(k) * own for k, own in zip(conductivity, self.own, strict=True))
        load = self.room * air["room"].mean + self.outdoors * air["outdoors"].mean
        found = triangles.symmetric(matrix.tocsc(), load)
        return float(self.room.sum() * air["room"].mean - self.room @ found)


def race(name: str, case: posed.Case, tiny: bool) -> Race:
    sketched = case.sketched().coarse
    fine = case.solved(1e-3 if tiny else 1e-4)
    wanted, size = by_adjoint(fine.coarse, case), abs(fine.flow(posed.of_the_room).mean)
    conductivity = np.array([part.conductivity for part in case.parts])
    steps = SHARE * conductivity
    summed = Summed(case)

    def off(found: Array) -> float:
        return float(np.abs(found - wanted).max() / size)

    def one_by_one() -> Array:
        plain = case.sketched().flow(posed.of_the_room).mean
        moved = []
        for n, part in enumerate(case.parts):
            parts = list(case.parts)
            parts[n] = replace(part, conductivity=part.conductivity * (1.0 + 1e-5))
            moved.append((replace(case, parts=tuple(parts)).sketched().flow(posed.of_the_room).mean - plain) / 1e-5)
        return np.array(moved)

    def by_scipy() -> Array:
        return np.asarray(approx_fprime(conductivity, summed.heat, steps)) * conductivity

    count = len(case.parts)
    return Race(
        THEME,
        f"gradient-{name}",
        f"{count} conductivities and all films, {case.name}",
        Way(
            "here",
            f"adjoint, factors at hand, {sketched.equations.unknowns} unknowns",
            lambda: by_adjoint(sketched, case),
            off,
        ),
        (
            Way("one solve, same grid", "from outlines, no estimate", case.sketched, goal=50.0),
            Way("solve again for each", "from outlines, same grid, one-sided differences of 1e-5", one_by_one, off),
            Way(
                "scipy approx_fprime, scikit-fem",
                f"ElementTriP2, {len(summed.room)} unknowns, equations summed over bodies, SuperLU symmetric",
                by_scipy,
                off,
            ),
        ),
        ALLOWED,
    )
