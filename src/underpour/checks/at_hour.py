"""One hour of the weather year: the temperatures of a section then, and what floor and wall lose."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ..measure.hours import hour_of, hour_words
from ..mistakes import Mistake
from ..physics.conduction.field import Field
from ..physics.conduction.response import followed
from ..physics.conduction.sample import at_places
from ..resolve import Resolved
from .settled import beyond_the_wave, open_air, settled_year
from .solved import SolvedEdge
from .year_loss import peak_of

PEAK = "peak"
WRITE = f'Write a day and the end of an hour, such as "6 September 22:00" (midnight is 24:00), or {PEAK}.'


def meant(resolved: Resolved, edges: tuple[SolvedEdge, ...], typed: str) -> str:
    """The hour that is typed, as it is said: "6 September, 22:00"; of ``peak`` that of the largest flow.

    Raises
    ------
    Mistake
        No hours are known, or the year has no such hour.
    """
    if typed.strip().lower() == PEAK:
        hours = _hours(resolved, typed)
        return hour_words(peak_of(settled_year(resolved, edges).whole)[1], hours)
    return hour_words(number(resolved, typed), _hours(resolved, typed))


def number(resolved: Resolved, typed: str) -> int:
    """The same hour counted from 0 in the year of one alternative, which may have a file of its own."""
    found = hour_of(typed, _hours(resolved, typed))
    if found is None:
        raise Mistake("hour", f'"{typed}"', "The weather file's year has no such hour.", WRITE)
    return found


def _hours(resolved: Resolved, typed: str) -> int:
    if resolved.outdoors:
        wrong = "A slab under the sky is told by its months; no hour of it is worked out."
        raise Mistake("hour", f'"{typed}"', wrong, "Leave it out.")
    if not resolved.outdoor_hours:
        wrong = "No hours are known: the air comes from the means of twelve months."
        raise Mistake("hour", f'"{typed}"', wrong, 'Name a weather file with hours: weather = "file.epw" in [site].')
    return len(resolved.outdoor_hours)


def flow_then(resolved: Resolved, edges: tuple[SolvedEdge, ...], hour: int) -> float:
    """Heat through floor and basement wall at an hour of the year, counted from 0. [W]"""
    return float(settled_year(resolved, edges).whole[hour])


def field_then(resolved: Resolved, edge: SolvedEdge, field: Field, hour: int) -> Field:
    """Temperatures of one section at an hour of the year, counted from 0, which then stand still.

    ``field`` is what is drawn of the section through the year: its places, its mean and its swing. What the hours bring
    beyond these comes through the section's response.
    """
    assert edge.response is not None
    hours = len(resolved.outdoor_hours)
    now = (hour + 0.5) / hours
    beyond = beyond_the_wave(resolved)
    modes = followed(edge.response, open_air(resolved, edge)[:, None] * beyond).modes[:, hour]
    grid, further = edge.heat.coarse.equations, edge.response.shapes @ modes
    level = edge.section.corner[1]
    share = {"outdoors": resolved.air_beside(edge.edge).follows, "room": resolved.room.follows}
    turn = np.exp(2j * np.pi * now)
    return replace(
        field,
        mean=(field.at(now) + at_places(grid, further, field.x, field.y)).astype(np.float32),
        swing=np.zeros_like(field.swing),
        floor_mean=(field.floor_at(now) + at_places(grid, further, field.floor_x, np.array([level]))[0]).astype(
            np.float32
        ),
        floor_swing=np.zeros_like(field.floor_swing),
        airs=tuple(
            (where, mean + (swing * turn).real + share.get(where, 0.0) * beyond[hour], 0j)
            for where, mean, swing in field.airs
        ),
    )
