"""Moist air by CoolProp (MIT), which stands on IAPWS and ASHRAE RP-1485: the tool's short formula is held to it.

It is no users' dependency: it takes seconds to load, where an answer takes one. Ours is ISO 13788:2012, annex E.
"""

from __future__ import annotations

import pytest
from CoolProp.CoolProp import HAPropsSI, PropsSI

from underpour.physics.moisture.air import saturation_over_water, saturation_pressure, saturation_temperature

KELVIN = 273.15


@pytest.mark.parametrize("degrees", [0.5, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0])
def test_saturation_over_water_is_within_a_fifth_of_a_per_cent_of_pure_water(degrees: float) -> None:
    library = float(PropsSI("P", "T", degrees + KELVIN, "Q", 1, "Water"))
    assert saturation_pressure(degrees) == pytest.approx(library, rel=0.002)
    assert saturation_over_water(degrees) == saturation_pressure(degrees)
    assert saturation_temperature(library) == pytest.approx(degrees, abs=0.04)


@pytest.mark.parametrize("degrees", [-20.0, -15.0, -10.0, -5.0, -1.0])
def test_saturation_over_ice_is_within_one_per_cent(degrees: float) -> None:
    """The library's moist air holds half a per cent more than pure vapour, by the enhancement factor of air."""
    library = float(HAPropsSI("P_w", "T", degrees + KELVIN, "P", 101325.0, "R", 1.0))
    assert saturation_pressure(degrees) == pytest.approx(library, rel=0.01)


@pytest.mark.parametrize(("degrees", "humidity"), [(20.0, 0.5), (12.0, 0.8), (26.0, 0.7), (5.0, 0.9)])
def test_a_dew_point_is_within_a_twentieth_of_a_kelvin(degrees: float, humidity: float) -> None:
    library = float(HAPropsSI("D", "T", degrees + KELVIN, "P", 101325.0, "R", humidity)) - KELVIN
    assert saturation_temperature(humidity * saturation_pressure(degrees)) == pytest.approx(library, abs=0.05)
