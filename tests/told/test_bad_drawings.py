"""Drawings that cannot be used, in one table, the whole way through the command; and what is said of the others.

A row is a drawing, what the brief says of it, the words that a person then reads; always exit status 2, and the folder
as it was.
"""

from __future__ import annotations

import gzip
import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from ezdxf.document import Drawing
from tests.drawings import FLOOR, METRES, MM, box, drawing, loose, ring
from tests.told.test_bad_briefs import GOOD, OUTLINE, contents

import underpour
from underpour.brief import reads
from underpour.cli import main
from underpour.mistakes import Mistakes
from underpour.outlines.outline import straight

DXF = 'dxf = "plan.dxf"'
PLAN = f'{OUTLINE}\nunit = "ft"'


def brief(plan: str) -> str:
    assert PLAN in GOOD
    return GOOD.replace(PLAN, plan, 1)


def made(draw: Callable[[Any], object], units: int = MM) -> Callable[[], Drawing]:
    """A drawing of what ``draw`` puts into its model space."""

    def make() -> Drawing:
        new = drawing(units)
        draw(new.modelspace())
        return new

    return make


def floor(place: Any) -> None:
    box(place, 0, 0, 12000, 8000)


def floor_and(draw: Callable[[Any], object]) -> Callable[[], Drawing]:
    return made(lambda place: (floor(place), draw(place)))


def on(layer: str) -> dict[str, str]:
    return {"layer": layer}


def lines(*corners: tuple[float, float], layer: str = "floor-outline") -> Callable[[Any], None]:
    def draw(place: Any) -> None:
        for start, end in pairwise(corners):
            place.add_line(start, end, dxfattribs={"layer": layer})

    return draw


def on_paper() -> Drawing:
    new = drawing(MM)
    box(new.layout("Layout1"), 0, 0, 12000, 8000)
    return new


def holds_itself() -> Drawing:
    new = drawing(MM)
    for name, other in (("one", "two"), ("two", "one")):
        new.blocks.new(name).add_blockref(other, (0, 0))
    new.modelspace().add_blockref("one", (0, 0))
    return new


def larger_one_way() -> Drawing:
    new = drawing(MM)
    ring(new.blocks.new("bay"), [(0, 0), (12000, 0, 0.5), (12000, 8000), (0, 8000)], layer="0")
    new.modelspace().add_blockref("bay", (0, 0), dxfattribs={"xscale": 2.0, "yscale": 1.0, **FLOOR})
    return new


def many_times() -> Drawing:
    """Blocks in blocks, ten times each: what takes 40 lines in the file is ten million columns."""
    new = drawing(MM)
    floor(new.modelspace())
    new.blocks.new("of0").add_circle((0, 0), 100)
    for level in range(1, 8):
        block = new.blocks.new(f"of{level}")
        for number in range(10):
            block.add_blockref(f"of{level - 1}", (number, 0))
    new.modelspace().add_blockref("of7", (2000, 2000), dxfattribs=on("column"))
    return new


def missing_block() -> Drawing:
    new = drawing(MM)
    floor(new.modelspace())
    new.modelspace().add_blockref("lift", (2000, 2000), dxfattribs=on("pit"))
    return new


def other_drawing() -> Drawing:
    new = drawing(MM)
    new.add_xref_def("ground-floor.dwg", "ground-floor")
    new.modelspace().add_blockref("ground-floor", (0, 0), dxfattribs=FLOOR)
    return new


def walls_on_one_layer(place: Any) -> None:
    box(place, 0, 0, 12000, 8000, layer="walls")
    box(place, 300, 300, 11400, 7400, layer="walls")


def walls_on_two(place: Any) -> None:
    box(place, 0, 0, 12000, 8000, layer="outside")
    box(place, 300, 300, 11400, 7400, layer="inside")


def surface(place: Any) -> None:
    place.add_polymesh((3, 3), dxfattribs=FLOOR)


