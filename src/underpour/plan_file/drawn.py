"""What was read from a drawing."""

from __future__ import annotations

from dataclasses import dataclass

from ..outlines.floor import Floor, Stretch
from ..outlines.side import Point
from .units import Unit


@dataclass(frozen=True, slots=True)
class Counted:
    """What was done to the drawing on the way, and what of it was passed over."""

    joints: int = 0
    widest: float = 0.0  # m
    gap: float = 0.0  # m, up to which ends are joined
    twice: int = 0
    short: int = 0
    flat: int = 0
    wide: int = 0  # polylines with a breadth, taken by their middle line
    boxed: tuple[str, ...] = ()  # obstacles of another shape, taken as the upright rectangle round them
    inner: int = 0  # rings within obstacles
    blocks: tuple[tuple[str, int], ...] = ()
    mirrored: int = 0
    loose: int = 0  # lines on the floor's layer that enclose nothing
    left_out: tuple[tuple[str, str, int], ...] = ()  # words for one and for several, how many
    layers: tuple[tuple[str, int], ...] = ()  # not read, and how much lies on each
    hidden: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Drawn:
    """A floor as a drawing has it, in m."""

    file: str
    layers: tuple[str, ...]  # on which its outline lies
    unit: Unit
    floor: Floor
    edges: tuple[tuple[str, tuple[Stretch, ...]], ...]  # "edge-a" and the sides, or parts, along its lines
    origin: Point  # m, of the drawing's own numbers, from which x and y count
    counted: Counted
