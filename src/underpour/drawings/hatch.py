"""Patterns of building drawing practice: the pattern says the material. Sized on paper, the same in every picture.

From practice, not read from a standard: triangles and dots for concrete, the same between level broken lines and in a
broken outline for concrete that stays, stones for gravel, crossed diagonals for foam,
single 45 degree lines for masonry, bubbles for a bubble sheet, grain for timber, a filled body for steel, groups of
turning strokes for ground. Layered ground: sparse dots where it is coarse, short level strokes where it is fine, joints
of rock, tufts of peat.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from math import cos, hypot, pi, sin
from random import Random

import numpy as np

from .paper import FINE, HAIR, INK, LINE, mm

TILE = 26.0  # mm, of patterns without an order, wide enough that nobody sees it repeat
THIN = 4.0  # mm of layer below which figures are smaller
BROKEN = ' stroke-dasharray="2.2 .8"'  # outline of a body that was there before and stays
MOULDED, EXTRUDED = 2.2, 1.4  # mm between the diagonals of a lattice


def pattern(hatch: str, name: str, x: float, y: float, thickness: float) -> str:
    """A pattern for the defs, or nothing where the material bears none.

    ``x`` and ``y`` are the body's middle, so that a thin layer shows the middle of a figure; ``thickness`` is its
    smaller breadth. [mm]
    """
    if hatch not in _FIGURES:
        return ""
    size, figures = _FIGURES[hatch](thickness)
    return (
        f'<pattern id="{name}" patternUnits="userSpaceOnUse" x="{mm(x - size / 2)}" y="{mm(y - size / 2)}" '
        f'width="{size:g}" height="{size:g}">{figures}</pattern>'
    )


def is_foam(hatch: str) -> bool:
    return hatch.startswith("foam") or hatch == "mineral-board"


def is_ground(hatch: str) -> bool:
    return hatch in ("ground", "fill") or hatch.startswith("ground-")


def _strokes(data: str, pen: float = HAIR) -> str:
    return f'<path d="{data}" fill="none" stroke="{INK}" stroke-width="{pen:g}"/>'


def _lattice(pitch: float) -> str:
    return _strokes(f"M0 0L{pitch:g} {pitch:g}M{pitch:g} 0L0 {pitch:g}")


def _moulded(thickness: float) -> tuple[float, str]:
    return MOULDED, _lattice(MOULDED)


def _extruded(thickness: float) -> tuple[float, str]:
    return EXTRUDED, _lattice(EXTRUDED)


def _graphite(thickness: float) -> tuple[float, str]:
    pitch, size = MOULDED, 3 * MOULDED
    fine = "".join(
        f"M{k * pitch:g} 0L{size:g} {size - k * pitch:g}M0 {k * pitch:g}L{size - k * pitch:g} {size:g}"
        f"M{size - k * pitch:g} 0L0 {size - k * pitch:g}M{size:g} {k * pitch:g}L{k * pitch:g} {size:g}"
        for k in (1, 2)
    )
    return size, _strokes(fine) + _strokes(f"M0 0L{size:g} {size:g}M{size:g} 0L0 {size:g}", LINE)


def _mineral(thickness: float) -> tuple[float, str]:
    size = 3.0
    return size, _strokes("M0 1.5c1 -2 2.2 -1.6 2 0c-.2 1.4 -1.4 1.4 -1.4 .2c0 -1.2 1.6 -1.7 2.4 -.2")


def _bubbles(thickness: float) -> tuple[float, str]:
    return 1.6, f'<circle cx=".8" cy=".8" r=".6" fill="none" stroke="{INK}" stroke-width="{HAIR:g}"/>'


def _masonry(thickness: float) -> tuple[float, str]:
    return 1.6, _strokes("M-.4 .4L.4 -.4M0 1.6L1.6 0M1.2 2L2 1.2")


def _timber(thickness: float) -> tuple[float, str]:
    return 6.0, _strokes("M.7 0v6M2.2 0c.5 2 .5 4 0 6M3.6 0v6M5 0c-.4 2 -.4 4 0 6")


def _steel(thickness: float) -> tuple[float, str]:
    return 4.0, f'<rect width="4" height="4" fill="{INK}"/>'


def _concrete(thickness: float) -> tuple[float, str]:
    """Triangles and dots strewn by a fixed seed; in a thin body smaller triangles and fewer of them."""
    return TILE, _triangles_and_dots(thickness < THIN)


@cache
def _triangles_and_dots(thin: bool) -> str:
    centres = _strewn(11, count=150 if thin else 90, apart=1.35 if thin else 1.9)
    chance = Random(12)
    triangles, dots = [], []
    for k, (x, y) in enumerate(centres):
        if k % 2:
            reach, turn = (0.5 if thin else 0.75), chance.uniform(0, 2 * pi)
            triangles.append(_ring_path(x, y, [(reach, turn + 2 * pi * n / 3) for n in range(3)]))
        else:
            dots.append(f"M{mm(x)} {mm(y)}h0")
    stones = _strokes("".join(triangles))
    return stones + f'<path d="{"".join(dots)}" stroke="{INK}" stroke-width=".4" stroke-linecap="round"/>'


def _concrete_old(thickness: float) -> tuple[float, str]:
    """Concrete that was there before: its own figures, and level lines broken like those of what stays."""
    lines = "".join(
        f"M{k % 2 * 2.6:g} {y:g}" + "h3.2m2 0" * 4 + f"h{min(3.2, TILE - 20.8 - k % 2 * 2.6):g}"
        for k, y in enumerate((1.3, 3.9, 6.5, 9.1, 11.7, 14.3, 16.9, 19.5, 22.1, 24.7))
    )
    return TILE, _concrete(thickness)[1] + _strokes(lines, FINE)


def _sand(thickness: float) -> tuple[float, str]:
    dots = "".join(f"M{mm(x)} {mm(y)}h0" for x, y in _strewn(5, count=230, apart=1.1))
    return TILE, f'<path d="{dots}" stroke="{INK}" stroke-width=".3" stroke-linecap="round"/>'


def _coarse_ground(thickness: float) -> tuple[float, str]:
    dots = "".join(f"M{mm(x)} {mm(y)}h0" for x, y in _strewn(7, count=110, apart=1.7))
    return TILE, f'<path d="{dots}" stroke="{INK}" stroke-width=".35" stroke-linecap="round"/>'


def _fine_ground(thickness: float) -> tuple[float, str]:
    return 5.2, _strokes("M.6 1.3h1.8M3.2 3.9h1.8")


def _rock(thickness: float) -> tuple[float, str]:
    return 12.0, _strokes("M0 3h12M0 9h12M3 3l1 6M9 9l.8 3M9.8 0l.4 3")


def _peat(thickness: float) -> tuple[float, str]:
    return 8.0, _strokes(
        "M1 3h2.4M2.2 3v-1.4M2.2 3l-.8 -1.1M2.2 3l.8 -1.1M5 7h2.4M6.2 7v-1.4M6.2 7l-.8 -1.1M6.2 7l.8 -1.1"
    )


def _gravel(thickness: float) -> tuple[float, str]:
    return TILE, _stones(thickness < 1.5 * THIN)


@cache
def _stones(small: bool) -> str:
    """Rounded stones of 1.5 to 3 mm, no two overlapping, the tile closing on itself."""
    chance = Random(3)
    stones: list[tuple[float, float, float]] = []
    lain = np.empty((0, 3))  # the same, to be compared in one go
    sizes = [0.75] * 260 if small else [1.4] * 24 + [1.1] * 60 + [0.8] * 160
    for radius in sizes:
        for _ in range(30):
            x, y = chance.uniform(0, TILE), chance.uniform(0, TILE)
            across, along = np.abs(lain[:, 0] - x), np.abs(lain[:, 1] - y)
            apart = np.hypot(np.minimum(across, TILE - across), np.minimum(along, TILE - along))
            if (apart > radius + lain[:, 2] + 0.12).all():
                stones.append((x, y, radius))
                lain = np.array(stones)
                break
    drawn = []
    for x, y, radius in stones:
        ring = [(radius * chance.uniform(0.78, 1.0), 2 * pi * k / 7) for k in range(7)]
        for dx in (-TILE, 0.0, TILE):
            for dy in (-TILE, 0.0, TILE):
                if -radius < x + dx < TILE + radius and -radius < y + dy < TILE + radius:
                    drawn.append(_rounded(x + dx, y + dy, ring))
    return _strokes("".join(drawn))


_FIGURES: dict[str, Callable[[float], tuple[float, str]]] = {
    "concrete": _concrete,
    "concrete-old": _concrete_old,
    "screed": _concrete,
    "gravel": _gravel,
    "sand": _sand,
    "masonry": _masonry,
    "timber": _timber,
    "steel": _steel,
    "foam-moulded": _moulded,
    "foam-extruded": _extruded,
    "foam-graphite": _graphite,
    "mineral-board": _mineral,
    "sheet": _bubbles,
    "ground-coarse": _coarse_ground,
    "ground-fine": _fine_ground,
    "ground-rock": _rock,
    "ground-peat": _peat,
}


@cache
def _strewn(seed: int, count: int, apart: float) -> tuple[tuple[float, float], ...]:
    """Points in the tile, none nearer to another than ``apart`` (mm), also across the tile's border."""
    chance = Random(seed)
    points: list[tuple[float, float]] = []
    for _ in range(count * 40):
        x, y = chance.uniform(0.8, TILE - 0.8), chance.uniform(0.8, TILE - 0.8)
        if all(_round_apart(x, y, a, b) > apart for a, b in points):
            points.append((x, y))
        if len(points) == count:
            break
    return tuple(points)


def _round_apart(x: float, y: float, a: float, b: float) -> float:
    dx, dy = abs(x - a), abs(y - b)
    return hypot(min(dx, TILE - dx), min(dy, TILE - dy))


def _ring_path(x: float, y: float, ring: list[tuple[float, float]]) -> str:
    corners = [(x + r * cos(turn), y + r * sin(turn)) for r, turn in ring]
    return "M" + "L".join(f"{mm(a)} {mm(b)}" for a, b in corners) + "z"


def _rounded(x: float, y: float, ring: list[tuple[float, float]]) -> str:
    """A closed curve through the middles of a ring's sides, its corners as the pulls."""
    corners = [(x + r * cos(turn), y + r * sin(turn)) for r, turn in ring]
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in zip(corners, corners[1:] + corners[:1], strict=True)]
    curve = f"M{mm(middles[-1][0])} {mm(middles[-1][1])}"
    for (a, b), (c, d) in zip(corners, middles, strict=True):
        curve += f"Q{mm(a)} {mm(b)} {mm(c)} {mm(d)}"
    return curve + "z"
