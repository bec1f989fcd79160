"""A drawing read: looked at, taken apart, joined, and told which ring is the floor."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from ..mistakes import Mistake, Mistakes
from ..outlines.floor import Floor
from ..outlines.outline import Outline
from ..outlines.side import Point
from .asked import OBSTACLES, Asked
from .drawn import Counted, Drawn
from .edges import stretches
from .file import looked_at
from .joining import Joined, joined
from .layers import SMALLEST, floor_layers, missing_layers, unread_on
from .limits import limit
from .moved import Moved
from .pieces import Piece, shown
from .rings import floor_of, unclosed
from .standing import Standing, standing
from .units import Unit, unit_of
from .walked import Walked, walked

SHORTEST = 1e-9  # m; what is shorter has no direction
LARGEST = 1.0e6  # m²; beyond it, or below the smallest floor, the drawing's unit was mistaken


def read(path: Path, asked: Asked) -> Drawn:
    """The floor that a drawing shows.

    A file is read once for as long as it does not change; a brief and its alternatives ask for it many times.

    Raises
    ------
    Mistakes
        The file is not there, is no drawing in DXF, or does not say where the floor ends. ``at`` is empty for what is
        wrong with the drawing, and a path of the brief for what the brief says of it.
    """
    try:
        state = path.stat()
        stamp = (state.st_mtime_ns, state.st_size)
    except (OSError, ValueError):
        stamp = (0, 0)
    return _read(path, stamp, asked)


@lru_cache(maxsize=16)
def _read(path: Path, stamp: tuple[int, int], asked: Asked) -> Drawn:
    try:
        return _understood(path.name, _taken_apart(path, stamp), asked)
    except Mistake as mistake:
        raise Mistakes([mistake]) from None


@lru_cache(maxsize=4)
def _taken_apart(path: Path, stamp: tuple[int, int]) -> Walked:
    return walked(path, looked_at(path))


def _understood(file: str, found: Walked, asked: Asked) -> Drawn:
    unit = unit_of(found.unit_code, asked)
    pieces = _in_metres(found.pieces, unit)
    wrong = missing_layers(_layers(found), asked)
    if wrong:
        raise Mistakes(wrong)
    gap = asked.gap if asked.gap is not None else limit("usual-gap")
    layers, own = _floor_layers(pieces, found, asked, unit, gap)
    edges = _by_what(pieces, asked, lambda what: what.startswith("edge-"))
    in_floor = _by_what(pieces, asked, OBSTACLES.__contains__)
    wrong = unread_on(_read_layers(layers, found, asked), found.unread)
    named = bool(asked.holds(layers[0]))
    if named or not own.rings:
        wrong += unclosed(own, unit)
    floor, unclear = floor_of(own, unit, named=named) if own.rings else (None, [])
    wrong += unclear
    if floor is None or wrong:
        raise Mistakes(wrong)
    wrong += _unlikely(floor, unit)
    stands = standing([(what, joined(there, gap)) for what, there in in_floor], floor, unit)
    along = []
    for what, there in edges:
        taken, astray = stretches(there, floor, unit)
        along.append((what, taken))
        wrong += astray
    wrong += stands.wrong
    if wrong:
        raise Mistakes(wrong)
    moved, origin = _near(Floor(floor.outline, floor.holes, tuple(stands.obstacles)))
    counted = _counted(found, pieces, layers, own, stands, gap, asked)
    return Drawn(file, layers, unit, moved, tuple(along), origin, counted)


def _floor_layers(
    pieces: Sequence[Piece], found: Walked, asked: Asked, unit: Unit, gap: float
) -> tuple[tuple[str, ...], Joined]:
    if found.hidden and not pieces and not found.unread:
        hidden = ", ".join(f"{shown(layer)} ({count})" for layer, count in sorted(found.hidden.items())[:8])
        wrong = f"All that could enclose a floor is switched off, frozen or invisible: {hidden}."
        raise Mistakes([Mistake("", "", wrong, "Switch its layer on, and save the drawing again.")])
    try:
        return floor_layers(pieces, asked, unit, gap)
    except Mistake as mistake:
        unread = unread_on([each.origin.layer for each in found.unread], found.unread) if not mistake.at else []
        raise Mistakes([mistake, *unread]) from None


def _in_metres(pieces: Sequence[Piece], unit: Unit) -> list[Piece]:
    """The pieces in m, without sides that have no direction."""
    larger = Moved(xx=unit.metres, yy=unit.metres)
    moved = (replace(piece, sides=tuple(map(larger.side, piece.sides))) for piece in pieces)
    kept = (replace(piece, sides=tuple(s for s in piece.sides if s.chord > SHORTEST)) for piece in moved)
    return [piece for piece in kept if piece.sides]


def _by_what(pieces: Sequence[Piece], asked: Asked, wanted: Callable[[str], bool]) -> list[tuple[str, list[Piece]]]:
    by_what: dict[str, list[Piece]] = {}
    for piece in pieces:
        what = asked.holds(piece.origin.layer)
        if wanted(what):
            by_what.setdefault(what, []).append(piece)
    return sorted(by_what.items())


def _read_layers(floor: Sequence[str], found: Walked, asked: Asked) -> list[str]:
    """Layers on which nothing may lie that is not read."""
    others = (each.origin.layer for each in found.unread)
    return [*floor, *(layer for layer in others if asked.holds(layer) not in ("", "left out"))]


def _unlikely(floor: Floor, unit: Unit) -> list[Mistake]:
    area = floor.outline.area
    if SMALLEST <= area <= LARGEST:
        return []
    told = f"{area / 1e6:.3g} km²; no floor is that large"
    if area < SMALLEST:
        told = f"{area:.2g} m²" if area > 1e-3 else f"{area * 1e6:.2g} mm²"
        told += "; no floor is that small"
    wrong = f"The outline encloses {told}. Its numbers were read in {unit.name}, {unit.why}."
    return [Mistake("", "", wrong, 'If they are another, write dxf-unit = "mm", "cm", "m", "ft" or "in".')]


def _near(floor: Floor) -> tuple[Floor, Point]:
    """The floor near its origin, and where in the drawing that origin is. [m]"""
    boxes = [side.box for side in floor.outline.sides]
    left, low = min(box[0] for box in boxes), min(box[2] for box in boxes)
    if max(max(abs(x) for x in box) for box in boxes) <= limit("far-away"):
        return floor, (0.0, 0.0)
    by = Moved(x0=-left, y0=-low)

    def ring(outline: Outline) -> Outline:
        return Outline(tuple(map(by.side, outline.sides)))

    obstacles = tuple(replace(each, at=by.point(each.at)) for each in floor.obstacles)
    return Floor(ring(floor.outline), tuple(map(ring, floor.holes)), obstacles), (left, low)


def _layers(found: Walked) -> list[str]:
    """The layer of each line and of each curve that is not read."""
    return [piece.origin.layer for piece in found.pieces] + [each.origin.layer for each in found.unread]


def _sides(pieces: Sequence[Piece]) -> int:
    return sum(len(piece.sides) for piece in pieces)


def _counted(
    found: Walked,
    pieces: Sequence[Piece],
    layers: Sequence[str],
    own: Joined,
    stands: Standing,
    gap: float,
    asked: Asked,
) -> Counted:
    read = {layer.casefold() for layer in layers}
    passed: Counter[str] = Counter()
    for layer in _layers(found):
        if layer.casefold() not in read and asked.holds(layer) in ("", "left out", "floor"):
            passed[layer] += 1
    return Counted(
        joints=own.joints,
        widest=own.widest,
        gap=gap,
        twice=own.twice,
        short=own.short + found.without_length + _sides(found.pieces) - _sides(pieces),
        flat=own.flat,
        wide=sum(piece.wide for piece in found.pieces if piece.origin.layer.casefold() in read),
        boxed=tuple(stands.boxed),
        inner=stands.inner,
        blocks=tuple(sorted(found.blocks.items())),
        mirrored=found.mirrored,
        loose=sum(len(way.sides) for way in own.open) + stands.loose,
        left_out=tuple((one, several, count) for (one, several), count in found.left_out.items() if count),
        layers=tuple(sorted(passed.items())),
        hidden=tuple(sorted(found.hidden.items())),
    )
