"""Which layers of a drawing hold the floor: those that the brief or their names say, or the only one with a ring."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from ..mistakes import Mistake, nearest
from .asked import Asked
from .joining import Joined, joined
from .limits import limit
from .pieces import Piece, Unread, number, shown
from .rings import box, unclosed
from .units import Unit

SMALLEST = 1.0  # m²; no floor is smaller
_TOLD = 3  # things of a kind that is not read, told by their handles; more are counted


def floor_layers(pieces: Sequence[Piece], asked: Asked, unit: Unit, gap: float) -> tuple[tuple[str, ...], Joined]:
    """The floor's layers and what lies on them, joined.

    Raises
    ------
    Mistake
        No layer has the name that the brief gives, nothing encloses anything, or several layers have rings.
    """
    held = [piece for piece in pieces if asked.holds(piece.origin.layer) == "floor"]
    if held:
        return _names(held), joined(held, gap)
    if asked.floor_named:
        named = next(layers for what, layers in asked.layers if what == "floor")
        raise _no_such_layer("floor", named[0], list(_names(pieces)))
    by_layer: dict[str, list[Piece]] = {}
    for piece in pieces:
        if not asked.holds(piece.origin.layer):
            by_layer.setdefault(piece.origin.layer, []).append(piece)
    found = {layer: joined(own, gap) for layer, own in by_layer.items()}
    ringed = {layer: each for layer, each in found.items() if each.rings}
    large = {layer: each for layer, each in ringed.items() if max(r.outline.area for r in each.rings) >= SMALLEST}
    ringed = large or ringed
    if len(ringed) == 1:
        ((layer, own),) = ringed.items()
        _longer_ways(found, own, unit)
        return (layer,), own
    if ringed:
        raise _several(ringed, unit)
    ways = [mistake for each in found.values() for mistake in unclosed(each, unit)]
    if ways:
        raise ways[0]
    layers = ", ".join(sorted({shown(piece.origin.layer) for piece in pieces})[:8])
    told = (
        f"What lines there are lie on {layers}"
        if layers
        else "There is no line, arc or polyline in it that can be read"
    )
    raise Mistake("", "", f"Nothing in the drawing encloses a floor. {told}.", "Draw its outline on floor-outline.")


def missing_layers(layers: Sequence[str], asked: Asked) -> list[Mistake]:
    """Layers that the brief names and on which nothing lies; ``layers`` are those of all that was found."""
    known = {layer.casefold().strip(): layer for layer in layers}
    told = []
    for what, named in asked.layers:
        for layer in named:
            if layer.casefold().strip() not in known:
                told.append(_no_such_layer(what, layer, list(known.values())))
    return told


def unread_on(layers: Sequence[str], unread: Sequence[Unread]) -> list[Mistake]:
    """Curves and bodies that are not read, where they lie on layers that are."""
    wanted = {layer.casefold() for layer in layers}
    own = [each for each in unread if each.origin.layer.casefold() in wanted]
    told = []
    for number_, each in enumerate(own[:_TOLD], start=1):
        left = len(own) - _TOLD
        further = "So does 1 more thing" if left == 1 else f"So do {left} more things"
        more = f" {further}." if number_ == _TOLD and left > 0 else ""
        wrong = f"On a layer that is read lies {each.what}: {each.origin.words}.{more}"
        told.append(Mistake("", "", wrong, each.instead))
    return told


def _names(pieces: Sequence[Piece]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(piece.origin.layer for piece in pieces))


def _no_such_layer(what: str, layer: str, known: Sequence[str]) -> Mistake:
    near = nearest(layer, known)
    hint = f"The nearest is {shown(near[0])}. " if near else ""
    listed = ", ".join(shown(each) for each in sorted(known)[:8]) or "none"
    more = f" and {len(known) - 8} more" if len(known) > 8 else ""
    wrong = f"No lines that can be seen lie on layer {shown(layer)}."
    return Mistake(f"plan.dxf-layers.{what}", f'"{layer}"', wrong, f"{hint}Layers with lines: {listed}{more}.")


def _longer_ways(found: Mapping[str, Joined], own: Joined, unit: Unit) -> None:
    """An open way that reaches farther than the only ring is rather the outline. Raises Mistake there."""
    widest = max(max(b[1] - b[0], b[3] - b[2]) for b in map(box, own.rings))
    for each in found.values():
        for way in each.open:
            boxes = [side.box for side in way.sides]
            reach = max(
                max(b[1] for b in boxes) - min(b[0] for b in boxes), max(b[3] for b in boxes) - min(b[2] for b in boxes)
            )
            if len(way.sides) > 1 and reach > widest + limit("beside-a-side"):
                raise unclosed(Joined(open=[way]), unit)[0]


def _several(ringed: Mapping[str, Joined], unit: Unit) -> Mistake:
    told = []
    for layer, each in sorted(ringed.items(), key=lambda one: -max(r.outline.area for r in one[1].rings)):
        left, right, low, high = box(max(each.rings, key=lambda ring: ring.outline.area))
        wide, up = (number(size / unit.metres, unit.metres) for size in (right - left, high - low))
        told.append(f"{shown(layer)} ({wide} by {up} {unit.short})")
    more = f" and {len(told) - 6} more" if len(told) > 6 else ""
    wrong = f"Several layers have rings, and none is called floor-outline: {', '.join(told[:6])}{more}."
    first = shown(next(iter(ringed)))
    return Mistake("", "", wrong, f'Say on which the floor lies: dxf-layers = {{ floor = "{first}" }}.')
