"""All that stands at places of the plan, worked out together: once for each end of how stiff the bed may be."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ... import catalogue
from ...physics.domain import OutOfDomain
from ...physics.plates.plate import StillLifting
from ...physics.plates.slab import Pressed, Slab, inside
from ...physics.plates.spread_out import SlabField
from ...physics.plates.whole import Case, Stood, over_the_floor, stood
from ...resolve import Resolved, Support
from .bed import Bed, bed
from .plan import Part, Placed, both_sides, part_at, parts, placed, rim, slab
from .plates import radius

SMALL = 1.0  # m: of a load that is not as long its middle tells where it is
RIM = 0.5  # radii from one place at an edge or joint to the next
OWN_FOOTING = ("footing-wall", "frost-wall", "ledge", "threshold")  # edges whose wall does not go down with the slab


@dataclass(frozen=True, slots=True)
class Worked:
    """How the cases were worked out on one bed, to ask for more of them."""

    slabs: tuple[Slab, Slab]  # on the soft bed and on the stiff one
    heavy: float  # N/m³
    laid: float  # Pa
    cases: tuple[Case, ...]
    names: tuple[str, ...]  # of the cases


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
    worked: tuple[Worked, ...]  # on the bed of decades, on that of today

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
        at = np.array([x]), np.array([y])
        part = self.parts[int(part_at(self.parts, *at)[0])]
        inside = "" if part.outline is None else f", in {part.words}"
        return f"nearest to {self.placed[int(self.nearest(*at)[0])].words}{inside}"

    def nearest(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.int64]:
        """Which of what is placed lies nearest to each place, (n,)."""
        return np.asarray(np.argmin([_off_all(each.pressed, x, y) for each in self.placed], axis=0), np.int64)

    def over_the_floor(self, case: str) -> tuple[SlabField, SlabField]:
        """A case over the whole floor, on the soft bed and on the stiff one; on that of today where it has both."""
        worked = next(each for each in reversed(self.worked) if case in each.names)
        soft, stiff = (
            over_the_floor(slab, worked.heavy, worked.laid, worked.cases, worked.names.index(case))
            for slab in worked.slabs
        )
        return soft, stiff

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

    beds = {by_years: bed(support, by_years) for by_years in (True, False)}
    every_case: list[Worked] = []

    def worked(by_years: bool, **cases: Case) -> tuple[tuple[Stood, ...], tuple[Stood, ...]]:
        slabs = slab(resolved, every, by_years, "soft"), slab(resolved, every, by_years, "stiff")
        every_case.append(Worked(slabs, heavy, laid, tuple(cases.values()), tuple(cases)))
        soft, stiff = (stood(each, heavy, laid, tuple(cases.values()), tuple(places)) for each in slabs)
        return soft, stiff

    standing: tuple[Stood, Stood] | None = None
    passing: tuple[Stood, Stood] | None = None
    both: tuple[Stood, Stood] | None = None
    now: Stood | None = None
    try:
        if stands.loads:
            soft, stiff = worked(True, standing=stands)
            standing = (soft[0], stiff[0])
        if passes.loads:
            more = {"all": all_of_it, "now": stands} if stands.loads else {}
            soft, stiff = worked(False, passing=passes, **more)
            passing = (soft[0], stiff[0])
            if stands.loads:
                both, now = (soft[1], stiff[1]), soft[2]
        else:
            (now,) = stood(slab(resolved, every, False, "soft"), heavy, laid, (stands,), tuple(places))
    except (OutOfDomain, StillLifting):
        return None
    return Together(resolved, every, here, beds, standing, passing, both, now, rims, tuple(sides), tuple(every_case))


def _off_all(every: tuple[Pressed, ...], x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far places (n,) lie from the nearest of several loads; of small ones from their middles. [m]"""
    small = [each for each in every if np.ptp(np.asarray(each.outline), axis=0).max() < SMALL]
    found = [_off(each, x, y) for each in every if each not in small]
    if small:
        middles = np.array([each.middle for each in small])
        found.append(np.hypot(x[:, None] - middles[:, 0], y[:, None] - middles[:, 1]).min(axis=1))
    return np.asarray(np.min(found, axis=0))


def _off(load: Pressed, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far places (n,) lie from a load, nought on it. [m]"""
    corners = np.asarray(load.outline, float)
    found = np.full(len(x), np.inf)
    for (x0, y0), (x1, y1) in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        along, up = x1 - x0, y1 - y0
        share = np.clip(((x - x0) * along + (y - y0) * up) / max(along**2 + up**2, 1e-12), 0.0, 1.0)
        found = np.minimum(found, np.hypot(x - x0 - share * along, y - y0 - share * up))
    return np.where(inside([load.outline], x, y), 0.0, found)
