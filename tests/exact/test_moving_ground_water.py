"""Ground water that moves: a wide floor over it by hand, and limits."""

from __future__ import annotations

import numpy as np
import pytest
from pytest import approx

from underpour.brief import reads
from underpour.checks.solved import floor_faces, summed
from underpour.cut import solved_edges
from underpour.resolve import resolve

HALL = """
[project]
use = "warehouse"
units = "SI"
[site]
monthly = ["-8 C", "-6 C", "0 C", "7 C", "13 C", "18 C", "21 C", "20 C", "15 C", "8 C", "1 C", "-5 C"]
{site}
[plan]
outline = ["0 0", "80 0", "80 60", "0 60"]
unit = "m"
[floor]
inside = "18 C"
build-up = [{{ concrete = "150 mm" }}, {{ gravel = "150 mm" }}]
[[edge]]
sides = "all"
kind = "frost-wall"
depth = "1.2 m"
ground = "-200 mm"
"""
SAND = '{ conductivity = "2 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }'
CLAY = '{ conductivity = "1 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }'


def hall(site):
    return resolve(reads(HALL.format(site=site)).brief)


def lost(resolved, *, moving=False):
    return summed(solved_edges(resolved), floor_faces, moving=moving).mean


def test_in_the_middle_of_a_wide_floor_the_layers_down_to_moving_water_resist_as_they_add_up():
    """One dimension by hand: room, film, concrete, gravel, sand to 1 m, clay to the water at 2.5 m below the ground."""
    resolved = hall(
        f'layers = [{{ ground = {SAND}, thickness = "1 m" }}, {{ ground = {CLAY} }}]\nwater-table = "2.5 m"'
    )
    (edge,) = solved_edges(resolved)
    slabs = sum(layer.resistance for layer in resolved.floor)
    sand, clay = 0.2 + 1.0 - 0.3, 1.5  # the build-up ends 0.3 m down, the sand 1.2 m
    film = 0.17
    flux = (18.0 - resolved.outdoor_mean) / (film + slabs + sand / 2.0 + clay / 1.0)
    x, mean, _, _ = edge.moving.along(edge.levels.half_width - 0.5, edge.levels.half_width, 0.0)
    assert (18.0 - mean[-1]) / film == approx(flux, rel=2e-3)
    assert np.all(np.diff(x) > 0.0)


def test_the_nearer_the_water_the_more_is_lost_standing_or_moving():
    depths = ("8 m", "4 m", "2 m", "1 m")
    site = 'ground = "sand-or-gravel"\nwater-table = "{}"'
    still = [lost(hall(site.format(depth))) for depth in depths]
    moving = [lost(hall(site.format(depth)), moving=True) for depth in depths]
    assert still == sorted(still) and still[-1] > 1.01 * still[0]
    assert moving == sorted(moving) and moving[-1] > 1.5 * moving[0]
    assert all(m > s for s, m in zip(still, moving, strict=True))


@pytest.mark.parametrize("depth", ["49 m", "50 m"])
def test_water_too_deep_to_matter_changes_nothing(depth):
    """A narrower hall: the section reaches 30 m down."""
    shed = HALL.replace('"80 0", "80 60", "0 60"', '"12 0", "12 8", "0 8"')
    dry, wet = (
        resolve(reads(shed.format(site=f'ground = "clay"\n{more}')).brief) for more in ("", f'water-table = "{depth}"')
    )
    assert lost(wet) == approx(lost(dry), rel=1e-9)
    assert solved_edges(wet)[0].moving is None


def test_a_room_as_cold_as_the_water_loses_nothing_to_it():
    resolved = hall(f'ground = {CLAY}\nwater-table = "2 m"')
    as_cold = HALL.replace('18 C"\nbuild', f'{resolved.outdoor_mean:.6f} C"\nbuild').format(
        site=f'ground = {CLAY}\nwater-table = "2 m"'
    )
    assert lost(resolve(reads(as_cold).brief), moving=True) == approx(0.0, abs=1e-2)
