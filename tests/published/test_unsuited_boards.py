"""Conductivity of boards that do not belong below a slab, as print gives their loss by water.

A study of boards dug up, 1984, as a builders' magazine told of it (quoted): foil-faced polyisocyanurate had taken up
5 % of water by volume and lost 40 % of its R. ISO 10456:2007 (from memory): water at 10 °C 0.60 W/(m·K); conversion
for moisture by volume 6 for polyurethane, 5 for phenolic foam, 4 for expanded polystyrene, as exp(f · share).
"""

from math import exp

import pytest

from underpour.catalogue import shipped_products

FILLED = ("spray-foam-open-cell", "fibreglass-batt", "loose-fill", "mineral-wool", "wood-fibre")


def in_place(key: str) -> float:
    return shipped_products().board(key).conductivity_in_place.value


def test_polyisocyanurate_that_lost_two_fifths_of_its_r():
    assert in_place("polyiso") == pytest.approx(0.026 / 0.60, abs=5e-5)


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
    assert in_place(key) == pytest.approx(dry * exp(by_water * water), abs=1e-4)


@pytest.mark.parametrize("key", FILLED)
def test_open_cells_and_fibres_count_as_full_of_water(key):
    assert in_place(key) == 0.60


def test_the_worst_type_of_polystyrene_is_what_foam_without_a_label_counts_as():
    """R-3.1 an inch of type XI (ASTM C578-10, Table 1) is 0.0465 W/(m·K)."""
    conductivity = 0.0254 / (3.1 * 0.1761102)
    assert conductivity == pytest.approx(0.0465, abs=5e-5)
    labelled, least = (shipped_products().board(key).r_label_per_metre.value for key in ("foam-unlabelled", "c578-xi"))
    assert labelled == pytest.approx(least, abs=0.05)


def test_beads_with_water_in_the_voids_between_them():
    """Two fifths water beside three fifths of beads, both from below to above: the most that such a mix can conduct."""
    assert in_place("bead-roll") == pytest.approx(0.4 * 0.60 + 0.6 * 0.037, abs=5e-4)
