"""What moves the heat's numbers: another inch of a board, open values at their ends, ground water that is nearer."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil, inf

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Move, Step
from ..measure import say
from ..measure.table import System
from ..physics.conduction.adjoint import EVERYWHERE, bent, by_fraction, coldest, flow, place, slopes
from ..physics.conduction.assemble import Faces
from ..physics.conduction.solve import Solution
from ..resolve import Resolved
from ..sections.parts import Part
from .solved import SolvedEdge, floor_faces, wall_faces

INCH = {"US": 0.0254, "SI": 0.025}  # m
NEARER = {"US": 0.9144, "SI": 1.0}  # m, 3 ft: how much nearer ground water is tried
FOOT = {"US": 0.3048, "SI": 0.1}  # m: what a depth that nobody typed is rounded up to
WETNESS = {"low": ", as drier ground has", "high": ", as wetter ground has"}
MOST = 3  # told beside one number: those that move it most, and ground water that stands nearer
LEAST_WARMTH, LEAST_OF_A_FLOW = 0.05, 1e-3  # K, and of the flow: what moves it by less is not told
FLOWS = {"floor": floor_faces, "wall": wall_faces}


@dataclass(frozen=True)
class Try:
    """One value put otherwise: by how much, and what that does to each part's conductivity or capacity."""

    path: str
    words: str  # "another 1 in of Marlpit Plain 15"
    by: float
    unit: str
    board: bool  # what is inside a place that grows shifts its neighbours: told for flows alone
    conductivity: tuple[NDArray[np.float64], ...]  # of each edge (parts,) W/(m·K)
    capacity: tuple[NDArray[np.float64], ...]  # of each edge (parts,) J/(m³·K)
    between: tuple[tuple[float, float], ...] = ()  # of each edge the levels between which it is so, m; (): everywhere


@dataclass(frozen=True)
class Answer:
    """What a try does to one edge's temperatures: terms of first and second order."""

    mean: tuple[NDArray[np.float64], NDArray[np.float64]]
    swing: tuple[NDArray[np.complex128], NDArray[np.complex128]]


Answers = tuple[Answer | None, ...]  # of each edge; None where its conductivities stay


def told(resolved: Resolved, edges: tuple[SolvedEdge, ...], found: Iterable[Finding]) -> list[Finding]:
    """What moves the losses and the coldest places, beside each of them.

    Asks
        What would another inch of foam here, another ground than the one assumed, or ground water that stands nearer,
        change?
    Why
        A number that hangs on a guess is worth a look at the site; an inch that moves nothing is not worth buying.
    Worked out
        By the adjoint and one or two more loads on the solved section: slope and curvature together. A heat capacity by
        the slope alone. Ground water is tried as soaked ground, its heat capacity too, as high as it stands then.
    Holds for
        A board that resists more where it lies: what it pushes down or aside is not in it, so it is told for losses
        and not for the temperature of a place, which hangs on the shape of the corner: type the inch in an alternative.
        Ground water that stands still. Ground whose properties are typed is told of where the brief says what it is
        below the water.
    Source
        Derived from the section's equations.
    """
    tries = [*_boards(resolved, edges), *_open(resolved, edges), _nearer_water(resolved, edges)]
    answered = [_answered(each, edges) for each in tries]
    return [_beside(finding, resolved.system, edges, tries, answered) for finding in found]


