"""What lies beside an edge: heated rooms leave the perimeter, other air is what the edge's section takes."""

from __future__ import annotations

from functools import cache

import pytest

from underpour.answer import findings
from underpour.brief import reads
from underpour.catalogue import year
from underpour.checks.solved import floor_faces
from underpour.cut import sketched_edges
from underpour.findings import Finding
from underpour.measure import temperature
from underpour.physics.ground import characteristic_dimension
from underpour.resolve import Resolved, resolve

MONTHS = (-9, -8, -3, 3, 9, 14, 16, 15, 10, 4, -2, -7)
BRIEF = """
[project]
use = "dwelling"
[site]
monthly = [{months}]
ground = {{ conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }}
[plan]
unit = "m"
outline = ["0 0", "10 0", "10 10", "0 10"]
{more}
[floor]
inside = "20 C"
humidity = "45 %"
build-up = [{{ concrete = "100 mm" }}, {{ board = "plain-25", thickness = "2 in" }}]
[[edge]]
sides = [1]
kind = "frost-wall"
depth = "1.2 m"
{beside}
[[edge]]
sides = "rest"
kind = "frost-wall"
depth = "1.2 m"
{rest}
"""
COURT = '[[plan.hole]]\noutline = ["4 4", "6 4", "6 6", "4 6"]'


def text(beside: str = "", rest: str = "", more: str = "", months: tuple[int, ...] = MONTHS) -> str:
    typed = ", ".join(f'"{t} C"' for t in months)
    lines = (f"beside = {words}" if words else "" for words in (beside, rest))
    return BRIEF.format(months=typed, beside=next(lines), rest=next(lines), more=more)


def resolved(*words: str, tried: dict[str, float] | None = None, **more: str) -> Resolved:
    return resolve(reads(text(*words, **more)).brief, tried)


@cache
def of_edge(beside: str, months: tuple[int, ...] = MONTHS) -> tuple[float, complex]:
    """Heat through the floor at edge A for each metre: mean [W/m] and swing [W/m]."""
    edges = sketched_edges(resolve(reads(text(beside, months=months)).brief))
    told = edges[0].heat.flow(floor_faces)
    return told.mean, told.swing


@pytest.mark.parametrize(
    ("more", "rest", "area", "perimeter"),
    [
        ("", "", 100.0, 40.0),
        (COURT, "", 96.0, 48.0),  # an open court's sides are exposed
        ("", '"heated"', 100.0, 10.0),
        (COURT, '"heated"', 96.0, 10.0),
    ],
)
def test_the_characteristic_dimension_takes_holes_off_and_heated_sides_out(
    more: str, rest: str, area: float, perimeter: float
) -> None:
    """B = A / (P/2): 10 by 10 m, a court of 2 by 2 in it, and one side only that faces outdoors."""
    made = resolved("", rest, more=more)
    assert (made.area, made.perimeter) == (pytest.approx(area), pytest.approx(perimeter))
    assert 2.0 * made.half_width == pytest.approx(characteristic_dimension(area, perimeter))


def test_a_court_beside_a_heated_room_is_no_edge_and_its_area_is_gone() -> None:
    beside = text(more=COURT).replace('sides = "rest"', "sides = [2, 3, 4]")
    beside += '[[edge]]\nsides = ["hole.1"]\nkind = "raft"\nbeside = "heated"\n'
    made = resolve(reads(beside).brief)
    assert (made.area, made.perimeter) == (pytest.approx(96.0), pytest.approx(40.0))
    assert [edge.letter for edge in made.edges] == ["A", "B"]


def test_half_a_side_beside_a_heated_room_halves_what_is_exposed() -> None:
    half = text('"heated"').replace("sides = [1]", 'sides = [{ side = 1, to = "5 m" }]')
    assert resolve(reads(half).brief).perimeter == pytest.approx(35.0)


def test_air_as_warm_as_outdoors_is_outdoors() -> None:
    """All months alike: a neighbour at that temperature is told from outdoors by its name alone."""
    even = (5,) * 12
    (mean, swing), (outdoors, none) = of_edge('"5 C"', even), of_edge("", even)
    assert mean == pytest.approx(outdoors, rel=1e-12)
    assert abs(swing) < 1e-12 and abs(none) < 1e-12


