"""Channels below a layer of panels: whether they bring soil gas from every panel to a suction point."""

from __future__ import annotations

from collections.abc import Iterator
from math import hypot

from ..catalogue.line import Product
from ..measure import say
from ..outlines.floor import Floor
from ..outlines.side import Point
from ..panels.channels import Barrier, Channels, Reach, reach
from ..panels.layout import Layout
from ..resolve import Resolved
from ..resolve.soil_gas import InnerFooting
from .cutting import numbered

ON_IT = 0.01  # m
BEYOND = 1.0  # m, more than walls are thick
NAMED = 12  # panels that are named; more are counted


def channels_of(resolved: Resolved, floor: Floor, product: Product | None, layout: Layout) -> Reach | None:
    """What of the channels reaches a suction point; None for panels without channels, or whose channels do not meet.

    Arguments
    ---------
    resolved
        The brief in numbers: suction points, and footings that part what lies below the slab.
    floor
        What the layer covers.
    product
        The panel's record.
    layout
        Its plan.
    """
    if product is None or product.channels is None or not layout.rules.pitch:
        return None
    of, gas = product.channels, resolved.soil_gas
    pits = [(each.at, each.width) for each in gas.suctions] if gas else []
    barriers = (
        [
            Barrier(*_to_the_edge(resolved, each), each.width, tuple(way.at for way in each.crossings))
            for each in gas.footings
        ]
        if gas
        else []
    )
    channels = Channels(of.pitch.si, of.width.si, of.directions == 2)
    return reach(floor, layout, channels, pits, barriers)


def _to_the_edge(resolved: Resolved, footing: InnerFooting) -> tuple[Point, Point]:
    """Its ends; one that lies on the outline runs on below the wall, as far as panels may. [m]"""
    return _run_on(resolved, footing.start, footing.end), _run_on(resolved, footing.end, footing.start)


def _run_on(resolved: Resolved, end: Point, other: Point) -> Point:
    sides = [side for ring in resolved.plan.floor.rings for side in ring.sides]
    if min(side.distance(end) for side in sides) > ON_IT:
        return end
    long = hypot(end[0] - other[0], end[1] - other[1])
    return end[0] + BEYOND * (end[0] - other[0]) / long, end[1] + BEYOND * (end[1] - other[1]) / long


def missed(found: Reach, layout: Layout) -> list[str]:
    """The numbers of the panels and pieces that no channel joins to a suction point."""
    of = set(found.missed)
    return [number for number, piece in numbered(layout) if piece in of]


def channel_notes(resolved: Resolved, product: Product | None, layout: Layout, found: Reach | None) -> Iterator[str]:
    """What a crew has to know of the channels."""
    if product is None or product.channels is None:
        return
    if found is None:
        yield "Its channels do not meet across joints, so nothing is drawn from one panel to the next: ask the maker."
        return
    gas = resolved.soil_gas
    pits = len(gas.suctions) if gas else 0
    numbers = missed(found, layout)
    for x, y in found.dry:
        at = " ".join(say.value(each, "m", resolved.system) for each in (x, y))
        yield f"The suction point at {at} meets no channel: make its pit wider, or move it."
    if not pits:
        nets = "are one net" if found.nets == 1 else f"fall into {found.nets} nets that do not meet"
        yield f"Its channels {nets}; no suction point is typed that they could lead to."
    elif not numbers:
        yield f"Its channels lead from every panel to {'the' if pits == 1 else 'a'} suction point. Lay them in line."
    else:
        listed = ", ".join(numbers[:NAMED]) + (f" and {len(numbers) - NAMED} more" if len(numbers) > NAMED else "")
        share = 100.0 * (1.0 - found.reached / found.length) if found.length else 100.0
        how = (
            "another suction point, or a pipe through what parts them, joins them"
            if product.channels.directions == 2
            else "its channels lie along the rows only: a pipe or stone across their ends joins them"
        )
        yield (
            f"{len(numbers)} of its pieces have no channel that leads to a suction point ({share:.0f} % of the length "
            f"of channels): {listed}; {how}."
        )