def body_of_faces(place: Any) -> None:
    with place.add_mesh(dxfattribs=FLOOR).edit_data() as faces:
        faces.vertices = [(0, 0, 0), (900, 0, 0), (900, 900, 0)]
        faces.faces = [(0, 1, 2)]


def leaning(place: Any) -> None:
    place.add_line((0, 0, 0), (9000, 0, 500), dxfattribs=FLOOR)


def smoothed(place: Any) -> None:
    place.add_polyline2d([(0, 0), (9, 0), (9, 9)], dxfattribs={**FLOOR, "flags": 4, "smooth_type": 6})


HEAD = "0\nSECTION\n2\nENTITIES\n"
END = "0\nENDSEC\n0\nEOF\n"


def million() -> bytes:
    one = "0\nPOINT\n8\n0\n10\n0\n20\n0\n"
    return (HEAD + one * 1_000_000 + END).encode()


def too_many() -> bytes:
    return (HEAD + "0\nPOINT\n8\n0\n10\n0\n20\n0\n" * 100_001 + END).encode()


def line_at(x: str) -> bytes:
    corners = [(x, "0"), ("9", "0"), ("9", "9"), (x, "0")]
    ends = pairwise(corners)
    one = "".join(
        f"0\nLINE\n5\n{n}F\n8\nfloor-outline\n10\n{a}\n20\n{b}\n30\n0\n11\n{c}\n21\n{d}\n31\n0\n"
        for n, ((a, b), (c, d)) in enumerate(ends, start=1)
    )
    return (HEAD + one + END).encode()


@dataclass(frozen=True)
class Bad:
    what: str
    content: bytes | Callable[[], Drawing | bytes]  # of plan.dxf
    words: tuple[str, ...]
    plan: str = DXF


