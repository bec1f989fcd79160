"""The year's swing of the heat through the ground (ISO 13370): its size, when it is greatest, and the flow by month.

Formulas from memory. Held against sections solved with their swing (tests/exact/test_iso13370_swings.py): as the
standard draws the edge, the outdoor part and its lag agree closely; with a real wall, edge foam or a basement less so.
"""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain
from ..year import YEAR
from .basement import AIR

MONTHS = 12.0
EDGE = 0.37  # of perimeter × conductivity × ln(delta / d + 1), the standard's fit


def penetration_depth(conductivity: Numbers, heat_capacity: Numbers, period: Numbers = YEAR) -> Numbers:
    """Depth at which a swing of the surface has fallen to 1/e and lags by one radian.

    Parameters
    ----------
    conductivity : float or ndarray
        Of the ground. [W/(m·K)]
    heat_capacity : float or ndarray, broadcast
        By volume. [J/(m³·K)]
    period : float or ndarray, broadcast
        Of the swing. [s]

    Returns
    -------
    float or ndarray, the broadcast shape
        delta. [m]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic penetration depth; there 3.15e7 s, ours 0.2 % longer (clause: from memory).

    Examples
    --------
    >>> float(penetration_depth(2.0, 2e6, np.pi * 4e6))
    2.0
    """
    above_zero(conductivity=conductivity, heat_capacity=heat_capacity, period=period)
    return plain(np.sqrt(period * conductivity / (np.pi * heat_capacity)))


def floor_internal(area: Numbers, thickness: Numbers, penetration: Numbers, ground_conductivity: Numbers) -> Numbers:
    """Heat that a swing of the room sends through a floor on the ground, with or without edge foam, by kelvin.

    Exact for thick ground below an endless floor; heat that the swing sends around the edge is left out.

    Parameters
    ----------
    area : float or ndarray
        [m²]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pi. [W/K]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, slab on the ground (clause: from memory).

    Examples
    --------
    d = delta = 2 m, 50 m², 2 W/(m·K): 50 sqrt(2/5).

    >>> round(floor_internal(50.0, 2.0, 2.0, 2.0), 3)
    31.623
    """
    above_zero(area=area, thickness=thickness, penetration=penetration, ground_conductivity=ground_conductivity)
    ratio = 1.0 + penetration / thickness
    return plain(area * ground_conductivity / thickness * np.sqrt(2.0 / (ratio**2 + 1.0)))


def floor_external(
    exposed_perimeter: Numbers, thickness: Numbers, penetration: Numbers, ground_conductivity: Numbers
) -> Numbers:
    """Heat that a swing of outdoors draws through a floor on the ground, by kelvin.

    Parameters
    ----------
    exposed_perimeter : float or ndarray
        [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pe. [W/K]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, slab on the ground (clause: from memory).

    Examples
    --------
    d = delta, 100 m, 1 W/(m·K): 37 ln 2.

    >>> round(floor_external(100.0, 2.0, 2.0, 1.0), 3)
    25.646
    """
    above_zero(
        exposed_perimeter=exposed_perimeter,
        thickness=thickness,
        penetration=penetration,
        ground_conductivity=ground_conductivity,
    )
    return plain(EDGE * exposed_perimeter * ground_conductivity * np.log(penetration / thickness + 1.0))


