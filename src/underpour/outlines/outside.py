"""A floor measured to the outside of its walls: the length of each stretch there, and the area."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, degrees, sin, tan

from .floor import Floor, Stretch

MITRED = 22.5  # degrees; where walls of two thicknesses turn by less, the thicker one ends in a step


@dataclass(frozen=True, slots=True)
class Outside:
    """Outside dimensions of a floor whose outline runs along the inside of its walls."""

    lengths: tuple[float, ...]  # m, of each stretch, along the outer face of its wall
    area: float  # m², with the walls


def outside(floor: Floor, stretches: Sequence[tuple[Stretch, float]]) -> Outside:
    """Lengths and area to the outer faces of the walls.

    At a corner the outer faces run on until they meet. Between two stretches of one side, and where a side runs on
    nearly straight, a thicker wall ends in a step at the line that halves the corner.

    Parameters
    ----------
    floor : Floor
        The outline inside of the walls, with its holes. [m]
    stretches : sequence of (Stretch, float)
        Every stretch of the outline once, and how far its wall reaches out from it; 0 beside a heated room. [m]

    Examples
    --------
    Four sides of 10 m with walls of 0.5 m: 11 m each, 121 m².

    >>> from .outline import straight
    >>> square = Floor(straight([(0, 0), (10, 0), (10, 10), (0, 10)]))
    >>> out = outside(square, [(Stretch(0, n, 0.0, 10.0), 0.5) for n in (1, 2, 3, 4)])
    >>> [round(length, 9) for length in out.lengths], round(out.area, 9)
    ([11.0, 11.0, 11.0, 11.0], 121.0)
    """
    lengths, area = [0.0] * len(stretches), floor.area
    for ring, outline in enumerate(floor.rings):
        of_ring = [n for n, (stretch, _) in enumerate(stretches) if stretch.ring == ring]
        order = sorted(of_ring, key=lambda n: (stretches[n][0].side, stretches[n][0].start))
        juts_left = 1.0 if (outline.turned_area > 0.0) == (ring == 0) else -1.0
        for n in order:
            stretch, wall = stretches[n]
            side = floor.side(ring, stretch.side)
            turned = juts_left * side.sweep * stretch.length / side.length
            lengths[n] += stretch.length + wall * turned
            area += wall * stretch.length + wall * wall * turned / 2.0
        for n, following in zip(order, [*order[1:], *order[:1]], strict=True):
            (one, wall), (other, next_wall) = stretches[n], stretches[following]
            if len(order) > 1 and one.side == other.side and one.end <= other.start + 1e-9:
                continue
            turn = juts_left * outline.turns[other.side - 1]
            if abs(degrees(turn)) < MITRED:
                before, after = wall * tan(turn / 2.0), next_wall * tan(turn / 2.0)
            else:
                before = (next_wall - wall * cos(turn)) / sin(turn)
                after = (wall - next_wall * cos(turn)) / sin(turn)
            lengths[n] += before
            lengths[following] += after
            area += (wall * before + next_wall * after) / 2.0
    return Outside(tuple(lengths), area)
