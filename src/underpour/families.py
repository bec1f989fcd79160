"""One edge as a family: foam thicker and thinner, materials better and worse, told in microseconds and with a bound."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from .checks.solved import ROOM, floor_faces
from .cut import Posed, posed
from .mistakes import Mistake
from .physics.conduction.assemble import FACINGS
from .physics.conduction.field import Field
from .physics.conduction.sample import sampled
from .physics.conduction.shapes import Facing, Films
from .physics.conduction.solve import Climate, Solution, Solved, Told, solve
from .physics.reduced.answered import OUTSIDE, SAME, why_whole
from .physics.reduced.family import Airs, Conducting, Parameter, Varied
from .physics.reduced.reduced import Reduced, reduced
from .physics.reduced.stretch import Cut, Unstretched, stretched
from .physics.year import YEAR
from .resolve import Resolved, ResolvedEdge
from .resolve.resolved import Slice
from .sections.parts import Air, Part, Section

Array = NDArray[np.float64]
Values = NDArray[Any]  # real for a mean, complex for a swing
Flow = tuple[tuple[Values, Array], tuple[Values, Array]]  # mean and swing, each with its bound; W/m
WHOLE_ROOM, FLOOR = 0, 1  # of the loads
WANTED = 0.003  # bound of the heat, as a share of the room's
HALVINGS = 7  # steps to where lines meet
GAP, LEAST_BRANCH = 0.01, 0.05  # of the way between the ends: a step over lines that meet; a branch worth making
WARMTH = 2e-3  # bound of a place's temperature, as a share of the degrees between airs


@dataclass(frozen=True, slots=True)
class Vary:
    """One thing of an edge's section that varies, and between which ends. [m or W/(m·K)]"""

    what: Literal["thickness", "conductivity"]
    path: str  # of the layer or the piece of foam, as its part of the section has it: "floor.build-up.2.board"
    low: float
    high: float


@dataclass(frozen=True)
class Case:
    """An edge's numbers in one case: the mean of the year and its swing, as an answer has them."""

    floor: Told  # W/m
    room: Told  # W/m, floor and wall
    corner: Told  # degC
    why: str  # why it was solved wholly; empty where the family tells it


@dataclass(frozen=True)
class Branch:
    """Between two ends without lines that meet: the mean of the year, and its swing."""

    steady: Reduced
    year: Reduced

    @property
    def ends(self) -> tuple[float, float]:
        """Of the first thing that varies: the thickness, where one does."""
        first = self.steady.parameters[0]
        return first.low, first.high


