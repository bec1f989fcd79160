"""What to order: held to a count by hand, to the product records, and to its own tables and plans read back."""

import csv
import json
import re
from io import BytesIO, StringIO
from math import ceil
from pathlib import Path

import openpyxl
import pytest

from underpour.brief import read
from underpour.cli import hear
from underpour.mistakes import Mistake, Mistakes
from underpour.panels.proof import faults
from underpour.resolve import resolve
from underpour.takeoff import taken_off
from underpour.takeoff.cutting import cuts, is_whole, numbered

EXAMPLES = Path(__file__).parents[2] / "examples"
FOOT = 0.3048
SHEET = 4 * FOOT * 8 * FOOT
NAMES = ["daylight-basement", "far-leg", "court-and-bay-house", "raft-with-channels", "thickened-edge-house"]


@pytest.fixture(scope="module", params=NAMES)
def taken(request):
    reading = read(EXAMPLES / request.param / "brief.toml")
    resolved = resolve(reading.brief, products=reading.products)
    return resolved, taken_off(resolved)


def of(name):
    reading = read(EXAMPLES / name / "brief.toml")
    return taken_off(resolve(reading.brief, products=reading.products))


def item(takeoff, words):
    return next(each for each in takeoff.items if words in f"{each.what} {each.where}")


def test_each_plan_holds_and_is_counted_again_piece_by_piece(taken):
    _, takeoff = taken
    for layer in takeoff.layers:
        floor = layer.plan.floor
        assert faults(floor, layer.layout) == []
        panels = {piece.panel for piece in layer.layout.pieces}
        assert layer.items[0].count == len(panels) >= layer.bound[0]
        standing = sum(each.area for each in floor.obstacles)
        assert layer.items[0].net == pytest.approx(floor.area - standing, rel=1e-9)


def test_prices_are_those_of_the_record_by_what_is_bought(taken):
    _, takeoff = taken
    for each in takeoff.items:
        assert (each.cost is None) == bool(each.unpriced)
        if each.cost and "/ft²" in each.cost.price:
            per_square_foot = float(each.cost.price.split()[0])
            assert each.cost.amount == pytest.approx(per_square_foot * each.order / FOOT**2)
    amounts = [each.cost.amount for each in takeoff.items if each.cost]
    assert sum(amount for _, amount, _ in takeoff.totals) == pytest.approx(sum(amounts))


def test_a_basement_counted_by_hand():
    """24 m by 12 m: 288 m² of sheets, 4 in of gravel, 100 mm of concrete, a footing of 500 by 250 mm all round."""
    takeoff = of("daylight-basement")
    panels = takeoff.layers[0].items[0]
    assert panels.net == pytest.approx(288.0)
    assert ceil(288.0 / SHEET) == takeoff.layers[0].bound[0] == 97
    assert panels.count <= 97 + 2
    assert item(takeoff, "Gravel").net == pytest.approx(288.0 * 4 * 0.0254)
    assert item(takeoff, "Gravel").order == pytest.approx(288.0 * 4 * 0.0254 * 1.2)
    concrete = item(takeoff, "floor.build-up.1.concrete")
    assert concrete.net == pytest.approx(28.8)
    step = 27 * FOOT**3 / 4
    assert concrete.order == pytest.approx(ceil(28.8 * 1.05 / step) * step, rel=1e-5)
    inside = item(takeoff, "edge A, inside")
    at_its_middle = 72.0 - 4 * 2 * 0.0254  # all round, 2 in of foam inside four corners
    assert inside.net == pytest.approx(at_its_middle * 1.6)  # from the floor to 1 m above the ground, 0.6 m up
    assert inside.count >= ceil(inside.net / SHEET)
    assert "The wall's top is taken 3.28 ft (1.00 m) above ground" in inside.why.replace("\u2009", " ")


def test_film_counted_by_hand():
    """A raft of 10.4 m by 8.4 m, walls and all, on rolls of 12 ft by 150 ft: three strips along x, turned up 150 mm."""
    takeoff = of("raft-with-channels")
    film = item(takeoff, "Sheet 15")
    assert film.count == 1
    cover = 12 * FOOT - 0.1524
    assert (ceil((8.4 + 0.3) / cover), ceil((10.4 + 0.3) / cover)) == (3, 4)  # 32.1 m of film, or 34.8 m
    assert "3 strips along x" in film.why
    assert item(takeoff, "Seam 2-3/8").net == pytest.approx(2 * 10.4 + 37.6)


def test_a_thickened_edge_is_poured_by_its_section(taken):
    resolved, takeoff = taken
    edges = [edge for edge in resolved.edges if edge.thickening]
    slab = next(layer for layer in resolved.floor if layer.kind == "concrete")
    poured = item(takeoff, slab.path).net
    flat = resolved.plan.floor.area * slab.thickness
    if not edges and not any(edge.kind in ("raft", "threshold") for edge in resolved.edges):
        assert poured <= flat + 1e-9
    for edge in edges:
        below = edge.depth - slab.thickness
        assert poured > flat + edge.thickening.width * below * edge.length - 1e-9


def test_a_rib_is_poured_over_the_slab_s_thickness():
    """raft-under-a-house: a rib of its own width and length, less the 150 mm that are slab already, by hand."""
    reading = read(EXAMPLES / "raft-under-a-house" / "brief.toml")
    name, brief = next((name, brief) for name, brief, *_ in reading.alternatives if brief.floor.rib)
    ribbed, plain = (resolve(each, products=reading.products) for each in (brief, reading.brief))
    (rib,) = brief.floor.rib
    (x0, y0), (x1, y1) = (tuple(map(float, end.split())) for end in (rib.from_, rib.to))
    more = (abs(x1 - x0) + abs(y1 - y0)) * rib.width.si * (rib.thickness.si - 0.15)
    poured = [item(taken_off(each), "build-up.1.concrete") for each in (ribbed, plain)]
    assert poured[0].net - poured[1].net == pytest.approx(more), name
    assert "rib 1" in poured[0].why


