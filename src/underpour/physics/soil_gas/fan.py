"""A fan by the points of its curve, and what its work costs in power."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from ..domain import Numbers, OutOfDomain, above_zero, not_below_zero


def fan_curve(flows: Sequence[float], suctions: Sequence[float]) -> Callable[[float], tuple[float, float]]:
    """A fan's suction over its flow, through its points and never rising between them.

    Beyond the points it goes on as steeply as it ends.

    Parameters
    ----------
    flows : sequence of float, shape (n,)
        Rising from nought or more. [m³/s]
    suctions : sequence of float, shape (n,)
        At each flow; none is above the one before. [Pa]

    Returns
    -------
    function
        Flow [m³/s] to suction [Pa] and slope [Pa·s/m³].

    Raises
    ------
    OutOfDomain
        Fewer than two points, flows that do not rise, suction that rises with the flow.

    Source
    ------
    Monotone cubics, Fritsch and Butland 1984, by scipy.

    Examples
    --------
    >>> curve = fan_curve([0.0, 0.02, 0.04], [240.0, 180.0, 60.0])
    >>> float(curve(0.02)[0]), float(curve(0.05)[0]) < 0.0
    (180.0, True)
    """
    from scipy.interpolate import PchipInterpolator

    q, p = np.asarray(flows, float), np.asarray(suctions, float)
    if len(q) < 2 or len(q) != len(p):
        raise OutOfDomain("a fan's curve needs two points or more, a suction at each flow")
    not_below_zero(flow=q)
    if not (np.diff(q) > 0.0).all():
        raise OutOfDomain("the flows of a fan's curve must rise from point to point")
    if not (np.diff(p) <= 0.0).all():
        raise OutOfDomain("a fan's curve must not rise: it pulls less the more it moves")
    between = PchipInterpolator(q, p)
    slope = between.derivative()
    steep = np.diff(p) / np.diff(q)
    first, last = min(float(slope(q[0])), float(steep[0]) / 2.0), min(float(slope(q[-1])), float(steep[-1]) / 2.0)

    def curve(flow: float) -> tuple[float, float]:
        if flow < q[0]:
            return float(p[0] + first * (flow - q[0])), first
        if flow > q[-1]:
            return float(p[-1] + last * (flow - q[-1])), last
        return float(between(flow)), float(slope(flow))

    return curve


def of_flow(flow: float) -> Callable[[float], tuple[float, float]]:
    """What holds a flow whatever suction it takes, as where one looks what a flow would need.

    Parameters
    ----------
    flow : float
        [m³/s]

    Returns
    -------
    function
        Flow [m³/s] to suction [Pa] and slope [Pa·s/m³]: so steep that the flow is held to the last digits.

    Source
    ------
    Definition.

    Examples
    --------
    >>> of_flow(0.02)(0.02)[0]
    0.0
    """
    steep = 1e15
    return lambda drawn: (steep * (flow - drawn), -steep)


def air_power(flow: Numbers, pressure: Numbers) -> Numbers:
    """Power that moving air takes at best.

    Parameters
    ----------
    flow : float or ndarray
        [m³/s]
    pressure : float or ndarray
        Which the fan puts on. [Pa]

    Returns
    -------
    float or ndarray
        [W]

    Source
    ------
    Work by volume.

    Examples
    --------
    >>> air_power(0.02, 250.0)
    5.0
    """
    return flow * pressure


def electric_power(flow: Numbers, pressure: Numbers, efficiency: Numbers) -> Numbers:
    """Power from the wires of a fan.

    Parameters
    ----------
    flow : float or ndarray
        [m³/s]
    pressure : float or ndarray
        [Pa]
    efficiency : float or ndarray
        Of fan and motor together. [1]

    Returns
    -------
    float or ndarray
        [W]

    Raises
    ------
    OutOfDomain
        No efficiency.

    Source
    ------
    Definition of the efficiency.

    Examples
    --------
    >>> electric_power(0.02, 250.0, 0.1)
    50.0
    """
    above_zero(efficiency=efficiency)
    return air_power(flow, pressure) / efficiency
