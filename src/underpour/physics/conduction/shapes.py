"""What a section is made of for the physics: bodies that conduct, spaces filled with air, films between them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

Outline = tuple[tuple[float, float], ...]
Facing = Literal["up", "side", "down"]


class Body(Protocol):
    """Anything that fills an outline with one conducting material. Where bodies overlap the lower priority wins."""

    @property
    def outline(self) -> Outline: ...  # m
    @property
    def conductivity(self) -> float: ...  # W/(m·K)
    @property
    def heat_capacity(self) -> float: ...  # by volume, J/(m³·K)
    @property
    def priority(self) -> int: ...


class Space(Protocol):
    """Anything that fills an outline with air of one temperature."""

    @property
    def where(self) -> str: ...
    @property
    def outline(self) -> Outline: ...  # m


@dataclass(frozen=True, slots=True)
class Films:
    """Surface resistances of one space, by the way the surface faces. [m²·K/W]"""

    up: float  # floors and ground: the air is above
    side: float  # walls
    down: float  # undersides: the air is below

    def of(self, facing: Facing) -> float:
        return {"up": self.up, "side": self.side, "down": self.down}[facing]
