"""Tube of a heated floor: loops cut from coils, the manifold's ports, what holds it; or the cable."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, pi, sqrt

from ..catalogue.estimating import estimating
from ..catalogue.heated_floors import usual
from ..measure import say
from ..physics.warm_floor.loops import loops
from ..resolve import Resolved
from ..resolve.tubes import HeatedFloor, Water
from .belonging import of_record
from .coils import Coils, coils
from .prices import NO_PRODUCT, priced_by_piece
from .records import Item, beyond

SHOWN = 8  # coils whose cuts are told in words


def coils_of(resolved: Resolved) -> Coils | None:
    """The floor's loops by coil; None where it has no tubes, or a loop that is longer than any coil."""
    heated = resolved.heated
    if heated is None or heated.water is None:
        return None
    quantity = estimating("tube", "coil-us" if resolved.system == "US" else "coil-si")
    spare = 0.0 if heated.water.lengths else estimating("tube", "spare").value / 100.0
    sold = [quantity.low, quantity.value, quantity.high] if heated.water.coil is None else [heated.water.coil]
    return coils([each * (1.0 + spare) for each in loop_lengths(resolved, heated, heated.water)], sold)


def loop_lengths(resolved: Resolved, heated: HeatedFloor, water: Water) -> tuple[float, ...]:
    """Length of each loop with its leaders: as typed, or by area and spacing, with what lies closer along walls. [m]"""
    if water.lengths:
        return water.lengths
    made = loops(resolved.area, heated.spacing, water.leader, water.longest.value, water.loops)
    return (made.mean_length + closer(resolved, heated) / made.count,) * made.count


def closer(resolved: Resolved, heated: HeatedFloor) -> float:
    """Tube that the closer spacing along outer walls takes more, the strip as wide as the answer takes it. [m]"""
    if heated.edge_spacing is None:
        return 0.0
    strip = min(usual("edge-strip").value * resolved.perimeter, resolved.area)
    return strip * (1.0 / heated.edge_spacing - 1.0 / heated.spacing)


def tube(resolved: Resolved, cut: Coils | None) -> Iterator[Item]:
    """Tube with manifold and fasteners, or cable.

    Arguments
    ---------
    resolved
        The brief in numbers.
    cut
        Its loops by coil.
    """
    heated = resolved.heated
    if heated is None:
        return
    if heated.water is None:
        yield _cable(resolved, heated)
        return
    lengths = loop_lengths(resolved, heated, heated.water)
    yield _tube(resolved, heated, heated.water, lengths, cut)
    yield _manifold(len(lengths))
    if heated.panel is None:
        yield _fasteners(resolved, heated, heated.water, lengths)


def _tube(resolved: Resolved, heated: HeatedFloor, water: Water, lengths: tuple[float, ...], cut: Coils | None) -> Item:
    system, net = resolved.system, sum(lengths)
    count = len(lengths)
    told = "as laid" if water.lengths else "estimated from area and spacing, nothing is drawn"
    why = f"{count} loop{'s' if count > 1 else ''} with their leaders, {told}. "
    if heated.edge_spacing is not None and not water.lengths:
        more = say.both(closer(resolved, heated), "m", system)
        why += f"The closer spacing along outer walls takes {more} of it. "
    if heated.panel is not None:
        why += f"{heated.panel.label} holds it, so no fasteners are counted. "
    words = f"Tube, {water.size.label.rstrip('.')}"
    if cut is None:
        sold = "the coils that are sold" if water.coil is None else "the coil"
        why += f"A loop is longer than {sold}: ask for longer ones, or lay more loops; join none below the slab."
        return Item(words, "tube", "", net, "m", None, "", net, why, unpriced=NO_PRODUCT)
    spare = sum(cut.loops) - net
    over = beyond(("spare", spare), ("left over", cut.bought - net - spare))
    coil = say.both(cut.length, "m", system)
    of = f"{'coils' if len(cut.cuts) > 1 else 'coil'} of {coil}"
    why += f"{_by_coil(cut, resolved)} No joint lies below the slab."
    wall = pi * (water.size.outside.value**2 - water.size.bore**2) / 4.0
    mass = cut.bought * wall * estimating("tube", "density").value
    return Item(words, "tube", "", net, "m", len(cut.cuts), of, cut.bought, why, "", None, NO_PRODUCT, over, mass)


