"""The key plan: every edge in it by letter and line, arcs that stay arcs, words that keep off each other."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.outlines_at_random import plan as random_plan

from underpour.brief import read, reads
from underpour.drawings.plan import key_plan
from underpour.resolve import KeyPlan, resolve
from underpour.resolve.site import size, summary

EXAMPLE = Path(__file__).parents[2] / "examples/court-and-bay-house/brief.toml"
SVG = "{http://www.w3.org/2000/svg}"
WIDE = 170.0
INK = "#182A2E"
BRIEF = """
[project]
use = "dwelling"
[site]
place = "Duluth, MN"
ground = "clay-or-silt"
[floor]
inside = "68 F"
build-up = [{ concrete = "4 in" }]
[[edge]]
sides = "rest"
kind = "raft"
[[edge]]
sides = [1, { side = 3, to = "1 m" }]
kind = "free-edge"
"""


@cache
def drawn(seed: int | None = None) -> ElementTree.Element:
    return ElementTree.fromstring(key_plan(plan(seed), "US", width=WIDE))


@cache
def plan(seed: int | None = None) -> KeyPlan:
    return resolve((read(EXAMPLE) if seed is None else reads(f"{random_plan(seed).text}{BRIEF}")).brief).plan


def texts(picture: ElementTree.Element) -> list[str]:
    return [node.text or "" for node in picture.iter(f"{SVG}text")]


def boxes(picture: ElementTree.Element) -> list[tuple[str, float, float, float, float]]:
    """Words with the room that they take, in mm: left, right, top and bottom."""
    found = []
    for node in picture.iter(f"{SVG}text"):
        wide, x, base = float(node.get("textLength", "0")), float(node.get("x", "0")), float(node.get("y", "0"))
        left = x - {"start": 0.0, "middle": wide / 2.0, "end": wide}[node.get("text-anchor", "start")]
        found.append((node.text or "", left, left + wide, base - 2.5, base))
    return found


def test_every_edge_stands_on_the_plan_and_in_its_key_with_its_length() -> None:
    said = texts(drawn())
    for letter in ("wall", "door", "court", "garage", "party wall"):
        assert said.count(letter) >= 2, letter
    for words in (
        "threshold, 3 ft 6 in (1.07 m)",
        "frost wall, 40 ft (12.19 m)",
        "frost wall, 18 ft (5.49 m), beside an unheated space",
        "raft, 30 ft (9.14 m), beside a heated room: no edge",
    ):
        assert words in [text.replace("\N{NO-BREAK SPACE}", " ") for text in said]


def test_every_side_has_its_number_with_its_length_where_there_is_room() -> None:
    said = [text.replace("\N{NO-BREAK SPACE}", " ") for text in texts(drawn())]
    assert {"1: 14 ft", "3: 26 ft", "4: 28 ft", "8: 46 ft", "1.3: 10 ft"} <= set(said)
    assert {text.partition(":")[0] for text in said} >= {*map(str, range(1, 9)), "1.1", "1.2", "1.3", "1.4"}


def test_an_arc_is_drawn_as_an_arc_and_on_the_side_that_it_bows_to() -> None:
    """The bay: r = 6.5 ft over a chord of 12 ft, turning left on the sheet as in the plan, so that it bows out."""
    data = "".join(node.get("d", "") for node in drawn().iter(f"{SVG}path"))
    arcs = re.findall(r"A([\d.]+) [\d.]+ 0 (\d) (\d)", data)
    radius = plan().floor.outline.sides[1].radius
    assert radius == pytest.approx(6.5 * 0.3048)
    scale = {round(float(r) / radius, 2) for r, _, _ in arcs}
    assert len(scale) == 1
    assert {(large, sweep) for _, large, sweep in arcs} == {("0", "0")}


def test_columns_drains_and_the_hole_are_drawn_and_told() -> None:
    assert {"column", "drain"} <= set(texts(drawn()))
    assert sum("clip-path" in node.attrib for node in drawn().iter(f"{SVG}g")) == 1


@pytest.mark.parametrize("seed", [None, *range(1, 16)])
def test_words_of_a_plan_keep_within_the_sheet_and_off_each_other(seed: int | None) -> None:
    picture = drawn(seed)
    high = float(picture.get("viewBox", "").split()[3])
    placed = boxes(picture)
    for words, left, right, top, bottom in placed:
        assert left >= -0.1 and right <= WIDE + 0.1 and top >= 0.0 and bottom <= high, words
    for n, (words, left, right, top, bottom) in enumerate(placed):
        for other, l2, r2, t2, b2 in placed[n + 1 :]:
            assert not (left < r2 and l2 < right and top < b2 and t2 < bottom), (words, other)


@pytest.mark.parametrize("seed", range(1, 16))
def test_every_edge_of_any_plan_has_a_letter_and_a_section_mark(seed: int) -> None:
    picture = drawn(seed)
    assert {"A", "B"} <= set(texts(picture))
    assert len(list(picture.iter(f"{SVG}polygon"))) == 2


def test_the_answer_says_what_is_taken_off_and_what_lies_beside() -> None:
    made = resolve(read(EXAMPLE).brief)
    said = size(made).replace("\N{THIN SPACE}", " ")
    assert "without a hole of 100 ft²" in said and "18 ft (5.49 m) beside other air" in said
    assert any("beside an unheated space" in line for line in summary(made))
    assert any(note.startswith("1 column and 1 drain in the floor: counted as floor.") for note in made.notes)


@pytest.mark.parametrize(
    ("side", "way"), [(1, (-1, 0)), (2, (0, 1)), (3, (1, 0)), (4, (0, -1))], ids=["south", "east", "north", "west"]
)
def test_a_section_looks_along_the_edge_with_the_floor_on_its_right(side: int, way: tuple[int, int]) -> None:
    """As sections are drawn: outdoors at the left, the floor at the right. On the sheet y runs down."""
    head = '[plan]\nunit = "m"\noutline = ["0 0", "10 0", "10 8", "0 8"]\n'
    made = resolve(reads(head + BRIEF.replace('[1, { side = 3, to = "1 m" }]', f"[{side}]")).brief).plan
    picture = ElementTree.fromstring(key_plan(made, "SI", width=WIDE))
    mark = list(picture.iter(f"{SVG}polygon"))[1]
    tip, *base = [tuple(map(float, point.split(","))) for point in mark.get("points", "").split()]
    middle = [sum(each) / 2.0 for each in zip(*base, strict=True)]
    towards = [a - b for a, b in zip(tip, middle, strict=True)]
    assert [round(length / max(map(abs, towards))) for length in towards] == list(way)


LOADED = Path(__file__).parents[2] / "examples/warehouse-with-racks/brief.toml"


def test_a_load_stands_on_the_plan_where_the_brief_says_and_every_load_is_named_below_it() -> None:
    loaded = resolve(read(LOADED).brief).plan
    svg = key_plan(loaded, "US", width=WIDE)
    picture = ElementTree.fromstring(svg)
    said = " ".join(texts(picture)).replace("\u00a0", " ")
    for load in loaded.loads:
        assert texts(picture).count(load.number) >= (2 if load.at is not None else 1)
    assert "in the middle of the floor" in said and "in a corner" in said
    assert "on the bare foam, before the pour: mixer truck" in said
    posts = [rect for rect in picture.iter(f"{SVG}rect") if rect.get("fill") == INK and rect.get("height") == "1.1"]
    x = [at for rect in posts if (at := float(rect.get("x", "0"))) < 150.0]  # beyond it the scale bar
    assert len(x) == 3 and x[2] - x[1] == pytest.approx(x[1] - x[0], abs=0.02)  # 8 ft from one to the next
    assert "Load 1: Rack post" in (picture.findtext(f"{SVG}desc") or "")


def test_a_plan_without_loads_is_drawn_as_before() -> None:
    assert "Load" not in (drawn().findtext(f"{SVG}desc") or "")


def test_a_long_name_beside_the_plan_makes_the_plan_smaller_and_is_whole() -> None:
    long = "towards the loading dock"
    named = reads(
        f'[plan]\noutline = ["0 0", "30 0", "30 12", "0 12"]\nunit = "m"\n{BRIEF}'.replace(
            "sides = [1, { side = 3, to", f'name = "{long}"\nsides = [2, {{ side = 3, to'
        )
    )
    picture = ElementTree.fromstring(
        key_plan(resolve(named.brief).plan, "SI", width=WIDE, shares={long: 0.07, "A": 0.93})
    )
    there = [(left, right) for words, left, right, *_ in boxes(picture) if words in (long, "7 %")]
    assert len(there) >= 2
    assert all(left >= 0.0 and right <= WIDE for left, right in there)
