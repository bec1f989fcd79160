"""Gravel and sand by volume, loose as they come, and the blinding that levels stone below boards."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from ..catalogue.estimating import estimating
from ..measure import say
from ..resolve import Resolved
from .concrete import BY_VOLUME
from .records import Item, beyond

LOOSE = ("gravel", "sand")
LOSES = "{} for what it loses in compaction"


def gravel(resolved: Resolved) -> Iterator[Item]:
    """What is spread and compacted, ordered loose."""
    for layer in resolved.laid:
        if layer.kind in LOOSE:
            why = f"Compacted volume under the floor, and {LOSES}. Beyond the edge nothing is counted."
            yield _loose(layer.words, layer.path, resolved.plan.floor.area * layer.thickness, why)


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
        yield _loose("Sand for blinding", lower.path, resolved.plan.floor.area * thick, why)


def _loose(words: str, path: str, net: float, why: str) -> Item:
    more = estimating("bulk", "compacted").value
    order = net * (1.0 + more / 100.0)
    mass = order * estimating("bulk", "density").value
    over = beyond(("compaction", order - net))
    return Item(
        words, path, "", net, "m³", None, "", order, why.format(f"{more:.0f} %"), "", None, BY_VOLUME, over, mass
    )
