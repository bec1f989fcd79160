"""Concrete by volume: slab, thickened edges, ribs, screeds and footings, corners counted once."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from ..catalogue.estimating import estimating
from ..measure import say
from ..outlines.outline import straight
from ..resolve import Resolved, Slice
from ..sections.levels import Levels, levels
from .around import box, volume
from .records import Item, beyond

POURED = ("concrete", "screed")
BY_VOLUME = "it is bought by volume from a plant near the site"
NOT_COUNTED = "Walls, pads below posts and a fall of the floor are not counted."
CORNERS = "Corners are counted once."


def concrete(resolved: Resolved) -> Iterator[Item]:
    """The slab with its thickened edges and ribs, each screed, and the footings.

    What stands in the floor, and what knobs of a tube panel fill, is taken off. Walls are not counted, nor are footings
    that stand since the old slab was poured.

    Arguments
    ---------
    resolved
        The brief in numbers.
    """
    at = {edge.letter: levels(resolved, edge) for edge in resolved.edges}
    lowest = next((layer for layer in reversed(resolved.laid) if layer.kind == "concrete"), None)
    for layer in resolved.laid:
        if layer.kind not in POURED:
            continue
        parts = [
            ("", resolved.plan.floor.area * layer.thickness),
            *_less(resolved, layer),
            *_to_the_face(resolved, layer, at),
        ]
        if layer is lowest:
            parts += [*_thickened(resolved, at), *_ribs(resolved, layer)]
        yield _poured(resolved, layer.words, layer.path, parts, NOT_COUNTED, layer.kind)
    footed = {
        edge.letter
        for edge in resolved.edges
        if edge.footing[0] * edge.footing[1] > 0.0 and not edge.thickening and not resolved.on_old_slab
    }
    for edge in resolved.edges:
        if edge.letter in footed:
            here = at[edge.letter]
            body = box(here.footing_left, here.footing_right, here.footing_bottom, here.footing_top)
            parts = [("", volume(resolved.plan, edge.letter, body, footed))]
            yield _poured(resolved, f"Concrete, footing of edge {edge.letter}", edge.path, parts, CORNERS, "concrete")


def is_concrete(item: Item) -> bool:
    """Whether a truck of concrete brings it."""
    return item.kind in POURED


def _less(resolved: Resolved, layer: Slice) -> Iterator[tuple[str, float]]:
    """What stands in the floor, and the knobs of a tube panel in the layer that holds the tube. [m³]"""
    standing = sum(each.area for each in resolved.plan.floor.obstacles)
    yield "less for what stands in it", -standing * layer.thickness
    heated = resolved.heated
    if heated and heated.panel and resolved.floor[heated.layer] is layer:
        knobs = heated.panel.height * heated.panel.share * (resolved.plan.floor.area - standing)
        yield "less for the knobs of the panel", -knobs


def _to_the_face(resolved: Resolved, layer: Slice, at: dict[str, Levels]) -> Iterator[tuple[str, float]]:
    """What a raft, a thickened edge or a door's slab reaches out from the outline, below the wall above. [m³]"""
    top = -sum(each.thickness for each in resolved.floor[: resolved.floor.index(layer)])
    out = {letter: here.begins(top) for letter, here in at.items()}
    reaching = {letter for letter, x in out.items() if x < -1e-9}
    for edge in resolved.edges:
        if edge.letter in reaching:
            body = box(out[edge.letter], 0.0, top - layer.thickness, top)
            yield f"below the wall of edge {edge.letter}", volume(resolved.plan, edge.letter, body, reaching)


def _thickened(resolved: Resolved, at: dict[str, Levels]) -> Iterator[tuple[str, float]]:
    """What thickened edges take below the slab. [m³]"""
    thick = {edge.letter for edge in resolved.edges if edge.thickening}
    for edge in resolved.edges:
        here = at[edge.letter]
        if here.slope:
            body = (
                (here.start, here.footing_bottom),
                (here.slope.foot, here.footing_bottom),
                (here.slope.top, here.foam_bottom),
                (here.slope.top, here.slab_bottom),
                (here.start, here.slab_bottom),
            )
            yield f"thicker along edge {edge.letter}", volume(resolved.plan, edge.letter, body, thick)


def _ribs(resolved: Resolved, layer: Slice) -> Iterator[tuple[str, float]]:
    """What ribs take below the slab. [m³]"""
    for rib in resolved.ribs:
        yield f"thicker in rib {rib.number}", straight(rib.outline).area * max(rib.thickness - layer.thickness, 0.0)


def _poured(resolved: Resolved, words: str, path: str, parts: list[tuple[str, float]], mind: str, kind: str) -> Item:
    system, net = resolved.system, sum(each for _, each in parts)
    spare = estimating("concrete", "spare").value
    step = estimating("concrete", "step-us" if system == "US" else "step-si").value
    order = ceil(net * (1.0 + spare / 100.0) / step - 1e-9) * step
    said = "; ".join(
        f"{say.value(abs(each), 'm³', system)} {what}" for what, each in parts if what and abs(each) > 1e-9
    )
    why = f"{said + '. ' if said else ''}{spare:.0f} % spare, rounded up to the plant's step. {mind}"
    on_purpose = net * spare / 100.0
    over = beyond(("spare", on_purpose), ("rounding", order - net - on_purpose))
    mass = order * estimating("concrete", "density").value
    return Item(words, path, "", net, "m³", None, "", order, why, "", None, BY_VOLUME, over, mass, kind=kind)
