"""A section to scale can be measured with a ruler, and its words do not lie on each other."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import drawing_cases as cases
import pytest
from test_drawings import SVG, boxes, texts

from underpour.brief import read, reads
from underpour.drawings import scaled_section, to_scale
from underpour.drawings.chains import APART, spread
from underpour.handouts.pictures import ONE_PAGE
from underpour.resolve import resolve
from underpour.sections.build import section

EXAMPLES = sorted(Path(__file__).parents[2].glob("examples/*/brief.toml"))
FOOT = 304.8  # mm
LENGTHS = {
    "1 m": 1000.0,
    "500 mm": 500.0,
    "200 mm": 200.0,
    "100 mm": 100.0,
    "3 ft": 3 * FOOT,
    "1 ft": FOOT,
    "6 in": FOOT / 2,
}


def drawn(system: str = "SI", **more):
    return scaled_section(cases.section("wrapped"), system, **more)


def bar(svg: str) -> tuple[float, str]:
    """Length of the scale bar (mm) and its words."""
    halves = [
        node
        for node in ElementTree.fromstring(svg).iter(f"{SVG}rect")
        if node.get("height") == "1.1" and node.get("y") is not None
    ]
    words = next(text for text in texts(svg) if text in LENGTHS)
    return sum(float(node.attrib["width"]) for node in halves), words


@pytest.mark.parametrize(("system", "scales"), [("SI", {10, 20, 25, 50}), ("US", {8, 12, 16, 24})])
@pytest.mark.parametrize("height", [115.0, 140.0, 175.0])
def test_the_scale_is_one_of_the_trades_and_its_bar_is_true(system, scales, height):
    made = drawn(system, height=height)
    long, words = bar(made.svg)
    assert made.ratio in scales
    assert long * made.ratio == pytest.approx(LENGTHS[words], abs=0.02 * made.ratio)  # drawn to 0.01 mm, in two halves
    assert f"scale {made.words}" in " ".join(texts(made.svg))


def test_more_room_never_gives_a_smaller_drawing():
    ratios = [drawn(height=height).ratio for height in (80.0, 110.0, 140.0, 170.0, 200.0)]
    assert ratios == sorted(ratios, reverse=True) and ratios[0] > ratios[-1]


def test_a_body_measured_on_the_sheet_is_as_large_as_it_is_built():
    made = drawn("US")
    footing = next(part for part in cases.section("wrapped").parts if part.path == "edge.A.footing")
    wide = footing.outline[1][0] - footing.outline[0][0]
    step = f"l{round(100 * wide * 1000 / made.ratio) / 100:g} 0"
    assert step in made.svg


def test_every_dimension_of_the_foot_is_written():
    said = texts(drawn("US").svg)
    assert {"19.7 in", "(500 mm)", "15.7 in", "(400 mm)", "9.84 in", "(250 mm)"} <= set(said)


def parted():
    """A wall with foam on both sides on its footing, and a frame of another breadth above the floor."""
    text = (EXAMPLES[0].parents[1] / "frost-wall-workshop" / "brief.toml").read_text("utf-8").partition("[[alt")[0]
    text = text.replace('above   = [{ timber-frame = "8 in" }]', 'above   = [{ timber-frame = "6 in" }]\n' + FOAMS)
    resolved = resolve((reading := reads(text, "brief.toml")).brief, products=reading.products)
    return section(resolved, resolved.edges[0])


FOAMS = """insulation = [{ board = "plain-25", thickness = "3 in", face = "outside", from = "8 in", down = "40 in" },
  { board = "plain-25", thickness = "1 in", face = "slab-edge" },
  { board = "plain-25", thickness = "2 in", face = "wing", out = "48 in", at = "24 in" }]"""


def test_each_chain_below_goes_along_bodies_that_lie_beside_each_other():
    rows = {row.name: row for row in to_scale._rows(parted())}
    assert list(rows) == ["above", "wall", "footing", "foam"]
    inches = {name: [round((b - a) / 0.0254, 2) for a, b in pairwise(row.places)] for name, row in rows.items()}
    assert inches == {"above": [6.0], "wall": [3.0, 8.0, 1.0], "footing": [6.0, 8.0, 6.0], "foam": [48.0]}
    said = texts(scaled_section(parted(), "US").svg)
    assert said.count("8 in") == 3 and "footing" in said and "20 in" in said


def test_a_narrow_drawing_says_how_deep_the_foam_outside_goes():
    cut = parted()
    standing = replace(cut, parts=tuple(part for part in cut.parts if "insulation.3" not in part.path))
    ends = {"(203 mm)", "(610 mm)", "(711 mm)"}  # of ground, foam and footing: 8, 32 and 60 in below the floor
    for form in ((150.0, True), (106.0, False)):
        assert ends <= set(texts(scaled_section(standing, "US", width=113.0, height=form[0], layers=form[1]).svg))


def test_a_name_too_long_for_its_room_gives_up_the_other_system_and_no_letter():
    names = [text for text in texts(scaled_section(parted(), "US", width=113.0, height=150.0).svg) if "(inv" in text]
    assert "Marlpit Plain 25 (invented), 2 in" in names or "Marlpit Plain 25 (invented), 2 in (51 mm)" in names
    assert not [name for name in names if name.endswith("…")]


def test_films_are_named_among_the_layers():
    assert "Film, 15 mil (0.38 mm)" in texts(drawn().svg)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_no_words_lie_on_each_other_or_off_the_sheet(path):
    resolved = resolve((reading := read(path)).brief, products=reading.products)
    forms = ((170.0, 175.0, True), (175.9, 175.0, True), *((113.0, *form) for form in ONE_PAGE))
    for cut, (width, height, layers) in ((section(resolved, edge), form) for edge in resolved.edges for form in forms):
        made = scaled_section(cut, resolved.system, width=width, height=height, layers=layers)
        high = float(ElementTree.fromstring(made.svg).attrib["height"].removesuffix("mm"))
        words = boxes(made.svg)
        assert not [(a, b) for (a, one), (b, other) in combinations(words, 2) if one.meets(other)]
        assert all(box.left >= -0.1 and box.right <= width + 0.1 and box.bottom <= high for _, box in words)


def test_a_section_too_large_for_every_scale_is_still_drawn_to_one():
    deep = cases.section("wrapped")
    far = replace(deep.parts[4], outline=cases.box(-0.35, 0.15, -19.0, -18.0))
    made = scaled_section(replace(deep, parts=(*deep.parts, far)), "SI")
    assert made.words == "1:100"


def test_words_stand_apart_and_in_order():
    wanted, sizes = [5.0, 5.5, 6.0, 40.0], [8.0, 4.0, 8.0, 4.0]
    placed = spread(wanted, sizes, (0.0, 60.0))
    gaps = [(q - b / 2) - (p + a / 2) for p, q, a, b in zip(placed, placed[1:], sizes, sizes[1:], strict=False)]
    assert min(gaps) >= APART - 1e-6 and placed[0] - 4.0 >= 0.0 and placed[3] == 40.0


def test_a_scale_names_its_ratio():
    assert re.fullmatch(r'1/2" = 1\'-0" \(1:24\)|.*\(1:\d+\)', drawn("US").words)
