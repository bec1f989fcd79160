"""Where brief and catalogue meet: every number of the brief in SI, each with its origin, nothing worked out."""

from .edges import WALL_SHOWN
from .foams import ForGood
from .held import Held, zone_for
from .resolved import Beside, Drawn, KeyPlan, Piece, PlanEdge, Resolved, ResolvedEdge, Room, Slice, WallLoad
from .site import resolve
from .zone import SiteZone, ToldZone

__all__ = [
    "WALL_SHOWN",
    "Beside",
    "Drawn",
    "ForGood",
    "Held",
    "KeyPlan",
    "Piece",
    "PlanEdge",
    "Resolved",
    "ResolvedEdge",
    "Room",
    "SiteZone",
    "Slice",
    "ToldZone",
    "WallLoad",
    "resolve",
    "zone_for",
]
