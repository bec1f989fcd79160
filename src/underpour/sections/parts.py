"""Words for a section. x runs from the outside (negative) into the room (positive), y up from the top of the floor. [m]

x = 0 is the room-side face of the structural wall, or of the slab's edge where no wall stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]
Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """One body of one material. Where parts overlap the lower ``priority`` wins."""

    label: str  # "Marlpit Plain 15, 2 in (51 mm)"
    hatch: str  # the material's drawing pattern: concrete, foam-moulded, gravel, ground, ...
    outline: Outline  # anticlockwise
    conductivity: float  # W/(m·K)
    heat_capacity: float  # J/(m³·K)
    priority: int
    path: str  # where it stands in the brief: "floor.build-up.2", "edge.A.insulation.1"
    thickening: Outline = ()  # the corners of what a layer of the floor adds at its edge; of no other body
    heaves: bool = False  # ground that can heave where it freezes


@dataclass(frozen=True, slots=True)
class Film:
    """A vapour retarder as a line to be drawn; heat does not see it."""

    label: str
    line: Outline
    path: str


@dataclass(frozen=True, slots=True)
class Air:
    """A space filled with air. Its sides towards parts carry a surface film."""

    where: Literal["room", "outdoors", "over-ground", "water"]  # the first of a section lies over the floor
    outline: Outline


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension line between two points, with the words as typed."""

    start: Point
    end: Point
    words: str  # "2 in (51 mm)"


@dataclass(frozen=True, slots=True)
class Angle:
    """The angle of a sloped side from the level, drawn as an arc about its foot."""

    foot: Point
    degrees: float
    words: str  # "45 deg"


@dataclass(frozen=True, slots=True)
class Section:
    """The cut through one edge, from the middle of the floor to undisturbed ground."""

    edge: str  # letter of the edge
    kind: str  # footing-wall, frost-wall, thickened-edge, raft, free-edge, drawn
    parts: tuple[Part, ...]  # ground and layers first, structure and foam after
    airs: tuple[Air, ...]
    films: tuple[Film, ...]
    dimensions: tuple[Dimension, ...]
    extent: tuple[float, float, float, float]  # x0, x1, y0, y1 of all that is solved
    window: tuple[float, float, float, float]  # x0, x1, y0, y1 worth drawing
    ground_level: float  # finished ground outside
    corner: Point  # where floor and wall meet in the room
    floor: tuple[float, float]  # x from and to of the floor's surface, at y = 0
    underside: float  # y at which the build-up ends and the ground begins
    under_edge: Point  # where the ground begins under the floor's edge
    angles: tuple[Angle, ...] = ()
    water_level: float | None = None  # of the ground water, where there is any as deep as the section goes
    beside: str = "outdoors"  # what the air on the other side of the edge is called

    @property
    def outdoors(self) -> bool:
        """Whether the sky is over the floor and no room."""
        return [air.where for air in self.airs[:1]] == ["outdoors"]

    @property
    def watched(self) -> Point:
        """The place whose temperature matters most: a room's corner; outdoors the ground under the slab's edge."""
        return self.under_edge if self.outdoors else self.corner
