"""What a load is pictured by: plain values, so that who draws or hands them on loads no plates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ...physics.plates.slab import Ring
    from ...physics.plates.spread_out import SlabField


TIMES = {"kPa": 1e-3, "mm": 1e3}  # of an SI value, to tell it


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer below the load, from the top of the floor down."""

    words: str
    hatch: str
    thickness: float  # m


@dataclass(frozen=True, slots=True)
class Share:
    """What a load uses of what one part may bear."""

    part: str  # "foam", "ground", "concrete" in bending, its "shear" round what presses, "settlement"
    felt: float  # Pa; m of settlement
    bears: float  # the same, what is left for this load
    unit: str = "kPa"  # in which it is told

    @property
    def used(self) -> float:
        """1 on the limit; where nothing is left, far beyond it."""
        return self.felt / self.bears if self.bears > 0.0 else float("inf")

    @property
    def told(self) -> tuple[float, float]:
        """What is felt and what may be, in its unit."""
        times = TIMES[self.unit]
        return self.felt * times, self.bears * times


@dataclass(frozen=True, slots=True)
class Around:
    """What is felt around a load, seen from above."""

    soft: SlabField  # on the softest bed: settlement and tension
    stiff: SlabField  # on the stiffest bed: pressure
    patches: tuple[Ring, ...]  # m, as they press
    edges: tuple[Ring, ...]  # free edges of the slab; () where it has none near
    layers: tuple[Layer, ...]
    pressure: float  # Pa, the largest, as its finding says
    tension: float  # Pa
    settlement: float  # m


@dataclass(frozen=True, slots=True)
class Carrier:
    """What an engineer asks of slab and bed first."""

    thickness: float  # m, of the slab
    strength: float  # Pa, of a cylinder
    modulus: float  # Pa, Young's modulus of the concrete
    rupture: float  # Pa
    method: str  # "allowable stress, factor 1.7"
    bed: tuple[float, float]  # N/m³, foam at both ends of how stiff it may be, the ground as taken
    widest: tuple[float, float]  # N/m³, the ground at both ends as well
    ground: str  # "27 MN/m³ (98 lb/in³), by CBR 10 %"
    weight: float  # Pa, of slab and what lies above the foam


@dataclass(frozen=True, slots=True)
class Borne:
    """One load on the slab, for pictures of it."""

    number: str  # as the brief counts
    words: str
    where: str  # "in a corner"; "" where its words say it
    contact: float | None  # Pa, of its heaviest patch, or of a load all over the floor; None where it is not known
    standing: bool
    on_plan: tuple[Ring, ...]  # m, its patches on the plan; () where it has no place there
    shares: tuple[Share, ...]  # among all that stands on the plan; () where one of them cannot be told
    alone: tuple[Share, ...]  # the same as if it stood by itself, as it is drawn around it
    around: Around | None  # None where it lies all over the floor, or cannot be told
    carrier: Carrier | None  # None where it cannot be told

    @property
    def used(self) -> float:
        """The largest share, 0 where none is told."""
        return max((share.used for share in self.shares), default=0.0)


@dataclass(frozen=True, slots=True)
class Placed:
    """A load or a wall at its place on the plan, with what it uses where it lies among the others."""

    number: str  # "1", as the brief counts; "A" of a wall at edge A
    words: str  # "load 1", "the wall at edge A"
    rings: tuple[Ring, ...]  # m, as they press
    shares: tuple[Share, ...]


@dataclass(frozen=True, slots=True)
class WholeFloor:
    """All that stands at places of the plan together, over the whole floor."""

    words: str  # "Load 1 and load 2 are there together"
    soft: SlabField  # on the softest bed: settlement of the loads
    stiff: SlabField  # on the stiffest bed: pressure, with the floor's own weight
    outlines: tuple[Ring, ...]  # m, of the slab, and of its holes
    thicker: tuple[Ring, ...]  # m, thickened edges, pads, bays and ribs
    joints: tuple[Ring, ...]  # m, each from and to
    placed: tuple[Placed, ...]
    pressure: float  # Pa, the largest
    settlement: float  # m, the largest
    bears: float | None  # Pa, what the foam bears at the least; None where no foam lies there
