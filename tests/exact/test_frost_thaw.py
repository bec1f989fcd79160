"""Thaw of frozen ground a second way: explicit steps in one dimension, and Neumann's front the other way round."""

from __future__ import annotations

from types import SimpleNamespace as Shape

import numpy as np
import pytest

from underpour.physics.frost.cells import Cells, Freezes, cells
from underpour.physics.frost.depth import neumann_front
from underpour.physics.frost.march import Moment, march

DAY = 86400.0
THAWED, FROZEN, LATENT, RANGE = (1.5, 2.8e6), (2.3, 2.1e6), 1.1e8, 0.05


def column(depth: float, count: int, grown: float) -> Cells:
    """Frozen ground 1 m wide below a warm space, its cells growing downwards by a power."""
    y = np.append(-depth * np.linspace(1.0, 0.0, count + 1) ** grown, 1.0)
    ground = Shape(
        outline=((0.0, -depth), (1.0, -depth), (1.0, 0.0), (0.0, 0.0)),
        conductivity=THAWED[0], heat_capacity=THAWED[1], priority=1,
    )  # fmt: skip
    air = Shape(where="room", outline=((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)))
    return cells(np.array([0.0, 1.0]), y, [ground], [air], {0: Freezes(*FROZEN, LATENT, RANGE)})


def thawed(section: Cells, temperature: np.ndarray) -> float:
    """Depth of ground without ice, each cell by its share. [m]"""
    return float(((1.0 - section.made.ice(temperature)) * section.area).sum())


def explicitly(depth: float, wide: float, warm: float, film: float, cold: float, days: float) -> float:
    """Thaw in even cells by explicit steps: heat as it flows, temperature as it follows, nothing solved. [m]"""
    count = round(depth / wide)
    step = 0.4 * wide**2 * THAWED[1] / FROZEN[0] * 0.7
    heat = np.full(count, -LATENT - FROZEN[1] * RANGE + FROZEN[1] * (cold + RANGE))
    slush = LATENT / RANGE + FROZEN[1]

    def temperatures() -> np.ndarray:
        ice = heat / FROZEN[1] + (LATENT + FROZEN[1] * RANGE) / FROZEN[1] - RANGE
        return np.where(heat >= 0.0, heat / THAWED[1], np.where(heat > -RANGE * slush, heat / slush, ice))

    for _ in range(int(days * DAY / step)):
        t = temperatures()
        share = np.clip(-t / RANGE, 0.0, 1.0)
        k = THAWED[0] + (FROZEN[0] - THAWED[0]) * share
        between = (t[:-1] - t[1:]) / (wide / 2.0 / k[:-1] + wide / 2.0 / k[1:])
        down = np.concatenate([[(warm - t[0]) / (wide / 2.0 / k[0] + film)], between, [0.0]])
        heat += (down[:-1] - down[1:]) * step / wide
    return float((1.0 - np.clip(-temperatures() / RANGE, 0.0, 1.0)).sum() * wide)


def test_thaw_below_a_floor_is_that_of_explicit_steps():
    """Ten years below foam of 3 m²·K/W at 20 °C, ground at -4 °C: 1.4 % apart at 10 cm cells and steps of five days."""
    section = column(12.0, 60, 1.4)
    warm = Moment(np.full(3, 20.0), np.full(3, 3.0))
    *_, last = march(section, np.full(60, -4.0), [warm] * 730, 5.0 * DAY)
    other = explicitly(12.0, 0.1, 20.0, 3.0, -4.0, 3650.0)
    assert other > 1.5
    assert thawed(section, last.temperature) == pytest.approx(other, rel=0.02)


def test_thaw_from_a_warm_surface_is_neumanns_front_with_thawed_and_frozen_ground_changed_about():
    """The same equation: what freezes from a cold surface thaws from a warm one, each with the other's properties."""
    section = column(40.0, 120, 2.0)  # so deep that its floor is not felt
    warm = Moment(np.full(3, 8.0), np.full(3, 1e-6))
    depths = [thawed(section, after.temperature) for after in march(section, np.full(120, -3.0), [warm] * 500, DAY)]
    exact = neumann_front(np.arange(1, 501) * DAY, 8.0, 3.0, THAWED, FROZEN, LATENT)
    assert np.abs(np.array(depths) / exact - 1.0)[100:].max() < 0.02
