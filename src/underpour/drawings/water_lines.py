"""Level water lines: how damp a place is, in five densities that grey print keeps apart."""

from __future__ import annotations

from collections.abc import Iterable

from .paper import FINE, INK, mm

FROM = (0.0, 60.0, 70.0, 80.0, 90.0)  # % humidity at which each density begins
PITCH = (3.2, 1.6, 1.07, 0.8, 0.53)  # mm from line to line
SHORTER = 0.7  # mm, by which each second line is shorter at either end
Box = tuple[float, float, float, float]  # left, top, right, bottom in mm


def density(humidity: float) -> int:
    """Which of the five densities a humidity is drawn in, 0 to 4. [%]

    >>> [density(each) for each in (45.0, 60.0, 79.9, 80.0, 100.0)]
    [0, 1, 2, 3, 4]
    """
    return sum(humidity >= each for each in FROM[1:])


def filled(box: Box, of: int) -> str:
    """Path data of level lines that fill a box in one of the densities; each second line is a little shorter."""
    left, top, right, bottom = box
    pitch = PITCH[of]
    count = max(1, int((bottom - top) / pitch + 0.5))
    first = top + (bottom - top - (count - 1) * pitch) / 2.0
    ends = [(n % 2) * min(SHORTER, (right - left) / 4.0) for n in range(count)]
    return "".join(f"M{mm(left + less)} {mm(first + n * pitch)}H{mm(right - less)}" for n, less in enumerate(ends))


def lines(data: Iterable[str], *, colour: str = INK) -> str:
    """The lines of all these boxes as one path."""
    whole = "".join(data)
    return f'<path d="{whole}" fill="none" stroke="{colour}" stroke-width="{FINE:g}"/>' if whole else ""
