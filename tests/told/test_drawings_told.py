"""What is said of a drawing that was read, and of one by a newcomer; both were drawn in a drawing program.

``examples/from-a-drawing/plan.dxf`` and ``drawings/all-on-one-layer.dxf`` were drawn by typing coordinates into an open
drawing program and saved by it; only its name was taken out of the files.
"""

from __future__ import annotations

import shutil
from math import pi
from pathlib import Path
from typing import Any

import pytest
from pytest import approx
from tests.drawings import FEET, FLOOR, METRES, MM, box, drawing, ring, saved

from underpour.brief import Reading, reads
from underpour.brief.plans import floor_of
from underpour.brief.sides import stretches_of_edges
from underpour.mistakes import Mistakes
from underpour.plan_file import Asked, read, taken
from underpour.resolve import resolve

EXAMPLE = Path(__file__).parents[2] / "examples" / "from-a-drawing"
NEWCOMER = Path(__file__).parent / "drawings" / "all-on-one-layer.dxf"
TEXT = (EXAMPLE / "brief.toml").read_text("utf-8")


def with_newcomers(folder: Path, more: str = "") -> Reading:
    """The example's brief with the newcomer's drawing, its door on a side by number."""
    shutil.copy(NEWCOMER, folder / "plan.dxf")
    text = TEXT.replace('dxf = "plan.dxf"', f'dxf = "plan.dxf"\n{more}', 1)
    return reads(text.replace('sides      = "by-layer"', "sides = [2]", 1), str(folder / "brief.toml"))


def test_the_floor_of_another_programs_drawing_has_the_area_of_its_dimensions() -> None:
    """14.4 m × 6 m, 9.6 m × 3.6 m, half a circle of 2.4 m; a corner off by 0.4 mm adds half of that on 3.6 m."""
    floor = floor_of(reads(TEXT, str(EXAMPLE / "brief.toml")).brief.plan)
    assert floor.area == approx(14.4 * 6.0 + 9.6 * 3.6 + pi * 2.4**2 / 2.0 + 0.0002 * 3.6 / 2.0, rel=1e-9)
    assert [each.kind for each in floor.obstacles] == ["column", "column", "drain", "pit"]
    (pit,) = (each for each in floor.obstacles if each.kind == "pit")
    assert (pit.at, pit.size) == (approx((12.0, 1.65)), approx((2.4, 0.9)))


def test_the_doors_line_gives_the_door_its_part_of_a_side() -> None:
    brief = reads(TEXT, str(EXAMPLE / "brief.toml")).brief
    ((door,), rest) = stretches_of_edges(brief)
    assert (door.side, door.start, door.end) == (2, approx(0.9), approx(5.1))
    assert sum(each.length for each in rest) == approx(43.2 + 2.4 * pi - 4.2, abs=1e-3)


def test_the_answer_says_what_was_taken_and_a_dimension_to_hold() -> None:
    reading = reads(TEXT, str(EXAMPLE / "brief.toml"))
    plain = [note.replace("\u2009", " ") for note in resolve(reading.brief, products=reading.products).notes]
    assert plain[0] == (
        "Taken from plan.dxf, layer floor-outline, in millimetres, as its header says: over all 16800 mm, which is "
        "16.80 m (55.1 ft), by 9600 mm, which is 9.60 m (31.5 ft); 130 m² (1399 ft²) of floor. To be held against the "
        "drawing: of its sides, side 1 is the longest straight one, 14400 mm, which is 14.40 m (47.2 ft)."
    )
    assert plain[1].startswith(
        "Side n runs from corner n to the next. Corners of the outline, in mm: 1: 0 0; 2: 14400 0;"
    )
    assert "7: 0 7200, arc of radius 2400; 8: 0 2400." in plain[1]
    assert "2 columns in the drawing: 4800 4800, 300 mm across; 9600 3000, 300 mm across." in plain
    assert "1 pit in the drawing: 12000 1650, 2400 x 900 mm." in plain
    assert "Lines on layer edge-a lie along side 2 from 900 to 5100 mm." in plain
    joined = "8 loose lines and arcs were joined at their ends; the widest gap was 0.4 mm, and gaps up to 1.0 mm"
    assert any(note.startswith(joined) for note in plain)
    assert "Not read: 1 dimension." in plain


