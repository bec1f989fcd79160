"""What is wrong with the plan of a text, and with the sides of its edges; all else is told when the brief is read."""

from __future__ import annotations

import re
from typing import Any

from ...mistakes import Mistake, Mistakes
from ...toml_text import places
from ..alternatives import AS_BRIEFED
from ..parts import readable
from ..placing import Version, placed
from ..plans import readable_floor, unclear_plan
from ..read import reads
from ..sides import unclear_sides
from ..typed import Typed

_OF_PLAN = re.compile(r"plan(?:\.|$)|edge$|edge\.[^.]+\.sides")


def unclear_in_plan(text: str, data: Any) -> tuple[Mistake, ...]:
    """Every mistake of the plan, with its line.

    Parameters
    ----------
    text : str
        The brief.
    data : dict
        What a TOML reader makes of it.
    """
    parts = readable(data)
    if parts.plan is None or not parts.holes_known:
        return _whole(text) if "plan" in data else ()
    found = list(unclear_plan(parts.plan))
    floor = readable_floor(parts.plan)
    if floor is not None:
        found += unclear_sides(parts.sides, floor, parts.plan)
    return tuple(placed(found, Version(AS_BRIEFED, Typed.of(data)), "", places(text) if found else {}))


def _whole(text: str) -> tuple[Mistake, ...]:
    """The same where the plan's own words cannot be read: the whole brief tells it."""
    try:
        reads(text, alone=True)
    except Mistakes as mistakes:
        return tuple(mistake for mistake in mistakes if _OF_PLAN.match(mistake.at))
    return ()
