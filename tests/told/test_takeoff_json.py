"""What ``takeoff --json`` prints, held to its schema, and counted again from it alone."""

import json
from fractions import Fraction
from itertools import pairwise
from math import atan, atan2, cos, hypot, pi, radians, sin
from pathlib import Path

import jsonschema
import pytest

from underpour.brief import read
from underpour.cli import hear
from underpour.resolve import resolve

ROOT = Path(__file__).parents[2]
SCHEMA = json.loads((ROOT / "schema" / "takeoff.schema.json").read_text("utf-8"))
NAMES = ["daylight-basement", "court-and-bay-house", "raft-with-channels", "on-off-garage", "thickened-edge-house"]


@pytest.fixture(scope="module", params=NAMES)
def told(request):
    return request.param, json.loads(
        hear(["takeoff", str(ROOT / "examples" / request.param / "brief.toml"), "--json"]).text
    )


def test_it_is_of_its_schema(told):
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    jsonschema.validate(told[1], SCHEMA)


def test_the_schema_refuses_what_no_takeoff_says(told):
    _, whole = told
    for spoilt in ({"format": "takeoff/2"}, {"items": [{"what": 1}]}, {"layers": [{}]}, {"more": 1}, {"units": "mm"}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate({**whole, **spoilt}, SCHEMA)


BELOW_WALLS = {"raft-with-channels": 0.2}  # m that a raft's boards reach out below the walls of a plain rectangle

# From here on nothing of the product's own geometry is used: the floor is a polygon of short chords made from the
# corners of the brief, pieces are clipped out of it by half-planes, panels are counted by names.


def floor_by_chords(name, chords=4000):
    """Rings of the floor with what stands in it, arcs as many chords; outline first."""
    reading = read(ROOT / "examples" / name / "brief.toml")
    plan = resolve(reading.brief, products=reading.products).plan.floor
    rings = [[point for side in ring.sides for point in points_of(side, chords)] for ring in plan.rings]
    for each in plan.obstacles:
        (x, y), (w, h) = each.at, each.size
        box = [(x - w / 2, y - h / 2), (x + w / 2, y - h / 2), (x + w / 2, y + h / 2), (x - w / 2, y + h / 2)]
        circle = [(x + w / 2 * cos(2 * pi * k / chords), y + w / 2 * sin(2 * pi * k / chords)) for k in range(chords)]
        rings.append(circle if each.circle else box)
    return rings


def points_of(side, chords):
    """The start of a side and, on an arc, points along it by its three-point circle: ends and the bulge's apex."""
    (x0, y0), (x1, y1), b = side.start, side.end, side.bulge
    if not b:
        return [side.start]
    ax, ay = (
        (x0 + x1) / 2 + b * (y1 - y0) / 2,
        (y0 + y1) / 2 - b * (x1 - x0) / 2,
    )  # apex: its rise is b times half the chord
    d = 2 * (x0 * (ay - y1) + ax * (y1 - y0) + x1 * (y0 - ay))
    s0, sa, s1 = x0**2 + y0**2, ax**2 + ay**2, x1**2 + y1**2
    cx = (s0 * (ay - y1) + sa * (y1 - y0) + s1 * (y0 - ay)) / d
    cy = (s0 * (x1 - ax) + sa * (x0 - x1) + s1 * (ax - x0)) / d

    first, sweep, r = atan2(y0 - cy, x0 - cx), 4 * atan(b), hypot(x0 - cx, y0 - cy)
    return [(cx + r * cos(first + sweep * k / chords), cy + r * sin(first + sweep * k / chords)) for k in range(chords)]


def clipped(ring, box):
    """A polygon cut to a rectangle by its four sides, one after another."""
    x0, x1, y0, y1 = box
    for axis, level, keep in ((0, x0, 1), (0, x1, -1), (1, y0, 1), (1, y1, -1)):
        found = []
        for a, b in pairwise([*ring, ring[0]] if ring else []):
            ina, inb = keep * (a[axis] - level) >= 0, keep * (b[axis] - level) >= 0
            if ina:
                found.append(a)
            if ina != inb:
                t = (level - a[axis]) / (b[axis] - a[axis])
                found.append((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])))
        ring = found
    return ring


def area(ring):
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*ring, ring[0]]))) / 2 if ring else 0.0


def turned(ring, angle):
    c, s = cos(radians(angle)), sin(radians(angle))
    return [(x * c + y * s, y * c - x * s) for x, y in ring]


