"""The sections that are timed: the demo's edge, and a plain slab on the ground that has been timed elsewhere too."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np

from underpour import catalogue
from underpour.physics.conduction.assemble import Faces
from underpour.physics.conduction.mean_heat import mean_heat
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, Solved, Told, sketch_each, solve
from underpour.sections.parts import Air, Part, Point

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "examples" / "daylight-basement" / "brief.toml"

SOIL, CONCRETE, FOAM = 2.0, 2.0, 0.035  # W/(m·K)
GROUND_STORES, CONCRETE_STORES, FOAM_STORES = 2.0e6, 2.2e6, 5.0e4  # J/(m³·K)
HALF, OUT, DEEP, TOP = 4.0, 20.0, -25.0, 0.6  # m: half the floor, where the ground ends at the side and below, the air


@dataclass(frozen=True)
class Case:
    """A section as it is given to everybody: outlines, films, airs. Its first air is the room."""

    name: str
    parts: tuple[Part, ...]
    airs: tuple[Air, ...]
    films: Mapping[str, Films]  # m²·K/W
    climates: Mapping[str, Climate]  # degC, K
    extent: tuple[float, float, float, float]  # x0, x1, y0, y1 in m
    watched: Point

    @property
    def still(self) -> Case:
        """Its mean of the year alone."""
        return replace(self, climates={where: Climate(air.mean) for where, air in self.climates.items()})

    def solved(self, tolerance: float) -> Solved:
        """By the tool, with its estimate, as an answer is."""
        return solve(self.parts, self.airs, self.films, self.climates, tolerance=tolerance, most_unknowns=400_000)

    def heat(self, tolerance: float) -> Told:
        """Of the room, its mean alone, by the tool's way for that, with its estimate."""
        return mean_heat(self.parts, self.airs, self.films, self.climates, tolerance=tolerance).spaces[0]

    def sketched(self) -> Solved:
        """By the tool on its first grid, without an estimate."""
        return sketch_each(self.parts, self.airs, [self.films], self.climates)[0]


def of_the_room(faces: Faces) -> np.ndarray:
    """Every surface of the room."""
    return faces.space == 0


def box(x0: float, x1: float, y0: float, y1: float) -> tuple[Point, ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def films() -> dict[str, Films]:
    """For heat that is lost."""
    room = Films(*(catalogue.surface(key).value for key in ("floor-down", "wall", "floor-up")))
    return {"room": room, "outdoors": Films(*(catalogue.surface("outdoors").value,) * 3)}


def slab(thickness: float = 0.05, foam: float = FOAM) -> Case:
    """Half of a floor 8 m wide on the ground, foam under the slab and outside its wall."""
    bodies = [
        ("ground", box(0.0, OUT, DEEP, 0.0), SOIL, GROUND_STORES, 9),
        ("fill", box(0.0, HALF, 0.0, 0.1), SOIL, GROUND_STORES, 9),
        ("footing", box(HALF - 0.15, HALF + 0.35, -1.2, -1.0), CONCRETE, CONCRETE_STORES, 8),
        ("wall", box(HALF, HALF + 0.2, -1.0, TOP), CONCRETE, CONCRETE_STORES, 7),
        ("foam-at-the-wall", box(HALF + 0.2, HALF + 0.25, -1.0, TOP), foam, FOAM_STORES, 6),
        ("foam-under-the-slab", box(0.0, HALF, 0.1 - thickness, 0.1), foam, FOAM_STORES, 5),
        ("slab", box(0.0, HALF, 0.1, 0.2), CONCRETE, CONCRETE_STORES, 4),
    ]
    return Case(
        "slab on the ground",
        tuple(Part(label, "ground", outline, k, c, first, label) for label, outline, k, c, first in bodies),
        (Air("room", box(0.0, HALF, 0.2, TOP)), Air("outdoors", box(HALF + 0.25, OUT, 0.0, TOP))),
        films(),
        {"room": Climate(20.0), "outdoors": Climate(-10.0, 12.0 + 0j)},
        (0.0, OUT, DEEP, TOP),
        (HALF, 0.2),
    )


@cache
def demo() -> Case:
    """The edge of the demo as briefed: foam all round the corner."""
    from underpour.brief import read
    from underpour.resolve import resolve
    from underpour.sections.build import section

    resolved = resolve(read(str(DEMO)).brief)
    cut = section(resolved, resolved.edges[0])
    climates = {
        "room": Climate(resolved.room.mean),
        "outdoors": Climate(resolved.outdoor_mean, resolved.outdoor_swing),
    }
    return Case("the demo's edge", cut.parts, cut.airs, films(), climates, cut.extent, cut.watched)


CASES: dict[str, Callable[[], Case]] = {"slab": slab, "demo": demo}
