"""Half bond, as a crew lays it without a plan: every second row begins with half a panel."""

from __future__ import annotations

from .assemble import Rows
from .ground_plan import SAME


def half_bond(rows: Rows, from_right: bool) -> list[float]:
    """The length of each strip's first piece where rows begin in turn with a whole panel and with half of one.

    Arguments
    ---------
    rows
        The floor's rows, cut for one direction and one offset.
    from_right
        Whether the crew begins at the right; then what is asked of the first piece is asked of the last. [m]
    """
    whole, starts = rows.rules.length, []
    for strip in rows.strips:
        first = whole / 2.0 if strip.row % 2 else whole
        start = (strip.length - first) % whole if from_right else first
        starts.append(min(start if start > SAME else whole, strip.length))
    return starts
