"""Names of the materials beside the drawing, each with a plain line to a dot in its body."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from ..sections.parts import Section
from .bodies import is_ground
from .clear import in_one_body, is_free
from .lettering import LETTER, cut_to, width
from .paper import HAIR, Box, Frame, Named, dot, letters, line
from .visible import NOTHING, showing

STEP = 4.6  # mm from one name to the next below it
FOOT = 5.0  # mm from the lowest name to the floor
WIDEST = 70.0  # mm, the longest name that a drawing makes room for
NEAR = 0.5  # mm that a line keeps off what is taken
STEPS = np.linspace(0.0, 1.0, 24)  # of a line
FINE = 0.4  # mm between the points at which bodies are looked for


def floor_names(section: Section, frame: Frame, along: float) -> tuple[Named, list[int]]:
    """Names of the floor's layers over a line that goes down through them at ``along`` (mm), and which parts they are.

    The layers stand above each other in the order in which the line meets them, as on any drawing of a build-up.
    """
    layers = _met_below(section, frame, along)
    met = [(section.parts[k].label, depth) for k, depth in layers]
    met = sorted([*met, *_films_met(section, frame, along)], key=lambda named: named[1])
    surface = frame.y(0.0)
    first = surface - FOOT - STEP * (len(met) - 1)
    if not layers or first < frame.top + 2.0 * STEP:
        return Named("", (), ()), []
    room = frame.right - along - 3.0
    drawn = [line(along, first - 1.0, along, met[-1][1], HAIR)]
    boxes = []
    for n, (said, depth) in enumerate(met):
        base = first + n * STEP
        said = _short(said, room)
        drawn += [dot(along, depth), line(along, base - 1.0, along + 1.4, base - 1.0, HAIR)]
        drawn.append(letters(along + 2.2, base, said))
        boxes.append(Box(along - 0.5, base - LETTER, along + 2.2 + width(said), base + 1.2))
    stem = Box(along - 0.6, surface, along + 0.6, met[-1][1] + 0.6)
    return Named("".join(drawn), tuple(boxes), (*boxes, stem)), [k for k, _ in layers]


def _short(said: str, room: float) -> str:
    """A name as long as its room: one that is too long gives up its other system of measures first. [mm]

    >>> _short("Concrete, 125 mm (4.92 in)", 30.0)
    'Concrete, 125 mm'
    """
    whole = said.endswith(")") and " (" in said and width(said) > room
    return cut_to(said.rpartition(" (")[0] if whole else said, room)


def edge_names(section: Section, frame: Frame, done: Sequence[int], avoid: Sequence[Box], *, again: bool) -> Named:
    """Names of the other bodies, each where ground or open air leaves room near it; a name without room is left out.

    ``done`` are the bodies that need no name; ``again`` says whether another with the same name is named all the same.
    """
    taken = list(avoid)
    drawn: list[str] = []
    first = len(taken)
    words: list[Box] = []
    said = set() if again else {section.parts[k].label for k in done}
    for k, (x, y) in sorted(_anchors(section, frame, done), key=lambda found: _turn(section, frame, *found[1])):
        label = section.parts[k].label
        if label in said:
            continue
        said.add(label)
        place = _near(section, frame, label, x, y, taken)
        if place:
            box, toward = place
            base = box.bottom - 1.2
            drawn.append(letters(box.left + 0.4, base, label))
            drawn.append(line(toward, base - 1.0, x, y, HAIR) + dot(x, y))
            words.append(box)
            taken += [box, *_along(toward, base - 1.0, x, y)]
    return Named("".join(drawn), tuple(words), tuple(taken[first:]))


def names_room(section: Section) -> tuple[float, float]:
    """Breadth and height that the names of the floor's layers take above it, the room's own name over them. [mm]"""
    layers = [part for part in section.parts if part.path.startswith("floor.") or is_ground(part)]
    names = {layer.path: layer.label for layer in layers} | {film.path: film.label for film in section.films}
    return min(max(map(width, names.values())) + 2.2, WIDEST), FOOT + STEP * (len(names) + 1)


def _films_met(section: Section, frame: Frame, along: float) -> list[tuple[str, float]]:
    """Films that the line crosses, with their height on the sheet. [mm]"""
    met = []
    for film in section.films:
        (x0, y0), (x1, _) = film.line[-2:]  # below the floor; before that it may follow a thickening
        if frame.x(x0) <= along <= frame.x(x1):
            met.append((film.label, float(frame.y(y0))))
    return met


def _turn(section: Section, frame: Frame, x: float, y: float) -> tuple[bool, float]:
    """Above the floor the outer goes first, or the leaves behind it would shut it in; below it the upper. [mm]"""
    standing = y < frame.y(max(section.ground_level, 0.0))
    return not standing, x if standing else y


def _met_below(section: Section, frame: Frame, along: float) -> list[tuple[int, float]]:
    """Bodies under the floor at one place with the height (mm on the sheet) of the middle of each, ground included."""
    y = np.arange(frame.y(0.0) + FINE / 4, frame.bottom, FINE / 4)
    metres, up = frame.metres(np.full_like(y, along), y)
    shown = showing(section.parts, metres, up)
    met: list[tuple[int, float]] = []
    for k in dict.fromkeys(int(s) for s in shown if s != NOTHING):
        here = y[shown == k]
        deep = is_ground(section.parts[k])
        met.append((k, float(here[0] + min(4.0, 0.5 * (here[-1] - here[0])) if deep else here.mean())))
    return met


def _anchors(section: Section, frame: Frame, done: Sequence[int]) -> list[tuple[int, tuple[float, float]]]:
    """For each body not yet named the point where it shows at its widest."""
    x = np.arange(frame.left + FINE / 2, frame.right, FINE)
    y = np.arange(frame.top + FINE / 2, frame.bottom, FINE)
    shown = showing(section.parts, *frame.metres(*np.meshgrid(x, y)))
    found = []
    for k, part in enumerate(section.parts):
        if k in done or is_ground(part):
            continue
        mask = np.pad(shown == k, 1)
        last = mask
        while mask.any():
            last = mask
            mask = mask[1:-1, 1:-1] & mask[:-2, 1:-1] & mask[2:, 1:-1] & mask[1:-1, :-2] & mask[1:-1, 2:]
            mask = np.pad(mask, 1)
        rows, columns = np.nonzero(last)
        if rows.size:
            middle = int(np.argsort(rows + 1e-6 * columns)[rows.size // 3])
            found.append((k, (float(x[columns[middle] - 1]), float(y[rows[middle] - 1]))))
    return found


def _near(
    section: Section, frame: Frame, label: str, x: float, y: float, taken: Sequence[Box]
) -> tuple[Box, float] | None:
    """The nearest box for a name about a point, wholly in one ground or in air, and the side its line starts from."""
    wide = width(label) + 0.8
    bounds = np.array([(box.left, box.top, box.right, box.bottom) for box in taken]).reshape(-1, 4)
    best: tuple[float, Box, float] | None = None
    for down in range(-40, 41, 2):
        for away in range(5, 60, 3):
            for left, toward in ((x - away - wide, x - away + 0.6), (x + away, x + away - 0.6)):
                cost = away + 1.3 * abs(down) + (4.0 if toward > x else 0.0)
                if best and cost >= best[0]:
                    continue
                box = Box(left, y + down - LETTER / 2, left + wide, y + down + LETTER / 2 + 1.2)
                if (
                    is_free(frame, box, taken)
                    and not _crosses(bounds, toward, box.bottom - 2.2, x, y)
                    and in_one_body(section, frame, box)
                ):
                    best = (cost, box, toward)
    return (best[1], best[2]) if best else None


def _crosses(bounds: NDArray[np.float64], x0: float, y0: float, x1: float, y1: float) -> bool:
    """Whether a line meets any of the boxes (a row each: left, top, right, bottom). [mm]"""
    x, y = (places[:, None] for places in _places(x0, y0, x1, y1))
    left, top, right, bottom = bounds.T
    return bool(((x + NEAR > left) & (x - NEAR < right) & (y + NEAR > top) & (y - NEAR < bottom)).any())


def _along(x0: float, y0: float, x1: float, y1: float) -> list[Box]:
    """The room that a line takes, as boxes."""
    return [Box(x - NEAR, y - NEAR, x + NEAR, y + NEAR) for x, y in zip(*_places(x0, y0, x1, y1), strict=True)]


def _places(x0: float, y0: float, x1: float, y1: float) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    return x0 + STEPS * (x1 - x0), y0 + STEPS * (y1 - y0)
