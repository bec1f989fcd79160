"""What resolving hands on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import TYPE_CHECKING

from ..catalogue.products import Products
from ..catalogue.records import Board, Covering, Furnishing, Quantity, Retarder, Seams, Use
from ..findings import Assumed
from ..measure import System
from ..outlines.floor import Floor, Stretch
from .foams import ForGood
from .held import Held
from .zone import SiteZone

if TYPE_CHECKING:
    from .bays import ResolvedBay
    from .frost import Frost
    from .joints import ResolvedJoint
    from .laid_so import LaidSo
    from .loads import ResolvedLoad
    from .money import Money
    from .ribs import ResolvedRib
    from .soil_gas import ResolvedSoilGas
    from .support import Support
    from .tubes import HeatedFloor


@dataclass(frozen=True, slots=True)
class Wanted:
    """An R-value that a layer must bring, and what was chosen for it."""

    r: float  # m²·K/W
    words: str  # "R10 (RSI 1.76)"
    path: str  # "floor.build-up.2.r"
    layers: tuple[str, ...] = ()  # of a board: each thickness that is laid, as it is made
    thinner: str = ""  # the next thinner choice; "" where there is none
    thinner_r: float = 0.0  # m²·K/W, as labelled
    stack: str = ""  # several layers that together are thinner than the one that was chosen; "" where none are


@dataclass(frozen=True, slots=True)
class AirSpace:
    """How an air space that lies level resists."""

    rising: bool  # whether heat flows up through it
    faces: tuple[float, float]  # emissivity of the face above and below
    foil: bool  # whether one of them is bare foil
    convection: float  # W/(m²·K)
    radiation: float  # W/(m²·K)
    ordinary: float  # m²·K/W, were no face foil
    clean: float  # m²·K/W, were one face clean foil
    dull: float  # m²·K/W, were its foil, or foil on one face, dulled by condensation


@dataclass(frozen=True, slots=True)
class Slice:
    """A thickness of one material: a layer of the floor or of a wall."""

    kind: str  # concrete, gravel, board, vapour-retarder, ...
    label: str  # "Concrete", "Marlpit Plain 15"
    words: str  # "Marlpit Plain 15, 2 in (51 mm)"
    thickness: float  # m
    conductivity: float  # W/(m·K), in place
    heat_capacity: float  # J/(m³·K)
    hatch: str
    path: str
    rests_on: tuple[str, ...]
    r_label: float | None = None  # m²·K/W, boards only
    r_label_rests_on: tuple[str, ...] = ()
    combustible: bool = False
    key: str = ""  # of its record in the catalogue; "" where it has none
    record: Board | None = None  # of a board
    wanted: Wanted | None = None  # where the brief names an R in the place of a thickness, or claims one
    air: AirSpace | None = None  # of an air space that lies level
    film: Retarder | None = None  # of a vapour retarder
    seams: Seams | None = None  # of a vapour retarder, where it is typed how they are laid
    covering: Covering | None = None  # of what lies on the floor
    below: float = 0.0  # m of channels below a panel: height that is no foam and counts for no heat
    heaves: bool = False  # ground that can heave where it freezes, or of which nothing rules that out

    @property
    def height(self) -> float:
        """Thickness with channels below it. [m]"""
        return self.thickness + self.below

    @property
    def resistance(self) -> float:
        """In place. [m²·K/W]"""
        return self.thickness / self.conductivity


@dataclass(frozen=True, slots=True)
class Piece:
    """Foam at one face of an edge. Levels are above (+) or below (-) the top of the floor. [m]"""

    board: Slice
    face: str
    top: float | None  # level of the upper end; None: the face's own
    bottom: float | None  # level of the lower end; None: the face's own
    out: float | None  # width of a wing
    at: float | None  # depth of a wing's upper side
    covered: bool = False  # the wall above stands in over its upper end


@dataclass(frozen=True, slots=True)
class Drawn:
    """A body that the user drew himself."""

    slice: Slice
    outline: tuple[tuple[float, float], ...]
    priority: int


@dataclass(frozen=True, slots=True)
class WallLoad:
    """What a wall brings to the top of its footing."""

    force: float  # N/m
    words: str  # "1500 lb/ft (21.9 kN/m)"
    path: str  # "load.1.force"


@dataclass(frozen=True, slots=True)
class Thickening:
    """How the slab thickens along a thickened edge."""

    width: float  # m, flat bottom from the outer face
    width_words: str
    slope: float  # degrees, inner side from the level
    slope_words: str
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Ledge:
    """The step in a foundation wall that a brick leaf stands on."""

    width: float  # m, from the wall's outer face
    width_words: str
    below: float  # m, below the top of the floor
    below_words: str
    brick: Slice
    air: Slice  # behind the brick, above the wall's step
    air_in_step: Slice
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Beside:
    """The air on the other side of an edge."""

    name: str  # "outdoors", "unheated space", "next door"
    mean: float  # degC
    swing: complex  # K
    rests_on: tuple[str, ...] = ()
    follows: float = 0.0  # how much of what outdoors does from hour to hour; 1 is all of it


@dataclass(frozen=True, slots=True)
class ResolvedEdge:
    """One edge with all that its section needs."""

    letter: str
    kind: str
    path: str
    length: float  # m of perimeter that faces outdoors or other colder air
    depth: float  # m, bottom of the footing or thickening below the top of the floor; 0 where there is none
    ground: float  # m, finished ground above (+) or below (-) the top of the floor
    wall: tuple[Slice, ...]  # foundation wall, from the room outwards
    above: tuple[Slice, ...]  # wall that stands on it
    footing: tuple[float, float]  # width, height; m
    footing_slice: Slice
    pieces: tuple[Piece, ...]
    drawn: tuple[Drawn, ...]
    load: WallLoad | None = None
    ground_told: bool = True  # whether the brief says how high the ground is
    thickening: Thickening | None = None
    ledge: Ledge | None = None
    beside: Beside | None = None  # where it is not outdoors
    set_back: float = 0.0  # m, a door's leaf in from the foundation wall's outer face
    props: str = ""  # what holds the foot of a basement's wall: "slab", "footing"; "" where the brief does not say
    gap: float | None = None  # m, the sealed joint between slab and wall; None where the brief does not say

    @property
    def stands_in(self) -> float:
        """How far the wall above stands in over foam between slab and foundation wall. [m]"""
        return max((piece.board.thickness for piece in self.pieces if piece.covered), default=0.0)

    @property
    def upper(self) -> tuple[Slice, ...]:
        """Every layer of the wall that stands above the floor, brick and the air behind it too."""
        return (*self.above, *((self.ledge.air, self.ledge.brick) if self.ledge else ()))

    @property
    def strip(self) -> tuple[float, float]:
        """Width and height of the concrete that carries the wall: a footing, or a thickening's flat bottom. [m]"""
        return (self.thickening.width, self.depth) if self.thickening else self.footing

    @property
    def strip_paths(self) -> tuple[str, str]:
        """Where the two stand in the brief."""
        if self.thickening:
            return f"{self.path}.thickening.width", f"{self.path}.depth"
        return f"{self.path}.footing.width", f"{self.path}.footing.height"

    @property
    def bears_on_foam(self) -> bool:
        """Whether foam lies below what carries the wall."""
        return any(piece.face in ("below-footing", "below-slope") for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class PlanEdge:
    """Where an edge lies on the plan."""

    letter: str
    kind: str
    beside: str  # outdoors, heated, unheated, "next door"
    stretches: tuple[Stretch, ...]

    @property
    def length(self) -> float:
        """Of all its stretches. [m]"""
        return sum(stretch.length for stretch in self.stretches)


@dataclass(frozen=True, slots=True)
class KeyPlan:
    """The floor seen from above, and every edge of it, those beside heated rooms too."""

    floor: Floor
    edges: tuple[PlanEdge, ...]
    loads: tuple[ResolvedLoad, ...] = ()  # what stands on the slab, where on the plan it says


@dataclass(frozen=True, slots=True)
class Stratum:
    """Ground from a depth downwards, as far as the next one."""

    slice: Slice
    top: float = 0.0  # m below the finished ground outside
    soaked: Slice | None = None  # the same ground were the water as high; None where it is below the water
    grain: str = ""  # fine, coarse, rock, peat; "" where it is not known


def stratum_at(strata: tuple[Stratum, ...], depth: float) -> Stratum:
    """The stratum that lies at a depth below the finished ground. [m]"""
    return [stratum for stratum in strata if stratum.top <= max(depth, 0.0) + 1e-9][-1]


@dataclass(frozen=True, slots=True)
class GroundSurface:
    """What the ground outside feels at its surface, where that is not the air."""

    mean: float  # degC
    swing: complex  # K
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class GroundWater:
    """Where the ground water stands, and what keeps it off."""

    depth: float  # m below the finished ground
    drained: bool = False  # drains keep it below the build-up
    by_en: bool = False  # whether the brief names EN 1990, whose factor on what holds a floor down is EN 1997-1's


@dataclass(frozen=True, slots=True)
class Room:
    """Air over the floor: of the room, or outdoors where the slab lies under the sky."""

    mean: float  # degC
    swing: complex  # K
    humidity: float  # 0 to 1; not a number outdoors, where no finding asks for it
    rests_on: tuple[str, ...]
    humidity_path: str
    cooled: bool = False  # kept cool in summer; else let go, and then it wants nothing of the ground
    cooled_told: bool = False  # whether the brief says so, by the key or by a use whose floor is kept frozen
    follows: float = 0.0  # share of what outdoors does hour by hour and in a hard winter; above nought where not heated


@dataclass(frozen=True, slots=True)
class Damp:
    """Vapour of the air outdoors and in the room, month by month; a band where nobody tells how humid it is."""

    outdoors: tuple[
        tuple[float, ...], tuple[float, ...]
    ]  # (12,) each, Pa: the driest and the most humid that it may be
    room: tuple[tuple[float, ...], tuple[float, ...]]  # the same of the room
    warmth: tuple[float, ...]  # (12,) of the room, degC
    lifted: tuple[float, ...]  # (12,) K, what of that is because it is let go and as warm as outdoors
    day: tuple[float, ...] | None  # (12,) vapour of each month's most humid day over its mean; None: no hours tell
    told: bool  # whether the humidity outdoors is known
    rests_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Around:
    """What lives and stands in the ground about the floor, as far as the brief says; "" where it does not."""

    drain_outlet: str = ""  # daylight, sump, storm-sewer, none
    sealed: bool = False  # floor and walls are sealed against water
    flood: float | None = None  # m above the top of the floor
    sulphate: str = ""  # S0 to S3
    termites: str = ""  # a region of the code's map, or present
    termite_barrier: str = ""
    may_be_very_heavy: bool = False  # whether a map has very heavy termites where the site is, as far as is known


@dataclass(frozen=True)
class Resolved:
    """One brief in numbers."""

    title: str
    use: Use
    system: System
    place: str
    credits: tuple[str, ...]
    notes: tuple[str, ...]
    outdoor_mean: float  # degC
    outdoor_swing: complex  # K
    outdoor_hours: tuple[float, ...]  # degC, a whole year of them; () where only months are known
    climate_path: str
    zone: SiteZone  # what the site says of the climate zone that a code has there
    room: Room
    strata: tuple[Stratum, ...]  # the ground from its surface down, one or several; the last goes on
    floor: tuple[Slice, ...]
    area: float  # m²
    perimeter: float  # m that faces outdoors or other colder air
    plan: KeyPlan
    available_depth: float | None
    edges: tuple[ResolvedEdge, ...]
    assumed: tuple[Assumed, ...]
    comfort: Quantity | None
    touched_by: tuple[str, ...] | None  # agents that may get to the foam; None where the brief does not say
    water: GroundWater | None
    surface: GroundSurface | None  # None where it is as warm as the air
    held: Held  # the code editions that the floor is held to, and what their triggers ask
    products: Products
    for_good: ForGood
    loads: tuple[ResolvedLoad, ...] = ()  # what stands or rolls on the slab, walls on footings left out
    damp: Damp | None = None  # None under the sky
    concrete_strength: float | None = None  # Pa, as typed; None where nobody tells
    furnished: tuple[Furnishing, ...] = ()  # what lies or stands on the floor
    covered_after: float | None = None  # s from the pour until the covering is laid
    support: Support | None = None  # what carries them; None where nothing stands on the slab
    bays: tuple[ResolvedBay, ...] = ()  # parts of the floor that carry them otherwise
    ribs: tuple[ResolvedRib, ...] = ()  # strips of thicker slab
    joints: tuple[ResolvedJoint, ...] = ()
    soil_gas: ResolvedSoilGas | None = None  # None where the brief says nothing of it
    around: Around = Around()
    heated: HeatedFloor | None = None  # tubes in it; None where there are none, and under the sky
    frost: Frost | None = None  # None where the brief does not ask about it
    laying: LaidSo | None = None  # how its boards are laid; None where that was not asked
    money: Money | None = None  # prices; None where the brief says nothing of money
    finish: str = ""  # bare, sheet, wood, tile, stone, terrazzo; "" where the brief does not say

    @property
    def outdoors(self) -> bool:
        """Whether the slab lies under the sky, with no room over it."""
        return self.use.room is None

    def air_beside(self, edge: ResolvedEdge) -> Beside:
        """The air on the other side of one of its edges."""
        return edge.beside or Beside("outdoors", self.outdoor_mean, self.outdoor_swing, follows=1.0)

    @property
    def ground(self) -> Slice:
        """What the ground is at its surface, and all the way down where it has no layers."""
        return self.strata[0].slice

    @property
    def ground_below(self) -> Slice:
        """What the build-up lies on, at the longest edge."""
        depth = max(self.edges, key=lambda edge: edge.length).ground + self.total
        return stratum_at(self.strata, depth).slice

    @property
    def ground_mean(self) -> float:
        """Mean of the year deep in undisturbed ground. [degC]"""
        return self.outdoor_mean if self.surface is None else self.surface.mean

    def water_level(self, edge: ResolvedEdge) -> float | None:
        """Level of the ground water at one of its edges, where drains keep it no higher than the build-up. [m]"""
        if self.water is None:
            return None
        stands = edge.ground - self.water.depth
        return min(stands, -self.total) if self.water.drained else stands

    def ground_conductivity(self, start: float, end: float) -> float:
        """Mean over the depths from ``start`` to ``end`` below the finished ground, each stratum by its thickness.

        [m] -> [W/(m·K)]
        """
        if len(self.strata) == 1:
            return self.ground.conductivity
        tops = [-inf, *(stratum.top for stratum in self.strata[1:]), inf]
        shares = [max(min(end, low) - max(start, top), 0.0) for top, low in pairwise(tops)]
        return sum(s.slice.conductivity * d for s, d in zip(self.strata, shares, strict=True)) / (end - start)

    @property
    def half_width(self) -> float:
        """Width of floor that belongs to each metre of edge: area over exposed perimeter. [m]"""
        return self.area / self.perimeter

    @property
    def slices(self) -> Iterator[Slice]:
        """Every layer, wall, piece of foam and drawn body: the floor's from the top down, then edge by edge."""
        yield from self.floor
        for edge in self.edges:
            yield from (*edge.wall, *edge.above)
            yield from (piece.board for piece in edge.pieces)
            yield from (drawn.slice for drawn in edge.drawn)

    @property
    def boards(self) -> tuple[Slice, ...]:
        return tuple(layer for layer in self.floor if layer.kind == "board")

    @property
    def total(self) -> float:
        """Thickness of the whole build-up, channels below a panel counted. [m]"""
        return sum(layer.height for layer in self.floor)

    @property
    def laid(self) -> tuple[Slice, ...]:
        """The layers that are laid now: all of them, or those above an old slab that stays."""
        old = next((n for n, layer in enumerate(self.floor) if layer.kind == "old-slab"), len(self.floor))
        return self.floor[:old]

    @property
    def on_old_slab(self) -> bool:
        """Whether an old slab stays below the floor."""
        return len(self.laid) < len(self.floor)
