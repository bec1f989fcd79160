"""The two lines of each lap of a film, on the plan."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, radians, sin

from ..outlines.side import Point
from ..takeoff.film_plan import FilmPlan


def turned_back(point: Point, angle: float) -> Point:
    """From along strips or rows to the plan's own x and y. [m, degrees]

    >>> turned_back((1.0, 0.0), 90.0)[1]
    1.0
    """
    c, s = cos(radians(angle)), sin(radians(angle))
    return point[0] * c - point[1] * s, point[0] * s + point[1] * c


def lap_lines(film: FilmPlan) -> Iterator[tuple[Point, Point]]:
    """Where one strip ends below the next, and where the next begins over it. [m]"""
    for x0, x1, y in film.laps:
        for level in (y - film.lap / 2.0, y + film.lap / 2.0):
            yield turned_back((x0, level), film.angle), turned_back((x1, level), film.angle)
