"""All that stands at places of the plan, worked out together: once for each end of how stiff the bed may be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ... import catalogue
from ...physics.domain import OutOfDomain
from ...physics.plates.plate import StillLifting
from ...physics.plates.whole import Case, Stood, stood
from ...resolve import Resolved, Support
from .bed import Bed, bed
from .plan import Part, Placed, both_sides, part_at, parts, placed, rim, slab
from .plates import radius

RIM = 0.5  # radii from one place at an edge or joint to the next
OWN_FOOTING = ("footing-wall", "frost-wall", "ledge", "threshold")  # edges whose wall does not go down with the slab


@dataclass(frozen=True, slots=True)
class Together:
    """The floor under what stands, under what comes and goes, and under both; on the soft bed and on the stiff one."""

    resolved: Resolved
    parts: tuple[Part, ...]
    placed: tuple[Placed, ...]
    beds: dict[bool, Bed]  # of the floor itself, by whether it is that of decades
    standing: tuple[Stood, Stood] | None  # on the bed of decades
    passing: tuple[Stood, Stood] | None  # on the bed of today
    both: tuple[Stood, Stood] | None  # where something stands and something comes and goes
    now: Stood | None  # what stands, on the soft bed of today
    rims: dict[str, slice]  # places along edges beside walls on footings of their own, by the edge's letter
    sides: tuple[tuple[str, int, int], ...]  # joint's number and the places at its two sides

    @property
    def cases(self) -> tuple[tuple[str, tuple[Stood, Stood]], ...]:
        """What acts together, each with the floor on the soft bed and on the stiff one."""
        named = (("standing", self.standing), ("passing", self.passing), ("all", self.both))
        return tuple((name, found) for name, found in named if found is not None)

    def acting(self, case: str) -> str:
        """Which loads those are: "Load 1, load 3 and the wall at edge A"."""
        told = self._named(case)
        said = f"{', '.join(told[:-1])} and {told[-1]}" if len(told) > 1 else told[0]
        return f"{said[0].upper()}{said[1:]}"

    def together(self, case: str) -> str:
        """The same with what they do: "Load 1 and load 3 stand there together"."""
        one = len(self._named(case)) == 1
        does = {"standing": ("stands", "stand"), "passing": ("comes", "come"), "all": ("is", "are")}[case]
        return f"{self.acting(case)} {does[0] if one else does[1]} there{'' if one else ' together'}"

    def _named(self, case: str) -> list[str]:
        told = [each.words for each in self.placed if case == "all" or each.standing == (case == "standing")]
        everywhere = [
            f"load {load.number}"
            for load in self.resolved.loads
            if load.place == "everywhere" and not load.before_pour and (load.standing or case != "standing")
        ]
        return told + everywhere

    def where(self, x: float, y: float) -> str:
        """Beside which load a place lies, and in which part of the floor."""
        middles = [
            (float(np.hypot(pressed.middle[0] - x, pressed.middle[1] - y)), each.words)
            for each in self.placed
            for pressed in each.pressed
        ]
        part = self.parts[int(part_at(self.parts, np.array([x]), np.array([y]))[0])]
        inside = "" if part.outline is None else f", in {part.words}"
        return f"nearest to {min(middles)[1]}{inside}"

    def part_at(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.int64]:
        """Which part each place lies in, (n,)."""
        return part_at(self.parts, x, y)


def together(resolved: Resolved, support: Support) -> Together | None:
    """The floor under its loads, every board's stiffness known; None where they tip it up or reach beside it."""
    every, here = parts(resolved, support), placed(resolved)
    apart = RIM * radius(support, bed(support, standing=False).stiff)
    places: list[tuple[float, float]] = []
    rims: dict[str, slice] = {}
    for edge in resolved.edges:
        if edge.kind in OWN_FOOTING:
            along = rim(resolved, edge.letter, apart)
            rims[edge.letter] = slice(len(places), len(places) + len(along))
            places += along
    sides = []
    for number, one, other in both_sides(resolved, apart):
        sides.append((number, len(places), len(places) + 1))
        places += [one, other]
    even = {
        standing: sum(
            load.pressure or 0.0
            for load in resolved.loads
            if load.place == "everywhere" and not load.before_pour and load.standing == standing
        )
        for standing in (True, False)
    }
    stands = Case(tuple(p for each in here if each.standing for p in each.pressed), even[True])
    passes = Case(tuple(p for each in here if not each.standing for p in each.pressed), sum(even.values()))
    all_of_it = Case((*stands.loads, *passes.loads), sum(even.values()))
    density = catalogue.material("concrete").density
    assert density is not None  # the catalogue's table has it
    heavy = density.value * 9.80665
    laid = max(support.own_weight - support.concrete.thickness * heavy, 0.0)

    def worked(standing: bool, end: str, *cases: Case) -> tuple[Stood, ...]:
        return stood(slab(resolved, every, standing, end), heavy, laid, cases, tuple(places))

    standing: tuple[Stood, Stood] | None = None
    passing: tuple[Stood, Stood] | None = None
    both: tuple[Stood, Stood] | None = None
    now: Stood | None = None
    try:
        if stands.loads:
            standing = (worked(True, "soft", stands)[0], worked(True, "stiff", stands)[0])
        if passes.loads:
            cases = (passes, all_of_it) if stands.loads else (passes,)
            soft, stiff = worked(False, "soft", *cases, stands), worked(False, "stiff", *cases)
            passing, now = (soft[0], stiff[0]), soft[-1]
            both = (soft[1], stiff[1]) if stands.loads else None
        else:
            (now,) = worked(False, "soft", stands)
    except (OutOfDomain, StillLifting):
        return None
    beds = {by_years: bed(support, by_years) for by_years in (True, False)}
    return Together(resolved, every, here, beds, standing, passing, both, now, rims, tuple(sides))
