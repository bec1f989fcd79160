"""How soil conducts and stores heat, from its dry density, its water and what it is made of (Johansen, Kersten)."""

from __future__ import annotations

from math import log10

from .domain import OutOfDomain, above_zero

SOLIDS = 2700.0  # kg/m³, density of the grains
WATER_DENSITY = 1000.0  # kg/m³
QUARTZ, OTHER, OTHER_POOR_IN_QUARTZ = 7.7, 2.0, 3.0  # W/(m·K), the grains of Johansen's formula
POOR_IN_QUARTZ = 0.2  # share of the solids up to which the other grains are taken to conduct better
WATER, ICE = 0.57, 2.2  # W/(m·K), what fills the pores in Johansen's formula
LEAST_FINE, LEAST_COARSE = 0.1, 0.05  # share of the pores filled, below which Johansen's formula says nothing
SOLIDS_HEAT, WATER_HEAT, ICE_HEAT = 840.0, 4180.0, 2100.0  # J/(kg·K)


def porosity(dry_density: float) -> float:
    """Share of soil that its grains leave free.

    Parameters
    ----------
    dry_density : float
        Mass of the dry soil over its volume. [kg/m³]

    Returns
    -------
    float
        [1]

    Raises
    ------
    OutOfDomain
        Not above zero, or as dense as the grains themselves, 2700 kg/m³.

    Source
    ------
    Johansen 1975, after CRREL Monograph 81-1 (from memory).

    Examples
    --------
    >>> porosity(1350.0)
    0.5
    """
    above_zero(dry_density=dry_density)
    if dry_density >= SOLIDS:
        raise OutOfDomain(f"dry_density must be below that of the grains, {SOLIDS:g}, got {dry_density!r}")
    return 1.0 - dry_density / SOLIDS


def saturation(dry_density: float, moisture: float) -> float:
    """Share of the pores that water fills; above one where more is told than they hold.

    Parameters
    ----------
    dry_density : float
        [kg/m³]
    moisture : float
        Mass of the water over that of the dry soil. [1]

    Returns
    -------
    float
        [1]

    Raises
    ------
    OutOfDomain
        As ``porosity``; moisture below zero.

    Source
    ------
    Definition.

    Examples
    --------
    Half of this soil is pores; 370 kg of water fill 0.37 m³ of each 0.5.

    >>> round(saturation(dry_density=1350.0, moisture=0.2741), 3)
    0.74
    """
    if not moisture >= 0.0:
        raise OutOfDomain(f"moisture must not be below zero, got {moisture!r}")
    return moisture * dry_density / WATER_DENSITY / porosity(dry_density)


def saturation_moisture(dry_density: float) -> float:
    """The moisture at which water fills every pore.

    Parameters
    ----------
    dry_density : float
        [kg/m³]

    Returns
    -------
    float
        Mass of the water over that of the dry soil. [1]

    Raises
    ------
    OutOfDomain
        As ``porosity``.

    Source
    ------
    Definition.

    Examples
    --------
    >>> round(saturation_moisture(1350.0), 4)
    0.3704
    """
    return WATER_DENSITY * porosity(dry_density) / dry_density


