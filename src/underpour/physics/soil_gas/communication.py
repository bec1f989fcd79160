"""What a communication test tells: air drawn from one hole, suction read in others, stone and leaks fitted to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..domain import OutOfDomain, above_zero
from .cells import Pit
from .fan import of_flow
from .field import Drawn, Field, Leakage, Unsettled, suction_field
from .hydraulics import Hydraulics, inertia_of, layer
from .plan import Plan

DOUBT = 0.1  # of a reading, as a share
AT_THE_MOUTH = 0.3  # the same of the hole that air is drawn from: its own mouth takes some
GAUGE = 0.1  # Pa, what a usual gauge resolves
PERMEABILITY = 1e-11, 1e-5  # m², looked at between these
LEAKAGE = 1e-9, 1e-3  # m/(s·Pa)
STARTS = 1e-6, 3e-5, 3e-8  # m/(s·Pa), leaks that are begun with
BEGINS = 2e-8  # m², stone that is begun with
STEP = [1e-4, 1e-4]  # of the logarithms, for slopes
ENOUGH = 1e-5
ALIKE = 1e-3  # share by which two ends that were begun elsewhere may differ and be the same
COARSE = 1.0  # m, of a cell while it is fitted


@dataclass(frozen=True)
class Reading:
    """A hole through the slab and what the gauge showed in it."""

    x: float  # m
    y: float  # m
    suction: float  # Pa


@dataclass(frozen=True)
class Told:
    """What a test tells of the layer and its leaks."""

    permeability: float  # m²
    leakage: float  # m/(s·Pa) of ground and slab together, by area of floor
    permeability_doubt: float  # factor either way, one standard deviation
    leakage_doubt: float  # the same
    read: tuple[float, ...]  # Pa, as given
    found: tuple[float, ...]  # Pa by the fitted layer at the same holes
    mouth: float  # Pa by the fitted layer in the hole that air was drawn from
    field: Field

    @property
    def residual(self) -> float:
        """Root mean square of what the readings are missed by, as a share of each. [1]"""
        read, found = np.array(self.read), np.array(self.found)
        return float(np.sqrt(np.mean(((found - read) / np.maximum(read, GAUGE)) ** 2)))


def told(
    plan: Callable[[Hydraulics], Plan],
    drawn_at: Pit,
    flow: float,
    readings: Sequence[Reading],
    thickness: float,
    porosity: float,
    mouth: float | None = None,
) -> Told:
    """Permeability of the layer and leakage into it, from a communication test.

    Parameters
    ----------
    plan : function
        Makes the plan with given hydraulics of its layer. [m]
    drawn_at : Pit
        The hole that air was drawn from. [m]
    flow : float
        Air drawn. [m³/s]
    readings : sequence of Reading
        Other holes. [m], [Pa]
    thickness : float
        Of the layer. [m]
    porosity : float
        Of the layer. [1]
    mouth : float or None
        Suction in the hole that air was drawn from, where it was read. [Pa]

    Returns
    -------
    Told
        [m²], [m/(s·Pa)]

    Raises
    ------
    OutOfDomain
        No flow; fewer than two readings, the mouth's among them; suction below nought; readings that no layer gives.

    Source
    ------
    Least squares of the readings by their doubt, logarithms of both unknowns, by scipy; fast flow in the layer by
    Ergun's law (derived).

    Examples
    --------
    Readings that were made with known stone give it back.

    >>> ring = [(0.0, 0.0), (6.0, 0.0), (6.0, 5.0), (0.0, 5.0)]
    >>> made = lambda hydraulics: Plan(ring, hydraulics)
    >>> stone = layer(1e-8, inertia_of(1e-8, 0.4), 0.1)
    >>> hole = Pit(2.0, 2.0, 0.05)
    >>> field = suction_field(made(stone), [Drawn((hole,), of_flow(0.01))], Leakage(2e-6), COARSE)
    >>> at = [(3.0, 3.0), (5.0, 4.0), (5.5, 0.5)]
    >>> read = [Reading(x, y, float(field.at(x, y)[0])) for x, y in at]
    >>> found = told(made, hole, 0.01, read, thickness=0.1, porosity=0.4)
    >>> round(found.permeability / 1e-8, 3), round(found.leakage / 2e-6, 3)
    (1.0, 1.0)
    """
    from scipy.optimize import least_squares

    above_zero(flow=flow, thickness=thickness, porosity=porosity)
    if len(readings) + (mouth is not None) < 2:
        raise OutOfDomain("two readings are needed: one for the stone and one for the leaks")
    read = np.array([each.suction for each in readings] + ([mouth] if mouth is not None else []), float)
    if not (read >= 0.0).all():
        raise OutOfDomain("a reading below nought is no suction")
    shares = np.array([DOUBT] * len(readings) + ([AT_THE_MOUTH] if mouth is not None else []))
    doubt = np.hypot(shares, GAUGE / (read + GAUGE))  # of the logarithm: by it high and low readings miss alike

    def field(unknown: NDArray[np.float64], widest: float = COARSE, like: Field | None = None) -> Field:
        permeability, leakage = np.exp(unknown)
        stone = layer(float(permeability), float(inertia_of(permeability, porosity)), thickness)
        drawn = [Drawn((drawn_at,), of_flow(flow))]
        return suction_field(plan(stone), drawn, Leakage(float(leakage)), widest, like)

    def seen(made: Field) -> NDArray[np.float64]:
        at = made.at(np.array([each.x for each in readings]), np.array([each.y for each in readings]))
        return np.append(at, made.pit_suction[0]) if mouth is not None else at

    latest: Field | None = None  # the next one is begun with it

    def missed(unknown: NDArray[np.float64]) -> NDArray[np.float64]:
        nonlocal latest
        latest = field(unknown, like=latest)
        return np.log((seen(latest) + GAUGE) / (read + GAUGE)) / doubt

    limits = np.log([[PERMEABILITY[0], LEAKAGE[0]], [PERMEABILITY[1], LEAKAGE[1]]])
    best = None
    for leakage in STARTS:
        try:
            begin = np.log([BEGINS, leakage])
            one = least_squares(missed, begin, bounds=(limits[0], limits[1]), diff_step=STEP, xtol=ENOUGH, ftol=ENOUGH)
        except Unsettled:
            continue
        alike = best is not None and abs(one.cost - best.cost) <= ALIKE * best.cost
        if best is None or one.cost < best.cost:
            best = one
        if best.cost < len(read) or alike:
            break
    if best is None or (np.abs(best.x - limits) < 1e-3).any():
        raise OutOfDomain("no stone and no leak give these readings")
    slopes = np.asarray(best.jac)
    spread = np.sqrt(np.diag(np.linalg.pinv(slopes.T @ slopes)))
    fitted = field(best.x, COARSE / 2.0)
    found = seen(fitted)[: len(readings)]
    return Told(
        float(np.exp(best.x[0])),
        float(np.exp(best.x[1])),
        float(np.exp(spread[0])),
        float(np.exp(spread[1])),
        tuple(read[: len(readings)].tolist()),
        tuple(found.tolist()),
        fitted.pit_suction[0],
        fitted,
    )
