"""One edge as a family: foam thicker and thinner, materials better and worse, told in microseconds and with a bound."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from ..checks.solved import ROOM, SolvedEdge, floor_faces
from ..cut import Posed, alike, in_words, posed
from ..mistakes import Mistake
from ..physics.conduction.field import Field
from ..physics.conduction.sample import sampled
from ..physics.conduction.shapes import Films
from ..physics.conduction.solve import Climate, Solved, Told, solution, solve_each
from ..physics.domain import OutOfDomain
from ..physics.reduced.answered import OUTSIDE, SAME, why_whole
from ..physics.reduced.family import Conducting, Parameter
from ..resolve import Resolved, ResolvedEdge
from ..sections.levels import levels
from .branches import Array, Asked, Branch, Values, Year, between_meetings, flow_of, warmth_of
from .cutting import Cutting, Vary, airs_of, lengths_first, refuse_ends

Flow = tuple[tuple[Values, Array], tuple[Values, Array]]  # mean and swing, each with its bound; W/m
WHOLE_ROOM, FLOOR = 0, 1  # of the loads
WANTED = 3e-4  # bound of the heat, as a share of the room's: sketches are held against one another


@dataclass(frozen=True)
class Case:
    """An edge's numbers in one case: the mean of the year and its swing, as an answer has them."""

    floor: Told  # W/m
    room: Told  # W/m, floor and wall
    corner: Told  # degC
    behind: Told  # degC, the corner behind furniture
    why: str  # why it was solved wholly; empty where the family tells it


