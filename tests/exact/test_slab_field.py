"""The grid from which loads are pictured, against the exact sum over patches and against itself."""

import numpy as np
import pytest

from underpour.physics.plates import felt
from underpour.physics.plates.patches import patch
from underpour.physics.plates.slab import Pressed, Slab
from underpour.physics.plates.spread_out import around

POSTS = tuple(
    Pressed(((x - 0.1, -0.1), (x + 0.1, -0.1), (x + 0.1, 0.1), (x - 0.1, 0.1)), 1e6) for x in (-1.0, 0.0, 1.0)
)
SLAB = Slab(((-7.0, -6.0), (7.0, -6.0), (7.0, 6.0), (-7.0, 6.0)), 0.18, 2.5e10, 0.15, 3e7)
CORNER = Slab(((0.0, 0.0), (6.0, 0.0), (6.0, 6.0), (0.0, 6.0)), 0.18, 2.5e10, 0.15, 3e7)
WHEEL = Pressed(((0.0, 0.0), (0.2, 0.0), (0.2, 0.2), (0.0, 0.2)), 7e5)


def test_far_from_edges_settlement_on_the_grid_is_the_exact_sum_over_the_patches() -> None:
    field = around(SLAB, POSTS, 4200.0)
    grid_x, grid_y = np.meshgrid(field.x.astype(float), field.y.astype(float))
    places = np.stack([grid_x.ravel(), grid_y.ravel()], -1)
    exact = sum(
        patch(post.pressure, post.outline, felt.radius_of(SLAB), SLAB.foundation, SLAB.poisson, places).settlement
        for post in POSTS
    )
    off = np.abs(field.settlement.ravel() - exact).max() / exact.max()
    assert off < 0.01


def test_its_largest_values_are_those_that_the_findings_tell() -> None:
    field, told = around(SLAB, POSTS, 4200.0), felt.endless(POSTS, 0.18, 2.5e10, 0.15, 3e7)
    assert np.nanmax(field.pressure) == pytest.approx(told.pressure, rel=0.01)
    assert np.nanmax(field.below) == pytest.approx(told.below, rel=0.03)
    cornered, edged = around(CORNER, (WHEEL,), 4200.0), felt.with_edges(CORNER, (WHEEL,), 4200.0)
    assert np.nanmax(cornered.pressure) == pytest.approx(edged.pressure, rel=1e-6)
    assert np.nanmax(cornered.above) == pytest.approx(edged.above, rel=0.03)


def test_between_its_lines_it_is_smooth_and_off_the_slab_it_is_nothing() -> None:
    field = around(SLAB, POSTS, 4200.0)
    x, y = np.linspace(-2.0, 2.0, 41), np.linspace(-1.5, 1.5, 31)
    grid_x, grid_y = np.meshgrid(x, y)
    exact = sum(
        patch(
            post.pressure,
            post.outline,
            felt.radius_of(SLAB),
            SLAB.foundation,
            SLAB.poisson,
            np.stack([grid_x.ravel(), grid_y.ravel()], -1),
        ).settlement
        for post in POSTS
    ).reshape(grid_x.shape)
    assert np.abs(field.between(field.settlement, x, y) - exact).max() / exact.max() < 0.01
    holed = Slab(SLAB.outline, 0.18, 2.5e10, 0.15, 3e7, holes=(((0.4, 0.4), (0.9, 0.4), (0.9, 0.9), (0.4, 0.9)),))
    gap = around(holed, POSTS, 4200.0)
    inside = (np.abs(gap.x[None, :] - 0.65) < 0.2) & (np.abs(gap.y[:, None] - 0.65) < 0.2)
    assert inside.any() and np.isnan(gap.pressure[inside]).all()
    assert not np.isnan(gap.pressure[(gap.y < 0.3), :]).any()


def test_where_the_slab_lifts_nothing_presses() -> None:
    light = around(CORNER, (WHEEL,), 1.0)
    assert (light.pressure[~np.isnan(light.pressure)] >= 0.0).all()
    assert np.nanmin(light.settlement) < 0.0
