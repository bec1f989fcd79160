"""Soil gas: what keeps it out of this floor, how much radon it brings, what is laid against it, and the proof of it."""

from __future__ import annotations

from collections.abc import Iterator

from ...findings import Finding
from ...resolve import Resolved
from . import backdraught, barrier, condensate, film_order, level, outlet, proof, rough_in, sealing, survey

__all__ = ["of_floor"]


def of_floor(resolved: Resolved) -> Iterator[Finding]:
    """Everything that is said of soil gas, in the order of the paper; nothing of a slab under the sky."""
    if resolved.outdoors:
        return
    yield barrier.barrier(resolved)
    if resolved.soil_gas is None:
        return
    from . import field  # and all that finds suction, which a floor without a word of soil gas does without

    yield from survey.county(resolved)
    drawn = tuple(field.suction(resolved, resolved.soil_gas))
    short = any(each.id == "soilgas.weakest-corner" and each.verdict == "falls short" for each in drawn)
    yield from level.levels(resolved, resolved.soil_gas, reaches=not short)
    yield from drawn
    flow = next((each.value for each in drawn if each.id == "soilgas.flow"), None)
    yield from condensate.water(resolved, resolved.soil_gas, flow)
    yield film_order.layers(resolved, resolved.soil_gas)
    yield sealing.sealed(resolved, resolved.soil_gas)
    yield from rough_in.asked(resolved, resolved.soil_gas)
    yield from outlet.distances(resolved, resolved.soil_gas)
    yield backdraught.backdraught(resolved.soil_gas)
    yield proof.tested(resolved, resolved.soil_gas)
    yield from proof.gauges(resolved, resolved.soil_gas)
