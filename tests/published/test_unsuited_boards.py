"""Conductivity of boards that do not belong below a slab, as print gives their loss by water.

A study of boards dug up, 1984, as a builders' magazine told of it (quoted): foil-faced polyisocyanurate had taken up
5 % of water by volume and lost 40 % of its R. ISO 10456:2007 (from memory): water at 10 °C 0.60 W/(m·K); conversion
for moisture by volume 6 for polyurethane, 5 for phenolic foam, 4 for expanded polystyrene, as exp(f · share).
"""

from math import exp

import pytest

from ledger import held
from underpour.catalogue import shipped_products

ISO_10456 = "ISO 10456:2007"
FILLED = ("spray-foam-open-cell", "fibreglass-batt", "loose-fill", "mineral-wool", "wood-fibre")


def in_place(key: str) -> float:
    return shipped_products().board(key).conductivity_in_place.value


def test_polyisocyanurate_that_lost_two_fifths_of_its_r():
    study = "A study of boards dug up, 1984, as a builders' magazine told of it"
    held(in_place("polyiso"), 0.026 / 0.60, 5e-5, "W/(m·K)", study, "quoted", digits="0.026 / 0.60")


@pytest.mark.parametrize(
    ("key", "dry", "by_water", "water"),
    [
        ("spray-foam-closed-cell", 0.024, 6.0, 0.05),
        ("phenolic", 0.022, 5.0, 0.10),
        ("foam-unlabelled", 0.0465, 4.0, 0.10),
        ("foam-reclaimed", 0.0465, 4.0, 0.10),
    ],
)
def test_closed_cells_with_water_in_them(key, dry, by_water, water):
    printed = dry * exp(by_water * water)
    held(in_place(key), printed, 1e-4, "W/(m·K)", ISO_10456, "memory", digits=f"{dry} exp({by_water} × {water})")


@pytest.mark.parametrize("key", FILLED)
def test_open_cells_and_fibres_count_as_full_of_water(key):
    held(in_place(key), 0.60, 0.0, "W/(m·K)", f"{ISO_10456}, water at 10 °C", "memory")


def test_the_worst_type_of_polystyrene_is_what_foam_without_a_label_counts_as():
    """R-3.1 an inch of type XI (ASTM C578-10, Table 1) is 0.0465 W/(m·K)."""
    conductivity = 0.0254 / (3.1 * 0.1761102)
    held(0.0465, conductivity, 5e-5, "W/(m·K)", "ASTM C578-10, Table 1", "quoted", digits="0.0254 / (3.1 × 0.1761102)")
    labelled, least = (shipped_products().board(key).r_label_per_metre.value for key in ("foam-unlabelled", "c578-xi"))
    assert labelled == pytest.approx(least, abs=0.05)


def test_beads_with_water_in_the_voids_between_them():
    """Two fifths water beside three fifths of beads, both from below to above: the most that such a mix can conduct."""
    layers = "Layers in line with the heat, water by ISO 10456:2007"
    held(in_place("bead-roll"), 0.2622, 5e-4, "W/(m·K)", layers, "derived", digits="0.4 × 0.60 + 0.6 × 0.037")
