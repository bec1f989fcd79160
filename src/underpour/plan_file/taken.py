"""What was taken from a drawing, as it is printed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..measure import System, say
from ..outlines.outline import Outline
from .drawn import Counted, Drawn
from .pieces import number, shown
from .units import Unit

_CORNERS = 60  # written out; more are counted
_LAYERS = 8


def taken(drawn: Drawn, system: System) -> tuple[str, ...]:
    """The lines that say what was taken from a drawing, a dimension to hold against it, and what was not taken."""
    return (
        _first(drawn, system),
        *_rings(drawn),
        *_edges(drawn),
        *_done(drawn.counted, system),
        *_passed_over(drawn.counted),
    )


def _first(drawn: Drawn, system: System) -> str:
    outline = drawn.floor.outline
    boxes = [side.box for side in outline.sides]
    wide = max(box[1] for box in boxes) - min(box[0] for box in boxes)
    high = max(box[3] for box in boxes) - min(box[2] for box in boxes)
    sides = outline.sides
    longest = max(range(len(sides)), key=lambda n: (not sides[n].bulge, round(sides[n].length, 6), -n))
    kind = "the longest straight one" if not sides[longest].bulge else "the longest"
    layer = " and ".join(map(shown, drawn.layers))
    own = [f"{number(each / drawn.unit.metres, drawn.unit.metres)} {drawn.unit.short}" for each in (wide, high)]
    own.append(f"{number(outline.lengths[longest] / drawn.unit.metres, drawn.unit.metres)} {drawn.unit.short}")
    said = [f"{words}, which is {say.both(each, 'm', system)}" for words, each in zip(own, (wide, high), strict=False)]
    return (
        f"Taken from {shown(drawn.file)}, layer {layer}, in {drawn.unit.name}, {drawn.unit.why}: over all {said[0]}, "
        f"by {said[1]}; {say.both(drawn.floor.area, 'm²', system)} of floor. To be held against the drawing: of its "
        f"sides, side {longest + 1} is {kind}, {own[2]}, which is "
        f"{say.both(outline.lengths[longest], 'm', system)}."
    )


def _rings(drawn: Drawn) -> Iterator[str]:
    unit = drawn.unit
    short = unit.brief
    corners = _corners(drawn.floor.outline, unit)
    yield f"Side n runs from corner n to the next. Corners of the outline, in {short}: {corners}."
    for n, hole in enumerate(drawn.floor.holes, start=1):
        yield f"Corners of a hole ({n} of the drawing's {len(drawn.floor.holes)}), in {short}: {_corners(hole, unit)}."
    kinds = list(dict.fromkeys(each.kind for each in drawn.floor.obstacles))
    for kind in kinds:
        own = [each for each in drawn.floor.obstacles if each.kind == kind]
        said = []
        for each in own[:_CORNERS]:
            breadths = each.size[:1] if each.circle else each.size
            size = " x ".join(number(b / unit.brief_metres, unit.brief_metres) for b in breadths)
            said.append(f"{_at(each.at, unit)}, {size} {short}{' across' if each.circle else ''}")
        more = f"; and {len(own) - _CORNERS} more" if len(own) > _CORNERS else ""
        yield f"{_many(len(own), kind, kind + 's')} in the drawing: {'; '.join(said)}{more}."
    if drawn.origin != (0.0, 0.0):
        there = " ".join(number(each / unit.metres, unit.metres) for each in drawn.origin)
        yield (
            f"The drawing counts from far away: x and y count here from {there} {unit.short} of the drawing, the lower "
            "left corner of what is round the outline."
        )


def _corners(outline: Outline, unit: Unit) -> str:
    said = [
        f"{n}: {_at(side.start, unit)}" + (f", arc of radius {_length(side.radius, unit)}" if side.bulge else "")
        for n, side in enumerate(outline.sides[:_CORNERS], start=1)
    ]
    more = f"; and {len(outline.sides) - _CORNERS} more" if len(outline.sides) > _CORNERS else ""
    return "; ".join(said) + more


def _at(point: Sequence[float], unit: Unit) -> str:
    return " ".join(_length(each, unit) for each in point)


def _length(length: float, unit: Unit) -> str:
    return number(length / unit.brief_metres, unit.brief_metres)


def _edges(drawn: Drawn) -> Iterator[str]:
    for layer, stretches in drawn.edges:
        said = []
        for each in stretches:
            side = drawn.floor.side(each.ring, each.side)
            whole = each.start <= 0.0 and each.end >= side.length
            named = f"side {each.side}" + (f" of a hole ({each.ring})" if each.ring else "")
            ends = f" from {_length(each.start, drawn.unit)} to {_length(each.end, drawn.unit)} {drawn.unit.brief}"
            said.append(named if whole else named + ends)
        yield f"Lines on layer {shown(layer)} lie along {', '.join(said)}."


def _done(counted: Counted, system: System) -> Iterator[str]:
    if counted.joints:
        upto = say.both(counted.gap, "m", system)
        gap = f"the widest gap was {_gap(counted.widest)}" if counted.widest > 1e-5 else "they met"
        lines = _many(counted.joints, "loose line or arc was", "loose lines and arcs were")
        yield f"{lines} joined at their ends; {gap}, and gaps up to {upto} are closed."
    if counted.twice:
        yield f"{_many(counted.twice, 'line or ring was', 'lines or rings were')} drawn twice and taken once."
    if counted.short:
        yield f"{_many(counted.short, 'line', 'lines')} without length, or shorter than that gap, left out."
    if counted.flat:
        arcs = _many(counted.flat, "arc stands", "arcs stand")
        yield f"{arcs} less than a millimetre off the straight line, taken straight."
    if counted.wide:
        lines = _many(counted.wide, "polyline has", "polylines have")
        yield f"{lines} a breadth in the drawing; the middle line was taken."
    if counted.blocks:
        mirrored = f", {counted.mirrored} of them as in a mirror" if counted.mirrored else ""
        named = ", ".join(f"{shown(name)} ({count})" for name, count in counted.blocks[:_LAYERS])
        more = f" and {len(counted.blocks) - _LAYERS} more" if len(counted.blocks) > _LAYERS else ""
        yield f"Blocks taken apart: {named}{more}{mirrored}."
    if counted.boxed:
        yield f"Not round, nor a rectangle along x and y, so taken as the one round it: {'; '.join(counted.boxed)}."
    if counted.inner:
        yield f"{_many(counted.inner, 'ring', 'rings')} within a column, pipe or pit counted as part of it."


def _passed_over(counted: Counted) -> Iterator[str]:
    if counted.loose:
        yield f"{_many(counted.loose, 'line', 'lines')} on layers that were read enclose nothing and were left out."
    if counted.left_out:
        by_words: dict[tuple[str, str], int] = {}
        for one, several, count in counted.left_out:
            by_words[one, several] = by_words.get((one, several), 0) + count
        yield f"Not read: {', '.join(_many(count, one, several) for (one, several), count in by_words.items())}."
    if counted.layers:
        yield f"Layers that were not read, with how much lies on them: {_layers(counted.layers)}."
    if counted.hidden:
        yield f"Switched off, frozen or invisible, so not read: {_layers(counted.hidden)}."


def _layers(counted: Sequence[tuple[str, int]]) -> str:
    said = ", ".join(f"{shown(layer)} ({count})" for layer, count in counted[:_LAYERS])
    return said + (f" and {len(counted) - _LAYERS} more" if len(counted) > _LAYERS else "")


def _many(count: int, one: str, several: str) -> str:
    return f"{count} {one if count == 1 else several}"


def _gap(metres: float) -> str:
    return f"{1000.0 * metres:.2g} mm"
