"""The air beside an edge that does not face outdoors: as typed, or taken between room and outdoors."""

from __future__ import annotations

from collections.abc import Sequence

from ..brief.kinds import Neighbour
from ..brief.tables.floor import Seasons
from ..findings import Assumed
from ..measure import Measure
from .assumptions import Assumptions
from .resolved import Beside, ResolvedEdge, Room
from .usual import usual

ALIKE = 2.0  # K; air that is less colder than the room is a heated neighbour's
NEXT_DOOR = (
    "{edges} {lie} beside other air than outdoors: the section takes that air, over bare ground as if it were "
    "outdoors. A slab there, and what the ground under it gains or loses on its other sides, are not counted."
)
HEATED = (
    "The air beside {edges} is about as warm as the room. A neighbour that is kept as warm is heated: "
    'beside = "heated" takes the edge out of the perimeter, and the floor there is counted to the other edges.'
)


def air_beside(
    typed: Neighbour | Seasons, path: str, room: Room, outdoor_mean: float, outdoor_swing: complex, assumed: Assumptions
) -> Beside | None:
    """The air beside one edge; None where that is outdoors.

    Parameters
    ----------
    typed : str, Measure or Seasons
        "outdoors", "unheated", a temperature that stands all year, or one for winter and one for summer.
    path : str
        Of the edge, "edge.B".
    room : Room
        The air over the floor.
    outdoor_mean : float
        Mean of the year outdoors. [degC]
    outdoor_swing : complex
        Swing of the year outdoors. [K]
    assumed : Assumptions
        Takes the winter and the summer of an unheated space, which nobody typed.
    """
    at = f"{path}.beside"
    if isinstance(typed, Measure):
        return Beside("next door", typed.si, 0j, (at,))
    turn = outdoor_swing / abs(outdoor_swing) if outdoor_swing else 1.0
    if isinstance(typed, Seasons):
        winter, summer = typed.winter.si, typed.summer.si
        return Beside("next door", (winter + summer) / 2.0, (summer - winter) / 2.0 * turn, (at,))
    if typed != "unheated":
        return None
    ends = [
        _between(f"{at}.{season}", r, o, assumed)
        for season, r, o in (
            ("winter", room.mean - abs(room.swing), outdoor_mean - abs(outdoor_swing)),
            ("summer", room.mean + abs(room.swing), outdoor_mean + abs(outdoor_swing)),
        )
    ]
    mean, half = (ends[0] + ends[1]) / 2.0, (ends[1] - ends[0]) / 2.0
    follows = usual("unheated-share").value
    return Beside("unheated space", mean, half * turn, (f"{at}.winter", f"{at}.summer"), follows)


def _between(path: str, room: float, outdoors: float, assumed: Assumptions) -> float:
    """A temperature that is so far from the room's to that outdoors. [degC]"""
    share = usual("unheated-share")
    value, *ends = (room + part * (outdoors - room) for part in (share.value, share.low, share.high))
    why = f"{share.where} (common practice, no source)"
    return assumed.take(Assumed(path, value, min(ends), max(ends), "degC", why))


def beside_notes(edges: Sequence[ResolvedEdge], room: Room) -> tuple[str, ...]:
    """What to know of edges beside other air than outdoors."""
    others = [(edge.letter, edge.beside) for edge in edges if edge.beside is not None]
    alike = [letter for letter, air in others if air.name == "next door" and abs(room.mean - air.mean) < ALIKE]
    colder = [letter for letter, _ in others if letter not in alike]
    told = []
    if colder:
        named = _named(colder)
        told.append(NEXT_DOOR.format(edges=f"{named[0].upper()}{named[1:]}", lie="lies" if len(colder) == 1 else "lie"))
    return (*told, *((HEATED.format(edges=_named(alike)),) if alike else ()))


def _named(letters: Sequence[str]) -> str:
    if len(letters) == 1:
        return f"edge {letters[0]}"
    return f"edges {', '.join(letters[:-1])} and {letters[-1]}"
