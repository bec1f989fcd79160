"""Radon in rooms: what comes in with soil gas and through concrete, what air and decay take away, how sure it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache
from statistics import NormalDist
from typing import Any

import numpy as np

from .domain import Numbers, OutOfDomain, above_zero, not_below_zero, plain
from .ground import characteristic_dimension, floor_transmittance

VISCOSITY = 1.81e-5  # Pa·s, of air at 20 °C and not far from it
POINTS = 32768  # so many that one in ten lies within 3 % of its level though ground is spread by decades


def decay(half_life: Numbers) -> Numbers:
    """How fast a radioactive gas decays.

    Parameters
    ----------
    half_life : float or ndarray
        Time in which half of it is gone. [s]

    Returns
    -------
    float or ndarray
        Decay constant. [1/s]

    Raises
    ------
    OutOfDomain
        The half-life is not above zero.

    Source
    ------
    Law of radioactive decay: ln 2 over the half-life.

    Examples
    --------
    >>> round(decay(3.8235 * 86400.0) * 3600.0, 7)  # radon-222, 1/h
    0.0075536
    """
    above_zero(half_life=half_life)
    return plain(np.log(2.0) / np.asarray(half_life))


def indoor_level(
    entry: Numbers, volume: Numbers, air_change: Numbers, outdoor: Numbers = 0.0, decay: Numbers = 0.0
) -> Numbers:
    """Steady level of a radioactive gas in rooms whose air is well mixed.

    Parameters
    ----------
    entry : float or ndarray
        What comes in from the ground. [Bq/s]
    volume : float or ndarray
        Air of the rooms. [m³]
    air_change : float or ndarray
        Air that comes in from everywhere, soil gas counted, over the volume. [1/s]
    outdoor : float or ndarray
        Level in the air outdoors. [Bq/m³]
    decay : float or ndarray
        Decay constant. [1/s]

    Returns
    -------
    float or ndarray, the broadcast shape
        Level in the rooms. [Bq/m³]

    Raises
    ------
    OutOfDomain
        Volume or air change not above zero; anything else below zero.

    Source
    ------
    National Research Council, Risk assessment of radon in drinking water (1999), equation 8.1 (quoted), with decay
    added as steady mass balance.

    Examples
    --------
    >>> round(indoor_level(40500.0 / 3600.0, 300.0, 0.9 / 3600.0), 6)  # 40,500 Bq/h, 300 m³, 0.9 1/h
    150.0
    """
    above_zero(volume=volume, air_change=air_change)
    not_below_zero(entry=entry, outdoor=outdoor, decay=decay)
    volume, air_change, decay = np.asarray(volume), np.asarray(air_change), np.asarray(decay)
    return plain((np.asarray(entry) + air_change * volume * np.asarray(outdoor)) / (volume * (air_change + decay)))


def entry_for(level: Numbers, volume: Numbers, air_change: Numbers) -> Numbers:
    """What must come in from the ground to keep a level, decay and the air outdoors left out.

    Parameters
    ----------
    level : float or ndarray
        Level in the rooms. [Bq/m³]
    volume : float or ndarray
        Air of the rooms. [m³]
    air_change : float or ndarray
        Air that comes in, over the volume. [1/s]

    Returns
    -------
    float or ndarray, the broadcast shape
        [Bq/s]

    Raises
    ------
    OutOfDomain
        Volume or air change not above zero, a level below zero.

    Source
    ------
    National Research Council, Risk assessment of radon in drinking water (1999), equation 8.1 (quoted).

    Examples
    --------
    >>> entry_for(150.0, 300.0, 0.9 / 3600.0)
    11.25
    """
    above_zero(volume=volume, air_change=air_change)
    not_below_zero(level=level)
    return plain(np.asarray(level) * np.asarray(volume) * np.asarray(air_change))


def through_ground(permeability: Numbers, area: Numbers, perimeter: Numbers, wall: Numbers, depth: Numbers) -> Numbers:
    """How much air a pressure drives from the open ground outside to a floor below which stone spreads it.

    Steady flow through ground of one permeability obeys the same equation as heat, so the floor's steady loss by
    ISO 13370 gives it, permeability over viscosity in the place of conductivity and no films.

    Parameters
    ----------
    permeability : float or ndarray
        Of the ground. [m²]
    area, perimeter : float or ndarray
        Of the floor. [m², m]
    wall : float or ndarray
        Thickness of the wall round it. [m]
    depth : float or ndarray
        How deep the floor lies below the ground outside. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        Flow for each pascal. [m³/(s·Pa)]

    Raises
    ------
    OutOfDomain
        Any but the depth not above zero, or a depth below zero.

    Source
    ------
    ISO 13370:2017, floor on ground and basement floor (from memory), by analogy.

    Examples
    --------
    >>> round(through_ground(1e-11, 100.0, 40.0, 0.3, 0.0) * 3600.0, 6)  # m³/h for each Pa
    0.098828
    """
    above_zero(permeability=permeability, area=area, perimeter=perimeter, wall=wall)
    not_below_zero(depth=depth)
    mobility = np.asarray(permeability) / VISCOSITY
    dimension = characteristic_dimension(area, perimeter)
    return plain(np.asarray(area) * floor_transmittance(dimension, wall, mobility, depth))


def through_ground_to_a_joint(permeability: Numbers, length: Numbers, depth: Numbers, width: Numbers) -> Numbers:
    """How much air a pressure drives through the ground to an open joint below which no stone spreads it.

    The joint is taken as a cylinder with half of its width as its radius.

    Parameters
    ----------
    permeability : float or ndarray
        Of the ground. [m²]
    length : float or ndarray
        Of the joint. [m]
    depth : float or ndarray
        How deep it lies below the ground outside. [m]
    width : float or ndarray
        Of the joint. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        Flow for each pascal. [m³/(s·Pa)]

    Raises
    ------
    OutOfDomain
        Anything not above zero; a joint wider than twice its depth.

    Source
    ------
    Nazaroff, Moed and Sextro 1988, buried cylinder below a flat surface (from memory).

    Examples
    --------
    >>> round(through_ground_to_a_joint(1e-11, 40.0, 2.0, 0.001) * 3600.0, 5)
    0.05562
    """
    above_zero(permeability=permeability, length=length, depth=depth, width=width)
    radius = np.asarray(width) / 2.0
    if not np.all(2.0 * np.asarray(depth) > radius):
        raise OutOfDomain("the joint is wider than it is deep")
    shape = 2.0 * np.pi * np.asarray(length) / np.log(2.0 * np.asarray(depth) / radius)
    return plain(np.asarray(permeability) / VISCOSITY * shape)


def through_joint(width: Numbers, length: Numbers, thickness: Numbers) -> Numbers:
    """How much air a pressure drives through an open joint with parallel faces.

    Parameters
    ----------
    width : float or ndarray
        Between its faces. [m]
    length : float or ndarray
        Along the wall. [m]
    thickness : float or ndarray
        Of the slab. [m]

    Returns
    -------
    float or ndarray, the broadcast shape
        Flow for each pascal, slow flow. [m³/(s·Pa)]

    Raises
    ------
    OutOfDomain
        Length or thickness not above zero, a width below zero.

    Source
    ------
    Flow between parallel plates (Poiseuille; the cubic law): width cubed over twelve times viscosity and thickness.

    Examples
    --------
    >>> round(through_joint(0.0005, 40.0, 0.1) * 3600.0, 4)
    0.8287
    """
    above_zero(length=length, thickness=thickness)
    not_below_zero(width=width)
    return plain(np.asarray(width) ** 3 * np.asarray(length) / (12.0 * VISCOSITY * np.asarray(thickness)))


def one_after_another(first: Numbers, second: Numbers) -> Numbers:
    """What two ways let through that air must go through both.

    Parameters
    ----------
    first, second : float or ndarray
        Flow for each pascal. [m³/(s·Pa)]

    Returns
    -------
    float or ndarray, the broadcast shape
        Flow for each pascal. [m³/(s·Pa)]

    Raises
    ------
    OutOfDomain
        Either is below zero, or both are nought.

    Source
    ------
    Resistances in a row add.

    Examples
    --------
    >>> one_after_another(1.0, 1.0)
    0.5
    """
    not_below_zero(first=first, second=second)
    first, second = np.asarray(first), np.asarray(second)
    above_zero(sum=first + second)
    return plain(first * second / (first + second))


def through_concrete(diffusion: Numbers, area: Numbers, thickness: Numbers, below: Numbers) -> Numbers:
    """What radon spreads through sound concrete by itself.

    Parameters
    ----------
    diffusion : float or ndarray
        Of radon in the concrete, pores and all. [m²/s]
    area, thickness : float or ndarray
        Of the slab. [m², m]
    below : float or ndarray
        Radon in the gas below it, above which that in the rooms is little. [Bq/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        [Bq/s]

    Raises
    ------
    OutOfDomain
        Area or thickness not above zero, anything else below zero.

    Source
    ------
    Fick's law for a plate, decay on the way left out, which makes it somewhat too much.

    Examples
    --------
    >>> round(through_concrete(5e-9, 100.0, 0.1, 30000.0), 4)
    0.15
    """
    above_zero(area=area, thickness=thickness)
    not_below_zero(diffusion=diffusion, below=below)
    return plain(np.asarray(diffusion) * np.asarray(area) * np.asarray(below) / np.asarray(thickness))


def cases(spreads: Mapping[str, tuple[float, float]]) -> dict[str, Any]:
    """Many cases of numbers that are spread log-normally and know nothing of one another, always the same ones.

    Parameters
    ----------
    spreads : mapping of name to two floats
        Middle (median) of each, in its own unit, and the standard deviation of its logarithm as a factor. [any, 1]

    Returns
    -------
    dict of name to ndarray, shape (POINTS,)
        Each number in each case. [any]

    Raises
    ------
    OutOfDomain
        A middle not above zero, a factor below one.

    Source
    ------
    Points at which no two dimensions fall into step: multiples of powers of the root of x^(d+1) = x + 1 (the golden
    ratio where d is one), by their order turned into normal deviates, and each case
    with its mirror image.

    Examples
    --------
    >>> found = cases({"k": (1e-11, 10.0)})["k"]
    >>> round(float(np.median(found)) * 1e11, 2), round(float(np.quantile(found, 0.84134)) * 1e11, 1)
    (1.0, 10.0)
    """
    above_zero(middles=[middle for middle, _ in spreads.values()])
    if any(not factor >= 1.0 for _, factor in spreads.values()):
        raise OutOfDomain("a factor of spread is one or more")
    deviates = _deviates(len(spreads))
    return {
        name: middle * np.exp(np.log(factor) * deviates[:, n])
        for n, (name, (middle, factor)) in enumerate(spreads.items())
    }


def shares(levels: Numbers, ends: Sequence[float]) -> tuple[float, ...]:
    """The levels below which those shares of all cases lie.

    Parameters
    ----------
    levels : ndarray, shape (n,)
        Level of each case, all alike likely. [Bq/m³]
    ends : sequence of floats
        Shares of all cases, between nought and one. [1]

    Returns
    -------
    tuple of floats, as many as ``ends``
        [Bq/m³]

    Raises
    ------
    OutOfDomain
        No case, or a share outside nought and one.

    Source
    ------
    Order statistics, linear between neighbours.

    Examples
    --------
    >>> shares(np.array([1.0, 2.0, 3.0]), (0.5,))
    (2.0,)
    """
    if np.size(levels) == 0 or any(not 0.0 <= end <= 1.0 for end in ends):
        raise OutOfDomain("shares of at least one case lie between nought and one")
    return tuple(float(level) for level in np.quantile(levels, ends))


@cache
def _deviates(count: int) -> Any:
    root = 2.0
    for _ in range(60):
        root = (1.0 + root) ** (1.0 / (count + 1.0))
    steps = root ** -np.arange(1, count + 1)
    half = POINTS // 2
    places = (0.5 + np.outer(np.arange(1, half + 1), steps)) % 1.0
    inverse = NormalDist().inv_cdf
    along = np.array([inverse((n + 0.5) / half) for n in range(half)])
    one = along[np.argsort(np.argsort(places, axis=0), axis=0)]  # each dimension by itself is even
    made = np.vstack([one, -one])
    made.setflags(write=False)
    return made
