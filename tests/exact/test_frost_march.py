"""Ground that freezes step by step: Neumann's front, heat that is all accounted for, and waves that do not freeze."""

from __future__ import annotations

import math
from types import SimpleNamespace as Shape

import numpy as np
import pytest

from underpour.physics.domain import OutOfDomain
from underpour.physics.frost.cells import Cells, Freezes, cells, lines
from underpour.physics.frost.depth import neumann_front, stefan_depth, undisturbed_depth
from underpour.physics.frost.freezing import freezing
from underpour.physics.frost.march import Moment, march, settled_year
from underpour.physics.frost.winter import amplitude_of, index_of
from underpour.physics.year import YEAR

DAY = 86400.0
SILT = Freezes(frozen_conductivity=2.5, frozen_heat_capacity=1.9e6, latent=1.5e8, range=0.02)


def box(x0: float, x1: float, y0: float, y1: float) -> tuple[tuple[float, float], ...]:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def body(*outline: float, k: float = 1.5, c: float = 3e6, priority: int = 1) -> Shape:
    return Shape(outline=box(*outline), conductivity=k, heat_capacity=c, priority=priority)


def column(count: int, depth: float = 6.0, freezes: Freezes = SILT) -> Cells:
    """Ground 1 m wide and so deep, its cells growing by an even ratio, air above."""
    y = -depth * (np.linspace(1.0, 0.0, count + 1) ** 1.5)
    air = Shape(where="outdoors", outline=box(0.0, 1.0, 0.0, 1.0))
    return cells(np.array([0.0, 1.0]), np.append(y, 1.0), [body(0.0, 1.0, -depth, 0.0)], [air], {0: freezes})


def held_at(air: float, film: float = 1e-6) -> Moment:
    return Moment(np.full(3, air), np.full(3, film))


def front(section: Cells, temperature: np.ndarray) -> float:
    """Depth of ice, each cell by its share. [m]"""
    return float((section.made.ice(temperature) * section.area).sum())


def test_the_front_is_neumanns_within_two_percent_at_sixty_cells():
    """From the 25th day on: a surface that turns cold at once is the worst that steps of any length can meet."""
    section, quarter = column(60), DAY / 4.0
    steps = march(section, np.full(60, 5.0), [held_at(-8.3333)] * 600, quarter)
    ours = np.array([front(section, after.temperature) for after in steps])
    exact = neumann_front(np.arange(1, 601) * quarter, 8.3333, 5.0, (2.5, 1.9e6), (1.5, 3e6), 1.5e8)
    assert np.abs(ours / exact - 1.0)[100:].max() < 0.02
    assert ours[-1] == pytest.approx(1.681, rel=0.01)


@pytest.mark.parametrize("count", [60, 240, 480])
def test_corrections_settle_where_the_front_runs_over_many_narrow_cells_in_one_step(count):
    section = column(count, freezes=Freezes(2.5, 1.9e6, 2e7, 1e-3))
    told = list(march(section, np.full(count, 0.5), [held_at(-30.0)] * 30 + [held_at(20.0)] * 30, DAY))
    assert max(front(section, after.temperature) for after in told) > 1.0
    assert max(after.corrections for after in told) < 60


def test_heat_is_all_accounted_for_to_one_in_a_million():
    section = column(60)
    start = np.full(60, 5.0)
    wave = [held_at(4.0 - 16.0 * math.sin(2.0 * math.pi * day / 365.0)) for day in range(365)]
    told = list(march(section, start, wave, DAY))
    stored = float(((told[-1].heat - section.made.heat(start)) * section.area).sum())
    came = sum(after.taken for after in told)
    turned = sum(abs(after.taken) for after in told)
    assert abs(stored - came) < 1e-6 * turned
    assert abs(sum(after.imbalance for after in told)) < 1e-6 * turned
    assert max(front(section, after.temperature) for after in told) > 0.8, "it froze, so that there was ice to count"


def test_ground_that_begins_at_freezing_and_stores_little_freezes_as_deep_as_stefan_says():
    section = column(120, freezes=Freezes(2.5, 1e4, 1.5e8, 0.01))
    *_, last = march(section, np.full(120, 1e-6), [held_at(-5.0)] * 120, DAY)
    assert front(section, last.temperature) == pytest.approx(stefan_depth(2.5, 600.0 * DAY, 1.5e8), rel=0.01)


def test_what_does_not_freeze_follows_the_years_wave_into_deep_ground():
    """exp(-z / d) with d = sqrt(2 a / omega) and a lag of z / d, for a surface that is the air."""
    depth, k, c = 30.0, 1.5, 3e6
    y = -depth * (np.linspace(1.0, 0.0, 241) ** 1.6)
    air = Shape(where="outdoors", outline=box(0.0, 1.0, 0.0, 1.0))
    section = cells(np.array([0.0, 1.0]), np.append(y, 1.0), [body(0.0, 1.0, -depth, 0.0)], [air], {})
    mean, swing = settled_year(section, np.full(3, 9.0), np.full(3, 12.0 + 0j), np.full(3, 1e-6))
    z = -section.middles[1][:240]
    damping = math.sqrt(2.0 * k / c / (2.0 * math.pi / YEAR))
    assert mean == pytest.approx(np.full(240, 9.0))
    near = z < 8.0
    assert np.abs(swing - 12.0 * np.exp(-(1.0 + 1j) * z / damping))[near].max() < 0.02


