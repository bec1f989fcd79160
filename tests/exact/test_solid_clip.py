"""The clip that holds tints to the bodies: one path, wound so that bodies are in it and air is not."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from random import Random

import drawing_cases
import numpy as np
import pytest

from underpour.answer import answer
from underpour.brief import read
from underpour.drawings.paper import Frame
from underpour.drawings.visible import NOTHING, cut_outs, inside, showing
from underpour.sections.parts import Part, Section

ROOT = Path(__file__).parents[2]
EXAMPLES = ("daylight-basement", "drawn-haunch", "free-edge-warehouse", "retrofit-over-old-slab")
COUNT = 400


def rings(clip: str) -> list[list[tuple[float, float]]]:
    """The closed rings of path data that is written as a start and steps; the frame around all of it left out."""
    (data,) = re.findall(r'<path d="M-9999 -9999H9999V9999H-9999z([^"]*)"/>', clip)
    found = []
    for ring in data.split("z")[:-1]:
        steps = [tuple(map(float, pair.split())) for pair in re.findall(r"[Ml]([^Ml]+)", ring)]
        found.append([(x, y) for x, y in np.cumsum(steps, axis=0)])
    return found


def winding(ring: list[tuple[float, float]], x: float, y: float) -> int:
    """How often a ring turns around a point, clockwise on the sheet counted up."""
    turns = 0
    for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) * (x1 - x0) / (y1 - y0):
            turns += -1 if y1 > y0 else 1
    return -turns


def holds(section: Section) -> None:
    """Bodies are in the clip and air is out of it, at places strewn by a fixed seed."""
    frame = Frame(0.0, 0.0, section.window, 40.0)
    (clip,) = [part for part in cut_outs(section, frame, "s") if 'id="s-solid"' in part]
    assert clip.count("<path") == 1, "browsers that join several outlines lose some of them"
    drawn = rings(clip)
    chance = Random(5)
    x0, x1, y0, y1 = section.window
    met = {True: 0, False: 0}
    for _ in range(COUNT):
        x, y = np.array([chance.uniform(x0, x1)]), np.array([chance.uniform(y0, y1)])
        body = showing(section.parts, x, y)[0] != NOTHING
        air = any(inside(space.outline, x, y)[0] for space in section.airs)
        if not body and not air:
            continue
        turned = 1 + sum(winding(ring, float(frame.x(x[0])), float(frame.y(y[0]))) for ring in drawn)
        assert (turned != 0) == body
        met[body] += 1
    assert min(met.values()) > 20


@pytest.mark.parametrize("foam", ["bare", "under", "wrapped"])
def test_made_up_sections_are_clipped_to_their_bodies(foam):
    holds(drawing_cases.section(foam))


def test_a_body_that_reaches_into_the_air_is_in_the_clip():
    section = drawing_cases.section("wrapped")
    board = Part("Board", "foam-moulded", drawing_cases.box(-0.5, -0.2, 0.2, 0.9), 0.03, 3e4, 1, "edge.A.insulation.2")
    holds(replace(section, parts=(*section.parts, board)))


def test_the_way_an_outline_was_typed_does_not_matter():
    section = drawing_cases.section("wrapped")
    parts = tuple(replace(part, outline=part.outline[::-1]) for part in section.parts[:3]) + section.parts[3:]
    airs = (replace(section.airs[0], outline=section.airs[0].outline[::-1]), *section.airs[1:])
    holds(replace(section, parts=parts, airs=airs))


@pytest.mark.parametrize("example", EXAMPLES)
def test_sections_of_the_examples_are_clipped_to_their_bodies(example):
    for answered in answer(read(str(ROOT / "examples" / example / "brief.toml"))).alternatives:
        for section in answered.sections.values():
            holds(section)
