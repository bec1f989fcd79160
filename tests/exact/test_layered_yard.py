"""A wide yard on layers against the closed form: each stratum turns and shrinks the year's wave, down to the last.

As test_slab_outdoors.py (H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, 3.7, from memory),
with the ground in layers; conductivities by Johansen's formula as test_soils.py writes it, not by the product's.
"""

from __future__ import annotations

import cmath
import math
from pathlib import Path

import pytest
from test_soils import johansen

from underpour.answer import answer
from underpour.brief import read

BRIEF = Path(__file__).parents[2] / "examples" / "layered-yard" / "brief.toml"
MONTHS = [(f - 32.0) / 1.8 for f in (12, 18, 31, 46, 58, 68, 73, 71, 62, 49, 34, 19)]
PER_SECOND = 2.0 * math.pi / (365.2425 * 86400.0)
PCF, FOOT, FILM = 16.018463, 0.3048, 0.04
CONCRETE, GRAVEL = (8 * 0.0254, 1.65, 2.2e6), (8 * 0.0254, 2.0, 2.0e6)


def soil(pcf, moisture, quartz, fine, *, full=False):
    """Conductivity and heat capacity of a soil."""
    dense = pcf * PCF
    pores = 1.0 - dense / 2700.0
    water = 1000.0 * pores if full else moisture * dense  # kg/m³
    return johansen(dense, water / 1000.0 / pores, quartz, fine), 840.0 * dense + 4180.0 * water


SAND = soil(110, 0.08, 0.65, False)
CLAY, SOAKED = soil(95, 0.22, 0.30, True), soil(95, 0.22, 0.30, True, full=True)


def coldest(layers, deepest, at):
    """Coldest of the year below the first ``at`` layers (thickness, conductivity, capacity), over endless ground."""
    swing = sum(t * cmath.exp(-2j * math.pi * (m + 0.5) / 12) for m, t in enumerate(MONTHS)) / 6.0
    k, c = deepest
    temperature, flow = 1.0 + 0j, k * cmath.sqrt(1j * PER_SECOND * c / k)
    here = temperature
    for n, (thickness, k, c) in reversed(list(enumerate(layers))):
        if n == at - 1:
            here = temperature
        wave = cmath.sqrt(1j * PER_SECOND * c / k)
        turn, along = cmath.cosh(wave * thickness), cmath.sinh(wave * thickness)
        temperature, flow = temperature * turn + flow / (k * wave) * along, temperature * k * wave * along + flow * turn
    return sum(MONTHS) / 12.0 - abs(swing * here / (temperature + FILM * flow))


@pytest.mark.parametrize(
    ("name", "upper"),
    [("as briefed", SAND), ("on clay alone", CLAY)],
)
def test_the_ground_under_the_middle_of_the_yard_swings_as_the_closed_form_says(name, upper):
    strata = [(3 * FOOT - 16 * 0.0254, *upper), (6 * FOOT, *CLAY)]
    by_hand = coldest([CONCRETE, GRAVEL, *strata], SOAKED, at=2)
    found = next(each for each in answer(read(BRIEF)).alternatives if each.name == name)
    value = found.find("heat.ground-temperature", place="middle").value
    assert value == pytest.approx(by_hand, abs=0.003)
