"""One brief, everything once: resolve, cut, solve, check. This file is the tool's table of contents."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from . import __version__, accepting, catalogue, cautioning, foam_worth, lessons
from .brief import Reading
from .brief.alternatives import AS_BRIEFED
from .brief.model import Brief
from .checks import (
    at_hour,
    bearing,
    belonging,
    build_up,
    code,
    compatibility,
    drying,
    edge_loss,
    film,
    film_places,
    flood,
    frost,
    furnished,
    ground,
    heat,
    height,
    humid,
    moisture,
    moving,
    old_slab,
    order,
    products,
    settled,
    soil_gas,
    termites,
    vapour,
    warm,
    water,
    year,
    year_loss,
)
from .checks.frozen import Wintered
from .checks.soil_gas.drawn_off import DrawnOff
from .checks.soil_gas.suction import Suction
from .checks.solved import SolvedEdge
from .cut import solved_edges
from .dossier import Answer, Dossier, Hour
from .findings import Finding
from .laying import laying
from .mistakes import Mistake, Mistakes
from .physics.conduction.sample import sampled
from .resolve import Resolved, resolve
from .resolve.site import size, summary
from .sections.parts import Section
from .wintering import thawed, winters

if TYPE_CHECKING:
    from .costing.records import Costed

Window = tuple[float, float, float, float]
SolvedVersion = tuple[str, Resolved, tuple[SolvedEdge, ...]]  # the alternative's name first


def answer(reading: Reading, hour: str = "") -> Dossier:
    """Answer a brief and all of its alternatives.

    Parameters
    ----------
    reading : Reading
        The brief as read.
    hour : str
        An hour of the weather file's year whose temperatures are wanted too, "6 September 22:00", or "peak" for that of
        the largest flow as briefed.

    Raises
    ------
    Mistakes
        What only the catalogue or the section's geometry could reveal, with file and line.
    Mistake
        At "hour": no hours are known, or the year has no such hour.
    """
    return put_together(reading, list(solved_versions(reading)), hour)


def solved_versions(reading: Reading, before: Sequence[SolvedEdge] = ()) -> Iterator[SolvedVersion]:
    """The brief and each of its alternatives solved, one after another, so that who waits can stop between two.

    An edge that is cut like one ``before`` or like one of an earlier alternative is not solved again. Raises Mistakes.
    """
    known = [*before]
    for name, brief in [(AS_BRIEFED, reading.brief), *reading.alternatives]:
        resolved, edges = solved_brief(reading, name, brief, known)
        known += edges
        yield name, resolved, edges


def put_together(reading: Reading, solved: Sequence[SolvedVersion], hour: str = "") -> Dossier:
    """The dossier of a brief whose versions are all solved, with ``hour`` as ``answer`` has it. Raises as that does."""
    windows = _windows([edges for _, _, edges in solved])
    answered = [(resolved, _answer(name, resolved, edges, windows)) for name, resolved, edges in solved]
    if hour:
        answered = _with_hour(answered, [edges for _, _, edges in solved], hour)
    resolved = answered[0][0]
    worth = foam_worth.told([(of, edges, made) for (of, made), (_, _, edges) in zip(answered, solved, strict=True)])
    said = lessons.told(worth, resolved.system, resolved.room.mean - abs(resolved.room.swing))
    unclear: list[Mistake] = []
    said = accepting.accepted(said, reading.brief.accept, unclear)
    if unclear:
        raise reading.placed(unclear)
    said = [_with_laying(of, made) for (of, _), made in zip(answered, said, strict=True)]
    return Dossier(
        brief_text=reading.text,
        title=resolved.title,
        use=catalogue.called(reading.brief.project.use),
        units=resolved.system,
        place=resolved.place,
        version=__version__,
        editions=tuple(edition.title for edition in resolved.held.editions),
        credits=tuple(dict.fromkeys(credit for each, _ in answered for credit in each.credits)),
        notes=(*_notes(answered), *accepting.idle(said[0], reading.brief.accept)),
        cautions=cautioning.on_papers([each for each, _ in answered]),
        assumed=resolved.assumed,
        alternatives=tuple(said),
        handover=reading.brief.handover,
    )


def solved_brief(
    reading: Reading, name: str, brief: Brief, before: Sequence[SolvedEdge] = ()
) -> tuple[Resolved, tuple[SolvedEdge, ...]]:
    """One version of a brief resolved, and its edges solved, those left as they are in ``before`` not again.

    Raises Mistakes with file and line.
    """
    try:
        resolved = resolve(brief, products=reading.products)
        return resolved, solved_edges(resolved, before)
    except Mistakes as mistakes:
        raise reading.placed(mistakes, name) from None
    except Mistake as mistake:
        raise reading.placed([mistake], name) from None


def priced(resolved: Resolved, edges: Sequence[SolvedEdge]) -> tuple[Costed | None, list[Finding]]:
    """Takeoff, money and carbon where the brief has [money]; else nothing is taken off and no price is opened."""
    if resolved.money is None:
        return None, []
    from .costing import costed
    from .costing import findings as of_money
    from .takeoff import taken_off

    takeoff = taken_off(resolved)
    made = costed(resolved, edges, takeoff)
    return made, [*takeoff.findings, *of_money(resolved, made)]


def _suction(resolved: Resolved) -> Suction | None:
    """Suction as it is drawn; what finds it is not loaded where the brief says nothing of soil gas."""
    if resolved.soil_gas is None:
        return None
    from .checks.soil_gas.seen import seen

    return seen(resolved)


def _drawn_off(resolved: Resolved) -> DrawnOff | None:
    """The soil-gas pipe and what draws in it, as they are drawn; nothing is loaded where nothing is said of gas."""
    if resolved.soil_gas is None:
        return None
    from .checks.soil_gas.over_the_flow import drawn_off

    return drawn_off(resolved)


def _with_hour(
    answered: Sequence[tuple[Resolved, Answer]], edges: Sequence[tuple[SolvedEdge, ...]], typed: str
) -> list[tuple[Resolved, Answer]]:
    """The same with the temperatures of one hour, the same one in every alternative."""
    when = at_hour.meant(answered[0][0], edges[0], typed)
    told = []
    for (resolved, made), solved in zip(answered, edges, strict=True):
        at = at_hour.number(resolved, when)
        walled = any(edge.walled for edge in solved)
        hour = Hour(
            when,
            resolved.outdoor_hours[at],
            at_hour.flow_then(resolved, solved, at),
            "floor and wall" if walled else "the floor",
            {e.edge.letter: at_hour.field_then(resolved, e, made.fields[e.edge.letter], at) for e in solved},
        )
        told.append((resolved, replace(made, hour=hour)))
    return told


def _windows(alternatives: Sequence[tuple[SolvedEdge, ...]]) -> dict[str, Window]:
    """One window for each edge, wide enough for all alternatives, so that their pictures lie side by side."""
    windows: dict[str, Window] = {}
    for solved in (edge for edges in alternatives for edge in edges):
        x0, x1, y0, y1 = solved.section.window
        wide = windows.get(solved.edge.letter, (x0, x1, y0, y1))
        windows[solved.edge.letter] = (min(x0, wide[0]), min(x1, wide[1]), min(y0, wide[2]), max(y1, wide[3]))
    return windows


def _answer(name: str, resolved: Resolved, edges: tuple[SolvedEdge, ...], windows: dict[str, Window]) -> Answer:
    through = winters(resolved, edges)
    said = findings(resolved, edges, through)
    if not resolved.outdoors:
        said = moving.told(resolved, edges, said)
    said += cautioning.cautioned(resolved, list(bearing.beside_loads(resolved)))
    cost = priced(resolved, edges)
    said += cautioning.cautioned(resolved, cost[1])
    made = pictured(name, resolved, edges, windows, said)
    return replace(
        made,
        borne=tuple(bearing.pictured(resolved)),
        floor_borne=bearing.pictured_together(resolved),
        costed=cost[0],
        vapour=tuple(vapour.pictured(resolved, edges)),
        suction=_suction(resolved),
        heated=warm.pictured(resolved, edges, said),
        drawn_off=_drawn_off(resolved),
        wintered=through,
    )


def pictured(
    name: str,
    resolved: Resolved,
    edges: Sequence[SolvedEdge],
    windows: Mapping[str, Window],
    said: Sequence[Finding],
) -> Answer:
    """What was said of one version, with its sections and temperatures inside the windows of its edges."""
    room = () if resolved.outdoors else (("room", resolved.room.mean, resolved.room.swing),)
    beside = {edge.letter: resolved.air_beside(edge) for edge in resolved.edges}
    shown = {e.edge.letter: _inside(windows[e.edge.letter], e.section) for e in edges}
    return Answer(
        name=name,
        summary=summary(resolved),
        size=size(resolved),
        plan=resolved.plan,
        sections={e.edge.letter: replace(e.section, window=shown[e.edge.letter]) for e in edges},
        fields={
            e.edge.letter: replace(
                sampled(
                    e.heat, shown[e.edge.letter], e.section.floor, e.section.underside if e.section.outdoors else 0.0
                ),
                airs=(*room, ("outdoors", beside[e.edge.letter].mean, beside[e.edge.letter].swing)),
            )
            for e in edges
        },
        findings=tuple(said),
    )


def _with_laying(resolved: Resolved, made: Answer) -> Answer:
    laid = laying(resolved, made.sections, made.findings)
    return replace(
        made,
        products=laid.products,
        sequence=laid.sequence,
        inspection=laid.inspection,
        unseen=laid.unseen,
        confirmers=laid.confirmers,
    )


def _inside(window: Window, section: Section) -> Window:
    """A window never reaches beyond what was solved."""
    x0, x1, y0, y1 = section.extent
    return (max(window[0], x0), min(window[1], x1), max(window[2], y0), min(window[3], y1))


def findings(
    resolved: Resolved,
    edges: tuple[SolvedEdge, ...],
    through: Sequence[Wintered] | None = None,
    of_loads: Iterable[Finding] | None = None,
) -> list[Finding]:
    """Everything that the checks say of one resolved brief, in the order of the paper.

    ``through`` are its winters, ``of_loads`` what loads do to its slab, where they are known already.
    """
    through = winters(resolved, edges) if through is None else through
    return _in_order(resolved, edges, through, bearing.of_loads(resolved) if of_loads is None else of_loads)


def findings_but_of_loads(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> list[Finding]:
    """The same without what loads on the slab do: their plates take longer than all the rest together."""
    return _in_order(resolved, edges, winters(resolved, edges), ())


def _in_order(
    resolved: Resolved, edges: tuple[SolvedEdge, ...], through: Sequence[Wintered], of_loads: Iterable[Finding]
) -> list[Finding]:
    found = [*heat.resistance(resolved), *build_up.whole(resolved), *build_up.wanted(resolved)]
    found += [*build_up.air_spaces(resolved), *build_up.sheets(resolved)]
    if resolved.outdoors:
        found += moisture.no_room()
    else:
        found += heat.floor_loss(resolved, edges)
        found += edge_loss.edge_losses(resolved, edges)
        found.append(edge_loss.corners(resolved, edges))
        found += year.first_winters(resolved, edges)
        whole = settled.settled_year(resolved, edges)
        found += year_loss.loss(resolved, edges, whole)
        found += year.ground(resolved, edges, whole)
        found += (finding for edge in edges for finding in year.floor(resolved, edge, whole))
    for edge in edges:
        if not resolved.outdoors:
            found += heat.edge(resolved, edge)
            found += heat.surface(resolved, edge)
            found += moisture.factor(resolved, edge)
            found += humid.surfaces(resolved, edge)
        found += ground.coldest(resolved, edge)
        found += frost.depths(resolved, edge, through)
        found += filter(None, [frost.heave(resolved, edge, through)])
        found += frost.rules(resolved, edge)
        found += bearing.below_footing(resolved, edge.edge)
        found += bearing.at_wall_foot(resolved, edge.edge)
    if not resolved.outdoors:
        found += furnished.below(resolved, edges)
    found += frost.thaw(resolved, thawed(resolved, edges))
    found += of_loads
    found += bearing.afloat(resolved)
    if not resolved.outdoors:
        found += vapour.build_up(resolved, edges)
        found += old_slab.top(resolved, edges)
        found += drying.concrete(resolved)
        found += order.layers(resolved)
        found += film_places.both(resolved)
        found += water.about(resolved)
        found += flood.after(resolved)
        found += warm.told(resolved, edges)
    found += termites.told(resolved)
    found += height.build_up(resolved)
    found += film.of_floor(resolved)
    found += soil_gas.of_floor(resolved)
    found += belonging.boards(resolved)
    found += compatibility.foams(resolved)
    found += code.asked(resolved, edges)
    found += products.evidence(resolved)
    return cautioning.cautioned(resolved, edge_loss.outside_the_code(found))


def _notes(answered: Sequence[tuple[Resolved, Answer]]) -> tuple[str, ...]:
    """What to know of the data; what an alternative alone rests on, such as a file of its own, comes by its name."""
    (as_briefed, _), *others = answered
    further = (f"{made.name}: {note}" for other, made in others for note in other.notes if note not in as_briefed.notes)
    return (*as_briefed.notes, *further)
