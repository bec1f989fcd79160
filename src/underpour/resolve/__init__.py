"""Where brief and catalogue meet: every number of the brief in SI, each with its origin, nothing worked out."""

from .bays import ResolvedBay
from .edges import WALL_SHOWN
from .foams import ForGood
from .held import Held, zone_for
from .joints import ResolvedJoint
from .loads import Patch, ResolvedLoad
from .money import Money
from .resolved import (
    Around,
    Beside,
    Damp,
    Drawn,
    KeyPlan,
    Piece,
    PlanEdge,
    Resolved,
    ResolvedEdge,
    Room,
    Slice,
    WallLoad,
)
from .ribs import ResolvedRib
from .site import resolve
from .support import Bedded, Concrete, Ground, Support
from .zone import SiteZone, ToldZone

__all__ = [
    "WALL_SHOWN",
    "Around",
    "Bedded",
    "Beside",
    "Concrete",
    "Damp",
    "Drawn",
    "ForGood",
    "Ground",
    "Held",
    "KeyPlan",
    "Money",
    "Patch",
    "Piece",
    "PlanEdge",
    "Resolved",
    "ResolvedBay",
    "ResolvedEdge",
    "ResolvedJoint",
    "ResolvedLoad",
    "ResolvedRib",
    "Room",
    "SiteZone",
    "Slice",
    "Support",
    "ToldZone",
    "WallLoad",
    "resolve",
    "zone_for",
]
