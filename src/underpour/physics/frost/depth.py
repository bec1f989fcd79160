"""How deep frost goes, by formula: Stefan, Berggren, ISO 13793 for open ground, and the exact front of Neumann."""

from __future__ import annotations

import numpy as np

from ..domain import Numbers, above_zero, not_below_zero, plain

FUSION = 334e3  # J/kg, ice that melts


def latent_heat(dry_density: Numbers, water_content: Numbers, fusion: Numbers = FUSION) -> Numbers:
    """Heat that a volume of ground gives off when all of its water freezes.

    Parameters
    ----------
    dry_density : float or ndarray
        [kg/m³]
    water_content : float or ndarray, broadcast
        Mass of water over mass of dry ground. [1]
    fusion : float or ndarray, broadcast
        Of water, by mass. [J/kg]

    Returns
    -------
    float or ndarray, the broadcast shape
        L. [J/m³]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN: dry ground has no frost line of this kind.

    Source
    ------
    Definition; UFC 3-130-06 (from memory).

    Examples
    --------
    >>> latent_heat(1500.0, 0.2)  # 300 kg of water
    100200000.0
    """
    above_zero(dry_density=dry_density, water_content=water_content, fusion=fusion)
    return dry_density * water_content * fusion


def stefan_depth(conductivity: Numbers, freezing_index: Numbers, latent: Numbers) -> Numbers:
    """Depth that frost reaches if all heat it meets is that of freezing water: the deepest it can be.

    Parameters
    ----------
    conductivity : float or ndarray
        Of the frozen ground. [W/(m·K)]
    freezing_index : float or ndarray, broadcast
        Of the ground's surface: degrees below freezing, summed over the winter. [K·s]
    latent : float or ndarray, broadcast
        Latent heat of the ground by volume. [J/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        [m]

    Raises
    ------
    OutOfDomain
        Conductivity or latent heat not above zero, or an index below zero.

    Source
    ------
    Stefan; UFC 3-130-06 and handbooks of cold regions (formula quoted).

    Examples
    --------
    >>> stefan_depth(2.0, 25e6, 1e8)  # sqrt(2 × 2 × 25e6 / 1e8)
    1.0
    """
    above_zero(conductivity=conductivity, latent=latent)
    not_below_zero(freezing_index=freezing_index)
    return plain(np.sqrt(2.0 * conductivity * freezing_index / latent))


def thermal_ratio(warmth: Numbers, cold: Numbers) -> Numbers:
    """How far above freezing the ground begins, against how far below its surface is over the winter.

    Parameters
    ----------
    warmth : float or ndarray
        Mean of the year less the freezing point (for thaw into frozen ground: below it). [K]
    cold : float or ndarray, broadcast
        Freezing index of the surface over the length of the winter. [K]

    Returns
    -------
    float or ndarray, the broadcast shape
        alpha. [1]

    Raises
    ------
    OutOfDomain
        Warmth below zero or cold not above zero.

    Source
    ------
    UFC 3-130-04 and 3-130-06, modified Berggren (formula quoted).

    Examples
    --------
    >>> thermal_ratio(6.0, 8.0)
    0.75
    """
    not_below_zero(warmth=warmth)
    above_zero(cold=cold)
    return warmth / cold


def fusion_parameter(cold: Numbers, heat_capacity: Numbers, latent: Numbers) -> Numbers:
    """Heat that cools the ground, against the heat that freezes its water.

    Parameters
    ----------
    cold : float or ndarray
        Freezing index of the surface over the length of the winter. [K]
    heat_capacity : float or ndarray, broadcast
        By volume, mean of frozen and not. [J/(m³·K)]
    latent : float or ndarray, broadcast
        Latent heat by volume. [J/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        mu. [1]

    Raises
    ------
    OutOfDomain
        An argument is zero, negative or NaN.

    Source
    ------
    UFC 3-130-06, modified Berggren (formula quoted).

    Examples
    --------
    >>> fusion_parameter(5.0, 2e6, 1e8)
    0.1
    """
    above_zero(cold=cold, heat_capacity=heat_capacity, latent=latent)
    return cold * heat_capacity / latent


def berggren_factor(ratio: Numbers, fusion: Numbers) -> Numbers:
    """What Stefan's depth is multiplied by for the heat that ground gives off before and after it freezes.

    Parameters
    ----------
    ratio : float or ndarray
        Thermal ratio alpha. [1]
    fusion : float or ndarray, broadcast
        Fusion parameter mu. [1]

    Returns
    -------
    float or ndarray, the broadcast shape
        lambda, at most 1; a fit, on the high side in mild places. [1]

    Raises
    ------
    OutOfDomain
        An argument is negative or NaN.

    Source
    ------
    Aldrich and Paynter 1953, fit to the modified Berggren chart (quoted).

    Examples
    --------
    >>> round(berggren_factor(1.5, 0.28125), 6)  # 1 / sqrt(1 + 0.28125 × 2) = 1 / 1.25
    0.8
    """
    not_below_zero(ratio=ratio, fusion=fusion)
    return plain(1.0 / np.sqrt(1.0 + fusion * (np.add(ratio, 0.5))))


