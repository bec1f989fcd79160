"""Water in foam after years in the ground, as publications that disagree have it.

Boards dug out at St. Paul in 2008 after 15 years: a public page of the geosynthetics press, 2009 (quoted). Boards dug
out below Alaskan roads and airfields: quoted in public pages of the extruded foam trade. SEI/ASCE 32-01, Table A1, and
ISO 10456:2007, Table 4: from memory.
"""

from math import exp, inf, log

import pytest

from ledger import between, held
from underpour import catalogue

ST_PAUL = "A public page of the geosynthetics press, 2009: St. Paul, 15 years"
SHIPPED = catalogue.shipped_products()


def school(key: str, n: int):
    return SHIPPED.board(key).wetting.schools[n]


@pytest.mark.parametrize(("key", "printed"), [("c578-i", 0.048), ("c578-iv", 0.189)])
def test_what_the_boards_of_st_paul_held_is_what_was_printed(key, printed):
    """4.8 % by volume in moulded boards of type I, 18.9 % in extruded ones."""
    held(school(key, 0).water.value, printed, 0.0, "1", ST_PAUL, "quoted", "water by volume")
    assert school(key, 0).water.seen == "quoted"


@pytest.mark.parametrize(
    ("key", "n", "fresh", "left", "coefficient"),
    [
        ("c578-ii", 1, 4.2, 2.2, 4.0),
        ("c578-ii", 2, 4.4, 2.6, 4.0),
        ("c578-iv", 1, 5.4, 4.1, 2.5),
        ("c578-iv", 2, 5.4, 4.0, 2.5),
    ],
)
def test_an_r_that_was_left_is_put_through_the_moisture_coefficient(key, n, fresh, left, coefficient):
    """ψ = ln(R before / R left) / f: Alaska R-2.2 and R-4.1 an inch, ASCE 32 R-2.6 and R-4.0, flat in the ground."""
    water = school(key, n).water
    assert SHIPPED.board(key).wetting.per_water.value == coefficient
    source = "Boards dug out in Alaska (quoted)" if n == 1 else "SEI/ASCE 32-01, Table A1 (memory)"
    share, digits = log(fresh / left) / coefficient, f"ln({fresh} / {left}) / {coefficient}"
    held(water.value, share, 1e-3, "1", source, "derived", "water by volume", digits)
    assert water.seen == "derived" and f"R-{left}" in water.where


@pytest.mark.parametrize(("key", "kept", "by_iso"), [("c578-i", 0.94, 0.825), ("c578-iv", 0.52, 0.623)])
def test_the_coefficient_of_iso_10456_does_not_give_what_st_paul_measured(key, kept, by_iso):
    """We disagree with print and say by how much: 94 % of R was kept where the coefficient says 83 %, 52 % where it
    says 62 %. Neither publication gives way; so the water is typed, and the range of the coefficient is carried."""
    wetting = SHIPPED.board(key).wetting
    ours = exp(-wetting.per_water.value * wetting.schools[0].water.value)
    held(ours, by_iso, 5e-4, "1", "ISO 10456:2007, Table 4, share of R that is left", "memory")
    between(abs(by_iso - kept), 0.09, inf, 0.0, "1", f"{ST_PAUL}: {kept} kept; we disagree", "quoted", "off by")


@pytest.mark.parametrize("board", [b for b in SHIPPED.boards() if b.wetting is not None], ids=lambda board: board.key)
def test_each_school_is_named_by_its_publication_and_makes_the_foam_conduct_more_than_dry(board):
    assert len({each.water.source.key for each in board.wetting.schools}) == 3
    for each in board.wetting.schools:
        assert board.wetting.conductivity(each.water.value) > board.wetting.dry
    assert board.wetting.conductivity(board.wetting.water.value) == board.conductivity_in_place.value
