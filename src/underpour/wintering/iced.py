"""One edge as it is frozen: its section in cells, and the surfaces of its spaces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..checks.code.reach import bears
from ..checks.solved import SolvedEdge
from ..cut import Posed, posed
from ..physics.conduction.shapes import Facing, Outline
from ..physics.frost.cells import Cells, Freezes, cells, lines
from ..physics.frost.depth import FUSION
from ..resolve import Resolved
from ..resolve.frost import Frost
from ..sections.build import GROUND

CELL, ACROSS = 0.08, 1.5  # m, and how much wider cells are than high
BESIDE = 1.5  # m of floor that is watched inside the wall
AROUND = 1.2  # m of ground that is watched outside of everything that is built
BELOW = 0.6  # m of ground that is watched below what bears, and below a slab's frost
OPEN_GROUND = 3.0  # m beyond everything that is built: what is called open ground
CLOSE = 0.2  # m around what bears, where frost comes in round the end of foam: cells of half the size
STRIP = 0.3  # m, width of what is watched there
FACINGS: tuple[Facing, ...] = ("up", "side", "down")


@dataclass(frozen=True)
class Iced:
    """One edge as it is frozen."""

    resolved: Resolved
    frost: Frost
    solved: SolvedEdge
    posed: Posed
    section: Cells
    scale: float  # of cells and steps, 1 or more

    @property
    def films(self) -> NDArray[np.float64]:
        """Of each group of surfaces. [m²·K/W]"""
        film = self.posed.films[0]
        return np.array([film[space.where].of(way) for space in self.posed.spaces for way in FACINGS])

    @property
    def built(self) -> float:
        """Where what is built ends outside. [m]"""
        return _built(self.posed)


def iced(resolved: Resolved, frost: Frost, solved: SolvedEdge, scale: float, closely: bool = True) -> Iced:
    """One edge in cells, even where frost may come and growing apart beyond; ``scale`` times as large.

    Cells are half as large where frost comes in round the end of foam to what bears; not where ``closely`` is false.
    """
    at = posed(resolved, solved.edge)
    section = at.section
    reach = _likely(frost)
    lowest = min(section.ground_level - reach - BELOW, bears(solved) - BELOW, section.underside - BELOW)
    if resolved.outdoors:
        lowest = min(lowest, section.underside - reach)
    far = _built(at) - OPEN_GROUND
    (left, right), bottom = strip(solved), bears(solved)
    close = CLOSE if closely else -np.inf
    corners = list(_corners(at))
    x = lines(
        sorted({x for x, _ in corners} | {far}),
        (_built(at) - AROUND, min(BESIDE, solved.levels.half_width)),
        CELL * ACROSS * scale,
        (left - close, right + close),
    )
    y = lines(
        sorted({y for _, y in corners}),
        (lowest, max(section.ground_level, 0.0)),
        CELL * scale,
        (bottom - close, bottom + close),
    )
    freezes = {}
    for n, part in enumerate(section.parts):
        if part.priority == GROUND:
            icy = next(i for s, i in zip(resolved.strata, frost.icy, strict=True) if s.slice.words == part.label)
            freezes[n] = Freezes(
                icy.frozen_conductivity, icy.frozen_heat_capacity, icy.water * FUSION, icy.range, icy.unfrozen
            )
    return Iced(resolved, frost, solved, at, cells(x, y, section.parts, at.spaces, freezes), scale)


def strip(solved: SolvedEdge) -> tuple[float, float]:
    """From where to where something bears at an edge. [m]"""
    edge, at = solved.edge, solved.levels
    if any(edge.footing) or edge.thickening is not None:
        return at.footing_left, at.footing_right
    return at.start, max(at.start + 0.2, at.inner)


def _corners(at: Posed) -> Iterator[tuple[float, float]]:
    outlines: list[Outline] = [part.outline for part in at.section.parts]
    for outline in (*outlines, *(space.outline for space in at.spaces)):
        yield from outline


def _built(at: Posed) -> float:
    return min(x for part in at.section.parts if part.priority != GROUND for x, _ in part.outline)


def _likely(frost: Frost) -> float:
    """About how deep frost goes in open ground, for the grid alone: Stefan's depth. [m]"""
    icy = frost.icy[0]
    deepest = (2.0 * icy.frozen_conductivity * frost.of_the_winter * frost.freezing / (icy.water * FUSION)) ** 0.5
    return float(min(max(deepest, 0.5), 4.0))
