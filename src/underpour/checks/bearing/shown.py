"""Each load as it is pictured: where it stands, what is felt around it, what it uses of what carries it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from ...physics.domain import OutOfDomain
from ...physics.plates import felt, spread_out
from ...physics.plates.plate import StillLifting
from ...physics.plates.slab import Pressed, Ring, Slab
from ...physics.plates.spread_out import SlabField
from ...resolve import Resolved, ResolvedLoad, Support
from . import punching, settlement
from .all_shown import all_together, shares_of_all, whole_floor
from .bed import bed, unknown
from .borne import Around, Borne, Carrier, Layer, Share, WholeFloor
from .carried import Carried, carried
from .even import beside_aisle
from .plates import endless_there, modulus, plain_slab, plate_under, pressed_by, radius, slab_under, slab_weight


def pictured(resolved: Resolved) -> Iterator[Borne]:
    """Every load on the slab, in the order of the brief; what stands on the bare foam before the pour is left out."""
    support = resolved.support
    if support is None:
        return
    of = all_together(resolved, support)
    among = {} if of is None else dict(zip((each.path for each in of.placed), shares_of_all(resolved, of), strict=True))
    for load in resolved.loads:
        if not load.before_pour:
            yield _borne(resolved, support, load, among.get(load.path))


def pictured_together(resolved: Resolved) -> WholeFloor | None:
    """All that stands at places of the plan; None where that says no more than each load, or cannot be told."""
    support = resolved.support
    of = None if support is None else all_together(resolved, support)
    return None if of is None else whole_floor(resolved, of)


def _borne(resolved: Resolved, support: Support, load: ResolvedLoad, among: tuple[Share, ...] | None) -> Borne:
    """One load; ``among`` is what it uses where it stands among the others, in the place of what it uses alone."""
    told = not load.missing and unknown(support, load.standing) is None
    found = _carried(resolved, support, load) if told else None
    alone = () if found is None else tuple(_alone(resolved, found))
    shares = alone if among is None or found is None else (*among, *(each for each in alone if each.part == "shear"))
    around = None if found is None or found.plates is None else _around(resolved, support, found)
    where = "" if load.place == "everywhere" else load.where
    carrier = None if found is None else _carrier(found)
    contact = load.pressure or max((patch.pressure for patch in load.patches), default=None)
    return Borne(load.number, load.words, where, contact, load.standing, _on_plan(load), shares, alone, around, carrier)


def _carrier(of: Carried) -> Carrier:
    concrete, lies = of.support.concrete, of.bed
    return Carrier(
        concrete.thickness,
        concrete.strength,
        modulus(of.support),
        of.rupture,
        of.holds.said,
        (lies.soft, lies.stiff),
        (lies.softest, lies.stiffest),
        of.support.ground.words,
        of.support.own_weight,
    )


def _carried(resolved: Resolved, support: Support, load: ResolvedLoad) -> Carried | None:
    lies = bed(support, load.standing)
    if load.place == "everywhere":
        return carried(resolved, support, load, lies, None)
    soft, stiff = (plate_under(resolved, support, load, k) for k in (lies.soft, lies.stiff))
    return None if soft is None or stiff is None else carried(resolved, support, load, lies, (soft, stiff))


def _alone(resolved: Resolved, of: Carried) -> Iterator[Share]:
    if of.for_foam is not None:
        yield Share("foam", of.pressure, of.for_foam)
    yield Share("concrete", beside_aisle(of) if of.plates is None else of.tension, of.for_concrete)
    yield Share("ground", of.pressure, of.for_ground)
    settled, _ = settlement.value_of(resolved, of, of.bed)
    yield Share("settlement", settled, settlement.most().value, "mm")
    shear = punching.worst(resolved, of)
    if shear is not None:
        yield Share("shear", *shear)


def _on_plan(load: ResolvedLoad) -> tuple[Ring, ...]:
    if load.place != "plan" or load.at is None:
        return ()
    x, y = load.at
    return tuple(tuple((x + dx, y + dy) for dx, dy in patch.outline) for patch in load.patches)


def _around(resolved: Resolved, support: Support, of: Carried) -> Around | None:
    load, lies = of.load, of.bed
    assert of.plates is not None
    fields: list[SlabField] = []
    pressed: tuple[Pressed, ...] = ()
    edges: tuple[Ring, ...] = ()
    for k in (lies.soft, lies.stiff):
        far = radius(support, k)
        if endless_there(resolved, load, far):  # seen from its own middle, so that loads that are alike are one
            pressed = pressed_by(support, load)
            slab = _wide(support, k, pressed, far)
        else:
            slab, pressed = slab_under(resolved, support, load, k)
        try:
            fields.append(spread_out.around(slab, pressed, slab_weight(support)))
        except (OutOfDomain, StillLifting):
            return None
        edges = (slab.outline, *slab.holes) if of.plates[0].near_edge else ()
    return Around(
        fields[0],
        fields[1],
        tuple(each.outline for each in pressed),
        edges,
        tuple(Layer(layer.words, layer.hatch, layer.thickness) for layer in resolved.floor),
        of.pressure,
        of.tension,
        of.plates[0].felt.settlement,
    )


def _wide(support: Support, foundation: float, loads: tuple[Pressed, ...], far: float) -> Slab:
    """A piece so large about the loads that nothing is felt of its edges."""
    corners = np.array([corner for each in loads for corner in each.outline])
    (x0, y0), (x1, y1) = corners.min(axis=0) - felt.REACH * far, corners.max(axis=0) + felt.REACH * far
    ring = ((float(x0), float(y0)), (float(x1), float(y0)), (float(x1), float(y1)), (float(x0), float(y1)))
    return plain_slab(support, foundation, ring)
