"""Heat lanes: the stream of heat against closed forms, the solved flow and the isotherms that it crosses."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from pytest import approx

from bodies import box
from underpour.drawings.lanes import lane_lines, lanes_for, ways_of
from underpour.drawings.paper import Frame
from underpour.physics.conduction.sample import sampled
from underpour.physics.conduction.shapes import Films
from underpour.physics.conduction.solve import Climate, solve
from underpour.physics.conduction.stream import stream
from underpour.physics.domain import OutOfDomain
from underpour.sections.parts import Air, Part, Section

FILMS = {"room": Films(0.17, 0.13, 0.10), "outdoors": Films(0.04, 0.04, 0.04)}
WARM = {"room": Climate(20.0, -2.0 + 0j), "outdoors": Climate(8.0, -16.0 + 0j)}
EXTENT = (-6.0, 4.0, -6.0, 0.3)  # the sides right, left and below let no heat through


def part(label: str, outline, conductivity: float, priority: int) -> Part:
    return Part(label, "ground", outline, conductivity, 2.0e6, priority, "")


def floor(slab: float = 1.7, foam: float | None = None) -> tuple[Section, tuple]:
    """A slab on the ground beside a low wall, over the whole extent; the wall lets heat out as well."""
    x0, x1, y0, y1 = EXTENT
    parts = [
        part("ground", box(x0, x1, y0, -0.1), 1.5, 9),
        part("ground", box(x0, -0.2, -0.1, 0.0), 1.5, 9),
        part("slab", box(-0.2, x1, -0.1, 0.0), slab, 3),
        part("wall", box(-0.2, 0.0, 0.0, y1), 0.8, 2),
    ]
    if foam is not None:
        parts.append(part("foam", box(-0.2, x1, -0.2, -0.1), foam, 1))
    airs = (Air("room", box(0.0, x1, 0.0, y1)), Air("outdoors", box(x0, -0.2, 0.0, y1)))
    cut = Section(
        edge="A",
        kind="drawn",
        parts=tuple(parts),
        airs=airs,
        films=(),
        dimensions=(),
        extent=EXTENT,
        window=EXTENT,
        ground_level=0.0,
        corner=(0.0, 0.0),
        floor=(0.0, x1),
        underside=-0.1,
        under_edge=(0.0, -0.1),
    )
    return cut, airs


@cache
def solved_floor(slab: float = 1.7, foam: float | None = None):
    """The section, what was solved, and the ways that heat takes through all of it."""
    cut, airs = floor(slab, foam)
    solved = solve(cut.parts, airs, FILMS, WARM)
    return cut, solved, ways_of(cut, sampled(solved, EXTENT, cut.floor))


def level_room(faces):
    return (faces.space == 0) & (np.abs(faces.y) < 1e-9)


def test_a_flow_around_a_corner_has_its_hyperbolas():
    """T = x² − y² in a body of 2 W/(m·K): q = (−4x, 4y), the stream is −4xy. Potential flow in a corner, derived.

    Bilinear cells: half the cell, a quarter of what it is wrong by (seen: 3.5), a thousandth of the whole at the end.
    """
    wrong = []
    for n in (20, 40, 80):
        x, y = np.linspace(0.0, 1.0, n + 1) ** 1.3, np.linspace(0.0, 0.7, n + 1)
        found = stream(x, y, x**2 - y[:, None] ** 2, np.full((n, n), 2.0))
        wrong.append(np.max(np.abs(found + 4.0 * x * y[:, None])))
    assert wrong[1] < wrong[0] / 3.0
    assert wrong[2] < min(wrong[1] / 3.0, 0.0028)


def test_two_leaves_carry_the_same_heat_whatever_they_are_made_of():
    """Foam 0.035 before concrete 1.7, one flux through both: the stream rises by it at every height. Derived."""
    x, y = np.array([0.0, 0.05, 0.1, 0.2, 0.3]), np.array([0.0, 0.4, 1.0])
    conductivity = np.array([0.035, 0.035, 1.7, 1.7])
    warm = np.r_[0.0, np.cumsum(7.0 * np.diff(x) / conductivity)]
    found = stream(x, y, np.tile(warm, (3, 1)), np.tile(conductivity, (2, 1)))
    assert found == approx(np.tile(-7.0 * y[:, None], (1, 5)), abs=1e-9)


@pytest.mark.parametrize("foam", [None, 0.035])
def test_lanes_times_their_flow_are_the_floor_s_solved_heat(foam):
    """What is counted off the drawing, against the heat that was solved; the stream itself to one part in a hundred."""
    _, solved, ways = solved_floor(foam=foam)
    heat = solved.flow(level_room).mean
    wall = solved.flow(lambda faces: (faces.space == 0) & ~level_room(faces)).mean
    lanes = lanes_for([ways], "SI")
    assert ways.whole
    assert ways.floor == approx(heat, rel=0.01)
    assert ways.wall == approx(wall, rel=0.01)
    assert abs(lanes.count(ways.floor) * lanes.flow - heat) < lanes.flow
    assert abs(lanes.count(ways.wall) * lanes.flow - wall) < lanes.flow
    frame = Frame(0.0, 0.0, EXTENT, 20.0)
    drawn = lane_lines(ways, lanes, frame)
    top = frame.y(0.0)
    ends = [end for line in drawn for end in (line[0], line[-1])]
    on_floor = [x for x, y in ends if abs(y - top) < 0.05 and x > frame.x(0.0) + 1e-6]
    assert len(on_floor) == lanes.count(ways.floor)


def test_lanes_cross_the_isotherms_of_one_body_at_right_angles():
    """All of one conductivity: the stream's gradient stands square on the temperature's, to two degrees. Derived.

    Half a metre and more below the corner: gradients are taken over a tenth of a metre, and bend sharply above.
    """
    cut, airs = floor(slab=1.5)
    cut = replace(cut, parts=cut.parts[:3])
    airs = (airs[0], Air("outdoors", box(EXTENT[0], -0.2, 0.0, 0.3)), Air("outdoors", box(-0.2, 0.0, 0.0, 0.3)))
    field = sampled(solve(cut.parts, airs, FILMS, WARM), EXTENT, cut.floor)
    ways = ways_of(cut, field)
    rows = np.linspace(-0.5, -4.0, 30)
    columns = np.linspace(-3.0, 3.0, 30)
    step = 0.05

    def at(values, x, y):
        i, j = np.searchsorted(ways.x, x) - 1, np.searchsorted(ways.y, y) - 1
        u = (x - ways.x[i]) / (ways.x[i + 1] - ways.x[i])
        v = (y - ways.y[j]) / (ways.y[j + 1] - ways.y[j])
        return (values[j, i] * (1 - u) + values[j, i + 1] * u) * (1 - v) + (
            values[j + 1, i] * (1 - u) + values[j + 1, i + 1] * u
        ) * v

    for x in columns:
        for y in rows:
            slopes = [
                np.array(
                    [
                        at(values, x + step, y) - at(values, x - step, y),
                        at(values, x, y + step) - at(values, x, y - step),
                    ]
                )
                for values in (ways.stream, field.mean.astype(float))
            ]
            cosine = slopes[0] @ slopes[1] / np.hypot(*slopes[0]) / np.hypot(*slopes[1])
            assert abs(cosine) < np.sin(np.radians(2.0)), (x, y)


def test_no_lane_crosses_a_side_that_lets_no_heat_through():
    """Right, left and below: the stream stays the same along each; where it would change, heat would pass. Derived."""
    _, _, ways = solved_floor()
    total = np.nanmax(ways.stream) - np.nanmin(ways.stream)
    for side in (ways.stream[:, -1], ways.stream[:, 0], ways.stream[0]):
        assert np.nanmax(side) - np.nanmin(side) < 0.002 * total
    lanes = lanes_for([ways], "SI")
    frame = Frame(0.0, 0.0, EXTENT, 20.0)
    for line in lane_lines(ways, lanes, frame):
        for x, y in (line[0], line[-1]):
            assert frame.left + 0.05 < x < frame.right - 0.05
            assert y < frame.bottom - 0.05


def test_lanes_are_of_a_round_flow_and_not_more_than_a_drawing_bears():
    _, _, bare = solved_floor()
    _, _, foamed = solved_floor(foam=0.035)
    for system, unit in (("SI", 1.0), ("US", 1.7307)):
        lanes = lanes_for([bare, foamed], system)
        each = lanes.flow / {"SI": 1.0, "US": 1.0550559 / 3.6 / 0.3048}[system]
        assert any(each == approx(k * 10.0**n) for k in (1, 2, 5) for n in (-1, 0, 1)), (system, unit)
        assert 8 <= len(lanes.levels(bare)) <= 31
        assert lanes.count(foamed.floor) < lanes.count(bare.floor)


def test_a_body_that_conducts_nothing_has_no_stream():
    x = y = np.array([0.0, 1.0])
    with pytest.raises(OutOfDomain):
        stream(x, y, np.zeros((2, 2)), np.zeros((1, 1)))
    with pytest.raises(OutOfDomain):
        stream(x, y, np.full((2, 2), np.nan), np.ones((1, 1)))
    with pytest.raises(OutOfDomain):
        stream(np.zeros(2), y, np.zeros((2, 2)), np.ones((1, 1)))
