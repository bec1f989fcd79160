"""Drawing files of panel plans read back by the library that reads them, and plans of film."""

from collections import Counter
from io import StringIO
from math import hypot, pi
from pathlib import Path

import ezdxf
import pytest
from ezdxf.math import bulge_to_arc

from underpour.brief import read
from underpour.cli import hear
from underpour.drawings.panel_dxf import UNITS, panel_dxf
from underpour.resolve import resolve
from underpour.takeoff import taken_off
from underpour.takeoff.cutting import cuts, numbered

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ["daylight-basement", "court-and-bay-house", "raft-with-channels", "far-leg"]


def resolved_of(name):
    reading = read(EXAMPLES / name / "brief.toml")
    return resolve(reading.brief, products=reading.products)


def drawn(resolved, takeoff, n=0):
    content = panel_dxf(
        takeoff.layers[n].plan, takeoff.layers[n], resolved.system, title=takeoff.title, films=takeoff.films
    ).decode()
    return content, ezdxf.read(StringIO(content))


@pytest.fixture(scope="module", params=NAMES)
def made(request):
    resolved = resolved_of(request.param)
    takeoff = taken_off(resolved)
    content, document = drawn(resolved, takeoff)
    return resolved, takeoff, content, document


def area_and_length(polyline):
    """By the chords and the arcs over them, from the file's own numbers; arcs by the drawing library."""
    area = length = 0.0
    points = list(polyline.get_points("xyb"))
    for (x0, y0, bulge), (x1, y1, _) in zip(points, [*points[1:], points[0]], strict=True):
        area += 0.5 * (x0 * y1 - x1 * y0)
        if abs(bulge) < 1e-15:
            length += hypot(x1 - x0, y1 - y0)
            continue
        _, first, last, radius = bulge_to_arc((x0, y0), (x1, y1), bulge)
        turn = (last - first) % (2 * pi)
        length += radius * turn
        chord = hypot(x1 - x0, y1 - y0)
        middle = (radius**2 - (chord / 2) ** 2) ** 0.5 if turn < pi else -((radius**2 - (chord / 2) ** 2) ** 0.5)
        segment = radius**2 * turn / 2 - chord * middle / 2
        area += segment if bulge > 0 else -segment
    return area, length


def test_the_library_finds_nothing_wrong_in_the_file(made):
    *_, document = made
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_the_file_says_its_unit_and_the_floor_in_it_is_the_brief_s(made):
    resolved, takeoff, _, document = made
    unit, per_metre, _ = UNITS[resolved.system]
    assert document.header["$INSUNITS"] == unit
    rings = document.modelspace().query('LWPOLYLINE[layer=="floor-outline"]')
    assert all(ring.closed for ring in rings)
    told = [area_and_length(ring) for ring in rings]
    floor = takeoff.layers[0].plan.floor
    area = 2 * max(abs(a) for a, _ in told) - sum(abs(a) for a, _ in told)  # the outline less the holes
    assert area / per_metre**2 == pytest.approx(floor.area, rel=1e-9)
    assert sum(long for _, long in told) / per_metre == pytest.approx(floor.length, rel=1e-9)


def test_panels_and_cut_pieces_are_as_many_as_the_cut_list_s_and_cover_the_floor(made):
    resolved, takeoff, _, document = made
    _, per_metre, _ = UNITS[resolved.system]
    space, layout = document.modelspace(), takeoff.layers[0].layout
    rings = {layer: space.query(f'LWPOLYLINE[layer=="{layer}"]') for layer in ("panel-edge", "panel-cut")}
    borders = {layer: [each for each in of if area_and_length(each)[0] > 0.0] for layer, of in rings.items()}
    sawn = len(list(cuts(layout)))
    assert len(borders["panel-cut"]) == sawn
    assert len(borders["panel-edge"]) == len(layout.pieces) - sawn
    floor = takeoff.layers[0].plan.floor
    covered = sum(area_and_length(each)[0] for of in rings.values() for each in of) / per_metre**2
    assert covered == pytest.approx(floor.area - sum(each.area for each in floor.obstacles), rel=1e-9)
    numbers = Counter(each.dxf.text for each in space.query('TEXT[layer=="panel-number"]'))
    assert numbers == Counter(number for number, _ in numbered(layout))


