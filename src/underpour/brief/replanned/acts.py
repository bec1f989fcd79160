"""What a person does to a plan, one thing at a time. The browser says where in steps of the snap, or in typed words."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from ..tables.plan import ObstacleKind

Words = Annotated[str, Field(max_length=200)]
Steps = Annotated[int, Field(ge=-1_000_000, le=1_000_000)]
RingNumber = Annotated[int, Field(ge=0, le=1000, description="0 is the outline, n hole n")]
Letter = Annotated[str, Field(pattern="^[A-Z]{1,2}$")]
Number = Annotated[int, Field(ge=1, le=1000)]


class _Said(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")


class OnGrid(_Said):
    """So many steps of the snap from the origin."""

    steps: Steps


class InLine(_Said):
    """As x or y of a corner that is there, figure and all; ring -1 is the outline that is being drawn."""

    ring: Annotated[int, Field(ge=-1, le=1000)]
    corner: Number


class Typed(_Said):
    """A length in the user's words; a bare number is in the plan's unit."""

    typed: Words


Coordinate = OnGrid | InLine | Typed


class Place(_Said):
    """A place by its x and its y."""

    x: Coordinate
    y: Coordinate


class Square(_Said):
    """So many steps from a corner, at right angles to the way from another corner to it; above nought to the left."""

    ring: Annotated[int, Field(ge=-1, le=1000)]
    corner: Number
    before: Number
    steps: Steps


Where = Place | Square


class AddNext(_Said):
    """The next corner of what is being drawn; with ``long`` that far from the last one, towards the place."""

    do: Literal["next"]
    at: Where
    long: Words = ""


class Close(_Said):
    """What is being drawn becomes the outline, or a hole."""

    do: Literal["close"]
    becomes: Literal["outline", "hole"]


class MoveCorner(_Said):
    do: Literal["move-corner"]
    ring: RingNumber
    corner: Number
    to: Where


class AddCorner(_Said):
    """A corner in a side, so many steps from its start; in its middle where none are said."""

    do: Literal["add-corner"]
    ring: RingNumber
    side: Number
    steps: Steps | None = None


class TakeCorner(_Said):
    do: Literal["take-corner"]
    ring: RingNumber
    corner: Number


class MoveSide(_Said):
    """A side moved parallel to itself, so that its line goes through a place."""

    do: Literal["move-side"]
    ring: RingNumber
    side: Number
    to: Where


class PushSide(_Said):
    """A side moved parallel to itself by so many steps, above nought away from the floor."""

    do: Literal["push-side"]
    ring: RingNumber
    side: Number
    steps: Steps


class SetLength(_Said):
    """A side made so long; its end moves, and the next side with it."""

    do: Literal["length"]
    ring: RingNumber
    side: Number
    typed: Words


class Bend(_Said):
    """How a side bends: words of the brief, "rise 3"; or steps that it bows out; nothing makes it straight."""

    do: Literal["bend"]
    ring: RingNumber
    side: Number
    typed: Words = ""
    steps: Steps | None = None


class TakeHole(_Said):
    do: Literal["take-hole"]
    ring: Number


class Stand(_Said):
    """An obstacle put in."""

    do: Literal["stand"]
    kind: ObstacleKind
    at: Where
    size: Words


class MoveObstacle(_Said):
    do: Literal["move-obstacle"]
    number: Number
    to: Where


class SizeObstacle(_Said):
    do: Literal["size-obstacle"]
    number: Number
    size: Words


class TakeObstacle(_Said):
    do: Literal["take-obstacle"]
    number: Number


class Name(_Said):
    """A side called so; nothing takes its name away."""

    do: Literal["name"]
    ring: RingNumber
    side: Number
    typed: Words


class Give(_Said):
    """A side, or a part of it, given to an edge; the next free letter makes an edge like the one that had it."""

    do: Literal["give"]
    edge: Letter
    ring: RingNumber
    side: Number
    start: Words = ""
    end: Words = ""


class TakeEdge(_Said):
    """An edge taken out of the brief; its sides belong to none until they are given."""

    do: Literal["take-edge"]
    edge: Letter


Act = Annotated[
    AddNext
    | Close
    | MoveCorner
    | AddCorner
    | TakeCorner
    | MoveSide
    | PushSide
    | SetLength
    | Bend
    | TakeHole
    | Stand
    | MoveObstacle
    | SizeObstacle
    | TakeObstacle
    | Name
    | Give
    | TakeEdge,
    Field(discriminator="do"),
]