@dataclass(frozen=True)
class EdgeFamily:
    """An edge, what varies in it, and its reduced families; none where its section cannot be stretched."""

    resolved: Resolved
    edge: ResolvedEdge
    varying: tuple[Vary, ...]
    climates: tuple[Climate, ...]  # of the loads: the room, nothing, further airs; the last of all is the reference
    branches: tuple[Branch, ...]  # one after another in the thickness, where lines meet in between
    why: str  # why every case is solved wholly; empty where that is not so

    def told(self, cases: Array) -> tuple[Case, ...]:
        """Cases (cases, varying), told by the family or solved wholly.

        Raises
        ------
        Mistake
            A case of which no section can be built.
        """
        made = []
        for case in np.atleast_2d(np.asarray(cases, np.float64)):
            branch, why = self._branch(case)
            made.append(
                self.solved_wholly(case, why) if branch is None else self._spanned(branch, case[_order(self.varying)])
            )
        return tuple(made)

    def _branch(self, case: Array) -> tuple[Branch | None, str]:
        """The branch that a case lies in, or why it must be solved wholly."""
        ordered = case[_order(self.varying)]
        whys = []
        for branch in self.branches:
            whys.append(why_whole(branch.steady, ordered))
            if not whys[-1]:
                return branch, ""
        if len(self.branches) < 2 or ordered[0] == 0.0:
            return None, (whys or [self.why])[0]
        low, high = self.branches[0].ends[0], self.branches[-1].ends[1]
        name = self.branches[0].steady.parameters[0].name
        if not low * (1.0 - SAME) <= ordered[0] <= high * (1.0 + SAME):
            return None, OUTSIDE.format(name=name, low=low, high=high)
        for branch, why in zip(self.branches, whys, strict=True):
            if branch.ends[0] * (1.0 - SAME) <= ordered[0] <= branch.ends[1] * (1.0 + SAME):
                return None, why
        return None, f"lines of the section meet near this {name}, no stretch leads there: solved wholly"

    def columns(self, cases: Array) -> tuple[Array, Values, Array]:
        """Heat through the floor of many cases: mean, swing, and bound of both; not bounded where no branch leads."""
        ordered = np.atleast_2d(np.asarray(cases, np.float64))[:, _order(self.varying)]
        mean, within = np.full(len(ordered), np.nan), np.full(len(ordered), np.inf)
        swing = np.full(len(ordered), np.nan, complex)
        for branch in self.branches:
            low, high = (np.array([getattr(p, end) for p in branch.steady.parameters]) for end in ("low", "high"))
            here = ((ordered >= low * (1.0 - SAME)) & (ordered <= high * (1.0 + SAME))).all(1)
            if here.any():
                of_mean, of_swing = self._flows(branch, ordered[here], FLOOR)
                mean[here], swing[here], within[here] = of_mean[0], of_swing[0], of_mean[1] + of_swing[1]
        return mean, swing, within

    def picture(self, case: Array, window: tuple[float, float, float, float] | None = None) -> Field:
        """Temperatures of one case as they are drawn; in its section's own window unless another is given."""
        at = np.asarray(case, np.float64)
        made = _cut(self.resolved, self.edge, self.varying, at)
        branch, _ = self._branch(at)
        solved = self.solved(at)[0] if branch is None else self._from_fields(branch, at[_order(self.varying)])
        return sampled(solved, window or made.section.window, made.section.floor)

    def _flows(self, branch: Branch, ordered: Array, of: int) -> Flow:
        return (
            _flow(branch.steady, ordered, of, np.array([each.mean for each in self._above()])),
            _flow(branch.year, ordered, of, np.array([each.swing for each in self.climates], complex)),
        )

    def _above(self) -> list[Climate]:
        """The airs less the last, which is what the mean is counted from."""
        last = self.climates[-1].mean
        return [Climate(each.mean - last if n != FLOOR else 0.0) for n, each in enumerate(self.climates[:-1])]

    def _spanned(self, branch: Branch, ordered: Array) -> Case:
        floor, room = (self._flows(branch, ordered[None], of) for of in (FLOOR, WHOLE_ROOM))
        warm, within = _warmth(branch.steady, ordered[None], np.array([each.mean for each in self._above()]))
        swings = np.array([each.swing for each in self.climates], complex)
        turned, turned_within = _warmth(branch.year, ordered[None], swings)
        corner = Told(float(self.climates[-1].mean + warm[0]), complex(turned[0]), float(within[0] + turned_within[0]))
        return Case(_told(floor), _told(room), corner, "")

    def solved(self, case: Array) -> tuple[Solved, Section]:
        """One case solved as an answer is, with its section."""
        made = _cut(self.resolved, self.edge, self.varying, case)
        return solve(made.section.parts, made.spaces, made.films[0], made.climates, lines_x=made.lines_x), made.section

    def solved_wholly(self, case: Array, why: str) -> Case:
        """One case solved as an answer is."""
        solved, section = self.solved(case)
        return Case(
            solved.flow(floor_faces),
            solved.flow(lambda faces: faces.space == ROOM),
            solved.temperature(*section.corner),
            why,
        )

    def _from_fields(self, branch: Branch, ordered: Array) -> Solved:
        """The family's field in the place of a solved one: what a picture reads."""
        above = np.array([each.mean for each in self._above()])
        mean = self.climates[-1].mean + branch.steady.field(branch.steady.told(ordered[None]), 0) @ above
        swings = np.array([each.swing for each in self.climates], complex)
        swing = branch.year.field(branch.year.told(ordered[None]), 0) @ swings
        family = branch.steady.family
        x, y = family.lines(ordered)
        none = np.zeros(len(family.equations.faces.length))  # flows are told by their own bound, not by this field
        one = Solution(replace(family.equations, x=x, y=y), mean, swing, none, none.astype(complex), none)
        return Solved(one, one, self.climates)


