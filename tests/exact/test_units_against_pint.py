"""Every unit against pint, a general library of units (BSD licence, developers only).

Where the two may differ by more than 1e-6, the reason stands in ``LOOSER``.
"""

import warnings

import pytest
from pytest import approx

from underpour.measure.table import table

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pint

# Pint keeps the Btu as 1055.056 J, rounded; ours is the exact International Table one, 1055.05585262 J: 1.4e-7 apart.
KEPT_IN = {
    "length": "m",
    "temperature": "delta_degC",
    "temperature-difference": "K",
    "degree-days": "K*day",
    "resistance": "m^2*K/W",
    "resistance-per-length": "m*K/W",
    "transmittance": "W/m^2/K",
    "conductivity": "W/m/K",
    "heat-by-length": "W/m",
    "mass-by-area": "kg/m^2",
    "density": "kg/m^3",
    "heat-capacity": "J/kg/K",
    "heat-capacity-by-volume": "J/m^3/K",
    "pressure": "Pa",
    "gas-pressure": "Pa",
    "force": "N",
    "mass": "kg",
    "line-force": "N/m",
    "moment-by-length": "N",
    "subgrade-modulus": "N/m^3",
    "gas-permeability": "m^2",
    "flow-of-air": "m^3/s",
    "flow-of-water": "m^3/s",
    "permeance": "ng/Pa/s/m^2",
    "permeability": "ng/Pa/s/m",
    "speed": "m/s",
    "power": "W",
    "heat-flux": "W/m^2",
    "radon": "Bq/m^3",
    "humidity": "dimensionless",
    "angle": "degree",
    "area": "m^2",
    "volume": "m^3",
    "energy": "J",
    "energy-by-area": "J/m^2",
    "time": "s",
    "air-changes": "1/s",
    "carbon": "kg",
    "carbon-by-heat": "kg/joule",
    "carbon-by-mass": "kg/kg",
    "share": "dimensionless",
    "index": "dimensionless",
    "inverse-length": "1/m",
}
PERM = "grain/hour/foot^2/inch_Hg"
WRITTEN = {
    "°C": "delta_degC",
    "°F": "delta_degF",
    "°F·d": "delta_degF*day",
    "h·ft²·°F/Btu": "hour*foot^2*delta_degF/Btu",
    "h·ft²·°F/(Btu·in)": "hour*foot^2*delta_degF/Btu/inch",
    "RSI/in": "m^2*K/W/inch",
    "RSI/mm": "m^2*K/W/mm",
    "Btu/(h·ft²·°F)": "Btu/hour/foot^2/delta_degF",
    "Btu/(h·ft·°F)": "Btu/hour/foot/delta_degF",
    "Btu·in/(h·ft²·°F)": "Btu*inch/hour/foot^2/delta_degF",
    "Btu/(lb·°F)": "Btu/pound/delta_degF",
    "Btu/(ft³·°F)": "Btu/foot^3/delta_degF",
    "Btu/(h·ft)": "Btu/hour/foot",
    "Btu/(h·ft²)": "Btu/hour/foot^2",
    "Btu/h": "Btu/hour",
    "MBH": "1000*Btu/hour",
    "kBtu": "1000*Btu",
    "kBtu/ft²": "1000*Btu/foot^2",
    "Btu/ft²": "Btu/foot^2",
    "MMBtu": "1e6*Btu",
    "therm": "100000*Btu",
    "ton": "12000*Btu/hour",
    "mi": "mile",
    "mil": "thou",
    "in": "inch",
    "in²": "inch^2",
    "yd": "yard",
    "yd²": "yard^2",
    "yd³": "yard^3",
    "mi/h": "mile/hour",
    "t": "tonne",
    "ksf": "kip/foot^2",
    "ksi": "kip/inch^2",
    "psf": "force_pound/foot^2",
    "psi": "force_pound/inch^2",
    "lb/ft": "force_pound/foot",
    "lb/in³": "force_pound/inch^3",
    "ft·lb/ft": "force_pound",
    "kip/ft": "kip/foot",
    "in. w.c.": "inch_H2O",
    "ft w.c.": "foot_H2O",
    "cfm": "foot^3/minute",
    "gpm": "gallon/minute",
    "imp gpm": "imperial_gallon/minute",
    "imp gal": "imperial_gallon",
    "gal": "gallon",
    "l/min": "liter/minute",
    "l/h": "liter/hour",
    "l/s": "liter/s",
    "L": "liter",
    "perm": PERM,
    "perm·in": PERM + "*inch",
    "pCi/L": "1e-12*curie/liter",
    "%": "0.01",
    "% by volume": "0.01",
    "m³/m³": "m^3/m^3",
    "index": "dimensionless",
    "1/ft": "1/foot",
    "lb/in": "force_pound/inch",
    "kg CO₂e": "kg",
    "kg/J": "kg/joule",
    "kg/kWh": "kg/(kilowatt*hour)",
    "g/kWh": "gram/(kilowatt*hour)",
    "kg/MMBtu": "kg/(1e6*Btu)",
    "lb/MWh": "pound/(megawatt*hour)",
    "kg/kg": "kg/kg",
    "d": "day",
    "h": "hour",
    "1/h": "1/hour",
    "years": "365.2425*day",
    "Wh/(kg·K)": "watt*hour/kg/K",
    "Wh/(m³·K)": "watt*hour/m^3/K",
    "Wh": "watt*hour",
    "kWh": "kilowatt*hour",
    "kWh/m²": "kilowatt*hour/m^2",
    "kWh/ft²": "kilowatt*hour/foot^2",
}
BY_KIND = {("force", "lb"): "force_pound", ("mass", "lb"): "pound", ("density", "lb/ft³"): "pound/foot^3"}
LOOSER = {
    # Ours are the six figures that the guide prints.
    "perm": 2e-6,
    "perm·in": 2e-6,
}


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


def expression(unit) -> str:
    written = BY_KIND.get((unit.kind, unit.name)) or WRITTEN.get(unit.name)
    if written:
        return written
    plain = unit.name.replace("·", "*").replace("²", "^2").replace("³", "^3").replace("ft", "foot")
    return plain.replace("µm", "micrometer")


@pytest.mark.parametrize("unit", table().units, ids=lambda unit: f"{unit.kind} {unit.name}")
def test_a_unit_is_what_pint_makes_of_it(registry, unit):
    theirs = registry.Quantity(1.0, "dimensionless") * registry.parse_expression(expression(unit))
    assert theirs.to(KEPT_IN[unit.kind]).magnitude == approx(unit.si, rel=LOOSER.get(unit.name, 1e-6))


def test_the_fahrenheit_scale_is_pints(registry):
    unit = table().unit("°F", "temperature")
    for reading in (-76.0, -40.0, 0.0, 32.0, 68.0, 176.0):
        theirs = registry.Quantity(reading, "degF").to("degC").magnitude
        assert (reading - unit.zero) * unit.si == approx(theirs, abs=1e-9)