def undisturbed_depth(
    freezing_index: Numbers, mean: Numbers, conductivity: Numbers, heat_capacity: Numbers, latent: Numbers
) -> Numbers:
    """Frost depth in open ground without snow, as the standard for shallow foundations takes it.

    Parameters
    ----------
    freezing_index : float or ndarray
        Of the air, design winter. [K·s]
    mean : float or ndarray, broadcast
        Of the air over the year. [degC]
    conductivity : float or ndarray, broadcast
        Of the frozen ground. [W/(m·K)]
    heat_capacity : float or ndarray, broadcast
        Of the unfrozen ground, by volume. [J/(m³·K)]
    latent : float or ndarray, broadcast
        By volume. [J/m³]

    Returns
    -------
    float or ndarray, the broadcast shape
        H0. [m]

    Raises
    ------
    OutOfDomain
        A mean that is not above zero (the standard does not hold there), conductivity, capacity or latent heat not
        above zero, an index below zero.

    Source
    ------
    ISO 13793:2001, clause 7 (from memory): sqrt(7200 F λ / (L + C θ)), F in K·h.

    Examples
    --------
    >>> undisturbed_depth(8e7, 5.0, 2.5, 2e6, 9e7)  # sqrt(2 × 8e7 × 2.5 / (9e7 + 1e7))
    2.0
    """
    above_zero(mean=mean, conductivity=conductivity, heat_capacity=heat_capacity, latent=latent)
    not_below_zero(freezing_index=freezing_index)
    return plain(np.sqrt(2.0 * freezing_index * conductivity / (latent + heat_capacity * np.asarray(mean))))


def behind_a_resistance(depth: Numbers, conductivity: Numbers, resistance: Numbers) -> Numbers:
    """Stefan's depth below something that lies on the ground and conducts without storing.

    Parameters
    ----------
    depth : float or ndarray
        Stefan's depth of the bare ground. [m]
    conductivity : float or ndarray, broadcast
        Of the frozen ground. [W/(m·K)]
    resistance : float or ndarray, broadcast
        Of what lies on it. [m²·K/W]

    Returns
    -------
    float or ndarray, the broadcast shape
        Below the covering. [m]

    Raises
    ------
    OutOfDomain
        Depth or resistance below zero, conductivity not above zero.

    Source
    ------
    Derived from Stefan's balance: the ground as thick as the resistance, k R, comes before the depth. The
    index spent over a depth x is L (x²/(2k) + R x).

    Examples
    --------
    >>> behind_a_resistance(1.25, 2.0, 0.5)  # sqrt(1 + 1.5625) - 1, a covering like 1 m of ground
    0.6007810593582121
    """
    not_below_zero(depth=depth, resistance=resistance)
    above_zero(conductivity=conductivity)
    like = np.multiply(conductivity, resistance)
    return plain(np.sqrt(like**2 + np.square(depth)) - like)


def neumann_front(
    time: Numbers,
    surface: float,
    initial: float,
    frozen: tuple[float, float],
    unfrozen: tuple[float, float],
    latent: float,
) -> Numbers:
    """Exact depth of the freezing front in endless ground of one temperature, after its surface is made cold.

    Parameters
    ----------
    time : float or ndarray
        Since then. [s]
    surface : float
        How far the surface lies below freezing, above zero. [K]
    initial : float
        How far the ground lay above freezing. [K]
    frozen, unfrozen : tuples of two floats
        Conductivity and heat capacity of each. [W/(m·K), J/(m³·K)]
    latent : float
        By volume. [J/m³]

    Returns
    -------
    float or ndarray, shape of ``time``
        [m]

    Raises
    ------
    OutOfDomain
        Time or ``initial`` below zero, anything else not above zero.

    Source
    ------
    Carslaw and Jaeger 1959, 11.2 (from memory): Neumann's transcendental equation, solved by halving.

    Examples
    --------
    The ground of ISO 13793, 150 days of 8.33 K below freezing:

    >>> ground = (2.5, 1.9e6), (1.5, 3e6), 1.5e8
    >>> round(neumann_front(150 * 86400.0, 8.3333, 5.0, *ground), 3)
    1.681
    """
    from math import erf, erfc, exp, pi, sqrt

    not_below_zero(time=time, initial=initial)
    above_zero(surface=surface, latent=latent, frozen=frozen, unfrozen=unfrozen)
    (k_f, c_f), (k_u, c_u) = frozen, unfrozen
    spread = k_f / c_f
    between = sqrt(spread / (k_u / c_u))

    def surplus(front: float) -> float:
        outward = k_f * surface * exp(-(front**2)) / (sqrt(spread) * erf(front))
        other = between * front
        ahead = exp(-(other**2)) / erfc(other) if other < 20.0 else other * sqrt(pi)
        inward = k_u * initial * ahead / sqrt(k_u / c_u)
        return outward - inward - latent * sqrt(pi * spread) * front

    low, high = 1e-12, 10.0
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (middle, high) if surplus(middle) > 0.0 else (low, middle)
    return plain(2.0 * low * np.sqrt(spread * np.asarray(time)))
