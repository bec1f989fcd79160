"""What the checks read: one edge solved with both films, and the sums over a floor."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..findings import Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.assemble import SIDE, UP, Faces
from ..physics.conduction.response import Response
from ..physics.conduction.solve import Climate, Solved, Told
from ..resolve import Resolved, ResolvedEdge
from ..sections.levels import Levels
from ..sections.parts import Section

ROOM = 0  # the room is the first space of every section
OUTER_METRE = 1.0  # m


@dataclass(frozen=True)
class SolvedEdge:
    """One edge with its section, solved for heat loss and for humidity at the surface; outdoors both are one."""

    edge: ResolvedEdge
    section: Section
    levels: Levels
    heat: Solved
    mould: Solved
    moving: Solved | None = None  # for heat loss, with moving ground water; None where there is none in reach
    response: Response | None = None  # of ``watched`` heat, then of ``points``; None for a sketch, and outdoors

    @property
    def watched(self) -> dict[str, Callable[[Faces], NDArray[np.bool_]]]:
        """Surfaces whose heat is told through the year: the floor's, and a basement wall's."""
        return {"floor": floor_faces, **({"wall": wall_faces} if self.walled else {})}

    @property
    def walled(self) -> bool:
        """Whether the wall is counted beside the floor."""
        return self.edge.kind == "footing-wall"

    @property
    def points(self) -> dict[str, tuple[float, float]]:
        """Places of the floor's surface that are told through the year. [m]"""
        return floor_points(self.section, self.levels)

    @property
    def rests_on(self) -> tuple[str, ...]:
        """Paths that every number of this edge leans on."""
        tops = [f"{self.edge.path}.insulation.{n}.top" for n, piece in enumerate(self.edge.pieces, 1) if piece.covered]
        pieces = [path for piece in self.edge.pieces for path in piece.board.rests_on]
        walls = [path for leaf in (*self.edge.wall, *self.edge.above) for path in leaf.rests_on]
        footing = self.edge.footing_slice.rests_on if any(self.edge.footing) else ()
        own = self.edge.thickening.rests_on if self.edge.thickening else ()
        if self.edge.ledge:
            own = self.edge.ledge.rests_on
        if self.edge.kind == "threshold":
            own = (f"{self.edge.path}.set-back",)
        beside = self.edge.beside.rests_on if self.edge.beside else ()
        return tuple(dict.fromkeys([*pieces, *tops, *walls, *footing, *own, f"{self.edge.path}.ground", *beside]))


def felt(heat: Solved) -> tuple[NDArray[np.int64], tuple[Climate, ...]]:
    """Which air each face of the coarser grid feels, and those airs: the spaces', then what lies on level ground."""
    faces = heat.coarse.equations.faces
    which, airs = faces.space.copy(), list(heat.climates)
    for space, climate in enumerate(heat.climates):
        if climate.level is not None:
            which[(faces.space == space) & (faces.facing == UP)] = len(airs)
            airs.append(climate.level)
    return which, tuple(airs)


def floor_points(section: Section, at: Levels) -> dict[str, tuple[float, float]]:
    """Where floor and wall meet, a metre from there where the floor goes on, and the middle of the floor. [m]"""
    metre = section.corner[0] + OUTER_METRE
    edge = {"edge": (metre, 0.0)} if at.half_width >= 1.5 * OUTER_METRE else {}
    return {"corner": section.corner, **edge, "centre": (at.half_width, 0.0)}


def floor_faces(faces: Faces) -> NDArray[np.bool_]:
    """The floor's surface."""
    return np.asarray((faces.space == ROOM) & (faces.facing == UP))


def wall_faces(faces: Faces) -> NDArray[np.bool_]:
    """The wall's surface towards the room."""
    return np.asarray((faces.space == ROOM) & (faces.facing == SIDE))


def counted_up_to(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> str:
    """How much of a basement's wall is counted; the house above it is another question."""
    tops = dict.fromkeys(edge.levels.top - edge.edge.ground for edge in edges if edge.walled)
    said = " and ".join(say.both(top, "m", resolved.system) for top in tops)
    return f"The wall is counted up to {said} above the ground outside."


def outer_metre(corner: float) -> Callable[[Faces], NDArray[np.bool_]]:
    """The floor's surface within a metre of the wall."""
    return lambda faces: floor_faces(faces) & (faces.x < corner + OUTER_METRE)


def summed(
    edges: tuple[SolvedEdge, ...], chosen: Callable[[Faces], NDArray[np.bool_]], *, moving: bool = False
) -> Told:
    """Heat through the chosen faces of all edges, each times its length; with ``moving`` ground water. [W]"""
    flows = [((edge.moving if moving and edge.moving else edge.heat).flow(chosen), edge.edge.length) for edge in edges]
    return Told(
        sum(flow.mean * length for flow, length in flows),
        sum((flow.swing * length for flow, length in flows), 0j),
        sum(flow.within * length for flow, length in flows),
    )


def floor_rests_on(resolved: Resolved) -> tuple[str, ...]:
    """Paths of everything that the heat of a floor leans on."""
    layers = [path for layer in resolved.floor for path in layer.rests_on if layer.thickness > 0.0]
    ground = [path for stratum in resolved.strata for path in stratum.slice.rests_on]
    ground += resolved.surface.rests_on if resolved.surface else ()
    return tuple(dict.fromkeys([*layers, *ground, resolved.climate_path, *resolved.room.rests_on, "plan.outline"]))


def swing_steps(symbol: str, told: Told, unit: str, month: int, sign: str) -> tuple[Step, ...]:
    """Mean and swing, and how the extreme follows from them."""
    size = abs(told.swing)
    value = told.mean - size if sign == "-" else told.mean + size
    minus = "−" if sign == "-" else "+"
    return (
        Step(f"{symbol}_mean", "mean of the year, section solved steadily", "", f"{fixed(told.mean, 3)} {unit}"),
        Step(
            f"{symbol}_amp",
            "amplitude of the year's harmonic, section solved periodically",
            "",
            f"{fixed(size, 3)} {unit}",
        ),
        Step(
            symbol,
            f"mean {minus} amplitude",
            f"{fixed(told.mean, 3)} {minus} {fixed(size, 3)}",
            f"{fixed(value, 3)} {unit}, month {month}",
        ),
    )
