"""Bearing: do foam, ground and concrete carry what stands or rolls on them?"""

from __future__ import annotations

from .shown import Around, Borne, Carrier, Layer, Share, pictured
from .under_loads import beside_loads, under_loads
from .walls import below_footing

__all__ = ["Around", "Borne", "Carrier", "Layer", "Share", "below_footing", "beside_loads", "pictured", "under_loads"]
