"""Vapour through the build-up, month by month: which way it is driven, where it condenses, what the covering meets."""

from __future__ import annotations

from calendar import month_abbr, month_name
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from .. import catalogue
from ..findings import Basis, Finding, Step
from ..measure import say
from ..measure.digits import fixed
from ..physics.moisture import air
from ..physics.moisture.vapour import PERMEABILITY_OF_AIR, WetYear, equivalent_air, wet_year
from ..resolve import Damp, Resolved, Slice
from .basis import basis, conduction
from .damp_seen import Passed, Through
from .film import sheets
from .humid import MIDDLE, PATH, spell
from .solved import OUTER_METRE, SolvedEdge, floor_faces, floor_rests_on

Array = NDArray[np.float64]

DRIVE, WITHIN, UNDER = "moisture.drive", "moisture.within", "moisture.under-covering"
NANO = 1e-12  # kg in a nanogram
INCH = 0.0254  # m, of the board whose permeance is tested
TESTED = "Water vapour permeance of 1 in"
_FAMILY = {
    "cellular glass": "cellular-glass"
}  # the row of a board's material, where it is not the word before the comma
SURE = 2e-2  # mm: less water than that is none
OPEN = (
    "Whether water gathers in this floor depends on how humid it is outdoors, which nobody tells. Type the twelve "
    "means of the nearest weather station."
)


@dataclass(frozen=True)
class Profile:
    """A line down through the floor at one place, from the room to the ground."""

    place: str  # "centre" or "edge"
    layers: tuple[Slice, ...]
    air: tuple[float, ...]  # (n + 1,) m of still air to each interface
    warmth: Array  # (12, n + 1) degC
    film: float  # m²·K/W, of the open floor's air
    basis: tuple[Basis, ...]
    rests_on: tuple[str, ...]

    @cached_property
    def saturated(self) -> Array:
        """[Pa] (12, n + 1)"""
        return np.array([[air.saturation_pressure(float(each)) for each in month] for month in self.warmth])

    def year(self, room: Sequence[float]) -> WetYear:
        """Twelve months over ground that is saturated."""
        return wet_year(self.air, self.saturated, room, [float(each) for each in self.saturated[:, -1]])

    def between(self, n: int) -> str:
        """The interface in words."""
        above, below = self.layers[n - 1].label, self.layers[n].label if n < len(self.layers) else "the ground"
        return f"between {above} and {below}"


def build_up(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Finding]:
    """Which way vapour is driven through the floor, month by month, and whether water gathers in it.

    Asks
        Does water gather between the layers of this floor, and does it dry again within the year?
    Why
        Ground is wet all year, and vapour goes where there is less of it: in winter mostly up, in summer under a cool
        floor often down. What is tight decides where it stops.
    Worked out
        Temperatures at each interface from the solved section, month by month; the room's vapour above, saturation
        below, in the stone if there is any; vapour through the layers by Glaser's construction, with water that stays
        and dries. A metre from each wall, and in the middle of the floor at the longest edge.
    Holds for
        Layers that lie one on another without gaps; seams as tight as the sheet unless the brief says how they are
        laid; then what they let through counts all over it; no water that runs or is sucked up.
        Factors of materials spread twofold; a film's seams and holes let through more than its records say.
    Source
        ISO 13788:2012, clause 6; ISO 10456 for the factors (both from memory).
    """
    damp = resolved.damp
    assert damp is not None
    longest = max(edges, key=lambda each: each.edge.length)
    for solved in edges:
        places = [*(["edge"] if "edge" in solved.points else []), *(["centre"] if solved is longest else [])]
        for line in [profile(resolved, solved, place) for place in places]:
            if line.place == "centre":
                yield _drive(resolved, damp, solved, line)
            yield from _within(resolved, damp, solved, line)
            if line.layers[0].covering is not None:
                yield _under(resolved, damp, solved, line)


