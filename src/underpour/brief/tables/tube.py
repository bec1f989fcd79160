"""The tube in a heated slab: read so far as the mark of one."""

from __future__ import annotations

from .. import kinds
from .table import Table, key


class Tube(Table):
    """Tube in a heated slab. It says so far that the slab is heated, which codes ask, and how deep one may drill."""

    size: kinds.Thickness | None = key("The tube's nominal size.", "1/2 in", "16 mm", default=None)
    spacing: kinds.Thickness | None = key("From one tube to the next.", "9 in", "200 mm", default=None)
    depth_from_top: kinds.Thickness | None = key(
        "From the top of the slab to the top of the tube: what may be drilled into.", "2 in", "60 mm", default=None
    )
    fluid: str | None = key("The fluid in it.", "water", "propylene-glycol-30", default=None)