def test_a_newcomers_drawing_is_mended_step_by_step(tmp_path: Path) -> None:
    """All on one layer, a corner that misses by 6 mm: the gap is told, then the rings, and then it is a floor."""
    with pytest.raises(Mistakes, match="there are 6 mm between 9600 9600 mm and 9606 9600 mm") as told:
        with_newcomers(tmp_path)
    assert 'dxf-gap = "6 mm"' in str(told.value)
    with pytest.raises(Mistakes, match="A small ring lies in the floor, on the same layer: 300 by 300 mm") as told:
        with_newcomers(tmp_path, 'dxf-gap = "6 mm"')
    assert "and 2 more such rings. Is it a hole?" in str(told.value)
    with_holes = with_newcomers(tmp_path, 'dxf-gap = "6 mm"\ndxf-layers = { floor = "0" }')
    assert len(with_holes.brief.plan.hole) == 4


def test_lines_of_an_edge_that_the_brief_overrules_are_said(tmp_path: Path) -> None:
    shutil.copy(EXAMPLE / "plan.dxf", tmp_path)
    text = TEXT.replace('sides      = "by-layer"', "sides = [1]", 1)
    reading = reads(text, str(tmp_path / "brief.toml"))
    notes = resolve(reading.brief, products=reading.products).notes
    assert "Edge door has other sides in the brief than the lines of layer edge-a; the brief's count." in notes
    as_drawn = reads(TEXT, str(EXAMPLE / "brief.toml"))
    assert not any("other sides" in note for note in resolve(as_drawn.brief, products=as_drawn.products).notes)


@pytest.mark.parametrize(
    ("code", "unit", "drawing_unit", "words", "brief_unit", "area"),
    [
        (MM, None, None, "in millimetres, as its header says", "mm", 96.0),
        (MM, "ft", "mm", "in millimetres, as plan.dxf-unit says", "ft", 96.0),
        (MM, None, "cm", "in centimetres, as plan.dxf-unit says, while its header says millimetres", "cm", 9600.0),
        (0, "mm", None, "in millimetres, as plan.unit says; the drawing itself says none", "mm", 96.0),
        (0, None, "mm", "in millimetres, as plan.dxf-unit says", "mm", 96.0),
    ],
)
def test_who_says_the_unit_is_said(
    code: int, unit: str | None, drawing_unit: str | None, words: str, brief_unit: str, area: float, tmp_path: Path
) -> None:
    made = drawing(code)
    box(made.modelspace(), 0, 0, 12000, 8000)
    found = read(saved(made, tmp_path / "a.dxf"), Asked(unit, drawing_unit))
    assert f"{words}: over all" in taken(found, "SI")[0]
    assert found.unit.brief == brief_unit
    assert found.floor.area == approx(area)


def test_the_numbers_of_the_brief_have_their_own_unit_beside_the_drawings(tmp_path: Path) -> None:
    """A load typed in feet on a floor drawn in millimetres."""
    shutil.copy(EXAMPLE / "plan.dxf", tmp_path)
    text = TEXT.replace('dxf = "plan.dxf"', 'dxf = "plan.dxf"\nunit = "ft"\ndxf-unit = "mm"', 1)
    text += '\n[[plan.obstacle]]\nkind = "post"\nat = "10 10"\nsize = "4 in"\n'
    floor = floor_of(reads(text, str(tmp_path / "brief.toml")).brief.plan)
    assert floor.obstacles[0].at == approx((3.048, 3.048))
    assert floor.area == approx(130.008, abs=1e-3)