def family_of(resolved: Resolved, edge: ResolvedEdge, varying: Sequence[Vary], *, wanted: float = WANTED) -> EdgeFamily:
    """A family of one edge, made ready: some tens of whole solves on a first grid.

    Conductivities vary in every section. A thickness varies by stretching rows and columns, where every line of the
    section moves in proportion to it and none goes past another; ``why`` says where that is not so, and all is then
    solved wholly.

    Parameters
    ----------
    resolved, edge
        A brief in numbers, and one of its edges.
    varying
        What varies; paths as the section's parts have them.
    wanted
        Bound of the heat, as a share of the room's.

    Raises
    ------
    Mistake
        Nothing in the section has such a path; the section itself cannot be built.
    """
    at = posed(resolved, edge)
    for each in varying:
        if all(part.path != each.path for part in at.section.parts):
            known = ", ".join(dict.fromkeys(part.path for part in at.section.parts))
            raise Mistake(each.path, "", "No body of this section has this path.", f"Those that are there: {known}.")
    ordered = tuple(varying[n] for n in _order(varying))
    lengths = tuple(Parameter(each.path, each.low, each.high) for each in ordered if each.what == "thickness")
    materials = tuple(
        Conducting(
            Parameter(each.path, each.low, each.high),
            tuple(n for n, part in enumerate(at.section.parts) if part.path == each.path),
        )
        for each in ordered
        if each.what == "conductivity"
    )
    airs, climates = _airs(at)
    none = EdgeFamily(resolved, edge, tuple(varying), climates, (), "")
    if at.section.outdoors:
        return replace(none, why="no room lies over this slab")

    def cut(values: Array) -> tuple[Sequence[Part], Sequence[Air]]:
        made = _cut(resolved, edge, ordered[: len(lengths)], values)
        return made.section.parts, made.spaces

    films = [at.films[0][space.where] for space in at.spaces]
    watched = {"corner": at.section.corner}
    pace = 2.0 * np.pi / YEAR
    branches, why = _between_meetings(cut, lengths, films, at)
    return replace(
        none,
        branches=tuple(
            Branch(
                _reduced(cut, Varied(each, materials), films, airs[:-1], watched, at, wanted),
                _reduced(cut, Varied(each, materials, (), pace), films, airs, watched, at, wanted),
            )
            for each in branches
        ),
        why="" if branches else why,
    )


def _between_meetings(
    cut: Cut, lengths: tuple[Parameter, ...], films: Sequence[Films], at: Posed
) -> tuple[list[tuple[Parameter, ...]], str]:
    """Ends between which the section can be stretched, and why not everywhere.

    One thickness is parted where lines of the section meet, which is found by halving; several are not parted.
    """

    def unfit(ends: Sequence[tuple[float, float]]) -> str:
        low, high = (np.array(each) for each in zip(*ends, strict=True))
        try:
            stretched(cut, low, high, films, at.lines_x)
        except Unstretched as unstretched:
            return f"{unstretched}: solved wholly"
        except Mistake as mistake:
            return f"one of these thicknesses cannot be built: {mistake.wrong}"
        return ""

    why = unfit([(each.low, each.high) for each in lengths]) if lengths else ""
    if not why or len(lengths) > 1:
        return ([] if why else [lengths]), why
    (length,) = lengths
    ends = _parted(lambda low, high: not unfit([(low, high)]), length.low, length.high)
    return [(replace(length, low=low, high=high),) for low, high in ends], why


def _parted(fits: Callable[[float, float], bool], low: float, high: float) -> list[tuple[float, float]]:
    """Stretches of a way on which both ends fit together, from both of its ends towards the middle."""
    least = LEAST_BRANCH * (high - low)
    first = _furthest(lambda end: fits(low, end), low, high, least)
    last = _furthest(lambda end: fits(end, high), high, max(first, low), least)
    found = [(low, first)] if first > low else []
    if last < high:
        inner = (first + GAP * (high - low), last - GAP * (high - low))
        middle = [inner] if inner[1] - inner[0] > 4.0 * least and fits(*inner) else []
        found += [*middle, (last, high)]
    return found


