"""What each edge loses, its share of the whole, and what the corners of the plan add."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from ..findings import Finding, Step
from ..measure import System, say
from ..measure.digits import fixed
from ..resolve import Resolved, ResolvedEdge
from .basis import basis, conduction
from .edge_psi import by_inside_dimensions, by_outside_dimensions, flow_of
from .solved import SolvedEdge, floor_faces, floor_rests_on

ID = "heat.edge-loss"
TITLE = "Heat that leaves along the edge, mean of the year"
ASKED_AT_EDGES = ("code.slab-edge", "code.basement-wall")


def edge_losses(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Iterator[Finding]:
    """What each edge loses, and its share of what the floor loses.

    Asks
        Which of these edges loses how much: the brick ledge, the door, the garage's wall?
    Why
        Foam is worth most where most is lost; a few metres of door can lose what a whole side does.
    Worked out
        Flow of the edge's section, with its own air beside it, times its length; the strip of floor that belongs to the
        edge is in it, and a basement's wall. Its share is that of all edges that lose.
    Holds for
        Floors with two edges or more. An edge beside a heated room is none: its strip of floor belongs to the others.
    Source
        ISO 10211 for the section.
    """
    if len(edges) < 2:
        return
    walled = any(solved.edge.kind == "footing-wall" for solved in edges)
    flows = [solved.heat.flow(floor_faces) if not walled else flow_of(solved) for solved in edges]
    losses = [flow.mean * solved.edge.length for flow, solved in zip(flows, edges, strict=True)]
    lost = sum(loss for loss in losses if loss > 0.0)
    what = "floor and wall" if walled else "the floor"
    for solved, flow, loss in zip(edges, flows, losses, strict=True):
        edge = solved.edge
        steps = [
            Step(
                "Φ_edge",
                f"flow of the section, {'floor and wall' if walled else 'floor'} × length of the edge",
                f"{fixed(flow.mean, 3)} × {fixed(edge.length, 2)}",
                f"{fixed(loss, 1)} W",
            )
        ]
        if loss > 0.0:
            steps.append(
                Step(
                    "share",
                    "of what all edges lose",
                    f"{fixed(loss, 1)} / {fixed(lost, 1)}",
                    f"{fixed(100.0 * loss / lost, 1)} % of the heat, "
                    f"{fixed(100.0 * edge.length / resolved.perimeter, 1)} % of the edge's length",
                )
            )
        yield Finding(
            ID,
            TITLE,
            loss,
            "W",
            at={"edge": edge.letter},
            within=flow.within * edge.length,
            basis=conduction(),
            rests_on=(*floor_rests_on(resolved), *solved.rests_on),
            steps=tuple(steps),
            words=_told(resolved, edge, loss, lost, what),
        )


def shares(findings: Iterable[Finding]) -> dict[str, float]:
    """Each edge's part of what all edges lose, by its letter; none of an edge that takes in heat. [0 to 1]

    >>> def edge(letter, watts): return Finding("heat.edge-loss", "", watts, "W", at={"edge": letter})
    >>> shares([edge("A", 30.0), edge("B", 10.0), edge("C", -5.0)])
    {'A': 0.75, 'B': 0.25}
    """
    losses = {str(f.at["edge"]): f.value for f in findings if f.id == ID and f.value is not None and f.value > 0.0}
    return {letter: loss / sum(losses.values()) for letter, loss in losses.items()}


def _told(resolved: Resolved, edge: ResolvedEdge, loss: float, lost: float, what: str) -> str:
    long = 100.0 * edge.length / resolved.perimeter
    beside = _beside(edge, resolved.system)
    if loss <= 0.0:
        return f"Negative: along this edge the room takes in heat on the mean of the year{beside}."
    share, along = (_percent(part) for part in (100.0 * loss / lost, long))
    lose = "lose" if what == "floor and wall" else "loses"
    return f"{share} of all that {what} {lose}, along {along} of the edge{beside}."


def _percent(part: float) -> str:
    return f"{part:.0f} %" if part >= 1.0 else "less than 1 %"  # as the key plan has it


def _beside(edge: ResolvedEdge, system: System) -> str:
    air = edge.beside
    if air is None:
        return ""
    mean = say.value(air.mean, "degC", system)
    return (
        f"; {'an unheated space' if air.name == 'unheated space' else 'other air'} of {mean} on the mean lies beside it"
    )


def outside_the_code(findings: Sequence[Finding]) -> list[Finding]:
    """The same findings; an edge's loss says where an edition that the floor is held to asks nothing of that edge."""
    asked: dict[str, dict[str, list[Finding]]] = {}
    for finding in findings:
        if finding.id in ASKED_AT_EDGES and "edge" in finding.at:
            at = asked.setdefault(str(finding.at["edge"]), {})
            at.setdefault(str(finding.at["edition"]), []).append(finding)
    silent = {
        letter: [edition for edition, found in by.items() if all(each.verdict == "does not apply" for each in found)]
        for letter, by in asked.items()
    }
    return [_with_silence(finding, silent) if finding.id == ID else finding for finding in findings]


def _with_silence(finding: Finding, silent: dict[str, list[str]]) -> Finding:
    editions = silent.get(str(finding.at["edge"]), [])
    if not editions:
        return finding
    asks = "asks" if len(editions) == 1 else "ask"
    return replace(finding, words=f"{finding.words} {' and '.join(editions)} {asks} for no foam at this edge.")


def corners(resolved: Resolved, edges: tuple[SolvedEdge, ...]) -> Finding:
    """What the corners of the plan add to area and edges.

    Asks
        Do area and edges make up the whole, or do the corners of the plan lose more?
    Why
        Whoever adds up areas and edges by other dimensions gets another whole unless the corners are counted as theirs.
    Worked out
        Inside dimensions: nothing, by the standards' rule. Outside dimensions: what outer faces are longer or shorter
        than the inner at corners and round arcs, given back.
    Holds for
        Corners of any angle, turning in or out. The true corner is three-dimensional: by the closed form of a square
        floor the rule counts 1.2 % too much (tests/published/test_plan_corners.py).
    Source
        ISO 14683: points where edges meet may be neglected; ISO 13370: B stands for the shape of the floor (memory).
    """
    inside, outside = by_inside_dimensions(resolved, edges), by_outside_dimensions(resolved, edges)
    back = say.both(outside.corners, "W", resolved.system)
    return Finding(
        "heat.corners",
        "Heat that the corners of the plan add, by the standards' rule",
        inside.corners,
        "W",
        within=0.0,
        basis=(
            basis("iso-14683-2017", "points where linear bridges meet may be neglected"),
            basis("iso-13370-2017", "characteristic dimension"),
        ),
        rests_on=tuple(
            dict.fromkeys([*floor_rests_on(resolved), *(path for solved in edges for path in solved.rests_on)])
        ),
        steps=tuple(
            Step(
                "Φ",
                f"plain floor and wall + edges + corners, {convention} dimensions",
                f"{fixed(parts.area, 1)} + {fixed(parts.edges, 1)} + {fixed(parts.corners, 1)}",
                f"{fixed(parts.whole, 1)} W",
            )
            for convention, parts in (("inside", inside), ("outside", outside))
        ),
        words=f"Area and edges by inside dimensions are the whole: the width of floor in each section, area over "
        f"exposed edge, stands for the corners; of a square floor that counts about a hundredth too much. By outside "
        f"dimensions the corners count {back}.",
    )
