"""Humid air at a cold surface (ISO 13788)."""

from __future__ import annotations

import math

from ..domain import OutOfDomain, above_zero


def saturation_pressure(temperature: float) -> float:
    """Saturation pressure of water vapour, over water from 0 °C up, over ice below.

    Parameters
    ----------
    temperature : float
        [degC]

    Returns
    -------
    float
        [Pa]

    Raises
    ------
    OutOfDomain
        Outside -100 to 100 °C.

    Source
    ------
    ISO 13788:2012, annex E (formula over water quoted; over ice from memory).

    Examples
    --------
    >>> saturation_pressure(0.0)
    610.5
    """
    if not -100.0 <= temperature <= 100.0:
        raise OutOfDomain(f"temperature must lie from -100 to 100 degC, got {temperature!r}")
    slope, pole = (17.269, 237.3) if temperature >= 0.0 else (21.875, 265.5)
    return 610.5 * math.exp(slope * temperature / (pole + temperature))


def saturation_over_water(temperature: float) -> float:
    """Saturation pressure of water vapour over water, also where the water is colder than 0 °C.

    Stations tell relative humidity over water in frost too, so that it is this pressure which theirs is a share of;
    what a frozen surface or layer holds is ``saturation_pressure``.

    Parameters
    ----------
    temperature : float
        [degC]

    Returns
    -------
    float
        [Pa]

    Raises
    ------
    OutOfDomain
        Outside -100 to 100 °C.

    Source
    ------
    ISO 13788:2012, annex E, formula over water (quoted), run on below 0 °C; WMO No. 8, part I, annex 4.A: relative
    humidity is over water at all temperatures (from memory).

    Examples
    --------
    At -10 °C a tenth more than over ice:

    >>> round(saturation_over_water(-10.0) / saturation_pressure(-10.0), 2)
    1.1
    """
    if not -100.0 <= temperature <= 100.0:
        raise OutOfDomain(f"temperature must lie from -100 to 100 degC, got {temperature!r}")
    return 610.5 * math.exp(17.269 * temperature / (237.3 + temperature))


def saturation_temperature(pressure: float) -> float:
    """Temperature at which water vapour of the given pressure saturates.

    Parameters
    ----------
    pressure : float
        [Pa]

    Returns
    -------
    float
        [degC]

    Raises
    ------
    OutOfDomain
        Pressure not above zero.

    Source
    ------
    ISO 13788:2012, annex E (formula over water quoted; over ice from memory).

    Examples
    --------
    >>> saturation_temperature(610.5)
    0.0
    """
    above_zero(pressure=pressure)
    slope, pole = (17.269, 237.3) if pressure >= 610.5 else (21.875, 265.5)
    ratio = math.log(pressure / 610.5)
    return pole * ratio / (slope - ratio)


def lowest_surface_temperature(room: float, humidity: float, surface_humidity: float) -> float:
    """Surface temperature below which the air at the surface is more humid than allowed.

    Parameters
    ----------
    room : float
        Room air temperature. [degC]
    humidity : float
        Relative humidity of the room air, 0 to 1. [1]
    surface_humidity : float
        Highest relative humidity at the surface, 0 to 1. [1]

    Returns
    -------
    float
        [degC]

    Raises
    ------
    OutOfDomain
        Humidity not above zero.

    Source
    ------
    ISO 13788:2012, 5.3 (from memory).

    Examples
    --------
    20 °C at 50 % and 80 % at the surface: 12.6 °C.

    >>> round(lowest_surface_temperature(20.0, 0.5, 0.8), 1)
    12.6
    """
    above_zero(humidity=humidity, surface_humidity=surface_humidity)
    return saturation_temperature(saturation_pressure(room) * humidity / surface_humidity)


def surface_factor(surface: float, room: float, outdoors: float) -> float:
    """Temperature factor of a surface: its share of the way from outdoors to the room.

    Parameters
    ----------
    surface, room, outdoors : float
        [degC]

    Returns
    -------
    float
        f_Rsi. [1]

    Raises
    ------
    OutOfDomain
        The room is not warmer than outdoors.

    Source
    ------
    ISO 13788:2012, 3.1 (from memory).

    Examples
    --------
    >>> surface_factor(surface=15.0, room=20.0, outdoors=-5.0)
    0.8
    """
    above_zero(room_above_outdoors=room - outdoors)
    return (surface - outdoors) / (room - outdoors)
