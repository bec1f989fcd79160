"""How deep frost goes into open ground over a winter: Stefan's depth, and Berggren's reduction of it."""

from __future__ import annotations

import numpy as np

from .domain import Numbers, above_zero, not_below_zero, plain

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
