"""A layer of a floor or of a wall."""

from __future__ import annotations

from typing import Literal

from .. import kinds, layers
from .table import Table, key


class Layer(Table):
    """One layer. A bulk layer carries its thickness as value; a catalogue layer a name, and the thickness beside it."""

    concrete: kinds.Thickness | None = key("A layer of concrete, by its thickness.", "4 in", "100 mm", default=None)
    screed: kinds.Thickness | None = key("A screed, by its thickness.", "2 in", "50 mm", default=None)
    old_slab: kinds.Thickness | None = key(
        "An old slab that stays below the new floor, by its thickness; the wall stands level with its top.",
        "4 in",
        "100 mm",
        default=None,
    )
    gravel: kinds.Thickness | None = key("Washed gravel, by its thickness.", "4 in", "100 mm", default=None)
    sand: kinds.Thickness | None = key("Sand, by its thickness.", "2 in", "50 mm", default=None)
    masonry: kinds.Thickness | None = key("Masonry of a wall, by its thickness.", "8 in", "200 mm", default=None)
    timber_frame: kinds.Thickness | None = key(
        "Timber frame of a wall, by its thickness.", "5.5 in", "140 mm", default=None
    )
    covering: str | None = key(
        "What lies on the floor, by its name in the catalogue.", "wood-floating", "tile", default=None
    )
    air_space: kinds.AirSpace | None = key(
        "Air that stands still, by its thickness; a board lies over it in a floor.", "3/4 in", "20 mm", default=None
    )
    sheet: str | None = key(
        "A foil or bubble sheet, by its name in the catalogue.", "double-bubble-foil", "foil", default=None
    )
    board: str | None = key("A rigid board, by its name in the catalogue.", "plain-15", default=None)
    vapour_retarder: str | None = key("A vapour retarder, by its name in the catalogue.", "film-15-mil", default=None)
    seams: Literal["taped", "lapped", "open"] | None = key(
        "How the seams of a vapour retarder are laid: taped with its pipes sealed, lapped without tape, or open: pipes "
        "cut round and tears left. Unless it is typed they count as tight as the film.",
        "taped",
        "lapped",
        default=None,
    )
    thickness: kinds.BoardThickness | None = key("How thick the board is.", "2 in", "50 mm", default=None)
    r: kinds.WantedR | None = key(
        "In the place of thickness: the R-value that the board must reach as labelled, in the thinnest thickness made. "
        "Of a sheet or an air space: the R-value that is wanted of it.",
        "R10",
        "RSI 1.76",
        default=None,
    )
    conductivity: kinds.Conductivity | None = key(
        "Thermal conductivity, where it is not the catalogue's.", "0.036 W/(m·K)", default=None
    )

    @property
    def kind(self) -> str:
        """What it is, by its key: "concrete", "board", "vapour-retarder"."""
        return next(key for key in layers.LAYERS if getattr(self, key.replace("-", "_")) is not None)
