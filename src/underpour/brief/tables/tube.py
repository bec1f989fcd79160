"""The tube in a heated slab: read so far as the mark of one."""

from __future__ import annotations

from .. import kinds
from .table import Table, key


class Tube(Table):
    """The tube in a heated slab. So far it says that the slab is heated, which codes ask; no more is answered."""

    size: kinds.Thickness | None = key("The tube's nominal size.", "1/2 in", "16 mm", default=None)
    spacing: kinds.Thickness | None = key("From one tube to the next.", "9 in", "200 mm", default=None)
    fluid: str | None = key("The fluid in it.", "water", "propylene-glycol-30", default=None)