BAD = [
    # Files of another kind, or none
    Bad("an empty file", b"", ("The file is empty.", "A drawing in DXF is wanted, saved as text.")),
    Bad("nothing but blanks", b" \r\n \r\n", ("The file is empty.",)),
    Bad("binary DXF", b"AutoCAD Binary DXF\r\n\x1a\0", ("binary DXF", "Save it as DXF in text")),
    Bad("a DWG", b"AC1032\0\0\0", ("a drawing in DWG, which is not read", "Save it as DXF in the program")),
    Bad("a PDF", b"%PDF-1.7\n", ("This is a PDF", "Ask whoever drew it")),
    Bad("a packed drawing", gzip.compress(b"0\nSECTION"), ("packed file (gzip)", "Unpack it")),
    Bad("a zip", b"PK\x03\x04" + bytes(60), ("packed file (zip)", "Unpack it")),
    Bad("a building model", b"ISO-10303-21;\nHEADER;", ("building model (IFC)", "Export its floor plan as DXF.")),
    Bad("a picture in SVG", b"<svg xmlns='x'>", ("a picture in SVG", "Save the drawing as DXF.")),
    Bad("a letter", b"Dear Ana,\nhere is the plan.", ('It begins "Dear Ana,"', "as no drawing in DXF does")),
    Bad("a letter that would move a terminal", b"\x1b[2Jgone\n", ('It begins "[2Jgone"',)),
    Bad("bytes that are no text", b"0\nSECTION\0\1\2", ("This is not a text.",)),
    Bad("a drawing in UTF-16", "0\nSECTION\n".encode("utf-16"), ("UTF-16",)),
    Bad("a drawing that breaks off", b"0\nSECTION\n2\nENTITIES\n0\nLINE\n8\n0\n10\n",
        ("breaks off: its end is missing",)),
    Bad("a drawing without sense inside", (HEAD + "8\n0\nx\n" + END).encode(), ("The drawing is damaged, or no DXF",)),
    Bad("a million things", million,
        ("The drawing holds 1,000,000 lines, texts and the like; at most 100,000 are read.", "a drawing of its own")),
    Bad("too large a file", lambda: bytes(51_000_000), ("51 million bytes are too much: at most 50 million are read",)),
    Bad("a hundred thousand points", too_many,
        ("The drawing holds 100,001 lines, texts and the like; at most 100,000",)),
    Bad("columns ten million times", many_times, ("With its blocks taken apart", "more than 100,000 things")),
    Bad("a place that is no number", line_at("nan"), ("at a place that is no number",), f'{DXF}\nunit = "m"'),
    Bad("a place beyond all drawings", line_at("1e300"), ("beyond all drawings",), f'{DXF}\nunit = "m"'),
    # Units
    Bad("no unit in the header", made(floor, 0),
        ("The drawing does not say in what unit it is drawn", 'unit = "mm", "cm", "m", "ft" or "in"')),
    Bad("a unit in which nobody draws a floor", made(floor, 3), ("a unit in which no floor is drawn ($INSUNITS 3)",)),
    Bad("a unit typed and another in the file", made(floor),
        ('brief.toml:10  plan.unit = "ft"', "The drawing says that it is in millimetres, and plan.unit says feet.",
         'If the drawing is right, write dxf-unit = "mm" beside it; if its header is wrong, write dxf-unit = "ft".'),
        f'{DXF}\nunit = "ft"'),
    Bad("a floor of twelve millimetres", made(lambda p: box(p, 0, 0, 12, 8)),
        ("encloses 96 mm²; no floor is that small", "read in millimetres, as its header says", "dxf-unit")),
    Bad("a floor as large as a county", made(lambda p: box(p, 0, 0, 12000, 8000), METRES),
        ("encloses 96 km²; no floor is that large", "read in metres")),
    Bad("a unit that is none", made(floor), ("plan.dxf-unit", "dxf-unit is called yard"), f'{DXF}\ndxf-unit = "yard"'),
    # What is drawn where
    Bad("nothing drawn", made(lambda p: None), ("Nothing is drawn in it.",)),
    Bad("all on paper", on_paper,
        ("Model space is empty; all is drawn on paper (1 thing on layout Layout1).", "Move the floor to model space")),
    Bad("texts alone", made(lambda p: p.add_text("north")),
        ("Nothing in the drawing encloses a floor.", "There is no line, arc or polyline in it that can be read.")),
    Bad("an outline with a gap", made(lines((0, 0), (12000, 0), (12000, 8000), (0, 8000), (0, 37))),
        ("The outline does not close: there are 37 mm between 0 0 mm and 0 37 mm", "layer floor-outline, handles",
         'dxf-gap = "37 mm"')),
    Bad("an outline with a side missing", made(lines((0, 0), (12000, 0), (12000, 8000), (0, 8000))),
        ("there are 8000 mm between 0 0 mm and 0 8000 mm", "Draw the side that is missing.")),
    Bad("an outline with two gaps, on a layer of any name",
        made(lambda p: (lines((0, 0), (9000, 0), layer="0")(p), lines((9000, 5), (9000, 6000), (4, 0), layer="0")(p))),
        ("there are 4 mm between 0 0 mm and 4 0 mm",)),
    Bad("a line too many", made(lines((0, 0), (12000, 0), (12000, 8000), (0, 8000), (0, 0), (12000, 8000))),
        ("3 lines end at 0 0 mm", "which way does it go on?", "Take out what is no side of the floor")),
    Bad("an outline that crosses itself",
        made(lambda p: ring(p, [(0, 0), (12000, 8000), (12000, 0), (0, 8000)])),
        ("The outline crosses or touches itself at 6000 4000 mm", "layer floor-outline, handle")),
    Bad("a strip of no width", made(lambda p: ring(p, [(0, 0), (12000, 0), (12000, 0.4), (0, 0.4)])),
        ("The outline crosses or touches itself at", "layer floor-outline, handle")),
    Bad("a line there and back", made(lines((0, 0), (12000, 0), (12000, 8000), (12000, 0), (0, 0))),
        ("The outline does not close: there are",)),
    Bad("two outlines", made(lambda p: (floor(p), box(p, 20000, 0, 5000, 5000))),
        ("More than one ring could be the floor's outline: 12000 by 8000 mm from 0 0 mm",
         "5000 by 5000 mm from 20000 0 mm", "Leave only what encloses the floor on its layer")),
    Bad("outlines on two layers", made(walls_on_two),
        ("Several layers have rings, and none is called floor-outline: outside (12000 by 8000 mm), inside (11400 by",
         "dxf-layers = { floor = ")),
    Bad("walls with two lines", made(walls_on_one_layer),
        ("A ring lies within nearly all of the outline, as the inside of walls does: 11400 by 7400 mm from 300 300 mm",
         'if it is a hole, write dxf-layers = { floor = "walls" }')),
    Bad("a hole over the edge", floor_and(lambda p: box(p, 11000, 1000, 3000, 2000)),
        ("Two rings cross or touch at", "Draw the outline round the hole, or move the hole in.")),
    Bad("a ring in a hole", floor_and(lambda p: (box(p, 1000, 1000, 3000, 3000), box(p, 2000, 2000, 500, 500))),
        ("A ring lies in a hole, where there is no floor: 500 by 500 mm from 2000 2000 mm", "a layer column, pipe")),
    Bad("a layer that there is not", made(floor),
        ("plan.dxf-layers.floor", "No lines that can be seen lie on layer floor-outlines.",
         "The nearest is floor-outline."),
        f'{DXF}\ndxf-layers = {{ floor = "floor-outlines" }}'),
    Bad("a floor on a layer that is switched off",
        made(lambda p: (floor(p), p.doc.layers.add("floor-outline").off())),
        ("All that could enclose a floor is switched off, frozen or invisible: floor-outline (1).",
         "Switch its layer on")),
    Bad("a column outside", floor_and(lambda p: p.add_circle((15000, 2000), 150, dxfattribs=on("column"))),
        ("The column at 15000 2000 mm lies outside the floor (layer column, handle", "Move it in the drawing")),
    Bad("a column of a millimetre",
        floor_and(lambda p: p.add_circle((2000, 2000), 1, dxfattribs=on("column"))),
        ("The column at 2000 2000 mm is too small to be in the way of a floor (layer column, handle",)),
    Bad("an arc that is nearly a circle",
        floor_and(lambda p: p.add_arc((2000, 2000), 500, 0, 359.999, dxfattribs=on("pit"))),
        ("lies an arc that comes round nearly to where it began: layer pit",)),
    Bad("a kind that nobody knows", (HEAD + "0\nFOUNTAIN\n5\n9F\n8\nfloor-outline\n" + END).encode(),
        ("Nothing in the drawing encloses a floor.", "a thing of a kind that is not read"), f'{DXF}\nunit = "m"'),
    Bad("a pit over the edge", floor_and(lambda p: box(p, 11000, 1000, 2000, 2000, layer="pit")),
        ("The pit at 12000 2000 mm", "(layer pit, handle")),
    Bad("a post in a hole",
        floor_and(lambda p: (box(p, 1000, 1000, 3000, 3000), p.add_circle((2000, 2000), 50, dxfattribs=on("posts")))),
        ("The post at 2000 2000 mm stands in a hole of the floor",)),
    Bad("two columns in one place",
        floor_and(lambda p: [p.add_circle((2000 + n, 2000), 150, dxfattribs=on("column")) for n in (0, 20)]),
        ("The column at 2020 2000 mm stands where the column at 2000 2000 mm stands already.",)),
    Bad("an edge's line beside the floor", floor_and(lambda p: lines((0, 50), (12000, 50), layer="edge-a")(p)),
        ("A line does not lie along the outline: 0 50 mm to 12000 50 mm (layer edge-a, handle",)),
    Bad("a ring of a thousand sides",
        made(lambda p: p.add_lwpolyline([(n, n * n / 2000) for n in range(2000)], close=True, dxfattribs=FLOOR)),
        ("A ring has 2000 sides; at most 1000 are read", "Draw curves as arcs")),
    Bad("a thousand and one holes", floor_and(lambda p: [box(p, 9 * n + 1, 1, 5, 5) for n in range(1001)]),
        ("1002 rings lie on the floor's layer; at most 1000 are read.", "Leave only what encloses the floor")),
    Bad("a thousand and one posts", floor_and(lambda p: [box(p, 9 * n + 1, 1, 5, 5, "post") for n in range(1001)]),
        ("1001 rings lie on the layer of what is a post; at most 1000 are read.",)),
    # What is not read
    Bad("a spline", floor_and(lambda p: p.add_spline([(0, 0), (500, 300), (900, 0)], dxfattribs=FLOOR)),
        ("On a layer that is read lies a spline: layer floor-outline, handle", "Draw it as lines and arcs of circles")),
    Bad("splines and nothing else", made(lambda p: [p.add_spline([(0, 0), (9, 3), (9, 0)]) for _ in range(5)]),
        ("Nothing in the drawing encloses a floor.", "lies a spline: layer 0", "So do 2 more things.")),
    Bad("an ellipse", floor_and(lambda p: p.add_ellipse((500, 500), (300, 0), 0.5, dxfattribs=on("pit"))),
        ("lies an ellipse: layer pit, handle",)),
    Bad("a 3D face", floor_and(lambda p: p.add_3dface([(0, 0), (1, 0), (1, 1)], dxfattribs=FLOOR)),
        ("lies a 3D face",)),
    Bad("a body of faces", floor_and(body_of_faces), ("of a kind that is not read: layer floor-outline, handle",)),
    Bad("a surface of faces", floor_and(surface), ("a 3D surface of many faces: layer floor-outline",)),
    Bad("a line that leans", floor_and(leaning), ("lies a line that leans out of the plan: layer floor-outline",)),
    Bad("a smoothed polyline", floor_and(smoothed), ("a polyline that was smoothed to a spline",)),
    Bad("a circle that leans",
        floor_and(lambda p: p.add_circle((500, 500), 9, dxfattribs={**FLOOR, "extrusion": (1, 0, 1)})),
        ("a circle that leans out of the plan",)),
    Bad("an arc larger one way", larger_one_way,
        ("an arc in a block that is put in larger one way than the other", "in block bay")),
    Bad("a block that holds itself", holds_itself, ("Block one holds itself", "Take the block apart")),
    Bad("a block that is not there", missing_block, ("block lift, which is not in the file: layer pit",)),
    Bad("another drawing referred to", other_drawing,
        ("another drawing (ground-floor) that this one only refers to", "Bind it into this drawing")),
    # What the brief says of it
    Bad("an outline as well", made(floor), ("outline and dxf both say where the floor ends.", "Keep one of the two."),
        f'{DXF}\n{PLAN}'),
    Bad("a layer of columns that there is not",
        floor_and(lambda p: p.add_circle((9, 9), 5, dxfattribs=on("S-COLS"))),
        ('plan.dxf-layers.column = "S-COL"', "No lines that can be seen lie on layer S-COL.", "The nearest is S-COLS.",
         "Layers with lines: S-COLS, floor-outline."),
        f'{DXF}\ndxf-layers = {{ column = "S-COL" }}'),
    Bad("a gap and no drawing", made(floor), ("plan.dxf-gap", "dxf-gap is told, and no drawing is."),
        f'{PLAN}\ndxf-gap = "2 mm"'),
    Bad("a gap of nothing", made(floor), ("plan.dxf-gap", "0 mm is no gap"), f'{DXF}\ndxf-gap = "0 mm"'),
    Bad("a gap of a door", made(floor), ("plan.dxf-gap", "whole sides of a floor would go missing"),
        f'{DXF}\ndxf-gap = "900 mm"'),
    Bad("a layer of no kind", made(floor), ("has no key colum", "The nearest is column."),
        f'{DXF}\ndxf-layers = {{ colum = "S-COLS" }}'),
    Bad("no drawing and no outline", made(floor), ("plan.outline", "needs outline"), 'unit = "ft"'),
]  # fmt: skip


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The brief's folder, which is not the one that the command is called from."""
    job = tmp_path / "job"
    job.mkdir()
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "400")
    return job