def _by_coil(cut: Coils, resolved: Resolved) -> str:
    if len(cut.cuts) > SHOWN:
        left = say.both(sum(cut.left), "m", resolved.system)
        return f"Up to {max(map(len, cut.cuts))} loops come from a coil, {left} are left in all."
    lefts = [say.value(each, "m", resolved.system) for each in cut.left]
    if len({(len(loops_cut), left) for loops_cut, left in zip(cut.cuts, lefts, strict=True)}) == 1:
        return f"{_number(len(cut.cuts[0]))} from each coil, {lefts[0]} left on it."
    parts = [
        f"coil {number} gives loop{'s' if len(loops_cut) > 1 else ''} {' and '.join(map(str, loops_cut))}, {left} left"
        for number, (loops_cut, left) in enumerate(zip(cut.cuts, lefts, strict=True), start=1)
    ]
    return f"C{'; '.join(parts)[1:]}."


def _number(loops_cut: int) -> str:
    return "One loop" if loops_cut == 1 else f"{loops_cut} loops"


def _manifold(count: int) -> Item:
    most = int(estimating("tube", "ports").value)
    number = ceil(count / most)
    of = f"manifold{'s' if number > 1 else ''} with {count} ports in all, each for supply and return"
    why = f"One port for each loop, {most} at the most on one manifold."
    return Item("Manifold", "tube", "", number, "count", number, of, number, why, unpriced=NO_PRODUCT)


def _fasteners(resolved: Resolved, heated: HeatedFloor, water: Water, lengths: tuple[float, ...]) -> Item:
    spacing = heated.ties if heated.ties is not None else estimating("tube", "fastener").value
    more = estimating("tube", "at-turns").value
    fields = [max(each - 2.0 * water.leader, 0.0) for each in lengths]
    turns = sum(max(ceil(sqrt(each / heated.spacing)) - 1, 0) for each in fields)
    net = ceil(sum(lengths) / spacing + more * turns)
    below = resolved.floor[heated.layer + 1 :]
    film = next((n for n, layer in enumerate(below) if layer.kind == "vapour-retarder"), len(below))
    board = next((n for n, layer in enumerate(below) if layer.kind == "board"), len(below))
    why = (
        f"One every {say.both(spacing, 'm', resolved.system)} of tube and {more:.0f} more at each of about {turns} "
        "turns, as if each loop filled a square."
    )
    record = (
        resolved.products.product(below[board].key)
        if board < film and resolved.products.has(below[board].key)
        else None
    )
    clip = of_record(resolved, record, "tube")
    if clip is None or water.size.key not in clip.tubes:
        ties = "ties" if film < board else "clips, staples or ties"
        why += " Tie it to the wire: a clip would go through the film." if film < board else ""
        return Item("Fasteners of the tube", "tube", "", net, "count", net, ties, net, why, unpriced=NO_PRODUCT)
    box = clip.pack.pieces if clip.pack and clip.pack.pieces else 1
    boxes = ceil(net / box)
    cost, unpriced = priced_by_piece(resolved, clip.key, boxes * box)
    of = f"clips in {boxes} {'boxes' if boxes > 1 else 'box'} of {box}"
    over = beyond(("left over", boxes * box - net))
    return Item(clip.name, "tube", clip.key, net, "count", boxes * box, of, boxes * box, why, "", cost, unpriced, over)


def _cable(resolved: Resolved, heated: HeatedFloor) -> Item:
    net = resolved.area / heated.spacing
    why = (
        "Area over spacing, all of the floor. Cable and mats are made in set lengths and are never cut: take the next "
        "shorter, and add the cold tails."
    )
    return Item("Heating cable", "tube", "", net, "m", None, "", net, why, unpriced=NO_PRODUCT)
