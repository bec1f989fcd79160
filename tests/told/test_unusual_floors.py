"""Floors that are narrower than the strip along the wall, and perimeters with more edges than letters."""

from __future__ import annotations

from math import cos, pi, sin

import pytest

from underpour.answer import answer
from underpour.brief import reads

HEAD = """\
[project]
use = "workshop"
units = "SI"

[site]
place = "Duluth, MN"
ground = "clay-or-silt"

[plan]
unit = "m"
outline = {outline}

[floor]
inside = "20 C"
build-up = [{{ concrete = "100 mm" }}, {{ gravel = "100 mm" }}]
"""


def corners(points: list[tuple[float, float]]) -> str:
    return "[" + ", ".join(f'"{x:.4f} {y:.4f}"' for x, y in points) + "]"


def test_a_floor_that_lies_within_a_metre_of_its_walls_is_answered_without_a_share_of_the_outer_metre():
    brief = HEAD.format(outline=corners([(0, 0), (3, 0), (3, 2), (0, 2)]))
    dossier = answer(reads(f'{brief}\n[[edge]]\nsides = "all"\nkind = "raft"\nground = "-200 mm"\n'))
    assert dossier.as_briefed.find("heat.edge-share").verdict == "does not apply"
    assert dossier.as_briefed.find("heat.corner-coldest").value is not None
    with pytest.raises(KeyError):
        dossier.as_briefed.find("heat.floor-coldest", distance=1.0)


def test_the_edge_after_the_26th_is_lettered_as_paths_letter_it():
    """Twenty-seven sides; all but the last lie beside heated rooms."""
    ring = [(10 * cos(2 * pi * n / 27), 10 * sin(2 * pi * n / 27)) for n in range(27)]
    edges = [f'[[edge]]\nsides = [{n}]\nkind = "raft"\nground = "-200 mm"\n' for n in range(1, 28)]
    heated = [f'{edge}beside = "heated"\n' for edge in edges[:-1]]
    dossier = answer(reads(HEAD.format(outline=corners(ring)) + "\n" + "\n".join([*heated, edges[-1]])))
    assert list(dossier.as_briefed.sections) == ["AA"]


@pytest.mark.parametrize(("dug", "verdict"), [("12 in", "meets"), ("11.99 in", "falls short")])
def test_inches_that_add_up_to_the_depth_that_is_there_fit(dug, verdict):
    """5, 2 and 5 in are 0.127 + 0.0508 + 0.127 m, a rounding more than the 0.3048 m of 12 in."""
    layers = '{ concrete = "5 in" }, { board = "plain-15", thickness = "2 in" }, { gravel = "5 in" }'
    text = HEAD.format(outline='["0 0", "9 0", "9 6", "0 6"]').replace(
        '{ concrete = "100 mm" }, { gravel = "100 mm" }', layers
    )
    text = (
        text.replace("[floor]", f'[floor]\navailable-depth = "{dug}"') + '[[edge]]\nsides = "all"\nkind = "free-edge"\n'
    )
    assert answer(reads(text, "brief.toml")).as_briefed.find("height.depth").verdict == verdict