def test_steps_hold_to_the_settled_year_where_nothing_freezes():
    section = column(60, depth=15.0)
    films, swing = np.full(3, 0.04), -8.0 + 0j
    mean, wave = settled_year(section, np.full(3, 12.0), np.full(3, swing), films)
    fractions = (np.arange(365) + 1.0) * DAY / YEAR
    moments = [Moment(np.full(3, 12.0 + (swing * np.exp(2j * math.pi * f)).real), films) for f in fractions]
    *_, last = march(section, mean + wave.real, moments, DAY)
    then = mean + (wave * np.exp(2j * math.pi * fractions[-1])).real
    assert np.abs(last.temperature - then).max() < 0.12  # a step of a day lags by half a day


@pytest.mark.parametrize("mean", [-3.0, 0.0, 5.0, 11.0])
def test_the_design_winter_is_as_cold_as_its_index(mean):
    index = 1200.0 * DAY
    amplitude = amplitude_of(mean, index)
    days = np.arange(0.0, 365.2425, 0.01)
    air = mean + amplitude * np.cos(2.0 * np.pi * days / 365.2425)
    assert -np.minimum(air, 0.0).sum() * 0.01 == pytest.approx(1200.0, rel=1e-4)
    assert index_of(mean, amplitude) == pytest.approx(index, rel=1e-9)


def test_a_place_that_is_colder_than_its_index_is_refused():
    with pytest.raises(OutOfDomain, match="larger freezing index"):
        amplitude_of(-5.0, 1000.0 * DAY)


def test_heat_and_temperature_are_each_others_inverse_with_water_that_stays_liquid():
    silt = freezing(1.5, 2.5, 3e6, 1.9e6, 1.5e8, 1.5, unfrozen=0.2)
    temperature = np.linspace(-8.0, 8.0, 161)
    assert silt.temperature(silt.heat(temperature)) == pytest.approx(temperature, abs=1e-9)
    assert float(silt.heat(np.array(0.0)) - silt.heat(np.array(-1.5))) == pytest.approx(0.8 * 1.5e8 + 1.5 * 1.9e6)


def test_a_steep_range_and_a_wide_one_take_the_same_heat_out():
    """The first degree that is thawed again gives back all that freezing took: nothing is lost between them."""
    for width in (0.01, 2.0):
        section = column(40, freezes=Freezes(2.5, 1.9e6, 1.5e8, width))
        cold = [held_at(-10.0)] * 60 + [held_at(10.0)] * 400
        told = list(march(section, np.full(40, 4.0), cold, DAY))
        stored = float(((told[-1].heat - section.made.heat(np.full(40, 4.0))) * section.area).sum())
        assert stored == pytest.approx(sum(after.taken for after in told), rel=1e-6)
        assert front(section, told[-1].temperature) == 0.0


def test_a_grid_has_a_line_through_every_place_and_none_wider_than_was_asked_where_frost_is_watched():
    places = [-12.0, -0.9, -0.3, 0.0, 0.1, 4.0]
    made = lines(places, (-1.6, 0.5), 0.08)
    assert all(np.abs(made - place).min() < 1e-9 for place in places)
    widths, middles = np.diff(made), (made[1:] + made[:-1]) / 2.0
    assert widths[(middles > -1.6) & (middles < 0.5)].max() <= 0.08 + 1e-9
    assert widths.min() > 1e-4 and (widths[1:] / widths[:-1]).max() < 2.5


def test_cells_are_half_as_large_where_frost_comes_in_closely_and_the_old_lines_elsewhere():
    plain, close = (lines([0.0, 0.45, 4.0], (0.0, 2.0), 0.1, closely) for closely in ((0.0, 0.0), (0.62, 1.13)))
    wide, middle = np.diff(close), (close[1:] + close[:-1]) / 2.0
    assert wide[(middle > 0.62) & (middle < 1.13)].max() <= 0.05 + 1e-9
    assert {0.62, 1.13} <= set(close.round(9).tolist())
    assert np.allclose(close[close <= 0.45], plain[plain <= 0.45])
    assert wide[middle < 2.0].max() <= 0.1 + 1e-9


def test_the_standards_depth_in_open_ground_lies_deeper_than_neumanns_exact_one():
    """ISO 13793 leaves out the heat that frozen ground stores: 1.81 m, where the exact front lies at 1.68."""
    standard = undisturbed_depth(30000.0 * 3600.0, 5.0, 2.5, 3e6, 1.5e8)
    exact = neumann_front(150.0 * DAY, 8.3333, 5.0, (2.5, 1.9e6), (1.5, 3e6), 1.5e8)
    assert exact < standard < 1.1 * exact
