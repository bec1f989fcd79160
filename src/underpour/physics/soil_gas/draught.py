"""A pipe that draws by itself: warm air in it is lighter than that outdoors. In summer it may be the other way."""

from __future__ import annotations

from collections.abc import Callable
from math import exp, pi

from ..domain import above_zero, not_below_zero
from ..moisture.air import saturation_pressure

GRAVITY = 9.81  # m/s²
HEAT_CAPACITY = 1006.0  # J/(kg·K) of air
DRY_AIR, VAPOUR = 287.06, 461.5  # J/(kg·K), gas constants
PRESSURE = 101325.0  # Pa
ABSOLUTE = 273.15
STILL = 1e-7  # m³/s
APART = 1e-4


def air_density(temperature: float, pressure: float = PRESSURE) -> float:
    """Density of dry air.

    Parameters
    ----------
    temperature : float
        [°C]
    pressure : float
        [Pa]

    Returns
    -------
    float
        [kg/m³]

    Raises
    ------
    OutOfDomain
        Below absolute nought, or no pressure.

    Source
    ------
    Ideal gas.

    Examples
    --------
    >>> round(air_density(20.0), 3)
    1.204
    """
    above_zero(absolute=temperature + ABSOLUTE, pressure=pressure)
    return pressure / (DRY_AIR * (temperature + ABSOLUTE))


def pipe_air(
    flow: float, enters: float, surroundings: float, bore: float, length: float, transmittance: float
) -> float:
    """Mean temperature of the air in a pipe that takes up heat from what it stands in.

    Parameters
    ----------
    flow : float
        Above nought; nearly nought is still air. [m³/s]
    enters : float
        Temperature of the air where it enters. [°C]
    surroundings : float
        Temperature of the room round the pipe. [°C]
    bore : float
        [m]
    length : float
        [m]
    transmittance : float
        Heat through the pipe's wall with both films. [W/(m²·K)]

    Returns
    -------
    float
        [°C]

    Raises
    ------
    OutOfDomain
        Flow below nought, no bore, no length.

    Source
    ------
    Heat balance of a stream, temperature coming nearer to that round it by exp(-x/l), l = ρ c Q / (π d U) (derived).

    Examples
    --------
    Hardly any flow: the air is as warm as the room.

    >>> round(pipe_air(1e-9, enters=8.0, surroundings=20.0, bore=0.1, length=6.0, transmittance=5.0), 3)
    20.0
    """
    not_below_zero(flow=flow, transmittance=transmittance)
    above_zero(bore=bore, length=length)
    if flow < STILL:
        return surroundings if transmittance > 0.0 else enters
    along = air_density(enters) * HEAT_CAPACITY * flow / (pi * bore)
    turns = transmittance * length / along
    share = (1.0 - exp(-turns)) / turns if turns > 1e-9 else 1.0
    return surroundings + (enters - surroundings) * share


def draught(inside: float, outdoors: float, rise: float) -> float:
    """Suction at the foot of a pipe by what its air is lighter than the air outdoors; below nought where it is heavier.

    Parameters
    ----------
    inside : float
        Mean temperature in the pipe. [°C]
    outdoors : float
        [°C]
    rise : float
        Height from the slab to the outlet. [m]

    Returns
    -------
    float
        [Pa]

    Raises
    ------
    OutOfDomain
        A rise below nought.

    Source
    ------
    Hydrostatics of two columns of ideal gas. Wind is not in it.

    Examples
    --------
    >>> round(draught(inside=20.0, outdoors=0.0, rise=6.0), 2), draught(20.0, 20.0, 6.0)
    (5.19, 0.0)
    """
    not_below_zero(rise=rise)
    return (air_density(outdoors) - air_density(inside)) * GRAVITY * rise


def by_itself(
    below: float,
    surroundings: float,
    outdoors: float,
    rise: float,
    bore: float,
    length: float,
    transmittance: float,
    loss: Callable[[float], tuple[float, float]],
) -> Callable[[float], tuple[float, float]]:
    """Suction that a pipe without a fan holds at its foot over what flows through it, up or down.

    Parameters
    ----------
    below : float
        Temperature of the air under the slab. [°C]
    surroundings : float
        Temperature of the rooms round the pipe. [°C]
    outdoors : float
        [°C]
    rise : float
        [m]
    bore : float
        [m]
    length : float
        [m]
    transmittance : float
        [W/(m²·K)]
    loss : function
        Losses of the pipe over the flow. [Pa]

    Returns
    -------
    function
        Flow [m³/s] to suction [Pa] and slope [Pa·s/m³].

    Source
    ------
    ``draught`` less the losses; air that comes down the pipe enters it at the temperature outdoors.

    Examples
    --------
    A winter's day: 5 Pa where nothing flows, less where air flows.

    >>> curve = by_itself(8.0, 20.0, 0.0, 6.0, 0.1, 8.0, 5.0, lambda flow: (0.0, 0.0))
    >>> round(curve(0.0)[0], 2), curve(0.01)[0] < 5.0
    (5.19, True)
    """

    def pulled(flow: float) -> float:
        enters = below if flow >= 0.0 else outdoors
        return draught(pipe_air(abs(flow), enters, surroundings, bore, length, transmittance), outdoors, rise)

    def curve(flow: float) -> tuple[float, float]:
        taken, steep = loss(flow)
        apart = max(APART * abs(flow), 10.0 * STILL)
        slope = (pulled(flow + apart) - pulled(flow - apart)) / (2.0 * apart)
        return pulled(flow) - taken, min(slope, 0.0) - steep

    return curve


def sag_that_holds(slope: float, apart: float) -> float:
    """Sag between two hangers from which on water stands in a pipe that falls.

    Parameters
    ----------
    slope : float
        Fall over length, from hanger to hanger. [1]
    apart : float
        From hanger to hanger. [m]

    Returns
    -------
    float
        In the middle, below the straight line. [m]

    Raises
    ------
    OutOfDomain
        A slope below nought, hangers in one place.

    Source
    ------
    A parabola is steepest at its hangers, by 4 f / L; where that is more than the fall the pipe climbs (derived).

    Examples
    --------
    >>> sag_that_holds(slope=0.01, apart=2.0)
    0.005
    """
    not_below_zero(slope=slope)
    above_zero(apart=apart)
    return slope * apart / 4.0


def condensate(flow: float, below: float, coldest: float) -> float:
    """Water that condenses in a pipe whose wall is colder than the damp air from under the slab.

    Parameters
    ----------
    flow : float
        [m³/s]
    below : float
        Temperature of the air under the slab, taken as saturated. [°C]
    coldest : float
        Coldest temperature of the pipe's wall. [°C]

    Returns
    -------
    float
        [kg/s]

    Raises
    ------
    OutOfDomain
        Flow below nought.

    Source
    ------
    Water vapour as ideal gas at saturation on both ends; all the air comes to the coldest wall, so this is the most.

    Examples
    --------
    >>> round(condensate(0.02, below=10.0, coldest=0.0) * 86400.0, 1)  # kg a day
    7.9
    """
    not_below_zero(flow=flow)
    warm = saturation_pressure(below) / (VAPOUR * (below + ABSOLUTE))
    cold = saturation_pressure(min(coldest, below)) / (VAPOUR * (min(coldest, below) + ABSOLUTE))
    return flow * max(warm - cold, 0.0)