@pytest.mark.parametrize("name", ["daylight-basement", "court-and-bay-house", "raft-with-channels"])
def test_the_order_of_panels_is_proved_by_a_count_that_shares_nothing_with_it(name):
    """The pieces cover every square metre once, and each panel named gives no more than one panel holds."""
    told = json.loads(hear(["takeoff", str(ROOT / "examples" / name / "brief.toml"), "--json"]).text)
    outside, *out = floor_by_chords(name)
    x, y = (sum(point[k] for point in outside) / len(outside) for k in (0, 1))
    wall = BELOW_WALLS.get(name, 0.0)
    rings = [[(px + (wall if px > x else -wall), py + (wall if py > y else -wall)) for px, py in outside], *out]
    for layer in told["layers"]:
        outline, *out = [turned(ring, layer["angle"]) for ring in rings]
        floor = area(outline) - sum(map(area, out))
        width, length = layer["cover"]
        covered, rectangles, used = 0.0, [], {}
        for piece in layer["pieces"]:
            (x0, x1), (y0, y1) = piece["along"], piece["across"]
            box = (x0, x1, y0, y1)
            own = area(clipped(outline, box)) - sum(area(clipped(ring, box)) for ring in out)
            assert piece["area"] == pytest.approx(own, abs=2e-5 * length * width)
            covered += own
            rectangles.append(box)
            used.setdefault(piece["panel"], []).append((*piece["from"], x1 - x0, y1 - y0))
        assert covered == pytest.approx(floor, rel=1e-6)
        for n, (a0, a1, b0, b1) in enumerate(rectangles):
            for c0, c1, d0, d1 in rectangles[n + 1 :]:
                assert min(a1, c1) - max(a0, c0) < 1e-6 or min(b1, d1) - max(b0, d0) < 1e-6
        ordered = next(item for item in told["items"] if item["where"] == layer["path"])
        assert ordered["count"] == layer["takeoff.panels"] == len(used)
        for parts in used.values():
            assert sum(long * high for _, _, long, high in parts) <= length * width + 1e-6
            for n, (u, v, long, high) in enumerate(parts):
                assert -1e-6 <= u <= u + long <= length + 1e-6
                assert -1e-6 <= v <= v + high <= width + 1e-6
                for x, y, wide, tall in parts[n + 1 :]:
                    assert u + long <= x + 1e-6 or x + wide <= u + 1e-6 or v + high <= y + 1e-6 or y + tall <= v + 1e-6
        assert ordered["ordered"] == pytest.approx(len(used) * size_of(layer["size"]), rel=1e-9)


def size_of(typed):
    """Square metres of "4 ft x 8 ft" and of "24-1/2 in x 48-1/2 in", by a foot of 0.3048 m."""
    sides = []
    for side in typed.split(" x "):
        number, unit = side.split()
        whole = sum(Fraction(part) for part in number.split("-"))
        sides.append(float(whole) * {"ft": 0.3048, "in": 0.0254}[unit])
    return sides[0] * sides[1]


@pytest.mark.parametrize("name", ["court-and-bay-house", "raft-with-channels"])
def test_the_film_is_proved_by_strips_laid_over_the_floor_s_corners(name):
    """Strips lie side by side, cover the floor, and are as long as the floor is under each; laps by their ends."""
    told = json.loads(hear(["takeoff", str(ROOT / "examples" / name / "brief.toml"), "--json"]).text)
    outside, *out = floor_by_chords(name)
    x, y = (sum(point[k] for point in outside) / len(outside) for k in (0, 1))
    wall = BELOW_WALLS.get(name, 0.0)
    rings = [[(px + (wall if px > x else -wall), py + (wall if py > y else -wall)) for px, py in outside], *out]
    for film in told["films"]:
        outline, *out = [turned(ring, film["angle"]) for ring in rings]
        covered = 0.0
        for strip in film["strips"]:
            box = (*strip["along"], *strip["across"])
            covered += area(clipped(outline, box)) - sum(area(clipped(ring, box)) for ring in out)
            inside = clipped(outline, (-1e3, 1e3, *strip["across"]))
            reach = max(x for x, _ in inside) - min(x for x, _ in inside)
            assert strip["length"] <= reach + 2 * film["turned-up"] + 1e-3
            assert strip["across"][1] - strip["across"][0] == pytest.approx(film["roll"][0] - film["lap"])
        assert covered == pytest.approx(area(outline) - sum(map(area, out)), rel=1e-6)
        rolls = next(item for item in told["items"] if item["where"] == film["path"] and "roll" in (item["of"] or ""))
        assert rolls["count"] * film["roll"][1] >= sum(strip["length"] for strip in film["strips"])
