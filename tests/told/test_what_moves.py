"""What moves a number, as it is told beside it, against the brief worked out anew with the value put otherwise."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest

from underpour.answer import answer, findings
from underpour.brief import read, reads
from underpour.checks.moving import INCH, MOST, told
from underpour.cli.terminal import answer_text_with_steps
from underpour.cut import sketched_edges, solved_edges
from underpour.dossier_json import as_json
from underpour.resolve import resolve
from underpour.trying import named

EXAMPLES = Path(__file__).parents[2] / "examples"
TOLD = ("heat.loss-mean", "heat.loss-peak", "heat.corner-coldest", "heat.floor-coldest")
IN_CI = ("retrofit-over-old-slab", "daylight-basement")
OTHERS = (
    "one-slab-six-places", "full-depth-basement", "frost-wall-workshop", "raft-house", "thickened-edge-house",
    "footing-on-foam", "own-board-line", "brick-ledge-house", "court-and-bay-house", "workshop-door",
)  # fmt: skip
TYPED = "full-depth-basement"  # its ground is typed: nothing of it is open
WATER = "site.water-table"
ALL = [*IN_CI, *(pytest.param(name, marks=pytest.mark.proof) for name in OTHERS)]


def taken(name):
    """An example resolved, with what its findings say on the first grid, what moves them among it."""
    reading = read(EXAMPLES / name / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    edges = sketched_edges(resolved)
    return reading, resolved, named(told(resolved, edges, findings(resolved, edges)))


def of_a_board(move):
    return move.path.startswith(("floor.build-up", "edge.")) and move.unit == "m"


def anew(resolved):
    return named(findings(resolved, sketched_edges(resolved)))


def thicker(slice_, path, by):
    mine = slice_.path.removesuffix(f".{slice_.kind}") == path
    return replace(slice_, thickness=slice_.thickness + by) if mine else slice_


def with_an_inch(resolved, path):
    by = INCH[resolved.system]
    edges = tuple(
        replace(edge, pieces=tuple(replace(piece, board=thicker(piece.board, path, by)) for piece in edge.pieces))
        for edge in resolved.edges
    )
    return replace(resolved, floor=tuple(thicker(layer, path, by) for layer in resolved.floor), edges=edges)


@pytest.mark.parametrize("name", ALL)
def test_another_inch_changes_the_loss_as_told_to_one_and_a_half_in_a_hundred_of_the_loss(name):
    """What the inch pushes down is not in what is told; on these floors it makes up to 1.3 % of the loss. Derived."""
    _, resolved, found = taken(name)
    looked = 0
    for key, finding in found.items():
        if finding.id != "heat.loss-mean" or finding.at["of"] != "floor":
            continue
        for move in finding.moves:
            if not of_a_board(move):
                continue
            looked += 1
            assert move.by == INCH[resolved.system]
            change = anew(with_an_inch(resolved, move.path))[key].value - finding.value
            assert abs(move.change - change) <= 0.015 * abs(finding.value), (move, change)
    assert looked


@pytest.mark.parametrize(
    "name", ["retrofit-over-old-slab", *(pytest.param(n, marks=pytest.mark.proof) for n in OTHERS if n != TYPED)]
)
def test_open_values_at_their_ends_change_the_numbers_as_told(name):
    """Conductivities to 3 % of the change, heat capacities, told by the slope alone, to a third. Derived."""
    reading, resolved, found = taken(name)
    ends = {}
    looked = 0
    for key, finding in found.items():
        for move in finding.moves:
            if of_a_board(move) or move.path == WATER:
                continue
            value = next(each.value for each in resolved.assumed if each.path == move.path) + move.by
            if (move.path, value) not in ends:
                ends[move.path, value] = anew(resolve(reading.brief, {move.path: value}, reading.products))
            change = ends[move.path, value][key].value - finding.value
            part = 0.34 if "capacity" in move.path else 0.03
            assert abs(move.change - change) <= part * abs(change) + 0.002, (key, move, change)
            looked += 1
    assert looked >= 4


def test_three_at_the_most_are_told_and_the_largest_first():
    _, _, found = taken("daylight-basement")
    for finding in found.values():
        sizes = [abs(move.change) for move in finding.moves]
        assert sizes == sorted(sizes, reverse=True)
        assert len(sizes) <= MOST
        assert not sizes or finding.id in TOLD
        assert sum(step.symbol == "What moves it" for step in finding.steps) == len(sizes)
    assert any(finding.moves for finding in found.values())


def test_a_place_is_told_of_the_ground_and_not_of_an_inch():
    """How cold a place is hangs on the shape of the corner, which the inch changes."""
    _, _, found = taken("retrofit-over-old-slab")
    moves = [move for (id, _), finding in found.items() if id.endswith("-coldest") for move in finding.moves]
    assert moves
    assert not any(map(of_a_board, moves))


def test_ground_that_is_typed_is_no_longer_said_to_move_anything():
    text = (EXAMPLES / "retrofit-over-old-slab" / "brief.toml").read_text(encoding="utf-8")
    typed = re.sub(r"(?m)^\[site\]$", '[site]\nground = "clay-or-silt"', text) if "ground =" not in text else text
    typed = re.sub(
        r"(?m)^ground = .*$", 'ground = { conductivity = "1.5 W/(m K)", heat-capacity = "3 MJ/(m3 K)" }', typed
    )
    reading = reads(typed, "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    edges = sketched_edges(resolved)
    paths = {move.path for each in told(resolved, edges, findings(resolved, edges)) for move in each.moves}
    assert "floor.build-up.2" in paths
    assert not any(path.startswith("site.ground") for path in paths)


def test_it_is_said_in_words_among_the_steps_and_as_numbers_in_json():
    reading = read(EXAMPLES / "retrofit-over-old-slab" / "brief.toml")
    dossier = answer(replace(reading, alternatives=()))
    lines = " ".join(answer_text_with_steps(dossier, 100).split())
    assert "What moves it = another 1 in of Marlpit Extruded 25 (invented) under the floor, where it lies" in lines
    assert "as wetter ground has = about" in lines
    (loss,) = (f for f in json.loads(as_json(dossier))["alternatives"][0]["findings"] if f["id"] == "heat.loss-mean")
    assert loss["moves"][0]["path"] == "floor.build-up.2"
    assert loss["moves"][0]["by"] == 0.0254
    assert -0.3 * loss["value"] < loss["moves"][0]["change"] < -0.1 * loss["value"]


def test_a_slab_under_the_sky_has_no_heat_to_be_moved():
    reading = read(EXAMPLES / "walk-or-drive" / "brief.toml")
    dossier = answer(replace(reading, alternatives=()))
    assert not any(finding.moves for finding in dossier.as_briefed.findings)


def test_the_peak_of_single_hours_is_not_told_by_the_year_s_harmonic():
    """A weather file that has hours gives a peak of its own beside that of the harmonic."""
    reading = read(EXAMPLES / "retrofit-over-old-slab" / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    edges = sketched_edges(resolved)
    (peak,) = (each for each in findings(resolved, edges) if each.id == "heat.loss-peak")
    by_hours = replace(peak, at={**peak.at, "method": "hours"})
    of_the_harmonic, of_hours = told(resolved, edges, [peak, by_hours])
    assert of_the_harmonic.moves
    assert of_hours == by_hours


HOUSE = """
[project]
use = "dwelling"
units = "SI"
[site]
place = "Duluth, MN"
{site}
[plan]
outline = ["0 0", "12 0", "12 8", "0 8"]
unit = "m"
[floor]
inside = "20 C"
humidity = "40 %"
build-up = [{{ concrete = "100 mm" }}, {{ gravel = "100 mm" }}]
[[edge]]
sides = "all"
{edge}
"""
FROST_WALL = 'kind = "frost-wall"\ndepth = "1.2 m"\nground = "-200 mm"'
CELLAR = 'kind = "footing-wall"\ndepth = "0.4 m"\nground = "1 m"'
SILT = 'ground = "silty-clay-moist"'
LAYERED = 'layers = [{ ground = "sand", thickness = "1.5 m" }, { ground = "clay" }]'


def house(site, edge, solving=sketched_edges):
    resolved = resolve(reads(HOUSE.format(site=site, edge=edge)).brief)
    edges = solving(resolved)
    return resolved, named(told(resolved, edges, findings(resolved, edges)))


@pytest.mark.parametrize(
    ("site", "edge"),
    [
        (f'{SILT}\nwater-table = "1.2 m"', CELLAR),
        (SILT, FROST_WALL),
        *(
            pytest.param(f"{ground}\n{water}", edge, marks=pytest.mark.proof)
            for ground in (SILT, 'ground = "peat"', LAYERED)
            for water in ("", 'water-table = "3 m"', 'water-table = "1.2 m"')
            for edge in (FROST_WALL, CELLAR)
        ),
    ],
)
def test_ground_water_that_stands_nearer_moves_the_numbers_as_told(site, edge):
    """Against the whole brief solved with that water table, on its own grid.

    To 7 % of the change and 0.2 % of a flow, or 0.01 K: a cell that the water cuts counts by its part, and a peak is
    the difference of what soaked ground conducts and what it stores. Derived.
    """
    before, found = house(site, edge, solved_edges)
    (depth,) = {
        move.by + (before.water.depth if before.water else 0.0)
        for finding in found.values()
        for move in finding.moves
        if move.path == WATER
    }
    ground = "\n".join(line for line in site.splitlines() if "water-table" not in line)
    _, nearer = house(f'{ground}\nwater-table = "{depth:.9f} m"', edge, solved_edges)
    looked = 0
    for key, finding in found.items():
        for move in finding.moves:
            if move.path == WATER:
                change = nearer[key].value - finding.value
                floor = 0.01 if finding.unit == "degC" else 0.002 * abs(finding.value)
                assert abs(move.change - change) <= 0.07 * abs(change) + floor, (key, move, change)
                assert finding.id != "heat.loss-mean" or move.change > 0.0
                looked += 1
    assert looked


def test_water_that_is_told_comes_a_metre_nearer_and_water_that_is_not_stands_a_metre_below_the_floor():
    moves = {}
    for water in ("", 'water-table = "4 m"', 'water-table = "1.5 m"'):
        _, found = house(f"{SILT}\n{water}", CELLAR)
        loss = next(each for key, each in found.items() if key[0] == "heat.loss-mean" and each.at["of"] == "floor")
        (moves[water],) = ((move, step) for move, step in zip_moves(loss) if move.path == WATER)
    assert moves[""][0].by == pytest.approx(2.2)  # ground 1 m above the floor, 0.2 m of floor, 1 m
    assert "ground water 2.20\u2009m" in moves[""][1] and "where none is told, standing still" in moves[""][1]
    assert moves['water-table = "4 m"'][0].by == -1.0
    assert moves['water-table = "1.5 m"'][0].by == -0.75  # half of its depth: it does not rise out of the ground
    assert "nearer, 750" in moves['water-table = "1.5 m"'][1]


def zip_moves(finding):
    steps = [step.formula for step in finding.steps if step.symbol == "What moves it"]
    return zip(finding.moves, steps, strict=True)


def test_typed_ground_is_told_of_only_where_the_brief_says_what_it_is_below_the_water():
    typed = 'ground = {{ conductivity = "1.5 W/(m·K)", heat-capacity = "3 MJ/(m³·K)"{} }}'
    paths = [
        {move.path for finding in house(typed.format(more), CELLAR)[1].values() for move in finding.moves}
        for more in ("", ', saturated-conductivity = "2 W/(m·K)"')
    ]
    assert WATER not in paths[0]
    assert WATER in paths[1]
