"""Moisture: is any surface of the room cold enough for mould?"""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator

import numpy as np

from .. import catalogue
from ..findings import Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.conduction.assemble import SIDE, UP
from ..physics.conduction.solve import Told
from ..physics.moisture import air
from ..physics.year import deciding, lowest_moment, month_of
from ..resolve import Beside, Resolved
from .basis import basis, conduction
from .solved import ROOM, SolvedEdge, floor_rests_on

FILM = "mould"
ON_PURPOSE = "This floor is kept cold on purpose; winter mould is not the question on it."
HARDLY_WARMER = "The room is hardly warmer than {} in winter; winter mould is not the question here."


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
    beside = resolved.air_beside(solved.edge)
    outdoors = beside.mean - abs(beside.swing)
    room = resolved.room.mean - abs(resolved.room.swing)
    surfaces = [("floor", UP)] + ([("wall", SIDE)] if solved.edge.kind == "footing-wall" else [])
    for name, facing in surfaces:
        at: dict[str, str | float] = {"edge": solved.edge.letter, "film": FILM, "surface": name}
        title = f"Surface factor of the {name}, against mould"
        cold = name == "floor" and resolved.use.cold_floor
        if cold or room - outdoors < 5.0:
            yield Finding(
                "moisture.surface-factor",
                title,
                None,
                "1",
                at=at,
                no_limit="does not apply",
                words=ON_PURPOSE if cold else HARDLY_WARMER.format(_called(beside)),
            )
            continue
        told = _coldest(solved, facing)
        allowed = catalogue.limit("mould-surface-humidity")
        share = allowed.value / 100.0 if allowed.unit == "%" else allowed.value
        lowest = air.lowest_surface_temperature(room, resolved.room.humidity, share)
        limit = air.surface_factor(lowest, room, outdoors)
        coldest = told.mean - abs(told.swing)
        value = air.surface_factor(coldest, room, outdoors)
        month = month_of(lowest_moment(told.swing))
        yield Finding(
            "moisture.surface-factor",
            title,
            value,
            "1",
            at=at,
            within=told.within / (room - outdoors),
            month=month,
            months=tuple(air.surface_factor(t, room, outdoors) for t in deciding(told.mean, told.swing, "lowest")),
            limit=limit,
            sense="at least",
            basis=(
                basis("iso-13788-2012", "5.3, surface factor and critical surface humidity"),
                allowed.basis(),
                *conduction(),
            ),
            rests_on=(*floor_rests_on(resolved), *solved.rests_on, resolved.room.humidity_path, allowed.path),
            steps=(
                _less("θ_si", "at the coldest place", told.mean, told.swing),
                _less("θ_e", beside.name, beside.mean, beside.swing),
                *_wanted_temperature(room, resolved.room.humidity, share, lowest),
                _ratio("f_wanted", "θ_least", lowest, room, outdoors, limit),
                _ratio("f_Rsi", "θ_si", coldest, room, outdoors, value),
            ),
            words=_words(name, coldest, lowest, month, resolved),
        )


def _called(beside: Beside) -> str:
    """The air on the other side of an edge, as a sentence names it."""
    return {"outdoors": "outdoors", "unheated space": "the unheated space"}.get(beside.name, "it is next door")


def no_room() -> Iterator[Finding]:
    """What is not asked of a slab outdoors, said once.

    Asks
        Does anything of a room hang on this slab?
    Why
        A question that is left out without a word is taken for one that was answered.
    Worked out
        Nothing: there is no room.
    Holds for
        Drives, walks, terraces and all that lies under the sky.
    Source
        The use in the brief.
    """
    yield Finding(
        "moisture.surface-factor",
        "Heat loss, warm floor and mould",
        None,
        "1",
        at={"surface": "floor"},
        no_limit="does not apply",
        rests_on=("project.use",),
        words="No room lies over this slab.",
    )


def _words(name: str, coldest: float, lowest: float, month: int, resolved: Resolved) -> str:
    """What the factor means in degrees, at the room's humidity."""
    felt, wanted = (say.value(degrees, "degC", resolved.system) for degrees in (coldest, lowest))
    humidity = say.value(100.0 * resolved.room.humidity, "%", resolved.system)
    found = f"Behind furniture the {name}'s coldest place falls to {felt} in {month_name[month]}."
    if coldest >= lowest:
        return f"{found} At {humidity} humidity mould does not start above {wanted}."
    return (
        f"{found} At {humidity} humidity mould can start below {wanted}. "
        "Put foam between this place and the cold, or keep the room drier."
    )


def _less(symbol: str, where: str, mean: float, swing: complex) -> Step:
    numbers = f"{fixed(mean, 2)} − {abs(swing):.2f}"
    return Step(symbol, f"mean − amplitude, {where}", numbers, f"{fixed(mean - abs(swing), 2)} °C")


def _wanted_temperature(room: float, humidity: float, share: float, lowest: float) -> tuple[Step, Step]:
    saturated = air.saturation_pressure(room)
    return (
        Step(
            "p_least",
            f"p_sat(θ_room) × φ / {share:.2f}",
            f"{saturated:.0f} × {humidity:.2f} / {share:.2f}",
            f"{saturated * humidity / share:.0f} Pa",
        ),
        Step("θ_least", "temperature at which p_sat is p_least", "", f"{fixed(lowest, 2)} °C"),
    )


def _ratio(symbol: str, surface: str, degrees: float, room: float, outdoors: float, value: float) -> Step:
    from_outdoors = f"− {outdoors:.2f}" if outdoors >= 0.0 else f"+ {-outdoors:.2f}"
    numbers = f"({fixed(degrees, 2)} {from_outdoors}) / ({fixed(room, 2)} {from_outdoors})"
    return Step(symbol, f"({surface} − θ_e) / (θ_room − θ_e)", numbers, f"{value:.3f}")


def _coldest(solved: SolvedEdge, facing: int) -> Told:
    """Coldest place of one kind of surface of the room."""
    found = []
    for solution in (solved.mould.fine, solved.mould.coarse):
        faces = solution.equations.faces
        points = np.unique(faces.points[(faces.space == ROOM) & (faces.facing == facing)])
        n = points[(solution.mean[points] - np.abs(solution.swing[points])).argmin()]
        found.append((float(solution.mean[n]), complex(solution.swing[n])))
    return solved.mould.degrees(found[0], found[1])