def test_air_that_swings_as_outdoors_is_outdoors() -> None:
    mean, swing = year.harmonic(MONTHS)
    winter, summer = mean - abs(swing), mean + abs(swing)
    there = of_edge(f'{{ winter = "{winter!r} C", summer = "{summer!r} C" }}')
    assert there[0] == pytest.approx(of_edge("")[0], rel=1e-9)
    assert there[1] == pytest.approx(of_edge("")[1], rel=1e-9)


def test_a_steady_neighbour_makes_a_steady_loss_in_proportion_to_what_it_is_colder() -> None:
    ten, none = of_edge('"10 C"'), of_edge('"0 C"')
    assert abs(ten[1]) < 1e-9 * ten[0]
    assert none[0] / ten[0] == pytest.approx(2.0, rel=1e-6)  # 20 − 0 over 20 − 10
    assert 1.0 < of_edge('"30 C"')[0] / -ten[0] < 1.1  # the other way: rising heat meets less resistance at the floor


def test_the_edges_beside_it_are_answered_as_before() -> None:
    """Another neighbour at edge A moves nothing at edge B, whose section is its own."""
    one, other = (sketched_edges(resolve(reads(text(words)).brief))[1] for words in ("", '"10 C"'))
    assert one.heat.flow(floor_faces) == other.heat.flow(floor_faces)


def test_an_unheated_space_stands_between_room_and_outdoors_and_is_listed_as_assumed() -> None:
    made = resolved('"unheated"')
    mean, swing = year.harmonic(MONTHS)
    ends = {"winter": mean - abs(swing), "summer": mean + abs(swing)}
    for season, outdoors in ends.items():
        (taken,) = [each for each in made.assumed if each.path == f"edge.A.beside.{season}"]
        assert taken.value == pytest.approx(20.0 + 0.8 * (outdoors - 20.0))
        assert sorted((taken.low, taken.high)) == pytest.approx(sorted((20.0 + 0.4 * (outdoors - 20.0), outdoors)))
    air = made.air_beside(made.edges[0])
    assert air.mean == pytest.approx(20.0 + 0.8 * (mean - 20.0))
    assert air.swing == pytest.approx(0.8 * swing)
    assert made.air_beside(made.edges[1]).mean == mean


def test_an_unheated_space_that_is_open_is_outdoors() -> None:
    """Its coldest and warmest tried at their ends."""
    mean, swing = year.harmonic(MONTHS)
    tried = {"edge.A.beside.winter": mean - abs(swing), "edge.A.beside.summer": mean + abs(swing)}
    air = resolved('"unheated"', tried=tried)
    assert air.air_beside(air.edges[0]).mean == pytest.approx(mean)
    assert air.air_beside(air.edges[0]).swing == pytest.approx(swing)


def found(beside: str) -> dict[tuple[str, str], Finding]:
    made = resolve(reads(text(beside)).brief)
    told = findings(made, sketched_edges(made))
    return {(f.id, str(f.at.get("edge", ""))): f for f in told if f.at.get("distance", 0.0) == 0.0}


def test_a_temperature_typed_for_the_neighbour_turns_the_verdict() -> None:
    factor = ("moisture.surface-factor", "A")
    cold, mild = found('"unheated"')[factor], found('"12 C"')[factor]
    assert cold.verdict == "falls short"
    assert mild.verdict == "meets"
    assert {"edge.A.beside.winter", "edge.A.beside.summer"} <= set(cold.rests_on)
    assert "edge.A.beside" in mild.rests_on
    assert found('"19 C"')[factor].verdict == "does not apply"


def test_psi_is_reckoned_with_the_air_beside_the_edge() -> None:
    """Flow over the degrees to that air: a steady neighbour of any temperature shows the same edge."""
    ten, none = (found(words)["heat.edge-psi", "A"].value for words in ('"10 C"', '"0 C"'))
    assert ten is not None and none is not None
    assert ten == pytest.approx(none, abs=1e-6)
    assert found("")["heat.edge-psi", "A"].value == pytest.approx(none, abs=0.01)


def test_the_typed_temperature_is_the_one_that_is_taken() -> None:
    made = resolved('"45 F"')
    assert made.air_beside(made.edges[0]).mean == pytest.approx(temperature("45 F").si)
    assert not [each for each in made.assumed if "beside" in each.path]
