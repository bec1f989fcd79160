"""The standard's formula for the whole floor stands beside the sections' answer as a second way, and the difference."""

import re
from functools import cache

import pytest
from pytest import approx

from underpour import catalogue
from underpour.answer import answer
from underpour.brief import reads
from underpour.physics import ground

BRIEF = """\
[project]
use = "workshop"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[plan]
outline = ["0 0", "40 0", "40 28", "0 28"]
unit = "ft"
[floor]
inside = "68 F"
build-up = [{ concrete = "4 in" }, { board = "plain-25", thickness = "2 in" }, { gravel = "4 in" }]
[[edge]]
sides = SIDES
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
footing = { width = "20 in", height = "10 in" }
wall = [{ concrete = "8 in" }]
above = [{ timber-frame = "8 in" }]
"""
ALL = BRIEF.replace("SIDES", '"all"')
OUTSIDE = 'insulation = [{ board = "plain-25", thickness = "2 in", face = "outside", from = "0 in", down = "50 in" }]\n'
WING = 'insulation = [{ board = "plain-25", thickness = "2 in", face = "wing", out = "24 in", at = "20 in" }]\n'
NEXT_DOOR = """
[[edge]]
sides = [2]
kind = "frost-wall"
depth = "60 in"
ground = "-8 in"
footing = { width = "20 in", height = "10 in" }
wall = [{ concrete = "8 in" }]
above = [{ timber-frame = "8 in" }]
beside = { winter = "40 F", summer = "60 F" }
"""
INCH, CLAY = 0.0254, 1.5


@cache
def u_floor(text):
    return answer(reads(text)).as_briefed.find("heat.u-floor")


def second(text):
    """Value of the second way, the words of its numbers and of its result."""
    (step,) = [step for step in u_floor(text).steps if step.symbol == "U_formula"]
    return float(step.result.split()[0]), step.numbers, step.result


@cache
def board():
    """R in place of two inches of the board: the answer's own."""
    return answer(reads(ALL)).as_briefed.find("heat.resistance", value="in place").value


def by_hand(foam=0.0, psi=0.0):
    """40 x 28 ft, walls 8 in and foam on them, clay, films 0.17 and 0.04; gravel is ground."""
    area, perimeter = 40.0 * 28.0 * 0.3048**2, 2.0 * 68.0 * 0.3048
    layers = 4.0 * INCH / catalogue.material("concrete").conductivity.value + board()
    thick = 8.0 * INCH + foam + CLAY * (0.17 + layers + 0.04)
    dimension = 2.0 * area / perimeter
    u = ground.floor_transmittance(dimension, thick, CLAY)
    return u + perimeter * (psi(thick) if psi else 0.0) / area


def test_the_second_way_is_the_standards_formula():
    value, numbers, _ = second(ALL)
    assert value == approx(by_hand(), abs=0.00005)
    assert "ψ" not in numbers and "W/(m·K)" not in numbers


def test_upright_foam_at_the_edge_is_counted_to_its_depth_below_the_ground():
    """50 in down from the floor, the ground 8 in below it: 42 in."""
    foam = 2.0 * INCH

    def psi(thick):
        added = ground.added_thickness(board(), foam, CLAY)
        return ground.vertical_edge_transmittance(42.0 * INCH, thick, added, CLAY)

    value, numbers, _ = second(ALL + OUTSIDE)
    assert value == approx(by_hand(foam, psi), abs=0.00005)
    assert "× −0." in numbers


def test_a_wing_is_counted_by_its_width():
    def psi(thick):
        added = ground.added_thickness(board(), 2.0 * INCH, CLAY)
        return ground.horizontal_edge_transmittance(24.0 * INCH, thick, added, CLAY)

    assert second(ALL + WING)[0] == approx(by_hand(0.0, psi), abs=0.00005)


@pytest.mark.parametrize("text", [ALL, ALL + OUTSIDE], ids=["bare edge", "foam outside"])
def test_the_difference_is_told_and_the_answer_is_the_sections(text):
    value, _, result = second(text)
    ours = u_floor(text).value
    said = re.fullmatch(r"0\.\d{4} W/\(m²·K\), (\d+) % (above|below) the answer above", result)
    assert said
    sign = 1.0 if said[2] == "above" else -1.0
    assert sign * float(said[1]) == approx(100.0 * (value / ours - 1.0), abs=0.6)
    assert u_floor(text).steps[0].result == f"{ours:.4f} W/(m²·K)"


def test_the_second_way_says_whose_it_is_and_what_is_not_in_it():
    (step,) = [step for step in u_floor(ALL).steps if step.symbol == "U_formula"]
    assert "by ISO 13370's formula, for comparison" in step.formula
    assert step.formula.endswith("where floor and wall meet is not in it")


def test_beside_other_air_than_outdoors_there_is_no_second_way():
    text = BRIEF.replace("SIDES", "[1, 3, 4]") + NEXT_DOOR
    assert [step.symbol for step in u_floor(text).steps] == ["U"]