def _boards(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterable[Try]:
    inch = INCH[resolved.system]
    boards = {board.path: (board, "under the floor") for board in resolved.boards}
    for edge in edges:
        at_edge = f"at edge {edge.edge.letter}"
        boards |= {each.board.path: (each.board, f"{at_edge} ({each.face})") for each in edge.edge.pieces}
    for path, (board, where) in boards.items():
        thinner = board.thickness / (board.thickness + inch) - 1.0
        yield Try(
            path.removesuffix(f".{board.kind}"),
            f"another {say.value(inch, 'm', resolved.system)} of {board.label} {where}, where it lies",
            inch,
            "m",
            True,
            tuple(
                np.array([thinner * part.conductivity if part.path == path else 0.0 for part in edge.section.parts])
                for edge in edges
            ),
            tuple(np.zeros(len(edge.section.parts)) for edge in edges),
        )


def _open(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Iterable[Try]:
    """Conductivities and heat capacities that nobody typed, at the ends of their ranges."""
    for each in resolved.assumed:
        at, _, key = each.path.rpartition(".")
        stored = key.endswith("heat-capacity")
        if not (stored or key.endswith("conductivity")) or isinstance(each.value, str):
            continue
        for name, end in (("low", each.low), ("high", each.high)):
            if end is None or isinstance(end, str) or end == each.value:
                continue
            changes = tuple(
                np.array(
                    [end - each.value if _is(part, at, each.value, stored) else 0.0 for part in edge.section.parts]
                )
                for edge in edges
            )
            none = tuple(np.zeros_like(change) for change in changes)
            wet = WETNESS[name] if at.startswith("site.ground") else ""
            wet += ", to first order" if stored else ""
            words = f"{each.path} at its {name}, {say.of_any_unit(end, each.unit, resolved.system)}{wet}"
            conductivity, capacity = (none, changes) if stored else (changes, none)
            yield Try(each.path, words, end - each.value, each.unit, False, conductivity, capacity)


def _nearer_water(resolved: Resolved, edges: Sequence[SolvedEdge]) -> Try:
    """Ground water nearer than it is, by a metre or half of its depth; where none is told, that far below the floor."""
    step, unit = NEARER[resolved.system], FOOT[resolved.system]
    if resolved.water is not None:
        stood = resolved.water.depth
        depth = max(stood - step, stood / 2.0)
        by, told = depth - stood, "ground water {nearer} nearer, {depth} below the finished ground"
    else:
        stood = inf
        underside = max(edge.edge.ground + resolved.total for edge in edges)
        depth = by = unit * ceil((max(underside, 0.0) + step) / unit - 1e-9)
        told = "ground water {depth} below the finished ground, where none is told"
    nearer, below = (say.value(length, "m", resolved.system) for length in (abs(by), depth))
    changes = [_soaked(resolved, edge) for edge in edges]
    return Try(
        "site.water-table",
        f"{told.format(nearer=nearer, depth=below)}, standing still",
        by,
        "m",
        False,
        tuple(conductivity for conductivity, _ in changes),
        tuple(capacity for _, capacity in changes),
        tuple((edge.edge.ground - stood, edge.edge.ground - depth) for edge in edges),
    )


def _soaked(resolved: Resolved, edge: SolvedEdge) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """What soaking changes of each part's conductivity and heat capacity; nought but for ground above the water."""
    conductivity, capacity = np.zeros(len(edge.section.parts)), np.zeros(len(edge.section.parts))
    for stratum in resolved.strata:
        of, soaked = stratum.slice, stratum.soaked
        for n, part in enumerate(edge.section.parts):
            if soaked is not None and (part.path, part.label) == (of.path, of.words):
                conductivity[n] = soaked.conductivity - of.conductivity
                capacity[n] = soaked.heat_capacity - of.heat_capacity
    return conductivity, capacity


def _is(part: Part, at: str, value: float, stored: bool) -> bool:
    """Whether a part has its value from this place of the brief."""
    here = part.path == at or part.path.startswith(f"{at}.")
    return here and abs((part.heat_capacity if stored else part.conductivity) - value) <= 1e-9 * abs(value)


def _answered(each: Try, edges: Sequence[SolvedEdge]) -> Answers:
    answers: list[Answer | None] = []
    for n, edge in enumerate(edges):
        change, stored = each.conductivity[n], each.capacity[n]
        if change.any() or (each.between and stored.any()):
            mean, swing = bent(edge.heat.coarse, change, stored, each.between[n] if each.between else EVERYWHERE)
            answers.append(Answer((mean.first, mean.second), (swing.first, swing.second)))
        else:
            answers.append(None)
    return tuple(answers)


def _beside(
    finding: Finding,
    system: System,
    edges: tuple[SolvedEdge, ...],
    tries: Sequence[Try],
    answered: Sequence[Answers],
) -> Finding:
    changing = _changing(finding, edges)
    if changing is None or finding.value is None:
        return finding
    warmth = finding.unit == "degC"
    least = LEAST_WARMTH if warmth else LEAST_OF_A_FLOW * abs(finding.value)
    moves = [
        (each, change)
        for each, answers in zip(tries, answered, strict=True)
        if not (each.board and warmth)
        for change in [changing(each, answers)]
        if abs(change) >= least
    ]
    moves = sorted(moves, key=lambda move: -abs(move[1]))
    moves = [move for n, move in enumerate(moves) if n < MOST or move[0].between]  # ground water is told wherever it is
    unit = "K" if warmth else finding.unit
    ways = ("warmer", "colder") if warmth else ("more", "less")
    steps = tuple(
        Step("What moves it", each.words, "", f"about {say.both(abs(change), unit, system)} {ways[change < 0.0]}")
        for each, change in moves
    )
    given = tuple(Move(each.path, each.by, each.unit, change) for each, change in moves)
    return replace(finding, moves=given, steps=(*finding.steps, *steps))


def _changing(finding: Finding, edges: tuple[SolvedEdge, ...]) -> Callable[[Try, Answers], float] | None:
    """What works out the change of this finding's value; None for findings beside which nothing is told."""
    if finding.id in ("heat.loss-mean", "heat.loss-peak") and "method" not in finding.at:  # not of single hours
        chosen = FLOWS[str(finding.at["of"])]
        months = 0.0
        if finding.id == "heat.loss-peak":
            months = -1.0 if finding.value is not None and finding.value < 0.0 else 1.0
        return lambda each, answers: _flow(edges, chosen, months, each, answers)
    if finding.id in ("heat.corner-coldest", "heat.floor-coldest"):
        (n,) = (n for n, edge in enumerate(edges) if edge.edge.letter == finding.at["edge"])
        x, y = edges[n].section.corner
        ends = (
            (x, x) if "distance" not in finding.at else (x + float(finding.at["distance"]), edges[n].levels.half_width)
        )
        at, lengths = _along(edges[n].heat.coarse, *ends, y if "distance" not in finding.at else 0.0)
        return lambda each, answers: _cold(edges[n].heat.coarse, at, lengths, each.capacity[n], answers[n])
    return None


def _flow(
    edges: tuple[SolvedEdge, ...],
    chosen: Callable[[Faces], NDArray[np.bool_]],
    months: float,
    each: Try,
    answers: Answers,
) -> float:
    """Change of the flow's mean plus so many times its amplitude, all edges together. [W]"""
    mean, swing, was = 0.0, 0j, 0j
    for edge, answer, stored in zip(edges, answers, each.capacity, strict=True):
        solution = edge.heat.coarse
        faces, length = chosen(solution.equations.faces), edge.edge.length
        was += length * complex(solution.flow_swing[faces].sum())
        through = flow(solution, faces, 1.0, 1.0 + 0j)
        if answer is not None:
            mean += length * float(by_fraction(*(np.array(through.mean @ n) for n in answer.mean)))
            swing += length * complex(by_fraction(*(np.array(through.swing @ n) for n in answer.swing)))
        elif stored.any() and months:
            parts = (flow(solution, faces, 0.0, 1.0 + 0j), flow(solution, faces, 0.0, -1j))
            real, imaginary = (
                s.capacity @ stored for s in slopes(solution, parts, len(stored), len(edge.section.airs))
            )
            swing += length * complex(real, imaginary)
    return mean + months * (abs(was + swing) - abs(was))


def _cold(
    solution: Solution,
    at: NDArray[np.int64],
    lengths: NDArray[np.float64],
    stored: NDArray[np.float64],
    answer: Answer | None,
) -> float:
    """Change of the coldest of these places in its coldest month. [K]"""
    mean, swing = solution.mean[at], solution.swing[at]
    before = mean - np.abs(swing)
    if answer is not None:
        mean = mean + by_fraction(*(n[at] for n in answer.mean))
        swing = swing + by_fraction(*(n[at] for n in answer.swing))
        return float((mean - np.abs(swing)).min() - before.min())
    if not stored.any():
        return 0.0
    smoothed = place(solution, at, coldest(before, lengths), -1.0)
    return float(
        slopes(solution, [smoothed], len(stored), 1 + int(solution.equations.faces.space.max()))[0].capacity @ stored
    )


def _along(solution: Solution, x0: float, x1: float, y: float) -> tuple[NDArray[np.int64], NDArray[np.float64]]:
    """Unknowns on a level between two lines, and the length that each stands for. [m]"""
    eq = solution.equations
    row = eq.number[:, np.argmin(np.abs(eq.y - y))]
    on = (eq.x >= x0 - 1e-6) & (eq.x <= x1 + 1e-6) & (row >= 0)
    x = eq.x[on]
    return row[on], np.gradient(x) if len(x) > 1 else np.ones(len(x))
