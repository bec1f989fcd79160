"""The standard's way to what a floor gives: its basic curve, and the one factor for each thing that moves it."""

from __future__ import annotations

from math import expm1, log

from ..domain import OutOfDomain, above_zero, not_below_zero

BASIC, POWER = 8.92, 1.1
STANDARD_FILM = 10.8  # W/(m²·K), of the floor that the factors are printed for
STANDARD_COVER, STANDARD_CONDUCTIVITY = 0.045, 1.0  # m, W/(m·K)
STANDARD_TUBE = 6.7  # W/(m²·K), for a tube of 0.35 W/(m·K) with a wall of 2 mm
STANDARD_DIAMETER = 0.020  # m


def basic_output(excess: float) -> float:
    """Heat that a heated floor gives to the room, by how much its surface is warmer.

    Parameters
    ----------
    excess : float
        Mean of the surface above the room. [K]

    Returns
    -------
    float
        [W/m²]

    Raises
    ------
    OutOfDomain
        An excess below zero.

    Source
    ------
    EN 1264-2, basic characteristic curve; the same in ISO 11855-2 (quoted).

    Examples
    --------
    >>> round(basic_output(9.0), 2)
    100.01
    """
    not_below_zero(excess=excess)
    return float(BASIC * excess**POWER)


def basic_excess(output: float) -> float:
    """How much warmer than the room the surface is that gives so much: ``basic_output`` the other way round.

    Parameters
    ----------
    output : float
        [W/m²]

    Returns
    -------
    float
        [K]

    Raises
    ------
    OutOfDomain
        An output below zero.

    Source
    ------
    As for ``basic_output``.

    Examples
    --------
    >>> round(basic_excess(basic_output(9.0)), 9)
    9.0
    """
    not_below_zero(output=output)
    return float((output / BASIC) ** (1.0 / POWER))


def water_excess(supply: float, back: float, room: float) -> float:
    """Mean excess of the water over the room along a loop: logarithmic.

    Parameters
    ----------
    supply, back, room : float
        Of the water that enters and leaves, and of the room. [degC]

    Returns
    -------
    float
        [K]

    Raises
    ------
    OutOfDomain
        Water that comes back warmer than it left, or no warmer than the room.

    Source
    ------
    EN 1264-2 and ISO 11855-2, logarithmic mean (derived). Where nothing is lost on the way: supply less room.

    Examples
    --------
    Excess e at first and 1 at last: e - 1.

    >>> round(water_excess(20.0 + 2.718281828, 21.0, 20.0), 6)
    1.718282
    """
    first, last = supply - room, back - room
    if not 0.0 < last <= first:
        raise OutOfDomain(
            f"water must come back cooler than it left and warmer than the room, got {supply}, {back}, {room}"
        )
    fallen = log(first / last)
    return last * expm1(fallen) / fallen if fallen > 0.0 else first


def covering_factor(cover: float, conductivity: float, covering: float) -> float:
    """The standard's factor for what lies over the tubes, against 45 mm of screed that is bare.

    Parameters
    ----------
    cover : float
        That the factor is taken with; the standard takes 0.045 whatever lies there. [m]
    conductivity : float
        Of screed or slab. [W/(m·K)]
    covering : float
        Resistance of the covering. [m²·K/W]

    Returns
    -------
    float
        a_B. [1]

    Raises
    ------
    OutOfDomain
        A cover or conductivity not above zero, a resistance below zero.

    Source
    ------
    EN 1264-2, formula for a_B (quoted).

    Examples
    --------
    >>> covering_factor(0.045, 1.0, 0.0)
    1.0
    """
    above_zero(cover=cover, conductivity=conductivity)
    not_below_zero(covering=covering)
    standard = 1.0 / STANDARD_FILM + STANDARD_COVER / STANDARD_CONDUCTIVITY
    return standard / (1.0 / STANDARD_FILM + cover / conductivity + covering)


def output_by_excess(
    spacing: float,
    cover: float,
    outside: float,
    covering: float,
    by_spacing: float,
    by_cover: float,
    by_diameter: float,
) -> float:
    """Heat of a floor with tubes in its screed or slab, for each kelvin of the water's mean excess.

    Parameters
    ----------
    spacing, cover, outside : float
        From tube to tube, over the tubes, and their diameter. [m]
    covering : float
        a_B. [1]
    by_spacing, by_cover, by_diameter : float
        a_T, a_U and a_D of the standard's tables. [1]

    Returns
    -------
    float
        K_H. [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Spacing, cover or diameter outside the standard's range: 0.05 to 0.375, from 0.01, 0.008 to 0.03.

    Source
    ------
    EN 1264-2, clause 6, type A: B a_B a_T^mT a_U^mU a_D^mD (quoted).
    B is that of a tube of 0.35 W/(m·K) with a wall of 2 mm.

    Examples
    --------
    Spaced by 75 mm under 45 mm, tube 20 mm: all powers are nought, the floor gives B.

    >>> output_by_excess(0.075, 0.045, 0.020, 1.0, 1.23, 1.066, 1.021)
    6.7
    """
    _in_range(spacing, cover, outside)
    powers = by_spacing ** (1.0 - spacing / 0.075) * by_cover ** (100.0 * (STANDARD_COVER - cover))
    return float(STANDARD_TUBE * covering * powers * by_diameter ** (250.0 * (outside - STANDARD_DIAMETER)))


def _in_range(spacing: float, cover: float, outside: float) -> None:
    if not (0.05 <= spacing <= 0.375 and cover >= 0.01 and 0.008 <= outside <= 0.03):
        raise OutOfDomain(f"outside the standard's range: spacing {spacing}, cover {cover}, diameter {outside} m")
