"""Gravel and sand by volume, loose as they come, and the blinding that levels stone below boards."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import pairwise

from ..catalogue.estimating import estimating
from ..measure import say
from ..resolve import Resolved, Slice
from ..sections.levels import levels
from .around import box, volume
from .concrete import BY_VOLUME
from .records import Item, beyond

LOOSE = ("gravel", "sand")
LOSES = "{} for what it loses in compaction"


def gravel(resolved: Resolved) -> Iterator[Item]:
    """What is spread and compacted, ordered loose."""
    for layer in resolved.laid:
        if layer.kind in LOOSE:
            why = f"Compacted volume under the floor, and {LOSES}. Beyond the slab nothing is counted."
            net = resolved.plan.floor.area * layer.thickness + sum(_at_edges(resolved, layer))
            yield _loose(layer.words, layer.path, net, why, layer.kind)


def _at_edges(resolved: Resolved, layer: Slice) -> Iterator[float]:
    """What lies out below the wall of a raft, and below nought what a thickened edge takes the place of. [m³]"""
    top = -sum(each.thickness for each in resolved.floor[: resolved.floor.index(layer)])
    bottom = top - layer.thickness
    at = {edge.letter: levels(resolved, edge) for edge in resolved.edges}
    reaching = {letter for letter, here in at.items() if here.slope or here.begins(top) < 0.0}
    for letter in sorted(reaching):
        here, low, body = at[letter], bottom, partial(volume, resolved.plan, letter, sharing=reaching)
        if here.slope and here.footing_bottom < top:
            low = max(bottom, here.footing_bottom)
            yield -body(((0.0, low), (here.slope_at(low), low), (here.slope_at(top), top), (0.0, top)))
            top_of_rest = low
        else:
            top_of_rest = top
        if top_of_rest > bottom:
            yield body(box(here.begins(top), 0.0, bottom, top_of_rest))


def blinding(resolved: Resolved) -> Iterator[Item]:
    """Sand that levels gravel where boards or film lie right on it; none where soil gas is drawn through the stone."""
    for upper, lower in pairwise(resolved.laid):
        if lower.kind != "gravel" or upper.kind not in ("board", "vapour-retarder"):
            continue
        if resolved.soil_gas and resolved.soil_gas.system in ("rough-in", "passive", "fan"):
            continue
        thick = estimating("bulk", "blinding").value
        why = (
            f"{say.both(thick, 'm', resolved.system)} of sand or fines to level the stone: not in the brief, as "
            f"practice has it. {LOSES}. Leave it out where the stone is rolled level."
        )
        yield _loose("Sand for blinding", lower.path, resolved.plan.floor.area * thick, why, "sand")


def _loose(words: str, path: str, net: float, why: str, kind: str) -> Item:
    more = estimating("bulk", "compacted").value
    order = net * (1.0 + more / 100.0)
    mass = order * estimating("bulk", "density").value
    over = beyond(("compaction", order - net))
    how = why.format(f"{more:.0f} %")
    return Item(words, path, "", net, "m³", None, "", order, how, "", None, BY_VOLUME, over, mass, kind=kind)
