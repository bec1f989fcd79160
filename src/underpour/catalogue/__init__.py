"""Tables with sources: what boards, materials, grounds, surfaces, uses and places are known, read on first use."""

from __future__ import annotations

from .boards import board, boards
from .grounds import default_ground, ground, grounds
from .listing import everything
from .materials import material, materials
from .products import product, products, shipped_line
from .retarders import retarder, retarders
from .sources import source, sources
from .surfaces import air_layer, limit, limits, surface, surfaces
from .uses import called, use, uses

__all__ = [
    "air_layer",
    "board",
    "boards",
    "called",
    "default_ground",
    "everything",
    "ground",
    "grounds",
    "limit",
    "limits",
    "material",
    "materials",
    "product",
    "products",
    "retarder",
    "retarders",
    "shipped_line",
    "source",
    "sources",
    "surface",
    "surfaces",
    "use",
    "uses",
]