def refused(folder: Path, plan: str, capsys: pytest.CaptureFixture[str], text: str = "") -> str:
    """What is told of a brief that is sent back, which touches nothing."""
    (folder / "brief.toml").write_text(text or brief(plan), "utf-8")
    before = contents(folder)
    status = main(["answer", "job/brief.toml"])
    told = capsys.readouterr()
    assert status == 2, told
    assert told.out == ""
    assert "Traceback" not in told.err
    assert contents(folder) == before
    return told.err


def write(content: bytes | Drawing, path: Path) -> None:
    if isinstance(content, bytes):
        path.write_bytes(content)
    else:
        content.saveas(path)


@pytest.mark.parametrize("bad", BAD, ids=[bad.what for bad in BAD])
def test_a_drawing_that_cannot_be_used_is_told_at_its_line(
    bad: Bad, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    write(bad.content() if callable(bad.content) else bad.content, folder / "plan.dxf")
    told = refused(folder, bad.plan, capsys)
    assert "job/brief.toml:" in told
    for words in bad.words:
        assert words in told
    assert "edge.A.sides" not in told  # what follows from the drawing is not told as well


@pytest.mark.parametrize(
    ("plan", "words"),
    [
        ('dxf = "paln.dxf"', ('brief.toml:9  plan.dxf = "paln.dxf"', "There is no such file.", "nearest is plan.dxf.")),
        ('dxf = "away/plan.dxf"', ("There is no such file.", "There is no folder", "the brief's folder")),
        ('dxf = "years"', ("This is a folder; a drawing is wanted.", "years/plan.dxf")),
        ('dxf = ""', ("This is a folder",)),
        ('dxf = "a\\u0000b"', ("cannot be read",)),
        ("dxf = 5", ("A file is named in quotes.",)),
    ],
)
def test_a_path_that_leads_to_no_drawing_is_told(
    plan: str, words: tuple[str, ...], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    made(floor)().saveas(folder / "plan.dxf")
    (folder / "years").mkdir()
    made(floor)().saveas(folder / "years" / "plan.dxf")
    told = refused(folder, plan, capsys)
    for each in words:
        assert each in told


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is locked for root")
def test_a_locked_drawing_is_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    made(floor)().saveas(folder / "plan.dxf")
    (folder / "plan.dxf").chmod(0)
    assert "The file cannot be read: permission denied." in refused(folder, DXF, capsys)


def test_a_drawing_that_the_system_refuses_is_told(
    folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As a locked file is, to whomever the tests belong."""
    made(floor)().saveas(folder / "plan.dxf")
    whole = Path.read_bytes

    def locked(path: Path) -> bytes:
        if path.name == "plan.dxf" and sys._getframe(1).f_code.co_name == "looked_at":
            raise PermissionError(13, "Permission denied")
        return whole(path)

    monkeypatch.setattr(Path, "read_bytes", locked)
    assert "The file cannot be read: permission denied." in refused(folder, DXF, capsys)


def test_an_edge_whose_layer_has_no_line_is_told_at_the_edge(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    floor_and(lines((0, 0), (12000, 0), layer="edge-b"))().saveas(folder / "plan.dxf")
    text = brief(DXF).replace('sides = "all"', 'sides = "by-layer"', 1)
    told = refused(folder, DXF, capsys, text)
    assert "Nothing is drawn on layer edge-a, which says the sides of this edge." in told
    assert "Layers of edges in the drawing: edge-b. Or name the sides: sides = [1, 2]." in told


def test_sides_by_layer_without_a_drawing_are_told(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = GOOD.replace('sides = "all"', 'sides = "by-layer"', 1)
    assert "No drawing is named whose layers could say the sides." in refused(folder, "", capsys, text)


def test_a_drawing_is_told_before_arrays_are_loaded_for_the_answer(folder: Path) -> None:
    """The library for drawings brings numpy along; nothing of what answers is loaded beside it."""
    (folder / "brief.toml").write_text(brief(DXF), "utf-8")
    (folder / "plan.dxf").write_bytes(b"AC1032")
    ask = "import sys; from underpour.cli import main; main(['answer', 'job/brief.toml']); "
    ask += "print(*[name for name in ('ezdxf', 'numpy', 'scipy') if name in sys.modules])"
    ours = {**os.environ, "PYTHONPATH": str(Path(underpour.__file__).parents[1])}
    told = subprocess.run([sys.executable, "-c", ask], capture_output=True, text=True, check=True, env=ours)
    assert told.stdout.split() == []
    assert "DWG" in told.stderr


def test_a_drawing_leaves_nothing_on_the_machine(folder: Path) -> None:
    """The library would keep a list of all fonts in the user's folder, after it has looked through them."""
    made(floor)().saveas(folder / "plan.dxf")
    home = folder / "home"
    home.mkdir()
    ask = "import pathlib; from underpour.plan_file import Asked, read; read(pathlib.Path('job/plan.dxf'), Asked())"
    ours = {**os.environ, "PYTHONPATH": str(Path(underpour.__file__).parents[1]), "HOME": str(home)}
    ours = {key: value for key, value in ours.items() if not key.startswith("XDG_")}
    subprocess.run([sys.executable, "-c", ask], check=True, env=ours)
    assert not list(home.rglob("*"))


def test_a_brief_that_stands_alone_opens_no_drawing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not even one of that name in the folder in which the program was started; and its missing outline is not told."""
    made(floor)().saveas(folder / "plan.dxf")
    monkeypatch.chdir(folder)
    assert reads(brief(DXF)).brief.plan.dxf is not None
    with pytest.raises(Mistakes) as told:
        reads(brief(DXF), alone=True)
    (mistake,) = tuple(told.value)
    assert mistake.at == "plan.dxf"
    assert mistake.wrong == "This brief stands alone, with no folder beside it in which a file could lie."


def test_an_alternative_may_name_another_drawing(folder: Path) -> None:
    made(floor)().saveas(folder / "plan.dxf")
    made(lambda place: box(place, 0, 0, 12000, 10000))().saveas(folder / "larger.dxf")
    text = brief(DXF) + '\n[[alternative]]\nname = "larger"\nset = { "plan.dxf" = "larger.dxf" }\n'
    reading = reads(text, str(folder / "brief.toml"))
    corners = [len(other.plan.corners) for _, other in reading.alternatives]
    (_, larger) = next(each for each in reading.alternatives if each[0] == "larger")
    assert corners
    assert max(corner.point[1] for corner in larger.plan.corners) == pytest.approx(10.0)
    assert max(corner.point[1] for corner in reading.brief.plan.corners) == pytest.approx(8.0)


def test_a_hole_typed_beside_a_drawing_comes_before_those_drawn(folder: Path) -> None:
    floor_and(lambda place: box(place, 6000, 2000, 2000, 2000))().saveas(folder / "plan.dxf")
    hole = '[[plan.hole]]\noutline = ["1000 1000", "2000 1000", "2000 2000"]\n'
    plan = reads(brief(f"{DXF}\n{hole}"), str(folder / "brief.toml")).brief.plan
    assert [len(each.corners) for each in plan.hole] == [3, 4]
    assert plan.unit == "mm"


def test_unused_lines_do_not_hide_a_ring(folder: Path) -> None:
    """A cross in a column, drawn as two lines, encloses nothing; the column stands."""

    def draw(place: Any) -> None:
        place.add_circle((2000, 2000), 150, dxfattribs=on("column"))
        loose(place, straight([(1900, 1900), (2100, 2100), (2050, 1900)]).sides[:2], "column")

    floor_and(draw)().saveas(folder / "plan.dxf")
    (column,) = reads(brief(DXF), str(folder / "brief.toml")).brief.plan.obstacle
    assert column.size.typed == "300 mm"
