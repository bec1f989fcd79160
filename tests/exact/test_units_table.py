"""The table of units: every row says where it comes from, and the factors follow from the exact definitions."""

import os
import subprocess
import sys
from math import isclose
from pathlib import Path

import pytest

from underpour import measure
from underpour.findings import UNITS
from underpour.measure.read import amount
from underpour.measure.table import Unit, printed, table
from underpour.mistakes import Mistake

INCH, POUND, GRAVITY, BTU, DEGREE = 0.0254, 0.45359237, 9.80665, 1055.05585262, 5 / 9
FOOT, HOUR = 12 * INCH, 3600.0
FORCE = POUND * GRAVITY
FROM_DEFINITIONS = {
    ("length", "ft"): FOOT,
    ("length", "yd"): 3 * FOOT,
    ("length", "mi"): 5280 * FOOT,
    ("length", "mil"): INCH / 1000,
    ("temperature", "°F"): DEGREE,
    ("temperature-difference", "°F"): DEGREE,
    ("degree-days", "°F·d"): DEGREE,
    ("resistance", "h·ft²·°F/Btu"): HOUR * FOOT**2 * DEGREE / BTU,
    ("resistance-per-length", "h·ft²·°F/(Btu·in)"): HOUR * FOOT**2 * DEGREE / BTU / INCH,
    ("resistance-per-length", "RSI/in"): 1 / INCH,
    ("transmittance", "Btu/(h·ft²·°F)"): BTU / HOUR / FOOT**2 / DEGREE,
    ("conductivity", "Btu/(h·ft·°F)"): BTU / HOUR / FOOT / DEGREE,
    ("conductivity", "Btu·in/(h·ft²·°F)"): BTU * INCH / HOUR / FOOT**2 / DEGREE,
    ("heat-by-length", "Btu/(h·ft)"): BTU / HOUR / FOOT,
    ("density", "lb/ft³"): POUND / FOOT**3,
    ("heat-capacity", "Btu/(lb·°F)"): BTU / POUND / DEGREE,
    ("heat-capacity-by-volume", "Btu/(ft³·°F)"): BTU / FOOT**3 / DEGREE,
    ("pressure", "psi"): FORCE / INCH**2,
    ("pressure", "psf"): FORCE / FOOT**2,
    ("pressure", "ksf"): 1000 * FORCE / FOOT**2,
    ("pressure", "ksi"): 1000 * FORCE / INCH**2,
    ("gas-pressure", "psi"): FORCE / INCH**2,
    ("force", "lb"): FORCE,
    ("force", "kip"): 1000 * FORCE,
    ("line-force", "lb/ft"): FORCE / FOOT,
    ("line-force", "lb/in"): FORCE / INCH,
    ("inverse-length", "1/ft"): 1 / FOOT,
    ("line-force", "kip/ft"): 1000 * FORCE / FOOT,
    ("moment-by-length", "ft·lb/ft"): FORCE,
    ("subgrade-modulus", "lb/in³"): FORCE / INCH**3,
    ("flow-of-air", "cfm"): FOOT**3 / 60,
    ("flow-of-water", "gpm"): 231 * INCH**3 / 60,
    ("flow-of-water", "imp gpm"): 4.54609e-3 / 60,
    ("power", "Btu/h"): BTU / HOUR,
    ("power", "MBH"): 1000 * BTU / HOUR,
    ("power", "ton"): 12000 * BTU / HOUR,
    ("heat-flux", "Btu/(h·ft²)"): BTU / HOUR / FOOT**2,
    ("volume", "gal"): 231 * INCH**3,
    ("energy", "therm"): 1e5 * BTU,
    ("energy-by-area", "Btu/ft²"): BTU / FOOT**2,
    ("energy-by-area", "kBtu/ft²"): 1000 * BTU / FOOT**2,
    ("energy-by-area", "kWh/ft²"): 3.6e6 / FOOT**2,
    ("speed", "mi/h"): 5280 * FOOT / HOUR,
    ("speed", "ft/s"): FOOT,
    ("area", "ft²"): FOOT**2,
    ("area", "yd²"): 9 * FOOT**2,
    ("volume", "ft³"): FOOT**3,
    ("volume", "yd³"): 27 * FOOT**3,
    ("time", "years"): 146097 / 400 * 24 * HOUR,
}


@pytest.mark.parametrize("kind, name", FROM_DEFINITIONS)
def test_a_factor_follows_from_the_definitions(kind, name):
    assert isclose(table().unit(name, kind).si, FROM_DEFINITIONS[kind, name], rel_tol=1e-9)


@pytest.mark.parametrize("unit", table().units, ids=lambda unit: f"{unit.kind} {unit.name}")
def test_every_unit_says_who_says_so(unit: Unit):
    assert unit.source in table().sources
    assert unit.where
    assert unit.seen in ("document", "quoted", "memory", "practice", "derived")
    assert unit.si > 0


@pytest.mark.parametrize("kind", table().kinds.values(), ids=lambda kind: kind.name)
def test_both_systems_are_told_the_same_range(kind):
    """The round figures of the second system lie within 2 % of the first's span."""
    metric = [amount(end, kind, "SI")[0] for end in kind.range]
    other = [amount(end, kind, "US")[0] for end in kind.range_us]
    span = metric[1] - metric[0]
    assert all(abs(a - b) <= 0.02 * span for a, b in zip(metric, other, strict=True))


@pytest.mark.parametrize("kind", table().kinds.values(), ids=lambda kind: kind.name)
def test_what_a_message_offers_can_be_read(kind):
    for offer in kind.write.format(kind.usual).split(" or "):
        amount(offer, kind, "US")


def test_every_unit_of_a_finding_can_be_printed():
    assert set(printed()) >= UNITS


def test_every_reader_is_public_and_takes_what_its_kind_offers():
    for kind in table().kinds.values():
        reader = getattr(measure, kind.name.replace("-", "_"), None)
        if reader is not None:
            first = kind.write.format(kind.usual).split(" or ")[0]
            assert reader(first).typed == first


def test_a_reader_refuses_a_number_that_is_none():
    for text in ("nan m", "inf m", "1e999 m", "-1e999 m", "٣ m"):
        with pytest.raises(Mistake):
            measure.length(text)


def test_reading_the_package_opens_no_table():
    """The tables are opened on first use; starting the tool stays quick."""
    code = "import sys, underpour.measure; print(*sys.modules)"
    found = {**os.environ, "PYTHONPATH": str(Path(measure.__file__).parents[2])}
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=found)
    loaded = said.stdout.split()
    assert not {"tomllib", "importlib.resources", "numpy", "scipy", "pydantic", "pint"} & set(loaded)