@dataclass(frozen=True)
class EdgeFamily:
    """An edge, what varies in it, and its reduced families; none where its section cannot be stretched.

    A plain value: it can be pickled, and told in another process than the one that made it ready.
    """

    cutting: Cutting
    climates: tuple[Climate, ...]  # of the loads: the room, nothing, further airs; the last of all is the reference
    branches: tuple[Branch, ...]  # one after another in the thickness, where lines meet in between
    why: str  # why every case is solved wholly; empty where that is not so

    @property
    def varying(self) -> tuple[Vary, ...]:
        return self.cutting.varying

    def told(self, cases: Array) -> tuple[Case, ...]:
        """Cases (cases, varying), told by the family or solved wholly.

        Raises
        ------
        Mistake
            A case of which no section can be built.
        OutOfDomain
            Not a number, below nought, more or fewer numbers than vary.
        """
        made = []
        for case in self._cases(cases):
            branch, why = self._branch(case)
            made.append(
                self.solved_wholly(case, why)
                if branch is None
                else self._spanned(branch, case[lengths_first(self.varying)])
            )
        return tuple(made)

    def _cases(self, cases: Array) -> Array:
        made = np.atleast_2d(np.asarray(cases, np.float64))
        if made.shape[1] != len(self.varying):
            count = len(self.varying)
            raise OutOfDomain(f"a case of this family has {count} numbers, {made.shape[1]} were given")
        return made

    def _branch(self, case: Array) -> tuple[Branch | None, str]:
        """The branch that a case lies in, or why it must be solved wholly."""
        ordered = case[lengths_first(self.varying)]
        whys = []
        for branch in self.branches:
            whys.append(why_whole(branch.heat.steady, ordered))
            if not whys[-1]:
                return branch, ""
        if len(self.branches) < 2 or ordered[0] == 0.0:
            return None, (whys or [self.why])[0]
        low, high = self.branches[0].ends[0], self.branches[-1].ends[1]
        name = self.branches[0].heat.steady.parameters[0].name
        if not low * (1.0 - SAME) <= ordered[0] <= high * (1.0 + SAME):
            return None, OUTSIDE.format(name=name, low=low, high=high)
        for branch, why in zip(self.branches, whys, strict=True):
            if branch.ends[0] * (1.0 - SAME) <= ordered[0] <= branch.ends[1] * (1.0 + SAME):
                return None, why
        return None, f"lines of the section meet near this {name}, no stretch leads there: solved wholly"

    def columns(self, cases: Array) -> tuple[Array, Values, Array]:
        """Heat through the floor of many cases: mean, swing, and bound of both; not bounded where no branch leads."""
        ordered = self._cases(cases)[:, lengths_first(self.varying)]
        mean, within = np.full(len(ordered), np.nan), np.full(len(ordered), np.inf)
        swing = np.full(len(ordered), np.nan, complex)
        for branch in self.branches:
            low, high = (np.array([getattr(p, end) for p in branch.heat.steady.parameters]) for end in ("low", "high"))
            here = ((ordered >= low * (1.0 - SAME)) & (ordered <= high * (1.0 + SAME))).all(1)
            if here.any():
                of_mean, of_swing = self._flows(branch.heat, ordered[here], FLOOR)
                mean[here], swing[here], within[here] = of_mean[0], of_swing[0], of_mean[1] + of_swing[1]
        return mean, swing, within

    def picture(self, case: Array, window: tuple[float, float, float, float] | None = None) -> Field:
        """Temperatures of one case as they are drawn; in its section's own window unless another is given."""
        (values,) = self._cases(case)
        branch, _ = self._branch(values)
        if branch is None:
            at, heat, _ = self.wholly(values)
        else:
            at = self.cutting.posed(values)
            heat = self._from_fields(branch.heat, values, at, at.films[0])
        return sampled(heat, window or at.section.window, at.section.floor)

    def sketched(self, resolved: Resolved, edge: ResolvedEdge) -> SolvedEdge | None:
        """An edge of another brief as the family has it, where it is one of its cases; None where it is not.

        As ``cut.sketched_edges``: for the difference to another case of this family; its numbers have no error told. An
        edge that differs from the family's in anything else, that lies beyond the ends or on a meeting of lines, or
        that moving water reaches, is none of its cases.
        """
        case = self.cutting.case_of(resolved, edge)
        if case is None or not self.branches:
            return None
        branch, _ = self._branch(case)
        at = posed(resolved, edge)
        if branch is None or at.section.water_level is not None or not alike(at, self.cutting.posed(case)):
            return None
        heat, mould = (
            self._from_fields(year, case, at, films)
            for year, films in zip((branch.heat, branch.mould), at.films, strict=True)
        )
        return SolvedEdge(edge, at.section, levels(resolved, edge), heat, mould)

    def _flows(self, year: Year, ordered: Array, of: int) -> Flow:
        return (
            flow_of(year.steady, ordered, of, self._above()),
            flow_of(year.swing, ordered, of, self._swings()),
        )

    def _above(self) -> Array:
        """Means of the airs less the last, which is what the mean is counted from. [K]"""
        last = self.climates[-1].mean
        return np.array([each.mean - last if n != FLOOR else 0.0 for n, each in enumerate(self.climates[:-1])])

    def _swings(self) -> Values:
        return np.array([each.swing for each in self.climates], complex)

    def _spanned(self, branch: Branch, ordered: Array) -> Case:
        floor, room = (self._flows(branch.heat, ordered[None], of) for of in (FLOOR, WHOLE_ROOM))
        corner, behind = (self._warmth(year, ordered[None]) for year in (branch.heat, branch.mould))
        return Case(_told(floor), _told(room), corner, behind, "")

    def _warmth(self, year: Year, ordered: Array) -> Told:
        warm, within = warmth_of(year.steady, ordered, self._above())
        turned, turned_within = warmth_of(year.swing, ordered, self._swings())
        mean = float(self.climates[-1].mean + warm[0])
        return Told(mean, complex(turned[0]), float(within[0] + turned_within[0]))

    def solved_wholly(self, case: Array, why: str) -> Case:
        """One case solved as an answer is."""
        at, heat, mould = self.wholly(case)
        return Case(
            heat.flow(floor_faces),
            heat.flow(lambda faces: faces.space == ROOM),
            heat.temperature(*at.section.corner),
            mould.temperature(*at.section.corner),
            why,
        )

    def wholly(self, case: Array) -> tuple[Posed, Solved, Solved]:
        """One case as it is put, and solved as an answer is: for heat and behind furniture; outdoors both are one."""
        resolved, edge = self.cutting.changed(case)
        at = posed(resolved, edge)
        with in_words(resolved, edge, at.section):
            made = solve_each(at.section.parts, at.spaces, at.films, at.climates, lines_x=at.lines_x)
        return at, made[0], made[-1]

    def _from_fields(self, year: Year, case: Array, at: Posed, films: Mapping[str, Films]) -> Solved:
        """The family's field in the place of a solved one: what pictures and findings read."""
        ordered = case[lengths_first(self.varying)]
        steady, swing = (made.field(made.told(ordered[None]), 0) for made in (year.steady, year.swing))
        climates = tuple(at.climates[space.where] for space in at.spaces)
        one = solution(
            year.steady.family.moved(ordered),
            [films[space.where] for space in at.spaces],
            climates,
            self.climates[-1].mean + steady @ self._above(),
            swing @ self._swings(),
        )
        return Solved(one, one, climates)


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
        Nothing in the section has such a path; ends that are none; the section itself cannot be built.
    """
    at = posed(resolved, edge)
    cutting = Cutting(resolved, edge, tuple(varying))
    refuse_ends(varying)
    for each in varying:
        if all(part.path != each.path for part in at.section.parts):
            known = ", ".join(dict.fromkeys(part.path for part in at.section.parts))
            raise Mistake(each.path, "", "No body of this section has this path.", f"Those that are there: {known}.")
    if at.section.outdoors:
        return EdgeFamily(cutting, (), (), "no room lies over this slab")
    ordered = tuple(varying[n] for n in lengths_first(varying))
    lengths = tuple(Parameter(each.path, each.low, each.high) for each in ordered if each.what == "thickness")
    materials = tuple(
        Conducting(
            Parameter(each.path, each.low, each.high),
            tuple(n for n, part in enumerate(at.section.parts) if part.path == each.path),
        )
        for each in ordered
        if each.what == "conductivity"
    )
    airs, climates = airs_of(at)
    stretching = Cutting(resolved, edge, ordered[: len(lengths)])
    asked = Asked(stretching, at, materials, airs, wanted)
    branches, why = between_meetings(stretching, lengths, [at.films[0][space.where] for space in at.spaces], at)
    return EdgeFamily(cutting, climates, tuple(asked.branch(each) for each in branches), "" if branches else why)


def _told(flow: Flow) -> Told:
    mean, swing = flow
    return Told(float(mean[0][0]), complex(swing[0][0]), float(mean[1][0] + swing[1][0]))
