"""What a vent pipe takes of the suction: friction, bends, entry and outlet, by a library for flow in pipes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

from ..domain import above_zero, not_below_zero
from .hydraulics import AIR_DENSITY, AIR_VISCOSITY

SMOOTH = 1.5e-6  # m, roughness of drawn plastic pipe
STILL = 1e-7  # m³/s; below it only the slow flow's friction counts
APART = 1e-4  # share of the flow over which a slope is taken


@dataclass(frozen=True)
class Pipe:
    """A pipe of one bore from its suction pit to the open air."""

    bore: float  # m, inside
    length: float  # m, all of it
    bends: int = 0  # of 90°
    half_bends: int = 0  # of 45°
    bend_radius: float = 1.0  # of a bend's middle line, in bores
    entry: bool = True  # begins in the stone with a sharp end
    outlet: bool = True  # ends in the open air
    roughness: float = SMOOTH  # m
    more: float = 0.0  # further losses, in heads of speed

    def __post_init__(self) -> None:
        above_zero(bore=self.bore, bend_radius=self.bend_radius)
        not_below_zero(length=self.length, bends=self.bends, half_bends=self.half_bends, roughness=self.roughness)
        not_below_zero(more=self.more)


@dataclass(frozen=True)
class Lost:
    """Where the suction in a pipe goes. Losses in Pa."""

    speed: float  # m/s
    reynolds: float  # 1
    friction: float  # friction factor by Darcy; 1
    along: float
    bends: float
    ends: float

    @property
    def whole(self) -> float:
        return self.along + self.bends + self.ends


def lost(flow: float, pipe: Pipe, density: float = AIR_DENSITY, viscosity: float = AIR_VISCOSITY) -> Lost:
    """Losses in a pipe at a flow, each kind by itself.

    Parameters
    ----------
    flow : float
        Above nought. [m³/s]
    pipe : Pipe
        [m]
    density : float
        Of the air. [kg/m³]
    viscosity : float
        Of the air. [Pa·s]

    Returns
    -------
    Lost
        [Pa]

    Raises
    ------
    OutOfDomain
        No flow.

    Source
    ------
    Darcy and Weisbach; friction by Churchill 1977, one equation from slow to fast flow; bends and entry by Rennels
    and Hudson 2012, as the library ``fluids`` gives them (its documentation).

    Examples
    --------
    >>> found = lost(0.02, Pipe(bore=0.1, length=10.0, entry=False, outlet=False))
    >>> round(found.along / (found.friction * 10.0 / 0.1 * 1.204 * found.speed**2 / 2.0), 9)
    1.0
    """
    from fluids import fittings, friction

    above_zero(flow=flow, density=density, viscosity=viscosity)
    speed = flow / (pi * pipe.bore**2 / 4.0)
    reynolds = density * speed * pipe.bore / viscosity
    head = density * speed**2 / 2.0
    factor = float(friction.Churchill_1977(reynolds, pipe.roughness / pipe.bore))

    def bend(angle: float) -> float:
        return float(fittings.bend_rounded(pipe.bore, angle, fd=factor, bend_diameters=pipe.bend_radius))

    bends = sum(count * bend(angle) for count, angle in ((pipe.bends, 90.0), (pipe.half_bends, 45.0)) if count)
    ends = pipe.entry * float(fittings.entrance_sharp()) + pipe.outlet * float(fittings.exit_normal()) + pipe.more
    return Lost(speed, reynolds, factor, factor * pipe.length / pipe.bore * head, bends * head, ends * head)


def loss_curve(
    pipe: Pipe, density: float = AIR_DENSITY, viscosity: float = AIR_VISCOSITY
) -> Callable[[float], tuple[float, float]]:
    """Losses in a pipe as a curve over the flow, either way through it.

    Parameters
    ----------
    pipe : Pipe
        [m]
    density : float
        Of the air. [kg/m³]
    viscosity : float
        Of the air. [Pa·s]

    Returns
    -------
    function
        Flow [m³/s] to loss [Pa] and slope [Pa·s/m³].

    Source
    ------
    ``lost``; Hagen and Poiseuille where hardly anything flows.

    Examples
    --------
    >>> curve = loss_curve(Pipe(bore=0.1, length=10.0, bends=2))
    >>> curve(0.02)[0] == -curve(-0.02)[0] > 0.0
    True
    """
    slow = 128.0 * viscosity * pipe.length / (pi * pipe.bore**4)

    def at(flow: float) -> float:
        return lost(flow, pipe, density, viscosity).whole

    def curve(flow: float) -> tuple[float, float]:
        much = abs(flow)
        if much < STILL:
            return slow * flow, slow
        below, above = at(much * (1.0 - APART)), at(much * (1.0 + APART))
        return (1.0 if flow > 0.0 else -1.0) * at(much), (above - below) / (2.0 * APART * much)

    return curve
