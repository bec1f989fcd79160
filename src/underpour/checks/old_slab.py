"""The old slab's top below what is laid on it: its temperature by month, and the dew point of the air there."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .. import catalogue
from ..findings import Finding, Step
from ..measure import say
from ..physics.ground.uncovered import uncovered
from ..physics.moisture import air
from ..resolve import Resolved
from .basis import basis, conduction
from .humid import MIDDLE, PATH
from .solved import SolvedEdge, floor_faces, floor_rests_on
from .vapour import Profile, profile

Array = NDArray[np.float64]

ID = "moisture.old-slab"
CLOSED = ("concrete", "screed", "vapour-retarder", "sheet")  # what keeps the room's air from passing at its joints
TIGHT = ("vapour-retarder", "sheet")
BARE = 80.0  # %: from there on mould grows on what feeds it
BY_AIR = (
    "The room's air gets to it through the joints of the boards and leaves its water there: tape them and seal the "
    "edge, or dry the room's air in summer (summer-humidity)."
)
LITTLE = (
    "The little vapour that comes through from the room gathers on it in that season; moisture.within says how much, "
    "and whether it dries. Leave no paper, carpet or wood on it."
)
MENDS = {
    "": "The ground's damp reaches it: lay a film on the old slab, below the boards.",
    "above the boards": "The film lies above the boards and holds the ground's damp at the old slab: lay it on the old "
    "slab, below them.",
}


@dataclass(frozen=True)
class Plane:
    """The old slab's top at one place, month by month."""

    n: int  # interface that counts: the slab's top, or that of the film which lies on it
    film: str  # "on it", "above the boards", "" for none
    by_air: bool  # whether the room's air gets there through joints
    warmth: Array  # (12,) degC
    bare: Array  # (12,) degC, were nothing on it