def horizontal_edge_external(
    exposed_perimeter: Numbers,
    thickness: Numbers,
    added: Numbers,
    width: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of outdoors draws through a floor with a level strip of foam along its edge, by kelvin.

    Parameters
    ----------
    exposed_perimeter : float or ndarray
        [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor without the strip. [m]
    added : float or ndarray, broadcast
        Additional equivalent thickness d' of the strip. [m]
    width : float or ndarray, broadcast
        Of the strip. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pe. [W/K]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, horizontal edge insulation (clause: from memory).

    Examples
    --------
    A strip many times wider than the swing reaches is foam under all of the floor: d + d' = delta, 37 ln 2.

    >>> round(horizontal_edge_external(100.0, 0.5, 1.5, 1e3, 2.0, 1.0), 3)
    25.646
    """
    above_zero(width=width, added=added)
    under_foam = floor_external(exposed_perimeter, thickness + added, penetration, ground_conductivity)
    beyond = floor_external(exposed_perimeter, thickness, penetration, ground_conductivity)
    left = np.exp(-np.asarray(width) / penetration)
    return plain((1.0 - left) * under_foam + left * beyond)


def vertical_edge_external(
    exposed_perimeter: Numbers,
    thickness: Numbers,
    added: Numbers,
    depth: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of outdoors draws through a floor with upright foam along its edge, by kelvin.

    Parameters
    ----------
    exposed_perimeter : float or ndarray
        [m]
    thickness : float or ndarray, broadcast
        Total equivalent thickness d of the floor without that foam. [m]
    added : float or ndarray, broadcast
        Additional equivalent thickness d' of that foam. [m]
    depth : float or ndarray, broadcast
        How far it reaches down below the ground outside. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pe. [W/K]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, vertical edge insulation: as a level strip twice as wide (clause: from memory).

    Examples
    --------
    >>> round(vertical_edge_external(100.0, 0.5, 1.5, 500.0, 2.0, 1.0), 3)
    25.646
    """
    above_zero(depth=depth)
    return horizontal_edge_external(exposed_perimeter, thickness, added, 2.0 * depth, penetration, ground_conductivity)


def heated_basement_internal(
    area: Numbers,
    depth: Numbers,
    exposed_perimeter: Numbers,
    floor_thickness: Numbers,
    wall_thickness: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of the room sends through floor and walls of a heated basement, by kelvin.

    Parameters
    ----------
    area : float or ndarray
        Of the floor. [m²]
    depth : float or ndarray, broadcast
        Depth z of the floor below the ground outside. [m]
    exposed_perimeter : float or ndarray, broadcast
        [m]
    floor_thickness, wall_thickness : float or ndarray, broadcast
        Total equivalent thicknesses of floor and wall. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pi. [W/K]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, heated basement (clause: from memory).

    Examples
    --------
    All thicknesses 2 m, 40 m² of floor, 10 m² of wall, 2 W/(m·K): 50 sqrt(2/5).

    >>> round(heated_basement_internal(40.0, 2.0, 5.0, 2.0, 2.0, 2.0, 2.0), 3)
    31.623
    """
    above_zero(depth=depth, exposed_perimeter=exposed_perimeter)
    floor = floor_internal(area, floor_thickness, penetration, ground_conductivity)
    return floor + floor_internal(depth * exposed_perimeter, wall_thickness, penetration, ground_conductivity)


def heated_basement_external(
    exposed_perimeter: Numbers,
    depth: Numbers,
    floor_thickness: Numbers,
    wall_thickness: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of outdoors draws through floor and walls of a heated basement, by kelvin.

    Parameters
    ----------
    exposed_perimeter : float or ndarray
        [m]
    depth : float or ndarray, broadcast
        Depth z of the floor below the ground outside. [m]
    floor_thickness, wall_thickness : float or ndarray, broadcast
        Total equivalent thicknesses of floor and wall. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pe. [W/K]

    Raises
    ------
    OutOfDomain
        Depth below zero, or another argument zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, heated basement (clause: from memory).

    Examples
    --------
    On the level of the ground it is a slab: d = delta, 100 m, 1 W/(m·K): 37 ln 2.

    >>> round(heated_basement_external(100.0, 0.0, 2.0, 5.0, 2.0, 1.0), 3)
    25.646
    """
    not_below_zero(depth=depth)
    left = np.exp(-np.asarray(depth) / penetration)
    floor = floor_external(exposed_perimeter, floor_thickness, penetration, ground_conductivity)
    wall = floor_external(exposed_perimeter, wall_thickness, penetration, ground_conductivity)
    return plain(left * floor + 2.0 * (1.0 - left) * wall)


def unheated_basement_internal(
    area: Numbers,
    floor_above: Numbers,
    depth: Numbers,
    exposed_perimeter: Numbers,
    walls_above: Numbers,
    air_flow: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of the heated rooms sends into an unheated basement below them, by kelvin.

    Parameters
    ----------
    area : float or ndarray
        Of the floor between them. [m²]
    floor_above : float or ndarray, broadcast
        U of that floor. [W/(m²·K)]
    depth : float or ndarray, broadcast
        Depth z of the basement's floor below the ground outside. [m]
    exposed_perimeter : float or ndarray, broadcast
        [m]
    walls_above : float or ndarray, broadcast
        What the basement's walls above the ground pass: height × perimeter × U. [W/K]
    air_flow : float or ndarray, broadcast
        Outdoor air through the basement. [m³/s]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pi. [W/K]

    Raises
    ------
    OutOfDomain
        Walls above or air flow below zero, or another argument zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, unheated basement (from memory, no published value found).

    Examples
    --------
    A floor of 50 W/K over 50 m² of ground at 1 W/(m²·K), conductivity over penetration: 1 / (1/50 + 1/50).

    >>> unheated_basement_internal(40.0, 1.25, 2.0, 5.0, 0.0, 0.0, 2.0, 2.0)
    25.0
    """
    above_zero(area=area, floor_above=floor_above, depth=depth, exposed_perimeter=exposed_perimeter)
    above_zero(penetration=penetration, ground_conductivity=ground_conductivity)
    not_below_zero(walls_above=walls_above, air_flow=air_flow)
    ground = (area + depth * exposed_perimeter) * ground_conductivity / penetration
    return 1.0 / (1.0 / (area * floor_above) + 1.0 / (ground + walls_above + AIR * air_flow))


def unheated_basement_external(
    area: Numbers,
    floor_above: Numbers,
    depth: Numbers,
    exposed_perimeter: Numbers,
    floor_thickness: Numbers,
    walls_above: Numbers,
    air_flow: Numbers,
    penetration: Numbers,
    ground_conductivity: Numbers,
) -> Numbers:
    """Heat that a swing of outdoors draws from heated rooms through an unheated basement below them, by kelvin.

    Parameters
    ----------
    area : float or ndarray
        Of the floor between them. [m²]
    floor_above : float or ndarray, broadcast
        U of that floor. [W/(m²·K)]
    depth : float or ndarray, broadcast
        Depth z of the basement's floor below the ground outside. [m]
    exposed_perimeter : float or ndarray, broadcast
        [m]
    floor_thickness : float or ndarray, broadcast
        Total equivalent thickness of the basement's floor; its walls are taken as alike. [m]
    walls_above : float or ndarray, broadcast
        What the basement's walls above the ground pass: height × perimeter × U. [W/K]
    air_flow : float or ndarray, broadcast
        Outdoor air through the basement. [m³/s]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]
    ground_conductivity : float or ndarray, broadcast
        [W/(m·K)]

    Returns
    -------
    float or ndarray, the broadcast shape
        H_pe. [W/K]

    Raises
    ------
    OutOfDomain
        Walls above or air flow below zero, or another argument zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, periodic heat transfer coefficients, unheated basement (from memory, no published value found).

    Examples
    --------
    Walls that pass far more than ground and floor hold the basement at outdoors: area × U of the floor above.

    >>> round(unheated_basement_external(40.0, 1.25, 2.0, 5.0, 2.0, 1e9, 0.0, 2.0, 2.0), 3)
    50.0
    """
    above_zero(area=area, floor_above=floor_above, depth=depth)
    not_below_zero(walls_above=walls_above, air_flow=air_flow)
    outdoors = walls_above + AIR * air_flow
    through_ground = heated_basement_external(
        exposed_perimeter, depth, floor_thickness, floor_thickness, penetration, ground_conductivity
    )
    ground = (area + depth * exposed_perimeter) * ground_conductivity / penetration
    above = area * floor_above
    return above * (through_ground + outdoors) / (ground + outdoors + above)


def lead_before_room(thickness: Numbers, penetration: Numbers) -> Numbers:
    """How long before the room is warmest the flow through a floor on the ground is greatest.

    Parameters
    ----------
    thickness : float or ndarray
        Total equivalent thickness d of the floor. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        alpha, from 0 with much foam to 1.5 on bare ground; the standard also rounds it to 0. [month]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, phase differences, slab on the ground (from memory); exact for thick ground.

    Examples
    --------
    d = delta: 1.5 - 6/pi arctan(1/2).

    >>> round(lead_before_room(2.0, 2.0), 4)
    0.6145
    """
    above_zero(thickness=thickness, penetration=penetration)
    return plain(1.5 - MONTHS / (2.0 * np.pi) * np.arctan(thickness / np.add(thickness, penetration)))


def lag_behind_outdoors(thickness: Numbers, penetration: Numbers) -> Numbers:
    """How long after outdoors is coldest the flow through a floor on the ground is greatest.

    Parameters
    ----------
    thickness : float or ndarray
        Total equivalent thickness d of the floor. [m]
    penetration : float or ndarray, broadcast
        Penetration depth of the year. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        beta; the standard also rounds it to 1. [month]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    ISO 13370:2017, phase differences, slab on the ground (from memory).

    Examples
    --------
    d = delta: 1.5 - 0.42 ln 2.

    >>> round(lag_behind_outdoors(2.0, 2.0), 4)
    1.2089
    """
    above_zero(thickness=thickness, penetration=penetration)
    return plain(1.5 - 0.42 * np.log(penetration / thickness + 1.0))


def monthly_flow(
    steady: Numbers,
    internal: Numbers,
    external: Numbers,
    room: tuple[Numbers, Numbers],
    outdoors: tuple[Numbers, Numbers],
    coldest: Numbers,
    lead: Numbers,
    lag: Numbers,
) -> Numbers:
    """Heat that leaves the room through the ground, month by month.

    Parameters
    ----------
    steady : float or ndarray
        H_g, ground and edges. [W/K]
    internal, external : float or ndarray, broadcast
        H_pi and H_pe. [W/K]
    room, outdoors : tuple of mean and amplitude, floats or ndarrays, broadcast
        Of the year; an amplitude is half of the swing of the monthly means. [degC, K]
    coldest : float or ndarray, broadcast
        Month in which room and outdoors are coldest, 1 for January. [month]
    lead : float or ndarray, broadcast
        Of the flow before the room. [month]
    lag : float or ndarray, broadcast
        Of the flow behind outdoors. [month]

    Returns
    -------
    ndarray, the broadcast shape and (12,)
        January to December; below zero where the room takes heat in. [W]

    Raises
    ------
    OutOfDomain
        Steady not above zero, or internal or external below zero.

    Source
    ------
    ISO 13370:2017, monthly heat flow rate (clause: from memory).

    Examples
    --------
    10 W/K and 20 K less, and 5 W/K of a swing of 8 K that comes a month after January.

    >>> monthly_flow(10.0, 0.0, 5.0, (20.0, 0.0), (0.0, 8.0), 1.0, 0.0, 1.0).round(0)[:3]
    array([235., 240., 235.])
    """
    above_zero(steady=steady)
    not_below_zero(internal=internal, external=external)
    months = np.arange(1.0, MONTHS + 1.0)

    def each(value: Numbers) -> Numbers:
        return np.asarray(value)[..., np.newaxis]

    def swung(coefficient: Numbers, amplitude: Numbers, shift: Numbers) -> Numbers:
        turn = 2.0 * np.pi * (months - each(coldest) + each(shift)) / MONTHS
        return each(coefficient) * each(amplitude) * np.cos(turn)

    mean = each(steady) * (each(room[0]) - each(outdoors[0]))
    return mean - swung(internal, room[1], lead) + swung(external, outdoors[1], -np.asarray(lag))
