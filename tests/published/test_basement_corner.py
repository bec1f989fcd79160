"""Coldest moment where floor and wall of a basement meet: three independent trials.

Seen: derived, by three trials made apart from one another and from this project; their ranges are below. Common
practice agrees with the order (no source): foam that stops at the footing leaves the corner colder than no foam.

Asked: floor half 4 m wide, outdoors 8.2 °C with a swing of 15.9 K, room 20 °C, ground 1.5 W/(m·K) and 3 MJ/(m³·K),
foam 50.8 mm (2 in) of 0.0356 W/(m·K), concrete 1.7 W/(m·K), slab 0.1 m, wall 0.2 m, footing 0.5 m by 0.25 m, gravel
counted as ground. Ours besides: ground 20 m out and down, wall 1 m above the higher of floor and ground. The trials set
up their sections by hand, so 0.4 K is allowed beyond their range.
"""

from functools import cache
from math import inf

import pytest

from ledger import between
from sections_at_random import edge_of, floor_of, foam, slice_of
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve
from underpour.resolve.resolved import Piece
from underpour.sections.build import section

FILMS = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
CLIMATES = {"room": Climate(20.0), "outdoors": Climate(8.2, -15.9 + 0j)}
TWO_INCHES = foam(0.0508, 0.0356)
SLAB = slice_of("concrete", 0.1, 1.7, 2.2e6)
RANGES = {  # ground above the floor [m], where the foam is: lowest and highest of the three [degC]
    (0.6, "none"): (13.7, 14.4),
    (0.6, "stops at the footing"): (13.1, 13.9),
    (0.6, "carried over the footing"): (17.9, 18.0),
    (2.1, "none"): (17.6, 17.8),
    (2.1, "stops at the footing"): (17.2, 17.5),
    (2.1, "carried over the footing"): (18.7, 18.7),
}
PLACES = ("none", "stops at the footing", "carried over the footing")


@cache
def coldest(ground, place):
    """Coldest moment of the corner of one section. [degC]"""
    carried = place == "carried over the footing"
    layers = (SLAB,) if place == "none" else (SLAB, TWO_INCHES)
    pieces = (Piece(TWO_INCHES, "inside", None, -SLAB.thickness, None, None),) if carried else ()
    footing_top = SLAB.thickness + (TWO_INCHES.thickness if carried else 0.0)
    made = section(
        floor_of(*layers, ground=1.5, half_width=4.0),
        edge_of(
            "footing-wall",
            pieces,
            ground=ground,
            depth=footing_top + 0.25,
            wall=(slice_of("concrete", 0.2, 1.7, 2.2e6),),
            footing=(0.5, 0.25),
        ),
    )
    corner = solve(made.parts, made.airs, FILMS, CLIMATES, tolerance=0.005).temperature(*made.corner)
    return corner.mean - abs(corner.swing)


@pytest.mark.parametrize(("ground", "place"), RANGES)
def test_the_corner_is_as_cold_as_three_trials_found_it(ground, place):
    low, high = RANGES[ground, place]
    ours = coldest(ground, place)
    between(ours, low, high, 0.4, "degC", "Three independent trials of a basement's corner", "derived")


@pytest.mark.parametrize("ground", [0.6, 2.1])
def test_foam_that_stops_short_leaves_the_corner_colder_than_none(ground):
    bare, short, carried = (coldest(ground, place) for place in PLACES)
    trade = "Common practice, no source: the order of three ways to end the foam; the distances are ours"
    between(short - bare, -inf, -0.2, 0.0, "K", trade, "practice", "stops at the footing, less bare")
    between(carried - bare, 0.5, inf, 0.0, "K", trade, "practice", "carried over the footing, less bare")