def test_a_second_layer_lies_across_the_first(tmp_path):
    text = (EXAMPLES / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
    line = next(each for each in text.splitlines() if "board = " in each and "plain-15" in each and "face" not in each)
    (tmp_path / "two.toml").write_text(text.replace(line, f"{line}\n{line}", 1), encoding="utf-8")
    reading = read(tmp_path / "two.toml")
    first, second = taken_off(resolve(reading.brief, products=reading.products)).layers
    assert abs(first.layout.angle - second.layout.angle) % 180.0 == pytest.approx(90.0)


def test_the_tables_say_what_the_words_say(tmp_path):
    brief = EXAMPLES / "far-leg" / "brief.toml"
    told = hear(["takeoff", str(brief), "-o", str(tmp_path)])
    assert told.status == 0
    order = list(csv.DictReader(StringIO((tmp_path / "order.csv").read_text(encoding="utf-8-sig"))))
    takeoff = of("far-leg")
    assert [row["what"] for row in order] == [each.what for each in takeoff.items]
    assert [row["count"] for row in order] == ["" if each.count is None else str(each.count) for each in takeoff.items]
    sawn = list(csv.DictReader(StringIO((tmp_path / "cuts.csv").read_text(encoding="utf-8-sig"))))
    assert len(sawn) == sum(len(list(cuts(layer.layout))) for layer in takeoff.layers)
    book = openpyxl.load_workbook(BytesIO((tmp_path / "order.xlsx").read_bytes()))
    assert [cell.value for cell in book["order"]["A"]][1:] == [each.what for each in takeoff.items]
    assert book["cuts"].max_row == len(sawn) + 1
    data = json.loads(hear(["takeoff", str(brief), "--json"]).text)
    assert data["layers"][0]["takeoff.panels"] == takeoff.layers[0].layout.panels
    assert str(takeoff.layers[0].layout.panels) in told.text


def test_the_plan_shows_every_piece_and_the_number_of_those_that_are_sawn(tmp_path):
    hear(["takeoff", str(EXAMPLES / "court-and-bay-house" / "brief.toml"), "-o", str(tmp_path)])
    svg = (tmp_path / "panels-1.svg").read_text(encoding="utf-8")
    layout = of("court-and-bay-house").layers[0].layout
    inside = svg[svg.index('clip-path="url(#floor)"') : svg.index("</g>")]
    assert inside.count("<path") == len(layout.pieces) + 1  # and the line to begin at
    known = {number for number, piece in numbered(layout) if not is_whole(layout, piece)}
    shown = set(re.findall(r">(\d+\.\d+)</text>", inside))
    assert shown <= known
    assert len(shown) > len(known) / 2


def with_laying(tmp_path, name, lines):
    text = (EXAMPLES / name / "brief.toml").read_text(encoding="utf-8")
    (tmp_path / "so.toml").write_text(f"{text}\n[laying]\n{lines}\n", encoding="utf-8")
    reading = read(tmp_path / "so.toml")
    return resolve(reading.brief, products=reading.products)


def test_what_is_typed_of_the_laying_is_kept(tmp_path):
    typed = 'rows = 2\nsize = "4 ft x 4 ft"\nstagger = "18 in"\nleast = "20 in"\nkerf = "0 mm"'
    resolved = with_laying(tmp_path, "daylight-basement", typed)
    layout = taken_off(resolved).layers[0].layout
    rules = layout.rules
    sizes = rules.length, rules.width, rules.stagger, rules.least, rules.kerf
    assert sizes == pytest.approx((4 * FOOT, 4 * FOOT, 1.5 * FOOT, 20 * 0.0254, 0.0))
    side = resolved.plan.floor.outline.sides[1]
    assert (layout.angle == 90.0) == (abs(side.end[0] - side.start[0]) < 1e-9)
    assert faults(resolved.plan.floor, layout) == []


@pytest.mark.parametrize(
    ("lines", "wrong"),
    [
        ("rows = 9", "The outline has 4 sides."),
        ('rows = "north"', "Rows go along x, along y or along a side."),
        ('size = "5 ft x 9 ft"', "No board of this floor comes in 5 ft x 9 ft."),
        ('size = "4 ft"', "The size of a panel is two lengths, width first."),
        ('size = "4 in x 8 ft"', "4 in x 8 ft is no size that a panel has."),
        ('stagger = "0 in"', "0 in is nothing."),
        ('kerf = "-1 mm"', "-1 mm"),
    ],
)
def test_a_way_of_laying_that_cannot_be_used_is_told(tmp_path, lines, wrong):
    with pytest.raises(Mistakes, match=wrong):
        with_laying(tmp_path, "daylight-basement", lines)


@pytest.mark.parametrize(
    ("words", "wrong"),
    [
        (["takeoff"], "Which brief?"),
        (["takeoff", "{brief}", "-o", "{folder}/none"], "There is no such folder."),
        (["takeoff", "{brief}", "-o", "{brief}"], "That is a file; a folder is wanted."),
        (["takeoff", "{brief}", "-o"], "Something has to follow it."),
        (["takeoff", "{folder}/none.toml"], "There is no such file."),
    ],
)
def test_words_that_cannot_be_used_leave_the_folder_as_it_was(words, wrong, tmp_path):
    filled = [each.format(brief=EXAMPLES / "far-leg" / "brief.toml", folder=tmp_path) for each in words]
    with pytest.raises((Mistake, Mistakes), match=wrong.replace("?", r"\?")):
        hear(filled)
    assert list(tmp_path.iterdir()) == []
