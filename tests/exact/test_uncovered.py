"""A surface below a floor with the floor taken off: closed forms, and the bare floor solved by itself."""

from __future__ import annotations

from cmath import sqrt
from math import pi

import pytest

from underpour.answer import answer
from underpour.brief import reads
from underpour.checks.old_slab import ID
from underpour.physics.domain import OutOfDomain
from underpour.physics.ground.uncovered import uncovered
from underpour.physics.year import YEAR


@pytest.mark.parametrize(("above", "film"), [(2.0, 0.17), (0.5, 0.1), (6.0, 0.17)])
def test_over_endless_ground_the_swing_is_that_of_a_film_alone(above, film):
    """One dimension: what the plane does under ``above`` gives back what it does under the film."""
    conductivity, capacity, room, deep = 1.5, 3e6, 3.0 + 1.0j, -2.0 + 0.5j
    wave = 1.0 / sqrt(2j * pi / YEAR * conductivity * capacity)
    covered, bare = ((deep * r + room * wave) / (r + wave) for r in (above, film))
    _, swing = uncovered((20.0, room), (18.0, covered), 8.0, above, film, conductivity, capacity)
    assert swing == pytest.approx(bare, rel=1e-12)


@pytest.mark.parametrize("ground", [0.8, 3.0])
def test_the_mean_is_that_of_resistances_in_a_row(ground):
    covered = 8.0 + 12.0 * ground / (ground + 2.0)
    mean, _ = uncovered((20.0, 0j), (covered, 0j), 8.0, 2.0, 0.17, 1.5, 3e6)
    assert mean == pytest.approx(8.0 + 12.0 * ground / (ground + 0.17), rel=1e-12)


def test_nothing_above_is_refused():
    with pytest.raises(OutOfDomain):
        uncovered((20.0, 0j), (18.0, 0j), 8.0, 0.0, 0.17, 1.5, 3e6)


BRIEF = """\
[project]
use = "basement"
units = "SI"
[site]
place = "Rochester, NY"
ground = "clay-or-silt"
humidity = ["70 %"]
[plan]
outline = ["0 0", "11 0", "11 8", "0 8"]
unit = "m"
[floor]
inside = {{ winter = "19 C", summer = "22 C" }}
summer-humidity = "55 %"
touched-by = []
build-up = [{layers}{{ old-slab = "100 mm" }}, {{ gravel = "100 mm" }}]
[[edge]]
sides = "all"
kind = "footing-wall"
depth = "300 mm"
ground = "1.2 m"
wall = [{{ concrete = "200 mm" }}]
"""
COVERED = '{ screed = "40 mm" }, { board = "c578-iv", thickness = "50 mm" }, { vapour-retarder = "film-15-mil" }, '


def test_the_bare_floor_is_near_the_bare_floor_solved_by_itself():
    """Below two inches of foam: within 0.6 K in every month, a metre from the wall and in the middle."""
    covered, bare = (answer(reads(BRIEF.format(layers=layers))).as_briefed for layers in (COVERED, ""))
    for place in ("edge", "centre"):
        told = next(step for step in covered.find(ID, place=place).steps if step.symbol == "θ_bare")
        ours = [float(each.replace("\N{THIN SPACE}", " ").split()[0]) for each in told.result.split(", ")]
        alone = bare.find("heat.floor-year", place=place).months
        assert alone is not None and ours == pytest.approx(alone, abs=0.6)
        now = next(step for step in covered.find(ID, place=place).steps if step.symbol == "θ")
        colder = [float(each.replace("\N{THIN SPACE}", " ").split()[0]) for each in now.result.split(", ")]
        assert all(a < b - 1.0 for a, b in zip(colder, ours, strict=True)), "foam leaves the old slab colder"
