"""Which ground heaves where it freezes: Casagrande's limit as the Corps of Engineers uses it.

Printed, TI 850-02 / AFMAN 32-1125(I), 2000, section 6, quoted from a public page: ground of mixed grain with 3 % or
more by weight finer than 0.02 mm is frost susceptible; with 1.5 to 3 % it may be and is tested; uniform sand from 10 %.
"""

import pytest

from ledger import held, told
from underpour.catalogue.frost_heave import fines_limit, may_heave

SOURCE = "TI 850-02 (2000), frost susceptible soils"


def test_the_limit_is_the_printed_one():
    held(fines_limit().value, 3.0, 0.0, "%", SOURCE, "quoted", "mixed grains")
    held(fines_limit().low, 1.5, 0.0, "%", SOURCE, "quoted", "to be tested from")
    held(fines_limit().high, 10.0, 0.0, "%", SOURCE, "quoted", "uniform sand")


@pytest.mark.parametrize(
    ("grain", "printed"),
    [("fine", "frost susceptible"), ("coarse", "not frost susceptible"), ("rock", "not frost susceptible")],
)
def test_ground_of_a_kind_is_on_its_side_of_the_limit(grain, printed):
    """Silt and clay above it; clean sand and gravel, and rock, below."""
    told("frost susceptible" if may_heave(grain) else "not frost susceptible", printed, SOURCE, "quoted")
