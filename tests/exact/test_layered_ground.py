"""Ground in layers: the bands fill the ground without gap or overlap, and limits give one ground's numbers."""

from __future__ import annotations

from typing import get_args

import pytest
from pytest import approx

from underpour.brief import reads
from underpour.brief.tables.edge import Kind
from underpour.checks.solved import floor_faces, summed
from underpour.cut import solved_edges
from underpour.resolve import resolve
from underpour.sections.build import section

SAND = '{ conductivity = "2 W/(m·K)", heat-capacity = "2 MJ/(m³·K)" }'
CLAY = '{ conductivity = "1 W/(m·K)", heat-capacity = "3 MJ/(m³·K)" }'
MORE = {
    "footing-wall": 'depth = "0.4 m"\nground = "1 m"',
    "frost-wall": 'depth = "1.2 m"\nground = "-200 mm"',
    "ledge": 'depth = "1.2 m"\nground = "-200 mm"',
    "threshold": 'depth = "1.2 m"\nground = "-25 mm"',
    "thickened-edge": 'depth = "600 mm"\nground = "-200 mm"',
    "raft": 'ground = "-200 mm"',
    "free-edge": 'ground = "-300 mm"',
}


def floor(ground: str, kind: str = "frost-wall", use: str = "dwelling", more: str = ""):
    inside = 'inside = "20 C"\n' if use == "dwelling" else ""
    text = f"""
[project]
use = "{use}"
units = "SI"
[site]
monthly = ["-8 C", "-6 C", "0 C", "7 C", "13 C", "18 C", "21 C", "20 C", "15 C", "8 C", "1 C", "-5 C"]
{ground}
{more}
[plan]
outline = ["0 0", "12 0", "12 8", "0 8"]
unit = "m"
[floor]
{inside}build-up = [{{ concrete = "100 mm" }}, {{ gravel = "100 mm" }}]
[[edge]]
sides = "all"
kind = "{kind}"
{MORE[kind]}
"""
    return resolve(reads(text).brief)


def layered(*layers: tuple[str, str], deepest: str) -> str:
    upper = ", ".join(f'{{ ground = {ground}, thickness = "{thick}" }}' for ground, thick in layers)
    return f"layers = [{upper}, {{ ground = {deepest} }}]"


def lost(resolved):
    return summed(solved_edges(resolved), floor_faces)


def area(outline):
    ends = zip(outline, (*outline[1:], outline[0]), strict=True)
    return 0.5 * sum(xa * yb - xb * ya for (xa, ya), (xb, yb) in ends)


def ground_of(resolved):
    made = section(resolved, resolved.edges[0])
    return [part for part in made.parts if part.path.startswith("site.")]


@pytest.mark.parametrize("kind", sorted(set(get_args(Kind)) - {"drawn"}))
@pytest.mark.parametrize("thick", ["50 mm", "200 mm", "250 mm", "1 m", "1.4 m"])
def test_the_bands_fill_what_one_ground_fills(kind, thick):
    (whole,) = ground_of(floor(f"ground = {CLAY}", kind))
    bands = ground_of(floor(layered((SAND, thick), (CLAY, "700 mm"), deepest=SAND), kind))
    assert len(bands) == 3
    assert sum(area(band.outline) for band in bands) == approx(area(whole.outline), rel=1e-12)
    assert all(area(band.outline) > 0.0 for band in bands)


@pytest.mark.parametrize("kind", ["frost-wall", "footing-wall"])
def test_layers_of_one_ground_lose_what_that_ground_loses_to_the_last_digit(kind):
    alone, layers = floor(f"ground = {CLAY}", kind), floor(layered((CLAY, "1 m"), (CLAY, "2 m"), deepest=CLAY), kind)
    assert lost(layers).mean == approx(lost(alone).mean, rel=1e-9)
    assert abs(lost(layers).swing) == approx(abs(lost(alone).swing), rel=1e-9)


def test_layers_that_hardly_differ_lose_the_same_within_the_error_that_is_told():
    hair = CLAY.replace("3 MJ", "3.000001 MJ")
    alone, layers = lost(floor(f"ground = {CLAY}")), lost(floor(layered((CLAY, "1.5 m"), deepest=hair)))
    assert layers.mean != alone.mean
    assert layers.mean == approx(alone.mean, abs=layers.within + alone.within)
    assert layers.swing == approx(alone.swing, abs=layers.within + alone.within)


def test_a_layer_too_deep_to_matter_changes_nothing():
    alone, deep = floor(f"ground = {CLAY}"), floor(layered((CLAY, "29 m"), deepest=SAND))
    assert len(ground_of(deep)) == 1
    assert lost(deep).mean == approx(lost(alone).mean, rel=1e-9)


def test_the_loss_lies_between_those_of_the_two_grounds_and_nears_the_upper_as_it_thickens():
    clay, sand = (lost(floor(f"ground = {ground}")).mean for ground in (CLAY, SAND))
    thin, thick = (lost(floor(layered((CLAY, d), deepest=SAND))).mean for d in ("0.5 m", "4 m"))
    assert clay < thick < thin < sand


def test_a_slab_outdoors_lies_on_its_layers_too():
    bands = ground_of(floor(layered((SAND, "1 m"), deepest=CLAY), "free-edge", use="drive"))
    assert [band.conductivity for band in bands] == [2.0, 1.0]


def test_the_floor_loses_more_the_better_the_ground_of_its_class_conducts():
    losses = [lost(floor(f'ground = "{name}"')).mean for name in ("peat", "clay", "sand", "rock")]
    assert losses == sorted(losses)
    assert losses[-1] > 1.5 * losses[0]


@pytest.mark.parametrize("kind", ["fine", "coarse"])
def test_the_floor_loses_more_on_ground_that_a_report_has_wetter_or_denser(kind):
    def on(density: int, moisture: int) -> float:
        report = f'{{ dry-density = "{density} kg/m³", moisture = "{moisture} %", kind = "{kind}" }}'
        return lost(floor(f"ground = {report}")).mean

    assert on(1600, 8) < on(1600, 15) < on(1600, 22)
    assert on(1400, 15) < on(1600, 15) < on(1750, 15)