def top(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Whether the old slab's top stays above the dew point of the air that gets to it, in every month.

    Asks
        Does water gather on the old slab, below what is laid on it now?
    Why
        Foam keeps the room's heat from the old slab: its top is colder than the bare floor was, and room air that gets
        down to it through joints leaves its water there. A film in the wrong place holds the ground's damp at it.
    Worked out
        Temperature of that plane from the solved section; vapour there by the layers' resistances between the room and
        saturated ground, or the room's own where its air gets in through joints of boards; the dew point of it. A metre
        from each wall, and in the middle. The bare floor beside it: resistances in a row for the mean, endless ground
        for the swing.
    Holds for
        A dry old slab with no water that runs or is sucked up. Where a film lies on it and what is laid is closed, the
        little that gets through is held by moisture.within alone. The bare floor's temperature is about right.
    Source
        ISO 13788:2012, clause 6 (from memory).
    """
    old = next((n for n, layer in enumerate(resolved.floor) if layer.kind == "old-slab"), None)
    if not old or resolved.damp is None:
        return
    longest = max(edges, key=lambda each: each.edge.length)
    for solved in edges:
        for place in [*(["edge"] if "edge" in solved.points else []), *(["centre"] if solved is longest else [])]:
            line = profile(resolved, solved, place)
            yield _held(resolved, solved, line, _plane(resolved, solved, line, old))


def _plane(resolved: Resolved, solved: SolvedEdge, line: Profile, old: int) -> Plane:
    above = resolved.floor[:old]
    on_it = above[-1].kind in TIGHT
    n = old - 1 if on_it else old
    higher = any(layer.kind in TIGHT for layer in above[:n])
    film = "on it" if on_it else "above the boards" if higher else ""
    closed = any(layer.kind in CLOSED for layer in above[:n]) or not any(layer.kind == "board" for layer in above)
    return Plane(n, film, not closed, line.warmth[:, n], _bare(resolved, solved, line, old))


def _bare(resolved: Resolved, solved: SolvedEdge, line: Profile, old: int) -> Array:
    """How warm the old slab's top would be with nothing on it, month by month. [degC]"""
    film = float(solved.heat.fine.resistance[floor_faces(solved.heat.faces)].max())
    above = film + sum(layer.resistance for layer in resolved.floor[:old])
    turn = np.exp(2j * np.pi * MIDDLE)
    now = line.warmth[:, old]
    swing = complex(2.0 * (now * turn.conj()).mean())
    ground = resolved.ground_below
    mean, sways = uncovered(
        (resolved.room.mean, resolved.room.swing),
        (float(now.mean()), swing),
        resolved.ground_mean,
        above,
        film,
        ground.conductivity,
        ground.heat_capacity,
    )
    return np.asarray(mean + (sways * turn).real)


def _vapour(line: Profile, plane: Plane, room: Sequence[float]) -> Array:
    """Vapour at the plane were nothing to condense, month by month. [Pa]"""
    depth, whole = line.air[plane.n], line.air[-1]
    inside = np.asarray(room)
    through = inside + (line.saturated[:, -1] - inside) * depth / whole
    return np.asarray(np.maximum(through, inside) if plane.by_air else through)


def _held(resolved: Resolved, solved: SolvedEdge, line: Profile, plane: Plane) -> Finding:
    damp = resolved.damp
    assert damp is not None
    allowed = catalogue.of_water("over-dew" if plane.film == "on it" else "over-dew-open")
    both = []
    for room in damp.room:
        dew = np.array([air.saturation_temperature(float(each)) for each in _vapour(line, plane, room)])
        both.append((plane.warmth - dew, dew))
    fails = [float(clear.min()) < allowed.value for clear, _ in both]
    open_to = not damp.told and fails[0] != fails[1]
    clear, dew = both[0 if all(fails) else 1]  # the milder end where even that falls short
    month = int(clear.argmin())
    value = float(clear[month])
    held = not open_to and (value >= allowed.value or plane.by_air or plane.film != "on it")
    return Finding(
        ID,
        "The old slab's top over the dew point of the air that gets there, nearest month",
        None if open_to else value,
        "K",
        at={"edge": solved.edge.letter, "place": line.place},
        month=None if open_to else month + 1,
        months=None if open_to else tuple(map(float, clear)),
        limit=allowed.value if held else None,
        sense="at least" if held else None,
        basis=(basis("iso-13788-2012", "clause 6, vapour month by month"), allowed.basis(), *line.basis, *conduction()),
        rests_on=(*floor_rests_on(resolved), *solved.rests_on, *damp.rests_on, *line.rests_on, allowed.path),
        steps=tuple(_steps(resolved, plane, dew)),
        words=_asks() if open_to else _words(resolved, plane, month, dew, value < allowed.value),
        missing=PATH if open_to else "",
    )


def _asks() -> str:
    return (
        "Whether water gathers on the old slab's top depends on how humid it is outdoors, which nobody tells. Type the "
        "twelve means of the nearest weather station."
    )


def _steps(resolved: Resolved, plane: Plane, dew: Array) -> Iterator[Step]:
    for symbol, what, months in (
        ("θ", "the old slab's top, January to December", plane.warmth),
        ("θ_dew", "dew point of the air that gets there", dew),
        ("θ_bare", "the old slab's top with nothing on it, about", plane.bare),
    ):
        yield Step(symbol, what, "", ", ".join(say.value(float(each), "degC", resolved.system) for each in months))
    by = "the room's air, through joints" if plane.by_air else "vapour through the layers"
    yield Step("way", "how the vapour gets there", "", by)


def _words(resolved: Resolved, plane: Plane, month: int, dew: Array, short: bool) -> str:
    def degrees(value: float) -> str:
        return say.value(float(value), "degC", resolved.system)

    found = (
        f"In {month_name[month + 1]} the old slab's top is at {degrees(plane.warmth[month])}, and the dew point there "
        f"is {degrees(dew[month])}; bare, the old slab would be at about {degrees(plane.bare[month])}."
    )
    share = 100.0 * air.saturation_pressure(float(dew[month])) / air.saturation_pressure(float(plane.warmth[month]))
    humid = (
        f" It is {min(share, 100.0):.0f} % humid there: leave no paper, carpet or wood on it." if share > BARE else ""
    )
    on_it = " The film on it keeps the ground's damp down." if plane.film == "on it" else ""
    if not short:
        return f"{found}{on_it}{humid}"
    if plane.film == "on it":
        return f"{found}{on_it} {BY_AIR if plane.by_air else LITTLE}"
    return f"{found}{humid} {MENDS[plane.film]}"
