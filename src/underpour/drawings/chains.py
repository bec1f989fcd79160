"""Dimension chains outside a drawing: one line with oblique strokes, the words of each stretch beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from . import colours
from .lettering import LETTER, width
from .paper import HAIR, LINE, letters, line, rectangle

END = 0.9  # mm, half of the oblique stroke
LEADING = 1.15 * LETTER  # mm
APART = 1.2  # mm between the words of two stretches
OFF = 2.2  # mm from the line to its words


@dataclass(frozen=True, slots=True)
class Stretch:
    """One dimension of a chain: where it begins and ends along its line, and its words, a line each."""

    start: float  # mm
    end: float  # mm
    words: tuple[str, ...]

    @property
    def middle(self) -> float:
        return (self.start + self.end) / 2

    @property
    def wide(self) -> float:
        return max(map(width, self.words))

    @property
    def high(self) -> float:
        return LEADING * len(self.words)


def upright(stretches: Sequence[Stretch], x: float, span: tuple[float, float], *, left: bool) -> str:
    """A chain that stands at ``x``, its words beside it on the left or right, within ``span`` up and down. [mm]"""
    toward = -1.0 if left else 1.0
    places = spread([s.middle for s in stretches], [s.high for s in stretches], span)
    drawn = []
    for stretch, place in zip(stretches, places, strict=True):
        drawn.append(line(x, stretch.start, x, stretch.end, HAIR))
        drawn += [line(x - END, y + END, x + END, y - END, LINE) for y in (stretch.start, stretch.end)]
        drawn.append(line(x + toward * END, stretch.middle, x + toward * OFF, place, HAIR))
        base = place - stretch.high / 2 + 0.8 * LETTER
        anchor = "end" if left else "start"
        near = x + toward * (OFF + 0.3)
        drawn.append(_blank(min(near, near + toward * stretch.wide), place - stretch.high / 2, stretch))
        for n, said in enumerate(stretch.words):
            drawn.append(letters(x + toward * (OFF + 0.6), base + n * LEADING, said, anchor=anchor))
    return "".join(drawn)


def _blank(left: float, top: float, stretch: Stretch) -> str:
    """Clear paper for words: a line that goes through them has a gap there."""
    return rectangle(left, top, stretch.wide + 0.6, stretch.high, colours.light()["leaf"])


def level(stretches: Sequence[Stretch], y: float, span: tuple[float, float]) -> str:
    """A chain that lies at ``y``, its words below it, within ``span`` from left to right. [mm]"""
    places = spread([s.middle for s in stretches], [s.wide for s in stretches], span)
    drawn = []
    for stretch, place in zip(stretches, places, strict=True):
        drawn.append(line(stretch.start, y, stretch.end, y, HAIR))
        drawn += [line(x - END, y + END, x + END, y - END, LINE) for x in (stretch.start, stretch.end)]
        drawn.append(line(stretch.middle, y + END, place, y + OFF, HAIR))
        for n, said in enumerate(stretch.words):
            drawn.append(letters(place, y + OFF + 0.85 * LETTER + n * LEADING, said, anchor="middle"))
    return "".join(drawn)


def level_high(stretches: Sequence[Stretch]) -> float:
    """Room that a chain lying level takes below its line. [mm]"""
    return OFF + 0.4 + max((s.high for s in stretches), default=0.0)


def spread(wanted: Sequence[float], sizes: Sequence[float], span: tuple[float, float]) -> list[float]:
    """Middles for things of these sizes in a row, in order, apart from each other and as near as can be to ``wanted``.

    Parameters
    ----------
    wanted : sequence of float
        Where the middle of each would best stand. [mm]
    sizes : sequence of float
        How much room each takes along the row. [mm]
    span : (float, float)
        Where the row begins and ends; things that do not fit in it all the same start at its beginning. [mm]

    Examples
    --------
    >>> spread([10.0, 11.0], [4.0, 4.0], (0.0, 100.0))
    [7.9, 13.1]
    >>> spread([1.0], [6.0], (0.0, 100.0))
    [3.0]
    """
    order = sorted(range(len(wanted)), key=lambda k: wanted[k])
    groups: list[list[int]] = []
    starts: list[float] = []

    def start_of(group: list[int]) -> float:
        """Where a group begins, so that its members stand on average where they would best stand."""
        at, sums = 0.0, 0.0
        for k in group:
            sums += wanted[k] - (at + sizes[k] / 2)
            at += sizes[k] + APART
        return max(min(sums / len(group), span[1] - (at - APART)), span[0])

    def length(group: list[int]) -> float:
        return sum(sizes[k] for k in group) + APART * len(group)

    for k in order:
        groups.append([k])
        starts.append(start_of([k]))
        while len(groups) > 1 and starts[-2] + length(groups[-2]) > starts[-1]:
            groups[-2:] = [groups[-2] + groups[-1]]
            starts[-2:] = [start_of(groups[-1])]
    placed = [0.0] * len(wanted)
    for group, start in zip(groups, starts, strict=True):
        for k in group:
            placed[k] = round(start + sizes[k] / 2, 3)
            start += sizes[k] + APART
    return placed