def _furthest(fits: Callable[[float], bool], start: float, end: float, least: float) -> float:
    """As far towards the end as fits; the start where not even the least way does."""
    fitting = start + np.copysign(least, end - start)
    if abs(end - start) <= least or not fits(fitting):
        return start
    if fits(end):
        return end
    wide = end
    for _ in range(HALVINGS):
        middle = (fitting + wide) / 2.0
        fitting, wide = (middle, wide) if fits(middle) else (fitting, middle)
    return float(fitting)


def _reduced(
    cut: Cut,
    varied: Varied,
    films: Sequence[Films],
    airs: Airs,
    watched: Mapping[str, tuple[float, float]],
    at: Posed,
    wanted: float,
) -> Reduced:
    return reduced(
        cut,
        varied,
        films,
        airs,
        wanted=wanted,
        wanted_temperature=WARMTH,
        trained=200,
        looked_at=500,
        on_finer=2,
        watched=watched,
        lines_x=at.lines_x,
        narrowed=1.0,
    )


def _order(varying: Sequence[Vary]) -> list[int]:
    """Thicknesses first, then conductivities, as a family has them."""
    return sorted(range(len(varying)), key=lambda n: (varying[n].what != "thickness", n))


def _cut(resolved: Resolved, edge: ResolvedEdge, varying: Sequence[Vary], values: Array) -> Posed:
    """The section of one case."""
    for each, value in zip(varying, values, strict=True):

        def put(layer: Slice, each: Vary = each, value: float = float(value)) -> Slice:
            if layer.path != each.path:
                return layer
            return replace(layer, thickness=value) if each.what == "thickness" else replace(layer, conductivity=value)

        resolved = replace(
            resolved,
            floor=tuple(put(layer) for layer in resolved.floor),
            strata=tuple(replace(stratum, slice=put(stratum.slice)) for stratum in resolved.strata),
        )
        edge = replace(
            edge,
            wall=tuple(put(leaf) for leaf in edge.wall),
            above=tuple(put(leaf) for leaf in edge.above),
            footing_slice=put(edge.footing_slice),
            pieces=tuple(replace(piece, board=put(piece.board)) for piece in edge.pieces),
            drawn=tuple(replace(body, slice=put(body.slice)) for body in edge.drawn),
        )
    return posed(resolved, edge)


def _airs(at: Posed) -> tuple[Airs, tuple[Climate, ...]]:
    """Loads: the room, its floor alone, other airs of one climate each, last the one that most faces feel."""
    groups: dict[Climate, set[tuple[int, Facing]]] = {}
    for space, air in enumerate(at.spaces):
        for facing in FACINGS:
            felt = replace(at.climates[air.where].of(facing), level=None)
            groups.setdefault(felt if space != ROOM else Climate(float("nan")), set()).add((space, facing))
    room = at.climates[at.spaces[ROOM].where]
    others = [(climate, frozenset(faces)) for climate, faces in groups.items() if not np.isnan(climate.mean)]
    others.sort(key=lambda each: len(each[1]))
    whole = frozenset((ROOM, facing) for facing in FACINGS)
    return (
        (whole, frozenset({(ROOM, FACINGS[0])}), *(faces for _, faces in others)),
        (room, Climate(0.0), *(climate for climate, _ in others)),
    )


def _flow(made: Reduced, cases: Array, of: int, airs: Values) -> tuple[Values, Array]:
    """Heat that one load's faces give off, and its bound. [W/m]"""
    told = made.told(cases)
    return told.couplings[:, of] @ airs, made.within(told)[:, of] @ np.abs(airs)


def _told(flow: Flow) -> Told:
    mean, swing = flow
    return Told(float(mean[0][0]), complex(swing[0][0]), float(mean[1][0] + swing[1][0]))


def _warmth(made: Reduced, cases: Array, airs: Values) -> tuple[Values, Array]:
    values, within = made.temperatures("corner", cases, made.told(cases))
    return values @ airs, within @ np.abs(airs)