def pictured(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterator[Through]:
    """Vapour in the middle of the floor, and at the wettest edge where more water gathers than in the middle."""
    damp = resolved.damp
    if damp is None or not edges:
        return
    longest = max(edges, key=lambda each: each.edge.length)
    middle = _through(resolved, longest, damp, "centre")
    yield middle
    at_edges = [_through(resolved, each, damp, "edge") for each in edges if "edge" in each.points]
    wettest = max(at_edges, key=_wetness, default=middle)
    if _wetness(wettest) > _wetness(middle) + SURE:
        yield wettest


def _wetness(of: Through) -> float:
    return max(max(month) for month in of.water)


def _through(resolved: Resolved, solved: SolvedEdge, damp: Damp, place: str) -> Through:
    line = profile(resolved, solved, place)
    years = [line.year(room) for room in damp.room]
    end = _end([_most(year) > catalogue.limit("water-between-layers").value for year in years])
    year, room = years[end], damp.room[end]
    air, beyond = line.air, line.saturated[:, -1]
    share = np.asarray(air) / air[-1]
    inside = np.minimum(room, line.saturated[:, 0])
    unhindered = inside[:, None] + (beyond - inside)[:, None] * share
    steps = np.maximum(np.diff(np.asarray(air)), 1e-9)
    up = PERMEABILITY_OF_AIR * np.diff(year.pressures, axis=1) / steps
    inner = (year.pressures / line.saturated)[:, 1:-1]
    wettest = year.water.max(axis=1)
    fullest = inner.max(axis=1) if inner.size else year.pressures[:, 0] / line.saturated[:, 0]
    decides = int((wettest if wettest.any() else fullest).argmax())
    return Through(
        solved.edge.letter,
        place,
        tuple(
            Passed(layer.label, layer.words, layer.hatch, layer.thickness, layer.film is not None)
            for layer in line.layers
        ),
        _rows(year.pressures),
        _rows(line.saturated),
        _rows(unhindered),
        _rows(up),
        _rows(year.water),
        decides + 1,
        damp.told,
    )


def _rows(values: Array) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(float(each) for each in row) for row in values)


def profile(resolved: Resolved, solved: SolvedEdge, place: str) -> Profile:
    """The line down through the floor at one of its places."""
    x = solved.section.corner[0] + OUTER_METRE if place == "edge" else solved.levels.half_width
    faced = {sheet.key: sheet.permeance for sheet in sheets(resolved) if sheet.facing}
    found = [_still_air(layer, faced.get(layer.key)) for layer in resolved.floor]
    levels = np.concatenate([[0.0], -np.cumsum([layer.thickness for layer in resolved.floor])])
    told = [solved.heat.temperature(x, float(y)) for y in levels]
    turn = np.exp(2j * np.pi * MIDDLE)
    lower = next((n for n, _ in enumerate(resolved.floor) if all(map(_loose, resolved.floor[n:]))), len(resolved.floor))
    film = float(solved.heat.fine.resistance[floor_faces(solved.heat.faces)].max())
    warmth = np.array([each.mean + (each.swing * turn).real for each in told]).T + spell(resolved, film)
    return Profile(
        place,
        resolved.floor[:lower],
        tuple(map(float, np.concatenate([[0.0], np.cumsum([each for each, _, _ in found[:lower]])]))),
        warmth[:, : lower + 1],
        film,
        tuple(dict.fromkeys(each for _, made, _ in found[:lower] for each in made)),
        tuple(dict.fromkeys(path for _, _, path in found[:lower])),
    )


def _loose(layer: Slice) -> bool:
    """Whether the ground's damp air fills a layer: stone and sand below the floor."""
    return layer.kind in ("gravel", "sand")