def test_edges_laps_and_words_lie_on_layers_of_their_own(made):
    resolved, takeoff, _, document = made
    _, per_metre, _ = UNITS[resolved.system]
    space = document.modelspace()
    laps = space.query('LINE[layer=="film-lap"]')
    long = sum((each.dxf.end - each.dxf.start).magnitude for each in laps)
    assert long / per_metre == pytest.approx(2 * sum(film.seams for film in takeoff.films))
    for edge in resolved.plan.edges:
        assert space.query(f'LWPOLYLINE[layer=="edge-{edge.letter.lower().replace(" ", "-")}"]')
    assert len(space.query('DIMENSION[layer=="dimension"]')) == 3
    assert takeoff.title in space.query('TEXT[layer=="title"]')[0].dxf.text


def test_the_same_plan_gives_the_same_bytes(made):
    resolved, takeoff, content, _ = made
    assert drawn(resolved, takeoff)[0] == content


def test_where_the_pipe_s_way_is_known_it_is_drawn(made):
    resolved, takeoff, _, _ = made
    way = [(1.0, 1.0), (1.0, 3.0), (4.0, 3.0)]
    content = panel_dxf(takeoff.layers[0].plan, takeoff.layers[0], resolved.system, title="", pipe=way).decode()
    lines = ezdxf.read(StringIO(content)).modelspace().query('LINE[layer=="vent-pipe"]')
    assert len(lines) == 2


def test_each_strip_of_film_has_its_length_on_its_plan(tmp_path):
    hear(["takeoff", str(EXAMPLES / "court-and-bay-house" / "brief.toml"), "-o", str(tmp_path)])
    svg = (tmp_path / "film-1.svg").read_text(encoding="utf-8")
    film = taken_off(resolved_of("court-and-bay-house")).films[0]
    for number in range(1, len(film.strips) + 1):
        assert f">{number}: " in svg
    assert svg.count('stroke-dasharray="2.6 1"') == 2 * len(film.laps)


def test_laps_of_a_film_lie_where_two_strips_meet_by_hand():
    """raft-with-channels: three strips along x over 10.4 m by 8.4 m, walls and all, make two laps of 10.4 m."""
    film = taken_off(resolved_of("raft-with-channels")).films[0]
    assert film.angle == 0.0
    assert [round(x1 - x0, 9) for x0, x1, _ in film.laps] == [10.4, 10.4]
    assert len(film.strips) == 3


def test_a_brief_reads_the_floor_back_out_of_the_drawing_and_takes_as_many_panels(tmp_path):
    """The plan that was written is named as the plan of a brief: the same floor, the same order."""
    text = (EXAMPLES / "daylight-basement" / "brief.toml").read_text(encoding="utf-8")
    (tmp_path / "one.toml").write_text(text, encoding="utf-8")
    hear(["takeoff", str(tmp_path / "one.toml"), "-o", str(tmp_path)])
    start = text.index("outline")
    lines = text[start : text.index("[floor]")]
    back = text.replace(lines, 'dxf = "panels-1.dxf"\n\n', 1)
    (tmp_path / "back.toml").write_text(back, encoding="utf-8")
    one, other = (read(tmp_path / f"{name}.toml") for name in ("one", "back"))
    first, second = (resolve(each.brief, products=each.products) for each in (one, other))
    assert second.plan.floor.area == pytest.approx(first.plan.floor.area, rel=1e-9)
    assert second.plan.floor.length == pytest.approx(first.plan.floor.length, rel=1e-9)
    counts = [[layer.layout.panels for layer in taken_off(each).layers] for each in (first, second)]
    assert counts[0] == counts[1]
