"""Heat that is paid for in a year, from the settled year of the real ground."""

from __future__ import annotations

from collections.abc import Sequence

from ..checks.settled import COOLNESS, HEAT, settled_year, wanted
from ..checks.solved import SolvedEdge
from ..resolve import Resolved
from .records import Season


def season(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Season | None:
    """Of one version; None where nothing is heated: under the sky, and in a room that nobody heats.

    The months that the brief names, else those in which outdoors is colder than the room. A floor that is kept frozen
    pays all year for the heat that comes in.
    """
    if resolved.outdoors or resolved.room.follows:
        return None
    year = settled_year(resolved, tuple(edges))
    months, cold = counted(resolved), resolved.use.cold_floor
    cool = (n for n, want in enumerate(wanted(resolved), start=1) if want == COOLNESS and n not in months)
    return Season(year.kilowatt_hours(year.whole), months, tuple(cool), cold)


def counted(resolved: Resolved) -> tuple[int, ...]:
    """Months that count, 1 to 12."""
    if resolved.use.cold_floor:
        return tuple(range(1, 13))
    if resolved.money is not None and resolved.money.season is not None:
        return resolved.money.season
    return tuple(n for n, want in enumerate(wanted(resolved), start=1) if want == HEAT)
