"""ASHRAE Handbook, Fundamentals: sol-air temperature. From memory.

Printed there: for a surface that faces the sky the long-wave correction e dR / h is about 4 K (7 °F), with dR 63 W/m²,
emissivity 1 and h 17 W/(m²·K); for a dark surface a / h is 0.052 m²·K/W, for a light one 0.026.
"""

import pytest

from ledger import held
from underpour.catalogue import sunlit
from underpour.physics.ground_surface import sol_air

FILM = 1.0 / 17.0
SOURCE = "ASHRAE Fundamentals, sol-air temperature"


def test_the_sky_cools_a_level_surface_by_four_kelvin():
    """To half of the printed digit."""
    held(-sol_air(0.0, 0.0, 0.0, 63.0, FILM), 4.0, 0.5, "K", SOURCE, "memory")


@pytest.mark.parametrize(("called", "share", "printed"), [("dark", 0.88, 0.052), ("light", 0.44, 0.026)])
def test_a_surface_in_the_sun_is_lifted_by_the_printed_kelvin_for_each_watt(called, share, printed):
    """0.88 and 0.44 of the sun taken up: what the printed quotients come to with h 17. To half of the last digit."""
    held(sol_air(0.0, 1.0, share, 0.0, FILM), printed, 0.0005, "m²·K/W", SOURCE, "memory", called)


def test_what_is_taken_of_the_sky_is_the_printed_loss_at_the_usual_emissivity():
    """63 W/m² at emissivity 0.9."""
    held(sunlit()[1].value, 0.9 * 63.0, 0.5, "W/m²", SOURCE, "memory")
