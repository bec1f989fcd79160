"""Where the strips of a film lie: in the direction that takes fewer metres, with the line of each lap."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from ..catalogue.estimating import estimating
from ..measure import say
from ..outlines.floor import Floor
from ..panels.ground_plan import ground_plan
from ..panels.rows import Strip, rows, shared
from ..resolve import KeyPlan, Resolved, Slice
from .extent import down_the_slope, extent

NOTCHED = 2.0  # m; a strip of film goes on over a hole that is no longer, and is cut out there

Lap = tuple[float, float, float]  # from x, to x, at y; turned


@dataclass(frozen=True, slots=True)
class FilmPlan:
    """The film of one layer, seen along its strips."""

    words: str
    path: str
    key: str
    size: str  # of a roll, in words
    width: float  # m, of a roll
    length: float  # m, of a roll
    lap: float  # m
    up: float  # m, turned up at the edge; of a thickened edge with what follows its slope beyond the plan
    angle: float  # of the strips, degrees
    strips: tuple[tuple[float, float, float], ...]  # from x, to x, from y up, turned; each covers width less lap
    laps: tuple[Lap, ...]
    plan: KeyPlan  # what it covers

    @property
    def cover(self) -> float:
        """Width of floor for each strip. [m]"""
        return self.width - self.lap

    @property
    def lengths(self) -> tuple[float, ...]:
        """Of each strip with both ends turned up. [m]"""
        return tuple(x1 - x0 + 2.0 * self.up for x0, x1, _ in self.strips)

    @property
    def seams(self) -> float:
        """Length of all laps between strips. [m]"""
        return sum(x1 - x0 for x0, x1, _ in self.laps)


def film_plans(resolved: Resolved) -> tuple[FilmPlan, ...]:
    """The plan of each film of the floor, from the top down as the brief has them."""
    return tuple(film_plan(resolved, layer) for layer in resolved.floor if layer.kind == "vapour-retarder")


def film_plan(resolved: Resolved, layer: Slice) -> FilmPlan:
    """The strips of one film.

    Arguments
    ---------
    resolved
        The brief in numbers.
    layer
        The film's layer; roll and lap are those of its product, or practice.
    """
    product = resolved.products.product(layer.key) if resolved.products.has(layer.key) else None
    if product and product.sizes:
        width, length, size = product.sizes[0].width, product.sizes[0].length, product.sizes[0].typed
    else:
        width, length = (estimating("film", name).value for name in ("roll-width", "roll-length"))
        size = " x ".join(say.value(each, "m", resolved.system) for each in (width, length))
    lap = product.lap.si if product and product.lap else estimating("film", "lap").value
    up = estimating("film", "turned-up").value + down_the_slope(resolved)
    plan = extent(resolved, layer)
    tried = [(*_strips(plan.floor, width - lap, up, angle), angle) for angle in (0.0, 90.0)]
    strips, laps, angle = min(tried, key=lambda each: sum(x1 - x0 + 2.0 * up for x0, x1, _ in each[0]))
    return FilmPlan(layer.words, layer.path, layer.key, size, width, length, lap, up, angle, strips, laps, plan)


def _strips(
    floor: Floor, cover: float, up: float, angle: float
) -> tuple[tuple[tuple[float, float, float], ...], tuple[Lap, ...]]:
    plan = ground_plan(floor, angle)
    across = plan.top - plan.bottom
    count = max(ceil((across + 2.0 * up) / cover - 1e-9), 1)
    offset = plan.bottom - (count * cover - across) / 2.0
    by_row = rows(plan, cover, offset, NOTCHED)
    strips = tuple((strip.x0, strip.x1, strip.low) for row in by_row for strip in row)
    return strips, tuple(lap for low, high in pairwise(by_row) for lap in _laps(low, high))


def _laps(below: list[Strip], above: list[Strip]) -> list[Lap]:
    """The stretches of one line over which two rows of strips lap, what runs on as one."""
    found: list[Lap] = []
    for x0, x1 in sorted(shared(below, above)):
        if found and x0 - found[-1][1] < 1e-9:
            found[-1] = found[-1][0], x1, found[-1][2]
        else:
            found.append((x0, x1, above[0].low))
    return found
