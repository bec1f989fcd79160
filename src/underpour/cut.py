"""One edge cut and solved: its section, and the year's temperatures with both films."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace

from . import catalogue
from .checks.solved import OUTER_METRE, ROOM, SolvedEdge, felt
from .measure import say
from .measure.table import System
from .mistakes import Mistake
from .physics.conduction.assemble import UP
from .physics.conduction.mean_heat import mean_heat
from .physics.conduction.response import Response, flow_watched, responding, temperature_watched
from .physics.conduction.shapes import Films
from .physics.conduction.solve import Climate, Gap, Overlap, Solved, Told, sketch_each, solve_each
from .physics.domain import OutOfDomain
from .resolve import Resolved, ResolvedEdge
from .sections.build import over_moving_water, section, unbuilt
from .sections.levels import levels
from .sections.parts import Air, Part, Section

TOUCHING = Films(1e-5, 1e-5, 1e-5)  # m²·K/W: ground that touches water has its temperature


def solved_edges(resolved: Resolved, before: Sequence[SolvedEdge] = ()) -> tuple[SolvedEdge, ...]:
    """Every edge of a resolved brief; one that is cut like another, there or ``before``, is not solved again.

    Raises Mistake where a section cannot be built.
    """
    return tuple(_with_response(edge) for edge in _each(resolved, before, solve_each))


def edges_for_heat(resolved: Resolved) -> tuple[SolvedEdge, ...]:
    """Every edge for the heat of the settled year alone: its numbers are those of ``solved_edges``.

    Neither the films behind furniture nor air of other paces are worked out; ``mould`` is ``heat`` here.
    """
    return _each(resolved, (), _heat_alone)


def _heat_alone(
    parts: Sequence[Part],
    spaces: Sequence[Air],
    film_sets: Sequence[Mapping[str, Films]],
    climates: Mapping[str, Climate],
    *,
    lines_x: Sequence[float],
) -> tuple[Solved, ...]:
    return solve_each(parts, spaces, film_sets[:1], climates, lines_x=lines_x)


def floor_heat_alone(resolved: Resolved) -> Told:
    """Heat through the floor, mean of the year alone: a second way, some ten times faster than a grid. [W]

    Raises Overlap, Gap or OutOfDomain as ``mean_heat`` does, Mistake where a section cannot be built.
    """
    known: list[tuple[Posed, Told]] = []
    for edge in resolved.edges:
        at = posed(resolved, edge)
        told = next((told for other, told in known if alike(at, other)), None)
        if told is None:
            told = mean_heat(at.section.parts, at.spaces, at.films[0], at.climates).faces[ROOM][UP]
        known.append((at, told))
    each = [(told, edge.length) for (_, told), edge in zip(known, resolved.edges, strict=True)]
    return Told(sum(t.mean * length for t, length in each), 0j, sum(t.within * length for t, length in each))


def settled_edges(resolved: Resolved, before: Sequence[SolvedEdge] = ()) -> tuple[SolvedEdge, ...]:
    """The same without what hours and first winters are told from, which takes longer than all the rest."""
    return _each(resolved, before, solve_each)


def _with_response(edge: SolvedEdge) -> SolvedEdge:
    """With what floor and basement wall do in air of any pace; known where it is cut like another, none outdoors."""
    if edge.section.outdoors or edge.response is not None:
        return edge
    return replace(edge, response=_response(edge))


def _response(edge: SolvedEdge) -> Response:
    grid, (which, _) = edge.heat.coarse, felt(edge.heat)
    points = (temperature_watched(grid, which, x, y) for x, y in edge.points.values())
    flows = (flow_watched(grid, which, chosen) for chosen in edge.watched.values())
    return responding(grid, which, [*flows, *points])


def sketched_edges(resolved: Resolved, before: Sequence[SolvedEdge] = ()) -> tuple[SolvedEdge, ...]:
    """The same on the first grid alone, fast, for the difference to another such; see ``sketch_each``."""
    return _each(resolved, before, sketch_each)


def _each(
    resolved: Resolved, before: Sequence[SolvedEdge], solving: Callable[..., tuple[Solved, ...]]
) -> tuple[SolvedEdge, ...]:
    solved: list[SolvedEdge] = []
    for edge in resolved.edges:
        solved.append(_solved(resolved, edge, [*before, *solved], solving))
    return tuple(solved)


@dataclass(frozen=True)
class Posed:
    """One edge as it is put to be solved."""

    section: Section
    spaces: tuple[Air, ...]
    climates: Mapping[str, Climate]  # by the spaces' ``where``
    films: tuple[Mapping[str, Films], ...]  # for heat; for humidity at the surface, where there is a room
    lines_x: tuple[float, ...]  # m


def posed(resolved: Resolved, edge: ResolvedEdge) -> Posed:
    """The section of one edge with airs and films. Raises Mistake where it cannot be built."""
    made = section(resolved, edge)
    unclosed = unbuilt(made, edge, resolved.system)
    if unclosed is not None:
        raise unclosed
    beside = resolved.air_beside(edge)
    climates = {
        "room": Climate(resolved.room.mean, resolved.room.swing),
        "outdoors": Climate(beside.mean, beside.swing),
    }
    spaces = made.airs
    if resolved.surface is not None and edge.beside is None:  # the last space lies over the ground outside
        spaces = (*spaces[:-1], replace(spaces[-1], where="over-ground"))
        level = Climate(resolved.surface.mean, resolved.surface.swing)
        climates["over-ground"] = Climate(beside.mean, beside.swing, level)
    climates["water"] = Climate(resolved.ground_mean)
    outdoors = _films(("outdoors",) * 3)
    rising = resolved.room.mean < beside.mean
    warm_side = _films(("floor-up" if rising else "floor-down", "wall", "floor-up"))
    metre = made.corner[0] + OUTER_METRE
    lines = (metre,) if metre < made.extent[1] else ()  # a floor may be narrower than that
    heat_films = {"room": warm_side, "outdoors": outdoors, "over-ground": outdoors, "water": TOUCHING}
    mould_films = {"room": _films(("room-mould",) * 3), "outdoors": outdoors, "over-ground": outdoors}
    film_sets = (heat_films,) if made.outdoors else (heat_films, mould_films)
    return Posed(made, spaces, climates, film_sets, lines)


def _solved(
    resolved: Resolved, edge: ResolvedEdge, before: Sequence[SolvedEdge], solving: Callable[..., tuple[Solved, ...]]
) -> SolvedEdge:
    at = posed(resolved, edge)
    made, spaces, climates, lines = at.section, at.spaces, at.climates, at.lines_x
    airs = tuple(climates[air.where] for air in spaces)
    water = None if made.outdoors else over_moving_water(resolved, edge, made)
    for known in before:
        if (
            known.heat.climates == airs
            and _cut_alike(known.section, made)
            and _over_alike(known, water, resolved.ground_mean)
        ):
            alike = replace(known, edge=edge, section=made, levels=levels(resolved, edge))
            return alike if alike.watched.keys() == known.watched.keys() else replace(alike, response=None)
    with in_words(resolved, edge, made):
        solved = solving(made.parts, spaces, at.films, climates, lines_x=lines)
        moving = None
        if water is not None:
            parts, below = water
            moving = solving(parts, (*spaces, below), at.films[:1], climates, lines_x=lines)[0]
    return SolvedEdge(edge, made, levels(resolved, edge), solved[0], solved[-1], moving)


@contextmanager
def in_words(resolved: Resolved, edge: ResolvedEdge, made: Section) -> Iterator[None]:
    """What a solve refuses of a section becomes a Mistake at the edge, or at the body that lies over another."""
    try:
        yield
    except Overlap as overlap:
        raise _overlap(made, edge, overlap) from None
    except Gap as gap:
        raise Mistake(
            f"{edge.path}",
            "",
            f"Nothing fills the place {_place(gap, resolved.system)}.",
            "Draw a shape there, or move its neighbours together.",
        ) from None
    except OutOfDomain:
        raise Mistake(
            f"{edge.path}.shape",
            "",
            "The slanted sides of these shapes lie too close to one another.",
            "Bring their corners onto common levels, or draw them with upright and level sides.",
        ) from None


def _over_alike(known: SolvedEdge, water: tuple[tuple[Part, ...], Air] | None, mean: float) -> bool:
    """Whether a known edge was solved over the same moving water, or over none either."""
    if known.moving is None or water is None:
        return known.moving is None and water is None
    return known.moving.climates[-1].mean == mean


def alike(one: Posed, other: Posed) -> bool:
    """Whether two edges are put the same way to be solved, whatever their parts are called."""
    return _cut_alike(one.section, other.section) and (one.spaces, one.climates, one.films, one.lines_x) == (
        other.spaces,
        other.climates,
        other.films,
        other.lines_x,
    )


def _cut_alike(one: Section, other: Section) -> bool:
    """Whether two sections are the same to heat, whatever their parts are called."""
    return (
        (one.extent, one.corner, one.outdoors, one.airs) == (other.extent, other.corner, other.outdoors, other.airs)
        and one.water_level == other.water_level
        and len(one.parts) == len(other.parts)
        and all(
            (a.outline, a.conductivity, a.heat_capacity, a.priority)
            == (b.outline, b.conductivity, b.heat_capacity, b.priority)
            for a, b in zip(one.parts, other.parts, strict=True)
        )
    )


def _films(keys: Sequence[str]) -> Films:
    return Films(*(catalogue.surface(key).value for key in keys))


def _place(gap: Gap, system: System) -> str:
    across, up = (say.both(abs(length), "m", system) for length in (gap.x, gap.y))
    side, level = "inside" if gap.x > 0.0 else "outside", "above" if gap.y > 0.0 else "below"
    return f"{across} {side} the wall's face, {up} {level} the floor"


def _overlap(made: Section, edge: ResolvedEdge, overlap: Overlap) -> Mistake:
    one, two = (made.parts[n] for n in overlap.pairs[0])
    return Mistake(
        two.path or edge.path,
        "",
        f"{two.label} lies over {one.label} ({one.path}).",
        "Move one of them, or give the one that stays whole a lower priority.",
    )