def johansen_conductivity(
    dry_density: float, saturation: float, quartz: float, *, fine: bool, frozen: bool = False
) -> float:
    """Conductivity of soil between its dry and its saturated state.

    Parameters
    ----------
    dry_density : float
        [kg/m³]
    saturation : float
        Share of the pores that water fills. [1]
    quartz : float
        Share of the solids. [1]
    fine : bool
        Clay, silt and loam; otherwise sand and gravel. [1]
    frozen : bool
        All water is ice. [1]

    Returns
    -------
    float
        [W/(m·K)]

    Raises
    ------
    OutOfDomain
        Shares outside of nought and one, a density as of ``porosity``, and unfrozen soil drier than the formula knows:
        a tenth of the pores filled in fine soil, a twentieth in coarse.

    Source
    ------
    Johansen 1975, after CRREL Monograph 81-1 (from memory).

    Examples
    --------
    Saturated, half of it pores, grains of quartz alone: the geometric mean of 7.7 and 0.57.

    >>> round(johansen_conductivity(1350.0, 1.0, 1.0, fine=False), 4) == round((7.7 * 0.57) ** 0.5, 4)
    True
    """
    pores = porosity(dry_density)
    least = 0.0 if frozen else LEAST_FINE if fine else LEAST_COARSE
    if not least <= saturation <= 1.0:
        raise OutOfDomain(f"saturation must lie between {least:g} and 1, got {saturation!r}")
    if not 0.0 <= quartz <= 1.0:
        raise OutOfDomain(f"quartz must lie between 0 and 1, got {quartz!r}")
    dry = (0.135 * dry_density + 64.7) / (SOLIDS - 0.947 * dry_density)
    other = OTHER if quartz > POOR_IN_QUARTZ else OTHER_POOR_IN_QUARTZ
    solids = QUARTZ**quartz * other ** (1.0 - quartz)
    soaked = solids ** (1.0 - pores) * (ICE if frozen else WATER) ** pores
    if frozen:
        share = saturation
    else:
        share = (1.0 if fine else 0.7) * log10(saturation) + 1.0
    return (soaked - dry) * share + dry


def kersten_conductivity(dry_density: float, moisture: float, *, fine: bool, frozen: bool = False) -> float:
    """Conductivity of soil as measured in Minnesota: a second opinion, blind to quartz.

    Parameters
    ----------
    dry_density : float
        [kg/m³]
    moisture : float
        Mass of the water over that of the dry soil. [1]
    fine : bool
        Silt and clay; otherwise sand. [1]
    frozen : bool
        [1]

    Returns
    -------
    float
        [W/(m·K)]

    Raises
    ------
    OutOfDomain
        A density as of ``porosity``; unfrozen soil with less water than was measured: 7 % in fine soil, 1 % in coarse.

    Source
    ------
    Kersten 1949, Univ. of Minnesota Bulletin 28 (formula from memory). Printed for pounds on the cubic foot and
    percent, in Btu·in/(ft²·h·°F).

    Examples
    --------
    Sand of 100 pcf with 10 % of water: (0.7 + 0.4) × 10 = 11 Btu·in/(ft²·h·°F).

    >>> round(kersten_conductivity(100.0 * 16.018463, 0.10, fine=False) / 0.1442279, 2)
    11.0
    """
    porosity(dry_density)
    least = 0.0 if frozen else 0.07 if fine else 0.01
    if not moisture >= least:
        raise OutOfDomain(f"moisture must be at least {least:g}, got {moisture!r}")
    dense, percent = dry_density / 16.018463, 100.0 * moisture
    if frozen and fine:
        printed = 0.01 * 10.0 ** (0.022 * dense) + 0.085 * 10.0 ** (0.008 * dense) * percent
    elif frozen:
        printed = 0.076 * 10.0 ** (0.013 * dense) + 0.032 * 10.0 ** (0.0146 * dense) * percent
    elif fine:
        printed = (0.9 * log10(percent) - 0.2) * 10.0 ** (0.01 * dense)
    else:
        printed = (0.7 * log10(percent) + 0.4) * 10.0 ** (0.01 * dense)
    return printed * 0.1442279


def soil_heat_capacity(dry_density: float, moisture: float, *, frozen: bool = False) -> float:
    """Heat that a cubic metre of soil stores for each kelvin; the heat of freezing is not in it.

    Parameters
    ----------
    dry_density : float
        [kg/m³]
    moisture : float
        Mass of the water over that of the dry soil. [1]
    frozen : bool
        All water is ice. [1]

    Returns
    -------
    float
        [J/(m³·K)]

    Raises
    ------
    OutOfDomain
        A density as of ``porosity``; moisture below zero.

    Source
    ------
    Heat capacities add up by mass; grains 840, water 4180, ice 2100 J/(kg·K): common practice, no source.

    Examples
    --------
    >>> soil_heat_capacity(1500.0, 0.2) == 1500.0 * (840.0 + 0.2 * 4180.0)
    True
    """
    saturation(dry_density, moisture)
    return dry_density * (SOLIDS_HEAT + moisture * (ICE_HEAT if frozen else WATER_HEAT))
