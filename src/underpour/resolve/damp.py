"""How much vapour the air holds, outdoors and in the room, month by month."""

from __future__ import annotations

from cmath import exp
from collections.abc import Sequence
from math import pi

from .. import catalogue
from ..brief.model import Brief
from .air import Air
from .assumptions import Assumptions
from .resolved import Damp, Room

PATH = "site.humidity"
IN_THE_GROUND = ("footing-wall",)  # edges of rooms that stay cool in summer
MOIST_BELOW, DRY_FROM = (
    0.0,
    20.0,
)  # degC outdoors: windows shut below the first, what the room adds blows away above the other


def damp(brief: Brief, outdoors: Air, room: Room, assumed: Assumptions) -> Damp:
    """Vapour of the air outdoors and in the room.

    Outdoors it is typed, or of a weather file's hours, or lies in a band. The room's is the outdoors' and what is added
    to it: in the coldest month as much as makes the winter's humidity, less in milder weather, in proportion from 0 °C
    outdoors up to 20 °C (ISO 13788:2012, annex A, from memory). Where the room is kept cool, or dried, it stays below
    the summer's humidity in the months warmer than the mean of the year; a room above the ground that is let go is as
    warm as it is outdoors where that is warmer than it is kept.
    """
    from ..physics.moisture.air import saturation_pressure

    path, typed = PATH, brief.site.humidity
    day: tuple[float, ...] | None = None
    if typed is not None:
        shares = [each.si for each in typed] * (12 // len(typed))
        low = high = _pressures(outdoors.months, shares)
    elif (tried := assumed.missing(PATH)) is not None:
        low = high = _pressures(outdoors.months, [tried / 100.0] * 12)
    elif outdoors.humidities:
        from ..physics.moisture.outdoors import months_of_hours

        low, days = months_of_hours(outdoors.hours, outdoors.humidities)
        high, path, day = low, outdoors.path, tuple(most / mean for most, mean in zip(days, low, strict=True))
    else:
        band = catalogue.limit("outdoor-humidity")
        low, high = (_pressures(outdoors.months, [share / 100.0] * 12) for share in (band.low, band.high))
    kept = [room.mean + (room.swing * _turn(month)).real for month in range(12)]
    lets_go = not room.cooled and all(edge.kind not in IN_THE_GROUND for edge in brief.edge)
    lifted = tuple(
        max(0.0, beyond - own) if lets_go else 0.0 for beyond, own in zip(outdoors.months, kept, strict=True)
    )
    warmth = tuple(own + more for own, more in zip(kept, lifted, strict=True))
    full = tuple(saturation_pressure(degrees) for degrees in warmth)
    summer, cap = _summer(brief, room)
    inside = tuple(_inside(outdoors.months, each, room.humidity, full, summer) for each in (low, high))
    return Damp(
        (low, high),
        (inside[0], inside[1]),
        warmth,
        lifted,
        day,
        low == high,
        tuple(dict.fromkeys([path, outdoors.path, room.humidity_path, *room.rests_on, *cap])),
    )


def _turn(month: int) -> complex:
    return exp(2j * pi * (month + 0.5) / 12.0)


def _pressures(months: Sequence[float], shares: Sequence[float]) -> tuple[float, ...]:
    from ..physics.moisture.outdoors import vapour_pressure

    return tuple(vapour_pressure(degrees, share) for degrees, share in zip(months, shares, strict=True))


def _summer(brief: Brief, room: Room) -> tuple[float, tuple[str, ...]]:
    """The humidity that the room is kept below when it is warm outdoors, and what says so; 1 where nothing keeps it."""
    if brief.floor.summer_humidity is not None:
        return brief.floor.summer_humidity.si, ("floor.summer-humidity",)
    if not room.cooled:
        return 1.0, ()
    usual = catalogue.limit("cooled-room-humidity")
    return usual.value / 100.0, (usual.path,)


def _inside(
    months: Sequence[float], outdoors: Sequence[float], winter: float, full: Sequence[float], summer: float
) -> tuple[float, ...]:
    coldest = min(range(12), key=months.__getitem__)
    shut = _shut(months[coldest])
    added = max(0.0, winter * full[coldest] - outdoors[coldest]) / shut if shut else 0.0
    mean = sum(months) / 12.0
    found = []
    for degrees, beyond, most in zip(months, outdoors, full, strict=True):
        share = summer if degrees > mean else 1.0
        found.append(min(beyond + added * _shut(degrees), share * most))
    return tuple(found)


def _shut(degrees: float) -> float:
    """How much of what the room adds to its air stays there at a temperature outdoors, 0 to 1."""
    return min(1.0, max(0.0, (DRY_FROM - degrees) / (DRY_FROM - MOIST_BELOW)))
