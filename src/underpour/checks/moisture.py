"""Moisture: is any surface of the room cold enough for mould?"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from .. import catalogue
from ..findings import Finding, Step
from ..physics import moisture
from ..physics.conduction.assemble import SIDE, UP
from ..physics.conduction.solve import SHARE_OF_TEMPERATURE, Told
from ..physics.year import deciding, lowest_moment, month_of
from ..resolve import Resolved
from .basis import basis, conduction
from .solved import ROOM, SolvedEdge, floor_rests_on

FILM = "mould"


def factor(resolved: Resolved, solved: SolvedEdge) -> Iterator[Finding]:
    """Temperature factor of the coldest surface against the one that the room's humidity asks for.

    Asks
        Does the air at the coldest surface stay below 80 % humidity, so that mould does not start?
    Why
        Behind furniture and in corners the surface is colder than the room feels; mould needs no drop of water.
    Worked out
        Coldest moment of the year at the surface, with the film for humidity, as a factor between outdoors at its
        coldest (mean less amplitude) and the room; the wanted factor from room temperature and humidity.
    Holds for
        Rooms warmer than outdoors in winter; the settled year. Summer dampness is another question.
    Source
        ISO 13788:2012 (from memory); film 0.25 m²·K/W, 80 % at the surface.
    """
    outdoors = resolved.outdoor_mean - abs(resolved.outdoor_swing)
    room = resolved.room.mean - abs(resolved.room.swing)
    surfaces = [("floor", UP)] + ([("wall", SIDE)] if solved.edge.kind == "footing-wall" else [])
    for name, facing in surfaces:
        at: dict[str, str | float] = {"edge": solved.edge.letter, "film": FILM, "surface": name}
        title = f"Surface factor of the {name}, against mould"
        if room - outdoors < 5.0:
            yield Finding(
                "moisture.surface-factor",
                title,
                None,
                "1",
                at=at,
                no_limit="does not apply",
                words="The room is hardly warmer than outdoors in winter; winter mould is not the question here.",
            )
            continue
        told = _coldest(solved, facing)
        allowed = catalogue.limit("mould-surface-humidity")
        share = allowed.value / 100.0 if allowed.unit == "%" else allowed.value
        lowest = moisture.lowest_surface_temperature(room, resolved.room.humidity, share)
        limit = moisture.surface_factor(lowest, room, outdoors)
        value = moisture.surface_factor(told.mean - abs(told.swing), room, outdoors)
        month = month_of(lowest_moment(told.swing))
        yield Finding(
            "moisture.surface-factor",
            title,
            value,
            "1",
            at=at,
            within=told.within / (room - outdoors),
            month=month,
            months=tuple(moisture.surface_factor(t, room, outdoors) for t in deciding(told.mean, told.swing, "lowest")),
            limit=limit,
            sense="at least",
            basis=(
                basis("iso-13788-2012", "5.3, surface factor and critical surface humidity"),
                allowed.basis(),
                *conduction(),
            ),
            rests_on=(*floor_rests_on(resolved), *solved.rests_on, resolved.room.humidity_path, allowed.path),
            steps=(
                Step(
                    "θ_si",
                    "mean − amplitude at the coldest place",
                    f"{told.mean:.2f} − {abs(told.swing):.2f}",
                    f"{told.mean - abs(told.swing):.2f} °C",
                ),
                Step(
                    "θ_e",
                    "outdoors, mean − amplitude",
                    f"{resolved.outdoor_mean:.2f} − {abs(resolved.outdoor_swing):.2f}",
                    f"{outdoors:.2f} °C",
                ),
                Step(
                    "θ_si,min",
                    f"p_sat(θ_si,min) = p_sat(θ_room) × φ / {share:.2f}",
                    f"θ_room = {room:.1f} °C, φ = {resolved.room.humidity:.2f}",
                    f"{lowest:.2f} °C",
                ),
                Step(
                    "f_Rsi",
                    "(θ_si − θ_e) / (θ_room − θ_e)",
                    f"({told.mean - abs(told.swing):.2f} − {outdoors:.2f}) / ({room:.1f} − {outdoors:.2f})",
                    f"{value:.3f}; wanted {limit:.3f}",
                ),
            ),
        )


def _coldest(solved: SolvedEdge, facing: int) -> Told:
    """Coldest place of one kind of surface of the room."""
    found = []
    for solution in (solved.mould.fine, solved.mould.coarse):
        faces = solution.equations.faces
        points = np.unique(faces.points[(faces.space == ROOM) & (faces.facing == facing)])
        n = points[(solution.mean[points] - np.abs(solution.swing[points])).argmin()]
        found.append((float(solution.mean[n]), complex(solution.swing[n])))
    (mean, swing), (old_mean, old_swing) = found
    return Told(mean, swing, SHARE_OF_TEMPERATURE * (abs(mean - old_mean) + abs(swing - old_swing)))
