"""Thick ground under its surface: a sudden change, with and without a surface film, and layers that swing on it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain


def stepped_temperature(
    depth: Numbers, time: Numbers, before: Numbers, surface: Numbers, diffusivity: Numbers
) -> Numbers:
    """Ground of one temperature whose surface takes on another at once, some time after.

    Parameters
    ----------
    depth : float or ndarray
        Below the surface. [m]
    time : float or ndarray, broadcast
        Since the change. [s]
    before : float or ndarray, broadcast
        Temperature of all ground before. [degC]
    surface : float or ndarray, broadcast
        Temperature of the surface since. [degC]
    diffusivity : float or ndarray, broadcast
        [m²/s]

    Returns
    -------
    float or ndarray, the broadcast shape
        [degC]

    Raises
    ------
    OutOfDomain
        Time or diffusivity not above zero, or a depth below zero.

    Source
    ------
    Carslaw and Jaeger, Conduction of Heat in Solids, 2.4 (from memory).

    Examples
    --------
    >>> round(stepped_temperature(2.0, 1e6, 10.0, 0.0, 1e-6), 3)  # 10 erf(1)
    8.427
    """
    from scipy.special import erf  # loaded where it is worked out: few answers ask for it

    above_zero(time=time, diffusivity=diffusivity)
    not_below_zero(depth=depth)
    return plain(surface + (np.subtract(before, surface)) * erf(depth / (2.0 * np.sqrt(diffusivity * time))))


def step_under_a_film(
    depth: Numbers, time: Numbers, conductivity: Numbers, heat_capacity: Numbers, film: Numbers
) -> Numbers:
    """Share of a sudden change of the air that has reached a depth of thick ground under a surface film.

    Parameters
    ----------
    depth : float or ndarray
        Below the surface. [m]
    time : float or ndarray, broadcast
        Since the change. [s]
    conductivity : float or ndarray, broadcast
        [W/(m·K)]
    heat_capacity : float or ndarray, broadcast
        By volume. [J/(m³·K)]
    film : float or ndarray, broadcast
        Surface resistance between air and ground. [m²·K/W]

    Returns
    -------
    float or ndarray, the broadcast shape
        From 0, as before, to 1, as warm as the air. [1]

    Raises
    ------
    OutOfDomain
        An argument but the depth not above zero, or a depth below zero.

    Source
    ------
    Carslaw and Jaeger, Conduction of Heat in Solids, 2.7 (from memory).

    Examples
    --------
    At the surface, when diffusivity × time is (conductivity × film)²: 1 - e erfc(1).

    >>> round(step_under_a_film(0.0, 1e4, 1.0, 1e6, 0.1), 4)
    0.5724
    """
    from scipy.special import erfcx  # as above

    above_zero(time=time, conductivity=conductivity, heat_capacity=heat_capacity, film=film)
    not_below_zero(depth=depth)
    reach = np.sqrt(conductivity * time / heat_capacity)
    near, far = depth / (2.0 * reach), reach / (conductivity * film)
    # exp(a) erfc(b) as erfcx(b) exp(a - b²): the plain product overflows once the film matters little.
    return plain(np.exp(-(near**2)) * (erfcx(near) - erfcx(near + far)))


def admittance(
    layers: Sequence[tuple[float, float, float]],
    ground_conductivity: float,
    ground_heat_capacity: float,
    film: float,
    period: float,
) -> complex:
    """Heat that flows into layers on thick ground for one kelvin of the air's swing.

    Parameters
    ----------
    layers : sequence of (thickness, conductivity, heat capacity)
        From the air downwards. [m, W/(m·K), J/(m³·K)]
    ground_conductivity : float
        [W/(m·K)]
    ground_heat_capacity : float
        By volume. [J/(m³·K)]
    film : float
        Surface resistance between air and the first layer; 0 for none. [m²·K/W]
    period : float
        Of the swing. [s]

    Returns
    -------
    complex
        Its size is the flow's amplitude, its angle how far the flow leads the air. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        A film below zero, or any other number not above zero.

    Source
    ------
    ISO 13786 for layers in series (from memory); Carslaw and Jaeger for the half-space, whose flow leads by 45°.

    Examples
    --------
    Bare ground without a film, penetration 1 m: (1 + i) × conductivity.

    >>> complex(np.round(admittance((), 2.0, 2e6, 0.0, np.pi * 1e6), 9))
    (2+2j)
    """
    above_zero(
        layers=[n for layer in layers for n in layer] or 1.0,
        ground_conductivity=ground_conductivity,
        ground_heat_capacity=ground_heat_capacity,
        period=period,
    )
    not_below_zero(film=film)
    below = ground_conductivity * _wave(ground_conductivity, ground_heat_capacity, period)
    for thickness, conductivity, heat_capacity in reversed(layers):
        wave = _wave(conductivity, heat_capacity, period)
        own, turned = conductivity * wave, np.tanh(wave * thickness)
        below = own * (below + own * turned) / (own + below * turned)
    return complex(below / (1.0 + film * below))


def _wave(conductivity: float, heat_capacity: float, period: float) -> complex:
    """(1 + i) over the depth of penetration. [1/m]"""
    return complex((1.0 + 1.0j) / np.sqrt(period * conductivity / (np.pi * heat_capacity)))
