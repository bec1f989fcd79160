"""Each load as it is pictured: where it stands, what is felt around it, what it uses of what carries it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ...physics.domain import OutOfDomain
from ...physics.plates import felt, spread_out
from ...physics.plates.plate import StillLifting
from ...physics.plates.slab import Pressed, Ring, Slab
from ...physics.plates.spread_out import SlabField
from ...resolve import Resolved, ResolvedLoad, Support
from .bed import bed, unknown
from .carried import Carried, carried
from .even import beside_aisle
from .plates import endless_there, modulus, plate_under, radius, slab_under, slab_weight


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer below the load, from the top of the floor down."""

    words: str
    hatch: str
    thickness: float  # m


@dataclass(frozen=True, slots=True)
class Share:
    """What a load uses of what one part may bear."""

    part: str  # "foam", "ground", "concrete"
    felt: float  # Pa
    bears: float  # Pa, what is left for this load

    @property
    def used(self) -> float:
        """1 on the limit; where nothing is left, far beyond it."""
        return self.felt / self.bears if self.bears > 0.0 else float("inf")


@dataclass(frozen=True, slots=True)
class Around:
    """What is felt around a load, seen from above."""

    soft: SlabField  # on the softest bed: settlement and tension
    stiff: SlabField  # on the stiffest bed: pressure
    patches: tuple[Ring, ...]  # m, as they press
    edges: tuple[Ring, ...]  # free edges of the slab; () where it has none near
    layers: tuple[Layer, ...]
    pressure: float  # Pa, the largest, as its finding says
    tension: float  # Pa
    settlement: float  # m


@dataclass(frozen=True, slots=True)
class Carrier:
    """What an engineer asks of slab and bed first."""

    thickness: float  # m, of the slab
    strength: float  # Pa, of a cylinder
    modulus: float  # Pa, Young's modulus of the concrete
    rupture: float  # Pa
    method: str  # "allowable stress, factor 1.7"
    bed: tuple[float, float]  # N/m³, foam at both ends of how stiff it may be, the ground as taken
    widest: tuple[float, float]  # N/m³, the ground at both ends as well
    ground: str  # "27 MN/m³ (98 lb/in³), by CBR 10 %"
    weight: float  # Pa, of slab and what lies above the foam


@dataclass(frozen=True, slots=True)
class Borne:
    """One load on the slab, for pictures of it."""

    number: str  # as the brief counts
    words: str
    where: str  # "in a corner"; "" where its words say it
    contact: float | None  # Pa, of its heaviest patch, or of a load all over the floor; None where it is not known
    standing: bool
    on_plan: tuple[Ring, ...]  # m, its patches on the plan; () where it has no place there
    shares: tuple[Share, ...]  # () where one of them cannot be told
    around: Around | None  # None where it lies all over the floor, or cannot be told
    carrier: Carrier | None  # None where it cannot be told

    @property
    def used(self) -> float:
        """The largest share, 0 where none is told."""
        return max((share.used for share in self.shares), default=0.0)


def pictured(resolved: Resolved) -> Iterator[Borne]:
    """Every load on the slab, in the order of the brief; what stands on the bare foam before the pour is left out."""
    support = resolved.support
    if support is None:
        return
    for load in resolved.loads:
        if not load.before_pour:
            yield _borne(resolved, support, load)


def _borne(resolved: Resolved, support: Support, load: ResolvedLoad) -> Borne:
    told = not load.missing and unknown(support, load.standing) is None
    found = _carried(resolved, support, load) if told else None
    shares = () if found is None else _shares(found)
    around = None if found is None or found.plates is None else _around(resolved, support, found)
    where = "" if load.place == "everywhere" else load.where
    carrier = None if found is None else _carrier(found)
    contact = load.pressure or max((patch.pressure for patch in load.patches), default=None)
    return Borne(load.number, load.words, where, contact, load.standing, _on_plan(load), shares, around, carrier)


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


def _shares(of: Carried) -> tuple[Share, ...]:
    tension = beside_aisle(of) if of.plates is None else of.tension
    found = [Share("concrete", tension, of.for_concrete), Share("ground", of.pressure, of.for_ground)]
    if of.for_foam is not None:
        found.insert(0, Share("foam", of.pressure, of.for_foam))
    return tuple(found)


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
        slab, pressed = slab_under(resolved, support, load, k)
        endless = endless_there(resolved, load, far)
        if endless:
            slab = _wide(slab, pressed, far)
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


def _wide(slab: Slab, loads: tuple[Pressed, ...], far: float) -> Slab:
    """A piece so large about the loads that nothing is felt of its edges."""
    corners = np.array([corner for each in loads for corner in each.outline])
    (x0, y0), (x1, y1) = corners.min(axis=0) - felt.REACH * far, corners.max(axis=0) + felt.REACH * far
    ring = ((float(x0), float(y0)), (float(x1), float(y0)), (float(x1), float(y1)), (float(x0), float(y1)))
    return Slab(ring, slab.thickness, slab.modulus, slab.poisson, slab.foundation)