def _everything(place: Any) -> None:
    box(place, 0, 0, 12000, 8000)
    place.add_line((0, 0), (12000, 0), dxfattribs=FLOOR)  # a side of it once more
    ring(place, [(12000, 8000), (12000, 0), (0, 0), (0, 8000)])  # all of it once more, from elsewhere the other way
    ring(place, [(2000, 2000), (2300, 2100), (2200, 2400), (1900, 2300)], layer="column", const_width=5)
    place.add_circle((6000, 4000), 150, dxfattribs={"layer": "column"})
    place.add_circle((6000, 4000), 100, dxfattribs={"layer": "column"})
    place.add_text("workshop")
    place.add_mtext("north")
    place.add_hatch(dxfattribs=FLOOR)
    place.add_point((1, 1))
    place.add_line((0, 0), (1, 1), dxfattribs={"layer": "furniture"})
    place.doc.layers.add("old").off()
    place.add_line((0, 0), (1, 1), dxfattribs={"layer": "old"})


def test_all_that_was_done_and_left_out_is_said(tmp_path: Path) -> None:
    made = drawing(MM)
    _everything(made.modelspace())
    said = taken(read(saved(made, tmp_path / "a.dxf"), Asked()), "SI")
    assert "2 lines or rings were drawn twice and taken once." in said
    assert "1 ring within a column, pipe or pit counted as part of it." in said
    boxed = "Not round, nor a rectangle along x and y, so taken as the one round it: column at 2100 2200 mm."
    assert boxed in said
    assert "Not read: 2 texts, 1 hatch, 1 point." in said
    assert "Layers that were not read, with how much lies on them: furniture (1)." in said
    assert "Switched off, frozen or invisible, so not read: old (1)." in said


def test_small_rings_on_another_layer_are_no_floor(tmp_path: Path) -> None:
    """A sink and a chair on layers of their own; the floor's layer has any name."""
    made = drawing(MM)
    box(made.modelspace(), 0, 0, 12000, 8000, layer="Grundriss")
    box(made.modelspace(), 500, 500, 900, 600, layer="furniture")
    found = read(saved(made, tmp_path / "a.dxf"), Asked())
    assert found.layers == ("Grundriss",)
    assert "Layers that were not read, with how much lies on them: furniture (1)." in taken(found, "SI")


def test_a_drawing_far_from_its_origin_says_from_where_it_counts(tmp_path: Path) -> None:
    made = drawing(METRES)
    box(made.modelspace(), 500_000, 4_000_000, 12, 8)
    said = taken(read(saved(made, tmp_path / "a.dxf"), Asked()), "SI")
    assert any("x and y count here from 500000 4000000 m of the drawing" in note for note in said)


@pytest.mark.parametrize("version", ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
def test_each_version_of_the_format_is_read(version: str, tmp_path: Path) -> None:
    made = drawing(FEET, version)
    place = made.modelspace()
    corners = [(0, 0), (40, 0, 0.0, 0.0, 1.0), (40, 28), (0, 28)]
    place.add_polyline2d([(x, y) for x, y, *_ in corners], close=True, dxfattribs=FLOOR)
    place.query("POLYLINE").first.vertices[1].dxf.bulge = 1.0
    floor = read(saved(made, tmp_path / "a.dxf"), Asked(drawing_unit="ft")).floor
    assert floor.area == approx((40 * 28 + pi * 14**2 / 2) * 0.3048**2, rel=1e-12)


def test_a_drawing_without_header_or_tables_is_read(tmp_path: Path) -> None:
    """Old programs and small scripts write no more than the section of entities."""
    corners = [(0, 0), (40, 0), (40, 28), (0, 28)]
    lines = "".join(
        f"0\r\nLINE\r\n8\r\nwalls\r\n10\r\n{a}\r\n20\r\n{b}\r\n11\r\n{c}\r\n21\r\n{d}\r\n"
        for (a, b), (c, d) in zip(corners, [*corners[1:], corners[0]], strict=True)
    )
    path = tmp_path / "a.dxf"
    path.write_bytes(f"999\r\nby hand\r\n0\r\nSECTION\r\n2\r\nENTITIES\r\n{lines}0\r\nENDSEC\r\n0\r\nEOF\r\n".encode())
    found = read(path, Asked(unit="ft"))
    assert found.floor.area == approx(40 * 28 * 0.3048**2, rel=1e-12)
    assert found.layers == ("walls",)
