"""Air that stands still between two faces (ISO 6946): what crosses it by the air, and what by radiation."""

from __future__ import annotations

from .domain import OutOfDomain, above_zero

STILL_AIR = 0.025  # W/(m·K), air at 10 °C
STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m²·K⁴)
ICE_POINT = 273.15  # K
MOST = 0.3  # m: thicker air is a room of its own


def convection_down(thickness: float) -> float:
    """Coefficient of what the air carries where heat flows down through a level space: warm air lies on top and stays.

    Parameters
    ----------
    thickness : float
        [m]

    Returns
    -------
    float
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Thickness not above zero, or above 0.3 m.

    Source
    ------
    ISO 6946:2017, annex D, heat flowing down, up to 5 K across (from memory).

    Examples
    --------
    >>> convection_down(0.01)  # 0.025 / 0.01: the air only conducts
    2.5
    """
    _a_space(thickness)
    return max(0.12 * thickness**-0.44, STILL_AIR / thickness)


def convection_up(thickness: float) -> float:
    """Coefficient of what the air carries where heat flows up through a level space: the air turns over.

    Parameters
    ----------
    thickness : float
        [m]

    Returns
    -------
    float
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Thickness not above zero, or above 0.3 m.

    Source
    ------
    ISO 6946:2017, annex D, heat flowing up, up to 5 K across (from memory).

    Examples
    --------
    >>> convection_up(0.01), convection_up(0.1)
    (2.5, 1.95)
    """
    _a_space(thickness)
    return max(1.95, STILL_AIR / thickness)


def convection_sideways(thickness: float) -> float:
    """Coefficient of what the air carries where heat flows level through an upright space.

    Parameters
    ----------
    thickness : float
        [m]

    Returns
    -------
    float
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        Thickness not above zero, or above 0.3 m.

    Source
    ------
    ISO 6946:2017, annex D, heat flowing level, up to 5 K across (from memory).

    Examples
    --------
    >>> convection_sideways(0.01), convection_sideways(0.1)
    (2.5, 1.25)
    """
    _a_space(thickness)
    return max(1.25, STILL_AIR / thickness)


def radiation(one: float, other: float, temperature: float) -> float:
    """Coefficient of what radiates between two faces that are large and near to one another.

    Parameters
    ----------
    one, other : float
        Emissivity of each face, above 0, at most 1. [1]
    temperature : float
        Mean temperature of the two. [degC]

    Returns
    -------
    float
        [W/(m²·K)]

    Raises
    ------
    OutOfDomain
        An emissivity that is not above zero or is above 1; a temperature outside -100 to 100 °C.

    Source
    ------
    ISO 6946:2017, annex D: E h_r0 with 1/E = 1/ε1 + 1/ε2 − 1 and h_r0 = 4 σ T³ (from memory).

    Examples
    --------
    >>> round(radiation(1.0, 1.0, 10.0), 2), round(radiation(0.9, 0.05, 10.0), 2)
    (5.15, 0.26)
    """
    for emissivity in (one, other):
        if not 0.0 < emissivity <= 1.0:
            raise OutOfDomain(f"an emissivity lies above 0 and is at most 1, got {emissivity!r}")
    if not -100.0 <= temperature <= 100.0:
        raise OutOfDomain(f"temperature must lie from -100 to 100 degC, got {temperature!r}")
    return 4.0 * STEFAN_BOLTZMANN * (temperature + ICE_POINT) ** 3 / (1.0 / one + 1.0 / other - 1.0)


def resistance(convection: float, radiation: float) -> float:
    """Resistance of an air space from what the air carries and what radiates, side by side.

    Parameters
    ----------
    convection, radiation : float
        [W/(m²·K)]

    Returns
    -------
    float
        [m²·K/W]

    Raises
    ------
    OutOfDomain
        Either is not above zero.

    Source
    ------
    ISO 6946:2017, annex D, R = 1 / (h_a + h_r) (from memory).

    Examples
    --------
    >>> resistance(1.0, 4.0)
    0.2
    """
    above_zero(convection=convection, radiation=radiation)
    return 1.0 / (convection + radiation)


def _a_space(thickness: float) -> None:
    if not 0.0 < thickness <= MOST:
        raise OutOfDomain(f"an air space is above 0 and at most {MOST} m thick, got {thickness!r}")