def _still_air(layer: Slice, faced: float | None) -> tuple[float, tuple[Basis, ...], str]:
    """A layer as still air [m], what says so, and its path; ``faced`` is the tested permeance with its facing."""
    if layer.film is not None:
        known = layer.film.permeance
        if layer.seams is None:
            return equivalent_air(known.value * NANO), (known.basis(),), known.path
        beside = layer.seams.permeance
        both = equivalent_air((known.value + beside.value) * NANO)
        return both, (known.basis(), beside.basis()), f"{layer.path.rpartition('.')[0]}.seams"
    if layer.covering is not None:
        known = layer.covering.permeance
        return equivalent_air(known.value * NANO), (known.basis(),), known.path
    if layer.record is not None:
        if faced is not None:
            return equivalent_air(faced * NANO), (), layer.path
        tested = next((number for name, number in layer.record.tested if name.startswith(TESTED)), None)
        if tested is not None and tested.value > 0.0:
            of_one = equivalent_air(tested.value * NANO)
            return of_one * layer.thickness / INCH, (tested.basis(),), tested.path
    factors = catalogue.vapour_factors()
    material = layer.record.material if layer.record is not None else layer.kind
    row = factors.get(_FAMILY.get(material, material.partition(",")[0])) or factors["other-foam"]
    thickness = catalogue.sheet(layer.key).thickness if layer.kind == "sheet" else layer.thickness
    return max(row.value * thickness, 1e-6), (row.basis(),), row.path


def _at(solved: SolvedEdge, line: Profile) -> dict[str, str | float]:
    return {"edge": solved.edge.letter, "place": line.place}


def _sources(damp: Damp, line: Profile) -> tuple[Basis, ...]:
    return (basis("iso-13788-2012", "clause 6, vapour month by month"), *line.basis, *conduction())


def _rests_on(resolved: Resolved, solved: SolvedEdge, damp: Damp, line: Profile) -> tuple[str, ...]:
    return (*floor_rests_on(resolved), *solved.rests_on, *damp.rests_on, *line.rests_on)


def _drive(resolved: Resolved, damp: Damp, solved: SolvedEdge, line: Profile) -> Finding:
    room = [(low + high) / 2.0 for low, high in zip(*damp.room, strict=True)]
    months = tuple(float(ground) - inside for ground, inside in zip(line.saturated[:, -1], room, strict=True))
    strongest = max(range(12), key=lambda n: abs(months[n]))
    up = [month_abbr[n + 1] for n in range(12) if months[n] > 0.0]
    down = [month_abbr[n + 1] for n in range(12) if months[n] <= 0.0]
    if not up:
        way = "Vapour is driven down into the ground all year."
    else:
        way = f"Vapour is driven up out of the ground in {_months(up)}"
        way += f", and down into it in {_months(down)}." if down else "."
    level = "" if damp.told else " Taken is the middle of what it may be outdoors."
    return Finding(
        DRIVE,
        "Vapour that drives up through the floor, strongest month",
        months[strongest],
        "Pa",
        at=_at(solved, line),
        month=strongest + 1,
        months=months,
        basis=_sources(damp, line),
        rests_on=_rests_on(resolved, solved, damp, line),
        steps=(
            Step(
                "Δp",
                "p_sat(θ_ground) − p_room, above nought: up",
                f"{line.saturated[strongest, -1]:.0f} − {room[strongest]:.0f}",
                f"{fixed(months[strongest], 0)} Pa",
            ),
        ),
        words=f"{way}{level}",
    )


def _months(names: Sequence[str]) -> str:
    return "every month" if len(names) == 12 else ", ".join(names)


def _within(resolved: Resolved, damp: Damp, solved: SolvedEdge, line: Profile) -> Iterator[Finding]:
    """Water at the wettest interface, and what of it stays; with both ends of what it may be outdoors."""
    years = [line.year(room) for room in damp.room]
    allowed = catalogue.limit("water-between-layers")
    asked = [("most", "Water that gathers between the layers of the floor", [_most(year) for year in years])]
    if any(_most(year) > SURE for year in years):
        stays = [year.each_year if year.each_year > SURE else 0.0 for year in years]
        asked.append(("stays", "Water between the layers that a year does not dry", stays))
    for of, title, amounts in asked:
        limit = allowed.value if of == "most" else 0.0
        fails = [amount > limit for amount in amounts]
        open_to = fails[0] != fails[1]
        end = _end(fails)
        year, value = years[end], amounts[end]
        n = int(year.water.max(axis=0).argmax())
        found = Finding(
            WITHIN,
            title,
            None,
            "mm",
            at={**_at(solved, line), "of": of},
            basis=(*_sources(damp, line), allowed.basis()),
            rests_on=(*_rests_on(resolved, solved, damp, line), allowed.path),
            steps=tuple(_steps(line, year)),
        )
        if open_to:
            yield replace(found, words=OPEN, missing=PATH)
            continue
        month = int(year.water[:, n].argmax()) + 1 if value > SURE else None
        months = tuple(float(each) for each in year.water[:, n]) if of == "most" else None
        words = _gathers(resolved, line, n, value, month) if of == "most" else _stays(resolved, line, n, value)
        yield replace(
            found,
            value=value,
            month=month if of == "most" else None,
            months=months,
            limit=limit,
            sense="at most",
            words=words,
        )


