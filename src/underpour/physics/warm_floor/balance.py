"""Loops of unlike length on one manifold: what each gets where nothing evens them, and what its valve must take."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..domain import OutOfDomain, above_zero
from .water import flow_in_tube

PLACES = 240  # of the curve of loss over flow
SPAN = 30.0  # times less and times more than the mean flow that the curve reaches


@dataclass(frozen=True, slots=True)
class Balance:
    """Loops of one manifold, in the order in which their lengths were told."""

    wanted: tuple[float, ...]  # m³/s, each by its share of the tube in the floor
    left_alone: tuple[float, ...]  # m³/s, where all feel one pressure and no valve stands in the way
    valves: tuple[float, ...]  # Pa that each valve must take so that each loop gets what it wants; 0 for the longest

    @property
    def shares(self) -> tuple[float, ...]:
        """What each gets where nothing evens them, of what it wants. [1]"""
        return tuple(gets / wants for gets, wants in zip(self.left_alone, self.wanted, strict=True))


def balance(
    lengths: Sequence[float],
    leader: float,
    whole: float,
    bore: float,
    density: float,
    viscosity: float,
    heat_capacity: float,
    conductivity: float,
) -> Balance:
    """What the loops of a manifold get by themselves, and what its valves must do.

    Parameters
    ----------
    lengths : sequence of float
        Of each loop with its leaders. [m]
    leader : float
        Of each loop, one way. [m]
    whole : float
        Water of all loops. [m³/s]
    bore : float
        [m]
    density, viscosity, heat_capacity, conductivity : float
        Of what runs in them. [kg/m³, Pa·s, J/(kg·K), W/(m·K)]

    Returns
    -------
    Balance
        [m³/s, Pa]

    Raises
    ------
    OutOfDomain
        No loop, a loop that its leaders take, or a number not above zero.

    Source
    ------
    One pressure for all loops, friction by ``flow_in_tube``; derived.

    Examples
    --------
    In layers a loop of half the length gets twice as much.

    >>> made = balance((60.0, 30.0), 0.0, 2e-5, 0.012, 1000.0, 1e-3, 4186.0, 0.6)
    >>> round(made.left_alone[1] / made.left_alone[0], 2)
    2.0
    """
    above_zero(whole=whole, bore=bore)
    fields = [length - 2.0 * leader for length in lengths]
    if not fields or not min(fields) > 0.0:
        raise OutOfDomain(f"each loop must be longer than its leaders, got {tuple(lengths)!r} and {leader!r}")
    wanted = whole * np.array(fields) / sum(fields)
    long = np.array(lengths, float)
    flows = np.geomspace(whole / len(fields) / SPAN, whole / len(fields) * SPAN, PLACES)
    each = [
        flow_in_tube(float(flow), bore, 1.0, density, viscosity, heat_capacity, conductivity).loss for flow in flows
    ]
    by_metre = np.log(np.maximum.accumulate(each))

    def at(loss: float) -> np.ndarray:
        return np.exp(np.interp(np.log(loss / long), by_metre, np.log(flows)))

    low, high = (float(np.exp(by_metre[end])) * float(long.mean()) for end in (0, -1))
    for _ in range(60):
        middle = (low * high) ** 0.5
        low, high = (middle, high) if at(middle).sum() < whole else (low, middle)
    losses = np.exp(np.interp(np.log(wanted), np.log(flows), by_metre)) * long
    alone = at(high)
    return Balance(tuple(map(float, wanted)), tuple(map(float, alone)), tuple(map(float, losses.max() - losses)))
