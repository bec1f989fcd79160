"""The mean of the year, from outlines to heat flow, at 0.1 and at 0.01 %."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from itertools import product
from typing import Any

from skfem import MeshTri

from . import posed
from .peers import mesher, triangles
from .peers.triangles import Marked
from .race import Race, Way, cheapest

THEME = "steady"
REFERENCE = 2e-6  # share that the reference's estimate is below
FIRST = 20.0, 30.0  # goals at 0.1 %: beside adaptive triangles, beside mesher and triangles
SECOND = 14.0, 25.0  # at 0.01 %
SMALLEST = 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001  # m
GRADED = 0.7, 0.5, 0.35, 0.25  # growth of rectangles
MESHED = 0.5, 0.4, 0.3, 0.2  # growth of a mesher's triangles for each metre from a corner
MARKED = tuple(product(((0.3, 0.7), (0.2, 0.5), (0.1, 0.5)), (0.5, 0.3, 0.15)))
STEPS = 16  # at most
NEAREST = 2e-5  # share: nearer than that the references themselves are not sure
NEAR = ", as near as ours"


def races(tiny: bool = False) -> list[Race]:
    return [
        race(name, case().still, allowed, goals, tiny)
        for name, case in list(posed.CASES.items())[1 if tiny else 0 :]
        for allowed, goals in (((1e-3, FIRST),) if tiny else ((1e-3, FIRST), (1e-4, SECOND)))
    ]


def race(name: str, case: posed.Case, allowed: float, goals: tuple[float, float], tiny: bool) -> Race:
    fine = case.solved(5e-4 if tiny else REFERENCE).flow(posed.of_the_room)
    wanted = fine.mean

    def off(heat: float) -> float:
        return heat / wanted - 1.0

    def ours() -> float:
        return case.heat(allowed).mean

    def by_grid() -> float:
        return case.solved(allowed).flow(posed.of_the_room).mean

    estimate = case.heat(allowed)
    peers = [
        adaptive(case, off, allowed, goals[0], tiny),
        meshed(case, off, allowed, goals[1], tiny),
        *graded(case, off, allowed, tiny),
    ]
    if allowed == 1e-3 and not tiny:  # ours is far nearer than it must be: the same peers at what it is really off by
        as_near = max(abs(off(estimate.mean)), NEAREST)
        peers += [adaptive(case, off, as_near, None, tiny, NEAR), meshed(case, off, as_near, None, tiny, NEAR)]
    return Race(
        THEME,
        f"steady-{name}-{allowed:g}",
        f"Mean of the year, {case.name}, {100 * allowed:g} %",
        Way("here", "heat alone, by strips, its estimate below what is allowed", ours, off),
        (*peers, Way("here, with temperatures", "two degrees on a grid, both estimates with them", by_grid, off)),
        allowed,
        note={
            "reference": {"value": wanted, "within": fine.within, "unit": "W/m"},
            "estimate": estimate.within / abs(estimate.mean),
        },
    )


Off = Callable[[float], float]
Tried = Iterator[tuple[Any, int, float]]


def adaptive(case: posed.Case, off: Off, allowed: float, goal: float | None, tiny: bool, near: str = "") -> Way:
    """From each first grid and with each share as many steps as it takes."""

    def tried() -> Tried:
        for (smallest, growth), share in MARKED[:1] if tiny else MARKED[1::3] if near else MARKED:
            unknowns = 0
            steps = triangles.refined(case, Marked(smallest, growth, share, STEPS), triangles.symmetric)
            for step, (system, found) in enumerate(steps):
                unknowns += system.basis.N
                away = off(float(system.heat(found, case.climates["room"].mean).real))
                yield Marked(smallest, growth, share, step), unknowns, away
                if abs(away) <= allowed:
                    break

    how = cheapest(tried(), allowed)
    settings = (
        f"ElementTriP2, residual's estimate, first {1000 * how.smallest:g} mm growing by {how.growth:g}, "
        f"adaptive_theta {how.share:g}, {how.steps} times; SuperLU symmetric"
    )
    work = partial(triangles.adaptive, case, how, triangles.symmetric)
    return Way(f"scikit-fem, adaptive P2{near}", settings, work, off, goal=goal)


def meshed(case: posed.Case, off: Off, allowed: float, goal: float | None, tiny: bool, near: str = "") -> Way:
    """The mesher has the outlines parted beforehand, which is not counted."""
    if not mesher.here():
        return Way(f"gmsh and scikit-fem, P2{near}", "", lambda: None, goal=goal, absent=mesher.NOT_HERE)
    made = mesher.drawn(case)
    how = cheapest(finer_and_finer(case, made, MESHED, off, allowed, tiny), allowed)
    settings = (
        f"gmsh {mesher.version()}, {1000 * how[0]:g} mm at corners growing by {how[1]:g}, ElementTriP2; "
        "SuperLU symmetric"
    )

    def work() -> float:
        return triangles.on_a_grid(case, made(*how), triangles.symmetric)

    return Way(f"gmsh and scikit-fem, P2{near}", settings, work, off, goal=goal)


def graded(case: posed.Case, off: Off, allowed: float, tiny: bool) -> list[Way]:
    """On a grid of rectangles cut in two, with scipy told that the matrix is symmetric, and as scipy comes."""
    made = partial(triangles.graded_grid, case)
    how = cheapest(finer_and_finer(case, made, GRADED, off, allowed, tiny), allowed)
    words = f"ElementTriP2 on a graded grid, {1000 * how[0]:g} mm growing by {how[1]:g}"

    def work(solve: triangles.Solve) -> float:
        return triangles.on_a_grid(case, made(*how), solve)

    return [
        Way("scikit-fem, graded P2", f"{words}; SuperLU symmetric", partial(work, triangles.symmetric), off),
        Way("scipy as it comes, graded P2", f"{words}; spsolve (COLAMD)", partial(work, triangles.as_it_comes), off),
    ]


def finer_and_finer(
    case: posed.Case,
    made: Callable[[float, float], MeshTri],
    growths: Sequence[float],
    off: Off,
    allowed: float,
    tiny: bool,
) -> Tried:
    """With each growth from wide to narrow until it is near enough."""
    for growth in growths[1:2] if tiny else growths:
        for smallest in SMALLEST[2:3] if tiny else SMALLEST:
            system = triangles.system(case, made(smallest, growth))
            away = off(triangles.mean_heat(case, system, triangles.symmetric))
            yield (smallest, growth), system.basis.N, away
            if abs(away) <= allowed:
                break
