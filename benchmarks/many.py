"""Many cases of one family: a table of 200, set-up counted, and thousands after it, each with its bound."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray
from tests import families

from underpour.physics.conduction.solve import Climate
from underpour.physics.reduced.family import Conducting, Parameter, Varied
from underpour.physics.reduced.reduced import Reduced, cases_at_random, reduced

from . import posed, thickness
from .peers import mesher, triangles
from .race import Race, Way

Array = NDArray[np.float64]
THEME = "many"
THICK, POOR = np.linspace(0.025, 0.25, 10), np.linspace(0.025, 0.045, 20)  # m, W/(m·K)
TABLE = np.array([(t, k) for t in THICK for k in POOR])
TWO = Varied((families.THICKNESS,), (Conducting(Parameter("foam", 0.025, 0.045), (families.FOAM,)),))
ALLOWED = 1e-3  # of each heat of the table
TRUSTED = 1e-2  # of each heat of a family: its bound
SAMPLE = 5  # of the table's cases that peers do
GRADED, MESHED = (0.02, 0.5), (0.05, 0.4)  # peers' grids: m at a line or corner, growth
NARROWED = 0.3  # first cells of the table's family: its grid is then within what is allowed
FAMILIES = (  # name, what varies, cases a second to reach, cases drawn, first cells narrowed
    ("six", families.SIX, 100_000.0, 30_000, 0.5),
    ("seven", families.SEVEN, 12_000.0, 6_000, 1.0),
    ("nine", families.NINE, 8_000.0, 6_000, 1.0),
)
MOST_SET_UP = 10.0  # s
TRIED_ON = 40  # cases that are solved wholly, to see how far bounds lie above what is missed
SEED = 20261128


def races(tiny: bool = False) -> list[Race]:
    found = [table(tiny)]
    for name, varied, rate, count, narrowed in FAMILIES[: 1 if tiny else None]:
        found += of_family(name, varied, rate, 300 if tiny else count, narrowed, tiny)
    return [*found, *thickness.races()]


def case_of(numbers: Sequence[float], varied: Varied = families.SIX) -> posed.Case:
    """One case of a family as outlines and films; the room 1 K above outdoors."""
    parts, airs, films = families.sized(numbers, varied)
    kept = tuple(posed.Part(str(n), "ground", p.outline, p.conductivity, p.heat_capacity, p.priority, str(n))
                 for n, p in enumerate(parts))  # fmt: skip
    spaces = tuple(posed.Air(each.where, each.outline) for each in airs)
    climates = {"room": Climate(1.0), "outdoors": Climate(0.0)}
    return posed.Case(
        f"a stem wall, {len(kept)} bodies", kept, spaces, films, climates, (-20.0, 8.0, -20.0, 0.3), (0.0, 0.0)
    )


def of_table(thickness: float, foam: float) -> posed.Case:
    """Other numbers as the family has them: soil 1.5, concrete 1.7 W/(m·K)."""
    inside, outside = families.FILMS
    made = case_of((thickness, foam, 1.5, 1.7, 1.0, 1.0))
    return posed.Case(made.name, made.parts, made.airs, {"room": inside, "outdoors": outside}, made.climates,
                      made.extent, made.watched)  # fmt: skip


def heats(cases: Array, one: Callable[[posed.Case], float]) -> Array:
    return np.array([one(of_table(*case)) for case in cases])


def table(tiny: bool) -> Race:
    few = TABLE[:: len(TABLE) // (2 if tiny else 10)]
    wanted = heats(few, lambda case: case.solved(1e-3 if tiny else 2e-5).flow(posed.of_the_room).mean)
    sample = TABLE[:: len(TABLE) // (1 if tiny else SAMPLE)]
    of_sample = heats(sample, lambda case: case.solved(1e-3 if tiny else 2e-5).flow(posed.of_the_room).mean)
    share = len(TABLE) / len(sample)

    def made() -> tuple[Reduced, Array, Array]:
        family = reduced(
            families.stem_wall,
            TWO,
            families.FILMS,
            wanted=1e-4,
            narrowed=NARROWED,
            trained=60,
            looked_at=300,
            on_finer=1,
        )
        told = family.told(TABLE)
        return family, told.couplings[:, 0, 0], family.within(told)[:, 0, 0]

    def off(found: tuple[Reduced, Array, Array]) -> float:
        return float(np.abs(found[1][:: len(TABLE) // (2 if tiny else 10)] / wanted - 1.0).max())

    def peer_off(found: Array) -> float:
        return float(np.abs(found / of_sample - 1.0).max())

    def by_triangles() -> Array:
        return heats(
            sample, lambda case: triangles.on_a_grid(case, triangles.graded_grid(case, *GRADED), triangles.symmetric)
        )

    def by_mesher() -> Array:
        return heats(sample, lambda case: triangles.on_a_grid(case, mesher.drawn(case)(*MESHED), triangles.symmetric))

    def wholly() -> Array:
        return heats(sample, lambda case: case.solved(ALLOWED).flow(posed.of_the_room).mean)

    family, told, within = made()
    each = f"{len(sample)} of the 200 timed"
    peers = (
        Way("gmsh and scikit-fem, P2", f"gmsh {mesher.version()}, 50 mm at corners growing by 0.4; {each}", by_mesher,
            peer_off, times=share, goal=75.0, absent="" if mesher.here() else mesher.NOT_HERE),
        Way("scikit-fem, graded P2", f"20 mm growing by 0.5, SuperLU symmetric; {each}", by_triangles, peer_off,
            times=share),
        Way("our whole solve for each", f"its estimate below 0.1 %; {each}", wholly, peer_off, times=share),
    )  # fmt: skip
    return Race(
        THEME,
        "table",
        "Table of 200, set-up counted",
        Way("here", f"family made ({family.grown.fields} fields) and asked", made, off),
        peers,
        ALLOWED,
        cases=len(TABLE),
        rate=1000.0,
        turns=3,
        note={"told_within": float((within / told).max())},
    )


def of_family(name: str, varied: Varied, rate: float, count: int, narrowed: float, tiny: bool) -> list[Race]:
    less = {"trained": 100, "looked_at": 200, "on_finer": 1} if tiny else {}
    make = partial(reduced, families.stem_wall, varied, families.FILMS, narrowed=narrowed, **less)  # type: ignore[arg-type]
    family = make()
    cases = cases_at_random(varied.parameters, count, SEED)
    tried = cases[: 3 if tiny else TRIED_ON]
    whole = np.array([family.family.couplings(case, family.family.fields(case))[0, 0] for case in tried])

    def ours() -> Any:
        told = family.told(cases)
        return told.couplings[:, 0, 0], told.bound[:, 0, 0]

    def off(found: Any) -> float:
        return float(np.abs(found[0][: len(whole)] / whole - 1.0).max())

    heat, bound = ours()
    missed = np.abs(heat[: len(whole)] - whole)
    effect = bound[: len(whole)] / np.maximum(missed, 1e-300)
    few = cases[:3]
    share = count / len(few)

    def wholly() -> Array:
        return np.array([family.family.couplings(case, family.family.fields(case))[0, 0] for case in few])

    peers = [
        Way(
            "the same equations, whole",
            "assembled from the family's sums, SuperLU symmetric; 3 timed",
            wholly,
            times=share,
        )
    ]
    if varied.pace is None:
        made = [case_of(case, varied) for case in few]

        def by_triangles() -> Array:
            return np.array([
                triangles.on_a_grid(case, triangles.graded_grid(case, *GRADED), triangles.symmetric) for case in made
            ])  # fmt: skip

        exact = np.array([case.solved(1e-3 if tiny else 1e-4).flow(posed.of_the_room).mean for case in made])

        def peer_off(found: Array) -> float:
            return float(np.abs(found / exact - 1.0).max())

        settings = "20 mm growing by 0.5, SuperLU symmetric; 3 timed"
        peers.append(Way("scikit-fem, graded P2", settings, by_triangles, peer_off, times=share))
    words = f"{name} parameters"
    return [
        Race(
            THEME,
            f"family-{name}",
            f"{count} cases of {words}, bounds included",
            Way("here", f"{family.grown.fields} fields, {family.grown.references} references", ours, off),
            tuple(peers),
            TRUSTED,
            cases=count,
            rate=rate,
            turns=5,
            note={
                "bound": float((bound / (np.abs(heat) - bound)).max()),
                "effectivity": [float(effect.min()), float(np.median(effect)), float(effect.max())],
                "tried_on": len(whole),
            },
        ),
        Race(
            THEME,
            f"set-up-{name}",
            f"Making the family of {words}",
            Way("here", f"{family.grown.solved} cases solved wholly, then cut down", make),
            (),
            limit=MOST_SET_UP,
            turns=1,
        ),
    ]