def _end(fails: Sequence[bool]) -> int:
    """The end of what it may be outdoors that is told: the milder one where even that falls short."""
    return 0 if all(fails) else 1


def _gathers(resolved: Resolved, line: Profile, n: int, value: float, month: int | None) -> str:
    if month is None:
        return "No water gathers between the layers in any month."
    amount = f"{say.value(value, 'mm', resolved.system)}, {1e3 * value:.0f} g/m²,"
    return f"Up to {amount} of water gather {line.between(n)} by {month_name[month]}."


def _stays(resolved: Resolved, line: Profile, n: int, value: float) -> str:
    if value == 0.0:
        return "What gathers in the damp months dries again within the year."
    more = say.value(value, "mm", resolved.system)
    return (
        f"Water gathers {line.between(n)} and does not dry: {more} more stay there each year. Put the tight layer on "
        "the side that vapour comes from, or take one of two tight layers out."
    )


def _most(year: WetYear) -> float:
    """Water at the wettest interface in the wettest month; a kilogram on a square metre is a millimetre. [mm]"""
    return float(year.water.max())


def _steps(line: Profile, year: WetYear) -> Iterator[Step]:
    for layer, above, below in zip(line.layers, line.air, line.air[1:], strict=False):
        yield Step("s_d", f"of {layer.label}, as still air", "", f"{fixed(below - above, 2)} m")
    out = float(year.into.sum()) * 1e3
    yield Step("G", "vapour out of the room into the floor, sum of the year", "", f"{fixed(out, 1)} g/m²")


def _under(resolved: Resolved, damp: Damp, solved: SolvedEdge, line: Profile) -> Finding:
    covering = line.layers[0].covering
    assert covering is not None
    allowed = covering.slab_humidity
    both = [_humidity_below(line, room) for room in damp.room]
    best, worst = (max(each) for each in both)
    open_to = not damp.told and (best <= allowed.value) != (worst <= allowed.value)
    months = both[0] if best > allowed.value else both[1]
    value = max(months)
    month = months.index(value) + 1
    if open_to:
        words = (
            f"Below the covering it is {best:.0f} to {worst:.0f} % humid, by how humid it is outdoors; "
            f"{covering.label} bears {allowed.value:.0f} %."
        )
    else:
        words = (
            f"In {month_name[month]} it is {value:.0f} % humid below the covering; {covering.label} bears "
            f"{allowed.value:.0f} %."
        )
        if value > allowed.value:
            words += " Lay a tight film below the slab, or a covering that lets vapour through."
    return Finding(
        UNDER,
        "Humidity below the floor covering, most humid month",
        None if open_to else value,
        "%",
        at=_at(solved, line),
        month=None if open_to else month,
        months=None if open_to else months,
        limit=None if open_to else allowed.value,
        sense=None if open_to else "at most",
        basis=(*_sources(damp, line), allowed.basis()),
        rests_on=(*_rests_on(resolved, solved, damp, line), allowed.path),
        steps=(Step("φ", "p below the covering / p_sat there, once the slab has dried", "", f"{fixed(value, 1)} %"),),
        words=words,
        missing=PATH if open_to else "",
    )


def _humidity_below(line: Profile, room: Sequence[float]) -> tuple[float, ...]:
    """Humidity at the covering's underside, month by month. [%]"""
    year = line.year(room)
    return tuple(float(each) for each in 100.0 * year.pressures[:, 1] / line.saturated[:, 1])
