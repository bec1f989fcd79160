"""ISO 13793:2001, Thermal performance of buildings: thermal design of foundations to avoid frost heave.

Its formula for open ground is from memory, so the depths are derived. The ground is the standard's: 2.5 W/(m·K) frozen,
1.5 unfrozen, 3.0 and 1.9 MJ/(m³·K), 450 kg of water in each cubic metre, 150 MJ/m³.
"""

import tomllib
from pathlib import Path

import pytest

from ledger import held, held_row
from underpour.physics.frost.depth import latent_heat, neumann_front, undisturbed_depth

ROWS = tomllib.loads((Path(__file__).parent / "data" / "iso13793.toml").read_text(encoding="utf-8"))
STANDARD = "ISO 13793:2001, clause 7"
HOUR, DAY = 3600.0, 86400.0


@pytest.mark.parametrize("row", ROWS["undisturbed"], ids=lambda row: f"{row['index']:.0f} K·h")
def test_open_ground_freezes_as_deep_as_iso_13793_says(row):
    held_row(row, undisturbed_depth(row["index"] * HOUR, row["mean"], 2.5, 3.0e6, 1.5e8), STANDARD)


@pytest.mark.parametrize("row", ROWS["front"], ids=["150 days"])
def test_the_exact_front_of_the_standards_ground_is_neumanns(row):
    """The index of 30 000 K·h as a surface 8.3333 K below freezing for 150 days, into ground of 5 °C."""
    front = neumann_front(150.0 * DAY, 8.3333, 5.0, (2.5, 1.9e6), (1.5, 3.0e6), 1.5e8)
    held_row(row, front, "Carslaw and Jaeger 1959, 11.2")


def test_the_water_of_the_standards_ground_has_its_latent_heat():
    """450 kg/m³ of water at 334 kJ/kg are 150 MJ/m³, to its two digits."""
    held(latent_heat(1350.0, 450.0 / 1350.0) / 1e6, 150.0, 0.5, "MJ/m³", "ISO 13793:2001, 5.1", "memory")
