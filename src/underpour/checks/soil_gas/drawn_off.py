"""What draws soil gas off as it is handed on, apart from what finds it: the pipe's way, fan and floor, the months."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Origin = Literal["typed", "assumed", "open"]
Of = Literal["usual", "least", "most"]
Points = tuple[tuple[float, float], ...]  # m³/s, Pa


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing of the pipe's way, and who says it."""

    value: float | str | bool | None  # SI, or a word of the brief
    origin: Origin  # open where nobody says it

    @property
    def told(self) -> bool:
        return self.origin != "open"


@dataclass(frozen=True, slots=True)
class Way:
    """The pipe from the pit to the open air, as one follows it."""

    system: str  # rough-in, passive, fan
    pits: int
    pit_width: Fact  # m
    pit_depth: Fact  # m
    size: Fact  # m, nominal
    level: Fact  # m of level stretches, all together
    rise: Fact  # m
    bends: Fact
    falls: Fact
    slope: Fact  # fall over length
    through: Fact  # heated, unheated, outdoors
    labelled: Fact
    power: Fact
    fan_at: Fact
    above_roof: Fact  # m
    from_openings: Fact  # m
    above_openings: Fact  # m


@dataclass(frozen=True, slots=True)
class Needed:
    """What floor and pipe together take of suction over the flow, and where the fan's curve meets that."""

    of: Of  # as much air as is usual; the least and the most that may flow
    curve: Points
    working: tuple[float, float]  # m³/s, Pa


@dataclass(frozen=True, slots=True)
class FanAndFloor:
    """A fan's curve, what the pipe alone takes, and what floor and pipe take; the usual case first."""

    fan: Points
    typed: Points  # of the fan's curve, as the brief has them; () for a usual fan
    pipe: Points
    needed: tuple[Needed, ...]
    open_keys: tuple[str, ...]  # whose values make the band


@dataclass(frozen=True, slots=True)
class ByItself:
    """A pipe that draws by itself, month by month, January first."""

    draught: tuple[float, ...]  # Pa by which its air is lighter than that outdoors; below nought heavier
    flow: tuple[float, ...]  # m³/s up the pipe
    weakest: tuple[float, ...]  # Pa below the room where suction reaches it least


@dataclass(frozen=True, slots=True)
class DrawnOff:
    """All of it; parts that cannot be told are None."""

    way: Way
    fan_and_floor: FanAndFloor | None
    by_itself: ByItself | None
