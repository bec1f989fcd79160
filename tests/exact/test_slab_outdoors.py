"""A wide slab outdoors against the closed form: layers over endless ground under a yearly wave, as impedances.

In the middle of a wide slab heat goes up and down only. Then the wave of the air's temperature and the flow it drives
are complex numbers that each layer turns and shrinks (H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids,
2nd edition, 3.7, from memory). Nothing of our own solver is used on that side.
"""

from __future__ import annotations

import cmath
import math
from pathlib import Path

import pytest

from underpour.answer import answer
from underpour.brief import read
from underpour.resolve import resolve

BRIEF = Path(__file__).parents[2] / "examples" / "walk-or-drive" / "brief.toml"
MONTHS = (-9, -8, -3, 3, 9, 14, 16, 15, 10, 4, -2, -7)
PER_SECOND = 2.0 * math.pi / (365.2425 * 86400.0)
GROUND = (1.5, 3.0e6)  # W/(m·K), J/(m³·K), as the brief types it
FILM = 0.04  # m²·K/W


def coldest_in_the_middle(layers: list[tuple[float, float, float]]) -> float:
    """Coldest of the year where the ground begins, layers (thickness, conductivity, capacity) from the air down."""
    swing = sum(t * cmath.exp(-2j * math.pi * (m + 0.5) / 12) for m, t in enumerate(MONTHS)) / 6.0
    conductivity, capacity = GROUND
    temperature, flow = 1.0 + 0j, conductivity * cmath.sqrt(1j * PER_SECOND * capacity / conductivity)
    for thickness, k, c in reversed(layers):
        wave = cmath.sqrt(1j * PER_SECOND * c / k)
        turn, along = cmath.cosh(wave * thickness), cmath.sinh(wave * thickness)
        temperature, flow = temperature * turn + flow / (k * wave) * along, temperature * k * wave * along + flow * turn
    return sum(MONTHS) / 12.0 - abs(swing / (temperature + FILM * flow))


@pytest.mark.parametrize(("name", "tolerance"), [("bare slab", 0.002), ("as briefed", 0.05)])
def test_the_ground_under_the_middle_of_a_wide_slab_swings_as_the_closed_form_says(name, tolerance):
    reading = read(BRIEF)
    brief = dict([("as briefed", reading.brief), *reading.alternatives])[name]
    layers = [(layer.thickness, layer.conductivity, layer.heat_capacity) for layer in resolve(brief).floor]
    found = next(each for each in answer(reading).alternatives if each.name == name)
    value = found.find("heat.ground-temperature", place="middle").value
    assert value == pytest.approx(coldest_in_the_middle(layers), abs=tolerance)


def test_without_any_layer_the_closed_form_is_the_film_over_endless_ground():
    """theta/theta_air = 1 / (1 + R b sqrt(i w)), b the square root of conductivity times capacity."""
    b = math.sqrt(GROUND[0] * GROUND[1])
    swing = abs(sum(t * cmath.exp(-2j * math.pi * (m + 0.5) / 12) for m, t in enumerate(MONTHS)) / 6.0)
    expected = sum(MONTHS) / 12.0 - swing / abs(1.0 + FILM * b * cmath.sqrt(1j * PER_SECOND))
    assert coldest_in_the_middle([]) == pytest.approx(expected, abs=1e-12)
