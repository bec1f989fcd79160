"""Gravel, sand and concrete by volume."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, radians, tan

from ..catalogue.estimating import estimating
from ..measure import say
from ..outlines.outline import straight
from ..resolve import Resolved, ResolvedEdge
from .records import Item

LOOSE = ("gravel", "sand")
POURED = ("concrete", "screed")
BY_VOLUME = "it is bought by volume from a plant near the site"


def gravel(resolved: Resolved) -> Iterator[Item]:
    """What is spread and compacted, ordered loose."""
    more = estimating("bulk", "compacted").value
    for layer in resolved.laid:
        if layer.kind in LOOSE:
            net = resolved.plan.floor.area * layer.thickness
            order = net * (1.0 + more / 100.0)
            why = (
                f"Compacted volume under the floor, and {more:.0f} % for what it loses in compaction. "
                "Beyond the edge nothing is counted."
            )
            yield Item(layer.words, layer.path, "", net, "m³", None, "", order, why, "", None, BY_VOLUME)


def concrete(resolved: Resolved) -> Iterator[Item]:
    """The slab with its thickened edges and ribs, each screed, and the footings; less what stands in the floor.

    What the knobs of a tube panel fill is not taken off, walls are not counted, and where thicker parts meet at a
    corner they are counted by both.
    """
    for layer in resolved.laid:
        if layer.kind in POURED:
            net = resolved.plan.floor.area * layer.thickness - _stands(resolved, layer.thickness)
            more, words = 0.0, []
            if layer.kind == "concrete":
                for edge in resolved.edges:
                    volume = _thickening(edge, layer.thickness)
                    more += volume
                    said = say.value(volume, "m³", resolved.system)
                    words += [f"{said} thicker along edge {edge.letter}"] if volume else []
                for rib in resolved.ribs:
                    volume = straight(rib.outline).area * max(rib.thickness - layer.thickness, 0.0)
                    more += volume
                    words.append(f"{say.value(volume, 'm³', resolved.system)} thicker in rib {rib.number}")
            yield _poured(resolved, layer.words, layer.path, net + more, words)
    for edge in resolved.edges:
        width, height = edge.footing
        if width * height > 0.0 and not edge.thickening:
            yield _poured(
                resolved, f"Concrete, footing of edge {edge.letter}", edge.path, width * height * edge.length, []
            )


def _stands(resolved: Resolved, thickness: float) -> float:
    """What stands in the slab and is not poured. [m³]"""
    return sum(each.area for each in resolved.plan.floor.obstacles) * thickness


def _thickening(edge: ResolvedEdge, slab: float) -> float:
    """What an edge takes over the slab's own thickness: the flat bottom and the triangle of its slope. [m³]"""
    if edge.thickening is None:
        return 0.0
    below = max(edge.depth - slab, 0.0)
    slope = 0.5 * below**2 / tan(radians(edge.thickening.slope)) if edge.thickening.slope < 90.0 else 0.0
    return (edge.thickening.width * below + slope) * edge.length


def _poured(resolved: Resolved, words: str, path: str, net: float, parts: list[str]) -> Item:
    spare = estimating("concrete", "spare").value
    step = estimating("concrete", "step-us" if resolved.system == "US" else "step-si").value
    order = ceil(net * (1.0 + spare / 100.0) / step - 1e-9) * step
    why = f"{'; '.join([*parts, ''])}{spare:.0f} % spare, rounded up to the plant's step."
    return Item(words, path, "", net, "m³", None, "", order, why, "", None, BY_VOLUME)
