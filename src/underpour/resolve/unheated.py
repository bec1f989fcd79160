"""The air of a room that is not heated: as it is outdoors, or milder by what the ground and the sun give it."""

from __future__ import annotations

from ..brief.model import Brief
from ..brief.tables.floor import Seasons
from ..findings import Assumed
from .assumptions import Assumptions
from .resolved import Room
from .usual import usual

PATH = "floor.inside"


def unheated_room(
    brief: Brief, outdoor_mean: float, outdoor_swing: complex, outdoors_path: str, assumed: Assumptions
) -> Room:
    """A room as cold as outdoors in winter and as warm in summer.

    Parameters
    ----------
    brief : Brief
        Its floor is typed as unheated, or as freezing in winter.
    outdoor_mean : float
        Mean of the year outdoors. [degC]
    outdoor_swing : complex
        Swing of the year outdoors. [K]
    outdoors_path : str
        What the air outdoors rests on.
    assumed : Assumptions
        Takes the winter and the summer where nobody typed them.

    Returns
    -------
    Room
        It follows outdoors in a hard winter and hour by hour, and wants nothing of the ground.
    """
    inside = brief.floor.inside
    if isinstance(inside, Seasons):
        winter, summer = inside.winter.si, inside.summer.si
        rests_on: tuple[str, ...] = (PATH,)
    else:
        winter, summer = _as_outdoors(outdoor_mean, abs(outdoor_swing), assumed)
        rests_on = (f"{PATH}.winter", f"{PATH}.summer", outdoors_path)
    turn = outdoor_swing / abs(outdoor_swing) if outdoor_swing else 1.0 + 0j
    typed = brief.floor.humidity
    humidity, path = (typed.si, "floor.humidity") if typed is not None else (0.0, "site.humidity")  # it adds nothing
    mean, swing = (winter + summer) / 2.0, (summer - winter) / 2.0 * turn
    return Room(mean, swing, humidity, rests_on, path, cooled_told=True, follows=1.0)


def _as_outdoors(mean: float, swing: float, assumed: Assumptions) -> tuple[float, float]:
    """Its winter and its summer, which nobody typed. [degC]"""
    milder = usual("unheated-winter")
    why = f"{milder.where} (common practice, no source)"
    winter, summer = (
        assumed.take(Assumed(f"{PATH}.{season}", end + milder.value, end + milder.low, end + milder.high, "degC", why))
        for season, end in (("winter", mean - swing), ("summer", mean + swing))
    )
    return winter, summer
