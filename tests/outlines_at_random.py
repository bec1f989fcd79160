"""Seeded plans for tests: a shape with arcs, holes and obstacles round a point, and edges that share out its sides."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin
from random import Random

from underpour.outlines.outline import Outline
from underpour.outlines.side import Side

Point = tuple[float, float]


def star(random: Random, centre: Point, least: float, most: float) -> list[Point]:
    """Corners round a point, one in each of its directions, so that the outline cannot cross itself."""
    count = random.randint(5, 10)
    radii = [random.uniform(least, most) for _ in range(count)]
    turn = random.uniform(0.0, 2.0 * pi)
    return [
        (centre[0] + r * cos(turn + 2.0 * pi * n / count), centre[1] + r * sin(turn + 2.0 * pi * n / count))
        for n, r in enumerate(radii)
    ]


@dataclass(frozen=True)
class TypedPlan:
    """A plan as TOML, and the sides that it must have, made here by themselves."""

    text: str
    rings: tuple[Outline, ...]


def plan(seed: int) -> TypedPlan:
    """A plan of star-shaped outlines: one round the origin, and holes well within it."""
    random = Random(seed)
    centres = [(3.0, 0.0), (-2.5, 2.5), (-2.5, -2.5)][: random.randint(0, 3)]
    # radii from 10 m keep even a side that bows in outside of the holes, which reach 5 m from the origin at most
    rings = [(star(random, (0.0, 0.0), 10.0, 13.0), 0.12), *((star(random, c, 0.6, 1.2), 0.05) for c in centres)]
    typed, made = [], []
    for corners, bow in rings:
        clockwise = random.random() < 0.5
        words, sides = _ring(random, corners[::-1] if clockwise else corners, bow, clockwise=clockwise)
        typed.append(words)
        made.append(Outline(tuple(sides)))
    holes = "".join(f"[[plan.hole]]\noutline = {words}\n" for words in typed[1:])
    return TypedPlan(f'[plan]\nunit = "m"\noutline = {typed[0]}\n{holes}', tuple(made))


def _ring(random: Random, corners: list[Point], bow: float, *, clockwise: bool) -> tuple[str, list[Side]]:
    words, sides = [], []
    for start, end in zip(corners, [*corners[1:], corners[0]], strict=True):
        chord = Side(start, end).chord
        bulge = random.choice((0.0, 1.0, -1.0)) * random.uniform(0.2, 1.0) * 2.0 * bow
        out = -bulge if clockwise else bulge
        corner = f"{start[0]!r} {start[1]!r}"
        side = Side(start, end, bulge)
        sides.append(side)
        if not bulge:
            words.append(f'"{corner}"')
            continue
        on = side.at(random.uniform(0.2, 0.8) * side.length)
        radius = side.radius if out > 0.0 else -side.radius
        said = random.choice(
            (f"rise {out * chord / 2.0!r}", f"radius {radius!r}", f"bulge {bulge!r}", f"through {on[0]!r} {on[1]!r}")
        )
        words.append(f'"{corner} {said}"')
    return f"[{', '.join(words)}]", sides
